package tree_test

import (
	"fmt"
	"sync"
	"testing"

	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

func count(ss []tree.Series) (candles, burns, checks int) {
	for _, s := range ss {
		for _, p := range s.Pairings {
			candles += len(p.Candles)
			for _, c := range p.Candles {
				burns += len(c)
				for _, b := range c {
					checks += len(b)
				}
			}
		}
	}
	return candles, burns, checks
}

// Ten years from cold, and a half, a quarter of it: every series is worked out,
// weighed and reported.
func BenchmarkJournal(b *testing.B) {
	for _, n := range []int{100, 200, 400} {
		ss := journal(1, n)
		candles, burns, checks := count(ss)
		b.Run(fmt.Sprintf("%d_series", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				w, err := tree.NewDesk(tree.Default()).Weigh(b.Context(), ss)
				if err != nil {
					b.Fatal(err)
				}
				reportAll(b, w, ss)
			}
			b.ReportMetric(float64(candles), "candles")
			b.ReportMetric(float64(burns), "burns")
			b.ReportMetric(float64(checks), "checks")
		})
	}
}

// reportAll reports every series, two at a time as package standings does on
// two processors.
func reportAll(b *testing.B, w *tree.Weighed, ss []tree.Series) {
	var lanes sync.WaitGroup
	for lane := range 2 {
		lanes.Go(func() {
			for i := lane; i < len(ss); i += 2 {
				if _, err := w.Reports(b.Context(), ss[i]); err != nil {
					b.Error(err)
				}
			}
		})
	}
	lanes.Wait()
}

// One check more in a ten-year journal: the series it belongs to is worked out
// again, weights are shared out anew, and its standings told.
func BenchmarkOneCheckMore(b *testing.B) {
	ss := journal(1, 400)
	d := tree.NewDesk(tree.Default())
	if _, err := d.Weigh(b.Context(), ss); err != nil {
		b.Fatal(err)
	}
	n := 0
	for b.Loop() {
		n++
		c := ss[7].Pairings[1].Candles[0]
		c[0][0].Hour = 1 + quantity.Hours(n)*1e-4
		w, err := d.Weigh(b.Context(), ss)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := w.Reports(b.Context(), ss[7]); err != nil {
			b.Fatal(err)
		}
	}
}

// A single series of thirty burns from cold.
func BenchmarkOneSeries(b *testing.B) {
	w := standard()
	w.candles, w.burns, w.vessels = [2]int{2, 2}, [2]int{3, 3}, 1
	for seed := uint64(1); ; seed++ {
		ss := w.draw(newRand(seed)).series
		if _, burns, _ := count(ss); burns != 30 {
			continue
		}
		b.ReportAllocs()
		for b.Loop() {
			weighed, err := tree.NewDesk(tree.Default()).Weigh(b.Context(), ss)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := weighed.Reports(b.Context(), ss...); err != nil {
				b.Fatal(err)
			}
		}
		return
	}
}
