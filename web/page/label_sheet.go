package page

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/label"
	"rimward/web/chart"
	"rimward/web/ui"
)

// LabelSheetPage is a form that chooses labels and, below it, the sheets as
// they are printed.
type LabelSheetPage struct {
	Title, Lede string
	Action      string // where the form goes, by GET
	Hidden      []ui.Hidden
	Fields      []ui.Field
	Pick        *ui.Field // which labels; nil where all are printed
	How         string    // how to print them
	Note        string    // what to mind of the address
	Sheets      []LabelPaper
	Name        string // of the region that holds the sheets
	None        string // said instead of sheets
	Back        ui.Action
}

// LabelPaper is one sheet of paper with its rows of places.
type LabelPaper struct {
	Class string
	Rows  [][]*LabelCell // nil stays empty
}

// LabelCell is what stands on one label.
type LabelCell struct {
	Class string
	Big   string   // what is read first: a candle's code, a place, a covered code
	Lines []string // below it
	QR    *chart.QR
	Demo  bool // says that it is of the demo
}

// BaseLabel is one label that is offered.
type BaseLabel struct {
	Key   string // names it in the address
	Big   string
	Lines []string
	Path  string // of what its QR code opens, from the app's root; "" for none
	Opens string // what that is
}

// LabelChoice is what was chosen of a sheet's form, as it was typed.
type LabelChoice struct {
	Asked              bool // the form was sent
	Size, Paper, Start string
	Base               string
	Of                 []string // keys of labels
}

// Candles are the candles that were chosen by name.
func (c LabelChoice) Candles() []journal.ID {
	var out []journal.ID
	for _, key := range c.Of {
		if id := idFrom(strings.TrimPrefix(key, "c")); id != 0 && key[0] == 'c' && !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// ReadLabelChoice reads the address of a sheet of labels.
func ReadLabelChoice(q url.Values) LabelChoice {
	return LabelChoice{Asked: q.Has("size"), Size: q.Get("size"), Paper: q.Get("paper"), Start: strings.TrimSpace(q.Get("start")),
		Base: strings.TrimSpace(q.Get("base")), Of: q["of"]}
}

// LabelOffer is what a sheet can be made of.
type LabelOffer struct {
	Title, Lede string
	Action      string
	Labels      []BaseLabel
	All         bool // all are printed until some are chosen
	Fixed       bool // there is no choosing
	Empty       string
	Back        ui.Action
	Address     string // of this app, as the browser asked for it
	Demo        bool   // labels say that they are of the demo
}

// longestBase is the longest address that still makes a code of a size that a
// phone reads off a small label (chosen by us).
const longestBase = 80

// NewLabelSheet lays out what was chosen; ok is false where something that was
// typed cannot be used: the form then says so and nothing is laid out.
func NewLabelSheet(o LabelOffer, c LabelChoice) (p LabelSheetPage, ok bool) {
	p = LabelSheetPage{Title: o.Title, Lede: o.Lede, Action: o.Action, Back: o.Back, Name: "The sheet as it is printed"}
	size, paper := label.SizeOf(c.Size), label.PaperOf(c.Paper)
	grid := label.Fit(size, paper)
	start, startProblem := startOf(c.Start, grid)
	base, baseProblem := baseOf(c.Base, o.Address)
	p.Fields = labelFields(c, size, paper, startProblem, base, baseProblem, grid)
	picked := o.picked(c)
	if !o.Fixed && len(o.Labels) > 0 {
		p.Pick = pickField(o.Labels, picked)
	}
	p.How = "Print at 100 %, without the browser’s own headers, onto plain sticky paper, and cut along the hairlines; or onto sheets of " + sizeWords(size) + " labels that leave no gaps."
	p.Note = addressNote(base)
	switch {
	case len(o.Labels) == 0:
		p.None = o.Empty
	case startProblem != "" || baseProblem != "":
		p.None = "Put right what is marked above, and the sheet is laid out."
		return p, false
	case len(picked) == 0:
		p.None = "Tick the labels to print."
	default:
		p.Sheets = laidOut(o.cells(picked, size, base), size, paper, start)
	}
	return p, true
}

// picked are the labels that were chosen, in the order they are offered.
func (o LabelOffer) picked(c LabelChoice) []BaseLabel {
	if o.Fixed || (o.All && !c.Asked && len(c.Of) == 0) {
		return o.Labels
	}
	var out []BaseLabel
	for _, l := range o.Labels {
		if slices.Contains(c.Of, l.Key) {
			out = append(out, l)
		}
	}
	return out
}

// startOf reads where on the first sheet to begin; empty is its first place.
func startOf(text string, g label.Grid) (start int, problem string) {
	if text == "" {
		return 1, ""
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > g.Each() {
		return 1, "A whole number from 1 to " + strconv.Itoa(g.Each()) + ": so many labels are on a sheet."
	}
	return n, ""
}

// baseOf reads the address that the codes begin with; empty is that which the
// browser asked for.
func baseOf(text, own string) (base, problem string) {
	if text == "" {
		return own, ""
	}
	u, err := url.Parse(text)
	switch {
	case err != nil || (u.Scheme != "http" && u.Scheme != "https") || u.Hostname() == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "":
		return text, "Write an address such as http://192.168.1.20:7373, with http:// or https:// before it."
	case len(text) > longestBase:
		return text, "Keep the address under " + strconv.Itoa(longestBase) + " characters: a longer one makes a code too fine for a small label."
	}
	return strings.TrimRight(u.Scheme+"://"+u.Host+u.EscapedPath(), "/"), ""
}

// addressNote says what to mind of an address that only this computer knows.
func addressNote(base string) string {
	u, err := url.Parse(base)
	if err != nil {
		return ""
	}
	switch u.Hostname() {
	case "localhost", "127.0.0.1", "::1":
		return "The codes hold " + base + ", which opens on this computer alone. For a phone, serve the journal to your own network (see rimward help serve) and write that address above."
	}
	return ""
}

var roundWord = map[bool]string{true: " mm, round", false: " mm"}

// sizeWords name a size; the sizes are whole millimetres in every studio, for
// so labels are sold.
func sizeWords(s label.Size) string {
	w := strconv.FormatFloat(s.Width, 'f', -1, 64)
	if s.Round {
		return w + roundWord[true]
	}
	return w + " × " + strconv.FormatFloat(s.Height, 'f', -1, 64) + roundWord[false]
}

func labelFields(c LabelChoice, size label.Size, paper label.Paper, startProblem, base, baseProblem string, g label.Grid) []ui.Field {
	var sizes, papers []ui.Option
	for _, s := range label.Sizes {
		sizes = append(sizes, ui.Option{Value: s.Key, Text: sizeWords(s)})
	}
	for _, x := range label.Papers {
		papers = append(papers, ui.Option{Value: x.Key, Text: x.Name})
	}
	first := c.Start
	if first == "" {
		first = "1"
	}
	return []ui.Field{
		{Kind: ui.SelectField, Name: "size", Label: "Label", Options: chosen(sizes, size.Key)},
		{Kind: ui.SelectField, Name: "paper", Label: "Paper", Options: chosen(papers, paper.Key)},
		{Kind: ui.CountField, Name: "start", Label: "Begin at label", Value: first, Problem: startProblem,
			Hint: "Of " + strconv.Itoa(g.Each()) + " on a sheet, row by row: for one that was begun."},
		{Kind: ui.TextField, Name: "base", Label: "Address in the codes", Value: base, Problem: baseProblem, Wide: true},
	}
}

func pickField(labels, picked []BaseLabel) *ui.Field {
	f := ui.Field{Kind: ui.TicksField, Name: "of", Label: "Labels", Wide: true}
	for _, l := range labels {
		on := slices.ContainsFunc(picked, func(x BaseLabel) bool { return x.Key == l.Key })
		f.Options = append(f.Options, ui.Option{Value: l.Key, Text: l.Big, Meaning: joinBy(" · ", l.Lines...), Selected: on})
	}
	return &f
}

// cells are the labels as they are drawn.
func (o LabelOffer) cells(labels []BaseLabel, size label.Size, base string) []*LabelCell {
	var out []*LabelCell
	for _, l := range labels {
		c := &LabelCell{Class: "lb-cell lb-" + size.Key, Big: l.Big, Lines: l.Lines, Demo: o.Demo}
		if l.Path != "" {
			if q, err := chart.NewQR(base+l.Path, "QR code that opens "+l.Opens); err == nil {
				c.QR = &q
			}
		}
		if c.QR == nil {
			c.Class += " lb-plain"
		}
		if len(l.Lines) == 0 {
			c.Class += " lb-alone"
		}
		out = append(out, c)
	}
	return out
}

// laidOut puts labels on sheets.
func laidOut(cells []*LabelCell, size label.Size, paper label.Paper, start int) []LabelPaper {
	var out []LabelPaper
	for _, sheet := range label.Fit(size, paper).Lay(len(cells), start) {
		x := LabelPaper{Class: "label-paper lb-" + paper.Key}
		for _, row := range sheet {
			x.Rows = append(x.Rows, placeCells(row, cells, size))
		}
		out = append(out, x)
	}
	return out
}

func placeCells(row []int, cells []*LabelCell, size label.Size) []*LabelCell {
	var out []*LabelCell
	for _, i := range row {
		if i == label.None {
			out = append(out, &LabelCell{Class: "lb-cell lb-empty lb-" + size.Key})
		} else {
			out = append(out, cells[i])
		}
	}
	return out
}
