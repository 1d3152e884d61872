package meltpool

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"rimward/internal/grid"
)

// Tables keeps how likely readings are in one vessel, each worked out once for
// every width that the pool may have had. It is not safe for use by several
// goroutines at once.
type Tables struct {
	wall Wall
	eye  Eye
	made map[Reading]*table

	curve  Curve // for which rates were worked out
	centre float64
	rates  [grid.Rates]rate
}

// NewTables is an empty set of tables for one vessel and one way of reading.
func NewTables(w Wall, e Eye) *Tables {
	return &Tables{wall: w, eye: e, made: map[Reading]*table{}}
}

// of is the table of a reading, whatever its hour.
func (t *Tables) of(r Reading) *table {
	key := Reading{Ratio: r.Ratio, Full: r.Full}
	if r.Full {
		key.Ratio = 1
	}
	tab := t.made[key]
	if tab == nil {
		tab = t.newTable(key)
		t.made[key] = tab
	}
	return tab
}

// A table has fine steps within each step of the grid; between them it is read
// along straight lines, which with the usual eye costs less than a thousandth
// of a chance in vessels up to 100 mm, and less than half a hundredth at 400 mm.
const (
	phases = 8
	fine   = grid.WidthStep / phases
	shut   = -7.0 // log width of a pool that has not opened to speak of
	sure   = 7.0  // standard deviations beyond which a reading is certain
)

// table is how likely one reading is for log widths from a start upwards in
// fine steps, kept by phase so that values a grid step apart lie side by side.
type table struct {
	start      float64
	values     [phases][]float64
	below, far float64 // for narrower pools than the table's, and for wider ones
}

func (t *Tables) newTable(r Reading) *table {
	d, s, half := float64(t.wall.Width), float64(t.eye.Error), float64(t.eye.Ruler)/2
	y := r.Ratio * d
	from, to := y-half-sure*s, y+half+sure*s
	tab := &table{start: shut, below: t.chance(r, 0), far: t.chance(r, to)}
	if low := from / d; low > math.Exp(shut) {
		tab.start = math.Log(low)
		tab.below = t.chance(r, from)
	}
	n := int(math.Ceil((math.Log(to/d) - tab.start) / fine))
	for i := range n + phases - n%phases {
		tab.values[i%phases] = append(tab.values[i%phases], t.chance(r, d*math.Exp(tab.start+float64(i)*fine)))
	}
	return tab
}

// chance is how likely the reading is when the pool is d mm wide: a slip says
// nothing, the rest is a normal error rounded to the ruler's step, and a full
// reading is a pool at least as wide as the wall, within half a step.
func (t *Tables) chance(r Reading, d float64) float64 {
	p := t.fits(r, d)
	return (1-t.eye.Slip)*p + t.eye.Slip*float64(t.eye.Ruler/t.wall.Width)
}

// fits is how likely the reading is without a slip.
func (t *Tables) fits(r Reading, d float64) float64 {
	w, s, half := float64(t.wall.Width), float64(t.eye.Error), float64(t.eye.Ruler)/2
	if r.Full {
		return distuv.UnitNormal.CDF((d - w + half) / s)
	}
	y := r.Ratio * w
	return distuv.UnitNormal.CDF((y+half-d)/s) - distuv.UnitNormal.CDF((y-half-d)/s)
}

// Fits is how likely a reading is, slips aside, when the pool is so wide at
// its hour, as a share of the inner width.
func (t *Tables) Fits(r Reading, share float64) float64 {
	return t.fits(r, share*float64(t.wall.Width))
}

// times multiplies a row by the table, for a pool that is ahead of its width
// at the target hour by a log width.
func (t *table) times(row *grid.Line, ahead float64) {
	if math.IsInf(ahead, -1) || math.IsNaN(ahead) {
		row.Scale(t.below)
		return
	}
	at := (grid.Width(0) + ahead - t.start) / fine
	first := math.Floor(at)
	values, next, q := t.from(int(first))
	share := at - first
	from, to := clampIndex(-q), clampIndex(len(values)-q)
	for i := range row[:from] {
		row[i] *= t.below
	}
	for i := from; i < to; i++ {
		row[i] *= values[i+q] + share*(next[i+q]-values[i+q])
	}
	for i := to; i < grid.Widths; i++ {
		row[i] *= t.far
	}
}

// from are the table's values from a fine step on, a grid step apart, and
// those one fine step further; the i-th of the grid stands at i+q.
func (t *table) from(step int) (values, next []float64, q int) {
	q, phase := step/phases, step%phases
	if phase < 0 {
		q, phase = q-1, phase+phases
	}
	if phase == phases-1 {
		return t.values[phase][:len(t.values[0])-1], t.values[0][1:], q
	}
	return t.values[phase], t.values[phase+1], q
}

func clampIndex(i int) int { return min(max(i, 0), grid.Widths) }
