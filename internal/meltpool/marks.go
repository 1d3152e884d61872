package meltpool

import (
	"errors"
	"fmt"

	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Mark is a point put on a photo, in pixels from its upper left corner.
type Mark struct{ X, Y float64 }

// Marks are what was marked on one photo. Of an oval vessel the first mark of
// the wall stands at one end of the vessel's length.
type Marks struct {
	Wall []Mark // on the inner wall, at the wax line
	Pool []Mark // on the edge of the melted pool
}

// Stage is one of the two lines that are marked.
type Stage string

// The two lines, in the order in which they are marked.
const (
	WallStage Stage = "wall"
	PoolStage Stage = "pool"
)

// MarksError says which line no ellipse can be put through, and why: one of
// the errors of stats.FitEllipse.
type MarksError struct {
	Stage Stage
	Err   error
}

// Error names the line and the reason.
func (e *MarksError) Error() string { return fmt.Sprintf("measure the %s: %v", e.Stage, e.Err) }

// Unwrap is the reason.
func (e *MarksError) Unwrap() error { return e.Err }

// ErrOutline is returned for vessels that are neither round nor oval: one
// ellipse says nothing of their walls.
var ErrOutline = errors.New("only round and oval vessels can be measured from a photo")

// errWidth is returned for a vessel without width.
var errWidth = errors.New("the vessel has no width")

// Estimate is one measured number in its own unit, millimetres or a share of
// one.
type Estimate struct {
	At float64
	SD float64 // standard deviation
	DF float64 // degrees of freedom behind SD
}

// Margin is half of the two-sided interval of a level around the estimate.
func (e Estimate) Margin(level float64) float64 { return stats.Margin(e.SD, e.DF, level) }

// Measured is what the marks on one photo say of a pool. Standard deviations
// hold the scatter of the marks about their ellipses and a guess at what
// perspective does at this slant; not a pool that lies lower than the marked
// wall, nor a lens that bends.
type Measured struct {
	Wall, Pool stats.Ellipse // px
	// A is the longest way across and B the one at right angles to it; in an
	// oval vessel A is how far the pool reaches along its length, B across.
	A, B      Estimate // mm
	Roundness Estimate // the narrowest way across over the longest
	OffCentre Estimate // mm from the vessel's centre to the pool's
	Narrowest Estimate // mm of wax left between pool and wall where it is least; below 0 the edge lies outside
	Widest    Estimate // mm of wax left where it is most
	Surface   Estimate // share of the vessel's inside that the pool covers
	Slant     float64  // degrees between the line of sight and straight down
	Shift     float64  // mm by which perspective may move the pool's centre
	Full      bool     // the edge cannot be told from the wall anywhere, and does not lie outside all round
	Warnings  []string
}

// Measure turns marks into measurements by mapping the wall's ellipse onto the
// vessel. A round vessel is mapped without a twist (the symmetric map), an oval
// one so that the first mark of the wall lies on its length. Errors are
// *MarksError, ErrOutline, or that the vessel has no width.
func Measure(v Vessel, m Marks) (Measured, error) {
	if v.Outline == Rectangle {
		return Measured{}, ErrOutline
	}
	if !(v.Length > 0) || !(v.Width > 0) {
		return Measured{}, errWidth
	}
	wall, err := FitMarks(WallStage, m.Wall)
	if err != nil {
		return Measured{}, err
	}
	pool, err := FitMarks(PoolStage, m.Pool)
	if err != nil {
		return Measured{}, err
	}
	out := lookAt(v, wall, pool, m.Wall[0]).measured()
	out.doubts(v)
	return out, nil
}

// FitMarks puts an ellipse through the marks of one line. Errors are
// *MarksError.
func FitMarks(s Stage, marks []Mark) (stats.Ellipse, error) {
	var xs, ys []float64
	for _, k := range marks {
		xs, ys = append(xs, k.X), append(ys, k.Y)
	}
	e, err := stats.FitEllipse(xs, ys)
	if err != nil {
		return e, &MarksError{s, err}
	}
	return e, nil
}

// Bounds beyond which a measurement is doubted; app defaults.
const (
	sureFull   = 0.01 // of the way across: a full pool must be known this well
	touches    = 0.25 // mm of wax that a ruler of whole mm does not tell from none
	strongTilt = 45.0 // degrees
	shiftShown = 0.5  // mm
	outside    = 0.5  // mm
	smallWall  = 400  // px across: below it a pixel is a good part of a millimetre
)

// doubts adds what is to be said about a measurement in words, and whether the
// pool is full. One that lies outside the wall all round is not: its marks say
// nothing.
func (m *Measured) doubts(v Vessel) {
	slack := 2*m.Narrowest.SD + outside
	beyond := m.Widest.At < -slack
	m.Full = !beyond && m.Widest.At <= touches+2*m.Widest.SD && m.Widest.SD <= sureFull*float64(v.Across())
	for _, w := range m.Wall.Warnings {
		m.Warnings = append(m.Warnings, "wall: "+w)
	}
	for _, w := range m.Pool.Warnings {
		m.Warnings = append(m.Warnings, "pool: "+w)
	}
	if 2*m.Wall.A < smallWall {
		m.Warnings = append(m.Warnings, "small in the picture: come closer, so that the vessel takes half of it or more")
	}
	if m.Slant > strongTilt {
		m.Warnings = append(m.Warnings, "strong slant: seen this flat, a small slip of a mark is a large one in the vessel")
	}
	switch {
	case beyond:
		m.Warnings = append(m.Warnings, "the pool's marks lie outside the wall's: were they exchanged?")
	case m.Narrowest.At < -slack:
		m.Warnings = append(m.Warnings, "the pool's edge is marked outside the wall at one place")
	}
}

// Millimetres is the estimate as a length.
func (e Estimate) Millimetres() quantity.Millimetres { return quantity.Millimetres(e.At) }
