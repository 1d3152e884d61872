package page

import (
	"errors"
	"math"
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/stats"
	"rimward/web/ui"
)

// MeasureResults is what the marks say, or why they say nothing yet.
type MeasureResults struct {
	Wait     string // what is still missing; "" once there are figures
	Full     string
	Facts    []ui.Fact
	Warnings []ui.Warning
	Note     string
}

// sure is the level of the intervals that are shown.
const sure = 0.95

// results measures the pool.
func (m Measuring) results() MeasureResults {
	got, err := m.measured()
	if err != nil {
		return MeasureResults{Wait: waitWords(err)}
	}
	r := MeasureResults{Facts: m.facts(got),
		Note: "In small type: between which figures the true one lies, nineteen times out of twenty, going by how the marks scatter and how slanting the view is. A pool that lies deeper than the marked wall looks smaller than it is; that is not in it."}
	if got.Full {
		r.Full = "The pool touches the wall all round, as far as the marks can tell. For the check it is offered as full."
	}
	for _, w := range got.Warnings {
		r.Warnings = append(r.Warnings, ui.Warning{Text: capital(w) + "."})
	}
	return r
}

func (m Measuring) measured() (meltpool.Measured, error) {
	if len(m.Input.Marks.Wall) == 0 {
		return meltpool.Measured{}, &meltpool.MarksError{Stage: meltpool.WallStage, Err: stats.ErrTooFew}
	}
	return meltpool.Measure(m.vessel(), meltpool.Marks{Wall: marksOf(m.Input.Marks.Wall), Pool: marksOf(m.Input.Marks.Pool)})
}

// waitWords says why there are no figures.
func waitWords(err error) string {
	line := "the wall"
	var at *meltpool.MarksError
	if errors.As(err, &at) && at.Stage == meltpool.PoolStage {
		line = "the pool's edge"
	}
	switch {
	case errors.Is(err, stats.ErrTooFew):
		return "Not enough yet: " + line + " needs six marks at different places, and eight or more give surer figures."
	case errors.Is(err, stats.ErrOnALine):
		return "The marks on " + line + " lie on a straight line. Spread them all round."
	}
	return "No ellipse fits the marks on " + line + ". Take back those that slipped."
}

func (m Measuring) facts(got meltpool.Measured) []ui.Fact {
	a, b := "Longest way across", "At right angles to it"
	if m.Vessel.Shape == journal.Oval {
		a, b = widthLabels(m.Vessel)
	}
	return []ui.Fact{
		m.lengthFact(a, got.A), m.lengthFact(b, got.B),
		m.lengthFact("Wax left, narrowest", got.Narrowest), m.lengthFact("Wax left, widest", got.Widest),
		m.lengthFact("Off the vessel's centre", got.OffCentre),
		shareFact("Narrowest over longest", got.Roundness), shareFact("Of the surface melted", got.Surface),
	}
}

// lengthFact shows a length that cannot be below nothing, with its interval.
func (m Measuring) lengthFact(label string, e meltpool.Estimate) ui.Fact {
	margin := e.Margin(sure)
	u := m.View.Units
	show := func(x float64) string { return u.ColumnLength(quantity.Millimetres(max(x, 0))) }
	return ui.Fact{Label: label, Text: show(e.At), Unit: u.Length.Word(), More: show(e.At-margin) + " to " + show(e.At+margin)}
}

// shareFact shows a share of at most all.
func shareFact(label string, e meltpool.Estimate) ui.Fact {
	margin := e.Margin(sure)
	show := func(x float64) quantity.Shown {
		return quantity.Shown{Number: quantity.Number(100*math.Min(math.Max(x, 0), 1), 0), Unit: "%"}
	}
	at := show(e.At)
	return ui.Fact{Label: label, Text: at.Number, Unit: at.Unit, More: show(e.At-margin).Number + " to " + show(e.At+margin).Number}
}

// Offer is what a check's form is filled in with: both widths in the person's
// units and no wider than the vessel, or a full pool; nil without figures.
func (m Measuring) Offer() url.Values {
	got, err := m.measured()
	if err != nil || m.refused() != "" {
		return nil
	}
	if got.Full {
		return url.Values{"full": {"1"}}
	}
	width := func(e meltpool.Estimate, most quantity.Millimetres) []string {
		return []string{m.View.length(min(e.Millimetres(), most)).Number}
	}
	return url.Values{"width_a": width(got.A, m.Vessel.Length()), "width_b": width(got.B, m.Vessel.InnerWidth)}
}

// WithOffer puts an offer from a photo into the boxes of a check; offered is
// false when the address brings none.
func WithOffer(values, address url.Values) (offered bool) {
	if !address.Has("width_a") && !address.Has("width_b") && !address.Has("full") {
		return false
	}
	for _, name := range []string{"width_a", "width_b", "full"} {
		values.Del(name)
		if address.Has(name) {
			values.Set(name, address.Get(name))
		}
	}
	return true
}

// OfferLede is said above the form of a check that a photo filled in.
const OfferLede = "The pool is filled in from the marks on the photo. Look it over: nothing is changed until you save."
