package main

import (
	"context"
	"fmt"

	"rimward/internal/sqlite"
)

var backupCommand = command{
	name: "backup", about: "copies the journal into a file, also while it is in use", do: backup,
	usage: `rimward backup FILE [--data DIR]

` + dataHelp + `
The copy is whole or not there at all, and never replaces a file. To go back to
it, stop rimward and put it in the place of journal.db.
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
	return nil
}
