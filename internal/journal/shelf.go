package journal

import (
	"math"
	"time"

	"rimward/internal/quantity"
)

// Range is a guidance from a supplier: from Low to High, either end open.
type Range[T ~float64] struct {
	Low  *T `json:"low,omitempty"`
	High *T `json:"high,omitempty"`
}

// IsZero reports whether neither end is stated.
func (r Range[T]) IsZero() bool { return r.Low == nil && r.High == nil }

// Upside reports whether the low end stands above the high end.
func (r Range[T]) upside() bool { return r.Low != nil && r.High != nil && *r.Low > *r.High }

// Stock is what was on the shelf when it was last counted: grams, or pieces.
// Nothing is taken off it: what was poured since is told beside it.
type Stock[T quantity.Grams | int] struct {
	OnHand    *T         `json:"on_hand,omitempty"`
	CountedAt *time.Time `json:"counted_at,omitempty"` // when; nil where nothing was counted
}

// Basis says what a fragrance load is a share of.
type Basis string

// The two bases the trade uses.
const (
	OfWax   Basis = "wax"   // oil mass / wax mass
	OfTotal Basis = "total" // oil mass / (wax + oil) mass
)

// WaxFamily is the broad kind of a wax.
type WaxFamily string

// WaxFamilies lists the kinds in the order a form shows them.
var WaxFamilies = []WaxFamily{"soy", "coconut", "rapeseed", "paraffin", "beeswax", "palm", "stearin", "blend"}

// Wax is a candle wax on the shelf, with its supplier's guidance as ranges.
type Wax struct {
	Meta
	Name             string                       `json:"name"`
	Family           WaxFamily                    `json:"family"`
	BlendNote        string                       `json:"blend_note,omitempty"`
	Form             string                       `json:"form,omitempty"` // flakes, slab, pellets …
	SolidDensity     *quantity.GramsPerMillilitre `json:"solid_density,omitempty"`
	LiquidDensity    *quantity.GramsPerMillilitre `json:"liquid_density,omitempty"`
	MeltingPoint     *quantity.Celsius            `json:"melting_point,omitempty"`
	HeatTo           Range[quantity.Celsius]      `json:"heat_to"`
	AddOilAt         Range[quantity.Celsius]      `json:"add_oil_at"`
	PourAt           Range[quantity.Celsius]      `json:"pour_at"`
	Load             Range[quantity.Fraction]     `json:"load"`
	LoadBasis        Basis                        `json:"load_basis"` // what Load is a share of
	CureDays         Range[quantity.Days]         `json:"cure_days"`
	Shrinkage        *quantity.Fraction           `json:"shrinkage,omitempty"` // by volume
	HeatOfCombustion *quantity.KilojoulesPerGram  `json:"heat_of_combustion,omitempty"`
	Price            *float64                     `json:"price,omitempty"` // of a kilogram, in the studio's currency
	Stock[quantity.Grams]
	Note string `json:"note,omitempty"`
}

// Fragrance is a fragrance oil on the shelf.
type Fragrance struct {
	Meta
	Name       string                       `json:"name"`
	Density    *quantity.GramsPerMillilitre `json:"density,omitempty"`
	FlashPoint *quantity.Celsius            `json:"flash_point,omitempty"`
	// MaxLoad is the supplier's maximum for candles, a share of MaxBasis.
	MaxLoad  *quantity.Fraction `json:"max_load,omitempty"`
	MaxBasis Basis              `json:"max_basis"`
	Price    *float64           `json:"price,omitempty"` // of a kilogram, in the studio's currency
	Stock[quantity.Grams]
	Note string `json:"note,omitempty"`
}

// Shape is a vessel's outline seen from above.
type Shape string

// The outlines that are told apart.
const (
	Round       Shape = "round"
	Oval        Shape = "oval"
	Rectangular Shape = "rectangular"
	Irregular   Shape = "irregular"
)

// Shapes lists the outlines in the order a form shows them.
var Shapes = []Shape{Round, Oval, Rectangular, Irregular}

// Material is what a vessel is made of.
type Material string

// Materials lists what vessels are made of, in the order a form shows them.
var Materials = []Material{"glass", "ceramic", "stoneware", "concrete", "metal", "other"}

// Metal is the material whose touch limits are lower than those of glass.
const Metal Material = "metal"

// Vessel is a container that candles are poured into.
type Vessel struct {
	Meta
	Name  string `json:"name"`
	Shape Shape  `json:"shape"`
	// InnerWidth is taken at the wax line: the diameter of a round vessel,
	// the shorter way across of any other.
	InnerWidth quantity.Millimetres `json:"inner_width"`
	// InnerLength is the longer way across; nil for round vessels.
	InnerLength *quantity.Millimetres `json:"inner_length,omitempty"`
	FillHeight  *quantity.Millimetres `json:"fill_height,omitempty"`
	Volume      *quantity.Millilitres `json:"volume,omitempty"`     // to the fill line
	WaterFill   *quantity.Grams       `json:"water_fill,omitempty"` // water to the fill line, where that was weighed instead
	Material    Material              `json:"material"`
	EmptyMass   *quantity.Grams       `json:"empty_mass,omitempty"`
	Certificate bool                  `json:"certificate"` // the supplier's certificate for candle glass is at hand
	// TargetHours overrides the usual hour per inch.
	TargetHours *quantity.Hours       `json:"target_hours,omitempty"`
	FlameLimit  *quantity.Millimetres `json:"flame_limit,omitempty"` // this vessel's own, where it differs
	WallLimit   *quantity.Celsius     `json:"wall_limit,omitempty"`  // this vessel's own stop temperature
	Price       *float64              `json:"price,omitempty"`       // of one, in the studio's currency
	Stock[int]
	Note string `json:"note,omitempty"`
}

// Width is the one number that stands for the vessel's inside: the diameter,
// or the geometric mean of length and width (method of the standings).
func (v Vessel) Width() quantity.Millimetres {
	return quantity.Millimetres(math.Sqrt(float64(v.InnerWidth) * float64(v.Length())))
}

// Length is the longer way across; the diameter of a round vessel.
func (v Vessel) Length() quantity.Millimetres {
	if v.InnerLength == nil {
		return v.InnerWidth
	}
	return *v.InnerLength
}

// Target is when the pool should have met the wall: the vessel's own hour, or
// one hour per inch of inner width and at most four (common practice, no
// source).
func (v Vessel) Target() quantity.Hours {
	if v.TargetHours != nil {
		return *v.TargetHours
	}
	return quantity.Hours(min(float64(v.Width())/25.4, 4))
}

// WickKind is how a wick is made.
type WickKind string

// WickKinds lists how wicks are made, in the order a form shows them.
var WickKinds = []WickKind{"flat braid", "square braid", "cored", "wood", "wood with a second strip", "hemp", "other"}

// Ladder is a series of wicks in order of how much they melt.
type Ladder struct {
	Meta
	Name string   `json:"name"`
	Kind WickKind `json:"kind"`
	Core string   `json:"core,omitempty"` // cotton, paper, zinc, tin …
	Note string   `json:"note,omitempty"`
}

// Wick is one rung of a ladder.
type Wick struct {
	Meta
	Ladder  ID                    `json:"ladder"`
	Rung    int                   `json:"rung"` // 1 melts least
	Label   string                `json:"label"`
	Width   *quantity.Millimetres `json:"width,omitempty"`
	Threads *int                  `json:"threads,omitempty"`
	Price   *float64              `json:"price,omitempty"` // of one piece, in the studio's currency
	Stock[int]
	Note string `json:"note,omitempty"`
}
