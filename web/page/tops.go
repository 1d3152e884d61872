package page

import (
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// TopsPage is the look at a pour's candles once they are set: one row for each,
// one save.
type TopsPage struct {
	Title, Kicker, Lede string
	Pour                string // its address
	Early               string // that a full day has not passed yet
	Saved               string // which rows were saved when others came back
	Unit                string // of lengths
	When                []ui.Field
	All                 ui.Field
	Rows                []TopsRow
	Form                ui.Form
	Missing             *MissingPage
}

// TopsRow is one candle of the pour.
type TopsRow struct {
	Code, Href, What, State             string
	Token                               ui.Hidden
	Fine, Top, Dip, Sink, Cracks, Frost ui.Field
	Sweat, Stuck, Cold, Note            ui.Field
	Done                                string // it was saved just now: no fields any more
}

// TopsPrefix starts the names of a candle's fields on the page.
func TopsPrefix(candle journal.ID) string { return "c" + idText(candle) + "." }

// TopsAstray is said of a candle that was withdrawn while somebody looked at it.
func TopsAstray(code string) string {
	return code + " was withdrawn meanwhile. What was typed of it is not saved; bring the candle back first to write it down."
}

// NewTopsPage builds the page. logs are the pour's candles that count; done
// names those that were saved just now; only is the one candle that was asked
// for, 0 for all.
func NewTopsPage(in Input, p journal.Pour, logs []journal.CandleLog, done map[journal.ID]string, only journal.ID, token func() string, v View) TopsPage {
	out := TopsPage{Kicker: capital(pourName(p)), Title: "Look at the tops", Pour: "/pours/" + idText(p.ID), Unit: in.Units.Length.Word(), Early: topsEarly(p, v)}
	if len(logs) == 0 {
		out.Missing = missing("This pour has no candle to look at.", []ui.Action{{Text: capital(pourName(p)), Href: out.Pour, Main: true}})
		return out
	}
	out.Lede = "Poured " + v.Moment(p.At) + ", " + agoText(p.At, v) + ". Tab moves along a candle, Enter goes to the next; a row left empty is not saved. A depth says that the top is a dip."
	out.When = []ui.Field{in.Date("at_date", "Day of this look", hint("empty means the latest such time")), in.Time("at_time", "Time", hint("empty means now"))}
	out.All = in.Tick("all_fine", "All as they should be", hint("fills in what you leave open, of every candle here that nobody looked at yet"))
	for i, l := range logs {
		row := topsRow(in.Row(TopsPrefix(l.Candle.ID)), l, v)
		row.Token, row.Done = topsToken(in, l.Candle.ID, token), done[l.Candle.ID]
		row.Fine.Autofocus = i == 0 && !in.Retried
		out.Rows = append(out.Rows, row)
	}
	action := topsHref(p.ID, only)
	out.Form = in.Form(ui.Form{Action: action, Draft: action, Cancel: out.Pour, Submit: topsSubmit(len(logs)), Groups: topsLabels(out)})
	out.Form.Groups = nil
	return out
}

func topsToken(in Input, candle journal.ID, token func() string) ui.Hidden {
	name := TopsPrefix(candle) + "token"
	if old := in.Values.Get(name); old != "" {
		return ui.Hidden{Name: name, Value: old}
	}
	return ui.Hidden{Name: name, Value: token()}
}

// topsEarly says that the candles are not set yet; "" once they are.
func topsEarly(p journal.Pour, v View) string {
	if sets := journal.SetsBy(p.At); v.Now.Before(sets) {
		return "A full day has not passed yet: candles are looked at after a full 24 h (common practice, no source), here from " + v.Moment(sets) +
			". What you write now is kept, and marked as early; the bench still asks then."
	}
	return ""
}

// agoText says how long ago the pour was.
func agoText(poured time.Time, v View) string {
	span := v.Now.Sub(poured)
	if span < 72*time.Hour {
		return strconv.Itoa(quantity.Hours(span.Hours()).Nearest()) + " h ago"
	}
	return v.daysApart(poured, v.Now).Shown().String() + " ago"
}

func topsRow(in Input, l journal.CandleLog, v View) TopsRow {
	code, was := l.Candle.Code(), lastLook(l)
	say := func(what string) tweak { return unlabelled(what + " of " + code) }
	amount := func(name, what string, before journal.Amount) ui.Field {
		return in.Select(name, "", walkWords(sinkWords), say(what), previous(string(before)))
	}
	return TopsRow{
		Code: code, Href: "/candles/" + idText(l.Candle.ID), What: wicksText(l.Made) + " in " + l.Vessel.Name, State: topsState(l, v),
		Fine: in.Tick("fine", "", unlabelled("As it should be: "+code)),
		Top:  in.Select("top", "", walkWords(topWords), say("Top"), previous(string(was.Top))),
		Dip:  in.Quantity("length", "dip", "", say("Depth of the dip"), shownBefore(was.Dip, v.length)),
		Sink: amount("sink_hole", "Sink hole", was.SinkHole), Cracks: amount("cracks", "Cracks", was.Cracks),
		Frost: amount("frosting", "Frosting", was.Frosting), Sweat: amount("sweating", "Sweating", was.Sweating),
		Stuck: in.Quantity("percent", "stuck", "", say("Wall stuck"), shownBefore(was.Stuck, quantity.Fraction.Percent)),
		Cold:  in.Select("cold_throw", "", walkWords(journal.ThrowScale), say("Cold throw"), coldBefore(was.ColdThrow)),
		Note:  in.Text("note", "", say("Note")),
	}
}

// lastLook is the latest set check that counts; an empty one when there is
// none.
func lastLook(l journal.CandleLog) journal.SetCheck {
	cs := l.CountedSetChecks()
	if len(cs) == 0 {
		return journal.SetCheck{}
	}
	return cs[len(cs)-1]
}

func shownBefore[T any](x *T, show func(T) quantity.Shown) tweak {
	if x == nil {
		return previous("")
	}
	return previous(show(*x).Number)
}

func coldBefore(n *int) tweak {
	if n == nil {
		return previous("")
	}
	return previous(strconv.Itoa(*n))
}

// topsState says when the candle was looked at last, or that it was lit.
func topsState(l journal.CandleLog, v View) string {
	looked, lit := "", ""
	if cs := l.CountedSetChecks(); len(cs) > 0 {
		looked = "looked at " + safety.AfterPour(l.Pour.At, cs[len(cs)-1].At)
	}
	if first := firstLit(l); first != nil {
		lit = "lit " + v.Moment(*first)
	}
	return joinBy("; ", looked, lit)
}

// topsLabels names the fields of all rows, so that problems can say whose they
// are.
func topsLabels(p TopsPage) []ui.Group {
	g := ui.Group{Fields: append([]ui.Field{p.All}, p.When...)}
	for _, r := range p.Rows {
		g.Fields = append(g.Fields, r.Fine, r.Top, r.Dip, r.Sink, r.Cracks, r.Frost, r.Sweat, r.Stuck, r.Cold, r.Note)
	}
	return []ui.Group{g}
}

func topsSubmit(n int) string {
	if n == 1 {
		return "Save the set check"
	}
	return "Save the set checks"
}

// TopsSaved says which candles' set checks were saved, and which of them sweat.
func TopsSaved(codes, sweating []string) string {
	switch {
	case len(codes) == 0:
		return ""
	case len(sweating) == 0:
		return capital(setChecksOf(codes)) + " saved."
	case len(sweating) == 1:
		return capital(setChecksOf(codes)) + " saved. " + sweating[0] + " sweats: wipe the oil off, and keep clear when you light it."
	}
	return capital(setChecksOf(codes)) + " saved. " + listed(sweating) + " sweat: wipe the oil off, and keep clear when you light them."
}

func setChecksOf(codes []string) string {
	if len(codes) == 1 {
		return "set check of " + codes[0]
	}
	return "set checks of " + listed(codes)
}
