package chart

import (
	"context"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/a-h/templ"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden drawings anew")

// judge is a test or a property's trial.
type judge interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
}

// render is the markup of a component.
func render(tb judge, c templ.Component) string {
	tb.Helper()
	var b strings.Builder
	if err := c.Render(context.Background(), &b); err != nil {
		tb.Fatalf("render: %v", err)
	}
	return b.String()
}

// notNumbers finds what Go prints for numbers that no drawing may hold, and
// exponents, which px must never write.
var notNumbers = regexp.MustCompile(`NaN|Inf|[0-9]e[+-]?[0-9]`)

// sound checks that markup is well-formed XML (W3C XML 1.0, by the standard
// library's reader), that it holds no impossible number and nothing that a
// strict content policy forbids.
func sound(tb judge, markup string) {
	tb.Helper()
	d := xml.NewDecoder(strings.NewReader(markup))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			tb.Fatalf("not well-formed: %v\n%s", err, markup)
		}
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		if el.Name.Local == "style" || el.Name.Local == "script" {
			tb.Errorf("element <%s> in a drawing", el.Name.Local)
		}
		for _, a := range el.Attr {
			if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") {
				tb.Errorf("attribute %s in a drawing", a.Name.Local)
			}
			if a.Name.Local != "aria-labelledby" && a.Name.Local != "id" && notNumbers.MatchString(a.Value) {
				tb.Errorf("%s=%q is not a drawable number", a.Name.Local, a.Value)
			}
		}
	}
}

// wellFormed checks that markup is XML.
func wellFormed(tb judge, markup string) {
	tb.Helper()
	d := xml.NewDecoder(strings.NewReader(markup))
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			tb.Fatalf("not well-formed: %v\n%s", err, markup)
		}
	}
}

// golden compares a drawing with the one kept under testdata.
func golden(t *testing.T, name string, c templ.Component) {
	t.Helper()
	got := render(t, c) + "\n"
	sound(t, got)
	file := filepath.Join("testdata", name+".svg")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s differs from the kept drawing (-want +got):\n%s", name, diff)
	}
}

func TestDrawingsStayAsTheyWere(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]templ.Component{
		"disc-round":       DiscMark(NewDisc(DiscSpec{Shape: "round", Length: 76.2, Width: 76.2, PoolA: 61, PoolB: 58, Wicks: 1, Mark: 0.8, Title: "Pool 61 by 58 mm of 76 mm"})),
		"disc-oval":        DiscMark(NewDisc(DiscSpec{Shape: "oval", Length: 110, Width: 70, PoolA: 90, PoolB: 52, Wicks: 2, Low: 0.7, High: 0.9, Decorative: true})),
		"disc-rectangular": DiscMark(NewDisc(DiscSpec{Shape: "rectangular", Length: 120, Width: 80, PoolA: 110, PoolB: 72, Wicks: 4, Mark: 1, Title: "Pool"})),
		"disc-irregular":   DiscMark(NewDisc(DiscSpec{Shape: "irregular", Length: 90, Width: 82, Full: true, Wicks: 3, Title: "Full pool"})),
		"disc-unlit":       DiscMark(NewDisc(DiscSpec{Shape: "round", Length: 76.2, Width: 76.2, Wicks: 6, Unlit: true, Title: "Not lit yet"})),
		"track":            TrackLine(NewTrack(TrackSpec{Hours: 2.2, Stop: 4, Target: 3, Checks: []float64{1, 2}, Lit: 1747243800, Title: "2 h 12 of 4 h lit"})),
		"growth-wide":      GrowthDrawing(NewGrowth(season(), Wide)),
		"growth-narrow":    GrowthDrawing(NewGrowth(season(), Narrow)),
		"mass-wide":        MassDrawing(NewMass(life(), Wide)),
		"mass-narrow":      MassDrawing(NewMass(life(), Narrow)),
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			golden(t, name, c)
		})
	}
}

func TestChartsStayAsTheyWere(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]Chart{
		"overlay":        NewOverlay(rivals(3, 76)),
		"overlay-shares": NewOverlay(rivals(4, 76, 100)),
		"overlay-six":    NewOverlay(rivals(6, 76)),
		"course":         NewCourse(flames()),
		"course-words":   NewCourse(soots()),
		"course-rates":   NewCourse(rates()),
		"course-several": NewCourse(siblings(6)),
		"courses":        NewCourses(flames(), flames(), soots(), rates()),
		"mass-and-rate":  NewMassAndRate(life(), lifeRates()),
		"many":           NewMany(evenings(6)),
		"spans":          NewSpans(windows()),
		"rungs":          NewRungs(ladder()),
		"signs":          NewSigns(troubles(9)),
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			golden(t, name+"-wide", Draw(c.Wide))
			golden(t, name+"-narrow", Draw(c.Narrow))
		})
	}
}

// season is a growth chart with everything on it; its readings are invented.
func season() GrowthSpec {
	return GrowthSpec{
		ID: "g14", Title: "Pool width against time", Desc: "Three burns of candle 14-B.",
		Unit: "mm", Wall: 76.2, WallLabel: "wall 76 mm", Target: 3, TargetLabel: "target 3 h", MaxHour: 4,
		Bands: []GrowthBand{{Label: "fit", Points: []BandPoint{{0.5, 24, 28, 32}, {1, 44, 48, 52}, {2, 63, 67, 71}, {3, 71, 76, 81}, {4, 74, 80, 87}}}},
		Burns: []GrowthBurn{
			{Label: "burn 1", Points: []GrowthPoint{{Hour: 1, Width: 48}, {Hour: 2, Width: 64, LeftOut: true}, {Hour: 3, Full: true}}},
			{Label: "burn 2", Points: []GrowthPoint{{Hour: 2, Width: 67}, {Hour: 1, Width: 49}, {Hour: 3, Full: true}, {Hour: 4, Full: true}}},
			{Label: "burn 3", Short: "3", Current: true, Points: []GrowthPoint{{Hour: 1, Width: 52}, {Hour: 2, Width: 71}, {Hour: 3, Full: true}}},
		},
		Caption: "Curve: fit to three burns, with its 80 % range.",
		Table:   Table{Head: []string{"Burn", "Lit for", "Width"}, Rows: [][]string{{"1", "1 h", "48 mm"}}},
	}
}

// life is a mass chart with everything on it; its weighings are invented.
func life() MassSpec {
	return MassSpec{
		ID: "m14", Title: "Mass against hours lit", Desc: "Five weighings of candle 14-B.", Unit: "g",
		Points: []MassPoint{{0, 412, false}, {4, 388, false}, {8, 362, false}, {12, 345, true}, {16, 315, false}},
		Line:   &MassLine{Slope: -6.1, Intercept: 412}, RateLabel: "6.1 g/h",
		Floor: 230, FloorLabel: "13 mm of wax left",
	}
}
