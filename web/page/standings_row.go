package page

import (
	"math"
	"strconv"

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
	Parts               string // what the miss is made of
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
	Behind, Href, Inner string // names what can be opened, its page, and the page without its frame
}

func standingsRow(x standings.Pairing, lone bool, href string, v View) StandingsRow {
	r := StandingsRow{Name: x.Name(), Count: capital(counted(x.Wicks, "wick", "wicks")), Disc: pairingDisc(x),
		Candles: strconv.Itoa(x.Candles), Burns: strconv.Itoa(x.Burns), NotYet: x.NotYet, Doubts: joinWords(x.Warnings...), Running: runningText(x, lone), Href: href, Inner: href + "&inner=1"}
	if x.Enough() {
		r.Closeness, r.Parts = closenessText(x), partsText(x)
		r.Width, r.WidthRange = widthText(x, v)
		r.Full, r.FullRange = fullPool(x)
		r.OnTarget, r.Closest, r.Bar = chanceText(x.OnTarget), chanceText(x.Closest), chart.NewBar(x.Closest)
		if lone {
			r.Closest, r.Bar = "", chart.NewBar(0)
		}
	}
	for _, f := range x.Faults {
		r.Faults = append(r.Faults, f.Name+" in "+strconv.Itoa(f.Burns)+" of "+strconv.Itoa(f.Of))
	}
	for _, f := range x.Hard {
		r.Hard = append(r.Hard, ui.Warning{Hard: true, Text: whereSeen(f) + f.Text})
	}
	r.Behind = "Its curve and readings: " + figured(len(x.Rows), "candle", "candles") + ", " + figured(x.AllBurns, "burn", "burns")
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

// partsText says what a miss is made of: short of the wall, and full too soon.
func partsText(x standings.Pairing) string {
	return quantity.Closeness(100*x.Short).String() + " short, " + quantity.Closeness(100*x.Soon).String() + " too soon"
}

// widthText is the width at the target hour with its interval; where no
// reading was short of the wall only the lower end.
func widthText(x standings.Pairing, v View) (width, span string) {
	if x.AtLeast {
		return "at least " + v.length(quantity.Millimetres(x.Width.P10)).Number, "upper end not known"
	}
	return v.length(quantity.Millimetres(x.Width.P50)).Number, spanText(v.length(quantity.Millimetres(x.Width.P10)).Number, v.length(quantity.Millimetres(x.Width.P90)).Number)
}

// widthSpan writes an interval of widths with the unit.
func widthSpan(p tree.Points, v View) string {
	return spanText(v.length(quantity.Millimetres(p.P10)).Number, v.length(quantity.Millimetres(p.P90)).String())
}

func spanText(low, high string) string { return low + "\u2009–\u2009" + high }

// mayNever stands for a time that may never come.
const mayNever = "may never"

// fullPool is the time to a full pool: the median, and the span that eight in
// ten keep to.
func fullPool(x standings.Pairing) (median, span string) {
	at := func(h float64) string {
		if math.IsInf(h, 1) {
			return mayNever
		}
		return tight(quantity.Hours(h).Clock())
	}
	switch {
	case x.AtLeast:
		return "by " + at(x.Full.P90), ""
	case math.IsInf(x.Full.P10, 1):
		return mayNever, "chance of never: " + chanceText(x.Never)
	}
	return at(x.Full.P50), spanText(at(x.Full.P10), at(x.Full.P90))
}

func chanceText(p float64) string { return quantity.Chance(p).String() }

func closenessText(x standings.Pairing) string { return quantity.Closeness(x.Closeness()).String() }

// whereSeen names the candle and the burn of a finding.
func whereSeen(f safety.Finding) string {
	switch {
	case f.Candle == "":
		return ""
	case f.Burn == 0:
		return f.Candle + ": "
	}
	return f.Candle + ", burn " + strconv.Itoa(f.Burn) + ": "
}
