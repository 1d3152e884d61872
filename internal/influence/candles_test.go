package influence_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/stats"
)

func ptr[T any](v T) *T { return &v }

var (
	poured  = time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	tumbler = journal.Vessel{Meta: journal.Meta{ID: 1}, Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 76, Material: "glass"}
	options = standings.Options{Ruler: 1, Limits: safety.NewLimits(nil), Units: quantity.Metric, Apart: journal.ByLoad}
)

// opened is how far a pool opens in some hours: 1 - exp(-0.9 t).
func opened(h float64) float64 { return -math.Expm1(-0.9 * h) }

// pour is the first or the second of a pair of batches, at one load each.
func pour(n int, load float64) journal.Pour {
	return journal.Pour{Meta: journal.Meta{ID: journal.ID(n)}, Number: n, At: poured, Wax: 1, Fragrance: ptr(journal.ID(1)),
		Load: ptr(quantity.Fraction(load)), LoadBasis: journal.OfWax, PouredAt: ptr(quantity.Celsius(60))}
}

// burned is one candle whose pools would reach theta, in log width, at the
// target hour: burns with hourly looks, a millimetre of error, and the wall.
func burned(rng *rand.Rand, id int, p journal.Pour, rung int, theta float64, burns int) journal.CandleLog {
	fig := &journal.Fragrance{Meta: journal.Meta{ID: 1}, Name: "Fig and smoke"}
	l := journal.CandleLog{Made: journal.Made{
		Candle: journal.Candle{Meta: journal.Meta{ID: journal.ID(id)}, Pour: p.ID, PourNumber: p.Number, Letter: journal.LetterOf(id), Vessel: 1, Wick: journal.ID(rung), Wicks: 1},
		Pour:   p, Wax: journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Meadow blend"}, Fragrance: fig, Vessel: tumbler,
		Wick: journal.Wick{Meta: journal.Meta{ID: journal.ID(rung)}, Ladder: 1, Rung: rung, Label: fmt.Sprint(rung)}, Ladder: journal.Ladder{Meta: journal.Meta{ID: 1}, Name: "Larkspur"},
	}}
	for n := range burns {
		lit := poured.AddDate(0, 0, 10+2*n)
		b := journal.BurnLog{Burn: journal.Burn{Meta: journal.Meta{ID: journal.ID(100*id + n)}, Number: n + 1, LitAt: lit, OutAt: ptr(lit.Add(4 * time.Hour)), Ending: journal.Snuffed}}
		reach := math.Exp(theta + 0.025*rng.NormFloat64())
		for i, h := range []float64{1, 1.5, 2, 3, 4} {
			c := journal.Check{Meta: journal.Meta{ID: journal.ID(1000*id + 10*n + i)}, At: lit.Add(time.Duration(h * float64(time.Hour)))}
			if share := reach * opened(h) / opened(float64(tumbler.Target())); share >= 1 {
				c.Full = true
			} else {
				w := quantity.Millimetres(min(math.Round(76*share+rng.NormFloat64()), 75))
				c.WidthA, c.WidthB = &w, &w
			}
			b.Checks = append(b.Checks, c)
		}
		l.Burns = append(l.Burns, b)
	}
	return l
}

// journalOf is some batches at each of two loads, with a candle of each of three
// rungs.
func journalOf(seed uint64, copies int, effect, rise float64) ([]journal.CandleLog, map[journal.ID]journal.Pour) {
	rng := rand.New(rand.NewPCG(seed, 7))
	pours, logs := map[journal.ID]journal.Pour{}, []journal.CandleLog{}
	for n := range 2 * copies {
		load := 0.06 + 0.04*float64(n%2)
		p := pour(n+1, load)
		pours[p.ID] = p
		for rung := range 3 {
			theta := rise + 0.07*float64(rung-1) + effect*(load-0.08) + 0.04*rng.NormFloat64()
			logs = append(logs, burned(rng, len(logs)+1, p, rung+1, theta, 3))
		}
	}
	return logs, pours
}

func explain(t *testing.T, logs []journal.CandleLog, pours map[journal.ID]journal.Pour) influence.Answer {
	t.Helper()
	table, err := standings.Work(t.Context(), logs, options, standings.PriorOf(nil))
	if err != nil {
		t.Fatal(err)
	}
	return influence.Explain(influence.CandlesOf(table, pours))
}

// From checks to the answer: what oil takes from the width in a made-up studio
// comes out again, short of the wall and where many pools stand at it, and the
// loads are not drawn towards each other on the way.
func TestFromChecksToTheAnswer(t *testing.T) {
	if testing.Short() {
		t.Skip("many worlds, one after the other: nothing for the race detector")
	}
	t.Parallel()
	for name, rise := range map[string]float64{"short of the wall": -0.15, "about the wall": 0.02, "mostly over it": 0.15} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			const worlds, truth = 24, -2.0
			sum, hits, n := 0.0, 0, 0
			for seed := range uint64(worlds) {
				logs, pours := journalOf(seed, 3, truth, rise)
				for _, e := range explain(t, logs, pours).Effects {
					if e.Factor == influence.Load {
						sum, n = sum+e.Estimate, n+1
						if e.Low <= truth && truth <= e.High {
							hits++
						}
					}
				}
			}
			t.Logf("mean %.3f, %d of %d hold", sum/float64(n), hits, n)
			// The mean of 24 estimates, each with a standard error near 0.5.
			if n < 20 || math.Abs(sum/float64(n)-truth) > 0.35 || hits*10 < n*6 {
				t.Errorf("mean %.3f, %d of %d hold the truth", sum/float64(n), hits, n)
			}
		})
	}
}

func TestWhatIsKnownOfACandle(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 1))
	p := pour(1, 0.08)
	p.VesselWarmed, p.PouredAt, p.LoadBasis, p.Load = ptr(quantity.Celsius(45)), nil, journal.OfTotal, ptr(quantity.Fraction(8.0/108))
	logs := []journal.CandleLog{burned(rng, 1, p, 1, -0.2, 2), burned(rng, 2, p, 1, 1, 2)}
	plain := p
	plain.ID, plain.Fragrance, plain.Load, plain.VesselWarmed = 2, nil, nil, nil
	l := burned(rng, 3, plain, 1, -0.2, 1)
	l.Fragrance = nil
	logs = append(logs, l)
	table, err := standings.Work(t.Context(), logs, options, standings.PriorOf(nil))
	if err != nil {
		t.Fatal(err)
	}
	byCode := map[string]influence.Candle{}
	for _, c := range influence.CandlesOf(table, map[journal.ID]journal.Pour{1: p, 2: plain}) {
		byCode[c.Code] = c
	}
	a, b, c := byCode["1-B"], byCode["1-C"], byCode["1-D"]
	// 8 % of wax is 7.407 % of the total (facts of the trade's two bases).
	if math.Abs(a.Values[influence.Load]-0.08) > 1e-12 || a.Values[influence.Warmed] != 1 || a.Values[influence.Cured] != 10 || a.Stratum.Fragrance != 1 || a.Wall != 76 || a.Burns != 2 {
		t.Errorf("%+v", a)
	}
	if _, noted := a.Values[influence.PouredAt]; noted {
		t.Error("a temperature that was not noted")
	}
	if a.Width.Low != a.Width.High || math.Abs(a.Width.Low+0.2) > 0.08 {
		t.Errorf("width %+v", a.Width)
	}
	if !math.IsInf(b.Width.High, 1) || b.Width.Low < 0.3 {
		t.Errorf("full at the first look: %+v", b.Width)
	}
	if c.Values[influence.Load] != 0 || c.Values[influence.Warmed] != 0 || c.Stratum.Fragrance != 0 {
		t.Errorf("%+v", c)
	}
	if got := influence.CandlesOf(table, nil); len(got) != 0 {
		t.Errorf("%d candles without their pours", len(got))
	}
}

// doctored is what a burn says whose readings and slips are these.
func doctored(t *testing.T, readings []meltpool.Reading, slips ...int) stats.Censored {
	t.Helper()
	p := pour(1, 0.08)
	logs := []journal.CandleLog{burned(rand.New(rand.NewPCG(1, 1)), 1, p, 1, -0.2, 1)}
	table, err := standings.Work(t.Context(), logs, options, standings.PriorOf(nil))
	if err != nil {
		t.Fatal(err)
	}
	b := &table.Groups[0].Series[0].Pairings[0].Rows[0].Burns[0]
	b.Readings, b.Fit.Checks = readings, slices.Repeat(b.Fit.Checks[:1], len(readings))
	for i := range b.Fit.Checks {
		b.Fit.Checks[i].Slip = slices.Contains(slips, i)
	}
	return influence.CandlesOf(table, map[journal.ID]journal.Pour{1: p})[0].Width
}

// A reading before a quarter of the target hour is not carried to the hour, and
// one that hardly fits its burn's curve is passed over, full or short.
func TestWhichReadingsSpeak(t *testing.T) {
	t.Parallel()
	hour := tumbler.Target()
	short := func(share, ratio float64) meltpool.Reading {
		return meltpool.Reading{Hour: hour * quantity.Hours(share), Ratio: ratio}
	}
	full := meltpool.Reading{Hour: hour * 0.6, Ratio: 1, Full: true}
	if w := doctored(t, []meltpool.Reading{short(0.2, 0.5), full}); w.High-w.Low < 0.1 || math.IsInf(w.High, 1) {
		t.Errorf("a fifth of the hour is too early: %+v", w)
	}
	if w := doctored(t, []meltpool.Reading{short(0.3, 0.5), full}); w.Low != w.High {
		t.Errorf("three tenths are not: %+v", w)
	}
	if w := doctored(t, []meltpool.Reading{short(0.8, 0.7), short(1, 0.3)}, 1); w.Low != w.High || w.Low < math.Log(0.7) {
		t.Errorf("a slip at the hour counts: %+v", w)
	}
	if w := doctored(t, []meltpool.Reading{full, short(1, 0.8)}, 0); w.Low != w.High || math.Abs(w.Low-math.Log(0.8)) > 1e-9 {
		t.Errorf("a slip at the wall counts: %+v", w)
	}
	if w := doctored(t, []meltpool.Reading{full}, 0); !math.IsInf(w.Low, -1) || !math.IsInf(w.High, 1) {
		t.Errorf("a slip alone says something: %+v", w)
	}
}
