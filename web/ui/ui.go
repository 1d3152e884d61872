// Package ui has the stateless pieces that every page is put together from:
// the layout, fields, notices, lists and tables of facts.
//
// A piece takes a small struct of finished strings. It refuses to know the
// journal, to do sums, or to decide anything but how a thing is marked up.
package ui

// Page is what the layout around every page needs to know.
type Page struct {
	Title    string
	Section  string // the menu entry that is current, "" for none
	Scheme   string // auto, day or night
	Clock    string // date and time in the studio's zone, for reading
	Now      string // the server's moment in Unix milliseconds, for the timers
	Zone     string // the studio's time zone, an IANA name
	Demo     bool
	Style    string // path of the stylesheet
	Script   string // path of the script
	Icon     string // path of the mark
	Flash    string // what was just done
	Sent     string // tokens of forms that were just saved, for clearing drafts
	Refresh  bool   // the page reloads itself when the journal changes elsewhere
	Revision string // of the journal, where Refresh is set
}

// NavEntry is one entry of the menu.
type NavEntry struct{ Section, Href, Text string }

// Nav lists the menu's entries in order.
var Nav = []NavEntry{
	{"bench", "/", "Bench"},
	{"candles", "/candles", "Candles"},
	{"standings", "/standings", "Standings"},
	{"sides", "/side-by-side", "Side by side"},
	{"rounds", "/rounds", "Rounds"},
	{"pours", "/pours", "Pours"},
	{"shelf", "/shelf", "Shelf"},
	{"settings", "/settings", "Settings"},
}

// FieldKind is how a field is drawn.
type FieldKind string

// The kinds of field.
const (
	TextField     FieldKind = "text"
	QuantityField FieldKind = "quantity"
	CountField    FieldKind = "count"
	DateField     FieldKind = "date"
	TimeField     FieldKind = "time"
	SelectField   FieldKind = "select"
	TickField     FieldKind = "tick"
	AreaField     FieldKind = "area"
	WordsField    FieldKind = "words" // one of a few words, each with its meaning
	TicksField    FieldKind = "ticks" // several of a few words
)

// Option is one choice of a select or of words.
type Option struct {
	Value, Text, Meaning string
	Selected             bool
}

// OptionGroup is a run of options under one heading; "" for none.
type OptionGroup struct {
	Label   string
	Options []Option
}

// Field is one question of a form, with what was typed and what is said of it.
type Field struct {
	Kind       FieldKind
	Name       string
	Label      string
	Value      string
	Unit       string
	Quantity   string // what kind of quantity, for reading it while typing
	Hint       string
	Previous   string // the reading before, in grey
	Understood string // how a quantity was read
	Problem    string
	Question   string // an unlikely entry, asked about once
	Options    []Option
	Groups     []OptionGroup
	Checked    bool
	Required   bool
	Autofocus  bool
	Wide       bool
	AriaLabel  string // instead of a visible label, in tables
}

// ID is the element's id: the name made fit for one.
func (f Field) ID() string { return "f-" + f.Name }

// DescribedBy names the lines that describe the field, "" when there are none.
func (f Field) DescribedBy() string {
	ids := ""
	for _, d := range []struct{ text, suffix string }{
		{f.Problem, "-problem"}, {f.Question, "-question"}, {f.Hint, "-hint"}, {f.Previous, "-prev"},
	} {
		if d.text != "" {
			ids += f.ID() + d.suffix + " "
		}
	}
	if ids == "" {
		return ""
	}
	return ids[:len(ids)-1]
}

// Group is a set of fields under one heading.
type Group struct {
	Legend, Lede string
	Fields       []Field
}

// Line is one thing that is wrong or asked, with the id of its field.
type Line struct{ Target, Text string }

// Hidden is a value that travels with a form unseen.
type Hidden struct{ Name, Value string }

// Form is a whole form of one page.
type Form struct {
	Action  string
	Draft   string // the key its draft is kept under in the browser; "" keeps none
	Hidden  []Hidden
	Groups  []Group
	Submit  string
	Cancel  string // where to go without saving
	Wrong   []Line
	Asked   []Line
	Retried bool // it comes back: focus goes to what is wrong
	Stamp   bool // its time of day, left empty, is set when typing begins
}

// Fact is one thing that is known, for a list of facts.
type Fact struct {
	Label string
	Text  string
	Unit  string
	More  string // a smaller line below
	Href  string
	Next  *Item // a smaller link below
}

// Warning is a finding in words, with a shape by its level.
type Warning struct {
	Hard bool
	Text string
	More string
}

// Danger is what to do now, before anything else.
type Danger struct {
	Heading string
	Steps   []string
	More    string
}

// Action is a button that does something, or a link that leads somewhere.
type Action struct {
	Text string
	Href string
	Post bool // a form of its own that posts to Href
	Main bool
	Stop bool
	// Hidden values posted along.
	Hidden []Hidden
}

// Item is a line of a list with what it is and when.
type Item struct {
	Text, Href, When, More string
}

// ChangeLine is one correction of a record, in words.
type ChangeLine struct {
	When, What string
	Diffs      []Diff
}

// Diff is one fact before and after.
type Diff struct{ Label, Before, After string }

// Pager leads to the neighbouring pages of a list; "" where there is none.
type Pager struct{ Newer, Older string }
