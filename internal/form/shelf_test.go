package form

import (
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// inches and ounces as 16 CFR 500.19 and NIST SP 811 (from memory) have them.
const (
	inch  = 25.4
	ounce = 28.349523125
)

// refused checks the problems of a form that was read.
type refused struct {
	name  string
	pairs []string
	want  Problems
}

// refuseAll reads each form and compares all of its problems.
func refuseAll(t *testing.T, read func(*Parser), rows []refused) {
	t.Helper()
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			t.Parallel()
			p := metric(r.pairs...)
			read(p)
			diff(t, "problems", r.want, p.Problems())
		})
	}
}

func TestReadWax(t *testing.T) {
	t.Parallel()
	p := metric("name", " Meadow 464 ", "family", "soy", "blend_note", "soft", "form", "flakes", "solid_density", "0,9", "liquid_density", "860 kg/m3", "melting_point", "49",
		"heat_to_low", "80", "heat_to_high", "85", "add_oil_at_low", "150 F", "pour_at_low", "55", "pour_at_high", "60 °C", "load_low", "6", "load_high", "10 %", "load_basis", "total",
		"cure_days_low", "1 week", "cure_days_high", "14", "shrinkage", "0", "heat_of_combustion", "38,5 kJ/g", "note", "keeps")
	got := ReadWax(p).Wax()
	diff(t, "problems", Problems(nil), p.Problems())
	diff(t, "wax", journal.Wax{
		Name: "Meadow 464", Family: "soy", BlendNote: "soft", Form: "flakes", SolidDensity: of(quantity.GramsPerMillilitre(0.9)), LiquidDensity: of(quantity.GramsPerMillilitre(0.86)), MeltingPoint: of(quantity.Celsius(49)),
		HeatTo: journal.Range[quantity.Celsius]{Low: of(quantity.Celsius(80)), High: of(quantity.Celsius(85))}, AddOilAt: journal.Range[quantity.Celsius]{Low: of(quantity.Celsius((150.0 - 32) / 1.8))},
		PourAt: journal.Range[quantity.Celsius]{Low: of(quantity.Celsius(55)), High: of(quantity.Celsius(60))}, Load: journal.Range[quantity.Fraction]{Low: of(quantity.Fraction(0.06)), High: of(quantity.Fraction(0.1))}, LoadBasis: journal.OfTotal,
		CureDays: journal.Range[quantity.Days]{Low: of(quantity.Days(7)), High: of(quantity.Days(14))}, Shrinkage: of(quantity.Fraction(0)), HeatOfCombustion: of(quantity.KilojoulesPerGram(38.5)), Note: "keeps",
	}, got)
	bare := ReadWax(metric("name", "A", "family", "palm")).Wax()
	diff(t, "a wax of which little is known", journal.Wax{Name: "A", Family: "palm", LoadBasis: journal.OfWax}, bare)
	refuseAll(t, func(p *Parser) { ReadWax(p) }, []refused{
		{"nothing was filled in", nil, Problems{{"name", "Please fill this in."}, {"family", "Please fill this in."}}},
		{"a family of no list", []string{"name", "A", "family", "tallow"}, Problems{{"family", "Choose one from the list."}}},
		{"a basis of no list", []string{"name", "A", "family", "soy", "load_basis", "oil"}, Problems{{"load_basis", "Choose one from the list."}}},
		{"the journal's rule stands beside its box", []string{"name", "A", "family", "soy", "melting_point", "150"}, Problems{{"melting_point", "Between 20 and 120 °C (68 and 248 °F)."}}},
		{"a range upside down", []string{"name", "A", "family", "soy", "load_low", "10", "load_high", "6"}, Problems{{"load_high", "The upper end stands below the lower end."}}},
		{"what could not be read wins over a rule", []string{"name", "A\x00", "family", "soy", "solid_density", "thick"},
			Problems{{"name", "This holds signs that are not text."}, {"solid_density", "Write a density such as 0.9 or 0.9 g/mL."}}},
	})
}

func TestReadFragrance(t *testing.T) {
	t.Parallel()
	p := imperial("name", "Fig leaf", "density", "1.02", "flash_point", "200", "max_load", "12", "max_basis", "wax", "note", "n")
	got := ReadFragrance(p).Fragrance()
	diff(t, "problems", Problems(nil), p.Problems())
	diff(t, "fragrance", journal.Fragrance{Name: "Fig leaf", Density: of(quantity.GramsPerMillilitre(1.02)), FlashPoint: of(quantity.Celsius((200.0 - 32) / 1.8)), MaxLoad: of(quantity.Fraction(0.12)), MaxBasis: journal.OfWax, Note: "n"}, got)
	refuseAll(t, func(p *Parser) { ReadFragrance(p) }, []refused{
		{"no name", []string{"max_load", "12"}, Problems{{"name", "Please fill this in."}}},
		{"more than half", []string{"name", "A", "max_load", "51"}, Problems{{"max_load", "Between 0 and 50 %."}}},
		{"half is allowed", []string{"name", "A", "max_load", "50"}, nil},
	})
}

func TestReadVessel(t *testing.T) {
	t.Parallel()
	p := imperial("name", "Tumbler", "shape", "oval", "material", "glass", "inner_width", "2 7/8", "inner_length", "3", "fill_height", "80 mm", "volume", "8", "water_fill", "8 oz",
		"empty_mass", "10", "certificate", "on", "target_hours", "2 h 30", "flame_limit", "2", "wall_limit", "158", "note", "n")
	got := ReadVessel(p).Vessel()
	diff(t, "problems", Problems(nil), p.Problems())
	diff(t, "vessel", journal.Vessel{
		Name: "Tumbler", Shape: journal.Oval, Material: "glass", InnerWidth: 2.875 * inch, InnerLength: of(quantity.Millimetres(3 * inch)), FillHeight: of(quantity.Millimetres(80)),
		Volume: of(quantity.Millilitres(8 * 29.5735295625)), WaterFill: of(quantity.Grams(8 * ounce)), EmptyMass: of(quantity.Grams(10 * ounce)), Certificate: true,
		TargetHours: of(quantity.Hours(2.5)), FlameLimit: of(quantity.Millimetres(2 * inch)), WallLimit: of(quantity.Celsius(126 / 1.8)), Note: "n",
	}, got)
	round := ReadVessel(metric("name", "A", "shape", "round", "material", "metal", "inner_width", "73", "inner_length", "73")).Vessel()
	diff(t, "a round vessel keeps no length beside its width", journal.Vessel{Name: "A", Shape: journal.Round, Material: journal.Metal, InnerWidth: 73}, round)
	square := ReadVessel(metric("name", "A", "shape", "rectangular", "material", "metal", "inner_width", "73", "inner_length", "73")).Vessel()
	diff(t, "a square one does", of(quantity.Millimetres(73)), square.InnerLength)
	refuseAll(t, func(p *Parser) { ReadVessel(p) }, []refused{
		{"nothing was filled in", nil, Problems{{"name", "Please fill this in."}, {"shape", "Please fill this in."}, {"material", "Please fill this in."}, {"inner_width", "Please fill this in."}, {"inner_length", "Give the longer way across too."}}},
		{"an unreadable width is not also missing or narrow", []string{"name", "A", "shape", "round", "material", "glass", "inner_width", "3 fl oz"}, Problems{{"inner_width", "Write a length such as 73, 7.3 cm or 2 7/8 in."}}},
		{"a width of nothing is a width, and too narrow", []string{"name", "A", "shape", "round", "material", "glass", "inner_width", "0"}, Problems{{"inner_width", "Between 10 and 500 mm (0.4 and 20 in)."}}},
		{"a round vessel with another length", []string{"name", "A", "shape", "round", "material", "glass", "inner_width", "73", "inner_length", "90"},
			Problems{{"inner_length", "A round vessel has one width. Leave the length empty, or choose another shape."}}},
	})
}

func TestReadLadderAndWick(t *testing.T) {
	t.Parallel()
	p := imperial("name", "Plain braid", "kind", "flat braid", "core", "paper", "note", "n")
	diff(t, "ladder", journal.Ladder{Name: "Plain braid", Kind: "flat braid", Core: "paper", Note: "n"}, ReadLadder(p).Ladder())
	diff(t, "problems", Problems(nil), p.Problems())
	p = imperial("label", "12", "rung", "3", "width", "1/8", "threads", "24", "note", "n")
	diff(t, "wick", journal.Wick{Label: "12", Rung: 3, Width: of(quantity.Millimetres(inch / 8)), Threads: of(24), Note: "n"}, ReadWick(p).Wick())
	diff(t, "problems", Problems(nil), p.Problems())
	diff(t, "a rung that was given no place", journal.Wick{Label: "12"}, ReadWick(metric("label", "12")).Wick())
	refuseAll(t, func(p *Parser) { ReadLadder(p) }, []refused{
		{"an empty ladder", nil, Problems{{"name", "Please fill this in."}, {"kind", "Please fill this in."}}},
		{"a kind of no list", []string{"name", "A", "kind", "string"}, Problems{{"kind", "Choose one from the list."}}},
	})
	refuseAll(t, func(p *Parser) { ReadWick(p) }, []refused{
		{"a rung without a label", []string{"rung", "two"}, Problems{{"rung", "Write a whole number."}, {"label", "Please fill this in."}}},
	})
}

func TestNamesHaveALength(t *testing.T) {
	t.Parallel()
	text := func(n int) string {
		b := make([]rune, n)
		for i := range b {
			b[i] = 'a'
		}
		return string(b)
	}
	for n, want := range map[int]string{120: "", 121: "That is too long."} {
		p := metric("name", text(n), "kind", "hemp", "core", text(n))
		ReadLadder(p)
		diff(t, "name", want, p.Problems().For("name"))
		diff(t, "core", want, p.Problems().For("core"))
	}
	for n, want := range map[int]string{60: "", 61: "That is too long."} {
		p := metric("label", text(n))
		ReadWick(p)
		diff(t, "label", want, p.Problems().For("label"))
	}
}

func TestReadSettings(t *testing.T) {
	t.Parallel()
	good := []string{"length", "in", "mass", "oz", "temperature", "F", "volume", "floz", "ruler", "1/16", "time_zone", "America/New York", "scheme", "night"}
	p := imperial(good...)
	s := journal.Settings{Limits: map[string]float64{"flame": 60}, Version: 4}
	ReadSettings(p).Apply(&s)
	diff(t, "problems", Problems(nil), p.Problems())
	diff(t, "settings", journal.Settings{Units: quantity.Imperial, Ruler: inch / 16, TimeZone: "America/New_York", Scheme: journal.SchemeNight, Limits: map[string]float64{"flame": 60}, Version: 4}, s)
	swap := func(name, text string) []string {
		out := append([]string(nil), good...)
		for i := 0; i < len(out); i += 2 {
			if out[i] == name {
				out[i+1] = text
			}
		}
		return out
	}
	const zone = "No time zone has this name. Write one such as Europe/Lisbon."
	refuseAll(t, func(p *Parser) { ReadSettings(p) }, []refused{
		{"a length in no list", swap("length", "ft"), Problems{{"length", "Choose one from the list."}}},
		{"no scheme", swap("scheme", ""), Problems{{"scheme", "Please fill this in."}}},
		{"no ruler", swap("ruler", ""), Problems{{"ruler", "Please fill this in."}}},
		{"a ruler of nothing", swap("ruler", "0"), Problems{{"ruler", "It must be more than nothing."}}},
		{"a ruler of ten millimetres", swap("ruler", "10"), nil},
		{"a ruler of eleven", swap("ruler", "11"), Problems{{"ruler", "That is more than anything here can be."}}},
		{"an unreadable ruler is not also missing", swap("ruler", "fine"), Problems{{"ruler", "Write a length such as 73, 7.3 cm or 2 7/8 in."}}},
		{"a zone of no place", swap("time_zone", "Atlantis/Town"), Problems{{"time_zone", zone}}},
		{"a zone that each machine reads otherwise", swap("time_zone", "Local"), Problems{{"time_zone", zone}}},
		{"a zone that climbs out of its folder", swap("time_zone", "../etc/passwd"), Problems{{"time_zone", zone}}},
		{"no zone", swap("time_zone", ""), Problems{{"time_zone", "Please fill this in."}}},
	})
}
