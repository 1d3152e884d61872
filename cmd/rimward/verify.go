package main

import (
	"context"
	"fmt"
	"io"

	"rimward/internal/journal"
	"rimward/internal/photo"
	"rimward/internal/sqlite"
)

var verifyCommand = command{
	name: "verify", about: "looks the journal and its photos over for damage", do: verify,
	usage: `rimward verify [--data DIR]

` + dataHelp + `
Reads only. Ends with 1 when something is wrong, and says what.
`,
}

// verify looks the journal over and changes nothing.
func verify(ctx context.Context, args []string, around surroundings) error {
	fs := newFlags("verify")
	data := dataFlag(fs)
	if _, err := parse(fs, args); err != nil {
		return err
	}
	path, err := journalPath(*data, around.env)
	if err != nil {
		return err
	}
	problems, err := sqlite.Verify(ctx, path)
	if err != nil {
		return err
	}
	list(around.out, problems)
	if len(problems) > 0 {
		return fmt.Errorf("%s is damaged in %s. Keep it as it is, and go on from your last copy", path, things(len(problems)))
	}
	problems, remarks, err := verifyPhotos(ctx, path)
	if err != nil {
		return err
	}
	list(around.out, problems)
	if len(problems) > 0 {
		return fmt.Errorf("every record in %s is sound, but %s not. Put the files back into %s from your last copy's folder", path, are(len(problems)), photo.Beside(path))
	}
	fmt.Fprintf(around.out, "%s is sound.\nLooked at: the file's own structure, the links between records, its kind and version, the rules of burns and checks and of what was made before them, and every photo.\n", path)
	for _, r := range remarks {
		fmt.Fprintln(around.out, r)
	}
	return nil
}

func list(w io.Writer, problems []string) {
	for _, p := range problems {
		fmt.Fprintln(w, "-", p)
	}
}

func are(n int) string {
	if n == 1 {
		return "one photo is"
	}
	return photos(n) + " are"
}

// verifyPhotos looks for the file of every photo that the journal names, and
// remarks on files that it does not name.
func verifyPhotos(ctx context.Context, path string) (problems, remarks []string, err error) {
	list, err := sqlite.AllPhotos(ctx, path)
	if err != nil {
		return nil, nil, err
	}
	folder := photo.At(photo.Beside(path))
	faults := map[string]string{}
	for _, p := range list {
		if _, looked := faults[p.Hash]; !looked {
			faults[p.Hash] = folder.Fault(p.Hash)
		}
		if fault := faults[p.Hash]; fault != "" {
			problems = append(problems, fmt.Sprintf("Photo %d, of %s %d: %s (%s).", p.ID, p.Of, p.OfID, fault, photo.PictureName(p.Hash)))
		}
	}
	strays, err := folder.Strays(journal.PhotoHashes(list))
	if strays > 0 {
		remarks = append(remarks, fmt.Sprintf("The folder of photos also holds %s that no record names. They do no harm.", photos(strays)))
	}
	return problems, remarks, err
}

func things(n int) string {
	if n == 1 {
		return "one place"
	}
	return fmt.Sprintf("%d places", n)
}
