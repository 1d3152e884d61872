package chart

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// flames is an invented candle's flame over three burns.
func flames() CourseSpec {
	return CourseSpec{
		ID: "flame", Title: "Flame height over hours lit", Desc: "Three burns.", Name: "Flame height", Unit: "mm", FromZero: true,
		Burns: []CourseBurn{{0, 4, "1"}, {4, 7, "2"}, {7, 11, "3"}},
		Series: []CourseSeries{{Points: []CoursePoint{
			{1, 28, 1, false}, {2, 33, 1, false}, {3, 35, 1, false}, {5, 30, 2, false}, {6, 48, 2, true}, {8, 31, 3, false}, {9, 38, 3, false}, {10, 40, 3, false}}}},
		Limits:  []CourseLimit{{Value: 50, Label: "limit 50 mm"}, {Value: 10, Label: "weak below 10 mm"}},
		Caption: "Eight readings.",
		Table:   Table{Head: []string{"Lit, h", "Flame, mm"}, Rows: [][]string{{"1", "28"}}},
	}
}

// soots is a scale of words over the same burns.
func soots() CourseSpec {
	s := flames()
	s.ID, s.Title, s.Name, s.Unit, s.Words, s.Limits = "soot", "Soot over hours lit", "Soot", "", []string{"none", "wisp", "thread", "marks"}, []CourseLimit{{Value: 2, Label: "heavy from here"}}
	s.Series = []CourseSeries{{Points: []CoursePoint{{1, 0, 1, false}, {2, 1, 1, false}, {5, 0, 2, false}, {8, 2, 3, false}, {10, 3, 3, false}}}}
	return s
}

// rates is a value for each burn with an interval.
func rates() CourseSpec {
	s := flames()
	s.ID, s.Title, s.Name, s.Unit, s.Limits = "rate", "Burn rate of each burn", "Burn rate", "g/h", []CourseLimit{{Value: 6.1, Low: 5.8, High: 6.4, Label: "6.1 g/h over its life"}}
	s.Series = []CourseSeries{{Steps: []CourseStep{{0, 4, 5.2, 5.6, 6}, {4, 7, 6, 6, 6}, {7, 11, 5.9, 6.6, 7.3}}}}
	return s
}

// siblings are n candles' masses.
func siblings(n int) CourseSpec {
	s := CourseSpec{ID: "masses", Title: "Mass over hours lit", Desc: "Invented candles.", Unit: "g"}
	for i := range n {
		x := CourseSeries{Label: fmt.Sprintf("14-%c", 'A'+i)}
		for h := 0.0; h <= 16; h += 4 {
			x.Points = append(x.Points, CoursePoint{h, 180 - h*(5+0.4*float64(i)), 0, false})
		}
		s.Series = append(s.Series, x)
	}
	return s
}

func TestCourseAgreesWithTheGrid(t *testing.T) {
	t.Parallel()
	d := NewCourse(flames()).Wide
	y20, y40 := level(t, d.Y, "20"), level(t, d.Y, "40 mm")
	x2, x4 := numbers(t, d.X[1].Line)[0], numbers(t, d.X[2].Line)[0]
	line := numbers(t, d.shapes("chart-s0", "chart-line")[0])
	for i, want := range [][2]float64{{1, 28}, {2, 33}, {3, 35}, {5, 30}, {8, 31}, {9, 38}, {10, 40}} {
		x, y := x2+(want[0]-2)/2*(x4-x2), y20+(want[1]-20)/20*(y40-y20)
		if math.Abs(line[2*i]-x) > 0.02 || math.Abs(line[2*i+1]-y) > 0.02 {
			t.Errorf("reading %v at (%g, %g), the grid puts it at (%.2f, %.2f)", want, line[2*i], line[2*i+1], x, y)
		}
	}
}

func TestCourseDoesNotJoinBurns(t *testing.T) {
	t.Parallel()
	d := NewCourse(flames()).Wide
	if n := strings.Count(d.shapes("chart-s0", "chart-line")[0], "M"); n != 3 {
		t.Errorf("the line has %d parts, want one for each of three burns", n)
	}
	if n := strings.Count(d.shapes("", "chart-rest")[0], "M"); n != 2 {
		t.Errorf("%d hairlines between three burns, want 2", n)
	}
	if n := strings.Count(NewCourse(siblings(1)).Wide.shapes("chart-s0", "chart-line")[0], "M"); n != 1 {
		t.Errorf("readings of no burn are drawn in %d parts, want 1", n)
	}
}

func TestCourseTicksAreTheWordsOfTheScale(t *testing.T) {
	t.Parallel()
	d := NewCourse(soots()).Narrow
	var got []string
	for _, y := range d.Y {
		got = append(got, y.Label.Words)
	}
	if strings.Join(got, " ") != "none wisp thread marks" {
		t.Errorf("ticks %q", got)
	}
	line := numbers(t, d.shapes("chart-s0", "chart-line")[0])
	if y := level(t, d.Y, "marks"); line[len(line)-1] != y {
		t.Errorf("the last reading at %g, marks are at %g", line[len(line)-1], y)
	}
}

func TestCourseDrawsIntervalsOfWholeBurns(t *testing.T) {
	t.Parallel()
	d := NewCourse(rates()).Wide
	if n := strings.Count(d.shapes("chart-s0", "chart-step")[0], "H"); n != 3 {
		t.Errorf("%d values, want 3", n)
	}
	if n := strings.Count(d.shapes("chart-s0", "chart-whisker")[0], "V"); n != 2 {
		t.Errorf("%d whiskers, want 2: one burn has no interval", n)
	}
	if len(d.shapes("", "chart-within")) != 1 {
		t.Error("the range of the limit is not drawn")
	}
}

func TestCourseLeavesOutLimitsFarAbove(t *testing.T) {
	t.Parallel()
	s := flames()
	s.Limits[0] = CourseLimit{Value: 76, Label: "limit 76 mm"} // the highest reading is 48
	if n := len(NewCourse(s).Wide.shapes("", "chart-limit")); n != 2 {
		t.Errorf("%d limits drawn, want 2", n)
	}
	s.Limits[0].Value = 97
	c := NewCourse(s)
	if n := len(c.Wide.shapes("", "chart-limit")); n != 1 || !strings.Contains(c.Caption, "Far above these values: limit 76 mm.") {
		t.Errorf("%d limits drawn; caption %q", n, c.Caption)
	}
}

func TestStackedCoursesShareTheirHours(t *testing.T) {
	t.Parallel()
	c := NewCourses(flames(), flames(), soots(), rates())
	d := c.Wide
	if len(d.More) != 2 {
		t.Fatalf("%d further panels, want 2", len(d.More))
	}
	for i, x := range d.X {
		for _, f := range d.More {
			if a, b := numbers(t, x.Line)[0], numbers(t, f.X[i].Line)[0]; a != b {
				t.Errorf("tick %d at %g and %g", i, a, b)
			}
			if f.X[i].Label.Words != "" {
				t.Errorf("an upper panel numbers its hours: %q", f.X[i].Label.Words)
			}
		}
	}
	for _, name := range []string{"Flame height", "Soot", "Burn rate"} {
		if _, ok := d.labelled(name); !ok {
			t.Errorf("no panel is called %q", name)
		}
	}
	if c.Caption != "Eight readings. Crossed: 1 reading left out of the reckoning." {
		t.Errorf("caption %q", c.Caption)
	}
}

func TestCourseCountsWhatItDoesNotDraw(t *testing.T) {
	t.Parallel()
	s := rates()
	s.Series[0].Points = []CoursePoint{{math.NaN(), 1, 1, false}, {1, math.Inf(-1), 1, false}}
	s.Series[0].Steps = append(s.Series[0].Steps, CourseStep{From: 3, To: 1, Mid: 4}, CourseStep{11, 12, math.NaN(), 6, math.NaN()})
	c := NewCourse(s)
	if want := "Eight readings. Not drawn: 3 points without a usable number."; c.Caption != want {
		t.Errorf("caption %q, want %q", c.Caption, want)
	}
	if n := strings.Count(c.Wide.shapes("chart-s0", "chart-whisker")[0], "V"); n != 2 {
		t.Errorf("an interval that is no number has a whisker: %d", n)
	}
}

func TestCoursesKeepTheirWordsApart(t *testing.T) {
	t.Parallel()
	one := flames()
	one.Series[0].Points = one.Series[0].Points[:1]
	for _, c := range []Chart{NewCourse(CourseSpec{}), NewCourse(flames()), NewCourse(one), NewCourse(soots()), NewCourse(rates()),
		NewCourse(siblings(6)), NewCourses(flames(), flames(), soots(), rates()), NewCourse(CourseSpec{Limits: []CourseLimit{{Value: 3, Label: "limit"}}})} {
		orderly(t, c)
	}
	rapid.Check(t, func(rt *rapid.T) {
		s := CourseSpec{Unit: "mm", Name: "Flame", FromZero: rapid.Bool().Draw(rt, "zero")}
		for i := range rapid.IntRange(0, 30).Draw(rt, "burns") {
			s.Burns = append(s.Burns, CourseBurn{float64(i), float64(i) + rapid.Float64Range(0, 4).Draw(rt, "lasted"), fmt.Sprint("burn ", i)})
		}
		for range rapid.IntRange(0, 7).Draw(rt, "series") {
			x := CourseSeries{Label: rapid.StringMatching(`[a-z0-9 -]{0,24}`).Draw(rt, "label")}
			for range rapid.IntRange(0, 8).Draw(rt, "points") {
				x.Points = append(x.Points, CoursePoint{rapid.Float64Range(0, 60).Draw(rt, "hour"), rapid.Float64Range(-1e4, 1e4).Draw(rt, "value"), rapid.IntRange(0, 3).Draw(rt, "burn"), rapid.Bool().Draw(rt, "out")})
			}
			s.Series = append(s.Series, x)
		}
		for range rapid.IntRange(0, 4).Draw(rt, "limits") {
			s.Limits = append(s.Limits, CourseLimit{Value: rapid.Float64Range(-100, 1e4).Draw(rt, "limit"), Label: "limit 50 mm, app default"})
		}
		orderly(rt, NewCourse(s))
		orderly(rt, NewCourses(s, s, soots()))
	})
}

// Limits alone, one of them next to nothing: the axis holds them all.
func TestLimitsAloneAreAllOnTheAxis(t *testing.T) {
	t.Parallel()
	a := CourseSpec{Limits: []CourseLimit{{Value: -2.75}, {Value: 3.6e-304}}}.axis(5)
	if a.lo > -2.75 || a.hi < 0 || a.hi-a.lo < 1e-6 {
		t.Errorf("the axis runs from %g to %g", a.lo, a.hi)
	}
	if a := (CourseSpec{Limits: []CourseLimit{{Value: 1e-300}}}).axis(5); a.hi-a.lo < 1e-6 {
		t.Errorf("a limit next to nothing: from %g to %g", a.lo, a.hi)
	}
}
