package life

import "rimward/internal/quantity"

// ClaimWithin is how far a stated burn time may lie from the measured one, as a
// share of the measured one, by the reference of a German quality mark for
// candles: 10 % either way (RAL-GZ 041, read in a secondary source).
const ClaimWithin = 0.10

// ClaimSays is on which side of the reference a claim lies.
type ClaimSays string

// The sides.
const (
	ClaimInside ClaimSays = "inside"
	ClaimOver   ClaimSays = "over"  // longer than measured by more than the reference
	ClaimUnder  ClaimSays = "under" // shorter than measured by more than the reference
)

// Claim is a claimed burn time beside the measured one.
type Claim struct {
	Claimed, Measured quantity.Hours
	Off               quantity.Fraction // claimed less measured, over measured
	Says              ClaimSays
}

// NewClaim holds a claimed burn time against a measured one; false when either
// is nothing. It says nothing of compliance with the mark or with any rule.
func NewClaim(claimed, measured quantity.Hours) (Claim, bool) {
	const rounding = 1e-9 // so that 44 h is inside for 40 h
	if !(claimed > 0 && measured > 0) {
		return Claim{}, false
	}
	c := Claim{Claimed: claimed, Measured: measured, Off: quantity.Fraction(claimed/measured - 1), Says: ClaimInside}
	switch {
	case c.Off > ClaimWithin+rounding:
		c.Says = ClaimOver
	case c.Off < -ClaimWithin-rounding:
		c.Says = ClaimUnder
	}
	return c, true
}
