package tree

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// share has n pieces of work done side by side, by as many workers as there
// are processors, each with paper of its own.
func (d *Desk) share(ctx context.Context, n int, kept burnShelf, do func(*worker, int)) error {
	return shareOut(ctx, n, func() *worker { return d.m.newWorker(kept) }, do)
}

func shareOut(ctx context.Context, n int, paper func() *worker, do func(*worker, int)) error {
	var next atomic.Int64
	var group sync.WaitGroup
	var broke atomic.Pointer[any]
	for range min(n, runtime.GOMAXPROCS(0)) {
		group.Go(func() {
			defer func() {
				if p := recover(); p != nil {
					broke.Store(&p)
				}
			}()
			w := paper()
			defer w.done()
			for i := int(next.Add(1)) - 1; i < n && ctx.Err() == nil; i = int(next.Add(1)) - 1 {
				do(w, i)
			}
		})
	}
	group.Wait()
	if p := broke.Load(); p != nil {
		panic(*p) // where the caller can catch it
	}
	return ctx.Err()
}
