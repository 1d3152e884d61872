package journal

import (
	"math"

	"rimward/internal/quantity"
)

// LoadWeighed is the fragrance load that was weighed in, as a share of the
// basis; nil unless both wax and oil were weighed.
func (p Pour) LoadWeighed(b Basis) *quantity.Fraction {
	if p.WaxMass == nil || p.OilMass == nil || *p.WaxMass <= 0 {
		return nil
	}
	f := ConvertLoad(quantity.Fraction(*p.OilMass / *p.WaxMass), OfWax, b)
	return &f
}

// LoadSlack is how far, in the load's own share, what was weighed in may lie
// from what was written: three tenths of a point, about a gram in a small
// batch.
const LoadSlack quantity.Fraction = 0.003

// DoubtsOfPour asks about a pour whose load is not what was weighed in.
func DoubtsOfPour(p Pour) []Doubt {
	weighed := p.LoadWeighed(p.LoadBasis)
	if weighed == nil || p.Load == nil || math.Abs(float64(*weighed-*p.Load)) <= float64(LoadSlack)+1e-9 {
		return nil
	}
	of := " of the wax"
	if p.LoadBasis == OfTotal {
		of = " of the total"
	}
	return []Doubt{doubt("weighed-load", "load", float64(*p.Load-*weighed), "What was weighed in comes to "+weighed.String()+of+", not "+p.Load.String()+". Is it right?")}
}
