package chart

import "sort"

// GrowthSpec is the width of a pool against the hours since lighting, for
// several burns. Widths are in the reader's unit.
type GrowthSpec struct {
	ID, Title, Desc string
	Unit            string  // of widths, such as "mm"
	Wall            float64 // inner width; 0 is unknown
	WallLabel       string  // such as "wall 76 mm"
	Target          float64 // hour by which the pool should have met the wall; 0 is none
	TargetLabel     string  // such as "target 3 h"
	MaxHour         float64 // the hour up to which the chart reaches at least
	Burns           []GrowthBurn
	Bands           []GrowthBand
	Cloud           bool // the burns are many: readings are dots without lines or names
	Caption         string
	Table           Table
	Steps           []float64            // steps of the width axis; none is 1-2-5
	Value, Hour     func(float64) string // axis numbers without unit; nil is plain
}

// GrowthBurn is one burn: its readings in any order.
type GrowthBurn struct {
	Label   string
	Short   string // the label of a narrow drawing; empty is Label
	Points  []GrowthPoint
	Current bool // the burn that the page is about
}

// GrowthPoint is one reading. A full one stands at the wall, whatever its
// width; one left out is shown but not joined to the others.
type GrowthPoint struct {
	Hour, Width   float64
	Full, LeftOut bool
}

// GrowthBand is a fitted curve with the range about it.
type GrowthBand struct {
	Label  string
	Points []BandPoint
}

// BandPoint is the fitted width at one hour, with its lower and upper bound.
type BandPoint struct{ Hour, Low, Mid, High float64 }

// cleaned is a copy whose every number can be drawn, its readings in order of
// time, and how many readings were dropped to make it so.
func (s GrowthSpec) cleaned() (GrowthSpec, int) {
	dropped := 0
	s.Wall, s.Target, s.MaxHour = known(s.Wall), known(s.Target), known(s.MaxHour)
	burns := make([]GrowthBurn, len(s.Burns))
	for i, b := range s.Burns {
		burns[i] = GrowthBurn{Label: b.Label, Short: b.Short, Current: b.Current}
		for _, p := range b.Points {
			if p.Full && s.Wall > 0 {
				p.Width = s.Wall
			}
			if !fit(p.Hour) || !fit(p.Width) {
				dropped++
				continue
			}
			burns[i].Points = append(burns[i].Points, p)
		}
		ps := burns[i].Points
		sort.SliceStable(ps, func(a, b int) bool { return ps[a].Hour < ps[b].Hour })
	}
	s.Burns = burns
	s.Bands, dropped = cleanBands(s.Bands, dropped)
	return s, dropped
}

// cleanBands copies the bands without the points that cannot be drawn.
func cleanBands(bands []GrowthBand, dropped int) ([]GrowthBand, int) {
	out := make([]GrowthBand, len(bands))
	for i, b := range bands {
		out[i].Label = b.Label
		for _, p := range b.Points {
			if !fit(p.Hour) || !finite(p.Low) || !finite(p.Mid) || !finite(p.High) {
				dropped++
				continue
			}
			out[i].Points = append(out[i].Points, p)
		}
		ps := out[i].Points
		sort.SliceStable(ps, func(a, b int) bool { return ps[a].Hour < ps[b].Hour })
	}
	return out, dropped
}

// reach is the last hour and the largest width that the chart must hold. A
// fitted range may be cut; a reading never is.
func (s GrowthSpec) reach() (hour, width float64) {
	hour, width = max(s.MaxHour, 1.05*s.Target), s.Wall*(1.06+0.05*float64(s.stack()))
	if s.Cloud {
		width = max(s.Wall*1.12, min(s.widest()*1.02, s.Wall*1.8))
	}
	for _, b := range s.Burns {
		for _, p := range b.Points {
			hour, width = max(hour, p.Hour), max(width, 1.05*p.Width)
		}
	}
	if hour == 0 {
		hour = 1
	}
	if width == 0 {
		width = 1
	}
	return hour, width
}

// widest is the upper end of the fitted ranges.
func (s GrowthSpec) widest() float64 {
	top := 0.0
	for _, b := range s.Bands {
		for _, p := range b.Points {
			top = max(top, p.High)
		}
	}
	return top
}

// stack is the largest number of full readings so close in time that they
// stand above each other; at least 1.
func (s GrowthSpec) stack() int {
	const near = 0.17 // hours: a marker's width in a narrow drawing of 4 h
	var hours []float64
	for _, b := range s.Burns {
		for _, p := range b.Points {
			if p.Full {
				hours = append(hours, p.Hour)
			}
		}
	}
	sort.Float64s(hours)
	most, first := 1, 0
	for i, h := range hours {
		for hours[first] < h-near {
			first++
		}
		most = max(most, i-first+1)
	}
	return most
}
