package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

// Turnbull is the estimate of a distribution from values known only to lie
// between two looks, without any assumed shape.
type Turnbull struct {
	N             int
	Steps         []Step // in rising order; their masses add to 1
	LogLikelihood float64
	Rounds        int // of refining
	Warnings      []string
}

// Step is a share of the values. It lies above Low and at or below High, or at
// High when both are equal; where between them cannot be told.
type Step struct{ Low, High, Mass float64 }

// mostRounds is how often the masses are made self-consistent before Newton
// steps take over, mostSteps how many of these there may be; settled is how far
// below the best the log-likelihood may be, per value, when refining ends.
const (
	mostRounds = 500
	mostSteps  = 100
	settled    = 1e-13
)

// FitTurnbull estimates the distribution by Turnbull's self-consistent masses on
// the innermost intervals (Turnbull, J. R. Stat. Soc. B 38:290-295, 1976). It
// ends when the slopes of the log-likelihood show that no other masses could
// be better by more than rounding (Gentleman & Geyer, Biometrika 81:618-623,
// 1994; from memory); if that takes long, Newton steps finish it. It returns ErrTooFew for no values and another error for
// values that no caller may hand over.
func FitTurnbull(sample []Censored) (Turnbull, error) {
	if len(sample) == 0 {
		return Turnbull{}, ErrTooFew
	}
	for i, c := range sample {
		if err := c.Check(); err != nil {
			return Turnbull{}, fmt.Errorf("fit distribution: value %d: %w", i+1, err)
		}
	}
	looks := tally(sample)
	t := Turnbull{N: len(sample), Steps: innermost(looks)}
	for i := range looks {
		looks[i].span(t.Steps)
	}
	gap := t.refine(looks)
	t.doubts(gap)
	return t, nil
}

// Share is the least and the most of the values that may lie at or below x:
// they differ inside a step.
func (t Turnbull) Share(x float64) (least, most float64) {
	for _, s := range t.Steps {
		if s.High <= x {
			least += s.Mass
		}
		if s.Low < x || s.High <= x {
			most += s.Mass
		}
	}
	return math.Min(least, 1), math.Min(most, 1)
}

// refine improves the masses until they are settled and returns how far the
// log-likelihood may still be from its best.
func (t *Turnbull) refine(looks []look) (gap float64) {
	p := make([]float64, len(t.Steps))
	for j := range p {
		p[j] = 1 / float64(len(p))
	}
	slope := make([]float64, len(p))
	for ; t.Rounds < mostRounds; t.Rounds++ {
		if gap = t.climb(looks, p, slope); gap <= settled*float64(t.N) {
			break
		}
		floats.Mul(p, slope)
		floats.Scale(1/float64(t.N), p)
	}
	if t.Rounds == mostRounds {
		gap = t.newton(looks, p, slope)
	}
	for j := range p {
		t.Steps[j].Mass = p[j]
	}
	for _, l := range looks {
		t.LogLikelihood += l.count * math.Log(l.mass(p))
	}
	return gap
}

// climb fills in the slopes of the log-likelihood by the masses. For masses that
// add to 1 it returns how far the log-likelihood can at most be from its best:
// what the steepest slope has above their mean, which is N.
func (t *Turnbull) climb(looks []look, p, slope []float64) (gap float64) {
	clear(slope)
	for _, l := range looks {
		w := l.count / l.mass(p)
		for j := l.first; j <= l.last; j++ {
			slope[j] += w
		}
	}
	return floats.Max(slope) - float64(t.N)
}

// doubts adds what is to be said about the estimate in words.
func (t *Turnbull) doubts(gap float64) {
	if t.N < 3 {
		t.Warnings = append(t.Warnings, "fewer than three values")
	}
	if gap > settled*float64(t.N) {
		t.Warnings = append(t.Warnings, fmt.Sprintf("not settled after %d rounds: the log-likelihood may be short by %.1g", t.Rounds, gap))
	}
	if last := t.Steps[len(t.Steps)-1]; math.IsInf(last.High, 1) {
		t.Warnings = append(t.Warnings, "some had not happened at the last look: when they would is not known")
	}
}
