package page

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// factList gathers what is known, leaving out what was not written down.
type factList []ui.Fact

func (l *factList) text(label, text string) {
	if text != "" {
		*l = append(*l, ui.Fact{Label: label, Text: text})
	}
}

func (l *factList) shown(label string, s quantity.Shown) {
	*l = append(*l, ui.Fact{Label: label, Text: s.Number, Unit: s.Unit})
}

// maybe adds a quantity that may not have been written down.
func maybe[T any](l *factList, label string, v *T, show func(T) quantity.Shown) {
	if v != nil {
		l.shown(label, show(*v))
	}
}

// rangeText writes a guidance: 60–65 °C, from 60 °C, up to 65 °C.
func rangeText[T ~float64](r journal.Range[T], show func(T) quantity.Shown) quantity.Shown {
	switch {
	case r.Low != nil && r.High != nil && *r.Low == *r.High:
		return show(*r.Low)
	case r.Low != nil && r.High != nil:
		high := show(*r.High)
		return quantity.Shown{Number: show(*r.Low).Number + "–" + high.Number, Unit: high.Unit}
	case r.Low != nil:
		low := show(*r.Low)
		return quantity.Shown{Number: "from " + low.Number, Unit: low.Unit}
	case r.High != nil:
		high := show(*r.High)
		return quantity.Shown{Number: "up to " + high.Number, Unit: high.Unit}
	}
	return quantity.Shown{Number: "not stated"}
}

func addRange[T ~float64](l *factList, label string, r journal.Range[T], show func(T) quantity.Shown) {
	if !r.IsZero() {
		l.shown(label, rangeText(r, show))
	}
}

// basisWord says what a load is a share of.
func basisWord(b journal.Basis) string {
	if b == journal.OfTotal {
		return "% of total"
	}
	return "% of wax"
}

// loadShown writes a load with its basis.
func loadShown(f quantity.Fraction, b journal.Basis) quantity.Shown {
	return quantity.Shown{Number: f.Percent().Number, Unit: basisWord(b)}
}

// yesNo writes a plain truth.
func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// daysOf shows a number of days.
func daysOf(d quantity.Days) quantity.Shown { return d.Shown() }
