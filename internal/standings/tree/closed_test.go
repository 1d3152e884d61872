package tree_test

import (
	"fmt"
	"math"
	"testing"

	"rimward/internal/grid"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// plain is a prior under which everything has a closed form: one curve, one
// rate that is known, one value of each spread, and an eye that reads a burn's
// log width to a point of the grid.
func plain() tree.Prior {
	return tree.Prior{
		Shapes: only(1), Burn: only(0.04), Candle: only(0.065), Slope: only(0.07), Irregular: only(0.06),
		Error: 0.05, Slip: 1e-12, Level: 0.4, Rate: 0.9, RateSeries: 1e-6, RatePairing: 1e-6, RateBurn: 1e-6,
	}
}

// pools are burns whose log widths at the target hour are whole hundredths, each
// read three times before the pool is full; hundredths must not be near 0.
func pools(wall meltpool.Wall, hundredths ...int) []tree.Burn {
	var out []tree.Burn
	for _, n := range hundredths {
		theta := grid.Width(grid.Widths/2 + n)
		var b tree.Burn
		for _, part := range []float64{0.3, 0.6, 1} {
			hour := quantity.Hours(part) * wall.Target
			pool := math.Exp(theta + meltpool.Curve(1).Ahead(math.Log(0.9), hour, wall.Target))
			b = append(b, meltpool.Reading{Hour: hour, Ratio: pool})
		}
		out = append(out, b)
	}
	return out
}

// belief is a normal distribution.
type belief struct{ mean, variance float64 }

// and is what is believed when both are, independently of each other.
func (b belief) and(o belief) belief {
	p := 1/b.variance + 1/o.variance
	return belief{(b.mean/b.variance + o.mean/o.variance) / p, 1 / p}
}

func (b belief) plus(mean, sd float64) belief { return belief{b.mean + mean, b.variance + sd*sd} }

// ofCandles is what candles say of their pairing when the log widths of their
// burns are known: each candle's mean, with the candle's variance and that of
// its burns over their number (Searle, Casella & McCulloch, Variance
// Components, chapter 3, from memory).
func ofCandles(p tree.Prior, candles [][]int) belief {
	out := belief{0, 1e12}
	for _, c := range candles {
		sum := 0.0
		for _, n := range c {
			sum += float64(n) / 100
		}
		sb, sc := p.Burn[0].Value, p.Candle[0].Value
		out = out.and(belief{sum / float64(len(c)), sc*sc + sb*sb/float64(len(c))})
	}
	return out
}

func TestClosedForm(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		rungs map[int][][]int // hundredths of log width, by rung and candle
		mid   int
	}{
		{"one burn", map[int][][]int{4: {{-20}}}, 4},
		{"one candle of five burns", map[int][][]int{4: {{-20, -24, -18, -30, -15}}}, 4},
		{"three candles of unlike numbers", map[int][][]int{4: {{-20, -24, -18, -30}, {-9}, {-14, -12}}}, 4},
		{"a ladder of three with a gap", map[int][][]int{2: {{-40, -38}, {-45}}, 3: {{-30, -31, -33}}, 6: {{-12}, {-7, -9}, {-5}}}, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, s := plain(), glass(80)
			for rung := 1; rung <= 7; rung++ {
				x := tree.Pairing{Rung: rung}
				for _, ns := range c.rungs[rung] {
					x.Candles = append(x.Candles, pools(s.Wall, ns...))
				}
				s.Pairings = append(s.Pairings, x)
			}
			for _, f := range alone(t, p, s) {
				line := belief{0, p.Level * p.Level}
				for rung, candles := range c.rungs {
					if rung != f.Rung {
						line = line.and(ofCandles(p, candles).plus(-0.07*float64(rung-c.mid), p.Irregular[0].Value))
					}
				}
				want := line.plus(0.07*float64(f.Rung-c.mid), p.Irregular[0].Value)
				if candles := c.rungs[f.Rung]; candles != nil {
					want = want.and(ofCandles(p, candles))
				}
				holds(t, p, s, f, want)
			}
		})
	}
}

// holds compares all figures with those of a normal log width. The grid of a
// hundredth and kernels cut off at four deviations cost up to a thousandth.
func holds(t *testing.T, p tree.Prior, s tree.Series, f tree.Figures, want belief) {
	t.Helper()
	at := func(what string) string { return fmt.Sprintf("rung %d, %s", f.Rung, what) }
	d, h, sd := float64(s.Wall.Width), s.Wall.Target, math.Sqrt(want.variance)
	near(t, at("theta"), f.Theta, want.mean, 1e-3)
	near(t, at("sd"), f.ThetaSD, sd, 1e-3)
	next := math.Sqrt(want.variance + math.Pow(p.Burn[0].Value, 2) + math.Pow(p.Candle[0].Value, 2))
	// The upper decile of a normal distribution is 1.281552 deviations up
	// (NIST/SEMATECH e-Handbook, table 1.3.6.7.1).
	for _, q := range []struct {
		got      tree.Points
		sd, from float64
		what     string
	}{{f.Width, sd, want.mean, "width"}, {f.Next, next, want.mean, "next width"}} {
		near(t, at("10 % of "+q.what), math.Log(q.got.P10/d), q.from-1.281552*q.sd, 1.5e-3)
		near(t, at("50 % of "+q.what), math.Log(q.got.P50/d), q.from, 1.5e-3)
		near(t, at("90 % of "+q.what), math.Log(q.got.P90/d), q.from+1.281552*q.sd, 1.5e-3)
	}
	grown := meltpool.Curve(1).Ahead(math.Log(0.9), h, h/2)
	limit := -math.Log(meltpool.Curve(1).Opened(math.Log(0.9), h)) // an endless burn over the target hour's
	near(t, at("full by the hour"), f.FullByTarget, phi(want.mean/next), 1e-3)
	near(t, at("full before half"), f.FullBeforeHalf, phi((want.mean-grown)/next), 1e-3)
	near(t, at("never"), f.Never, phi((-limit-want.mean)/next), 1e-3)
	near(t, at("short"), f.Short, beyond(-want.mean, next), 1e-3)
	near(t, at("soon"), f.Soon, beyond(want.mean-grown, next), 1e-3)
	// Full by t when the log width is at least log(g(H)/g(t)).
	for z, got := range map[float64]float64{1.281552: f.Full.P10, 0: f.Full.P50, -1.281552: f.Full.P90} {
		theta := want.mean + z*next
		opened := meltpool.Curve(1).Opened(math.Log(0.9), h) * math.Exp(-theta)
		switch {
		case opened > 1.02 && !math.IsInf(got, 1):
			t.Errorf("%s: %g, want never", at("hours to full"), got)
		case opened < 0.98:
			// a thousandth of log width is worth more the flatter the curve
			near(t, at("hours to full"), got, -math.Log(1-opened)/0.9, 2e-3+2e-3*opened/(1-opened)/0.9)
		}
	}
}

// beyond is how far a normal value lies above 0 on average, counting 0 below.
func beyond(mean, sd float64) float64 {
	z := mean / sd
	return sd*math.Exp(-z*z/2)/math.Sqrt(2*math.Pi) + mean*phi(z)
}

func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// However many burns, one candle leaves its own deviation open.
func TestManyBurnsOfOneCandle(t *testing.T) {
	t.Parallel()
	p, s := plain(), glass(80)
	var ns []int
	for i := range 200 {
		ns = append(ns, -25+i%7)
	}
	s.Pairings = []tree.Pairing{{Rung: 1, Candles: [][]tree.Burn{pools(s.Wall, ns...)}}}
	holds(t, p, s, alone(t, p, s)[0], belief{0, 0.4*0.4 + 0.06*0.06}.and(ofCandles(p, [][]int{ns})))
}
