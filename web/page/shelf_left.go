package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// WithTaken adds what was taken from the shelf since its counts.
func (k Known) WithTaken(t journal.Takings) Known { k.taken = t; return k }

// ShowTaken adds to the page of a thing what was taken since it was counted,
// and what that leaves.
func (p *ThingPage) ShowTaken(said string) {
	for i := range p.Facts {
		if p.Facts[i].Label == "On hand" {
			p.Facts[i].More = joinBy("; ", p.Facts[i].More, said)
		}
	}
}

// MassTaken says what was poured of a wax or a fragrance since its count, and
// what that leaves as far as it can be told.
func MassTaken(s journal.Stock[quantity.Grams], t journal.Taken, v View) string {
	poured := v.Units.ShowStock(t.Mass).String() + " poured since"
	switch {
	case t.Pours == 0 || s.OnHand == nil:
		return "none poured since"
	case t.Mass == 0:
		return counted(t.Pours, "pour", "pours") + " since, not weighed and not counted, so it is less"
	case t.Mass > *s.OnHand:
		return poured + ", more than was counted: count it again"
	}
	rest := v.Units.ShowStock(*journal.MassLeft(s, t)).String()
	if n := t.Unweighed(); n > 0 {
		return poured + ", so less than " + rest + ": what was not weighed of " + counted(n, "pour", "pours") + " is not counted"
	}
	return poured + ", so about " + rest
}

// PiecesTaken says it of vessels and of wicks.
func PiecesTaken(s journal.Stock[int], t journal.Taken) string {
	poured := counted(t.Pieces, "piece", "pieces") + " in candles poured since"
	switch {
	case t.Pieces == 0 || s.OnHand == nil:
		return "none poured since"
	case t.Pieces > *s.OnHand:
		return poured + ", more than were counted: count them again"
	}
	return poured + ", so about " + strconv.Itoa(*journal.PiecesLeft(s, t))
}

// lack is what the shelf has too little of, and what is in doubt.
type lack struct{ short, doubt string }

// massLack holds a need of wax or oil against what is left.
func massLack(need quantity.Grams, s journal.Stock[quantity.Grams], t journal.Taken, v View) lack {
	rest := journal.MassLeft(s, t)
	switch {
	case rest == nil:
		return lack{}
	case t.Mass > *s.OnHand:
		return lack{doubt: "cannot be told before it is counted again"}
	case need > *rest:
		return lack{short: aboutWhere(t.Pours > 0) + v.mass(need-*rest).String() + " short"}
	case t.Unweighed() > 0:
		return lack{doubt: "enough if what was not weighed took " + v.mass(*rest-need).String() + " at most"}
	}
	return lack{}
}

// pieceLack holds a need of vessels or of wicks against what is left.
func pieceLack(need int, s journal.Stock[int], t journal.Taken) lack {
	rest := journal.PiecesLeft(s, t)
	switch {
	case rest == nil:
		return lack{}
	case t.Pieces > *s.OnHand:
		return lack{doubt: "cannot be told before they are counted again"}
	case need > *rest:
		return lack{short: aboutWhere(t.Pieces > 0) + strconv.Itoa(need-*rest) + " short"}
	}
	return lack{}
}

// aboutWhere keeps the doubt of a number that was reckoned, not counted.
func aboutWhere(reckoned bool) string {
	if reckoned {
		return "about "
	}
	return ""
}

// massOnShelf says what was counted of a wax or a fragrance, and what of it is
// left.
func massOnShelf(s journal.Stock[quantity.Grams], t journal.Taken, v View) string {
	if s.OnHand == nil {
		return notCounted
	}
	return joinBy("; ", joinWords(v.Units.ShowStock(*s.OnHand).String(), countedOn(s.CountedAt, v)), MassTaken(s, t, v))
}

// piecesOnShelf says it of vessels and of wicks.
func piecesOnShelf(s journal.Stock[int], t journal.Taken, v View) string {
	if s.OnHand == nil {
		return notCounted
	}
	return joinBy("; ", joinWords(strconv.Itoa(*s.OnHand), countedOn(s.CountedAt, v)), PiecesTaken(s, t))
}
