package server

import (
	"context"
	"reflect"
	"sync"
	"time"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/internal/standings"
)

// scales keeps what the whole journal says of what its series share, and has
// it worked out anew, in the background, when the record has changed. Saving
// never waits for it: it only reads.
type scales struct {
	store *sqlite.Store
	now   func() time.Time

	mu      sync.Mutex
	beliefs map[string][]float64
	desk    *standings.Desk
	last    *weighing
	running chan struct{} // closed when the weighing under way ends; nil when none is
}

// weighing is one answer of the scales.
type weighing struct {
	*standings.Weighed
	at       time.Time
	revision int64
	err      error
}

// How long a page waits for an answer that takes the newest records into
// account: longer while there is none at all.
const (
	patience      = 500 * time.Millisecond
	firstPatience = 20 * time.Second
)

// weigh returns the newest answer, and whether it takes everything into
// account that was saved when it was asked for.
func (x *scales) weigh(ctx context.Context) (w *weighing, fresh bool, err error) {
	revision, err := x.store.Revision(ctx)
	if err != nil {
		return nil, false, err
	}
	last, running := x.ask(ctx, revision)
	if running == nil {
		return last, true, nil
	}
	wait := patience
	if last == nil {
		wait = firstPatience
	}
	timer := time.NewTimer(wait)
	defer timer.Stop()
	select {
	case <-running:
	case <-timer.C:
	case <-ctx.Done():
		return nil, false, ctx.Err()
	}
	return x.answer(revision)
}

// ask starts a weighing when the last one is behind and none is under way.
func (x *scales) ask(ctx context.Context, revision int64) (*weighing, chan struct{}) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.last != nil && x.last.revision >= revision && x.last.err == nil {
		return x.last, nil
	}
	if x.running == nil {
		x.running = make(chan struct{})
		go x.run(context.WithoutCancel(ctx), x.running)
	}
	return x.last, x.running
}

// answer is what is known after waiting.
func (x *scales) answer(revision int64) (*weighing, bool, error) {
	x.mu.Lock()
	defer x.mu.Unlock()
	switch {
	case x.last == nil:
		return nil, false, errStillWeighing
	case x.last.Weighed == nil:
		return nil, false, x.last.err
	}
	return x.last, x.last.revision >= revision, nil
}

// run works the journal out once.
func (x *scales) run(ctx context.Context, done chan struct{}) {
	w := x.work(ctx)
	x.mu.Lock()
	defer x.mu.Unlock()
	if w.err != nil && x.last != nil {
		w.Weighed, w.at = x.last.Weighed, x.last.at
	}
	x.last, x.running = w, nil
	close(done)
}

func (x *scales) work(ctx context.Context) *weighing {
	w := &weighing{at: x.now()}
	if w.revision, w.err = x.store.Revision(ctx); w.err != nil {
		return w
	}
	set, err := x.store.Settings(ctx)
	if err != nil {
		return &weighing{err: err}
	}
	logs, err := x.store.Logs(ctx, journal.LogFilter{})
	if err != nil {
		return &weighing{err: err}
	}
	w.Weighed, w.err = x.deskFor(set.Beliefs).Weigh(ctx, standings.Stacks(logs, standingsOptions(set, nil)))
	return w
}

// deskFor is the desk for some beliefs: a new one when they were changed.
func (x *scales) deskFor(beliefs map[string][]float64) *standings.Desk {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.desk == nil || !reflect.DeepEqual(beliefs, x.beliefs) {
		x.desk, x.beliefs = standings.NewDesk(standings.PriorOf(beliefs)), beliefs
	}
	return x.desk
}

// standingsOptions are what the standings depend on among the settings.
func standingsOptions(set journal.Settings, shelf []journal.Wick) standings.Options {
	return standings.Options{Ruler: set.Ruler, Limits: safety.NewLimits(set.Limits), Units: set.Units, Apart: set.Apart, Shelf: shelf}
}
