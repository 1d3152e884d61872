package standings

import (
	"cmp"
	"strings"
)

// compareNaturally puts names in order as people do: runs of digits by their
// number, so that 9 comes before 10; the rest by its letters.
func compareNaturally(a, b string) int {
	whole := cmp.Compare(a, b)
	for a != "" && b != "" {
		x, y := firstRun(a), firstRun(b)
		a, b = a[len(x):], b[len(y):]
		order := cmp.Compare(x, y)
		if isDigit(x[0]) && isDigit(y[0]) {
			m, n := strings.TrimLeft(x, "0"), strings.TrimLeft(y, "0")
			order = cmp.Or(cmp.Compare(len(m), len(n)), cmp.Compare(m, n))
		}
		if order != 0 {
			return order
		}
	}
	return cmp.Or(cmp.Compare(len(a), len(b)), whole)
}

// firstRun is the start of a name that is all digits, or has none.
func firstRun(s string) string {
	i := 1
	for i < len(s) && isDigit(s[i]) == isDigit(s[0]) {
		i++
	}
	return s[:i]
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }
