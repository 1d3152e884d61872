package tree_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"rimward/internal/standings/tree"
)

// A journal whose candles hardly differ moves the weight to the least spread
// between candles, and one whose candles differ a lot to the largest; the
// weights of every list add up to one.
func TestBelievedFollowsTheBurns(t *testing.T) {
	t.Parallel()
	usual := tree.Default()
	for spread, at := range map[float64]int{0.01: 0, 0.14: 2} {
		w := standard()
		w.candle, w.candles, w.vessels = [2]float64{spread, spread}, [2]int{4, 6}, 4
		weighed, err := tree.NewDesk(usual).Weigh(context.Background(), w.draw(rand.New(rand.NewPCG(8, 1))).series)
		if err != nil {
			t.Fatal(err)
		}
		got := weighed.Believed()
		for name, ws := range map[string][]tree.Weighted{"shapes": got.Shapes, "burn": got.Burn, "candle": got.Candle, "slope": got.Slope, "irregular": got.Irregular} {
			sum := 0.0
			for _, v := range ws {
				sum += v.Weight
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Errorf("%s: weights %v", name, ws)
			}
		}
		if c := got.Candle; c[at].Weight < 0.9 || c[at].Value != usual.Candle[at].Value {
			t.Errorf("candles that differ by %v: %v", spread, c)
		}
		if got.Level != usual.Level || got.Rate != usual.Rate || got.Error != usual.Error {
			t.Errorf("what does not move moved: %+v", got)
		}
	}
}

// Without a burn everything is believed as before.
func TestBelievedOfNothing(t *testing.T) {
	t.Parallel()
	weighed, err := tree.NewDesk(tree.Default()).Weigh(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	got, usual := weighed.Believed(), tree.Default()
	for i := range usual.Candle {
		if math.Abs(got.Candle[i].Weight-usual.Candle[i].Weight) > 0.01 {
			t.Errorf("candle %v, was %v", got.Candle, usual.Candle)
		}
	}
}
