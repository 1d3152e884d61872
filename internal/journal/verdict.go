package journal

import (
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"rimward/internal/quantity"
)

// Ruling is what a studio decided of a pairing.
type Ruling string

// The rulings.
const (
	Accepted Ruling = "accepted"
	Rejected Ruling = "rejected"
	LeftOpen Ruling = "open"
)

// Rulings lists the rulings in the order a form shows them.
var Rulings = []Ruling{Accepted, Rejected, LeftOpen}

// Place names a pairing in its setting: the same vessel, wax, wick and series.
// The series also tells how many wicks there are, and the fragrance and load
// where the studio keeps those apart.
type Place struct {
	Vessel, Wax, Wick ID
	Series            string // as the standings name it in an address
}

// Verdict is what a studio decided of a pairing in a setting, with the figures
// it rested on. Several may be kept of one pairing: the newest that was not
// withdrawn counts.
type Verdict struct {
	Meta
	Vessel    ID                 `json:"vessel"`
	Wick      ID                 `json:"wick"`
	Wicks     int                `json:"wicks"`
	Wax       ID                 `json:"wax"`
	Fragrance *ID                `json:"fragrance,omitempty"` // nil where there is none, or where fragrances are taken together
	Load      *quantity.Fraction `json:"load,omitempty"`      // of the wax; nil where loads are taken together
	Apart     Apart              `json:"apart"`               // how settings were kept apart at the time
	Series    string             `json:"series"`              // as the standings name it in an address
	Ruling    Ruling             `json:"ruling"`
	By        string             `json:"by"`
	At        time.Time          `json:"at"`
	Why       string             `json:"why,omitempty"`
	// What was tried by hand, for no reading tells it: a cold candle stayed up
	// on a slope of 10 degrees each way round; the surface under the vessel
	// stayed touchable.
	TipTest   bool `json:"tip_test"`
	BaseCheck bool `json:"base_check"`
	// ClaimedHours is the burn time that is meant for the label; nil for none.
	ClaimedHours *quantity.Hours `json:"claimed_hours,omitempty"`
	Figures      VerdictFigures  `json:"figures"` // frozen
}

// Place is the pairing that the verdict is about.
func (v Verdict) Place() Place { return Place{v.Vessel, v.Wax, v.Wick, v.Series} }

// VerdictFacts is what the rules of a verdict need to know beside it.
type VerdictFacts struct {
	Now     time.Time
	Poured  bool // a candle of the pairing was poured and not withdrawn
	Changed bool // something of the pairing was recorded after its figures were worked out
}

// Validate holds the rules of a verdict.
func (v Verdict) Validate(f VerdictFacts) error {
	var ps problems
	ps.addIf(!slices.Contains(Rulings, v.Ruling), "ruling", "Choose what you decided.")
	ps.addIf(strings.TrimSpace(v.By) == "", "decided_by", "Write who decided.")
	ps.addIf(utf8.RuneCountInString(v.By) > 120, "decided_by", "Keep the name under 120 characters.")
	ps.addIf(utf8.RuneCountInString(v.Why) > 4000, "why", "Keep it under 4,000 characters.")
	ps.addIf(v.At.After(f.Now.Add(clockSlack)), "", "A verdict cannot lie in the future.")
	ps.addIf(v.Wicks < 1 || v.Wicks > 12, "wicks", "Between 1 and 12 wicks.")
	ps.addIf(!within(v.Load, 0, 0.5), "load", loadLimits)
	ps.addIf(v.Load != nil && v.Fragrance == nil, "load", "A load needs its fragrance.")
	ps.addIf(!oneOf(v.Apart, Aparts) || v.Series == "", "", "The setting of this pairing is not known.")
	ps.addIf(!within(v.ClaimedHours, 0.5, 2000), "claimed_hours", "Between half an hour and 2,000 h.")
	ps.addIf(!f.Poured, "", "Nothing of this pairing was poured, so there is nothing to decide.")
	ps.addIf(f.Changed, "", "Something of this pairing was recorded while the figures were worked out. Look at them again, then save once more.")
	v.ruled(&ps)
	return ps.err()
}

// ruled holds what each ruling asks for.
func (v Verdict) ruled(ps *problems) {
	why := strings.TrimSpace(v.Why) != ""
	ps.addIf(v.Ruling == Rejected && !why, "why", "Write why it is rejected: next year nobody remembers.")
	if v.Ruling != Accepted {
		return
	}
	for _, h := range v.Figures.Hard {
		ps.addIf(true, "ruling", "It cannot be accepted while a hard finding stands against it: "+h)
	}
	ps.addIf(len(v.Figures.Hard) == 0 && v.Lacks() && !why, "why", "Something is still missing. Write why you accept it all the same.")
}

// Lacks reports whether something that is wanted before accepting was missing.
func (v Verdict) Lacks() bool { return len(v.Figures.Missing) > 0 || !v.TipTest || !v.BaseCheck }

// Tidied is the verdict with its texts trimmed.
func (v Verdict) Tidied() Verdict {
	v.By, v.Why = strings.TrimSpace(v.By), strings.TrimSpace(v.Why)
	return v
}

// Standing are the verdicts that count: of each pairing the newest that was
// not withdrawn.
func Standing(list []Verdict) map[Place]Verdict {
	out := map[Place]Verdict{}
	for _, v := range list {
		if was, ok := out[v.Place()]; !v.IsGone() && (!ok || v.Newer(was)) {
			out[v.Place()] = v
		}
	}
	return out
}

// Newer reports whether a verdict was made after another.
func (v Verdict) Newer(than Verdict) bool {
	if v.At.Equal(than.At) {
		return v.ID > than.ID
	}
	return v.At.After(than.At)
}
