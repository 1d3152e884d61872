package demo_test

import (
	"context"
	"testing"
	"time"

	"rimward/internal/demo"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// A verdict is handed out under the journal's own IDs, at its moment, when no
// transaction is open and all that came before it is in the journal.
func TestVerdictsOfTheSeasonAreHandedOutInTheirPlace(t *testing.T) {
	t.Parallel()
	ctx, clock, open := context.Background(), evening, false
	store, err := sqlite.Open(ctx, t.TempDir()+"/journal.db", func() time.Time { return clock })
	if err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	// A wax and a vessel that were there before: the season's IDs are not the
	// journal's.
	err = store.Write(ctx, func(tx *sqlite.Tx) error {
		if err := tx.SaveWax(&journal.Wax{Name: "Old wax", Family: "soy"}); err != nil {
			return err
		}
		return tx.SaveVessel(&journal.Vessel{Name: "Old jar", Shape: journal.Round, InnerWidth: 70, Material: "glass"})
	})
	if err != nil {
		t.Fatal(err)
	}
	var got []journal.Verdict
	season := demo.NewSeason(1, evening, lisbon(t))
	season.Together = 90 * 24 * time.Hour // so that verdicts fall within a batch
	err = season.FillWith(func(do func(demo.Writer) error) error {
		open = true
		defer func() { open = false }()
		return store.Write(ctx, func(tx *sqlite.Tx) error { return do(tx) })
	}, func(at time.Time) { clock = at }, nil, func(v journal.Verdict) error {
		if open {
			t.Error("a verdict came within a transaction")
		}
		later, err := store.Logs(ctx)
		for _, l := range later {
			for _, b := range l.Burns {
				if b.Burn.LitAt.After(clock) {
					t.Errorf("%s was lit after the verdict", l.Candle.Code())
				}
			}
		}
		got = append(got, v)
		return err
	})
	if err != nil || len(got) != 2 {
		t.Fatalf("%d verdicts, %v", len(got), err)
	}
	wax, err := store.Wax(ctx, got[0].Wax)
	if err != nil || wax.Name != "Meadow blend" {
		t.Errorf("the wax is %q, %v", wax.Name, err)
	}
	vessel, err := store.Vessel(ctx, got[1].Vessel)
	if err != nil || vessel.Name != "Pebble tumbler" || got[0].Ruling != journal.Accepted || got[1].Ruling != journal.Rejected || got[1].Why == "" {
		t.Errorf("%s: %+v, %v", vessel.Name, got[1], err)
	}
}
