package page

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// LightTonight is what running rounds plan for tonight, before the list of all
// candles that could be lit.
type LightTonight struct {
	Offers []LightOffer
	Says   string // of the round that was asked for and has nothing tonight
	Crowd  string // when more would burn at once than the bench has places
}

// LightOffer is tonight's sitting of one round.
type LightOffer struct {
	When, Question, Href string   // the evening and the hours; the round
	What, Where          []string // which burn of which candles; where they stand: in words that are not broken
	Tick                 *ui.Action
	Ticked               string // instead, where its candles are ticked
}

// LightAsked is what the offers of the lighting page are built from.
type LightAsked struct {
	Ahead       []RoundAhead
	Round       *journal.TestRound // that was asked for; nil for none
	Lit         []journal.CandleLog
	Longest     quantity.Hours // that a candle burns
	BenchPlaces *int           // of the studio; nil where that was not said
}

// Offer puts tonight's sittings of running rounds before the candles.
func (p *LightPage) Offer(in LightAsked, v View) {
	var spans []plan.Span
	places := 0
	for _, x := range in.Ahead {
		s, is := x.tonight(v)
		if !is {
			continue
		}
		chosen := in.chose(x.Round.ID)
		p.Tonight.Offers = append(p.Tonight.Offers, lightOffer(x, s, chosen, v))
		spans = append(spans, spanOfSitting(s, chosen, v))
		places = max(places, x.Round.Days.BenchPlaces)
		if chosen {
			p.takeRound(in.Round.ID, s.Key)
		}
	}
	if len(spans) > 0 {
		p.Tonight.Crowd = in.crowd(spans, places, v)
	}
	p.Tonight.Says = in.nothingTonight(v)
	p.occupied(in.Lit)
}

func (in LightAsked) chose(id journal.ID) bool { return in.Round != nil && in.Round.ID == id }

// takeRound keeps the round with the form, and its draft apart from others: an
// old draft does not untick what the round ticks.
func (p *LightPage) takeRound(id journal.ID, sitting string) {
	p.Form.Hidden = append(p.Form.Hidden, ui.Hidden{Name: "round", Value: idText(id)})
	p.Form.Draft = lightRoundHref(id) + "&" + sitting
}

func lightOffer(x RoundAhead, s plan.PlannedSitting, chosen bool, v View) LightOffer {
	name := placeNamer(x.Progress)
	o := LightOffer{When: eveningWord(s, v) + " at " + v.Clock(s.From), Question: x.Round.Question, Href: "/rounds/" + idText(x.Round.ID),
		What: strings.Fields(capital(x.burnsOf(s)) + "."), Where: strings.Fields(onTheBench(s.Burns, name) + "; out by " + v.Clock(s.To) + ".")}
	if chosen {
		o.Ticked = "Ticked below, each at the place that was drawn for it. Light one elsewhere and say where: nothing is refused."
		return o
	}
	o.Tick = &ui.Action{Text: "Tick " + tickedText(len(s.Burns)), Href: lightRoundHref(x.Round.ID), Main: true}
	return o
}

func tickedText(n int) string {
	if n == 1 {
		return "this one"
	}
	return "these " + strings.TrimSpace(counted(n, "", ""))
}

// onTheBench names the candles by where they stand.
func onTheBench(burns []plan.PlannedBurn, name func(int) string) string {
	var parts []string
	for _, b := range burns {
		parts = append(parts, strconv.Itoa(b.Bench)+": "+name(b.Place))
	}
	return "On the bench " + strings.Join(parts, "; ")
}

// spanOfSitting is when a sitting burns; one that is being lit burns from now.
func spanOfSitting(s plan.PlannedSitting, chosen bool, v View) plan.Span {
	if chosen {
		s.From, s.To = v.Now, v.Now.Add(s.To.Sub(s.From))
	}
	return plan.Span{From: s.From, To: s.To, Candles: len(s.Burns)}
}

// crowd says that more would burn at once than there are places; planned is
// how many the rounds count on where the studio has not said.
func (in LightAsked) crowd(spans []plan.Span, planned int, v View) string {
	places, n := planned, 0
	if in.BenchPlaces != nil {
		places = *in.BenchPlaces
	}
	for _, s := range spans {
		n += s.Candles
	}
	lit := in.litSpans(v)
	together := plan.Peak(append(slices.Clone(lit), spans...))
	if together <= places {
		return ""
	}
	text := figured(together, "candle", "candles") + " would burn at once, and the bench has " + figured(places, "place", "places") + "."
	if together > n {
		text = figured(together, "candle", "candles") + " would burn at once with those that are lit, and the bench has " + figured(places, "place", "places") + "."
	}
	return text + " Light as many as find a place, and the rest when others are out."
}

// litSpans are the candles that are lit now, each taken to burn as long as a
// candle may; one that should be out stands on the bench still.
func (in LightAsked) litSpans(v View) (out []plan.Span) {
	for _, l := range in.Lit {
		from := l.OpenBurn().Burn.LitAt
		to := from.Add(time.Duration(float64(in.Longest) * float64(time.Hour)))
		if !to.After(v.Now) {
			to = v.Now.Add(time.Minute)
		}
		out = append(out, plan.Span{From: from, To: to, Candles: 1})
	}
	return out
}

// nothingTonight says why the round that was asked for is not offered; "" where
// it is.
func (in LightAsked) nothingTonight(v View) string {
	if in.Round == nil {
		return ""
	}
	q := "“" + in.Round.Question + "”"
	switch {
	case in.Round.IsGone():
		return "The round " + q + " was withdrawn: nothing of it is planned."
	case in.Round.Closed != nil:
		return "The round " + q + " is closed: nothing of it is planned."
	}
	for _, x := range in.Ahead {
		if _, is := x.tonight(v); !in.chose(x.Round.ID) || is {
			continue
		}
		text := "Nothing more of the round " + q + " is planned for tonight."
		if x.Progress.At(plan.IsLit) > 0 {
			text = "The candles of the round " + q + " are lit."
		}
		if ss := x.Calendar.Sittings; len(ss) > 0 {
			text += " Its next sitting is " + onDay(v.planDay(ss[0].Day, x.Calendar)) + " at " + v.Clock(ss[0].From) + "."
		}
		return text
	}
	return ""
}

// occupied says which place that is written beside a candle is taken by one
// that is lit.
func (p *LightPage) occupied(lit []journal.CandleLog) {
	by := map[string]string{}
	for _, l := range lit {
		by[l.OpenBurn().Burn.Place] = l.Candle.Code()
	}
	for i, r := range p.Rows {
		if code := by[r.Place.Value]; code != "" && r.Place.Value != "" && r.Pick.Checked {
			p.Rows[i].Note = joinWords(r.Note, capital(r.Place.Value)+" is taken: "+code+" is lit there.")
		}
	}
}
