package form

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

func TestReadPour(t *testing.T) {
	t.Parallel()
	p := NewParser(posted("at_date", "2026-07-01", "at_time", "10:15", "wax", "3", "wax_lot", "L1", "fragrance", "2", "fragrance_lot", "F9", "load", "8", "load_basis", "total", "heated_to", "80",
		"oil_at", "65", "poured_at", "57,5", "room", "21", "vessel_warmed", "0", "second_pour", "on", "heat_gun", "on", "dye", "none", "note", "n"), quantity.Metric, zoned(t, lisbon))
	got := ReadPour(p).Pour()
	diff(t, "problems", Problems(nil), p.Problems())
	diff(t, "pour", journal.Pour{
		At: *at(t, "2026-07-01T09:15:00Z"), Wax: 3, WaxLot: "L1", Fragrance: of(journal.ID(2)), FragranceLot: "F9", Load: of(quantity.Fraction(0.08)), LoadBasis: journal.OfTotal,
		HeatedTo: of(quantity.Celsius(80)), OilAt: of(quantity.Celsius(65)), PouredAt: of(quantity.Celsius(57.5)), Room: of(quantity.Celsius(21)), VesselWarmed: of(quantity.Celsius(0)),
		SecondPour: true, HeatGun: true, Dye: "none", Note: "n",
	}, got)
	none := ReadPour(metric("at_date", "2026-07-01", "at_time", "10:15", "wax", "3", "load", "0")).Pour()
	diff(t, "a load of nothing is an answer, of wax where no basis was chosen", journal.Pour{At: time.Date(2026, 7, 1, 10, 15, 0, 0, time.UTC), Wax: 3, Load: of(quantity.Fraction(0)), LoadBasis: journal.OfWax}, none)
	refuseAll(t, func(p *Parser) { ReadPour(p) }, []refused{
		{"nothing was filled in", nil, Problems{{"at_time", "Please fill this in."}, {"wax", "Please fill this in."}}},
		{"a time without its day", []string{"at_time", "10:15", "wax", "3"}, Problems{{"at_date", "Say on which day."}}},
		{"a day without its time", []string{"at_date", "2026-07-01", "wax", "3"}, Problems{{"at_time", "Say at what time of day."}}},
		{"a day that is none is not also a missing time", []string{"at_date", "2026-02-30", "at_time", "10:15", "wax", "3"}, Problems{{"at_date", dateSentence}}},
		{"a wax that is no number is not also missing", []string{"at_date", "2026-07-01", "at_time", "10:15", "wax", "soy"}, Problems{{"wax", "Choose one from the list."}}},
	})
}

func TestReadCandle(t *testing.T) {
	t.Parallel()
	p := imperial("vessel", "1", "wick", "5", "wicks", "2", "filled", "6.4", "note", "n")
	diff(t, "candle", journal.Candle{Vessel: 1, Wick: 5, Wicks: 2, Filled: of(quantity.Grams(6.4 * ounce)), Note: "n"}, ReadCandle(p).Candle())
	diff(t, "problems", Problems(nil), p.Problems())
	diff(t, "one wick where no count was given", journal.Candle{Vessel: 1, Wick: 5, Wicks: 1}, ReadCandle(metric("vessel", "1", "wick", "5")).Candle())
	refuseAll(t, func(p *Parser) { ReadCandle(p) }, []refused{
		{"nothing was filled in", nil, Problems{{"vessel", "Please fill this in."}, {"wick", "Please fill this in."}}},
		{"no wicks at all", []string{"vessel", "1", "wick", "5", "wicks", "0"}, Problems{{"wicks", "It must be more than nothing."}}},
		{"twelve wicks", []string{"vessel", "1", "wick", "5", "wicks", "12"}, nil},
		{"thirteen wicks", []string{"vessel", "1", "wick", "5", "wicks", "13"}, Problems{{"wicks", "It can be 12 at most."}}},
		{"filled with nothing", []string{"vessel", "1", "wick", "5", "filled", "0"}, Problems{{"filled", "It must be more than nothing."}}},
		{"filled with what is no number", []string{"vessel", "1", "wick", "5", "filled", "NaN"}, Problems{{"filled", "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."}}},
	})
}

func TestReadBurn(t *testing.T) {
	t.Parallel()
	lit := []string{"lit_date", "2026-01-10", "lit_time", "22:05"}
	with := func(pairs ...string) []string { return append(append([]string(nil), lit...), pairs...) }
	t.Run("a whole burn", func(t *testing.T) {
		t.Parallel()
		p := metric(with("trim", "6", "mass_before", "182.4", "room", "21", "draught", "slight", "place", "bench", "out_time", "01:50", "mass_after", "163.2", "after_smoke", "0", "ending", "snuffed", "note", "n")...)
		got := ReadBurn(p).Burn()
		diff(t, "problems", Problems(nil), p.Problems())
		diff(t, "burn", journal.Burn{
			LitAt: *at(t, "2026-01-10T22:05:00Z"), Trim: of(quantity.Millimetres(6)), MassBefore: of(quantity.Grams(182.4)), Room: of(quantity.Celsius(21)), Draught: journal.DraughtSlight, Place: "bench",
			OutAt: at(t, "2026-01-11T01:50:00Z"), MassAfter: of(quantity.Grams(163.2)), AfterSmoke: of(quantity.Seconds(0)), Ending: journal.Snuffed, Note: "n",
		}, got)
	})
	t.Run("still lit", func(t *testing.T) {
		t.Parallel()
		p := metric(lit...)
		diff(t, "burn", journal.Burn{LitAt: *at(t, "2026-01-10T22:05:00Z")}, ReadBurn(p).Burn())
		diff(t, "problems", Problems(nil), p.Problems())
	})
	t.Run("a date of going out is kept", func(t *testing.T) {
		t.Parallel()
		p := metric(with("out_date", "2026-01-12", "out_time", "01:50", "ending", "went out")...)
		diff(t, "out", at(t, "2026-01-12T01:50:00Z"), ReadBurn(p).Burn().OutAt)
	})
	t.Run("going out may be told as a span", func(t *testing.T) {
		t.Parallel()
		p := metric(with("out_time", "3 h 45", "ending", "spent")...)
		diff(t, "out", at(t, "2026-01-11T01:50:00Z"), ReadBurn(p).Burn().OutAt)
	})
	for _, e := range journal.Endings {
		p := metric(with("out_time", "01:50", "ending", string(e))...)
		if got := ReadBurn(p).Burn(); got.Ending != e || p.Problems().Any() {
			t.Errorf("ending %q: got %q and %v", e, got.Ending, p.Problems())
		}
	}
	refuseAll(t, func(p *Parser) { ReadBurn(p) }, []refused{
		{"nothing was filled in", nil, Problems{{"lit_time", "Please fill this in."}}},
		{"no day of lighting", []string{"lit_time", "22:05"}, Problems{{"lit_date", "Say on which day."}}},
		{"no day of lighting, but a time of going out", []string{"lit_time", "22:05", "out_time", "01:50", "ending", "snuffed"}, Problems{{"lit_date", "Say on which day."}}},
		{"out without an ending", with("out_time", "01:50"), Problems{{"ending", "Please fill this in too."}}},
		{"an ending without a time", with("ending", "snuffed"), Problems{{"out_time", "Say when it went out, or that it is still lit."}}},
		{"an ending of no list", with("out_time", "01:50", "ending", "blown"), Problems{{"ending", "Choose one from the list."}}},
		{"a draught of no list", with("draught", "gale"), Problems{{"draught", "Choose one from the list."}}},
		{"an unreadable mass", with("mass_before", "182 mm"), Problems{{"mass_before", "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."}}},
	})
}

func TestReadCheck(t *testing.T) {
	t.Parallel()
	t.Run("a whole check", func(t *testing.T) {
		t.Parallel()
		p := metric("at_date", "2026-01-10", "at_time", "22:05", "width_a", "61", "width_b", "58,5", "depth", "0", "flame", "3/4 in", "mushroom", "bead", "soot", "wisp", "wall_wax", "ring",
			"vessel_temp", "54", "hot_throw", "0", "odd", "flickering", "odd", "wick drifted", "left_out", "on", "note", "n")
		got := ReadCheck(p).Check()
		diff(t, "problems", Problems(nil), p.Problems())
		diff(t, "check", journal.Check{
			At: *at(t, "2026-01-10T22:05:00Z"), WidthA: of(quantity.Millimetres(61)), WidthB: of(quantity.Millimetres(58.5)), Depth: of(quantity.Millimetres(0)), Flame: of(quantity.Millimetres(0.75 * inch)),
			Mushroom: "bead", Soot: "wisp", WallWax: "ring", VesselTemp: of(quantity.Celsius(54)), HotThrow: of(0), Odd: []journal.Odd{journal.Flickering, journal.WickDrifted}, LeftOut: true, Note: "n",
		}, got)
	})
	t.Run("a time of day alone waits for the lighting", func(t *testing.T) {
		t.Parallel()
		p := metric("at_time", "1:30", "width_a", "61")
		if got := ReadCheck(p); got.At != nil || !got.Check().At.IsZero() || p.Problems().Any() {
			t.Errorf("got %v and %v", got.At, p.Problems())
		}
	})
	t.Run("a known moment is kept", func(t *testing.T) {
		t.Parallel()
		diff(t, "at", *at(t, "2026-01-10T22:05:00Z"), ReadCheckAt(metric("at_time", "never read"), at(t, "2026-01-10T22:05:00Z")).Check().At)
	})
	for _, c := range []struct {
		name  string
		pairs []string
		want  journal.Check
	}{
		{"full in the place of a width is the tick", []string{"width_a", "full"}, journal.Check{Full: true}},
		{"so is f, in any case", []string{"width_b", " F "}, journal.Check{Full: true}},
		{"one width may stand beside it", []string{"width_a", "73", "width_b", "FULL"}, journal.Check{Full: true, WidthA: of(quantity.Millimetres(73))}},
		{"the tick alone", []string{"full", "on"}, journal.Check{Full: true}},
		{"the tick beside widths", []string{"full", "on", "width_a", "73"}, journal.Check{Full: true, WidthA: of(quantity.Millimetres(73))}},
		{"no width yet", []string{"width_a", "0"}, journal.Check{WidthA: of(quantity.Millimetres(0))}},
		{"clean fills the grades that were left open", []string{"clean", "on"}, journal.Check{Mushroom: "none", Soot: "none", WallWax: "none"}},
		{"clean keeps a grade that was given", []string{"clean", "on", "soot", "thread"}, journal.Check{Mushroom: "none", Soot: "thread", WallWax: "none"}},
		{"and every other", []string{"clean", "on", "mushroom", "cap", "wall_wax", "film"}, journal.Check{Mushroom: "cap", Soot: "none", WallWax: "film"}},
		{"without clean, open grades stay open", []string{"soot", "none"}, journal.Check{Soot: "none"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := metric(c.pairs...)
			diff(t, "check", c.want, ReadCheck(p).Check())
			diff(t, "problems", Problems(nil), p.Problems())
		})
	}
	for _, o := range journal.Odds {
		p := metric("odd", string(o.Odd))
		if got := ReadCheck(p).Check(); !got.Has(o.Odd) || p.Problems().Any() {
			t.Errorf("odd %q: got %v and %v", o.Odd, got.Odd, p.Problems())
		}
	}
	refuseAll(t, func(p *Parser) { ReadCheck(p) }, []refused{
		{"an odd event of no list stands beside its ticks", []string{"odd", "flickering", "odd", "singing"}, Problems{{"odd", "Choose one from the list."}}},
		{"the same odd event twice", []string{"odd", "flickering", "odd", "flickering"}, Problems{{"odd", "Choose each only once."}}},
		{"a width below nothing", []string{"width_a", "-1"}, Problems{{"width_a", "It cannot be below nothing."}}},
		{"full is no depth", []string{"depth", "full"}, Problems{{"depth", "Write a length such as 73, 7.3 cm or 2 7/8 in."}}},
		{"a throw of five", []string{"hot_throw", "5"}, nil},
		{"a throw of six", []string{"hot_throw", "6"}, Problems{{"hot_throw", "It can be 5 at most."}}},
		{"a throw below nothing", []string{"hot_throw", "-1"}, Problems{{"hot_throw", "It cannot be below nothing."}}},
		{"a grade of another scale", []string{"soot", "bead"}, Problems{{"soot", "Choose one from the list."}}},
		{"a check with a day and no time", []string{"at_date", "2026-01-10"}, Problems{{"at_time", "Say at what time of day."}}},
		{"what is not finite", []string{"width_a", "Inf", "width_b", "NaN", "flame", "1e999"}, Problems{{"width_a", lengthSentence}, {"width_b", lengthSentence}, {"flame", lengthSentence}}},
	})
}

const lengthSentence = "Write a length such as 73, 7.3 cm or 2 7/8 in."

func TestEveryGradeIsRead(t *testing.T) {
	t.Parallel()
	for name, scale := range map[string][]journal.GradeWord{"mushroom": journal.MushroomScale, "soot": journal.SootScale, "wall_wax": journal.WallWaxScale} {
		for _, w := range scale {
			p := metric(name, string(w.Grade))
			c := ReadCheck(p).Check()
			got := map[string]journal.Grade{"mushroom": c.Mushroom, "soot": c.Soot, "wall_wax": c.WallWax}[name]
			if got != w.Grade || p.Problems().Any() {
				t.Errorf("%s %q: got %q and %v", name, w.Grade, got, p.Problems())
			}
		}
	}
}

func TestRowsOfChecksKeepTheirProblems(t *testing.T) {
	t.Parallel()
	p := metric("r1.width_a", "61", "r2.width_a", "-1", "r2.odd", "singing", "r2.at_date", "2026-02-30", "r2.at_time", "20:30")
	for _, prefix := range []string{"r1.", "r2."} {
		ReadCheck(p.With(prefix))
	}
	diff(t, "problems", Problems{{"r2.at_date", dateSentence}, {"r2.width_a", "It cannot be below nothing."}, {"r2.odd", "Choose one from the list."}}, p.Problems())
}
