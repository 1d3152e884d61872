package demo

import (
	"math/rand/v2"
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sketch"
)

// The size of the drawn photos: as large as they can be without keeping the
// person who starts the demo waiting.
const (
	photoWide = 800 // px
	photoHigh = 600
)

// shootSet photographs a candle as a set check found it, if the plan says so.
func (s *studio) shootSet(k journal.SetCheck, c *lifeline) {
	if slices.Contains(c.pictured, asSet) {
		s.shot(Photo{Of: journal.NounSetCheck, OfID: k.ID}, k.At, c, func(*rand.Rand) sketch.Scene { return c.whole() })
	}
}

// shoot photographs a burning candle as a check found it, if the plan says so.
func (s *studio) shoot(f *flame, c journal.Check) {
	wanted := slices.Contains(f.candle.pictured, f.burn.Number)
	if wanted || (f.now && slices.Contains(f.candle.pictured, burningNow)) {
		s.shot(Photo{Of: journal.NounCheck, OfID: c.ID}, c.At, f.candle,
			func(rng *rand.Rand) sketch.Scene { return f.scene(c, rng) })
	}
}

// shot writes a photo down, taken from wherever the hand happened to be.
func (s *studio) shot(p Photo, at time.Time, c *lifeline, scene func(*rand.Rand) sketch.Scene) {
	s.photos++
	rng := s.stream(streamPhoto, uint64(s.photos))
	p.ID, p.Seed, p.Scene = s.photos, uint64(c.record.ID), scene(rng)
	p.Scene.Camera = aimed(rng, p.Scene.Vessel)
	s.write(at, p)
}

// aimed is a camera at arm's length that holds the whole vessel, and looks more
// steeply into a deep one.
func aimed(rng *rand.Rand, v sketch.Vessel) sketch.Camera {
	any := func(low, high float64) float64 { return low + (high-low)*rng.Float64() }
	distance, tilt := any(310, 350), min(any(0.16, 0.42), 15/v.Below)
	return sketch.Camera{
		Distance: distance, Tilt: tilt, Turn: any(-0.35, 0.35),
		AimX: any(-4, 4), AimY: any(-9, -3) + tilt*v.Below/2, Focal: 0.46 * (distance - v.Below) / v.Length,
	}
}
