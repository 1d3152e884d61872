package main

import (
	"errors"
	"flag"
	"io"
	"strings"
)

// newFlags is an empty set of flags that says nothing by itself.
func newFlags(name string) *flag.FlagSet {
	fs := flag.NewFlagSet(name, flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	return fs
}

// parse reads flags that may stand before or after the other arguments, and
// returns those. There must be as many as the names in want.
func parse(fs *flag.FlagSet, args []string, want ...string) ([]string, error) {
	var rest []string
	for len(args) > 0 {
		if err := fs.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return nil, err
			}
			return nil, misused("%v. “rimward help %s” lists what it takes.", err, fs.Name())
		}
		if args = fs.Args(); len(args) > 0 {
			rest, args = append(rest, args[0]), args[1:]
		}
	}
	switch {
	case len(rest) < len(want):
		return nil, misused("%s needs %s. “rimward help %s” shows how.", fs.Name(), want[len(rest)], fs.Name())
	case len(rest) > len(want):
		return nil, misused("%s does not know what to do with “%s”. “rimward help %s” shows how.", fs.Name(), rest[len(want)], fs.Name())
	}
	return rest, nil
}

// several is a flag of names in small letters that may be given more than once.
type several []string

func (s *several) String() string { return "" }

// Set adds one more value.
func (s *several) Set(v string) error {
	*s = append(*s, strings.ToLower(v))
	return nil
}
