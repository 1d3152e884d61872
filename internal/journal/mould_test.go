package journal

import (
	"testing"
	"time"

	"rimward/internal/quantity"
)

func TestMouldRules(t *testing.T) {
	t.Parallel()
	mould := func(change func(*Mould)) Mould {
		m := Mould{Name: "Fir cones", Cavities: 4, Detail: Undercut}
		change(&m)
		return m
	}
	volume := func(v quantity.Millilitres) Mould { return mould(func(m *Mould) { m.CavityVolume = &v }) }
	water := func(v quantity.Grams) Mould { return mould(func(m *Mould) { m.WaterFill = &v }) }
	for name, c := range map[string]struct {
		mould Mould
		field string
	}{
		"as it should be":        {mould(func(*Mould) {}), ""},
		"without a name":         {mould(func(m *Mould) { m.Name = " " }), "name"},
		"no cavity":              {mould(func(m *Mould) { m.Cavities = 0 }), "cavities"},
		"one cavity":             {mould(func(m *Mould) { m.Cavities = 1 }), ""},
		"200 cavities":           {mould(func(m *Mould) { m.Cavities = 200 }), ""},
		"201 cavities":           {mould(func(m *Mould) { m.Cavities = 201 }), "cavities"},
		"a volume below nothing": {volume(-1), "cavity_volume"},
		"a tenth of a mL":        {volume(0.1), ""},
		"less than that":         {volume(0.09), "cavity_volume"},
		"20 L":                   {volume(20000), ""},
		"more than that":         {volume(20001), "cavity_volume"},
		"water below nothing":    {water(-5), "water_fill"},
		"a detail of no list":    {mould(func(m *Mould) { m.Detail = "ornate" }), "detail"},
	} {
		if got := fieldOf(t, c.mould.Validate()); got != c.field {
			t.Errorf("%s: refused at %q, want %q", name, got, c.field)
		}
	}
}

// Water at 20 °C weighs 0.9982 g/mL (CRC Handbook of Chemistry and Physics,
// from memory): 49.91 g of it fill 50 mL.
func TestMouldCapacity(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		mould Mould
		want  float64
	}{
		{Mould{WaterFill: ptr(quantity.Grams(49.91))}, 50},
		{Mould{CavityVolume: ptr(quantity.Millilitres(42)), WaterFill: ptr(quantity.Grams(49.91))}, 42},
	} {
		if got := c.mould.Capacity(); got == nil || float64(*got) < c.want-1e-9 || float64(*got) > c.want+1e-9 {
			t.Errorf("%+v holds %v mL, want %g", c.mould, got, c.want)
		}
	}
	if got := (Mould{}).Capacity(); got != nil {
		t.Errorf("a mould that was not measured holds %v", *got)
	}
}

func aCast(change func(*Cast)) Cast {
	c := Cast{Pieces: 12, Out: ptr(hoursAgo(1)), Clean: ptr(10), Chipped: ptr(1), Broken: ptr(1), Captured: DetailFull, Surface: SurfaceSmooth, Firmness: Firm}
	change(&c)
	return c
}

func TestCastRules(t *testing.T) {
	t.Parallel()
	facts := CastFacts{Now: evening, Pour: Pour{Number: 14, At: hoursAgo(26)}, Mould: Mould{Name: "Fir cones", Cavities: 4}}
	gonePour, goneMould := facts, facts
	gonePour.Pour.Gone, goneMould.Mould.Gone = ptr(evening), ptr(evening)
	in := func(change func(*Cast)) Cast { c := Cast{Pieces: 4}; change(&c); return c }
	for name, c := range map[string]struct {
		cast  Cast
		facts CastFacts
		field string
	}{
		"as it should be":               {aCast(func(*Cast) {}), facts, ""},
		"still in the mould":            {in(func(*Cast) {}), facts, ""},
		"out and not counted":           {aCast(func(c *Cast) { c.Clean, c.Chipped, c.Broken = nil, nil, nil }), facts, ""},
		"no piece":                      {in(func(c *Cast) { c.Pieces = 0 }), facts, "pieces"},
		"one piece":                     {in(func(c *Cast) { c.Pieces = 1 }), facts, ""},
		"as many as can be":             {in(func(c *Cast) { c.Pieces = MostPieces }), facts, ""},
		"one more":                      {in(func(c *Cast) { c.Pieces = MostPieces + 1 }), facts, "pieces"},
		"counted without a moment":      {aCast(func(c *Cast) { c.Out = nil }), facts, "out_at"},
		"a look without a moment":       {in(func(c *Cast) { c.Surface = SurfacePitted }), facts, "out_at"},
		"out as it was poured":          {aCast(func(c *Cast) { c.Out = ptr(hoursAgo(26)) }), facts, ""},
		"out before it was poured":      {aCast(func(c *Cast) { c.Out = ptr(hoursAgo(26).Add(-time.Second)) }), facts, "out_at"},
		"out in the future":             {aCast(func(c *Cast) { c.Out = ptr(evening.Add(3 * time.Minute)) }), facts, "out_at"},
		"clocks may differ by a minute": {aCast(func(c *Cast) { c.Out = ptr(evening.Add(time.Minute)) }), facts, ""},
		"one too few":                   {aCast(func(c *Cast) { c.Clean = ptr(9) }), facts, "pieces"},
		"one too many":                  {aCast(func(c *Cast) { c.Clean = ptr(11) }), facts, "pieces"},
		"too many, one not counted":     {aCast(func(c *Cast) { c.Clean, c.Broken = ptr(12), nil }), facts, "pieces"},
		"below nothing":                 {aCast(func(c *Cast) { c.Chipped = ptr(-1) }), facts, "chipped"},
		"more than were cast":           {aCast(func(c *Cast) { c.Broken = ptr(13) }), facts, "broken"},
		"broken not counted":            {aCast(func(c *Cast) { c.Broken = nil }), facts, "broken"},
		"clean not counted":             {aCast(func(c *Cast) { c.Clean = nil }), facts, "clean"},
		"a detail of no list":           {aCast(func(c *Cast) { c.Captured = "half" }), facts, "captured"},
		"a surface of no list":          {aCast(func(c *Cast) { c.Surface = "wavy" }), facts, "surface"},
		"a firmness of no list":         {aCast(func(c *Cast) { c.Firmness = "hard" }), facts, "firmness"},
		"a pour that was withdrawn":     {in(func(*Cast) {}), gonePour, ""},
		"a mould that was retired":      {in(func(*Cast) {}), goneMould, "mould"},
		"correcting one of that mould":  {in(func(c *Cast) { c.ID = 3 }), goneMould, ""},
	} {
		err := c.cast.Validate(c.facts)
		if got := fieldOf(t, err); got != c.field || (name == "a pour that was withdrawn" && err == nil) {
			t.Errorf("%s: refused at %q, want %q", name, got, c.field)
		}
	}
}

func TestHoursInTheMould(t *testing.T) {
	t.Parallel()
	c := aCast(func(c *Cast) { c.Out = ptr(hoursAgo(1.5)) })
	if h, out := c.HoursIn(hoursAgo(26)); !out || h != 24.5 {
		t.Errorf("in the mould for %v h, %v", h, out)
	}
	if _, out := (Cast{}).HoursIn(hoursAgo(26)); out {
		t.Error("what is in the mould has no hours yet")
	}
}
