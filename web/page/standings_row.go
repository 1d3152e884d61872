package page

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
	"rimward/web/chart"
	"rimward/web/ui"
)

// StandingsRow is one pairing.
type StandingsRow struct {
	Rank, Name, Count   string
	Disc                chart.Disc
	Closeness           string
	Short, Soon         string // what the miss is made of
	Width, WidthRange   string // at the target hour
	Full, FullRange     string // hours to a full pool
	OnTarget, Closest   string
	Bar                 chart.Bar
	Running             string // what is said of one still in the running
	Candles, Burns      string
	Faults              []string
	Hard                []ui.Warning // why it stands below the line
	Doubts              string
	NotYet              string
	Key                 string // names it for side by side
	Verdict             string // accepted or rejected; "" for neither
	Behind, Href, Inner string // names what can be opened, its page, and the page without its frame
}

func standingsRow(x standings.Pairing, lone bool, href string, v View) StandingsRow {
	r := StandingsRow{Name: x.Name(), Count: capital(counted(x.Wicks, "wick", "wicks")), Disc: pairingDisc(x),
		Candles: strconv.Itoa(x.Candles), Burns: strconv.Itoa(x.Burns), NotYet: x.NotYet, Doubts: joinWords(rowDoubts(x)...), Running: runningText(x, lone), Href: href, Inner: href + "&inner=1"}
	if x.Enough() {
		r.Closeness, r.Short, r.Soon = closenessText(x), quantity.Closeness(100*x.Short).String(), quantity.Closeness(100*x.Soon).String()
		r.Width, r.WidthRange = widthText(x, v)
		r.Full, r.FullRange = fullPool(x)
		r.OnTarget, r.Closest, r.Bar = chanceText(x.OnTarget), chanceText(x.Closest), chart.NewBar(x.Closest)
		if lone {
			r.Closest, r.Bar = "", chart.NewBar(0)
		}
	}
	for _, f := range x.Faults {
		r.Faults = append(r.Faults, f.Name+": "+tight(strconv.Itoa(f.Burns)+" of "+strconv.Itoa(f.Of)))
	}
	for _, f := range x.Hard {
		r.Hard = append(r.Hard, ui.Warning{Hard: true, Text: whereSeen(f, v) + f.Text})
	}
	r.Behind = "Its curve and readings: " + figured(len(x.Rows), "candle", "candles") + ", " + burnsBehind(x)
	return r
}

// runningText says that a pairing may be the closest.
func runningText(x standings.Pairing, lone bool) string {
	switch {
	case lone && x.Running:
		return "nothing to compare it with yet"
	case x.Running && x.Closest >= standings.SureEnough:
		return "the closest"
	case x.Running:
		return "still in the running"
	}
	return ""
}

// pairingDisc draws the pool at the target hour with its 80 % ring.
func pairingDisc(x standings.Pairing) chart.Disc {
	s := chart.DiscSpec{Shape: string(x.Vessel.Shape), Length: float64(x.Vessel.Length()), Width: float64(x.Vessel.InnerWidth),
		Wicks: x.Wicks, Decorative: true, Unlit: !x.Enough()}
	if x.Enough() {
		share := x.Width.P50 / float64(x.Vessel.Width())
		s.PoolA, s.PoolB = s.Length*share, s.Width*share
		s.Low = x.Width.P10 / float64(x.Vessel.Width())
		if !x.AtLeast {
			s.High = x.Width.P90 / float64(x.Vessel.Width())
		}
	}
	return chart.NewDisc(s)
}

// widthText is the width at the target hour with its interval; where no
// reading was short of the wall only the lower end.
func widthText(x standings.Pairing, v View) (width, span string) {
	if x.AtLeast {
		return "at least " + v.column(x.Width.P10), "upper end not known"
	}
	return v.column(x.Width.P50), spanText(v.column(x.Width.P10), v.column(x.Width.P90))
}

// column writes a width in mm for a column of numbers.
func (v View) column(mm float64) string { return v.Units.ColumnLength(quantity.Millimetres(mm)) }

// widthSpan writes an interval of widths with the unit.
func widthSpan(p tree.Points, v View) string {
	return spanText(v.column(p.P10), v.column(p.P90)) + " " + v.Units.Length.Word()
}

func spanText(low, high string) string { return low + "\u2009–\u2009" + high }

// mayNever stands for a time that may never come.
const mayNever = "may never"

// fullPool is the time to a full pool: the median, and the span that eight in
// ten keep to.
func fullPool(x standings.Pairing) (median, span string) {
	at := func(h float64) string {
		switch {
		case math.IsInf(h, 1):
			return mayNever
		case quantity.Hours(h) > longestSaid(x):
			return "over " + tight(longestSaid(x).Clock())
		}
		return tight(quantity.Hours(h).Clock())
	}
	switch {
	case x.AtLeast && !math.IsInf(x.Full.P90, 1):
		return "by " + at(x.Full.P90), ""
	case math.IsInf(x.Full.P10, 1):
		return mayNever, "chance of never: " + chanceText(x.Never)
	}
	return at(x.Full.P50), spanText(at(x.Full.P10), at(x.Full.P90))
}

// longestSaid is the longest time that is told: no burn goes on for longer
// than four hours, or than the target hour where that is later.
func longestSaid(x standings.Pairing) quantity.Hours {
	return max(journal.LongestBurn, x.Vessel.Target())
}

func chanceText(p float64) string { return quantity.Chance(p).String() }

func closenessText(x standings.Pairing) string { return quantity.Closeness(x.Closeness()).String() }

// burnsBehind counts the burns, and those that count where some do not.
func burnsBehind(x standings.Pairing) string {
	if x.Burns == x.AllBurns {
		return figured(x.AllBurns, "burn", "burns")
	}
	return strconv.Itoa(x.Burns) + " of " + figured(x.AllBurns, "burn", "burns") + " count"
}

// rowDoubts are the doubts that a row shows; how widths were measured stands
// with the readings.
func rowDoubts(x standings.Pairing) []string {
	return slices.DeleteFunc(slices.Clone(x.Warnings), func(w string) bool { return strings.HasSuffix(w, standings.OneWayOnly) })
}

// whereSeen names the candle, the burn and the day of a finding.
func whereSeen(f safety.Finding, v View) string {
	if f.Candle == "" {
		return ""
	}
	burn, day := "", ""
	if f.Burn != 0 {
		burn = "burn " + strconv.Itoa(f.Burn)
	}
	if !f.At.IsZero() {
		day = v.Day(f.At)
	}
	return joinBy(", ", f.Candle, burn, day) + ": "
}
