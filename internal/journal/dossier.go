package journal

import (
	"slices"
	"time"
)

// Made is a candle with everything that it is made of.
type Made struct {
	Candle    Candle
	Pour      Pour
	Wax       Wax
	Fragrance *Fragrance
	Vessel    Vessel
	Wick      Wick
	Ladder    Ladder
}

// Withdrawn reports whether the candle, or the pour it came from, was.
func (m Made) Withdrawn() bool { return m.Candle.IsGone() || m.Pour.IsGone() }

// WickName is the wick as makers say it: series and label.
func (m Made) WickName() string { return m.Ladder.Name + " " + m.Wick.Label }

// BurnLog is a burn with its checks in order of time.
type BurnLog struct {
	Burn   Burn
	Checks []Check
}

// CandleLog is a candle with everything that was recorded of it, burns in
// order of their number, withdrawn records included.
type CandleLog struct {
	Made
	Burns     []BurnLog
	SetChecks []SetCheck // in order of time
}

// CountedBurns are the burns that were not withdrawn, in order of lighting.
func (l CandleLog) CountedBurns() []BurnLog {
	bs := slices.DeleteFunc(slices.Clone(l.Burns), func(b BurnLog) bool { return b.Burn.IsGone() })
	slices.SortStableFunc(bs, func(a, b BurnLog) int { return a.Burn.LitAt.Compare(b.Burn.LitAt) })
	return bs
}

// CountedChecks are the checks that were not withdrawn, in order of time.
func (b BurnLog) CountedChecks() []Check {
	cs := slices.DeleteFunc(slices.Clone(b.Checks), func(c Check) bool { return c.IsGone() })
	slices.SortStableFunc(cs, func(a, b Check) int { return a.At.Compare(b.At) })
	return cs
}

// OpenBurn is the burn that is lit now; nil when there is none.
func (l CandleLog) OpenBurn() *BurnLog {
	for i := range l.Burns {
		if l.Burns[i].Burn.Lit() {
			return &l.Burns[i]
		}
	}
	return nil
}

// Life is the little that a candle's state is derived from.
type Life struct {
	Gone     bool
	PouredAt time.Time
	CureDays float64 // 0 when the wax states none
	Burns    int     // that were not withdrawn
	Lit      bool
	LastOut  *time.Time
	Spent    bool
	SetSeen  *time.Time // the last set check that counts; nil where there is none
}

// Life gathers what the candle's state is derived from.
func (l CandleLog) Life() Life {
	f := Life{Gone: l.Withdrawn(), PouredAt: l.Pour.At, CureDays: l.Wax.Cure()}
	for _, b := range l.Burns {
		if b.Burn.IsGone() {
			continue
		}
		f.Burns++
		f.Lit = f.Lit || b.Burn.Lit()
		f.Spent = f.Spent || b.Burn.Ending == Spent
		if o := b.Burn.OutAt; o != nil && (f.LastOut == nil || o.After(*f.LastOut)) {
			f.LastOut = o
		}
	}
	if cs := l.CountedSetChecks(); len(cs) > 0 {
		f.SetSeen = &cs[len(cs)-1].At
	}
	return f
}

// Cure is the shortest cure the supplier states, in days; 0 when none.
func (w Wax) Cure() float64 {
	if w.CureDays.Low != nil {
		return float64(*w.CureDays.Low)
	}
	if w.CureDays.High != nil {
		return float64(*w.CureDays.High)
	}
	return 0
}

// State is where a candle is on its way; derived, never typed.
type State string

// The states in the order a candle passes them.
const (
	Setting   State = "setting" // under 24 h old
	Curing    State = "curing"
	Ready     State = "ready"
	LitNow    State = "lit"
	Resting   State = "resting"
	IsSpent   State = "spent"
	Withdrew  State = "withdrawn"
	SetsAfter       = 24 * time.Hour // set before inspecting (common practice, no source)
)

// StateAt is the candle's state at a moment.
func (f Life) StateAt(now time.Time) State {
	switch {
	case f.Gone:
		return Withdrew
	case f.Lit:
		return LitNow
	case f.Spent:
		return IsSpent
	case f.Burns > 0:
		return Resting
	case now.Before(f.PouredAt.Add(SetsAfter)):
		return Setting
	case now.Before(f.ReadyAt()):
		return Curing
	}
	return Ready
}

// ReadyAt is when the candle is set and cured.
func (f Life) ReadyAt() time.Time {
	cured := f.PouredAt.Add(time.Duration(f.CureDays * 24 * float64(time.Hour)))
	set := f.PouredAt.Add(SetsAfter)
	if cured.After(set) {
		return cured
	}
	return set
}

// CandleLine is a candle as a list shows it.
type CandleLine struct {
	Candle     Candle
	WaxName    string
	VesselName string
	WickName   string
	Life       Life
	LitHours   float64 // over its finished burns
	LastLit    *time.Time
}

// PourLine is a pour as a list shows it.
type PourLine struct {
	Pour          Pour
	WaxName       string
	FragranceName string
	Candles       int // that were not withdrawn
}

// BurnLine is a burn with its candle's code, as a list shows it.
type BurnLine struct {
	Burn   Burn
	Candle Candle
}

// Tried is one setting that candles were burned in, for choosing standings.
type Tried struct {
	Vessel    ID
	Wax       ID
	Fragrance *ID
	Load      *float64 // as recorded, a share of Basis
	Basis     Basis
	Candles   int
	Burns     int
}

// CandleFilter narrows a list of candles; zero fields do not narrow.
type CandleFilter struct {
	Vessel, Wax, Wick, Ladder, Pour ID
	Before                          ID // only candles written before this one, for paging
	Withdrawn                       bool
	Limit                           int
}

// Use counts what refers to a thing on the shelf.
type Use struct{ Pours, Candles, Burns, Casts int }
