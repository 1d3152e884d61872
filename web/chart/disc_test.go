package chart

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var number = regexp.MustCompile(`-?[0-9.]+`)

// numbers reads all numbers of a path.
func numbers(tb judge, d string) []float64 {
	tb.Helper()
	var out []float64
	for _, s := range number.FindAllString(d, -1) {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			tb.Fatalf("path %q: %v", d, err)
		}
		out = append(out, v)
	}
	return out
}

// radii are the half axes of an outline made of arcs (SVG 2, 9.3.8: rx and ry
// are the first two numbers after A).
func radii(tb judge, d string) (rx, ry float64) {
	tb.Helper()
	_, after, ok := strings.Cut(d, "A")
	if !ok {
		tb.Fatalf("path %q has no arc", d)
	}
	n := numbers(tb, after)
	return n[0], n[1]
}

func TestPoolIsDrawnAsTheShareOfTheInnerWidth(t *testing.T) {
	t.Parallel()
	// 60 of 76.2 mm (3 in) is 0.7874 of the width, and of the radius too.
	d := NewDisc(DiscSpec{Shape: "round", Length: 76.2, Width: 76.2, PoolA: 60, PoolB: 45})
	wall, _ := radii(t, d.Wall)
	a, b := radii(t, d.Pool)
	if got := a / wall; math.Abs(got-0.7874) > 2e-4 {
		t.Errorf("pool along the length covers %.4f of the radius, want 0.7874", got)
	}
	if got := b / wall; math.Abs(got-45/76.2) > 2e-4 {
		t.Errorf("pool across covers %.4f of the radius, want %.4f", got, 45/76.2)
	}
}

func TestVesselIsTrueToItsShape(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ l, w, ratio float64 }{{110, 70, 110.0 / 70}, {70, 110, 70.0 / 110}, {0, 80, 1}, {80, 0, 1}, {0, 0, 1}} {
		a, b := radii(t, NewDisc(DiscSpec{Shape: "oval", Length: c.l, Width: c.w}).Wall)
		if math.Abs(a/b-c.ratio) > 1e-3 {
			t.Errorf("vessel %g by %g is drawn %.4f as long as wide, want %.4f", c.l, c.w, a/b, c.ratio)
		}
		if math.Max(a, b) != rim {
			t.Errorf("vessel %g by %g: longest half is %g, want %g", c.l, c.w, math.Max(a, b), rim)
		}
	}
}

func TestFullPoolMeetsTheWallExactly(t *testing.T) {
	t.Parallel()
	for _, shape := range []string{"round", "oval", "rectangular", "irregular"} {
		for name, s := range map[string]DiscSpec{
			"ticked as full":       {Shape: shape, Length: 90, Width: 60, PoolA: 70, PoolB: 50, Full: true},
			"measured to the wall": {Shape: shape, Length: 90, Width: 60, PoolA: 90, PoolB: 60},
			"measured past it":     {Shape: shape, Length: 90, Width: 60, PoolA: 95, PoolB: 61},
		} {
			d := NewDisc(s)
			if d.Pool != d.Wall || !strings.Contains(d.PoolClass, "disc-full") {
				t.Errorf("%s, %s: pool %q is not the wall %q", shape, name, d.Pool, d.Wall)
			}
		}
		d := NewDisc(DiscSpec{Shape: shape, Length: 90, Width: 60, PoolA: 89, PoolB: 59})
		if d.Pool == d.Wall || strings.Contains(d.PoolClass, "disc-full") {
			t.Errorf("%s: a pool 1 mm short is drawn as full", shape)
		}
	}
}

func TestOneWidthStandsForBothInProportion(t *testing.T) {
	t.Parallel()
	a, b := radii(t, NewDisc(DiscSpec{Shape: "oval", Length: 100, Width: 60, PoolA: 50}).Pool)
	if math.Abs(a-rim*0.5) > 0.01 || math.Abs(b-rim*0.6*0.5) > 0.01 {
		t.Errorf("half axes %g and %g, want %g and %g", a, b, rim*0.5, rim*0.3)
	}
}

func TestNoPoolIsDrawnWhereNoneIsKnown(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for name, s := range map[string]DiscSpec{
		"unlit wins over readings":  {Length: 76, PoolA: 60, Full: true, Unlit: true},
		"no reading":                {Length: 76},
		"readings not finite":       {Length: 76, PoolA: nan, PoolB: math.Inf(1)},
		"readings below zero":       {Length: 76, PoolA: -3},
		"vessel without a measure":  {PoolA: 60},
		"vessel of no finite width": {Length: nan, Width: math.Inf(1), PoolA: 60},
	} {
		if d := NewDisc(s); d.Pool != "" {
			t.Errorf("%s: pool drawn: %q", name, d.Pool)
		}
	}
}

// along walks a path of cubic curves (M and C only) by de Casteljau's
// construction and hands out its points.
func along(tb judge, d string, visit func(x, y float64)) {
	n := numbers(tb, d)
	p := []float64{n[0], n[1]}
	for i := 2; i+5 < len(n); i += 6 {
		c := append(p, n[i:i+6]...)
		for k := 0.0; k <= 200; k++ {
			q, t := append([]float64(nil), c...), k/200
			for m := 3; m > 0; m-- {
				for j := range 2 * m {
					q[j] += t * (q[j+2] - q[j])
				}
			}
			visit(q[0], q[1])
		}
		p = []float64{n[i+4], n[i+5]}
	}
}

func TestIrregularVesselKeepsItsLengthAndWidth(t *testing.T) {
	t.Parallel()
	d := NewDisc(DiscSpec{Shape: "irregular", Length: 90, Width: 60})
	l, r, u, o := 100.0, 0.0, 100.0, 0.0
	along(t, d.Wall, func(x, y float64) {
		l, r, u, o = math.Min(l, x), math.Max(r, x), math.Min(u, y), math.Max(o, y)
	})
	if math.Abs(r-l-2*rim) > 0.03 || math.Abs(o-u-2*rim*60/90) > 0.03 {
		t.Errorf("drawn %.2f by %.2f, want %.2f by %.2f", r-l, o-u, 2*rim, 2*rim*60/90)
	}
}

func TestSmallPoolInAnIrregularVesselIsAnEllipse(t *testing.T) {
	t.Parallel()
	// Four cubic curves with handles of 4/3 (√2 − 1) stray from the circle by
	// less than 0.03 per cent (standard construction, from memory).
	d := NewDisc(DiscSpec{Shape: "irregular", Length: 90, Width: 90, PoolA: 45, PoolB: 45})
	along(t, d.Pool, func(x, y float64) {
		if r := math.Hypot(x-middle, y-middle); math.Abs(r-rim/2) > 0.0003*rim/2+0.01 {
			t.Fatalf("point (%.2f, %.2f) is %.3f from the middle, want %.3f", x, y, r, rim/2)
		}
	})
}

func TestTicksStandAtTheShareThatIsDue(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		shape        string
		length, want float64 // distance of a full mark from the middle over rim
	}{
		// On a circle the wall is one radius away in every direction.
		{"round", 70, 1},
		// In a square of half side 1 with corners of radius c the corner is met
		// at √2 − c (√2 − 1) (Pythagoras).
		{"rectangular", 70, math.Sqrt2 - corner*(math.Sqrt2-1)},
	} {
		d := NewDisc(DiscSpec{Shape: c.shape, Length: c.length, Width: c.length, Mark: 0.8})
		n := numbers(t, strings.ReplaceAll(d.MarksOff, "L", " "))
		if len(n) != 16 {
			t.Fatalf("%s: %d numbers in four ticks, want 16", c.shape, len(n))
		}
		for i := 0; i < 16; i += 4 {
			x, y := (n[i]+n[i+2])/2-middle, (n[i+1]+n[i+3])/2-middle
			if got := math.Hypot(x, y) / rim; math.Abs(got-0.8*c.want) > 1e-3 {
				t.Errorf("%s: tick %d at %.4f, want %.4f", c.shape, i/4, got, 0.8*c.want)
			}
			if math.Abs(math.Abs(x)-math.Abs(y)) > 0.02 {
				t.Errorf("%s: tick %d is not at 45°: (%.2f, %.2f)", c.shape, i/4, x, y)
			}
		}
	}
}

func TestTicksArePartedAtThePoolsEdge(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		pool    float64
		on, off bool
	}{{30, false, true}, {80, true, true}, {98, true, false}} {
		d := NewDisc(DiscSpec{Shape: "round", Length: 100, PoolA: c.pool, Mark: 0.8})
		if (d.MarksOn != "") != c.on || (d.MarksOff != "") != c.off {
			t.Errorf("pool of %g: ticks on the pool %q, on wax %q", c.pool, d.MarksOn, d.MarksOff)
		}
	}
}

func TestWicksStandApartWithinTheVessel(t *testing.T) {
	t.Parallel()
	for _, shape := range []string{"round", "oval", "rectangular", "irregular"} {
		for n := range 14 {
			v := newVessel(shape, 110, 70)
			ps := v.wicks(n)
			if want := min(n, most); len(ps) != want {
				t.Fatalf("%s: %d wicks drawn, want %d", shape, len(ps), want)
			}
			for i, p := range ps {
				if math.Hypot((p.x-middle)/v.a, (p.y-middle)/v.b) > 0.8 {
					t.Errorf("%s with %d: wick %d is at the wall", shape, n, i)
				}
				for _, q := range ps[:i] {
					if math.Hypot(p.x-q.x, p.y-q.y) < 8 {
						t.Errorf("%s with %d: two wicks touch", shape, n)
					}
				}
			}
		}
	}
}

func TestWicksAreBalanced(t *testing.T) {
	t.Parallel()
	// A vessel lit evenly has the middle of its wicks in its own middle.
	for n := 1; n <= most; n++ {
		var x, y float64
		for _, p := range newVessel("oval", 110, 70).wicks(n) {
			x, y = x+p.x-middle, y+p.y-middle
		}
		if math.Hypot(x, y) > 1e-9 {
			t.Errorf("%d wicks lean by (%g, %g)", n, x, y)
		}
	}
}

func TestIntervalRings(t *testing.T) {
	t.Parallel()
	d := NewDisc(DiscSpec{Shape: "round", Length: 100, PoolA: 80, Low: 0.7, High: 1.4})
	if len(d.Rings) != 2 {
		t.Fatalf("%d rings, want 2", len(d.Rings))
	}
	low, _ := radii(t, d.Rings[0].Path)
	high, _ := radii(t, d.Rings[1].Path)
	if math.Abs(low-0.7*rim) > 0.01 {
		t.Errorf("lower ring at %g, want %g", low, 0.7*rim)
	}
	if high <= rim || high > 50 {
		t.Errorf("a bound past the wall is drawn at %g, want between %g and 50", high, rim)
	}
	if !strings.Contains(d.Rings[0].Class, "on-pool") || strings.Contains(d.Rings[1].Class, "on-pool") {
		t.Errorf("classes %q and %q, want the lower ring on the pool", d.Rings[0].Class, d.Rings[1].Class)
	}
}

func TestDiscIsNamedOrHidden(t *testing.T) {
	t.Parallel()
	named := render(t, DiscMark(NewDisc(DiscSpec{Length: 76, Title: "Pool 61 & 58"})))
	if !strings.Contains(named, `role="img"`) || !strings.Contains(named, "<title>Pool 61 &amp; 58</title>") {
		t.Errorf("a titled disc has no name: %s", named)
	}
	hidden := render(t, DiscMark(NewDisc(DiscSpec{Length: 76, Title: "Pool", Decorative: true})))
	if !strings.Contains(hidden, `aria-hidden="true"`) || strings.Contains(hidden, "Pool") {
		t.Errorf("a decorative disc is not hidden: %s", hidden)
	}
}

func TestVesselFarLongerThanWideIsSound(t *testing.T) {
	t.Parallel()
	sound(t, render(t, DiscMark(NewDisc(DiscSpec{Shape: "rectangular", Length: 1, Width: 98295.25, Mark: 1}))))
}

func TestAnyDiscIsSound(t *testing.T) {
	t.Parallel()
	odd := rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 200), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 5e-324}))
	rapid.Check(t, func(rt *rapid.T) {
		s := DiscSpec{
			Shape:  rapid.SampledFrom([]string{"round", "oval", "rectangular", "irregular", ""}).Draw(rt, "shape"),
			Length: odd.Draw(rt, "length"), Width: odd.Draw(rt, "width"),
			PoolA: odd.Draw(rt, "a"), PoolB: odd.Draw(rt, "b"),
			Mark: odd.Draw(rt, "mark"), Low: odd.Draw(rt, "low"), High: odd.Draw(rt, "high"),
			Wicks: rapid.IntRange(-1, 20).Draw(rt, "wicks"), Full: rapid.Bool().Draw(rt, "full"),
		}
		sound(rt, render(rt, DiscMark(NewDisc(s))))
	})
}
