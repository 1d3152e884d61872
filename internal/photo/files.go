package photo

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// fileName is the name of a picture or its thumbnail.
var fileName = regexp.MustCompile(`^[0-9a-f]{64}(-small)?\.jpg$`)

// PictureName and SmallName are the names of a picture's two files.
func PictureName(hash string) string { return hash + ".jpg" }

// SmallName is the name of a picture's thumbnail.
func SmallName(hash string) string { return hash + "-small.jpg" }

// Open opens a picture or a thumbnail by its name. Whatever has not the form
// of such a name, or is not there, is fs.ErrNotExist.
func (f *Folder) Open(name string) (*os.File, error) {
	if f == nil || !fileName.MatchString(name) {
		return nil, fmt.Errorf("open photo: %w", fs.ErrNotExist)
	}
	root, err := os.OpenRoot(f.path)
	if err != nil {
		return nil, fmt.Errorf("open photo: %w", err)
	}
	defer root.Close()
	file, err := root.Open(name[:2] + "/" + name)
	if err != nil {
		return nil, fmt.Errorf("open photo: %w", err)
	}
	return file, nil
}

// write puts the two files of a picture in their place, the thumbnail first.
// What lies there already and is the same stays. undo takes away what was not
// there before.
func (f *Folder) write(d drawn) (undo func(), err error) {
	sub := filepath.Join(f.path, d.kept.Hash[:2])
	var made []string
	undo = func() {
		for _, path := range made {
			_ = os.Remove(path)
		}
		dropEmpty(sub)
		dropEmpty(f.path)
	}
	if err := os.MkdirAll(sub, 0o700); err != nil {
		return nil, fmt.Errorf("make folder for photos: %w", err)
	}
	for _, x := range []struct {
		name string
		body []byte
	}{{SmallName(d.kept.Hash), d.small}, {PictureName(d.kept.Hash), d.picture}} {
		path := filepath.Join(sub, x.name)
		fresh, err := place(path, x.body)
		if fresh {
			made = append(made, path)
		}
		if err != nil {
			undo()
			return nil, err
		}
	}
	if err := f.settle(sub, f.path, filepath.Dir(f.path)); err != nil {
		undo()
		return nil, err
	}
	return undo, nil
}

// dropEmpty removes a folder that is empty. A link to a folder elsewhere is
// somebody's own and stays, whatever is behind it.
func dropEmpty(folder string) {
	if info, err := os.Lstat(folder); err == nil && info.IsDir() {
		_ = os.Remove(folder) // fails, rightly, when something is in it
	}
}

// place writes a file so that it is whole under its name or not there; fresh
// tells that nothing had the name before.
func place(path string, body []byte) (fresh bool, err error) {
	was, err := os.ReadFile(path)
	if err == nil && bytes.Equal(was, body) {
		return false, nil
	}
	fresh = errors.Is(err, fs.ErrNotExist)
	temp, err := os.CreateTemp(filepath.Dir(path), "*"+partial)
	if err != nil {
		return false, fmt.Errorf("write photo: %w", err)
	}
	defer os.Remove(temp.Name()) // nothing is left to remove once it has its name
	_, err = temp.Write(body)
	if err = errors.Join(err, temp.Sync(), temp.Close()); err != nil {
		return false, fmt.Errorf("write photo: %w", err)
	}
	if err := os.Rename(temp.Name(), path); err != nil {
		return false, fmt.Errorf("write photo: %w", err)
	}
	return fresh, nil
}

// syncAll makes sure that new names in folders have reached the disk, on the
// systems whose folders can be opened for that.
func syncAll(folders ...string) error {
	for _, path := range folders {
		d, err := os.Open(path)
		if err != nil {
			return fmt.Errorf("open folder: %w", err)
		}
		_ = d.Sync() // not every system lets a folder be synced
		if err := d.Close(); err != nil {
			return fmt.Errorf("close folder: %w", err)
		}
	}
	return nil
}

// escaped is a path in which no letter is special to filepath.Glob.
func escaped(path string) string {
	if os.PathSeparator == '\\' {
		return path
	}
	return strings.NewReplacer(`*`, `\*`, `?`, `\?`, `[`, `\[`, `\`, `\\`).Replace(path)
}
