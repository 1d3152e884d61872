package chart

import "testing"

// A line of 110 px that begins at 5: half lies at 60.
func TestShareIsLaidOut(t *testing.T) {
	for _, c := range []struct {
		at, low, high float64
		want          Share
	}{{0.5, 0, 1, Share{"5", "115", "60"}}, {1.2, -1, 2, Share{"5", "115", "115"}}, {0.9, 0.6, 0.98, Share{"71", "112.8", "104"}}} {
		if got := NewShare(c.at, c.low, c.high); got != c.want {
			t.Errorf("%v: %+v, want %+v", c, got, c.want)
		}
	}
}
