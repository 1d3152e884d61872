package stats

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat"
)

// Anova is a one-way analysis of variance: how far groups differ beside how far
// the values within a group differ.
type Anova struct {
	N, Groups            int // of values, and of groups that hold any
	Mean                 float64
	BetweenSS, WithinSS  float64 // sums of squares
	BetweenDF, WithinDF  int
	F                    float64 // +Inf when no group has any scatter
	P                    float64 // chance of an F at least this large if no group differed
	R2                   float64 // share of the sum of squares that lies between groups
	WithinSD             float64 // pooled over the groups
	BetweenVariance, ICC float64 // by moments; both 0 where the moments fall below
	Warnings             []string
}

// fewWithin is the degrees of freedom below which a pooled scatter is called
// rough (common practice, no source).
const fewWithin = 3

// OneWay analyses groups of values; groups without any are left out. It returns
// ErrTooFew below two groups, when no group holds a second value, or when all
// values are equal. Components of variance and the intraclass correlation,
// ICC(1), are those of moments, with the mean group size of unbalanced data
// (Searle, Casella & McCulloch, Variance Components, 1992, chapter 3, from
// memory). Values are taken around the first, so that large ones keep their
// digits.
func OneWay(groups [][]float64) (Anova, error) {
	f, err := frameOf(slices.Concat(groups...))
	if err != nil {
		return Anova{}, fmt.Errorf("analyse variance: %w", err)
	}
	in := f.clusters(groups)
	var all pool
	var within, squares float64
	for _, c := range in {
		all.add(c.n, c.mean)
		within, squares = within+c.ss, squares+c.n*c.n
	}
	a := Anova{N: int(all.weight), Groups: len(in), BetweenDF: len(in) - 1}
	a.WithinDF = a.N - a.Groups
	if a.BetweenDF < 1 || a.WithinDF < 1 {
		return Anova{}, ErrTooFew
	}
	a.Mean = f.origin + f.unit*all.mean
	a.BetweenSS, a.WithinSS = all.ss*f.unit*f.unit, within*f.unit*f.unit
	if math.IsInf(a.BetweenSS+a.WithinSS, 0) {
		return Anova{}, fmt.Errorf("analyse variance: %w", errTooWide)
	}
	size := (all.weight - squares/all.weight) / float64(a.BetweenDF)
	a.compare(all.ss/float64(a.BetweenDF), within/float64(a.WithinDF), size, f.unit)
	a.R2 = all.ss / (all.ss + within)
	return a, nil
}

// compare sets the two mean squares against each other; size is that of a
// typical group, unit the unit of the values that the squares were taken in.
func (a *Anova) compare(between, within, size, unit float64) {
	a.F = between / within
	d1, d2 := float64(a.BetweenDF), float64(a.WithinDF)
	a.P = mathext.RegIncBeta(d2/2, d1/2, d2/(d2+d1*a.F))
	a.WithinSD = unit * math.Sqrt(within)
	if within == 0 {
		a.Warnings = append(a.Warnings, "no group shows any scatter: the comparison is not to be trusted")
	} else if a.WithinDF < fewWithin {
		a.Warnings = append(a.Warnings, "fewer than three repeats: the scatter within groups is rough")
	}
	if between <= within {
		a.Warnings = append(a.Warnings, "groups differ no more than values within a group: nothing between them can be shown")
		return
	}
	a.BetweenVariance = (between - within) / size * unit * unit
	a.ICC = (between - within) / (between + (size-1)*within)
}

// errTooWide is returned for values whose squares no float64 holds.
var errTooWide = errors.New("values too far apart to be squared")

// frame is an origin and a unit in which all of some values are near 1 at most.
type frame struct{ origin, unit float64 }

// frameOf finds the frame of values: the first of them and a power of two, so
// that nothing is lost by going there and back. It returns ErrTooFew when all
// are equal.
func frameOf(x []float64) (frame, error) {
	if !finite(x) {
		return frame{}, errors.New("a value is not finite")
	}
	if len(x) == 0 {
		return frame{}, ErrTooFew
	}
	var span float64
	for _, v := range x {
		span = max(span, math.Abs(v-x[0]))
	}
	switch {
	case span == 0:
		return frame{}, ErrTooFew
	case math.IsInf(span, 0):
		return frame{}, errTooWide
	}
	_, exponent := math.Frexp(span)
	return frame{x[0], math.Ldexp(1, exponent-1)}, nil
}

// cluster is a set of values told by what a comparison needs of it.
type cluster struct{ n, mean, ss float64 }

// clusters sums up each group that holds a value, in the frame. The mean is
// taken around the group's first value: equal values have no scatter at all.
func (f frame) clusters(groups [][]float64) []cluster {
	var out []cluster
	for _, g := range groups {
		if len(g) == 0 {
			continue
		}
		first, near := (g[0]-f.origin)/f.unit, make([]float64, len(g))
		for i, v := range g {
			near[i] = (v-f.origin)/f.unit - first
		}
		m, ss := stat.Mean(near, nil), 0.0
		for _, v := range near {
			ss += (v - m) * (v - m)
		}
		out = append(out, cluster{float64(len(g)), first + m, ss})
	}
	return out
}

// pool is a weighted mean and the sum of squares about it, gathered one by one
// (West, Commun. ACM 22:532-535, 1979, from memory).
type pool struct{ weight, mean, ss float64 }

func (p *pool) add(weight, value float64) {
	p.weight += weight
	d := value - p.mean
	p.mean += d * weight / p.weight
	p.ss += weight * d * (value - p.mean)
}
