// Package chart draws pools, burns and masses as SVG: the pool disc, the
// progress line of a lit candle, the growth of a pool against time and the
// mass of a candle against the hours it was lit.
//
// Layout is worked out in Go and ends in finished strings; the templates only
// put them in place. The package takes numbers already in the reader's unit,
// with labels already in words. It refuses to know what a candle is, to fit a
// line, to choose a colour (classes only) or to draw a number that is not
// finite: such points are left out, counted, and the caption says so.
package chart

import (
	"math"
	"strconv"
)

// px writes a coordinate with at most two decimals. All rounding of geometry
// happens here.
func px(v float64) string {
	r := math.Round(v*100) / 100
	if r == 0 {
		return "0" // never "-0"
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}

// at writes a point of a path.
func at(x, y float64) string { return px(x) + " " + px(y) }

// finite reports whether v can be drawn.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// largest is the largest number that a chart takes for a reading; beyond it
// the arithmetic of places would lose its footing.
const largest = 1e9

// fit reports whether v is a reading: finite, not below zero, not absurd.
func fit(v float64) bool { return v >= 0 && v <= largest }

// known is v where it is a measure, and 0 otherwise.
func known(v float64) float64 {
	if !fit(v) {
		return 0
	}
	return v
}

// clamp holds v between lo and hi.
func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }
