package journal

import (
	"fmt"
	"time"

	"rimward/internal/quantity"
)

// clockSlack is how far into the future a moment may lie before it is refused:
// a studio's phone and laptop seldom agree to the second.
const clockSlack = 2 * time.Minute

// Validate holds the rules of a pour. now is the moment of saving.
func (p Pour) Validate(now time.Time) error {
	var ps problems
	ps.addIf(p.Wax == 0, "wax", "Choose the wax.")
	ps.addIf(p.At.IsZero(), "at", "Say when it was poured.")
	ps.addIf(p.At.After(now.Add(clockSlack)), "at", "This lies in the future. A pour is written down once it is poured.")
	ps.addIf(p.At.Year() < 1970 && !p.At.IsZero(), "at", "This is before 1970.")
	ps.addIf(!within(p.Load, 0, 0.5), "load", loadLimits)
	ps.addIf(p.Load != nil && *p.Load > 0 && p.Fragrance == nil, "fragrance", "A load above nothing needs its fragrance.")
	ps.addIf(p.LoadBasis != OfWax && p.LoadBasis != OfTotal, "load_basis", "Say whether the load is a share of the wax or of the total.")
	for field, t := range map[string]*quantity.Celsius{"heated_to": p.HeatedTo, "oil_at": p.OilAt, "poured_at": p.PouredAt} {
		ps.addIf(!within(t, 0, 250), field, hotLimits)
	}
	ps.addIf(!within(p.WaxMass, 0.1, 1e6), "wax_mass", "Between 0.1 g and 1,000 kg.")
	ps.addIf(!within(p.OilMass, 0, 1e6), "oil_mass", "Between 0 g and 1,000 kg.")
	ps.addIf(p.OilMass != nil && *p.OilMass > 0 && p.Fragrance == nil, "fragrance", "Oil that was weighed in needs its fragrance.")
	ps.addIf(!within(p.Room, -10, 50), "room", "Between -10 and 50 °C (14 and 122 °F).")
	ps.addIf(!within(p.VesselWarmed, -10, 150), "vessel_warmed", "Between -10 and 150 °C (14 and 302 °F).")
	return ps.err()
}

// Validate holds the rules of a candle.
func (c Candle) Validate() error {
	var ps problems
	ps.addIf(c.Pour == 0, "pour", "Choose the pour.")
	ps.addIf(c.Vessel == 0, "vessel", "Choose the vessel.")
	ps.addIf(c.Wick == 0, "wick", "Choose the wick.")
	ps.addIf(c.Wicks < 1 || c.Wicks > 12, "wicks", "Between 1 and 12 wicks.")
	ps.addIf(c.Letter == "", "letter", "The candle needs its letter.")
	ps.addIf(!within(c.Filled, 1, 20000), "filled", "Between 1 g and 20 kg.")
	return ps.err()
}

// BurnFacts is what the rules of a burn need to know beside the burn.
type BurnFacts struct {
	Now     time.Time
	Candle  Candle
	Life    Life
	Others  []Burn  // the candle's other burns that count
	Checks  []Check // of this burn, that count
	Cracked bool    // an earlier check of the candle says the vessel cracked
}

// Validate holds the rules of a burn.
func (b Burn) Validate(f BurnFacts) error {
	var ps problems
	b.timeRules(&ps, f)
	b.orderRules(&ps, f)
	b.numberRules(&ps)
	return ps.err()
}

func (b Burn) timeRules(ps *problems, f BurnFacts) {
	ps.addIf(b.LitAt.After(f.Now.Add(clockSlack)), "lit_at", "This lies in the future.")
	ps.addIf(b.LitAt.Before(f.Life.PouredAt), "lit_at", "The candle was poured only after that.")
	ps.addIf(!b.IsGone() && f.Life.SetSeen != nil && b.LitAt.Before(*f.Life.SetSeen), "lit_at",
		f.Candle.Code()+" has a set check later than that, and a set check is a look at a candle that was never lit. Correct that one first.")
	ps.addIf((b.OutAt == nil) != (b.Ending == ""), "ending", "Say how the burn ended.")
	if b.OutAt != nil {
		ps.addIf(!b.OutAt.After(b.LitAt), "out_at", "It must go out after it was lit.")
		ps.addIf(b.OutAt.After(f.Now.Add(clockSlack)), "out_at", "This lies in the future.")
		ps.addIf(b.OutAt.Sub(b.LitAt) > 7*24*time.Hour, "out_at", "That is more than a week after lighting. Check the date.")
	}
	for _, c := range f.Checks {
		ps.addIf(c.At.Before(b.LitAt), "lit_at", "A check of this burn was made before that.")
		ps.addIf(b.OutAt != nil && c.At.After(*b.OutAt), "out_at", "A check of this burn was made after that.")
	}
}

func (b Burn) orderRules(ps *problems, f BurnFacts) {
	if b.ID == 0 {
		ps.addIf(f.Life.Gone, "candle", f.Candle.Code()+" was withdrawn.")
		ps.addIf(f.Cracked, "candle", f.Candle.Code()+" has a cracked vessel on record. Do not light it again. If the tick was a slip, correct that check first.")
	}
	for _, o := range f.Others {
		if o.ID == b.ID {
			continue
		}
		later := o.Number > b.Number
		ps.addIf(o.Ending == Spent && !later, "candle", f.Candle.Code()+" is spent.")
		ps.addIf(b.Ending == Spent && later, "ending", fmt.Sprintf("Burn %d came after it: only the last burn can end with the candle spent.", o.Number))
		ps.addIf(o.OutAt == nil && b.OutAt == nil, "candle", f.Candle.Code()+" is lit already.")
		ps.addIf(overlaps(b, o), "lit_at", fmt.Sprintf("This overlaps burn %d of %s.", o.Number, f.Candle.Code()))
	}
}

// overlaps reports whether two burns of one candle were lit at the same time.
func overlaps(a, b Burn) bool {
	return endsAfter(a, b.LitAt) && endsAfter(b, a.LitAt)
}

func endsAfter(b Burn, t time.Time) bool { return b.OutAt == nil || b.OutAt.After(t) }

func (b Burn) numberRules(ps *problems) {
	ps.addIf(!within(b.Trim, 0, 50), "trim", "Between 0 and 50 mm (0 and 2 in).")
	ps.addIf(!within(b.MassBefore, 1, 40000), "mass_before", "Between 1 g and 40 kg.")
	ps.addIf(!within(b.MassAfter, 0, 40000), "mass_after", "Between 0 g and 40 kg.")
	ps.addIf(!within(b.Room, -10, 50), "room", "Between -10 and 50 °C (14 and 122 °F).")
	ps.addIf(!within(b.AfterSmoke, 0, 1800), "after_smoke", "Between 0 and 1,800 s.")
	ps.addIf(b.MassAfter != nil && b.MassBefore != nil && *b.MassAfter > *b.MassBefore+1, "mass_after",
		"Heavier than before it was lit. Weigh again, or correct the mass before.")
}

// CheckFacts is what the rules of a check need to know beside the check.
type CheckFacts struct {
	Now    time.Time
	Burn   Burn
	Vessel Vessel
	Wicks  int
	Ruler  quantity.Millimetres
	Others []Check // of the same burn, that count
}

// Validate holds the rules of a check.
func (c Check) Validate(f CheckFacts) error {
	var ps problems
	ps.addIf(c.Blank(), "width_a", "Nothing was noted.")
	c.timeRules(&ps, f)
	c.poolRules(&ps, f)
	ps.addIf(!within(c.Depth, 0, 200), "depth", "Between 0 and 200 mm (0 and 8 in).")
	ps.addIf(!within(c.Flame, 0, 300), "flame", "Between 0 and 300 mm (0 and 12 in).")
	ps.addIf(!within(c.VesselTemp, -10, 300), "vessel_temp", "Between -10 and 300 °C (14 and 572 °F).")
	ps.addIf(c.HotThrow != nil && (*c.HotThrow < 0 || *c.HotThrow > 5), "hot_throw", "Between 0 and 5.")
	for field, s := range map[string]struct {
		g     Grade
		scale []GradeWord
	}{"mushroom": {c.Mushroom, MushroomScale}, "soot": {c.Soot, SootScale}, "wall_wax": {c.WallWax, WallWaxScale}} {
		_, known := Rank(s.scale, s.g)
		ps.addIf(s.g != "" && !known, field, "Choose a word from the list.")
	}
	return ps.err()
}

func (c Check) timeRules(ps *problems, f CheckFacts) {
	ps.addIf(c.At.Before(f.Burn.LitAt), "at", "The candle was lit only after that.")
	ps.addIf(f.Burn.OutAt != nil && c.At.After(*f.Burn.OutAt), "at", "The candle was out by then.")
	ps.addIf(c.At.After(f.Now.Add(clockSlack)), "at", "This lies in the future.")
	for _, o := range f.Others {
		ps.addIf(o.ID != c.ID && o.At.Truncate(time.Minute).Equal(c.At.Truncate(time.Minute)), "at",
			"There is a check at this minute already. Correct that one instead.")
	}
}

// poolRules refuse a pool wider than the vessel by more than the ruler.
func (c Check) poolRules(ps *problems, f CheckFacts) {
	for _, w := range []struct {
		field string
		pool  *quantity.Millimetres
		wall  quantity.Millimetres
	}{{"width_a", c.WidthA, f.Vessel.Length()}, {"width_b", c.WidthB, f.Vessel.InnerWidth}} {
		ps.addIf(w.pool != nil && *w.pool < 0, w.field, "A width cannot be below nothing.")
		ps.addIf(w.pool != nil && *w.pool > w.wall+f.Ruler, w.field, "Wider than the inside of the vessel there.")
	}
}
