package journal

import (
	"math"
	"strconv"
	"strings"
)

// MostMarks is how many marks one line on a photo may have.
const MostMarks = 60

// PhotoMark is a point that was marked on a photo, in pixels of the kept
// picture from its upper left corner.
type PhotoMark struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// PhotoMarks are the two lines that were marked on a photo to measure its pool.
// Empty means that it was not measured.
type PhotoMarks struct {
	Wall MarkLine `json:"wall,omitempty"` // the inner wall at the wax line
	Pool MarkLine `json:"pool,omitempty"` // the edge of the melted pool
}

// Any reports whether anything was marked.
func (m PhotoMarks) Any() bool { return len(m.Wall)+len(m.Pool) > 0 }

// MarkLine is one marked line, in the order in which its marks were put.
type MarkLine []PhotoMark

// String writes a line as addresses and the journal carry it: 12.5,80 13,91.
func (l MarkLine) String() string {
	var words []string
	for _, m := range l {
		words = append(words, strconv.FormatFloat(unsigned(m.X), 'f', -1, 64)+","+strconv.FormatFloat(unsigned(m.Y), 'f', -1, 64))
	}
	return strings.Join(words, " ")
}

// ParseMarkLine reads what String writes; ok is false for anything else.
func ParseMarkLine(text string) (l MarkLine, ok bool) {
	for _, word := range strings.Fields(text) {
		xt, yt, _ := strings.Cut(word, ",")
		x, errX := strconv.ParseFloat(xt, 64)
		y, errY := strconv.ParseFloat(yt, 64)
		if errX != nil || errY != nil || math.IsNaN(x+y) || math.IsInf(x+y, 0) {
			return nil, false
		}
		l = append(l, PhotoMark{unsigned(x), unsigned(y)})
	}
	return l, true
}

// unsigned is v with no sign on its zero: the edge of a picture is 0, not -0.
func unsigned(v float64) float64 {
	if v == 0 {
		return 0
	}
	return v
}

// fits reports whether the marks lie on a picture of this size and are not too
// many.
func (l MarkLine) fits(width, height int) bool {
	for _, m := range l {
		if !(m.X >= 0 && m.X <= float64(width) && m.Y >= 0 && m.Y <= float64(height)) {
			return false
		}
	}
	return len(l) <= MostMarks
}

// Takes reports whether marks can be kept with the photo.
func (p Photo) Takes(m PhotoMarks) bool {
	return m.Wall.fits(p.Width, p.Height) && m.Pool.fits(p.Width, p.Height)
}
