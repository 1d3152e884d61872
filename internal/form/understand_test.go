package form

import (
	"strings"
	"testing"

	"rimward/internal/quantity"
)

func TestUnderstand(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ kind, text, metric, imperial string }{
		{"length", "2 7/8 in", "73 mm", "2 7/8 in"}, {"length", "76.2 mm", "76.2 mm", "3 in"}, {"length", "Full", "wall all round", "wall all round"}, {"length", "f", "wall all round", "wall all round"},
		{"mass", "1 lb 2 oz", "510 g", "18 oz"}, {"temperature", "60 C", "60 °C", "140 °F"}, {"volume", "8 fl oz", "237 mL", "8 fl oz"},
		{"hours", "2.5", "2 h 30", "2 h 30"}, {"hours", "0.8", "48 min", "48 min"}, {"seconds", "1 min 10", "70 s", "70 s"}, {"days", "2 weeks", "14 days", "14 days"},
		{"percent", "8,5", "8.5 %", "8.5 %"}, {"density", "900 kg/m3", "0.9 g/mL", "0.9 g/mL"}, {"heat", "43.8 MJ/kg", "43.8 kJ/g", "43.8 kJ/g"},
		{"room", "1000 cu ft", "28.3 m³", "1000 cu ft"}, {"minutes", "1 h 30", "90 min", "90 min"},
		{"length", "", "", ""}, {"colour", "73", "", ""}, {"length", strings.Repeat("9", 81), "", ""},
	} {
		for u, want := range map[quantity.Units]string{quantity.Metric: c.metric, quantity.Imperial: c.imperial} {
			if got, problem := Understand(c.kind, c.text, u); got != want || problem != "" {
				t.Errorf("%s %q in %s: got %q and %q, want %q", c.kind, c.text, u.Length, got, problem, want)
			}
		}
	}
	for kind, start := range map[string]string{
		"length": "Write a length", "mass": "Write a mass", "temperature": "Write a temperature", "volume": "Write a volume", "hours": "Write hours",
		"seconds": "Write seconds", "days": "Write a number of days", "percent": "Write a share", "density": "Write a density", "heat": "Write a heat", "room": "Write a room", "minutes": "Write minutes",
	} {
		for _, text := range []string{"NaN", "Inf", "1e999", "x"} {
			if got, problem := Understand(kind, text, quantity.Metric); got != "" || !strings.HasPrefix(problem, start) {
				t.Errorf("%s %q: got %q and %q, want a problem that starts %q", kind, text, got, problem, start)
			}
		}
	}
}
