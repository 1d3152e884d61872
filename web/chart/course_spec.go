package chart

import (
	"math"
	"sort"
)

// CourseSpec is one quantity against the hours a candle has been lit, over its
// whole life or several: burns are joined end to end, rests take no room.
// Values are in the reader's unit, or places on a scale of words.
type CourseSpec struct {
	ID, Title, Desc string
	Name            string   // over its panel where several are stacked, such as "Flame height"
	Unit            string   // of values, such as "mm"
	Words           []string // a scale of words, lowest first: values are 0, 1, 2 …
	Series          []CourseSeries
	Burns           []CourseBurn // of one candle; none where there are several candles
	Limits          []CourseLimit
	FromZero        bool    // the axis begins at 0
	MaxHour         float64 // the hour up to which the chart reaches at least
	Caption         string
	Table           Table
	Steps           []float64            // steps of the value axis; none is 1-2-5
	Value, Hour     func(float64) string // axis numbers without unit; nil is plain
}

// CourseSeries is one candle, or one of several quantities in one unit.
type CourseSeries struct {
	Label, Short string // its name at its end, and that in a narrow drawing; empty is Label, then none
	Points       []CoursePoint
	Steps        []CourseStep
}

// CoursePoint is one reading, Hour being hours lit since the first lighting.
// Readings of one burn are joined; those with burn 0 are joined throughout.
type CoursePoint struct {
	Hour, Value float64
	Burn        int
	LeftOut     bool // shown crossed, not joined
}

// CourseStep is one value for a whole burn, with its interval; Low and High
// are equal where there is none.
type CourseStep struct{ From, To, Low, Mid, High float64 }

// CourseBurn is the stretch of hours that one burn takes.
type CourseBurn struct {
	From, To float64
	Label    string
}

// CourseLimit is a level line, or a band from Low to High about it. One far
// above every value is not drawn; the caption gives its label.
type CourseLimit struct {
	Value, Low, High float64
	Label            string
}

// numeric reports whether v can be a value.
func numeric(v float64) bool { return finite(v) && math.Abs(v) <= largest }

// cleaned is a copy whose every number can be drawn, in order of time, and how
// many points were dropped to make it so.
func (s CourseSpec) cleaned() (CourseSpec, int) {
	dropped := 0
	series := make([]CourseSeries, len(s.Series))
	for i, x := range s.Series {
		series[i] = CourseSeries{Label: x.Label, Short: x.Short}
		for _, p := range x.Points {
			if fit(p.Hour) && numeric(p.Value) {
				series[i].Points = append(series[i].Points, p)
			}
		}
		for _, p := range x.Steps {
			if p, ok := p.cleaned(); ok {
				series[i].Steps = append(series[i].Steps, p)
			}
		}
		dropped += len(x.Points) + len(x.Steps) - len(series[i].Points) - len(series[i].Steps)
		ps := series[i].Points
		sort.SliceStable(ps, func(a, b int) bool { return ps[a].Hour < ps[b].Hour })
	}
	s.Series, s.MaxHour = series, known(s.MaxHour)
	s.Limits, s.Burns = cleanLimits(s.Limits), cleanBurns(s.Burns)
	return s, dropped
}

// cleaned is the step with an interval that can be drawn, if itself it can.
func (p CourseStep) cleaned() (CourseStep, bool) {
	if !numeric(p.Low) || !numeric(p.High) || p.Low > p.Mid || p.High < p.Mid {
		p.Low, p.High = p.Mid, p.Mid
	}
	return p, fit(p.From) && fit(p.To) && p.From <= p.To && numeric(p.Mid)
}

func cleanLimits(ls []CourseLimit) []CourseLimit {
	var out []CourseLimit
	for _, l := range ls {
		if !numeric(l.Low) || !numeric(l.High) || l.Low > l.High {
			l.Low, l.High = 0, 0
		}
		if numeric(l.Value) {
			out = append(out, l)
		}
	}
	return out
}

func cleanBurns(bs []CourseBurn) []CourseBurn {
	var out []CourseBurn
	for _, b := range bs {
		if fit(b.From) && fit(b.To) && b.To > b.From {
			out = append(out, b)
		}
	}
	return out
}

// hours is the last hour that the chart must hold; at least a little.
func (s CourseSpec) hours() float64 {
	to := s.MaxHour
	for _, b := range s.Burns {
		to = max(to, b.To)
	}
	for _, x := range s.Series {
		for _, p := range x.Points {
			to = max(to, p.Hour)
		}
		for _, p := range x.Steps {
			to = max(to, p.To)
		}
	}
	return orOne(to)
}

// span is the lowest and the highest value; ok is false without any.
func (s CourseSpec) span() (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, x := range s.Series {
		for _, p := range x.Points {
			low, high = min(low, p.Value), max(high, p.Value)
		}
		for _, p := range x.Steps {
			low, high = min(low, p.Low), max(high, p.High)
		}
	}
	return low, high, low <= high
}

// drawn parts the limits into those near enough to be drawn and those far
// above, more than twice the highest value.
func (s CourseSpec) drawn() (near, far []CourseLimit) {
	_, high, ok := s.span()
	for _, l := range s.Limits {
		if ok && high > 0 && l.Value > 2*high {
			far = append(far, l)
		} else {
			near = append(near, l)
		}
	}
	return near, far
}

// axis is the value axis: it holds every value and every near limit.
func (s CourseSpec) axis(most int) axis {
	if n := len(s.Words); n > 0 {
		return axis{-0.6, float64(n) - 0.4, n, []float64{1}, "", s.word}
	}
	low, high, ok := s.span()
	if !ok {
		low, high = 0, 0
	}
	near, _ := s.drawn()
	for _, l := range near {
		low, high = min(low, l.Value), max(high, l.Value, l.High)
		if !ok {
			low = min(low, l.Low)
		}
	}
	low, high = padded(low, high, s.FromZero)
	return axis{low, high, most, s.Steps, s.Unit, orPlain(s.Value)}
}

// leastPad is the least room about a stretch; what is narrower is taken for one
// value.
const leastPad = 1e-9

// padded widens a stretch by a tenth at either end, not across zero.
func padded(low, high float64, fromZero bool) (float64, float64) {
	if fromZero {
		low = min(low, 0)
	}
	pad := 0.1 * max(high-low, 1e-6*math.Abs(high))
	if pad < leastPad {
		pad = 1
	}
	if lower := low - pad; low < 0 || lower >= 0 {
		return lower, high + pad
	}
	return 0, high + pad
}

// word is the name of a place on the scale of words.
func (s CourseSpec) word(v float64) string {
	if i := int(math.Round(v)); i >= 0 && i < len(s.Words) {
		return s.Words[i]
	}
	return ""
}

// farWords tells the limits that are not drawn.
func (s CourseSpec) farWords() string {
	_, far := s.drawn()
	out := ""
	for _, l := range far {
		out = joined(out, "; ", l.Label)
	}
	if out == "" {
		return ""
	}
	return "Far above these values: " + out + "."
}
