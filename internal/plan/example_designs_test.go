package plan_test

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/plan"
)

// table reads a file of reference numbers without its heading.
func table(t *testing.T, file string) (out [][]float64) {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		var row []float64
		for _, c := range r {
			v, err := strconv.ParseFloat(c, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, v)
		}
		out = append(out, row)
	}
	return out
}

func near(t *testing.T, name string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.8g, want %.8g", name, got, want)
	}
}

// squares are the sums of squares of three things that are balanced over each
// other, each by the means of its levels, and of what is left. The last number
// of a row is what was measured.
func squares(rows [][]float64) (by [3]float64, left float64) {
	n, mean := float64(len(rows)), 0.0
	for _, r := range rows {
		mean += r[3] / n
	}
	for k := range by {
		sums, counts := map[float64]float64{}, map[float64]float64{}
		for _, r := range rows {
			sums[r[k]], counts[r[k]] = sums[r[k]]+r[3]-mean, counts[r[k]]+1
		}
		for level, s := range sums {
			by[k] += s * s / counts[level]
		}
	}
	for _, r := range rows {
		left += (r[3] - mean) * (r[3] - mean)
	}
	return by, left - by[0] - by[1] - by[2]
}

// Iowa State University, STAT 402, four brands of tyre on four trucks on four
// days, http://www.public.iastate.edu/~wrstephe/stat402/tiresout.html, to the
// digits that R 4.2.2 gives. It shows that squares parts a Latin square as the
// handbooks do.
func TestSquaresOfTheTyres(t *testing.T) {
	t.Parallel()
	by, left := squares(table(t, "latin_square_mpg.csv"))
	near(t, "trucks", by[0], 0.06765, 1e-9)
	near(t, "days", by[1], 0.263, 1e-9)
	near(t, "brands", by[2], 1.30705, 1e-9)
	near(t, "left", left, 0.0928, 1e-9)
	near(t, "F of brands", by[2]/3/(left/6), 28.16918, 5e-6)
	near(t, "F of trucks", by[0]/3/(left/6), 1.45797, 5e-6)
	near(t, "F of days", by[1]/3/(left/6), 5.66810, 5e-6)
}

// On a drawn square, whatever the places and the evenings do to the pools,
// nothing of it falls on the cells: their differences come out exactly, and
// nothing is left over.
func TestPlacesAndEveningsDoNotTouchCells(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(3, 4))
	for n := 2; n <= 9; n++ {
		s := spec(1, n, 0, 0)
		s.Copies, s.BenchPlaces, s.Square, s.Seed = n, n, true, int64(n)
		var effect [3][]float64 // of evenings, places and cells
		for k := range effect {
			for range n {
				effect[k] = append(effect[k], rng.NormFloat64())
			}
		}
		var rows [][]float64
		means := make([]float64, n)
		for _, p := range draw(t, s) {
			cell := int(p.Wick) - 20
			y := 70 + effect[0][p.Evening-1] + effect[1][p.Bench-1] + effect[2][cell]
			rows = append(rows, []float64{float64(p.Evening), float64(p.Bench), float64(cell), y})
			means[cell] += y / float64(n)
		}
		for cell := range means {
			near(t, "difference", means[cell]-means[0], effect[2][cell]-effect[2][0], 1e-10)
		}
		_, left := squares(rows)
		near(t, "left", left, 0, 1e-8)
	}
}

// Jain's 2^3 example, as in the notes of Virginia Tech CS5014 (address in
// testdata/reference): the mean is 40 and the effects of A, B, C, AB, AC, BC
// and ABC are 10, 5, 20, 5, 2, 3 and 1. A round of two wicks, two loads and two
// pour temperatures makes the same table: each thing by itself and together.
func TestFullTableOfTwoLevels(t *testing.T) {
	t.Parallel()
	want := map[string]float64{"": 40, "A": 10, "B": 5, "C": 20, "AB": 5, "AC": 2, "BC": 3, "ABC": 1}
	measured := map[[3]float64]float64{}
	for _, r := range table(t, "factorial_2_3.csv") {
		measured[[3]float64{r[0], r[1], r[2]}] = r[3]
	}
	s := spec(1, 2, 2, 2)
	s.Copies, s.PerMelt = 2, 3
	got, total := map[string]float64{}, 0.0
	places := draw(t, s)
	for _, p := range places {
		signs := [3]float64{sign(p.Wick == 21), sign(*p.Load == s.Factors.Loads[1]), sign(*p.PourAt == s.Factors.PourAts[1])}
		y := measured[signs]
		total += (y - 40) * (y - 40)
		for effect := range want {
			product := y
			for _, letter := range effect {
				product *= signs[letter-'A']
			}
			got[effect] += product / float64(len(places))
		}
	}
	for effect, v := range want {
		near(t, "effect "+effect, got[effect], v, 1e-12)
	}
	near(t, "total sum of squares", total/float64(s.Copies), 4512, 1e-9)
}

func sign(is bool) float64 {
	if is {
		return 1
	}
	return -1
}

// Two cells at two places are no square when they take three evenings.
func TestThreeEveningsAreNoSquare(t *testing.T) {
	t.Parallel()
	s := plan.StructureOf([]journal.RoundPlace{
		{Wick: 1, Copy: 1, Evening: 1, Bench: 1}, {Wick: 1, Copy: 2, Evening: 2, Bench: 2},
		{Wick: 2, Copy: 1, Evening: 1, Bench: 2}, {Wick: 2, Copy: 2, Evening: 3, Bench: 1},
	})
	if s.Square || s.Cells != 2 || s.Evenings != 3 || s.WholeEvenings {
		t.Errorf("%+v", s)
	}
}

func TestStructureOfNothing(t *testing.T) {
	t.Parallel()
	if s := plan.StructureOf(nil); s.Candles != 0 || s.Cells != 0 || s.Square {
		t.Errorf("%+v", s)
	}
}
