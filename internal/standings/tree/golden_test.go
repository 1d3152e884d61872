package tree_test

import (
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// golden is one hand-made case: its readings and the answers that the method's
// first implementation gave with the default priors, nothing left out
// (testdata/reference/README.md says how they were made).
type golden struct {
	Case   string    `json:"case"`
	Width  float64   `json:"inner_width_mm"`
	Target float64   `json:"target_hour"`
	Ruler  float64   `json:"ruler_step_mm"`
	Shapes []float64 `json:"shape_weights"`
	Burns  []struct {
		Rung   int `json:"rung"`
		Candle int `json:"candle"`
		Checks []struct {
			Hour  float64  `json:"hour"`
			Width *float64 `json:"width_mm"`
			Full  bool     `json:"full"`
		} `json:"checks"`
	} `json:"burns"`
	Answers map[string]struct {
		Tested  bool      `json:"tested"`
		Theta   float64   `json:"theta_mean"`
		SD      float64   `json:"theta_sd"`
		Width   []float64 `json:"width_at_target_mm_p10_p50_p90"`
		Next    []float64 `json:"next_candle_mm_p10_p50_p90"`
		Full    float64   `json:"chance_full_by_target"`
		Early   float64   `json:"chance_full_before_half"`
		Target  float64   `json:"chance_on_target"`
		Miss    float64   `json:"expected_miss"`
		Closest *float64  `json:"chance_closest"`
	} `json:"answers"`
}

func readGolden(t *testing.T) []golden {
	t.Helper()
	raw, err := os.ReadFile("../../../testdata/reference/golden.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []golden }
	if err := json.Unmarshal(raw, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 7 {
		t.Fatalf("%d cases", len(file.Cases))
	}
	return file.Cases
}

// series is the case as the tree takes it, with every rung that is asked for.
func (g golden) series(t *testing.T) tree.Series {
	t.Helper()
	s := tree.Series{Wall: meltpool.Wall{Width: quantity.Millimetres(g.Width), Target: quantity.Hours(g.Target)}, Ruler: quantity.Millimetres(g.Ruler)}
	for name := range g.Answers {
		rung, err := strconv.Atoi(name)
		if err != nil {
			t.Fatal(err)
		}
		p := tree.Pairing{Rung: rung}
		for _, b := range g.Burns {
			if b.Rung != rung {
				continue
			}
			for len(p.Candles) <= b.Candle {
				p.Candles = append(p.Candles, nil)
			}
			var burn tree.Burn
			for _, c := range b.Checks {
				r := meltpool.Reading{Hour: quantity.Hours(c.Hour), Full: c.Full}
				if c.Width != nil {
					r.Ratio = *c.Width / g.Width
				}
				burn = append(burn, r)
			}
			p.Candles[b.Candle] = append(p.Candles[b.Candle], burn)
		}
		s.Pairings = append(s.Pairings, p)
	}
	return s
}

// Within 2e-3 in chances and log widths and 0.15 mm in widths: the tolerances
// that the file names.
func TestGolden(t *testing.T) {
	t.Parallel()
	for _, g := range readGolden(t) {
		t.Run(g.Case, func(t *testing.T) {
			s := g.series(t)
			w, err := tree.NewExactDesk(tree.Default()).Weigh(t.Context(), []tree.Series{s})
			if err != nil {
				t.Fatal(err)
			}
			rs, err := w.Reports(t.Context(), s)
			if err != nil {
				t.Fatal(err)
			}
			near := func(what string, got, want, within float64) {
				t.Helper()
				if !(math.Abs(got-want) <= within) {
					t.Errorf("%s: %.5f, want %.5f within %g", what, got, want, within)
				}
			}
			for i, v := range g.Shapes {
				near("shape", w.Shapes()[i], v, 2e-3)
			}
			for _, f := range rs[0].Rungs {
				a := g.Answers[strconv.Itoa(f.Rung)]
				at := "rung " + strconv.Itoa(f.Rung) + " "
				if f.Tested != a.Tested {
					t.Errorf("%s tested %v", at, f.Tested)
				}
				near(at+"theta", f.Theta, a.Theta, 2e-3)
				near(at+"sd", f.ThetaSD, a.SD, 2e-3)
				for i, v := range []float64{f.Width.P10, f.Width.P50, f.Width.P90} {
					near(at+"width", v, a.Width[i], 0.15)
				}
				for i, v := range []float64{f.Next.P10, f.Next.P50, f.Next.P90} {
					near(at+"next", v, a.Next[i], 0.15)
				}
				near(at+"full", f.FullByTarget, a.Full, 2e-3)
				near(at+"early", f.FullBeforeHalf, a.Early, 2e-3)
				near(at+"on target", f.OnTarget, a.Target, 2e-3)
				near(at+"miss", f.Miss(), a.Miss, 2e-3)
				if a.Closest != nil {
					near(at+"closest", f.Closest, *a.Closest, 2e-3)
				}
			}
		})
	}
}
