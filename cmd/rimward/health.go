package main

import (
	"context"
	"fmt"
)

var healthCommand = command{
	name: "healthcheck", about: "asks a running rimward whether it is well", do: healthcheck,
	usage: `rimward healthcheck [--addr HOST:PORT]

  --addr HOST:PORT  where it listens (default ` + defaultAddr + `)

Ends with 0 when the program answers and can read its journal, with 1 when not.
`,
}

// healthcheck asks a running program how it is.
func healthcheck(ctx context.Context, args []string, around surroundings) error {
	fs := newFlags("healthcheck")
	addr := fs.String("addr", defaultAddr, "")
	if _, err := parse(fs, args); err != nil {
		return err
	}
	if err := askHealth(ctx, *addr); err != nil {
		return err
	}
	fmt.Fprintln(around.out, "ok")
	return nil
}
