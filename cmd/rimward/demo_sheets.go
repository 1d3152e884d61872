package main

import (
	"context"
	"fmt"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// weighSheets adds two pour sheets to a season: the one that its last pour was
// weighed by, and one for the next pour, half ticked.
func weighSheets(ctx context.Context, store *sqlite.Store, set func(time.Time), now time.Time) error {
	lines, _, err := store.Pours(ctx, 0, 1)
	if err != nil {
		return err
	}
	if len(lines) == 0 {
		return fmt.Errorf("weigh the season's sheets: %w", journal.ErrNotFound)
	}
	last := lines[0].Pour
	filled, err := store.PourCandles(ctx, last.ID)
	if err != nil {
		return err
	}
	poured, next := sheetOf(last, filled), sheetOf(last, nil)
	next.Body = halfTicked()
	set(last.At)
	if err := store.Write(ctx, func(tx *sqlite.Tx) error { return tx.SavePourSheet(&poured) }); err != nil {
		return err
	}
	set(now.Add(-25 * time.Minute))
	next.Pour = nil
	return store.Write(ctx, func(tx *sqlite.Tx) error { return tx.SavePourSheet(&next) })
}

// sheetOf is the sheet that a pour was weighed by: its candles, those alike on
// one line.
func sheetOf(p journal.Pour, filled []journal.CandleLine) journal.PourSheet {
	s := journal.PourSheet{Wax: p.Wax, Fragrance: p.Fragrance, Load: p.Load, LoadBasis: p.LoadBasis, Pour: &p.ID, Body: journal.SheetBody{Step: 1, Waste: new(quantity.Grams(15))}}
	for _, c := range filled {
		s.Body.Lines = append(s.Body.Lines, journal.SheetLine{Vessel: &c.Candle.Vessel, Wick: &c.Candle.Wick, Wicks: c.Candle.Wicks, Count: 1, TestFill: c.Candle.Filled})
	}
	for _, step := range journal.SheetSteps {
		t := journal.SheetTick{Key: step.Key(1)}
		switch step {
		case journal.HeatWax:
			t.Read = p.HeatedTo
		case journal.StirOil:
			t.Read = p.OilAt
		case journal.PourWax:
			t.Read = p.PouredAt
		}
		s.Body.Ticks = append(s.Body.Ticks, t)
	}
	return s
}

// halfTicked is what the next pour is to fill: tumblers with two wicks of the
// first ladder, and tablets from the first mould. The wax is weighed and hot.
func halfTicked() journal.SheetBody {
	id := func(n int) *journal.ID { return new(journal.ID(n)) }
	return journal.SheetBody{
		Lines: []journal.SheetLine{
			{Vessel: id(1), Wick: id(4), Wicks: 1, Count: 2}, {Vessel: id(1), Wick: id(5), Wicks: 1, Count: 2}, {Mould: id(1), Count: 1},
		},
		Spare: new(quantity.Fraction(0.03)), Waste: new(quantity.Grams(15)), Step: 1, Melter: new(quantity.Grams(3000)),
		Ticks: []journal.SheetTick{{Key: journal.WeighWax.Key(1), Weighed: new(quantity.Grams(1203))}, {Key: journal.HeatWax.Key(1), Read: new(quantity.Celsius(79))}},
	}
}
