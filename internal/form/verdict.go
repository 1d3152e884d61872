package form

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// VerdictInput is a verdict as it was typed.
type VerdictInput struct {
	Ruling  string          `form:"ruling" validate:"required"`
	By      string          `form:"by" validate:"required"`
	Claimed *quantity.Hours `form:"claimed" validate:"omitempty,gt=0"`
	verdict journal.Verdict
}

// ReadVerdict reads the form of a new verdict.
func ReadVerdict(p *Parser) VerdictInput {
	in := ReadVerdictWords(p)
	in.Ruling = p.Choice("ruling", stringsOf(journal.Rulings)...)
	p.Check(in)
	return in
}

// ReadVerdictWords reads the form that corrects what was said of a verdict;
// its ruling stays.
func ReadVerdictWords(p *Parser) VerdictInput {
	return VerdictInput{By: p.Text("by"), Claimed: p.Hours("claimed"),
		verdict: journal.Verdict{Why: p.Text("why"), TipTest: p.Flag("tip_test"), BaseCheck: p.Flag("base_check")}}
}

// Verdict is the verdict that was typed.
func (in VerdictInput) Verdict() journal.Verdict {
	v := in.verdict
	v.Ruling, v.By, v.Claimed = journal.Ruling(in.Ruling), in.By, in.Claimed
	return v
}
