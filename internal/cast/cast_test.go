package cast

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
)

var noon = time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)

// line is a cast of one wax and one detail, out after some hours.
func line(pour journal.ID, wax, detail string, hours float64, clean, chipped, broken int) journal.CastLine {
	out := noon.Add(time.Duration(hours * float64(time.Hour)))
	return journal.CastLine{
		Cast:  journal.Cast{Pour: pour, Pieces: clean + chipped + broken, Out: &out, Clean: &clean, Chipped: &chipped, Broken: &broken},
		Pour:  journal.Pour{Meta: journal.Meta{ID: pour}, At: noon},
		Wax:   journal.Wax{Meta: journal.Meta{ID: journal.ID(len(wax))}, Name: wax},
		Mould: journal.Mould{Detail: journal.Detail(detail)},
	}
}

func with(l journal.CastLine, change func(*journal.CastLine)) journal.CastLine { change(&l); return l }

// TestShareHasNewcombesInterval holds the range of a share against Newcombe,
// Statistics in Medicine 17 (1998) 857-872, table I, method 3, and R 4.2.2
// prop.test(correct = FALSE) for the small counts that casts have.
func TestShareHasNewcombesInterval(t *testing.T) {
	t.Parallel()
	f, err := os.Open("../../testdata/reference/binomial_intervals.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 5 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, r := range rows[1:] {
		x, n, low, high := number(t, r[0]), number(t, r[1]), number(t, r[2]), number(t, r[3])
		s := ShareOf(TallyOf([]journal.CastLine{line(1, "a", "plain", 25, int(x), int(n-x), 0)}))
		if s.Pieces() != int(n) || math.Abs(s.Low-low) > 1e-6 || math.Abs(s.High-high) > 1e-6 {
			t.Errorf("%g of %g: %v to %v, want %v to %v", x, n, s.Low, s.High, low, high)
		}
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestShareIsToldFromFivePieces(t *testing.T) {
	t.Parallel()
	for pieces, short := range map[int]int{0: 5, 4: 1, 5: 0, 6: 0} {
		s := ShareOf(Tally{Clean: pieces})
		if s.Short != short || s.Told() != (short == 0) {
			t.Errorf("%d pieces: %d short, told %v", pieces, s.Short, s.Told())
		}
	}
}

// Pieces that are in, not counted, withdrawn, or of a withdrawn pour say
// nothing; two casts of one pour are one pour.
func TestTallyCountsWhatCounts(t *testing.T) {
	t.Parallel()
	gone := noon
	got := TallyOf([]journal.CastLine{
		line(1, "a", "plain", 25, 3, 1, 0), line(1, "a", "plain", 25, 2, 0, 1), line(2, "a", "plain", 25, 4, 0, 0),
		with(line(3, "a", "plain", 25, 9, 0, 0), func(l *journal.CastLine) { l.Cast.Out = nil }),
		with(line(3, "a", "plain", 25, 9, 0, 0), func(l *journal.CastLine) { l.Cast.Clean, l.Cast.Chipped, l.Cast.Broken = nil, nil, nil }),
		with(line(3, "a", "plain", 25, 9, 0, 0), func(l *journal.CastLine) { l.Cast.Gone = &gone }),
		with(line(3, "a", "plain", 25, 9, 0, 0), func(l *journal.CastLine) { l.Pour.Gone = &gone }),
	})
	if d := cmp.Diff(Tally{Clean: 9, Chipped: 1, Broken: 1, Casts: 3, Pours: 2}, got); d != "" {
		t.Error(d)
	}
	if s := ShareOf(TallyOf([]journal.CastLine{line(1, "a", "plain", 25, 3, 1, 0), line(1, "a", "plain", 25, 3, 1, 0)})); !s.OnePour {
		t.Error("two casts of one pour are not known as such")
	}
	if ShareOf(got).OnePour {
		t.Error("two pours are taken for one")
	}
}

// A full day is 24 h; at 24 h sharp it is over.
func TestGroupsSplitAtAFullDay(t *testing.T) {
	t.Parallel()
	gs := Groups([]journal.CastLine{
		line(1, "bb", "relief", 23.99, 5, 0, 0), line(2, "bb", "relief", 24, 6, 0, 0), line(3, "bb", "plain", 30, 7, 0, 0), line(4, "a", "undercut", 30, 8, 0, 0),
		with(line(4, "a", "undercut", 25, 4, 0, 0), func(l *journal.CastLine) { l.Cast.Out = nil }),
		with(line(4, "a", "undercut", 25, 3, 0, 0), func(l *journal.CastLine) { l.Cast.Clean = nil }),
	})
	var got [][]any
	for _, g := range gs {
		got = append(got, []any{g.Wax.Name, g.Detail, g.Share.Pieces(), g.Under.Pieces(), g.Full.Pieces(), g.Inside, g.Open})
	}
	want := [][]any{{"a", journal.Undercut, 8, 0, 8, 4, 3}, {"bb", journal.Plain, 7, 0, 7, 0, 0}, {"bb", journal.Relief, 11, 5, 6, 0, 0}}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// What is tried is common practice, no source: a longer set, a harder wax, a
// simpler mould, in that order.
func TestTries(t *testing.T) {
	t.Parallel()
	noted := func(c journal.Captured, f journal.Firmness, l journal.CastLine) journal.CastLine {
		l.Cast.Captured, l.Cast.Firmness = c, f
		return l
	}
	for name, c := range map[string]struct {
		lines []journal.CastLine
		want  []Try
	}{
		"all clean":                         {[]journal.CastLine{line(1, "a", "undercut", 25, 10, 0, 0)}, nil},
		"one in ten harmed":                 {[]journal.CastLine{line(1, "a", "undercut", 25, 9, 1, 0)}, nil},
		"one in five harmed":                {[]journal.CastLine{line(1, "a", "undercut", 25, 8, 1, 1)}, []Try{HarderWax, SimplerMould}},
		"four pieces say nothing":           {[]journal.CastLine{line(1, "a", "undercut", 25, 0, 2, 2)}, nil},
		"a plain mould cannot be simpler":   {[]journal.CastLine{line(1, "a", "plain", 25, 4, 1, 0)}, []Try{HarderWax}},
		"out early":                         {[]journal.CastLine{line(1, "a", "relief", 6, 4, 1, 0)}, []Try{LongerSet, HarderWax, SimplerMould}},
		"brittle pieces need no harder wax": {[]journal.CastLine{noted("", journal.Brittle, line(1, "a", "plain", 25, 4, 1, 0))}, []Try{SlowerCold}},
		"detail soft in half of two":        {[]journal.CastLine{noted(journal.DetailSoft, "", line(1, "a", "relief", 25, 5, 0, 0)), noted(journal.DetailFull, "", line(1, "a", "relief", 25, 5, 0, 0))}, []Try{WarmerMould}},
		"detail lost in one of three": {[]journal.CastLine{noted(journal.DetailLost, "", line(1, "a", "relief", 25, 5, 0, 0)), noted(journal.DetailFull, "", line(1, "a", "relief", 25, 5, 0, 0)),
			noted(journal.DetailFull, "", line(1, "a", "relief", 25, 5, 0, 0))}, nil},
		"early but clean": {[]journal.CastLine{line(1, "a", "relief", 6, 10, 0, 0)}, nil},
	} {
		if d := cmp.Diff(c.want, Groups(c.lines)[0].Tries); d != "" {
			t.Errorf("%s:\n%s", name, d)
		}
	}
}
