package stats

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// Growth is the curve y = Plateau (1 - exp(-Rate x)) through points by least
// squares: what starts at nothing, opens fast and levels off.
type Growth struct {
	N             int
	Plateau, Rate float64
	HasPlateau    bool    // false: the points fit a straight line best; Plateau is infinite and Rate 0
	HasRate       bool    // false: the points are level from the first on; Rate is +Inf
	Start         float64 // the slope at x = 0, infinite without a rate

	RSS        float64
	DF         int
	ResidualSD float64 // 0 when DF is 0

	HasSE                      bool // three points or more, and both plateau and rate found
	PlateauSE, RateSE          float64
	PlateauVar, Covar, RateVar float64
	Level                      float64 // of the limits
	HasLimits                  bool    // false: at least one limit of the plateau is infinite
	PlateauLow, PlateauHigh    float64
	RateLow, RateHigh          float64 // 0 or +Inf where the points set no limit
	Warnings                   []string
}

// hugest is the largest x or y that still leaves room for squares; nearest is
// the least x above 0, as a share of the largest.
const hugest, nearest = 1e100, 1e-9

// FitGrowth fits the curve. The plateau is linear once the rate is given, so
// only the rate is searched for (Golub & Pereyra, SIAM J. Numer. Anal.
// 10:413-432, 1973): on a wide grid, then where the slope of the residual sum
// of squares turns. There is no start to choose. The limits are those of the
// profile likelihood (Bates & Watts, Nonlinear Regression Analysis, 1988, ch. 6;
// from memory).
//
// It returns ErrTooFew below two different x above 0 or when every y is 0, and
// another error for values that no caller may hand over.
func FitGrowth(x, y []float64, level float64) (Growth, error) {
	if err := growing(x, y, level); err != nil {
		return Growth{}, err
	}
	c := newRising(x, y)
	g := Growth{N: len(x), DF: len(x) - 2, Level: level}
	r := c.best()
	g.place(c, r)
	g.spread(c, r)
	g.limits(c, r)
	g.doubts()
	return g, nil
}

// At is the height of the curve at x.
func (g Growth) At(x float64) float64 {
	switch {
	case x == 0:
		return 0
	case !g.HasPlateau:
		return g.Start * x
	default:
		return -g.Plateau * math.Expm1(-g.Rate*x)
	}
}

// growing refuses points that no curve can be fitted to.
func growing(x, y []float64, level float64) error {
	switch {
	case len(x) != len(y):
		return fmt.Errorf("fit growth: %d x and %d y", len(x), len(y))
	case !finite(x) || !finite(y):
		return errors.New("fit growth: a value is not finite")
	case !(level > 0 && level < 1):
		return fmt.Errorf("fit growth: level %v must lie between 0 and 1", level)
	case len(x) > 0 && floats.Min(x) < 0:
		return errors.New("fit growth: x must not be below 0")
	case differentAboveZero(x) < 2 || floats.Norm(y, math.Inf(1)) == 0:
		return ErrTooFew
	}
	for _, size := range []float64{floats.Max(x), floats.Norm(y, math.Inf(1))} {
		if size < 1/hugest || size > hugest {
			return fmt.Errorf("fit growth: a largest value of %v is not one to reckon with", size)
		}
	}
	for _, v := range x {
		if v > 0 && v < floats.Max(x)*nearest {
			return fmt.Errorf("fit growth: x of %v and %v lie too far apart to reckon with", v, floats.Max(x))
		}
	}
	return nil
}

// differentAboveZero counts the different x above 0.
func differentAboveZero(x []float64) int {
	sorted := slices.Compact(slices.Sorted(slices.Values(x)))
	n := len(sorted)
	if n > 0 && sorted[0] == 0 {
		n--
	}
	return n
}

// place fills in the curve itself at a scaled rate.
func (g *Growth) place(c rising, r float64) {
	top, rss := c.fit(r)
	g.HasPlateau, g.HasRate = r > 0, !math.IsInf(r, 1)
	g.Plateau, g.Rate = top/-math.Expm1(-r)*c.yUnit, r/c.xUnit
	g.Start = math.Copysign(math.Inf(1), top)
	switch {
	case !g.HasPlateau:
		g.Start = top * c.yUnit / c.xUnit
	case g.HasRate:
		g.Start = g.Plateau * g.Rate
	}
	g.RSS = rss * c.yUnit * c.yUnit
	if g.DF > 0 {
		g.ResidualSD = math.Sqrt(rss/float64(g.DF)) * c.yUnit
	}
}

// spread fills in the standard errors from the two slopes of the curve, the one
// by the rate taken square to the one by the plateau, so that nearly parallel
// slopes keep their digits.
func (g *Growth) spread(c rising, r float64) {
	if g.DF == 0 || !g.HasPlateau || !g.HasRate {
		return
	}
	top, _ := c.fit(r)
	b1 := top / -math.Expm1(-r)
	byPlateau, byRate := make([]float64, g.N), make([]float64, g.N)
	for i, x := range c.x {
		byPlateau[i], byRate[i] = -math.Expm1(-r*x), b1*x*math.Exp(-r*x)
	}
	long := floats.Dot(byPlateau, byPlateau)
	lean := floats.Dot(byPlateau, byRate) / long
	floats.AddScaled(byRate, -lean, byPlateau)
	short := floats.Dot(byRate, byRate)
	if !(short > 0) {
		return
	}
	s2 := math.Pow(g.ResidualSD/c.yUnit, 2)
	g.HasSE = true
	g.PlateauVar = s2 * (1/long + lean*lean/short) * c.yUnit * c.yUnit
	g.RateVar = s2 / short / (c.xUnit * c.xUnit)
	g.Covar = -s2 * lean / short * c.yUnit / c.xUnit
	g.PlateauSE, g.RateSE = math.Sqrt(g.PlateauVar), math.Sqrt(g.RateVar)
}

// doubts adds what is to be said about the curve in words.
func (g *Growth) doubts() {
	say := func(s string) { g.Warnings = append(g.Warnings, s) }
	if g.DF == 0 {
		say("two points only: no interval yet")
	}
	if !g.HasPlateau {
		say("no plateau seen: the points rise along a straight line or steeper")
	} else if g.DF > 0 && !g.HasLimits {
		say("the plateau has no upper limit: the points could still lie on a straight line")
	}
	if !g.HasRate {
		say("level from the first point on: how fast it rose is not known")
	} else if g.DF > 0 && math.IsInf(g.RateHigh, 1) {
		say("the rate has no upper limit: the rise may have been over before the first point")
	}
}
