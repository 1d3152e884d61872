package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// Censored is a value known to lie above Low and at or below High. Equal ends
// are an exact value; an end may be infinite: High is +Inf for what had not
// happened at the last look, Low is -Inf (or 0 for times) for what had already
// happened at the first.
type Censored struct{ Low, High float64 }

// Check refuses ends that are not numbers, that stand the wrong way round, or
// that leave no room.
func (c Censored) Check() error {
	if math.IsNaN(c.Low) || math.IsNaN(c.High) {
		return errors.New("an end is not a number")
	}
	if c.Low > c.High {
		return fmt.Errorf("the low end %v lies above the high end %v", c.Low, c.High)
	}
	if math.IsInf(c.Low, 1) || math.IsInf(c.High, -1) {
		return errors.New("no number lies between the ends")
	}
	return nil
}

// LogLikelihood is the log-likelihood of a normal distribution, given this
// value (Nelson, Applied Life Data Analysis, 1982, ch. 8; from memory): the log
// of its density at an exact value, of its probability between the ends
// otherwise. It is -Inf where the distribution or the value cannot be.
func (c Censored) LogLikelihood(mu, sigma float64) float64 {
	if !(sigma > 0) || math.IsNaN(mu) || c.Check() != nil {
		return math.Inf(-1)
	}
	if c.Low == c.High {
		return LogNormalDensity((c.Low-mu)/sigma) - math.Log(sigma)
	}
	return LogNormalBetween((c.Low-mu)/sigma, (c.High-mu)/sigma)
}

// LogNormalDensity is the log of the standard normal density.
func LogNormalDensity(z float64) float64 {
	const logRootTwoPi = 0.918938533204672741780329736406
	return -z*z/2 - logRootTwoPi
}

// LogNormalBelow is the log of the standard normal probability below z. Far out
// on the left, where the probability is no longer a number above 0, it follows
// the asymptotic series (Abramowitz & Stegun, Handbook of Mathematical
// Functions, 26.2.12).
func LogNormalBelow(z float64) float64 {
	if z > 0 {
		return math.Log1p(-math.Erfc(z/math.Sqrt2) / 2)
	}
	if z > -30 {
		return math.Log(math.Erfc(-z/math.Sqrt2) / 2)
	}
	q := 1 / (z * z)
	return LogNormalDensity(z) - math.Log(-z) + math.Log1p(-q*(1-3*q*(1-5*q*(1-7*q*(1-9*q)))))
}

// LogNormalAbove is the log of the standard normal probability above z.
func LogNormalAbove(z float64) float64 { return LogNormalBelow(-z) }

// LogNormalBetween is the log of the standard normal probability between two
// ends. It works in the left tail, where differences keep their digits, and
// adds up narrow strips by Gauss's rule instead of taking a difference. It is
// -Inf unless low is below high.
func LogNormalBetween(low, high float64) float64 {
	if !(low < high) {
		return math.Inf(-1)
	}
	if low > 0 {
		low, high = -high, -low
	}
	if width := high - low; width <= 0.5 && width*math.Abs(low) <= 2 {
		return logStrip(low+width/2, width)
	}
	if high > 0 {
		return math.Log1p(-(math.Erfc(high/math.Sqrt2) + math.Erfc(-low/math.Sqrt2)) / 2)
	}
	all := LogNormalBelow(high)
	if math.IsInf(all, -1) {
		return all
	}
	return all + math.Log1p(-math.Exp(LogNormalBelow(low)-all))
}

// logStrip is the log of the probability of a narrow strip about a middle: the
// density there, times the sum of how it changes across the strip.
func logStrip(middle, width float64) float64 {
	across := func(u float64) float64 {
		t := u * width
		return math.Exp(-middle*t - t*t/2)
	}
	return LogNormalDensity(middle) + math.Log(width) + math.Log(quad.Fixed(across, -0.5, 0.5, 8, quad.Legendre{}, 0))
}
