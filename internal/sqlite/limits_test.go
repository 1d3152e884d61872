package sqlite

import (
	"errors"
	"reflect"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// TestTablesAndRulesAgree holds every range of the tables against the rules of
// the journal, which a person meets first: what a table refuses has a sentence
// of its own, and what a rule allows a table takes.
func TestTablesAndRulesAgree(t *testing.T) {
	t.Parallel()
	meta := journal.Meta{ID: 1}
	lit, out := insideNow.Add(-3*time.Hour), insideNow
	agree(t, waxes, journal.Wax{Name: "x", Family: "soy", LoadBasis: journal.OfWax}, journal.Wax.Validate)
	agree(t, fragrances, journal.Fragrance{Name: "x", MaxBasis: journal.OfWax}, journal.Fragrance.Validate)
	agree(t, vessels, journal.Vessel{Name: "x", Shape: journal.Irregular, Material: "glass", InnerWidth: 10, InnerLength: new(quantity.Millimetres(500))}, journal.Vessel.Validate)
	agree(t, wicks, journal.Wick{Label: "x", Rung: 1}, journal.Wick.Validate)
	agree(t, pours, journal.Pour{At: lit, Wax: 1, Fragrance: &meta.ID, LoadBasis: journal.OfWax}, func(x journal.Pour) error { return x.Validate(insideNow) })
	agree(t, candles, journal.Candle{Pour: 1, Vessel: 1, Wick: 1, Wicks: 1, Letter: "A"}, journal.Candle.Validate)
	agree(t, burns, journal.Burn{Meta: meta, LitAt: lit, OutAt: &out, Ending: journal.Snuffed}, func(x journal.Burn) error { return x.Validate(journal.BurnFacts{Now: insideNow}) })
	agree(t, verdicts, journal.Verdict{Wicks: 1, Fragrance: &meta.ID, Apart: journal.ByLoad, Series: "1.1.1", Ruling: journal.LeftOpen, By: "x"}, func(x journal.Verdict) error {
		return x.Validate(journal.VerdictFacts{Now: insideNow, Poured: true})
	})
	agree(t, moulds, journal.Mould{Name: "x", Cavities: 1, Detail: journal.Plain}, journal.Mould.Validate)
	agree(t, casts, journal.Cast{Pieces: journal.MostPieces, Out: &out}, func(x journal.Cast) error {
		return x.Validate(journal.CastFacts{Now: insideNow, Pour: journal.Pour{At: lit}})
	})
	agree(t, setChecks, journal.SetCheck{At: lit, Candle: 1, Top: journal.TopDip}, func(x journal.SetCheck) error {
		return x.Validate(journal.SetCheckFacts{Now: insideNow, PouredAt: lit})
	})
	agree(t, checks, journal.Check{Full: true, At: lit, Burn: 1}, func(x journal.Check) error {
		return x.Validate(journal.CheckFacts{Now: insideNow, Burn: journal.Burn{LitAt: lit}, Vessel: journal.Vessel{InnerWidth: 500}, Ruler: 100})
	})
}

// agree tries both ends of every range of one table on the journal's rules.
func agree[T any](t *testing.T, k kind[T], good T, validate func(T) error) {
	t.Helper()
	tried := 0
	columns(t, func(table, column, line string) {
		low, high, ranged := rangeOf(line)
		if table != k.table || !ranged {
			return
		}
		tried++
		step := stepOf(line, low, high)
		for v, fine := range map[float64]bool{low - step: false, low: true, high: true, high + step: false} {
			x := good
			put(t, k, &x, column, v)
			if err := validate(x); complains(err, column) == fine {
				t.Errorf("%s.%s = %g: the rules say %v", table, column, v, err)
			}
		}
	})
	if tried == 0 {
		t.Errorf("no ranges were found for %s", k.table)
	}
}

// put sets the value that a column holds.
func put[T any](t *testing.T, k kind[T], x *T, column string, v float64) {
	t.Helper()
	for _, f := range k.fields(x) {
		if f.name != column {
			continue
		}
		at := reflect.ValueOf(f.at).Elem()
		if at.Kind() == reflect.Pointer {
			at.Set(reflect.New(at.Type().Elem()))
			at = at.Elem()
		}
		at.Set(reflect.ValueOf(v).Convert(at.Type()))
		return
	}
	t.Fatalf("%s has no column %s", k.table, column)
}

// complains reports whether an error has a problem of the field.
func complains(err error, field string) bool {
	var invalid *journal.InvalidError
	if !errors.As(err, &invalid) {
		return false
	}
	for _, p := range invalid.Problems {
		if p.Field == field {
			return true
		}
	}
	return false
}
