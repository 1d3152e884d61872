package sqlite_test

import (
	"context"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// noun is one kind of record under test: a full value, and how it is changed.
type noun[T any] struct {
	full   func(b bench) T
	change func(*T)
	save   func(*sqlite.Tx, *T) error
	read   func(context.Context, bench, journal.ID) (T, error)
	meta   func(*T) *journal.Meta
	noun   journal.Noun
}

func TestEveryNounIsKeptWhole(t *testing.T) {
	t.Run("wax", func(t *testing.T) { keptWhole(t, waxNoun) })
	t.Run("fragrance", func(t *testing.T) { keptWhole(t, fragranceNoun) })
	t.Run("vessel", func(t *testing.T) { keptWhole(t, vesselNoun) })
	t.Run("ladder", func(t *testing.T) { keptWhole(t, ladderNoun) })
	t.Run("wick", func(t *testing.T) { keptWhole(t, wickNoun) })
	t.Run("pour", func(t *testing.T) { keptWhole(t, pourNoun) })
	t.Run("candle", func(t *testing.T) { keptWhole(t, candleNoun) })
	t.Run("burn", func(t *testing.T) { keptWhole(t, burnNoun) })
	t.Run("check", func(t *testing.T) { keptWhole(t, checkNoun) })
}

// keptWhole takes one noun through writing, reading, correcting, a stale
// correction, an empty correction and an unknown ID.
func keptWhole[T any](t *testing.T, n noun[T]) {
	b := newBench(t)
	x := n.full(b)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return n.save(tx, &x) }))
	id := n.meta(&x).ID
	if diff := cmp.Diff(journal.Meta{ID: id, Version: 1, Created: start}, *n.meta(&x)); id == 0 || diff != "" {
		t.Errorf("meta of a new record (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(x, got(n.read(t.Context(), b, id))(t)); diff != "" {
		t.Errorf("written and read (-want +got):\n%s", diff)
	}

	stale, first := x, x
	b.clock.wait(time.Minute)
	n.change(&x)
	n.meta(&x).Created, n.meta(&x).Gone, n.meta(&x).GoneWhy = b.clock.at, p(b.clock.at), "not by a correction"
	must(t, b.write(t, func(tx *sqlite.Tx) error { return n.save(tx, &x) }))
	if diff := cmp.Diff(journal.Meta{ID: id, Version: 2, Created: start}, *n.meta(&x)); diff != "" {
		t.Errorf("meta of a corrected record (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(x, got(n.read(t.Context(), b, id))(t)); diff != "" {
		t.Errorf("corrected and read (-want +got):\n%s", diff)
	}
	n.change(&stale)
	wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return n.save(tx, &stale) }), journal.ErrConflict)
	if n.meta(&stale).Version != 1 {
		t.Error("a refused save changed the caller's record")
	}

	lines := len(got(b.History(t.Context(), n.noun, id))(t))
	same := x
	must(t, b.write(t, func(tx *sqlite.Tx) error { return n.save(tx, &same) }))
	if after := len(got(b.History(t.Context(), n.noun, id))(t)); n.meta(&same).Version != 2 || after != lines {
		t.Errorf("a correction without a change: version %d, %d lines of history after %d", n.meta(&same).Version, after, lines)
	}
	wantHistory(t, b, n, id, first, x)

	n.meta(&x).ID = 999
	wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return n.save(tx, &x) }), journal.ErrNotFound)
	_, err := n.read(t.Context(), b, 999)
	wantIs(t, err, journal.ErrNotFound)
}

var waxNoun = noun[journal.Wax]{
	noun: journal.NounWax,
	full: func(bench) journal.Wax {
		return journal.Wax{Name: "Thistle", Family: "rapeseed", BlendNote: "with stearin", Form: "flakes", SolidDensity: p(quantity.GramsPerMillilitre(0.9)),
			LiquidDensity: p(quantity.GramsPerMillilitre(0.84)), MeltingPoint: p(quantity.Celsius(52.5)),
			HeatTo:   journal.Range[quantity.Celsius]{Low: p(quantity.Celsius(80)), High: p(quantity.Celsius(85))},
			AddOilAt: journal.Range[quantity.Celsius]{High: p(quantity.Celsius(75))}, PourAt: journal.Range[quantity.Celsius]{Low: p(quantity.Celsius(55))},
			Load: journal.Range[quantity.Fraction]{Low: p(quantity.Fraction(0.06)), High: p(quantity.Fraction(0.1))}, LoadBasis: journal.OfTotal,
			CureDays:  journal.Range[quantity.Days]{Low: p(quantity.Days(10)), High: p(quantity.Days(14))},
			Shrinkage: p(quantity.Fraction(0.07)), HeatOfCombustion: p(quantity.KilojoulesPerGram(41)), Note: "a note"}
	},
	change: func(x *journal.Wax) { x.SolidDensity, x.Note = nil, "" },
	save:   (*sqlite.Tx).SaveWax,
	read:   func(ctx context.Context, b bench, id journal.ID) (journal.Wax, error) { return b.Store.Wax(ctx, id) },
	meta:   func(x *journal.Wax) *journal.Meta { return &x.Meta },
}

var fragranceNoun = noun[journal.Fragrance]{
	noun: journal.NounFragrance,
	full: func(bench) journal.Fragrance {
		return journal.Fragrance{Name: "Wet slate", Density: p(quantity.GramsPerMillilitre(0.98)), FlashPoint: p(quantity.Celsius(93)),
			MaxLoad: p(quantity.Fraction(0.1)), MaxBasis: journal.OfWax, Note: "a note"}
	},
	change: func(x *journal.Fragrance) { x.MaxLoad, x.MaxBasis = p(quantity.Fraction(0.08)), journal.OfTotal },
	save:   (*sqlite.Tx).SaveFragrance,
	read: func(ctx context.Context, b bench, id journal.ID) (journal.Fragrance, error) {
		return b.Store.Fragrance(ctx, id)
	},
	meta: func(x *journal.Fragrance) *journal.Meta { return &x.Meta },
}

var vesselNoun = noun[journal.Vessel]{
	noun: journal.NounVessel,
	full: func(bench) journal.Vessel {
		return journal.Vessel{Name: "Boat bowl", Shape: journal.Oval, InnerWidth: 80, InnerLength: mm(130), FillHeight: mm(45), Volume: p(quantity.Millilitres(350)),
			WaterFill: p(quantity.Grams(349)), Material: "ceramic", EmptyMass: p(quantity.Grams(610)), Certificate: true, TargetHours: p(quantity.Hours(3.5)),
			FlameLimit: mm(60), WallLimit: p(quantity.Celsius(65)), Note: "a note"}
	},
	change: func(x *journal.Vessel) { x.Certificate, x.InnerLength = false, mm(131) },
	save:   (*sqlite.Tx).SaveVessel,
	read: func(ctx context.Context, b bench, id journal.ID) (journal.Vessel, error) {
		return b.Store.Vessel(ctx, id)
	},
	meta: func(x *journal.Vessel) *journal.Meta { return &x.Meta },
}

var ladderNoun = noun[journal.Ladder]{
	noun: journal.NounLadder,
	full: func(bench) journal.Ladder {
		return journal.Ladder{Name: "Ash strip", Kind: "wood", Core: "none", Note: "a note"}
	},
	change: func(x *journal.Ladder) { x.Kind = "wood with a second strip" },
	save:   (*sqlite.Tx).SaveLadder,
	read: func(ctx context.Context, b bench, id journal.ID) (journal.Ladder, error) {
		return b.Store.Ladder(ctx, id)
	},
	meta: func(x *journal.Ladder) *journal.Meta { return &x.Meta },
}

var wickNoun = noun[journal.Wick]{
	noun: journal.NounWick,
	full: func(b bench) journal.Wick {
		return journal.Wick{Ladder: b.st.Ladder.ID, Rung: 4, Label: "9", Width: mm(2.1), Threads: p(36), Note: "a note"}
	},
	change: func(x *journal.Wick) { x.Threads = nil },
	save:   (*sqlite.Tx).SaveWick,
	read:   func(ctx context.Context, b bench, id journal.ID) (journal.Wick, error) { return b.Store.Wick(ctx, id) },
	meta:   func(x *journal.Wick) *journal.Meta { return &x.Meta },
}

var pourNoun = noun[journal.Pour]{
	noun: journal.NounPour,
	full: func(b bench) journal.Pour {
		return journal.Pour{Number: 2, At: b.clock.at.Add(-time.Hour), Wax: b.st.Wax.ID, WaxLot: "L1", FragranceLot: "F1", Load: p(quantity.Fraction(0)),
			LoadBasis: journal.OfTotal, HeatedTo: p(quantity.Celsius(82)), OilAt: p(quantity.Celsius(74)), PouredAt: p(quantity.Celsius(58)),
			Room: p(quantity.Celsius(-1)), VesselWarmed: p(quantity.Celsius(40)), SecondPour: true, HeatGun: true, Dye: "ochre", Note: "a note"}
	},
	change: func(x *journal.Pour) { x.HeatGun, x.Load = false, nil },
	save:   (*sqlite.Tx).SavePour,
	read:   func(ctx context.Context, b bench, id journal.ID) (journal.Pour, error) { return b.Store.Pour(ctx, id) },
	meta:   func(x *journal.Pour) *journal.Meta { return &x.Meta },
}

var candleNoun = noun[journal.Candle]{
	noun: journal.NounCandle,
	full: func(b bench) journal.Candle {
		return journal.Candle{Pour: b.st.Pour.ID, PourNumber: 1, Letter: "D", Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 2, Filled: p(quantity.Grams(181.5)), Note: "a note"}
	},
	change: func(x *journal.Candle) { x.Wicks = 1 },
	save:   (*sqlite.Tx).SaveCandle,
	read: func(ctx context.Context, b bench, id journal.ID) (journal.Candle, error) {
		return b.Store.Candle(ctx, id)
	},
	meta: func(x *journal.Candle) *journal.Meta { return &x.Meta },
}

var burnNoun = noun[journal.Burn]{
	noun: journal.NounBurn,
	full: func(b bench) journal.Burn {
		return journal.Burn{Candle: b.st.Candles[0].ID, Number: 1, LitAt: b.clock.after(-4), Trim: mm(5), MassBefore: p(quantity.Grams(412.3)), Room: p(quantity.Celsius(19.5)),
			Draught: journal.DraughtSlight, Place: "shelf 2", OutAt: p(b.clock.after(-0.5)), MassAfter: p(quantity.Grams(390)), AfterSmoke: p(quantity.Seconds(12)),
			Ending: journal.PutOutUnsafe, Note: "a note"}
	},
	change: func(x *journal.Burn) { x.MassAfter, x.Ending = nil, journal.WentOut },
	save:   (*sqlite.Tx).SaveBurn,
	read:   func(ctx context.Context, b bench, id journal.ID) (journal.Burn, error) { return b.Store.Burn(ctx, id) },
	meta:   func(x *journal.Burn) *journal.Meta { return &x.Meta },
}

var checkNoun = noun[journal.Check]{
	noun: journal.NounCheck,
	full: func(b bench) journal.Check {
		x := journal.Burn{Candle: b.st.Candles[0].ID, LitAt: b.clock.after(-1)}
		if err := b.Store.Write(context.Background(), func(tx *sqlite.Tx) error { return tx.SaveBurn(&x) }); err != nil {
			panic(err)
		}
		return journal.Check{Burn: x.ID, At: b.clock.at, WidthA: mm(61), WidthB: mm(58.5), Full: true, Depth: mm(9), Flame: mm(31), Mushroom: "bead", Soot: "wisp",
			WallWax: "film", VesselTemp: p(quantity.Celsius(48)), HotThrow: p(0), Odd: []journal.Odd{journal.Debris, journal.SweatingPool}, LeftOut: true, Note: "a note"}
	},
	change: func(x *journal.Check) { x.Odd, x.HotThrow, x.Full = nil, nil, false },
	save:   (*sqlite.Tx).SaveCheck,
	read: func(ctx context.Context, b bench, id journal.ID) (journal.Check, error) {
		return b.Store.Check(ctx, id)
	},
	meta: func(x *journal.Check) *journal.Meta { return &x.Meta },
}
