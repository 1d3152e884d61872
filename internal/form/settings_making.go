package form

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// MakingInput is what a studio says of its making, as it was typed.
type MakingInput struct {
	Currency    string          `form:"currency"`
	ScaleStep   *quantity.Grams `form:"scale_step"`
	Melter      *quantity.Grams `form:"melter"`
	BenchPlaces *int            `form:"bench_places"`
}

// The sentences of the settings of making, whose limits are those of the store.
const (
	currencySentence = "Keep it to eight signs, such as € or EUR."
	scaleSentence    = "Between 0.001 g and 100 g."
	melterSentence   = "Between 10 g and 1,000 kg."
	placesSentence   = "Between 1 and 60 places."
)

// ReadMaking reads the part of the settings that is about making.
func ReadMaking(p *Parser) MakingInput {
	in := MakingInput{Currency: p.Text("currency"), ScaleStep: p.Mass("scale_step"), Melter: p.Mass("melter"), BenchPlaces: p.Count("bench_places")}
	for _, x := range []struct {
		name, sentence string
		wrong          bool
	}{
		{"currency", currencySentence, len([]rune(in.Currency)) > 8},
		{"scale_step", scaleSentence, outside(in.ScaleStep, 0.001, 100)},
		{"melter", melterSentence, outside(in.Melter, 10, 1e6)},
		{"bench_places", placesSentence, outside(in.BenchPlaces, 1, 60)},
	} {
		if x.wrong {
			p.Problem(x.name, x.sentence)
		}
	}
	return in
}

func outside[T int | quantity.Grams](v *T, low, high T) bool {
	return v != nil && (*v < low || *v > high)
}

// Apply puts what was said into settings; an empty box for the scale means the
// gram that scales usually step by.
func (in MakingInput) Apply(s *journal.Settings) {
	s.Currency, s.Melter, s.BenchPlaces = in.Currency, in.Melter, in.BenchPlaces
	s.ScaleStep = journal.DefaultSettings().ScaleStep
	if in.ScaleStep != nil {
		s.ScaleStep = *in.ScaleStep
	}
}
