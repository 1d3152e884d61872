package standings

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// notYet says what would be enough to rank the pairing; "" when there is enough.
func (p Pairing) notYet() string {
	switch {
	case p.Enough() || len(p.Rows) == 0:
		return ""
	case p.Slips && p.sawNoPool():
		return "No pool was seen in any burn: the wick is far too weak, or the readings are wrong. Nothing is worked out from them."
	case p.Slips:
		return "None of its readings fits a pool that opens: look at them again. Nothing is worked out from them."
	}
	return "Not enough yet: one burn with a width, or with a pool seen full, would do."
}

// OneWayOnly ends the doubt that widths were measured along one axis.
const OneWayOnly = "some widths were measured one way only."

// noPool is the share of the wall below which a reading saw no pool.
const noPool = 0.05

// sawNoPool reports whether every reading that counts saw next to no pool.
func (p Pairing) sawNoPool() bool {
	return p.count(func(b BurnRow) bool {
		return !slices.ContainsFunc(b.Readings, func(r meltpool.Reading) bool { return r.Full || r.Ratio >= noPool })
	}) == p.Burns
}

// warnings are the doubts that the figures of a burned pairing carry.
func (p Pairing) warnings() []string {
	if !p.Enough() {
		return nil
	}
	var ws []string
	add := func(yes bool, format string, args ...any) {
		if yes {
			ws = append(ws, fmt.Sprintf(format, args...))
		}
	}
	half, first := p.Vessel.Target()/2, p.firstLook()
	add(p.Candles == 1, "One candle only: how much its like differ is not seen here.")
	add(p.AtLeast && first > half+meltpool.Near, "Full at every look, so only a lower bound is known. Look earlier, at %s.", half.Clock())
	add(p.AtLeast && first <= half+meltpool.Near, "Full at every look, the first at %s, half the target hour or before: too strong. Only a lower bound is known.", first.Clock())
	single := p.count(func(b BurnRow) bool { return len(b.Readings) == 1 })
	add(single == p.Burns && !p.AtLeast, "One reading a burn: how fast the pool opens is taken from elsewhere. Read a width before it is full, too.")
	oneAxis := p.count(func(b BurnRow) bool { return b.OneAxis })
	add(oneAxis > 0, "In %d of %s "+OneWayOnly, oneAxis, many(p.Burns, "burn"))
	over := p.count(func(b BurnRow) bool { return b.overWall })
	add(over > 0, "In %d of %s a width was larger than the vessel; it counts as full.", over, many(p.Burns, "burn"))
	jumbled := p.count(func(b BurnRow) bool { return b.jumbled })
	add(jumbled > 0, "In %d of %s the hours were out of order; they are taken in order of time.", jumbled, many(p.Burns, "burn"))
	return ws
}

// firstLook is the earliest hour of a reading that counts.
func (p Pairing) firstLook() quantity.Hours {
	first := quantity.Hours(math.Inf(1))
	for _, c := range p.Rows {
		for _, b := range c.Burns {
			if b.Used() {
				first = min(first, b.Readings[0].Hour)
			}
		}
	}
	return first
}

// count is how many burns that count are of a kind.
func (p Pairing) count(is func(BurnRow) bool) int {
	n := 0
	for _, c := range p.Rows {
		for _, b := range c.Burns {
			if b.Used() && is(b) {
				n++
			}
		}
	}
	return n
}

// mostSlips is how many burns with slips are named one by one.
const mostSlips = 3

// slipWarnings name the readings that hardly fit their burn's curve.
func slipWarnings(rows []CandleRow) []string {
	var out []string
	more := 0
	for _, c := range rows {
		for _, b := range c.Burns {
			var hours []string
			for i, f := range b.Fit.Checks {
				if f.Slip {
					hours = append(hours, b.Readings[i].Hour.Clock())
				}
			}
			switch {
			case len(hours) == 0:
			case len(out) == mostSlips:
				more++
			default:
				out = append(out, "Hardly fits: "+c.Name+", burn "+strconv.Itoa(b.Number)+", at "+looksText(hours)+".")
			}
		}
	}
	if more > 0 {
		out = append(out, "So do readings of "+many(more, "more burn")+".")
	}
	return out
}

// mostHours is how many hours of one burn are named.
const mostHours = 3

func looksText(hours []string) string {
	if len(hours) > mostHours {
		return many(len(hours), "look")
	}
	return strings.Join(hours, " and ")
}

// The words for guesses.
const (
	wordsUnread = "Nothing was read yet: this is what is believed before the first burn."
	wordsRough  = "Rough: only one rung was burned, so the step from rung to rung is not seen here."
	wordsGuess  = "A guess from the neighbours: this rung was not burned."
)

// guessWarnings say how a guess for a rung that was not burned came about.
func guessWarnings(tested int) []string {
	switch tested {
	case 0:
		return []string{wordsUnread}
	case 1:
		return []string{wordsRough}
	}
	return []string{wordsGuess}
}

// Rough is what is to be said of a guess beyond its being one; "" for most.
func (p Pairing) Rough() string {
	for _, w := range p.Warnings {
		if w != wordsGuess {
			return w
		}
	}
	return ""
}

// fewReadings is how many readings a check number needs before its misfit is
// spoken of.
const fewReadings = 5

// lackOfFit says at which looks the pools of a series were on average wider or
// narrower than the fitted curves: where the mean of the standardised
// residuals is further than 2/√n from 0.
func lackOfFit(ps []Pairing) []string {
	var sums, ns []float64
	for _, p := range ps {
		for _, c := range p.Rows {
			for _, b := range c.Burns {
				for i, f := range b.Fit.Checks {
					for len(sums) <= i {
						sums, ns = append(sums, 0), append(ns, 0)
					}
					if !math.IsNaN(f.Residual) {
						sums[i], ns[i] = sums[i]+f.Residual, ns[i]+1
					}
				}
			}
		}
	}
	var wide, narrow []string
	for i := range sums {
		switch mean := sums[i] / ns[i]; {
		case ns[i] < fewReadings || math.Abs(mean) <= 2/math.Sqrt(ns[i]):
		case mean > 0:
			wide = append(wide, quantity.Ordinal(i+1))
		default:
			narrow = append(narrow, quantity.Ordinal(i+1))
		}
	}
	return append(misfit(wide, "wider"), misfit(narrow, "narrower")...)
}

func misfit(looks []string, how string) []string {
	if len(looks) == 0 {
		return nil
	}
	return []string{"At the " + strings.Join(looks, " and ") + " look pools were on average " + how + " than the fitted curve. It does not quite fit here: take the figures as rough."}
}

// many is a number of things in words.
func many(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

// wicksText tells several wicks apart from one.
func wicksText(n int) string {
	if n < 2 {
		return ""
	}
	return ", " + strconv.Itoa(n) + " wicks"
}
