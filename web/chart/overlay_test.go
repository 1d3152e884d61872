package chart

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// texts are all words on a drawing, axes and labels alike.
func (d Drawing) texts() []Text {
	var out []Text
	for _, f := range append([]Frame{d.Frame}, d.More...) {
		for _, t := range append(append([]Tick(nil), f.X...), f.Y...) {
			out = append(out, t.Label)
		}
	}
	for _, l := range d.Labels {
		out = append(out, l.Text)
	}
	return out
}

// orderly checks that a chart's drawings are well-formed and that no words on
// them collide or leave the sheet.
func orderly(tb judge, c Chart) {
	tb.Helper()
	for _, d := range []Drawing{c.Wide, c.Narrow} {
		sound(tb, render(tb, Draw(d)))
		apart(tb, d.texts(), box{0, 0, d.wide, d.high})
	}
}

// shapes are the paths of a class within groups of another; an empty group is
// any.
func (d Drawing) shapes(group, class string) []string {
	var out []string
	for _, l := range d.Layers {
		for _, s := range l.Shapes {
			if s.Class == class && s.Path != "" && (group == "" || strings.Contains(l.Class, group)) {
				out = append(out, s.Path)
			}
		}
	}
	return out
}

// labelled finds a label by its words.
func (d Drawing) labelled(words string) (Text, bool) {
	for _, t := range d.texts() {
		if t.Words == words {
			return t, true
		}
	}
	return Text{}, false
}

// curveOf is an invented growth curve that tends to a width, with a range of a
// tenth of it.
func curveOf(most, pace float64) []BandPoint {
	var out []BandPoint
	for h := 0.25; h <= 4; h += 0.25 {
		w := most * (1 - math.Exp(-pace*h))
		out = append(out, BandPoint{h, 0.9 * w, w, 1.1 * w})
	}
	return out
}

// rivals is an overlay of n invented candles in vessels of the given walls.
func rivals(n int, walls ...float64) OverlaySpec {
	s := OverlaySpec{ID: "o", Title: "Widths laid over each other", Desc: "Invented candles.", Unit: "mm", MaxHour: 4, Caption: "Three burns each."}
	for i := range n {
		wall := walls[i%len(walls)]
		x := OverlaySeries{Label: fmt.Sprintf("14-%c, Larkspur %d", 'A'+i, i+4), Short: fmt.Sprintf("14-%c", 'A'+i),
			Wall: wall, WallLabel: fmt.Sprintf("wall %g mm", wall), Target: 3, TargetLabel: "target 3 h", Band: curveOf(wall*(0.85+0.06*float64(i)), 0.9)}
		for b := range 3 {
			w := wall * (0.5 + 0.03*float64(i+b))
			x.Burns = append(x.Burns, []GrowthPoint{{Hour: 1, Width: w}, {Hour: 2, Width: 1.35 * w, LeftOut: b == 2 && i == 1}, {Hour: 3, Width: 1.5 * w, Full: i > 1}})
		}
		s.Series = append(s.Series, x)
	}
	s.Table = Table{Head: []string{"Candle", "Width"}, Rows: [][]string{{"14-A", "70 mm"}}}
	return s
}

func TestOverlayWithOneWallShowsWidths(t *testing.T) {
	t.Parallel()
	c := NewOverlay(rivals(3, 76))
	y60, y80 := level(t, c.Wide.Y, "60"), level(t, c.Wide.Y, "80 mm")
	wall := numbers(t, c.Wide.shapes("", "chart-wall")[0])[1]
	if want := y60 + 16.0/20*(y80-y60); math.Abs(wall-want) > 0.02 {
		t.Errorf("wall at %.2f, the grid puts 76 mm at %.2f", wall, want)
	}
	if _, ok := c.Wide.labelled("wall 76 mm"); !ok {
		t.Error("the wall has no name")
	}
	if n := len(c.Wide.shapes("", "chart-target")); n != 1 {
		t.Errorf("one target hour is drawn %d times", n)
	}
}

// A pool of 38 mm in a vessel of 76 mm and one of 50 mm in 100 mm are both at
// half their wall, by hand.
func TestOverlayOfDifferentVesselsShowsSharesOfTheWall(t *testing.T) {
	t.Parallel()
	s := OverlaySpec{Unit: "mm", MaxHour: 4}
	for i, wall := range []float64{76, 100} {
		s.Series = append(s.Series, OverlaySeries{Label: fmt.Sprint("c", i), Wall: wall, Burns: [][]GrowthPoint{{{Hour: 1, Width: wall / 2}, {Hour: 2, Width: 0.8 * wall}}}})
	}
	s.Series = append(s.Series, OverlaySeries{Label: "no wall", Burns: [][]GrowthPoint{{{Hour: 1, Width: 30}}}})
	c := NewOverlay(s)
	one, two := numbers(t, c.Wide.shapes("chart-s0", "chart-line")[0]), numbers(t, c.Wide.shapes("chart-s1", "chart-line")[0])
	if one[1] != two[1] || one[3] != two[3] {
		t.Errorf("half a wall at %g and %g", one[1], two[1])
	}
	if y100 := level(t, c.Wide.Y, "100 %"); math.Abs(numbers(t, c.Wide.shapes("", "chart-wall")[0])[1]-y100) > 0.02 {
		t.Error("the wall is not at 100 %")
	}
	for _, want := range []string{"in per cent of its own wall", "Not drawn: 1 curve of a vessel whose width is not known."} {
		if !strings.Contains(c.Caption, want) {
			t.Errorf("caption %q does not say %q", c.Caption, want)
		}
	}
}

func TestOverlayTellsSeriesApartWithoutColour(t *testing.T) {
	t.Parallel()
	c := NewOverlay(rivals(6, 76))
	for _, d := range []Drawing{c.Wide, c.Narrow} {
		for i := range 6 {
			if n := len(d.shapes(fmt.Sprintf("chart-s%d", i), "chart-fit")); n != 1 {
				t.Errorf("series %d has %d curves", i, n)
			}
		}
	}
	for i := range 6 {
		if _, ok := c.Wide.labelled(fmt.Sprintf("14-%c, Larkspur %d", 'A'+i, i+4)); !ok {
			t.Errorf("series %d has no name on the wide drawing", i)
		}
		if _, ok := c.Narrow.labelled(fmt.Sprintf("14-%c", 'A'+i)); !ok {
			t.Errorf("series %d has no name on the narrow drawing", i)
		}
	}
}

func TestOverlayPutsFullReadingsIntoARowOfTheirOwn(t *testing.T) {
	t.Parallel()
	s := rivals(2, 76)
	for i := range s.Series {
		s.Series[i].Burns = [][]GrowthPoint{{{Hour: 2, Full: true}}}
	}
	c := NewOverlay(s)
	one, two := numbers(t, c.Wide.shapes("chart-s0", "chart-marker")[0]), numbers(t, c.Wide.shapes("chart-s1", "chart-marker")[0])
	if math.Abs(one[1]-two[1]) < 8 || max(one[1], two[1]) >= c.Wide.y.To {
		t.Errorf("full readings at %g and %g, the plot begins at %g", one[1], two[1], c.Wide.y.To)
	}
}

func TestOverlayNamesTheSeriesOfSeveralTargetHours(t *testing.T) {
	t.Parallel()
	s := rivals(3, 76)
	s.Series[2].Target, s.Series[2].TargetLabel = 2, "target 2 h"
	c := NewOverlay(s)
	for _, want := range []string{"target 3 h: 14-A, 14-B", "target 2 h: 14-C"} {
		if _, ok := c.Wide.labelled(want); !ok {
			t.Errorf("no label %q", want)
		}
	}
}

func TestOverlayCountsWhatItDoesNotDraw(t *testing.T) {
	t.Parallel()
	s := rivals(2, 76)
	s.Series[0].Burns = append(s.Series[0].Burns, []GrowthPoint{{Hour: math.NaN(), Width: 4}, {Hour: 1, Width: math.Inf(1)}})
	s.Series[0].Band = append(s.Series[0].Band, BandPoint{2, math.NaN(), 4, 5})
	got := NewOverlay(s).Caption
	if want := "Three burns each. Not drawn: 3 points without a usable number. Crossed: 1 reading left out of the reckoning."; got != want {
		t.Errorf("caption %q, want %q", got, want)
	}
}

func TestOverlayKeepsItsWordsApart(t *testing.T) {
	t.Parallel()
	for _, s := range []OverlaySpec{{}, rivals(1, 76), rivals(6, 76), rivals(6, 76, 100, 60), rivals(12, 76), {Series: make([]OverlaySeries, 3)}} {
		orderly(t, NewOverlay(s))
	}
	rapid.Check(t, func(rt *rapid.T) {
		s := OverlaySpec{Unit: "mm", MaxHour: 4}
		for range rapid.IntRange(0, 7).Draw(rt, "series") {
			wall := rapid.Float64Range(0, 150).Draw(rt, "wall")
			x := OverlaySeries{Label: rapid.StringMatching(`[a-z0-9 -]{1,24}`).Draw(rt, "label"), Wall: wall, WallLabel: "wall 76 mm",
				Target: rapid.Float64Range(0, 5).Draw(rt, "target"), TargetLabel: "target 3 h", Band: curveOf(rapid.Float64Range(0, 200).Draw(rt, "most"), 0.8)}
			for range rapid.IntRange(0, 5).Draw(rt, "points") {
				x.Burns = append(x.Burns, []GrowthPoint{{Hour: rapid.Float64Range(0, 6).Draw(rt, "hour"), Width: rapid.Float64Range(0, 200).Draw(rt, "width"), Full: rapid.Bool().Draw(rt, "full")}})
			}
			s.Series = append(s.Series, x)
		}
		orderly(rt, NewOverlay(s))
	})
}
