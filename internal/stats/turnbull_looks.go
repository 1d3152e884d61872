package stats

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// look is one kind of censored value, how often it was seen, and the first and
// the last of the steps it covers.
type look struct {
	Censored
	count       float64
	first, last int
}

// tally counts equal values, in an order that does not depend on theirs.
func tally(sample []Censored) []look {
	sorted := slices.SortedFunc(slices.Values(sample), func(a, b Censored) int {
		return cmp.Or(cmp.Compare(a.Low, b.Low), cmp.Compare(a.High, b.High))
	})
	var out []look
	for _, c := range sorted {
		if k := len(out) - 1; k >= 0 && out[k].Censored == c {
			out[k].count++
		} else {
			out = append(out, look{Censored: c, count: 1})
		}
	}
	return out
}

// innermost are the intervals from a low end to a high end with no other end
// between: the only places that can carry mass. At one and the same number an
// exact value begins first, then intervals that hold the number end, then
// those that do not hold it begin.
func innermost(looks []look) []Step {
	type end struct {
		at   float64
		turn int // 0 an exact value begins, 1 an interval ends, 2 one begins
	}
	var ends []end
	for _, l := range looks {
		begins := end{l.Low, 2}
		if l.Low == l.High {
			begins.turn = 0
		}
		ends = append(ends, begins, end{l.High, 1})
	}
	slices.SortFunc(ends, func(a, b end) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.turn, b.turn)) })
	var out []Step
	for i := 1; i < len(ends); i++ {
		if ends[i-1].turn != 1 && ends[i].turn == 1 {
			out = append(out, Step{Low: ends[i-1].at, High: ends[i].at})
		}
	}
	return out
}

// span finds the steps that a look covers: they stand side by side.
func (l *look) span(steps []Step) {
	l.first = slices.IndexFunc(steps, l.covers)
	l.last = l.first
	for l.last+1 < len(steps) && l.covers(steps[l.last+1]) {
		l.last++
	}
}

// covers reports whether the whole step lies within the look.
func (l *look) covers(s Step) bool {
	sameKind := (s.Low == s.High) == (l.Low == l.High)
	return s.High <= l.High && (s.Low > l.Low || s.Low == l.Low && sameKind)
}

// mass is the share that the masses of all steps give to the look.
func (l look) mass(p []float64) float64 { return floats.Sum(p[l.first : l.last+1]) }
