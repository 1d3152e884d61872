package standings

import (
	"cmp"
	"math"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// settings lists the different waxes and loads of candles, in order of their
// names.
func settings(logs []journal.CandleLog) []Setting {
	type key struct {
		wax, oil journal.ID
		load     int // in hundred-thousandths, so that 8 % of wax written either way is one
	}
	at := map[key]int{}
	var ss []Setting
	for _, l := range logs {
		s := Setting{Wax: l.Wax, Fragrance: l.Fragrance, Load: loadOf(l.Pour)}
		k := key{wax: l.Wax.ID, load: -1}
		if s.Fragrance != nil {
			k.oil = s.Fragrance.ID
			if s.Load != nil {
				k.load = int(math.Round(float64(*s.Load) * 1e5))
			}
		}
		i, ok := at[k]
		if !ok {
			i = len(ss)
			at[k] = i
			ss = append(ss, s)
		}
		ss[i].Candles++
	}
	slices.SortStableFunc(ss, compareSettings)
	return ss
}

func loadOf(p journal.Pour) *quantity.Fraction { return p.LoadOn(journal.OfWax) }

func compareSettings(a, b Setting) int {
	return cmp.Or(cmp.Compare(a.Wax.Name, b.Wax.Name), cmp.Compare(a.Wax.ID, b.Wax.ID),
		cmp.Compare(fragranceID(a), fragranceID(b)), cmp.Compare(loadNumber(a), loadNumber(b)))
}

func fragranceID(s Setting) journal.ID {
	if s.Fragrance == nil {
		return 0
	}
	return s.Fragrance.ID
}

func loadNumber(s Setting) float64 {
	if s.Load == nil {
		return -1
	}
	return float64(*s.Load)
}
