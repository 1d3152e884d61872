package page

import (
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/safety"
	"rimward/web/chart"
	"rimward/web/ui"
)

// BenchPage is the page that is left open all evening.
type BenchPage struct {
	Lede   string
	OutBy  string // when the first must be put out
	Most   string // how long a burn may last
	Tiles  []Tile
	Due    []ui.Item
	Coming []ui.Item
	Rounds []ui.Item   // the next day of every running round
	Empty  []FirstStep // in an empty journal
	Always []string
}

// Tile is one lit candle.
type Tile struct {
	Disc             chart.Disc
	Track            chart.Track
	Code, Href, What string
	Since, LitFor    string // moment of lighting in Unix milliseconds; words
	Pool, PoolUnit   string
	Share            string
	Due, DueWords    string // moment of the next check; words
	Ring, RingText   string
	Late             bool
	Target           string // moment of the target hour
	TargetText       string
	TargetPast       bool
	Stop             string // moment of the four hours
	StopText         string
	StopPast         bool
	Warnings         []ui.Warning
	CheckHref, Snuff string
	Out              string // when it must be out
}

// NewBenchPage builds the bench from the board that plan worked out.
func NewBenchPage(b plan.Board, first FirstSteps, lim safety.Limits, v View) BenchPage {
	p := BenchPage{Lede: benchLede(b, v), Always: safety.Always()}
	for _, t := range b.Lit {
		p.Tiles = append(p.Tiles, tileOf(t, lim, v))
	}
	if len(b.Lit) > 0 {
		p.OutBy, p.Most = v.Clock(firstStop(b.Lit)), capital(lim.LongestBurn().Clock())
	}
	p.Due = dueItems(b.Due, v)
	p.Coming = comingItems(b.Coming, v)
	p.Empty = first.steps()
	return p
}

func firstStop(lit []plan.LitTile) time.Time {
	first := lit[0].StopAt
	for _, t := range lit {
		if t.StopAt.Before(first) {
			first = t.StopAt
		}
	}
	return first
}

func benchLede(b plan.Board, v View) string {
	if len(b.Lit) == 0 {
		return "Nothing is lit."
	}
	since, next := b.Lit[0].Log.OpenBurn().Burn.LitAt, time.Time{}
	for _, t := range b.Lit {
		if at := t.Log.OpenBurn().Burn.LitAt; at.Before(since) {
			since = at
		}
		if d := t.Next.At; !d.IsZero() && (next.IsZero() || d.Before(next)) {
			next = d
		}
	}
	s := capital(counted(len(b.Lit), "candle", "candles")) + " lit, the first since " + v.Clock(since) + "."
	switch {
	case next.IsZero():
		return s
	case next.After(v.Now):
		return s + " Next check at " + v.Clock(next) + "."
	}
	return s + " A check is due."
}

func millis(t time.Time) string { return strconv.FormatInt(t.UnixMilli(), 10) }

func tileOf(t plan.LitTile, lim safety.Limits, v View) Tile {
	b := t.Log.OpenBurn()
	code := t.Log.Candle.Code()
	tile := Tile{
		Disc: litDisc(t.Log, v), Track: trackOf(t, v),
		Code: code, Href: "/candles/" + idText(t.Log.Candle.ID), What: t.Log.Vessel.Name + " · " + wicksText(t.Log.Made),
		Since: millis(b.Burn.LitAt), LitFor: b.Burn.Lasted(v.Now).Clock(),
		Target: millis(t.TargetAt), TargetText: "target hour " + t.Log.Vessel.Target().Clock() + " reached", TargetPast: t.TargetReached,
		Stop: millis(t.StopAt), StopText: "Lit for " + spanOf(b.Burn.LitAt, t.StopAt).Clock() + ". Put it out now; let it rest.", StopPast: t.OverStop,
		CheckHref: "/candles/" + idText(t.Log.Candle.ID) + "/check", Snuff: "/burns/" + idText(b.Burn.ID) + "/snuff",
		Out: "out by " + v.Clock(t.StopAt),
	}
	tile.Pool, tile.PoolUnit, tile.Share = lastPool(t, v)
	tile.setDue(t.Next, code, v)
	tile.Warnings = tileWarnings(t.Log, lim, v)
	return tile
}

func (x *Tile) setDue(d plan.Due, code string, v View) {
	if d.At.IsZero() {
		return
	}
	x.Due, x.Ring, x.RingText = millis(d.At), millis(d.At), "Check "+code+" ("+d.Why+")"
	x.Late = !d.At.After(v.Now)
	x.DueWords = dueWords(d.At, v.Now)
}

// dueWords counts down to a moment, or up from it: the same words that the
// script in the page uses.
func dueWords(at, now time.Time) string {
	if at.After(now) {
		return "in " + spanOf(now, at.Add(time.Minute-time.Second)).Clock() // begun minutes count
	}
	if late := now.Sub(at); late >= time.Minute {
		return spanOf(at, now).Clock() + " late"
	}
	return "now"
}

// tileWarnings are the findings of the check seen last; what was seen before
// has had its answer.
func tileWarnings(l journal.CandleLog, lim safety.Limits, v View) []ui.Warning {
	checks := l.OpenBurn().Checks
	for i := len(checks) - 1; i >= 0; i-- {
		if !checks[i].IsGone() {
			return warnings(safety.OfCheck(checks[i], l.Made, lim, v.Units))
		}
	}
	return nil
}

// warnings writes findings as a page shows them, the hard ones first.
func warnings(fs []safety.Finding) []ui.Warning {
	var hard, rest []ui.Warning
	for _, f := range fs {
		w := ui.Warning{Hard: f.Level == safety.Hard, Text: f.Text}
		if w.Hard {
			hard = append(hard, w)
		} else {
			rest = append(rest, w)
		}
	}
	return append(hard, rest...)
}
