package sqlite_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

func clean(t *testing.T, path string) {
	t.Helper()
	if problems := got(sqlite.Verify(t.Context(), path))(t); len(problems) > 0 {
		t.Errorf("problems of %s: %v", path, problems)
	}
}

// A copy made while others write holds a beginning of what they wrote: numbers
// without a gap, every one with its history.
func TestACopyMadeWhileWritingIsConsistent(t *testing.T) {
	path := journalPath(t)
	s := got(sqlite.Open(t.Context(), path, time.Now))(t)
	defer s.Close()
	stop, done := make(chan struct{}), make(chan int)
	go func() {
		n := 0
		for {
			select {
			case <-stop:
				done <- n
				return
			default:
			}
			n++
			if err := s.Write(t.Context(), func(tx *sqlite.Tx) error { return pail(fmt.Sprintf("%06d", n))(tx) }); err != nil {
				t.Error(err)
			}
		}
	}()
	copies := 0
	for ; copies < 5; copies++ {
		time.Sleep(10 * time.Millisecond)
		must(t, sqlite.Backup(t.Context(), path, fmt.Sprintf("%s.%d", path, copies)))
	}
	close(stop)
	written, last := <-done, 0
	for i := range copies {
		file := fmt.Sprintf("%s.%d", path, i)
		clean(t, file)
		c := got(sqlite.Open(t.Context(), file, time.Now))(t)
		list := got(c.Waxes(t.Context()))(t)
		for j, w := range list {
			if w.Name != fmt.Sprintf("%06d", j+1) {
				t.Fatalf("copy %d has %s as its number %d", i, w.Name, j+1)
			}
		}
		if lines := got(c.Revision(t.Context()))(t); int(lines) != len(list) || len(list) < last || len(list) > written {
			t.Errorf("copy %d: %d waxes, %d lines of history, after a copy of %d, of %d written", i, len(list), lines, last, written)
		}
		last = len(list)
		must(t, c.Close())
	}
	if last == 0 {
		t.Error("nothing was written before the last copy")
	}
}

func TestACopyNeverReplacesAFile(t *testing.T) {
	path := journalPath(t)
	must(t, got(sqlite.Open(t.Context(), path, time.Now))(t).Close())
	file := path + ".copy"
	must(t, os.WriteFile(file, []byte("mine"), 0o600))
	if err := sqlite.Backup(t.Context(), path, file); !errors.Is(err, fs.ErrExist) {
		t.Errorf("got %v", err)
	}
	if text := got(os.ReadFile(file))(t); string(text) != "mine" {
		t.Error("the file was replaced")
	}
	for name, err := range map[string]error{
		"a journal that is not there": sqlite.Backup(t.Context(), path+".none", path+".new"),
		"a folder that is not there":  sqlite.Backup(t.Context(), path, filepath.Join(path+".no", "copy")),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if entries := got(os.ReadDir(filepath.Dir(path)))(t); len(entries) != 2 {
		t.Errorf("refused copies left something behind: %v", entries)
	}
}

func TestVerifyingChangesNothing(t *testing.T) {
	path := journalPath(t)
	must(t, got(sqlite.Open(t.Context(), path, time.Now))(t).Close())
	file := path + ".copy"
	must(t, sqlite.Backup(t.Context(), path, file))
	before := got(os.ReadFile(file))(t)
	clean(t, file)
	if after := got(os.ReadFile(file))(t); string(after) != string(before) {
		t.Error("the file was changed")
	}
	wantIs(t, func() error { _, err := sqlite.Verify(t.Context(), path+".none"); return err }(), sqlite.ErrNotJournal)
}

func TestAWholeSeasonVerifies(t *testing.T) {
	s := newSeason(t)
	x := s.st.Vessel
	x.InnerWidth = 75
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveVessel(&x) }))
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounBurn, s.burns["1-A/1"].ID, "") }))
	clean(t, s.path)
}
