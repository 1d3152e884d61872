package tree

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// stack is so many series of 50 burns, each in a vessel of its own.
func stack(series int) []*state {
	var out []*state
	for n := range series {
		b := Burn{meltpool.Reading{Hour: 2, Ratio: 0.7}}
		s := Series{
			Wall: meltpool.Wall{Width: quantity.Millimetres(60 + n), Target: 3}, Ruler: 1,
			Pairings: []Pairing{{Rung: 1, Candles: [][]Burn{slices.Repeat([]Burn{b}, 50)}}},
		}
		out = append(out, &state{series: s, place: placeKey(s)})
	}
	return out
}

func TestSample(t *testing.T) {
	t.Parallel()
	all := stack(80)
	want := sampled(all)
	t.Run("has burns enough and no series more", func(t *testing.T) {
		t.Parallel()
		if len(want)*50 < sampleBurns || (len(want)-1)*50 >= sampleBurns {
			t.Errorf("%d series of 50 burns", len(want))
		}
	})
	t.Run("is all there is when that is little", func(t *testing.T) {
		t.Parallel()
		if got := sampled(all[:5]); len(got) != 5 {
			t.Errorf("%d series of 5", len(got))
		}
	})
	t.Run("does not depend on the order", func(t *testing.T) {
		t.Parallel()
		back := slices.Clone(all)
		slices.Reverse(back)
		if got := sampled(back); !slices.Equal(got, want) {
			t.Error("another sample")
		}
	})
	t.Run("does not depend on what was read", func(t *testing.T) {
		t.Parallel()
		for i, st := range stack(80) {
			st.series.Pairings[0].Candles[0][0] = Burn{{Hour: 1, Full: true}}
			if placeKey(st.series) != all[i].place {
				t.Fatal("another place in the order")
			}
		}
	})
	t.Run("is not simply the first", func(t *testing.T) {
		t.Parallel()
		if slices.Equal(want, all[:len(want)]) {
			t.Error("in the order given")
		}
	})
}

func TestWithin(t *testing.T) {
	t.Parallel()
	m := newModel(Default())
	evidence := m.unheard()
	for shape := range evidence {
		for k := range evidence[shape] {
			evidence[shape][k] = -500
		}
	}
	// The last cell of a spread is as good as any: the best of all, one just
	// inside the margin and one just outside it.
	last := func(spread int) int {
		n := -1
		for k, c := range m.cells {
			if c.spread == spread {
				n = k
			}
		}
		return n
	}
	evidence[2][last(4)], evidence[1][last(0)], evidence[1][last(8)] = -100, -159.9, -160.1
	for shape, on := range m.within(evidence, 60) {
		for spread, got := range on {
			want := shape == 2 && spread == 4 || shape == 1 && spread == 0
			if got != want {
				t.Errorf("shape %d, spread %d: kept %v", shape, spread, got)
			}
		}
	}
}

func TestGather(t *testing.T) {
	t.Parallel()
	m := newModel(Default())
	on := m.everything()
	on[1][3] = false
	var states []*state
	for n := range 3 {
		st := &state{}
		for range m.Shapes {
			st.parts = append(st.parts, &part{on: on[0], evidence: slices.Repeat([]float64{-float64(n + 1)}, len(m.cells))})
		}
		states = append(states, st)
	}
	for shape, row := range m.gather(states, on) {
		for k, got := range row {
			want := -6.0
			if shape == 1 && m.cells[k].spread == 3 {
				want = math.Inf(-1)
			}
			if got != want {
				t.Fatalf("shape %d, cell %d: %g, want %g", shape, k, got, want)
			}
		}
	}
}

func TestCovers(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		has, asks mask
		want      bool
	}{
		{mask{true, true}, mask{true, false}, true},
		{mask{true, false}, mask{true, true}, false},
		{mask{true, false}, mask{false, false}, true},
	} {
		if got := (&part{on: c.has}).covers(c.asks); got != c.want {
			t.Errorf("%v for %v: %v", c.has, c.asks, got)
		}
	}
	var none *part
	if none.covers(mask{true}) || !none.covers(mask{false}) {
		t.Error("what was not worked out covers only nothing")
	}
}

// A product of many rungs is the product of their messages, however small they
// are and whichever of them are missing.
func TestProductOfManyRungs(t *testing.T) {
	t.Parallel()
	for _, every := range []int{1, 2, 4} {
		t.Run(fmt.Sprintf("one in %d tested", every), func(t *testing.T) {
			t.Parallel()
			m, want := meeting{level: []float64{0.5, 1}}, math.Log(0.5)
			for i := range 160 {
				var row []float64
				if i%every == 0 {
					row = []float64{1e-12, 1e-13}
				}
				if m.rows = append(m.rows, row); row != nil && i != 8 {
					want += math.Log(1e-12)
				}
			}
			out, log := m.product(nil, 8)
			if got := log + math.Log(out[0]); !(math.Abs(got-want) < 1e-6) {
				t.Errorf("%g, want %g", got, want)
			}
		})
	}
}
