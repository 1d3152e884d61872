// Command rimward keeps the test-burn journal of a small candle studio: it
// serves the journal's pages to a browser on the same machine, shows a made-up
// season, copies the journal and looks it over. It refuses to be reached from
// other machines unless it is told to, and sends nothing anywhere.
package main

import (
	"context"
	"math/rand/v2"
	"os"
	"os/signal"
	"syscall"
	"time"
	_ "time/tzdata" // zones for machines that keep none
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	os.Exit(run(ctx, os.Args[1:], surroundings{
		in: os.Stdin, out: os.Stdout, err: os.Stderr, env: os.Getenv, now: time.Now, browse: browse, draw: rand.IntN,
	}))
}
