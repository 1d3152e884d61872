package journal

import (
	"fmt"
	"slices"
	"unicode/utf8"

	"rimward/internal/quantity"
)

// MostLines is how many lines one pour sheet takes; MostPieces is how many
// vessels and fillings they come to together at most.
const MostLines = 40

// SheetFacts is what the rules of a pour sheet need to know beside it.
type SheetFacts struct {
	Before     *PourSheet // as it is kept; nil for a new one
	PourIsGone bool       // the pour that was made of it was withdrawn
}

// Validate holds the rules of a pour sheet.
func (s PourSheet) Validate(f SheetFacts) error {
	var ps problems
	ps.addIf(s.Wax == 0, "wax", "Choose the wax.")
	ps.addIf(!within(s.Load, 0, 0.5), "load", loadLimits)
	ps.addIf(s.Load != nil && *s.Load > 0 && s.Fragrance == nil, "fragrance", "A load above nothing needs its fragrance.")
	ps.addIf(s.LoadBasis != OfWax && s.LoadBasis != OfTotal, "load_basis", "Say whether the load is a share of the wax or of the total.")
	ps.addIf(utf8.RuneCountInString(s.Note) > 4000, "note", "Keep it under 4,000 characters.")
	s.Body.rules(&ps)
	s.pouredRules(&ps, f)
	return ps.err()
}

func (b SheetBody) rules(ps *problems) {
	ps.addIf(len(b.Lines) == 0, "lines", "Say what is to be filled.")
	ps.addIf(len(b.Lines) > MostLines, "lines", "At most 40 lines on one sheet.")
	ps.addIf(!within(b.Spare, 0, 1), "spare", "Between 0 % and 100 %.")
	ps.addIf(!within(b.Waste, 0, 1e6), "waste", "Between nothing and 1,000 kg.")
	ps.addIf(!within(&b.Step, 0.001, 100), "step", "Between 0.001 g and 100 g.")
	ps.addIf(!within(b.Melter, 10, 1e6), "melter", "Between 10 g and 1,000 kg.")
	ps.addIf(!within(b.PourAt, -20, 250), "pour_at", "Between -20 °C and 250 °C.")
	for i, l := range b.Lines {
		l.rules(ps, fmt.Sprintf("l%d.", i))
	}
	ps.addIf(b.fillings() > MostPieces, "lines", "At most 2,000 vessels and moulds on one sheet.")
	b.tickRules(ps)
}

// fillings is how many vessels and moulds are to be filled; lines that are
// refused by themselves are left out.
func (b SheetBody) fillings() int {
	n := 0
	for _, l := range b.Lines {
		if l.Count > 0 && l.Count <= MostPieces {
			n += l.Count
		}
	}
	return n
}

func (l SheetLine) rules(ps *problems, at string) {
	ps.addIf((l.Vessel == nil) == (l.Mould == nil), at+"what", "Choose a vessel or a mould.")
	ps.addIf(l.Count < 1 || l.Count > MostPieces, at+"count", "Between 1 and 2,000.")
	ps.addIf(l.Wick != nil && (l.Wicks < 1 || l.Wicks > 12), at+"wicks", "Between 1 and 12 wicks in one vessel.")
	ps.addIf(l.Mould != nil && l.Wick != nil, at+"wick", "A wick goes with a vessel. What a mould gives is kept as pieces.")
	ps.addIf(!within(l.TestFill, 0.1, 50000), at+"test_fill", "Between 0.1 g and 50 kg.")
	ps.addIf(len(l.Places) > 0 && (len(l.Places) != l.Count || l.Vessel == nil || l.Wick == nil), at+"count", "These candles have places in a round: their number and their wick stay.")
}

func (b SheetBody) tickRules(ps *problems) {
	seen := map[string]bool{}
	for _, t := range b.Ticks {
		step, ok := stepOf(t.Key)
		ps.addIf(!ok || seen[t.Key], "", "This is not a step of the sheet.")
		ps.addIf(t.Weighed != nil && (!step.Weighs() || *t.Weighed < 0 || *t.Weighed > 1e6), t.Key, "A mass between nothing and 1,000 kg.")
		ps.addIf(t.Read != nil && (step.Weighs() || *t.Read < quantity.Celsius(-20) || *t.Read > 250), t.Key, "A temperature between -20 °C and 250 °C.")
		seen[t.Key] = true
	}
}

// pouredRules keep a sheet as it was once it is poured, and let it be poured
// only once; a withdrawn one is neither ticked nor poured.
func (s PourSheet) pouredRules(ps *problems, f SheetFacts) {
	if f.Before != nil && f.Before.IsGone() {
		ps.addIf(!samePtr(s.Pour, f.Before.Pour) || !slices.EqualFunc(s.Body.Ticks, f.Before.Body.Ticks, sameTick), "", "This sheet was withdrawn. Bring it back first.")
	}
	if f.Before == nil || f.Before.Pour == nil || f.PourIsGone {
		return
	}
	ps.addIf(s.Pour == nil || *s.Pour != *f.Before.Pour, "", "This sheet is poured already.")
	ps.addIf(!s.sameWork(*f.Before) || !slices.EqualFunc(s.Body.Ticks, f.Before.Body.Ticks, sameTick), "", "This sheet is poured; it stays as it was. Correct the pour instead.")
}

func sameTick(a, b SheetTick) bool {
	return a.Key == b.Key && samePtr(a.Weighed, b.Weighed) && samePtr(a.Read, b.Read)
}

func samePtr[T comparable](a, b *T) bool { return (a == nil) == (b == nil) && (a == nil || *a == *b) }
