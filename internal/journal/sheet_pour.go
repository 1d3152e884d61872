package journal

import (
	"cmp"
	"slices"
	"time"

	"rimward/internal/quantity"
)

// SheetMasses is what one melt of a sheet was to weigh.
type SheetMasses struct{ Wax, Oil quantity.Grams }

// AsPour is the pour that a sheet was made into: with the masses that the scale
// said, or else those that were planned, and the temperatures that were read of
// the first melt that has them.
func (s PourSheet) AsPour(at time.Time, planned []SheetMasses) Pour {
	p := Pour{At: at, Wax: s.Wax, LoadBasis: s.LoadBasis, Sheet: &s.ID}
	var wax, oil quantity.Grams
	for i, m := range planned {
		wax += s.Body.weighed(WeighWax.Key(i+1), m.Wax)
		oil += s.Body.weighed(WeighOil.Key(i+1), m.Oil)
		p.HeatedTo = firstOf(p.HeatedTo, s.Body.read(HeatWax.Key(i+1)))
		p.OilAt = firstOf(p.OilAt, s.Body.read(StirOil.Key(i+1)))
		p.PouredAt = firstOf(p.PouredAt, s.Body.read(PourWax.Key(i+1)))
	}
	p.WaxMass = &wax
	if s.Fragrance != nil && s.Load != nil && *s.Load > 0 {
		p.Fragrance, p.Load, p.OilMass = s.Fragrance, s.Load, &oil
	}
	return p
}

// weighed is what the scale said under a key, or what was planned.
func (b SheetBody) weighed(key string, planned quantity.Grams) quantity.Grams {
	if t, ok := b.Ticked(key); ok && t.Weighed != nil {
		return *t.Weighed
	}
	return planned
}

// read is what the thermometer said under a key; nil when it was not read.
func (b SheetBody) read(key string) *quantity.Celsius {
	t, _ := b.Ticked(key)
	return t.Read
}

func firstOf[T any](a, b *T) *T {
	if a != nil {
		return a
	}
	return b
}

// Candles are the candles that a sheet filled: one for each vessel that has a
// wick, with its place in the round where it has one. Their pour is new, so
// they have its letters from the first.
func (s PourSheet) Candles(pour ID) []Candle {
	var out []Candle
	for _, l := range s.Body.Lines {
		if l.Vessel == nil || l.Wick == nil {
			continue
		}
		for i := range l.Count {
			c := Candle{Pour: pour, Letter: LetterOf(len(out)), Vessel: *l.Vessel, Wick: *l.Wick, Wicks: l.Wicks}
			if s.Round != nil && i < len(l.Places) {
				c.Round, c.RoundPlace = s.Round, l.Places[i]
			}
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b Candle) int { return cmp.Compare(a.RoundPlace, b.RoundPlace) })
	return out
}

// Casts are the casts that a sheet filled, one for each mould, still in it.
// cavities says how many a mould has.
func (s PourSheet) Casts(pour ID, cavities func(mould ID) int) []Cast {
	var out []Cast
	for _, l := range s.Body.Lines {
		if l.Mould != nil {
			out = append(out, Cast{Pour: pour, Mould: *l.Mould, Pieces: l.Count * cavities(*l.Mould)})
		}
	}
	return out
}
