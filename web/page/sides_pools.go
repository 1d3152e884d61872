package page

import (
	"math"
	"slices"
	"strconv"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/chart"
)

// SidesPoolRow is the burn of one number across the columns.
type SidesPoolRow struct {
	Label string
	Cells []SidesPoolCell
}

// SidesPoolCell is one column's pools of a burn, each in the place of its
// hour.
type SidesPoolCell struct {
	Pools   []SidesPool
	Photos  []PhotoFigure // that stand at no pool
	Missing string        // instead of pools
	More    string        // what found no place
}

// SidesPool is one pool; without a name its place is empty.
type SidesPool struct {
	Disc       chart.Disc
	Hour, Text string
	Ends       string // the narrowest and the widest of several
	LeftOut    bool
	Photos     []PhotoFigure
	Seen       bool
}

// pools fills in the pools by burn and hour.
func (p *SidesPage) pools(ps compare.Pools, things []SidesThing, v View) {
	sides := sidesOf(things)
	p.Hours = "sides-places-" + strconv.Itoa(min(len(ps.Hours), mostPlaces))
	if len(sides) > roomyColumns {
		p.Hours += " sides-cramped"
	}
	whole := false
	for _, s := range sides {
		whole = whole || s.Whole
	}
	for _, b := range ps.Burns {
		row := SidesPoolRow{Label: "Burn " + strconv.Itoa(b.Number)}
		for i, c := range b.Cells {
			cell := sidesPoolCell(c, ps.Hours, sides[i], v)
			cell.place(things[i].burnPhotos(b.Number), c)
			row.Cells = append(row.Cells, cell)
		}
		p.Pools = append(p.Pools, row)
	}
	p.ownPhotos(things)
	p.Reads = "Pool widths in " + v.Units.Length.Word() + ", by time since lighting to the nearest " + stepText(ps.Hours) + "; the same time stands in the same place of every column."
	if whole {
		p.Reads += " A pairing’s pool is the middle one of its candles, with the narrowest and the widest as dotted rings where there are several."
	}
}

func sidesPoolCell(c compare.PoolCell, hours []quantity.Hours, s compare.Side, v View) SidesPoolCell {
	out := SidesPoolCell{}
	seen := false
	for i, x := range c.Pools {
		seen = seen || x.N > 0
		pool := sidesPool(x, s, v)
		pool.Hour = placeText(hours[i])
		out.Pools = append(out.Pools, pool)
	}
	switch {
	case c.Burned == 0:
		return SidesPoolCell{Missing: "not lit"}
	case !seen:
		return SidesPoolCell{Missing: "no width read"}
	}
	if c.More > 0 {
		out.More = "and " + counted(c.More, "more check", "more checks")
	}
	return out
}

// sidesPool draws one pool, a candle's as it was read, a pairing's as the
// middle of several.
func sidesPool(x compare.Pool, s compare.Side, v View) SidesPool {
	if x.N == 0 {
		return SidesPool{}
	}
	p := SidesPool{Seen: true}
	vessel := sideVessel(s)
	if x.Check != nil {
		p.Disc = discOf(vessel, s.Logs[0].Candle.Wicks, x.Check, 0, v)
		p.Text, _ = poolText(*x.Check, v)
		if x.Full > 0 {
			p.Text = "full"
		}
		p.LeftOut = x.Check.LeftOut
		return p
	}
	p.Disc = middleDisc(x, vessel, s.Pairing.Wicks)
	p.Text = ratioText(x.Ratio, vessel, v)
	if x.Low < x.High {
		p.Ends = spanText(ratioText(x.Low, vessel, v), ratioText(x.High, vessel, v))
	}
	return p
}

// middleDisc draws the middle of several pools, with their ends where they are
// apart.
func middleDisc(x compare.Pool, vessel journal.Vessel, wicks int) chart.Disc {
	s := chart.DiscSpec{Shape: string(vessel.Shape), Length: float64(vessel.Length()), Width: float64(vessel.InnerWidth), Wicks: wicks, Decorative: true,
		Full: x.Ratio == 1}
	s.PoolA, s.PoolB = s.Length*x.Ratio, s.Width*x.Ratio
	if x.Low < x.High {
		s.Low, s.High = x.Low, x.High
	}
	return chart.NewDisc(s)
}

func ratioText(ratio float64, vessel journal.Vessel, v View) string {
	if ratio == 1 {
		return "full"
	}
	return v.length(quantity.Millimetres(ratio) * vessel.Width()).Number
}

// mostPlaces is the largest number of places that a cell is laid out for.
const mostPlaces = 10

// placeText names a place in a cell: 1 h, 1½ h.
func placeText(h quantity.Hours) string {
	whole, half := math.Modf(float64(h))
	switch {
	case half == 0:
		return tight(h.Decimal().String())
	case whole == 0:
		return "½\u00a0h"
	}
	return quantity.Number(whole, 0) + "½\u00a0h"
}

// stepText is how finely the places tell times apart.
func stepText(hours []quantity.Hours) string {
	for _, h := range hours {
		if _, half := math.Modf(float64(h)); half != 0 {
			return "half hour"
		}
	}
	return "hour"
}

// roomyColumns is how many columns leave room for the ends of several pools in
// numbers beside their rings.
const roomyColumns = 4

// place puts photos of checks at their pools, and all others below them.
func (c *SidesPoolCell) place(photos []PhotoFigure, from compare.PoolCell) {
	for _, f := range photos {
		i := slices.IndexFunc(from.Pools, func(x compare.Pool) bool { return f.Check != 0 && x.Check != nil && x.Check.ID == f.Check })
		if i < 0 || i >= len(c.Pools) {
			c.Photos = append(c.Photos, f)
			continue
		}
		c.Pools[i].Photos = append(c.Pools[i].Photos, f)
	}
}

// burnPhotos are the photos of a candle's burn and of its checks.
func (t SidesThing) burnPhotos(number int) []PhotoFigure {
	if t.Log == nil || len(t.Photos) == 0 {
		return nil
	}
	for _, b := range t.Log.Burns {
		if b.Burn.Number == number && !b.Burn.IsGone() {
			return PhotosOfBurns(t.Photos, *t.Log)[b.Burn.ID]
		}
	}
	return nil
}

// ownPhotos adds a row for photos of the candles themselves, where there are
// any.
func (p *SidesPage) ownPhotos(things []SidesThing) {
	row, any := SidesPoolRow{Label: "The candle itself"}, false
	for _, t := range things {
		var c SidesPoolCell
		if t.Log != nil {
			c.Photos = PhotosOfBurns(t.Photos, *t.Log)[0]
		}
		any = any || len(c.Photos) > 0
		row.Cells = append(row.Cells, c)
	}
	if any {
		p.Pools = append(p.Pools, row)
	}
}
