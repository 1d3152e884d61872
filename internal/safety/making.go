package safety

import (
	"rimward/internal/guide"
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

// loadOverWax: more oil than the wax is said to hold.
func loadOverWax(m journal.Made, _ quantity.Units) *Finding {
	f := overLoad(m, m.Wax.Load.High, m.Wax.LoadBasis)
	if f == nil {
		return nil
	}
	f.Rule, f.Source = overWaxRule, waxSupplier
	f.Text = loadText(f) + "the wax is said to take " + f.Limit.String() + ". A pool rich in oil catches fire more easily."
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
	f.Text = loadText(f) + "the fragrance's supplier allows " + f.Limit.String() + " in candles."
	return f
}

func overLoad(m journal.Made, most *quantity.Fraction, basis journal.Basis) *Finding {
	load := guide.LoadIn(m.Pour, basis)
	if load == nil || guide.Beside(load, journal.Range[quantity.Fraction]{High: most}).Side != guide.Above {
		return nil
	}
	return &Finding{Level: Caution, Reading: loadOf(*load, basis), Limit: loadOf(*most, basis), Do: []string{"Use less oil in the next pour."}}
}

// loadText opens the sentence on a load, also where it and its limit are shown
// alike after rounding.
func loadText(f *Finding) string {
	if f.Reading == f.Limit {
		return "The load is just above " + f.Limit.String() + "; "
	}
	return "The load is " + f.Reading.String() + "; "
}

func loadOf(f quantity.Fraction, b journal.Basis) quantity.Shown {
	s := f.Percent()
	s.Unit += " of the " + string(b)
	return s
}

// oilNearFlash: the oil went into wax near its flash point.
func oilNearFlash(m journal.Made, u quantity.Units) *Finding {
	if m.Fragrance == nil {
		return nil
	}
	flash := guide.FlashOf(m.Pour, *m.Fragrance)
	if !flash.Near() {
		return nil
	}
	r, l, point := u.ShowTemperature(*flash.Value), u.ShowTemperature(*flash.Guide.High), u.ShowTemperature(*flash.Point)
	text := "The oil went in at " + r.String() + ", above " + l.String() + ", where it nears its flash point of " + point.String() + "."
	if flash.Reached() {
		text = "The oil went in at " + r.String() + ", at or above its flash point of " + point.String() + "."
	}
	return &Finding{Rule: "oil added near its flash point", Level: Caution, Reading: r, Limit: l, Text: text,
		Source: "29 CFR 1910.106(a)(19), read in a secondary source: within " + u.ShowTemperatureDifference(guide.FlashMargin).String() + " of its flash point an oil is handled as one that catches fire more easily",
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
	limit, side := g.High, " at most"
	switch guide.Beside(t, g).Side {
	case guide.Below:
		limit, side = g.Low, " at least"
	case guide.Above:
	default:
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
