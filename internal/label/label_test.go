package label

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Worked by hand: with 8 mm free on each side A4 leaves 194 mm by 281 mm and
// Letter 199.9 mm by 263.4 mm, so that of 38 mm by 21 mm five stand side by side
// (190 mm) in 13 rows (273 mm) or 12 (252 mm).
func TestHowManyFit(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		size, paper string
		want        Grid
	}{
		{"38x21", "a4", Grid{5, 13}}, {"38x21", "letter", Grid{5, 12}},
		{"25", "a4", Grid{7, 11}}, {"25", "letter", Grid{7, 10}},
		{"63x38", "a4", Grid{3, 7}}, {"63x38", "letter", Grid{3, 6}},
	} {
		if got := Fit(SizeOf(c.size), PaperOf(c.paper)); got != c.want {
			t.Errorf("%s on %s: %+v, want %+v", c.size, c.paper, got, c.want)
		}
	}
	if SizeOf("").Key != "38x21" || PaperOf("none").Key != "a4" {
		t.Error("what is not known is not the usual one")
	}
}

func TestLay(t *testing.T) {
	t.Parallel()
	g := Grid{2, 2}
	for name, c := range map[string]struct {
		n, start int
		want     [][][]int
	}{
		"nothing":             {0, 1, nil},
		"from the first":      {3, 1, [][][]int{{{0, 1}, {2, None}}}},
		"from the third":      {3, 3, [][][]int{{{None, None}, {0, 1}}, {{2, None}, {None, None}}}},
		"just a sheet":        {4, 1, [][][]int{{{0, 1}, {2, 3}}}},
		"before the first":    {1, -7, [][][]int{{{0, None}, {None, None}}}},
		"beyond the last one": {1, 99, [][][]int{{{None, None}, {None, 0}}}},
	} {
		if d := cmp.Diff(c.want, g.Lay(c.n, c.start)); d != "" {
			t.Errorf("%s (-want +got)\n%s", name, d)
		}
	}
}

// Every label is laid once and in order, wherever the sheet was begun.
func TestEveryLabelIsLaidOnce(t *testing.T) {
	t.Parallel()
	for _, s := range Sizes {
		for _, p := range Papers {
			g := Fit(s, p)
			for start := 1; start <= g.Each(); start += 7 {
				next := 0
				for _, sheet := range g.Lay(150, start) {
					for _, row := range sheet {
						for _, i := range row {
							if i == next {
								next++
							} else if i != None {
								t.Fatalf("%s on %s from %d: label %d after %d", s.Key, p.Key, start, i, next-1)
							}
						}
					}
				}
				if next != 150 {
					t.Errorf("%s on %s from %d: %d labels", s.Key, p.Key, start, next)
				}
			}
		}
	}
}
