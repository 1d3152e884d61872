package sqlite

import (
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"testing"
	"testing/fstest"
)

// upTo are the program's steps up to one of them.
func upTo(t *testing.T, last int) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	for n := 1; n <= last; n++ {
		names, err := fs.Glob(steps(), fmt.Sprintf("%04d_*.sql", n))
		ok(t, err)
		data, err := fs.ReadFile(steps(), names[0])
		ok(t, err)
		out[names[0]] = &fstest.MapFile{Data: data}
	}
	return out
}

// What a copy must hold is known for journals of every version so far.
func TestPhotoHashesOfOlderJournals(t *testing.T) {
	knows, err := newest(steps())
	ok(t, err)
	for last := 1; last <= int(knows); last++ {
		path := filepath.Join(t.TempDir(), "journal.db")
		ok(t, prepare(t.Context(), path, upTo(t, last)))
		var want []string
		if last >= 4 { // photos came with the fourth step
			db, err := handle(path, plain, 1)
			ok(t, err)
			for id := range 2 {
				_, err = db.ExecContext(t.Context(), `INSERT INTO photo (version, created_at, gone_why, of_noun, of_id, hash, width, height, at, note)
					VALUES (1, '2026-03-14T18:00:00Z', '', 'pour', ?, printf('%064x', 11), 8, 8, '2026-03-14T18:00:00Z', '')`, id+1)
				ok(t, err)
			}
			ok(t, db.Close())
			want = []string{fmt.Sprintf("%064x", 11)}
		}
		if got, err := PhotoHashes(t.Context(), path); err != nil || !slices.Equal(got, want) {
			t.Errorf("version %d: %v, %v; want %v", last, got, err, want)
		}
	}
}
