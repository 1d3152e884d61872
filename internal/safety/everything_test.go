package safety_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// guided is a candle whose wax, fragrance and vessel say what is meant.
func guided(change func(*journal.CandleLog), burns ...func(*journal.BurnLog)) journal.CandleLog {
	l := days(burns...)
	l.Pour.At = lit.AddDate(0, 0, -20)
	l.Vessel.Certificate = true
	l.Wax = journal.Wax{CureDays: journal.Range[quantity.Days]{Low: ptr(quantity.Days(7))}, LoadBasis: journal.OfWax,
		Load:   journal.Range[quantity.Fraction]{High: ptr(quantity.Fraction(0.10))},
		HeatTo: journal.Range[quantity.Celsius]{Low: ptr(quantity.Celsius(75)), High: ptr(quantity.Celsius(85))},
		PourAt: journal.Range[quantity.Celsius]{Low: ptr(quantity.Celsius(55)), High: ptr(quantity.Celsius(65))}}
	l.Fragrance = &journal.Fragrance{FlashPoint: ptr(quantity.Celsius(93)), MaxLoad: ptr(quantity.Fraction(0.12)), MaxBasis: journal.OfTotal}
	for i := range l.Burns {
		if l.Burns[i].Burn.Trim == nil {
			l.Burns[i].Burn.Trim = ptr(quantity.Millimetres(6))
		}
	}
	if change != nil {
		change(&l)
	}
	return l
}

func everything(l journal.CandleLog) []string {
	return rules(safety.Everything(l, defaults, quantity.Metric))
}

// A flash point of 60 °C warns above 43.3 °C, one of 93 °C above 76.3 °C: 16.7 °C
// (30 °F) below (29 CFR 1910.106(a)(19), read in a secondary source). The rooms
// of 20 and 27 °C are EN 15493's, read in a secondary source. 8 % of 108 g is
// 8.64 g of oil and 99.36 g of wax, 8.6957 % of the wax. What a supplier says is
// made up.
func TestMakingAtEachLimit(t *testing.T) {
	t.Parallel()
	load := func(f quantity.Fraction, b journal.Basis) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) { l.Pour.Load, l.Pour.LoadBasis = &f, b }
	}
	oil := func(c, flash quantity.Celsius) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) { l.Pour.OilAt, l.Fragrance.FlashPoint = &c, &flash }
	}
	heated := func(c quantity.Celsius) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) { l.Pour.HeatedTo = &c }
	}
	at := func(c quantity.Celsius) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) { l.Pour.PouredAt = &c }
	}
	for _, c := range []struct {
		name   string
		change func(*journal.CandleLog)
		want   []string
	}{
		{"as it is meant", nil, []string{}},
		{"load at the wax's maximum", load(0.10, journal.OfWax), []string{}},
		{"load above it", load(0.101, journal.OfWax), []string{"caution: load over the wax's maximum"}},
		{"the maximum on the other basis", load(0.1/1.1, journal.OfTotal), []string{}},
		{"above it on the other basis", load(0.0915, journal.OfTotal), []string{"caution: load over the wax's maximum"}},
		{"8 % of the total is under 8.7 % of the wax", func(l *journal.CandleLog) {
			load(0.08, journal.OfTotal)(l)
			l.Wax.Load.High = ptr(quantity.Fraction(0.087))
		}, []string{}},
		{"8 % of the total is over 8.69 % of the wax", func(l *journal.CandleLog) {
			load(0.08, journal.OfTotal)(l)
			l.Wax.Load.High = ptr(quantity.Fraction(0.0869))
		}, []string{"caution: load over the wax's maximum"}},
		{"load above the fragrance's maximum too", load(0.121, journal.OfTotal), []string{"caution: load over the wax's maximum", "caution: load over the fragrance's maximum"}},
		{"oil at 43.3 with a flash point of 60", oil(43.3, 60), []string{}},
		{"oil at 43.4 with a flash point of 60", oil(43.4, 60), []string{"caution: oil added near its flash point"}},
		{"oil at 76.3 with a flash point of 93", oil(76.3, 93), []string{}},
		{"oil at 76.4 with a flash point of 93", oil(76.4, 93), []string{"caution: oil added near its flash point"}},
		{"heated to the lowest", heated(75), []string{}},
		{"heated to less", heated(74.9), []string{"note: wax heated outside its guidance"}},
		{"heated to the highest", heated(85), []string{}},
		{"heated to more", heated(85.1), []string{"note: wax heated outside its guidance"}},
		{"poured at the lowest", at(55), []string{}},
		{"poured cooler", at(54.9), []string{"note: poured outside the guidance"}},
		{"poured hotter", at(65.1), []string{"note: poured outside the guidance"}},
		{"glass nobody vouches for", func(l *journal.CandleLog) { l.Vessel.Certificate = false }, []string{"note: glass without a certificate"}},
		{"a tin needs no certificate for glass", func(l *journal.CandleLog) { l.Vessel.Certificate, l.Vessel.Material = false, journal.Metal }, []string{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, rules(safety.OfMaking(guided(c.change).Made, quantity.Metric))); d != "" {
				t.Error(d)
			}
		})
	}
}

// mass weighs each burn of a candle: before the first, and after each.
func mass(l *journal.CandleLog, grams ...quantity.Grams) {
	for i := range l.Burns {
		l.Burns[i].Burn.MassBefore, l.Burns[i].Burn.MassAfter = ptr(grams[i]), ptr(grams[i+1])
	}
}

func TestRecordsAtEachLimit(t *testing.T) {
	t.Parallel()
	room := func(c quantity.Celsius) func(*journal.BurnLog) {
		return func(l *journal.BurnLog) { l.Burn.Room = &c }
	}
	wall := func(g journal.Grade) func(*journal.BurnLog) {
		return func(l *journal.BurnLog) { l.Checks[1].WallWax = g }
	}
	full := func(minutes int) func(*journal.BurnLog) {
		return func(l *journal.BurnLog) {
			l.Checks[0].At, l.Checks[0].Full = l.Burn.LitAt.Add(time.Duration(minutes)*time.Minute), true
		}
	}
	short := func(l *journal.BurnLog) {
		*l = burn(3, nil)
		l.Checks[2].WidthA = ptr(quantity.Millimetres(60))
	}
	blown := func(also func(*journal.BurnLog)) func(*journal.BurnLog) {
		return func(l *journal.BurnLog) {
			also(l)
			l.Burn.Draught = journal.DraughtStrong
		}
	}
	rest := func(minutes int) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) {
			l.Burns[1].Burn.LitAt = l.Burns[0].Burn.OutAt.Add(time.Duration(minutes) * time.Minute)
			l.Burns[1].Burn.OutAt, l.Burns[1].Checks = ptr(l.Burns[1].Burn.LitAt.Add(time.Hour)), nil
		}
	}
	// 76 mm across and 10 mm high hold 45.36 mL, 40.83 g at 0.9 g/mL: 12 mm of wax,
	// a millimetre less than the 13 mm to be left, are 48.99 g.
	waxed := func(after quantity.Grams) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) {
			l.Vessel.EmptyMass, l.Wax.SolidDensity = ptr(quantity.Grams(200)), ptr(quantity.GramsPerMillilitre(0.9))
			mass(l, 280, 200+after)
			l.Burns[0].Burn.OutAt = ptr(l.Burns[0].Burn.LitAt.Add(4 * time.Hour))
			l.Burns[0].Checks = burn(4, nil).Checks
		}
	}
	third := func(after quantity.Grams) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) {
			l.Candle.Filled = ptr(quantity.Grams(90))
			mass(l, 300, 210+after)
			l.Burns[0].Burn.Ending = journal.Spent
		}
	}
	for _, c := range []struct {
		name string
		log  journal.CandleLog
		want []string
	}{
		{"a plain evening", guided(nil, nil), []string{}},
		{"trim not noted", guided(func(l *journal.CandleLog) { l.Burns[0].Burn.Trim = nil }, nil), []string{"note: trim not noted"}},
		{"a room of 20", guided(nil, room(20)), []string{}},
		{"a room of 19.9", guided(nil, room(19.9)), []string{"note: room outside the usual"}},
		{"a room of 27", guided(nil, room(27)), []string{}},
		{"a room of 27.1", guided(nil, room(27.1)), []string{"note: room outside the usual"}},
		{"a strong draught", guided(nil, func(l *journal.BurnLog) { l.Burn.Draught = journal.DraughtStrong }), []string{"note: strong draught"}},
		// 76 mm are 2.992 in, so half the target hour is 89.8 min.
		{"full after 89 min", guided(nil, full(89)), []string{"note: full too soon"}},
		{"full after 90 min", guided(nil, full(90)), []string{}},
		{"full soon in a strong draught", guided(nil, blown(full(89))), []string{"note: strong draught"}},
		{"short in a strong draught", guided(nil, nil, blown(short)), []string{"note: strong draught"}},
		{"full once it was out", guided(nil, func(l *journal.BurnLog) {
			l.Burn.OutAt = ptr(l.Burn.LitAt.Add(time.Hour))
			l.Checks = l.Checks[:1]
			l.Checks[0].At, l.Checks[0].Full = l.Burn.LitAt.Add(70*time.Minute), true
		}), []string{}},
		{"a first burn may leave a ring", guided(nil, short), []string{}},
		{"a second one may not", guided(nil, nil, short), []string{"note: not full in time"}},
		{"set and cured", guided(func(l *journal.CandleLog) { l.Pour.At = lit.AddDate(0, 0, -7) }, nil), []string{}},
		{"lit a minute early", guided(func(l *journal.CandleLog) { l.Pour.At = lit.AddDate(0, 0, -7).Add(time.Minute) }, nil), []string{"note: burned before it was cured"}},
		{"two burns early", guided(func(l *journal.CandleLog) { l.Pour.At = lit.AddDate(0, 0, -5) }, nil, nil), []string{"note: burned before it was cured", "note: burned before it was cured"}},
		{"a rest of 59 min", guided(rest(59), nil, nil), []string{"caution: short rest"}},
		{"a rest of 60 min", guided(rest(60), nil, nil), []string{"note: rest shorter than advised"}},
		{"a rest of 119 min", guided(rest(119), nil, nil), []string{"note: rest shorter than advised"}},
		{"a rest of 120 min", guided(rest(120), nil, nil), []string{}},
		{"49.1 g of wax left", guided(waxed(49.1), nil), []string{}},
		{"48.9 g of wax left", guided(waxed(48.9), nil), []string{"caution: little wax left"}},
		{"a ring with a third of the wax left", guided(third(30), wall("ring")), []string{"caution: hang-up late in its life"}},
		{"a film with a third of the wax left", guided(third(30), wall("film")), []string{}},
		{"a ring with more left", guided(third(31), wall("ring")), []string{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, everything(c.log)); d != "" {
				t.Error(d)
			}
		})
	}
}

// 180 g were filled in, and the weighings went from 350 over 300 to 215 g: 45 g
// are left, though 215 g less an empty vessel of 180 g would be 35 g. In 76.2 mm
// at 0.90 g/mL they stand 10.96 mm high (geometry by hand).
func TestWaxLeftGoesByWhatWasFilledIn(t *testing.T) {
	t.Parallel()
	l := guided(nil, nil, nil)
	l.Candle.Filled, l.Vessel.EmptyMass = ptr(quantity.Grams(180)), ptr(quantity.Grams(180))
	l.Vessel.InnerWidth, l.Wax.SolidDensity = 76.2, ptr(quantity.GramsPerMillilitre(0.9))
	mass(&l, 350, 300, 215)
	text := func() string {
		for _, f := range safety.Everything(l, defaults, quantity.Metric) {
			if f.Rule == "little wax left" {
				return f.Text
			}
		}
		return ""
	}
	if got := text(); !strings.HasPrefix(got, "By its weight, about 11 mm of wax was left when burn 2 ended") {
		t.Errorf("got %q", got)
	}
	// That the burn before it was not weighed after takes nothing from it.
	l.Burns[0].Burn.MassAfter, l.Burns[1].Burn.MassBefore = nil, nil
	if got := text(); !strings.HasPrefix(got, "By its weight, about 11 mm") {
		t.Errorf("got %q", got)
	}
	l.Candle.Filled = nil
	if got := text(); !strings.HasPrefix(got, "By its weight, about 8.5 mm") {
		t.Errorf("by the vessel: got %q", got)
	}
}

// A vessel with a target of 3 h is full too soon by 1 h 30, that minute
// included, and is looked at in time from 3 h on: common practice, no source.
func TestRecordsAtTheVerySameMinute(t *testing.T) {
	t.Parallel()
	full := func(at time.Duration) journal.CandleLog {
		return guided(func(l *journal.CandleLog) { l.Vessel.TargetHours = ptr(quantity.Hours(3)) }, func(l *journal.BurnLog) {
			l.Checks[0].At, l.Checks[0].Full = l.Burn.LitAt.Add(at), true
		})
	}
	fs := safety.Everything(full(90*time.Minute), defaults, quantity.Metric)
	if d := cmp.Diff([]string{"note: full too soon"}, rules(fs)); d != "" {
		t.Fatal(d)
	}
	if want := "The pool was full after 1 h 30; by 1 h 30 is too soon. The wick may be too strong."; fs[0].Text != want {
		t.Errorf("got %q", fs[0].Text)
	}
	if got := everything(full(91 * time.Minute)); slices.Contains(got, "note: full too soon") {
		t.Errorf("a minute later: %v", got)
	}
	short := func(at time.Duration) journal.CandleLog {
		return guided(func(l *journal.CandleLog) { l.Vessel.TargetHours = ptr(quantity.Hours(3)) }, nil, func(l *journal.BurnLog) {
			*l = burn(3, nil)
			l.Checks[2].At, l.Checks[2].WidthA = l.Burn.LitAt.Add(at), ptr(quantity.Millimetres(60))
		})
	}
	if d := cmp.Diff([]string{"note: not full in time"}, everything(short(3*time.Hour))); d != "" {
		t.Error(d)
	}
	if got := everything(short(179 * time.Minute)); slices.Contains(got, "note: not full in time") {
		t.Errorf("a minute before: %v", got)
	}
}

func TestEverythingIsByWeightAndKnowsItsPlace(t *testing.T) {
	t.Parallel()
	l := guided(nil, nil, flames(80), sooted("marks"))
	l.Candle.ID, l.Burns[1].Checks[0].ID = 9, 31
	l.Burns[0].Burn.Trim = nil
	fs := safety.Everything(l, defaults, quantity.Metric)
	want := []string{"hard: flame over the limit NOW", "hard: flame over the limit NOW", "caution: soot", "caution: soot", "note: trim not noted"}
	if d := cmp.Diff(want, rules(fs)); d != "" {
		t.Error(d)
	}
	for _, f := range fs {
		if f.Candle != "14-C" || f.CandleID != 9 || f.Burn == 0 || f.At.IsZero() || f.Text == "" || f.Source == "" {
			t.Errorf("%+v", f)
		}
	}
	if fs[0].Hour != 1 || fs[0].Check != 31 || fs[0].Burn != 2 {
		t.Errorf("%+v", fs[0])
	}
	if text := fs[0].Reading.String() + " of " + fs[0].Limit.String() + ", " + fs[0].Source; !strings.HasPrefix(text, "80 mm of 75 mm, EN 15493") {
		t.Error(text)
	}
}

// EN 15493:2019 takes the mean over every burn of every candle (read in a
// secondary source): 20 and 41 s are 30.5 s on average.
func TestSmokeAcrossCandles(t *testing.T) {
	t.Parallel()
	across := func(a, b float64) []string {
		return rules(safety.OfLevel(safety.EverythingOf([]journal.CandleLog{guided(nil, smoke(a)), guided(nil, smoke(b))}, defaults, quantity.Metric), safety.Caution))
	}
	if d := cmp.Diff([]string{"caution: mean after-smoke", "caution: mean after-smoke of the pairing"}, across(20, 41)); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"caution: mean after-smoke"}, across(20, 40)); d != "" {
		t.Error(d)
	}
	alone := safety.EverythingOf([]journal.CandleLog{guided(nil, smoke(41))}, defaults, quantity.Metric)
	if d := cmp.Diff([]string{"caution: mean after-smoke"}, rules(safety.OfLevel(alone, safety.Caution))); d != "" {
		t.Errorf("of one candle the mean is said once: %s", d)
	}
	gone := guided(nil, smoke(90))
	gone.Candle.Gone = &lit
	if fs := safety.EverythingOf([]journal.CandleLog{gone}, defaults, quantity.Metric); len(fs) != 0 {
		t.Errorf("a withdrawn candle counts: %v", rules(fs))
	}
}

// No new text makes a claim either, and each has a source.
func TestNothingInEverythingMakesAClaim(t *testing.T) {
	t.Parallel()
	l := guided(func(l *journal.CandleLog) {
		l.Vessel.Certificate = false
		l.Pour.Load, l.Pour.LoadBasis, l.Pour.At = ptr(quantity.Fraction(0.2)), journal.OfWax, lit
		l.Pour.OilAt, l.Pour.HeatedTo, l.Pour.PouredAt = ptr(quantity.Celsius(90)), ptr(quantity.Celsius(90)), ptr(quantity.Celsius(90))
		l.Candle.Filled = ptr(quantity.Grams(90))
		mass(l, 300, 230, 215)
		l.Vessel.FillHeight = ptr(quantity.Millimetres(60))
		l.Burns[0].Burn.Trim, l.Burns[0].Burn.Room, l.Burns[0].Burn.Draught = nil, ptr(quantity.Celsius(10)), journal.DraughtStrong
		l.Burns[1].Checks[0].Full, l.Burns[1].Checks[1].WallWax = true, "tunnel"
	}, smoke(40), smoke(40))
	fs := safety.EverythingOf([]journal.CandleLog{l, l}, defaults, quantity.Imperial)
	seen := map[string]bool{}
	for _, f := range fs {
		seen[f.Rule] = true
		for _, s := range append([]string{f.Text, f.Source, f.Rule}, f.Do...) {
			if m := claims.FindString(s); m != "" {
				t.Errorf("%q says %q", s, m)
			}
		}
		if f.Text == "" || f.Source == "" || f.Level == "" || f.At.IsZero() {
			t.Errorf("incomplete: %+v", f)
		}
	}
	if len(seen) < 15 {
		t.Errorf("only %d rules were looked at: %v", len(seen), seen)
	}
}
