package page

import (
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// LightPage lights one candle or a whole sitting.
type LightPage struct {
	Lede    string
	Before  []string // what to do before a match is struck
	Tonight LightTonight
	Common  []ui.Field
	Rows    []LightRow
	Form    ui.Form
	More    string // when more candles wait than are listed
}

// LightRow is one candle that could be lit.
type LightRow struct {
	ID                            journal.ID
	Pick                          ui.Field
	Code, Href, What, State, Note string
	Trim, Mass, Place             ui.Field
	Problem, Question             string
}

// LightPrefix starts the names of a candle's fields on the lighting page.
func LightPrefix(id journal.ID) string { return "c" + idText(id) + "." }

// draughts are the words for how much the air moves.
var draughts = []ui.Option{
	{Value: "", Text: "not noted"}, {Value: string(journal.DraughtNone), Text: "none"},
	{Value: string(journal.DraughtSlight), Text: "slight"}, {Value: string(journal.DraughtStrong), Text: "strong"},
}

// NewLightPage builds the page; picked are the candles ticked beforehand.
func NewLightPage(in Input, waiting []journal.CandleLine, before []string, v View) LightPage {
	p := LightPage{Before: before,
		Lede: "Tick the candles of this sitting. They are walked past together, so light as many as you can look at in a few minutes each hour."}
	p.Common = []ui.Field{
		in.Time("lit_time", "Lit at", hint("empty means now")),
		in.Quantity("temperature", "room", "Room"),
		in.Select("draught", "Draught", draughts),
	}
	for _, c := range byReadiness(waiting, v, in) {
		p.Rows = append(p.Rows, lightRow(in.Row(LightPrefix(c.Candle.ID)), c, v))
	}
	p.Form = in.Form(ui.Form{Action: "/light", Draft: "/light", Cancel: "/", Submit: "Light them", Groups: lightLabels(p)})
	p.Form.Groups = nil
	return p
}

// Caution marks the candles on which oil beads stood when they were set: oil on
// the wax catches fire more easily.
func (p *LightPage) Caution(sweats map[journal.ID]bool) {
	for i, r := range p.Rows {
		if sweats[r.ID] {
			p.Rows[i].Note = "It sweated as it set: wipe the oil off first, keep clear as you light it, lid at hand."
		}
	}
}

// byReadiness puts what is ticked first, then what can be lit, then what still
// cures or sets; otherwise the order stays.
func byReadiness(waiting []journal.CandleLine, v View, in Input) []journal.CandleLine {
	place := func(c journal.CandleLine) int {
		switch s := c.Life.StateAt(v.Now); {
		case in.Values.Get(LightPrefix(c.Candle.ID)+"pick") != "":
			return 0
		case s == journal.Curing:
			return 2
		case s == journal.Setting:
			return 3
		}
		return 1
	}
	out := slices.Clone(waiting)
	slices.SortStableFunc(out, func(a, b journal.CandleLine) int { return place(a) - place(b) })
	return out
}

func lightRow(in Input, c journal.CandleLine, v View) LightRow {
	code := c.Candle.Code()
	say := func(what string) tweak { return unlabelled(what + " of " + code) }
	pick := in.Tick("pick", "", unlabelled("Light "+code))
	r := LightRow{
		ID: c.Candle.ID, Pick: pick, Code: code, Href: "/candles/" + idText(c.Candle.ID),
		What: c.VesselName + " · " + wickCount(c.Candle.Wicks) + c.WickName, State: stateText(c.Life, v),
		Trim:  in.Quantity("length", "trim", "", say("Wick trimmed to")),
		Mass:  in.Quantity("mass", "mass_before", "", say("Mass before")),
		Place: in.Text("place", "", say("Place on the bench")),
	}
	for _, field := range []string{"candle", "lit_at", "lit_time"} {
		r.Problem = joinWords(r.Problem, in.Problems.For(in.Prefix+field))
		for _, d := range in.Doubts {
			if d.Field == in.Prefix+field {
				r.Question = joinWords(r.Question, d.Text)
			}
		}
	}
	return r
}

// wickCount stands before a wick where a candle has several: 2 × Larkspur 5.
func wickCount(n int) string {
	if n > 1 {
		return strconv.Itoa(n) + " × "
	}
	return ""
}

// stateText says where a candle is on its way, in words with a day.
func stateText(f journal.Life, v View) string {
	switch s := f.StateAt(v.Now); s {
	case journal.Setting:
		return "setting since " + v.Day(f.PouredAt)
	case journal.Curing:
		return "curing until " + v.Day(f.ReadyAt())
	case journal.Ready:
		return "ready, not burned yet"
	case journal.Resting:
		if f.LastOut != nil {
			return "resting since " + v.Moment(*f.LastOut)
		}
		return "resting"
	case journal.LitNow:
		return "lit"
	default:
		return string(s)
	}
}

// lightLabels names the fields of all rows, so that problems can say whose
// they are.
func lightLabels(p LightPage) []ui.Group {
	g := ui.Group{Fields: p.Common}
	for _, r := range p.Rows {
		g.Fields = append(g.Fields, r.Trim, r.Mass, r.Place)
	}
	return []ui.Group{g}
}

// SnuffPage puts candles out, or weighs them when they are cold.
type SnuffPage struct {
	Title, Lede string
	When        *ui.Field
	Rows        []SnuffRow
	Form        ui.Form
	Weighing    bool
	Saved       string
	Empty       string
}

// SnuffRow is one candle to put out or to weigh.
type SnuffRow struct {
	Pick                    ui.Field
	Code, Href, What, State string
	Token, Version          ui.Hidden
	Mass, Smoke, End, Note  ui.Field
	Done                    string
}

// endings are the ways a burn can end, with their meanings.
func endings() []ui.Option {
	meaning := map[journal.Ending]string{
		journal.Snuffed: "snuffed", journal.WentOut: "went out by itself",
		journal.PutOutUnsafe: "put out for safety", journal.Spent: "spent: the candle is used up",
	}
	var out []ui.Option
	for _, e := range journal.Endings {
		out = append(out, ui.Option{Value: string(e), Text: meaning[e]})
	}
	return out
}

// NewSnuffPage builds the page that puts candles out.
func NewSnuffPage(in Input, lit []journal.CandleLog, action string, token func() string, v View) SnuffPage {
	when := in.Time("out_time", "Out at", hint("empty means now"))
	p := SnuffPage{Title: "Put them out", When: &when,
		Lede: "Smother with the lid or a snuffer, do not blow. Weigh once the wax is solid; the mass can be added later, the bench will ask for it."}
	for _, l := range lit {
		b := l.OpenBurn()
		row := in.Row(RowPrefix(b.Burn.ID))
		r := snuffRow(row, l.Candle, l.Vessel.Name+" · "+wicksText(l.Made))
		r.State = b.Burn.Lasted(v.Now).Clock() + " lit"
		r.Token = rowToken(in, b.Burn.ID, token)
		p.Rows = append(p.Rows, r)
	}
	if len(lit) == 1 {
		p.Title = "Put out " + lit[0].Candle.Code()
	}
	p.close(in, action, "Save")
	p.Empty = "Nothing is lit."
	return p
}

func snuffRow(in Input, c journal.Candle, what string) SnuffRow {
	code := c.Code()
	say := func(text string) tweak { return unlabelled(text + " of " + code) }
	return SnuffRow{
		Pick: in.Tick("pick", "", unlabelled(code+" is out")), Code: code, Href: "/candles/" + idText(c.ID), What: what,
		Mass:  in.Quantity("mass", "mass_after", "", say("Mass after")),
		Smoke: in.Quantity("seconds", "after_smoke", "", say("After-smoke")),
		End:   in.Select("ending", "", endings(), say("How the burn ended")),
		Note:  in.Text("note", "", say("Note")),
	}
}

// NewWeighPage builds the page that weighs cold candles.
func NewWeighPage(in Input, cold []journal.BurnLine, token func() string, v View) SnuffPage {
	p := SnuffPage{Title: "Weigh the cold ones", Weighing: true,
		Lede:  "Only when the wax is solid all through. A row left empty is asked for again later.",
		Empty: "Every burn that was weighed before is weighed after."}
	for _, c := range cold {
		r := snuffRow(in.Row(RowPrefix(c.Burn.ID)), c.Candle, "burn "+strconv.Itoa(c.Burn.Number)+", out "+v.Moment(*c.Burn.OutAt))
		if c.Burn.MassBefore != nil {
			r.State = "before: " + v.mass(*c.Burn.MassBefore).String()
		}
		r.Token = rowToken(in, c.Burn.ID, token)
		p.Rows = append(p.Rows, r)
	}
	p.close(in, "/weigh", "Save the masses")
	return p
}

// close gathers the hidden values and the list of what is wrong.
func (p *SnuffPage) close(in Input, action, submit string) {
	g := ui.Group{}
	if p.When != nil {
		g.Fields = append(g.Fields, *p.When)
	}
	for _, r := range p.Rows {
		g.Fields = append(g.Fields, r.Mass, r.Smoke, r.End, r.Note)
	}
	p.Form = in.Form(ui.Form{Action: action, Draft: action, Cancel: "/", Submit: submit, Groups: []ui.Group{g}})
	p.Form.Groups = nil
}

// LitText says how many candles were lit.
func LitText(n int) string {
	if n == 1 {
		return "One candle is lit. Stay with it."
	}
	return capital(counted(n, "candle", "candles")) + " are lit. Stay with them."
}

// RowsSaved says which candles' rows were saved; "" for none.
func RowsSaved(codes []string) string {
	if len(codes) == 0 {
		return ""
	}
	return "Saved for " + listed(codes) + "."
}
