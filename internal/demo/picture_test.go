package demo_test

import (
	"math"
	"testing"
	"time"

	"rimward/internal/demo"
	"rimward/internal/journal"
	"rimward/internal/sketch"
	"rimward/internal/sqlite"
)

// shown is a photo of the season beside the check that it shows.
type shown struct {
	photo journal.Photo
	drawn demo.Photo
	check *journal.Check
}

func album(t *testing.T, s demo.Season) (*ledger, []shown) {
	t.Helper()
	l := fill(t, s)
	var out []shown
	for _, p := range l.photos {
		x := shown{photo: p, drawn: l.drawn[p.Hash]}
		if p.Of == journal.NounCheck {
			c := l.checks[p.OfID]
			x.check = &c
		}
		out = append(out, x)
	}
	return l, out
}

func TestPhotosShowTwoCandlesAsSetAndBurnsByTheHour(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		l, photos := album(t, s)
		if len(photos) != len(s.Photos()) || len(photos) < 17 || len(photos) > 24 {
			t.Errorf("%s: %d photos of %d, want about 20", name, len(photos), len(s.Photos()))
		}
		set, candles, burns := 0, map[journal.ID]bool{}, map[journal.ID]bool{}
		for _, x := range photos {
			if x.check == nil {
				set++
				continue
			}
			b := l.burns[x.check.Burn]
			candles[b.Candle], burns[b.ID] = true, true
			if hour := math.Mod(x.check.At.Sub(b.LitAt).Hours()+0.1, 1); hour > 0.5 {
				t.Errorf("%s: a photo %s after lighting, want whole hours", name, x.check.At.Sub(b.LitAt))
			}
			if !x.photo.At.Equal(x.check.At) {
				t.Errorf("%s: a photo of %s belongs to the check of %s", name, x.photo.At, x.check.At)
			}
		}
		if set != 2 || len(candles) != 3 || len(burns) != 6 {
			t.Errorf("%s: %d set candles, %d burns of %d candles", name, set, len(burns), len(candles))
		}
	}
}

// The truth of each drawing is what its check says. Where the pool was full,
// its edge is seen where the wall is.
func TestPhotosShowWhatTheChecksSay(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		_, photos := album(t, s)
		full, hung := 0, 0
		for _, x := range photos {
			c, scene := x.check, x.drawn.Scene
			if c == nil {
				if scene.Pool.Along != 0 || scene.Wicks[0].Flame != 0 || !scene.Wicks[0].New {
					t.Errorf("%s: a candle as set is drawn burning", name)
				}
				continue
			}
			if c.Full {
				full++
				for i := range 12 {
					angle := float64(i) * math.Pi / 6
					wx, wy := scene.WallPoint(angle)
					if px, py := scene.PoolPoint(angle); math.Hypot(px-wx, py-wy) > 1e-6 {
						t.Fatalf("%s: the full pool of check %d ends at (%g, %g), the wall at (%g, %g)", name, c.ID, px, py, wx, wy)
					}
				}
			} else if c.WidthA != nil && scene.Pool.Along != float64(*c.WidthA) || c.WidthB != nil && scene.Pool.Across != float64(*c.WidthB) {
				t.Errorf("%s: widths %v and %v are drawn %g and %g", name, *c.WidthA, c.WidthB, scene.Pool.Along, scene.Pool.Across)
			}
			if scene.Wicks[0].Flame != float64(*c.Flame) {
				t.Errorf("%s: a flame of %g mm is drawn %g", name, *c.Flame, scene.Wicks[0].Flame)
			}
			if got, want := scene.Vessel.Clinging > 0, c.WallWax != "none" && c.WallWax != ""; got != want {
				t.Errorf("%s: wall wax %q is drawn: %v", name, c.WallWax, got)
			}
			if got, want := scene.Vessel.Soot == 1, c.Soot == "marks"; got != want {
				t.Errorf("%s: soot %q is drawn in full: %v", name, c.Soot, got)
			}
			if c.WallWax == "ring" || c.WallWax == "tunnel" {
				hung++
			}
		}
		if full == 0 || hung == 0 {
			t.Errorf("%s: %d photos of a full pool and %d of hang-up, want some of both", name, full, hung)
		}
	}
}

// raised is the scene with its wax at the rim, seen from the same eye: the
// camera's line of sight meets the rim's plane nearer by, and higher up.
func raised(s sketch.Scene) sketch.Scene {
	sin, cos := math.Sincos(s.Camera.Tilt)
	nearer := s.Vessel.Below / cos
	tsin, tcos := math.Sincos(s.Camera.Turn)
	s.Camera.AimX, s.Camera.AimY = s.Camera.AimX+nearer*sin*tsin, s.Camera.AimY-nearer*sin*tcos
	s.Camera.Distance, s.Vessel.Below = s.Camera.Distance-nearer, 0
	return s
}

// The whole vessel is in each picture, with room to spare.
func TestPhotosHoldTheWholeVessel(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		for _, p := range s.Photos() {
			rim := raised(p.Scene)
			for i := range 24 {
				x, y := rim.WallPoint(float64(i) * math.Pi / 12)
				if x < 20 || y < 20 || x > float64(rim.Wide)-20 || y > float64(rim.High)-20 {
					t.Errorf("%s: photo %d cuts the rim at (%.0f, %.0f)", name, p.ID, x, y)
				}
			}
		}
	}
}

func TestTenYearsHaveNoPhotos(t *testing.T) {
	t.Parallel()
	if n := len(demo.TenYears(1, evening, time.UTC).Photos()); n != 0 {
		t.Errorf("%d photos", n)
	}
}

// Without somebody who keeps pictures the rest of the season is written whole.
func TestSeasonCanBeFilledWithoutPhotos(t *testing.T) {
	t.Parallel()
	_, path := keep(t, demo.NewSeason(1, evening, time.UTC))
	photos, err := sqlite.AllPhotos(t.Context(), path)
	if err != nil || len(photos) != 0 {
		t.Errorf("%d photos, %v", len(photos), err)
	}
}
