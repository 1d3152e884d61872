package form

import "rimward/internal/journal"

// VerdictInput is a verdict as it was typed.
type VerdictInput struct {
	Ruling  string `form:"ruling"`
	By      string `form:"decided_by" validate:"required,max=120"`
	verdict journal.Verdict
}

// ReadVerdict reads the form of a verdict. Its ruling is asked for by the
// journal's rules: a correction has none.
func ReadVerdict(p *Parser) VerdictInput {
	in := VerdictInput{Ruling: p.Choice("ruling", stringsOf(journal.Rulings)...), By: p.Text("decided_by")}
	in.verdict = journal.Verdict{Why: p.Text("why"), TipTest: p.Flag("tip_test"), BaseCheck: p.Flag("base_check"), ClaimedHours: p.Hours("claimed_hours")}
	p.Check(in)
	return in
}

// Onto writes what was typed onto a verdict that knows what it is about.
func (in VerdictInput) Onto(v journal.Verdict) journal.Verdict {
	v.Ruling, v.By = journal.Ruling(in.Ruling), in.By
	v.Why, v.TipTest, v.BaseCheck, v.ClaimedHours = in.verdict.Why, in.verdict.TipTest, in.verdict.BaseCheck, in.verdict.ClaimedHours
	return v
}
