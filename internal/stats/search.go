package stats

import "math"

// crossing is where f turns from at most 0 to above 0 between low and high, by
// halving until no number lies between.
func crossing(f func(float64) float64, low, high float64) float64 {
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			return middle
		}
		if f(middle) > 0 {
			high = middle
		} else {
			low = middle
		}
	}
}

// lowest is where f is least between low and high, by golden section (Kiefer,
// Proc. Am. Math. Soc. 4:502-506, 1953): to about half the digits, which is all
// that the values of f can tell.
func lowest(f func(float64) float64, low, high float64) float64 {
	const golden = 0.6180339887498949
	left, right := high-golden*(high-low), low+golden*(high-low)
	fLeft, fRight := f(left), f(right)
	for range 60 {
		if fLeft <= fRight {
			high, right, fRight = right, left, fLeft
			left = high - golden*(high-low)
			fLeft = f(left)
		} else {
			low, left, fLeft = left, right, fRight
			right = low + golden*(high-low)
			fRight = f(right)
		}
	}
	return (low + high) / 2
}

// spaced is n numbers from low to high, both above 0, in equal ratios.
func spaced(low, high float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = low * math.Pow(high/low, float64(i)/float64(n-1))
	}
	out[n-1] = high
	return out
}
