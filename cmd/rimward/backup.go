package main

import (
	"context"
	"fmt"

	"rimward/internal/photo"
	"rimward/internal/sqlite"
)

var backupCommand = command{
	name: "backup", about: "copies the journal and its photos, also while it is in use", do: backup,
	usage: `rimward backup FILE [--data DIR]

` + dataHelp + `
The copy is whole or not there at all, and never replaces a file. Photos are
copied into the folder FILE.photos, those that are not in it yet. To go back to
a copy, stop rimward and put it in the place of journal.db, and its folder in
the place of journal.db.photos.
`,
}

// backup copies the journal.
func backup(ctx context.Context, args []string, around surroundings) error {
	fs := newFlags("backup")
	data := dataFlag(fs)
	rest, err := parse(fs, args, "the FILE to copy the journal into")
	if err != nil {
		return err
	}
	path, err := journalPath(*data, around.env)
	if err != nil {
		return err
	}
	if err := sqlite.Backup(ctx, path, rest[0]); err != nil {
		return err
	}
	fmt.Fprintf(around.out, "Copied %s to %s.\n", path, rest[0])
	return backupPhotos(ctx, path, rest[0], around)
}

// backupPhotos copies the photos that the finished copy of a journal names.
func backupPhotos(ctx context.Context, path, file string, around surroundings) error {
	hashes, err := sqlite.PhotoHashes(ctx, file)
	if err != nil {
		return unfinished(err, file)
	}
	if len(hashes) == 0 {
		return nil
	}
	from, to := photo.Beside(path), photo.Beside(file)
	copied, lost, err := photo.At(from).CopyTo(photo.At(to), hashes)
	if err != nil {
		return unfinished(err, file)
	}
	fmt.Fprintf(around.out, "Copied %s to %s.\n", photos(copied), to)
	if len(lost) > 0 {
		return fmt.Errorf("the journal is copied, but %s could not be: not there, or not whole. “rimward verify” names what is missing. Once it is back in %s, %s", photos(len(lost)), from, again(file))
	}
	return nil
}

// unfinished says how to go on when the journal is copied and its photos are
// not.
func unfinished(err error, file string) error {
	return fmt.Errorf("the journal is copied, but not all of its photos: %w. Once that is mended, %s", err, again(file))
}

// again is how the same copy is made once more.
func again(file string) string {
	return fmt.Sprintf("delete %s and run the same command again; photos in %s that were copied already are not copied twice", file, photo.Beside(file))
}

func photos(n int) string {
	if n == 1 {
		return "one photo"
	}
	return fmt.Sprintf("%d photos", n)
}
