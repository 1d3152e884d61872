package chart

import (
	"fmt"
	"strconv"
	"strings"

	"rsc.io/qr"
)

// QR is a QR code (ISO/IEC 18004) as one path of dark modules, a module being
// one user unit, with the quiet zone that readers need around it.
type QR struct {
	Side  string // of the whole drawing, in modules
	Path  string
	Title string // says what it opens
}

// quiet is how many light modules stand around a code (ISO/IEC 18004).
const quiet = 4

// NewQR draws a text as a code of medium correction, which bears about 15 %
// of it being smudged. It fails where the text is too long for any code.
func NewQR(text, title string) (QR, error) {
	c, err := qr.Encode(text, qr.M)
	if err != nil {
		return QR{}, fmt.Errorf("draw QR code: %w", err)
	}
	return QR{strconv.Itoa(c.Size + 2*quiet), modules(c.Size, c.Black), title}, nil
}

// modules joins the dark modules of each row into bars.
func modules(size int, dark func(x, y int) bool) string {
	var b strings.Builder
	for y := range size {
		for x := 0; x < size; x++ {
			from := x
			for dark(x, y) {
				x++
			}
			if n := x - from; n > 0 {
				fmt.Fprintf(&b, "M%d %dh%dv1h-%dz", from+quiet, y+quiet, n, n)
			}
		}
	}
	return b.String()
}
