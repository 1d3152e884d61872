package meltpool_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"rimward/internal/meltpool"
)

// camera is a pinhole that looks at the middle of the wax from a distance, at a
// slant from straight above, turned about the line of sight.
type camera struct{ away, slant, turned, focal float64 } // mm, degrees, px

// framed is a camera held so that the vessel of 80 mm takes half of the longer
// side of a picture of 1,600 px.
func framed(away, slant, turned float64) camera {
	return camera{away, slant, turned, away * 800 / 80}
}

// wide is a common phone without zoom: the longer side spans 67 degrees.
func wide(away, slant, turned float64) camera { return camera{away, slant, turned, 1208} }

// sees projects a point of the wax's surface, in mm from the vessel's centre.
func (c camera) sees(x, y float64) meltpool.Mark {
	s, k := math.Sincos(c.slant * math.Pi / 180)
	depth, up := c.away+y*s, y*k
	u, v := c.focal*x/depth, -c.focal*up/depth
	st, ct := math.Sincos(c.turned * math.Pi / 180)
	return meltpool.Mark{X: 800 + u*ct - v*st, Y: 600 + u*st + v*ct}
}

// oval is a curve in the vessel: its centre, half axes and direction.
type oval struct{ x, y, a, b, angle float64 }

func (o oval) at(t float64) (x, y float64) {
	s, c := math.Sincos(t)
	sa, ca := math.Sincos(o.angle)
	return o.x + o.a*c*ca - o.b*s*sa, o.y + o.a*c*sa + o.b*s*ca
}

// clicks are n marks all round a curve as a hand sets them: noise px off, as the
// root of the mean squared distance.
func (c camera) clicks(o oval, n int, noise float64, r *rand.Rand) []meltpool.Mark {
	var out []meltpool.Mark
	for i := range n {
		m := c.sees(o.at(2 * math.Pi * float64(i) / float64(n)))
		out = append(out, meltpool.Mark{X: m.X + noise/math.Sqrt2*r.NormFloat64(), Y: m.Y + noise/math.Sqrt2*r.NormFloat64()})
	}
	return out
}

var (
	round80 = meltpool.Vessel{Length: 80, Width: 80}
	wall80  = oval{a: 40, b: 40}
)

func measured(t *testing.T, v meltpool.Vessel, m meltpool.Marks) meltpool.Measured {
	t.Helper()
	out, err := meltpool.Measure(v, m)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// With exact marks and a camera far away every figure is that of plane
// geometry: wall of radius 40, pool 60 by 50 mm, 4 mm off centre along its
// longer axis.
func TestMarksFromFarAwayGiveTheGeometry(t *testing.T) {
	for _, slant := range []float64{0, 20, 35} {
		far := wide(1e7, slant, 33)
		grown := func(o oval, n int) []meltpool.Mark {
			var out []meltpool.Mark
			for _, m := range far.clicks(o, n, 0, rand.New(rand.NewPCG(1, 1))) {
				out = append(out, meltpool.Mark{X: 800 + (m.X-800)*3e4, Y: 600 + (m.Y-600)*3e4})
			}
			return out
		}
		pool := oval{x: 4 * math.Cos(0.3), y: 4 * math.Sin(0.3), a: 30, b: 25, angle: 0.3}
		m := measured(t, round80, meltpool.Marks{Wall: grown(wall80, 8), Pool: grown(pool, 9)})
		for what, pair := range map[string][2]float64{
			"a": {m.A.At, 60}, "b": {m.B.At, 50}, "roundness": {m.Roundness.At, 25.0 / 30}, "off centre": {m.OffCentre.At, 4},
			"narrowest": {m.Narrowest.At, 6}, "surface": {m.Surface.At, 30.0 * 25 / 1600}, "slant": {m.Slant, slant},
		} {
			near(t, fmt.Sprintf("%s at %v degrees", what, slant), pair[0], pair[1], 2e-3)
		}
		// The farthest place from the wall is none of the four ends of the
		// axes; here by looking at a million places.
		most := 0.0
		for i := range 1_000_000 {
			most = max(most, 40-math.Hypot(pool.at(2*math.Pi*float64(i)/1e6)))
		}
		near(t, "widest", m.Widest.At, most, 2e-3)
		if m.Full {
			t.Error("full")
		}
	}
}

// pools are what is looked at: small and round, off centre, almost full.
var pools = []oval{{a: 25, b: 25}, {x: 2, y: 3, a: 31, b: 28, angle: 1}, {x: -3, y: -1, a: 35, b: 33, angle: 2}, {a: 39, b: 38.5}}

// look measures a pool of the vessel of 80 mm from n and n marks that are
// 1.5 px off.
func (c camera) look(t *testing.T, pool oval, n int, r *rand.Rand) meltpool.Measured {
	t.Helper()
	return measured(t, round80, meltpool.Marks{Wall: c.clicks(wall80, n, 1.5, r), Pool: c.clicks(pool, n, 1.5, r)})
}

// A picture with known truth: a vessel of 80 mm that takes half of it, a camera
// at the distance of a hand. Both widths come within 1 mm.
func TestMarksOnAPictureComeWithinAMillimetre(t *testing.T) {
	worst, squares, count := 0.0, 0.0, 0
	for _, pool := range pools {
		for _, away := range []float64{300, 350, 450} {
			for i, slant := range []float64{0, 20, 35, 0, 20, 35, 0, 20, 35} {
				c := framed(away, slant, 40*float64(i))
				m := c.look(t, pool, 8+2*(i/3), rand.New(rand.NewPCG(uint64(i), uint64(away))))
				for what, off := range map[string]float64{"a": m.A.At - 2*pool.a, "b": m.B.At - 2*pool.b} {
					near(t, fmt.Sprintf("%s of %v by %v", what, pool, c), off, 0, 1)
					worst, squares, count = max(worst, math.Abs(off)), squares+off*off, count+1
				}
			}
		}
	}
	t.Logf("worst of %d widths %.2f mm off, typically %.2f mm", count, worst, math.Sqrt(squares/float64(count)))
}

// The intervals hold the truth about as often as they say, with a phone that is
// held badly, and with one that is held well.
func TestIntervalsOfMarksHoldTheTruth(t *testing.T) {
	const rounds = 60
	r := rand.New(rand.NewPCG(4, 2))
	held, count := map[string]int{}, 0
	for _, pool := range []oval{{x: 2, y: 1, a: 30, b: 26, angle: 1}, {x: -3, y: -1, a: 34, b: 31, angle: 2}} {
		surface := pool.a * pool.b / 1600
		for _, c := range []camera{wide(300, 0, 0), wide(300, 35, 20), wide(450, 20, 70), framed(300, 20, 130), framed(350, 35, 250), framed(450, 0, 10)} {
			for range rounds {
				m := c.look(t, pool, 8, r)
				count++
				for what, e := range map[string]struct {
					got  meltpool.Estimate
					want float64
				}{"a": {m.A, 2 * pool.a}, "b": {m.B, 2 * pool.b}, "roundness": {m.Roundness, pool.b / pool.a}, "off centre": {m.OffCentre, math.Hypot(pool.x, pool.y)},
					"narrowest": {m.Narrowest, left(pool, math.Inf(1), math.Min)}, "widest": {m.Widest, left(pool, 0, math.Max)}, "surface": {m.Surface, surface}} {
					if math.Abs(e.got.At-e.want) <= e.got.Margin(0.95) {
						held[what]++
					}
				}
			}
		}
	}
	for _, what := range []string{"a", "b", "roundness", "off centre", "narrowest", "widest", "surface"} {
		share := float64(held[what]) / float64(count)
		t.Logf("%s held in %.1f %% of %d", what, 100*share, count)
		if share < 0.90 {
			t.Errorf("%s held in %.1f %% only", what, 100*share)
		}
	}
}

// left is the wax left where it is least or most, by looking at every degree.
func left(pool oval, from float64, pick func(a, b float64) float64) float64 {
	for i := range 360 {
		from = pick(from, 40-math.Hypot(pool.at(float64(i)*math.Pi/180)))
	}
	return from
}
