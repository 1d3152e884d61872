package page_test

import (
	"net/url"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
)

// ringOf are eight marks on a circle: four on the axes, four at 3-4-5.
func ringOf(cx, cy, fifth float64) journal.MarkLine {
	var l journal.MarkLine
	for _, d := range [][2]float64{{5, 0}, {3, 4}, {0, 5}, {-4, 3}, {-5, 0}, {-3, -4}, {0, -5}, {4, -3}} {
		l = append(l, journal.PhotoMark{X: cx + fifth*d[0], Y: cy + fifth*d[1]})
	}
	return l
}

// measuring is a photo of a check in a round vessel of 80 mm, seen straight from
// above at ten pixels a millimetre: a wall of radius 400, a pool of 300 that
// lies 50 px to the right.
func measuring() page.Measuring {
	return page.Measuring{Photo: aPhoto(3, journal.NounCheck, 100), Of: page.PhotoSubject{Of: journal.NounCheck, ID: 100, Name: "candle 14-B, at 1 h 00", Candle: 7},
		Vessel: journal.Vessel{Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 80}, View: metricView(),
		Input: form.MarksInput{Marks: journal.PhotoMarks{Wall: ringOf(800, 600, 80), Pool: ringOf(850, 600, 60)}},
		Send:  page.Input{Token: "t", Version: "1"}}
}

// Exact marks give the plane geometry: 60 mm both ways, 40 - 30 - 5 = 5 mm and
// 15 mm of wax left, 30²/40² = 56 % of the surface.
func TestMeasurementsAreShownWithTheirIntervals(t *testing.T) {
	t.Parallel()
	p := page.NewMeasurePage(measuring())
	var got []string
	for _, f := range p.Results.Facts {
		got = append(got, f.Label+" "+f.Text+" "+f.Unit+", "+f.More)
	}
	want := []string{"Longest way across 60.0 mm, 60.0 to 60.0", "At right angles to it 60.0 mm, 60.0 to 60.0", "Wax left, narrowest 5.0 mm, 5.0 to 5.0",
		"Wax left, widest 15.0 mm, 15.0 to 15.0", "Off the vessel's centre 5.0 mm, 5.0 to 5.0", "Narrowest over longest 100 %, 100 to 100", "Of the surface melted 56 %, 56 to 56"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if p.Keep == nil || !p.Keep.ForCheck || p.Results.Wait != "" || len(p.Picture.Rings) != 2 || len(p.Picture.Marks) != 16 || p.Next != "" {
		t.Errorf("%+v", p)
	}
	if r := p.Picture.Rings[0]; r.CX != "800" || r.CY != "600" || r.RX != "400" || r.RY != "400" || r.Class != "gauge-wall" {
		t.Errorf("the wall is drawn as %+v", r)
	}
}

func TestMeasuringSaysWhatIsMissing(t *testing.T) {
	t.Parallel()
	full := measuring()
	for name, c := range map[string]struct {
		change func(*page.Measuring)
		wait   string
		next   bool
	}{
		"nothing":          {func(m *page.Measuring) { m.Input.Marks = journal.PhotoMarks{} }, "Not enough yet: the wall needs six marks", false},
		"the wall alone":   {func(m *page.Measuring) { m.Input.Marks.Pool = nil }, "Not enough yet: the pool's edge needs six marks", true},
		"five of the pool": {func(m *page.Measuring) { m.Input.Marks.Pool = full.Input.Marks.Pool[:5] }, "Not enough yet: the pool's edge", true},
		"a line": {func(m *page.Measuring) {
			m.Input.Marks.Wall = journal.MarkLine{{X: 1, Y: 1}, {X: 2, Y: 2}, {X: 3, Y: 3}, {X: 4, Y: 4}, {X: 5, Y: 5}, {X: 6, Y: 6}}
		}, "The marks on the wall lie on a straight line.", false},
	} {
		m := measuring()
		c.change(&m)
		p := page.NewMeasurePage(m)
		if !strings.HasPrefix(p.Results.Wait, c.wait) || len(p.Results.Facts) != 0 || (p.Next != "") != c.next || m.Offer() != nil {
			t.Errorf("%s: %q, next %q", name, p.Results.Wait, p.Next)
		}
		if p.Keep != nil && p.Keep.ForCheck {
			t.Errorf("%s: figures are offered", name)
		}
	}
}

func TestWhatIsOfferedForTheCheck(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		change func(*page.Measuring)
		want   url.Values
	}{
		"a ring is left": {func(*page.Measuring) {}, url.Values{"width_a": {"60"}, "width_b": {"60"}}},
		"in inches":      {func(m *page.Measuring) { m.View.Units = quantity.Imperial }, url.Values{"width_a": {"2 3/8"}, "width_b": {"2 3/8"}}},
		"full":           {func(m *page.Measuring) { m.Input.Marks.Pool = m.Input.Marks.Wall }, url.Values{"full": {"1"}}},
		"wider than the vessel": {func(m *page.Measuring) { m.Input.Marks.Pool = ringOf(850, 600, 88) },
			url.Values{"width_a": {"80"}, "width_b": {"80"}}},
		"a box": {func(m *page.Measuring) { m.Vessel.Shape = journal.Rectangular }, nil},
	} {
		m := measuring()
		c.change(&m)
		if diff := cmp.Diff(c.want, m.Offer()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
	was := url.Values{"width_a": {"41"}, "full": {"1"}, "depth": {"7"}}
	if !page.WithOffer(was, url.Values{"width_a": {"60"}, "width_b": {"59"}, "note": {"x"}}) {
		t.Error("an offer is not seen")
	}
	if diff := cmp.Diff(url.Values{"width_a": {"60"}, "width_b": {"59"}, "depth": {"7"}}, was); diff != "" {
		t.Errorf("filled in (-want +got):\n%s", diff)
	}
	if page.WithOffer(was, url.Values{"note": {"x"}}) {
		t.Error("an address without an offer is taken for one")
	}
}

func TestWhatCannotBeMeasuredIsSaid(t *testing.T) {
	t.Parallel()
	m := measuring()
	m.Vessel.Shape = journal.Irregular
	if p := page.NewMeasurePage(m); !strings.Contains(p.Refused, "Pebble tumbler is irregular") || p.Keep != nil {
		t.Errorf("%+v", p)
	}
	m = measuring()
	m.Vessel.Shape = journal.Oval
	length := quantity.Millimetres(120)
	m.Vessel.InnerLength = &length
	if p := page.NewMeasurePage(m); !strings.Contains(p.Say, "Begin at one end of the vessel's length") || p.Results.Facts[0].Label != "Pool along the length" || p.Results.Facts[0].Text != "90.0" {
		t.Errorf("oval: %q, %+v", p.Say, p.Results.Facts)
	}
	m = measuring()
	m.Of.Of = journal.NounCandle
	if p := page.NewMeasurePage(m); p.Keep == nil || p.Keep.ForCheck {
		t.Error("a photo of no check is offered for one")
	}
	m.Photo.Gone = of(noon)
	if p := page.NewMeasurePage(m); p.Keep != nil {
		t.Error("marks can be kept with a withdrawn photo")
	}
}

// What was typed comes back with its problem beside it; a bad click has its
// problem above the picture.
func TestProblemsOfMarksStandWhereTheyArose(t *testing.T) {
	t.Parallel()
	m := measuring()
	m.Input.X, m.Input.Problem = "9999", "No."
	if p := page.NewMeasurePage(m); p.Form.X != "9999" || p.Form.Problem != "No." || p.Problem != "" {
		t.Errorf("typed: %+v, %q", p.Form, p.Problem)
	}
	m.Input.X = ""
	if p := page.NewMeasurePage(m); p.Form.Problem != "" || p.Problem != "No." {
		t.Errorf("pointed: %+v, %q", p.Form, p.Problem)
	}
}

// Every address of the page holds the marking as it is after its step.
func TestMeasuringTravelsInTheAddress(t *testing.T) {
	t.Parallel()
	m := measuring()
	m.Input.Pool, m.Input.Shown = true, 1600
	p := page.NewMeasurePage(m)
	after := func(href string) form.MarksInput {
		u, err := url.Parse(href)
		if err != nil || u.Path != "/photos/3/measure" {
			t.Fatalf("%q: %v", href, err)
		}
		in, ok := form.ReadMarks(u.Query(), m.Photo)
		if !ok {
			t.Fatalf("%q is not read", href)
		}
		return in
	}
	want := m.Input
	if diff := cmp.Diff(want, after(page.MeasureHref(3, m.Input))); diff != "" {
		t.Errorf("as it is (-want +got):\n%s", diff)
	}
	want.Marks.Pool = m.Input.Marks.Pool[:7]
	if diff := cmp.Diff(want, after(p.Undo)); diff != "" {
		t.Errorf("one taken back (-want +got):\n%s", diff)
	}
	want.Marks.Pool = nil
	if diff := cmp.Diff(want, after(p.Clear)); diff != "" {
		t.Errorf("cleared (-want +got):\n%s", diff)
	}
	want = m.Input
	want.Pool, want.Shown = false, 1600
	if diff := cmp.Diff(want, after(p.Lines[0].Href)); diff != "" {
		t.Errorf("the wall (-want +got):\n%s", diff)
	}
	if len(m.Input.Marks.Pool) != 8 || !p.Zooms[1].Now || p.Picture.Width != "1600" || p.Picture.Fits {
		t.Errorf("%+v", p.Picture)
	}
}
