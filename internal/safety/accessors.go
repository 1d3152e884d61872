package safety

import (
	"math"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Limits are the limits that hold in one studio.
type Limits struct{ changed map[string]float64 }

// NewLimits takes the limits that were changed, by key, in the unit of their
// kind; the rest are the defaults. A number that is no limit at all (not
// above nothing, or not finite) is passed over.
func NewLimits(changed map[string]float64) Limits {
	l := Limits{map[string]float64{}}
	for _, x := range table {
		if v, ok := changed[x.Key]; ok && v > 0 && !math.IsInf(v, 1) {
			l.changed[x.Key] = v
		}
	}
	return l
}

// Value is the limit that holds, in the unit of its kind; false for a key
// that no limit has.
func (l Limits) Value(key string) (float64, bool) {
	if v, ok := l.changed[key]; ok {
		return v, true
	}
	for _, x := range table {
		if x.Key == key {
			return x.Default, true
		}
	}
	return 0, false
}

// Changed reports whether the studio changed the limit.
func (l Limits) Changed(key string) bool { _, ok := l.changed[key]; return ok }

// Source says where the limit that holds comes from.
func (l Limits) Source(key string) string {
	if l.Changed(key) {
		return "set in this studio"
	}
	for _, x := range table {
		if x.Key == key {
			return sourceText(x)
		}
	}
	return ""
}

func sourceText(x Limit) string {
	if x.Source == x.Status {
		return x.Source
	}
	return x.Source + " (" + x.Status + ")"
}

func (l Limits) at(key string) float64 { v, _ := l.Value(key); return v }

// FlameHard is the flame height that must not be exceeded.
func (l Limits) FlameHard() quantity.Millimetres { return quantity.Millimetres(l.at(keyFlameHard)) }

// FlameTall is the flame height above which to take care.
func (l Limits) FlameTall() quantity.Millimetres { return quantity.Millimetres(l.at(keyFlameTall)) }

// FlameSmoke is the flame height from which candle flames may smoke.
func (l Limits) FlameSmoke() quantity.Millimetres { return quantity.Millimetres(l.at(keyFlameSmoke)) }

// FlameHardIn is the hardest flame limit in one vessel: its own where it has one.
func (l Limits) FlameHardIn(v journal.Vessel) quantity.Millimetres {
	if v.FlameLimit != nil {
		return *v.FlameLimit
	}
	return l.FlameHard()
}

// WallHot is the wall temperature above which to take care, by material.
func (l Limits) WallHot(m journal.Material) quantity.Celsius {
	if m == journal.Metal {
		return quantity.Celsius(l.at(keyMetalHot))
	}
	return quantity.Celsius(l.at(keyWallHot))
}

// WallStopIn is the wall temperature at which to put the candle out: the
// vessel's own where it has one, else by its material.
func (l Limits) WallStopIn(v journal.Vessel) quantity.Celsius {
	switch {
	case v.WallLimit != nil:
		return *v.WallLimit
	case v.Material == journal.Metal:
		return quantity.Celsius(l.at(keyMetalStop))
	}
	return quantity.Celsius(l.at(keyWallStop))
}

// LongestBurn is how long a candle stays lit at most.
func (l Limits) LongestBurn() quantity.Hours { return quantity.Hours(l.at(keyLongestBurn)) }

// CheckEvery is the time between two checks.
func (l Limits) CheckEvery() quantity.Hours { return quantity.Hours(l.at(keyCheckEvery)) }

// Rest is the shortest rest between two burns.
func (l Limits) Rest() quantity.Hours { return quantity.Hours(l.at(keyRest)) }

// RestAdvised is the rest that is better.
func (l Limits) RestAdvised() quantity.Hours { return quantity.Hours(l.at(keyRestAdvised)) }

// AfterSmoke is the longest mean after-smoke.
func (l Limits) AfterSmoke() quantity.Seconds { return quantity.Seconds(l.at(keyAfterSmoke)) }

// WaxLeft is the height of wax at which the last burn ends.
func (l Limits) WaxLeft() quantity.Millimetres { return quantity.Millimetres(l.at(keyWaxLeft)) }

// Trim is the length that wicks are trimmed to.
func (l Limits) Trim() quantity.Millimetres { return quantity.Millimetres(l.at(keyTrim)) }

// TrimMost is the longest that a trimmed wick may be.
func (l Limits) TrimMost() quantity.Millimetres { return quantity.Millimetres(l.at(keyTrimMost)) }

// PoolDeep is the pool depth above which the wick is probably too strong.
func (l Limits) PoolDeep() quantity.Millimetres { return quantity.Millimetres(l.at(keyPoolDeep)) }

// PoolVeryDeep is the pool depth that makers do not accept.
func (l Limits) PoolVeryDeep() quantity.Millimetres {
	return quantity.Millimetres(l.at(keyPoolVeryDeep))
}

// RateBand is the usual burn rate of one wick, from lowest to highest.
func (l Limits) RateBand() (low, high quantity.GramsPerHour) {
	return quantity.GramsPerHour(l.at(keyRateLow)), quantity.GramsPerHour(l.at(keyRateHigh))
}

// RoomBand is the temperature of the room that test burns are meant for, from
// coolest to warmest.
func (l Limits) RoomBand() (cool, warm quantity.Celsius) {
	return quantity.Celsius(l.at(keyRoomCool)), quantity.Celsius(l.at(keyRoomWarm))
}
