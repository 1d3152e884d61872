package ical

import "strings"

var escapes = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`)

// Escape is a text as a TEXT value carries it (section 3.3.11): backslash,
// semicolon and comma behind a backslash, a line break as \n.
func Escape(s string) string { return escapes.Replace(clean(s)) }

// clean leaves out what no TEXT may hold: control characters other than the
// tab (section 3.1), and bytes that are no UTF-8. Every kind of line break
// becomes one of a kind.
func clean(s string) string {
	s = strings.ReplaceAll(strings.ToValidUTF8(s, ""), "\r\n", "\n")
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\r':
			return '\n'
		case r == '\n' || r == '\t':
			return r
		case r < ' ' || r == 0x7f:
			return -1
		}
		return r
	}, s)
}
