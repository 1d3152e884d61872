package page

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/settle"
)

var settingNow = time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)

func settingView(u quantity.Units) View { return View{Units: u, Zone: time.UTC, Now: settingNow} }

// setCandle is a candle of a pour some hours old, with set checks some hours
// after it.
func setCandle(age float64, at float64, checks ...journal.SetCheck) journal.CandleLog {
	poured := settingNow.Add(-time.Duration(age * float64(time.Hour)))
	l := journal.CandleLog{Made: journal.Made{
		Candle: journal.Candle{Meta: journal.Meta{ID: 3}, Pour: 1, PourNumber: 1, Letter: "C", Wicks: 1}, Pour: journal.Pour{Meta: journal.Meta{ID: 1}, Number: 1, At: poured},
		Wax: journal.Wax{Meta: journal.Meta{ID: 2}, Name: "Meadow blend"}, Vessel: journal.Vessel{Material: "glass", InnerWidth: 76},
	}}
	for i, c := range checks {
		c.ID, c.At = journal.ID(i+1), poured.Add(time.Duration(at*float64(time.Hour)))
		l.SetChecks = append(l.SetChecks, c)
	}
	return l
}

func TestASetCheckInALine(t *testing.T) {
	t.Parallel()
	none := journal.AmountNone
	dip, most, all, throw := quantity.Millimetres(25.4), quantity.Fraction(0.85), quantity.Fraction(1), 3
	for want, c := range map[string]journal.SetCheck{
		"Smooth top.": {Top: journal.TopSmooth},
		"Smooth top, stuck all round; no sweating, no sink hole, no cracks, no frosting.": {Top: journal.TopSmooth, Stuck: &all, Sweating: none, SinkHole: none, Cracks: none, Frosting: none},
		"Heavy sweating, a dip of 1 in, stuck to 85 % of the wall; no frosting.":          {Top: journal.TopDip, Dip: &dip, Stuck: &most, Sweating: journal.AmountHeavy, Frosting: none},
		"Top: dip.": {Top: journal.TopDip},
		"Top: rough; cold throw 3 medium; by the window.": {Top: journal.TopRough, ColdThrow: &throw, Note: "by the window."},
	} {
		if got := setSeen(c, settingView(quantity.Imperial)); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestHowACandleSetIsAskedForInItsState(t *testing.T) {
	t.Parallel()
	fine := journal.SetCheck{Top: journal.TopSmooth}
	burned := func(l journal.CandleLog) journal.CandleLog {
		out := settingNow
		l.Burns = []journal.BurnLog{{Burn: journal.Burn{LitAt: settingNow.Add(-time.Hour), OutAt: &out}}}
		return l
	}
	gone := setCandle(30, 25, fine)
	gone.Candle.Gone = &settingNow
	for name, c := range map[string]struct {
		log          journal.CandleLog
		act, empty   string
		early, lines int
	}{
		"still setting":        {setCandle(20, 0), "Look at its top now", "It is still setting: look at it today, 16:00, a full day after the pour.", 0, 0},
		"set":                  {setCandle(24, 0), "Look at its top", "Nobody wrote down how it set.", 0, 0},
		"looked at too soon":   {setCandle(30, 20, fine), "Look at its top", "", 1, 1},
		"looked at":            {setCandle(30, 25, fine), "Look again", "", 0, 1},
		"burned, not looked":   {burned(setCandle(300, 0)), "Add a set check from paper", "Nobody wrote down how it set.", 0, 0},
		"burned and looked at": {burned(setCandle(300, 25, fine)), "", "", 0, 1},
		"withdrawn":            {gone, "", "", 0, 1},
	} {
		p := newSettingPart(c.log, settingView(quantity.Metric))
		act, early := "", 0
		if p.Act != nil {
			act = p.Act.Text
		}
		for _, l := range p.Lines {
			if l.Early != "" {
				early++
			}
		}
		if act != c.act || p.Empty != c.empty || early != c.early || len(p.Lines) != c.lines {
			t.Errorf("%s: act %q, empty %q, %d early of %d lines", name, act, p.Empty, early, len(p.Lines))
		}
	}
}

func TestSettledRowsSayWhatIsNotKnown(t *testing.T) {
	t.Parallel()
	frost := func(pour journal.ID, a journal.Amount, at float64) journal.CandleLog {
		l := setCandle(60, 25, journal.SetCheck{Frosting: a})
		l.Candle.Pour, l.Pour.PouredAt = pour, new(quantity.Celsius(at))
		return l
	}
	logs := []journal.CandleLog{frost(1, journal.AmountHeavy, 60), frost(1, journal.AmountNone, 60), frost(1, journal.AmountNone, 61), frost(2, journal.AmountNone, 66), setCandle(60, 0)}
	p := NewSettledPage(settle.ByWax(logs, settingNow), 2, settingView(quantity.Imperial))
	w := p.Waxes[0]
	if w.Lede != "Five candles set; four were looked at, of two pours." || w.OnePour != "" || p.All == "" {
		t.Errorf("%+v", w)
	}
	row := w.Rows[len(w.Rows)-1]
	if d := cmp.Diff(SettledRow{Fault: "Frosting", Seen: "1 of 4, 1 heavily", Share: "not enough yet: 1 more would do", Pours: "1 of 2", NotLooked: "1", Usual: row.Usual}, row); d != "" || row.Usual == "" {
		t.Error(d)
	}
	if w.Rows[0].Seen != "not looked at" || w.Rows[0].NotLooked != "5" || w.Rows[0].Share != "" {
		t.Errorf("never looked for: %+v", w.Rows[0])
	}
	steps := w.Tables[1]
	heads := []string{}
	for _, h := range steps.Heads {
		heads = append(heads, h.Text+"|"+h.Behind)
	}
	if d := cmp.Diff([]string{"140 to 149 °F|3 candles, 1 pour", "149 to 158 °F|1 candle, 1 pour", "Temperature not noted|0 candles, 0 pours"}, heads); d != "" {
		t.Error(d)
	}
	if cell := steps.Rows[len(steps.Rows)-1].Cells[0]; cell.Seen != "1 of 3" || !strings.Contains(cell.Share, "one pour only") {
		t.Errorf("%+v", cell)
	}
	if guide := w.Tables[0]; len(guide.Rows) != 0 || len(guide.Heads) != 0 || !strings.Contains(guide.Lede, "All that were looked at fall into one group (") {
		t.Errorf("one band makes a table: %+v", guide)
	}
	more := append(logs, frost(1, journal.AmountNone, 60))
	// Wilson for 1 of 5, worked by hand with z = 1.96: middle 0.58415 / 1.7683 = 0.3303, half 0.2941: 3.6 to 62.4 %.
	if row := NewSettledPage(settle.ByWax(more, settingNow), 0, settingView(quantity.Metric)).Waxes[0].Rows[6]; row.Share != "20 %" || row.Range != "4 to 62 %" {
		t.Errorf("%+v", row)
	}
}

func TestOldPoursAreAskedForTogether(t *testing.T) {
	t.Parallel()
	c := func(pour int, letter string) journal.Candle {
		return journal.Candle{Pour: journal.ID(pour), PourNumber: pour, Letter: letter}
	}
	it := plan.Item{Kind: plan.LookAtTops, Pour: 3, PourNumber: 3, At: settingNow.AddDate(0, 0, -9), Candles: []journal.Candle{c(3, "A"), c(4, "A")}, Pours: []journal.Candle{c(3, "A"), c(4, "A")}}
	i := dueItem(it, settingView(quantity.Metric))
	if i.Text != "Look at the tops of two older pours" || i.Href != "/pours/3/tops" || !strings.Contains(i.More, "3-A and 4-A") || i.When != "since Tue 5 May" {
		t.Errorf("%+v", i)
	}
	it.Pours, it.Candles = nil, it.Candles[:1]
	if i := dueItem(it, settingView(quantity.Metric)); i.Text != "Look at the tops of pour 3" || i.More != "3-A: dips, cracks, frosting, wet spots" {
		t.Errorf("%+v", i)
	}
}
