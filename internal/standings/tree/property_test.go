package tree_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// season is a studio with some series of the usual kind.
func season(seed uint64, series int) studio {
	w := standard()
	w.vessels = series
	return w.draw(newRand(seed))
}

func TestOrderDoesNotMatter(t *testing.T) {
	t.Parallel()
	ss := season(5, 3).series
	want := tell(t, tree.NewExactDesk(tree.Default()), ss...)
	rng := rand.New(rand.NewPCG(8, 8))
	mixed := make([]tree.Series, len(ss))
	at := rng.Perm(len(ss))
	for i, s := range ss {
		s = deep(s)
		shuffle(rng, s.Pairings)
		for _, p := range s.Pairings {
			shuffle(rng, p.Candles)
			for _, c := range p.Candles {
				shuffle(rng, c)
				for _, b := range c {
					shuffle(rng, b)
				}
			}
		}
		mixed[at[i]] = s
	}
	got := tell(t, tree.NewExactDesk(tree.Default()), mixed...)
	for i := range ss {
		rs := got[at[i]].Rungs
		slices.SortFunc(rs, func(a, b tree.Figures) int { return cmp.Compare(a.Rung, b.Rung) })
		share, width := apart(want[i].Rungs, rs)
		near(t, "chances and log widths apart", share, 0, 1e-9)
		near(t, "widths apart", width, 0, 1e-6)
	}
}

// Two burns against one, in whatever order, however far they are apart.
func TestOrderOfContradictions(t *testing.T) {
	t.Parallel()
	narrow, wide := curve(80, -0.5, 0.9, 6), curve(80, 0.5, 0.9, 6)
	orders := [][]tree.Burn{{narrow, narrow, wide}, {narrow, wide, narrow}, {wide, narrow, narrow}}
	for _, byCandle := range []bool{false, true} {
		var want tree.Figures
		for i, bs := range orders {
			cs := candles(bs)
			if byCandle {
				cs = candles(bs[:1], bs[1:2], bs[2:])
			}
			f := alone(t, tree.Default(), glass(80, tree.Pairing{Rung: 1, Candles: cs}))[0]
			if i == 0 {
				want = f
			}
			share, _ := apart([]tree.Figures{f}, []tree.Figures{want})
			near(t, "chances and log widths apart", share, 0, 1e-9)
		}
		if !(want.Theta < 0) {
			t.Errorf("the one burn outweighs the two: log width %.3f", want.Theta)
		}
	}
}

func shuffle[T any](rng *rand.Rand, v []T) {
	rng.Shuffle(len(v), func(i, j int) { v[i], v[j] = v[j], v[i] })
}

// one is a series of one rung whose burns were all read alike.
func one(candles, burns int, b tree.Burn) tree.Series {
	c := slices.Repeat([]tree.Burn{b}, burns)
	return glass(80, tree.Pairing{Rung: 3, Candles: slices.Repeat([][]tree.Burn{c}, candles)})
}

func TestFullAgain(t *testing.T) {
	t.Parallel()
	for _, b := range []tree.Burn{
		{mm(80, 1, 50), mm(80, 2, 70), full(3)},
		{mm(80, 1, 60), full(2)},
	} {
		// A burn that was read before it was full; a second "full" an hour
		// later only makes a slip of the first less likely.
		again := append(slices.Clone(b), full(float64(b[len(b)-1].Hour)+1))
		was, is := alone(t, tree.Default(), one(1, 1, b))[0], alone(t, tree.Default(), one(1, 1, again))[0]
		near(t, "theta", is.Theta, was.Theta, 5e-3)
		near(t, "sd", is.ThetaSD, was.ThetaSD, 5e-3)
		near(t, "on target", is.OnTarget, was.OnTarget, 0.01)
		if is.Theta == was.Theta {
			t.Error("the check more was not looked at")
		}
	}
}

func TestJustBelowTheWall(t *testing.T) {
	t.Parallel()
	at := func(last ...tree.Burn) tree.Figures {
		return alone(t, tree.Default(), one(2, 2, last[0]))[0]
	}
	hour := 80 / 25.4
	below := at(tree.Burn{mm(80, 1, 48), mm(80, 2, 67), mm(80, hour, 79)})
	touch := at(tree.Burn{mm(80, 1, 48), mm(80, 2, 67), full(hour)})
	lower := at(tree.Burn{mm(80, 1, 48), mm(80, 2, 67), mm(80, hour, 72)})
	if step := touch.Theta - below.Theta; !(step > 0 && step < 0.04) {
		t.Errorf("log widths %.4f and %.4f do not almost touch", below.Theta, touch.Theta)
	}
	if !(below.Theta > lower.Theta) {
		t.Errorf("79 mm gives %.4f, 72 mm %.4f", below.Theta, lower.Theta)
	}
	if !(touch.FullByTarget > below.FullByTarget) {
		t.Errorf("full gives a chance of %.4f, a millimetre less %.4f", touch.FullByTarget, below.FullByTarget)
	}
}

func TestMoreCandlesNarrow(t *testing.T) {
	t.Parallel()
	b := tree.Burn{mm(80, 1, 45), mm(80, 2, 63), mm(80, 3, 74)}
	var last tree.Figures
	for i, n := range []int{1, 2, 4, 8} {
		f := alone(t, tree.Default(), one(n, 2, b))[0]
		if i > 0 && !(f.ThetaSD < last.ThetaSD*0.95 && f.Width.P90-f.Width.P10 < last.Width.P90-last.Width.P10 && f.Next.P90-f.Next.P10 < last.Next.P90-last.Next.P10) {
			t.Errorf("%d candles: sd %.4f, half as many %.4f", n, f.ThetaSD, last.ThetaSD)
		}
		last = f
	}
}

// What tells candles apart is at least 0.045, and no number of burns of one
// candle can show on which side of its like it lies.
func TestOneCandleStaysOpen(t *testing.T) {
	t.Parallel()
	b := tree.Burn{mm(80, 1, 45), mm(80, 2, 63), mm(80, 3, 74)}
	for _, n := range []int{1, 10, 60} {
		f := alone(t, tree.Default(), one(1, n, b))[0]
		if f.ThetaSD < 0.045 || math.Log(f.Next.P90/f.Next.P10) < 2*1.281552*0.045 {
			t.Errorf("%d burns: sd %.4f, next candle %.1f to %.1f mm", n, f.ThetaSD, f.Next.P10, f.Next.P90)
		}
	}
}

func TestUntestedRungsAreNotCompared(t *testing.T) {
	t.Parallel()
	s := deep(season(5, 1).series[0])
	for rung := range 8 {
		if !slices.ContainsFunc(s.Pairings, func(p tree.Pairing) bool { return p.Rung == rung }) {
			s.Pairings = append(s.Pairings, tree.Pairing{Rung: rung, Candles: [][]tree.Burn{{}}})
		}
	}
	r := tell(t, tree.NewDesk(tree.Default()), s)[0]
	sum, across := 0.0, 0.0
	for i, f := range r.Rungs {
		if f.Tested != (s.Pairings[i].Burns() > 0) {
			t.Errorf("rung %d: tested %v", f.Rung, f.Tested)
		}
		if !f.Tested && (f.Closest != 0 || r.Across[i] != 0) {
			t.Errorf("rung %d was not tested, but is the closest with %g and %g", f.Rung, f.Closest, r.Across[i])
		}
		sum, across = sum+f.Closest, across+r.Across[i]
	}
	near(t, "all chances", sum, 1, 1e-9)
	near(t, "all chances across", across, 1, 1e-9)
}

// A rung that was not tested says nothing, and changes nothing for the others.
func TestUntestedRungsSayNothing(t *testing.T) {
	t.Parallel()
	s := season(6, 1).series[0]
	more := deep(s)
	more.Pairings = append(more.Pairings, tree.Pairing{Rung: 20}, tree.Pairing{Rung: -3})
	want, got := alone(t, tree.Default(), s), alone(t, tree.Default(), more)
	share, width := apart(want, got[:len(want)])
	near(t, "chances apart", share, 0, 1e-12)
	near(t, "widths apart", width, 0, 1e-9)
}

func TestAcrossSharesOut(t *testing.T) {
	t.Parallel()
	ss := season(9, 3).series
	sum := 0.0
	for _, r := range tell(t, tree.NewDesk(tree.Default()), ss...) {
		for _, v := range r.Across {
			sum += v
		}
	}
	near(t, "all chances", sum, 1, 1e-9)
}

// The band at the target hour is the next pool at the target hour.
func TestBandMeetsTheNextPool(t *testing.T) {
	t.Parallel()
	s := season(4, 1).series[0]
	for _, f := range alone(t, tree.Default(), s) {
		b := f.Band([]quantity.Hours{s.Wall.Target})[0]
		near(t, "10 %", b.P10, f.Next.P10, 0.1)
		near(t, "50 %", b.P50, f.Next.P50, 0.1)
		near(t, "90 %", b.P90, f.Next.P90, 0.1)
	}
}

// A ladder whose far end was not tested is told to lie beyond the wall, or far
// below it, and not to be anything in between.
func TestFarRungs(t *testing.T) {
	t.Parallel()
	b := []tree.Burn{curve(80, 0, 0.9, 4), curve(80, 0, 0.9, 4)}
	s := glass(80, tree.Pairing{Rung: 0, Candles: candles(b, b)}, tree.Pairing{Rung: 1, Candles: candles(b)}, tree.Pairing{Rung: 45}, tree.Pairing{Rung: -45})
	fs := alone(t, tree.Default(), s)
	near(t, "45 rungs up, full by the hour", fs[2].FullByTarget, 1, 1e-3)
	near(t, "45 rungs down, full by the hour", fs[3].FullByTarget, 0, 1e-3)
}
