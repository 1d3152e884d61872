package demo

import (
	"time"

	"rimward/internal/journal"
	planning "rimward/internal/plan"
	"rimward/internal/quantity"
)

// asked is a round as the studio planned it: what it asks, and when.
type asked struct {
	id         journal.ID
	question   string
	note       string
	of         round // what its candles are: wax, vessel, rungs, copies
	plannedAgo int
	movedAgo   int // when its days were planned anew; 0: never
	nextIn     int // days from now to its next pour, once they were
	closedAgo  int // 0: not yet
	burns      int // of each candle; 0: until spent
	perMelt    int
	ownMelts   bool
	seed       int64
}

// The rounds that the season's studio planned. The first was answered. Of the
// second two copies are poured and one is not.
var (
	whichRung = asked{id: 1, question: "Which of Larkspur 5, 6, 7 and 8 fills the Pebble tumbler with Harbour blend?",
		note: "Two of each, so that one odd candle does not decide.", plannedAgo: 102, closedAgo: 52, perMelt: 6, seed: 481516,
		of: round{wax: harbour, fragrance: rain, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{3, 4, 5, 6}, copies: 2, wicks: 1}}
	rainRung = asked{id: 2, question: "Which of Larkspur 6, 7 and 8 fills the Pebble tumbler with Rain on slate?",
		note: "One melt a week: the shelf has no room for nine at once.", plannedAgo: 16, movedAgo: 1, nextIn: 3, burns: 6, ownMelts: true, seed: 234243,
		of: round{wax: meadow, fragrance: rain, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{4, 5, 6}, copies: 3, wicks: 1}}
)

// spec is what the round is drawn from.
func (a asked) spec() planning.Spec {
	f := journal.RoundFactors{Vessels: []journal.ID{a.of.vessel}, Loads: []quantity.Fraction{a.of.load}, LoadBasis: journal.OfWax}
	for _, r := range a.of.rungs {
		f.Wicks = append(f.Wicks, journal.RoundWick{Wick: wickID(a.of.ladder, r), Wicks: a.of.wicks})
	}
	return planning.Spec{Factors: f, Copies: a.of.copies, BenchPlaces: 8, Seed: a.seed, PerMelt: a.perMelt, OwnMelts: a.ownMelts}
}

// places are the round's candles in order of pouring.
func (a asked) places() []journal.RoundPlace {
	places, problems := planning.Draw(a.spec())
	if len(problems) > 0 {
		panic(problems[0].Says) // the season's own plan is wrong
	}
	return places
}

// record is the round as it was written down.
func (s *studio) record(a asked, pourOn time.Time, closed *time.Time) journal.TestRound {
	sp := a.spec()
	r := journal.TestRound{Meta: meta(a.id), Question: a.question, Note: a.note, Wax: a.of.wax, Fragrance: p(a.of.fragrance), Factors: sp.Factors,
		Copies: sp.Copies, Seed: sp.Seed, Drawn: journal.RoundDrawing{PerMelt: sp.PerMelt, OwnMelts: sp.OwnMelts}, Places: a.places(), Closed: closed}
	r.Days = journal.RoundDays{PourOn: pourOn.In(s.zone).Format(time.DateOnly), Start: "18:00", Hours: 4, PerEvening: 1, BenchPlaces: sp.BenchPlaces, Burns: a.burns}
	for d := range 7 {
		r.Days.Weekdays = append(r.Days.Weekdays, time.Weekday(d))
	}
	return r
}

// askOn writes down what was planned, moved or closed on a day.
func (s *studio) askOn(daysAgo int) {
	const evening = 20*60 + 30
	for _, a := range s.plan.asked {
		first := s.clock(a.plannedAgo-1, 12*60)
		switch at := s.clock(daysAgo, evening); {
		case daysAgo == a.plannedAgo:
			s.write(at, s.record(a, first, nil))
		case daysAgo > 0 && daysAgo == a.movedAgo:
			s.write(at, s.record(a, s.clock(-a.nextIn, 12*60), nil))
		case daysAgo > 0 && daysAgo == a.closedAgo:
			s.write(at, s.record(a, first, &at))
		}
	}
}

// spot is one candle of a batch before it is poured.
type spot struct{ rung, nth, melt, place int }

// spots are the candles of a batch in the order in which they are poured:
// copies side by side, or as the round that they belong to was drawn.
func (r round) spots() []spot {
	var out []spot
	if r.asks == nil {
		for nth := range r.copies {
			for _, rung := range r.rungs {
				out = append(out, spot{rung: rung, nth: nth, melt: len(out) / perMelter})
			}
		}
		return out
	}
	for _, x := range r.asks.places() {
		if r.copy != 0 && x.Copy != r.copy {
			continue
		}
		for _, rung := range r.asks.of.rungs {
			if wickID(r.asks.of.ladder, rung) == x.Wick {
				out = append(out, spot{rung, x.Copy - 1, x.Melt, x.Number})
			}
		}
	}
	return out
}

// round puts a round under the journal's own IDs.
func (c *copying) round(r journal.TestRound) journal.TestRound {
	r.Wax, r.Fragrance = c.id(journal.NounWax, r.Wax), p(c.id(journal.NounFragrance, *r.Fragrance))
	f := r.Factors
	r.Factors.Vessels, r.Factors.Wicks = nil, nil
	for _, v := range f.Vessels {
		r.Factors.Vessels = append(r.Factors.Vessels, c.id(journal.NounVessel, v))
	}
	for _, w := range f.Wicks {
		r.Factors.Wicks = append(r.Factors.Wicks, journal.RoundWick{Wick: c.id(journal.NounWick, w.Wick), Wicks: w.Wicks})
	}
	places := r.Places
	r.Places = nil
	for _, x := range places {
		x.Vessel, x.Wick = c.id(journal.NounVessel, x.Vessel), c.id(journal.NounWick, x.Wick)
		r.Places = append(r.Places, x)
	}
	return r
}
