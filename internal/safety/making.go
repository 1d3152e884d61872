package safety

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// makingRules are the rules of how a candle was made.
var makingRules = []func(journal.Made, quantity.Units) *Finding{
	loadOverWax, loadOverOil, oilNearFlash, heatedOutside, oilAddedOutside, pouredOutside, glassUnproven,
}

// OfMaking reads a candle's pour and vessel against what the suppliers of its
// wax and its fragrance say.
func OfMaking(m journal.Made, u quantity.Units) []Finding {
	var fs []Finding
	for _, rule := range makingRules {
		if f := rule(m, u); f != nil {
			f.At, f.Candle, f.CandleID = m.Pour.At, m.Candle.Code(), m.Candle.ID
			fs = append(fs, *f)
		}
	}
	return fs
}

// Sources that the rules of making share.
const (
	waxSupplier = "the wax supplier's guidance, from the shelf"
	oilSupplier = "the fragrance supplier's figure, from the shelf"
)

// The names of the rules about the load, which a sweating candle strengthens.
const (
	overWaxRule = "load over the wax's maximum"
	overOilRule = "load over the fragrance's maximum"
)

// FlashMargin is how far below its flash point an oil is handled as one that
// catches fire more easily: 16.7 °C, which is 30 °F (29 CFR 1910.106(a)(19), as
// quoted by a safety list of a chemical society, 2014; read in a secondary
// source).
const FlashMargin quantity.Celsius = 30 / 1.8

// loadOverWax: more oil than the wax is said to hold.
func loadOverWax(m journal.Made, _ quantity.Units) *Finding {
	f := overLoad(m, m.Wax.Load.High, m.Wax.LoadBasis)
	if f == nil {
		return nil
	}
	f.Rule, f.Source = overWaxRule, waxSupplier
	f.Text = "The load is " + f.Reading.String() + "; the wax is said to take " + f.Limit.String() + ". A pool rich in oil catches fire more easily."
	return f
}

// loadOverOil: more oil than its supplier allows in candles.
func loadOverOil(m journal.Made, _ quantity.Units) *Finding {
	if m.Fragrance == nil {
		return nil
	}
	f := overLoad(m, m.Fragrance.MaxLoad, m.Fragrance.MaxBasis)
	if f == nil {
		return nil
	}
	f.Rule, f.Source = overOilRule, oilSupplier
	f.Text = "The load is " + f.Reading.String() + "; the fragrance's supplier allows " + f.Limit.String() + " in candles."
	return f
}

// hair is the difference between two loads that is no more than arithmetic.
const hair = 1e-9

func overLoad(m journal.Made, most *quantity.Fraction, basis journal.Basis) *Finding {
	load := m.Pour.LoadOn(basis)
	if load == nil || most == nil || *load <= *most+hair {
		return nil
	}
	return &Finding{Level: Caution, Reading: loadOf(*load, basis), Limit: loadOf(*most, basis), Do: []string{"Use less oil in the next pour."}}
}

func loadOf(f quantity.Fraction, b journal.Basis) quantity.Shown {
	s := f.Percent()
	s.Unit += " of the " + string(b)
	return s
}

// oilNearFlash: the oil went into wax near its flash point.
func oilNearFlash(m journal.Made, u quantity.Units) *Finding {
	if m.Fragrance == nil || m.Fragrance.FlashPoint == nil || m.Pour.OilAt == nil || *m.Pour.OilAt <= *m.Fragrance.FlashPoint-FlashMargin {
		return nil
	}
	r, l := u.ShowTemperature(*m.Pour.OilAt), u.ShowTemperature(*m.Fragrance.FlashPoint-FlashMargin)
	return &Finding{Rule: "oil added near its flash point", Level: Caution, Reading: r, Limit: l,
		Source: "29 CFR 1910.106(a)(19), read in a secondary source: within " + u.ShowTemperatureDifference(FlashMargin).String() + " of its flash point an oil is handled as one that catches fire more easily",
		Text:   "The oil went in at " + r.String() + ", above " + l.String() + ", where it nears its flash point of " + u.ShowTemperature(*m.Fragrance.FlashPoint).String() + ".",
		Do:     []string{"Keep flames and sparks away while pouring.", "Add it cooler, where the wax's guidance allows."}}
}

func heatedOutside(m journal.Made, u quantity.Units) *Finding {
	return outside("wax heated outside its guidance", "The wax was heated to ", m.Pour.HeatedTo, m.Wax.HeatTo, u)
}

func oilAddedOutside(m journal.Made, u quantity.Units) *Finding {
	if m.Fragrance == nil {
		return nil
	}
	return outside("oil added outside the guidance", "The oil was added at ", m.Pour.OilAt, m.Wax.AddOilAt, u)
}

func pouredOutside(m journal.Made, u quantity.Units) *Finding {
	return outside("poured outside the guidance", "It was poured at ", m.Pour.PouredAt, m.Wax.PourAt, u)
}

// outside: a temperature lies outside a supplier's range.
func outside(rule, start string, t *quantity.Celsius, g journal.Range[quantity.Celsius], u quantity.Units) *Finding {
	if t == nil {
		return nil
	}
	limit, side := g.High, " at most"
	switch {
	case g.Low != nil && *t < *g.Low:
		limit, side = g.Low, " at least"
	case g.High == nil || *t <= *g.High:
		return nil
	}
	r, l := u.ShowTemperature(*t), u.ShowTemperature(*limit)
	return &Finding{Rule: rule, Level: Note, Reading: r, Limit: l, Source: waxSupplier, Text: start + r.String() + "; the wax's guidance is " + l.String() + side + "."}
}

// glassUnproven: no supplier's certificate for the glass is at hand.
func glassUnproven(m journal.Made, _ quantity.Units) *Finding {
	if m.Vessel.Material != "glass" || m.Vessel.Certificate {
		return nil
	}
	return &Finding{Rule: "glass without a certificate", Level: Note, Source: "ASTM F2179 is the specification for candle glass (abstract)",
		Text: "No supplier's certificate for candle glass is noted for this vessel.",
		Do:   []string{"Ask the supplier for it, and note it on the shelf."}}
}

// beforeCured: lit before it was set and cured.
func beforeCured(l journal.CandleLog, burns []journal.BurnLog) *Finding {
	ready := l.Life().ReadyAt()
	if l.Pour.At.IsZero() || len(burns) == 0 || !burns[0].Burn.LitAt.Before(ready) {
		return nil
	}
	b := burns[0].Burn
	waited := quantity.Days(b.LitAt.Sub(l.Pour.At).Hours() / 24)
	meant := quantity.Days(ready.Sub(l.Pour.At).Hours() / 24)
	return &Finding{Rule: "burned before it was cured", Level: Note, Reading: waited.Shown(), Limit: meant.Shown(), Source: waxSupplier + "; a day to set is common practice, no source",
		At: b.LitAt, Burn: b.Number, Text: "It was lit " + waited.Shown().String() + " after the pour; " + meant.Shown().String() + " of cure is meant. Burn " + strconv.Itoa(b.Number) + " may not show what a cured candle does."}
}
