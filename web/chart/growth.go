package chart

import "strconv"

// Growth is a growth chart, ready to be drawn.
type Growth struct {
	Frame
	Wall       string // path of the wall; empty when it is unknown
	WallName   Text
	Target     string // path of the target hour; empty when there is none
	Due        Text
	Bands      []BandShape
	Burns      []BurnShape
	Caption    string
	Table      Table
	Unlabelled int // burns whose label found no room
}

// BandShape is a fitted curve and the area of its range.
type BandShape struct{ Area, Curve string }

// BurnShape is one burn: its line, its marks and its name.
type BurnShape struct {
	Class   string
	Line    string // through the readings that count
	Full    string // upward ticks of full readings
	Markers string
	Out     string // crosses of the readings left out
	Leader  string // from the last reading to a name that had to move away
	Name    Text   // without words when no room was found
}

// NewGrowth lays out a growth chart for a drawing of the given width: Wide,
// Narrow or any other.
func NewGrowth(s GrowthSpec, width int) Growth {
	s, dropped := s.cleaned()
	s = s.called(width)
	hour, top := s.reach()
	y := axis{0, top, 5, s.Steps, s.Unit, orPlain(s.Value)}
	x := axis{0, hour, 6, nil, "h", orPlain(s.Hour)}
	g := Growth{Frame: newFrame(head{orChart(s.ID), s.Title, s.Desc}, width, x, y, labelRoom(width, s.names())), Table: s.Table}
	g.due(s)
	spots := g.places(s)
	g.wall(s)
	for _, b := range s.Bands {
		g.Bands = append(g.Bands, g.band(b))
	}
	for i, b := range s.Burns {
		if s.Cloud {
			g.Burns = append(g.Burns, dotted(spots[i]))
			continue
		}
		g.Burns = append(g.Burns, g.burn(i, b, spots[i]))
	}
	if !s.Cloud {
		g.name(s, spots)
	}
	g.Caption = sentences(s.Caption, droppedWords(dropped), s.leftOut(), unlabelledWords(g.Unlabelled))
	return g
}

// orChart is the given prefix for element IDs, or a plain one.
func orChart(id string) string {
	if id == "" {
		return "chart"
	}
	return id
}

// called is a copy whose burns go by their short names in a narrow drawing.
// The burns must be the spec's own.
func (s GrowthSpec) called(width int) GrowthSpec {
	for i, b := range s.Burns {
		if width <= Narrow && b.Short != "" {
			s.Burns[i].Label = b.Short
		}
	}
	return s
}

// names are the burns' labels.
func (s GrowthSpec) names() []string {
	var out []string
	for _, b := range s.Burns {
		out = append(out, b.Label)
	}
	return out
}

// due draws the target hour, its label above the plot.
func (g *Growth) due(s GrowthSpec) {
	if s.Target == 0 {
		return
	}
	x := g.x.Map(s.Target)
	g.Target = "M" + at(x, g.y.From) + "V" + px(g.y.To-2)
	g.crowd.line(x, g.y.From, x, g.y.To)
	g.Due = g.inSheet(newText(x, 11, "middle", s.TargetLabel))
	g.crowd.labels = append(g.crowd.labels, g.Due.box)
}

// wall draws the inner width, named where no reading is in the way.
func (g *Growth) wall(s GrowthSpec) {
	if s.Wall == 0 {
		return
	}
	y := g.y.Map(s.Wall)
	g.Wall = "M" + at(g.x.From, y) + "H" + px(g.x.To)
	var wishes []wish
	for _, dy := range []float64{-10, 11} {
		wishes = append(wishes,
			wish{newText(g.x.From+6, y+dy, "start", s.WallLabel), dy / 10},
			wish{newText(g.x.To-4, y+dy, "end", s.WallLabel), 3 + dy/10},
			wish{newText((g.x.From+g.x.To)/2, y+dy, "middle", s.WallLabel), 6 + dy/10})
	}
	if w, ok := g.crowd.settle(wishes); ok {
		g.WallName = w.text
	}
	g.crowd.line(g.x.From, y, g.x.To, y)
}

// spot is where a reading stands on the drawing.
type spot struct {
	point
	foot      float64 // the height of the reading itself, below a stacked marker
	full, out bool
}

// places puts every reading in its place. Lines end at the wall; the markers
// of full readings that would hide each other stand one above the other on
// it, so that the hour stays true.
func (g *Growth) places(s GrowthSpec) [][]spot {
	out := make([][]spot, len(s.Burns))
	var full []box
	for i, b := range s.Burns {
		for _, p := range b.Points {
			foot := g.y.Map(p.Width)
			at := spot{point{g.x.Map(p.Hour), foot}, foot, p.Full, p.LeftOut}
			if p.Full && !s.Cloud {
				at.y = above(at.point, full)
				full = append(full, around(at.x, at.y, stacked/2))
				g.crowd.marks = append(g.crowd.marks, box{at.x - 1, at.y - fullTick, 2, fullTick})
			}
			out[i] = append(out[i], at)
			g.crowd.marks = append(g.crowd.marks, around(at.x, at.y, 5))
		}
	}
	for _, spots := range out {
		for i := 1; i < len(spots) && !s.Cloud; i++ {
			g.crowd.line(spots[i-1].x, spots[i-1].foot, spots[i].x, spots[i].foot)
		}
	}
	return out
}

// A full reading carries an upward tick; stacked ones stand this far apart.
const (
	fullTick = 13.0
	stacked  = 10.0
)

// above is the lowest y, from p's upwards, where its marker is free of others.
func above(p point, others []box) float64 {
	for y, free := p.y, false; ; y -= stacked {
		free = true
		for _, o := range others {
			free = free && !around(p.x, y, stacked/2-0.01).hits(o)
		}
		if free {
			return y
		}
	}
}

// count is a number of things in words, such as "2 readings".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
