package stats

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// column reads one named column of a file of reference numbers.
func column(t *testing.T, file, name string) []float64 {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", file))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("read %s: %d rows, %v", file, len(rows), err)
	}
	at := -1
	for i, title := range rows[0] {
		if title == name {
			at = i
		}
	}
	if at < 0 {
		t.Fatalf("read %s: no column %q in %v", file, name, rows[0])
	}
	out := make([]float64, 0, len(rows)-1)
	for _, row := range rows[1:] {
		v, err := strconv.ParseFloat(row[at], 64)
		if err != nil {
			t.Fatalf("read %s: %v", file, err)
		}
		out = append(out, v)
	}
	return out
}

// within fails unless got lies within a relative tolerance of want.
func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s: got %.15g, want %.15g to %g", what, got, want, tolerance)
	}
}

// apart fails unless got lies within an absolute tolerance of want.
func apart(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.15g, want %.15g give or take %g", what, got, want, tolerance)
	}
}
