package plan

import (
	"context"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// ladderOf is a comparison of neighbouring rungs in a vessel of 73 mm.
func ladderOf(rungs int) NamingSpec {
	s := NamingSpec{Wall: meltpool.Wall{Width: 73, Target: 73 / 25.4}, Burns: 4, Seed: 1, Spreads: SpreadsOf(tree.Default(), false)}
	for i := range rungs {
		s.Rungs = append(s.Rungs, RungAt{Ladder: 1, Wicks: 1, Rung: i + 3})
	}
	return s
}

// readings are a burn as the standings take it: every hour, to the millimetre.
func (w *world) readings(theta, rate float64) tree.Burn {
	var out tree.Burn
	d := float64(w.Wall.Width)
	for _, l := range slices.Backward(w.looks) {
		mm := math.Round(d*math.Exp(theta+usualCurve.Ahead(rate, l.hour, w.Wall.Target)) + float64(w.Reading)*w.rng.NormFloat64())
		out = append(out, meltpool.Reading{Hour: l.hour, Ratio: max(mm, 0) / d, Full: mm >= d-ruleOfWall})
	}
	return out
}

// whole plays rounds with the standings' own arithmetic, nothing cut short.
func (w *world) whole(t *testing.T, prior tree.Prior, candles, rounds int) (first, near, named float64) {
	t.Helper()
	for range rounds {
		truth, best := w.truth(), math.Inf(1)
		s := tree.Series{Wall: w.Wall, Ruler: 1}
		for i, f := range truth {
			best = min(best, f.miss)
			p := tree.Pairing{Rung: w.Rungs[i].Rung}
			for range candles {
				theta := f.theta + w.Candle*w.rng.NormFloat64()
				var burns []tree.Burn
				for range w.Burns {
					burns = append(burns, w.readings(theta+w.Burn*w.rng.NormFloat64(), f.rate+w.RateBurn*w.rng.NormFloat64()))
				}
				p.Candles = append(p.Candles, burns)
			}
			s.Pairings = append(s.Pairings, p)
		}
		weighed, err := tree.NewDesk(prior).Weigh(context.Background(), []tree.Series{s})
		if err != nil {
			t.Fatal(err)
		}
		reports, err := weighed.Reports(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		rungs := reports[0].Rungs
		i := 0
		for k := range rungs {
			if rungs[k].Miss() < rungs[i].Miss() {
				i = k
			}
		}
		first += one(truth[i].miss == best) / float64(rounds)
		near += one(truth[i].miss <= best+nearMiss) / float64(rounds)
		named += one(rungs[i].Closest >= nameAt) / float64(rounds)
	}
	return first, near, named
}

// known is a prior that holds its spreads and its curve for certain.
func known() tree.Prior {
	p := tree.Default()
	p.Shapes = []tree.Weighted{{Value: 1, Weight: 1}}
	p.Burn, p.Candle, p.Irregular = []tree.Weighted{{Value: 0.04, Weight: 1}}, []tree.Weighted{{Value: 0.065, Weight: 1}}, []tree.Weighted{{Value: 0.05, Weight: 1}}
	return p
}

// The short cuts are held to the whole arithmetic of the standings, playing
// rounds of the same world.
func TestChancesAgreeWithTheStandings(t *testing.T) {
	t.Parallel()
	const rounds = 250
	for _, c := range []struct{ rungs, candles int }{{2, 3}, {4, 1}, {4, 2}} {
		s := ladderOf(c.rungs)
		s.Spreads = SpreadsOf(known(), false)
		first, near, named := newWorld(s).whole(t, known(), c.candles, rounds)
		quick := Chances(s, c.candles)[c.candles-1]
		for name, v := range map[string][2]float64{"first": {quick.First, first}, "near": {quick.Near, near}, "named": {quick.Named, named}} {
			if se := math.Sqrt(v[1] * (1 - v[1]) / rounds); math.Abs(v[0]-v[1]) > 0.03+3*se {
				t.Errorf("%+v, %s: %.3f; the standings %.3f (standard error %.3f)", c, name, v[0], v[1], se)
			}
		}
	}
}

// Two wicks of two ladders lie about the middle of the band by a standard
// deviation S, and are seen with an error of standard deviation s. Which lies
// nearer to the middle is the sign of the product of their difference and their
// sum, which are independent and as likely seen right: p = 1/2 + asin(r)/pi with
// r = S/sqrt(S^2+s^2), the orthant probability of two normals (Sheppard 1899,
// from memory). So the first is right with p^2 + (1-p)^2.
func TestChancesOfTwoWicksByHand(t *testing.T) {
	t.Parallel()
	s := NamingSpec{
		Rungs: []RungAt{{Ladder: 1, Wicks: 1, Rung: 4}, {Ladder: 2, Wicks: 1, Rung: 9}}, Burns: 1, Seed: 5,
		Wall: meltpool.Wall{Width: 73, Target: 73 / 25.4},
		// S 0.05; s is the root of 0.04^2 + 0.03^2, 0.05 as well.
		Spreads: Spreads{Candle: 0.04, Burn: 0.03, Irregular: 0.05, Level: 100, Rate: 0.9, RatePairing: 1e-5, RateBurn: 1e-5, Reading: 1e-3},
	}
	const rounds = 20000
	for n, got := range newWorld(s).play(3, rounds) {
		p := 0.5 + math.Asin(1/math.Sqrt(1+1/float64(n+1)))/math.Pi // one candle: 3/4, so 5/8 of the rounds are right
		want := p*p + (1-p)*(1-p)
		if se := math.Sqrt(want * (1 - want) / rounds); math.Abs(got.First-want) > 4*se || math.Abs(got.Error-se) > 1e-4 {
			t.Errorf("%d candles: %+v, want %.4f (%.4f)", n+1, got, want, se)
		}
	}
}

// A wick that hardly differs from the next is as good as any: the chance of
// naming the right one of k falls to 1/k when nothing can be seen.
func TestChancesWhenNothingCanBeSeen(t *testing.T) {
	t.Parallel()
	s := NamingSpec{Burns: 1, Seed: 2, Wall: meltpool.Wall{Width: 73, Target: 73 / 25.4},
		Spreads: Spreads{Candle: 10, Burn: 0.01, Irregular: 0.01, Level: 100, Rate: 0.9, RatePairing: 1e-3, RateBurn: 1e-3, Reading: 1}}
	for k := range 4 {
		s.Rungs = append(s.Rungs, RungAt{Ladder: journal.ID(k + 1), Wicks: 1, Rung: 1})
	}
	if got := newWorld(s).play(1, 8000)[0]; math.Abs(got.First-0.25) > 0.02 || got.Near < 0.5 || got.Named > 0.05 {
		t.Errorf("%+v", got)
	}
}

func TestMoreCandlesTellMore(t *testing.T) {
	t.Parallel()
	for _, k := range []int{2, 5} {
		got := Chances(ladderOf(k), 6)
		if again := Chances(ladderOf(k), 6); !slices.Equal(got, again) {
			t.Errorf("one seed, two answers: %+v, %+v", got, again)
		}
		for n := 1; n < len(got); n++ {
			if a, b := got[n-1], got[n]; b.Candles != n+1 || b.First < a.First-a.Error || b.Near < b.First || b.Named < a.Named-a.Error {
				t.Errorf("%d rungs: %+v after %+v", k, b, a)
			}
		}
		if a, b := got[0], got[5]; b.First < a.First+0.05 || b.Named < a.Named+0.05 {
			t.Errorf("%d rungs: six candles tell no more than one: %+v, %+v", k, a, b)
		}
	}
}

// A large round is simulated less often, and says so in its error.
func TestChancesOfALargeRound(t *testing.T) {
	t.Parallel()
	s := ladderOf(25)
	s.Burns = 30
	if got := Chances(s, 12); len(got) != 12 || got[0].Rounds != 200 || got[0].Error < 0.02 {
		t.Errorf("%+v", got)
	}
	if got := Chances(ladderOf(5), 3); got[0].Rounds != 1500 || got[0].Error > 0.0135 {
		t.Errorf("%+v", got)
	}
}

func BenchmarkChances(b *testing.B) {
	s := ladderOf(5)
	for b.Loop() {
		Chances(s, 3)
	}
}

func TestNoChances(t *testing.T) {
	t.Parallel()
	for name, change := range map[string]func(*NamingSpec){
		"one wick": func(s *NamingSpec) { s.Rungs = s.Rungs[:1] }, "no burn": func(s *NamingSpec) { s.Burns = 0 },
		"no width": func(s *NamingSpec) { s.Wall.Width = 0 }, "no hour": func(s *NamingSpec) { s.Wall.Target = quantity.Hours(math.NaN()) },
		"no rate": func(s *NamingSpec) { s.Rate = 0 },
	} {
		s := ladderOf(3)
		if change(&s); Chances(s, 2) != nil {
			t.Errorf("%s: chances", name)
		}
	}
	if Chances(ladderOf(3), 0) != nil {
		t.Error("no candle: chances")
	}
}

// The two parts of the miss by their integrals: what is missing to the wall,
// and what is beyond the band, over a normal distribution.
func TestMissIsAnIntegral(t *testing.T) {
	t.Parallel()
	for _, c := range [][3]float64{{0, 0.08, 0.24}, {-0.3, 0.1, 0.2}, {0.12, 0.05, 0.24}, {0.4, 0.2, 0.1}} {
		theta, tau, band, sum := c[0], c[1], c[2], 0.0
		const steps = 200000
		for i := range steps {
			z := -9 + 18*(float64(i)+0.5)/steps
			x := theta + tau*z
			sum += max(-x, 0, x-band) * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) * 18 / steps
		}
		if got := missOf(theta, tau, band); math.Abs(got-sum) > 1e-8 {
			t.Errorf("%v: %v, want %v", c, got, sum)
		}
	}
}

// A wick's expected miss by its double integral, width and rate going together.
func TestExpectedMissIsAnIntegral(t *testing.T) {
	t.Parallel()
	w := newWorld(ladderOf(3))
	for _, b := range []belief{
		{width: 0.1, widths: 0.004, rates: 0.09, along: -0.01}, {width: 0.3, rate: 0.2, widths: 0.01, rates: 0.04, along: 0.015}, {width: -0.2, widths: 0.002, rates: 0.01},
	} {
		const steps = 400
		sum, root := 0.0, math.Sqrt(b.rates)
		left := math.Sqrt(b.widths - b.along*b.along/b.rates)
		for i := range steps {
			u := -7 + 14*(float64(i)+0.5)/steps
			width, band := b.width+b.along/root*u, w.bandAt(b.rate+root*u)
			sum += missOf(width, math.Hypot(w.tau, left), band) * density(u) * 14 / steps
		}
		if got := w.expected(b); math.Abs(got-sum) > 1e-6 {
			t.Errorf("%+v: %v, want %v", b, got, sum)
		}
	}
}

// What is believed of rungs is the normal distribution of all of them together,
// given what was seen: here by the whole matrix, which the program never makes.
func TestBelievingIsConditioning(t *testing.T) {
	t.Parallel()
	s := ladderOf(4)
	s.Rungs[3].Rung = 9 // an uneven step
	s.RatePairing = 1e-5
	w := newWorld(s)
	seen, variance := []float64{-0.3, 0.1, 0.05, 0.4}, []float64{0.01, 0.002, 0.05, 0.004}
	said := make([]pair, 4)
	for i := range said {
		said[i].rates = 1 / (w.RatePairing * w.RatePairing)
		said[i].see(seen[i], 0, variance[i])
	}
	prior, whole := mat.NewSymDense(4, nil), mat.NewSymDense(4, nil)
	off := mat.NewVecDense(4, nil)
	for i := range 4 {
		off.SetVec(i, seen[i]-w.Slope*w.step(i, 0))
		for j := range i + 1 {
			v := w.Level*w.Level + w.SlopeSD*w.SlopeSD*w.step(i, 0)*w.step(j, 0)
			if i == j {
				v += w.Irregular * w.Irregular
			}
			prior.SetSym(i, j, v)
			whole.SetSym(i, j, v)
		}
		whole.SetSym(i, i, whole.At(i, i)+variance[i])
	}
	var gain, left mat.Dense
	var inverse mat.Dense
	if err := inverse.Inverse(whole); err != nil {
		t.Fatal(err)
	}
	gain.Mul(prior, &inverse)
	left.Mul(&gain, prior)
	var mean mat.VecDense
	mean.MulVec(&gain, off)
	for i, b := range w.believe(said) {
		want, spread := mean.AtVec(i)+w.Slope*w.step(i, 0), prior.At(i, i)-left.At(i, i)
		if math.Abs(b.width-want) > 1e-8 || math.Abs(b.widths-spread) > 1e-8 {
			t.Errorf("rung %d: %v ± %v, want %v ± %v", i, b.width, b.widths, want, spread)
		}
	}
}

// A reading ends at the wall: a burn that is full at the second hour is known
// by its first hour alone, and one that is full at once by a guess.
func TestReadingsEndAtTheWall(t *testing.T) {
	t.Parallel()
	s := ladderOf(2)
	s.Reading = 1e-9
	w := newWorld(s)
	first := w.looks[len(w.looks)-1]
	for theta, sights := range map[float64]int{-0.2: 3, 0.02: 2, 0.3: 1} {
		p := w.read(theta, w.rate)
		var want pair
		for _, l := range w.looks[3-sights:] {
			width := 73 * math.Exp(theta+l.ahead)
			want.see(theta, l.turns, 1e-18/(width*width))
		}
		if math.Abs(p.widths/want.widths-1) > 1e-9 || math.Abs(p.rates/want.rates-1) > 1e-9 {
			t.Errorf("log width %v: %+v, want %+v", theta, p, want)
		}
	}
	var guess pair
	guess.see(0.10-first.ahead, first.turns, 0.04)
	if p := w.read(2, w.rate); p != guess {
		t.Errorf("full at once: %+v, want %+v", p, guess)
	}
}

// Blurring is the inverse of the inverse plus the variances; what is seen only
// in one direction stays so.
func TestPairs(t *testing.T) {
	t.Parallel()
	var p pair
	p.see(0.1, 0.4, 0.01)
	half := p.blur(0.02, 0.03)
	// One sight of width + 0.4 rate: its variance grows by 0.02 + 0.16 * 0.03.
	if want := 1 / (0.01 + 0.02 + 0.16*0.03); math.Abs(half.widths-want) > 1e-12 || math.Abs(half.both-0.4*want) > 1e-12 || math.Abs(half.rates-0.16*want) > 1e-12 || math.Abs(half.width-0.1*want) > 1e-12 || math.Abs(half.rate-0.04*want) > 1e-12 {
		t.Errorf("%+v, want weight %v", half, want)
	}
	p.see(0.3, -0.2, 0.02)
	before, after := p.belief(), p.blur(0.02, 0.03).belief()
	for name, v := range map[string][2]float64{
		"width": {before.width, after.width}, "rate": {before.rate, after.rate}, "along": {before.along, after.along},
		"widths": {before.widths + 0.02, after.widths}, "rates": {before.rates + 0.03, after.rates},
		// Two sights of two unknowns: width + 0.4 rate = 0.1, width - 0.2 rate = 0.3.
		"rate by hand": {-1.0 / 3, before.rate}, "width by hand": {0.1 + 0.4/3, before.width},
	} {
		if math.Abs(v[0]-v[1]) > 1e-12 {
			t.Errorf("%s: %v and %v", name, v[0], v[1])
		}
	}
}
