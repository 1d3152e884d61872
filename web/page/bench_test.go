package page_test

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/page"
)

// benchOf lays out the bench of candles that are lit.
func benchOf(v page.View, lit ...journal.CandleLog) page.BenchPage {
	lim := safety.NewLimits(nil)
	return page.NewBenchPage(plan.Bench(v.Now, lit, nil, nil), page.FirstSteps{Burn: true}, lim, v)
}

// stillLit is a candle lit some hours before noon, with its checks.
func stillLit(ago float64, checks ...journal.Check) journal.CandleLog {
	l := aCandle(aBurn(4, ago, checks...))
	l.Burns[0].Burn.OutAt, l.Burns[0].Burn.Ending = nil, ""
	return l
}

func TestTileSaysWhatWasSeenAndWhatIsNext(t *testing.T) {
	v := metricView()
	wallWas := wide(60, 58)
	for name, c := range map[string]struct {
		log        journal.CandleLog
		pool, due  string
		late, past bool
	}{
		"not looked at yet":  {stillLit(0.5), "no pool measured yet", "in 30 min", false, false},
		"minutes begun":      {stillLit(0.5 + 20.0/3600), "no pool measured yet", "in 30 min", false, false},
		"two widths":         {stillLit(2.2, wallWas, wide(61, 58)), "61 × 58", "in 48 min", false, false},
		"a check is late":    {stillLit(2.1, wallWas), "60 × 58", "6 min late", true, false},
		"full at the second": {stillLit(2.2, wallWas, journal.Check{Full: true}), "full between 1 h 00 and 2 h 00", "in 48 min", false, false},
		"full at the first":  {stillLit(1.2, journal.Check{Full: true}), "full by 1 h 00", "in 18 min", false, false},
	} {
		tile := benchOf(v, c.log).Tiles[0]
		if tile.Pool != c.pool || tile.DueWords != c.due || tile.Late != c.late || tile.StopPast != c.past {
			t.Errorf("%s: %q, %q, late %v, past %v", name, tile.Pool, tile.DueWords, tile.Late, tile.StopPast)
		}
	}
}

// 60 of 76.2 mm is 78.7 % of the width (60 / 76.2, by hand).
func TestTileGivesTheShareOfTheWidth(t *testing.T) {
	l := stillLit(1.1, wide(60, 60))
	l.Vessel = journal.Vessel{Shape: journal.Round, InnerWidth: 76.2, Material: "glass"}
	if got := benchOf(metricView(), l).Tiles[0].Share; got != "at 1 h 00 · 78.7 % of width" {
		t.Errorf("the tile says %q", got)
	}
}

func TestTileAfterFourHours(t *testing.T) {
	tile := benchOf(metricView(), stillLit(4.1, wide(60, 58))).Tiles[0]
	if !tile.StopPast || !strings.Contains(tile.StopText, "Put it out now") || tile.Due != "" {
		t.Errorf("the tile is %+v", tile)
	}
}

func TestTileWarnsOfTheLatestCheckOnly(t *testing.T) {
	tall := journal.Check{Flame: of(quantity.Millimetres(80))}
	if ws := benchOf(metricView(), stillLit(2.2, tall, wide(60, 58))).Tiles[0].Warnings; len(ws) != 0 {
		t.Errorf("an answered danger still warns: %+v", ws)
	}
	ws := benchOf(metricView(), stillLit(1.1, tall)).Tiles[0].Warnings
	if len(ws) == 0 || !ws[0].Hard || !strings.Contains(ws[0].Text, "80 mm") {
		t.Errorf("a flame over the limit warns %+v", ws)
	}
}

func TestBenchLede(t *testing.T) {
	v := metricView()
	if got := benchOf(v).Lede; got != "Nothing is lit." {
		t.Errorf("an empty bench says %q", got)
	}
	if got := benchOf(v, stillLit(0.5)).Lede; got != "One candle lit, the first since 11:30. Next check at 12:30." {
		t.Errorf("the bench says %q", got)
	}
	if got := benchOf(v, stillLit(0.5), stillLit(1.2)).Lede; got != "Two candles lit, the first since 10:48. A check is due." {
		t.Errorf("the bench says %q", got)
	}
}

func TestFirstStepsEndWithTheFirstBurn(t *testing.T) {
	lim := safety.NewLimits(nil)
	p := page.NewBenchPage(plan.Board{}, page.FirstSteps{Wax: true}, lim, metricView())
	if len(p.Empty) != 7 || !p.Empty[0].Done || p.Empty[1].Ways[0].Href != "/shelf/vessels/new" || p.Empty[1].Done {
		t.Errorf("the steps are %+v", p.Empty)
	}
	if w := p.Empty[3].Ways; len(w) != 2 || w[0].Href != "/rounds/new" || w[1].Href != "/pours/sheets/new" || p.Empty[4].Ways[0].Href != "/pours/new" {
		t.Errorf("after the shelf come %+v", p.Empty[3:])
	}
	if p := page.NewBenchPage(plan.Board{}, page.FirstSteps{Pour: true}, lim, metricView()); len(p.Empty) != 6 || p.Empty[3].Ways[0].Href != "/pours/new" {
		t.Errorf("a plan is asked for after the pour: %+v", p.Empty)
	}
	if p := page.NewBenchPage(plan.Board{}, page.FirstSteps{Plan: true, Pour: true}, lim, metricView()); len(p.Empty) != 7 || !p.Empty[3].Done {
		t.Errorf("a plan that was made is not done: %+v", p.Empty)
	}
	if p := page.NewBenchPage(plan.Board{}, page.FirstSteps{Burn: true}, lim, metricView()); len(p.Empty) != 0 {
		t.Errorf("the steps outlast the first burn: %+v", p.Empty)
	}
}

func walkPage(in page.Input, done map[journal.ID]time.Time, lit ...journal.CandleLog) page.WalkPage {
	in.Units = quantity.Metric
	return page.NewWalkPage(in, lit, done, func() string { return "fresh" }, "Danger?", metricView())
}

func TestWalkShowsTheReadingBefore(t *testing.T) {
	seen := wide(61, 58)
	seen.Depth, seen.Mushroom, seen.VesselTemp = of(quantity.Millimetres(8)), "bead", of(quantity.Celsius(41.5))
	r := walkPage(page.Input{}, nil, stillLit(2.1, wide(48, 46), seen)).Rows[0]
	got := strings.Join([]string{r.A.Previous, r.B.Previous, r.Depth.Previous, r.Flame.Previous, r.Mushroom.Previous, r.Soot.Previous, r.Temp.Previous}, "|")
	if got != "61|58|8||bead||41.5" {
		t.Errorf("before: %s", got)
	}
	if r.A.Name != "b24.width_a" || r.A.AriaLabel != "Width of 14-B" || !r.A.Autofocus || r.Token.Value != "fresh" {
		t.Errorf("the first field is %+v, the token %+v", r.A, r.Token)
	}
}

func TestWalkKeepsARowThatIsWrong(t *testing.T) {
	in := page.Input{Values: query(t, "b24.width_a=lots&b24.token=old&b24.odd=drowning"), Retried: true}
	in.Problems = append(in.Problems, problem("b24.width_a", "Write a length."))
	p := walkPage(in, nil, stillLit(2.1))
	if r := p.Rows[0]; r.A.Value != "lots" || r.A.Problem != "Write a length." || r.Token.Value != "old" || r.Odd.Value != "drowning" {
		t.Errorf("the row is %+v", r)
	}
	if len(p.Form.Wrong) != 1 || p.Form.Wrong[0].Text != "Width of 14-B: Write a length." || p.Form.Wrong[0].Target != "f-b24.width_a" {
		t.Errorf("the list is %+v", p.Form.Wrong)
	}
}

func TestWalkSaysWhichRowsAreSaved(t *testing.T) {
	p := walkPage(page.Input{Retried: true}, map[journal.ID]time.Time{24: noon}, stillLit(2.1))
	if p.Rows[0].Done != "saved for 12:00" {
		t.Errorf("the row says %q", p.Rows[0].Done)
	}
}

func TestDangerGathersItsSteps(t *testing.T) {
	fs := []safety.Finding{{Text: "A.", Do: []string{"lid", "wait"}, Now: true}, {Text: "B.", Do: []string{"wait", "call"}, Now: true}}
	d := page.NewDanger(fs, "14-B", "")
	if d.Heading != "14-B: A." || strings.Join(d.Steps, " ") != "lid wait call" {
		t.Errorf("the danger is %+v", d)
	}
	if page.NewDanger(nil, "14-B", "") != nil {
		t.Error("a danger without a finding")
	}
}

func TestDangerOffersTheWayOn(t *testing.T) {
	l := stillLit(2.1, journal.Check{Odd: []journal.Odd{journal.FlameOnPool}})
	b := l.Burns[0]
	fs := safety.OfCheck(b.Checks[0], l.Made, safety.NewLimits(nil), quantity.Metric)
	p := page.NewDangerPage(fs, b.Checks[0], b.Burn, l, metricView())
	if p.Danger == nil || !strings.Contains(p.Acts[0].Href, "/burns/24/snuff?ending=put+out+for+safety") {
		t.Errorf("the answer is %+v", p)
	}
	b.Burn.OutAt = of(noon)
	if p := page.NewDangerPage(fs, b.Checks[0], b.Burn, l, metricView()); strings.Contains(p.Acts[0].Href, "snuff") {
		t.Error("a burn that is over is to be put out")
	}
	if p := page.NewDangerPage(nil, b.Checks[0], b.Burn, l, metricView()); p.Danger != nil || p.Calm == "" {
		t.Errorf("a calm check is %+v", p)
	}
}

func TestLightListsWhatIsReadyFirst(t *testing.T) {
	line := func(letter string, id journal.ID, life journal.Life) journal.CandleLine {
		return journal.CandleLine{Candle: journal.Candle{Meta: journal.Meta{ID: id}, PourNumber: 3, Letter: letter, Wicks: 1}, Life: life}
	}
	waiting := []journal.CandleLine{
		line("A", 1, journal.Life{PouredAt: noon.Add(-hours(2))}),
		line("B", 2, journal.Life{PouredAt: noon.Add(-hours(50)), CureDays: 14}),
		line("C", 3, journal.Life{PouredAt: noon.Add(-hours(50))}),
		line("E", 5, journal.Life{PouredAt: noon.Add(-hours(50)), CureDays: 7}),
		line("D", 4, journal.Life{PouredAt: noon.Add(-hours(900)), CureDays: 14, Burns: 2, LastOut: of(noon.Add(-hours(20)))}),
	}
	p := page.NewLightPage(page.Input{Values: query(t, "c2.pick=1"), Units: quantity.Metric}, waiting, nil, metricView())
	var got []string
	for _, r := range p.Rows {
		got = append(got, r.Code+" "+r.State)
	}
	want := "3-B curing until Tue 26 May; 3-C ready, not burned yet; 3-D resting since yesterday, 16:00; 3-E curing until Tue 19 May; 3-A setting since today"
	if s := strings.Join(got, "; "); s != want {
		t.Errorf("the list is %s", s)
	}
	p.Caution(map[journal.ID]bool{4: true})
	for _, r := range p.Rows {
		if said := strings.Contains(r.Note, "keep clear as you light it"); said != (r.Code == "3-D") {
			t.Errorf("%s: %q", r.Code, r.Note)
		}
	}
}

func TestDaysAreSaidAsPeopleDo(t *testing.T) {
	lisbon, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	v := page.View{Zone: lisbon, Now: time.Date(2026, 3, 29, 0, 30, 0, 0, time.UTC)} // the clocks go forward at 1:00
	for when, want := range map[time.Time]string{
		time.Date(2026, 3, 29, 22, 0, 0, 0, time.UTC): "today", time.Date(2026, 3, 29, 23, 30, 0, 0, time.UTC): "tomorrow",
		time.Date(2026, 3, 28, 1, 0, 0, 0, time.UTC): "yesterday", time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC): "Mon 2 Mar",
		time.Date(2025, 3, 2, 12, 0, 0, 0, time.UTC): "2 Mar 2025",
	} {
		if got := v.Day(when); got != want {
			t.Errorf("%v is %q, want %q", when, got, want)
		}
	}
}
