package form

import (
	"errors"
	"fmt"
	"math"
	"net/url"
	"reflect"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones of these tests, wherever they run

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// posted makes the values of a form from names and texts in turn.
func posted(pairs ...string) url.Values {
	v := url.Values{}
	for i := 0; i < len(pairs); i += 2 {
		v.Add(pairs[i], pairs[i+1])
	}
	return v
}

// metric and imperial read a form in UTC.
func metric(pairs ...string) *Parser {
	return NewParser(posted(pairs...), quantity.Metric, time.UTC)
}

func imperial(pairs ...string) *Parser {
	return NewParser(posted(pairs...), quantity.Imperial, time.UTC)
}

// of points at a value.
func of[T any](v T) *T { return &v }

// nearly takes two quantities for the same that agree to a part in 10^12.
var nearly = cmp.FilterValues(func(a, b any) bool {
	return reflect.TypeOf(a) == reflect.TypeOf(b) && reflect.ValueOf(a).CanFloat()
}, cmp.Comparer(func(a, b any) bool {
	x, y := reflect.ValueOf(a).Float(), reflect.ValueOf(b).Float()
	return math.Abs(x-y) <= 1e-12*math.Abs(y)
}))

// diff fails when two things differ.
func diff(t *testing.T, what string, want, got any) {
	t.Helper()
	if d := cmp.Diff(want, got, nearly); d != "" {
		t.Errorf("%s (-want +got):\n%s", what, d)
	}
}

// spelt writes an optional value, so that one table holds all kinds.
func spelt[T any](v *T) string {
	if v == nil {
		return "nothing"
	}
	return fmt.Sprintf("%.6g", any(*v))
}

// TestReaders: what a field reads, or what is said of it. The factors behind
// the imperial rows are 16 CFR 500.19's.
func TestReaders(t *testing.T) {
	t.Parallel()
	length := func(p *Parser) string { return spelt((*float64)(p.Length("x"))) }
	mass := func(p *Parser) string { return spelt((*float64)(p.Mass("x"))) }
	temperature := func(p *Parser) string { return spelt((*float64)(p.Temperature("x"))) }
	volume := func(p *Parser) string { return spelt((*float64)(p.Volume("x"))) }
	hours := func(p *Parser) string { return spelt((*float64)(p.Hours("x"))) }
	seconds := func(p *Parser) string { return spelt((*float64)(p.Seconds("x"))) }
	days := func(p *Parser) string { return spelt((*float64)(p.Days("x"))) }
	percent := func(p *Parser) string { return spelt((*float64)(p.Percent("x"))) }
	density := func(p *Parser) string { return spelt((*float64)(p.Density("x"))) }
	heat := func(p *Parser) string { return spelt((*float64)(p.Heat("x"))) }
	count := func(p *Parser) string {
		if n := p.Count("x"); n != nil {
			return fmt.Sprint(*n)
		}
		return "nothing"
	}
	id := func(p *Parser) string {
		if n := p.ID("x"); n != nil {
			return fmt.Sprint(*n)
		}
		return "nothing"
	}
	for _, c := range []struct {
		kind         string
		read         func(*Parser) string
		text         string
		metric, inch string // as read in either choice of units
		problem      string // how it starts
	}{
		{"length", length, "73", "73", "1854.2", ""}, {"length", length, "2 7/8 in", "73.025", "73.025", ""}, {"length", length, "0", "0", "0", ""},
		{"length", length, "73 g", "nothing", "nothing", "Write a length"}, {"length", length, "full", "nothing", "nothing", "Write a length"},
		{"mass", mass, "16", "16", "453.592", ""}, {"mass", mass, "1 lb 2 oz", "510.291", "510.291", ""}, {"mass", mass, "0", "0", "0", ""}, {"mass", mass, "8 fl oz", "nothing", "nothing", "That is a volume."},
		{"temperature", temperature, "140", "140", "60", ""}, {"temperature", temperature, "65,5 °C", "65.5", "65.5", ""}, {"temperature", temperature, "warm", "nothing", "nothing", "Write a temperature"},
		{"volume", volume, "8", "8", "236.588", ""}, {"volume", volume, "240 ml", "240", "240", ""}, {"volume", volume, "8 oz", "nothing", "nothing", "An ounce is a mass."},
		{"hours", hours, "2 h 30", "2.5", "2.5", ""}, {"hours", hours, "0", "0", "0", ""}, {"hours", hours, "2:75", "nothing", "nothing", "Write hours"},
		{"seconds", seconds, "1 min 10", "70", "70", ""}, {"seconds", seconds, "1 h", "nothing", "nothing", "Write seconds"},
		{"days", days, "2 weeks", "14", "14", ""}, {"days", days, "soon", "nothing", "nothing", "Write a number of days"},
		{"percent", percent, "8,5%", "0.085", "0.085", ""}, {"percent", percent, "0", "0", "0", ""}, {"percent", percent, "8 g", "nothing", "nothing", "Write a share"},
		{"density", density, "900 kg/m3", "0.9", "0.9", ""}, {"density", density, "0.9 g", "nothing", "nothing", "Write a density"},
		{"heat", heat, "43.8", "43.8", "43.8", ""}, {"heat", heat, "43.8 kJ", "nothing", "nothing", "Write a heat"},
		{"count", count, "3", "3", "3", ""}, {"count", count, "0", "0", "0", ""}, {"count", count, "2.5", "nothing", "nothing", "Write a whole number."},
		{"ID", id, "7", "7", "7", ""}, {"ID", id, "0", "nothing", "nothing", "Choose one"}, {"ID", id, "-1", "nothing", "nothing", "Choose one"}, {"ID", id, "soy", "nothing", "nothing", "Choose one"},
	} {
		for _, u := range []struct {
			name, want string
			p          *Parser
		}{{"metric", c.metric, metric("x", c.text)}, {"imperial", c.inch, imperial("x", c.text)}} {
			got, problem := c.read(u.p), u.p.Problems().For("x")
			if got != u.want || (c.problem == "") != (problem == "") || !strings.HasPrefix(problem, c.problem) {
				t.Errorf("%s %q, %s: got %s and %q, want %s and %q", c.kind, c.text, u.name, got, problem, u.want, c.problem)
			}
		}
		for _, empty := range []string{"", "  ", "\t\n"} {
			if p := metric("x", empty); c.read(p) != "nothing" || p.Problems().Any() {
				t.Errorf("%s %q: want nothing, and no problem", c.kind, empty)
			}
		}
		for _, bad := range []string{"NaN", "Inf", "-Inf", "+infinity", "1e999", "0x10", "1e3", "\x00", "5\x00", "\xff"} {
			if p := metric("x", bad); c.read(p) != "nothing" || len(p.Problems()) != 1 {
				t.Errorf("%s %q: want nothing, and one problem", c.kind, bad)
			}
		}
	}
}

func TestText(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, text, want, problem string }{
		{"keeps what was typed, without the space around", "  Ångström – 35 % soy\n", "Ångström – 35 % soy", ""},
		{"brings line ends to one form", "one\r\ntwo", "one\ntwo", ""},
		{"takes 4,000 signs, however many bytes", strings.Repeat("é", 4000), strings.Repeat("é", 4000), ""},
		{"says when it is longer", strings.Repeat("é", 4001), strings.Repeat("é", 4001), "Keep it under 4,000 characters."},
		{"drops a NUL and says so", "so\x00y", "soy", "This holds signs that are not text."},
		{"drops broken UTF-8 and says so", "so\xffy", "soy", "This holds signs that are not text."},
		{"empty is empty", "", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := metric("x", c.text)
			diff(t, "text", c.want, p.Text("x"))
			diff(t, "problem", c.problem, p.Problems().For("x"))
		})
	}
}

func TestTicksAndLists(t *testing.T) {
	t.Parallel()
	p := metric("on", "on", "off", "", "many", "flickering", "many", " ", "many", " drowning ", "word", "soy", "other", "tallow")
	if !p.Flag("on") || p.Flag("off") || p.Flag("absent") {
		t.Error("a tick is whatever was sent; an empty or absent one is none")
	}
	diff(t, "many under one name", []string{"flickering", "drowning"}, p.Strings("many"))
	diff(t, "a word of the list", "soy", p.Choice("word", "soy", "palm"))
	diff(t, "no word", "", p.Choice("absent", "soy", "palm"))
	diff(t, "no problem yet", Problems(nil), p.Problems())
	diff(t, "a word of no list", "", p.Choice("other", "soy", "palm"))
	diff(t, "its problem", Problems{{"other", "Choose one from the list."}}, p.Problems())
}

func TestRows(t *testing.T) {
	t.Parallel()
	p := metric("r1.mass", "182", "r2.mass", "heavy", "r2.note", "x", "mass", "5 mm", "r22.mass", "odd")
	one, two, far := p.With("r1."), p.With("r2."), p.With("r22.")
	diff(t, "the row's own field", of(quantity.Grams(182)), one.Mass("mass"))
	for _, row := range []*Parser{two, p, far} {
		if row.Mass("mass") != nil {
			t.Error("an unreadable mass was read")
		}
	}
	two.Require("trim", "Say the trim.")
	two.Require("note", "Say something.")
	if err := two.Merge(journal.Invalid("at", "Too late.")); err != nil {
		t.Error(err)
	}
	const sentence = "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."
	diff(t, "all problems, under full names, in order", Problems{{"r2.mass", sentence}, {"mass", sentence}, {"r22.mass", sentence}, {"r2.trim", "Say the trim."}, {"r2.at_time", "Too late."}}, p.Problems())
	diff(t, "those of one row", Problems{{"r2.mass", sentence}, {"r2.trim", "Say the trim."}, {"r2.at_time", "Too late."}}, two.Row())
	diff(t, "those of a row that is well", Problems(nil), one.Row())
	diff(t, "the whole form is no row", Problems(nil), p.Row())
	diff(t, "a prefix within a prefix", of(quantity.Grams(182)), p.With("r").With("1.").Mass("mass"))
}

func TestProblems(t *testing.T) {
	t.Parallel()
	t.Run("the first problem of a field stands", func(t *testing.T) {
		t.Parallel()
		p := metric()
		p.Problem("mass", "First.")
		p.Problem("mass", "Second.")
		p.Problem("trim", "Third.")
		diff(t, "problems", Problems{{"mass", "First."}, {"trim", "Third."}}, p.Problems())
		diff(t, "of another field", "", p.Problems().For("note"))
	})
	t.Run("the form as a whole may have several", func(t *testing.T) {
		t.Parallel()
		p := metric()
		p.Problem("", "One.")
		p.Problem("", "Two.")
		diff(t, "problems", Problems{{"", "One."}, {"", "Two."}}, p.Problems())
	})
	t.Run("what is handed out is a copy", func(t *testing.T) {
		t.Parallel()
		p := metric()
		p.Problem("mass", "First.")
		p.Problems()[0].Text = "Changed."
		diff(t, "problem", "First.", p.Problems().For("mass"))
	})
}

func TestMerge(t *testing.T) {
	t.Parallel()
	t.Run("a refusal stands beside the boxes", func(t *testing.T) {
		t.Parallel()
		p := metric()
		err := p.Merge(fmt.Errorf("save burn: %w", &journal.InvalidError{Problems: []journal.Problem{{Field: "at", Text: "A."}, {Field: "lit_at", Text: "B."}, {Field: "out_at", Text: "C."}, {Field: "mass_after", Text: "D."}, {Field: "", Text: "E."}}}))
		if err != nil {
			t.Errorf("got %v, want nil", err)
		}
		diff(t, "problems", Problems{{"at_time", "A."}, {"lit_time", "B."}, {"out_time", "C."}, {"mass_after", "D."}, {"", "E."}}, p.Problems())
	})
	t.Run("any other error is handed back", func(t *testing.T) {
		t.Parallel()
		p, other := metric(), errors.New("disk full")
		if got := p.Merge(other); got != other || p.Problems().Any() {
			t.Errorf("got %v and %v", got, p.Problems())
		}
		if got := p.Merge(nil); got != nil {
			t.Errorf("got %v for no error", got)
		}
	})
}
