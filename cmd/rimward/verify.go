package main

import (
	"context"
	"fmt"

	"rimward/internal/sqlite"
)

var verifyCommand = command{
	name: "verify", about: "looks the journal over for damage", do: verify,
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
	for _, p := range problems {
		fmt.Fprintln(around.out, "-", p)
	}
	if len(problems) > 0 {
		return fmt.Errorf("%s is damaged in %s. Keep it as it is, and go on from your last copy", path, things(len(problems)))
	}
	fmt.Fprintf(around.out, "%s is sound.\nLooked at: the file's own structure, the links between records, its kind and version, and the rules of burns and checks.\n", path)
	return nil
}

func things(n int) string {
	if n == 1 {
		return "one place"
	}
	return fmt.Sprintf("%d places", n)
}
