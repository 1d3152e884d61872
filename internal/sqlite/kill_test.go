package sqlite_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// doomed names the journal that the child process below writes to.
const doomed = "RIMWARD_TEST_DOOMED"

func TestMain(m *testing.M) {
	if path := os.Getenv(doomed); path != "" {
		if err := writeUntilKilled(path); err != nil {
			fmt.Println("error", err)
		}
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// writeUntilKilled saves a check a minute, and prints the ID of each once the
// write has returned.
func writeUntilKilled(path string) error {
	at := start
	s, err := sqlite.Open(context.Background(), path, func() time.Time { return at })
	if err != nil {
		return err
	}
	for {
		at = at.Add(time.Minute)
		c := journal.Check{Burn: 1, At: at, Full: true, Note: at.Format(time.RFC3339)}
		if err := s.Write(context.Background(), func(tx *sqlite.Tx) error { return tx.SaveCheck(&c) }); err != nil {
			return err
		}
		fmt.Println(c.ID, c.Note)
	}
}

func TestWhatWasSavedOutlivesAKill(t *testing.T) {
	c := &clock{start}
	path := journalPath(t)
	s := got(sqlite.Open(t.Context(), path, c.now))(t)
	b := bench{Store: s, st: testkit.NewStudio(t, s), clock: c}
	b.light(t, b.st.Candles[0])
	must(t, s.Close())

	printed := map[journal.ID]string{}
	for round := range 3 {
		for id, note := range killed(t, path, 40+round*25) {
			printed[id] = note
		}
		clean(t, path)
		c.at = start.Add(time.Duration(len(printed)+10) * time.Minute)
		s = got(sqlite.Open(t.Context(), path, c.now))(t)
		log := got(s.BurnLog(t.Context(), 1))(t)
		kept := map[journal.ID]string{}
		for _, x := range log.Checks {
			kept[x.ID] = x.Note
		}
		for id, note := range printed {
			if kept[id] != note {
				t.Errorf("check %d was printed as %q and is kept as %q", id, note, kept[id])
			}
		}
		// The next round begins at the same minute again.
		must(t, s.Write(t.Context(), func(tx *sqlite.Tx) error {
			for _, x := range log.Checks {
				if err := tx.Withdraw(journal.NounCheck, x.ID, "makes room"); err != nil {
					return err
				}
			}
			return nil
		}))
		must(t, s.Close())
	}
	if len(printed) < 3*40 {
		t.Errorf("only %d checks were printed", len(printed))
	}
}

// killed runs the child until it has printed some checks, kills it in the
// middle of its work, and gives everything that it printed.
func killed(t *testing.T, path string, after int) map[journal.ID]string {
	t.Helper()
	self := got(os.Executable())(t)
	cmd := exec.CommandContext(t.Context(), self, "-test.run=^$")
	cmd.Env = append(os.Environ(), doomed+"="+path)
	cmd.Stderr = os.Stderr
	out := got(cmd.StdoutPipe())(t)
	must(t, cmd.Start())
	printed := map[journal.ID]string{}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		var id, note string
		if n, _ := fmt.Sscan(lines.Text(), &id, &note); n != 2 {
			continue // the last line may be cut off
		}
		n, err := strconv.ParseInt(id, 10, 64)
		if err != nil {
			t.Fatalf("the child says %q", lines.Text())
		}
		printed[journal.ID(n)] = note
		if len(printed) == after {
			must(t, cmd.Process.Kill())
		}
	}
	if err := cmd.Wait(); err == nil {
		t.Error("the child ended by itself")
	}
	return printed
}
