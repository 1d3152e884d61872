package standings_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/standings"
)

// goldenCase is one hand-made case of testdata/reference/golden.json, whose README
// says how it was made.
type goldenCase struct {
	Case   string  `json:"case"`
	Width  float64 `json:"inner_width_mm"`
	Target float64 `json:"target_hour"`
	Ruler  float64 `json:"ruler_step_mm"`
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
		Tested  bool       `json:"tested"`
		Width   [3]float64 `json:"width_at_target_mm_p10_p50_p90"`
		Next    [3]float64 `json:"next_candle_mm_p10_p50_p90"`
		Full    float64    `json:"chance_full_by_target"`
		Early   float64    `json:"chance_full_before_half"`
		Target  float64    `json:"chance_on_target"`
		Miss    float64    `json:"expected_miss"`
		Closest *float64   `json:"chance_closest"`
	} `json:"answers"`
}

func readGolden(t *testing.T) []goldenCase {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/reference/golden.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []goldenCase }
	if err := json.Unmarshal(raw, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 7 {
		t.Fatalf("%d cases", len(file.Cases))
	}
	return file.Cases
}

// csv writes the case as a sheet.
func (g goldenCase) csv() string {
	var b strings.Builder
	b.WriteString(names)
	for i, x := range g.Burns {
		for _, c := range x.Checks {
			width := ""
			if c.Width != nil {
				width = fmt.Sprint(*c.Width)
			}
			fmt.Fprintf(&b, "Pebble,%v,%v,Larkspur,%d,%d,%d,%v,%s,%v\n", g.Width, g.Target, x.Rung, x.Candle, i, c.Hour, width, c.Full)
		}
	}
	return b.String()
}

// The answers of the method's first implementation, within 5e-3 in chances and
// 0.3 mm in widths: what leaving out light cells may cost. Upper ends that
// nothing speaks for are null.
func TestSheetsOfTheGoldenCases(t *testing.T) {
	t.Parallel()
	for _, g := range readGolden(t) {
		t.Run(g.Case, func(t *testing.T) {
			t.Parallel()
			near := func(what string, got, want, within float64) {
				t.Helper()
				if !(math.Abs(got-want) <= within) {
					t.Errorf("%s: %v, want %v within %v", what, got, want, within)
				}
			}
			d := worked(t, g.csv())
			if len(d.Series) != 1 || d.Series[0].Vessel != "Pebble" || d.Series[0].Series != "Larkspur" || d.Series[0].InnerWidth != g.Width || d.Series[0].TargetHour != g.Target {
				t.Fatalf("got %+v", d.Series)
			}
			looked := 0
			for _, p := range d.Series[0].Pairings {
				a, ok := g.Answers[strconv.Itoa(*p.Rung)]
				if !ok {
					continue // a rung that was not asked for
				}
				looked++
				at := fmt.Sprintf("rung %d ", *p.Rung)
				if p.Tested != a.Tested || (p.Rank == nil) == a.Tested || (p.Closest == nil) == a.Tested {
					t.Errorf("%s: tested %v, rank %v, closest %v", at, p.Tested, p.Rank, p.Closest)
				}
				points := func(what string, got standings.PointsDocument, want [3]float64) {
					t.Helper()
					near(at+what, *got.P10, want[0], 0.3)
					near(at+what, *got.P50, want[1], 0.3)
					if got.P90 != nil {
						near(at+what, *got.P90, want[2], 0.3)
					}
				}
				points("width", p.Width, a.Width)
				points("next", p.Next, a.Next)
				near(at+"full", p.FullByTarget, a.Full, 5e-3)
				near(at+"early", p.FullBeforeHalf, a.Early, 5e-3)
				near(at+"on target", p.OnTarget, a.Target, 5e-3)
				near(at+"miss", p.Miss, a.Miss, 5e-3)
				near(at+"closeness", p.Closeness, 100*(1-a.Miss), 0.5)
				if a.Closest != nil {
					near(at+"closest", *p.Closest, *a.Closest, 5e-3)
				}
				onlyFull := p.Tested && strings.Contains(g.Case, "full") && !strings.Contains(g.Case, "never") && !strings.Contains(g.Case, "not full")
				if (p.Width.P90 == nil) != onlyFull || (p.Next.P90 == nil) != onlyFull {
					t.Errorf("%s: upper ends %v and %v", at, p.Width.P90, p.Next.P90)
				}
			}
			if looked < 3 {
				t.Errorf("only %d rungs were looked at", looked)
			}
		})
	}
}

// keys are the names of an object in the order they are written.
func keysOf(t *testing.T, raw json.RawMessage) (names []string, values map[string]json.RawMessage) {
	t.Helper()
	dec := json.NewDecoder(strings.NewReader(string(raw)))
	if _, err := dec.Token(); err != nil {
		t.Fatal(err)
	}
	values = map[string]json.RawMessage{}
	for dec.More() {
		name, err := dec.Token()
		if err != nil {
			t.Fatal(err)
		}
		var v json.RawMessage
		if err := dec.Decode(&v); err != nil {
			t.Fatal(err)
		}
		names = append(names, name.(string))
		values[name.(string)] = v
	}
	return names, values
}

func TestDocumentHasTheseNames(t *testing.T) {
	t.Parallel()
	table, err := standings.WorkStacks(t.Context(), read(t, sheet), standings.PriorOf(nil))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := table.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	same := func(want string, got []string) {
		t.Helper()
		if diff := cmp.Diff(strings.Fields(want), got); diff != "" {
			t.Errorf("-want +got:\n%s", diff)
		}
	}
	list := func(raw json.RawMessage) (out []json.RawMessage) {
		t.Helper()
		if err := json.Unmarshal(raw, &out); err != nil || len(out) == 0 {
			t.Fatalf("%s: %v", raw, err)
		}
		return out
	}
	ks, v := keysOf(t, json.RawMessage(b.String()))
	same("series", ks)
	for _, x := range list(v["series"]) {
		ks, v := keysOf(t, x)
		same("vessel series inner_width_mm target_hour pairings advice", ks)
		for _, p := range list(v["pairings"]) {
			ks, v := keysOf(t, p)
			same(`rung tested rank closeness miss width_at_target_mm next_candle_mm hours_to_full chance_never_full chance_full_by_target
				chance_full_before_half chance_on_target chance_closest candles burns warnings`, ks)
			for _, name := range []string{"width_at_target_mm", "next_candle_mm", "hours_to_full"} {
				ks, _ := keysOf(t, v[name])
				same("p10 p50 p90", ks)
			}
			if !strings.HasPrefix(string(v["warnings"]), "[") {
				t.Errorf("warnings are %s", v["warnings"])
			}
		}
	}
}

func TestWhatIsNotKnownIsNull(t *testing.T) {
	t.Parallel()
	d := worked(t, names+
		"Pebble,80,3,Larkspur,3,A,1,1,20,no\nPebble,80,3,Larkspur,3,A,1,2,24,no\nPebble,80,3,Larkspur,3,A,1,3,25,no\n"+
		"Pebble,80,3,Barley twist,,B,1,1,,yes\n")
	twist := d.Series[0].Pairings
	if len(twist) != 1 || twist[0].Rung != nil || *twist[0].Rank != 1 || *twist[0].Closest != 1 {
		t.Fatalf("a wick without a ladder: %+v", twist)
	}
	if twist[0].Width.P90 != nil || twist[0].Next.P90 != nil || twist[0].Width.P10 == nil || twist[0].Next.P50 == nil {
		t.Errorf("full at the first look: %+v %+v", twist[0].Width, twist[0].Next)
	}
	weak := find(t, d, "Larkspur", 3)
	if weak.HoursToFull.P50 != nil || weak.HoursToFull.P90 != nil || weak.NeverFull < 0.9 || weak.Width.P90 == nil {
		t.Errorf("a pool that stops far from the wall: %+v", weak)
	}
	guess := find(t, d, "Larkspur", 4)
	if guess.Tested || guess.Rank != nil || guess.Closest != nil || guess.Candles != 0 || guess.Width.P90 == nil || len(guess.Warnings) == 0 {
		t.Errorf("a rung that was not burned: %+v", guess)
	}
}

func TestNothingBurnedIsAnEmptyDocument(t *testing.T) {
	t.Parallel()
	table, err := standings.Work(context.Background(), nil, standings.Options{Ruler: 1}, standings.PriorOf(nil))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := table.WriteJSON(&b); err != nil || strings.Join(strings.Fields(b.String()), "") != `{"series":[]}` {
		t.Errorf("%q, %v", b.String(), err)
	}
}
