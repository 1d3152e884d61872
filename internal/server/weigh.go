package server

import (
	"context"
	"fmt"
	"log/slog"
	"maps"
	"reflect"
	"slices"
	"sync"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/internal/standings"
)

// scales keeps what the whole journal says of what its series share, and has
// it worked out anew, in the background, when the record has changed. Saving
// never waits for it: it only reads.
type scales struct {
	store                   *sqlite.Store
	now                     func() time.Time
	log                     *slog.Logger
	patience, firstPatience time.Duration // how long a page waits for an answer, and for the first one

	mu      sync.Mutex
	last    *weighing
	running chan struct{} // closed when the weighing under way ends; nil when none is

	// What follows belongs to the weighing under way.
	set  journal.Settings
	desk *standings.Desk
	all  map[journal.ID]standings.Digest // every candle that counts
}

// weighing is one answer of the scales. It does not change.
type weighing struct {
	*standings.Weighed
	stacks   []*standings.Stack
	at       time.Time
	revision int64
	err      error
}

// newScales are scales with the usual patience: longer while there is no
// answer at all.
func newScales(store *sqlite.Store, now func() time.Time, log *slog.Logger) *scales {
	return &scales{store: store, now: now, log: log, patience: 500 * time.Millisecond, firstPatience: 20 * time.Second}
}

// weigh returns the newest answer, and whether it takes everything into
// account that was saved when it was asked for. It waits for that as long as
// its patience lasts.
func (x *scales) weigh(ctx context.Context) (w *weighing, fresh bool, err error) {
	revision, err := x.store.Revision(ctx)
	if err != nil {
		return nil, false, err
	}
	timer := time.NewTimer(x.wait())
	defer timer.Stop()
	for range mostTries {
		last, running := x.ask(ctx, revision)
		if running == nil {
			return last, true, nil
		}
		select {
		case <-running:
			continue
		case <-timer.C:
		case <-ctx.Done():
			return nil, false, ctx.Err()
		}
		break
	}
	return x.answer(revision)
}

// answer is what is known when the waiting is over.
func (x *scales) answer(revision int64) (*weighing, bool, error) {
	x.mu.Lock()
	defer x.mu.Unlock()
	switch {
	case x.last == nil:
		return nil, false, errStillWeighing
	case x.last.Weighed == nil:
		return nil, false, x.last.err
	}
	return x.last, x.last.revision >= revision && x.last.err == nil, nil
}

// mostTries is how many weighings a page waits for: the one under way may have
// begun before what was saved last, the next has not.
const mostTries = 2

// wait is how long a page waits: longer while there is no answer at all.
func (x *scales) wait() time.Duration {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.last == nil || x.last.Weighed == nil {
		return x.firstPatience
	}
	return x.patience
}

// ask starts a weighing when the last one is behind and none is under way.
// running is nil when the last one is not behind.
func (x *scales) ask(ctx context.Context, revision int64) (last *weighing, running chan struct{}) {
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

// run works the journal out once. What goes wrong is logged, and what was
// known stays.
func (x *scales) run(ctx context.Context, done chan struct{}) {
	w := x.try(ctx)
	x.mu.Lock()
	defer x.mu.Unlock()
	if w.err != nil {
		x.log.Error("weighing failed", "err", w.err)
		x.all = nil // gathered anew the next time
		if x.last != nil {
			w = &weighing{x.last.Weighed, x.last.stacks, x.last.at, x.last.revision, w.err}
		}
	}
	x.last, x.running = w, nil
	close(done)
}

// try is work with a panic turned into an error: it runs beside the requests,
// where nobody else would catch it.
func (x *scales) try(ctx context.Context) (w *weighing) {
	defer func() {
		if p := recover(); p != nil {
			w = &weighing{err: fmt.Errorf("weigh the journal: %v", p)}
		}
	}()
	return x.work(ctx)
}

// work brings what is known of the candles up to date and weighs them.
func (x *scales) work(ctx context.Context) *weighing {
	w := &weighing{at: x.now()}
	changes, err := x.gather(ctx)
	if err != nil {
		return &weighing{err: err}
	}
	shelf, err := x.store.Wicks(ctx)
	if err != nil {
		return &weighing{err: err}
	}
	w.revision = changes.Revision
	w.stacks = standings.Stacks(slices.Collect(maps.Values(x.all)), standings.OptionsOf(x.set, shelf))
	w.Weighed, w.err = x.desk.Weigh(ctx, w.stacks)
	return w
}

// gather reads the candles that changed since the last weighing; all of them
// at first, and when the settings were changed.
func (x *scales) gather(ctx context.Context) (sqlite.Changes, error) {
	since := int64(0)
	if x.last != nil {
		since = x.last.revision
	}
	changes, err := x.store.Changed(ctx, since)
	if err != nil {
		return changes, err
	}
	logs, err := x.logs(ctx, changes)
	if err != nil {
		return changes, err
	}
	for _, id := range changes.Candles {
		delete(x.all, id)
	}
	for _, l := range logs {
		if d, ok := standings.NewDigest(l, standings.OptionsOf(x.set, nil)); ok {
			x.all[d.Candle()] = d
		}
	}
	return changes, nil
}

// logs reads what changed; everything, where nothing can be taken over.
func (x *scales) logs(ctx context.Context, changes sqlite.Changes) ([]journal.CandleLog, error) {
	if !changes.All && x.all != nil {
		return x.store.LogsOf(ctx, changes.Candles)
	}
	if err := x.begin(ctx); err != nil {
		return nil, err
	}
	return x.store.Logs(ctx)
}

// begin starts from nothing, with the settings as they are. The desk is kept
// as long as the beliefs are the same.
func (x *scales) begin(ctx context.Context) error {
	set, err := x.store.Settings(ctx)
	if err != nil {
		return err
	}
	if x.desk == nil || !reflect.DeepEqual(set.Beliefs, x.set.Beliefs) {
		x.desk = standings.NewDesk(standings.PriorOf(set.Beliefs))
	}
	x.set, x.all = set, map[journal.ID]standings.Digest{}
	return nil
}
