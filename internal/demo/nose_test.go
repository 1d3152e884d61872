package demo_test

import (
	"math"
	"testing"

	"rimward/internal/demo"
	"rimward/internal/journal"
)

// SaveSmelling holds the rules of a smelling.
func (l *ledger) SaveSmelling(s *journal.Smelling) error {
	f := journal.SmellingFacts{Now: l.now}
	if old, ok := l.smellings[s.ID]; ok {
		f.Before = &old
	}
	for _, x := range l.scores {
		if l.cups[x.Cup].Smelling == s.ID && s.ID != 0 {
			f.Scores++
		}
	}
	return put(l, journal.NounSmelling, l.smellings, s, &s.Meta, s.Validate(f))
}

// SaveCup holds the rules of a cup, and that nothing about it is doubted.
func (l *ledger) SaveCup(c *journal.Cup) error {
	candle := l.candles[c.Candle]
	f := journal.CupFacts{Smelling: l.smellings[c.Smelling], Candle: candle, PouredAt: l.pours[candle.Pour].At}
	for _, o := range l.cups {
		if o.Smelling == c.Smelling {
			f.Others = append(f.Others, o)
		}
	}
	for _, d := range journal.DoubtsOfSmelling(f.Smelling, []journal.CandleLog{l.log(candle)}) {
		l.t.Errorf("a smelling is doubted: %s", d.Text)
	}
	return put(l, journal.NounCup, l.cups, c, &c.Meta, c.Validate(f))
}

// SaveScore holds the rules of a score.
func (l *ledger) SaveScore(s *journal.Score) error {
	c := l.cups[s.Cup]
	f := journal.ScoreFacts{Now: l.now, Smelling: l.smellings[c.Smelling], Cup: c}
	for _, o := range l.scores {
		if o.Cup == s.Cup {
			f.Others = append(f.Others, o)
		}
	}
	return put(l, journal.NounScore, l.scores, s, &s.Meta, s.Validate(f))
}

// The season has one open smelling, one that was blind and is uncovered, and
// one that is still covered, each with scores.
func TestSeasonIsSmelled(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		l := fill(t, s)
		open, uncovered, covered := 0, 0, 0
		for _, x := range l.smellings {
			noses := map[string]bool{}
			for _, sc := range l.scores {
				if l.cups[sc.Cup].Smelling == x.ID {
					noses[sc.Nose] = true
				}
			}
			switch {
			case x.Covered() && len(noses) == 2:
				covered++
			case x.Blind && !x.Covered() && len(noses) == 5:
				uncovered++
			case !x.Blind && len(noses) == 3:
				open++
			default:
				t.Errorf("%s: %d noses for %+v", name, len(noses), x)
			}
		}
		if open != 1 || uncovered != 1 || covered != 1 {
			t.Errorf("%s: %d open, %d uncovered and %d covered smellings", name, open, uncovered, covered)
		}
	}
}

// Over many seasons a lit candle with 8 % of oil and a wick that nearly fits is
// scored about where the rule says, 3.1, within half a step.
func TestNosesFollowTheirRule(t *testing.T) {
	t.Parallel()
	var sum, n float64
	for seed := range uint64(12) {
		l := fill(t, demo.NewSeason(seed, evening, lisbon(t)))
		for _, s := range l.scores {
			c := l.cups[s.Cup]
			if l.smellings[c.Smelling].Kind == journal.HotThrow && math.Abs(float64(*l.pours[l.candles[c.Candle].Pour].Load)-0.08) < 1e-9 {
				sum, n = sum+float64(s.Score), n+1
			}
		}
	}
	if mean := sum / n; n < 100 || math.Abs(mean-3.1) > 0.5 {
		t.Errorf("%v scores have the mean %.2f, want about 3.1", n, mean)
	}
}
