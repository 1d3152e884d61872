package form

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Price reads the price of one piece; nil when empty or unreadable.
func (p *Parser) Price(name string) *float64 { return read(p, name, quantity.ParsePrice) }

// PriceByMass reads the price of a kilogram; nil when empty or unreadable.
func (p *Parser) PriceByMass(name string) *float64 {
	return read(p, name, p.shared.units.ParsePriceByMass)
}

// stockByMass reads what is on hand of a wax or a fragrance. When it was
// counted is the store's to say.
func stockByMass(p *Parser) journal.Stock[quantity.Grams] {
	return journal.Stock[quantity.Grams]{OnHand: p.Mass("on_hand")}
}

// stockByPiece reads how many vessels or wicks are on hand.
func stockByPiece(p *Parser) journal.Stock[int] {
	return journal.Stock[int]{OnHand: p.Count("on_hand")}
}
