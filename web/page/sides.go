package page

import (
	"strconv"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// SidesPage sets two to six candles or pairings beside each other.
type SidesPage struct {
	Lede    string
	Said    []ui.Warning // what of the address could not be shown, and why
	Empty   *MissingPage // instead of columns
	Offers  []ui.Item    // ready-made choices
	Heads   []SidesHead
	Same    string // in what they differ: before the name, the name, after it
	Only    string
	After   string
	Warn    *ui.Warning  // where more than one thing differs
	Unknown string       // what was not noted for all
	Groups  []SidesGroup // before the pools
	Rest    []SidesGroup // after them
	Pools   []SidesPoolRow
	Hours   string       // the class that says how many places for pools a cell has
	Reads   string       // how pools are read
	Charts  []SidesChart // under the columns
	Hidden  []ui.Hidden  // what stands already, for the form that adds
	Add     *ui.Field
	Full    string // why nothing can be added
}

// SidesHead heads a column, with what can be done with it.
type SidesHead struct {
	Name, Href, What, State string
	Gone                    bool
	Remove, Left, Right     string
}

// SidesGroup is a run of rows under one heading.
type SidesGroup struct {
	Title, Note string
	Rows        []SidesRow
}

// SidesRow is one fact or figure across the columns.
type SidesRow struct {
	Label   string
	Mark    string // differs, not noted for all
	Differs bool
	Cells   []SidesCell
}

// SidesCell is one column's part of a row.
type SidesCell struct {
	Text, Unit string
	Lines      []string // of equal weight
	Small      []string
	Apart      string // how far it lies from the first column
	Told       bool
	Soft       bool
}

// SidesThing is one column before it is put into words: what the address
// named, and what was found.
type SidesThing struct {
	Key    SidesKey
	Side   compare.Side
	Log    *journal.CandleLog // the candle with withdrawn records; nil for a pairing
	Photos []journal.Photo    // of the candle, its burns and its checks
	Back   string             // the pairing's own page
}

// SidesFound is what was found for an address.
type SidesFound struct {
	Choice SidesChoice
	Things []SidesThing
	Lost   []SidesKey // named, and not there
	NoCode bool       // no candle has the code that was asked for
	Note   string     // when the standings were worked out, where that is behind
}

// NewSidesPage builds the page of what was found.
func NewSidesPage(f SidesFound, o SidesOffers, lim safety.Limits, v View) SidesPage {
	p := SidesPage{Said: sidesSaid(f)}
	keys := keysOf(f.Things)
	sides := sidesOf(f.Things)
	p.adding(keys, o, v)
	if len(f.Things) == 0 {
		p.empty(o, v)
		return p
	}
	for i, t := range f.Things {
		t.Side = sides[i]
		p.Heads = append(p.Heads, sidesHead(t, keys, i, v))
	}
	p.Lede = sidesLede(f.Things)
	facts := compare.Facts(sides)
	if len(sides) < compare.Fewest {
		p.After = "One alone says little. Add another below to set beside it."
	} else {
		p.contrast(compare.Differ(facts))
	}
	differ, same := sidesFacts(facts, sides, v)
	p.Groups = append(differ, sidesFigures(facts, sides, v)...)
	p.pools(compare.PoolsOf(sides, v.Ruler), f.Things, v)
	p.Rest = append(sidesStandings(sides, v), sidesFaults(sides, lim, v))
	p.Rest = append(p.Rest, same...)
	p.Charts = sidesCharts(sides, keys, v)
	return p
}

func keysOf(ts []SidesThing) []SidesKey {
	var out []SidesKey
	for _, t := range ts {
		out = append(out, t.Key)
	}
	return out
}

// sidesOf are the columns, each under a name that no other has.
func sidesOf(ts []SidesThing) []compare.Side {
	var out []compare.Side
	for _, t := range ts {
		if t.Side.Whole {
			t.Side.Name = wickCount(t.Side.Pairing.Wicks) + t.Side.Pairing.Name()
		}
		out = append(out, t.Side)
	}
	nameApart(out)
	return out
}

// sidesSaid says what of the address is not shown as it was asked for.
func sidesSaid(f SidesFound) []ui.Warning {
	var out []ui.Warning
	say := func(when bool, text string) {
		if when {
			out = append(out, ui.Warning{Text: text})
		}
	}
	candles, pairings := 0, 0
	for _, k := range f.Lost {
		if k.Candle != 0 {
			candles++
		} else {
			pairings++
		}
	}
	unread := len(f.Choice.Unread)
	say(f.Note != "", f.Note)
	say(unread > 0, capital(counted(unread, "part", "parts"))+" of the address could not be read and "+isAre(unread)+" left out.")
	say(candles > 0, capital(counted(candles, "candle", "candles"))+" of the address "+isAre(candles)+" not in this journal.")
	say(pairings > 0, capital(counted(pairings, "pairing", "pairings"))+" of the address "+isAre(pairings)+" not in the standings: nothing that counts is recorded, or settings are kept apart in another way now.")
	say(f.Choice.Twice, "What was named twice stands once.")
	say(f.Choice.TooMany > 0, "Six at most fit side by side. "+capital(counted(f.Choice.TooMany, "more was", "more were"))+" left out.")
	say(f.NoCode, "No candle has the code “"+f.Choice.Code+"”. A code is the pour’s number and a letter, such as 14-C.")
	return out
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// sidesHead heads one column.
func sidesHead(t SidesThing, keys []SidesKey, i int, v View) SidesHead {
	h := SidesHead{Name: t.Side.Name, Left: moved(keys, i, -1), Right: moved(keys, i, 1), Remove: without(keys, i)}
	if t.Side.Whole {
		x := t.Side.Pairing
		h.Href, h.What = t.Back, x.Vessel.Name
		h.State = joinBy(", ", figured(len(t.Side.Logs), "candle", "candles"), figured(t.Side.Burns(), "burn", "burns"))
		return h
	}
	h.Href, h.What = "/candles/"+idText(t.Log.Candle.ID), joinBy(" in ", wicksText(t.Log.Made), t.Log.Vessel.Name)
	h.State, h.Gone = stateText(t.Log.Life(), v), t.Log.Candle.IsGone() || t.Log.Pour.IsGone()
	return h
}

// sidesLede says what stands here.
func sidesLede(ts []SidesThing) string {
	candles, pours, vessels := 0, names{}, names{}
	for _, t := range ts {
		for _, l := range t.Side.Logs {
			pours.add(idText(l.Pour.ID), pourName(l.Pour))
			vessels.add(idText(l.Vessel.ID), l.Vessel.Name)
		}
		if !t.Side.Whole {
			candles++
		}
	}
	out := listed(nonEmpty(someOf(candles, "candle", "candles"), someOf(len(ts)-candles, "pairing", "pairings")))
	switch {
	case candles == len(ts) && len(pours.options) == 1:
		out += " of " + pours.options[0].Text
	case len(vessels.options) == 1:
		out += " in " + vessels.options[0].Text
	}
	return capital(out) + "."
}

func someOf(n int, one, many string) string {
	if n == 0 {
		return ""
	}
	return counted(n, one, many)
}

func nonEmpty(parts ...string) []string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return out
}

// contrast says in what the columns differ, and warns where that is more than
// one thing.
func (p *SidesPage) contrast(c compare.Contrast) {
	if len(c.Unknown) > 0 {
		p.Unknown = "Not noted for all of them, so it may differ too: " + listed(c.Unknown) + "."
	}
	switch n := len(c.Causes); {
	case n == 0 && c.Pours:
		p.Same = "They are alike in all that was noted, but come from different pours: whatever else was different on those days may show."
	case n == 0:
		p.Same = "They are alike in all that was noted."
	case n == 1:
		p.Same, p.Only, p.After = "They differ in", c.Causes[0], "only."
		if c.Pours {
			p.After = "only, as far as was noted; but they come from different pours, and whatever else was different on those days may show too."
		}
	case n == 2:
		p.Warn = &ui.Warning{Text: "They differ in " + listed(c.Causes) + ": whatever you see may come from either."}
	default:
		p.Warn = &ui.Warning{Text: "They differ in " + strconv.Itoa(n) + " things, " + listed(c.Causes) + ": whatever you see may come from any of them."}
	}
}

// hourText is the target hour where all columns have one, and its name where
// they do not.
func hourText(sides []compare.Side) string {
	var at quantity.Hours
	for i, s := range sides {
		t := sideVessel(s).Target()
		if i > 0 && t.Clock() != at.Clock() {
			return "the target hour"
		}
		at = t
	}
	return tight(at.Clock())
}

// sideVessel is what a column was poured into.
func sideVessel(s compare.Side) journal.Vessel {
	if s.Whole {
		return s.Pairing.Vessel
	}
	return s.Logs[0].Vessel
}
