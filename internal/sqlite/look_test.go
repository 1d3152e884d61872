package sqlite

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
)

func TestLookingReadsAndChangesNothing(t *testing.T) {
	s, path := openInside(t)
	fillInside(t, s)
	ok(t, s.Close())
	before := folder(t, path)
	l, err := Look(t.Context(), path)
	ok(t, err)
	set, err := l.Settings(t.Context())
	ok(t, err)
	logs, err := l.Logs(t.Context())
	ok(t, err)
	if len(logs) == 0 || set.Ruler != 1 {
		t.Errorf("read %d candles, ruler %v", len(logs), set.Ruler)
	}
	err = l.Write(t.Context(), func(tx *Tx) error {
		return tx.SaveWax(&journal.Wax{Name: "Harbour blend", Family: "soy", LoadBasis: journal.OfWax})
	})
	if err == nil {
		t.Error("a write went through")
	}
	ok(t, l.Close())
	if diff := cmp.Diff(before, folder(t, path)); diff != "" {
		t.Errorf("the folder is changed (-before +after):\n%s", diff)
	}
}

func TestLookingAlsoWhileTheJournalIsWritten(t *testing.T) {
	s, path := openInside(t)
	l, err := Look(t.Context(), path)
	ok(t, err)
	defer l.Close()
	fillInside(t, s)
	logs, err := l.Logs(t.Context())
	ok(t, err)
	if len(logs) == 0 {
		t.Error("what was written is not seen")
	}
}

func TestLookingRefusesWhatIsNotAnUpToDateJournal(t *testing.T) {
	s, path := openInside(t)
	ok(t, s.Close())
	version := func(n byte) {
		b, err := os.ReadFile(path)
		ok(t, err)
		copy(b[60:64], []byte{0, 0, 0, n}) // user version, "The Database Header" of SQLite's file format
		ok(t, os.WriteFile(path, b, 0o600))
	}
	refused := func(path string, want error) {
		t.Helper()
		before := folder(t, path)
		if _, err := Look(t.Context(), path); !errors.Is(err, want) {
			t.Errorf("got %v, want %v", err, want)
		}
		if diff := cmp.Diff(before, folder(t, path)); diff != "" {
			t.Errorf("the folder is changed (-before +after):\n%s", diff)
		}
	}
	version(1)
	refused(path, ErrOlder)
	version(200)
	refused(path, ErrNewer)
	refused(filepath.Join(filepath.Dir(path), "none.db"), ErrNotJournal)
}
