package page

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// AgainValues fill the boxes of a new round like an earlier one: the same
// candles to compare, drawn by another seed, on days that are still to come.
func AgainValues(r journal.TestRound, seed int, set journal.Settings, v View) url.Values {
	f := newFiller(v.Units)
	days := usualDays(set, v)
	days.Start, days.Hours, days.PerEvening, days.Weekdays, days.Burns = r.Days.Start, r.Days.Hours, r.Days.PerEvening, r.Days.Weekdays, r.Days.Burns
	days.BenchPlaces = r.Days.BenchPlaces
	for name, vs := range RoundDaysValues(days) {
		f.Values[name] = vs
	}
	f.id("wax", r.Wax)
	if r.Fragrance != nil {
		f.id("fragrance", *r.Fragrance)
	}
	f.factors(r.Factors)
	f.text("copies", strconv.Itoa(r.Copies))
	f.text("seed", strconv.Itoa(seed))
	if r.Drawn.PerMelt > 0 {
		f.text("per_melt", strconv.Itoa(r.Drawn.PerMelt))
	}
	f.flag("own_melts", r.Drawn.OwnMelts)
	f.flag("square", r.Drawn.Square)
	return f.Values
}

// factors fills in what is compared.
func (f filler) factors(x journal.RoundFactors) {
	for _, id := range x.Vessels {
		f.Add("vessels", idText(id))
	}
	var counts, loads []string
	for _, w := range x.Wicks {
		if !slices.Contains(f.Values["rungs"], idText(w.Wick)) {
			f.Add("rungs", idText(w.Wick))
		}
		if n := strconv.Itoa(w.Wicks); !slices.Contains(counts, n) {
			counts = append(counts, n)
		}
	}
	for _, l := range x.Loads {
		loads = append(loads, quantity.EditPercent(l))
	}
	f.text("wicks", strings.Join(counts, "; "))
	f.text("loads", strings.Join(loads, "; "))
	f.text("load_basis", string(x.LoadBasis))
	f.text("pour_ats", f.u.EditTemperatures(x.PourAts...))
}
