package chart

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// labels are all words on a mass chart.
func (m Mass) labels() []Text {
	out := []Text{m.Rate, m.FloorName}
	for _, t := range append(append([]Tick(nil), m.X...), m.Y...) {
		out = append(out, t.Label)
	}
	return out
}

func TestLineRunsThroughWeighingsThatLieOnIt(t *testing.T) {
	t.Parallel()
	// 400 g losing 5 g/h: 400 at 0 h, 380 at 4 h, 350 at 10 h, by hand.
	m := NewMass(MassSpec{
		Unit: "g", Line: &MassLine{Slope: -5, Intercept: 400}, RateLabel: "5 g/h",
		Points: []MassPoint{{0, 400, false}, {4, 380, false}, {10, 350, false}},
	}, Wide)
	line := numbers(t, m.Line)
	y360, y400 := level(t, m.Y, "360"), level(t, m.Y, "400 g")
	for i, mass := range []float64{400, 350} {
		want := y360 + (mass-360)/40*(y400-y360)
		if got := line[2*i+1]; math.Abs(got-want) > 0.02 {
			t.Errorf("line meets %.2f, the grid puts %g g at %.2f", got, mass, want)
		}
	}
	mid := m.y.Map(380)
	on := line[1] + (line[3]-line[1])*(m.x.Map(4)-line[0])/(line[2]-line[0])
	if math.Abs(on-mid) > 0.02 {
		t.Errorf("at 4 h the line is at %.2f, the weighing at %.2f", on, mid)
	}
	if m.Rate.Words != "5 g/h" {
		t.Errorf("rate %q is not on the drawing", m.Rate.Words)
	}
}

func TestLineIsCarriedOnToTheFloor(t *testing.T) {
	t.Parallel()
	// 412 g losing 6.1 g/h meets 230 g after 182 / 6.1 = 29.836 h.
	m := NewMass(life(), Wide)
	ahead := numbers(t, m.Ahead)
	if got := m.x.Unmap(ahead[2]); math.Abs(got-29.836) > 0.01 {
		t.Errorf("floor met after %.3f h, want 29.836", got)
	}
	if floor := numbers(t, m.Floor)[1]; math.Abs(ahead[3]-floor) > 0.02 {
		t.Errorf("the line ends at %g, the floor is at %g", ahead[3], floor)
	}
}

func TestLineIsNotCarriedFarBeyondTheWeighings(t *testing.T) {
	t.Parallel()
	s := life()
	s.Line = &MassLine{Slope: -1, Intercept: 412}
	if m := NewMass(s, Wide); m.Ahead != "" {
		t.Errorf("carried on to 182 h after 16 h of weighings: %q", m.Ahead)
	}
}

func TestThinEvidenceHasNoLine(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]MassSpec{
		"nothing weighed":    {Unit: "g"},
		"weighed once":       {Unit: "g", Points: []MassPoint{{0, 400, false}}, Line: &MassLine{-5, 400}},
		"no line given":      {Unit: "g", Points: []MassPoint{{0, 400, false}, {4, 380, false}}},
		"line is not finite": {Unit: "g", Points: []MassPoint{{0, 400, false}, {4, 380, false}}, Line: &MassLine{math.NaN(), 400}},
	} {
		m := NewMass(s, Narrow)
		if m.Line != "" || m.Rate.Words != "" {
			t.Errorf("%s: line %q, rate %q", name, m.Line, m.Rate.Words)
		}
		sound(t, render(t, MassDrawing(m)))
	}
}

func TestMassCaptionCountsWhatDoesNotCount(t *testing.T) {
	t.Parallel()
	s := life()
	s.Caption = "Weighed cold."
	s.Points = append(s.Points, MassPoint{math.NaN(), 300, false}, MassPoint{20, -1, false})
	want := "Weighed cold. Not drawn: 2 points without a usable number. Crossed: 1 reading left out of the reckoning."
	if got := NewMass(s, Wide).Caption; got != want {
		t.Errorf("caption %q, want %q", got, want)
	}
}

func TestMassFigureHasBothDrawings(t *testing.T) {
	t.Parallel()
	s := life()
	s.Table = Table{Head: []string{"Hours"}, Rows: [][]string{{"4 h"}}}
	markup := render(t, MassChart(NewMass(s, Wide), NewMass(s, Narrow)))
	sound(t, markup)
	if strings.Count(markup, "<svg") != 2 || strings.Count(markup, "<table>") != 1 {
		t.Errorf("want two drawings and one table: %s", markup)
	}
}

func TestMassLabelsNeverCollide(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(rt *rapid.T) {
		start := rapid.Float64Range(1, 5000).Draw(rt, "start")
		s := MassSpec{
			Unit: "g", RateLabel: "6.1 g/h", Floor: rapid.Float64Range(0, start).Draw(rt, "floor"), FloorLabel: "13 mm of wax left",
			Line: &MassLine{rapid.Float64Range(-20, 20).Draw(rt, "slope"), start},
		}
		for range rapid.IntRange(0, 12).Draw(rt, "points") {
			s.Points = append(s.Points, MassPoint{rapid.Float64Range(0, 60).Draw(rt, "hour"), rapid.Float64Range(0, start).Draw(rt, "mass"), rapid.Bool().Draw(rt, "out")})
		}
		for _, width := range []int{Wide, Narrow} {
			m := NewMass(s, width)
			apart(rt, m.labels(), m.crowd.sheet)
			sound(rt, render(rt, MassDrawing(m)))
		}
	})
}
