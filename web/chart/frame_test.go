package chart

import "testing"

func TestAxisLabelsStayApartAndOnTheSheet(t *testing.T) {
	t.Parallel()
	for name, x := range map[string]axis{
		"short numbers":        {lo: 0, hi: 4, most: 6, unit: "h", words: plain},
		"long numbers":         {lo: 0, hi: 1e-6, most: 6, unit: "h", words: plain},
		"a long unit":          {lo: 0, hi: 40, most: 6, unit: "hours lit", words: plain},
		"numbers put in words": {lo: 0, hi: 4, most: 6, words: func(float64) string { return "half past three" }},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			y := axis{lo: 0, hi: 80, most: 5, unit: "mm", words: plain}
			f := newFrame(head{id: "f"}, Narrow, x, y, 14)
			var texts []Text
			for _, tick := range append(append([]Tick(nil), f.X...), f.Y...) {
				texts = append(texts, tick.Label)
			}
			if len(f.X) == 0 {
				t.Error("no tick is left")
			}
			apart(t, texts, f.crowd.sheet)
		})
	}
}

func TestCoordinatesAreShort(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		v    float64
		want string
	}{{1.0 / 3, "0.33"}, {-0.001, "0"}, {2, "2"}, {-1.005, "-1"}, {1e9, "1000000000"}, {99.999, "100"}} {
		if got := px(c.v); got != c.want {
			t.Errorf("px(%g) = %q, want %q", c.v, got, c.want)
		}
	}
}
