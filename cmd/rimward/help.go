package main

import (
	"fmt"
	"io"
	"strings"
)

// writeHelp writes the list of commands, or how one of them is used.
func writeHelp(w io.Writer, about []string) error {
	if len(about) == 0 {
		return writeList(w)
	}
	c, ok := named(about[0])
	if !ok {
		return misused("There is no command “%s”. “rimward help” lists them.", about[0])
	}
	_, err := fmt.Fprintf(w, "%s\n\n%s\n", c.about, strings.TrimSpace(c.usage))
	return err
}

func writeList(w io.Writer) error {
	var b strings.Builder
	b.WriteString("Rimward is a test-burn journal for a small candle studio.\n\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "  rimward %-12s %s\n", c.name, c.about)
	}
	b.WriteString("\n“rimward help COMMAND” tells more. Start with “rimward demo” to look around,\n" +
		"or “rimward serve” to begin a journal of your own.\n\n" +
		"Never leave a burning candle unattended.\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// The lines that several commands share.
const (
	addrHelp = `  --addr HOST:PORT  where to listen (default ` + defaultAddr + `); port 0 picks a free one.
                    Any host but this machine's own lets others on the network
                    read and write the journal: there is no pass code.
  --host NAME       another name by which browsers may call this machine; may be
                    given more than once
  --no-open         do not open the browser
`
	dataHelp = `  --data DIR        the folder of the journal (default: rimward in your data folder)
`
)
