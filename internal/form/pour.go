package form

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// PourInput is a pour as it was typed.
type PourInput struct {
	At    *time.Time  `form:"at_time" validate:"required"`
	Wax   *journal.ID `form:"wax" validate:"required"`
	Basis string      `form:"load_basis" validate:"omitempty,oneof=wax total"`
	pour  journal.Pour
}

// ReadPour reads the form of a pour.
func ReadPour(p *Parser) PourInput {
	in := PourInput{At: p.Moment("at_date", "at_time"), Wax: p.ID("wax"), Basis: p.Choice("load_basis", "wax", "total")}
	in.pour = journal.Pour{
		WaxLot: p.Text("wax_lot"), Fragrance: p.ID("fragrance"), FragranceLot: p.Text("fragrance_lot"), Load: p.Percent("load"),
		WaxMass: p.Mass("wax_mass"), OilMass: p.Mass("oil_mass"),
		HeatedTo: p.Temperature("heated_to"), OilAt: p.Temperature("oil_at"), PouredAt: p.Temperature("poured_at"),
		Room: p.Temperature("room"), VesselWarmed: p.Temperature("vessel_warmed"),
		SecondPour: p.Flag("second_pour"), HeatGun: p.Flag("heat_gun"), Dye: p.Text("dye"), Note: p.Text("note"),
	}
	p.Check(in)
	return in
}

// Pour is the pour that was typed.
func (in PourInput) Pour() journal.Pour {
	x := in.pour
	x.LoadBasis = basisOr(in.Basis)
	if in.At != nil {
		x.At = *in.At
	}
	if in.Wax != nil {
		x.Wax = *in.Wax
	}
	return x
}

// CandleInput is a candle as it was typed.
type CandleInput struct {
	Vessel *journal.ID     `form:"vessel" validate:"required"`
	Wick   *journal.ID     `form:"wick" validate:"required"`
	Wicks  *int            `form:"wicks" validate:"omitempty,gt=0,lte=12"`
	Filled *quantity.Grams `form:"filled" validate:"omitempty,gt=0"`
	Note   string          `form:"note"`
}

// ReadCandle reads the form of a candle.
func ReadCandle(p *Parser) CandleInput {
	in := CandleInput{Vessel: p.ID("vessel"), Wick: p.ID("wick"), Wicks: p.Count("wicks"), Filled: p.Mass("filled"), Note: p.Text("note")}
	p.Check(in)
	return in
}

// Candle is the candle that was typed; one wick where no count was given.
func (in CandleInput) Candle() journal.Candle {
	c := journal.Candle{Wicks: 1, Filled: in.Filled, Note: in.Note}
	if in.Vessel != nil {
		c.Vessel = *in.Vessel
	}
	if in.Wick != nil {
		c.Wick = *in.Wick
	}
	if in.Wicks != nil {
		c.Wicks = *in.Wicks
	}
	return c
}
