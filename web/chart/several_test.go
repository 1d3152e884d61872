package chart

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// lifeRates is the burn rate of each of the burns of the invented candle whose
// life the mass chart shows.
func lifeRates() CourseSpec {
	return CourseSpec{Name: "Burn rate", Unit: "g/h", FromZero: true,
		Burns:  []CourseBurn{{0, 4, "1"}, {4, 8, "2"}, {8, 12, "3"}, {12, 16, "4"}},
		Series: []CourseSeries{{Steps: []CourseStep{{0, 4, 6, 6, 6}, {4, 8, 6.5, 6.5, 6.5}, {8, 12, 4.2, 4.2, 4.2}, {12, 16, 7.5, 7.5, 7.5}}}},
		Limits: []CourseLimit{{Value: 6.1, Low: 5.2, High: 7, Label: "6.1 g/h, 95 %"}}}
}

// evenings is a grid of n invented burns.
func evenings(n int) ManySpec {
	s := ManySpec{ID: "many", Title: "Each burn by itself", Desc: "Invented burns.", Unit: "mm", Wall: 76, WallLabel: "wall 76 mm", Target: 3, TargetLabel: "target 3 h", MaxHour: 4}
	for i := range n {
		w := 44 + 3*float64(i%5)
		s.Cells = append(s.Cells, ManyCell{Title: fmt.Sprint("burn ", i+1), Note: "full 2–3 h", Fitted: curveOf(70+2*float64(i), 0.9),
			Burns: [][]GrowthPoint{{{Hour: 1, Width: w}, {Hour: 2, Width: 1.3 * w, LeftOut: i == 2}, {Hour: 3, Full: i > 1, Width: 70}}}})
	}
	return s
}

// windows is when the pools of invented burns became full.
func windows() SpanSpec {
	return SpanSpec{ID: "full", Title: "When each pool was full", Desc: "Five burns.", Target: 3, TargetLabel: "target 3 h", HalfLabel: "half of it", MaxHour: 4, Caption: "Five burns.",
		Rows: []SpanRow{
			{Label: "burn 1", From: 2, To: 3, Note: "2 h – 3 h"},
			{Label: "burn 2", From: 4, To: math.Inf(1), Note: "not yet by 4 h"},
			{Label: "burn 3", From: 0, To: 1, Note: "by 1 h"},
			{Label: "Larkspur 7, one wick", Short: "7", From: 1.4, Mid: 2.1, To: 3.2, Note: "1 h 24 – 3 h 12"},
			{Label: "Larkspur 8", From: 2.2, Mid: 3.3, To: math.Inf(1), Note: "may never"},
		}}
}

// ladder is an invented ladder: three wicks burned, three guessed.
func ladder() RungSpec {
	return RungSpec{ID: "ladder", Title: "Width at 3 h along the ladder", Desc: "Six wicks.", Unit: "mm", Wall: 76, WallLabel: "wall 76 mm", BandLabel: "on target", Caption: "The average lies within the line, 8 chances in 10.",
		Rungs: []Rung{
			{Label: "4", Low: 50, Mid: 58, High: 66, Guess: true, Soon: 92},
			{Label: "5", Shown: "63", Low: 60, Mid: 63, High: 66, Soon: 92},
			{Label: "6", Shown: "71", Low: 67, Mid: 71, High: 75, Soon: 93},
			{Label: "7", Low: 70, Mid: 77, High: 84, Guess: true, Soon: 93},
			{Label: "8", Shown: "84", Low: 79, Mid: 84, High: 90, Soon: 94, Below: true},
			{Label: "9", Shown: "at least 88", Low: 88, AtLeast: true, Soon: 94},
		}}
}

// troubles is the faults of an invented candle over n burns.
func troubles(n int) SignSpec {
	s := SignSpec{ID: "faults", Title: "Faults over its life", Desc: "Nine burns.", Words: [4]string{"not looked at", "none seen", "a little", "seen"}, Caption: "Four faults."}
	for i := range n {
		s.Columns = append(s.Columns, fmt.Sprint(i+1))
	}
	for r, name := range []string{"soot", "mushrooming", "hang-up", "flame over 51 mm"} {
		row := SignRow{Name: name, Limit: "from a thread of smoke"}
		for i := range n {
			row.Signs = append(row.Signs, Sign((i*(r+1)+r)%4))
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

func TestMassAndRateShareTheirHours(t *testing.T) {
	t.Parallel()
	c := NewMassAndRate(life(), lifeRates())
	if len(c.Wide.More) != 1 {
		t.Fatalf("%d further panels, want 1", len(c.Wide.More))
	}
	// The weighing at 16 h ends the fourth burn.
	fit := numbers(t, c.Wide.shapes("", "chart-curve")[0])
	step := c.Wide.shapes("chart-s0", "chart-step")[0]
	if n := numbers(t, step); math.Abs(n[len(n)-1]-fit[2]) > 0.02 {
		t.Errorf("the last burn ends at %g, the last weighing is at %g", n[len(n)-1], fit[2])
	}
	// 412 g losing 6.1 g/h meets 230 g after 29.836 h, long after the last burn.
	ahead := c.Wide.shapes("", "chart-curve chart-ahead")
	if len(ahead) != 1 {
		t.Fatal("the line is not carried on to the floor")
	}
	sixteen, end := fit[2], numbers(t, ahead[0])[2]
	zero := c.Wide.x.From
	if got := (end - zero) / (sixteen - zero) * 16; math.Abs(got-29.836) > 0.02 {
		t.Errorf("floor met after %.3f h, want 29.836", got)
	}
	if len(c.Table.Rows) > 0 {
		t.Error("a table out of nothing")
	}
	if !strings.Contains(c.Caption, "Crossed: 1 reading left out") {
		t.Errorf("caption %q", c.Caption)
	}
}

func TestManyShareTheirAxes(t *testing.T) {
	t.Parallel()
	d := NewMany(evenings(6)).Wide
	walls := d.shapes("", "chart-wall")
	if len(walls) != 6 {
		t.Fatalf("%d walls for six burns", len(walls))
	}
	first, fifth := numbers(t, walls[0]), numbers(t, walls[4])
	if first[0] != fifth[0] || fifth[1]-first[1] != cellHigh+cellTitle {
		t.Errorf("the fifth burn does not stand under the first: %v, %v", first, fifth)
	}
	named := 0
	for _, f := range append([]Frame{d.Frame}, d.More...) {
		if f.Y[len(f.Y)-1].Label.Words != "" {
			named++
		}
	}
	if named != 2 {
		t.Errorf("widths are numbered %d times in two rows", named)
	}
}

func TestManyLeaveOutWhatAFigureCannotHold(t *testing.T) {
	t.Parallel()
	c := NewMany(evenings(30))
	if n := len(c.Wide.shapes("", "chart-wall")); n != manyMost || !strings.Contains(c.Caption, "The first 24 are drawn; the table has 6 more.") {
		t.Errorf("%d cells; caption %q", n, c.Caption)
	}
}

func TestSpansStandWhereTheHoursAre(t *testing.T) {
	t.Parallel()
	d := NewSpans(windows()).Wide
	bar := numbers(t, d.shapes("chart-spans", "chart-span")[0])
	if a, b := d.x.Unmap(bar[0]), d.x.Unmap(bar[2]); math.Abs(a-2) > 0.01 || math.Abs(b-3) > 0.01 {
		t.Errorf("the first bar runs from %.3f to %.3f h, want 2 to 3", a, b)
	}
	if n := len(d.shapes("chart-spans", "chart-open")); n != 2 {
		t.Errorf("%d open arrows, want 2", n)
	}
	if n := len(d.shapes("", "chart-target")); n != 2 {
		t.Errorf("%d hours are marked, want the target and half of it", n)
	}
	if d.labelledAs("not yet by 4 h") == "" || NewSpans(windows()).Narrow.labelledAs("not yet by 4 h") != "" {
		t.Error("notes stand on the wide drawing and only there")
	}
	if got := NewSpans(SpanSpec{Rows: []SpanRow{{From: 3, To: 2}, {From: math.NaN(), To: 1}}}).Caption; got != "Not drawn: 2 rows without a usable span." {
		t.Errorf("caption %q", got)
	}
}

func TestSpansLeaveOutWhatAFigureCannotHold(t *testing.T) {
	t.Parallel()
	s := SpanSpec{Rows: make([]SpanRow, 47)}
	c := NewSpans(s)
	if n := len(c.Wide.shapes("chart-spans", "chart-span")); n != 40 || c.Caption != "The first 40 are drawn; the table has 7 more." {
		t.Errorf("%d rows; caption %q", n, c.Caption)
	}
}

// labelledAs is the class of a label, "" where there is none.
func (d Drawing) labelledAs(words string) string {
	for _, l := range d.Labels {
		if l.Words == words {
			return l.Class
		}
	}
	return ""
}

func TestLadderTellsGuessesFromWhatWasBurned(t *testing.T) {
	t.Parallel()
	c := NewRungs(ladder())
	d := c.Wide
	if n := len(d.shapes("chart-guess", "chart-marker")); n != 2 {
		t.Errorf("%d guesses, want 2", n)
	}
	if n := len(d.shapes("chart-rung", "chart-out")); n != 1 {
		t.Errorf("%d crossed, want the one below the line", n)
	}
	whisker := numbers(t, d.shapes("chart-rung", "chart-whisker")[1])
	if lo, hi := d.y.Unmap(whisker[2]), d.y.Unmap(whisker[1]); math.Abs(lo-60) > 0.05 || math.Abs(hi-66) > 0.05 {
		t.Errorf("the second wick's line runs from %.2f to %.2f, want 60 to 66", lo, hi)
	}
	band := numbers(t, d.shapes("", "chart-within")[0])
	if soon := d.y.Unmap(band[1]); math.Abs(soon-92) > 0.05 {
		t.Errorf("the band ends at %.2f, want 92", soon)
	}
	for i, r := range ladder().Rungs {
		if _, ok := d.labelled(r.Label); !ok {
			t.Errorf("wick %d has no label", i)
		}
	}
	if got := NewRungs(RungSpec{Rungs: []Rung{{Low: math.NaN()}, {Low: 5, Mid: 4, High: 6}}}).Caption; got != "Not drawn: 2 wicks without a usable width." {
		t.Errorf("caption %q", got)
	}
}

func TestSignsDifferInShape(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for _, s := range []Sign{NotLooked, Clean, Slight, Shown} {
		key := ""
		for _, x := range signShapes(s, 50, 50) {
			key += x.Class + x.Path
		}
		seen[key] = true
	}
	if len(seen) != 4 {
		t.Errorf("%d shapes for four signs", len(seen))
	}
}

func TestSignsKeepTheLastBurnsWhereRoomIsShort(t *testing.T) {
	t.Parallel()
	c := NewSigns(troubles(40))
	if !strings.Contains(c.Caption, "burns are not drawn; the table has them all.") {
		t.Errorf("caption %q", c.Caption)
	}
	if c.Narrow.labelledAs("40") == "" {
		t.Error("the last burn is not on the narrow drawing")
	}
}

func TestSeveralKeepTheirWordsApart(t *testing.T) {
	t.Parallel()
	for _, c := range []Chart{
		NewMassAndRate(life(), lifeRates()), NewMassAndRate(MassSpec{}, CourseSpec{}), NewMany(ManySpec{}), NewMany(evenings(1)), NewMany(evenings(30)),
		NewSpans(SpanSpec{}), NewSpans(windows()), NewRungs(RungSpec{}), NewRungs(ladder()), NewRungs(RungSpec{Rungs: ladder().Rungs[:1]}),
		NewSigns(SignSpec{}), NewSigns(troubles(1)), NewSigns(troubles(9)), NewSigns(troubles(60)),
	} {
		orderly(t, c)
	}
}

func TestLadderKeepsItsWordsApart(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(rt *rapid.T) {
		s := RungSpec{Unit: "mm", Wall: rapid.Float64Range(0, 150).Draw(rt, "wall"), WallLabel: "wall 76 mm", BandLabel: "on target"}
		for range rapid.IntRange(0, 30).Draw(rt, "rungs") {
			lo := rapid.Float64Range(0, 200).Draw(rt, "low")
			s.Rungs = append(s.Rungs, Rung{Label: rapid.StringMatching(`[A-Z0-9 ]{1,14}`).Draw(rt, "label"), Shown: "63.5", Low: lo, Mid: lo * 1.1, High: lo * 1.3,
				AtLeast: rapid.Bool().Draw(rt, "least"), Guess: rapid.Bool().Draw(rt, "guess"), Soon: rapid.Float64Range(0, 300).Draw(rt, "soon")})
		}
		orderly(rt, NewRungs(s))
	})
}

func TestSpansKeepTheirWordsApart(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(rt *rapid.T) {
		s := SpanSpec{Target: rapid.Float64Range(0, 5).Draw(rt, "target"), TargetLabel: "target 3 h 00", HalfLabel: "half of it", MaxHour: 4}
		for range rapid.IntRange(0, 20).Draw(rt, "rows") {
			from := rapid.Float64Range(0, 8).Draw(rt, "from")
			s.Rows = append(s.Rows, SpanRow{Label: rapid.StringMatching(`[A-Za-z0-9 ]{1,40}`).Draw(rt, "label"), From: from, To: from + rapid.Float64Range(0, 4).Draw(rt, "span"), Note: rapid.StringMatching(`[a-z ]{0,40}`).Draw(rt, "note")})
		}
		orderly(rt, NewSpans(s))
	})
}
