package standings

import (
	"slices"

	"gonum.org/v1/gonum/stat"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// pairing works out one pairing from its candles, which come in order.
func pairing(logs []journal.CandleLog, opt Options) Pairing {
	m := logs[0].Made
	p := Pairing{Vessel: m.Vessel, Wick: m.Wick, Ladder: m.Ladder, Wicks: m.Candle.Wicks, Settings: settings(logs)}
	for _, l := range logs {
		p.Rows = append(p.Rows, candleRow(l, opt.Ruler))
	}
	p.average()
	p.Full = fullHours(p.Rows)
	p.Faults = safety.FaultsOf(logs, opt.Limits, opt.Units)
	if n := p.Full.TooSoon; n > 0 {
		p.Faults = append(p.Faults, safety.Fault{Name: "full before half the target hour", Burns: n, Of: p.Full.Seen + p.Full.NotSeen})
	}
	for _, l := range logs {
		p.Hard = append(p.Hard, safety.OfLevel(safety.All(l, opt.Limits, opt.Units), safety.Hard)...)
	}
	p.NotYet = p.notYet()
	p.Warnings = p.warnings()
	return p
}

// candleRow reads one candle's burns and averages those that tell.
func candleRow(l journal.CandleLog, ruler quantity.Millimetres) CandleRow {
	row := CandleRow{Candle: l.Candle}
	var ratios []float64
	for _, b := range l.Burns {
		r := burnRow(b, l.Vessel, ruler)
		row.Burns = append(row.Burns, r)
		if r.Used {
			ratios = append(ratios, r.Ratio)
		}
	}
	if len(ratios) > 0 {
		mean := stat.Mean(ratios, nil)
		row.Mean = &mean
	}
	return row
}

// average takes the mean of the candles' means, so that a candle of one burn
// counts as much as a candle of eight, and the span of the burns.
func (p *Pairing) average() {
	var means, ratios []float64
	for _, c := range p.Rows {
		p.AllBurns += len(c.Burns)
		if c.Mean != nil {
			means = append(means, *c.Mean)
		}
		for _, b := range c.Burns {
			if b.Used {
				ratios = append(ratios, b.Ratio)
			}
		}
	}
	p.Candles, p.Burns = len(means), len(ratios)
	if len(means) == 0 {
		return
	}
	mean, low, high := stat.Mean(means, nil), slices.Min(ratios), slices.Max(ratios)
	width := quantity.Millimetres(mean) * p.Vessel.Width()
	left := meltpool.LeftAtWall(p.Vessel.Width(), width)
	p.Ratio, p.Min, p.Max, p.Width, p.Left = &mean, &low, &high, &width, &left
}

// fullHours gathers when the pools became full. Burns that are kept out
// altogether say nothing of it.
func fullHours(rows []CandleRow) FullHours {
	var f FullHours
	for _, c := range rows {
		for _, b := range c.Burns {
			switch {
			case !b.Full.Seen:
			case b.Full.Never:
				f.NotSeen++
				f.Within = max(f.Within, b.Full.To)
			default:
				f.add(b.Full)
			}
			if b.TooSoon {
				f.TooSoon++
			}
		}
	}
	return f
}

func (f *FullHours) add(w meltpool.Window) {
	if f.Seen == 0 || w.From < f.From {
		f.From = w.From
	}
	f.To = max(f.To, w.To)
	f.Seen++
}
