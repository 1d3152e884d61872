package page

import (
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// pours are the batches that candles were poured from, each once, in order.
func poursOf(logs []journal.CandleLog) []journal.Pour {
	var out []journal.Pour
	for _, l := range logs {
		if !slices.ContainsFunc(out, func(p journal.Pour) bool { return p.ID == l.Pour.ID }) {
			out = append(out, l.Pour)
		}
	}
	return out
}

// usedRange is the range that values lie in; empty where there are none.
func usedRange[X any, T ~float64](list []X, of func(X) *T) journal.Range[T] {
	var r journal.Range[T]
	for _, x := range list {
		v := of(x)
		if v == nil {
			continue
		}
		if r.Low == nil || *v < *r.Low {
			r.Low = v
		}
		if r.High == nil || *v > *r.High {
			r.High = v
		}
	}
	return r
}

// usedText writes what was used; "not noted" where nobody wrote it down.
func usedText[T ~float64](r journal.Range[T], show func(T) quantity.Shown) string {
	switch {
	case r.IsZero():
		return notNoted
	case show(*r.Low) == show(*r.High):
		return tight(show(*r.Low).String())
	}
	return tight(rangeText(r, show).String())
}

const notNoted = "not noted"

// specRecipe is what was used, beside the suppliers' guidance.
func specRecipe(x journal.Verdict, logs []journal.CandleLog, k Known, v View) []SpecUsed {
	wax, pours := k.waxes[x.Wax], poursOf(logs)
	out := []SpecUsed{{"Wax", clipped(wax.Name, specName), joinBy(", ", string(wax.Family), lots(pours, func(p journal.Pour) string { return p.WaxLot }))}}
	out = append(out, specOil(x, pours, k)...)
	out = append(out,
		SpecUsed{"Heated to", usedText(usedRange(pours, func(p journal.Pour) *quantity.Celsius { return p.HeatedTo }), v.temperature), guided(wax.HeatTo, usedRange(pours, func(p journal.Pour) *quantity.Celsius { return p.HeatedTo }), v.temperature)},
		SpecUsed{"Oil added at", usedText(usedRange(pours, func(p journal.Pour) *quantity.Celsius { return p.OilAt }), v.temperature), guided(wax.AddOilAt, usedRange(pours, func(p journal.Pour) *quantity.Celsius { return p.OilAt }), v.temperature)},
		SpecUsed{"Poured at", usedText(usedRange(pours, func(p journal.Pour) *quantity.Celsius { return p.PouredAt }), v.temperature), guided(wax.PourAt, usedRange(pours, func(p journal.Pour) *quantity.Celsius { return p.PouredAt }), v.temperature)},
		SpecUsed{"Vessel warmed to", usedText(usedRange(pours, func(p journal.Pour) *quantity.Celsius { return p.VesselWarmed }), v.temperature), ""},
		SpecUsed{"Cure before lighting", usedText(usedRange(logs, cured), daysOf), guided(wax.CureDays, usedRange(logs, cured), daysOf)},
		SpecUsed{"Poured", pouredText(pours, v), ""})
	if extras := extrasText(pours); extras != "" {
		out = append(out, SpecUsed{"Also", extras, ""})
	}
	return out
}

// guided is a supplier's guidance, marked where what was used lies outside it.
func guided[T ~float64](r, used journal.Range[T], show func(T) quantity.Shown) string {
	s := guidance(r, show)
	if r.Low != nil && used.Low != nil && *used.Low < *r.Low || r.High != nil && used.High != nil && *used.High > *r.High {
		s += "; used outside it"
	}
	return s
}

// guidance is a supplier's guidance.
func guidance[T ~float64](r journal.Range[T], show func(T) quantity.Shown) string {
	return tight(rangeText(r, show).String())
}

// specOil is the fragrance with its load on both bases.
func specOil(x journal.Verdict, pours []journal.Pour, k Known) []SpecUsed {
	var names, most []string
	for _, p := range pours {
		if p.Fragrance == nil {
			continue
		}
		f := k.fragrances[*p.Fragrance]
		if !slices.Contains(names, f.Name) {
			names = append(names, f.Name)
			if f.MaxLoad != nil {
				most = append(most, "at most "+tight(loadShown(*f.MaxLoad, f.MaxBasis).String()))
			}
		}
	}
	if len(names) == 0 {
		return []SpecUsed{{"Fragrance", "none", ""}}
	}
	wax := k.waxes[x.Wax]
	on := func(b journal.Basis) string {
		return usedText(usedRange(pours, func(p journal.Pour) *quantity.Fraction { return p.LoadOn(b) }), func(f quantity.Fraction) quantity.Shown { return loadShown(f, b) })
	}
	load := on(journal.OfWax)
	if load != notNoted {
		load += " = " + on(journal.OfTotal)
	}
	return []SpecUsed{
		{"Fragrance", clipped(listed(names), specName), joinBy(", ", joinBy("; ", most...), lots(pours, func(p journal.Pour) string { return p.FragranceLot }))},
		{"Load", load, guidance(wax.Load, func(f quantity.Fraction) quantity.Shown { return loadShown(f, wax.LoadBasis) })},
	}
}

// lots names the lots that were used; "" where none was noted.
func lots(pours []journal.Pour, of func(journal.Pour) string) string {
	var names []string
	for _, p := range pours {
		if n := of(p); n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	switch len(names) {
	case 0:
		return "lot not noted"
	case 1:
		return "lot " + clipped(names[0], specName)
	}
	return clipped("lots "+listed(names), specName)
}

// cured is how long a candle stood before it was lit first; nil while it was
// not.
func cured(l journal.CandleLog) *quantity.Days {
	for _, b := range l.Burns {
		d := quantity.Days(b.Burn.LitAt.Sub(l.Pour.At).Hours() / 24)
		return &d
	}
	return nil
}

// pouredText says which batches, and when.
func pouredText(pours []journal.Pour, v View) string {
	if len(pours) == 0 {
		return notNoted
	}
	var numbers []string
	for _, p := range pours {
		numbers = append(numbers, strconv.Itoa(p.Number))
	}
	first, last := v.Date(pours[0].At), v.Date(pours[len(pours)-1].At)
	when := first
	if first != last {
		when += " to " + last
	}
	if len(pours) == 1 {
		return "pour " + numbers[0] + ", " + when
	}
	return clipped("pours "+listed(numbers), specName) + ", " + when
}

// extrasText is what else was done in some of the batches.
func extrasText(pours []journal.Pour) string {
	var out []string
	say := func(word string, is func(journal.Pour) bool) {
		n := 0
		for _, p := range pours {
			if is(p) {
				n++
			}
		}
		if n == len(pours) && n > 0 {
			out = append(out, word)
		} else if n > 0 {
			out = append(out, word+" in "+strconv.Itoa(n)+" of "+strconv.Itoa(len(pours)))
		}
	}
	say("poured twice", func(p journal.Pour) bool { return p.SecondPour })
	say("heat gun", func(p journal.Pour) bool { return p.HeatGun })
	say("dyed", func(p journal.Pour) bool { return p.Dye != "" })
	return joinBy(", ", out...)
}

// specVessel is the vessel with its own limits.
func specVessel(x journal.Vessel, v View) SpecBlock {
	b := SpecBlock{Title: "Vessel", Lines: []SpecLine{{"Name", clipped(x.Name, specName), joinBy(", ", string(x.Shape), string(x.Material))}, {"Inside", tight(wallText(x, v)), ""}}}
	fill := SpecLine{"Fill line", notNoted, ""}
	if x.FillHeight != nil {
		fill.Text = tight(v.length(*x.FillHeight).String()) + " high"
	}
	if c := x.Capacity(); c != nil {
		fill.More = tight(v.volume(*c).String()) + " to it"
	}
	own := ""
	if x.FlameLimit != nil {
		own = "flame " + tight(v.length(*x.FlameLimit).String())
	}
	if x.WallLimit != nil {
		own = joinBy(", ", own, "wall "+tight(v.temperature(*x.WallLimit).String()))
	}
	b.Lines = append(b.Lines, fill, SpecLine{"Full pool wanted by", tight(x.Target().Clock()), ""})
	if own != "" {
		b.Lines = append(b.Lines, SpecLine{"Its own limits", own, ""})
	}
	return append1(b, SpecLine{"Candle-glass certificate", certificate(x), ""})
}

func append1(b SpecBlock, l SpecLine) SpecBlock {
	b.Lines = append(b.Lines, l)
	return b
}

// certificate says whether the supplier's certificate is at hand.
func certificate(x journal.Vessel) string {
	if x.Certificate {
		return "the supplier’s is at hand"
	}
	return "not at hand"
}

// specWick is the wick with the trim that was used.
func specWick(x journal.Verdict, logs []journal.CandleLog, k Known, lim safety.Limits, v View) SpecBlock {
	w := k.wicks[x.Wick]
	l := k.ladders[w.Ladder]
	var burns []journal.Burn
	for _, log := range logs {
		for _, b := range log.Burns {
			burns = append(burns, b.Burn)
		}
	}
	trim := usedText(usedRange(burns, func(b journal.Burn) *quantity.Millimetres { return b.Trim }), v.length)
	return SpecBlock{Title: "Wick", Lines: []SpecLine{
		{"Series and label", clipped(joinWords(l.Name, w.Label), specName), joinBy(", ", counted(x.Wicks, "wick", "wicks"), string(l.Kind), clipped(l.Core, specName))},
		{"Trimmed to", trim, "wanted: " + tight(v.length(lim.Trim()).String())},
	}}
}

// specFill is the filled mass, in grams and ounces whatever the studio weighs
// in: labels may need both.
func specFill(logs []journal.CandleLog, v View) SpecBlock {
	var sum quantity.Grams
	n := 0
	for _, l := range logs {
		if l.Candle.Filled != nil {
			sum, n = sum+*l.Candle.Filled, n+1
		}
	}
	b := SpecBlock{Title: "Fill"}
	if n == 0 {
		return append1(b, SpecLine{"Filled mass", notNoted, "weigh candles when they are filled to know the net mass"})
	}
	r := usedRange(logs, func(l journal.CandleLog) *quantity.Grams { return l.Candle.Filled })
	if load := usedRange(poursOf(logs), func(p journal.Pour) *quantity.Fraction { return p.LoadOn(journal.OfWax) }); load.High != nil && *load.Low == *load.High {
		wax, oil := journal.SplitFill(sum/quantity.Grams(n), *load.High)
		b.Lines = append(b.Lines, SpecLine{"In each, on average", tight(v.mass(wax).String()) + " of wax, " + tight(v.mass(oil).String()) + " of oil", ""})
	}
	return append1(append1(b, SpecLine{"Filled mass", tight(v.mass(sum/quantity.Grams(n)).String()) + " on average", usedText(r, v.mass) + " over " + figured(n, "candle", "candles")}),
		SpecLine{"Net mass, the lightest", bothMasses(*r.Low), "mean " + bothMasses(sum/quantity.Grams(n)) + "; 28.3495 g to the ounce (16 CFR 500.19)"})
}

// bothMasses writes a mass in grams and in ounces.
func bothMasses(m quantity.Grams) string {
	return tight(quantity.Metric.ShowMass(m).String()) + " (" + tight(quantity.Imperial.ShowMass(m).String()) + ")"
}
