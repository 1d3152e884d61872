package compare

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Kind is what the value of a fact is.
type Kind string

// The kinds of value, with the unit that their numbers are in.
const (
	Words       Kind = "words"
	Temperature Kind = "temperature" // °C
	Load        Kind = "load"        // share of the wax
	Mass        Kind = "mass"        // g
	Length      Kind = "length"      // mm
	Days        Kind = "days"
	Count       Kind = "count"
)

// Class is what a fact can explain.
type Class string

// The classes of facts.
const (
	Cause  Class = "cause"  // a difference in it may show in the pool
	Batch  Class = "batch"  // stands for whatever else was different that day
	Amount Class = "amount" // how much there is to go by
)

// Fact is one thing that is known of every side.
type Fact struct {
	Label   string // heads its row
	Word    string // names it in a sentence
	Kind    Kind
	Class   Class
	Values  []Value // one for each side
	Differs bool
	Unknown bool // noted for some sides and not for others
}

// Value is what one side has for a fact. A pairing may have several.
type Value struct {
	Known          bool
	Tally          []Tally // of words, the most usual first
	Mid, Low, High float64 // of numbers: their mean, the lowest and the highest
}

// Tally is a word with how often it was noted.
type Tally struct {
	Text string
	N    int
	key  string
}

// datum is one value as it was noted of a candle or a burn.
type datum struct {
	key, text string
	number    float64
}

// aspect is a fact before it is read.
type aspect struct {
	label, word string
	kind        Kind
	class       Class
	of          func(journal.CandleLog) []datum
	// apart is from where on two numbers differ, given the larger of them.
	apart func(larger float64) float64
}

// How far apart two numbers may lie and still count as alike: a step of the
// instrument that reads them, all chosen by us.
const (
	DegreesAlike = 1.0   // °C, a step of a kitchen thermometer
	RoomAlike    = 2.0   // °C, over an evening
	LoadAlike    = 0.001 // of the wax
	FillAlike    = 0.05  // of the larger mass, as a steady hand pours
	TrimAlike    = 1.0   // mm, a step of the ruler
	DaysAlike    = 1.0
)

func within(step float64) func(float64) float64 { return func(float64) float64 { return step } }

// aspects lists the facts in the order they are shown.
func aspects() []aspect {
	exact := within(0)
	return []aspect{
		{"Vessel", "vessel", Words, Cause, vesselName, exact},
		{"Wick", "wick", Words, Cause, wickName, exact},
		{"Wicks", "number of wicks", Count, Cause, made(func(l journal.CandleLog) float64 { return float64(l.Candle.Wicks) }), exact},
		{"Wax", "wax", Words, Cause, waxName, exact},
		{"Wax lot", "wax lot", Words, Cause, lot(func(p journal.Pour) string { return p.WaxLot }), exact},
		{"Fragrance", "fragrance", Words, Cause, oilName, exact},
		{"Fragrance lot", "fragrance lot", Words, Cause, lot(func(p journal.Pour) string { return p.FragranceLot }), exact},
		{"Load, of wax", "fragrance load", Load, Cause, loadOfWax, within(LoadAlike)},
		{"Dye", "dye", Words, Cause, dye, exact},
		{"Heated to", "heating", Temperature, Cause, degrees(func(p journal.Pour) *quantity.Celsius { return p.HeatedTo }), within(DegreesAlike)},
		{"Oil added at", "temperature of adding the oil", Temperature, Cause, degrees(func(p journal.Pour) *quantity.Celsius { return p.OilAt }), within(DegreesAlike)},
		{"Poured at", "pour temperature", Temperature, Cause, degrees(func(p journal.Pour) *quantity.Celsius { return p.PouredAt }), within(DegreesAlike)},
		{"Room at the pour", "room at the pour", Temperature, Cause, degrees(func(p journal.Pour) *quantity.Celsius { return p.Room }), within(RoomAlike)},
		{"Vessel warmed to", "warming of the vessel", Temperature, Cause, degrees(func(p journal.Pour) *quantity.Celsius { return p.VesselWarmed }), within(DegreesAlike)},
		{"Second pour", "second pour", Words, Cause, ticked(func(p journal.Pour) bool { return p.SecondPour }), exact},
		{"Heat gun", "heat gun", Words, Cause, ticked(func(p journal.Pour) bool { return p.HeatGun }), exact},
		{"Filled", "filled mass", Mass, Cause, filled, func(larger float64) float64 { return FillAlike * larger }},
		{"Cure to first burn", "cure", Days, Cause, cured, within(DaysAlike)},
		{"Burns lit before the cure was over", "early lighting", Count, Amount, earlyCount, exact},
		{"Wick trimmed to", "trim", Length, Cause, trimmed, within(TrimAlike)},
		{"Draught, most burns", "draught", Words, Cause, draughts, exact},
		{"Room while burning", "room while burning", Temperature, Cause, rooms, within(RoomAlike)},
		{"Pour", "pour", Words, Batch, pourNumber, exact},
		{"Burns", "burns", Count, Amount, burnCount, exact},
	}
}

// Facts reads every fact of the sides. Those that were noted of no side are
// left out.
func Facts(sides []Side) []Fact {
	var out []Fact
	for _, a := range aspects() {
		f := Fact{Label: a.label, Word: a.word, Kind: a.kind, Class: a.class}
		known := 0
		for _, s := range sides {
			v := a.read(s)
			f.Values = append(f.Values, v)
			if v.Known {
				known++
			}
		}
		if known == 0 {
			continue
		}
		f.Unknown = known < len(sides)
		f.Differs = a.differ(f.Values)
		out = append(out, f)
	}
	return out
}

// read gathers what was noted of a side.
func (a aspect) read(s Side) Value {
	var ds []datum
	for _, l := range s.Logs {
		ds = append(ds, a.of(l)...)
	}
	switch {
	case len(ds) == 0:
		return Value{}
	case a.kind == Words:
		return Value{Known: true, Tally: tally(ds)}
	}
	v := Value{Known: true, Low: math.Inf(1), High: math.Inf(-1)}
	for _, d := range ds {
		v.Mid += d.number / float64(len(ds))
		v.Low, v.High = min(v.Low, d.number), max(v.High, d.number)
	}
	return v
}

// tally counts words, the most usual first, those alike by name.
func tally(ds []datum) []Tally {
	var out []Tally
	for _, d := range ds {
		i := slices.IndexFunc(out, func(t Tally) bool { return t.key == d.key })
		if i < 0 {
			i = len(out)
			out = append(out, Tally{Text: d.text, key: d.key})
		}
		out[i].N++
	}
	slices.SortStableFunc(out, func(a, b Tally) int { return cmp.Or(b.N-a.N, cmp.Compare(a.Text, b.Text), cmp.Compare(a.key, b.key)) })
	return out
}

// differ reports whether any two sides for which the fact was noted differ in
// it: in their most usual word, or in their mean beyond what is taken as alike.
func (a aspect) differ(vs []Value) bool {
	for i, x := range vs {
		for _, y := range vs[:i] {
			if x.Known && y.Known && a.unlike(x, y) {
				return true
			}
		}
	}
	return false
}

func (a aspect) unlike(x, y Value) bool {
	if a.kind == Words {
		return x.Tally[0].key != y.Tally[0].key
	}
	return math.Abs(x.Mid-y.Mid) > a.apart(max(x.Mid, y.Mid))+hair
}

// hair absorbs the noise of sums and conversions, far below any instrument.
const hair = 1e-9

// Contrast is in what the sides differ.
type Contrast struct {
	Causes  []string // words of the facts that differ and may show in the pool
	Unknown []string // of those noted for some sides and not for others
	Pours   bool     // they come from different pours
}

// Differ sums up the facts.
func Differ(facts []Fact) Contrast {
	var c Contrast
	for _, f := range facts {
		switch {
		case f.Class == Batch:
			c.Pours = c.Pours || f.Differs
		case f.Class == Cause && f.Differs:
			c.Causes = append(c.Causes, f.Word)
		case f.Class == Cause && f.Unknown:
			c.Unknown = append(c.Unknown, f.Word)
		}
	}
	return c
}

func key(id journal.ID) string { return strconv.FormatInt(int64(id), 10) }
