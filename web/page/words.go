package page

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// joinWords joins the parts that are not empty by spaces.
func joinWords(parts ...string) string { return joinBy(" ", parts...) }

// joinBy joins the parts that are not empty.
func joinBy(sep string, parts ...string) string {
	var kept []string
	for _, p := range parts {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, sep)
}

// listed joins names as a sentence does: a, b and c.
func listed(names []string) string {
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}

// capital makes the first letter a capital.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

var smallNumbers = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// counted writes a count with its noun: no candles, one candle, 14 candles.
func counted(n int, one, many string) string {
	noun := many
	if n == 1 {
		noun = one
	}
	if n >= 0 && n < len(smallNumbers) {
		return smallNumbers[n] + " " + noun
	}
	return fmt.Sprintf("%d %s", n, noun)
}

// figured writes a count in figures with its noun.
func figured(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
