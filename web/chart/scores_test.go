package chart

import (
	"context"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
)

func TestScoresStandOverTheirSteps(t *testing.T) {
	t.Parallel()
	s := NewScores(ScoresSpec{Counts: []int{0, 0, 1, 3, 0, 0}, Median: 3, Title: "Scores 2, 3, 3, 3"})
	if len(s.Dots) != 4 || len(s.Steps) != 6 || s.Steps[5].Text != "5" {
		t.Fatalf("got %+v", s)
	}
	if s.Dots[0].X != s.Steps[2].X || s.Dots[1].X != s.Steps[3].X || s.Dots[1].X != s.Dots[3].X || s.Dots[1].Y == s.Dots[2].Y {
		t.Errorf("dots at %v over steps %v", s.Dots, s.Steps)
	}
	if !strings.HasPrefix(s.Median, "M"+s.Steps[3].X+" ") {
		t.Errorf("the mark %q is not under %s", s.Median, s.Steps[3].X)
	}
	for _, m := range []float64{math.NaN(), math.Inf(1), -1, 5.5} {
		if got := NewScores(ScoresSpec{Counts: make([]int, 6), Median: m}); got.Median != "" {
			t.Errorf("a median of %v is drawn: %q", m, got.Median)
		}
	}
	tall := NewScores(ScoresSpec{Counts: []int{9}, Median: 0})
	if tall.Height <= s.Height && len(tall.Height) <= len(s.Height) {
		t.Errorf("nine dots are as tall as three: %s and %s", tall.Height, s.Height)
	}
}

func TestScoresAreWellFormed(t *testing.T) {
	t.Parallel()
	var out strings.Builder
	if err := ScoresRow(NewScores(ScoresSpec{Counts: []int{1, 0, 2, 0, 0, 1}, Median: 1.5, Title: "Scores <0 & 5>"})).Render(context.Background(), &out); err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(strings.NewReader(out.String()))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatalf("%v in %s", err, out.String())
		}
	}
	if strings.Contains(out.String(), "NaN") || strings.Contains(out.String(), "Inf") {
		t.Errorf("a place is no number: %s", out.String())
	}
}
