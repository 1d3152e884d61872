package standings

import (
	"cmp"
	"encoding/json"
	"io"
	"math"
	"slices"
	"strings"

	"rimward/internal/standings/tree"
)

// Document is a table for other programs. What is not known, or has no end, is
// null; no number is rounded.
type Document struct {
	Series []SeriesDocument `json:"series"`
}

// SeriesDocument is one series of a document.
type SeriesDocument struct {
	Vessel     string            `json:"vessel"`
	Series     string            `json:"series"` // the ladder, with what else tells the series apart
	InnerWidth float64           `json:"inner_width_mm"`
	TargetHour float64           `json:"target_hour"`
	Pairings   []PairingDocument `json:"pairings"` // by rung, burned or not
	Advice     string            `json:"advice"`
}

// PairingDocument is one pairing of a document.
type PairingDocument struct {
	Rung           *int           `json:"rung"` // null for a wick without a ladder
	Tested         bool           `json:"tested"`
	Rank           *int           `json:"rank"`
	Closeness      float64        `json:"closeness"`
	Miss           float64        `json:"miss"`
	Width          PointsDocument `json:"width_at_target_mm"`
	Next           PointsDocument `json:"next_candle_mm"`
	HoursToFull    PointsDocument `json:"hours_to_full"` // null where it may never be full
	NeverFull      float64        `json:"chance_never_full"`
	FullByTarget   float64        `json:"chance_full_by_target"`
	FullBeforeHalf float64        `json:"chance_full_before_half"`
	OnTarget       float64        `json:"chance_on_target"`
	Closest        *float64       `json:"chance_closest"`
	Candles        int            `json:"candles"`
	Burns          int            `json:"burns"`
	Warnings       []string       `json:"warnings"`
}

// PointsDocument is three points of what is believed about a quantity.
type PointsDocument struct {
	P10 *float64 `json:"p10"`
	P50 *float64 `json:"p50"`
	P90 *float64 `json:"p90"`
}

// WriteJSON writes the table for other programs.
func (t Table) WriteJSON(w io.Writer) error {
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	return out.Encode(t.Document())
}

// Document is the table for other programs.
func (t Table) Document() Document {
	d := Document{Series: []SeriesDocument{}}
	for _, g := range t.Groups {
		for _, x := range g.Series {
			d.Series = append(d.Series, x.document(g))
		}
	}
	return d
}

func (x Series) document(g Group) SeriesDocument {
	d := SeriesDocument{Vessel: g.Vessel.Name, Series: x.In(g), InnerWidth: float64(g.Vessel.Width()), TargetHour: float64(g.Target),
		Pairings: []PairingDocument{}, Advice: x.Advice.Text}
	for _, p := range x.ByRung() {
		d.Pairings = append(d.Pairings, p.document())
	}
	return d
}

// ByRung is all of a series' pairings, burned or not, from the wick that melts
// least.
func (x Series) ByRung() []Pairing {
	all := slices.Concat(x.Pairings, x.Guesses)
	slices.SortStableFunc(all, func(a, b Pairing) int {
		return cmp.Or(cmp.Compare(a.Wick.Rung, b.Wick.Rung), cmp.Compare(a.Wick.Label, b.Wick.Label), cmp.Compare(a.Wick.ID, b.Wick.ID))
	})
	return all
}

// In is the name of a series within everything that was burned: its ladder,
// the number of wicks where there are several, and the setting where that is
// known.
func (x Series) In(g Group) string {
	name := x.Ladder.Name + wicksText(x.Wicks)
	if len(g.Settings) == 0 {
		return name
	}
	oils := distinct(g.Settings, Setting.oilInShort)
	waxes := distinct(g.Settings, func(s Setting) string { return s.Wax.Name })
	return name + " · " + strings.Join(waxes, " and ") + ", " + strings.Join(oils, " and ")
}

// oilInShort is a setting's fragrance and load within a list.
func (s Setting) oilInShort() string {
	if s.Fragrance == nil || s.Load == nil {
		return s.oil()
	}
	return s.Fragrance.Name + " " + s.Load.Percent().String() + " of the wax"
}

func (p Pairing) document() PairingDocument {
	d := PairingDocument{Tested: p.Tested, Closeness: p.Closeness(), Miss: p.Miss(), Width: pointsOf(p.Width), Next: pointsOf(p.Next), HoursToFull: pointsOf(p.Full),
		NeverFull: p.Never, FullByTarget: p.FullByTarget, FullBeforeHalf: p.FullBeforeHalf, OnTarget: p.OnTarget,
		Candles: p.Candles, Burns: p.Burns, Warnings: p.Doubts()}
	if p.AtLeast && p.Tested {
		d.Width.P90, d.Next.P90 = nil, nil
	}
	if p.Wick.Label != "" {
		d.Rung = &p.Wick.Rung
	}
	if p.Rank > 0 {
		d.Rank = &p.Rank
	}
	if p.Enough() {
		d.Closest = finite(p.Closest)
	}
	return d
}

// Doubts is all that is to be said against taking the pairing's figures as
// they are: why it stands below the line, what it lacks, and its warnings.
func (p Pairing) Doubts() []string {
	out := []string{}
	for _, f := range p.Hard {
		if !slices.Contains(out, f.Text) {
			out = append(out, f.Text)
		}
	}
	if p.NotYet != "" {
		out = append(out, p.NotYet)
	}
	return append(out, p.Warnings...)
}

func pointsOf(p tree.Points) PointsDocument {
	return PointsDocument{finite(p.P10), finite(p.P50), finite(p.P90)}
}

// finite is nil for what has no end.
func finite(v float64) *float64 {
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil
	}
	return &v
}
