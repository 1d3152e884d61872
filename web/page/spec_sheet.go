package page

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// SpecSheet is a pairing on one printed page: how it is made, what the decision
// rests on, and what to mind.
type SpecSheet struct {
	Title, Setting string
	Ruling         string
	Draft          string // why it is no plain sheet; "" when it is one
	Parts          []SheetPart
	Evidence       []ui.Fact
	Since          string // whether the evidence has moved
	Findings       []string
	Items          []VerdictItem // what was asked for
	Cautions       []string
	Back           string
}

// SheetPart is a group of facts under one heading.
type SheetPart struct {
	Title string
	Facts []ui.Fact
}

// NewSpecSheet builds the sheet. Evidence is that of the verdict; how it is
// made is read off the candles as they are recorded now.
func NewSpecSheet(x journal.Verdict, g standings.Group, p standings.Pairing, logs []journal.CandleLog, now verdict.Figures, lim safety.Limits, v View) SpecSheet {
	name, setting := PairingTitle(g, p)
	s := SpecSheet{Title: name, Setting: setting, Ruling: rulingText(x, v), Back: verdictHref(x), Cautions: sheetCautions(lim, v)}
	switch {
	case x.IsGone():
		s.Draft = "Draft: the verdict was withdrawn."
	case x.Ruling != journal.Accepted:
		s.Draft = "Draft: this pairing is not accepted."
	}
	s.Parts = []SheetPart{{"Recipe", recipeFacts(logs, v)}, {"Vessel", sheetVessel(p.Vessel, v)}, {"Wick", sheetWick(p, logs, lim, v)}, {"Fill", fillFacts(logs, v)}}
	then, err := verdict.Read(x.Figures)
	if err != nil {
		then = now
	}
	s.Evidence = evidenceFacts(x, then, v)
	_, s.Since = movesOf(then, now, v)
	s.Findings = findingLines(then)
	s.Items = verdictItems(verdict.Asked(then, verdict.ByHand{Tip: x.TipTest, Base: x.BaseCheck}, lim, v.Units))
	return s
}

// spread gathers the values of something over candles or pours.
type spread []float64

func (s *spread) add(v *float64) {
	if v != nil {
		*s = append(*s, *v)
	}
}

func float[T ~float64](v *T) *float64 {
	if v == nil {
		return nil
	}
	f := float64(*v)
	return &f
}

// shown writes the span of values: one, or the least and the greatest.
func (s spread) shown(show func(float64) quantity.Shown) quantity.Shown {
	if len(s) == 0 {
		return quantity.Shown{Number: "not recorded"}
	}
	low, high := show(slices.Min(s)), show(slices.Max(s))
	if low == high {
		return low
	}
	return quantity.Shown{Number: low.Number + "–" + high.Number, Unit: high.Unit}
}

// poursOf are the pours that candles were made of, each once.
func poursOf(logs []journal.CandleLog) []journal.CandleLog {
	var out []journal.CandleLog
	for _, l := range logs {
		if !slices.ContainsFunc(out, func(o journal.CandleLog) bool { return o.Pour.ID == l.Pour.ID }) {
			out = append(out, l)
		}
	}
	return out
}

func overPours(logs []journal.CandleLog, of func(journal.Pour) *float64) spread {
	var s spread
	for _, l := range poursOf(logs) {
		s.add(of(l.Pour))
	}
	return s
}

// recipeFacts are the batches that the evidence was poured from, with the
// supplier's guidance beside what was done.
func recipeFacts(logs []journal.CandleLog, v View) []ui.Fact {
	if len(logs) == 0 {
		return nil
	}
	var l factList
	m := logs[0]
	degrees := func(f float64) quantity.Shown { return v.temperature(quantity.Celsius(f)) }
	guided := func(label string, s spread, g journal.Range[quantity.Celsius]) {
		is := s.shown(degrees)
		l = append(l, ui.Fact{Label: label, Text: is.Number, Unit: is.Unit, More: sheetGuide(g, v)})
	}
	l = append(l, ui.Fact{Label: "Wax", Text: m.Wax.Name, More: lotsText(logs, func(p journal.Pour) string { return p.WaxLot })})
	if m.Fragrance != nil {
		l = append(l, ui.Fact{Label: "Fragrance", Text: m.Fragrance.Name, More: lotsText(logs, func(p journal.Pour) string { return p.FragranceLot })})
	}
	l = append(l, loadFact(logs))
	guided("Heated to", overPours(logs, func(p journal.Pour) *float64 { return float(p.HeatedTo) }), m.Wax.HeatTo)
	guided("Fragrance added at", overPours(logs, func(p journal.Pour) *float64 { return float(p.OilAt) }), m.Wax.AddOilAt)
	guided("Poured at", overPours(logs, func(p journal.Pour) *float64 { return float(p.PouredAt) }), m.Wax.PourAt)
	l = append(l, ui.Fact{Label: "Vessel warmed", Text: warmedText(logs, v)})
	l.shown("Room", overPours(logs, func(p journal.Pour) *float64 { return float(p.Room) }).shown(degrees))
	cure := curedSpread(logs).shown(func(f float64) quantity.Shown { return quantity.Days(f).Shown() })
	l = append(l, ui.Fact{Label: "Cured before the first burn", Text: cure.Number, Unit: cure.Unit, More: guideOf(rangeText(m.Wax.CureDays, quantity.Days.Shown), m.Wax.CureDays.IsZero())})
	return l
}

func sheetGuide(g journal.Range[quantity.Celsius], v View) string {
	return guideOf(rangeText(g, v.temperature), g.IsZero())
}

func guideOf(s quantity.Shown, none bool) string {
	if none {
		return "supplier: not stated"
	}
	return "supplier: " + s.String()
}

// lotsText lists the lots that were used.
func lotsText(logs []journal.CandleLog, of func(journal.Pour) string) string {
	var lots []string
	for _, l := range poursOf(logs) {
		if t := of(l.Pour); t != "" && !slices.Contains(lots, t) {
			lots = append(lots, t)
		}
	}
	if len(lots) == 0 {
		return "lot not recorded"
	}
	return "tested: lot " + strings.Join(lots, ", ")
}

// loadFact is the load on both bases, for labels and safety sheets count it
// differently from recipes.
func loadFact(logs []journal.CandleLog) ui.Fact {
	percent := func(f float64) quantity.Shown { return quantity.Fraction(f).Percent() }
	wax := overPours(logs, func(p journal.Pour) *float64 { return float(p.LoadOn(journal.OfWax)) }).shown(percent)
	total := overPours(logs, func(p journal.Pour) *float64 { return float(p.LoadOn(journal.OfTotal)) }).shown(percent)
	if wax.Unit == "" {
		return ui.Fact{Label: "Fragrance load", Text: wax.Number}
	}
	return ui.Fact{Label: "Fragrance load", Text: wax.Number, Unit: "% of the wax", More: total.String() + " of the whole"}
}

func warmedText(logs []journal.CandleLog, v View) string {
	ps := poursOf(logs)
	warm := overPours(logs, func(p journal.Pour) *float64 { return float(p.VesselWarmed) })
	if len(warm) == 0 {
		return "no, or not recorded"
	}
	s := warm.shown(func(f float64) quantity.Shown { return v.temperature(quantity.Celsius(f)) }).String()
	if len(warm) < len(ps) {
		s += ", in " + strconv.Itoa(len(warm)) + " of " + figured(len(ps), "pour", "pours")
	}
	return s
}

// curedSpread is how many days lay between pour and first burn.
func curedSpread(logs []journal.CandleLog) spread {
	var s spread
	for _, l := range logs {
		if len(l.Burns) > 0 {
			days := math.Floor(l.Burns[0].Burn.LitAt.Sub(l.Pour.At).Hours() / 24)
			s.add(&days)
		}
	}
	return s
}

func sheetVessel(x journal.Vessel, v View) []ui.Fact {
	var l factList
	l.text("Vessel", x.Name)
	l.text("Inside at the wax line", wallText(x, v))
	l.text("Material", string(x.Material))
	maybe(&l, "Fill height", x.FillHeight, v.length)
	maybe(&l, "Volume to the fill line", x.Volume, v.volume)
	maybe(&l, "Empty", x.EmptyMass, v.mass)
	l.text("Supplier’s glass certificate", yesNo(x.Certificate))
	return l
}

func sheetWick(p standings.Pairing, logs []journal.CandleLog, lim safety.Limits, v View) []ui.Fact {
	var l factList
	l = append(l, ui.Fact{Label: "Wick", Text: p.Name(), More: joinBy(", ", string(p.Ladder.Kind), p.Ladder.Core)})
	l.text("In each candle", counted(p.Wicks, "wick", "wicks"))
	var trim spread
	for _, c := range logs {
		for _, b := range c.Burns {
			trim.add(float(b.Burn.Trim))
		}
	}
	t := trim.shown(func(f float64) quantity.Shown { return v.length(quantity.Millimetres(f)) })
	l = append(l, ui.Fact{Label: "Trimmed before each burn to", Text: v.length(lim.Trim()).String(), More: "in the tests: " + t.String()})
	return l
}

// fillFacts are the masses that were filled; net mass is what a label states,
// in grams and ounces (16 CFR 500.19: 1 oz is 28.3495 g).
func fillFacts(logs []journal.CandleLog, v View) []ui.Fact {
	var s spread
	for _, l := range logs {
		s.add(float(l.Candle.Filled))
	}
	if len(s) == 0 {
		return []ui.Fact{{Label: "Filled mass", Text: "not recorded"}}
	}
	sum := 0.0
	for _, x := range s {
		sum += x
	}
	mean := quantity.Grams(sum / float64(len(s)))
	in := s.shown(func(f float64) quantity.Shown { return v.mass(quantity.Grams(f)) })
	ounces := quantity.Units{Mass: quantity.InOunces}
	return []ui.Fact{
		{Label: "Filled mass", Text: v.mass(mean).Number, Unit: v.mass(mean).Unit, More: in.String() + " over " + figured(len(s), "candle", "candles")},
		{Label: "Net mass, by these tests", Text: quantity.Metric.ShowMass(mean).String(), More: ounces.ShowMass(mean).String() + "; a label may state no more than the least that is filled: " + quantity.Metric.ShowMass(quantity.Grams(slices.Min(s))).String()},
	}
}

// evidenceFacts are the figures that the verdict rested on.
func evidenceFacts(x journal.Verdict, f verdict.Figures, v View) []ui.Fact {
	var l factList
	l = append(l, ui.Fact{Label: "Tested", Text: figured(f.Candles, "candle", "candles") + ", " + figured(f.Burns, "burn", "burns"), More: figured(f.Ended, "burned to the end", "burned to the end")})
	target := tight(quantity.Hours(f.Target).Clock())
	if f.Known {
		l = append(l,
			ui.Fact{Label: "Pool at " + target + " with no wall", Text: sheetSpan(f.Width, f.AtLeast, v), More: "80 % interval of the pairing’s average"},
			ui.Fact{Label: "Next candle", Text: sheetSpan(f.Next, f.AtLeast, v), More: "eight in ten"},
			ui.Fact{Label: "Full in time and not too soon", Text: "chance " + chanceText(f.OnTarget), More: "never full: " + chanceText(f.Never)},
			ui.Fact{Label: "Full pool after", Text: sheetFull(f.Full), More: "eight in ten"})
	} else {
		l.text("Pool at "+target, "not enough yet")
	}
	if f.Rate != nil {
		more := figured(f.RateCandles, "candle", "candles")
		if f.Rate.High > 0 {
			more = "95 % interval " + quantity.Number(f.Rate.Low, 1) + "–" + quantity.GramsPerHour(f.Rate.High).String() + ", " + more
		}
		l = append(l, ui.Fact{Label: "Burn rate", Text: quantity.GramsPerHour(f.Rate.Mid).String(), More: more})
	}
	if f.AfterSmoke != nil {
		l = append(l, ui.Fact{Label: "After-smoke, mean", Text: quantity.Seconds(*f.AfterSmoke).Shown().String(), More: figured(f.SmokeBurns, "burn", "burns")})
	}
	return append(l, labelFacts(x, f)...)
}

// labelFacts are the burn time that may go on a label and the one that is
// meant for it.
func labelFacts(x journal.Verdict, f verdict.Figures) []ui.Fact {
	var l factList
	bound, ok := f.LabelTime()
	if !ok {
		l = append(l, ui.Fact{Label: "Burn time for the label", Text: "not enough yet", More: "it takes " + counted(life.LabelNeeds, "candle", "candles") + " burned to the end"})
	} else {
		l = append(l, ui.Fact{Label: "Burn time for the label, at most", Text: bound.WholeDown().String(), More: "nine candles in ten last longer, at 90 % confidence; from " + figured(f.LabelOn, "candle", "candles")})
	}
	if x.Claimed != nil {
		l = append(l, ui.Fact{Label: "Meant for the label", Text: hoursPlain(*x.Claimed), More: claimText(x, f)})
	}
	return l
}

func sheetSpan(s verdict.Span, atLeast bool, v View) string {
	if atLeast {
		return "at least " + v.length(quantity.Millimetres(s.Low)).String()
	}
	return spanText(v.column(s.Low), v.column(s.High)) + " " + v.Units.Length.Word()
}

func sheetFull(full [3]*float64) string {
	at := func(h *float64) string {
		if h == nil {
			return mayNever
		}
		return tight(quantity.Hours(*h).Clock())
	}
	if full[0] == nil {
		return mayNever
	}
	return spanText(at(full[0]), at(full[2]))
}

// findingLines are the hard findings, then the faults with how often each
// showed.
func findingLines(f verdict.Figures) []string {
	out := slices.Clone(f.Hard)
	for _, c := range f.Faults {
		out = append(out, capital(c.Name)+": in "+strconv.Itoa(c.Burns)+" of "+figured(c.Of, "burn", "burns")+" looked at.")
	}
	if len(out) == 0 {
		return []string{"Nothing that was recorded lies outside the limits kept here. That is no proof of safety."}
	}
	return out
}

// sheetCautions are the usual cautions in plain words.
func sheetCautions(lim safety.Limits, v View) []string {
	return []string{
		"Never leave a burning candle. Keep it from children and animals.",
		"Burn at most " + lim.LongestBurn().Clock() + " at a time, then let it cool.",
		"Trim the wick to " + v.length(lim.Trim()).String() + " before every burn.",
		"Stop when " + v.length(lim.WaxLeft()).String() + " of wax is left.",
		"Still air, away from anything that can burn, on something that heat does not harm.",
		"Put it out with a lid. Never pour water on burning wax.",
		"Do not move it while the wax is liquid; the vessel may be hot.",
	}
}
