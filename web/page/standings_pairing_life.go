package page

import (
	"errors"
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// PairingLife is how long the candles of a pairing last, and what time may
// stand on a label.
type PairingLife struct {
	Show    bool
	Facts   []ui.Fact
	Doubts  []string
	Rows    []LifeRow
	Late    []ui.Fact
	LateWhy string
	Claim   LifeClaim
}

// LifeRow is one candle's life in a table.
type LifeRow struct{ Code, Href, Lit, Ended, Left string }

// LifeClaim is the box for a claimed burn time, and what is said of it.
type LifeClaim struct {
	Hidden []ui.Hidden // the rest of the address
	Field  ui.Field
	Says   []string // in sentences
}

// Rejected reports whether the claimed time could not be read.
func (p PairingLife) Rejected() bool { return p.Claim.Field.Problem != "" }

// NewPairingLife reads the lives of a pairing's candles. q is the address, with
// the claimed time as it was typed.
func NewPairingLife(logs []journal.CandleLog, lim safety.Limits, q url.Values, v View) PairingLife {
	if len(logs) == 0 {
		return PairingLife{}
	}
	label, over := life.LabelTime(logs, lim.WaxLeft()), life.RatesOver(logs)
	p := PairingLife{Show: true, Facts: []ui.Fact{labelFact(label), lastedFact(label)}}
	if over.Candles > 0 {
		p.Facts = append(p.Facts, overFact(over), heatFact(logs[0].Wax, over.Mean, over.Range))
	}
	p.Doubts = label.Doubts
	for _, t := range append(append([]life.Total{}, label.Ended...), label.Others...) {
		p.Rows = append(p.Rows, lifeRow(t, v))
	}
	p.Late, p.LateWhy = lateFacts(life.LateEarly(logs, lim.WaxLeft(), v.Now), v)
	p.Claim = newClaim(label, q)
	return p
}

// labelFact is the bound, or how many candles it still takes.
func labelFact(l life.Label) ui.Fact {
	f := ui.Fact{Label: "Burn time for a label"}
	have := counted(len(l.Ended), "candle", "candles") + " burned to the end"
	switch {
	case !l.Enough():
		f.Text, f.More = "not enough yet", have+"; "+counted(l.Missing, "more is needed", "more are needed")
	case l.Useless():
		f.Text, f.More = "none can be given", have+", and they lasted too differently"
	default:
		h := l.Bound.WholeDown()
		f.Text, f.Unit = "at most "+h.Number, h.Unit
		f.More = "nine candles in ten last at least this long, at 90\u00a0% confidence; rests on " + have + ", from " + counted(l.Pours, "pour", "pours") + "; rounded down from " + tight(l.Bound.Decimal().String())
	}
	return f
}

// lastedFact is how long the ended candles lasted.
func lastedFact(l life.Label) ui.Fact {
	f := ui.Fact{Label: "Lasted, on average"}
	if len(l.Ended) == 0 {
		f.Text, f.More = "not known yet", "no candle was burned to the end"
		return f
	}
	h := l.Mean.Decimal()
	f.Text, f.Unit, f.More = h.Number, h.Unit, "one candle"
	if n := len(l.Ended); n > 1 {
		f.More = counted(n, "candle", "candles") + ", from " + l.Shortest.Decimal().Number + " to " + tight(l.Longest.Decimal().String())
	}
	return f
}

// overFact is the rate over the candles.
func overFact(o life.Over) ui.Fact {
	s := o.Mean.Shown()
	f := ui.Fact{Label: "Burn rate over candles", Text: s.Number, Unit: s.Unit}
	f.More = joinBy("; ", rateRange(o.Range), counted(o.Candles, "candle", "candles")+", "+counted(o.Burns, "weighed burn", "weighed burns"))
	return f
}

func lifeRow(t life.Total, v View) LifeRow {
	r := LifeRow{Code: t.Candle.Code(), Href: "/candles/" + idText(t.Candle.ID), Lit: t.Hours.Clock(), Ended: "burned to the end", Left: "not known"}
	if !t.Ended() {
		r.Ended = string(t.Why)
	}
	if t.Height != nil {
		r.Left = v.length(*t.Height).String()
	}
	return r
}

// claimName is the name of the claimed time in the address.
const claimName = "claimed"

// newClaim builds the box for a claimed time, with what is said of it.
func newClaim(l life.Label, q url.Values) LifeClaim {
	c := LifeClaim{Field: ui.Field{Kind: ui.QuantityField, Name: claimName, Label: "Time you think of claiming", Value: q.Get(claimName), Unit: "h", Quantity: "hours"}}
	for _, name := range []string{"vessel", "wax", "wick", "series"} {
		if q.Has(name) {
			c.Hidden = append(c.Hidden, ui.Hidden{Name: name, Value: q.Get(name)})
		}
	}
	if c.Field.Value == "" {
		return c
	}
	h, err := quantity.ParseHours(c.Field.Value)
	var unread *quantity.ParseError
	switch {
	case errors.As(err, &unread):
		c.Field.Problem = unread.Sentence
	case err != nil || h <= 0:
		c.Field.Problem = "Write more than no time at all."
	default:
		c.Field.Understood = h.Clock()
		c.Says = claimSays(h, l)
	}
	return c
}

// claimSays holds a claimed time against the candles.
func claimSays(h quantity.Hours, l life.Label) []string {
	x, ok := life.NewClaim(h, l.Mean)
	if !ok {
		return []string{"There is nothing to compare it with yet: no candle of this pairing was burned to the end."}
	}
	said := h.Decimal().String() + " claimed, " + l.Mean.Decimal().String() + " measured on average over " + counted(len(l.Ended), "candle", "candles") + ": "
	within := quantity.Fraction(life.ClaimWithin).Percent().String()
	switch x.Says {
	case life.ClaimOver:
		said += x.Off.Percent().String() + " too long. A quality mark’s reference is " + within + " either way."
	case life.ClaimUnder:
		said += (-x.Off).Percent().String() + " too short. A quality mark’s reference is " + within + " either way."
	default:
		said += "within " + within + " either way, a quality mark’s reference."
	}
	return append([]string{said}, claimBound(h, l))
}

// claimBound holds a claimed time against the bound.
func claimBound(h quantity.Hours, l life.Label) string {
	switch {
	case !l.Enough() || l.Useless():
		return "There is no bound to hold it against yet: it is a comparison with an average only."
	case h > l.Bound:
		return "It is longer than the " + l.Bound.WholeDown().String() + " that nine candles in ten are sure enough to last: more than one in ten may fall short."
	}
	return "Nine candles in ten are sure enough to last that long."
}
