package life

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Heat is a wax's net heat of combustion with where it comes from.
type Heat struct {
	Net    quantity.KilojoulesPerGram
	Source string
	Own    bool // recorded with the wax, not a default of its family
}

// familyHeat holds the defaults of the families that have a source. Of the
// others (coconut, rapeseed, beeswax, palm, blends) none is known well enough.
var familyHeat = map[journal.WaxFamily]Heat{
	"paraffin": {Net: 43.80, Source: "worked out for the alkane C25H52 from measured heats of shorter ones"},
	"stearin":  {Net: 36.87, Source: "worked out from the heat of combustion of liquid stearic acid, NIST WebBook"},
	"soy":      {Net: 37, Source: "hardened vegetable oil, from memory, no source"},
}

// HeatOf is the wax's own heat of combustion, or its family's default; false
// when neither is known.
func HeatOf(w journal.Wax) (Heat, bool) {
	if w.HeatOfCombustion != nil {
		return Heat{Net: *w.HeatOfCombustion, Source: "recorded with the wax", Own: true}, true
	}
	h, ok := familyHeat[w.Family]
	return h, ok
}

// Power is the heat that a burn rate gives off if all that melts burns clean:
// the rate times the net heat of combustion.
func Power(rate quantity.GramsPerHour, net quantity.KilojoulesPerGram) quantity.Watts {
	const joulesPerKilojoule, secondsPerHour = 1000, 3600
	return quantity.Watts(float64(rate) * float64(net) * joulesPerKilojoule / secondsPerHour)
}
