package chart

import (
	"cmp"
	"slices"
	"strings"
)

// band draws a fitted curve, cut where it leaves the plot.
func (g *Growth) band(b GrowthBand) BandShape {
	var upper, lower, curve string
	for _, p := range b.Points {
		if !g.x.Inside(p.Hour) {
			continue
		}
		x, step := g.x.Map(p.Hour), "L"
		if curve == "" {
			step = "M"
		}
		upper += step + at(x, g.level(p.High))
		curve += step + at(x, g.level(p.Mid))
		lower = "L" + at(x, g.level(p.Low)) + lower
	}
	if curve == "" {
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

// name sets the burns' names beside their last readings: first the burns that
// the page is about, then the others from the top of the chart to its foot.
func (g *Growth) name(s GrowthSpec, spots [][]spot) {
	order := make([]int, len(s.Burns))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if s.Burns[a].Current != s.Burns[b].Current {
			if s.Burns[a].Current {
				return -1
			}
			return 1
		}
		return cmp.Compare(height(spots[a]), height(spots[b]))
	})
	for _, i := range order {
		g.nameOne(i, s.Burns[i].Label, spots[i])
	}
}

// height is that of the last reading; 0 when there is none.
func height(spots []spot) float64 {
	if len(spots) == 0 {
		return 0
	}
	return spots[len(spots)-1].y
}

// nameOne sets one burn's name, with a leader where it had to move away.
func (g *Growth) nameOne(i int, label string, spots []spot) {
	if len(spots) == 0 || label == "" {
		return
	}
	last := spots[len(spots)-1]
	w, ok := g.crowd.settle(g.inOrder(beside(last.x, last.y, shortened(label, 0.26*g.crowd.sheet.w-9)), last.y))
	if !ok {
		g.Unlabelled++
		return
	}
	g.Burns[i].Name = w.text
	middle := w.text.box.y + lineHigh/2
	g.named = append(g.named, [2]float64{last.y, middle})
	if middle-last.y > 8 || last.y-middle > 8 {
		end := w.text.box.x - 2
		if w.text.Anchor == "end" {
			end = w.text.box.x + w.text.box.w + 2
		}
		g.Burns[i].Leader = "M" + at(last.x, last.y) + "L" + at(end, middle)
	}
}

// inOrder makes a place dearer for each name that would then stand above
// another although its mark stands below the other's.
func (g *Growth) inOrder(wishes []wish, mark float64) []wish {
	for i := range wishes {
		middle := wishes[i].text.box.y + lineHigh/2
		for _, n := range g.named {
			if (mark-n[0])*(middle-n[1]) < 0 {
				wishes[i].away += 15
			}
		}
	}
	return wishes
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
