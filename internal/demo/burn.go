package demo

import (
	"math"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// flame is one burn of one candle, with the truth that no reading shows.
type flame struct {
	candle *lifeline
	burn   journal.Burn
	theta  float64
	growth float64
	tilt   float64 // how much longer than wide the pool is, in log
	rate   float64
	lasts  int // minutes
	ending journal.Ending
	mishap mishapKind
	now    bool // it is lit at the end of the season
}

// strike lights a candle in a sitting. walks are the minutes after lighting at
// which the bench is walked, length the minutes until it is put out.
func (c *lifeline) strike(b journal.Burn, length int, walks []int) *flame {
	c.burns++
	b.Candle, b.Number = c.record.ID, c.burns
	b.Trim = p(quantity.Millimetres(math.Round(12+1.2*c.rng.NormFloat64()) / 2))
	b.MassBefore = p(c.scale())
	f := &flame{
		candle: c, burn: b, lasts: length, ending: journal.Snuffed,
		theta:  c.theta + burnSD*c.rng.NormFloat64(),
		growth: c.growth * math.Exp(burnGrowthSD*c.rng.NormFloat64()),
		tilt:   tiltSD * c.rng.NormFloat64(),
		rate:   c.rate * math.Exp(burnRate*c.rng.NormFloat64()),
	}
	if b.Number == 1 {
		f.theta += firstBurn
	}
	if b.Draught == journal.DraughtStrong {
		f.theta += inDraught
	}
	f.runOut()
	f.meet(walks)
	return f
}

// runOut ends the burn when the wax gets low. A rest that would last under
// half an hour is not lit again for: the candle is called spent now.
func (f *flame) runOut() {
	left := (f.candle.wax - f.candle.floor) / f.rate * 60
	if left < float64(f.lasts)+36 {
		f.lasts, f.ending = int(min(left, float64(f.lasts))), journal.Spent
	}
}

// meet brings about what the plan holds for this burn.
func (f *flame) meet(walks []int) {
	for _, m := range f.candle.mishaps {
		if m.rung == f.candle.rung && m.copy == f.candle.copy && m.burn == f.burn.Number {
			f.mishap = m.what
		}
	}
	switch f.mishap {
	case drowns:
		f.lasts, f.ending = walks[0]+34, journal.WentOut
	case spreads:
		f.lasts, f.ending = walks[2]+1, journal.PutOutUnsafe
		f.candle.over = true
	}
}

// look is one check, some minutes after lighting.
func (f *flame) look(minutes int, smell bool) journal.Check {
	hours := float64(minutes) / 60
	c := journal.Check{Burn: f.burn.ID, At: f.burn.LitAt.Add(time.Duration(minutes) * time.Minute)}
	f.readPool(&c, hours)
	f.readSigns(&c, hours)
	if smell {
		c.HotThrow = f.smell()
	}
	switch {
	case f.mishap == drowns:
		c.Flame, c.Soot, c.Odd = p(quantity.Millimetres(5)), "none", []journal.Odd{journal.FlameWentWeak, journal.Drowning}
		c.Note = "Wax has run in over the wick."
	case f.mishap == spreads && minutes+1 >= f.lasts:
		c.Flame, c.Soot, c.Mushroom = p(quantity.Millimetres(83)), "marks", "shedding"
		c.Odd = []journal.Odd{journal.FlameOnPool, journal.Debris}
		c.Note = "Carbon fell off the wick and caught. Smothered with the lid."
	}
	return c
}

// out is the burn once the candle is dark.
func (f *flame) out() journal.Burn {
	end := f.burn.LitAt.Add(time.Duration(f.lasts) * time.Minute)
	f.burn.OutAt, f.burn.Ending = &end, f.ending
	if f.ending != journal.WentOut {
		smoke := 13 * math.Exp(1.5*f.candle.excess+0.25*f.candle.rng.NormFloat64())
		f.burn.AfterSmoke = p(quantity.Seconds(math.Round(smoke)))
	}
	if f.mishap == drowns {
		f.burn.Note = "Poured off a spoonful before the next burn."
	}
	f.candle.wax -= f.rate * float64(f.lasts) / 60
	f.candle.lastOut = end
	f.candle.over = f.candle.over || f.ending == journal.Spent
	return f.burn
}

// weighed is the burn once the wax was solid and the candle back on the scale.
func (f *flame) weighed() journal.Burn {
	f.burn.MassAfter = p(f.candle.scale())
	return f.burn
}
