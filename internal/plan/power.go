package plan

import (
	"math"

	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// PowerSpec is a comparison of two levels of one thing: two loads, two pour
// temperatures.
type PowerSpec struct {
	Candles int // of each level, over all that else differs
	Melts   int // of each level, where the levels cannot share one; 0: they share melts
	Burns   int // of each candle
	Held    int // effects of other things that also differ from melt to melt, held while these are compared: levels less one
	Width   quantity.Millimetres
	Spreads
}

// The level and the power that comparisons are judged at (common practice;
// Cohen, Statistical Power Analysis for the Behavioral Sciences, 1988).
const (
	powerLevel  = 0.95
	powerWanted = 0.80
)

// mostWanted is the most of each level that anybody is told to make.
const mostWanted = 200

// Differences are the differences of pool width that a comparison is asked
// about, as shares of the width.
var Differences = []quantity.Fraction{0.03, 0.05, 0.10}

// Power is what a comparison of two levels can show.
type Power struct {
	// Units are the things of each level that are independent of each other:
	// candles, or melts where every level is poured from melts of its own.
	Units  int
	ByMelt bool
	// FromMelt is false where a difference between levels cannot be told from
	// one between melts, for there is one melt of each. Chances are then those
	// of telling these candles apart, whatever the reason.
	FromMelt bool
	// MeltsAlike says that how far melts differ among themselves is not known,
	// and was taken as nothing though melts are counted: chances are then the
	// most that can be hoped for.
	MeltsAlike bool
	SD         float64 // of a unit's mean log width
	Chances    []PowerChance
	Level      float64 // the confidence the difference is held to
}

// PowerChance is the chance of telling one true difference.
type PowerChance struct {
	Difference quantity.Fraction // of the width
	Chance     float64
	// Wanted is how many units of each level give a chance of 80 %, as many for
	// each level of what is held; Enough is false where that is more than 200.
	Wanted int
	Enough bool
}

// PowerOf reckons with the two-sided Student test of two means (Cohen 1988,
// chapter 2): that one factor's effect does not depend on another, that what
// else differs is balanced over the levels, and that the spreads are true. It
// is empty below one candle or one burn, or without a width.
func PowerOf(s PowerSpec) Power {
	p := Power{Level: powerLevel, Units: s.Candles, FromMelt: s.Melts != 1}
	if s.Candles < 1 || s.Burns < 1 || !(s.Width > 0) {
		return p
	}
	p.SD = s.candleSD(s.Burns, s.Width)
	if s.Melts > 1 {
		p.Units, p.ByMelt, p.MeltsAlike = s.Melts, true, !(s.Melt > 0)
		p.SD = math.Hypot(s.Melt, p.SD/math.Sqrt(float64(s.Candles)/float64(s.Melts)))
	}
	held := 0
	if p.ByMelt {
		held = s.Held
	}
	for _, d := range Differences {
		effect := math.Log1p(float64(d)) / p.SD
		c := PowerChance{Difference: d, Chance: stats.MeansPowerHeld(effect, powerLevel, p.Units, held)}
		c.Wanted, c.Enough = stats.ValuesWantedHeld(effect, powerLevel, powerWanted, mostWanted, held)
		c.Wanted = shares(c.Wanted, held+1) * (held + 1)
		c.Enough = c.Enough && c.Wanted <= mostWanted
		p.Chances = append(p.Chances, c)
	}
	return p
}

// Contrast is one thing that a round changes, with what comparing two of its
// levels can show.
type Contrast struct {
	Factor Factor
	Levels int
	Candles,
	Melts int // of each level
	Power
}

// Contrasts are the comparisons of width that a round allows by design: of loads
// and of pour temperatures. For wicks, Chances tells more; vessels are judged
// each by its own wall, which no difference of widths tells. There are none
// where the round cannot be drawn.
func Contrasts(s Spec, burns int, width quantity.Millimetres, spreads Spreads) []Contrast {
	if len(Problems(s)) > 0 {
		return nil
	}
	f := s.Factors
	levels := map[Factor]int{ByLoad: len(f.Loads), ByPourAt: len(f.PourAts)}
	kinds := max(len(f.Loads), 1) * max(len(f.PourAts), 1)
	var out []Contrast
	for _, factor := range Varies(f) {
		n := levels[factor]
		if n < 2 {
			continue
		}
		c := Contrast{Factor: factor, Levels: n, Candles: count(f) * s.Copies / n, Melts: s.meltsOfKind() * kinds / n}
		c.Power = PowerOf(PowerSpec{Candles: c.Candles, Melts: c.Melts, Held: kinds/n - 1, Burns: burns, Width: width, Spreads: spreads})
		out = append(out, c)
	}
	return out
}
