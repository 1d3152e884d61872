package chart

import (
	"math"
	"unicode/utf8"
)

// Letters are set at 13 user units, which is about as many pixels at the
// width that each drawing is made for.
const (
	letter   = 13.0
	lineHigh = 15.0
	// wide is a generous width for one letter, as a share of its size, so
	// that a label's box holds it in any of the fallback faces.
	wide = 0.56
)

// Text is a label put in its place.
type Text struct {
	X, Y   string
	Anchor string // start, middle or end
	Words  string
	box    box
}

// box is the room that something takes on the drawing.
type box struct{ x, y, w, h float64 }

// hits reports whether two boxes share room.
func (b box) hits(o box) bool {
	return b.x < o.x+o.w && o.x < b.x+b.w && b.y < o.y+o.h && o.y < b.y+b.h
}

// within reports whether b lies inside o, but for a hair's breadth.
func (b box) within(o box) bool {
	const hair = 1e-6
	return b.x >= o.x-hair && b.y >= o.y-hair && b.x+b.w <= o.x+o.w+hair && b.y+b.h <= o.y+o.h+hair
}

// around is the square box about a point.
func around(x, y, half float64) box { return box{x - half, y - half, 2 * half, 2 * half} }

// breadth is the room a label takes across the page.
func breadth(words string) float64 {
	return float64(utf8.RuneCountInString(words)) * letter * wide
}

// newText sets words with the middle of their height at y.
func newText(x, y float64, anchor, words string) Text {
	w := breadth(words)
	left := map[string]float64{"start": 0, "middle": w / 2, "end": w}[anchor]
	return Text{
		X: px(x), Y: px(y + 0.32*letter), Anchor: anchor, Words: words,
		box: box{x - left, y - lineHigh/2, w, lineHigh},
	}
}

// shortened is words cut to a breadth, with an ellipsis where they were cut.
func shortened(words string, room float64) string {
	most := int(room / (letter * wide))
	if utf8.RuneCountInString(words) <= most || most < 2 {
		return words
	}
	return string([]rune(words)[:most-1]) + "…"
}

// crowd keeps what is already on the drawing, so that labels find free room.
type crowd struct {
	sheet  box
	labels []box // never to be covered
	marks  []box // better not covered
	lines  []box // crossed only when there is no better room
}

// label notes the room that a label takes; one without words takes none.
func (c *crowd) label(t Text) {
	if t.Words != "" {
		c.labels = append(c.labels, t.box)
	}
}

// line notes a straight line as a string of small boxes.
func (c *crowd) line(x1, y1, x2, y2 float64) {
	n := math.Ceil(math.Hypot(x2-x1, y2-y1)/6) + 1
	for i := 0.0; i <= n; i++ {
		c.lines = append(c.lines, around(mix(x1, x2, i/n), mix(y1, y2, i/n), 1))
	}
}

// cost is how badly a label sits in a box; false when it may not.
func (c *crowd) cost(b box) (float64, bool) {
	if !b.within(c.sheet) {
		return 0, false
	}
	for _, o := range c.labels {
		if b.hits(o) {
			return 0, false
		}
	}
	return 6*hits(b, c.marks) + hits(b, c.lines), true
}

func hits(b box, others []box) float64 {
	n := 0.0
	for _, o := range others {
		if b.hits(o) {
			n++
		}
	}
	return n
}

// wish is a place that a label would take, and how far it is from the best.
type wish struct {
	text Text
	away float64
}

// settle takes the cheapest place wished for; false when all are taken.
func (c *crowd) settle(wishes []wish) (wish, bool) {
	best, found, least := wish{}, false, math.Inf(1)
	for _, w := range wishes {
		if cost, ok := c.cost(w.text.box); ok && cost+w.away < least {
			best, found, least = w, true, cost+w.away
		}
	}
	if found {
		c.labels = append(c.labels, best.text.box)
	}
	return best, found
}

// beside wishes for a place next to a mark: to its right, else to its left,
// else higher or lower in growing steps.
func beside(x, y float64, words string) []wish {
	const gap = 9
	var out []wish
	for step := range 40 {
		for _, way := range []float64{-1, 1} {
			dy := way * 5 * float64(step)
			away := math.Abs(dy) / 4
			out = append(out,
				wish{newText(x+gap, y+dy, "start", words), away},
				wish{newText(x-gap, y+dy, "end", words), away + 14})
		}
	}
	return out
}
