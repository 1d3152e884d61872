package grid

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// reach is how many standard deviations a kernel goes to either side.
const reach = 4

// Kernel is a normal density on the steps of the log width: what spreading by
// a standard deviation does to a single point.
type Kernel struct {
	half int
	w    []float64 // 2·half+1 values
}

// NewKernel is the kernel of a standard deviation in log width; one of 0
// leaves everything as it is.
func NewKernel(sd float64) Kernel {
	if sd <= 0 {
		return Kernel{w: []float64{1}}
	}
	k := Kernel{half: int(math.Ceil(reach * sd / WidthStep))}
	for i := -k.half; i <= k.half; i++ {
		z := float64(i) * WidthStep / sd
		k.w = append(k.w, math.Exp(-z*z/2)/(sd*math.Sqrt(2*math.Pi))*WidthStep)
	}
	return k
}

// Spread adds src, between lo and hi, spread by the kernel, to dst. What
// leaves the grid is lost. It goes over the points or over the kernel,
// whichever is shorter.
func (k Kernel) Spread(dst, src *Line, lo, hi int) {
	if hi-lo <= len(k.w) {
		for j := lo; j < hi; j++ {
			from, to := max(0, j-k.half), min(Widths, j+k.half+1)
			floats.AddScaled(dst[from:to], src[j], k.w[from-j+k.half:to-j+k.half])
		}
		return
	}
	for i, w := range k.w {
		shift := i - k.half
		from, to := max(lo, -shift), min(hi, Widths-shift)
		if from < to {
			floats.AddScaled(dst[from+shift:to+shift], w, src[from:to])
		}
	}
}

// Carry is Spread for chances: what would leave the grid is kept on it, so
// that they add up to what they did.
func (k Kernel) Carry(dst, src *Line, lo, hi int) {
	whole := *src
	for j := lo; j < hi; j++ {
		if from, to := k.half-j, Widths+k.half-j; from > 0 || to < len(k.w) {
			whole[j] /= floats.Sum(k.w[max(0, from):min(len(k.w), to)])
		}
	}
	k.Spread(dst, &whole, lo, hi)
}
