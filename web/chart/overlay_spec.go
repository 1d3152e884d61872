package chart

import (
	"math"
	"sort"
)

// OverlaySpec is several growth curves laid over each other: candles or
// pairings to be compared. Widths are in the reader's unit.
//
// Where all walls are alike the chart shows widths with one wall. Where they
// differ it shows each width as a share of its own wall, in per cent.
type OverlaySpec struct {
	ID, Title, Desc string
	Unit            string  // of widths, such as "mm"
	MaxHour         float64 // the hour up to which the chart reaches at least
	Series          []OverlaySeries
	Caption         string
	Table           Table
	Steps           []float64            // steps of the width axis; none is 1-2-5
	Value, Hour     func(float64) string // axis numbers without unit; nil is plain
}

// OverlaySeries is one candle or pairing.
type OverlaySeries struct {
	Label, Short string  // its name, and the name in a narrow drawing; empty is Label
	Wall         float64 // inner width; 0 is unknown
	WallLabel    string  // such as "wall 76 mm"; the first one known is shown where all walls are alike
	Target       float64 // hour by which the pool should have met the wall; 0 is none
	TargetLabel  string  // such as "target 3 h"
	Burns        [][]GrowthPoint
	Band         []BandPoint // fitted curve with its range; none is not fitted
}

// overlaid is how many series an overlay tells apart by shape and dash.
const overlaid = 6

// cleaned is a copy whose every number can be drawn, in order of time, and
// how many points were dropped to make it so.
func (s OverlaySpec) cleaned() (OverlaySpec, int) {
	dropped := 0
	out := make([]OverlaySeries, len(s.Series))
	for i, x := range s.Series {
		x.Wall, x.Target = known(x.Wall), known(x.Target)
		x.Burns, dropped = cleanReadings(x.Burns, x.Wall, dropped)
		var bands []GrowthBand
		bands, dropped = cleanBands([]GrowthBand{{Points: x.Band}}, dropped)
		x.Band = bands[0].Points
		out[i] = x
	}
	s.Series, s.MaxHour = out, known(s.MaxHour)
	return s, dropped
}

// cleanReadings copies burns without the readings that cannot be drawn. A full
// reading stands at the wall, whatever its width.
func cleanReadings(burns [][]GrowthPoint, wall float64, dropped int) ([][]GrowthPoint, int) {
	out := make([][]GrowthPoint, len(burns))
	for i, b := range burns {
		for _, p := range b {
			if p.Full && wall > 0 {
				p.Width = wall
			}
			if !fit(p.Hour) || !fit(p.Width) {
				dropped++
				continue
			}
			out[i] = append(out[i], p)
		}
		sort.SliceStable(out[i], func(a, c int) bool { return out[i][a].Hour < out[i][c].Hour })
	}
	return out, dropped
}

// oneWall is the wall that all series with a known one share; shared is false
// when there are several.
func (s OverlaySpec) oneWall() (wall float64, label string, shared bool) {
	for _, x := range s.Series {
		switch {
		case x.Wall == 0:
		case wall == 0:
			wall, label = x.Wall, x.WallLabel
		case math.Abs(x.Wall-wall) > 1e-6*wall:
			return 0, "", false
		}
	}
	return wall, label, true
}

// ofTheirWalls is a copy in per cent of each series' own wall; series without
// a known wall are left out and counted.
func (s OverlaySpec) ofTheirWalls() (OverlaySpec, int) {
	var kept []OverlaySeries
	for _, x := range s.Series {
		if x.Wall > 0 {
			kept = append(kept, x.scaled(100/x.Wall))
		}
	}
	left := len(s.Series) - len(kept)
	s.Series, s.Unit, s.Steps, s.Value = kept, "%", nil, nil
	return s, left
}

// scaled is a copy with every width multiplied.
func (x OverlaySeries) scaled(by float64) OverlaySeries {
	burns := make([][]GrowthPoint, len(x.Burns))
	for i, b := range x.Burns {
		for _, p := range b {
			p.Width *= by
			burns[i] = append(burns[i], p)
		}
	}
	var band []BandPoint
	for _, p := range x.Band {
		band = append(band, BandPoint{p.Hour, p.Low * by, p.Mid * by, p.High * by})
	}
	x.Burns, x.Band, x.Wall = burns, band, x.Wall*by
	return x
}

// reach is the last hour and the largest width that the chart must hold. A
// fitted range may be cut; a reading never is.
func (s OverlaySpec) reach(wall float64) (hour, width float64) {
	hour, width = s.MaxHour, 1.12*wall
	for _, x := range s.Series {
		hour = max(hour, 1.05*x.Target)
		for _, p := range x.readings() {
			hour, width = max(hour, p.Hour), max(width, 1.05*p.Width)
		}
		for _, p := range x.Band {
			hour = max(hour, p.Hour)
			width = max(width, min(1.03*p.Mid, 1.3*wall))
		}
	}
	return orOne(hour), orOne(width)
}

// readings are the readings of all burns of a series.
func (x OverlaySeries) readings() []GrowthPoint {
	var out []GrowthPoint
	for _, b := range x.Burns {
		out = append(out, b...)
	}
	return out
}

// orOne is v, or 1 where there is nothing.
func orOne(v float64) float64 {
	if v == 0 {
		return 1
	}
	return v
}
