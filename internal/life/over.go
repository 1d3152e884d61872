package life

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Over is how fast the candles of a pairing burn.
type Over struct {
	Candles          int                   // with at least one weighed burn
	Burns            int                   // weighed ones
	Mean             quantity.GramsPerHour // over candles, each counting alike
	Range            Interval              // Student's t over candles
	Slowest, Fastest quantity.GramsPerHour
}

// RatesOver takes the overall rates of several candles together.
func RatesOver(logs []journal.CandleLog) Over {
	var o Over
	var rates []float64
	for _, l := range logs {
		r := RatesOf(l)
		if !r.Any() {
			continue
		}
		rates = append(rates, float64(r.Overall))
		o.Candles, o.Burns = o.Candles+1, o.Burns+len(r.Burns)
	}
	if o.Candles == 0 {
		return o
	}
	s := stats.Summarise(rates)
	o.Mean, o.Range = quantity.GramsPerHour(s.Mean), ofMean(s)
	o.Slowest, o.Fastest = quantity.GramsPerHour(s.Min), quantity.GramsPerHour(s.Max)
	return o
}
