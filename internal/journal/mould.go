package journal

import (
	"time"

	"rimward/internal/quantity"
)

// Detail is how finely a mould is shaped.
type Detail string

// How finely a mould is shaped, from the easiest to let go of.
const (
	Plain    Detail = "plain"
	Relief   Detail = "relief"   // raised or sunk ornament that all faces one way
	Undercut Detail = "undercut" // parts that the wax has to be bent or peeled away from
)

// Details lists the shapes in the order a form shows them.
var Details = []Detail{Plain, Relief, Undercut}

// Mould is a form that pieces are cast in, with one or more like cavities.
type Mould struct {
	Meta
	Name         string                `json:"name"`
	Cavities     int                   `json:"cavities"`
	CavityVolume *quantity.Millilitres `json:"cavity_volume,omitempty"` // of one cavity
	WaterFill    *quantity.Grams       `json:"water_fill,omitempty"`    // water that fills one cavity, where that was weighed instead
	Detail       Detail                `json:"detail"`
	Material     string                `json:"material,omitempty"` // silicone, polycarbonate …
	Note         string                `json:"note,omitempty"`
}

// Capacity is the volume of one cavity, measured or from the water that fills
// it; nil when neither was recorded.
func (m Mould) Capacity() *quantity.Millilitres {
	return capacity(m.CavityVolume, m.WaterFill)
}

// Cast is what one mould gave from one pour: the pieces that were filled and,
// once they are out, how they came.
type Cast struct {
	Meta
	Pour     ID         `json:"pour"`
	Mould    ID         `json:"mould"`
	Pieces   int        `json:"pieces"`          // cavities that were filled, over all fillings
	Out      *time.Time `json:"out,omitempty"`   // when they were taken out; nil while they are in
	Clean    *int       `json:"clean,omitempty"` // of the pieces; all three or none
	Chipped  *int       `json:"chipped,omitempty"`
	Broken   *int       `json:"broken,omitempty"`
	Captured Captured   `json:"captured"`
	Surface  Surface    `json:"surface"`
	Firmness Firmness   `json:"firmness"`
	Note     string     `json:"note,omitempty"`
}

// Captured is how much of a mould's detail the pieces show; empty is not
// noted.
type Captured string

// How much of the detail came through.
const (
	DetailFull Captured = "full"
	DetailSoft Captured = "soft"
	DetailLost Captured = "lost"
)

// Surface is the look of the pieces; empty is not noted.
type Surface string

// How the pieces look.
const (
	SurfaceSmooth   Surface = "smooth"
	SurfacePitted   Surface = "pitted"
	SurfaceStreaked Surface = "streaked"
	SurfaceFrosted  Surface = "frosted"
)

// Firmness is how hard the pieces are when they come out; empty is not noted.
type Firmness string

// How hard the pieces are.
const (
	Firm    Firmness = "firm"
	Soft    Firmness = "soft"
	Brittle Firmness = "brittle"
)

// The grades in the order a form shows them.
var (
	Captures   = []Captured{DetailFull, DetailSoft, DetailLost}
	Surfaces   = []Surface{SurfaceSmooth, SurfacePitted, SurfaceStreaked, SurfaceFrosted}
	Firmnesses = []Firmness{Firm, Soft, Brittle}
)

// HoursIn is how long the pieces were in the mould; false while they are in.
func (c Cast) HoursIn(poured time.Time) (quantity.Hours, bool) {
	if c.Out == nil {
		return 0, false
	}
	return quantity.Hours(c.Out.Sub(poured).Hours()), true
}

// Graded reports whether the pieces are out and were counted.
func (c Cast) Graded() bool {
	return c.Out != nil && c.Clean != nil && c.Chipped != nil && c.Broken != nil
}

// CastLine is a cast with what it was poured from and into.
type CastLine struct {
	Cast  Cast
	Pour  Pour
	Wax   Wax
	Mould Mould
}

// Counts reports whether neither the cast nor its pour was withdrawn.
func (l CastLine) Counts() bool { return !l.Cast.IsGone() && !l.Pour.IsGone() }

// CastFilter picks casts; what is zero picks all.
type CastFilter struct {
	Pour      ID
	Mould     ID
	Inside    bool // only those that are still in the mould
	Withdrawn bool // also those that were withdrawn, by themselves or with their pour
}
