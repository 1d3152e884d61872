package journal

import (
	"time"

	"rimward/internal/quantity"
)

// Scheme is the dress the pages wear.
type Scheme string

// The dresses: as the machine says, by day, by night.
const (
	SchemeAuto  Scheme = "auto"
	SchemeDay   Scheme = "day"
	SchemeNight Scheme = "night"
)

// Settings are the choices of one studio.
type Settings struct {
	Units    quantity.Units       `json:"units"`
	Ruler    quantity.Millimetres `json:"ruler"`     // the ruler's step: 1 mm, or 25.4/16
	TimeZone string               `json:"time_zone"` // an IANA name
	Scheme   Scheme               `json:"scheme"`
	// Limits holds the limits that were changed, by the key that
	// internal/safety gives them, in the unit it states.
	Limits map[string]float64 `json:"limits,omitempty"`
	Apart  Apart              `json:"apart"`
	// Beliefs holds what is believed before the first burn where that was
	// changed, by the key that internal/standings gives it: one number, or
	// value, weight, value, weight.
	Beliefs  map[string][]float64 `json:"beliefs,omitempty"`
	Currency string               `json:"currency,omitempty"` // as it stands before or after a price
	// ScaleStep is the step of the scale that batches are weighed on.
	ScaleStep quantity.Grams `json:"scale_step"`
	// Melter is what the melter holds at once; nil where that was not said.
	Melter *quantity.Grams `json:"melter,omitempty"`
	// BenchPlaces is how many candles can be lit together; nil where that was
	// not said.
	BenchPlaces *int `json:"bench_places,omitempty"`
	Version     int  `json:"version"`
}

// DefaultSettings are those of a journal nobody has set up yet.
func DefaultSettings() Settings {
	return Settings{Units: quantity.Metric, Ruler: 1, TimeZone: "UTC", Scheme: SchemeAuto, Apart: ByLoad, ScaleStep: 1}
}

// Zone is the studio's time zone; UTC when its name is not known here.
func (s Settings) Zone() *time.Location {
	z, err := time.LoadLocation(s.TimeZone)
	if err != nil {
		return time.UTC
	}
	return z
}

// Apart is how finely a studio keeps settings apart when pairings are judged.
type Apart string

// The ways of keeping settings apart: wicks are judged within one wax, within
// one wax and fragrance, or within one wax, fragrance and load.
const (
	ByWax       Apart = "wax"
	ByFragrance Apart = "fragrance"
	ByLoad      Apart = "load"
)

// Aparts are the ways, from coarse to fine.
var Aparts = []Apart{ByWax, ByFragrance, ByLoad}
