package safety_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

func ptr[T any](v T) *T { return &v }

var (
	lit      = time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	defaults = safety.NewLimits(nil)
	glass    = journal.Made{
		Candle: journal.Candle{PourNumber: 14, Letter: "C", Wicks: 1},
		Vessel: journal.Vessel{Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 76, Material: "glass"},
	}
	tin = journal.Made{Candle: glass.Candle, Vessel: journal.Vessel{Name: "Slate tin", InnerWidth: 70, Material: journal.Metal}}
)

// in gives a vessel its own limits.
func in(m journal.Made, flame *quantity.Millimetres, wall *quantity.Celsius) journal.Made {
	m.Vessel.FlameLimit, m.Vessel.WallLimit = flame, wall
	return m
}

// rules names the findings and how much each weighs.
func rules(fs []safety.Finding) []string {
	out := []string{}
	for _, f := range fs {
		s := string(f.Level) + ": " + f.Rule
		if f.Now {
			s += " NOW"
		}
		out = append(out, s)
	}
	return out
}

// The numbers are those that the table of limits sources: EN 15493's 75 mm as
// read in a secondary source, 51 mm (2 in), 12.7 and 19 mm (1/2 and 3/4 in)
// from common practice without a source, 36 mm from Allan, Univ. of Maryland
// 2007 (abstract); 60, 75 and 51, 60 degrees are defaults of this program.
func TestOfCheckAtEachLimit(t *testing.T) {
	t.Parallel()
	flame := func(v float64) journal.Check { return journal.Check{At: lit, Flame: ptr(quantity.Millimetres(v))} }
	wall := func(v float64) journal.Check { return journal.Check{At: lit, VesselTemp: ptr(quantity.Celsius(v))} }
	depth := func(v float64) journal.Check { return journal.Check{At: lit, Depth: ptr(quantity.Millimetres(v))} }
	lowFlame, highFlame := in(glass, ptr(quantity.Millimetres(30)), nil), in(glass, ptr(quantity.Millimetres(95)), nil)
	lowWall, highWall := in(glass, nil, ptr(quantity.Celsius(55))), in(tin, nil, ptr(quantity.Celsius(80)))
	for _, c := range []struct {
		name  string
		check journal.Check
		made  journal.Made
		want  []string
	}{
		{"flame below the smoke point", flame(35.9), glass, []string{}},
		{"flame at it", flame(36), glass, []string{"note: flame may smoke"}},
		{"flame at 51", flame(51), glass, []string{"note: flame may smoke"}},
		{"flame above 51", flame(51.1), glass, []string{"caution: tall flame"}},
		{"flame at 75", flame(75), glass, []string{"caution: tall flame"}},
		{"flame above 75", flame(75.1), glass, []string{"hard: flame over the limit NOW"}},
		{"flame at the vessel's own lower limit", flame(30), lowFlame, []string{}},
		{"flame above the vessel's own lower limit", flame(30.1), lowFlame, []string{"hard: flame over the limit NOW"}},
		{"flame above 75 in a vessel that allows 95", flame(80), highFlame, []string{"caution: tall flame"}},
		{"flame above the vessel's own higher limit", flame(95.1), highFlame, []string{"hard: flame over the limit NOW"}},
		{"glass at 60", wall(60), glass, []string{}},
		{"glass above 60", wall(60.1), glass, []string{"caution: hot vessel"}},
		{"glass at 75", wall(75), glass, []string{"caution: hot vessel"}},
		{"glass above 75", wall(75.1), glass, []string{"hard: vessel too hot NOW"}},
		{"metal at 51", wall(51), tin, []string{}},
		{"metal above 51", wall(51.1), tin, []string{"caution: hot vessel"}},
		{"metal at 60", wall(60), tin, []string{"caution: hot vessel"}},
		{"metal above 60", wall(60.1), tin, []string{"hard: vessel too hot NOW"}},
		{"glass at its own lower limit", wall(55), lowWall, []string{}},
		{"glass above its own lower limit", wall(55.1), lowWall, []string{"hard: vessel too hot NOW"}},
		{"metal below its own higher limit", wall(79.9), highWall, []string{"caution: hot vessel"}},
		{"metal above its own higher limit", wall(80.1), highWall, []string{"hard: vessel too hot NOW"}},
		{"pool at 12.7", depth(12.7), glass, []string{}},
		{"pool above 12.7", depth(12.8), glass, []string{"caution: deep pool"}},
		{"pool at 19", depth(19), glass, []string{"caution: deep pool"}},
		{"pool above 19", depth(19.1), glass, []string{"caution: very deep pool"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, rules(safety.OfCheck(c.check, c.made, defaults, quantity.Metric))); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestOfCheckGradesAndEvents(t *testing.T) {
	t.Parallel()
	odd := func(o journal.Odd) journal.Check { return journal.Check{Odd: []journal.Odd{o}} }
	for _, c := range []struct {
		name  string
		check journal.Check
		want  []string
	}{
		{"nothing to say", journal.Check{Full: true, Soot: "none", Mushroom: "none", WallWax: "ring"}, []string{}},
		{"a wisp is no fault yet", journal.Check{Soot: "wisp"}, []string{}},
		{"a thread is", journal.Check{Soot: "thread"}, []string{"caution: soot"}},
		{"a bead is no fault yet", journal.Check{Mushroom: "bead"}, []string{}},
		{"a cap is", journal.Check{Mushroom: "cap"}, []string{"note: mushrooming"}},
		{"flame on the pool", odd(journal.FlameOnPool), []string{"hard: flame on the pool NOW"}},
		{"crack", odd(journal.Cracked), []string{"hard: cracked vessel NOW"}},
		{"drowning", odd(journal.Drowning), []string{"caution: drowning"}},
		{"weak flame", odd(journal.FlameWentWeak), []string{"note: weak flame"}},
		{"flickering", odd(journal.Flickering), []string{"note: flickering"}},
		{"drifted wick", odd(journal.WickDrifted), []string{"caution: drifted wick"}},
		{"debris", odd(journal.Debris), []string{"caution: debris in the pool"}},
		{"sweating", odd(journal.SweatingPool), []string{"caution: sweating"}},
		{"dangers first, fire before all", journal.Check{Soot: "marks", Depth: ptr(quantity.Millimetres(15)), Flame: ptr(quantity.Millimetres(90)),
			Odd: []journal.Odd{journal.Cracked, journal.FlameOnPool}},
			[]string{"hard: flame on the pool NOW", "hard: cracked vessel NOW", "hard: flame over the limit NOW", "caution: deep pool", "caution: soot"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, rules(safety.OfCheck(c.check, glass, defaults, quantity.Metric))); d != "" {
				t.Error(d)
			}
		})
	}
}

// Every odd event that a form offers has an answer.
func TestEveryOddEventIsAnswered(t *testing.T) {
	t.Parallel()
	for _, o := range journal.Odds {
		if fs := safety.OfCheck(journal.Check{Odd: []journal.Odd{o.Odd}}, glass, defaults, quantity.Metric); len(fs) != 1 {
			t.Errorf("%s: %d findings", o.Odd, len(fs))
		}
	}
}

func TestTextsCarryReadingAndLimitInTheUnitsOfThePerson(t *testing.T) {
	t.Parallel()
	check := journal.Check{At: lit, Flame: ptr(quantity.Millimetres(82)), VesselTemp: ptr(quantity.Celsius(62))}
	for _, c := range []struct {
		name  string
		check journal.Check
		u     quantity.Units
		want  []string
	}{
		// 62 C = 143.6 F, 60 C = 140 F; 82 mm = 3.228 in, 75 mm = 2.953 in, to the nearest sixteenth.
		{"metric", check, quantity.Metric, []string{"The flame stands at 82 mm, over the limit of 75 mm.", "The vessel's wall is at 62 °C, over the limit of 60 °C."}},
		{"imperial", check, quantity.Imperial, []string{"The flame stands at 3 1/4 in, over the limit of 2 15/16 in.", "The vessel's wall is at 144 °F, over the limit of 140 °F."}},
		{"shown alike after rounding", journal.Check{Flame: ptr(quantity.Millimetres(75.2))}, quantity.Imperial,
			[]string{"The flame stands at 2 15/16 in, just over the limit of 2 15/16 in."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, f := range safety.OfCheck(c.check, glass, defaults, c.u) {
				got = append(got, f.Text)
				if !strings.Contains(f.Text, f.Reading.String()) || !strings.Contains(f.Text, f.Limit.String()) || !f.At.Equal(c.check.At) {
					t.Errorf("%+v", f)
				}
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestWhatToDoNow(t *testing.T) {
	t.Parallel()
	do := func(c journal.Check) string {
		fs := safety.Dangers(safety.OfCheck(c, glass, defaults, quantity.Metric))
		if len(fs) != 1 {
			t.Fatalf("%d dangers", len(fs))
		}
		return strings.Join(fs[0].Do, "\n")
	}
	for _, c := range []struct {
		name  string
		check journal.Check
		want  []string // in this order
	}{
		// Smother, never water: a candle trade association's safety page.
		{"the wax burns", journal.Check{Odd: []journal.Odd{journal.FlameOnPool}},
			[]string{"metal lid", "Never pour water", "Do not blow", "Do not move", "until everything is cold", "leave the room", "local number"}},
		{"the vessel cracked", journal.Check{Odd: []journal.Odd{journal.Cracked}},
			[]string{"without touching", "where it stands", "Never pour water", "Throw"}},
		{"the flame is too tall", journal.Check{Flame: ptr(quantity.Millimetres(90))}, []string{"Snuff", "Do not blow", "cool", "Trim the wick to 6 mm", "fails"}},
		{"the vessel is too hot", journal.Check{VesselTemp: ptr(quantity.Celsius(90))}, []string{"without touching", "Do not move", "cool"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			rest := do(c.check)
			for _, w := range c.want {
				_, after, ok := strings.Cut(rest, w)
				if !ok {
					t.Fatalf("%q is missing, or out of order, in\n%s", w, do(c.check))
				}
				rest = after
			}
		})
	}
}

// The program never claims that a candle meets anything.
var claims = regexp.MustCompile(`(?i)\b(compl(y|ies|iant|iance)|pass(es|ed)?|safe|certified|conforms?)\b`)

func TestNoTextMakesAClaim(t *testing.T) {
	t.Parallel()
	texts := append(safety.Always(), safety.BeforeLighting()...)
	for _, l := range safety.Table() {
		texts = append(texts, l.Name, l.Source, l.Status)
	}
	for _, f := range everyFinding() {
		if f.Text == "" || f.Source == "" || f.Rule == "" || f.Level == "" {
			t.Errorf("incomplete: %+v", f)
		}
		texts = append(append(texts, f.Text, f.Rule, f.Source), f.Do...)
	}
	for _, s := range texts {
		if m := claims.FindString(s); m != "" {
			t.Errorf("%q says %q", s, m)
		}
	}
	if n := len(everyFinding()); n < 24 {
		t.Errorf("only %d findings were looked at", n)
	}
}

// everyFinding provokes every rule at least once.
func everyFinding() []safety.Finding {
	var fs []safety.Finding
	for _, v := range []float64{40, 60, 90} {
		c := journal.Check{At: lit, Flame: ptr(quantity.Millimetres(v)), VesselTemp: ptr(quantity.Celsius(v)), Depth: ptr(quantity.Millimetres(v / 4)), Soot: "marks", Mushroom: "shedding"}
		for _, o := range journal.Odds {
			c.Odd = append(c.Odd, o.Odd)
		}
		fs = append(fs, safety.OfCheck(c, glass, defaults, quantity.Metric)...)
		fs = append(fs, safety.OfCheck(c, tin, defaults, quantity.Imperial)...)
	}
	for _, e := range journal.Endings {
		fs = append(fs, safety.All(longDay(e), defaults, quantity.Metric)...)
	}
	return fs
}

// longDay is a candle that was treated badly in every way.
func longDay(e journal.Ending) journal.CandleLog {
	l := journal.CandleLog{Made: glass}
	for n := range 3 {
		at := lit.Add(time.Duration(n) * 330 * time.Minute)
		l.Burns = append(l.Burns, journal.BurnLog{
			Burn: journal.Burn{Number: n + 1, LitAt: at, OutAt: ptr(at.Add(5 * time.Hour)), Ending: e, Trim: ptr(quantity.Millimetres(12)),
				MassBefore: ptr(quantity.Grams(300)), MassAfter: ptr(quantity.Grams(200)), AfterSmoke: ptr(quantity.Seconds(40))},
			Checks: []journal.Check{{At: at.Add(time.Hour), Flame: ptr(quantity.Millimetres(90)), Soot: "marks"}},
		})
	}
	return l
}

func ExampleOfCheck() {
	c := journal.Check{Flame: ptr(quantity.Millimetres(82))}
	for _, f := range safety.OfCheck(c, glass, safety.NewLimits(nil), quantity.Metric) {
		fmt.Println(f.Text, f.Do[0])
	}
	// Output: The flame stands at 82 mm, over the limit of 75 mm. Snuff it. Do not blow: hot wax splashes.
}
