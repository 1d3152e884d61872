package chart

import (
	"math"
	"strconv"
)

// EffectsSpec is a list of differences with their intervals, on one scale about
// nothing, in the reader's unit.
type EffectsSpec struct {
	ID, Title, Desc string
	Unit            string
	Less, More      string // what lies left and right of nothing, such as "narrower"
	Rows            []EffectRow
	Caption         string
	Table           Table
	Value           func(float64) string // axis numbers without unit; nil is plain
}

// EffectRow is one difference.
type EffectRow struct {
	Label          string
	Low, Mid, High float64
}

// Effects is the chart, ready to be drawn.
type Effects struct {
	Frame
	Zero       string
	Rows       []EffectMark
	Less, More Text
	Caption    string
	Table      Table
}

// EffectMark is one row of it.
type EffectMark struct {
	Label    Text
	Bar, Dot string
}

// The heights of the chart, in user units.
const (
	effectHead = 26.0
	effectRow  = 46.0
	effectFoot = 34.0
)

// NewEffects lays the chart out for a drawing of the given width.
func NewEffects(s EffectsSpec, width int) Effects {
	rows, dropped := s.drawable()
	w := math.Max(float64(width), 200)
	high := effectHead + effectRow*float64(len(rows)) + effectFoot
	e := Effects{Table: s.Table, Caption: sentences(s.Caption, droppedWords(dropped))}
	e.Frame = Frame{ID: orChart(s.ID) + "-" + strconv.Itoa(width), Title: s.Title, Desc: s.Desc, Class: "chart chart-wide", ViewBox: "0 0 " + px(w) + " " + px(high)}
	if width <= Narrow {
		e.Class = "chart chart-narrow"
	}
	e.crowd.sheet = box{1, 0, w - 2, high}
	reach := reachOf(rows)
	e.x, e.y = NewScale(-reach, reach, 12, w-12), NewScale(0, 1, high-effectFoot, effectHead)
	e.Ground = "M" + at(e.x.From, e.y.From) + "H" + px(e.x.To)
	x := axis{-reach, reach, 7, nil, s.Unit, orPlain(s.Value)}.thinned(w - 24)
	ticks, words := x.ticks()
	e.divide(ticks, words, nil, nil)
	zero := e.x.Map(0)
	e.Zero = "M" + at(zero, effectHead-6) + "V" + px(e.y.From)
	e.Less, e.More = newText(zero-10, 10, "end", "← "+s.Less), newText(zero+10, 10, "start", s.More+" →")
	for i, r := range rows {
		e.Rows = append(e.Rows, e.row(r, effectHead+effectRow*float64(i)))
	}
	return e
}

// Charted is the chart for both widths of a page, with its table.
func (s EffectsSpec) Charted() Chart {
	wide, narrow := NewEffects(s, Wide), NewEffects(s, Narrow)
	return Chart{Wide: wide.Drawing(), Narrow: narrow.Drawing(), Caption: wide.Caption, Table: wide.Table}
}

// Drawing is the chart as marks in the order they are painted.
func (e Effects) Drawing() Drawing {
	d := Drawing{Frame: e.Frame}
	d.paint("", Shape{"chart-target", e.Zero})
	d.say("chart-tick", e.Less)
	d.say("chart-tick", e.More)
	for _, r := range e.Rows {
		d.paint("", Shape{"effect-bar", r.Bar}, Shape{"effect-dot", r.Dot})
		d.say("chart-label", r.Label)
	}
	return d
}

// drawable are the rows whose numbers can be drawn.
func (s EffectsSpec) drawable() (rows []EffectRow, dropped int) {
	for _, r := range s.Rows {
		if math.Abs(r.Low) <= largest && math.Abs(r.Mid) <= largest && math.Abs(r.High) <= largest && r.Low <= r.Mid && r.Mid <= r.High {
			rows = append(rows, r)
		}
	}
	return rows, len(s.Rows) - len(rows)
}

// reachOf is how far the axis goes to either side of nothing.
func reachOf(rows []EffectRow) float64 {
	reach := 0.0
	for _, r := range rows {
		reach = math.Max(reach, math.Max(math.Abs(r.Low), math.Abs(r.High)))
	}
	if reach == 0 {
		return 1
	}
	return 1.08 * reach
}

// row draws one difference: its name above, a line for the interval with a mark
// at either end, and a dot.
func (e *Effects) row(r EffectRow, top float64) EffectMark {
	y := top + 30
	low, high := e.x.Map(r.Low), e.x.Map(r.High)
	return EffectMark{
		Label: newText(e.x.From, top+12, "start", shortened(r.Label, e.x.To-e.x.From)),
		Bar:   "M" + at(low, y-5) + "v10M" + at(low, y) + "H" + px(high) + "M" + at(high, y-5) + "v10",
		Dot:   circle(e.x.Map(r.Mid), y, 4.6),
	}
}
