package page_test

import (
	"net/url"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
)

func adviceOf(t *testing.T, rows []page.GuidanceRow, what string) page.GuidanceRow {
	t.Helper()
	for _, r := range rows {
		if r.What == what {
			return r
		}
	}
	t.Fatalf("no row is called %q", what)
	return page.GuidanceRow{}
}

// 1 °C of difference is 1.8 °F, without the 32 of the scale (NIST SP 811).
func TestPourPageHoldsTemperaturesAgainstTheGuidance(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name          string
		at            *quantity.Celsius
		guide         journal.Range[quantity.Celsius]
		v             page.View
		advised, want string
	}{
		{"inside", of[quantity.Celsius](63.5), between[quantity.Celsius](55, 65), metricView(), "55–65 °C", "inside"},
		{"at its ends", of[quantity.Celsius](65), between[quantity.Celsius](55, 65), metricView(), "55–65 °C", "inside"},
		{"above", of[quantity.Celsius](68), between[quantity.Celsius](55, 65), metricView(), "55–65 °C", "3 °C above"},
		{"below", of[quantity.Celsius](50.5), between[quantity.Celsius](55, 65), metricView(), "55–65 °C", "4.5 °C below"},
		{"so little that no digit shows it", of[quantity.Celsius](65.01), between[quantity.Celsius](55, 65), metricView(), "55–65 °C", "just above"},
		{"from one end only", of[quantity.Celsius](50), journal.Range[quantity.Celsius]{Low: of(quantity.Celsius(55))}, metricView(), "from 55 °C", "5 °C below"},
		{"above in Fahrenheit", of[quantity.Celsius](70), between[quantity.Celsius](60, 65), imperialView(), "140–149 °F", "9 °F above"},
		{"no guidance", of[quantity.Celsius](63.5), journal.Range[quantity.Celsius]{}, metricView(), "not stated by the supplier", ""},
		{"nothing recorded", nil, between[quantity.Celsius](55, 65), metricView(), "55–65 °C", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			sh, p := aShelf(), aPour()
			sh.Waxes[0].PourAt, p.PouredAt = c.guide, c.at
			got := adviceOf(t, page.NewPourPage(p, nil, page.NewKnown(sh), nil, "", c.v).Guidance.Rows, "Pour at")
			apart := strings.HasSuffix(c.want, "above") || strings.HasSuffix(c.want, "below")
			if got.Advised != c.advised || got.Stands != c.want || got.Apart != apart {
				t.Errorf("got %+v, want %q and %q", got, c.advised, c.want)
			}
			if c.at == nil && got.Done != "not recorded" {
				t.Errorf("what was not recorded reads %q", got.Done)
			}
		})
	}
}

// 12 % of the total is 12/88 = 13.6364 % of the wax, 3.6 points above 10 %. A
// maximum of 8 % of the total lies below 10 % of the wax, which is 10/110 =
// 9.0909 % of the total (arithmetic).
func TestPourPageSaysWhichMaximumBinds(t *testing.T) {
	t.Parallel()
	p := aPour()
	p.LoadBasis, p.Load = journal.OfTotal, of(quantity.Fraction(0.12))
	g := page.NewPourPage(p, nil, page.NewKnown(aShelf()), nil, "", metricView()).Guidance
	if got := adviceOf(t, g.Rows, "Fragrance load"); got.Advised != "6–10 % of wax" || got.Done != "13.6 % of wax" || got.Stands != "3.6 points above" {
		t.Errorf("the load: %+v", got)
	}
	want := page.GuidanceRow{What: "Most fragrance", Advised: "up to 8 % of total", Done: "12 % of total", Stands: "4 points above",
		More: "the fragrance’s binds; the wax’s is 9.1 % of total", Apart: true}
	if d := cmp.Diff(want, adviceOf(t, g.Rows, "Most fragrance")); d != "" {
		t.Error(d)
	}
	if want := "Two things lie outside what the suppliers advise. A single pour, without a heat gun."; g.Lede != want || len(g.Warnings) != 2 {
		t.Errorf("lede %q", g.Lede)
	}
}

// The oil is warned of from 16.7 °C (30 °F) below its flash point (29 CFR
// 1910.106, read in a secondary source): from 77.3 °C for one of 94 °C.
func TestPourPageHoldsTheOilAgainstItsFlashPoint(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		oil   quantity.Celsius
		want  string
		apart bool
	}{
		{72, "22 °C below it", false}, {77.3, "16.7 °C below it", false}, {77.4, "16.6 °C below it: near", true}, {94, "at the flash point or above", true},
	} {
		p := aPour()
		p.OilAt = &c.oil
		got := adviceOf(t, page.NewPourPage(p, nil, page.NewKnown(aShelf()), nil, "", metricView()).Guidance.Rows, "Flash point of the fragrance")
		if got.Stands != c.want || got.Apart != c.apart || !strings.Contains(got.More, "from 77.3 °C on, 16.7 °C below it") {
			t.Errorf("%v: %+v", c.oil, got)
		}
	}
}

func TestUnscentedPourIsNotAskedForItsOil(t *testing.T) {
	t.Parallel()
	p := aPour()
	p.Fragrance, p.Load, p.OilAt, p.SecondPour, p.HeatGun = nil, nil, nil, true, true
	g := page.NewPourPage(p, nil, page.NewKnown(aShelf()), nil, "", metricView()).Guidance
	if len(g.Rows) != 2 || g.Lede != "Everything that can be compared lies inside what the suppliers advise. Topped up with a second pour, finished with a heat gun." {
		t.Errorf("%d rows; %q", len(g.Rows), g.Lede)
	}
}

func TestNothingToCompareIsSaidInWords(t *testing.T) {
	t.Parallel()
	sh, p := aShelf(), aPour()
	sh.Waxes[0] = journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Bare", LoadBasis: journal.OfWax}
	p.Fragrance = nil
	if g := page.NewPourPage(p, nil, page.NewKnown(sh), nil, "", metricView()).Guidance; !strings.HasPrefix(g.Lede, "Nothing to compare yet") {
		t.Errorf("lede %q", g.Lede)
	}
}

// A pour that is typed is read as it would be saved: 160 °F is 71.1 °C.
func TestPreviewReadsWhatIsTyped(t *testing.T) {
	t.Parallel()
	k := page.NewKnown(aShelf())
	preview := func(pairs ...string) *page.GuidancePart {
		q := url.Values{}
		for i := 0; i < len(pairs); i += 2 {
			q.Set(pairs[i], pairs[i+1])
		}
		return page.Preview(page.Input{Values: q, Units: quantity.Metric}, k, metricView())
	}
	if got := preview("poured_at", "60"); got != nil {
		t.Error("it compares before a wax is chosen")
	}
	g := preview("wax", "1", "fragrance", "2", "load", "11", "poured_at", "160F", "heated_to", "much")
	for what, want := range map[string]string{"Pour at": "6.1 °C above", "Fragrance load": "1 point above", "Heat to": "", "Cure": ""} {
		if got := adviceOf(t, g.Rows, what); got.Stands != want {
			t.Errorf("%s stands %q, want %q", what, got.Stands, want)
		}
	}
	if got := adviceOf(t, g.Rows, "Heat to"); got.Done != "not yet" {
		t.Errorf("what cannot be read counts as %q", got.Done)
	}
}
