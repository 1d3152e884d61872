package settle

import (
	"cmp"
	"math"
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Step is the width of a band of pour temperatures (chosen by us: about what a
// maker's thermometer and hand can tell apart).
const Step quantity.Celsius = 5

// Side is where a pour's temperature lay against the supplier's range.
type Side string

// The sides of a range, in order of temperature.
const (
	Below   Side = "below the guidance"
	Inside  Side = "inside the guidance"
	Above   Side = "above the guidance"
	NoGuide Side = "no guidance stated"
	NotRead Side = "temperature not noted"
)

// Band is the candles of pours within one band of temperature.
type Band struct {
	Side      Side             // for a band against the guidance; "" for a step, or NotRead
	From, Top quantity.Celsius // of a step: from From to below Top
	Group     Group
}

// SideOf says where a pour lay against its wax's range for pouring. Both ends of
// the range are inside.
func SideOf(at *quantity.Celsius, guide journal.Range[quantity.Celsius]) Side {
	switch {
	case at == nil:
		return NotRead
	case guide.IsZero():
		return NoGuide
	case guide.Low != nil && *at < *guide.Low:
		return Below
	case guide.High != nil && *at > *guide.High:
		return Above
	}
	return Inside
}

// byGuide parts candles by the guidance; sides without a set candle are left
// out.
func byGuide(logs []journal.CandleLog, now time.Time) []Band {
	of := map[Side][]journal.CandleLog{}
	for _, l := range logs {
		s := SideOf(l.Pour.PouredAt, l.Wax.PourAt)
		of[s] = append(of[s], l)
	}
	var out []Band
	for _, s := range []Side{Below, Inside, Above, NoGuide, NotRead} {
		if g := Of(of[s], now); g.Candles > 0 {
			out = append(out, Band{Side: s, Group: g})
		}
	}
	return out
}

// bySteps parts candles by temperature, the coolest first, and those whose
// temperature was not noted last.
func bySteps(logs []journal.CandleLog, now time.Time) []Band {
	of := map[quantity.Celsius][]journal.CandleLog{}
	var unread []journal.CandleLog
	for _, l := range logs {
		if l.Pour.PouredAt == nil {
			unread = append(unread, l)
			continue
		}
		from := quantity.Celsius(math.Floor(float64(*l.Pour.PouredAt/Step))) * Step
		of[from] = append(of[from], l)
	}
	var out []Band
	for from, in := range of {
		if g := Of(in, now); g.Candles > 0 {
			out = append(out, Band{From: from, Top: from + Step, Group: g})
		}
	}
	slices.SortFunc(out, func(a, b Band) int { return cmp.Compare(a.From, b.From) })
	if g := Of(unread, now); g.Candles > 0 {
		out = append(out, Band{Side: NotRead, Group: g})
	}
	return out
}

func compareNames(a, b journal.Wax) int {
	return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID))
}
