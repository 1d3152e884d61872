package sqlite

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Backup writes a consistent copy of the journal at path into file, also
// while another program writes to the journal. It refuses a file that exists
// (the error is fs.ErrExist). The copy takes its name only when it is whole
// and on the disk.
func Backup(ctx context.Context, path, file string) error {
	if _, err := recogniseJournal(path); err != nil {
		return err
	}
	if _, err := os.Lstat(file); err == nil {
		return taken(file)
	}
	temp, err := os.CreateTemp(filepath.Dir(file), filepath.Base(file)+".*.part")
	if err != nil {
		return fmt.Errorf("back up journal: %w", err)
	}
	defer os.Remove(temp.Name()) // nothing is left to remove once it has its name
	if err := temp.Close(); err != nil {
		return fmt.Errorf("back up journal: %w", err)
	}
	if err := copyInto(ctx, path, temp.Name()); err != nil {
		return fmt.Errorf("back up journal: %w", err)
	}
	if err := syncFile(temp.Name()); err != nil {
		return fmt.Errorf("back up journal: %w", err)
	}
	return nameCopy(temp.Name(), file)
}

func taken(file string) error {
	return refuse(fs.ErrExist, "%s is there already; a copy never replaces a file.", file)
}

// copyInto has SQLite write what is committed now into another file.
func copyInto(ctx context.Context, path, file string) error {
	db, err := handle(path, plain, 1)
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, "VACUUM INTO ?", file)
	return errors.Join(err, db.Close())
}

// nameCopy gives the finished copy its name. A link fails when the name is
// taken; where the disk knows no links the name is looked for and then taken.
func nameCopy(temp, file string) error {
	err := os.Link(temp, file)
	if errors.Is(err, fs.ErrExist) {
		return taken(file)
	}
	if err != nil {
		if _, err := os.Lstat(file); err == nil {
			return taken(file)
		}
		if err := os.Rename(temp, file); err != nil {
			return fmt.Errorf("name copy: %w", err)
		}
	}
	return syncFolder(filepath.Dir(file))
}

// syncFolder makes sure that a new name has reached the disk, on the systems
// whose folders can be opened for that.
func syncFolder(folder string) error {
	d, err := os.Open(folder)
	if err != nil {
		return fmt.Errorf("open folder: %w", err)
	}
	_ = d.Sync() // not every system lets a folder be synced
	return d.Close()
}
