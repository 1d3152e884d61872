package page

import "rimward/internal/journal"

// Known finds the things on the shelf by their ID, for records that only
// refer to them.
type Known struct {
	waxes      map[journal.ID]journal.Wax
	fragrances map[journal.ID]journal.Fragrance
	vessels    map[journal.ID]journal.Vessel
	ladders    map[journal.ID]journal.Ladder
	wicks      map[journal.ID]journal.Wick
	shelf      Shelves
	taken      journal.Takings
}

// NewKnown makes everything on the shelf findable.
func NewKnown(sh Shelves) Known {
	return Known{
		waxes:      byID(sh.Waxes, func(x journal.Wax) journal.ID { return x.ID }),
		fragrances: byID(sh.Fragrances, func(x journal.Fragrance) journal.ID { return x.ID }),
		vessels:    byID(sh.Vessels, func(x journal.Vessel) journal.ID { return x.ID }),
		ladders:    byID(sh.Ladders, func(x journal.Ladder) journal.ID { return x.ID }),
		wicks:      byID(sh.Wicks, func(x journal.Wick) journal.ID { return x.ID }),
		shelf:      sh,
	}
}

func byID[T any](list []T, id func(T) journal.ID) map[journal.ID]T {
	m := make(map[journal.ID]T, len(list))
	for _, x := range list {
		m[id(x)] = x
	}
	return m
}

// WickName is the wick as makers say it: series and label.
func (k Known) WickName(id journal.ID) string {
	w, ok := k.wicks[id]
	if !ok {
		return "an unknown wick"
	}
	return joinWords(k.ladders[w.Ladder].Name, w.Label)
}

// BasisOf is what the wax's guidance counts a load as a share of; the wax
// where it says nothing.
func (k Known) BasisOf(wax journal.ID) journal.Basis {
	if w, ok := k.waxes[wax]; ok && w.LoadBasis == journal.OfTotal {
		return journal.OfTotal
	}
	return journal.OfWax
}

func (k Known) vesselName(id journal.ID) string {
	if x, ok := k.vessels[id]; ok {
		return x.Name
	}
	return "an unknown vessel"
}

func (k Known) waxName(id journal.ID) string {
	if x, ok := k.waxes[id]; ok {
		return x.Name
	}
	return "an unknown wax"
}

func (k Known) fragranceName(id *journal.ID) string {
	if id == nil {
		return ""
	}
	if x, ok := k.fragrances[*id]; ok {
		return x.Name
	}
	return "an unknown fragrance"
}

// around are the wick's neighbours on its ladder that can still be bought:
// the next rung below, itself, the next rung above.
func (k Known) around(id journal.ID) []journal.Wick {
	here, ok := k.wicks[id]
	if !ok {
		return nil
	}
	var below, above *journal.Wick
	for _, w := range k.shelf.Wicks {
		if w.Ladder != here.Ladder || w.IsGone() {
			continue
		}
		if w.Rung < here.Rung && (below == nil || w.Rung > below.Rung) {
			below = &w
		}
		if w.Rung > here.Rung && (above == nil || w.Rung < above.Rung) {
			above = &w
		}
	}
	var out []journal.Wick
	if below != nil {
		out = append(out, *below)
	}
	if !here.IsGone() {
		out = append(out, here)
	}
	if above != nil {
		out = append(out, *above)
	}
	return out
}
