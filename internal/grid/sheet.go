package grid

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// Sheet is a function of rate and log width, never below 0. Beyond its span a
// row holds the floor. The function is the rows' values times exp(Log).
type Sheet struct {
	Log   float64
	floor float64
	span  [Rates]span
	row   [Rates]Line
}

// span is the part of a row that differs from the floor: from lo up to but not
// including hi.
type span struct{ lo, hi int }

func (s span) empty() bool { return s.hi <= s.lo }

// with is the smallest span that holds both.
func (s span) with(o span) span {
	switch {
	case o.empty():
		return s
	case s.empty():
		return o
	}
	return span{min(s.lo, o.lo), max(s.hi, o.hi)}
}

// wider is the span after spreading.
func (s span) wider(by int) span {
	if s.empty() {
		return s
	}
	return span{max(0, s.lo-by), min(Widths, s.hi+by)}
}

// Flat makes the sheet 1 everywhere: nothing is known.
func (s *Sheet) Flat() {
	s.Log, s.floor = 0, 1
	for j := range s.row {
		s.span[j] = span{}
		fill(s.row[j][:], 1)
	}
}

func fill(v []float64, x float64) {
	for i := range v {
		v[i] = x
	}
}

// Row is the values at one rate; to be read only, but in an open sheet.
func (s *Sheet) Row(j int) *Line { return &s.row[j] }

// Span is where row j differs from the floor.
func (s *Sheet) Span(j int) (lo, hi int) { return s.span[j].lo, s.span[j].hi }

// Open makes the sheet 1 everywhere with every row open to be multiplied point
// by point through Row; Trim ends that.
func (s *Sheet) Open() {
	s.Flat()
	s.open()
}

func (s *Sheet) open() {
	s.floor = 0
	for j := range s.span {
		s.span[j] = span{0, Widths}
	}
}

// Reopen scales an open sheet and leaves it open.
func (s *Sheet) Reopen() {
	s.trim(deepest)
	s.open()
}

// Trim scales the sheet so that its largest value is 1 and narrows the spans
// to what stands above Cut.
func (s *Sheet) Trim() { s.trim(Cut) }

func (s *Sheet) trim(cut float64) {
	top := s.floor
	for j := range s.row {
		for _, v := range s.row[j][s.span[j].lo:s.span[j].hi] {
			if v > top {
				top = v
			}
		}
	}
	if top <= 0 || math.IsInf(top, 0) || math.IsNaN(top) {
		s.Flat()
		s.Log = math.Inf(-1)
		return
	}
	s.Log += math.Log(top)
	s.floor = max(s.floor/top, cut)
	for j := range s.row {
		s.trimRow(j, 1/top)
	}
}

func (s *Sheet) trimRow(j int, by float64) {
	r, at, least := s.row[j][:], s.span[j], s.floor/by
	for at.lo < at.hi && r[at.lo] <= least {
		at.lo++
	}
	for at.hi > at.lo && r[at.hi-1] <= least {
		at.hi--
	}
	for i := at.lo; i < at.hi; i++ {
		if r[i] *= by; r[i] < s.floor {
			r[i] = s.floor
		}
	}
	if at.empty() {
		at = span{}
	}
	fill(r[:at.lo], s.floor)
	fill(r[at.hi:], s.floor)
	s.span[j] = at
}

// deepest is as small as a value may become in a product. If it were cut off
// at each step, what comes first would count for less than what comes last
// where they contradict each other.
const deepest = 1e-280

// Times multiplies the sheet by another and scales it so that its largest value
// is 1; Trim is for the end of the product.
func (s *Sheet) Times(o *Sheet) {
	s.Log += o.Log
	for j := range s.row {
		at := s.span[j].with(o.span[j])
		a, b := s.row[j][at.lo:at.hi], o.row[j][at.lo:at.hi]
		for i := range a {
			a[i] *= b[i]
		}
		s.span[j] = at
	}
	s.floor *= o.floor
	s.trim(deepest)
}

// Spread makes the sheet what another becomes when its log width is known only
// up to a normal deviation.
func (s *Sheet) Spread(o *Sheet, k Kernel) {
	s.Log, s.floor = o.Log, o.floor
	var above Line
	for j := range s.row {
		fill(s.row[j][:], o.floor)
		at := o.span[j]
		s.span[j] = at.wider(k.half)
		for i := at.lo; i < at.hi; i++ {
			above[i] = o.row[j][i] - o.floor
		}
		k.Onto(s.row[j][:], at.lo, above[at.lo:at.hi])
	}
}

// Mix makes the sheet what another becomes when its rate is known only up to a
// transition: row j is the mean of the other's rows by the transition's row j.
func (s *Sheet) Mix(o *Sheet, t *Transition) {
	s.Log, s.floor = o.Log, o.floor
	for j := range s.row {
		from, to := t.band(j)
		var at span
		for i := from; i < to; i++ {
			at = at.with(o.span[i])
		}
		s.span[j] = at
		r := s.row[j][:]
		fill(r, o.floor)
		if at.empty() {
			continue
		}
		fill(r[at.lo:at.hi], 0)
		for i := from; i < to; i++ {
			floats.AddScaled(r[at.lo:at.hi], t.w[j][i], o.row[i][at.lo:at.hi])
		}
	}
}
