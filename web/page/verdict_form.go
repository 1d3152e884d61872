package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// VerdictFormPage is the page on which a verdict is made or corrected.
type VerdictFormPage struct {
	Title, Lede string
	Hard        []ui.Warning
	Wanted      []CheckItem // of the record; what is tried by hand stands in the form
	Left        string
	Facts       []ui.Fact
	Form        ui.Form
}

// rulingOptions are the rulings with what they mean.
var rulingOptions = []ui.Option{
	{Value: string(journal.Accepted), Text: "Accepted", Meaning: "this is the wick we pour with"},
	{Value: string(journal.Rejected), Text: "Rejected", Meaning: "not again in this setting; the reason is kept"},
	{Value: string(journal.LeftOpen), Text: "Left open", Meaning: "looked at, and not decided yet"},
}

// VerdictName is a verdict's pairing as a title.
func VerdictName(x journal.Verdict, k Known) string {
	return wickCount(x.Wicks) + k.WickName(x.Wick) + " in " + k.vesselName(x.Vessel)
}

// verdictSetting is the wax, fragrance and load that a verdict holds for.
func verdictSetting(x journal.Verdict, k Known) string {
	wax := k.waxes[x.Wax].Name
	switch {
	case x.Apart == journal.ByWax:
		return wax
	case x.Fragrance == nil:
		return wax + ", no fragrance"
	}
	name := k.fragrances[*x.Fragrance].Name
	switch {
	case x.Apart == journal.ByFragrance:
		return wax + " with " + name
	case x.Load == nil:
		return wax + " with " + name + ", load not noted"
	}
	return wax + " with " + name + ", " + loadShown(*x.Load, journal.OfWax).String()
}

// NewVerdictForm is the page of a new verdict. draft has the figures of now.
func NewVerdictForm(in Input, draft journal.Verdict, k Known, v View) VerdictFormPage {
	p := VerdictFormPage{Title: "A verdict on " + VerdictName(draft, k), Lede: joinBy(" · ", verdictSetting(draft, k), capital(counted(draft.Wicks, "wick", "wicks")))}
	items := verdict.Missing(draft.Figures, verdict.Hands{})
	for i, c := range checkItems(items) {
		if !items[i].ByHand {
			p.Wanted = append(p.Wanted, c)
		}
	}
	p.Left = "These figures are frozen with the verdict, and what moves later is shown beside them. Something that is missing takes a reason; a hard finding cannot be accepted over."
	for _, h := range draft.Figures.Hard {
		p.Hard = append(p.Hard, ui.Warning{Hard: true, Text: h})
	}
	p.Facts = frozenFacts(draft.Figures, v)
	ruling := ui.Group{Legend: "What you decide", Fields: []ui.Field{in.Words("ruling", "Ruling", rulingOptions, wide, required)}}
	p.Form = in.Form(ui.Form{Action: "/verdicts/new", Draft: "/verdicts/new?" + PlaceQuery(draft.Place()), Submit: "Save the verdict", Cancel: "/standings/pairing?" + PlaceQuery(draft.Place()),
		Hidden: placeHidden(draft.Place()), Groups: append([]ui.Group{ruling}, verdictGroups(in, draft.Figures)...)})
	return p
}

// NewVerdictEdit is the page that corrects a verdict.
func NewVerdictEdit(in Input, x journal.Verdict, k Known, v View) VerdictFormPage {
	p := VerdictFormPage{Title: "Correct the verdict on " + VerdictName(x, k),
		Lede: rulingSaid(x, v) + " The ruling and its figures stay as they were: a change of mind is a verdict of its own. The history keeps what was there before."}
	p.Form = in.Form(ui.Form{Action: verdictHref(x) + "/edit", Draft: verdictHref(x) + "/edit", Submit: "Save the correction", Cancel: verdictHref(x), Groups: verdictGroups(in, x.Figures)})
	return p
}

// placeHidden carries the pairing along with the form.
func placeHidden(p journal.Place) []ui.Hidden {
	return []ui.Hidden{{Name: "vessel", Value: idText(p.Vessel)}, {Name: "wax", Value: idText(p.Wax)}, {Name: "wick", Value: idText(p.Wick)}, {Name: "series", Value: p.Series}}
}

// verdictGroups are the questions that a new verdict and a correction share.
func verdictGroups(in Input, f journal.VerdictFigures) []ui.Group {
	return []ui.Group{
		{Fields: []ui.Field{
			in.Area("why", "Why", hint("needed when you reject, and when you accept with something missing")),
			in.Text("decided_by", "Decided by", required),
		}},
		{Legend: "Tried by hand", Lede: "No reading tells these. Tick what you tried on a finished candle.", Fields: []ui.Field{
			in.Tick("tip_test", "It stays up on a slope", hint("a cold candle on a board at 10°, turned each way round"), wide),
			in.Tick("base_check", "The surface below stays touchable", hint("felt to the end of a whole burn"), wide),
		}},
		{Legend: "Burn time for the label", Fields: []ui.Field{
			in.Quantity("hours", "claimed_hours", "Time you mean to print", hint(claimHint(f))),
		}},
	}
}

// claimHint says what the candles speak for.
func claimHint(f journal.VerdictFigures) string {
	if f.Label == nil || f.Label.Bound == nil {
		return "not enough yet: " + counted(f.Ended, "candle", "candles") + " burned to the end; may be left empty"
	}
	return "the candles speak for at most " + f.Label.Bound.WholeDown().String() + "; may be left empty"
}

// VerdictValues writes a verdict into the boxes of its form.
func VerdictValues(x journal.Verdict, u View) url.Values {
	f := newFiller(u.Units)
	f.text("decided_by", x.By)
	f.text("why", x.Why)
	f.flag("tip_test", x.TipTest)
	f.flag("base_check", x.BaseCheck)
	f.hours("claimed_hours", x.ClaimedHours)
	return f.Values
}

// verdictFacts lists what is written down of a verdict, its figures apart.
func verdictFacts(x journal.Verdict, v View) []ui.Fact {
	var l factList
	l.text("Ruling", rulingWord(x.Ruling))
	l.text("Decided by", x.By)
	l.text("Decided", v.Date(x.At)+", "+v.Clock(x.At))
	l.text("Stays up on a slope", tried(x.TipTest))
	l.text("Surface below stays touchable", tried(x.BaseCheck))
	if x.ClaimedHours != nil {
		l.shown("Burn time for the label", x.ClaimedHours.Decimal())
	}
	l.text("Why", x.Why)
	return l
}

func tried(b bool) string {
	if b {
		return "tried, yes"
	}
	return "not ticked"
}

// WithdrawableVerdict is a verdict.
func WithdrawableVerdict(x journal.Verdict, k Known) Withdrawable {
	return Withdrawable{journal.NounVerdict, x.ID, "Withdraw the verdict on " + VerdictName(x, k) + "?",
		"The verdict stays on record but counts no more; the one before it counts again, if there is one. It can be brought back.",
		"Withdraw it", "The verdict is withdrawn.", verdictHref(x)}
}
