package demo

import (
	"time"

	"rimward/internal/journal"
)

// How the two sittings of now stand: minutes since lighting, and the walks
// made. The second hour's walk of the first sitting is not finished: its last
// candle is a few minutes late.
var (
	earlier = evening{half: -1, length: 4 * 60, walks: []int{61, 119, 181}, air: journal.DraughtNone, place: "side table"}
	current = evening{half: 1, length: 4 * 60, walks: []int{62, 91, 123}, air: journal.DraughtNone, place: "north bench"}
)

const (
	earlierSince = 3*60 + 12
	currentSince = 2*60 + 7
)

// lightNow lights the candles that burn at this moment.
func (s *studio) lightNow() {
	s.burning(earlier, earlierSince, sittingLater, -1)
	s.burning(current, currentSince, sittingNow, 2)
}

// burning lights the marked candles some minutes ago and walks past them; the
// last candle is still waiting for the walk with the given place.
func (s *studio) burning(e evening, since, mark, unfinished int) {
	s.sits++
	e.id, e.rng, e.room = s.sits, s.stream(streamSitting, uint64(s.sits)), 21
	e.lit = s.now.Add(-time.Duration(since) * time.Minute)
	var lit []*lifeline
	for _, c := range s.candles {
		if c.litNow == mark {
			lit = append(lit, c)
		}
	}
	flames := s.lightAll(e, lit)
	for _, f := range flames {
		f.now = true
	}
	for i, at := range e.walks {
		for j, f := range flames {
			if i != unfinished || j < len(flames)-1 {
				c := s.note(f, f.look(at, at > 110 && at < 130), i)
				if i != e.half {
					s.shoot(f, c)
				}
			}
		}
	}
}
