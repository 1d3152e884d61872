package form

import (
	"math"
	"net/url"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// MarksInput is where the marking of a photo stands, as an address carries it.
type MarksInput struct {
	Marks   journal.PhotoMarks
	Pool    bool   // the pool's edge is marked now, not the wall
	Shown   int    // px that the picture is wide on the page; 0 as wide as fits
	Added   bool   // a mark came with the address and is the last of its line
	X, Y    string // what was typed as a place
	Problem string // why the place was not marked
}

// PictureWidths are the widths at which a photo is shown for marking, in px of
// the page; the first one shrinks with the page.
var PictureWidths = []int{800, 1600, 2400}

// ReadMarks reads an address of the marking of a photo; ok is false for one
// that nobody was given. Without lines the marks kept with the photo stand.
func ReadMarks(q url.Values, p journal.Photo) (in MarksInput, ok bool) {
	in = MarksInput{Marks: p.Marks, Pool: q.Get("line") == "pool", X: strings.TrimSpace(q.Get("x")), Y: strings.TrimSpace(q.Get("y"))}
	if q.Has("wall") || q.Has("pool") {
		if in.Marks, ok = ReadMarkLines(q, p); !ok {
			return in, false
		}
	}
	if n, err := strconv.Atoi(q.Get("shown")); err == nil {
		for _, w := range PictureWidths[1:] {
			if n == w {
				in.Shown = n
			}
		}
	}
	in.point(q, p)
	return in, true
}

// ReadMarkLines reads both lines of marks.
func ReadMarkLines(q url.Values, p journal.Photo) (m journal.PhotoMarks, ok bool) {
	wall, okWall := journal.ParseMarkLine(q.Get("wall"))
	pool, okPool := journal.ParseMarkLine(q.Get("pool"))
	m = journal.PhotoMarks{Wall: wall, Pool: pool}
	return m, okWall && okPool && p.Takes(m)
}

// Line is the line that is marked now.
func (in *MarksInput) Line() *journal.MarkLine {
	if in.Pool {
		return &in.Marks.Pool
	}
	return &in.Marks.Wall
}

// point adds the place that was pointed at on the picture or typed.
func (in *MarksInput) point(q url.Values, p journal.Photo) {
	switch {
	case q.Has("at.x") && q.Has("at.y"):
		x, errX := strconv.Atoi(q.Get("at.x"))
		y, errY := strconv.Atoi(q.Get("at.y"))
		if errX != nil || errY != nil || (x == 0 && y == 0) {
			in.Problem = "Point at a place on the picture, or type it below."
			return
		}
		scale := float64(p.Width) / float64(in.Wide(p))
		in.add(p, min((float64(x)+0.5)*scale, float64(p.Width)), min((float64(y)+0.5)*scale, float64(p.Height)))
	case in.X != "" || in.Y != "":
		x, errX := strconv.ParseFloat(strings.ReplaceAll(in.X, ",", "."), 64)
		y, errY := strconv.ParseFloat(strings.ReplaceAll(in.Y, ",", "."), 64)
		if errX != nil || errY != nil || math.IsNaN(x+y) {
			in.Problem = "Write both numbers in pixels of the picture, such as 640 and 480."
			return
		}
		in.add(p, x, y)
	}
}

// Wide is how wide the picture is shown, in px of the page.
func (in *MarksInput) Wide(p journal.Photo) int {
	if in.Shown == 0 {
		return min(PictureWidths[0], p.Width)
	}
	return in.Shown
}

// add puts a mark to a tenth of a pixel, if the photo takes it.
func (in *MarksInput) add(p journal.Photo, x, y float64) {
	line := in.Line()
	before := *line
	if len(before) == journal.MostMarks {
		in.Problem = "Sixty marks on one line are enough. Take some back first."
		return
	}
	*line = append(before[:len(before):len(before)], journal.PhotoMark{X: tenth(x), Y: tenth(y)})
	if !p.Takes(in.Marks) {
		*line = before
		in.Problem = "That place is not on the picture."
		return
	}
	in.Added, in.X, in.Y = true, "", ""
}

// tenth is a number as it is written to one decimal.
func tenth(v float64) float64 {
	n, _ := strconv.ParseFloat(quantity.Number(v, 1), 64)
	return n
}
