package stats

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// WilsonInterval is the interval of a share of k in n at a level (Wilson,
// J. Am. Stat. Assoc. 22:209-212, 1927). It covers about as often as it says
// and is the one to show. Where nothing can be said (n is 0, k is not within 0
// and n, the level is not between 0 and 1) it is 0 to 1.
func WilsonInterval(k, n int, level float64) (low, high float64) {
	if !countable(k, n, level) {
		return 0, 1
	}
	z := distuv.UnitNormal.Quantile((1 + level) / 2)
	p, m := float64(k)/float64(n), float64(n)
	middle := (p + z*z/(2*m)) / (1 + z*z/m)
	half := z / (1 + z*z/m) * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return math.Max(0, middle-half), math.Min(1, middle+half)
}

// ClopperPearsonInterval is the exact interval of a share of k in n at a level
// (Clopper & Pearson, Biometrika 26:404-413, 1934). It covers at least as often
// as it says, so it is wider than Wilson's: the one to use where a claim must
// not be too bold. Where nothing can be said it is 0 to 1, as Wilson's.
func ClopperPearsonInterval(k, n int, level float64) (low, high float64) {
	if !countable(k, n, level) {
		return 0, 1
	}
	tail, hits, misses := (1-level)/2, float64(k), float64(n-k)
	low, high = 0, 1
	if k > 0 {
		low = mathext.InvRegIncBeta(hits, misses+1, tail)
	}
	if k < n {
		high = 1 - mathext.InvRegIncBeta(misses, hits+1, tail)
	}
	return low, high
}

// countable reports whether k of n at a level has an interval.
func countable(k, n int, level float64) bool {
	return n > 0 && k >= 0 && k <= n && level > 0 && level < 1
}
