package plan_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
)

// now is a fixed moment, some days after a season began.
var now = time.Date(2026, 3, 20, 19, 0, 0, 0, time.UTC)

func ago(d time.Duration) time.Time { return now.Add(-d) }

const day = 24 * time.Hour

func candle(pour int, letter string) journal.Candle {
	return journal.Candle{Meta: journal.Meta{ID: journal.ID(100*pour + int(letter[0]))}, Pour: journal.ID(pour), PourNumber: pour, Letter: letter, Wicks: 1}
}

// line is a candle poured some time ago with a cure in days.
func line(pour int, letter string, poured time.Time, cure float64) journal.CandleLine {
	return journal.CandleLine{Candle: candle(pour, letter), Life: journal.Life{PouredAt: poured, CureDays: cure}}
}

// lookedAt is line for a candle that somebody looked at when it was set.
func lookedAt(pour int, letter string, poured time.Time, cure float64) journal.CandleLine {
	l := line(pour, letter, poured, cure)
	l.Life.SetSeen = ptr(poured.Add(day))
	return l
}

// out makes it a candle that went out at some time after its burns.
func out(l journal.CandleLine, burns int, last time.Time) journal.CandleLine {
	l.Life.Burns, l.Life.LastOut = burns, &last
	return l
}

// seenAt is a candle that somebody looked at at a moment.
func seenAt(l journal.CandleLine, at time.Time) journal.CandleLine {
	l.Life.SetSeen = &at
	return l
}

func cold(pour int, letter string, number int, ended time.Time) journal.BurnLine {
	return journal.BurnLine{Candle: candle(pour, letter), Burn: journal.Burn{
		Number: number, LitAt: ended.Add(-3 * time.Hour), OutAt: &ended, Ending: journal.Snuffed, MassBefore: ptr(quantity.Grams(300))}}
}

// row is an item in few words.
type row struct {
	Kind  plan.Kind
	Pour  int
	Codes string
	At    time.Time
}

func rows(items []plan.Item) []row {
	out := []row{}
	for _, it := range items {
		codes := ""
		for _, c := range it.Candles {
			codes += c.Letter
		}
		out = append(out, row{it.Kind, it.PourNumber, codes, it.At})
	}
	return out
}

func TestBenchItems(t *testing.T) {
	t.Parallel()
	spent := out(line(1, "A", ago(60*day), 0), 9, ago(day))
	spent.Life.Spent = true
	gone := line(1, "B", ago(60*day), 0)
	gone.Life.Gone = true
	for _, c := range []struct {
		name    string
		waiting []journal.CandleLine
		cold    []journal.BurnLine
		due     []row
		coming  []row
	}{
		{"nothing", nil, nil, []row{}, []row{}},
		{"spent and withdrawn candles ask for nothing", []journal.CandleLine{spent, gone}, nil, []row{}, []row{}},
		{"cured and never burned, by pour",
			[]journal.CandleLine{lookedAt(4, "B", ago(20*day), 14), lookedAt(4, "A", ago(20*day), 14), lookedAt(3, "A", ago(30*day), 14)}, nil,
			[]row{{plan.LightFirst, 3, "A", ago(16 * day)}, {plan.LightFirst, 4, "AB", ago(6 * day)}}, []row{}},
		{"curing, by date",
			[]journal.CandleLine{lookedAt(6, "A", ago(3*day), 14), lookedAt(5, "A", ago(5*day), 14), lookedAt(5, "B", ago(5*day), 14)}, nil,
			[]row{}, []row{{plan.LightFirst, 5, "AB", now.Add(9 * day)}, {plan.LightFirst, 6, "A", now.Add(11 * day)}}},
		{"the tops a day after the pour",
			[]journal.CandleLine{line(7, "A", ago(day), 2)}, nil,
			[]row{{plan.LookAtTops, 7, "A", now}}, []row{{plan.LightFirst, 7, "A", now.Add(day)}}},
		{"still setting",
			[]journal.CandleLine{line(7, "A", ago(23*time.Hour), 2)}, nil,
			[]row{}, []row{{plan.LookAtTops, 7, "A", now.Add(time.Hour)}, {plan.LightFirst, 7, "A", now.Add(25 * time.Hour)}}},
		{"the tops are asked for until somebody looked at every candle",
			[]journal.CandleLine{line(7, "A", ago(6*day), 1), lookedAt(7, "B", ago(6*day), 1)}, nil,
			[]row{{plan.LookAtTops, 7, "A", ago(5 * day)}, {plan.LightFirst, 7, "AB", ago(5 * day)}}, []row{}},
		{"a look before a full day is none",
			[]journal.CandleLine{seenAt(line(7, "A", ago(2*day), 30), ago(day).Add(-time.Second)), seenAt(line(8, "A", ago(2*day), 30), ago(day))}, nil,
			[]row{{plan.LookAtTops, 7, "A", ago(day)}}, []row{{plan.LightFirst, 7, "A", now.Add(28 * day)}, {plan.LightFirst, 8, "A", now.Add(28 * day)}}},
		{"until it is lit",
			[]journal.CandleLine{out(line(7, "A", ago(3*day), 0), 1, ago(time.Hour))}, nil,
			[]row{{plan.LightAgain, 7, "A", now}}, []row{}},
		{"pours set for over a week are gathered, oldest first",
			[]journal.CandleLine{line(4, "A", ago(8*day).Add(-time.Second), 60), line(3, "B", ago(20*day), 60), line(3, "A", ago(20*day), 60), line(5, "A", ago(8*day), 60)}, nil,
			[]row{{plan.LookAtTops, 3, "ABA", ago(19 * day)}, {plan.LookAtTops, 5, "A", ago(7 * day)}},
			[]row{{plan.LightFirst, 3, "AB", now.Add(40 * day)}, {plan.LightFirst, 4, "A", now.Add(52*day - time.Second)}, {plan.LightFirst, 5, "A", now.Add(52 * day)}}},
		{"rested an hour, and not yet",
			[]journal.CandleLine{out(line(2, "A", ago(60*day), 0), 1, ago(time.Hour)), out(line(2, "B", ago(60*day), 0), 1, ago(59*time.Minute)), out(line(2, "C", ago(60*day), 0), 1, ago(5*time.Hour))}, nil,
			[]row{{plan.LightAgain, 2, "AC", ago(4 * time.Hour)}}, []row{{plan.LightAgain, 2, "B", now.Add(time.Minute)}}},
		{"weigh when solid", nil,
			[]journal.BurnLine{cold(2, "B", 3, ago(3*time.Hour)), cold(2, "A", 3, ago(2*time.Hour)), cold(2, "C", 3, ago(90*time.Minute))},
			[]row{{plan.Weigh, 2, "AB", ago(time.Hour)}}, []row{{plan.Weigh, 2, "C", now.Add(30 * time.Minute)}}},
		{"what was lit again can no longer be weighed after the earlier burn",
			[]journal.CandleLine{out(line(2, "A", ago(60*day), 0), 4, ago(3*time.Hour))}, []journal.BurnLine{cold(2, "A", 3, ago(day))},
			[]row{{plan.LightAgain, 2, "A", ago(2 * time.Hour)}}, []row{}},
		{"of two unweighed burns only the latest", nil,
			[]journal.BurnLine{cold(2, "A", 4, ago(3*time.Hour)), cold(2, "A", 3, ago(day))},
			[]row{{plan.Weigh, 2, "A", ago(time.Hour)}}, []row{}},
		{"kinds in their order",
			[]journal.CandleLine{out(line(1, "A", ago(60*day), 0), 1, ago(5*day)), lookedAt(2, "A", ago(50*day), 14), line(9, "A", ago(30*time.Hour), 14)},
			[]journal.BurnLine{cold(1, "B", 1, ago(3*time.Hour))},
			[]row{{plan.Weigh, 1, "B", ago(time.Hour)}, {plan.LookAtTops, 9, "A", ago(6 * time.Hour)}, {plan.LightFirst, 2, "A", ago(36 * day)}, {plan.LightAgain, 1, "A", ago(5*day - time.Hour)}},
			[]row{{plan.LightFirst, 9, "A", ago(30 * time.Hour).Add(14 * day)}}},
		{"many letters stay in the order of the codes",
			[]journal.CandleLine{lookedAt(3, "Z", ago(30*day), 1), {Candle: journal.Candle{Pour: 3, PourNumber: 3, Letter: "AA"}, Life: journal.Life{PouredAt: ago(30 * day), SetSeen: ptr(ago(29 * day))}}, lookedAt(3, "B", ago(30*day), 1)}, nil,
			[]row{{plan.LightFirst, 3, "BZAA", ago(29 * day)}}, []row{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := plan.Bench(now, nil, c.waiting, c.cold)
			if d := cmp.Diff(c.due, rows(b.Due)); d != "" {
				t.Error("due: " + d)
			}
			if d := cmp.Diff(c.coming, rows(b.Coming)); d != "" {
				t.Error("coming: " + d)
			}
		})
	}
}

func TestItemsCarryWhatTheyAreAbout(t *testing.T) {
	t.Parallel()
	a, b := out(line(2, "A", ago(60*day), 0), 1, ago(90*time.Minute)), out(line(2, "B", ago(60*day), 0), 1, ago(5*time.Hour))
	due := plan.Bench(now, nil, []journal.CandleLine{b, a}, []journal.BurnLine{cold(3, "A", 7, ago(4*time.Hour))}).Due
	if len(due) != 2 {
		t.Fatalf("%d items", len(due))
	}
	weigh, again := due[0], due[1]
	if len(weigh.Burns) != 1 || weigh.Burns[0].Number != 7 || weigh.Lines != nil || !weigh.Advised.IsZero() {
		t.Errorf("weigh: %+v", weigh)
	}
	// Two hours of rest are advised; the last of the two reaches them in half an hour.
	if again.Burns != nil || len(again.Lines) != 2 || again.Lines[0].Candle.Letter != "A" || !again.Advised.Equal(now.Add(30*time.Minute)) || again.Pour != 2 {
		t.Errorf("light again: %+v", again)
	}
}

// burning is a candle that was lit some time ago, in a vessel of 76.2 mm, so
// that its target hour is 3 h (an hour per inch; common practice, no source).
func burning(pour int, letter string, since time.Duration, checks ...time.Time) journal.CandleLog {
	return journal.CandleLog{
		Made:  journal.Made{Candle: candle(pour, letter), Vessel: journal.Vessel{Shape: journal.Round, InnerWidth: 76.2}},
		Burns: []journal.BurnLog{{Burn: journal.Burn{Number: 1, LitAt: ago(since)}, Checks: checksAt(checks...)}},
	}
}

func TestBenchTiles(t *testing.T) {
	t.Parallel()
	withdrawn := burning(2, "B", 2*time.Hour, ago(time.Hour), ago(time.Minute))
	withdrawn.Burns[0].Checks[1].Gone = &now
	idle := journal.CandleLog{Made: journal.Made{Candle: candle(9, "A")}}
	b := plan.Bench(now, []journal.CandleLog{burning(2, "C", 4*time.Hour), idle, withdrawn, burning(2, "A", 2*time.Hour), burning(1, "Z", 3*time.Hour, ago(5*time.Minute))}, nil, nil)
	type tile struct {
		Code                 string
		LitFor               quantity.Hours
		Next                 quantity.Hours
		Reached, Over, Check bool
	}
	var got []tile
	for _, x := range b.Lit {
		got = append(got, tile{x.Log.Candle.Code(), x.LitFor, x.Next.Hour, x.TargetReached, x.OverStop, x.LastCheck != nil})
		if l := x.Log.OpenBurn().Burn.LitAt; !x.StopAt.Equal(l.Add(4*time.Hour)) || !x.TargetAt.Equal(l.Add(3*time.Hour)) {
			t.Errorf("%s: stop %v, target %v", x.Log.Candle.Code(), x.StopAt, x.TargetAt)
		}
	}
	want := []tile{
		{"2-C", 4, 4, true, true, false}, {"1-Z", 3, 4, true, false, true},
		{"2-A", 2, 2, false, false, false}, {"2-B", 2, 2, false, false, true},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if last := b.Lit[3].LastCheck; last != nil && last.ID != 1 {
		t.Errorf("the withdrawn check was taken: %+v", last)
	}
}

// A candle that burns cannot be weighed after its last burn any more.
func TestLitCandlesAreNotWeighed(t *testing.T) {
	t.Parallel()
	b := plan.Bench(now, []journal.CandleLog{burning(2, "A", time.Hour)}, nil, []journal.BurnLine{cold(2, "A", 1, ago(5*time.Hour))})
	if len(b.Due) != 0 || len(b.Coming) != 0 {
		t.Errorf("%+v %+v", b.Due, b.Coming)
	}
}

func TestGatheredPoursLeadToTheOldest(t *testing.T) {
	t.Parallel()
	due := plan.Bench(now, nil, []journal.CandleLine{line(4, "A", ago(30*day), 60), line(3, "B", ago(40*day), 60), line(3, "A", ago(40*day), 60)}, nil).Due
	if len(due) != 1 || due[0].Pour != 3 || len(due[0].Pours) != 2 || due[0].Pours[1].PourNumber != 4 || len(due[0].Lines) != 3 {
		t.Errorf("%+v", due)
	}
	one := plan.Bench(now, nil, []journal.CandleLine{line(4, "A", ago(30*day), 60)}, nil).Due
	if len(one) != 1 || one[0].Pours != nil {
		t.Errorf("one old pour is not gathered: %+v", one)
	}
}
