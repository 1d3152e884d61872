package chart

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// level reads the height of the grid line that bears a label.
func level(tb judge, ticks []Tick, label string) float64 {
	tb.Helper()
	for _, t := range ticks {
		if t.Label.Words == label {
			return numbers(tb, t.Line)[1]
		}
	}
	tb.Fatalf("no tick %q", label)
	return 0
}

// labels are all words on a growth chart.
func (g Growth) labels() []Text {
	out := []Text{g.Due, g.WallName}
	for _, b := range g.Burns {
		out = append(out, b.Name)
	}
	for _, t := range append(append([]Tick(nil), g.X...), g.Y...) {
		out = append(out, t.Label)
	}
	return out
}

// apart checks that no two labels share room and that none leaves the sheet.
func apart(tb judge, texts []Text, sheet box) {
	tb.Helper()
	for i, a := range texts {
		if a.Words == "" {
			continue
		}
		if !a.box.within(sheet) {
			tb.Errorf("%q leaves the drawing: %+v", a.Words, a.box)
		}
		for _, b := range texts[:i] {
			if b.Words != "" && a.box.hits(b.box) {
				tb.Errorf("%q and %q collide", a.Words, b.Words)
			}
		}
	}
}

func TestWallAndReadingsAgreeWithTheGrid(t *testing.T) {
	t.Parallel()
	g := NewGrowth(season(), Wide)
	y60, y80 := level(t, g.Y, "60"), level(t, g.Y, "80 mm")
	at := func(mm float64) float64 { return y60 + (mm-60)/20*(y80-y60) }
	wall := numbers(t, g.Wall)[1]
	if math.Abs(wall-at(76.2)) > 0.02 {
		t.Errorf("wall at %.2f, the grid puts 76.2 mm at %.2f", wall, at(76.2))
	}
	now := numbers(t, g.Burns[2].Line)
	for i, mm := range []float64{52, 71, 76.2} {
		if got := now[2*i+1]; math.Abs(got-at(mm)) > 0.02 {
			t.Errorf("reading %d of %g mm at %.2f, the grid puts it at %.2f", i+1, mm, got, at(mm))
		}
	}
	x3 := numbers(t, g.X[3].Line)[0]
	if due := numbers(t, g.Target)[0]; g.X[3].Label.Words != "3" || math.Abs(due-x3) > 0.01 {
		t.Errorf("target hour at %.2f, the axis puts %s h at %.2f", due, g.X[3].Label.Words, x3)
	}
}

func TestReadingsAreJoinedInOrderOfTime(t *testing.T) {
	t.Parallel()
	n := numbers(t, NewGrowth(season(), Wide).Burns[1].Line)
	for i := 2; i < len(n); i += 2 {
		if n[i] <= n[i-2] {
			t.Errorf("the line goes back in time: %v", n)
		}
	}
}

func TestReadingLeftOutIsCrossedAndNotJoined(t *testing.T) {
	t.Parallel()
	g := NewGrowth(season(), Wide)
	if n := len(numbers(t, g.Burns[0].Line)); n != 4 {
		t.Errorf("line through %d places, want 2", n/2)
	}
	if g.Burns[0].Out == "" || g.Burns[1].Out != "" {
		t.Errorf("crosses: burn 1 %q, burn 2 %q", g.Burns[0].Out, g.Burns[1].Out)
	}
	if !strings.Contains(g.Caption, "Crossed: 1 reading left out") {
		t.Errorf("caption does not say so: %q", g.Caption)
	}
}

func TestFullReadingsAtOneHourStackOnTheWall(t *testing.T) {
	t.Parallel()
	s := GrowthSpec{Unit: "mm", Wall: 76, MaxHour: 4}
	for i := range 4 {
		s.Burns = append(s.Burns, GrowthBurn{Label: fmt.Sprint(i + 1), Points: []GrowthPoint{{Hour: 3, Full: true}}})
	}
	g := NewGrowth(s, Narrow)
	wall, due := numbers(t, g.Wall)[1], g.x.Map(3)
	seen := map[float64]bool{}
	for i, b := range g.Burns {
		n := numbers(t, b.Full) // M x wall V top
		if math.Abs(n[0]-due) > 0.01 || n[1] != wall {
			t.Errorf("burn %d stands at (%g, %g), want (%.2f, %g)", i+1, n[0], n[1], due, wall)
		}
		if top := n[2]; seen[top] || top >= wall || top < 0 {
			t.Errorf("burn %d: tick ends at %g", i+1, top)
		}
		seen[n[2]] = true
	}
}

func TestPointsThatCannotBeDrawnAreCounted(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	s := GrowthSpec{Unit: "mm", Wall: 76, Burns: []GrowthBurn{{Label: "burn 1", Points: []GrowthPoint{
		{Hour: 1, Width: 40}, {Hour: nan, Width: 50}, {Hour: 2, Width: inf}, {Hour: -1, Width: 20}, {Hour: 2, Width: nan, Full: true},
	}}}}
	g := NewGrowth(s, Wide)
	if got := len(numbers(t, g.Burns[0].Line)) / 2; got != 2 {
		t.Errorf("%d readings drawn, want 2: a full one needs no width", got)
	}
	if want := "Not drawn: 3 points without a usable number."; g.Caption != want {
		t.Errorf("caption %q, want %q", g.Caption, want)
	}
	if !math.IsNaN(s.Burns[0].Points[1].Hour) || s.Burns[0].Points[4].Width == 76 {
		t.Error("the caller's readings were changed")
	}
}

func TestEmptyChartStillHasWallAndAxes(t *testing.T) {
	t.Parallel()
	g := NewGrowth(GrowthSpec{Unit: "mm", Wall: 76, WallLabel: "wall 76 mm", MaxHour: 4}, Wide)
	if g.Wall == "" || g.WallName.Words != "wall 76 mm" || len(g.X) != 5 || len(g.Y) == 0 {
		t.Errorf("wall %q named %q, %d and %d ticks", g.Wall, g.WallName.Words, len(g.X), len(g.Y))
	}
	sound(t, render(t, GrowthDrawing(NewGrowth(GrowthSpec{}, Narrow))))
}

func TestAxisSpeaksTheReadersUnit(t *testing.T) {
	t.Parallel()
	quarters := func(v float64) string {
		return map[float64]string{0: "0", 0.25: "¼", 0.5: "½", 0.75: "¾", 1: "1"}[v]
	}
	g := NewGrowth(GrowthSpec{Unit: "in", Wall: 1, MaxHour: 2, Steps: InchSteps, Value: quarters}, Wide)
	var got []string
	for _, tick := range g.Y {
		got = append(got, tick.Label.Words)
	}
	if diff := cmp.Diff([]string{"0", "¼", "½", "¾", "1 in"}, got); diff != "" {
		t.Errorf("ticks (-want +got):\n%s", diff)
	}
}

func TestNarrowDrawingUsesShortNames(t *testing.T) {
	t.Parallel()
	if got := NewGrowth(season(), Narrow).Burns[2].Name.Words; got != "3" {
		t.Errorf("narrow: %q, want the short name", got)
	}
	if got := NewGrowth(season(), Wide).Burns[2].Name.Words; got != "burn 3" {
		t.Errorf("wide: %q, want the whole name", got)
	}
}

func TestBandIsCutAtTheEdgesOfThePlot(t *testing.T) {
	t.Parallel()
	g := NewGrowth(GrowthSpec{Wall: 76, MaxHour: 4, Bands: []GrowthBand{{Points: []BandPoint{
		{1, -20, 40, 60}, {2, 50, 70, 400}, {9, 70, 80, 90}, {3, 60, 75, math.NaN()},
	}}}}, Wide)
	n := numbers(t, g.Bands[0].Area)
	if len(n) != 8 {
		t.Fatalf("area through %d places, want 4", len(n)/2)
	}
	for i := 1; i < len(n); i += 2 {
		if n[i] < g.y.To || n[i] > g.y.From {
			t.Errorf("area leaves the plot at %g", n[i])
		}
	}
}

func TestFigureHasBothDrawingsAndOneTable(t *testing.T) {
	t.Parallel()
	markup := render(t, GrowthChart(NewGrowth(season(), Wide), NewGrowth(season(), Narrow)))
	sound(t, markup)
	for part, want := range map[string]int{
		"<svg": 2, "chart-wide": 1, "chart-narrow": 1, "<table>": 1, "<figcaption>": 1,
		`role="img"`: 2, `id="g14-720-title"`: 1, `id="g14-360-title"`: 1,
		`aria-labelledby="g14-720-title g14-720-desc"`: 1, `xmlns="http://www.w3.org/2000/svg"`: 2,
	} {
		if got := strings.Count(markup, part); got != want {
			t.Errorf("%q occurs %d times, want %d", part, got, want)
		}
	}
}

func TestLabelsNeverCollide(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(rt *rapid.T) {
		s := GrowthSpec{
			Unit: "mm", Wall: rapid.Float64Range(0, 150).Draw(rt, "wall"), WallLabel: "wall 76 mm",
			Target: rapid.Float64Range(0, 5).Draw(rt, "target"), TargetLabel: "target 3 h", MaxHour: 4,
		}
		for i := range rapid.IntRange(0, 12).Draw(rt, "burns") {
			b := GrowthBurn{Label: rapid.StringMatching(`[a-z0-9 -]{1,24}`).Draw(rt, "label"), Current: i == 2}
			for range rapid.IntRange(0, 5).Draw(rt, "points") {
				b.Points = append(b.Points, GrowthPoint{
					Hour:  rapid.Float64Range(0, 5).Draw(rt, "hour"),
					Width: rapid.Float64Range(0, 160).Draw(rt, "width"),
					Full:  rapid.Bool().Draw(rt, "full"), LeftOut: rapid.Bool().Draw(rt, "out"),
				})
			}
			s.Burns = append(s.Burns, b)
		}
		for _, width := range []int{Wide, Narrow} {
			g := NewGrowth(s, width)
			apart(rt, g.labels(), g.crowd.sheet)
			sound(rt, render(rt, GrowthDrawing(g)))
		}
	})
}

func TestBurnsWithoutRoomForANameAreCounted(t *testing.T) {
	t.Parallel()
	s := GrowthSpec{Unit: "mm", Wall: 76, WallLabel: "wall 76 mm", MaxHour: 4}
	for i := range 90 {
		s.Burns = append(s.Burns, GrowthBurn{Label: fmt.Sprintf("burn %d", i), Points: []GrowthPoint{{Hour: 4, Width: 60}}})
	}
	g := NewGrowth(s, Narrow)
	named := 0
	for _, b := range g.Burns {
		if b.Name.Words != "" {
			named++
		}
	}
	if g.Unlabelled == 0 || named+g.Unlabelled != 90 {
		t.Errorf("%d named and %d not, of 90", named, g.Unlabelled)
	}
	if want := fmt.Sprintf("%d burns are drawn without a name", g.Unlabelled); !strings.Contains(g.Caption, want) {
		t.Errorf("caption %q does not say %q", g.Caption, want)
	}
}

func TestMarkersDifferInShape(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for i := range markers {
		seen[marker(i, 50, 50)] = true
	}
	if len(seen) != markers {
		t.Errorf("%d shapes among %d markers", len(seen), markers)
	}
}

func TestNamesKeepTheOrderOfTheirMarks(t *testing.T) {
	t.Parallel()
	s := GrowthSpec{Unit: "mm", Wall: 76, WallLabel: "wall 76 mm", MaxHour: 4}
	for i := range 6 {
		s.Burns = append(s.Burns, GrowthBurn{
			Label: fmt.Sprintf("burn %d", i+1), Current: i == 2,
			Points: []GrowthPoint{{Hour: 4, Width: 60 + float64(i)}},
		})
	}
	g := NewGrowth(s, Wide)
	for i := 1; i < 6; i++ {
		if lower, upper := g.Burns[i-1].Name.box.y, g.Burns[i].Name.box.y; upper >= lower {
			t.Errorf("burn %d is wider than burn %d, yet its name is not higher", i+1, i)
		}
	}
	if g.Burns[0].Leader == "" {
		t.Error("a name that had to move away has no leader")
	}
}

func TestWallsNameMakesRoomForReadings(t *testing.T) {
	t.Parallel()
	s := GrowthSpec{Unit: "mm", Wall: 76, WallLabel: "wall 76 mm", MaxHour: 4}
	if got := NewGrowth(s, Wide).WallName.Anchor; got != "start" {
		t.Errorf("with nothing in the way the name stands at the %s", got)
	}
	s.Burns = []GrowthBurn{{Label: "burn 1", Points: []GrowthPoint{{Hour: 0.2, Width: 80}, {Hour: 0.3, Width: 72}, {Hour: 0.4, Full: true}}}}
	if got := NewGrowth(s, Wide).WallName.Anchor; got == "start" {
		t.Error("the name covers early readings")
	}
}
