// Package pour does the sums of a pour sheet: how much wax and oil to melt for
// what is to be filled, in how many melts, what it costs, and what can be
// filled with what is left.
//
// A vessel is filled hot, to its line: the mass that goes in is the volume times
// the density of the hot mixture, and the level sinks as it sets. The package
// takes plain numbers. It refuses to guess: where a density or a volume is
// missing it asks for it, or for the mass of one that was filled and weighed. It
// knows no journal, no storage and no clock.
package pour

import "rimward/internal/quantity"

// Basis says what a load is a share of.
type Basis string

// The two bases that the trade uses.
const (
	OfWax   Basis = "wax"   // oil mass / wax mass
	OfTotal Basis = "total" // oil mass / (wax + oil) mass
)

// Filling is some like things to fill.
type Filling struct {
	Name     string
	Count    int                   // vessels, or fillings of the whole mould
	Cavities int                   // pieces of one filling: 1 for a vessel
	Volume   *quantity.Millilitres // of one piece, to its fill line or full; nil when not known
	TestFill *quantity.Grams       // what one piece took when it was filled and weighed; stands for volume and density
}

// Wax is what is known of a wax. Liquid is its density at the temperature it is
// poured at.
type Wax struct {
	Name      string
	Liquid    *quantity.GramsPerMillilitre
	Solid     *quantity.GramsPerMillilitre
	Shrinkage *quantity.Fraction // by volume, as measured; nil to work it out from the densities
	Price     *float64           // of a kilogram
}

// Oil is the fragrance and how much of it goes in.
type Oil struct {
	Name    string
	Load    quantity.Fraction
	Basis   Basis
	Density *quantity.GramsPerMillilitre
	Most    *quantity.Fraction // the most that may go in, as a share of the wax; nil when nobody states one
	Price   *float64           // of a kilogram
}

// Priced are things that are used up by the piece: vessels, wicks.
type Priced struct {
	Name  string
	Count int
	Price *float64 // of one
}

// Ask is everything that a sheet is worked out from.
type Ask struct {
	Fillings []Filling
	Wax      Wax
	Oil      *Oil              // nil: unscented
	Spare    quantity.Fraction // more than is needed, as a share of what the vessels take
	Waste    quantity.Grams    // what stays in the jug, of each melt
	Step     quantity.Grams    // of the scale
	Melter   *quantity.Grams   // what the melter holds at once; nil: everything
	TopUp    bool              // melt the wax of a second pour too
	Things   []Priced
}

// Problem is why a sheet cannot be worked out: a sentence to the person, and
// what it belongs to.
type Problem struct {
	Field   string // fillings, wax, oil, load, spare, waste, step, melter
	Filling int    // which, from 0, where Field is "fillings"; -1 otherwise
	Text    string
	Missing bool // something was not recorded; nothing that was typed is wrong
}

// Line is one filling as it was worked out.
type Line struct {
	Name    string
	Pieces  int
	Each    quantity.Grams        // the mass of one piece, not rounded
	Total   quantity.Grams        // of all pieces, not rounded
	Weighed bool                  // from a test fill and not from volume and density
	TopUp   *quantity.Millilitres // what one piece sinks by; nil when shrinkage or volume is not known
	TopMass *quantity.Grams       // the mass of that, hot
}

// Part is some pieces of one line.
type Part struct {
	Line   int // index into Sheet.Lines
	Pieces int
}

// Melt is one filling of the melter. Wax and Oil are whole steps of the scale,
// and add up to Total.
type Melt struct {
	Parts           []Part
	Wax, Oil, Total quantity.Grams
}

// Sheet is what is to be melted and weighed.
type Sheet struct {
	Lines   []Line
	Melts   []Melt
	Fill    quantity.Grams // what the pieces take, not rounded
	TopUp   quantity.Grams // of Total, for a second pour; 0 when none is melted
	Spare   quantity.Grams // of Total, the share that was asked for
	Waste   quantity.Grams // of Total, what stays in the jugs
	Wax     quantity.Grams // whole steps of the scale, as are Oil and Total
	Oil     quantity.Grams
	Total   quantity.Grams
	Load    quantity.Fraction // oil / wax as it is weighed
	Held    bool              // the oil was rounded down to stay within its maximum
	Over    bool              // the load that was asked for is above the maximum
	Density *quantity.GramsPerMillilitre
	Shrink  *quantity.Fraction
	Derived bool // the liquid density was worked out from the solid one and the shrinkage
	Cost    Cost
}

// Pieces is how many pieces all melts fill.
func (s Sheet) Pieces() int {
	n := 0
	for _, l := range s.Lines {
		n += l.Pieces
	}
	return n
}

// Work works a sheet out. Where there are problems it is empty.
func Work(a Ask) (Sheet, []Problem) {
	if ps := a.problems(); len(ps) > 0 {
		return Sheet{}, ps
	}
	m, ps := a.mixture()
	if len(ps) > 0 {
		return Sheet{}, ps
	}
	s := Sheet{Density: m.density, Shrink: m.shrink, Derived: m.derived}
	for _, f := range a.Fillings {
		s.Lines = append(s.Lines, m.line(f))
	}
	packs, ps := a.pack(s.Lines)
	if len(ps) > 0 {
		return Sheet{}, ps
	}
	s.weigh(a, packs)
	s.Cost = a.cost(s)
	return s, nil
}
