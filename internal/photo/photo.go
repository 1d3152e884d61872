// Package photo keeps pictures in a folder beside the journal. Of what is sent
// it keeps a JPEG of at most 1600 pixels and a thumbnail of at most 320, drawn
// anew from the pixels and turned upright, so that nothing else of the file
// survives: no place, no camera, no hidden tail. A picture's name is the
// SHA-256 of the kept JPEG; the same picture twice is one file.
//
// It decodes one picture at a time, and refuses what is too large, broken, or
// not a picture that it can open, with a sentence for the person. It knows
// nothing of what a picture shows, and refuses to remove one that was kept.
package photo

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"
)

// The limits of one picture that is sent. App defaults: a phone's picture has
// 12 to 50 megapixels and 3 to 15 MB.
const (
	MaxBytes  = 24 << 20 // of the file
	maxPixels = 50_000_000
	maxSide   = 30_000    // px
	maxWork   = 240 << 20 // bytes of memory that opening it may take
	maxScans  = 100       // of a JPEG, each of which goes over the whole picture; cameras write about ten at most
)

// Refused is why a picture is not kept.
type Refused struct{ Sentence string }

// Error is the sentence.
func (r *Refused) Error() string { return r.Sentence }

func refuse(format string, args ...any) error { return &Refused{fmt.Sprintf(format, args...)} }

// Kept is a picture in the folder.
type Kept struct {
	Hash          string // SHA-256 of the kept JPEG, lower-case hex
	Width, Height int    // px
}

// Folder is where pictures lie. The folder itself is made with its first
// picture. It is safe for use by many goroutines.
type Folder struct {
	path string
	turn chan struct{} // held by whoever decodes or writes
	door sync.Mutex    // held while the folder itself comes or goes

	settle func(folders ...string) error // makes sure that new names in folders have reached the disk
}

// At is the folder at a path, which need not exist yet.
func At(path string) *Folder {
	return &Folder{path: path, turn: make(chan struct{}, 1), settle: syncAll}
}

// Beside is the path of the folder that belongs to a journal's file.
func Beside(journal string) string { return journal + ".photos" }

// Keep reads a picture to its end, keeps it, and calls then, which writes it
// into the journal. When then fails the picture is taken back, unless it was
// there before. It waits for its turn, and gives up when ctx ends while it
// waits or opens the picture. A picture that cannot be kept is a *Refused.
func (f *Folder) Keep(ctx context.Context, sent io.Reader, then func(Kept) error) (Kept, error) {
	if f == nil {
		return Kept{}, errors.New("keep photo: there is no folder for it")
	}
	file, err := f.receive(sent)
	if err != nil {
		return Kept{}, err
	}
	defer f.forget(file)
	select {
	case f.turn <- struct{}{}:
	case <-ctx.Done():
		return Kept{}, ctx.Err()
	}
	defer func() { <-f.turn }()
	return f.keep(ctx, file, then)
}

// keep draws and writes a picture that was received; the turn is held.
func (f *Folder) keep(ctx context.Context, file *os.File, then func(Kept) error) (Kept, error) {
	d, err := redraw(ctx, file)
	if err != nil {
		return Kept{}, err
	}
	undo, err := f.write(d)
	if err != nil {
		return Kept{}, err
	}
	if err := then(d.kept); err != nil {
		undo()
		return Kept{}, err
	}
	return d.kept, nil
}

// partial ends the names of files that are not finished.
const partial = ".part"

// receive streams what is sent into an unfinished file, up to the limit.
func (f *Folder) receive(sent io.Reader) (*os.File, error) {
	file, err := f.unfinished()
	if err != nil {
		return nil, err
	}
	n, err := io.Copy(file, io.LimitReader(sent, MaxBytes+1))
	switch {
	case err != nil:
		err = fmt.Errorf("receive photo: %w", err)
	case n == 0:
		err = refuse("The file is empty.")
	case n > MaxBytes:
		err = refuse("It is larger than %d MB. Send a smaller copy of it.", MaxBytes>>20)
	}
	if err != nil {
		f.forget(file)
		return nil, err
	}
	return file, nil
}

// unfinished makes an unfinished file, and the folder if it is the first.
func (f *Folder) unfinished() (*os.File, error) {
	f.door.Lock()
	defer f.door.Unlock()
	if err := os.MkdirAll(f.path, 0o700); err != nil {
		return nil, fmt.Errorf("make folder for photos: %w", err)
	}
	file, err := os.CreateTemp(f.path, "sent-*"+partial)
	if err != nil {
		return nil, fmt.Errorf("receive photo: %w", err)
	}
	return file, nil
}

// forget removes a received file, and the folder when nothing else is in it.
func (f *Folder) forget(file *os.File) {
	f.door.Lock()
	defer f.door.Unlock()
	_ = file.Close()
	_ = os.Remove(file.Name())
	dropEmpty(f.path)
}

// Tidy removes what was not finished when the program was cut off.
func (f *Folder) Tidy() error {
	for _, pattern := range []string{"*" + partial, filepath.Join("*", "*"+partial)} {
		left, err := filepath.Glob(filepath.Join(escaped(f.path), pattern))
		if err != nil {
			return fmt.Errorf("tidy photos: %w", err)
		}
		for _, path := range left {
			if err := os.Remove(path); err != nil {
				return fmt.Errorf("tidy photos: %w", err)
			}
		}
	}
	return nil
}
