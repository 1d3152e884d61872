package page_test

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
)

func unlit(w journal.Wax, pour int, ago time.Duration) journal.Made {
	return journal.Made{Wax: w, Pour: journal.Pour{Meta: journal.Meta{ID: journal.ID(pour)}, Number: pour, At: noon.Add(-ago)},
		Candle: journal.Candle{Meta: journal.Meta{ID: journal.ID(pour)}, PourNumber: pour, Letter: "A"}}
}

func TestCuringPageSaysWhereEachPourStands(t *testing.T) {
	t.Parallel()
	const day = 24 * time.Hour
	cured := journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Meadow", Family: "blend", CureDays: between[quantity.Days](7, 14)}
	long := journal.Wax{Meta: journal.Meta{ID: 2}, Name: "Harbour", Family: "coconut", CureDays: journal.Range[quantity.Days]{Low: of(quantity.Days(14))}}
	p := page.NewCuringPage(guide.Waits([]journal.Made{
		unlit(cured, 1, 20*day), unlit(cured, 2, 9*day), unlit(cured, 3, 2*day), unlit(cured, 4, 20*time.Hour), unlit(long, 5, 13*day),
	}, noon), true, metricView())
	var got []string
	for _, w := range p.Waxes {
		got = append(got, w.Name+": "+w.Cure+w.Hint)
		for _, r := range w.Rows {
			got = append(got, strings.Join([]string{r.Pour, r.When, r.WhenMore, r.Stage, r.Light}, "|"))
		}
	}
	want := []string{
		"Meadow: Its supplier states a cure of 7–14 days.",
		"Pour 1|Fri 1 May||ready|/light?pour=1",
		"Pour 2|Tue 12 May|longest until Tue 19 May|ready; the longest cure is not over|/light?pour=2",
		"Pour 3|Tue 19 May|longest until Tue 26 May|curing, day 3 of 7|",
		"Pour 4|Wed 20 May|longest until Wed 27 May|setting until today, 16:00|",
		"Harbour: Its supplier states a cure of 14 days or more.",
		"Pour 5|tomorrow||curing, day 14 of 14|",
	}
	if a, b := strings.Join(got, "\n"), strings.Join(want, "\n"); a != b {
		t.Errorf("got\n%s\nwant\n%s", a, b)
	}
	if p.Cut == "" || p.Empty != nil {
		t.Errorf("cut %q, empty %v", p.Cut, p.Empty)
	}
}

// Where no cure is stated nothing is counted from a family's usual one, which
// is common practice without a source; a blend has none.
func TestCuringPageAssumesNoCure(t *testing.T) {
	t.Parallel()
	for family, hint := range map[journal.WaxFamily]string{
		"soy":     "Soy usually cures for 7–14 days (common practice, no source); no date here is counted from that.",
		"coconut": "Coconut usually cures for 14 days (common practice, no source); no date here is counted from that.",
		"blend":   "",
	} {
		w := journal.Wax{Meta: journal.Meta{ID: 3}, Name: "Bare", Family: family}
		got := page.NewCuringPage(guide.Waits([]journal.Made{unlit(w, 1, 30*time.Hour)}, noon), false, metricView()).Waxes[0]
		if got.Hint != hint || !strings.HasPrefix(got.Cure, "Its supplier states no cure.") || got.Rows[0].Stage != "set; no cure stated" || got.HintHref != "/shelf/waxes/3/edit#f-cure_days_low" {
			t.Errorf("%s: %+v", family, got)
		}
	}
	if p := page.NewCuringPage(nil, false, metricView()); p.Empty == nil || p.Cut != "" {
		t.Error("an empty page does not say what to do")
	}
}
