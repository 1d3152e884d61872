package page

import (
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/pour"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// SheetWork is a sheet worked out: what to weigh, what it fills, what it costs
// and what the shelf has of it.
type SheetWork struct {
	Asks     []SheetAskLine // why it cannot be worked out yet
	Totals   []ui.Fact
	Fills    []SheetFill
	Fallen   string // the heading of what a piece sinks by; "" when that is not known
	Words    []string
	Warnings []ui.Warning
	Needs    []SheetNeed
	Cost     []ui.Fact
	CostNote string
	Money    *ui.Item // leads to the currency, where there is a cost without one
}

// SheetAskLine is something that is missing or wrong, with where to mend it.
type SheetAskLine struct{ Text, Href, Link string }

// SheetFill is one line of what is filled.
type SheetFill struct {
	What, Wick, Places, Count  string
	Each, Unit, All, Sinks, By string
}

// SheetNeed is what is needed of one thing beside what the shelf has.
type SheetNeed struct {
	What, Href, Need, Have string
	Short, Doubt           string // by how much it is short; on what it depends that it is not
}

// worked is a sheet with its sums, on the way to a page.
type worked struct {
	sheet journal.PourSheet
	sums  pour.Sheet
	known Known
	view  View
}

// NewSheetWork works a sheet out and puts it into words.
func NewSheetWork(s journal.PourSheet, k Known, v View) SheetWork {
	sums, problems := pour.Work(SheetAsk(s, k))
	if len(problems) > 0 {
		return SheetWork{Asks: sheetAsks(problems, s, k)}
	}
	w := worked{s, sums, k, v}
	out := SheetWork{Totals: w.totals(), Fills: w.fills(), Words: w.words(), Warnings: w.warnings(), Needs: w.needs()}
	if sums.Shrink != nil {
		out.Fallen = "Sinks by"
	}
	if out.Cost, out.CostNote = w.cost(); len(out.Cost) > 0 {
		out.Money = noCurrency(v)
	}
	return out
}

// sheetAsks lead to the thing on the shelf that something is missing of.
func sheetAsks(problems []pour.Problem, s journal.PourSheet, k Known) []SheetAskLine {
	var out []SheetAskLine
	for _, p := range problems {
		l := SheetAskLine{Text: p.Text}
		switch {
		case !p.Missing && p.Field != "wax":
		case p.Field == "wax":
			l.Href, l.Link = "/shelf/waxes/"+idText(s.Wax)+"/edit", k.waxName(s.Wax)
		case p.Field == "oil" && s.Fragrance != nil:
			l.Href, l.Link = "/shelf/fragrances/"+idText(*s.Fragrance)+"/edit", k.fragranceName(s.Fragrance)
		case p.Filling >= 0 && s.Body.Lines[p.Filling].Vessel != nil:
			l.Href, l.Link = "/shelf/vessels/"+idText(*s.Body.Lines[p.Filling].Vessel)+"/edit", k.lineName(s.Body.Lines[p.Filling])
		case p.Filling >= 0 && s.Body.Lines[p.Filling].Mould != nil:
			l.Href, l.Link = "/shelf/moulds/"+idText(*s.Body.Lines[p.Filling].Mould)+"/edit", k.lineName(s.Body.Lines[p.Filling])
		}
		if !slices.Contains(out, l) {
			out = append(out, l)
		}
	}
	return out
}

func (w worked) mass(x quantity.Grams) quantity.Shown {
	return w.view.weighedMass(x, w.sheet.Body.Step)
}

// totals are the big figures: wax, oil, all of it.
func (w worked) totals() []ui.Fact {
	var l factList
	l.shown("Wax", w.mass(w.sums.Wax))
	if w.sums.Oil > 0 {
		l.shown("Fragrance oil", w.mass(w.sums.Oil))
	}
	l = append(l, ui.Fact{Label: "Together", Text: w.mass(w.sums.Total).Number, Unit: w.mass(w.sums.Total).Unit, More: w.parts()})
	l.text("Melts", w.melts())
	return l
}

func (w worked) melts() string {
	if n := len(w.sums.Melts); n > 1 {
		return counted(n, "melt", "melts") + ", whole pieces each"
	}
	return "one"
}

// parts say what the whole is made of: 1,010 g to fill, 50 g spare, 15 g left in the jug.
func (w worked) parts() string {
	s := w.mass(w.sums.Fill).String() + " to fill"
	for _, x := range []struct {
		mass quantity.Grams
		what string
	}{{w.sums.TopUp, "for the second pour"}, {w.sums.Spare, "spare"}, {w.sums.Waste, "left in the jug"}} {
		if x.mass > 0 {
			s += ", " + w.mass(x.mass).String() + " " + x.what
		}
	}
	return s
}

func (w worked) fills() []SheetFill {
	var out []SheetFill
	for i, l := range w.sums.Lines {
		line := w.sheet.Body.Lines[i]
		each := w.mass(l.Each)
		f := SheetFill{What: w.known.lineName(line), Count: w.count(line, l), Each: each.Number, Unit: each.Unit, All: w.mass(l.Total).String(), Places: placesText(line.Places)}
		if line.Wick != nil {
			f.Wick = wickCount(line.Wicks) + w.known.WickName(*line.Wick)
		}
		if l.Weighed {
			f.By = "as one was weighed"
		}
		if l.TopUp != nil {
			f.Sinks = w.view.volume(*l.TopUp).String()
		} else if l.TopMass != nil {
			f.Sinks = w.mass(*l.TopMass).String()
		}
		out = append(out, f)
	}
	return out
}

// count is how many, and of a mould with several cavities how many pieces.
func (w worked) count(line journal.SheetLine, l pour.Line) string {
	n := strconv.Itoa(line.Count)
	if line.Mould == nil {
		return n
	}
	return n + " × " + strconv.Itoa(l.Pieces/line.Count) + " = " + counted(l.Pieces, "piece", "pieces")
}

// placesText names places of a round: places 3, 7, 9.
func placesText(places []int) string {
	if len(places) == 0 {
		return ""
	}
	s := "place "
	if len(places) > 1 {
		s = "places "
	}
	for i, n := range places {
		if i > 0 {
			s += ", "
		}
		s += strconv.Itoa(n)
	}
	return s
}

// words say which density is meant, and what was done in rounding.
func (w worked) words() []string {
	var out []string
	s := w.sums
	if s.Density != nil {
		d := "A vessel is filled hot to its line, so the density of the liquid counts: " + s.Density.Shown().String()
		if s.Oil > 0 {
			d += " for wax and oil together"
		}
		if s.Derived {
			d += ", worked out from the solid density and the shrinkage"
		}
		out = append(out, d+".")
	}
	if s.Shrink != nil {
		out = append(out, "It shrinks by "+s.Shrink.Percent().String()+" as it sets, as the wax alone does; topped up hot, a piece takes that share of its fill again"+map[bool]string{true: ", which is melted here.", false: ". That is not in the sum above."}[s.TopUp > 0])
	} else {
		out = append(out, "How much it sinks as it sets is not known: note the shrinkage of the wax, or both its densities.")
	}
	if s.Held && !s.Over {
		out = append(out, "The oil was rounded down, so as not to pass the most that may go in.")
	}
	if len(s.Melts) > 1 {
		out = append(out, "Each melt is rounded by itself; the sums above are those of the melts.")
	}
	return out
}
