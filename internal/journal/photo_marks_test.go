package journal_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rimward/internal/journal"
)

// What is written down is read back the same, mark for mark.
func TestMarksAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var l journal.MarkLine
		for range rapid.IntRange(0, 9).Draw(t, "marks") {
			l = append(l, journal.PhotoMark{X: rapid.Float64Range(0, 1600).Draw(t, "x"), Y: rapid.Float64Range(0, 1600).Draw(t, "y")})
		}
		if got, ok := journal.ParseMarkLine(l.String()); !ok || !slices.Equal(l, got) {
			t.Errorf("%v read back as %v", l, got)
		}
	})
	for _, text := range []string{"1", "1,", ",1", "1,2,3", "a,b", "NaN,1", "1,Inf", "1e999,2", "1;2"} {
		if l, ok := journal.ParseMarkLine(text); ok {
			t.Errorf("%q is read as %v", text, l)
		}
	}
}

// The edge of a picture has no sign, however it was reached.
func TestAMarkOnTheEdgeHasNoSign(t *testing.T) {
	l, ok := journal.ParseMarkLine("-0,5 7,-0.0")
	if !ok || math.Signbit(l[0].X) || math.Signbit(l[1].Y) {
		t.Errorf("read as %v", l)
	}
	minus := math.Copysign(0, -1)
	if got := (journal.MarkLine{{X: minus, Y: 5}, {X: 7, Y: minus}}).String(); got != "0,5 7,0" {
		t.Errorf("written as %q", got)
	}
}

func TestMarksLieOnThePicture(t *testing.T) {
	p := journal.Photo{Hash: "", Width: 1600, Height: 1200}
	many := make(journal.MarkLine, journal.MostMarks+1)
	for name, c := range map[string]struct {
		m    journal.PhotoMarks
		want bool
	}{
		"none":        {journal.PhotoMarks{}, true},
		"corners":     {journal.PhotoMarks{Wall: journal.MarkLine{{X: 0, Y: 0}, {X: 1600, Y: 1200}}}, true},
		"beyond":      {journal.PhotoMarks{Pool: journal.MarkLine{{X: 1, Y: 1200.1}}}, false},
		"before":      {journal.PhotoMarks{Wall: journal.MarkLine{{X: -0.1, Y: 3}}}, false},
		"no number":   {journal.PhotoMarks{Wall: journal.MarkLine{{X: math.NaN(), Y: 3}}}, false},
		"too many":    {journal.PhotoMarks{Pool: many}, false},
		"just enough": {journal.PhotoMarks{Pool: many[1:]}, true},
	} {
		if got := p.Takes(c.m); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
