package needs

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Lasting is how long a candle can be expected to burn until it is spent, from
// candles that were.
type Lasting struct {
	Hours   quantity.Hours // their mean; 0 where there are none
	Candles int
	// Alike says that they had the same wick; otherwise they only stood in the
	// same vessel.
	Alike bool
}

// Lasts looks through spent candles for those like a place of a round: the
// same vessel and wicks, or else the same vessel.
func Lasts(p journal.RoundPlace, spent []journal.CandleLine) Lasting {
	var same, near []journal.CandleLine
	for _, l := range spent {
		if !l.Life.Spent || l.Life.Gone || l.Candle.Vessel != p.Vessel {
			continue
		}
		near = append(near, l)
		if l.Candle.Wick == p.Wick && l.Candle.Wicks == p.Wicks {
			same = append(same, l)
		}
	}
	if len(same) > 0 {
		return Lasting{mean(same), len(same), true}
	}
	return Lasting{mean(near), len(near), false}
}

func mean(ls []journal.CandleLine) quantity.Hours {
	if len(ls) == 0 {
		return 0
	}
	sum := 0.0
	for _, l := range ls {
		sum += l.LitHours
	}
	return quantity.Hours(sum / float64(len(ls)))
}

// LastsAll is the mean over all places of a round; the candles that it rests
// on are counted once for each wick and vessel. Hours is 0 where nothing is
// known of a place.
func LastsAll(places []journal.RoundPlace, spent []journal.CandleLine) Lasting {
	out := Lasting{Alike: true}
	type pairing struct {
		vessel, wick journal.ID
		wicks        int
	}
	seen := map[pairing]bool{}
	for _, p := range places {
		one := Lasts(p, spent)
		if one.Candles == 0 {
			return Lasting{}
		}
		out.Hours += one.Hours / quantity.Hours(len(places))
		out.Alike = out.Alike && one.Alike
		if k := (pairing{p.Vessel, p.Wick, p.Wicks}); !seen[k] && one.Alike {
			seen[k] = true
			out.Candles += one.Candles
		}
	}
	if !out.Alike {
		out.Candles = Lasts(journal.RoundPlace{Vessel: places[0].Vessel}, spent).Candles
	}
	return out
}
