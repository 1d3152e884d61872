package chart

// ManySpec is a grid of small growth charts on axes of the same size: one for
// each burn of a candle, or for each candle of a pairing. Widths are in the
// reader's unit.
type ManySpec struct {
	ID, Title, Desc string
	Unit            string  // of widths, such as "mm"
	Wall            float64 // inner width; 0 is unknown
	WallLabel       string
	Target          float64 // hour by which the pool should have met the wall; 0 is none
	TargetLabel     string
	MaxHour         float64
	Cells           []ManyCell
	Caption         string
	Table           Table
	Steps           []float64            // steps of the width axis; none is 1-2-5
	Value, Hour     func(float64) string // axis numbers without unit; nil is plain
}

// ManyCell is one small chart.
type ManyCell struct {
	Title  string
	Note   string // stands at the right of the title where there is room
	Burns  [][]GrowthPoint
	Fitted []BandPoint // its curve with its range; none is not fitted
}

// manyMost is how many small charts one figure holds.
const manyMost = 24

// cleaned is a copy whose every number can be drawn, how many points were
// dropped to make it so, and how many cells are beyond what a figure holds.
func (s ManySpec) cleaned() (out ManySpec, dropped, beyond int) {
	beyond = max(0, len(s.Cells)-manyMost)
	cells := make([]ManyCell, len(s.Cells)-beyond)
	s.Wall, s.Target, s.MaxHour = known(s.Wall), known(s.Target), known(s.MaxHour)
	for i := range cells {
		c := s.Cells[i]
		c.Burns, dropped = cleanReadings(c.Burns, s.Wall, dropped)
		var bands []GrowthBand
		bands, dropped = cleanBands([]GrowthBand{{Points: c.Fitted}}, dropped)
		c.Fitted = bands[0].Points
		cells[i] = c
	}
	s.Cells = cells
	return s, dropped, beyond
}

// reach is the last hour and the largest width of all cells.
func (s ManySpec) reach() (hour, width float64) {
	hour, width = max(s.MaxHour, 1.05*s.Target), 1.22*s.Wall
	for _, p := range s.readings() {
		hour, width = max(hour, p.Hour), max(width, 1.05*p.Width)
	}
	return orOne(hour), orOne(width)
}

// readings are those of all cells.
func (s ManySpec) readings() []GrowthPoint {
	var out []GrowthPoint
	for _, c := range s.Cells {
		for _, b := range c.Burns {
			out = append(out, b...)
		}
	}
	return out
}

// leftOut counts the readings that are shown but do not count.
func (s ManySpec) leftOut() int {
	n := 0
	for _, p := range s.readings() {
		if p.LeftOut {
			n++
		}
	}
	return n
}

// key says what the lines of every cell are.
func (s ManySpec) key() string {
	out := ""
	if s.Wall > 0 && s.WallLabel != "" {
		out = "Level line: " + s.WallLabel + "."
	}
	if s.Target > 0 && s.TargetLabel != "" {
		out = joined(out, " ", "Dotted line: "+s.TargetLabel+".")
	}
	return out
}

// beyondWords says how many of many are drawn, where some are not.
func beyondWords(drawn, beyond int) string {
	if beyond == 0 {
		return ""
	}
	return "The first " + count(drawn, "is drawn", "are drawn") + "; the table has " + count(beyond, "more.", "more.")
}
