package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/web/ui"
)

// RoundNext is what is to be done next for a round.
type RoundNext struct {
	Text  string
	Links []ui.Action
}

// showNext says what is next, unless the round is over.
func (p *RoundPage) showNext(in RoundShown, v View) {
	if r := in.Round; r.IsGone() || r.Closed != nil || in.Progress == nil {
		return
	}
	w := nextWords{round: in.Round.ID, progress: in.Progress, name: placeNamer(in.Progress), v: v}
	text, next := w.lit(), RoundNext{}
	if text != "" {
		next.Links = append(next.Links, ui.Action{Text: "Walk the bench", Href: "/walk", Main: true})
	}
	if es := chores(in.Calendar); len(es) > 0 {
		var parts []string
		for _, e := range es {
			parts = append(parts, w.chore(e))
			next.Links = append(next.Links, w.links(e, in.Calendar)...)
		}
		text = joinWords(text, "Next: "+v.planDay(es[0].Day, in.Calendar)+", "+joinBy("; ", parts...)+".")
	}
	if next.Text = text; text != "" {
		p.Next = &next
	}
}

// chores are what is to be done on the first day that asks for anything.
func chores(c plan.Calendar) (out []plan.CalendarEvent) {
	for _, e := range c.Events {
		if e.Done || e.Kind == plan.ReadyEvent || len(out) > 0 && e.Day != out[0].Day {
			continue
		}
		out = append(out, e)
	}
	return out
}

// nextWords finds the words for what is next.
type nextWords struct {
	round    journal.ID
	progress *plan.RoundProgress
	name     func(place int) string
	v        View
}

func (w nextWords) lit() string {
	var places []int
	for _, x := range w.progress.Places {
		if x.Stage == plan.IsLit {
			places = append(places, x.Place.Number)
		}
	}
	if places == nil {
		return ""
	}
	return "Lit now: " + placeNames(places, w.name) + "."
}

func (w nextWords) chore(e plan.CalendarEvent) string {
	switch e.Kind {
	case plan.PourEvent:
		return "pour " + meltsText(e.Melts)
	case plan.SetEvent:
		return "look at the set " + candlesText(e.Places, w.name)
	}
	return "light " + candlesText(e.Places, w.name) + " at " + w.v.Clock(e.From)
}

// candlesText names candles within a sentence, those without a code by their
// places.
func candlesText(places []int, name func(int) string) string {
	coded := 0
	var names []string
	for _, p := range places {
		if n := name(p); n != "" {
			coded++
			names = append(names, n)
		} else {
			names = append(names, "place "+strconv.Itoa(p))
		}
	}
	switch {
	case coded == 0:
		return "the candles of " + placeNames(places, name)
	case coded < len(places):
		return listed(names)
	case coded == 1:
		return "candle " + names[0]
	}
	return "candles " + listed(names)
}

// links lead to where a chore is done, where it can be done today.
func (w nextWords) links(e plan.CalendarEvent, c plan.Calendar) []ui.Action {
	switch {
	case e.Kind == plan.PourEvent:
		return []ui.Action{{Text: "To its melts", Href: "#melts"}}
	case e.Day != plan.DayOf(w.v.Now, c.Zone):
		return nil
	case e.Kind == plan.SetEvent:
		return w.topsLinks(e.Places)
	}
	if s, is := (RoundAhead{Calendar: c, Progress: w.progress}).tonight(w.v); !is || s.Key != e.Key {
		return nil
	}
	return []ui.Action{{Text: "Light them", Href: lightRoundHref(w.round)}}
}

// topsLinks lead to the tops of the candles, pour by pour.
func (w nextWords) topsLinks(places []int) (out []ui.Action) {
	seen := map[journal.ID]bool{}
	for _, p := range places {
		l := w.candle(p)
		if l == nil || seen[l.Candle.Pour] {
			continue
		}
		seen[l.Candle.Pour] = true
		out = append(out, ui.Action{Text: "Look at the tops of pour " + strconv.Itoa(l.Candle.PourNumber), Href: topsHref(l.Candle.Pour, 0)})
	}
	return out
}

func (w nextWords) candle(place int) *journal.CandleLine {
	for _, x := range w.progress.Places {
		if x.Place.Number == place {
			return x.Candle
		}
	}
	return nil
}
