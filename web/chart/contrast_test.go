package chart

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"
)

// luminance is the relative luminance of an sRGB colour, as WCAG 2.2 defines it.
func luminance(c [3]float64) float64 {
	lin := func(v float64) float64 {
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c[0]) + 0.7152*lin(c[1]) + 0.0722*lin(c[2])
}

// contrast is the contrast ratio of two colours, as WCAG 2.2 defines it.
func contrast(a, b [3]float64) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

// tokens are the stylesheet's colours by day and by night.
func tokens(t *testing.T) (day, night map[string][3]float64) {
	t.Helper()
	css, err := os.ReadFile("../static/css/10-base.css")
	if err != nil {
		t.Fatal(err)
	}
	day, night = map[string][3]float64{}, map[string][3]float64{}
	for _, m := range regexp.MustCompile(`--([a-z-]+):#([0-9a-f]{6});`).FindAllStringSubmatch(string(css), -1) {
		var c [3]float64
		for i := range c {
			v, err := strconv.ParseUint(m[2][2*i:2*i+2], 16, 8)
			if err != nil {
				t.Fatal(err)
			}
			c[i] = float64(v) / 255
		}
		if _, again := day[m[1]]; again {
			night[m[1]] = c
		} else {
			day[m[1]] = c
		}
	}
	return day, night
}

// edge is the colour of a pool's edge: the token with a little ink in it.
func edge(scheme map[string][3]float64) [3]float64 {
	var c [3]float64
	for i := range c {
		c[i] = mix(scheme["ink"][i], scheme["pool-edge"][i], 0.88)
	}
	return c
}

// TestDiscIsReadWithoutColour holds the disc against WCAG 2.2, success
// criterion 1.4.11: 3:1 between the parts that tell something apart. The ratio
// is one of lightness alone, so it also answers for a grey print.
func TestDiscIsReadWithoutColour(t *testing.T) {
	t.Parallel()
	day, night := tokens(t)
	on := map[string][3]float64{"day": day["ink"], "night": night["paper"]}
	for name, s := range map[string]map[string][3]float64{"day": day, "night": night} {
		if len(s) < 10 {
			t.Fatalf("%s: only %d tokens read", name, len(s))
		}
		for what, pair := range map[string][2][3]float64{
			"wall on paper":          {s["wall"], s["paper"]},
			"wall against wax":       {s["wall"], s["wax"]},
			"edge of pool on wax":    {edge(s), s["wax"]},
			"wick and tick on pool":  {on[name], s["pool"]},
			"wick and tick on wax":   {s["ink"], s["wax"]},
			"bar against its rail":   {s["ink"], s["rule"]},
			"chart labels on paper":  {s["soft"], s["paper"]},
			"fitted curve on paper":  {s["pool-edge"], s["paper"]},
			"earlier marks on paper": {s["soft"], s["paper"]},
		} {
			if got := contrast(pair[0], pair[1]); got < 3 {
				t.Errorf("%s, %s: contrast %.2f, want 3", name, what, got)
			}
		}
	}
}
