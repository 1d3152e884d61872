package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"rimward/internal/demo"
	"rimward/internal/journal"
	"rimward/internal/photo"
	"rimward/internal/server"
	"rimward/internal/sqlite"
)

var demoCommand = command{
	name: "demo", about: "shows a made-up season in a studio that does not exist", do: showDemo,
	usage: `rimward demo [flags]

` + addrHelp + `  --seed N          another season (default 1); the same number gives the same one

The season is a simulation with drawn photos, kept in a folder of its own that
is removed at the end. Your own journal is not touched. Stop with Ctrl-C.
`,
}

// showDemo serves a season in a folder that is removed at the end.
func showDemo(ctx context.Context, args []string, around surroundings) (err error) {
	fs := newFlags("demo")
	at, seed := placeFlags(fs), fs.Uint64("seed", 1, "")
	if _, err := parse(fs, args); err != nil {
		return err
	}
	l, err := at.listen(around)
	if err != nil {
		return err
	}
	defer l.Close()
	folder, err := os.MkdirTemp("", "rimward-demo-")
	if err != nil {
		return fmt.Errorf("make folder: %w", err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(folder)) }()
	path := filepath.Join(folder, journalFile)
	store, err := fillDemo(ctx, path, *seed, around)
	if err != nil {
		return err
	}
	err = host(ctx, l, at, around, server.Options{Store: store, Photos: photo.At(photo.Beside(path)), Demo: true})
	return errors.Join(err, store.Close())
}

// fillDemo makes a journal and writes a season into it, each event at the
// moment it is said to have happened.
func fillDemo(ctx context.Context, path string, seed uint64, around surroundings) (*sqlite.Store, error) {
	clock := around.now
	store, err := sqlite.Open(ctx, path, func() time.Time { return clock() })
	if err != nil {
		return nil, err
	}
	season := demo.NewSeason(seed, around.now(), localZone(around.env))
	drawing, stop := context.WithCancel(ctx)
	defer stop()
	photos := season.Photos()
	err = season.FillWith(
		func(do func(demo.Writer) error) error {
			return store.Write(ctx, func(tx *sqlite.Tx) error { return do(tx) })
		},
		func(t time.Time) { clock = func() time.Time { return t } },
		newAlbum(drawing, photo.At(photo.Beside(path)), photos).keep,
		func(v journal.Verdict) error { return judge(ctx, store, v, clock()) })
	if err == nil {
		err = weighSheets(ctx, store, func(t time.Time) { clock = func() time.Time { return t } }, around.now())
	}
	clock = around.now
	if err != nil {
		return nil, errors.Join(err, store.Close())
	}
	candles, burns, checks := season.Counts()
	fmt.Fprintf(around.out, "A made-up season, seed %d: %d candles, %d burns, %d checks and %d photos. Nothing in it was measured, and the photos are drawn.\n", seed, candles, burns, checks, len(photos))
	return store, nil
}
