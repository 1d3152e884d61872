package standings

import (
	"cmp"
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings/tree"
)

// Stack is one series before it is worked out: the rungs of one ladder in one
// vessel and setting, with what was read on each.
type Stack struct {
	Vessel   journal.Vessel
	Ladder   journal.Ladder
	Wicks    int
	Ruler    quantity.Millimetres
	Settings []Setting
	Rungs    []Rung // by rung, each once
	Warnings []string

	group settingKey // with its vessel: what it can be compared with
}

// Wax is which wax the stack is judged within; 0 when it is not known.
func (s *Stack) Wax() journal.ID { return s.group.wax }

// Setting names the fragrance and load that the stack is judged within, for an
// address.
func (s *Stack) Setting() string { return s.group.text() }

// Key names the stack in an address, within its vessel and wax.
func (s *Stack) Key() string {
	return strconv.FormatInt(int64(s.Ladder.ID), 10) + "." + strconv.Itoa(s.Wicks) + "." + s.Setting()
}

// Rung is one wick of a stack; it has no rows when it was not burned.
type Rung struct {
	Wick     journal.Wick
	Rows     []CandleRow
	Faults   []safety.Fault
	Hard     []safety.Finding
	Ended    int
	Settings []Setting
}

// burned reports whether any candle of the rung was lit.
func (r Rung) burned() bool { return len(r.Rows) > 0 }

// sort puts the rungs in order and fills in what lies between and beside those
// that were burned, from the wicks that there are.
func (s *Stack) sort(shelf []journal.Wick) {
	known := map[int]bool{}
	low, high := 0, 0
	for i, r := range s.Rungs {
		known[r.Wick.Rung] = true
		if i == 0 || r.Wick.Rung < low {
			low = r.Wick.Rung
		}
		if i == 0 || r.Wick.Rung > high {
			high = r.Wick.Rung
		}
	}
	for _, w := range shelf {
		if w.Ladder == s.Ladder.ID && !w.IsGone() && !known[w.Rung] && w.Rung >= low-1 && w.Rung <= high+1 {
			known[w.Rung] = true
			s.Rungs = append(s.Rungs, Rung{Wick: w})
		}
	}
	slices.SortStableFunc(s.Rungs, func(a, b Rung) int { return cmp.Compare(a.Wick.Rung, b.Wick.Rung) })
}

// tree is the stack as package tree takes it. Only burns that count are in it;
// candles without one are left out.
func (s *Stack) tree() tree.Series {
	out := tree.Series{Wall: meltpool.Wall{Width: s.Vessel.Width(), Target: s.Vessel.Target()}, Ruler: s.Ruler}
	for _, r := range s.Rungs {
		p := tree.Pairing{Rung: r.Wick.Rung}
		for _, c := range r.Rows {
			if bs := c.used(); len(bs) > 0 {
				p.Candles = append(p.Candles, bs)
			}
		}
		out.Pairings = append(out.Pairings, p)
	}
	return out
}

// used are the readings of the burns that count.
func (c CandleRow) used() []tree.Burn {
	var out []tree.Burn
	for _, b := range c.Burns {
		if b.Used() {
			out = append(out, b.Readings)
		}
	}
	return out
}

// counts are the candles and burns that were looked at.
func (s *Stack) counts() (candles, burns int) {
	for _, r := range s.Rungs {
		candles += len(r.Rows)
		for _, c := range r.Rows {
			burns += len(c.Burns)
		}
	}
	return candles, burns
}
