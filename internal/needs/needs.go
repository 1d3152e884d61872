// Package needs says what a round takes from the shelf: wax, oil, vessels and
// wicks, melt by melt, beside what was counted there; and how long its candles
// can be expected to burn.
//
// The sums are those of a pour sheet. It refuses to guess: where a volume or a
// density is missing the masses are left out and the reason is a sentence. It
// knows no storage and no clock.
package needs

import (
	"rimward/internal/journal"
	"rimward/internal/pour"
	"rimward/internal/quantity"
)

// Shelf is what the candles of a round are made from.
type Shelf struct {
	Wax       journal.Wax
	Fragrance *journal.Fragrance
	Vessels   map[journal.ID]journal.Vessel
	Wicks     map[journal.ID]journal.Wick
	Taken     journal.Takings // since the counts
	Step      quantity.Grams  // of the scale
	Melter    *quantity.Grams // what the melter holds at once; nil where that was not said
}

// Needs is what a round takes.
type Needs struct {
	Melts   []Melt
	Wax     Need[quantity.Grams]
	Oil     Need[quantity.Grams] // 0 without fragrance
	Vessels []Piece
	Wicks   []Piece
	// Asks say why masses are not known, each once.
	Asks []string
}

// Need is an amount beside what was counted on the shelf.
type Need[T quantity.Grams | int] struct {
	Amount T
	Known  bool             // the amount could be worked out
	Stock  journal.Stock[T] // as it was last counted; OnHand is nil where it was not
	Taken  journal.Taken    // since that count
	Left   *T               // of the count, as far as it can be told; nil where nothing was counted
}

func massOf(s journal.Stock[quantity.Grams], t journal.Taken) Need[quantity.Grams] {
	return Need[quantity.Grams]{Known: true, Stock: s, Taken: t, Left: journal.MassLeft(s, t)}
}

func piecesOf(s journal.Stock[int], t journal.Taken) Need[int] {
	return Need[int]{Known: true, Stock: s, Taken: t, Left: journal.PiecesLeft(s, t)}
}

// Piece is how many of one vessel or wick are needed.
type Piece struct {
	ID journal.ID
	Need[int]
}

// Melt is what one melt of the round takes.
type Melt struct {
	Number   int
	Load     *quantity.Fraction
	PourAt   *quantity.Celsius
	Candles  int
	Wax, Oil quantity.Grams
	Fillings int  // how often the melter is filled for it; 1 where it holds all
	Known    bool // the masses could be worked out
}

// Of is what the places of a round take, loads counted on the basis.
func Of(places []journal.RoundPlace, basis journal.Basis, sh Shelf) Needs {
	n := Needs{Wax: massOf(sh.Wax.Stock, sh.Taken.Of(journal.NounWax, sh.Wax.ID)), Oil: Need[quantity.Grams]{Known: true}}
	if sh.Fragrance != nil {
		n.Oil = massOf(sh.Fragrance.Stock, sh.Taken.Of(journal.NounFragrance, sh.Fragrance.ID))
	}
	for _, group := range byMelt(places) {
		n.addMelt(group, basis, sh)
	}
	for _, p := range places {
		n.Vessels = count(n.Vessels, p.Vessel, 1, piecesOf(sh.Vessels[p.Vessel].Stock, sh.Taken.Of(journal.NounVessel, p.Vessel)))
		n.Wicks = count(n.Wicks, p.Wick, p.Wicks, piecesOf(sh.Wicks[p.Wick].Stock, sh.Taken.Of(journal.NounWick, p.Wick)))
	}
	return n
}

func (n *Needs) addMelt(group []journal.RoundPlace, basis journal.Basis, sh Shelf) {
	m := Melt{Number: group[0].Melt, Load: group[0].Load, PourAt: group[0].PourAt, Candles: len(group)}
	sheet, problems := pour.Work(sh.ask(group, basis))
	for _, p := range problems {
		n.ask(p.Text)
	}
	if m.Known = len(problems) == 0; m.Known {
		m.Wax, m.Oil, m.Fillings = sheet.Wax, sheet.Oil, len(sheet.Melts)
		n.Wax.Amount, n.Oil.Amount = n.Wax.Amount+m.Wax, n.Oil.Amount+m.Oil
	}
	n.Wax.Known, n.Oil.Known = n.Wax.Known && m.Known, n.Oil.Known && m.Known
	n.Melts = append(n.Melts, m)
}

// ask notes a sentence once.
func (n *Needs) ask(text string) {
	for _, a := range n.Asks {
		if a == text {
			return
		}
	}
	n.Asks = append(n.Asks, text)
}

// ask is the pour sheet of some candles of one melt, without spare and without
// what stays in the jug.
func (sh Shelf) ask(group []journal.RoundPlace, basis journal.Basis) pour.Ask {
	w := sh.Wax
	a := pour.Ask{Wax: pour.Wax{Name: w.Name, Liquid: w.LiquidDensity, Solid: w.SolidDensity, Shrinkage: w.Shrinkage}, Step: sh.Step, Melter: sh.Melter}
	if a.Step <= 0 {
		a.Step = 1
	}
	if load := group[0].Load; load != nil && *load > 0 && sh.Fragrance != nil {
		a.Oil = &pour.Oil{Name: sh.Fragrance.Name, Load: *load, Basis: pour.Basis(basis), Density: sh.Fragrance.Density}
	}
	at := map[journal.ID]int{}
	for _, p := range group {
		i, known := at[p.Vessel]
		if !known {
			v := sh.Vessels[p.Vessel]
			i, at[p.Vessel] = len(a.Fillings), len(a.Fillings)
			a.Fillings = append(a.Fillings, pour.Filling{Name: v.Name, Cavities: 1, Volume: v.Capacity()})
		}
		a.Fillings[i].Count++
	}
	return a
}

// byMelt parts places by their melt, in order of its number.
func byMelt(places []journal.RoundPlace) [][]journal.RoundPlace {
	var out [][]journal.RoundPlace
	for _, melt := range (journal.TestRound{Places: places}).Melts() {
		var group []journal.RoundPlace
		for _, p := range places {
			if p.Melt == melt {
				group = append(group, p)
			}
		}
		out = append(out, group)
	}
	return out
}

func count(ps []Piece, id journal.ID, n int, none Need[int]) []Piece {
	for i := range ps {
		if ps[i].ID == id {
			ps[i].Amount += n
			return ps
		}
	}
	none.Amount = n
	return append(ps, Piece{id, none})
}

// PerMelt is how many candles of a round one filling of the melter makes,
// reckoned with the one that takes most; 0 where the melter or a mass is not
// known, -1 where it holds not even one.
func PerMelt(f journal.RoundFactors, sh Shelf) int {
	if sh.Melter == nil {
		return 0
	}
	most, melter := quantity.Grams(0), *sh.Melter
	sh.Melter = nil
	for _, v := range f.Vessels {
		for _, load := range append([]quantity.Fraction{0}, f.Loads...) {
			sheet, problems := pour.Work(sh.ask([]journal.RoundPlace{{Vessel: v, Load: &load}}, f.LoadBasis))
			if len(problems) > 0 {
				return 0
			}
			most = max(most, sheet.Total)
		}
	}
	if most == 0 { // nothing is to be filled
		return 0
	}
	if n := int(melter / most); n > 0 {
		return n
	}
	return -1
}
