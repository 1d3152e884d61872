package server

import (
	"errors"
	"log/slog"
	"testing"
	"time"

	"rimward/internal/sqlite"
)

// While a weighing is under way, a page that was asked for shows the last
// answer; where there is none yet it says so, and does not wait for ever.
func TestAPageDoesNotWaitForALongWeighing(t *testing.T) {
	t.Parallel()
	store, err := sqlite.Open(t.Context(), t.TempDir()+"/journal.db", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	x := &scales{store: store, now: time.Now, log: slog.Default(), patience: time.Millisecond, firstPatience: time.Millisecond}
	x.running = make(chan struct{}) // never ends
	if _, _, err := x.weigh(t.Context()); !errors.Is(err, errStillWeighing) {
		t.Fatalf("nothing was ever weighed: %v", err)
	}
	if statusOf(errStillWeighing) != 503 {
		t.Error("it is not told as a moment's wait")
	}
	x.running = nil
	first, fresh, err := (&scales{store: store, now: time.Now, log: slog.Default(), patience: time.Minute, firstPatience: time.Minute}).weigh(t.Context())
	if err != nil || !fresh {
		t.Fatalf("fresh %v, %v", fresh, err)
	}
	first.revision = -1
	x.last, x.running = first, make(chan struct{})
	if got, fresh, err := x.weigh(t.Context()); got != first || fresh || err != nil {
		t.Errorf("got %v, fresh %v, %v", got, fresh, err)
	}

	// The weighing under way began before what was saved last: the next one is
	// waited for, too.
	x.patience = time.Minute
	under := x.running
	go func() {
		time.Sleep(5 * time.Millisecond)
		x.mu.Lock()
		defer x.mu.Unlock()
		x.running = nil
		close(under)
	}()
	if got, fresh, err := x.weigh(t.Context()); got == first || !fresh || err != nil {
		t.Errorf("the weighing after: got %v, fresh %v, %v", got, fresh, err)
	}
}

// What goes wrong with a weighing ends no more than that weighing.
func TestAFailedWeighingIsTold(t *testing.T) {
	t.Parallel()
	store, err := sqlite.Open(t.Context(), t.TempDir()+"/journal.db", time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	x := newScales(store, func() time.Time { panic("no clock") }, slog.New(slog.DiscardHandler))
	if _, _, err := x.weigh(t.Context()); err == nil || errors.Is(err, errStillWeighing) {
		t.Errorf("%v", err)
	}
	x.now = time.Now
	if _, fresh, err := x.weigh(t.Context()); !fresh || err != nil {
		t.Errorf("after it was mended: fresh %v, %v", fresh, err)
	}
}
