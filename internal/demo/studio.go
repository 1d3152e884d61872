package demo

import (
	"math/rand/v2"
	"sort"
	"time"

	"rimward/internal/journal"
)

// studio is the simulation under way.
type studio struct {
	seed    uint64
	now     time.Time // to the minute
	zone    *time.Location
	plan    plan
	days    *rand.Rand // the calendar's luck
	events  []Event
	candles []*lifeline
	pours   int
	burns   journal.ID
	checks  journal.ID
	sits    journal.ID
	cups    journal.ID
	scores  journal.ID
	photos  journal.ID
	casts   journal.ID
	sets    journal.ID
}

// Streams keep the luck of one thing apart from that of another, so that a
// candle burns the same whatever its neighbours do.
const (
	streamDays uint64 = iota << 56
	streamPairing
	streamCandle
	streamSitting
	streamPour
	streamNose
	streamPhoto
)

func (s *studio) stream(kind, of uint64) *rand.Rand {
	return rand.New(rand.NewPCG(s.seed, kind|of))
}

func newStudio(seed uint64, now time.Time, zone *time.Location, pl plan) *studio {
	s := &studio{seed: seed, now: now.Truncate(time.Minute), zone: zone, plan: pl}
	s.days = s.stream(streamDays, 0)
	return s
}

// live goes through the days up to now.
func (s *studio) live() Season {
	s.stock(s.clock(s.plan.days, 10*60))
	for ago := s.plan.days - 1; ago >= 0; ago-- {
		s.askOn(ago)
		s.pourOn(ago)
		s.sitOn(ago)
		s.judgeOn(ago)
	}
	s.lightNow()
	s.smellAll()
	s.castSome()
	s.settleAll()
	sort.SliceStable(s.events, func(i, j int) bool { return s.events[i].At.Before(s.events[j].At) })
	return Season{Events: s.events, Together: s.plan.together}
}

// clock is a local time of day, in minutes, some days ago.
func (s *studio) clock(daysAgo, minutes int) time.Time {
	l := s.now.In(s.zone)
	return time.Date(l.Year(), l.Month(), l.Day()-daysAgo, minutes/60, minutes%60, 0, 0, s.zone).UTC()
}

// write notes a record at a moment.
func (s *studio) write(at time.Time, record any) {
	s.events = append(s.events, Event{At: at, Record: record})
}
