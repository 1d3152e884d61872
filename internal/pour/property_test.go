package pour

import (
	"math"
	"math/rand/v2"
	"testing"

	"rimward/internal/quantity"
)

// anyAsk is a sheet that somebody could ask for; it is drawn, not recorded.
func anyAsk(r *rand.Rand) Ask {
	a := Ask{Step: []quantity.Grams{0.01, 0.1, 0.5, 1, 5, 28.349523125 / 20}[r.IntN(6)], Spare: quantity.Fraction(r.IntN(30)) / 100,
		Waste: quantity.Grams(r.IntN(40)), TopUp: r.IntN(2) == 0,
		Wax: Wax{Liquid: ptr(quantity.GramsPerMillilitre(0.76 + r.Float64()*0.1)), Solid: ptr(quantity.GramsPerMillilitre(0.87 + r.Float64()*0.1))}}
	for range 1 + r.IntN(4) {
		f := Filling{Count: 1 + r.IntN(12), Cavities: 1 + r.IntN(8), Volume: ptr(quantity.Millilitres(5 + r.Float64()*400))}
		if r.IntN(4) == 0 {
			f.TestFill = ptr(quantity.Grams(5 + r.Float64()*400))
		}
		a.Fillings = append(a.Fillings, f)
	}
	if r.IntN(4) > 0 {
		a.Oil = &Oil{Load: quantity.Fraction(r.IntN(130)) / 1000, Basis: []Basis{OfWax, OfTotal}[r.IntN(2)], Density: ptr(quantity.GramsPerMillilitre(0.85 + r.Float64()*0.25))}
		if r.IntN(2) == 0 {
			a.Oil.Most = ptr(ShareOfWax(a.Oil.Load, a.Oil.Basis) + quantity.Fraction(r.IntN(3))/1000)
		}
	}
	if r.IntN(2) == 0 {
		a.Melter = ptr(quantity.Grams(800 + r.IntN(4000)))
	}
	return a
}

// wholeSteps reports whether a mass can be weighed on the scale.
func wholeSteps(g, step quantity.Grams) bool {
	n := float64(g / step)
	return math.Abs(n-math.Round(n)) < 1e-6
}

// Whatever is asked for: wax and oil of each melt add up to it, the melts to the
// whole, and the melts' pieces to what was to be filled; everything is whole
// steps; the batch is enough and at most one step a melt too much; no melt is
// above what the melter holds; oil stays within its most, and within a step a
// melt of the load that was asked for.
func TestPartsAddUpToTheWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	worth := 0
	for i := range 4000 {
		a := anyAsk(r)
		s, ps := Work(a)
		if len(ps) > 0 {
			t.Fatalf("%d refused: %+v", i, ps)
		}
		if len(s.Melts) > 1 {
			worth++
		}
		addsUp(t, a, s)
		enough(t, a, s)
	}
	if worth < 500 {
		t.Errorf("only %d sheets had several melts", worth)
	}
}

func addsUp(t *testing.T, a Ask, s Sheet) {
	t.Helper()
	tol := quantity.Grams(1e-7)
	pieces := make([]int, len(s.Lines))
	var wax, oil, total quantity.Grams
	for _, m := range s.Melts {
		for _, p := range m.Parts {
			pieces[p.Line] += p.Pieces
		}
		wax, oil, total = wax+m.Wax, oil+m.Oil, total+m.Total
		if d := m.Wax + m.Oil - m.Total; d > tol || d < -tol || m.Wax <= 0 || m.Oil < 0 {
			t.Fatalf("a melt does not add up: %+v", m)
		}
		if !wholeSteps(m.Wax, a.Step) || !wholeSteps(m.Oil, a.Step) {
			t.Fatalf("cannot be weighed in steps of %v: %+v", float64(a.Step), m)
		}
		if a.Melter != nil && m.Total > *a.Melter+tol {
			t.Fatalf("a melt of %v in a melter of %v", m.Total, *a.Melter)
		}
		if a.Oil != nil && a.Oil.Most != nil && float64(m.Oil) > float64(m.Wax)*float64(*a.Oil.Most)+1e-6 {
			t.Fatalf("oil above its most: %+v", m)
		}
	}
	for i, n := range pieces {
		if n != s.Lines[i].Pieces {
			t.Fatalf("line %d: %d pieces in melts, %d to fill", i, n, s.Lines[i].Pieces)
		}
	}
	for _, d := range []quantity.Grams{wax - s.Wax, oil - s.Oil, total - s.Total, s.Wax + s.Oil - s.Total} {
		if math.Abs(float64(d)) > 1e-6 {
			t.Fatalf("the melts do not add up to the whole: %v", d)
		}
	}
}

func enough(t *testing.T, a Ask, s Sheet) {
	t.Helper()
	need := s.Fill + s.TopUp + s.Spare + s.Waste
	slack := a.Step * quantity.Grams(len(s.Melts))
	if s.Total < need-1e-3*a.Step || s.Total > need+slack {
		t.Fatalf("%v melted for %v, steps of %v in %d melts", float64(s.Total), float64(need), float64(a.Step), len(s.Melts))
	}
	if off := math.Abs(float64(s.Oil) - float64(s.Total)*float64(a.oilShare())); off > float64(slack)+1e-6 {
		t.Fatalf("oil is off by %v g", off)
	}
}

// What can be filled with what is left agrees with the sheet of that many, and
// one more would be too much.
func TestLeftAgreesWithWork(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	seen := map[RunsOut]int{}
	for i := range 600 {
		a := anyAsk(r)
		have := Have{Wax: ptr(quantity.Grams(r.IntN(20000)))}
		if r.IntN(2) == 0 {
			have.Oil = ptr(quantity.Grams(r.IntN(1200)))
		}
		got, ps := Left(a, have)
		if len(ps) > 0 {
			t.Fatalf("%d refused: %+v", i, ps)
		}
		seen[got.First]++
		if got.Count > 0 && (got.Sheet.Wax > *have.Wax+1e-6 || (have.Oil != nil && got.Sheet.Oil > *have.Oil+1e-6)) {
			t.Fatalf("%d takes more than is there: %+v of %+v", got.Count, got.Sheet, have)
		}
		if next := a.times(got.Count + 1); got.First != CapFirst && a.enough(next.Fillings[0].Count, have) {
			t.Fatalf("%d could be filled too", got.Count+1)
		}
		if d := *got.WaxLeft + got.Sheet.Wax - *have.Wax; math.Abs(float64(d)) > 1e-6 {
			t.Fatalf("wax left and used differ from what was there by %v", d)
		}
	}
	if seen[WaxFirst] < 50 || seen[OilFirst] < 50 {
		t.Errorf("what ran out: %v", seen)
	}
}

// By hand: vessels of 200 g at 8 % of wax on a scale of 1 g. One takes 200 g: oil
// 14.8, so 15 g, and 185 g wax. 1000 g wax and 60 g oil: 4 take 800 g = 741 wax +
// 59 oil; 5 take 1000 g, 926 + 74: the oil is short. So 4, oil first, 259 g wax
// and 1 g oil remain.
func TestLeftByHand(t *testing.T) {
	a := Ask{Fillings: []Filling{{Name: "tin", Count: 1, Cavities: 1, TestFill: ptr(quantity.Grams(200))}}, Step: 1, Oil: &Oil{Load: 0.08, Basis: OfWax}}
	r, ps := Left(a, Have{ptr(quantity.Grams(1000)), ptr(quantity.Grams(60))})
	if len(ps) > 0 || r.Count != 4 || r.First != OilFirst || *r.WaxLeft != 259 || *r.OilLeft != 1 {
		t.Errorf("%+v %+v", r, ps)
	}
	r, _ = Left(a, Have{ptr(quantity.Grams(1000)), ptr(quantity.Grams(500))})
	if r.Count != 5 || r.First != WaxFirst || *r.WaxLeft != 74 {
		t.Errorf("with oil enough: %+v", r)
	}
	r, _ = Left(a, Have{Wax: ptr(quantity.Grams(184))})
	if !r.NothingToFill || r.Count != 0 || *r.WaxLeft != 184 || r.WaxOfOne != 185 {
		t.Errorf("not enough for one: %+v", r)
	}
	// Five take 926 g wax and 74 g oil. Where both are short, the one that is
	// shorter for its need ends first: 70/74 before 900/926, 880/926 before 73/74.
	if r, _ = Left(a, Have{ptr(quantity.Grams(900)), ptr(quantity.Grams(70))}); r.Count != 4 || r.First != OilFirst {
		t.Errorf("both short, oil more so: %+v", r)
	}
	if r, _ = Left(a, Have{ptr(quantity.Grams(880)), ptr(quantity.Grams(73))}); r.Count != 4 || r.First != WaxFirst {
		t.Errorf("both short, wax more so: %+v", r)
	}
	if _, ps := Left(a, Have{}); len(ps) != 1 || !ps[0].Missing {
		t.Errorf("nothing known: %+v", ps)
	}
	if _, ps := Left(a, Have{Wax: ptr(quantity.Grams(-1))}); len(ps) != 1 {
		t.Errorf("less than nothing: %+v", ps)
	}
}
