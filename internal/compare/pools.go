package compare

import (
	"cmp"
	"math"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// Pools are the pools of every side by burn and by hour, so that an hour of one
// side stands beside the same hour of all others.
type Pools struct {
	Hours []quantity.Hours // since lighting, the same for every cell
	Burns []PoolBurn
}

// PoolBurn is the burn of one number of every side.
type PoolBurn struct {
	Number int
	Cells  []PoolCell // one for each side
}

// PoolCell is one side's burn, or the burns of that number of its candles.
type PoolCell struct {
	Burned int    // how many burns
	Pools  []Pool // one for each hour; empty where nothing was read at it
	More   int    // checks with a width that found no place, being nearer to no hour
}

// Pool is the pool as it was read about one hour.
type Pool struct {
	N     int            // readings; 0 for none
	Full  int            // of them that were full
	Hour  quantity.Hours // when exactly; of several their mean
	Check *journal.Check // the reading itself, of a candle
	// Ratio is the middle reading as a share of the inner width, full as 1,
	// with the lowest and the highest.
	Ratio, Low, High float64
}

// sight is one check of a burn that measured a width.
type sight struct {
	side, burn int
	hour       quantity.Hours
	ratio      float64
	full       bool
	check      journal.Check
}

// mostHours is how many half hours are told apart; where more were read at,
// whole hours are shown.
const mostHours = 6

// PoolsOf lays out the pools of the sides. Readings go to the nearest half
// hour, or whole hour where there are many, and of two in one place the one
// nearer to it stays.
func PoolsOf(sides []Side, ruler quantity.Millimetres) Pools {
	all := sights(sides, ruler)
	step := quantity.Hours(0.5)
	if len(hoursOf(all, step)) > mostHours {
		step = 1
	}
	p := Pools{Hours: hoursOf(all, step)}
	for _, n := range burnNumbers(sides) {
		row := PoolBurn{Number: n}
		for i, s := range sides {
			row.Cells = append(row.Cells, p.cell(s, i, n, all, step))
		}
		p.Burns = append(p.Burns, row)
	}
	return p
}

// sights are all checks that measured a width; of pairings without those that
// do not count.
func sights(sides []Side, ruler quantity.Millimetres) (out []sight) {
	for i, s := range sides {
		for _, l := range s.Logs {
			v := meltpool.Vessel{Length: l.Vessel.Length(), Width: l.Vessel.InnerWidth}
			for _, b := range l.Burns {
				for _, c := range b.Checks {
					ratio, _, ok := meltpool.Reach(v, c.WidthA, c.WidthB, c.Full)
					if !ok || c.At.Before(b.Burn.LitAt) || (s.Whole && !counts(b, c)) {
						continue
					}
					full := meltpool.IsFull(v, c.WidthA, c.WidthB, c.Full, ruler)
					out = append(out, sight{i, b.Burn.Number, quantity.Hours(c.At.Sub(b.Burn.LitAt).Hours()), ratio, full, c})
				}
			}
		}
	}
	return out
}

// counts reports whether a check's width speaks for its pairing.
func counts(b journal.BurnLog, c journal.Check) bool {
	return journal.WidthsCount(b) == "" && journal.ReadingCounts(b.Burn, c) == ""
}

// slot is the place of an hour, never before the first.
func slot(h, step quantity.Hours) quantity.Hours { return max(step, h.ToNearest(step)) }

// hoursOf lists the places that something was read at.
func hoursOf(all []sight, step quantity.Hours) []quantity.Hours {
	var out []quantity.Hours
	for _, s := range all {
		if h := slot(s.hour, step); !slices.Contains(out, h) {
			out = append(out, h)
		}
	}
	slices.Sort(out)
	return out
}

func burnNumbers(sides []Side) []int {
	var out []int
	for _, s := range sides {
		for _, l := range s.Logs {
			for _, b := range l.Burns {
				if !slices.Contains(out, b.Burn.Number) {
					out = append(out, b.Burn.Number)
				}
			}
		}
	}
	slices.Sort(out)
	return out
}

// cell gathers one side's readings of one burn.
func (p Pools) cell(s Side, side, burn int, all []sight, step quantity.Hours) PoolCell {
	var c PoolCell
	for _, l := range s.Logs {
		for _, b := range l.Burns {
			if b.Burn.Number == burn {
				c.Burned++
			}
		}
	}
	mine := slices.DeleteFunc(slices.Clone(all), func(x sight) bool { return x.side != side || x.burn != burn })
	for _, h := range p.Hours {
		there := slices.DeleteFunc(slices.Clone(mine), func(x sight) bool { return slot(x.hour, step) != h })
		pool, more := gather(there, h, s.Whole)
		c.Pools, c.More = append(c.Pools, pool), c.More+more
	}
	return c
}

// gather makes one pool of the readings about an hour: the nearest of a
// candle's, the middle of a pairing's.
func gather(there []sight, h quantity.Hours, whole bool) (p Pool, more int) {
	if len(there) == 0 {
		return Pool{}, 0
	}
	away := func(x sight) float64 { return math.Abs(float64(x.hour - h)) }
	slices.SortStableFunc(there, func(a, b sight) int { return cmp.Or(cmp.Compare(away(a), away(b)), cmp.Compare(a.hour, b.hour)) })
	if !whole {
		more, there = len(there)-1, there[:1]
		p.Check = &there[0].check
	}
	for _, x := range there {
		p.Hour += x.hour / quantity.Hours(len(there))
		if x.full {
			p.Full++
		}
	}
	p.N = len(there)
	p.Ratio, p.Low, p.High = middle(there)
	return p, more
}

// middle is the median of readings with their ends, a full one counted as the
// wall.
func middle(there []sight) (mid, low, high float64) {
	var rs []float64
	for _, x := range there {
		if x.full {
			x.ratio = 1
		}
		rs = append(rs, x.ratio)
	}
	slices.Sort(rs)
	n := len(rs)
	return (rs[(n-1)/2] + rs[n/2]) / 2, rs[0], rs[n-1]
}
