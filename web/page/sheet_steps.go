package page

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/pour"
	"rimward/internal/quantity"
)

// stepsOf lists the steps of every melt; open says that ticks can still be set.
func stepsOf(in Input, w worked, open bool) []SheetMelt {
	var out []SheetMelt
	for i, m := range w.sums.Melts {
		melt := SheetMelt{}
		if len(w.sums.Melts) > 1 {
			melt.Title = "Melt " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(w.sums.Melts))
		}
		for _, step := range journal.SheetSteps {
			if m.Oil == 0 && (step == journal.WeighOil || step == journal.StirOil) {
				continue
			}
			row := w.step(step, m)
			row.Number = strconv.Itoa(len(melt.Steps) + 1)
			w.ticked(in, &row, step, i+1, m, open)
			melt.Steps = append(melt.Steps, row)
		}
		out = append(out, melt)
	}
	return out
}

// step is one thing to do, with its figure.
func (w worked) step(step journal.SheetStep, m pour.Melt) SheetStepRow {
	wax := w.known.waxes[w.sheet.Wax]
	var r SheetStepRow
	show := func(s quantity.Shown) { r.Figure, r.Unit = s.Number, s.Unit }
	switch step {
	case journal.WeighWax:
		r.What, r.Of = "Weigh the wax", wax.Name
		show(w.mass(m.Wax))
	case journal.HeatWax:
		r.What = "Heat it"
		show(rangeText(wax.HeatTo, w.view.temperature))
	case journal.WeighOil:
		r.What, r.Of = "Weigh the oil", w.known.fragranceName(w.sheet.Fragrance)
		show(w.mass(m.Oil))
	case journal.StirOil:
		r.What = "Add the oil and stir"
		show(rangeText(wax.AddOilAt, w.view.temperature))
		r.More = []string{"Stir gently for about two minutes (common practice, no source)."}
	case journal.PourWax:
		r.What = "Pour"
		show(rangeText(wax.PourAt, w.view.temperature))
		r.More = append(w.pourInto(m), w.inOrder()...)
		if w.sheet.Body.PourAt != nil {
			r.More = append([]string{"This sheet is to be poured at " + w.view.temperature(*w.sheet.Body.PourAt).String() + "; the supplier’s range stands beside it."}, r.More...)
		}
	}
	return r
}

// pourInto says what a melt goes into: 2 × Pebble tumbler, 254 g each.
func (w worked) pourInto(m pour.Melt) []string {
	var out []string
	for _, part := range m.Parts {
		line := w.sheet.Body.Lines[part.Line]
		out = append(out, strconv.Itoa(part.Pieces)+" × "+w.known.lineText(line)+": "+w.mass(w.sums.Lines[part.Line].Each).String()+" each")
	}
	return out
}

// inOrder says in which order the candles of a round are filled, where one melt
// fills unlike ones: the order was drawn by chance.
func (w worked) inOrder() []string {
	var places []int
	what := map[int]string{}
	for _, l := range w.sheet.Body.Lines {
		for _, n := range l.Places {
			places, what[n] = append(places, n), w.known.lineText(l)
		}
	}
	if len(w.sheet.Body.Lines) < 2 || len(places) < 2 || len(w.sums.Melts) > 1 {
		return nil
	}
	slices.Sort(places)
	var said []string
	for _, n := range places {
		said = append(said, strconv.Itoa(n)+" "+what[n])
	}
	return []string{"Fill them in the order that was drawn: " + strings.Join(said, "; ") + "."}
}

// ticked puts the boxes of a step beside it.
func (w worked) ticked(in Input, r *SheetStepRow, step journal.SheetStep, melt int, m pour.Melt, open bool) {
	r.Key = step.Key(melt)
	row := in.Row(r.Key + ".")
	label := r.What
	if len(w.sums.Melts) > 1 {
		label += ", melt " + strconv.Itoa(melt)
	}
	r.Done = row.Tick("done", "", unlabelled("Done: "+label))
	kind, said := "temperature", "Thermometer: "
	if step.Weighs() {
		kind, said = "mass", "Scale: "
	}
	r.Said = row.Quantity(kind, "said", "", unlabelled(said+label))
	if step == journal.WeighOil {
		r.More = append(r.More, w.oilAsWeighed(melt, m)...)
	}
	tick, is := w.sheet.Body.Ticked(r.Key)
	r.IsDone = is
	planned := map[journal.SheetStep]quantity.Grams{journal.WeighWax: m.Wax, journal.WeighOil: m.Oil}[step]
	if tick.Weighed != nil && apartMass(*tick.Weighed, planned) > w.sheet.Body.Step/2 {
		r.Off = w.mass(apartMass(*tick.Weighed, planned)).String() + map[bool]string{true: " over", false: " under"}[*tick.Weighed > planned]
	}
	if !open {
		r.SaidText = saidText(tick, w)
	}
}

// oilAsWeighed says how much oil goes with the wax that is in the pot, where
// that is not what was planned.
func (w worked) oilAsWeighed(melt int, m pour.Melt) []string {
	t, _ := w.sheet.Body.Ticked(journal.WeighWax.Key(melt))
	if t.Weighed == nil {
		return nil
	}
	oil := SheetAsk(w.sheet, w.known).OilFor(*t.Weighed)
	if apartMass(oil, m.Oil) < w.sheet.Body.Step/2 {
		return nil
	}
	return []string{"For the " + w.mass(*t.Weighed).String() + " of wax that were weighed it is " + w.mass(oil).String() + "."}
}

func saidText(t journal.SheetTick, w worked) string {
	switch {
	case t.Weighed != nil:
		return w.mass(*t.Weighed).String()
	case t.Read != nil:
		return w.view.temperature(*t.Read).String()
	case t.Key != "":
		return "done"
	}
	return "not ticked"
}

// SheetTickValues writes the ticks that are kept into the boxes.
func SheetTickValues(s journal.PourSheet, u quantity.Units) url.Values {
	f := newFiller(u)
	for _, t := range s.Body.Ticks {
		f.flag(t.Key+".done", true)
		f.mass(t.Key+".said", t.Weighed)
		f.temperature(t.Key+".said", t.Read)
	}
	return f.Values
}

// SheetKeys are the keys of every step that the sheet shows.
func SheetKeys(s journal.PourSheet, k Known) []string {
	sums, problems := pour.Work(SheetAsk(s, k))
	if len(problems) > 0 {
		return nil
	}
	var out []string
	for i := range sums.Melts {
		for _, step := range journal.SheetSteps {
			out = append(out, step.Key(i+1))
		}
	}
	return out
}

// SheetTicks reads the steps that were sent: one that is ticked, or has a
// reading, is done.
func SheetTicks(p *form.Parser, keys []string) (ticks []journal.SheetTick, off []journal.SheetTick) {
	for _, key := range keys {
		row := p.With(key + ".")
		t := journal.SheetTick{Key: key}
		if journal.StepOf(key).Weighs() {
			t.Weighed = row.Mass("said")
		} else {
			t.Read = row.Temperature("said")
		}
		if row.Flag("done") || t.Weighed != nil || t.Read != nil {
			ticks = append(ticks, t)
		} else {
			off = append(off, t)
		}
	}
	return ticks, off
}

// apartMass is how far two masses lie apart.
func apartMass(a, b quantity.Grams) quantity.Grams { return max(a-b, b-a) }
