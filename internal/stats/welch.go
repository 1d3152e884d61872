package stats

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Welch is the difference of two groups' means, second less first, where the
// groups may be spread differently (Welch, Biometrika 34:28-35, 1947).
type Welch struct {
	A, B       Summary
	Difference float64
	SE, DF     float64 // of the difference; 0 without an interval
	Level      float64
	Low, High  float64
	// HasInterval is false below two values in either group, and where neither
	// group is spread at all: values read to a step say nothing below it.
	HasInterval bool
	Warnings    []string
}

// CompareMeans finds the difference of two means with its interval at a level.
// Differences do not exist for an empty group: ErrTooFew.
func CompareMeans(a, b []float64, level float64) (Welch, error) {
	w := Welch{A: Summarise(a), B: Summarise(b), Level: level}
	if w.A.N == 0 || w.B.N == 0 || !finite(a) || !finite(b) || !(level > 0 && level < 1) {
		return w, ErrTooFew
	}
	w.Difference = w.B.Mean - w.A.Mean
	if w.A.N < 2 || w.B.N < 2 {
		w.Warnings = append(w.Warnings, "one value in a group says nothing of its spread")
		return w, nil
	}
	w.spread()
	return w, nil
}

// spread adds the standard error, the degrees of freedom by Satterthwaite and
// the interval.
func (w *Welch) spread() {
	va, vb := w.A.SD*w.A.SD/float64(w.A.N), w.B.SD*w.B.SD/float64(w.B.N)
	if va+vb == 0 {
		w.Warnings = append(w.Warnings, "all values of a group are alike")
		return
	}
	w.SE = math.Sqrt(va + vb)
	w.DF = (va + vb) * (va + vb) / (va*va/float64(w.A.N-1) + vb*vb/float64(w.B.N-1))
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: w.DF}.Quantile((1 + w.Level) / 2)
	w.Low, w.High, w.HasInterval = w.Difference-t*w.SE, w.Difference+t*w.SE, true
	if w.A.N < fewInGroup || w.B.N < fewInGroup {
		w.Warnings = append(w.Warnings, "few values: the interval leans on their being normally spread")
	}
}

// fewInGroup values say little of how they are spread (chosen by us).
const fewInGroup = 5

// Told reports whether the interval leaves out no difference at all.
func (w Welch) Told() bool { return w.HasInterval && (w.Low > 0 || w.High < 0) }

// PairSpread is the spread within a group, both taken together: the root of
// the mean of the two variances. NaN where either is not known.
func (w Welch) PairSpread() float64 { return math.Sqrt((w.A.SD*w.A.SD + w.B.SD*w.B.SD) / 2) }

// ValuesWanted is how many values each of two groups needs, so that a true
// difference of so many standard deviations is told from nothing at the level
// with the power; false where it is more than most. It is the power of the
// two-sided Student test of two means, both tails counted (as in Cohen,
// Statistical Power Analysis for the Behavioral Sciences, 1988, chapter 2).
func ValuesWanted(effect, level, power float64, most int) (n int, ok bool) {
	return ValuesWantedHeld(effect, level, power, most, 0)
}

// ValuesWantedHeld is ValuesWanted with further effects held, as in
// MeansPowerHeld.
func ValuesWantedHeld(effect, level, power float64, most, held int) (n int, ok bool) {
	effect = math.Abs(effect)
	if !(effect > 0) || !(level > 0 && level < 1) || !(power > 0 && power < 1) {
		return 0, false
	}
	for n = 2; n <= most; n++ {
		if MeansPowerHeld(effect, level, n, held) >= power {
			return n, true
		}
	}
	return 0, false
}

// MeansPower is the chance that n values in each of two groups tell a true
// difference of so many standard deviations from nothing at the level, both
// tails counted; 0 below two values in a group, which tell nothing.
func MeansPower(effect, level float64, n int) float64 {
	return MeansPowerHeld(effect, level, n, 0)
}

// MeansPowerHeld is MeansPower where so many further effects, balanced over the
// two groups, are estimated from the same values: each takes a degree of
// freedom from the spread. 0 where none is left.
func MeansPowerHeld(effect, level float64, n, held int) float64 {
	df := 2*n - 2 - max(held, 0)
	if n < 2 || df < 1 || math.IsNaN(effect) || !(level > 0 && level < 1) {
		return 0
	}
	if math.IsInf(effect, 0) {
		return 1
	}
	t := tQuantile(level, df)
	d := newNoncentralT(df, effect*math.Sqrt(float64(n)/2))
	return 1 - d.below(t) + d.below(-t)
}
