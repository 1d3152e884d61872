package journal

import (
	"fmt"
	"strings"
	"time"

	"rimward/internal/quantity"
)

const priceLimits = "Between 0 and 1,000,000."

// addStock notes a price or a count that cannot be.
func addStock[T quantity.Grams | int](ps *problems, price *float64, s Stock[T], most T, limits string) {
	ps.addIf(!within(price, 0, 1e6), "price", priceLimits)
	ps.addIf(s.OnHand != nil && (*s.OnHand < 0 || *s.OnHand > most), "on_hand", limits)
}

const (
	massOnHand   = "Between 0 g and 1,000 t."
	piecesOnHand = "Between 0 and 1,000,000 pieces."
)

// Validate holds the rules of a mould.
func (m Mould) Validate() error {
	var ps problems
	ps.addName(m.Name)
	ps.addIf(m.Cavities < 1 || m.Cavities > 200, "cavities", "Between 1 and 200 cavities.")
	ps.addIf(!within(m.CavityVolume, 0.1, 20000), "cavity_volume", "Between 0.1 mL and 20 L.")
	ps.addIf(!within(m.WaterFill, 0.1, 20000), "water_fill", "Between 0.1 g and 20 kg.")
	ps.addIf(!oneOf(m.Detail, Details), "detail", "Choose the detail from the list.")
	return ps.err()
}

// MostPieces is the most pieces that one cast may have.
const MostPieces = 2000

// CastFacts is what the rules of a cast need to know beside it.
type CastFacts struct {
	Now   time.Time
	Pour  Pour
	Mould Mould
}

// Validate holds the rules of a cast.
func (c Cast) Validate(f CastFacts) error {
	var ps problems
	ps.addIf(c.ID == 0 && f.Pour.IsGone(), "", fmt.Sprintf("Pour %d was withdrawn.", f.Pour.Number))
	ps.addIf(c.ID == 0 && f.Mould.IsGone(), "mould", f.Mould.Name+" was retired. Bring it back first.")
	ps.addIf(c.Pieces < 1 || c.Pieces > MostPieces, "pieces", "Between 1 and 2,000 pieces.")
	ps.addIf(c.Captured != "" && !oneOf(c.Captured, Captures), "captured", "Choose from the list.")
	ps.addIf(c.Surface != "" && !oneOf(c.Surface, Surfaces), "surface", "Choose from the list.")
	ps.addIf(c.Firmness != "" && !oneOf(c.Firmness, Firmnesses), "firmness", "Choose from the list.")
	c.countRules(&ps)
	c.outRules(&ps, f)
	return ps.err()
}

// countRules hold what came out against what was cast: all is counted, or
// nothing.
func (c Cast) countRules(ps *problems) {
	fields, counts := []string{"clean", "chipped", "broken"}, []*int{c.Clean, c.Chipped, c.Broken}
	missing, sum := "", 0
	for i, n := range counts {
		switch {
		case n == nil:
			missing = fields[i]
		case *n < 0:
			ps.addIf(true, fields[i], "Not below nothing.")
		default:
			ps.addIf(*n > max(c.Pieces, 0), fields[i], fmt.Sprintf("More than the %d that were cast.", c.Pieces))
			sum += *n
		}
	}
	if missing != "" && sum <= c.Pieces {
		ps.addIf(c.counted(), missing, "Count all three: clean, chipped and broken.")
		return
	}
	ps.addIf(sum != c.Pieces, "pieces", fmt.Sprintf("Clean, chipped and broken come to %d; %d were cast.", sum, c.Pieces))
}

// counted reports whether any piece was counted as it came out.
func (c Cast) counted() bool { return c.Clean != nil || c.Chipped != nil || c.Broken != nil }

// outRules hold when the pieces came out.
func (c Cast) outRules(ps *problems, f CastFacts) {
	if c.Out == nil {
		ps.addIf(c.counted() || c.Captured != "" || c.Surface != "" || c.Firmness != "", "out_at", "Say when the pieces came out.")
		return
	}
	ps.addIf(c.Out.Before(f.Pour.At), "out_at", "It was poured only after that.")
	ps.addIf(c.Out.After(f.Now.Add(clockSlack)), "out_at", "This lies in the future.")
}

// SetCheckFacts is what the rules of a set check need to know beside it.
type SetCheckFacts struct {
	Now      time.Time
	Candle   Candle
	PouredAt time.Time
	FirstLit *time.Time // by a burn that counts; nil while it was never lit
	Gone     bool       // the candle or its pour was withdrawn
}

// Validate holds the rules of a set check.
func (s SetCheck) Validate(f SetCheckFacts) error {
	var ps problems
	ps.addIf(s.ID == 0 && f.Gone, "", f.Candle.Code()+" was withdrawn.")
	ps.addIf(s.At.Before(f.PouredAt), "at", "It was poured only after that.")
	ps.addIf(s.At.After(f.Now.Add(clockSlack)), "at", "This lies in the future.")
	ps.addIf(f.FirstLit != nil && s.At.After(*f.FirstLit), "at", "It was lit before that. A set check is a look at a candle that was never lit.")
	ps.addIf(s.Top != "" && !oneOf(s.Top, Tops), "top", "Choose the top from the list.")
	ps.addIf(s.Dip != nil && s.Top != TopDip, "dip", "Only a dip has a depth.")
	ps.addIf(!within(s.Dip, 0, 100), "dip", "Between 0 and 100 mm (4 in).")
	for _, x := range s.graded() {
		ps.addIf(x.amount != "" && !oneOf(x.amount, Amounts), x.field, "Choose from the list.")
	}
	ps.addIf(!within(s.Stuck, 0, 1), "stuck", "Between 0 and 100 %.")
	ps.addIf(s.ColdThrow != nil && (*s.ColdThrow < LeastThrow || *s.ColdThrow > MostThrow), "cold_throw", "Choose a whole number from 0 to 5.")
	ps.addIf(s.blank(), "top", "Nothing was noted yet.")
	return ps.err()
}

// graded lists what is graded by amount, by the names of its fields.
func (s SetCheck) graded() []struct {
	field  string
	amount Amount
} {
	return []struct {
		field  string
		amount Amount
	}{{"sink_hole", s.SinkHole}, {"cracks", s.Cracks}, {"frosting", s.Frosting}, {"sweating", s.Sweating}}
}

func (s SetCheck) blank() bool {
	return s.Top == "" && s.SinkHole == "" && s.Cracks == "" && s.Frosting == "" && s.Sweating == "" && s.Stuck == nil && s.ColdThrow == nil && strings.TrimSpace(s.Note) == ""
}
