package page

import (
	"slices"
	"strconv"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/standings"
	"rimward/web/ui"
)

// SidesOffers is what can be set side by side: every series that was burned,
// and the newest candles.
type SidesOffers struct {
	Stacks []*standings.Stack
	Lines  []journal.CandleLine
}

// How many ready-made choices and how many pairings are offered.
const (
	madeChoices    = 4
	pairingsListed = 60
)

// empty says what to do first where nothing was chosen, and offers choices
// that are ready made.
func (p *SidesPage) empty(o SidesOffers, v View) {
	p.Offers = append(pourOffers(o.Lines, v), ladderOffers(o.Stacks)...)
	if len(p.Offers) > 0 {
		p.Empty = missing("Choose two to six candles or pairings: tick them in the list of candles, on a pour’s page or in the standings, begin with one below, or take one of these.",
			[]ui.Action{{Text: "Candles", Href: "/candles"}, {Text: "Standings", Href: "/standings"}})
		return
	}
	p.Empty = missing("There is nothing to set side by side yet. It takes two candles that were burned: light them together, look at their pools every hour, and come back.",
		[]ui.Action{{Text: "Light candles", Href: "/light", Main: true}, {Text: "Candles", Href: "/candles"}})
}

// pourOffers are the burned candles of the newest pours, where there are
// several.
func pourOffers(lines []journal.CandleLine, v View) []ui.Item {
	var pours []journal.ID
	of := map[journal.ID][]journal.CandleLine{}
	for _, l := range lines {
		if l.Life.Burns == 0 || l.Life.Gone {
			continue
		}
		if len(of[l.Candle.Pour]) == 0 {
			pours = append(pours, l.Candle.Pour)
		}
		of[l.Candle.Pour] = append(of[l.Candle.Pour], l)
	}
	var out []ui.Item
	for _, id := range pours {
		if ls := of[id]; len(ls) >= compare.Fewest && len(out) < madeChoices {
			out = append(out, pourOffer(ls, v))
		}
	}
	return out
}

// pourOffer is the candles of one pour; lines come newest first.
func pourOffer(lines []journal.CandleLine, v View) ui.Item {
	lines = slices.Clone(lines)
	slices.Reverse(lines)
	all := len(lines)
	lines = lines[:min(all, compare.Most)]
	var keys []SidesKey
	var wicks names
	for _, l := range lines {
		keys = append(keys, SidesKey{Candle: l.Candle.ID})
		wicks.add(l.WickName, l.WickName)
	}
	text := "The " + counted(len(lines), "burned candle", "burned candles") + " of pour " + strconv.Itoa(lines[0].Candle.PourNumber)
	if all > len(lines) {
		text = "The first " + counted(len(lines), "burned candle", "burned candles") + " of pour " + strconv.Itoa(lines[0].Candle.PourNumber)
	}
	return ui.Item{Text: text, Href: sidesAddress(keys), When: v.Day(lines[0].Life.PouredAt), More: listed(optionTexts(wicks)) + " in " + lines[0].VesselName}
}

func optionTexts(n names) []string {
	var out []string
	for _, o := range n.options {
		out = append(out, o.Text)
	}
	return out
}

// ladderOffers are the burned rungs of the ladders with the most burns.
func ladderOffers(stacks []*standings.Stack) []ui.Item {
	var out []ui.Item
	for _, s := range busiestFirst(stacks) {
		rungs := burnedRungs(s)
		if len(rungs) < compare.Fewest || len(out) == madeChoices {
			continue
		}
		rungs = rungs[:min(len(rungs), compare.Most)]
		var keys []SidesKey
		var labels []string
		for _, r := range rungs {
			keys = append(keys, stackKey(s, r))
			labels = append(labels, r.Wick.Label)
		}
		out = append(out, ui.Item{Text: "The rungs of " + s.Ladder.Name + " in " + s.Vessel.Name, Href: sidesAddress(keys),
			When: figured(burnsOf(s), "burn", "burns"), More: joinBy(" · ", wicksTextOf(s.Wicks)+listed(labels), stackSetting(s))})
	}
	return out
}

func wicksTextOf(n int) string {
	if n > 1 {
		return capital(counted(n, "wick", "wicks")) + " each of "
	}
	return ""
}

func stackSetting(s *standings.Stack) string {
	if len(s.Settings) == 0 {
		return ""
	}
	return settingText(s.Settings[0])
}

func busiestFirst(stacks []*standings.Stack) []*standings.Stack {
	out := slices.Clone(stacks)
	slices.SortStableFunc(out, func(a, b *standings.Stack) int { return burnsOf(b) - burnsOf(a) })
	return out
}

func burnsOf(s *standings.Stack) int {
	n := 0
	for _, r := range s.Rungs {
		for _, c := range r.Rows {
			n += len(c.Burns)
		}
	}
	return n
}

func burnedRungs(s *standings.Stack) []standings.Rung {
	return slices.DeleteFunc(slices.Clone(s.Rungs), func(r standings.Rung) bool { return len(r.Rows) == 0 })
}

func stackKey(s *standings.Stack, r standings.Rung) SidesKey {
	return SidesKey{Pairing: PairingChoice{Vessel: s.Vessel.ID, Wax: s.Wax(), Wick: r.Wick.ID, Series: s.Key()}}
}

// adding is the box that adds one more, or why there is none.
func (p *SidesPage) adding(keys []SidesKey, o SidesOffers, v View) {
	for _, k := range keys {
		p.Hidden = append(p.Hidden, ui.Hidden{Name: "of", Value: k.Text()})
	}
	if len(keys) >= compare.Most {
		p.Full = "Six at most fit side by side: remove one to add another."
		return
	}
	groups := append(candleOptions(o.Lines, keys), pairingOptions(o.Stacks, keys)...)
	if len(groups) == 0 && len(keys) == 0 {
		return // nothing was burned yet
	}
	p.Add = &ui.Field{Kind: ui.SelectField, Name: "of", Label: "Add a candle or a pairing", Groups: append([]ui.OptionGroup{{Options: []ui.Option{{Text: "choose …"}}}}, groups...)}
}

// candleOptions are the newest candles that were burned.
func candleOptions(lines []journal.CandleLine, keys []SidesKey) []ui.OptionGroup {
	g := ui.OptionGroup{Label: "Candles, newest first"}
	for _, l := range lines {
		k := SidesKey{Candle: l.Candle.ID}
		if l.Life.Burns > 0 && !slices.Contains(keys, k) {
			g.Options = append(g.Options, ui.Option{Value: k.Text(), Text: l.Candle.Code() + " · " + wickCount(l.Candle.Wicks) + l.WickName + " · " + l.VesselName})
		}
	}
	return groupIfAny(g)
}

// pairingOptions are the pairings, those with the most burns in their series
// first.
func pairingOptions(stacks []*standings.Stack, keys []SidesKey) []ui.OptionGroup {
	var out []ui.OptionGroup
	n := 0
	for _, s := range busiestFirst(stacks) {
		g := ui.OptionGroup{Label: joinBy(" · ", "Pairings in "+s.Vessel.Name, stackSetting(s))}
		for _, r := range burnedRungs(s) {
			k := stackKey(s, r)
			if n < pairingsListed && !slices.Contains(keys, k) {
				g.Options = append(g.Options, ui.Option{Value: k.Text(), Text: wickCount(s.Wicks) + joinWords(s.Ladder.Name, r.Wick.Label)})
				n++
			}
		}
		out = append(out, groupIfAny(g)...)
	}
	return out
}

func groupIfAny(g ui.OptionGroup) []ui.OptionGroup {
	if len(g.Options) == 0 {
		return nil
	}
	return []ui.OptionGroup{g}
}
