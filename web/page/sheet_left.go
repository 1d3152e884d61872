package page

import (
	"net/url"
	"strconv"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/pour"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// LeftPage says what can be filled with what is left.
type LeftPage struct {
	Lede    string
	Missing *MissingPage
	Form    ui.Form
	Fields  []ui.Field
	Rows    []LeftRow
	Asked   bool
	From    []string // what was taken from the shelf’s counts
	Empty   string
}

// LeftRow is one vessel or mould and how many of it can be filled.
type LeftRow struct {
	What, Href, Count, Pieces string
	Runs, Remains, Needs      string
	Ask                       string // what is missing, instead of a number
}

// LeftInput is what somebody has left.
type LeftInput struct {
	Sheet journal.PourSheet
	Have  pour.Have

	waxOnShelf, oilOnShelf bool // it was not typed, but reckoned from the shelf
}

// from says what was reckoned with that nobody typed.
func (in LeftInput) from(k Known, v View) (out []string) {
	if w := k.waxes[in.Sheet.Wax]; in.waxOnShelf && w.OnHand != nil {
		out = append(out, w.Name+", on hand: "+massOnShelf(w.Stock, k.taken.Of(journal.NounWax, w.ID), v)+".")
	}
	if !in.oilOnShelf {
		return out
	}
	if f := k.fragrances[*in.Sheet.Fragrance]; f.OnHand != nil {
		out = append(out, f.Name+", on hand: "+massOnShelf(f.Stock, k.taken.Of(journal.NounFragrance, f.ID), v)+".")
	}
	return out
}

// ReadLeft reads the form; what is left is what was typed, or what was last
// counted on the shelf less what was poured since.
func ReadLeft(p *form.Parser, set journal.Settings, k Known) LeftInput {
	in := LeftInput{Sheet: journal.PourSheet{Fragrance: p.ID("fragrance"), Load: p.Percent("load"), LoadBasis: journal.Basis(p.Choice("load_basis", "wax", "total")),
		Body: journal.SheetBody{Step: set.ScaleStep, Melter: set.Melter, Waste: p.Mass("waste"), Spare: p.Percent("spare")}}}
	if id := p.ID("wax"); id != nil {
		in.Sheet.Wax = *id
	} else {
		p.Problem("wax", "Choose the wax.")
	}
	if in.Sheet.LoadBasis == "" {
		in.Sheet.LoadBasis = k.BasisOf(in.Sheet.Wax)
	}
	in.Have = pour.Have{Wax: p.Mass("wax_left"), Oil: p.Mass("oil_left")}
	if in.Have.Wax == nil {
		in.Have.Wax, in.waxOnShelf = journal.MassLeft(k.waxes[in.Sheet.Wax].Stock, k.taken.Of(journal.NounWax, in.Sheet.Wax)), true
	}
	if in.Sheet.Fragrance != nil && in.Have.Oil == nil {
		oil := *in.Sheet.Fragrance
		in.Have.Oil, in.oilOnShelf = journal.MassLeft(k.fragrances[oil].Stock, k.taken.Of(journal.NounFragrance, oil)), true
	}
	if in.Sheet.Load != nil && *in.Sheet.Load > 0 && in.Sheet.Fragrance == nil {
		p.Problem("fragrance", "A load above nothing needs its fragrance.")
	}
	if in.Have.Wax == nil && in.Have.Oil == nil && in.Sheet.Wax != 0 {
		p.Problem("wax_left", "Say how much wax is left: none is counted on the shelf.")
	}
	return in
}

// NewLeftPage builds the page; left is nil while nothing was asked.
func NewLeftPage(in Input, left *LeftInput, k Known, v View) LeftPage {
	p := LeftPage{Lede: "How many of each vessel or mould the wax and the oil are good for, each taken by itself. Leave open what is left, and the last count on the shelf is taken, less what was poured since."}
	if p.Missing = sheetLacks(k); p.Missing != nil {
		return p
	}
	mix := sheetMixGroup(in, k, chosenIn(in))
	p.Fields = append(mix.Fields,
		in.Quantity("mass", "wax_left", "Wax left"), in.Quantity("mass", "oil_left", "Oil left"),
		in.Quantity("mass", "waste", "Left in the jug", hint("of each melt")), in.Quantity("percent", "spare", "Spare"))
	p.Form = in.Form(ui.Form{Action: "/pours/sheets/left", Submit: "Work it out", Groups: []ui.Group{{Fields: p.Fields}}})
	p.Form.Hidden, p.Form.Groups = nil, nil
	if left != nil && len(in.Problems) == 0 {
		p.Asked, p.From = true, left.from(k, v)
		p.rows(*left, k, v)
	}
	return p
}

func (p *LeftPage) rows(left LeftInput, k Known, v View) {
	for _, x := range k.shelf.Vessels {
		if !x.IsGone() {
			p.Rows = append(p.Rows, leftRow(left, journal.SheetLine{Vessel: &x.ID, Count: 1}, "/shelf/vessels/"+idText(x.ID), k, v))
		}
	}
	for _, x := range k.shelf.Moulds {
		if !x.IsGone() {
			p.Rows = append(p.Rows, leftRow(left, journal.SheetLine{Mould: &x.ID, Count: 1}, "/shelf/moulds/"+idText(x.ID), k, v))
		}
	}
}

func leftRow(left LeftInput, line journal.SheetLine, href string, k Known, v View) LeftRow {
	s := left.Sheet
	s.Body.Lines = []journal.SheetLine{line}
	r := LeftRow{What: k.lineName(line), Href: href}
	reach, problems := pour.Left(SheetAsk(s, k), left.Have)
	if len(problems) > 0 {
		r.Ask = problems[0].Text
		return r
	}
	show := func(x quantity.Grams) string { return v.weighedMass(x, s.Body.Step).String() }
	r.Count = strconv.Itoa(reach.Count)
	if line.Mould != nil {
		r.Pieces = counted(reach.Pieces, "piece", "pieces")
	}
	r.Needs = show(reach.WaxOfOne) + " wax"
	if reach.OilOfOne > 0 {
		r.Needs += ", " + show(reach.OilOfOne) + " oil"
	}
	r.Runs = runsOut(reach)
	r.Remains = remains(reach, show)
	return r
}

func runsOut(r pour.Reach) string {
	what := map[pour.RunsOut]string{pour.WaxFirst: "The wax", pour.OilFirst: "The oil"}[r.First]
	switch {
	case what == "":
		return "Neither runs out, up to 2000 pieces."
	case r.NothingToFill:
		return what + " is not enough for one."
	}
	return what + " runs out first."
}

func remains(r pour.Reach, show func(quantity.Grams) string) string {
	text := ""
	if r.WaxLeft != nil {
		text = show(*r.WaxLeft) + " wax"
	}
	if r.OilLeft != nil {
		text = joinBy(", ", text, show(*r.OilLeft)+" oil")
	}
	return text
}

// LeftValues are the boxes of the form before anything was asked.
func LeftValues(q url.Values) url.Values {
	out := url.Values{}
	for _, k := range []string{"wax", "fragrance", "load", "load_basis", "wax_left", "oil_left", "waste", "spare"} {
		if q.Has(k) {
			out.Set(k, q.Get(k))
		}
	}
	return out
}
