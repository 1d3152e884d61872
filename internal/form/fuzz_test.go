package form

import (
	"math"
	"net/url"
	"reflect"
	"testing"
	"time"

	"rimward/internal/quantity"
)

// allFinite walks a value and fails where a number is not finite.
func allFinite(t *testing.T, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			t.Errorf("got %v, which is not finite", v.Float())
		}
	case reflect.Pointer:
		if !v.IsNil() {
			allFinite(t, v.Elem())
		}
	case reflect.Struct:
		if v.Type() != reflect.TypeFor[time.Time]() {
			for i := range v.NumField() {
				allFinite(t, v.Field(i))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			allFinite(t, v.Index(i))
		}
	}
}

// boxes are the names of every box of every form.
var boxes = []string{
	"name", "family", "load_basis", "blend_note", "form", "solid_density", "liquid_density", "melting_point", "heat_to_low", "heat_to_high", "add_oil_at_low", "pour_at_low",
	"load_low", "load_high", "cure_days_low", "cure_days_high", "shrinkage", "heat_of_combustion", "note", "max_basis", "density", "flash_point", "max_load", "shape", "material",
	"inner_width", "inner_length", "fill_height", "volume", "water_fill", "empty_mass", "certificate", "target_hours", "flame_limit", "wall_limit", "kind", "core", "label", "rung", "width",
	"threads", "at_date", "at_time", "wax", "fragrance", "load", "heated_to", "oil_at", "poured_at", "room", "vessel_warmed", "vessel", "wick", "wicks", "filled", "lit_date", "lit_time",
	"out_date", "out_time", "ending", "trim", "mass_before", "draught", "mass_after", "after_smoke", "width_a", "width_b", "full", "depth", "flame", "mushroom", "soot", "wall_wax",
	"vessel_temp", "hot_throw", "odd", "left_out", "clean", "length", "mass", "temperature", "ruler", "time_zone", "scheme",
}

// FuzzForms posts one text into every box of every form: nothing panics, no
// number comes out that is not finite, and every problem is a sentence.
func FuzzForms(f *testing.F) {
	for _, s := range []string{"", "0", "-1", "73", "2 7/8 in", "NaN", "Inf", "1e999", "0x10", "full", "snuffed", "2026-03-29", "02:30", "+1:30", "soy", "round", "mm", "UTC", "\x00", "\xff", "999999999", "on"} {
		f.Add(s, "2026-10-25")
	}
	berlin, err := time.LoadLocation(berlin)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text, date string) {
		values := url.Values{}
		for _, b := range boxes {
			values.Set(b, text)
		}
		for _, b := range []string{"at_date", "lit_date", "out_date"} {
			values.Set(b, date)
		}
		for _, u := range []quantity.Units{quantity.Metric, quantity.Imperial} {
			p := NewParser(values, u, berlin)
			for _, got := range []any{
				ReadWax(p).Wax(), ReadFragrance(p).Fragrance(), ReadVessel(p).Vessel(), ReadLadder(p).Ladder(), ReadWick(p).Wick(), ReadPour(p).Pour(), ReadCandle(p).Candle(),
				ReadBurn(p).Burn(), ReadCheck(p).Check(), ReadSettings(p), p.ClockBefore("at_time", time.Unix(1.8e9, 0)), p.ClockAfter("at_time", time.Unix(1.8e9, 0)),
			} {
				allFinite(t, reflect.ValueOf(got))
			}
			for _, x := range p.Problems() {
				if len(x.Text) < 10 {
					t.Errorf("%s: %q is no sentence", x.Field, x.Text)
				}
			}
		}
	})
}
