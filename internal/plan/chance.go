package plan

import "math/rand/v2"

// dice draws by chance from a seed. It takes nothing but the 64-bit numbers of
// PCG (O'Neill, "PCG: A Family of Simple Fast Space-Efficient Statistically
// Good Algorithms for Random Number Generation", 2014), so that a seed draws
// the same plan for ever, whatever a later library does with them.
type dice struct{ source *rand.PCG }

// What is drawn has numbers of its own, so that one part of a plan does not
// move another.
const (
	forOrder   = 1 // order of pouring
	forBench   = 2 // places and evenings
	forSitting = 3 // places in the sittings of one evening group
	forChances = 4 // simulated rounds
)

func newDice(seed int64, use uint64) dice { return dice{rand.NewPCG(uint64(seed), use)} }

// below is a whole number from 0 to n-1, each as likely as any other: numbers
// above the last whole multiple of n are drawn again.
func (d dice) below(n int) int {
	m := uint64(n)
	most := ^uint64(0) - ^uint64(0)%m
	for {
		if v := d.source.Uint64(); v < most {
			return int(v % m)
		}
	}
}

// order is the numbers 0 to n-1 in an order of which each is as likely as any
// other (Fisher and Yates, from memory).
func (d dice) order(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	for i := n - 1; i > 0; i-- {
		j := d.below(i + 1)
		out[i], out[j] = out[j], out[i]
	}
	return out
}

// square is a Latin square of an order: every row and every column holds each
// of the numbers 0 to n-1 once. Rows, columns and numbers of the cyclic square
// are put in an order by chance (Fisher and Yates, Statistical Tables, from
// memory); for n above 3 that is not every Latin square there is.
func (d dice) square(n int) [][]int {
	rows, columns, numbers := d.order(n), d.order(n), d.order(n)
	out := make([][]int, n)
	for i := range out {
		out[i] = make([]int, n)
		for j := range out[i] {
			out[i][j] = numbers[(rows[i]+columns[j])%n]
		}
	}
	return out
}
