// Package quantity holds the physical quantities a candle maker writes down:
// what they are stored in, how they are read from a hand's writing, and how
// they are shown in the units a person prefers.
//
// Everything is kept in SI-like units (millimetres, grams, degrees Celsius,
// millilitres, hours). Display rounding lives here and nowhere else. The
// package does no arithmetic of candles and knows no storage, no pages.
package quantity

// Millimetres is a length, width or height.
type Millimetres float64

// Grams is a mass.
type Grams float64

// Celsius is a temperature on the Celsius scale (a point, not a difference).
type Celsius float64

// Millilitres is a volume.
type Millilitres float64

// Hours is a span of time in hours.
type Hours float64

// Seconds is a span of time in seconds.
type Seconds float64

// Days is a span of time in days of 24 hours.
type Days float64

// Fraction is a share of one: 0.08 is 8 %.
type Fraction float64

// GramsPerHour is a burn rate.
type GramsPerHour float64

// GramsPerMillilitre is a density.
type GramsPerMillilitre float64

// KilojoulesPerGram is a heat of combustion.
type KilojoulesPerGram float64

// LengthUnit is a unit that lengths are typed and shown in.
type LengthUnit string

// MassUnit is a unit that masses are typed and shown in.
type MassUnit string

// TemperatureUnit is a scale that temperatures are typed and shown in.
type TemperatureUnit string

// VolumeUnit is a unit that volumes are typed and shown in.
type VolumeUnit string

// The units a person may prefer, one choice for each kind.
const (
	InMillimetres LengthUnit      = "mm"
	InInches      LengthUnit      = "in"
	InGrams       MassUnit        = "g"
	InOunces      MassUnit        = "oz"
	InCelsius     TemperatureUnit = "C"
	InFahrenheit  TemperatureUnit = "F"
	InMillilitres VolumeUnit      = "mL"
	InFluidOunces VolumeUnit      = "floz"
)

// Units is a person's choice of unit for each kind of quantity.
type Units struct {
	Length      LengthUnit
	Mass        MassUnit
	Temperature TemperatureUnit
	Volume      VolumeUnit
}

// Metric is the choice a new journal starts with.
var Metric = Units{InMillimetres, InGrams, InCelsius, InMillilitres}

// Imperial is the choice of a studio that measures in inches and ounces.
var Imperial = Units{InInches, InOunces, InFahrenheit, InFluidOunces}

// Shown is a quantity ready for a page: its number as text and its unit.
// Unit is empty where the number is written with its unit inside it.
type Shown struct {
	Number string
	Unit   string
}

// String joins number and unit the way they read in a sentence.
func (s Shown) String() string {
	if s.Unit == "" {
		return s.Number
	}
	return s.Number + " " + s.Unit
}
