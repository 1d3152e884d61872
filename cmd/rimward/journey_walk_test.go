package main

import (
	"fmt"
	"testing"
	"time"

	"rimward/internal/quantity"
)

// walkByKeys fills every row by keyboard alone: the two widths, depth and
// flame, then "all clean", then on to the next candle.
func walkByKeys(b *tab, rows [][]string) (took time.Duration, keys int) {
	b.tb.Helper()
	b.keys = 0
	began := time.Now()
	for _, r := range rows {
		b.write(r[0])
		b.press(tabKey)
		b.write(r[1])
		b.press(tabKey, tabKey)
		b.write(r[2])
		b.press(tabKey)
		b.write(r[3])
		b.press(tabKey, spaceKey, enterKey)
	}
	b.leaving(func() { b.press(enterKey) })
	return time.Since(began), b.keys
}

// A sitting of three is walked twice by keyboard alone.
func TestJourneyWalkTwiceByKeyboard(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(time.Hour, s.shelved(3)...)
	b := newTab(t, s.base(), laptop)
	b.open("/")
	b.see("Three candles lit")
	b.open("/walk")
	if got := b.focused(); got != "b1.width_a" {
		t.Fatalf("the walk begins at %q", got)
	}
	walkByKeys(b, [][]string{{"48", "46", "5", "30"}, {"50", "49", "6", "32"}, {"55", "54", "6", "35"}})
	b.see("Checks of 1-A, 1-B and 1-C saved")
	s.later(time.Hour)
	b.open("/walk")
	b.see("Walk the bench")
	b.shot("walk-second")
	walkByKeys(b, [][]string{{"61", "58", "7", "31"}, {"66", "65", "8", "33"}, {"full", "", "9", "38"}})
	b.see("Checks of 1-A, 1-B and 1-C saved")
	for i, burn := range burns {
		cs := checksOf(t, s, burn.ID)
		if len(cs) != 2 || cs[0].Soot != "none" || *cs[1].Flame != []quantity.Millimetres{31, 33, 38}[i] {
			t.Errorf("burn %d has the checks %+v", i+1, cs)
		}
	}
}

// How many key presses beyond the numbers, and how long, for one check and for
// a walk past six candles. It asserts the key presses; times are reported.
func TestJourneyMeasureTheChore(t *testing.T) {
	s := emptyStudio(t)
	s.lit(time.Hour, s.shelved(6)...)
	b := newTab(t, s.base(), laptop)
	b.open("/walk")
	rows := make([][]string, 6)
	for i := range rows {
		rows[i] = []string{fmt.Sprint(48 + i), fmt.Sprint(46 + i), "5", fmt.Sprint(30 + i)}
	}
	took, keys := walkByKeys(b, rows)
	b.see("saved")
	t.Logf("six candles: %d key presses beyond the numbers (%.1f a candle), %s by a machine", keys, float64(keys)/6, took.Round(time.Millisecond))
	if each := float64(keys-1) / 6; each > 8 {
		t.Errorf("a check takes %.1f key presses beyond the numbers, at most 8 are allowed", each)
	}
	s.later(time.Hour)
	b.open("/candles/1/check")
	b.keys = 0
	began := time.Now()
	b.write("61")
	b.press(tabKey)
	b.write("58")
	b.leaving(func() { b.press(enterKey) })
	t.Logf("one check, two widths: %d key presses beyond the numbers, %s by a machine", b.keys, time.Since(began).Round(time.Millisecond))
}
