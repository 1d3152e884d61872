package pour

import (
	"math"

	"rimward/internal/quantity"
)

// pack is what one melt fills: whole pieces only, so that no piece is poured
// from two melts.
type pack struct {
	parts  []Part
	pieces quantity.Grams // what they take, with their top-up and spare
}

// hair keeps a sum that is a whole number of steps but for its last binary digit
// from costing another step.
const hair = 1e-7

// steps is a mass in steps of the scale, so that there is enough.
func (a Ask) steps(g quantity.Grams) int {
	return int(math.Ceil(float64(g/a.Step) - hair))
}

// fits reports whether pieces of this mass, with what stays in the jug, can be
// melted at once.
func (a Ask) fits(pieces quantity.Grams) bool {
	return a.Melter == nil || a.steps(pieces+a.Waste) <= int(math.Floor(float64(*a.Melter/a.Step)+hair))
}

// pack puts the pieces into melts in their order, each as full as it may be.
func (a Ask) pack(lines []Line) ([]pack, []Problem) {
	var out []pack
	var now pack
	for i, l := range lines {
		each := a.portion(l)
		if !a.fits(each) {
			return nil, []Problem{{"melter", -1, "The melter is too small for a single piece of " + nameOr(l.Name, "this line") + " with its spare and what stays in the jug.", false}}
		}
		for range l.Pieces {
			if !a.fits(now.pieces + each) {
				out, now = append(out, now), pack{}
			}
			now.add(i, each)
		}
	}
	return append(out, now), nil
}

func (p *pack) add(line int, each quantity.Grams) {
	p.pieces += each
	if n := len(p.parts); n > 0 && p.parts[n-1].Line == line {
		p.parts[n-1].Pieces++
		return
	}
	p.parts = append(p.parts, Part{line, 1})
}

// portion is what one piece takes of a melt: its fill, its top-up where that is
// melted too, and its spare.
func (a Ask) portion(l Line) quantity.Grams {
	return (l.Each + a.topUp(l)) * quantity.Grams(1+a.Spare)
}

func (a Ask) topUp(l Line) quantity.Grams {
	if !a.TopUp || l.TopMass == nil {
		return 0
	}
	return *l.TopMass
}

// weigh turns the melts into what the scale is to show. Each melt is rounded on
// its own, so that it is right by itself, and the whole is their sum.
func (s *Sheet) weigh(a Ask, packs []pack) {
	oil, total := 0, 0
	for _, p := range packs {
		t := a.steps(p.pieces + a.Waste)
		o, held := a.oilSteps(t)
		s.Held = s.Held || held
		s.Melts = append(s.Melts, Melt{p.parts, a.grams(t - o), a.grams(o), a.grams(t)})
		oil, total = oil+o, total+t
	}
	s.Wax, s.Oil, s.Total = a.grams(total-oil), a.grams(oil), a.grams(total)
	if total > oil {
		s.Load = quantity.Fraction(float64(oil) / float64(total-oil))
	}
	s.Over = a.Oil != nil && a.Oil.Most != nil && ShareOfWax(a.Oil.Load, a.Oil.Basis) > *a.Oil.Most+hair
	for _, l := range s.Lines {
		n := quantity.Grams(l.Pieces)
		s.Fill += l.Total
		s.TopUp += a.topUp(l) * n
	}
	s.Spare = (s.Fill + s.TopUp) * quantity.Grams(a.Spare)
	s.Waste = a.Waste * quantity.Grams(len(s.Melts))
}

func (a Ask) grams(steps int) quantity.Grams { return quantity.Grams(steps) * a.Step }

// oilSteps is the oil of a melt in steps: to the nearest (of two parts that is
// the largest remainder), but never up past the most that may go in. A load
// that is itself above the most is never rounded up either.
func (a Ask) oilSteps(total int) (n int, held bool) {
	exact := float64(total) * float64(a.oilShare())
	n = int(math.Floor(exact + 0.5))
	if a.Oil == nil || a.Oil.Most == nil || float64(n) <= exact+hair {
		return n, false
	}
	most := float64(total) * float64(ShareOfTotal(*a.Oil.Most, OfWax))
	if float64(n) <= most+hair {
		return n, false
	}
	return n - 1, true
}

// OilFor is the oil that goes with a mass of wax as it was weighed, at the load
// that was asked for, in whole steps and within its most.
func (a Ask) OilFor(wax quantity.Grams) quantity.Grams {
	if a.Oil == nil || !(wax > 0) || !(a.Step > 0) {
		return 0
	}
	load := ShareOfWax(a.Oil.Load, a.Oil.Basis)
	exact := float64(wax) * float64(load) / float64(a.Step)
	n := int(math.Floor(exact + 0.5))
	if most := a.Oil.Most; most != nil && float64(n) > exact+hair && float64(n) > float64(wax)*float64(*most)/float64(a.Step)+hair {
		n--
	}
	return a.grams(n)
}
