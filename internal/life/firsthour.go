package life

import (
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// FirstHour tells the first hour of a burn from the hours after it. Burns are
// weighed before and after only, so it is read off burns of different length:
// a line through what they lost against their hours past the first stands, at
// none, at what the first hour alone takes, and climbs with what every hour
// after it takes. That published candles differ in their first hour is why it
// is looked at (five pillar candles, 4.4 to 7.3 g/h against 4.7 to 7.1 g/h;
// abstract read).
type FirstHour struct {
	Why  string // why it cannot be told apart, in words; "" when it can
	N    int    // burns
	Hour quantity.GramsPerHour
	// HourRange, LaterRange and ExtraRange are the intervals of the figures.
	HourRange  Interval
	Later      quantity.GramsPerHour // in every hour after the first
	LaterRange Interval
	Extra      quantity.GramsPerHour // the first hour's above the later ones'
	ExtraRange Interval
}

// Told reports whether the first hour can be told apart at all.
func (f FirstHour) Told() bool { return f.Why == "" }

// What telling the first hour apart asks for (app defaults).
const (
	firstHourBurns  = 4
	firstHourSpread = 1.0  // h between the shortest and the longest burn
	firstHourSure   = 0.25 // the most the interval of the extra may be, to each side, as a share of the rate
)

// firstHour tells the first hour apart, or says why it cannot.
func firstHour(burns []BurnRate) FirstHour {
	var past, lost, hours []float64
	for _, b := range burns {
		if b.Hours >= 1 {
			past, lost, hours = append(past, float64(b.Hours)-1), append(lost, float64(b.Lost)), append(hours, float64(b.Hours))
		}
	}
	f := FirstHour{N: len(past)}
	s := stats.Summarise(hours)
	switch {
	case f.N < firstHourBurns:
		f.Why = "it takes four burns that were weighed before and after, some an hour or so long"
	case s.Max-s.Min < firstHourSpread:
		f.Why = "all burns were about as long as each other; put one out after an hour and weigh it, now and then"
	default:
		f.fit(past, lost, hours)
	}
	return f
}

// fit draws the line twice: from one hour on, and from lighting on, where it
// stands at what the first hour takes more than the others.
func (f *FirstHour) fit(past, lost, hours []float64) {
	one, err := stats.FitLine(past, lost, Level)
	zero, err2 := stats.FitLine(hours, lost, Level)
	if err != nil || err2 != nil {
		f.Why = "the weighings cannot be laid on a line"
		return
	}
	f.Hour, f.HourRange = quantity.GramsPerHour(one.Intercept), around(one.Intercept, one.InterceptSE, f.N-2)
	f.Later, f.LaterRange = quantity.GramsPerHour(one.Slope), ofSlope(one)
	f.Extra, f.ExtraRange = quantity.GramsPerHour(zero.Intercept), around(zero.Intercept, zero.InterceptSE, f.N-2)
	if f.ExtraRange.Alike {
		f.Why = "the burns lie on one line without any scatter, too alike to tell how far others may lie"
		return
	}
	if f.Later <= 0 || (f.ExtraRange.High-f.ExtraRange.Low)/2 > firstHourSure*float64(f.Later) && !f.ExtraRange.Apart() {
		f.Why = "the burns scatter too much, or are too alike in length; put one out after an hour and weigh it, now and then"
	}
}
