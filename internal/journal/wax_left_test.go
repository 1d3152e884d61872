package journal

import (
	"testing"

	"rimward/internal/quantity"
)

// By hand: 180 g were filled in, and the candle went from 350 to 215 g, so 45 g
// are left; 215 g less 180 g of glass would be 35 g.
func TestWaxAt(t *testing.T) {
	t.Parallel()
	g := func(x quantity.Grams) *quantity.Grams { return &x }
	for name, c := range map[string]struct {
		filled, empty, first *quantity.Grams
		wax                  quantity.Grams
		by                   WaxBy
	}{
		"both ways":          {g(180), g(180), g(350), 45, WaxByFilled},
		"filled alone":       {g(180), nil, g(350), 45, WaxByFilled},
		"not weighed before": {g(180), g(180), nil, 35, WaxByVessel},
		"vessel alone":       {nil, g(180), g(350), 35, WaxByVessel},
		"more than there is": {g(100), nil, g(350), -35, WaxByFilled},
		"neither":            {nil, nil, g(350), 0, ""},
		"filled, no first":   {g(180), nil, nil, 0, ""},
	} {
		m := Made{Candle: Candle{Filled: c.filled}, Vessel: Vessel{EmptyMass: c.empty}}
		wax, by, ok := m.WaxAt(215, c.first)
		if wax != c.wax || by != c.by || ok != (c.by != "") {
			t.Errorf("%s: got %v, %q, %v", name, wax, by, ok)
		}
	}
}
