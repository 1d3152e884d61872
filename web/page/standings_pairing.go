package page

import (
	"math"
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/web/chart"
	"rimward/web/ui"
)

// PairingPage is what one pairing's standing rests on: its curve, and every
// burn with the readings that were used and left out.
type PairingPage struct {
	Title, Lede string
	Back        string
	Beside      string // where it stands side by side
	Hard        []ui.Warning
	Doubts      []string
	Facts       []ui.Fact
	Growth      *GrowthPair
	Charts      []ChartFigure // that stand open
	MoreCharts  []ChartFigure // that can be opened
	MoreText    string
	Reads       string // what the numbers of a burn are
	Candles     []PairingCandle
	Life        PairingLife
	Found       *FindingsPart // nil where only the rest was asked for
	Throw       ThrowPart
	Verdict     PairingVerdict
}

// PairingCandle is what one candle adds to its pairing.
type PairingCandle struct {
	Code, Href string
	Burns      []PairingBurn
}

// PairingBurn is what one burn adds to its candle.
type PairingBurn struct {
	Number, Day string
	Width       string // of the fitted curve at the target hour; "" when it does not count
	Why         string // why the burn does not count
	Readings    []PairingReading
	LeftOut     []string
}

// PairingReading is one reading beside the fitted curve.
type PairingReading struct {
	Hour, Read, Fitted string
	Slip               bool
}

// PairingChoice is which pairing was asked for.
type PairingChoice struct {
	Vessel, Wax, Wick journal.ID
	Series            string
}

// ReadPairingChoice reads the choice from the address.
func ReadPairingChoice(q url.Values) PairingChoice {
	return PairingChoice{Vessel: queryNumber(q, "vessel"), Wax: queryNumber(q, "wax"), Wick: queryNumber(q, "wick"), Series: q.Get("series")}
}

// Picks reports whether it is the series that was asked for.
func (c PairingChoice) Picks(s *standings.Stack) bool {
	return s.Vessel.ID == c.Vessel && (c.Wax == 0 || s.Wax() == c.Wax) && s.Key() == c.Series
}

// NewPairingPage shows one pairing of a series in a group.
func NewPairingPage(g standings.Group, s standings.Series, x standings.Pairing, v View) PairingPage {
	p := PairingPage{Title: wickCount(x.Wicks) + x.Name() + " in " + g.Vessel.Name, Lede: groupLede(g, len(x.Rows), x.AllBurns, v), Back: "/standings?vessel=" + idText(g.Vessel.ID)}
	p.Beside = sidesAddress([]SidesKey{sidesKeyOf(g, s, x)})
	if len(g.Settings) > 0 {
		p.Back += "&wax=" + idText(g.Settings[0].Wax.ID) + "&setting=" + s.Setting
	}
	p.Reads = "For each burn: the width at " + tight(g.Target.Clock()) + " with no wall, by the curve fitted to it; then what was read at each hour, and the curve’s own width, in " + v.Units.Length.Word() + "."
	if g.Vessel.Shape != journal.Round {
		p.Reads += " The widths are the geometric mean of both ways across, as is the wall."
	}
	p.Doubts = x.Warnings
	if x.NotYet != "" {
		p.Doubts = append([]string{x.NotYet}, p.Doubts...)
	}
	for _, f := range x.Hard {
		p.Hard = append(p.Hard, ui.Warning{Hard: true, Text: whereSeen(f, v) + f.Text})
	}
	if x.Enough() {
		p.Facts, p.Growth = pairingFacts(x, v), pairingGrowth(x, v)
	}
	p.Charts, p.MoreCharts = pairingCharts(g, s, x, p.Growth, v)
	if len(p.MoreCharts) > 0 {
		p.MoreText = "When each pool was full, " + figured(x.AllBurns, "burn", "burns")
	}
	for _, c := range x.Rows {
		out := PairingCandle{Code: c.Name}
		if c.Candle.ID != 0 {
			out.Href = "/candles/" + idText(c.Candle.ID)
		}
		for _, b := range c.Burns {
			out.Burns = append(out.Burns, pairingBurn(b, x, v))
		}
		p.Candles = append(p.Candles, out)
	}
	return p
}

// pairingFacts say what is expected of the next candle.
func pairingFacts(x standings.Pairing, v View) []ui.Fact {
	var l factList
	average, next := widthSpan(x.Width, v), widthSpan(x.Next, v)
	if x.AtLeast {
		average = "at least " + v.length(quantity.Millimetres(x.Width.P10)).String()
		next = "at least " + v.length(quantity.Millimetres(x.Next.P10)).String()
	}
	l.text("On average at "+tight(x.Vessel.Target().Clock())+" with no wall", average)
	l.text("Next candle at "+tight(x.Vessel.Target().Clock())+" with no wall", next)
	l = append(l, ui.Fact{Label: "Full by " + tight(x.Vessel.Target().Clock()), Text: "chance " + chanceText(x.FullByTarget), More: "never full: " + chanceText(x.Never)})
	l.text("Full before "+tight((x.Vessel.Target()/2).Clock())+", too soon", "chance "+chanceText(x.FullBeforeHalf))
	return l
}

func pairingBurn(b standings.BurnRow, x standings.Pairing, v View) PairingBurn {
	out := PairingBurn{Number: strconv.Itoa(b.Number), Day: v.Day(b.LitAt)}
	switch {
	case !b.Used():
		out.Why = "does not count: " + b.Why
	case b.SawRim():
		out.Width = v.column(math.Exp(b.Fit.Theta)*float64(x.Vessel.Width())) + " " + v.Units.Length.Word()
	default:
		out.Width = "full"
	}
	for i, r := range b.Readings {
		read := PairingReading{Hour: tight(r.Hour.Clock()), Read: "full"}
		if !r.Full {
			read.Read = v.length(quantity.Millimetres(r.Ratio) * x.Vessel.Width()).Number
		}
		if i < len(b.Fit.Checks) {
			read.Slip = b.Fit.Checks[i].Slip
			if b.SawRim() {
				read.Fitted = v.column(float64(b.Fit.Checks[i].Width))
			}
		}
		out.Readings = append(out.Readings, read)
	}
	for _, o := range b.LeftOut {
		out.LeftOut = append(out.LeftOut, "left out: the check of "+v.Clock(o.At)+", "+o.Why)
	}
	return out
}

// pairingGrowth draws every burn of a pairing with the band that its next
// candle is expected in.
func pairingGrowth(x standings.Pairing, v View) *GrowthPair {
	unit := v.Units.Length
	s := chart.GrowthSpec{
		ID: "pairing-" + idText(x.Wick.ID), Title: "Width of the pool against time, " + x.Name(), Unit: unit.Word(),
		Desc: "A dot for each reading short of the wall, a tick on the wall for each full one. The curve is the pool expected of the next candle if no wall stopped it; eight in ten keep within its band.",
		Wall: unit.Of(x.Vessel.Width()), WallLabel: "wall " + v.length(x.Vessel.Width()).String(),
		Target: float64(x.Vessel.Target()), TargetLabel: "target " + x.Vessel.Target().Clock(), MaxHour: float64(longestSaid(x)),
		Value:   func(w float64) string { return v.length(unit.From(w)).Number },
		Caption: bandCaption(x),
		Bands:   []chart.GrowthBand{band(x, v)},
		Cloud:   true,
	}
	if unit == quantity.InInches {
		s.Steps = chart.InchSteps
	}
	for _, c := range x.Rows {
		for _, b := range c.Burns {
			if b.Used() {
				s.Burns = append(s.Burns, growthRow(c, b, x, v))
			}
		}
	}
	s.Table = bandTable(x, v)
	return &GrowthPair{chart.NewGrowth(s, chart.Wide), chart.NewGrowth(s, chart.Narrow)}
}

// bandCaption says what the dots, the ticks and the curve are.
func bandCaption(x standings.Pairing) string {
	if x.AtLeast {
		return "Each tick on the wall is a full reading. No reading was short of the wall: the curve is a lower bound, which nine next candles in ten exceed."
	}
	return "Each dot is a reading, each tick on the wall a full one. The curve is the pool expected of the next candle if no wall stopped it; eight in ten keep within the band."
}

// bandHours are the hours at which a band is read, so far apart.
func bandHours(x standings.Pairing, step quantity.Hours) []quantity.Hours {
	var out []quantity.Hours
	for h := step; h <= longestSaid(x)+step/2; h += step {
		out = append(out, h)
	}
	return out
}

func band(x standings.Pairing, v View) chart.GrowthBand {
	hours := bandHours(x, 0.125)
	out := chart.GrowthBand{Label: "next candle"}
	width := func(mm float64) float64 { return v.Units.Length.Of(quantity.Millimetres(mm)) }
	for i, p := range x.Band(hours) {
		if x.AtLeast {
			p.P50, p.P90 = p.P10, p.P10
		}
		out.Points = append(out.Points, chart.BandPoint{Hour: float64(hours[i]), Low: width(p.P10), Mid: width(p.P50), High: width(p.P90)})
	}
	return out
}

// bandTable is the band at whole and half hours.
func bandTable(x standings.Pairing, v View) chart.Table {
	hours, unit := bandHours(x, 0.5), v.Units.Length.Word()
	t := chart.Table{Name: "The curve as a table", Head: []string{"Hour", "One in ten below, " + unit, "Half below, " + unit, "One in ten above, " + unit}}
	if x.AtLeast {
		t.Head = t.Head[:2]
	}
	for i, p := range x.Band(hours) {
		t.Rows = append(t.Rows, []string{hours[i].Clock(), v.column(p.P10), v.column(p.P50), v.column(p.P90)}[:len(t.Head)])
	}
	return t
}

func growthRow(c standings.CandleRow, b standings.BurnRow, x standings.Pairing, v View) chart.GrowthBurn {
	g := chart.GrowthBurn{Label: c.Name + " " + strconv.Itoa(b.Number), Short: strconv.Itoa(b.Number)}
	for _, r := range b.Readings {
		g.Points = append(g.Points, chart.GrowthPoint{Hour: float64(r.Hour), Width: r.Ratio * v.Units.Length.Of(x.Vessel.Width()), Full: r.Full})
	}
	return g
}
