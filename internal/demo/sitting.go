package demo

import (
	"math"
	"math/rand/v2"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// evening is one sitting: the candles lit together and how it went.
type evening struct {
	lit    time.Time
	length int   // minutes until they are put out
	walks  []int // minutes after lighting, in order
	half   int   // which of the walks is only for new candles; -1: none
	rng    *rand.Rand
	id     journal.ID
	room   quantity.Celsius
	air    journal.Draught
	place  string
}

// quiet is how long before now the last finished sitting ends.
const quiet = 7 * time.Hour

// eager is how many days ago the studio began to sit every evening.
const eager = 2

// sitOn holds a sitting on a day, if there are candles and the mood.
func (s *studio) sitOn(daysAgo int) {
	mood, minute := s.days.Float64(), 17*60+5*s.days.IntN(19)
	if day := s.clock(daysAgo, 12*60).In(s.zone).Weekday(); day == time.Saturday || day == time.Sunday {
		minute = 13*60 + 5*s.days.IntN(30)
	}
	lit := s.clock(daysAgo, minute)
	ready := s.readyAt(lit)
	if (mood > s.plan.keenness && daysAgo > eager) || len(ready) == 0 || lit.Add(5*time.Hour).After(s.now.Add(-quiet)) {
		return
	}
	e := s.newEvening(lit)
	flames := s.lightAll(e, ready)
	s.walkAll(e, flames)
	s.putOut(e, flames)
}

// readyAt picks the candles that can be lit, oldest first.
func (s *studio) readyAt(at time.Time) []*lifeline {
	var ready []*lifeline
	for _, c := range s.candles {
		keptForNow := c.litNow > 0 && s.now.Sub(at) < 2*24*time.Hour
		if len(ready) < s.plan.bench && !keptForNow && c.canLight(at) {
			ready = append(ready, c)
		}
	}
	return ready
}

// newEvening draws how a sitting goes.
func (s *studio) newEvening(lit time.Time) evening {
	s.sits++
	rng := s.stream(streamSitting, uint64(s.sits))
	e := evening{lit: lit, rng: rng, id: s.sits, half: 1, length: 4 * 60, air: journal.DraughtNone, place: "north bench"}
	e.room = quantity.Celsius(math.Round(42+1.5*rng.NormFloat64()) / 2)
	if luck := rng.Float64(); luck < 0.06 {
		e.air, e.place = journal.DraughtStrong, "window bench"
	} else if luck < 0.2 {
		e.air, e.place = journal.DraughtSlight, "window bench"
	}
	if rng.Float64() < 0.15 {
		e.length = 3 * 60
	}
	for _, at := range []int{60, 90, 120, 180, 240} {
		e.walks = append(e.walks, min(at+e.delay(), e.length))
	}
	if e.length == 3*60 {
		e.walks = e.walks[:4]
	}
	e.length = min(e.walks[len(e.walks)-1]+rng.IntN(4), 4*60)
	return e
}

// delay is how many minutes a walk comes after its hour; now and then the
// supper was longer.
func (e *evening) delay() int {
	late := e.rng.IntN(7) - 3
	if e.rng.Float64() < 0.05 {
		late += 8 + e.rng.IntN(10)
	}
	return late
}

// lightAll lights candles in one go.
func (s *studio) lightAll(e evening, candles []*lifeline) []*flame {
	s.write(e.lit, Sitting{ID: e.id})
	var flames []*flame
	for _, c := range candles {
		s.burns++
		f := c.strike(journal.Burn{
			Meta: meta(s.burns), Sitting: p(e.id), LitAt: e.lit, Room: p(e.room), Draught: e.air, Place: e.place,
		}, e.length, e.walks)
		s.write(e.lit, f.burn)
		flames = append(flames, f)
	}
	return flames
}

// walkAll walks past the candles; a whole walk, or one candle in it, may be
// forgotten.
func (s *studio) walkAll(e evening, flames []*flame) {
	for i, at := range e.walks {
		forgotten := e.rng.Float64() < 0.02
		for _, f := range flames {
			overlooked := e.rng.Float64() < 0.015
			planned := f.mishap != none
			if at > f.lasts || (i == e.half && f.burn.Number > 2) || ((forgotten || overlooked) && !planned) {
				continue
			}
			c := s.note(f, f.look(at, i == e.half+1), i)
			if i != e.half {
				s.shoot(f, c)
			}
		}
	}
}

// unweighed is how long the newest burns still wait for the scale.
const unweighed = 20 * time.Hour

// putOut ends the sitting. The candles are weighed the next morning, when the
// wax is solid; those of last evening still wait for it.
func (s *studio) putOut(e evening, flames []*flame) {
	l := e.lit.In(s.zone)
	morning := time.Date(l.Year(), l.Month(), l.Day()+1, 9, e.rng.IntN(60), 0, 0, s.zone).UTC()
	for _, f := range flames {
		b := f.out()
		s.write(*b.OutAt, b)
		if s.now.Sub(morning) > unweighed {
			s.write(morning, f.weighed())
		}
	}
}
