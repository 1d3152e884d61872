package chart

// Share is a share of one with its range on a line from nothing to all, ready
// to be drawn; the numbers stand beside it.
type Share struct{ Low, High, At string }

// The measures of the line, in pixels.
const (
	shareLeft = 5.0
	shareWide = 110.0
)

// NewShare lays a share out. What lies outside of none and all is drawn at the
// end.
func NewShare(at, low, high float64) Share {
	x := func(v float64) string { return px(shareLeft + shareWide*clamp(v, 0, 1)) }
	return Share{x(low), x(high), x(at)}
}
