package standings_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/standings"
)

// sheet is two rungs of an invented ladder, and a wick without one.
const sheet = `vessel,inner_width_mm,target_hour,series,rung,candle,burn,hour,width_mm,full
Pebble,80,3.25,Larkspur,3,A,1,1,41,no
Pebble,80,3.25,Larkspur,3,A,1,2,57.5,no
Pebble,80,3.25,Larkspur,3,A,1,3,65,no
Pebble,80,3.25,Larkspur,3,A,2,1.5,50,no
Pebble,80,3.25,Larkspur,5,B,1,1,52,no
Pebble,80,3.25,Larkspur,5,B,1,2,76,no
Pebble,80,3.25,Larkspur,5,B,1,3,,yes
Pebble,80,3.25,Barley twist,,C,1,1,44,no
Pebble,80,3.25,Barley twist,,C,1,2.25,63,no
`

// read reads a sheet that must be fine.
func read(t *testing.T, text string) []*standings.Stack {
	t.Helper()
	stacks, err := standings.ReadSheet(strings.NewReader(text), 1)
	if err != nil {
		t.Fatal(err)
	}
	return stacks
}

// worked is the answer that a sheet gives.
func worked(t *testing.T, text string) standings.Document {
	t.Helper()
	table, err := standings.WorkStacks(t.Context(), read(t, text), standings.PriorOf(nil))
	if err != nil {
		t.Fatal(err)
	}
	return table.Document()
}

// columns sets the columns of a sheet in another order.
func columns(text string, order ...int) string {
	var out []string
	for line := range strings.Lines(text) {
		cells := strings.Split(strings.TrimSuffix(line, "\n"), ",")
		var moved []string
		for _, i := range order {
			moved = append(moved, cells[i])
		}
		out = append(out, strings.Join(moved, ","))
	}
	return strings.Join(out, "\n")
}

// shuffled puts the lines below the first in another order.
func shuffled(text string, seed uint64) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	rest := lines[1:]
	rand.New(rand.NewPCG(seed, 1)).Shuffle(len(rest), func(i, k int) { rest[i], rest[k] = rest[k], rest[i] })
	return strings.Join(lines, "\n")
}

func TestSheetsOfOneMeaningGiveOneAnswer(t *testing.T) {
	t.Parallel()
	want, stacks := worked(t, sheet), read(t, sheet)
	replace := func(pairs ...string) string { return strings.NewReplacer(pairs...).Replace(sheet) }
	for name, text := range map[string]string{
		"a mark at the start":             "\xef\xbb\xbf" + sheet,
		"lines end as on Windows":         replace("\n", "\r\n"),
		"no end of the last line":         strings.TrimSuffix(sheet, "\n"),
		"columns in another order":        columns(sheet, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0),
		"names of columns in capitals":    strings.ToUpper(sheet[:strings.Index(sheet, "\n")]) + sheet[strings.Index(sheet, "\n"):],
		"spaces around cells":             replace(",", " , "),
		"spaces that do not break":        replace(",", "\u00a0,"),
		"quoted cells":                    replace("Pebble", `"Pebble"`, "57.5", `"57.5"`),
		"blank lines":                     replace("\n", "\n\n"),
		"lines of separators alone":       replace("\nPebble,80,3.25,Barley", "\n,,,,,,,,,\nPebble,80,3.25,Barley"),
		"semicolons":                      replace(",", ";"),
		"semicolons and decimal commas":   replace(",", ";", ".", ","),
		"a semicolon sheet with a mark":   "\xef\xbb\xbf" + replace(",", ";", ".", ",", "\n", "\r\n"),
		"yes and no by letters":           replace(",yes", ",Y", ",no", ",n"),
		"yes and no as programs say":      replace(",yes", ",TRUE", ",no", ",False"),
		"yes and no by numbers":           replace(",yes", ",1", ",no", ",0"),
		"a cross, or nothing":             replace(",yes", ",x", ",no", ","),
		"the target hour said once":       strings.Replace(strings.ReplaceAll(sheet, ",80,3.25,", ",80,,"), ",80,,", ",80,3.25,", 1),
		"numbers with noughts":            replace(",80,", ",80.0,", ",3,A,", ",03,A,", ",5,B,", ",5.0,B,"),
		"a number with a power of ten":    replace(",57.5,", ",5.75e1,"),
		"a width beside a full pool":      replace(",,yes", ",80,yes"),
		"half a step of the ruler short":  replace(",,yes", ",79.5,no"),
		"half a step of the ruler beyond": replace(",,yes", ",80.5,no"),
		"burns scattered over the file":   arranged(sheet, 5, 1, 8, 6, 2, 4, 7, 9, 3),
		"a cell more, with nothing in it": replace(",no\n", ",no,\n"),
		"the last cells left away":        replace(",no\n", "\n"),
		"a column that is not known":      withExtra(sheet),
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if reflect.DeepEqual(stacks, read(t, text)) {
				return // the same readings, and so the same answer
			}
			if diff := cmp.Diff(want, worked(t, text)); diff != "" {
				t.Errorf("another answer (-want +got):\n%s", diff)
			}
		})
	}
}

// arranged puts the lines below the first in an order, counted from 1.
func arranged(text string, order ...int) string {
	lines := strings.Split(text, "\n")
	out := lines[:1:1]
	for _, i := range order {
		out = append(out, lines[i])
	}
	return strings.Join(out, "\n")
}

// withExtra adds a column of remarks.
func withExtra(text string) string {
	first, rest, _ := strings.Cut(text, "\n")
	return first + ",remark\n" + strings.ReplaceAll(rest, "\n", ",\"calm, no draught\"\n")
}

// The order of lines does not matter to any figure. Only hours that run
// backwards within a burn are remarked upon.
func TestOrderOfLinesDoesNotMatter(t *testing.T) {
	t.Parallel()
	sort := func(d standings.Document) standings.Document {
		for i := range d.Series {
			for k := range d.Series[i].Pairings {
				var kept []string
				for _, w := range d.Series[i].Pairings[k].Warnings {
					if !strings.Contains(w, "hours were out of order") {
						kept = append(kept, w)
					}
				}
				d.Series[i].Pairings[k].Warnings = kept
			}
		}
		return d
	}
	want := sort(worked(t, sheet))
	for seed := range uint64(6) {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			t.Parallel()
			if diff := cmp.Diff(want, sort(worked(t, shuffled(sheet, seed)))); diff != "" {
				t.Errorf("another answer (-want +got):\n%s", diff)
			}
		})
	}
}

// find is one pairing of a document.
func find(t *testing.T, d standings.Document, series string, rung int) standings.PairingDocument {
	t.Helper()
	for _, x := range d.Series {
		for _, p := range x.Pairings {
			if x.Series == series && (p.Rung == nil || *p.Rung == rung) {
				return p
			}
		}
	}
	t.Fatalf("no %s %d", series, rung)
	return standings.PairingDocument{}
}

func TestSheetBecomesSeries(t *testing.T) {
	t.Parallel()
	stacks := read(t, sheet)
	var got []string
	for _, s := range stacks {
		for _, r := range s.Rungs {
			line := fmt.Sprintf("%s %v %v/%s %d:", s.Vessel.Name, s.Vessel.Width(), s.Ladder.Name, r.Wick.Label, r.Wick.Rung)
			for _, c := range r.Rows {
				line += " " + c.Name
				for _, b := range c.Burns {
					line += fmt.Sprintf(" %d:", b.Number)
					for _, x := range b.Readings {
						line += fmt.Sprintf(" %g %.4g %v", float64(x.Hour), x.Ratio, x.Full)
					}
				}
			}
			got = append(got, line)
		}
	}
	// By hand: 44/80, 63/80, 41/80, 57.5/80, 65/80, 50/80, 52/80, 76/80.
	want := []string{
		"Pebble 80 mm Barley twist/ 0: C 1: 1 0.55 false 2.25 0.7875 false",
		"Pebble 80 mm Larkspur/2 2:",
		"Pebble 80 mm Larkspur/3 3: A 1: 1 0.5125 false 2 0.7188 false 3 0.8125 false 2: 1.5 0.625 false",
		"Pebble 80 mm Larkspur/4 4:",
		"Pebble 80 mm Larkspur/5 5: B 1: 1 0.65 false 2 0.95 false 3 1 true",
		"Pebble 80 mm Larkspur/6 6:",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// Without a target hour it is one hour an inch and at most four (common
// practice, no source): 80 mm are 3.1496 in.
func TestTargetHourMayBeMissing(t *testing.T) {
	t.Parallel()
	for name, text := range map[string]string{
		"no column":   columns(sheet, 0, 1, 3, 4, 5, 6, 7, 8, 9),
		"blank cells": strings.ReplaceAll(sheet, ",3.25,", ",,"),
	} {
		if got := worked(t, text).Series[0].TargetHour; got != 80/25.4 {
			t.Errorf("%s: %v", name, got)
		}
	}
	if got := worked(t, strings.ReplaceAll(sheet, ",80,3.25,", ",120,,")).Series[0].TargetHour; got != 4 {
		t.Errorf("a wide vessel: %v", got)
	}
	if got := worked(t, sheet).Series[0].TargetHour; got != 3.25 {
		t.Errorf("said: %v", got)
	}
}

func TestDoubtfulReadingsAreTakenWithAWarning(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ was, is, says string }{
		"a width beyond the wall":  {"3,,yes", "3,88,no", "In 1 of 1 burn a width was larger than the vessel; it counts as full."},
		"hours out of order":       {"1,52,no\nPebble,80,3.25,Larkspur,5,B,1,2,76", "2,76,no\nPebble,80,3.25,Larkspur,5,B,1,1,52", "In 1 of 1 burn the hours were out of order; they are taken in order of time."},
		"a reading that is a slip": {"B,1,2,76", "B,17,2,6", "Hardly fits: B, burn 17, at 2 h 00."},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			text := strings.Replace(sheet, c.was, c.is, 1)
			if text == sheet {
				t.Fatal("nothing was changed")
			}
			if name == "a reading that is a slip" {
				text = strings.ReplaceAll(text, ",B,1,", ",B,17,")
			}
			p := find(t, worked(t, text), "Larkspur", 5)
			if !strings.Contains(strings.Join(p.Warnings, "\n"), c.says) {
				t.Errorf("no %q among %q", c.says, p.Warnings)
			}
		})
	}
}

func TestTwoReadingsAtOneHourAreBothKept(t *testing.T) {
	t.Parallel()
	text := strings.Replace(sheet, "A,2,1.5,50,no", "A,1,2,59,no", 1)
	stacks := read(t, text)
	for _, r := range stacks[1].Rungs {
		if r.Wick.Rung == 3 {
			if n := len(r.Rows[0].Burns[0].Readings); n != 4 {
				t.Errorf("%d readings", n)
			}
		}
	}
}

// Names are in the order of people: 9 before 10.
func TestCandlesAndBurnsAreInNaturalOrder(t *testing.T) {
	t.Parallel()
	text := sheet[:strings.Index(sheet, "\n")+1]
	for _, at := range []string{"P10,1", "P9,10", "P9,9", "p9,1", "P9,first", "P10,last", "P009,1"} {
		text += "Pebble,80,,Larkspur,3," + at + ",1,40,no\n"
	}
	stacks := read(t, text)
	var got []string
	for _, c := range stacks[0].Rungs[1].Rows {
		line := c.Name
		for _, b := range c.Burns {
			line += fmt.Sprint(" ", b.Number)
		}
		got = append(got, line)
	}
	// Burns that are not all numbered stand by their places.
	if diff := cmp.Diff([]string{"P009 1", "P9 1 2 3", "P10 1 2", "p9 1"}, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// problemsOf are the lines of a sheet's refusal.
func problemsOf(t *testing.T, text string) []string {
	t.Helper()
	_, err := standings.ReadSheet(strings.NewReader(text), 1)
	var wrong *standings.SheetError
	if !errors.As(err, &wrong) {
		t.Fatalf("got %v, want a refusal", err)
	}
	return wrong.Lines()
}
