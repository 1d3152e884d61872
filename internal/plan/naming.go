package plan

import (
	"math"
	"math/rand/v2"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/standings"
)

// RungAt is one wick of a round: a rung of a ladder, so many in a vessel.
type RungAt struct {
	Ladder journal.ID
	Wicks  int // ladders are apart for each number of wicks
	Rung   int
}

// NamingSpec is a comparison of wicks in one vessel, wax and load.
type NamingSpec struct {
	Rungs []RungAt
	Wall  meltpool.Wall
	Burns int // of each candle
	Seed  int64
	Spreads
}

// Naming is what a round of so many candles of each wick can tell, from
// simulated rounds. The chances are rough: see Error and the words of Chances.
type Naming struct {
	Candles int     // of each wick
	First   float64 // chance that the wick ranked first is truly the closest
	Near    float64 // chance that it is, or misses by at most a point of closeness more
	Named   float64 // chance that one is named at all, at a chance of 0.8 or more
	Error   float64 // standard error of First by the number of rounds, at most
	Rounds  int     // simulated
}

// How the rounds are simulated.
const (
	simulated     = 1500
	fewRounds     = 200    // of a large round, for which
	burnsInAll    = 400000 // would be passed otherwise
	draws         = 60     // of what is believed after a round, for the chance of being the closest
	nameAt        = standings.SureEnough
	nearMiss      = 0.01 // one point of closeness
	burnsThatTell = 12   // more tell next to nothing
	ruleOfWall    = 0.5  // mm: nearer than this to the wall, a pool is called full
)

// Chances simulates rounds with 1, 2 … most candles of each wick. In each
// round the rung that fits lies anywhere on the tested part of every ladder,
// from half a rung below the lowest to half a rung above the highest; rungs,
// candles and burns differ by the spreads; pools open at the usual rate along
// the usual curve and are read every hour until full. The readings are then
// weighed as the standings weigh them, but for short cuts that keep it quick:
// the spreads, the curve and the ladder's usual rate are taken as known, a pool
// that is full says no more than that it is, and what is believed of a rung is
// a normal distribution. Rungs are ranked by their miss. Held to the whole
// arithmetic over some hundred rounds, the chances agree to a few hundredths.
//
// It is empty below two wicks, one candle or one burn, or without a wall.
func Chances(s NamingSpec, most int) []Naming {
	if len(s.Rungs) < 2 || most < 1 || s.Burns < 1 || !(s.Wall.Width > 0) || !(s.Wall.Target > 0) || !(s.Rate > 0) {
		return nil
	}
	w := newWorld(s)
	return w.play(most, min(simulated, max(fewRounds, burnsInAll/(len(s.Rungs)*most*w.Burns))))
}

// world is what simulated rounds have in common.
type world struct {
	NamingSpec
	rng     *rand.Rand
	rate    float64   // logarithm
	looks   []look    // from the last to the first
	ladders [][]int   // indices of rungs, by ladder
	middle  []float64 // middle rung of each ladder
	tau     float64   // of a burn of a next candle
	start   float64   // the middle of the band of pools that are full in time
	// bandTurns is how much that band widens with the logarithm of the rate.
	bandTurns float64
}

func newWorld(s NamingSpec) *world {
	s.Burns, s.RatePairing = min(s.Burns, burnsThatTell), max(s.RatePairing, nearRate)
	w := &world{NamingSpec: s, rng: rand.New(rand.NewPCG(uint64(s.Seed), forChances)),
		rate: math.Log(s.Rate), tau: math.Hypot(s.Candle, s.Burn)}
	w.start = w.band(w.rate) / 2
	w.bandTurns = (w.band(w.rate+nearRate) - w.band(w.rate-nearRate)) / (2 * nearRate)
	w.looks = looksOf(s.Wall, w.rate)
	at := map[RungAt]int{}
	for i, r := range s.Rungs {
		r.Rung = 0
		k, ok := at[r]
		if !ok {
			k = len(w.ladders)
			at[r], w.ladders = k, append(w.ladders, nil)
		}
		w.ladders[k] = append(w.ladders[k], i)
	}
	for _, l := range w.ladders {
		sum := 0
		for _, i := range l {
			sum += s.Rungs[i].Rung
		}
		w.middle = append(w.middle, float64(sum)/float64(len(l)))
	}
	return w
}

// play simulates rounds and counts how each number of candles does.
func (w *world) play(most, rounds int) []Naming {
	out := make([]Naming, most)
	for range rounds {
		truth := w.truth()
		seen := w.burnAll(truth, most)
		for n := range out {
			first, named := w.judge(seen, n+1)
			miss, best := truth[first].miss, math.Inf(1)
			for _, t := range truth {
				best = min(best, t.miss)
			}
			out[n].First += one(miss == best)
			out[n].Near += one(miss <= best+nearMiss)
			out[n].Named += one(named)
		}
	}
	for n := range out {
		o, all := &out[n], float64(rounds)
		o.Candles, o.Rounds = n+1, rounds
		o.First, o.Near, o.Named = o.First/all, o.Near/all, o.Named/all
		o.Error = math.Sqrt(max(o.First*(1-o.First), 1/all) / all)
	}
	return out
}

func one(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

// band is how far, in log width, a pool that is just full at half of the target
// hour lies above one that is just full at the hour.
func (w *world) band(rate float64) float64 {
	return usualCurve.Ahead(rate, w.Wall.Target, w.Wall.Target/2)
}

// usualCurve is how pools usually open: as fast as there is left to go.
const usualCurve meltpool.Curve = 1
