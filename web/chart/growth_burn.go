package chart

import (
	"math"
	"strings"
)

// band draws a fitted curve, cut where it leaves the plot.
func (g *Growth) band(b GrowthBand) BandShape {
	var upper, lower, curve string
	step, pen := "M", "M"
	for _, p := range b.Points {
		if !g.x.Inside(p.Hour) {
			continue
		}
		x := g.x.Map(p.Hour)
		upper += step + at(x, g.level(p.High))
		lower = "L" + at(x, g.level(p.Low)) + lower
		step = "L"
		if p.Mid > g.y.Max {
			pen = "M" // above the plot there is no curve
			continue
		}
		curve += pen + at(x, g.level(p.Mid))
		pen = "L"
	}
	if upper == "" {
		return BandShape{}
	}
	return BandShape{Area: upper + lower + "Z", Curve: curve}
}

// level is the height of a width, held inside the plot.
func (g *Growth) level(width float64) float64 {
	return g.y.Map(clamp(width, g.y.Min, g.y.Max))
}

// burn draws the i-th burn.
func (g *Growth) burn(i int, b GrowthBurn, spots []spot) BurnShape {
	shape := BurnShape{Class: "chart-burn"}
	if b.Current {
		shape.Class = "chart-burn chart-now"
	}
	for _, p := range spots {
		if p.out {
			shape.Out += cross(p.x, p.y)
			continue
		}
		if p.full {
			shape.Full += "M" + at(p.x, p.foot) + "V" + px(p.y-fullTick)
		}
		shape.Markers += marker(i, p.x, p.y)
		if shape.Line == "" {
			shape.Line = "M" + at(p.x, p.foot)
		} else {
			shape.Line += "L" + at(p.x, p.foot)
		}
	}
	return shape
}

// dotted draws one burn of many: a dot for each reading, and a short tick on
// the wall for a full one.
func dotted(spots []spot) BurnShape {
	shape := BurnShape{Class: "chart-burn chart-cloud"}
	for _, p := range spots {
		switch {
		case p.out:
			shape.Out += cross(p.x, p.y)
		case p.full:
			shape.Full += "M" + at(p.x, p.foot) + "V" + px(p.foot-fullTick)
		default:
			shape.Markers += circle(p.x, p.y, dotRadius)
		}
	}
	return shape
}

// dotRadius is the size of a reading among many.
const dotRadius = 2.2

// name sets the burns' names beside their last readings, those first that the
// page is about.
func (g *Growth) name(s GrowthSpec, spots [][]spot) {
	lasts := make([]*point, len(spots))
	for i, ps := range spots {
		if len(ps) > 0 && s.Burns[i].Label != "" {
			lasts[i] = &ps[len(ps)-1].point
		}
	}
	heights := spread(lasts)
	for _, current := range []bool{true, false} {
		for i, last := range lasts {
			if last != nil && s.Burns[i].Current == current {
				g.nameOne(&g.Burns[i], s.Burns[i].Label, *last, heights[i])
			}
		}
	}
}

// nameOne sets one burn's name at about a height, with a leader from the last
// reading where the name had to move away from it.
func (g *Growth) nameOne(b *BurnShape, label string, last point, height float64) {
	w, ok := g.crowd.settle(beside(last.x, height, shortened(label, 0.26*g.crowd.sheet.w-9)))
	if !ok {
		g.Unlabelled++
		return
	}
	b.Name = w.text
	b.Leader = leader(last, w.text)
}

// leader is a line from a mark to a name that had to move away from it, or
// nothing.
func leader(from point, name Text) string {
	middle := name.box.y + lineHigh/2
	if math.Abs(middle-from.y) <= 8 {
		return ""
	}
	end := name.box.x - 2
	if name.Anchor == "end" {
		end = name.box.x + name.box.w + 2
	}
	return "M" + at(from.x, from.y) + "L" + at(end, middle)
}

// leftOut says how many readings are shown but do not count.
func (s GrowthSpec) leftOut() string {
	n := 0
	for _, b := range s.Burns {
		for _, p := range b.Points {
			if p.LeftOut {
				n++
			}
		}
	}
	return leftOutWords(n)
}

func leftOutWords(n int) string {
	if n == 0 {
		return ""
	}
	return "Crossed: " + count(n, "reading", "readings") + " left out of the reckoning."
}

func droppedWords(n int) string {
	if n == 0 {
		return ""
	}
	return "Not drawn: " + count(n, "point", "points") + " without a usable number."
}

func unlabelledWords(n int) string {
	if n == 0 {
		return ""
	}
	return count(n, "burn is", "burns are") + " drawn without a name for want of room; the table names them all."
}

// sentences joins those of its parts that say something.
func sentences(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, " ")
}
