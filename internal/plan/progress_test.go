package plan

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

var roundNow = time.Date(2026, 5, 14, 19, 0, 0, 0, time.UTC)

func some[T any](v T) *T { return &v }

// aRound has a place for each of n candles, all of one cell: vessel 3, one wick
// 5, 8 % of wax, poured at 62 °C, to be burned twice each.
func aRound(n int) journal.TestRound {
	r := journal.TestRound{Wax: 2, Fragrance: some(journal.ID(9)), Days: journal.RoundDays{Burns: 2}, Factors: journal.RoundFactors{LoadBasis: journal.OfWax}}
	for i := 1; i <= n; i++ {
		r.Places = append(r.Places, journal.RoundPlace{Number: i, Melt: 1, Copy: i, Vessel: 3, Wick: 5, Wicks: 1,
			Load: some(quantity.Fraction(0.08)), PourAt: some(quantity.Celsius(62))})
	}
	return r
}

// aLine is the candle of a place as it was planned, poured some days ago.
func aLine(place int, days float64, burns int) journal.CandleLine {
	out := roundNow.Add(-20 * time.Hour)
	l := journal.CandleLine{Candle: journal.Candle{Meta: journal.Meta{ID: journal.ID(100 + place)}, Pour: 1, PourNumber: 14, Letter: journal.LetterOf(place - 1),
		Vessel: 3, Wick: 5, Wicks: 1, RoundPlace: place},
		Life: journal.Life{PouredAt: roundNow.Add(-time.Duration(days * 24 * float64(time.Hour))), CureDays: 14, Burns: burns}}
	if burns > 0 {
		l.Life.LastOut = &out
	}
	return l
}

func aPour() map[journal.ID]journal.Pour {
	return map[journal.ID]journal.Pour{1: {Meta: journal.Meta{ID: 1}, Wax: 2, Fragrance: some(journal.ID(9)),
		Load: some(quantity.Fraction(0.08)), LoadBasis: journal.OfWax, PouredAt: some(quantity.Celsius(62.4))}}
}

func TestStagesOfARound(t *testing.T) {
	t.Parallel()
	lit, spent, early := aLine(5, 20, 2), aLine(8, 20, 1), aLine(9, 20, 3)
	lit.Life.Lit, spent.Life.Spent = true, true
	lines := []journal.CandleLine{aLine(2, 0.5, 0), aLine(3, 3, 0), aLine(4, 14, 0), lit, aLine(6, 20, 1), aLine(7, 20, 2), spent, early}
	p := Progress(aRound(9), lines, aPour(), roundNow)
	var got []Stage
	for _, x := range p.Places {
		got = append(got, x.Stage)
	}
	if d := cmp.Diff([]Stage{ToPour, Sets, Cures, CanBurn, IsLit, Rests, Burned, Ended, Burned}, got); d != "" {
		t.Errorf("stages (-want +got)\n%s", d)
	}
	// Over are 1 of the lit one's two, 1, 2, 1 and 3, one of which nobody asked
	// for; still to come are two each of the first four, 1 of the lit one and 1 of
	// the one that rests. A candle that ended early owes nothing.
	if p.Burns != 8 || p.BurnsDone != 7 || p.BurnsWanted != 18 || p.Left() != 10 || p.Poured() != 8 || p.At(Burned) != 2 || p.Complete() {
		t.Errorf("%d burns, %d of %d wanted, %d left, %d poured", p.Burns, p.BurnsDone, p.BurnsWanted, p.Left(), p.Poured())
	}
	if p.Places[3].ReadyAt != roundNow || !p.Places[0].ReadyAt.IsZero() {
		t.Errorf("ready at %v and %v", p.Places[3].ReadyAt, p.Places[0].ReadyAt)
	}
	sum := 0
	for _, c := range p.Stages {
		sum += c.Places
	}
	if sum != 9 {
		t.Errorf("the stages count %d places", sum)
	}
}

// A place belongs to the newest candle that was not withdrawn, whatever order
// they are read in.
func TestNewestCandleTakesThePlace(t *testing.T) {
	t.Parallel()
	old, young, gone, stray := aLine(1, 20, 0), aLine(1, 3, 0), aLine(1, 1, 0), aLine(7, 3, 0)
	young.Candle.ID, gone.Candle.ID, gone.Life.Gone = 201, 301, true
	for _, lines := range [][]journal.CandleLine{{old, young, gone, stray}, {stray, gone, young, old}} {
		p := Progress(aRound(1), lines, nil, roundNow)
		if c := p.Places[0].Candle; c == nil || c.Candle.ID != 201 || len(p.Astray) != 2 || p.Places[0].Stage != Cures {
			t.Errorf("got %+v", p)
		}
	}
	if left := new(Progress(aRound(2), []journal.CandleLine{young}, nil, roundNow)).Unpoured(nil); len(left) != 1 || left[0].Number != 2 {
		t.Errorf("still to pour: %+v", left)
	}
	if left := (*RoundProgress)(nil).Unpoured(aRound(2).Places); len(left) != 2 {
		t.Errorf("of a round that is not kept: %+v", left)
	}
	if p := Progress(aRound(1), []journal.CandleLine{gone}, nil, roundNow); p.Places[0].Stage != ToPour || p.Astray != nil {
		t.Errorf("a candle that was withdrawn holds its place: %+v", p)
	}
}

func TestBurnedToTheEnd(t *testing.T) {
	t.Parallel()
	r := aRound(1)
	r.Days.Burns = 0
	l := aLine(1, 30, 9)
	if p := Progress(r, []journal.CandleLine{l}, nil, roundNow); !p.ToTheEnd || p.Places[0].Stage != Rests || p.BurnsWanted != 0 || p.Complete() {
		t.Errorf("got %+v", p)
	}
	l.Life.Spent = true
	if p := Progress(r, []journal.CandleLine{l}, nil, roundNow); !p.Complete() || p.Burns != 9 {
		t.Errorf("got %+v", p)
	}
}

// Each thing that differs is named with what was planned and what was done; 8 %
// of the wax is 7.41 % of the total (8 g on 100 g are 8 of 108), and so not
// another load, however it was written down.
func TestDepartures(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		do   func(*journal.Candle, *journal.Pour)
		want []Departure
	}{
		"as planned":         {func(*journal.Candle, *journal.Pour) {}, nil},
		"other vessel":       {func(c *journal.Candle, _ *journal.Pour) { c.Vessel = 4 }, []Departure{{Matter: OtherVessel}}},
		"other wick, two":    {func(c *journal.Candle, _ *journal.Pour) { c.Wick, c.Wicks = 6, 2 }, []Departure{{Matter: OtherWick}, {OtherCount, 1, 2}}},
		"other wax, no oil":  {func(_ *journal.Candle, p *journal.Pour) { p.Wax, p.Fragrance = 3, nil }, []Departure{{Matter: OtherWax}, {Matter: OtherOil}}},
		"just the same load": {func(_ *journal.Candle, p *journal.Pour) { p.Load = some(quantity.Fraction(0.081)) }, nil},
		"more oil":           {func(_ *journal.Candle, p *journal.Pour) { p.Load = some(quantity.Fraction(0.0811)) }, []Departure{{OtherLoad, 0.08, 0.0811}}},
		"the same of total": {func(_ *journal.Candle, p *journal.Pour) {
			p.Load, p.LoadBasis = some(quantity.Fraction(8.0/108)), journal.OfTotal
		}, nil},
		"a degree off":         {func(_ *journal.Candle, p *journal.Pour) { p.PouredAt = some(quantity.Celsius(63)) }, nil},
		"two degrees off":      {func(_ *journal.Candle, p *journal.Pour) { p.PouredAt = some(quantity.Celsius(60)) }, []Departure{{OtherPourAt, 62, 60}}},
		"temperature not kept": {func(_ *journal.Candle, p *journal.Pour) { p.PouredAt, p.Load = nil, nil }, nil},
	} {
		l, pours := aLine(1, 3, 0), aPour()
		p := pours[1]
		c.do(&l.Candle, &p)
		pours[1] = p
		got := Progress(aRound(1), []journal.CandleLine{l}, pours, roundNow).Places[0].Differs
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s (-want +got)\n%s", name, d)
		}
	}
}
