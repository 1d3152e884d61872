// Package demo makes up a season in a candle studio that does not exist: its
// shelf, its pours, its candles and what was read off them. Names of goods are
// invented; the numbers come from a seeded simulation with these rules.
//
// Pools. A pool opens as g(t) = 1 - exp(-k t), k about 0.9 an hour (10 % from
// pairing to pairing, 8 % from burn to burn, in log). Each burn would reach
// exp(theta) of the vessel's width at the target hour if no wall stood in its
// way. A wick that fits has theta 0.13, so that it is full in good time and
// not too soon; each rung of braided cotton above or below adds or takes 7 %,
// each rung of wood 10 %; a rung strays from its ladder by 1.5 %, a candle from
// its pairing by 4 %, a burn from its candle by 2.5 %. A first burn is 2 % narrow,
// a strong draught takes 6 %, and every hundredth of oil above 8 % takes 1 %.
//
// Readings. Widths carry an error of 1 mm and are rounded to the millimetre; a
// pool at the wall all round is ticked full. Flame, depth, carbon, soot, wall
// wax and the vessel's heat follow from how far theta lies from 0.13, with
// noise. An ordinary flame is kept under 70 mm.
//
// Wax. A wick burns 4 to 9 g/h by its rung, a tenth less where two share a pool. The candle is weighed whole, and is
// spent when about 13 mm of wax is left.
//
// Tops. The day after a pour its candles are looked at, by the rules that stand
// beside them in this package: hotter pours sink and frost more, cooler ones
// are rougher; the second wax frosts less; 10 % of oil sweats.
//
// Noses. A candle with 8 % of oil smells as 3.1 of 5 lit and 2.3 unlit, more or
// less with the 0.6th power of its load, and lit also with its pool; candles
// stray by 0.4, noses by 0.45, sniffs by 0.55, and the sum is rounded. Three
// smellings are planned: one open, one blind and uncovered, one still covered.
//
// Casts. Every other pour fills a mould too, one in relief or one with undercuts.
// A softer wax chips and breaks more, an undercut more than a relief, and
// pieces that came out early most; the pieces of one pour share their luck.
//
// Hands. Sittings begin between 17:00 and 18:30 on weekdays and in the
// afternoon at weekends. Checks are hourly, and at half the target hour in a
// candle's first two burns; some are late, some are forgotten. What chance
// would bring in some seasons only is planned: one candle drowns, one flame
// spreads over the pool, one reading is corrected and one withdrawn.
//
// Pictures. Some candles are drawn as a camera would have seen them, with the
// pool, the flame, the carbon, the soot and the wall wax that the check says.
//
// The same seed, moment and zone give the same season. The package refuses to
// read the clock, to touch files, and to pass its figures off as measured: they
// are not facts about candles.
package demo

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/sketch"
)

// Season is what happened in the invented studio, in order of time.
type Season struct {
	Events []Event
	// Together is how far apart two events may lie and still be written in one
	// transaction; zero gives each moment its own.
	Together time.Duration
}

// Event is one thing that was written down at one moment. Its record is a
// journal.Settings, Wax, Fragrance, Vessel, Ladder, Wick, Pour, Candle, Burn,
// Check, SetCheck, Smelling, Cup, Score, Mould or Cast, a Sitting, a Photo, a Withdrawal or a
// journal.Verdict, which has no figures. IDs count within the season; a record whose
// ID came before is a correction.
type Event struct {
	At     time.Time
	Record any
}

// Sitting opens a sitting that later burns refer to.
type Sitting struct{ ID journal.ID }

// Photo attaches a drawn picture to a set check or a check.
type Photo struct {
	ID    journal.ID
	Of    journal.Noun
	OfID  journal.ID
	Scene sketch.Scene
	Seed  uint64 // of the drawing
}

// Withdrawal takes back a record that was written before.
type Withdrawal struct {
	Noun journal.Noun
	ID   journal.ID
	Why  string
}

// NewSeason is about five months of a studio up to now, when five candles are
// lit.
func NewSeason(seed uint64, now time.Time, zone *time.Location) Season {
	return newStudio(seed, now, zone, seasonPlan()).live()
}

// Counts says how many candles, burns and checks were written, withdrawn ones
// left out.
func (s Season) Counts() (candles, burns, checks int) {
	seen := map[key]bool{}
	for _, e := range s.Events {
		switch r := e.Record.(type) {
		case journal.Candle:
			seen[key{journal.NounCandle, r.ID}] = true
		case journal.Burn:
			seen[key{journal.NounBurn, r.ID}] = true
		case journal.Check:
			seen[key{journal.NounCheck, r.ID}] = true
		case Withdrawal:
			delete(seen, key{r.Noun, r.ID})
		}
	}
	for k := range seen {
		switch k.noun {
		case journal.NounCandle:
			candles++
		case journal.NounBurn:
			burns++
		default:
			checks++
		}
	}
	return candles, burns, checks
}

// Photos are the season's photos in order of time.
func (s Season) Photos() []Photo {
	var out []Photo
	for _, e := range s.Events {
		if p, is := e.Record.(Photo); is {
			out = append(out, p)
		}
	}
	return out
}

// key names a record within the season.
type key struct {
	noun journal.Noun
	id   journal.ID
}
