package demo_test

import (
	"testing"
	"time"

	"rimward/internal/journal"
)

// Most pours were looked at a day after them, the newest is due, and one or
// two of the old ones were forgotten.
func TestTopsOfMostPoursWereLookedAt(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		l := fill(t, s)
		looked, newest := map[journal.ID]int{}, journal.Pour{}
		for _, p := range l.pours {
			if p.Number > newest.Number {
				newest = p
			}
		}
		for _, c := range l.sets {
			pour := l.pours[l.candles[c.Candle].Pour]
			looked[pour.ID]++
			if after := c.At.Sub(pour.At); after < 24*time.Hour || after > 29*time.Hour {
				t.Errorf("%s: a look %s after the pour", name, after)
			}
			if (c.Stuck != nil) && !l.vessels[l.candles[c.Candle].Vessel].WallSeen() {
				t.Errorf("%s: wet spots were seen through a wall", name)
			}
		}
		if left := len(l.pours) - len(looked); left < 2 || left > 5 || looked[newest.ID] != 0 {
			t.Errorf("%s: %d of %d pours were not looked at, %d candles of the newest were", name, left, len(l.pours), looked[newest.ID])
		}
	}
}

// The rules that the season states show in its figures, over several seasons:
// the second wax frosts less, hotter pours sink more, and oil at 10 % sweats.
func TestSettingFollowsItsRules(t *testing.T) {
	t.Parallel()
	var frost, sink, sweat [2]struct{ seen, of int }
	tell := func(x *[2]struct{ seen, of int }, second bool, a journal.Amount) {
		i := 0
		if second {
			i = 1
		}
		x[i].of++
		if a.Seen() {
			x[i].seen++
		}
	}
	for _, s := range seasons(t) {
		l := fill(t, s)
		for _, c := range l.sets {
			pour := l.pours[l.candles[c.Candle].Pour]
			wax := l.waxes[pour.Wax]
			tell(&frost, wax.Name == "Harbour blend", c.Frosting)
			tell(&sink, *pour.PouredAt > *wax.PourAt.High, c.SinkHole)
			tell(&sweat, *pour.Load >= 0.0999, c.Sweating)
		}
	}
	share := func(x struct{ seen, of int }) float64 { return float64(x.seen) / float64(max(x.of, 1)) }
	if share(frost[1]) > 0.5*share(frost[0]) || share(sink[1]) < 1.5*share(sink[0]) || share(sweat[1]) < 5*share(sweat[0]) || sweat[1].seen == 0 {
		t.Errorf("frosting by wax %v, sink holes inside and above the guidance %v, sweating under and at 10 %% %v", frost, sink, sweat)
	}
}
