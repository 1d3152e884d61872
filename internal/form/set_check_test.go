package form

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

func TestReadSetCheck(t *testing.T) {
	t.Parallel()
	all := metric("top", "dip", "dip", "2.5", "sink_hole", "slight", "cracks", "none", "frosting", "heavy", "sweating", "none", "stuck", "85", "cold_throw", "3", "note", " n ")
	diff(t, "everything", journal.SetCheck{
		Top: journal.TopDip, Dip: of(quantity.Millimetres(2.5)), SinkHole: journal.AmountSlight, Cracks: journal.AmountNone, Frosting: journal.AmountHeavy, Sweating: journal.AmountNone,
		Stuck: of(quantity.Fraction(0.85)), ColdThrow: of(3), Note: "n",
	}, ReadSetCheck(all, true))
	diff(t, "no problem", Problems(nil), all.Problems())
	diff(t, "a depth says that the top is a dip", journal.SetCheck{Top: journal.TopDip, Dip: of(quantity.Millimetres(25.4))}, ReadSetCheck(metric("dip", "1 in"), true))
	diff(t, "a depth beside another top is left for the rules", journal.TopSmooth, ReadSetCheck(metric("dip", "2", "top", "smooth"), true).Top)
	diff(t, "nothing", journal.SetCheck{}, ReadSetCheck(metric(), true))
	refuseAll(t, func(p *Parser) { ReadSetCheck(p, true) }, []refused{
		{"a word that is none", []string{"frosting", "lots"}, Problems{{"frosting", chooseSentence}}},
		{"a top that is none", []string{"top", "domed"}, Problems{{"top", chooseSentence}}},
	})
}

func TestTheTickFillsInWhatWasLeftOpen(t *testing.T) {
	t.Parallel()
	fine := journal.SetCheck{Top: journal.TopSmooth, SinkHole: journal.AmountNone, Cracks: journal.AmountNone, Frosting: journal.AmountNone, Sweating: journal.AmountNone}
	diff(t, "in a tin", fine, ReadSetCheck(metric("fine", "1"), false))
	fine.Stuck = of(quantity.Fraction(1))
	diff(t, "in a glass", fine, ReadSetCheck(metric("fine", "1"), true))
	fine.Top, fine.Dip, fine.Frosting = journal.TopDip, of(quantity.Millimetres(2)), journal.AmountSlight
	diff(t, "but for what was typed", fine, ReadSetCheck(metric("fine", "1", "dip", "2", "frosting", "slight"), true))
}

func TestWhenCandlesWereLookedAt(t *testing.T) {
	t.Parallel()
	now := time.Date(2026, 7, 1, 9, 0, 0, 0, time.UTC) // 10:00 in Lisbon
	for name, c := range map[string]struct {
		date, clock string
		want        string
		problem     string
	}{
		"empty means now":             {"", "", "2026-07-01T09:00:00Z", ""},
		"a time earlier today":        {"", "08:15", "2026-07-01T07:15:00Z", ""},
		"a time that is yesterday's":  {"", "18:00", "2026-06-30T17:00:00Z", ""},
		"a day with its time":         {"2026-06-12", "18:00", "2026-06-12T17:00:00Z", ""},
		"a day without its time":      {"2026-06-12", "", "2026-07-01T09:00:00Z", "at_time"},
		"a time that cannot be read":  {"", "late", "2026-07-01T09:00:00Z", "at_time"},
		"a date that is in no spring": {"2026-02-30", "18:00", "2026-07-01T09:00:00Z", "at_date"},
	} {
		p := NewParser(posted("at_date", c.date, "at_time", c.clock), quantity.Metric, zoned(t, lisbon))
		got := p.LookedAt("at_date", "at_time", now)
		if !got.Equal(*at(t, c.want)) {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
		if ps := p.Problems(); (len(ps) > 0) != (c.problem != "") || (len(ps) > 0 && ps[0].Field != c.problem) {
			t.Errorf("%s: problems %v", name, ps)
		}
	}
}
