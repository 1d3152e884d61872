package journal

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

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
	ps.addIf(c.Pieces < 1 || c.Pieces > MostPieces, "pieces", "Between 1 and 2,000 pieces.")
	ps.addIf(c.Captured != "" && !oneOf(c.Captured, Captures), "captured", "Choose from the list.")
	ps.addIf(c.Surface != "" && !oneOf(c.Surface, Surfaces), "surface", "Choose from the list.")
	ps.addIf(c.Firmness != "" && !oneOf(c.Firmness, Firmnesses), "firmness", "Choose from the list.")
	c.outRules(&ps, f)
	return ps.err()
}

func (c Cast) outRules(ps *problems, f CastFacts) {
	counts := []*int{c.Clean, c.Chipped, c.Broken}
	given, sum := 0, 0
	for i, field := range []string{"clean", "chipped", "broken"} {
		if counts[i] != nil {
			given, sum = given+1, sum+*counts[i]
			ps.addIf(*counts[i] < 0, field, "Not below nothing.")
		}
	}
	if c.Out == nil {
		ps.addIf(given > 0 || c.Captured != "" || c.Surface != "" || c.Firmness != "", "out", "Say when the pieces came out.")
		return
	}
	ps.addIf(c.Out.Before(f.Pour.At), "out", "It was poured only after that.")
	ps.addIf(c.Out.After(f.Now.Add(clockSlack)), "out", "This lies in the future.")
	ps.addIf(given > 0 && given < 3, "clean", "Count all three: clean, chipped and broken.")
	ps.addIf(given == 3 && sum != c.Pieces, "clean", fmt.Sprintf("Clean, chipped and broken come to %d; %d were cast.", sum, c.Pieces))
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

// MostPlaces is the most candles that a round may have.
const MostPlaces = 400

// RoundRecord is what the rules of a round need to know beside it.
type RoundRecord struct {
	Before *TestRound // what is kept; nil when it is new
	Poured int        // of its candles, that were not withdrawn
}

// Validate holds the rules of a round: whatever its candles were drawn from
// stays once the first of them is poured.
func (r TestRound) Validate(f RoundRecord) error {
	var ps problems
	ps.addIf(strings.TrimSpace(r.Question) == "", "question", "Say what the round is to answer.")
	ps.addIf(utf8.RuneCountInString(r.Question) > 200, "question", "Keep the question under 200 characters.")
	ps.addIf(r.Wax == 0, "wax", "Choose the wax.")
	ps.addIf(r.Copies < 1 || r.Copies > 12, "copies", "Between 1 and 12 candles of each.")
	ps.addIf(len(r.Places) == 0, "wicks", "A round needs at least one candle.")
	ps.addIf(len(r.Places) > MostPlaces, "copies", "At most 400 candles in one round.")
	ps.addIf(f.Before != nil && f.Poured > 0 && !r.sameDraw(*f.Before), "", "Candles of this round are poured. Its question may be worded anew and its days moved; what it compares stays.")
	return ps.err()
}

// Validate holds the rules of a pour sheet.
func (s PourSheet) Validate() error {
	var ps problems
	ps.addIf(s.Wax == 0, "wax", "Choose the wax.")
	ps.addIf(!within(s.Load, 0, 0.5), "load", loadLimits)
	ps.addIf(s.Load != nil && *s.Load > 0 && s.Fragrance == nil, "fragrance", "A load above nothing needs its fragrance.")
	ps.addIf(s.LoadBasis != OfWax && s.LoadBasis != OfTotal, "load_basis", "Say whether the load is a share of the wax or of the total.")
	ps.addIf(len(s.Body.Lines) == 0, "lines", "Say what is to be filled.")
	return ps.err()
}
