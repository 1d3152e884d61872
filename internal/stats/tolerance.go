package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/distuv"
)

// ToleranceBound is a bound that a stated share of all values to come exceeds,
// at a stated confidence, if the values follow a normal distribution.
type ToleranceBound struct {
	N                 int
	Mean, SD          float64
	Share, Confidence float64
	Factor            float64 // how many SD the bound lies below the mean
	Bound             float64
	Warnings          []string
}

// extreme is how near to 0 and 1 shares and confidences may lie: closer, the
// factor would be made of rounding.
const extreme = 1e-9

// LowerBound is the one-sided normal tolerance bound of a sample (NIST/SEMATECH
// e-Handbook of Statistical Methods, 7.2.6.3). It returns ErrTooFew below two
// values, and another error for values, shares or confidences that no caller
// may hand over.
func LowerBound(sample []float64, share, confidence float64) (ToleranceBound, error) {
	if !finite(sample) {
		return ToleranceBound{}, errors.New("lower bound: a value is not finite")
	}
	k, err := ToleranceFactor(len(sample), share, confidence)
	if err != nil {
		return ToleranceBound{}, fmt.Errorf("lower bound: %w", err)
	}
	s := Summarise(sample)
	b := ToleranceBound{N: s.N, Mean: s.Mean, SD: s.SD, Share: share, Confidence: confidence, Factor: k, Bound: s.Mean - k*s.SD}
	if !finite([]float64{b.SD, b.Bound}) {
		return ToleranceBound{}, errors.New("lower bound: the values are too large to reckon with")
	}
	b.doubts()
	return b, nil
}

// doubts adds what is to be said about the bound in words.
func (b *ToleranceBound) doubts() {
	if b.N < 3 {
		b.Warnings = append(b.Warnings, "fewer than three values: the bound lies very far below them")
	}
	if b.SD == 0 {
		b.Warnings = append(b.Warnings, "all values are equal: how far others may lie from them is not known")
	}
}

// ToleranceFactor is the one-sided normal tolerance factor of n values: as many
// of their standard deviations below (or above) their mean, a bound leaves at
// least the share of all values on its other side, at the confidence. It is the
// quantile of the noncentral t distribution with noncentrality z sqrt(n), over
// sqrt(n), where z is the normal quantile of the share (NIST/SEMATECH
// e-Handbook of Statistical Methods, 7.2.6.3).
func ToleranceFactor(n int, share, confidence float64) (float64, error) {
	if !(math.Min(share, confidence) >= extreme && math.Max(share, confidence) <= 1-extreme) {
		return 0, fmt.Errorf("tolerance factor: share %v and confidence %v must lie between 0 and 1 and not next to either", share, confidence)
	}
	if n < 2 {
		return 0, ErrTooFew
	}
	root := math.Sqrt(float64(n))
	d := newNoncentralT(n-1, distuv.UnitNormal.Quantile(share)*root)
	return d.quantile(confidence) / root, nil
}

// noncentralT is the distribution of (Z + delta) / S, where Z is standard
// normal and S the root of an independent chi-squared over its degrees of
// freedom: kept as values of S and their weights, which add to 1.
type noncentralT struct {
	delta       float64
	roots, mass []float64
}

// newNoncentralT lays out S. The density of log S is exp(df (u - exp(2u)/2)) up
// to a constant, highest at 0 and smooth, so that the trapezoidal rule closes in
// on its integrals exponentially fast (Trefethen & Weideman, SIAM Review
// 56:385-458, 2014); the step is fine against that density and against the
// normal step that share will lay over it.
func newNoncentralT(df int, delta float64) noncentralT {
	const fine, nothing = 6, -45
	nu := float64(df)
	logDensity := func(u float64) float64 { return nu * (u - math.Expm1(2*u)/2) }
	step := math.Min(1/math.Sqrt(2*nu), 1/(1+math.Abs(delta))) / fine
	u := 0.0
	for logDensity(u-step) > nothing {
		u -= step
	}
	t := noncentralT{delta: delta}
	for ; logDensity(u) > nothing; u += step {
		t.roots, t.mass = append(t.roots, math.Exp(u)), append(t.mass, math.Exp(logDensity(u)))
	}
	floats.Scale(1/floats.Sum(t.mass), t.mass)
	return t
}

// below is the probability of a value at or below x.
func (t noncentralT) below(x float64) (p float64) {
	for i, s := range t.roots {
		p += t.mass[i] * math.Erfc((t.delta-x*s)/math.Sqrt2) / 2
	}
	return p
}

// quantile is the value that the distribution stays at or below with
// probability p.
func (t noncentralT) quantile(p float64) float64 {
	low, high := -1.0, 1.0
	for t.below(low) > p {
		low *= 2
	}
	for t.below(high) < p {
		high *= 2
	}
	return crossing(func(x float64) float64 { return t.below(x) - p }, low, high)
}
