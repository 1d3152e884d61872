package journal

import (
	"time"

	"rimward/internal/quantity"
)

// Grade is one word of an ordered scale; empty is not noted.
type Grade string

// GradeWord is a grade with the line that explains it on screen.
type GradeWord struct {
	Grade   Grade
	Meaning string
}

// MushroomScale orders the carbon on a wick's tip, from none to most.
var MushroomScale = []GradeWord{
	{"none", "the tip is clean"},
	{"bead", "a bead no wider than the wick"},
	{"cap", "a cap wider than the wick"},
	{"shedding", "wide, and bits fall into the pool"},
}

// SootScale orders the smoke and its marks, from none to most.
var SootScale = []GradeWord{
	{"none", "no smoke, vessel clean"},
	{"wisp", "a wisp now and then, when the flame dances"},
	{"thread", "a thread of smoke most of the time"},
	{"marks", "black marks on the vessel"},
}

// WallWaxScale orders the wax left on the wall above the pool (hang-up).
var WallWaxScale = []GradeWord{
	{"none", "the wall is bare above the pool"},
	{"film", "a skin you can see through"},
	{"ring", "a ledge you cannot see through"},
	{"tunnel", "the pool sinks down a shaft of wax"},
}

// ThrowScale orders the smell of a lit candle, 0 to 5 (the simple scale of
// perfumery textbooks).
var ThrowScale = []GradeWord{
	{"0", "none"}, {"1", "very weak"}, {"2", "weak"}, {"3", "medium"}, {"4", "strong"}, {"5", "very strong"},
}

// Rank is the place of a grade on its scale, 0 for none; false when not noted.
func Rank(scale []GradeWord, g Grade) (int, bool) {
	for i, w := range scale {
		if w.Grade == g {
			return i, true
		}
	}
	return 0, false
}

// Odd is an event that has no number.
type Odd string

// The odd events a check can tick.
const (
	FlameOnPool   Odd = "flame on the pool"
	Cracked       Odd = "vessel cracked"
	Debris        Odd = "debris in the pool"
	WickDrifted   Odd = "wick drifted"
	Flickering    Odd = "flickering"
	Drowning      Odd = "drowning"
	SweatingPool  Odd = "sweating"
	FlameWentWeak Odd = "flame very small"
)

// OddWord is an odd event with the line that explains it on screen.
type OddWord struct {
	Odd     Odd
	Meaning string
}

// Odds lists the odd events in the order a form shows them.
var Odds = []OddWord{
	{FlameOnPool, "anything but the wick burns"},
	{Cracked, "a crack, or wax leaking out"},
	{Debris, "match, trimming or soot lies in it"},
	{WickDrifted, "it leans or has left the middle"},
	{Flickering, "the flame dances in still air"},
	{FlameWentWeak, "under 10 mm and steady"},
	{Drowning, "the flame sinks into the wax"},
	{SweatingPool, "beads of oil on the wax"},
}

// Check is one observation of a lit candle.
type Check struct {
	Meta
	Burn ID        `json:"burn"`
	At   time.Time `json:"at"`
	// WidthA is the pool along the vessel's inner length (any way across a
	// round vessel); WidthB is at right angles to it.
	WidthA     *quantity.Millimetres `json:"width_a,omitempty"`
	WidthB     *quantity.Millimetres `json:"width_b,omitempty"`
	Full       bool                  `json:"full"` // melted wax touches the wall all round
	Depth      *quantity.Millimetres `json:"depth,omitempty"`
	Flame      *quantity.Millimetres `json:"flame,omitempty"`
	Mushroom   Grade                 `json:"mushroom"`
	Soot       Grade                 `json:"soot"`
	WallWax    Grade                 `json:"wall_wax"`
	VesselTemp *quantity.Celsius     `json:"vessel_temp,omitempty"`
	HotThrow   *int                  `json:"hot_throw,omitempty"` // 0 to 5
	Odd        []Odd                 `json:"odd,omitempty"`
	LeftOut    bool                  `json:"left_out"` // the maker keeps this reading out of the standings
	Note       string                `json:"note,omitempty"`
}

// Has reports whether the odd event was ticked.
func (c Check) Has(o Odd) bool {
	for _, x := range c.Odd {
		if x == o {
			return true
		}
	}
	return false
}

// Blank reports whether nothing was observed.
func (c Check) Blank() bool {
	return c.WidthA == nil && c.WidthB == nil && !c.Full && c.Depth == nil && c.Flame == nil &&
		c.Mushroom == "" && c.Soot == "" && c.WallWax == "" && c.VesselTemp == nil &&
		c.HotThrow == nil && len(c.Odd) == 0 && c.Note == ""
}
