package guide_test

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

func waiting(wax journal.Wax, pour int, letter string, ago time.Duration, now time.Time) journal.Made {
	return journal.Made{Wax: wax, Pour: journal.Pour{Meta: journal.Meta{ID: journal.ID(pour)}, Number: pour, At: now.Add(-ago)},
		Candle: journal.Candle{PourNumber: pour, Letter: letter}}
}

func TestWaitsAreGroupedAndSoonestFirst(t *testing.T) {
	t.Parallel()
	now := noon
	week := journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Week", Family: "blend", CureDays: between[quantity.Days](7, 14)}
	bare := journal.Wax{Meta: journal.Meta{ID: 2}, Name: "Bare", Family: "soy"}
	got := guide.Waits([]journal.Made{
		waiting(week, 9, "AA", 2*day, now), waiting(week, 9, "B", 2*day, now), waiting(week, 9, "A", 2*day, now),
		waiting(week, 8, "A", 7*day, now), waiting(week, 10, "A", 7*day-time.Second, now), waiting(week, 11, "A", 23*time.Hour, now),
		waiting(bare, 12, "A", 30*time.Hour, now), waiting(bare, 13, "A", 12*time.Hour, now),
	}, now)
	var lines []string
	for _, w := range got {
		for _, x := range w.Waits {
			line := w.Wax.Name + " " + string(x.Stage)
			for _, c := range x.Candles {
				line += " " + c.Code()
			}
			lines = append(lines, line)
		}
	}
	want := "Bare ready 12-A\nBare setting 13-A\nWeek ready 8-A\nWeek curing 10-A\nWeek curing 9-A 9-B 9-AA\nWeek setting 11-A"
	// Pour 12 of Bare was set six hours ago, pour 8 of Week is ready just now.
	if text := strings.Join(lines, "\n"); text != want {
		t.Errorf("got\n%s\nwant\n%s", text, want)
	}
	if b := got[0]; b.Stated || *b.Usual.Low != 7 || *b.Usual.High != 14 || b.Waits[0].LongestAt != nil {
		t.Errorf("without a cure: %+v", b)
	}
	w := got[1].Waits[2] // pour 9, two days of seven
	if !got[1].Stated || !got[1].Usual.IsZero() || !w.ReadyAt.Equal(now.Add(5*day)) || !w.LongestAt.Equal(now.Add(12*day)) || !w.SetAt.Equal(now.Add(-day)) || !near(w.Cured, 2.0/7, 1e-9) {
		t.Errorf("two days of seven: %+v", w)
	}
	if got[1].Waits[0].Cured != 1 {
		t.Errorf("a ready one has gone %v of its way", got[1].Waits[0].Cured)
	}
	if none := guide.Waits(nil, now); len(none) != 0 {
		t.Errorf("from nothing: %v", none)
	}
}
