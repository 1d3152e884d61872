package journal

import "rimward/internal/quantity"

// WaxBy is how the wax in a vessel was worked out from a weighing.
type WaxBy string

// The two ways: what was filled in less what was lost since, or the whole
// candle less its empty vessel.
const (
	WaxByFilled WaxBy = "filled mass less what was lost"
	WaxByVessel WaxBy = "weighing less the empty vessel"
)

// WaxAt is the wax in a candle's vessel when the whole candle weighed so much,
// in g; first is what it weighed before its first burn, nil when nobody weighed
// it. The filled mass comes first: it is this candle's own, where the empty
// mass is that of one vessel for all. ok is false when neither way is open. It
// is less than nothing where the masses cannot all be right.
func (m Made) WaxAt(whole quantity.Grams, first *quantity.Grams) (wax quantity.Grams, by WaxBy, ok bool) {
	switch {
	case m.Candle.Filled != nil && first != nil:
		return *m.Candle.Filled - (*first - whole), WaxByFilled, true
	case m.Vessel.EmptyMass != nil:
		return whole - *m.Vessel.EmptyMass, WaxByVessel, true
	}
	return 0, "", false
}
