package demo

import (
	"math"
	"math/rand/v2"
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// The rules of noses. How strong a candle smells grows as a power of its load,
// as textbooks say of any smell; how strongly a nose answers is its own.
const (
	hotStrength  = 3.1 // of a load of 8 %, lit, on the scale from 0 to 5
	coldStrength = 2.3
	powerOfLoad  = 0.6
	nosePower    = 0.45 // spread from nose to nose
	noseNoise    = 0.55 // spread from one sniff to the next
	candleScent  = 0.4  // spread from candle to candle
	unsmelled    = 0.03 // chance that a nose leaves a candle out
)

// panel are invented noses; some sign by initials.
var panel = []string{"Ines", "T. O.", "Maren", "Bo", "J. K.", "Wilma"}

// session is one smelling that the season plans.
type session struct {
	daysAgo int // at least; the sitting before that gives the moment
	kind    journal.ThrowKind
	blind   bool
	uncover bool
	cups    int
	noses   int
	minutes int // after lighting, for a hot throw
	room    quantity.CubicMetres
	note    string
}

var sessions = []session{
	{daysAgo: 70, kind: journal.HotThrow, cups: 4, noses: 3, minutes: 95, room: 30, note: "door shut since lighting"},
	{daysAgo: 24, kind: journal.HotThrow, blind: true, uncover: true, cups: 4, noses: 5, minutes: 125, room: 30},
	{daysAgo: 3, kind: journal.ColdThrow, blind: true, cups: 3, noses: 2, room: 30, note: "lids on overnight"},
}

// smellAll holds the planned smellings.
func (s *studio) smellAll() {
	for i, x := range sessions {
		rng := s.stream(streamNose, uint64(i+1))
		if at, of := s.atHand(x); len(of) >= x.cups {
			s.smell(x, journal.ID(i+1), at, of[:x.cups], rng)
		}
	}
}

// atHand finds the moment of a smelling and the candles for it: those of the
// last sitting before the planned day, or the youngest unlit ones that have
// cured.
func (s *studio) atHand(x session) (time.Time, []*lifeline) {
	limit := s.now.AddDate(0, 0, -x.daysAgo)
	if x.kind == journal.ColdThrow {
		at := s.clock(x.daysAgo, 11*60)
		var of []*lifeline
		for _, c := range s.candles {
			if !c.ready.After(at) && !c.over && c.litNow == 0 {
				of = append([]*lifeline{c}, of...)
			}
		}
		return at, of
	}
	return s.sittingBefore(limit, x)
}

// sittingBefore is the last sitting before a moment with enough candles that
// stayed lit until they were smelled.
func (s *studio) sittingBefore(limit time.Time, x session) (time.Time, []*lifeline) {
	lasting := map[time.Time][]journal.ID{}
	for _, e := range s.events {
		b, ok := e.Record.(journal.Burn)
		if ok && b.OutAt != nil && b.MassAfter == nil && b.LitAt.Before(limit) && b.OutAt.Sub(b.LitAt) > time.Duration(x.minutes)*time.Minute {
			lasting[b.LitAt] = append(lasting[b.LitAt], b.Candle)
		}
	}
	var best time.Time
	for lit, of := range lasting {
		if len(of) >= x.cups && lit.After(best) {
			best = lit
		}
	}
	var out []*lifeline
	for _, id := range lasting[best] {
		for _, c := range s.candles {
			if c.record.ID == id {
				out = append(out, c)
			}
		}
	}
	return best.Add(time.Duration(x.minutes) * time.Minute), out
}

// smell writes one smelling: its cups, the scores of every nose, and where it
// is planned the uncovering.
func (s *studio) smell(x session, id journal.ID, at time.Time, of []*lifeline, rng *rand.Rand) {
	record := journal.Smelling{Meta: meta(id), At: at, Kind: x.kind, Blind: x.blind, Room: p(x.room), Note: x.note}
	s.write(at, record)
	strength := make([]float64, len(of))
	codes := rng.Perm(800)
	for i, c := range of {
		s.cups++
		cup := journal.Cup{Meta: meta(s.cups), Smelling: id, Candle: c.record.ID, Code: codeFrom(codes[i])}
		if x.kind == journal.HotThrow {
			cup.Minutes = p(quantity.Minutes(x.minutes))
		}
		s.write(at, cup)
		strength[i] = strengthOf(c, x.kind) + candleScent*rng.NormFloat64()
	}
	first := s.cups - journal.ID(len(of)) + 1
	for n, name := range panel[:x.noses] {
		at = at.Add(time.Duration(4+rng.IntN(5)) * time.Minute)
		s.sniff(name, at, first, strength, n, rng)
	}
	if x.uncover {
		at = at.Add(6 * time.Minute)
		record.Uncovered = &at
		s.write(at, record)
	}
}

// sniff writes what one nose makes of the cups, each nose beginning with
// another.
func (s *studio) sniff(name string, at time.Time, first journal.ID, strength []float64, turn int, rng *rand.Rand) {
	own := nosePower * rng.NormFloat64()
	for i := range strength {
		cup := (i + turn) % len(strength)
		felt := strength[cup] + own + noseNoise*rng.NormFloat64()
		if rng.Float64() < unsmelled {
			continue
		}
		s.scores++
		score := int(math.Round(min(max(felt, journal.LeastThrow), journal.MostThrow)))
		s.write(at, journal.Score{Meta: meta(s.scores), Cup: first + journal.ID(cup), Nose: name, Score: score, Order: p(i + 1), At: at})
	}
}

// strengthOf is how strong a candle smells: more with its load, and lit also
// with the width of its pool.
func strengthOf(c *lifeline, kind journal.ThrowKind) float64 {
	more := math.Pow(c.load/0.08, powerOfLoad)
	if kind == journal.ColdThrow {
		return coldStrength * more
	}
	return hotStrength * more * math.Exp(2*min(c.excess, 0.2))
}

// codeFrom is a three-digit code whose digits are not all alike.
func codeFrom(n int) string {
	c := 100 + n
	if c%111 == 0 {
		c = 987
	}
	return strconv.Itoa(c)
}
