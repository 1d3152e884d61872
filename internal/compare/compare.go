// Package compare sets two to six candles or pairings beside each other: in
// which facts they differ, what each came to, and how far those figures lie
// apart with intervals.
//
// It counts only what was not withdrawn. It refuses to blame a difference on
// one thing where several differ, to call two things different where the
// interval leaves no difference in, and to reckon an interval between a candle
// and a pairing: one candle says nothing of how candles differ. It knows no
// storage, no pages and no clock.
package compare

import (
	"slices"

	"rimward/internal/journal"
	"rimward/internal/standings"
)

// Fewest and Most are how many things can be set side by side.
const (
	Fewest = 2
	Most   = 6
)

// Side is what stands in one column: one candle, or a pairing with its
// candles.
type Side struct {
	Name  string
	Whole bool                // a whole pairing
	Logs  []journal.CandleLog // one for a candle; records that were withdrawn are gone
	// Pairing is the pairing, or the one that the candle belongs to; nil where
	// nothing counts yet.
	Pairing *standings.Pairing
}

// OfCandle is the column of one candle. The pairing that it belongs to may be
// nil.
func OfCandle(l journal.CandleLog, p *standings.Pairing) Side {
	return Side{Name: l.Candle.Code(), Logs: []journal.CandleLog{counted(l)}, Pairing: p}
}

// OfPairing is the column of a pairing with its candles.
func OfPairing(p standings.Pairing, logs []journal.CandleLog) Side {
	s := Side{Name: p.Name(), Whole: true, Pairing: &p}
	for _, l := range logs {
		s.Logs = append(s.Logs, counted(l))
	}
	return s
}

// counted is a candle without its withdrawn burns and checks, burns by number
// and checks by time.
func counted(l journal.CandleLog) journal.CandleLog {
	burns := slices.DeleteFunc(slices.Clone(l.Burns), func(b journal.BurnLog) bool { return b.Burn.IsGone() })
	slices.SortStableFunc(burns, func(a, b journal.BurnLog) int { return a.Burn.Number - b.Burn.Number })
	for i := range burns {
		burns[i].Checks = burns[i].CountedChecks()
	}
	l.Burns = burns
	return l
}

// Burns counts the burns of the side.
func (s Side) Burns() int {
	n := 0
	for _, l := range s.Logs {
		n += len(l.Burns)
	}
	return n
}

// row is what the standings made of a candle; false where nothing counts.
func (s Side) row(candle journal.ID) (standings.CandleRow, bool) {
	if s.Pairing == nil {
		return standings.CandleRow{}, false
	}
	for _, r := range s.Pairing.Rows {
		if r.Candle.ID == candle {
			return r, true
		}
	}
	return standings.CandleRow{}, false
}

// vessel is what the side was poured into; the zero vessel without a candle.
func (s Side) vessel() journal.Vessel {
	if s.Whole {
		return s.Pairing.Vessel
	}
	if len(s.Logs) > 0 {
		return s.Logs[0].Vessel
	}
	return journal.Vessel{}
}
