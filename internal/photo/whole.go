package photo

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image/jpeg"
	"io"
	"io/fs"
	"path/filepath"
	"slices"

	"rimward/internal/journal"
)

// Fault says what is wrong with the file of a picture, "" when it is there,
// whole, and opens.
func (f *Folder) Fault(hash string) string {
	picture, err := f.read(PictureName(hash))
	if err != nil {
		return "its picture " + because(err)
	}
	if sum := sha256.Sum256(picture); hex.EncodeToString(sum[:]) != hash {
		return "its picture is damaged"
	}
	if _, err := jpeg.Decode(bytes.NewReader(picture)); err != nil {
		return "its picture does not open"
	}
	small, err := f.read(SmallName(hash))
	if err != nil {
		return "its thumbnail " + because(err)
	}
	if _, err := jpeg.Decode(bytes.NewReader(small)); err != nil {
		return "its thumbnail is damaged"
	}
	return ""
}

func because(err error) string {
	if errors.Is(err, fs.ErrNotExist) {
		return "is missing"
	}
	return "cannot be read"
}

func (f *Folder) read(name string) ([]byte, error) {
	file, err := f.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(file)
}

// Strays counts the pictures in the folder that no hash in the list names: a
// program that was cut off between picture and record leaves one. They do no
// harm, and one that is sent again is used.
func (f *Folder) Strays(hashes []string) (int, error) {
	found, err := filepath.Glob(filepath.Join(escaped(f.path), "*", "*.jpg"))
	if err != nil {
		return 0, fmt.Errorf("look through photos: %w", err)
	}
	n := 0
	for _, path := range found {
		name := filepath.Base(path)
		if len(name) == 64+len(".jpg") && journal.IsPhotoHash(name[:64]) && !slices.Contains(hashes, name[:64]) {
			n++
		}
	}
	return n, nil
}

// CopyTo copies the pictures that the hashes name, with their thumbnails, into
// another folder, where they are not there already. lost lists the hashes
// whose picture or thumbnail is not here, or whose picture is not whole.
func (f *Folder) CopyTo(to *Folder, hashes []string) (copied int, lost []string, err error) {
	for _, h := range hashes {
		if _, there := to.both(h); there {
			continue
		}
		d, here := f.both(h)
		if !here {
			lost = append(lost, h)
			continue
		}
		if _, err := to.write(d); err != nil {
			return copied, lost, err
		}
		copied++
	}
	return copied, lost, nil
}

// both reads the two files of a picture; ok tells that they are there and the
// picture is whole.
func (f *Folder) both(hash string) (d drawn, ok bool) {
	d.kept.Hash = hash
	var err error
	if d.picture, err = f.read(PictureName(hash)); err != nil {
		return d, false
	}
	sum := sha256.Sum256(d.picture)
	d.small, err = f.read(SmallName(hash))
	return d, err == nil && hex.EncodeToString(sum[:]) == hash
}
