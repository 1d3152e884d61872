package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// VerdictForm is the page on which a verdict is given.
type VerdictForm struct {
	Title, Lede string
	Lacks       string
	Items       []VerdictItem
	Form        ui.Form
}

// rulingOptions are the three rulings with what each means.
func rulingOptions() []ui.Option {
	return []ui.Option{
		{Value: string(journal.Accepted), Text: "Accepted", Meaning: "it goes into production here"},
		{Value: string(journal.Rejected), Text: "Rejected", Meaning: "not this wick in this vessel"},
		{Value: string(journal.LeftOpen), Text: "Left open", Meaning: "looked at, not decided"},
	}
}

// verdictWords are the fields that can be corrected afterwards.
func verdictWords(in Input) []ui.Field {
	return []ui.Field{
		in.Text("by", "Decided by", required),
		in.Area("why", "Why", hint("needed when it is rejected, or accepted with something missing")),
		in.Tick("tip_test", "Tip test done by hand", hint("tipped 10° every way, full and near its end, and it stayed up")),
		in.Tick("base_check", "Base checked by hand", hint("the surface under it stayed cool enough to keep a hand on")),
		in.Quantity("hours", "claimed", "Burn time meant for the label", hint("may stay empty")),
	}
}

// NewVerdictForm builds the page for a pairing and its figures of now.
func NewVerdictForm(in Input, c PairingChoice, name, setting string, items []verdict.Item) VerdictForm {
	at := c.verdictHref()
	fields := append([]ui.Field{in.Words("ruling", "Verdict", rulingOptions())}, verdictWords(in)...)
	return VerdictForm{
		Title: "Verdict on " + name, Lede: setting + ". The figures as they stand now are kept with the verdict; what moves later is shown beside them.",
		Items: verdictItems(items), Lacks: lacksText(verdict.Missing(items)),
		Form: in.Form(ui.Form{Action: at, Draft: at, Cancel: c.Href(), Submit: "Keep the verdict", Groups: []ui.Group{{Fields: fields}}}),
	}
}

// VerdictValues writes what was said of a verdict into the boxes of its form.
func VerdictValues(x journal.Verdict) url.Values {
	f := newFiller(quantity.Units{})
	f.text("by", x.By)
	f.text("why", x.Why)
	f.flag("tip_test", x.TipTest)
	f.flag("base_check", x.BaseCheck)
	f.hours("claimed", x.Claimed)
	return f.Values
}

// EditVerdictForm corrects what was said of a verdict.
func EditVerdictForm(in Input, x journal.Verdict) ui.Form {
	at := verdictHref(x) + "/edit"
	return in.Form(ui.Form{Action: at, Draft: at, Cancel: verdictHref(x), Submit: "Save the correction", Groups: []ui.Group{{Fields: verdictWords(in)}}})
}
