package page

import (
	"math"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// picture is the photo with marks and ellipses.
func (m Measuring) picture() MeasurePicture {
	x, wide := m.Photo, m.Input.Wide(m.Photo)
	p := MeasurePicture{Src: "/photos/files/" + x.Hash + ".jpg", Alt: "Photo of " + m.Of.Name, Box: "0 0 " + strconv.Itoa(x.Width) + " " + strconv.Itoa(x.Height),
		Width: strconv.Itoa(wide), Height: strconv.Itoa(max(1, (x.Height*wide+x.Width/2)/x.Width)), Real: strconv.Itoa(x.Width), Fits: m.Input.Shown == 0}
	arm := float64(x.Width) / float64(wide) * crossArm
	for _, l := range []struct {
		stage meltpool.Stage
		line  journal.MarkLine
	}{{meltpool.WallStage, m.Input.Marks.Wall}, {meltpool.PoolStage, m.Input.Marks.Pool}} {
		for _, k := range l.line {
			p.Marks = append(p.Marks, MeasureMark{cross(k, arm), "gauge-" + string(l.stage)})
		}
		if e, err := meltpool.FitMarks(l.stage, marksOf(l.line)); err == nil {
			p.Rings = append(p.Rings, ring(e, "gauge-"+string(l.stage)))
		}
	}
	return p
}

// crossArm is how far a cross reaches each way, in px of the page.
const crossArm = 6

// cross draws a mark.
func cross(k journal.PhotoMark, arm float64) string {
	px := func(v float64) string { return quantity.Number(v, 1) }
	return "M" + px(k.X-arm) + " " + px(k.Y) + "H" + px(k.X+arm) + "M" + px(k.X) + " " + px(k.Y-arm) + "V" + px(k.Y+arm)
}

// ring draws a fitted ellipse.
func ring(e stats.Ellipse, class string) MeasureRing {
	px := func(v float64) string { return quantity.Number(v, 1) }
	cx, cy := px(e.CX), px(e.CY)
	return MeasureRing{CX: cx, CY: cy, RX: px(e.A), RY: px(e.B), Turn: "rotate(" + quantity.Number(e.Angle*180/math.Pi, 2) + " " + cx + " " + cy + ")", Class: class}
}

// marksOf are a photo's marks as the measurement takes them.
func marksOf(l journal.MarkLine) []meltpool.Mark {
	var out []meltpool.Mark
	for _, k := range l {
		out = append(out, meltpool.Mark(k))
	}
	return out
}
