package grid

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// reach is how many standard deviations a kernel goes to either side.
const reach = 4

// Kernel is a normal density on the steps of the log width, adding up to 1: what
// spreading by a standard deviation does to a single point.
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
		k.w = append(k.w, math.Exp(-z*z/2))
	}
	floats.Scale(1/floats.Sum(k.w), k.w)
	return k
}

// Onto adds src to dst, spread by the kernel, so that src[j] comes to lie about
// dst[at+j], on it or beyond it. What leaves dst is lost. It goes over the
// points or over the kernel, whichever is shorter.
func (k Kernel) Onto(dst []float64, at int, src []float64) {
	if len(src) <= len(k.w) {
		for j, v := range src {
			first := at + j - k.half
			from, to := max(0, first), min(len(dst), first+len(k.w))
			if from < to {
				floats.AddScaled(dst[from:to], v, k.w[from-first:to-first])
			}
		}
		return
	}
	for i, w := range k.w {
		first := at + i - k.half
		from, to := max(0, first), min(len(dst), first+len(src))
		if from < to {
			floats.AddScaled(dst[from:to], w, src[from-first:to-first])
		}
	}
}

// Half is how many steps the kernel goes to either side.
func (k Kernel) Half() int { return k.half }

// Carry adds src to dst, spread by the kernel, as chances are: what would
// leave the line is kept on it, so that they add up to what they did.
func (k Kernel) Carry(dst, src *Line) {
	lo, hi := src.Span()
	whole := *src
	for j := lo; j < hi; j++ {
		if from, to := k.half-j, Widths+k.half-j; from > 0 || to < len(k.w) {
			whole[j] /= floats.Sum(k.w[max(0, from):min(len(k.w), to)])
		}
	}
	k.Onto(dst[:], lo, whole[lo:hi])
}
