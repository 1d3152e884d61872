package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/web/ui"
)

// dueItems writes what is due, each with where it is done.
func dueItems(items []plan.Item, v View) []ui.Item {
	out := make([]ui.Item, 0, len(items))
	for _, it := range items {
		out = append(out, dueItem(it, v))
	}
	return out
}

func dueItem(it plan.Item, v View) ui.Item {
	codes := codesOf(it.Candles)
	pour := "pour " + strconv.Itoa(it.PourNumber)
	switch it.Kind {
	case plan.Weigh:
		return ui.Item{Text: "Weigh " + codes, Href: "/weigh", When: "solid by now", More: "out since " + v.Moment(*it.Burns[0].OutAt)}
	case plan.LookAtTops:
		return topsDue(it, pour, codes, v)
	case plan.TakeOut:
		return takeOutItem(it, v)
	case plan.LightFirst:
		return ui.Item{Text: codes + " ready to burn", Href: lightHref(it), When: "cured", More: "since " + v.Day(it.At) + "; first burn next"}
	}
	when := "rested"
	if it.Advised.After(v.Now) {
		when = "better from " + v.Clock(it.Advised)
	}
	return ui.Item{Text: codes + " ready to burn", Href: lightHref(it), When: when, More: restedText(it, v)}
}

// restedText says since when the candles are cold, and which burn comes next.
func restedText(it plan.Item, v View) string {
	last := it.Lines[0].Life
	for _, l := range it.Lines {
		if l.Life.LastOut.Before(*last.LastOut) {
			last = l.Life
		}
	}
	s := "cold since " + v.Day(*last.LastOut)
	if len(it.Lines) == 1 {
		s += "; burn " + strconv.Itoa(last.Burns+1) + " next"
	}
	return s
}

func lightHref(it plan.Item) string {
	if len(it.Candles) == 1 {
		return "/light?candle=" + idText(it.Candles[0].ID)
	}
	return "/light?pour=" + idText(it.Pour)
}

// comingItems writes what lies ahead.
func comingItems(items []plan.Item, v View) []ui.Item {
	out := make([]ui.Item, 0, len(items))
	for _, it := range items {
		i := ui.Item{Text: codesOf(it.Candles), Href: "/pours/" + idText(it.Pour), When: v.Day(it.At)}
		switch it.Kind {
		case plan.Weigh:
			i.More, i.When = "solid enough to weigh", v.Clock(it.At)
		case plan.LookAtTops:
			i.Text, i.More = "Pour "+strconv.Itoa(it.PourNumber)+", a day old", "look at the tops: "+codesOf(it.Candles)
		case plan.TakeOut:
			i = takeOutItem(it, v)
		case plan.LightFirst:
			i.Text, i.More = "Pour "+strconv.Itoa(it.PourNumber)+" cured", codesOf(it.Candles)
		case plan.LightAgain:
			i.More, i.When = "rested enough to light again", v.Clock(it.At)
		}
		out = append(out, i)
	}
	return out
}

// codesOf names candles: 12-A, 12-B and 12-C.
func codesOf(cs []journal.Candle) string {
	codes := make([]string, len(cs))
	for i, c := range cs {
		codes[i] = c.Code()
	}
	return listed(codes)
}

// topsDue asks for a look at tops; of old pours that are gathered it leads to
// the oldest.
func topsDue(it plan.Item, pour, codes string, v View) ui.Item {
	i := ui.Item{Text: "Look at the tops of " + pour, Href: topsHref(it.Pour, 0), When: "set", More: codes + ": dips, cracks, frosting, wet spots"}
	if days := v.daysApart(it.At, v.Now); days >= 1 {
		i.When = "since " + v.Day(it.At)
	}
	if len(it.Pours) > 1 {
		i.Text = "Look at the tops of " + counted(len(it.Pours), "older pour", "older pours")
		i.More = counted(len(it.Candles), "candle", "candles") + " nobody looked at yet, the oldest first: " + codes
		if len(it.Candles) > 6 {
			i.More = capital(counted(len(it.Candles), "candle", "candles")) + " nobody looked at yet, the oldest first"
		}
	}
	return i
}
