package guide

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// FlashMargin is how far below its flash point an oil is handled as one that
// catches fire more easily: 16.7 °C, which is 30 °F as a difference
// (29 CFR 1910.106(a)(19), as quoted by a safety list of a chemical society,
// 2014; read in a secondary source).
const FlashMargin quantity.Celsius = 30 / 1.8

// Flash is the temperature that the oil went in at beside its flash point.
type Flash struct {
	Point *quantity.Celsius // from the safety data sheet; nil when not stated
	// Compared has the temperature that the oil was added at; its guidance
	// ends FlashMargin below the flash point.
	Compared[quantity.Celsius]
}

// FlashOf holds the temperature that a fragrance went in at against its flash
// point.
func FlashOf(p journal.Pour, f journal.Fragrance) Flash {
	out := Flash{Point: f.FlashPoint}
	var g journal.Range[quantity.Celsius]
	if f.FlashPoint != nil {
		most := *f.FlashPoint - FlashMargin
		g.High = &most
	}
	out.Compared = compared(p.OilAt, g)
	return out
}

// Near reports whether the oil went in within FlashMargin of its flash point,
// or above it.
func (f Flash) Near() bool { return f.Side == Above }

// Reached reports whether the oil went in at its flash point or above.
func (f Flash) Reached() bool {
	return f.Point != nil && f.Value != nil && *f.Value >= *f.Point-Hair
}
