package chart

// Bar is a share of one as a small bar, ready to be drawn; the number stands
// beside it.
type Bar struct{ Fill string }

// barWide is the width of a bar's inside.
const barWide = 78.0

// NewBar lays a bar out. What is not a share of one is drawn as none or all.
func NewBar(share float64) Bar { return Bar{px(barWide * clamp(share, 0, 1))} }
