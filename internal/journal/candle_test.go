package journal

import (
	"math"
	"testing"
	"time"

	"rimward/internal/quantity"
)

// A load of 8 % of wax is 7.4074 % of the total and the other way round:
// 8 g of oil on 100 g of wax make 108 g.
func TestLoadOnEitherBasis(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ ofWax, ofTotal quantity.Fraction }{{0.06, 0.0566037736}, {0.08, 0.0740740741}, {0.10, 0.0909090909}, {0, 0}} {
		if got := ConvertLoad(c.ofWax, OfWax, OfTotal); math.Abs(float64(got-c.ofTotal)) > 1e-9 {
			t.Errorf("%v of wax is %v of total, want %v", c.ofWax, got, c.ofTotal)
		}
		if got := ConvertLoad(c.ofTotal, OfTotal, OfWax); math.Abs(float64(got-c.ofWax)) > 1e-9 {
			t.Errorf("%v of total is %v of wax, want %v", c.ofTotal, got, c.ofWax)
		}
	}
}

func TestLetters(t *testing.T) {
	t.Parallel()
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := LetterOf(n); got != want {
			t.Errorf("candle %d has the letter %s, want %s", n, got, want)
		}
	}
	if got := (Candle{PourNumber: 14, Letter: "C"}).Code(); got != "14-C" {
		t.Errorf("the code is %s", got)
	}
}

// One hour for each inch of inner width and at most four (common practice, no
// source): 76.2 mm is 3 in.
func TestTargetHour(t *testing.T) {
	t.Parallel()
	long, own := quantity.Millimetres(100), quantity.Hours(2.5)
	for name, c := range map[string]struct {
		vessel Vessel
		want   quantity.Hours
	}{
		"three inches":            {Vessel{InnerWidth: 76.2}, 3},
		"five inches":             {Vessel{InnerWidth: 127}, 4},
		"an oval, geometric mean": {Vessel{Shape: Oval, InnerWidth: 64, InnerLength: &long}, 80 / 25.4},
		"set by the maker":        {Vessel{InnerWidth: 76.2, TargetHours: &own}, 2.5},
	} {
		if got := c.vessel.Target(); math.Abs(float64(got-c.want)) > 1e-12 {
			t.Errorf("%s: %v h, want %v h", name, got, c.want)
		}
	}
}

func TestBurnRate(t *testing.T) {
	t.Parallel()
	b := over(1, 4, 1, Snuffed)
	if _, ok := b.Rate(); ok {
		t.Error("a rate without weighings")
	}
	// 0.105 g/min, the paraffin candle of Hamins, Bundy & Dillon 2005: 6.3 g/h.
	b.MassBefore, b.MassAfter = ptr(quantity.Grams(200)), ptr(quantity.Grams(200-3*6.3))
	if r, ok := b.Rate(); !ok || math.Abs(float64(r)-6.3) > 1e-9 {
		t.Errorf("the rate is %v g/h, want 6.3", r)
	}
}

func TestStates(t *testing.T) {
	t.Parallel()
	at := func(days float64) time.Time { return evening.Add(time.Duration(days * 24 * float64(time.Hour))) }
	out := at(15)
	for name, c := range map[string]struct {
		life Life
		now  time.Time
		want State
	}{
		"an hour old":       {Life{PouredAt: evening, CureDays: 14}, evening.Add(time.Hour), Setting},
		"just set":          {Life{PouredAt: evening, CureDays: 14}, at(1), Curing},
		"almost cured":      {Life{PouredAt: evening, CureDays: 14}, at(13.99), Curing},
		"cured":             {Life{PouredAt: evening, CureDays: 14}, at(14), Ready},
		"no cure stated":    {Life{PouredAt: evening}, at(1), Ready},
		"lit":               {Life{PouredAt: evening, Burns: 1, Lit: true}, at(15), LitNow},
		"burned once":       {Life{PouredAt: evening, Burns: 1, LastOut: &out}, at(16), Resting},
		"burned to the end": {Life{PouredAt: evening, Burns: 9, Spent: true}, at(30), IsSpent},
		"withdrawn":         {Life{PouredAt: evening, Gone: true, Lit: true}, at(30), Withdrew},
	} {
		if got := c.life.StateAt(c.now); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// What was withdrawn does not count towards a candle's state.
func TestLifeLeavesWithdrawnBurnsOut(t *testing.T) {
	t.Parallel()
	gone := over(1, 9, 5, Spent)
	gone.Gone = ptr(evening)
	l := CandleLog{Burns: []BurnLog{{Burn: gone}, {Burn: over(2, 4, 2, Snuffed)}}}
	if f := l.Life(); f.Burns != 1 || f.Spent || !f.LastOut.Equal(hoursAgo(2)) {
		t.Errorf("the life is %+v", f)
	}
}

// 254 g of water fill 254.5 mL at 20 °C (0.9982 g/mL; CRC Handbook, from
// memory); a volume that was measured wins.
func TestCapacity(t *testing.T) {
	t.Parallel()
	v := Vessel{WaterFill: ptr(quantity.Grams(254))}
	if got := v.Capacity(); got == nil || math.Abs(float64(*got)-254.458) > 0.001 {
		t.Errorf("254 g of water fill %v mL", got)
	}
	v.Volume = ptr(quantity.Millilitres(260))
	if got := v.Capacity(); *got != 260 {
		t.Errorf("the measured volume gives way: %v", *got)
	}
	if (Vessel{}).Capacity() != nil {
		t.Error("a capacity that nobody measured")
	}
}

// What was withdrawn does not count, and what counts stands in order of time,
// however it was written down.
func TestWhatCountsOfACandle(t *testing.T) {
	t.Parallel()
	at := func(h int) time.Time { return time.Date(2026, 5, 14, h, 0, 0, 0, time.UTC) }
	gone := at(1)
	l := CandleLog{Burns: []BurnLog{
		{Burn: Burn{Number: 2, LitAt: at(9)}}, {Burn: Burn{Number: 1, LitAt: at(4)}, Checks: []Check{{At: at(7)}, {Meta: Meta{Gone: &gone}, At: at(6)}, {At: at(5)}}},
		{Burn: Burn{Meta: Meta{Gone: &gone}, Number: 3, LitAt: at(12)}},
	}}
	bs := l.CountedBurns()
	if len(bs) != 2 || bs[0].Burn.Number != 1 || bs[1].Burn.Number != 2 {
		t.Fatalf("burns %+v", bs)
	}
	if cs := bs[0].CountedChecks(); len(cs) != 2 || cs[0].At != at(5) || cs[1].At != at(7) {
		t.Errorf("checks %+v", cs)
	}
	if l.Burns[0].Burn.Number != 2 || len(l.Burns[1].Checks) != 3 {
		t.Error("the log itself changed")
	}
}
