package chart

import "strconv"

// ScoresSpec is how often each step of a short scale was chosen.
type ScoresSpec struct {
	Counts []int   // of 0, 1, 2 …
	Median float64 // NaN draws no mark
	Title  string  // the accessible name, such as "Scores 2, 3, 3, 4"
}

// Scores is a dot for every score, stacked over the steps of the scale, with a
// mark under the middle one.
type Scores struct {
	ViewBox, Width, Height string
	Dots                   []Spot
	Steps                  []Step
	Rail                   Step   // where the rail runs, from X to X2
	Median                 string // the path of the mark; "" for none
	Title                  string
}

// Spot is the middle of a dot.
type Spot struct{ X, Y string }

// Step is one step of the scale with its number.
type Step struct{ X, X2, Y, Text string }

// The measures of a row of dots, in pixels.
const (
	scoreStep  = 30.0
	scoreLeft  = 12.0
	scoreDot   = 4.6 // radius
	scoreStack = 10.4
	scoreFoot  = 24.0 // under the rail: the mark and the numbers
	scoreLow   = 2    // dots that a row has room for at least
)

// NewScores lays out a row of dots. A stack that grows makes the drawing
// taller.
func NewScores(s ScoresSpec) Scores {
	most := scoreLow
	for _, n := range s.Counts {
		most = max(most, n)
	}
	width, rail := scoreLeft*2+scoreStep*float64(max(len(s.Counts)-1, 0)), scoreStack*float64(most)+2
	out := Scores{Title: s.Title, Width: px(width), Height: px(rail + scoreFoot), ViewBox: "0 0 " + px(width) + " " + px(rail+scoreFoot),
		Rail: Step{X: px(scoreLeft), X2: px(width - scoreLeft), Y: px(rail)}}
	for i, n := range s.Counts {
		x := scoreLeft + scoreStep*float64(i)
		out.Steps = append(out.Steps, Step{X: px(x), Y: px(rail + scoreFoot - 3), Text: strconv.Itoa(i)})
		for j := range n {
			out.Dots = append(out.Dots, Spot{px(x), px(rail - scoreStack*(float64(j)+0.5))})
		}
	}
	if finite(s.Median) && s.Median >= 0 && s.Median <= float64(len(s.Counts)-1) {
		x := scoreLeft + scoreStep*s.Median
		out.Median = "M" + px(x) + " " + px(rail+1.5) + "l4 6.5h-8Z"
	}
	return out
}

// Radius is that of every dot.
func (s Scores) Radius() string { return px(scoreDot) }
