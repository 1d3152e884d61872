package plan

import (
	"testing"
	"time"

	"rimward/internal/meltpool"
	"rimward/internal/standings/tree"
)

func TestTry(t *testing.T) {
	for _, k := range []int{2, 3, 4, 5, 6} {
		s := NamingSpec{Wall: meltpool.Wall{Width: 73, Target: 73 / 25.4}, Burns: 4, Seed: 1, Spreads: SpreadsOf(tree.Default(), false)}
		for i := range k {
			s.Rungs = append(s.Rungs, RungAt{1, 1, i + 3})
		}
		at := time.Now()
		c := Chances(s, 3)
		t.Log(k, time.Since(at))
		for _, n := range c {
			t.Logf("%+v", n)
		}
	}
}
