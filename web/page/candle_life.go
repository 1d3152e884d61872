package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// CandleLife is how fast a candle burns, how long it lasts, and whether its last
// third differs from its first.
type CandleLife struct {
	Show    bool // there is a burn that counts
	Facts   []ui.Fact
	Notes   []string
	Missing []LifeMissing
	Late    []ui.Fact // late burns against early ones
	LateWhy string    // instead of them
}

// LifeMissing is something that is missing, with the place to add it.
type LifeMissing struct{ Text, Link, Href string }

// newCandleLife reads the life of one candle.
func newCandleLife(l journal.CandleLog, lim safety.Limits, v View) CandleLife {
	if l.Life().Burns == 0 {
		return CandleLife{}
	}
	r, t := life.RatesOf(l), life.TotalOf(l, lim.WaxLeft())
	p := CandleLife{Show: true, Facts: []ui.Fact{litFact(l, t, v)}}
	if r.Any() {
		p.Facts = append(p.Facts, rateFact(r), drifting(r), firstHourFact(r.First), heatFact(l.Wax, r.Overall, r.OverallRange))
	}
	if !t.Ended() && t.Why != life.Withdrawn {
		p.left(l, r, lim, v)
	}
	p.Notes = append(p.Notes, totalNotes(t, lim, v)...)
	for _, o := range r.Odd {
		p.Notes = append(p.Notes, "Burn "+strconv.Itoa(o.Number)+" has no rate: "+o.Why+".")
	}
	p.late(life.LateEarly([]journal.CandleLog{l}, lim.WaxLeft(), v.Now), v)
	return p
}

// litFact is how long it was lit, and how that ended.
func litFact(l journal.CandleLog, t life.Total, v View) ui.Fact {
	f := ui.Fact{Label: "Lit so far", Text: litFor(l, v), More: string(t.Why)}
	if t.Ended() {
		f.Label, f.More = "Total life", "burned to the end"
		if t.Height != nil {
			f.More += ", " + tight(v.length(*t.Height).String()) + " of wax left"
		}
	}
	return f
}

// rateFact is the rate over the whole candle.
func rateFact(r life.Rates) ui.Fact {
	s := r.Overall.Shown()
	f := ui.Fact{Label: "Burn rate, all hours", Text: s.Number, Unit: s.Unit}
	f.More = joinBy("; ", rateRange(r.OverallRange), "over "+counted(len(r.Burns), "weighed burn", "weighed burns"), eachAlike(r))
	return f
}

// eachAlike is the mean over burns where it reads otherwise than the rate over
// all hours.
func eachAlike(r life.Rates) string {
	if r.Mean.Shown() == r.Overall.Shown() {
		return ""
	}
	return tight(r.Mean.Shown().String()) + " if every burn counts alike"
}

// drifting says whether the candle burns faster or slower as it goes.
func drifting(r life.Rates) ui.Fact {
	f := ui.Fact{Label: "From burn to burn"}
	pace := r.Pace()
	switch pace {
	case life.FewBurns:
		f.Text, f.More = "not enough yet", counted(life.PaceBurns, "weighed burn shows", "weighed burns show")+" whether it drifts"
		return f
	case life.SpeedsUp, life.SlowsDown:
		f.Text = "not steady: it " + string(pace)
	default:
		f.Text = string(pace)
	}
	f.More = driftWords(r.DriftRange)
	if pace == life.NoDrift && r.DriftRange.Known {
		f.More += "; it is called steady once that lies within " + tight(quantity.Fraction(life.SteadyWithin).Percent().String()) + " of its rate either way"
	}
	return f
}

// driftWords writes by how much the rate may change over some hours.
func driftWords(i life.Interval) string {
	over := "change in " + quantity.Hours(life.DriftSpan).Decimal().String() + ": "
	if !i.Known {
		return over + tooAlike
	}
	low, high := quantity.GramsPerHour(i.Low*life.DriftSpan), quantity.GramsPerHour(i.High*life.DriftSpan)
	return over + intervalWords() + "from " + signed(low) + " to " + signed(high)
}

// signed writes a change of rate with its sign.
func signed(r quantity.GramsPerHour) string {
	s := r.FineShown()
	switch {
	case s.Number == "0":
		return tight(s.String())
	case r > 0:
		return tight("+" + s.String())
	}
	return tight("−" + s.Number[1:] + " " + s.Unit)
}

// firstHourFact is the first hour of a burn apart from the rest, or why not.
func firstHourFact(h life.FirstHour) ui.Fact {
	f := ui.Fact{Label: "First hour of a burn"}
	if !h.Told() {
		f.Text, f.More = "cannot be told apart", h.Why
		return f
	}
	s := h.Hour.Shown()
	f.Text, f.Unit = s.Number, s.Unit
	rest := "the hours after it " + tight(h.Later.Shown().String())
	low, high := quantity.GramsPerHour(h.ExtraRange.Low), quantity.GramsPerHour(h.ExtraRange.High)
	differs := "no clear difference"
	if h.ExtraRange.Apart() {
		differs = "they differ"
	}
	f.More = rest + "; " + differs + " (" + intervalWords() + "from " + signed(low) + " to " + signed(high) + ")"
	return f
}

// left adds how long the candle lasts yet, or what is missing to tell.
func (p *CandleLife) left(l journal.CandleLog, r life.Rates, lim safety.Limits, v View) {
	x := life.LeftOf(l, r, lim.WaxLeft(), lim.LongestBurn(), v.Now)
	stop := v.length(lim.WaxLeft()).String()
	if !x.Known() {
		p.Facts = append(p.Facts, ui.Fact{Label: "Hours left to " + stop + " of wax", Text: "cannot tell yet"})
		for _, what := range x.Lacks {
			p.Missing = append(p.Missing, missingPlace(what, l))
		}
		return
	}
	f := ui.Fact{Label: "Hours left to " + stop + " of wax", Text: "none", More: "put it out for good"}
	if !x.Down() {
		h := x.Hours.Decimal()
		f.Text, f.Unit = "about "+h.Number, h.Unit
		f.More = joinBy("; ", hoursRange(x.HoursRange), counted(x.Sittings, "burn", "burns")+" of at most "+tight(lim.LongestBurn().Clock()))
	}
	wax := v.mass(x.Wax)
	p.Facts = append(p.Facts, f, ui.Fact{Label: "Wax now", Text: "about " + wax.Number, Unit: wax.Unit,
		More: tight(v.length(x.Height).String()) + " high; falls " + tight(v.Units.ShowFall(x.Drop).String())})
	p.Notes = append(p.Notes, leftNotes(x)...)
}

// hoursRange writes an interval of hours.
func hoursRange(i life.Interval) string {
	switch {
	case i.Alike:
		return tooAlike
	case !i.Known:
		return "too few weighings for an interval"
	}
	low, high := quantity.Hours(i.Low).Decimal(), quantity.Hours(i.High).Decimal()
	return intervalWords() + spanOfShown(low, high)
}

// leftNotes are the doubts about the hours left.
func leftNotes(x life.Left) []string {
	var out []string
	if x.Reckoned > 0 {
		out = append(out, "It burned for "+x.Reckoned.Clock()+" since it was last weighed; the wax of that time is reckoned with its rate.")
	}
	if x.ByVessel {
		out = append(out, "The wax is the last weighing less the empty vessel, for the filled mass or the first weighing is missing.")
	}
	if x.Disagree {
		out = append(out, "The filled mass and the first weighing less the empty vessel lie far apart. Look at the three masses again.")
	}
	return out
}

// missingPlace names what is missing and the place to add it.
func missingPlace(what life.Lacks, l journal.CandleLog) LifeMissing {
	m := LifeMissing{Text: "The hours left ask for " + string(what) + "."}
	switch what {
	case life.LacksDensity:
		m.Link, m.Href = "Add it to "+l.Wax.Name, "/shelf/waxes/"+idText(l.Wax.ID)+"/edit"
	case life.LacksMass:
		m.Link, m.Href = "Add the filled mass", "/candles/"+idText(l.Candle.ID)+"/edit"
	case life.LacksShape:
		m.Link, m.Href = "Look at "+l.Vessel.Name, "/shelf/vessels/"+idText(l.Vessel.ID)+"/edit"
	default:
		m.Link, m.Href = "Weigh the candles that are cold", "/weigh"
	}
	return m
}

// totalNotes are the doubts about a life that has ended.
func totalNotes(t life.Total, lim safety.Limits, v View) []string {
	stop := v.length(lim.WaxLeft()).String()
	switch {
	case t.TooMuchLeft:
		return []string{"It was called spent with more than " + stop + " of wax: it might have lasted longer."}
	case t.TooFar:
		return []string{"It was burned below " + stop + " of wax. The last burn should end there, so the last of these hours do not count for a label."}
	}
	return nil
}

// late adds late burns against early ones.
func (p *CandleLife) late(changes []life.Change, v View) {
	p.Late, p.LateWhy = lateFacts(changes, v)
}

// lateFacts writes what changed between the first and the last third; why when
// nothing can be told.
func lateFacts(changes []life.Change, v View) (facts []ui.Fact, why string) {
	told := false
	for _, c := range changes {
		told = told || c.Told()
		facts = append(facts, changeFact(c, v))
	}
	if !told {
		return nil, "Not enough yet: it takes readings at the same hours in the first third of a candle’s life (its very first burn left out) and in the last."
	}
	return facts, ""
}
