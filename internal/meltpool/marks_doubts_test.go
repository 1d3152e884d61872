package meltpool_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"rimward/internal/meltpool"
	"rimward/internal/stats"
)

// An oval vessel of 120 by 80 mm, its length askew in the picture. The pool's
// reach along the length and across is that of an ellipse turned by 0.5:
// sqrt(a² cos² + b² sin²) each way (plane geometry).
func TestMarksOfAnOvalVesselFollowItsLength(t *testing.T) {
	pool := oval{x: -2, y: 3, a: 45, b: 28, angle: 0.5}
	c, s := math.Cos(0.5), math.Sin(0.5)
	along, across := 2*math.Hypot(45*c, 28*s), 2*math.Hypot(45*s, 28*c)
	for _, cam := range []camera{framed(400, 0, 0), framed(400, 0, 50), framed(1e6, 30, 110)} {
		r := rand.New(rand.NewPCG(1, 2))
		m := measured(t, meltpool.Vessel{Length: 120, Width: 80},
			meltpool.Marks{Wall: cam.clicks(oval{a: 60, b: 40}, 10, 0, r), Pool: cam.clicks(pool, 10, 0, r)})
		near(t, "along", m.A.At, along, 0.01)
		near(t, "across", m.B.At, across, 0.01)
		near(t, "roundness", m.Roundness.At, 28.0/45, 1e-3)
		near(t, "off centre", m.OffCentre.At, math.Hypot(2, 3), 0.01)
		near(t, "surface", m.Surface.At, 45.0*28/2400, 1e-4)
		near(t, "slant", m.Slant, cam.slant, 0.01)
		// The wall's nearest point to each of 720 places of the pool, by
		// looking at 7,200 places of the wall.
		least, most := math.Inf(1), 0.0
		for i := range 720 {
			x, y := pool.at(float64(i) * math.Pi / 360)
			d := math.Inf(1)
			for j := range 7200 {
				wx, wy := (oval{a: 60, b: 40}).at(float64(j) * math.Pi / 3600)
				d = min(d, math.Hypot(wx-x, wy-y))
			}
			least, most = min(least, d), max(most, d)
		}
		near(t, "narrowest", m.Narrowest.At, least, 0.01)
		near(t, "widest", m.Widest.At, most, 0.01)
	}
}

func TestFullPoolsAndSlipsAreTold(t *testing.T) {
	for name, c := range map[string]struct {
		pool  oval
		cam   camera
		full  bool
		warns string // "" for none
	}{
		"full":           {oval{a: 40, b: 40}, framed(400, 10, 0), true, ""},
		"almost full":    {oval{a: 39.8, b: 39.9}, framed(400, 0, 0), true, ""},
		"a ring is left": {oval{a: 38, b: 38}, framed(400, 0, 0), false, ""},
		"full but seen badly": {oval{a: 40, b: 40}, camera{1500, 0, 0, 1208}, false,
			"small in the picture"},
		"outside at one place": {oval{x: 5, a: 37, b: 37}, framed(400, 0, 0), false, "outside the wall at one place"},
		"exchanged":            {oval{a: 60, b: 60}, framed(400, 0, 0), false, "were they exchanged?"},
		"seen flat":            {oval{a: 30, b: 30}, framed(400, 55, 0), false, "strong slant"},
		"close and slanted":    {oval{a: 20, b: 20}, framed(300, 30, 0), false, "perspective"},
	} {
		m := c.cam.look(t, c.pool, 10, rand.New(rand.NewPCG(5, 6)))
		said := strings.Join(m.Warnings, "; ")
		if m.Full != c.full || (c.warns == "" && said != "") || !strings.Contains(said, c.warns) {
			t.Errorf("%s: full %v, says %q", name, m.Full, said)
		}
	}
	r := rand.New(rand.NewPCG(1, 3))
	cam := framed(400, 0, 0)
	marks := meltpool.Marks{Wall: cam.clicks(wall80, 20, 1, r)[:10], Pool: cam.clicks(pools[0], 6, 1, r)}
	said := strings.Join(measured(t, round80, marks).Warnings, "; ")
	if !strings.Contains(said, "wall: short arc") || !strings.Contains(said, "pool: few points") {
		t.Errorf("half a wall and six marks of the pool: %q", said)
	}
}

// The same picture with its two lines exchanged: no pool is full in it.
func TestExchangedMarksAreNotFull(t *testing.T) {
	for _, pool := range pools[:3] {
		for _, cam := range []camera{framed(400, 0, 0), framed(350, 25, 40)} {
			r := rand.New(rand.NewPCG(7, 8))
			m := measured(t, round80, meltpool.Marks{Wall: cam.clicks(pool, 10, 1.5, r), Pool: cam.clicks(wall80, 10, 1.5, r)})
			if said := strings.Join(m.Warnings, "; "); m.Full || !strings.Contains(said, "were they exchanged?") {
				t.Errorf("%v from %v: full %v, says %q", pool, cam, m.Full, said)
			}
		}
	}
}

// Exact marks from straight above: a ring of 0.2 mm counts as none, one of 0.6
// mm as wax.
func TestAThinRingIsTold(t *testing.T) {
	for ring, full := range map[float64]bool{0.2: true, 0.6: false} {
		cam, r := framed(400, 0, 0), rand.New(rand.NewPCG(1, 1))
		pool := oval{a: 40 - ring, b: 40 - ring}
		if m := measured(t, round80, meltpool.Marks{Wall: cam.clicks(wall80, 12, 0, r), Pool: cam.clicks(pool, 12, 0, r)}); m.Full != full {
			t.Errorf("a ring of %v mm: full %v, widest %+v", ring, m.Full, m.Widest)
		}
	}
}

// A pool in the middle, seen at a slant from the distance that is guessed: the
// pinhole's picture moves its centre by what is said (first order in the radius
// over the distance, so within a tenth).
func TestThePerspectiveSaidIsThatOfAPinhole(t *testing.T) {
	for _, slant := range []float64{15, 30} {
		cam, r := framed(300, slant, 0), rand.New(rand.NewPCG(1, 1))
		m := measured(t, round80, meltpool.Marks{Wall: cam.clicks(wall80, 16, 0, r), Pool: cam.clicks(oval{a: 20, b: 20}, 16, 0, r)})
		near(t, "shift over what was measured", m.Shift/m.OffCentre.At, 1, 0.1)
	}
}

func TestMarksThatSayNothingAreRefused(t *testing.T) {
	cam, r := framed(400, 0, 0), rand.New(rand.NewPCG(1, 3))
	wall, pool := cam.clicks(wall80, 8, 1, r), cam.clicks(pools[0], 8, 1, r)
	line := make([]meltpool.Mark, 7)
	for i := range line {
		line[i] = meltpool.Mark{X: float64(i), Y: 2 * float64(i)}
	}
	for name, c := range map[string]struct {
		marks meltpool.Marks
		stage meltpool.Stage
		why   error
	}{
		"no marks":            {meltpool.Marks{}, meltpool.WallStage, stats.ErrTooFew},
		"five on the wall":    {meltpool.Marks{Wall: wall[:5], Pool: pool}, meltpool.WallStage, stats.ErrTooFew},
		"five on the pool":    {meltpool.Marks{Wall: wall, Pool: pool[:5]}, meltpool.PoolStage, stats.ErrTooFew},
		"a pool that is flat": {meltpool.Marks{Wall: wall, Pool: line}, meltpool.PoolStage, stats.ErrOnALine},
	} {
		_, err := meltpool.Measure(round80, c.marks)
		var refused *meltpool.MarksError
		if !errors.As(err, &refused) || refused.Stage != c.stage || !errors.Is(err, c.why) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := meltpool.Measure(meltpool.Vessel{Outline: meltpool.Rectangle, Length: 120, Width: 80}, meltpool.Marks{Wall: wall, Pool: pool}); !errors.Is(err, meltpool.ErrOutline) {
		t.Errorf("a box: %v", err)
	}
	if _, err := meltpool.Measure(meltpool.Vessel{}, meltpool.Marks{Wall: wall, Pool: pool}); err == nil {
		t.Error("a vessel without width was measured")
	}
}
