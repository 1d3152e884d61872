package life

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Why a candle does not count as burned to the end; empty when it does.
type Why string

// The reasons.
const (
	NeverLit      Why = "never lit"
	StillLit      Why = "lit now"
	NotYet        Why = "not burned to the end yet"
	PutOut        Why = "put out for safety"
	WentOutEarly  Why = "went out with wax left"
	WentOutUnsure Why = "went out, and how much wax was left is not known"
	Withdrawn     Why = "withdrawn"
)

// Total is how long one candle was lit over all its burns that count.
type Total struct {
	Candle journal.Candle
	Hours  quantity.Hours // of its finished burns
	Burns  int            // finished ones
	Why    Why            // why it is not burned to the end; "" when it is
	// Height is how high the wax stood after the last burn; nil when that
	// cannot be told.
	Height *quantity.Millimetres
	// TooMuchLeft: it was called spent with clearly more wax than the height
	// at which a last burn ends, so its hours may be too few. TooFar: it was
	// burned clearly below that height, so its hours are too many for a label.
	TooMuchLeft, TooFar bool
	Stopped             int // earlier burns that were put out for safety or went out by themselves
}

// Ended reports whether the candle counts as burned to the end.
func (t Total) Ended() bool { return t.Why == "" }

// clearly is how far from the height of the last burn a candle may end before
// it is said (app default).
const clearly quantity.Millimetres = 4

// TotalOf sums a candle's hours and says whether it was burned to the end. stop is the height of wax at which the
// last burn ends. A candle that went out by itself counts when no more than
// that was left: a container candle may go out by itself only when little is
// left (RAL-GZ 041/2, read in a secondary source).
func TotalOf(l journal.CandleLog, stop quantity.Millimetres) Total {
	t := Total{Candle: l.Candle, Height: endHeight(l)}
	bs := l.CountedBurns()
	for i, b := range bs {
		if b.Burn.OutAt == nil {
			continue
		}
		t.Hours, t.Burns = t.Hours+max(b.Burn.Lasted(*b.Burn.OutAt), 0), t.Burns+1
		if e := b.Burn.Ending; i < len(bs)-1 && (e == journal.PutOutUnsafe || e == journal.WentOut) {
			t.Stopped++
		}
	}
	t.Why = whyNot(l, bs, t.Height, stop)
	if t.Ended() && t.Height != nil {
		t.TooMuchLeft, t.TooFar = *t.Height > stop+clearly, *t.Height < stop-clearly
	}
	return t
}

// whyNot says why a candle is not burned to the end; "" when it is.
func whyNot(l journal.CandleLog, bs []journal.BurnLog, height *quantity.Millimetres, stop quantity.Millimetres) Why {
	switch {
	case l.Candle.IsGone() || l.Pour.IsGone():
		return Withdrawn
	case len(bs) == 0:
		return NeverLit
	case bs[len(bs)-1].Burn.Lit():
		return StillLit
	}
	switch bs[len(bs)-1].Burn.Ending {
	case journal.Spent:
		return ""
	case journal.PutOutUnsafe:
		return PutOut
	case journal.WentOut:
		return wentOut(height, stop)
	}
	return NotYet
}

func wentOut(height *quantity.Millimetres, stop quantity.Millimetres) Why {
	switch {
	case height == nil:
		return WentOutUnsure
	case *height > stop:
		return WentOutEarly
	}
	return ""
}
