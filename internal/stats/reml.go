package stats

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"
)

// Components tells apart where values scatter: between groups, between the
// subgroups of a group, and within.
type Components struct {
	N, Groups, Subgroups int // of values, and of those sets that hold any; Subgroups is 0 when there are none
	Mean, MeanSE         float64
	GroupSD              float64 // between groups
	SubgroupSD           float64 // between subgroups of a group; 0 when there are none
	WithinSD             float64
	Criterion            float64 // minus twice the restricted log-likelihood
	Warnings             []string
}

// fewGroups is the number of groups below which the scatter between them is
// called rough (common practice, no source).
const fewGroups = 5

// GroupComponents finds the components of groups of values by restricted
// maximum likelihood (Patterson & Thompson, Biometrika 58:545-554, 1971;
// Harville, J. Am. Stat. Assoc. 72:320-338, 1977, from memory). Groups need not
// be of one size. It returns ErrTooFew below two groups, when no group holds a
// second value, or when no group has any scatter.
func GroupComponents(groups [][]float64) (Components, error) {
	f, err := frameOf(slices.Concat(groups...))
	if err != nil {
		return Components{}, fmt.Errorf("part variances: %w", err)
	}
	var s strata
	for _, c := range f.clusters(groups) {
		s.add([]cluster{c})
	}
	if len(s.groups) < 2 || s.n <= s.subgroups || s.within == 0 {
		return Components{}, ErrTooFew
	}
	return f.components(s, []bool{true, false})
}

// NestedComponents finds the components of groups of subgroups of values, such
// as the burns of the candles of a pairing, by restricted maximum likelihood.
// It returns ErrTooFew as GroupComponents does, and when no group holds a second
// subgroup or no subgroup a second value that differs.
func NestedComponents(groups [][][]float64) (Components, error) {
	f, err := frameOf(slices.Concat(slices.Concat(groups...)...))
	if err != nil {
		return Components{}, fmt.Errorf("part variances: %w", err)
	}
	var s strata
	for _, g := range groups {
		if in := f.clusters(g); len(in) > 0 {
			s.add(in)
		}
	}
	if len(s.groups) < 2 || s.subgroups <= len(s.groups) || s.n <= s.subgroups || s.within == 0 {
		return Components{}, ErrTooFew
	}
	return f.components(s, []bool{true, true})
}

// strata is all that the likelihood needs of the values.
type strata struct {
	n, subgroups int
	groups       [][]cluster
	within       float64 // sum of squares within subgroups
}

func (s *strata) add(subgroups []cluster) {
	s.groups = append(s.groups, subgroups)
	s.subgroups += len(subgroups)
	for _, c := range subgroups {
		s.n, s.within = s.n+int(c.n), s.within+c.ss
	}
}

// fit is what the likelihood says at two ratios of variance to that within.
type fit struct {
	group, subgroup    float64 // the ratios
	criterion          float64
	mean, weight, rest float64 // weight and rest: of the mean, and variance within
}

// at profiles mean and variance within out of the restricted likelihood. Both
// levels have closed forms, since a subgroup's covariance is that within plus a
// constant (Sherman & Morrison), and a group's is again its subgroups' plus one.
func (s *strata) at(group, subgroup float64) fit {
	var all pool
	ss, logdet := s.within, 0.0
	for _, g := range s.groups {
		var in pool
		for _, c := range g {
			in.add(c.n/(1+c.n*subgroup), c.mean)
			logdet += math.Log1p(c.n * subgroup)
		}
		ss += in.ss
		logdet += math.Log1p(in.weight * group)
		all.add(in.weight/(1+in.weight*group), in.mean)
	}
	df := float64(s.n - 1)
	rest := (ss + all.ss) / df
	criterion := df*(1+math.Log(2*math.Pi*rest)) + logdet + math.Log(all.weight)
	return fit{group, subgroup, criterion, all.mean, all.weight, rest}
}

// tie is how much lower, beside its size, a criterion must be to call a ratio
// other than 0.
const tie = 1e-12

// best finds the ratios of least criterion among those free. Ratios at 0 are
// tried as such, so that a least value on the edge comes out as 0 exactly.
func (s *strata) best(free []bool) (fit, error) {
	least := s.at(0, 0)
	for _, open := range [][]bool{{true, false}, {false, true}, {true, true}} {
		if open[0] && !free[0] || open[1] && !free[1] {
			continue
		}
		f, err := s.search(open)
		if err != nil {
			return fit{}, err
		}
		if f.criterion < least.criterion-tie*(math.Abs(least.criterion)+float64(s.n)) {
			least = f
		}
	}
	return least, nil
}

// starts are the places the search is tried from first, as the inverse
// hyperbolic sine of a ratio of standard deviations: near 0 that is the ratio
// itself and far out its logarithm. Beyond the farthest a float64 holds no more.
var starts = []float64{0.1, 0.3, 0.6, 1, 1.5, 2, 3, 5, 8, 12}

const farthest = 36.0

// search finds the least criterion over the open ratios by the simplex of Nelder
// & Mead, from the best of a few starts.
func (s *strata) search(open []bool) (fit, error) {
	at := func(u []float64) fit {
		var ratio [2]float64
		for i, k := 0, 0; i < len(open); i++ {
			if open[i] {
				v := math.Sinh(min(math.Abs(u[k]), farthest))
				ratio[i], k = v*v, k+1
			}
		}
		return s.at(ratio[0], ratio[1])
	}
	problem := optimize.Problem{Func: func(u []float64) float64 { return at(u).criterion }}
	settings := &optimize.Settings{Converger: &optimize.FunctionConverge{Absolute: 1e-13, Iterations: 60}}
	r, err := optimize.Minimize(problem, start(problem.Func, open[0] && open[1]), settings, &optimize.NelderMead{})
	if err != nil {
		return fit{}, err
	}
	return at(r.X), nil
}

// start is the best place of the starts in one or two dimensions.
func start(value func([]float64) float64, two bool) []float64 {
	var best []float64
	least := math.Inf(1)
	try := func(u ...float64) {
		if v := value(u); v < least {
			best, least = u, v
		}
	}
	for _, a := range starts {
		if !two {
			try(a)
			continue
		}
		for _, b := range starts {
			try(a, b)
		}
	}
	return best
}

// components finds the estimates and puts them into the values' own unit.
func (f frame) components(s strata, free []bool) (Components, error) {
	b, err := s.best(free)
	if err != nil {
		return Components{}, fmt.Errorf("part variances: %w", err)
	}
	sd := math.Sqrt(b.rest) * f.unit
	c := Components{
		N: s.n, Groups: len(s.groups),
		Mean: f.origin + f.unit*b.mean, MeanSE: sd / math.Sqrt(b.weight),
		GroupSD: sd * math.Sqrt(b.group), SubgroupSD: sd * math.Sqrt(b.subgroup), WithinSD: sd,
		Criterion: b.criterion + 2*float64(s.n-1)*math.Log(f.unit),
	}
	if free[1] {
		c.Subgroups = s.subgroups
	}
	c.doubts(free[1])
	return c, nil
}

// doubts adds what is to be said about the components in words.
func (c *Components) doubts(nested bool) {
	if c.Groups < fewGroups {
		c.Warnings = append(c.Warnings, "fewer than five groups: the scatter between them is rough")
	}
	if c.GroupSD == 0 {
		c.Warnings = append(c.Warnings, "groups differ no more than chance within them would make them: their scatter is put at nothing")
	}
	if nested && c.SubgroupSD == 0 {
		c.Warnings = append(c.Warnings, "subgroups differ no more than chance within them would make them: their scatter is put at nothing")
	}
}
