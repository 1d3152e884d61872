package compare

import (
	"math"

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
	var burns [][]CurvePoint
	for _, l := range s.Logs {
		row, _ := s.row(l.Candle.ID)
		for _, b := range row.Burns {
			if c := fitted(b); len(c) > 1 {
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

// fitted are the widths of the curve of one burn at its readings, from nothing
// at lighting; empty where the burn does not tell.
func fitted(b standings.BurnRow) []CurvePoint {
	if !b.SawRim() || len(b.Fit.Checks) != len(b.Readings) || math.IsNaN(b.Fit.Theta) {
		return nil
	}
	out := []CurvePoint{{}}
	for i, r := range b.Readings {
		if w := float64(b.Fit.Checks[i].Width); r.Hour > out[len(out)-1].Hour {
			out = append(out, CurvePoint{r.Hour, w, w, w})
		}
	}
	return out
}

// meanAt is the mean of several burns at an hour, straight between their
// readings, with how many burns reach so far.
func meanAt(burns [][]CurvePoint, h quantity.Hours) (p CurvePoint, n int) {
	p = CurvePoint{Hour: h, Low: math.Inf(1), High: math.Inf(-1)}
	sum := 0.0
	for _, c := range burns {
		w, ok := widthAt(c, h)
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

func widthAt(c []CurvePoint, h quantity.Hours) (float64, bool) {
	for i := 1; i < len(c); i++ {
		if a, b := c[i-1], c[i]; h <= b.Hour+hair {
			return a.Mid + (b.Mid-a.Mid)*float64((h-a.Hour)/(b.Hour-a.Hour)), true
		}
	}
	return 0, false
}
