package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/migrations"
)

// later are the steps of a program that is one version ahead.
func later(t *testing.T) fs.FS {
	t.Helper()
	out := fstest.MapFS{fmt.Sprintf("%04d_scent.sql", nextStep(t)): {Data: []byte("-- +goose Up\nALTER TABLE wax ADD COLUMN scent TEXT NOT NULL DEFAULT '';\n")}}
	names, err := fs.Glob(migrations.FS, "*.sql")
	ok(t, err)
	for _, name := range names {
		step, err := migrations.FS.ReadFile(name)
		ok(t, err)
		out[name] = &fstest.MapFile{Data: step}
	}
	return out
}

// nextStep is the number of the step that is still to be written.
func nextStep(t *testing.T) int64 {
	t.Helper()
	last, err := newest(steps())
	ok(t, err)
	return last + 1
}

// folder tells the files of a folder by name and content.
func folder(t *testing.T, path string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	ok(t, err)
	out := map[string]string{}
	for _, e := range entries {
		if e.IsDir() {
			continue
		}
		data, err := os.ReadFile(filepath.Join(filepath.Dir(path), e.Name()))
		ok(t, err)
		out[e.Name()] = string(data)
	}
	return out
}

// refusedUntouched opens what must be refused and compares every byte.
func refusedUntouched(t *testing.T, path string, want error, says string) {
	t.Helper()
	before := folder(t, path)
	_, err := Open(t.Context(), path, time.Now)
	if !errors.Is(err, want) || !strings.Contains(err.Error(), says) || strings.Count(err.Error(), "\n") > 0 {
		t.Fatalf("got %v, want %v that says %q", err, want, says)
	}
	if diff := cmp.Diff(before, folder(t, path)); diff != "" {
		t.Errorf("the refusal changed the folder (-before +after):\n%.500s", diff)
	}
}

func TestAJournalOfANewerProgramIsRefusedUntouched(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "journal.db")
	ok(t, prepare(t.Context(), path, later(t)))
	refusedUntouched(t, path, ErrNewer, "newer program")
	_, err := Verify(t.Context(), path)
	if !errors.Is(err, ErrNewer) {
		t.Errorf("verifying it: %v", err)
	}
}

func TestANewerStepIsSeenEvenWhereTheHeaderIsBehind(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "journal.db")
	ok(t, prepare(t.Context(), path, later(t)))
	db, err := handle(path, plain, 1)
	ok(t, err)
	_, err = db.ExecContext(t.Context(), "PRAGMA user_version = 0")
	ok(t, errors.Join(err, db.Close()))
	if _, err := Open(t.Context(), path, time.Now); !errors.Is(err, ErrNewer) {
		t.Errorf("got %v", err)
	}
}

func TestWhatIsNotAJournalIsRefusedUntouched(t *testing.T) {
	t.Parallel()
	for name, make := range map[string]func(path string) error{
		"a text file":        func(path string) error { return os.WriteFile(path, []byte("a recipe for soap\n"), 0o600) },
		"a long text file":   func(path string) error { return os.WriteFile(path, []byte(strings.Repeat("soap ", 100)), 0o600) },
		"a cut-off database": func(path string) error { return os.WriteFile(path, []byte("SQLite format 3\x00"), 0o600) },
		"another database": func(path string) error {
			db, err := sql.Open("sqlite", "file:"+path)
			if err != nil {
				return err
			}
			_, err = db.Exec("CREATE TABLE soap (name TEXT); INSERT INTO soap VALUES ('lye')")
			return errors.Join(err, db.Close())
		},
		"a folder": func(path string) error { return os.Mkdir(path, 0o700) },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "journal.db")
			ok(t, make(path))
			refusedUntouched(t, path, ErrNotJournal, "not a journal")
			if err := Backup(t.Context(), path, path+".copy"); !errors.Is(err, ErrNotJournal) {
				t.Errorf("backing it up: %v", err)
			}
			if _, err := Verify(t.Context(), path); !errors.Is(err, ErrNotJournal) {
				t.Errorf("verifying it: %v", err)
			}
		})
	}
}

func TestWhatCannotBeWrittenIsRefused(t *testing.T) {
	t.Parallel()
	missing := filepath.Join(t.TempDir(), "no", "journal.db")
	if _, err := Open(t.Context(), missing, time.Now); !errors.Is(err, ErrUnwritable) || !strings.Contains(err.Error(), "no folder") {
		t.Errorf("a folder that is missing: %v", err)
	}
	t.Run("file or folder", func(t *testing.T) {
		if os.Geteuid() == 0 {
			// The administrator may write everywhere: somebody else tries.
			asSomebodyElse(t, "^TestWhatCannotBeWrittenIsRefused$")
			return
		}
		path := filepath.Join(t.TempDir(), "journal.db")
		ok(t, prepare(t.Context(), path, steps()))
		ok(t, os.Chmod(path, 0o400))
		refusedUntouched(t, path, ErrUnwritable, "cannot be written")
		ok(t, os.Chmod(path, 0o600))
		ok(t, os.Chmod(filepath.Dir(path), 0o500))
		defer os.Chmod(filepath.Dir(path), 0o700)
		refusedUntouched(t, path, ErrUnwritable, "folder")
	})
}

func TestAnOlderJournalIsCopiedAndBroughtUpToDate(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "journal.db")
	s, err := Open(t.Context(), path, func() time.Time { return insideNow })
	ok(t, err)
	fillInside(t, s)
	ok(t, s.Close())
	kept := fmt.Sprintf("journal.db.before-%04d", nextStep(t))
	beside := filepath.Join(filepath.Dir(path), kept)
	ok(t, os.WriteFile(beside, []byte("kept by hand"), 0o600))

	ok(t, prepare(t.Context(), path, later(t)))
	h, err := recognise(path)
	if ok(t, err); h.version != nextStep(t) {
		t.Errorf("got version %d", h.version)
	}
	files := folder(t, path)
	names := []string{}
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	if diff := cmp.Diff([]string{"journal.db", kept, kept + ".2"}, names); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
	if files[kept] != "kept by hand" {
		t.Error("the copy replaced a file")
	}
	problems, err := Verify(t.Context(), beside+".2")
	if ok(t, err); len(problems) > 0 {
		t.Errorf("the copy: %v", problems)
	}
	old, err := Open(t.Context(), beside+".2", time.Now)
	ok(t, err)
	if waxes, err := old.Waxes(t.Context()); err != nil || len(waxes) != 1 || waxes[0].Name != "Thistle" {
		t.Errorf("the copy's waxes: %+v, %v", waxes, err)
	}
	ok(t, old.Close())
}

func TestAJournalIsOpenedAgainAsItWas(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "journal.db")
	open := func() *Store {
		s, err := Open(t.Context(), path, func() time.Time { return insideNow })
		ok(t, err)
		return s
	}
	s := open()
	fillInside(t, s)
	before, err := s.CandleLog(t.Context(), 1)
	ok(t, err)
	ok(t, s.Close())
	if files := folder(t, path); len(files) != 1 {
		t.Errorf("closing left %d files", len(files))
	}
	s = open()
	defer s.Close()
	after, err := s.CandleLog(t.Context(), 1)
	ok(t, err)
	if diff := cmp.Diff(before, after); diff != "" || len(after.Burns) != 1 {
		t.Errorf("(-before +after):\n%s", diff)
	}
}

func TestAJournalWhoseMakingWasCutOffIsFinished(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "journal.db")
	ok(t, stamp(t.Context(), path))
	problems, err := Verify(t.Context(), path)
	if ok(t, err); len(problems) != 1 || !strings.Contains(problems[0], "Open it") {
		t.Errorf("verifying it: %v", problems)
	}
	s, err := Open(t.Context(), path, time.Now)
	ok(t, err)
	ok(t, s.Close())
	if files := folder(t, path); len(files) != 1 {
		t.Errorf("got %d files", len(files))
	}
}

func TestPathsOfEveryKindAreOpened(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"with a space", "what?", "no#1", "100%", "50%25", "a&b=c", "kerze—ü", "it's;"} {
		path := filepath.Join(t.TempDir(), name+".db")
		s, err := Open(t.Context(), path, time.Now)
		ok(t, err)
		ok(t, s.Close())
		if files := folder(t, path); len(files) != 1 || files[name+".db"] == "" {
			t.Errorf("opening %q left %d files", name, len(files))
		}
	}
}

// Whether a connection has its settings is asked of every connection of both
// pools: a pragma that is executed reaches one only.
func TestEveryConnectionHasItsSettings(t *testing.T) {
	t.Parallel()
	s, _ := openInside(t)
	want := map[string]string{"foreign_keys": "1", "journal_mode": "wal", "synchronous": "2", "busy_timeout": "5000"}
	for name, c := range map[string]struct {
		db    *sql.DB
		n     int
		query string
	}{"reading": {s.read, readers, "1"}, "writing": {s.write, 1, "0"}} {
		for range c.n {
			conn, err := c.db.Conn(t.Context())
			ok(t, err)
			defer conn.Close()
			want["query_only"] = c.query
			for pragma, value := range want {
				var is string
				ok(t, conn.QueryRowContext(t.Context(), "PRAGMA "+pragma).Scan(&is))
				if is != value {
					t.Errorf("%s: %s is %s, want %s", name, pragma, is, value)
				}
			}
		}
	}
}

func TestAWriteThatWaitsTooLongSaysSo(t *testing.T) {
	t.Parallel()
	s, _ := openInside(t)
	s.patience = 20 * time.Millisecond
	ok(t, s.Write(t.Context(), func(*Tx) error {
		if err := s.Write(context.Background(), func(*Tx) error { return nil }); !errors.Is(err, ErrBusy) {
			t.Errorf("a write within a write that hides it: %v", err)
		}
		return nil
	}))
	ok(t, s.Write(t.Context(), func(tx *Tx) error { return tx.SaveWax(&journal.Wax{Name: "Thistle", Family: "soy"}) }))
}

// Steps are numbered 1, 2, 3 … without gap or double, and the first one marks
// the file as the program does.
func TestStepsAreNumberedInOrder(t *testing.T) {
	t.Parallel()
	names, err := fs.Glob(migrations.FS, "*.sql")
	ok(t, err)
	for i, name := range names {
		if want := string([]byte{'0', '0', '0' + byte((i+1)/10), '0' + byte((i+1)%10), '_'}); !strings.HasPrefix(name, want) {
			t.Errorf("step %d is called %s", i+1, name)
		}
	}
	text, err := migrations.FS.ReadFile(names[0])
	ok(t, err)
	if !strings.Contains(string(text), "PRAGMA application_id = 1382905700;") || applicationID != 1382905700 {
		t.Errorf("application id %d is not that of the first step", applicationID)
	}
}
