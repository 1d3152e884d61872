package compare

import (
	"math"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings"
)

// CurvePoint is the width of the pool at one hour of burning if no wall stopped
// it, in mm.
type CurvePoint struct {
	Hour           quantity.Hours
	Low, Mid, High float64
}

// curveStep is how finely curves are read.
const curveStep quantity.Hours = 0.125

// Curve is how the pool of a side opens. Of a pairing it is what is expected of
// its next candle, with what eight in ten keep within; where no reading was
// short of the wall it is a lower bound, and all three are that. Of a candle it
// is the mean of the curves fitted to its burns, with the lowest and the
// highest of them, as far as half of its burns were read. It is empty where
// nothing tells.
func Curve(s Side, to quantity.Hours) []CurvePoint {
	if s.Whole {
		return expected(s.Pairing, to)
	}
	var burns []burnCurve
	for _, l := range s.Logs {
		row, _ := s.row(l.Candle.ID)
		for _, b := range row.Burns {
			if c := fitted(b); len(c.hours) > 0 {
				burns = append(burns, c)
			}
		}
	}
	var out []CurvePoint
	for h := quantity.Hours(0); h <= to+hair; h += curveStep {
		p, n := meanAt(burns, h)
		if n == 0 || 2*n < len(burns) {
			break
		}
		out = append(out, p)
	}
	return out
}

// expected is the curve of a pairing's next candle.
func expected(p *standings.Pairing, to quantity.Hours) []CurvePoint {
	if !p.Enough() {
		return nil
	}
	var hours []quantity.Hours
	for h := curveStep; h <= to+hair; h += curveStep {
		hours = append(hours, h)
	}
	var out []CurvePoint
	for i, b := range p.Band(hours) {
		c := CurvePoint{hours[i], b.P10, b.P50, b.P90}
		if p.AtLeast {
			c.Mid, c.High = b.P10, b.P10
		}
		out = append(out, c)
	}
	return out
}

// burnCurve is the curve fitted to one burn, as far as it was read: what the
// fitted widths are of a pool that opens at the burn's rate, from nothing at
// lighting. Between readings it is taken to open at that rate too.
type burnCurve struct {
	logRate float64
	hours   []quantity.Hours
	limits  []float64 // mm, of the fitted width over how far the pool had opened
}

// fitted is the curve of a burn; empty where the burn does not tell.
func fitted(b standings.BurnRow) burnCurve {
	c := burnCurve{logRate: b.Fit.LogRate}
	if !b.SawRim() || len(b.Fit.Checks) != len(b.Readings) || math.IsNaN(b.Fit.Theta) {
		return c
	}
	for i, r := range b.Readings {
		if opened := plain.Opened(c.logRate, r.Hour); opened > 0 {
			c.hours = append(c.hours, r.Hour)
			c.limits = append(c.limits, float64(b.Fit.Checks[i].Width)/opened)
		}
	}
	return c
}

// plain is the growth curve whose rate falls steadily as it nears its limit.
const plain meltpool.Curve = 1

// at is the width at an hour; false past the last reading.
func (c burnCurve) at(h quantity.Hours) (float64, bool) {
	for i, t := range c.hours {
		if h > t+hair {
			continue
		}
		limit := c.limits[i]
		if i > 0 && t > c.hours[i-1] {
			share := float64((h - c.hours[i-1]) / (t - c.hours[i-1]))
			limit = c.limits[i-1] + share*(limit-c.limits[i-1])
		}
		return limit * plain.Opened(c.logRate, h), true
	}
	return 0, false
}

// meanAt is the mean of several burns at an hour, with how many burns reach so
// far.
func meanAt(burns []burnCurve, h quantity.Hours) (p CurvePoint, n int) {
	p = CurvePoint{Hour: h, Low: math.Inf(1), High: math.Inf(-1)}
	sum := 0.0
	for _, c := range burns {
		w, ok := c.at(h)
		if !ok {
			continue
		}
		n++
		sum += w
		p.Low, p.High = min(p.Low, w), max(p.High, w)
	}
	p.Mid = sum / float64(n)
	return p, n
}
