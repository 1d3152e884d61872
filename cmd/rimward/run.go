package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"time"

	"rimward/internal/throw"
)

// surroundings are what the program touches of the machine it runs on.
type surroundings struct {
	in       io.Reader
	out, err io.Writer
	env      func(string) string
	now      func() time.Time
	browse   func(address string) error
	draw     throw.Draw // chance
}

// The codes the program ends with.
const (
	exitFine  = 0
	exitWrong = 1 // what was asked for could not be done
	exitUsage = 2 // what was asked for was not understood
)

// misuse is a command line that was not understood.
type misuse struct{ sentence string }

func (m *misuse) Error() string { return m.sentence }

func misused(format string, args ...any) error { return &misuse{fmt.Sprintf(format, args...)} }

// command is one thing the program can do.
type command struct {
	name  string
	about string // one line of the list
	usage string
	do    func(ctx context.Context, args []string, around surroundings) error
}

// commands lists what the program can do, in the order of its help.
func commands() []command {
	return []command{serveCommand, demoCommand, standingsCommand, backupCommand, verifyCommand, healthCommand, versionCommand}
}

// run does what the arguments ask for and returns the code to end with.
func run(ctx context.Context, args []string, around surroundings) int {
	err := dispatch(ctx, args, around)
	var wrong *misuse
	switch {
	case err == nil:
		return exitFine
	case errors.As(err, &wrong):
		fmt.Fprintln(around.err, "rimward:", err)
		return exitUsage
	}
	fmt.Fprintln(around.err, "rimward:", err)
	return exitWrong
}

func dispatch(ctx context.Context, args []string, around surroundings) error {
	if len(args) == 0 {
		return writeHelp(around.out, nil)
	}
	switch args[0] {
	case "help", "-h", "-help", "--help":
		return writeHelp(around.out, args[1:])
	}
	c, ok := named(args[0])
	if !ok {
		return misused("There is no command “%s”. “rimward help” lists them.", args[0])
	}
	err := c.do(ctx, args[1:], around)
	if errors.Is(err, flag.ErrHelp) {
		return writeHelp(around.out, []string{c.name})
	}
	return err
}

func named(name string) (command, bool) {
	for _, c := range commands() {
		if c.name == name {
			return c, true
		}
	}
	return command{}, false
}
