package life

import (
	"math"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// The label's bound: at least LabelShare of all candles last longer, at
// LabelConfidence, and it rests on LabelNeeds candles or more.
const (
	LabelShare      = 0.90
	LabelConfidence = 0.90
	LabelNeeds      = 3
)

// Label is the burn time that may stand on a label: a bound that at least nine
// candles in ten of the pairing outlast, at 90 % confidence, if their lives
// scatter as a normal distribution does.
type Label struct {
	Ended   []Total // the candles burned to the end that it rests on
	Others  []Total // the rest, each with the reason
	Missing int     // how many more burned to the end are needed; 0 when there is enough
	Pours   int     // that the ended candles come from

	Mean, Shortest, Longest quantity.Hours // of the ended candles; 0 without any
	Bound                   quantity.Hours // never below 0; 0 without enough
	Factor                  float64        // how many standard deviations it lies below the mean
	SD                      quantity.Hours
	Doubts                  []string
}

// Enough reports whether there is a bound.
func (l Label) Enough() bool { return l.Missing == 0 }

// Useless reports whether the candles scatter so much that the bound says
// nothing: it is not above zero.
func (l Label) Useless() bool { return l.Enough() && l.Bound <= 0 }

// LabelTime works out the label's burn time over the candles of one pairing.
// stop is the height of wax at which the last burn ends. The bound is the
// one-sided normal tolerance bound (NIST/SEMATECH e-Handbook of Statistical
// Methods, 7.2.6.3).
func LabelTime(logs []journal.CandleLog, stop quantity.Millimetres) Label {
	var l Label
	var hours, filled []float64
	for _, log := range logs {
		t := TotalOf(log, stop)
		if !t.Ended() {
			l.Others = append(l.Others, t)
			continue
		}
		l.Ended, hours = append(l.Ended, t), append(hours, float64(t.Hours))
		if log.Candle.Filled != nil {
			filled = append(filled, float64(*log.Candle.Filled))
		}
	}
	l.Missing, l.Pours = max(LabelNeeds-len(l.Ended), 0), poursOf(l.Ended)
	l.measure(hours)
	l.doubts(filled)
	return l
}

// measure fills in the figures over the candles that ended.
func (l *Label) measure(hours []float64) {
	if len(hours) == 0 {
		return
	}
	s := stats.Summarise(hours)
	l.Mean, l.Shortest, l.Longest = quantity.Hours(s.Mean), quantity.Hours(s.Min), quantity.Hours(s.Max)
	if !l.Enough() {
		return
	}
	b, err := stats.LowerBound(hours, LabelShare, LabelConfidence)
	if err != nil {
		return // the bound stays at nothing, which Useless says
	}
	l.Bound, l.Factor, l.SD = quantity.Hours(max(b.Bound, 0)), b.Factor, quantity.Hours(b.SD)
}

// few is the count below which nobody can see whether lives scatter as the
// bound takes them to (app default).
const few = 10

// labelPours is how many pours there should be before a time is printed (app
// default): fewer show nothing of how pours differ.
const labelPours = 3

// poursOf counts the pours that candles come from.
func poursOf(ts []Total) int {
	pours := map[journal.ID]bool{}
	for _, t := range ts {
		pours[t.Candle.Pour] = true
	}
	return len(pours)
}

// ofPours says what the number of pours takes from the bound; "" when every
// candle has a pour of its own. The factor takes the candles for independent
// draws from all that will be made, and candles of one pour are not.
func (l *Label) ofPours() string {
	least := strconv.Itoa(labelPours) + " pours before a time is printed."
	switch {
	case l.Pours == 1:
		return "All these candles come from 1 pour. Other pours may last differently, and nothing here shows by how much: the bound holds for candles of that pour only. Burn candles of at least " + least
	case l.Pours < labelPours:
		return "These candles come from only " + strconv.Itoa(l.Pours) + " pours, too few to show how far pours differ: the bound may stand too high. Burn candles of at least " + least
	case l.Pours < len(l.Ended):
		return "These candles come from " + strconv.Itoa(l.Pours) + " pours, so some share one. Candles of one pour may be more alike than those of others; if they are, the bound stands too high."
	}
	return ""
}

// unlike is how far filled masses may differ from their mean before it is said
// (app default).
const unlike = 0.05

// doubts adds what is to be said about the bound in words.
func (l *Label) doubts(filled []float64) {
	if !l.Enough() {
		return
	}
	say := func(when bool, words string) {
		if when {
			l.Doubts = append(l.Doubts, words)
		}
	}
	pours := l.ofPours()
	say(pours != "" && l.Pours < labelPours, pours)
	say(l.Useless(), "These candles lasted so differently that the bound comes to nothing. Find out why before a time is printed.")
	say(len(l.Ended) < few, "With so few candles the bound stands far below their mean: every further candle burned to the end brings it up if they last alike. It takes their lives to scatter evenly about the mean, and so few cannot show whether they do.")
	say(pours != "" && l.Pours >= labelPours, pours)
	say(l.SD == 0, "All lasted exactly as long: how far others may lie from them is not known.")
	say(apartFilled(filled), "The candles were not filled alike; a label's time holds for one filled mass.")
	say(l.any(func(t Total) bool { return t.TooMuchLeft }), "Some were called spent with clearly more wax than a last burn should leave: they might have lasted longer.")
	say(l.any(func(t Total) bool { return t.TooFar }), "Some were burned clearly lower than a last burn should go: those hours do not belong on a label.")
	say(l.any(func(t Total) bool { return t.Stopped > 0 }), "Some went out by themselves or were put out for safety on the way. Settle that before a time is printed.")
}

func (l *Label) any(is func(Total) bool) bool {
	for _, t := range l.Ended {
		if is(t) {
			return true
		}
	}
	return false
}

func apartFilled(filled []float64) bool {
	s := stats.Summarise(filled)
	return s.N > 1 && math.Max(s.Max-s.Mean, s.Mean-s.Min) > unlike*s.Mean
}
