package journal

import (
	"time"

	"rimward/internal/quantity"
)

// FiguresSchema is the form that a verdict's figures are kept in now.
const FiguresSchema = 1

// VerdictFigures is the frozen copy of what was known of a pairing when a
// verdict was made. It is kept as it is, whatever is recorded later.
type VerdictFigures struct {
	Schema   int       `json:"schema"`
	At       time.Time `json:"at"`       // when it was worked out
	Revision int64     `json:"revision"` // of the journal it was worked out from

	Candles  []ID `json:"candles"`           // that were looked at
	Telling  int  `json:"telling"`           // candles with a burn that tells the width
	Burns    int  `json:"burns"`             // that tell the width
	AllBurns int  `json:"all_burns"`         // that were looked at
	Ended    int  `json:"ended"`             // candles burned to the end
	Set      int  `json:"set,omitempty"`     // candles looked at a full day after the pour
	Sweated  int  `json:"sweated,omitempty"` // candles that sweated before they were lit
	Enough   bool `json:"enough"`            // there are widths at all; without it they are nothing
	AtLeast  bool `json:"at_least"`          // no reading was short of the wall: only the lower ends are known

	Wall      quantity.Millimetres `json:"wall"`
	Target    quantity.Hours       `json:"target"`
	Width     WidthSpan            `json:"width"` // on average at the target hour, with no wall
	Next      WidthSpan            `json:"next"`  // of the next candle
	Full      HoursSpan            `json:"full"`  // to a full pool
	Never     float64              `json:"never"` // chance
	OnTarget  float64              `json:"on_target"`
	Closest   float64              `json:"closest"` // chance of being the closest of its series
	Closeness float64              `json:"closeness"`
	Rank      int                  `json:"rank"`   // 0 for none
	Ranked    int                  `json:"ranked"` // pairings of the series that have a place

	Faults []FaultCount `json:"faults,omitempty"`
	Hard   []string     `json:"hard,omitempty"` // findings that stand against it, in sentences
	// HardKeys tell the findings of Hard apart, one for each: its rule and where
	// it was seen. Verdicts from before they were kept have none.
	HardKeys []string `json:"hard_keys,omitempty"`

	Rate       *RateSpan     `json:"rate,omitempty"`
	Label      *LabelFigures `json:"label,omitempty"`
	AfterSmoke *SmokeFigures `json:"after_smoke,omitempty"`
	Missing    []string      `json:"missing,omitempty"` // what was missing of the record, by name
}

// WidthSpan is three points of a width: one chance in ten below the first,
// half below the second, one in ten above the third.
type WidthSpan struct {
	P10 quantity.Millimetres `json:"p10"`
	P50 quantity.Millimetres `json:"p50"`
	P90 quantity.Millimetres `json:"p90"`
}

// HoursSpan is three points of a span of time; nil where it may never come.
type HoursSpan struct {
	P10 *quantity.Hours `json:"p10"`
	P50 *quantity.Hours `json:"p50"`
	P90 *quantity.Hours `json:"p90"`
}

// FaultCount is in how many burns a fault was seen, of those looked at for it.
type FaultCount struct {
	Name  string `json:"name"`
	Burns int    `json:"burns"`
	Of    int    `json:"of"`
}

// RateSpan is the mean burn rate over candles with its 95 % interval; Low and
// High are nil where there is none.
type RateSpan struct {
	Mean    quantity.GramsPerHour  `json:"mean"`
	Low     *quantity.GramsPerHour `json:"low,omitempty"`
	High    *quantity.GramsPerHour `json:"high,omitempty"`
	Candles int                    `json:"candles"`
	Burns   int                    `json:"burns"`
}

// LabelFigures is how long candles lasted that were burned to the end, and the
// bound that nine in ten outlast at 90 % confidence; nil without enough. Doubts
// are what was to be said against the bound, in sentences; verdicts from before
// they were kept have none.
type LabelFigures struct {
	Candles int             `json:"candles"`
	Mean    quantity.Hours  `json:"mean"`
	Bound   *quantity.Hours `json:"bound,omitempty"`
	Doubts  []string        `json:"doubts,omitempty"`
}

// SmokeFigures is the mean after-smoke over burns, and the limit of the day.
type SmokeFigures struct {
	Mean  quantity.Seconds `json:"mean"`
	Burns int              `json:"burns"`
	Limit quantity.Seconds `json:"limit"`
}

// Over reports whether the mean lies above its limit.
func (s SmokeFigures) Over() bool { return s.Mean > s.Limit }
