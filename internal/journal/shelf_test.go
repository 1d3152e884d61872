package journal

import (
	"strings"
	"testing"

	"rimward/internal/quantity"
)

func TestShelfRules(t *testing.T) {
	t.Parallel()
	wax := func(change func(*Wax)) error {
		w := Wax{Name: "Meadow", Family: "soy"}
		change(&w)
		return w.Validate()
	}
	vessel := func(change func(*Vessel)) error {
		v := Vessel{Name: "Tumbler", Shape: Round, InnerWidth: 76, Material: "glass"}
		change(&v)
		return v.Validate()
	}
	for name, c := range map[string]struct {
		err   error
		field string
	}{
		"a wax":                              {wax(func(*Wax) {}), ""},
		"a wax without a name":               {wax(func(w *Wax) { w.Name = "  " }), "name"},
		"120 accented letters":               {wax(func(w *Wax) { w.Name = strings.Repeat("é", 120) }), ""},
		"121 letters":                        {wax(func(w *Wax) { w.Name = strings.Repeat("e", 121) }), "name"},
		"a family that is none":              {wax(func(w *Wax) { w.Family = "tallow" }), "family"},
		"a guidance upside down":             {wax(func(w *Wax) { w.PourAt = Range[quantity.Celsius]{ptr(quantity.Celsius(70)), ptr(quantity.Celsius(60))} }), "pour_at_high"},
		"a guidance of one point":            {wax(func(w *Wax) { w.PourAt = Range[quantity.Celsius]{ptr(quantity.Celsius(60)), ptr(quantity.Celsius(60))} }), ""},
		"a load of half the wax":             {wax(func(w *Wax) { w.Load.High = ptr(quantity.Fraction(0.5)) }), ""},
		"a load beyond":                      {wax(func(w *Wax) { w.Load.High = ptr(quantity.Fraction(0.51)) }), "load_high"},
		"a round vessel":                     {vessel(func(*Vessel) {}), ""},
		"a round vessel with another length": {vessel(func(v *Vessel) { v.InnerLength = ptr(quantity.Millimetres(80)) }), "inner_length"},
		"an oval without length":             {vessel(func(v *Vessel) { v.Shape = Oval }), "inner_length"},
		"an oval longer than wide":           {vessel(func(v *Vessel) { v.Shape, v.InnerLength = Oval, ptr(quantity.Millimetres(100)) }), ""},
		"an oval wider than long":            {vessel(func(v *Vessel) { v.Shape, v.InnerLength = Oval, ptr(quantity.Millimetres(70)) }), "inner_length"},
		"a vessel of 9 mm":                   {vessel(func(v *Vessel) { v.InnerWidth = 9 }), "inner_width"},
		"a wick without a label":             {Wick{Rung: 1}.Validate(), "label"},
		"a wick on no rung":                  {Wick{Label: "7"}.Validate(), "rung"},
		"a ladder made as nothing known":     {Ladder{Name: "Larkspur", Kind: "wire"}.Validate(), "kind"},
		"a fragrance of flash point 300 °C":  {Fragrance{Name: "Fig", FlashPoint: ptr(quantity.Celsius(301))}.Validate(), "flash_point"},
		"oil without a fragrance":            {Pour{Wax: 1, At: evening, LoadBasis: OfWax, Load: ptr(quantity.Fraction(0.08))}.Validate(evening), "fragrance"},
		"a load of nothing needs none":       {Pour{Wax: 1, At: evening, LoadBasis: OfWax, Load: ptr(quantity.Fraction(0))}.Validate(evening), ""},
		"a pour tomorrow":                    {Pour{Wax: 1, At: evening.AddDate(0, 0, 1), LoadBasis: OfWax}.Validate(evening), "at"},
		"thirteen wicks":                     {Candle{Pour: 1, Vessel: 1, Wick: 1, Letter: "A", Wicks: 13}.Validate(), "wicks"},
	} {
		if got := fieldOf(t, c.err); got != c.field {
			t.Errorf("%s: refused at %q, want %q", name, got, c.field)
		}
	}
}

// Every scale begins with none and every word has a meaning.
func TestScales(t *testing.T) {
	t.Parallel()
	for name, scale := range map[string][]GradeWord{"mushroom": MushroomScale, "soot": SootScale, "wall": WallWaxScale} {
		if scale[0].Grade != "none" {
			t.Errorf("%s begins with %q", name, scale[0].Grade)
		}
		for i, w := range scale {
			if w.Meaning == "" {
				t.Errorf("%s: %q has no meaning", name, w.Grade)
			}
			if got, ok := Rank(scale, w.Grade); !ok || got != i {
				t.Errorf("%s: %q has the rank %d", name, w.Grade, got)
			}
		}
	}
	if _, ok := Rank(SootScale, ""); ok {
		t.Error("a grade that was not noted has a rank")
	}
}
