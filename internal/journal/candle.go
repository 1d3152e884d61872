package journal

import (
	"strconv"
	"time"

	"rimward/internal/quantity"
)

// Pour is one melted batch; it fills candles.
type Pour struct {
	Meta
	Number       int                `json:"number"` // 1, 2, 3 … the first half of a candle's code
	At           time.Time          `json:"at"`
	Wax          ID                 `json:"wax"`
	WaxLot       string             `json:"wax_lot,omitempty"`
	Fragrance    *ID                `json:"fragrance,omitempty"`
	FragranceLot string             `json:"fragrance_lot,omitempty"`
	Load         *quantity.Fraction `json:"load,omitempty"`
	LoadBasis    Basis              `json:"load_basis"`
	WaxMass      *quantity.Grams    `json:"wax_mass,omitempty"` // weighed in
	OilMass      *quantity.Grams    `json:"oil_mass,omitempty"`
	HeatedTo     *quantity.Celsius  `json:"heated_to,omitempty"`
	OilAt        *quantity.Celsius  `json:"oil_at,omitempty"`
	PouredAt     *quantity.Celsius  `json:"poured_at,omitempty"`
	Room         *quantity.Celsius  `json:"room,omitempty"`
	VesselWarmed *quantity.Celsius  `json:"vessel_warmed,omitempty"` // nil: not warmed, or not noted
	SecondPour   bool               `json:"second_pour"`
	HeatGun      bool               `json:"heat_gun"`
	Dye          string             `json:"dye,omitempty"`
	Sheet        *ID                `json:"sheet,omitempty"` // the pour sheet that it was made of
	Note         string             `json:"note,omitempty"`
}

// LoadOn gives the load as a share of the asked basis; nil when not recorded.
// Of total is B = A/(1+A) of the load A on wax; of wax is A = B/(1-B).
func (p Pour) LoadOn(b Basis) *quantity.Fraction {
	if p.Load == nil {
		return nil
	}
	f := ConvertLoad(*p.Load, p.LoadBasis, b)
	return &f
}

// ConvertLoad turns a fragrance load from one basis to the other.
func ConvertLoad(f quantity.Fraction, from, to Basis) quantity.Fraction {
	switch {
	case from == to:
		return f
	case to == OfTotal:
		return f / (1 + f)
	default:
		return f / (1 - f)
	}
}

// Candle is one test candle.
type Candle struct {
	Meta
	Pour       ID              `json:"pour"`
	PourNumber int             `json:"pour_number"`
	Letter     string          `json:"letter"` // A, B … Z, AA …
	Vessel     ID              `json:"vessel"`
	Wick       ID              `json:"wick"`
	Wicks      int             `json:"wicks"` // how many of that wick
	Filled     *quantity.Grams `json:"filled,omitempty"`
	Round      *ID             `json:"round,omitempty"`
	RoundPlace int             `json:"round_place,omitempty"` // its number in the round's order; 0 without one
	Note       string          `json:"note,omitempty"`
}

// Code is what stands on the candle's base: pour number and letter, 14-C.
func (c Candle) Code() string { return strconv.Itoa(c.PourNumber) + "-" + c.Letter }

// LetterOf is the letter of the n-th candle of a pour, counted from 0.
func LetterOf(n int) string {
	s := ""
	for n++; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// Draught is how much the air moved where a candle burned.
type Draught string

// How much air moved; empty is not noted.
const (
	DraughtUnknown Draught = ""
	DraughtNone    Draught = "none"
	DraughtSlight  Draught = "slight"
	DraughtStrong  Draught = "strong"
)

// Ending is how a burn ended.
type Ending string

// How a burn can end; empty while it is lit.
const (
	Snuffed      Ending = "snuffed"
	WentOut      Ending = "went out"
	PutOutUnsafe Ending = "put out for safety"
	Spent        Ending = "spent"
)

// Endings lists the endings in the order a form shows them.
var Endings = []Ending{Snuffed, WentOut, PutOutUnsafe, Spent}

// Burn is one lighting of one candle, from match to snuff.
type Burn struct {
	Meta
	Candle     ID                    `json:"candle"`
	Sitting    *ID                   `json:"sitting,omitempty"` // the candles lit together
	Number     int                   `json:"number"`            // 1, 2, 3 … within the candle
	LitAt      time.Time             `json:"lit_at"`
	Trim       *quantity.Millimetres `json:"trim,omitempty"`
	MassBefore *quantity.Grams       `json:"mass_before,omitempty"`
	Room       *quantity.Celsius     `json:"room,omitempty"`
	Draught    Draught               `json:"draught"`
	Place      string                `json:"place,omitempty"`
	OutAt      *time.Time            `json:"out_at,omitempty"` // nil while lit
	MassAfter  *quantity.Grams       `json:"mass_after,omitempty"`
	AfterSmoke *quantity.Seconds     `json:"after_smoke,omitempty"`
	Ending     Ending                `json:"ending"`
	Note       string                `json:"note,omitempty"`
}

// Lit reports whether the candle still burns in this burn.
func (b Burn) Lit() bool { return b.OutAt == nil && !b.IsGone() }

// Lasted is how long the burn was lit, or has been until now.
func (b Burn) Lasted(now time.Time) quantity.Hours {
	end := now
	if b.OutAt != nil {
		end = *b.OutAt
	}
	return quantity.Hours(end.Sub(b.LitAt).Hours())
}

// Rate is the mean burn rate from the two weighings; false without both.
func (b Burn) Rate() (quantity.GramsPerHour, bool) {
	if b.MassBefore == nil || b.MassAfter == nil || b.OutAt == nil || !b.OutAt.After(b.LitAt) {
		return 0, false
	}
	return quantity.GramsPerHour(float64(*b.MassBefore-*b.MassAfter) / float64(b.Lasted(*b.OutAt))), true
}
