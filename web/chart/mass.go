package chart

import (
	"math"
	"sort"
)

// MassSpec is a candle's mass against the hours it has been lit, over its
// whole life, in the reader's unit.
type MassSpec struct {
	ID, Title, Desc string
	Unit            string // of masses, such as "g"
	Points          []MassPoint
	Line            *MassLine // nil when there is none yet
	RateLabel       string    // such as "6.1 g/h"
	Floor           float64   // the mass at which to stop; 0 is unknown
	FloorLabel      string
	Caption         string
	Table           Table
	Steps           []float64            // steps of the mass axis; none is 1-2-5
	Value, Hour     func(float64) string // axis numbers without unit; nil is plain
}

// MassPoint is one weighing; one left out is shown crossed.
type MassPoint struct {
	Hour, Mass float64
	LeftOut    bool
}

// MassLine is a straight line that was fitted elsewhere: mass is Intercept
// plus Slope times hours.
type MassLine struct{ Slope, Intercept float64 }

// Mass is a mass chart, ready to be drawn.
type Mass struct {
	Frame
	Markers, Out string
	Line         string // empty when there is none
	Ahead        string // the line carried on to the floor
	Rate         Text
	Floor        string
	FloorName    Text
	Caption      string
	Table        Table
}

// NewMass lays out a mass chart for a drawing of the given width.
func NewMass(s MassSpec, width int) Mass {
	s, dropped := s.cleaned()
	y, to := s.axis(5)
	x := axis{0, to, 6, nil, "h", orPlain(s.Hour)}
	m := Mass{Frame: newFrame(head{orChart(s.ID), s.Title, s.Desc}, width, x, y, 16), Table: s.Table}
	m.draw(s)
	m.Caption = sentences(s.Caption, droppedWords(dropped), leftOutWords(s.leftOut()))
	return m
}

// axis is the axis of masses and the last hour to be shown.
func (s MassSpec) axis(most int) (y axis, to float64) {
	_, to, low, high := s.reach()
	return axis{low, high, most, s.Steps, s.Unit, orPlain(s.Value)}, to
}

// draw puts everything on axes that have been ruled.
func (m *Mass) draw(s MassSpec) {
	from, _, _, _ := s.reach()
	m.weighings(s)
	m.floor(s)
	m.line(s, from)
}

// leftOut counts the weighings that are shown but do not count.
func (s MassSpec) leftOut() int {
	n := 0
	for _, p := range s.Points {
		if p.LeftOut {
			n++
		}
	}
	return n
}

// cleaned is a copy whose every number can be drawn, in order of time, and
// how many weighings were dropped.
func (s MassSpec) cleaned() (MassSpec, int) {
	var points []MassPoint
	for _, p := range s.Points {
		if fit(p.Hour) && fit(p.Mass) {
			points = append(points, p)
		}
	}
	dropped := len(s.Points) - len(points)
	sort.SliceStable(points, func(a, b int) bool { return points[a].Hour < points[b].Hour })
	s.Points, s.Floor = points, known(s.Floor)
	if s.Line != nil && (!finite(s.Line.Slope) || !finite(s.Line.Intercept)) {
		s.Line = nil
	}
	return s, dropped
}

// reach is the stretch of hours that was weighed, carried on to the floor
// where the line meets it within as long again, and the masses to be held.
func (s MassSpec) reach() (from, to, low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i, p := range s.Points {
		if i == 0 {
			from = p.Hour
		}
		to, low, high = p.Hour, math.Min(low, p.Mass), math.Max(high, p.Mass)
	}
	if len(s.Points) == 0 {
		low, high = math.Max(0, s.Floor-1), s.Floor+1
	}
	if s.Floor > 0 {
		low, high = math.Min(low, s.Floor), math.Max(high, s.Floor)
	}
	if end, ok := s.ends(); ok && end > to && end <= 2.5*to {
		to = end
	}
	if to == 0 {
		to = 1
	}
	to *= 1.04
	pad := 0.1 * math.Max(high-low, 1e-6*high)
	if pad == 0 {
		pad = 1
	}
	return from, to, math.Max(0, low-pad), high + pad
}

// ends is the hour at which the line meets the floor; false when it does not.
func (s MassSpec) ends() (float64, bool) {
	if s.Line == nil || s.Floor == 0 || s.Line.Slope >= 0 {
		return 0, false
	}
	end := (s.Floor - s.Line.Intercept) / s.Line.Slope
	return end, finite(end)
}

// last is the hour of the last weighing.
func (s MassSpec) last() float64 {
	if len(s.Points) == 0 {
		return 0
	}
	return s.Points[len(s.Points)-1].Hour
}
