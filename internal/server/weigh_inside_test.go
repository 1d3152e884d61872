package server

import (
	"errors"
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
	x := &scales{store: store, now: time.Now, patience: time.Millisecond, firstPatience: time.Millisecond}
	x.running = make(chan struct{}) // never ends
	if _, _, err := x.weigh(t.Context()); !errors.Is(err, errStillWeighing) {
		t.Fatalf("nothing was ever weighed: %v", err)
	}
	if statusOf(errStillWeighing) != 503 {
		t.Error("it is not told as a moment's wait")
	}
	x.running = nil
	first, fresh, err := (&scales{store: store, now: time.Now, patience: time.Minute, firstPatience: time.Minute}).weigh(t.Context())
	if err != nil || !fresh {
		t.Fatalf("fresh %v, %v", fresh, err)
	}
	first.revision = -1
	x.last, x.running = first, make(chan struct{})
	if got, fresh, err := x.weigh(t.Context()); got != first || fresh || err != nil {
		t.Errorf("got %v, fresh %v, %v", got, fresh, err)
	}
}
