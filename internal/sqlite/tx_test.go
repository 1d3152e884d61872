package sqlite_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// pail saves a wax of a name.
func pail(name string) func(*sqlite.Tx) error {
	return func(tx *sqlite.Tx) error { return tx.SaveWax(&journal.Wax{Name: name, Family: "soy"}) }
}

// waxNames are the names of all waxes but the studio's own.
func (b bench) waxNames(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, w := range got(b.Waxes(t.Context()))(t) {
		if w.ID != b.st.Wax.ID {
			out = append(out, w.Name)
		}
	}
	return out
}

func TestAWriteIsAllOrNothing(t *testing.T) {
	b := newBench(t)
	before := got(b.Revision(t.Context()))(t)
	boom := errors.New("boom")
	wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return errors.Join(pail("A")(tx), boom) }), boom)
	func() {
		defer func() {
			if recover() != "spilt" {
				t.Error("the panic did not come through")
			}
		}()
		_ = b.write(t, func(tx *sqlite.Tx) error { must(t, pail("B")(tx)); panic("spilt") })
	}()
	if names := b.waxNames(t); len(names) > 0 || got(b.Revision(t.Context()))(t) != before {
		t.Errorf("left after a failure and a panic: %v", names)
	}
	must(t, b.write(t, pail("C")))
	if names := b.waxNames(t); len(names) != 1 {
		t.Errorf("got %v after a write that succeeded", names)
	}
}

func TestAWriteWithinAWriteIsRefused(t *testing.T) {
	b := newBench(t)
	wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return b.Write(tx.Context(), pail("A")) }), sqlite.ErrNested)
	if names := b.waxNames(t); len(names) > 0 {
		t.Errorf("left: %v", names)
	}
}

func TestACallerWhoLeavesLosesNothing(t *testing.T) {
	b := newBench(t)
	ctx, leave := context.WithCancel(t.Context())
	must(t, b.Write(ctx, func(tx *sqlite.Tx) error {
		leave()
		return pail("A")(tx)
	}))
	if names := b.waxNames(t); len(names) != 1 {
		t.Errorf("got %v", names)
	}
	wantIs(t, b.Write(ctx, pail("B")), context.Canceled)
	if names := b.waxNames(t); len(names) != 1 {
		t.Errorf("a write that began after its caller left was kept: %v", names)
	}
}

func TestAFormSentTwiceIsSavedOnce(t *testing.T) {
	b := newBench(t)
	ctx := t.Context()
	saves := 0
	send := func(token string) (string, bool) {
		ref, again, err := b.Once(ctx, token, func(tx *sqlite.Tx) (string, error) {
			saves++
			return fmt.Sprintf("/waxes/%d", saves), pail(token)(tx)
		})
		must(t, err)
		return ref, again
	}
	if _, ok, err := b.Receipt(ctx, "t1"); ok || err != nil {
		t.Errorf("receipt before saving: %v, %v", ok, err)
	}
	for i, want := range []struct {
		token, ref string
		again      bool
	}{{"t1", "/waxes/1", false}, {"t1", "/waxes/1", true}, {"t2", "/waxes/2", false}, {"t1", "/waxes/1", true}} {
		if ref, again := send(want.token); ref != want.ref || again != want.again {
			t.Errorf("sending %d: got %s, again %v, want %+v", i, ref, again, want)
		}
	}
	if ref, ok, err := b.Receipt(ctx, "t2"); ref != "/waxes/2" || !ok || err != nil {
		t.Errorf("receipt: %s, %v, %v", ref, ok, err)
	}
	t.Run("but a refused one can be sent again", func(t *testing.T) {
		_, _, err := b.Once(ctx, "t3", func(tx *sqlite.Tx) (string, error) { return "x", pail("")(tx) })
		wantProblem(t, err, "name")
		if _, again := send("t3"); again {
			t.Error("a refused form left a receipt")
		}
	})
	t.Run("and without a token each is saved", func(t *testing.T) {
		for range 2 {
			_, again, err := b.Once(ctx, "", func(tx *sqlite.Tx) (string, error) { return "", pail("N")(tx) })
			if must(t, err); again {
				t.Error("nothing was sent before")
			}
		}
	})
	t.Run("a token with content is found by the token", func(t *testing.T) {
		_, _, err := b.Once(ctx, "t4:abcd", func(tx *sqlite.Tx) (string, error) { return "", nil })
		must(t, err)
		for token, want := range map[string]bool{"t4": true, "t": false, "t40": false} {
			if is := got(b.Saved(ctx, token))(t); is != want {
				t.Errorf("saved under %q: %v", token, is)
			}
		}
	})
}

func TestManyWritersLoseNothing(t *testing.T) {
	b := newBench(t)
	const writers, each = 8, 25
	wax := b.st.Wax
	var wg sync.WaitGroup
	for range writers {
		wg.Go(func() {
			for range each {
				err := b.Write(t.Context(), func(tx *sqlite.Tx) error {
					x := journal.Candle{Pour: b.st.Pour.ID, Vessel: b.st.Vessel.ID, Wick: b.st.Wicks[0].ID, Wicks: 1}
					return tx.SaveCandle(&x)
				})
				if err != nil {
					t.Error(err)
				}
				if _, err := b.Waxes(t.Context()); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	seen := map[string]bool{}
	for _, l := range got(b.PourCandles(t.Context(), b.st.Pour.ID))(t) {
		seen[l.Candle.Code()] = true
	}
	if want := writers*each + len(b.st.Candles); len(seen) != want {
		t.Errorf("got %d candles with letters of their own, want %d", len(seen), want)
	}
	t.Run("and of two corrections of one version one is refused", func(t *testing.T) {
		var kept, refused int
		var count sync.Mutex
		for i := range writers {
			wg.Go(func() {
				x := wax
				x.SolidDensity = p(0.9 + quantity.GramsPerMillilitre(i)/100)
				err := b.Write(t.Context(), func(tx *sqlite.Tx) error { return tx.SaveWax(&x) })
				count.Lock()
				defer count.Unlock()
				if err == nil {
					kept++
				} else if errors.Is(err, journal.ErrConflict) {
					refused++
				}
			})
		}
		wg.Wait()
		if kept != 1 || refused != writers-1 {
			t.Errorf("%d kept, %d refused", kept, refused)
		}
	})
}

// Two programs on one file: each reads a number and writes the next. With a
// transaction that takes its lock late, one of them would fail at once.
func TestTwoProgramsOnOneJournalWaitForEachOther(t *testing.T) {
	b := newBench(t)
	other, err := sqlite.Open(t.Context(), b.path, b.clock.now)
	must(t, err)
	defer other.Close()
	const each = 60
	var wg sync.WaitGroup
	for _, s := range []*sqlite.Store{b.Store, other} {
		wg.Go(func() {
			for range each {
				err := s.Write(t.Context(), func(tx *sqlite.Tx) error {
					return tx.SavePour(&journal.Pour{At: b.clock.at, Wax: b.st.Wax.ID, LoadBasis: journal.OfWax})
				})
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	list, _, err := b.Pours(t.Context(), 0, 500)
	must(t, err)
	if len(list) != 2*each+1 || list[0].Pour.Number != 2*each+1 {
		t.Errorf("got %d pours, the last with number %d", len(list), list[0].Pour.Number)
	}
}
