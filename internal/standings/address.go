package standings

import (
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Address is what the key of a series says: its ladder, how many wicks are in a
// candle, and the fragrance and load that it is judged within, as far as the
// studio keeps those apart.
type Address struct {
	Ladder journal.ID
	Wicks  int
	Oil    journal.ID         // 0: none, or not kept apart
	Load   *quantity.Fraction // of the wax; nil: not noted, or not kept apart
}

// ReadAddress takes the key of a series apart; ok is false when it is none.
func ReadAddress(series string) (a Address, ok bool) {
	parts := strings.Split(series, ".")
	if len(parts) != 3 {
		return Address{}, false
	}
	ladder, errLadder := strconv.ParseInt(parts[0], 10, 64)
	wicks, errWicks := strconv.Atoi(parts[1])
	a = Address{Ladder: journal.ID(ladder), Wicks: wicks}
	if errLadder != nil || errWicks != nil || ladder < 1 || wicks < 1 {
		return Address{}, false
	}
	if parts[2] == "none" {
		return a, true
	}
	oil, load, _ := strings.Cut(parts[2], "-")
	id, err := strconv.ParseInt(oil, 10, 64)
	if err != nil || id < 1 {
		return Address{}, false
	}
	a.Oil = journal.ID(id)
	if n, err := strconv.Atoi(load); err == nil && n >= 0 {
		f := quantity.Fraction(float64(n) / 1e5)
		a.Load = &f
	}
	return a, true
}

// Oil is a setting's fragrance and load in words.
func (s Setting) Oil() string { return s.oil() }
