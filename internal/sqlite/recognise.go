package sqlite

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrNotJournal is a file that is not a journal.
var ErrNotJournal = errors.New("not a journal")

// ErrNewer is a journal that a newer program made.
var ErrNewer = errors.New("made by a newer program")

// ErrUnwritable is a journal, or a place for one, that cannot be written.
var ErrUnwritable = errors.New("cannot be written")

// refusal is a reason not to open a file, in one sentence to the person.
type refusal struct {
	kind     error
	sentence string
}

func (r *refusal) Error() string { return r.sentence }
func (r *refusal) Unwrap() error { return r.kind }

func refuse(kind error, format string, args ...any) error {
	return &refusal{kind, fmt.Sprintf(format, args...)}
}

// applicationID stands in the header of every journal: "Rmwd" in ASCII.
const applicationID = 0x526d7764

// header is what the first bytes of a file say of it.
type header struct {
	empty   bool // the file is not there, or has nothing in it
	version int64
}

// recognise reads the header without opening the file as a database, so that
// a file that is refused keeps every byte. The offsets are those of "The
// Database Header" in SQLite's file format document.
func recognise(path string) (header, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return header{empty: true}, nil
	}
	if err != nil {
		return header{}, refuse(ErrUnwritable, "%s cannot be read: %v.", path, errors.Unwrap(err))
	}
	defer f.Close()
	first := make([]byte, 100)
	n, err := io.ReadFull(f, first)
	if err == io.EOF {
		return header{empty: true}, nil
	}
	if n < len(first) || string(first[:16]) != "SQLite format 3\x00" || binary.BigEndian.Uint32(first[68:]) != applicationID {
		return header{}, refuse(ErrNotJournal, "%s is not a journal of this program; nothing in it was changed.", path)
	}
	return header{version: int64(binary.BigEndian.Uint32(first[60:]))}, nil
}

// recogniseJournal is recognise for a journal that must be there.
func recogniseJournal(path string) (header, error) {
	h, err := recognise(path)
	if err == nil && h.empty {
		return h, refuse(ErrNotJournal, "There is no journal at %s.", path)
	}
	return h, err
}

// tooNew refuses a journal whose steps this program does not know.
func tooNew(path string, has, knows int64) error {
	if has <= knows {
		return nil
	}
	return refuse(ErrNewer, "%s was made by a newer program (journal version %d; this program knows %d); nothing in it was changed.", path, has, knows)
}

// mayWrite refuses a path whose file or folder cannot be written, before
// anything is changed.
func mayWrite(path string, h header) error {
	folder := filepath.Dir(path)
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return refuse(ErrUnwritable, "There is no folder %s to keep the journal in.", folder)
	}
	if !h.empty {
		f, err := os.OpenFile(path, os.O_RDWR, 0)
		if err != nil {
			return refuse(ErrUnwritable, "%s cannot be written; nothing in it was changed.", path)
		}
		if err := f.Close(); err != nil {
			return fmt.Errorf("close journal: %w", err)
		}
	}
	probe, err := os.CreateTemp(folder, ".rimward-*")
	if err != nil {
		return refuse(ErrUnwritable, "The folder %s cannot be written; the journal needs it.", folder)
	}
	return errors.Join(probe.Close(), os.Remove(probe.Name()))
}
