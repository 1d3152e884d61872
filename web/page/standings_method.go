package page

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
)

// MethodPage says how the standings are worked out: in a maker's words, then
// with the formulae, what is believed before the first burn, and the sources.
type MethodPage struct {
	Shape    string // how pools open in this studio
	Shapes   []MethodShape
	Edge     string // a doubt about the shapes
	Apart    string
	Beliefs  []MethodBelief
	Formulae []MethodFormula
	Sources  []string
}

// MethodShape is one shape of the growth curve with its weight.
type MethodShape struct{ Exponent, Words, Weight string }

// MethodBelief is one belief as it stands.
type MethodBelief struct{ Name, Means, Here, Note string }

// MethodFormula is one formula and what it says.
type MethodFormula struct{ Name, Formula, Says string }

// NewMethodPage builds the page for a studio's settings and the weights that
// its journal gives to the shapes; burned says whether it has any burns.
func NewMethodPage(s journal.Settings, shapes []standings.ShapeWeight, burned bool) MethodPage {
	p := MethodPage{Formulae: formulae, Sources: methodSources}
	best := 0
	for i, x := range shapes {
		p.Shapes = append(p.Shapes, MethodShape{quantity.Number(x.Exponent, 2), x.Words(), chanceText(x.Weight)})
		if x.Weight > shapes[best].Weight {
			best = i
		}
	}
	if !burned {
		p.Shape = "Nothing was read yet; this is what is believed beforehand."
	} else if len(shapes) > 0 {
		p.Shape = "In this studio " + shapes[best].Words() + " (weight " + chanceText(shapes[best].Weight) + ")."
		p.Edge = standings.ShapeDoubt(shapes)
	}
	for _, o := range apartWords {
		if o.Value == string(s.Apart) {
			p.Apart = o.Text
		}
	}
	for _, b := range standings.Beliefs() {
		m := MethodBelief{Name: b.Name, Means: beliefMeans(b), Here: beliefText(b, b.Default), Note: "default"}
		if x, changed := s.Beliefs[b.Key]; changed {
			m.Here, m.Note = beliefText(b, x), "set in this studio; default "+beliefText(b, b.Default)
		}
		p.Beliefs = append(p.Beliefs, m)
	}
	return p
}

// formulae are the method in symbols.
var formulae = []MethodFormula{
	{"The growth curve", "g(k, t) = 1 − exp(−(k t)ᶜ)", "How far a pool has opened after t hours, as a share of its own limit; k is its rate per hour, c the shape."},
	{"The width of a burn", "d(t) = D exp(θ) g(k, t) / g(k, H)", "D is the inner width, H the target hour, and θ the logarithm of the width at H, if no wall stopped it, over D."},
	{"A reading y short of the wall", "P = Φ((y + r/2 − d)/s) − Φ((y − r/2 − d)/s)", "The true width d was misread by s and rounded to the ruler’s step r."},
	{"A full reading", "P = Φ((d − D + r/2)/s)", "The pool would be at least as wide as the vessel: a bound, not a width."},
	{"Slips", "L = (1 − ε) P + ε r/D", "One reading in a hundred or so says nothing of the pool."},
	{"Burns, candles, rungs", "θ(burn) = θ(pairing) + u + e;  θ(pairing) = α + β (rung − s₀) + f", "u differs from candle to candle, e from burn to burn, f from rung to rung; α and β are the ladder’s line, pinned to its middle rung s₀."},
	{"Full by the hour, and too soon", "P(full by H) = Φ(θ/τ);  P(full before H/2) = Φ((θ − w)/τ)", "For the next candle: τ² is the variance of candles and burns together, w the growth in log width from H/2 to H. Their difference is the chance on target."},
	{"The miss", "m = τ φ(θ/τ) − θ Φ(−θ/τ) + τ φ(z) + (θ − w) Φ(z),  z = (θ − w)/τ", "How far, in log width, the next candle’s pool is expected to lie outside the band from just full at H to just full at H/2: short of the wall, and too soon. Closeness is 100 (1 − m)."},
	{"Chance of being the closest", "Σ h(i) Π (1 − H(i) + h(i)/2)", "Over 200 bins i of the miss: h is this pairing’s share of a bin, H the others’ shares up to it; averaged over all that is not known."},
}

// methodSources name where the method’s pieces come from.
var methodSources = []string{
	"Censored readings: J. Tobin, Econometrica 26 (1958), 24–36.",
	"Growth curve: the Weibull form of 1 − exp(−(k t)ᶜ), common in growth studies; the shapes weighed here are our choice.",
	"Borrowing between burns, candles and rungs: variance components, as in O. L. Davies, Statistical Methods in Research and Production (1947), from memory.",
	"Chance of being the best: R. E. Bechhofer, Annals of Mathematical Statistics 25 (1954), 16–39.",
	"One hour per inch of width, four at most; half of it as the earliest welcome time: common practice, no source.",
	"What is believed before the first burn: defaults of this program, tried on simulated studios.",
}
