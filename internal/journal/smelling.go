package journal

import (
	"strings"
	"time"

	"rimward/internal/quantity"
)

// ThrowKind is what a nose judges: the unlit candle or the burning one.
type ThrowKind string

// The two kinds of throw.
const (
	ColdThrow ThrowKind = "cold"
	HotThrow  ThrowKind = "hot"
)

// The ends of ThrowScale, which cold and hot throw share.
const (
	LeastThrow = 0
	MostThrow  = 5
)

// MostCups is how many candles one smelling takes. A nose tires long before
// (common practice, no source).
const MostCups = 12

// Smelling is one session in which noses score the throw of one or several
// candles.
type Smelling struct {
	Meta
	At    time.Time             `json:"at"`
	Kind  ThrowKind             `json:"kind"`
	Room  *quantity.CubicMetres `json:"room,omitempty"` // nil: not noted
	Blind bool                  `json:"blind"`          // noses see codes, not candles
	// Uncovered is when the codes of a blind smelling were resolved; nil while
	// they are covered, and for an open smelling.
	Uncovered *time.Time `json:"uncovered,omitempty"`
	Note      string     `json:"note,omitempty"`
}

// Covered reports whether nobody may see yet which code is which candle.
func (s Smelling) Covered() bool { return s.Blind && s.Uncovered == nil }

// Cup is one candle of a smelling under its code.
type Cup struct {
	Meta
	Smelling ID                `json:"smelling"`
	Candle   ID                `json:"candle"`
	Code     string            `json:"code"`              // three digits, not all alike
	Minutes  *quantity.Minutes `json:"minutes,omitempty"` // lit before it was smelled; hot throw only
}

// Score is what one nose makes of one cup.
type Score struct {
	Meta
	Cup   ID        `json:"cup"`
	Nose  string    `json:"nose"`            // a name or initials
	Score int       `json:"score"`           // on ThrowScale
	Order *int      `json:"order,omitempty"` // the cup's place among those this nose smelled, from 1
	At    time.Time `json:"at"`
	Note  string    `json:"note,omitempty"`
}

// SameNose reports whether two names are one nose: capitals and spaces do not
// tell noses apart.
func SameNose(a, b string) bool { return strings.EqualFold(TidyNose(a), TidyNose(b)) }

// TidyNose is a name with single spaces inside and none around.
func TidyNose(name string) string { return strings.Join(strings.Fields(name), " ") }

// CupLog is a cup with its candle and its scores, withdrawn ones included.
type CupLog struct {
	Cup    Cup
	Made   Made
	Scores []Score
}

// SmellingLog is a smelling with everything that was recorded of it, cups in
// the order of their codes, which says nothing of the candles.
type SmellingLog struct {
	Smelling Smelling
	Cups     []CupLog
}

// Noses lists the names of those who scored something that counts, in the
// order in which they began.
func (l SmellingLog) Noses() []string {
	var out []string
	for _, s := range l.inOrder() {
		known := false
		for _, n := range out {
			known = known || SameNose(n, s.Nose)
		}
		if !known {
			out = append(out, s.Nose)
		}
	}
	return out
}

// inOrder are the scores that count, in the order in which they were saved.
func (l SmellingLog) inOrder() []Score {
	var out []Score
	for _, c := range l.Cups {
		for _, s := range c.Scores {
			if s.IsGone() || c.Cup.IsGone() {
				continue
			}
			at := len(out)
			for at > 0 && out[at-1].ID > s.ID {
				at--
			}
			out = append(out[:at], append([]Score{s}, out[at:]...)...)
		}
	}
	return out
}

// Of is the score of a cup by a nose that counts; nil when there is none.
func (c CupLog) Of(nose string) *Score {
	for i, s := range c.Scores {
		if !s.IsGone() && SameNose(s.Nose, nose) {
			return &c.Scores[i]
		}
	}
	return nil
}

// Smelled is one candle in one smelling, with the scores that count: what a
// candle's page may know of it.
type Smelled struct {
	Smelling Smelling
	Cup      Cup
	Scores   []Score
}

// SmellingLine is a smelling as a list shows it.
type SmellingLine struct {
	Smelling Smelling
	Cups     int
	Noses    int
}
