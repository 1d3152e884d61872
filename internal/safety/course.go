package safety

import (
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Course is one fault over the life of candles, in words.
type Course struct {
	Fault       string // its name in the trade
	Burns, Of   int    // burns that showed it, of those that were looked at for it
	Candles     int    // that showed it
	OfCandles   int    // that were looked at for it
	Trend       Trend
	Text        string // when it showed, and whether it grows or fades
	Remedy      Remedy // empty for one that was not seen
	Provisional bool   // it was seen before half of the wax was gone, and not since
}

// Trend is whether a fault grows or fades from burn to burn.
type Trend string

// The trends. They are told by order alone, at the level of the standings'
// intervals: eight chances in ten.
const (
	Grows     Trend = "it grows over the candle's life"
	Fades     Trend = "it fades over the candle's life"
	NoTrend   Trend = "no clear change over the candle's life"
	FewToTell Trend = "too few burns yet to say whether it grows or fades"
)

// Courses says of every fault that was looked for how it came and went over the
// burns of candles, those that were seen first, in the order of what to mind.
// Candles and records that were withdrawn do not count.
func Courses(logs []journal.CandleLog, lim Limits, u quantity.Units) []Course {
	var seen, unseen []Course
	for _, s := range signs {
		w := watch{sign: s, lim: lim, u: u}
		for _, l := range logs {
			if !l.Candle.IsGone() && !l.Pour.IsGone() {
				w.add(l)
			}
		}
		switch c := w.course(); {
		case c.Burns > 0:
			seen = append(seen, c)
		case c.Of > 0:
			unseen = append(unseen, c)
		}
	}
	return append(seen, unseen...)
}

// sign is how a fault is seen in one burn.
type sign struct {
	fault string
	// look says how strong the sign was, and when it first showed; looked is
	// false where nobody looked.
	look   func(evening) (strength float64, first *journal.Check, looked bool)
	from   float64 // the strength from which it is the fault
	below  float64 // the strength from which it is another, graver fault; 0 for none
	remedy func(*watch) Remedy
}

// signs lists the faults in the order of what to mind: what can hurt first,
// then what spoils the candle.
var signs = []sign{
	{"Sweating", tick(journal.SweatingPool), 1, 0, lessOil},
	{"Sooting", sootStrength, sootFrom, 0, quieten},
	{"Drowning", drownStrength, 1, 0, byDepth},
	{"Mushrooming", strongest(mushroomOf, journal.MushroomScale), mushroomFrom, 0, trimThenDown},
	{"Tunnelling", lastOnWall, tunnelFrom, 0, firstBurnThenUp},
	{"Hang-up", lastOnWall, ringFrom, tunnelFrom, waitThenUp},
}

// tick is the strength of an odd event: 1 where it was ticked.
func tick(o journal.Odd) func(evening) (float64, *journal.Check, bool) {
	return func(e evening) (float64, *journal.Check, bool) {
		for i, c := range e.checks {
			if c.Has(o) {
				return 1, &e.checks[i], true
			}
		}
		return 0, nil, len(e.checks) > 0
	}
}

// strongest is the highest grade of a burn, and the check that first had it.
func strongest(of func(journal.Check) journal.Grade, scale []journal.GradeWord) func(evening) (float64, *journal.Check, bool) {
	return func(e evening) (most float64, at *journal.Check, looked bool) {
		for i, c := range e.checks {
			if r, ok := journal.Rank(scale, of(c)); ok && (!looked || float64(r) > most) {
				most, at, looked = float64(r), &e.checks[i], true
			}
		}
		return most, at, looked
	}
}

func sootStrength(e evening) (float64, *journal.Check, bool) {
	if e.b.Draught == journal.DraughtStrong {
		return 0, nil, false
	}
	return strongest(sootOf, journal.SootScale)(e)
}

// lastOnWall is the wall as it was graded last: wax left early on may melt yet.
func lastOnWall(e evening) (strength float64, at *journal.Check, looked bool) {
	for i, c := range e.checks {
		if r, ok := journal.Rank(journal.WallWaxScale, c.WallWax); ok {
			strength, at, looked = float64(r), &e.checks[i], true
		}
	}
	return strength, at, looked
}

// drownStrength is 1 where the flame sank into the wax or went out by itself.
func drownStrength(e evening) (float64, *journal.Check, bool) {
	s, at, looked := tick(journal.Drowning)(e)
	if s == 0 && e.b.Ending == journal.WentOut {
		return 1, nil, true
	}
	return s, at, looked || e.b.Ending != ""
}

// watch gathers one fault over candles.
type watch struct {
	sign
	lim Limits
	u   quantity.Units

	rows    [][]float64 // how strong it was, burn by burn, a row for each candle
	places  []string    // where it showed
	showing []evening
	firsts  []quantity.Hours // when it showed, since lighting
	burns   int
	candles int
	early   int // of the burns that showed it or what is graver, with less than half of the wax gone
	late    int // the same with half or more gone
	firstOf []journal.Burn
}

// add looks at one candle.
func (w *watch) add(l journal.CandleLog) {
	burns := l.CountedBurns()
	wax := newWaxLeft(l, burns)
	var row []float64
	var numbers []string
	for _, b := range burns {
		left, weighed := wax.after(b.Burn)
		e := evening{b.Burn, b.CountedChecks(), l.Made, w.lim, w.u}
		strength, at, looked := w.look(e)
		if !looked {
			continue
		}
		row = append(row, strength)
		if strength < w.from {
			continue
		}
		if gone, ok := wax.share(left); weighed && ok && gone < half {
			w.early++
		} else if weighed && ok {
			w.late++
		}
		if w.below > 0 && strength >= w.below {
			continue
		}
		numbers = append(numbers, strconv.Itoa(b.Burn.Number))
		w.show(e, at)
	}
	if len(row) > 0 {
		w.rows = append(w.rows, row)
	}
	if len(numbers) > 0 {
		w.candles++
		w.firstOf = append(w.firstOf, burns[0].Burn)
		w.places = append(w.places, l.Candle.Code()+" "+burnsNamed(numbers))
	}
}

// show notes one burn that showed it.
func (w *watch) show(e evening, at *journal.Check) {
	w.burns++
	w.showing = append(w.showing, e)
	if at != nil {
		w.firsts = append(w.firsts, since(e.b, at.At))
	} else if e.b.OutAt != nil {
		w.firsts = append(w.firsts, since(e.b, *e.b.OutAt))
	}
}

// burnsNamed names burns by their numbers.
func burnsNamed(numbers []string) string {
	switch n := len(numbers); n {
	case 1:
		return "burn " + numbers[0]
	default:
		return "burns " + strings.Join(numbers[:n-1], ", ") + " and " + numbers[n-1]
	}
}

// course puts it into words.
func (w *watch) course() Course {
	c := Course{Fault: w.fault, Burns: w.burns, Candles: w.candles, OfCandles: len(w.rows)}
	for _, r := range w.rows {
		c.Of += len(r)
	}
	if c.Burns == 0 {
		c.Text = "Not seen in " + burnsText(c.Of) + " that " + were(c.Of) + " looked at for it."
		return c
	}
	c.Trend = trendOf(w.rows)
	c.Provisional = w.fault == "Hang-up" && w.early > 0 && w.late == 0
	c.Text = "Seen in " + strconv.Itoa(c.Burns) + " of " + burnsText(c.Of) + " that " + were(c.Of) + " looked at for it: " + strings.Join(w.places, "; ") + "." + w.when() + " " + upper(string(c.Trend)) + "."
	if c.Provisional {
		c.Text += " This is provisional: wax left in the upper half often melts later, so it counts only once half of the wax is burned."
	}
	c.Remedy = w.remedy(w)
	return c
}

func were(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// upper makes the first letter a capital; the text begins with a plain letter.
func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// when says how long after lighting it showed.
func (w *watch) when() string {
	if len(w.firsts) == 0 {
		return ""
	}
	low, high := w.firsts[0], w.firsts[0]
	for _, h := range w.firsts {
		low, high = min(low, h), max(high, h)
	}
	if low.Clock() == high.Clock() {
		return " It was noted " + low.Clock() + " after lighting."
	}
	return " It was noted " + low.Clock() + " to " + high.Clock() + " after lighting."
}

const (
	fewest     = 4   // burns below which no trend is told
	trendLevel = 0.2 // the chance of so clear an order below which a trend is told
)

// trendOf tells a trend from how strong the sign was, burn by burn.
func trendOf(rows [][]float64) Trend {
	switch t := stats.TrendWithin(rows); {
	case t.N < fewest:
		return FewToTell
	case t.P >= trendLevel:
		return NoTrend
	case t.Score > 0:
		return Grows
	}
	return Fades
}
