package journal

import (
	"encoding/json"
	"strings"
	"time"
	"unicode/utf8"

	"rimward/internal/quantity"
)

// Ruling is what was decided about a pairing.
type Ruling string

// The rulings; open says that it was looked at and left undecided.
const (
	Accepted Ruling = "accepted"
	Rejected Ruling = "rejected"
	LeftOpen Ruling = "open"
)

// Rulings lists the rulings in the order a form shows them.
var Rulings = []Ruling{Accepted, Rejected, LeftOpen}

// Verdict is a decision about one pairing in one setting, with a copy of the
// figures that it rested on.
type Verdict struct {
	Meta
	Vessel ID `json:"vessel"`
	Wax    ID `json:"wax"`
	Wick   ID `json:"wick"`
	// Series names the pairing's ladder, count of wicks, fragrance and load as
	// the standings do, so that it can be found again.
	Series string    `json:"series"`
	Ruling Ruling    `json:"ruling"`
	At     time.Time `json:"at"`
	By     string    `json:"by"`
	Why    string    `json:"why"`
	// TipTest and BaseCheck were done by hand: it stayed up on a slope, and the
	// surface under it stayed touchable.
	TipTest   bool `json:"tip_test"`
	BaseCheck bool `json:"base_check"`
	// Claimed is the burn time that is meant for the label; nil when none is.
	Claimed *quantity.Hours `json:"claimed,omitempty"`
	Hard    int             `json:"hard"`    // hard findings against it then
	Missing int             `json:"missing"` // what was still missing then
	Figures json.RawMessage `json:"figures"` // as package verdict wrote them down
}

// The most characters of a verdict's texts, and the longest claimed time.
const (
	verdictBy      = 120
	verdictWhy     = 4000
	verdictClaimed = 1000 // h
)

// Validate holds the rules of a verdict.
func (v Verdict) Validate() error {
	var ps problems
	by, why := strings.TrimSpace(v.By), strings.TrimSpace(v.Why)
	ps.addIf(!oneOf(v.Ruling, Rulings), "ruling", "Choose one of the three.")
	ps.addIf(by == "", "by", "Say who decides.")
	ps.addIf(utf8.RuneCountInString(by) > verdictBy, "by", "Keep it under 120 characters.")
	ps.addIf(utf8.RuneCountInString(why) > verdictWhy, "why", "Keep it under 4,000 characters.")
	ps.addIf(v.Claimed != nil && !(*v.Claimed > 0 && *v.Claimed <= verdictClaimed), "claimed", "More than nothing, and at most 1,000 h.")
	ps.addIf(v.Ruling == Accepted && v.Hard > 0, "ruling", "A hard finding stands against it, so it cannot be accepted. Reject it, leave it open, or correct the record where it is wrong.")
	ps.addIf(v.Ruling == Accepted && v.Hard == 0 && v.Missing > 0 && why == "", "why", "Something is still missing. Say why it is accepted all the same.")
	ps.addIf(v.Ruling == Rejected && why == "", "why", "Say why it is rejected.")
	ps.addIf(v.Series == "" || !json.Valid(v.Figures), "", "The figures of this pairing are not known.")
	return ps.err()
}

// Tidied is the verdict with its texts trimmed.
func (v Verdict) Tidied() Verdict {
	v.By, v.Why = strings.TrimSpace(v.By), strings.TrimSpace(v.Why)
	return v
}
