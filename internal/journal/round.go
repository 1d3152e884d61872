package journal

import (
	"reflect"
	"slices"
	"time"

	"rimward/internal/quantity"
)

// TestRound is a round: a planned set of candles that answers one question.
type TestRound struct {
	Meta
	Question  string       `json:"question"`
	Wax       ID           `json:"wax"`
	Fragrance *ID          `json:"fragrance,omitempty"`
	Factors   RoundFactors `json:"factors"`
	Copies    int          `json:"copies"` // candles of each cell
	Seed      int64        `json:"seed"`   // of the order; with it the order can be drawn again
	Drawn     RoundDrawing `json:"drawn"`  // what else the order was drawn by
	// Places is the plan as it was drawn, in order of pouring. It is frozen
	// once the first of its candles is poured.
	Places []RoundPlace `json:"places"`
	Days   RoundDays    `json:"days"`
	Closed *time.Time   `json:"closed,omitempty"` // when its question was taken as answered
	Note   string       `json:"note,omitempty"`
}

// RoundDrawing is what a round's order was drawn by beside its seed.
type RoundDrawing struct {
	PerMelt  int  `json:"per_melt,omitempty"`  // candles that one melt fills at most; 0: all
	OwnMelts bool `json:"own_melts,omitempty"` // every copy was given a melt of its own
	Square   bool `json:"square,omitempty"`    // places and evenings make a Latin square
}

// RoundFactors are what the candles of a round differ in: every combination is
// a cell. A list of one is held fixed.
type RoundFactors struct {
	Vessels   []ID                `json:"vessels"`
	Wicks     []RoundWick         `json:"wicks"`
	Loads     []quantity.Fraction `json:"loads,omitempty"` // empty without fragrance
	LoadBasis Basis               `json:"load_basis"`
	PourAts   []quantity.Celsius  `json:"pour_ats,omitempty"` // empty: as the wax's guidance says
}

// RoundWick is a wick and how many of it stand in one vessel.
type RoundWick struct {
	Wick  ID  `json:"wick"`
	Wicks int `json:"wicks"`
}

// RoundPlace is one candle of a round before it is poured: its cell and its
// place in the randomised order.
type RoundPlace struct {
	Number  int                `json:"number"` // order of pouring, from 1; stands on the label
	Melt    int                `json:"melt"`   // the batch it is poured from, from 1
	Copy    int                `json:"copy"`   // which candle of its cell, from 1: the block
	Vessel  ID                 `json:"vessel"`
	Wick    ID                 `json:"wick"`
	Wicks   int                `json:"wicks"`
	Load    *quantity.Fraction `json:"load,omitempty"`
	PourAt  *quantity.Celsius  `json:"pour_at,omitempty"`
	Bench   int                `json:"bench"`   // place on the bench, from 1
	Evening int                `json:"evening"` // the group that is lit together, from 1
}

// RoundDays is what a round's calendar is worked out from.
type RoundDays struct {
	PourOn      string         `json:"pour_on,omitempty"` // a local date, 2006-01-02
	Start       string         `json:"start,omitempty"`   // when a sitting begins, local, 15:04
	Hours       quantity.Hours `json:"hours"`             // of a sitting
	PerEvening  int            `json:"per_evening"`       // sittings that fit into one evening
	BenchPlaces int            `json:"bench_places"`      // candles that can be lit together
	Weekdays    []time.Weekday `json:"weekdays"`          // the evenings that are free
	Away        []string       `json:"away,omitempty"`    // local dates that are not
	Burns       int            `json:"burns"`             // of each candle; 0: until it is spent
}

// sameDraw reports whether two rounds have the same candles in the same order.
func (r TestRound) sameDraw(o TestRound) bool {
	return r.Wax == o.Wax && reflect.DeepEqual(r.Fragrance, o.Fragrance) && reflect.DeepEqual(r.Factors, o.Factors) &&
		r.Copies == o.Copies && r.Seed == o.Seed && r.Drawn == o.Drawn && reflect.DeepEqual(r.samePlaces(), o.samePlaces())
}

// samePlaces are the places without the day they are lit on and where they
// stand then: those may be planned anew.
func (r TestRound) samePlaces() []RoundPlace {
	out := slices.Clone(r.Places)
	for i := range out {
		out[i].Evening, out[i].Bench = 0, 0
	}
	return out
}
