package stats

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// groupIn reads the values of one group of a file of reference numbers.
func groupIn(t *testing.T, file, group string) (out []float64) {
	t.Helper()
	b, err := os.Open(filepath.Join("..", "..", "testdata", "reference", file))
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	rows, err := csv.NewReader(b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		if r[1] != group {
			continue
		}
		v, err := strconv.ParseFloat(r[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, v)
	}
	return out
}

// Answers as R prints them: t.test(extra ~ group, sleep), the example in the
// help page of t.test, and t.test(weight ~ group, PlantGrowth) of ctrl and
// trt1. R takes the second group from the first, this package the other way.
func TestMeansThatRCompared(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		file, a, b                       string
		meanA, meanB, tee, df, low, high float64
	}{
		{"sleep.csv", "1", "2", 0.75, 2.33, 1.8608, 17.776, -0.2054832, 3.3654832},
		{"plantgrowth.csv", "ctrl", "trt1", 5.032, 4.661, -1.1913, 16.524, -1.0295162, 0.2875162},
	} {
		w, err := CompareMeans(groupIn(t, c.file, c.a), groupIn(t, c.file, c.b), 0.95)
		if err != nil || w.Told() || len(w.Warnings) > 0 {
			t.Errorf("%s: %+v, %v", c.file, w, err)
		}
		apart(t, c.file+" mean", w.A.Mean, c.meanA, 1e-9)
		apart(t, c.file+" mean", w.B.Mean, c.meanB, 1e-9)
		apart(t, c.file+" t", w.Difference/w.SE, c.tee, 5e-5)
		apart(t, c.file+" df", w.DF, c.df, 5e-4)
		apart(t, c.file+" low", w.Low, c.low, 5e-8)
		apart(t, c.file+" high", w.High, c.high, 5e-8)
	}
}

// Whole numbers as in Cohen, Statistical Power Analysis for the Behavioral
// Sciences, 1988, table 2.4.1 (power .80, two-sided 5 %), those for power .90 as
// R 4.2.2 power.t.test gives them, rounded up.
func TestValuesWanted(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		effect, power float64
		want          int
	}{{0.2, 0.8, 394}, {0.5, 0.8, 64}, {0.8, 0.8, 26}, {0.5, 0.9, 86}, {0.8, 0.9, 34}, {1, 0.8, 17}, {-1, 0.9, 23}} {
		if n, ok := ValuesWanted(c.effect, 0.95, c.power, 400); !ok || n != c.want {
			t.Errorf("effect %v, power %v: %d (%v), want %d", c.effect, c.power, n, ok, c.want)
		}
	}
	// R 4.2.2 power.t.test(n = 3, delta = 2, strict = TRUE) and two more.
	apart(t, "power of three", MeansPower(2, 0.95, 3), 0.462640812, 1e-7)
	apart(t, "power of two", MeansPower(3, 0.95, 2), 0.387400129, 1e-7)
	apart(t, "power of five", MeansPower(1.5, 0.95, 5), 0.549385598, 1e-7)
	apart(t, "power of nothing to see", MeansPower(0, 0.95, 7), 0.05, 1e-9)
	apart(t, "power of groups without spread", MeansPower(math.Inf(-1), 0.95, 2), 1, 0)
	apart(t, "power of one", MeansPower(3, 0.95, 1), 0, 0)
	apart(t, "power of no number", MeansPower(math.NaN(), 0.95, 3), 0, 0)
	for _, effect := range []float64{0, math.NaN(), 0.2} {
		if n, ok := ValuesWanted(effect, 0.95, 0.8, 30); ok {
			t.Errorf("effect %v is told by %d values", effect, n)
		}
	}
	if n, ok := ValuesWanted(math.Inf(1), 0.95, 0.8, 30); !ok || n != 2 {
		t.Errorf("groups without spread want %d values", n)
	}
}

func TestMeansWithoutAnInterval(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ a, b []float64 }{
		"one against many": {[]float64{3}, []float64{4, 5, 6}},
		"many against one": {[]float64{4, 5, 6}, []float64{3}},
		"no spread":        {[]float64{4, 4}, []float64{5, 5, 5}},
	} {
		w, err := CompareMeans(c.a, c.b, 0.95)
		if err != nil || w.HasInterval || w.Told() || len(w.Warnings) != 1 {
			t.Errorf("%s: %+v, %v", name, w, err)
		}
	}
	for name, c := range map[string]struct{ a, b []float64 }{
		"nothing": {nil, []float64{1, 2}}, "no number": {[]float64{1, math.NaN()}, []float64{1, 2}}, "endless": {[]float64{1, 2}, []float64{math.Inf(1), 2}},
	} {
		if _, err := CompareMeans(c.a, c.b, 0.95); !errors.Is(err, ErrTooFew) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Swapping the groups turns the difference round, shifting both changes
// nothing, a group differs from itself by nothing, and a wider level holds a
// narrower one.
func TestMeansProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		group := rapid.SliceOfN(rapid.Float64Range(-50, 50), 2, 8)
		a, b := group.Draw(t, "a"), group.Draw(t, "b")
		shift := rapid.Float64Range(-100, 100).Draw(t, "shift")
		w, _ := CompareMeans(a, b, 0.95)
		back, _ := CompareMeans(b, a, 0.95)
		moved, _ := CompareMeans(plus(a, shift), plus(b, shift), 0.95)
		wide, _ := CompareMeans(a, b, 0.99)
		self, _ := CompareMeans(a, a, 0.95)
		near := func(x, y float64) bool { return math.Abs(x-y) <= 1e-6*(1+math.Abs(x)) }
		if w.HasInterval != back.HasInterval || !near(w.Low, -back.High) || !near(w.Difference, -back.Difference) {
			t.Fatalf("%+v turned round is %+v", w, back)
		}
		if w.SE > 1e-6 && (!near(w.Low, moved.Low) || !near(w.High, moved.High)) {
			t.Fatalf("%+v shifted is %+v", w, moved)
		}
		if w.HasInterval && (wide.Low > w.Low || wide.High < w.High) {
			t.Fatalf("%+v is wider than %+v", w, wide)
		}
		if self.Difference != 0 || self.Told() {
			t.Fatalf("a group differs from itself: %+v", self)
		}
	})
}

func plus(x []float64, by float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = v + by
	}
	return out
}
