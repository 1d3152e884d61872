package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"time"

	"rimward/internal/photo"
	"rimward/internal/server"
	"rimward/internal/sqlite"
)

var serveCommand = command{
	name: "serve", about: "serves your journal to the browser", do: serve,
	usage: `rimward serve [flags]

` + addrHelp + dataHelp + `
The journal is one file, journal.db, with its photos in the folder
journal.db.photos beside it. Stop with Ctrl-C.
`,
}

// serve opens the person's own journal and serves it until told to stop.
func serve(ctx context.Context, args []string, around surroundings) error {
	fs := newFlags("serve")
	at, data := placeFlags(fs), dataFlag(fs)
	if _, err := parse(fs, args); err != nil {
		return err
	}
	path, err := journalPath(*data, around.env)
	if err != nil {
		return err
	}
	l, err := at.listen(around) // first: a port in use leaves the disk alone
	if err != nil {
		return err
	}
	defer l.Close()
	if err := makeFolder(path); err != nil {
		return err
	}
	store, err := sqlite.Open(ctx, path, around.now)
	if err != nil {
		return err
	}
	fmt.Fprintf(around.out, "journal %s\n", path)
	photos := photo.At(photo.Beside(path))
	if err := photos.Tidy(); err != nil {
		fmt.Fprintln(around.err, "rimward:", err)
	}
	err = host(ctx, l, at, around, server.Options{Store: store, Photos: photos})
	return errors.Join(err, store.Close())
}

// patience is how long requests that are under way may take once the program
// is told to stop.
const patience = 5 * time.Second

// host serves a journal on an open socket until ctx ends.
func host(ctx context.Context, l net.Listener, at *place, around surroundings, opt server.Options) error {
	opt.Now, opt.Draw, opt.Version, opt.Hosts = around.now, around.draw, version(), at.hosts
	opt.Log = slog.New(slog.NewTextHandler(around.err, &slog.HandlerOptions{Level: slog.LevelWarn}))
	h, err := server.New(opt)
	if err != nil {
		return err
	}
	base, cancel := context.WithCancel(context.WithoutCancel(ctx))
	defer cancel()
	srv := httpServer(base, h, opt.Log)
	failed := make(chan error, 1)
	go func() { failed <- srv.Serve(l) }()
	announce(l, at, around)
	select {
	case err := <-failed:
		return fmt.Errorf("serve pages: %w", err)
	case <-ctx.Done():
	}
	cancel()
	return shut(srv)
}

// announce says where the pages are, and opens the browser there.
func announce(l net.Listener, at *place, around surroundings) {
	fmt.Fprintf(around.out, "listening on http://%s\n", l.Addr())
	if at.noOpen {
		return
	}
	if err := around.browse("http://" + here(l.Addr().String())); err != nil {
		fmt.Fprintln(around.err, "No browser could be opened; open the address yourself.")
	}
}

// httpServer sets limits for a journal on a laptop: a form is short and a page
// is quick.
func httpServer(base context.Context, h http.Handler, log *slog.Logger) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       30 * time.Second,
		WriteTimeout:      60 * time.Second,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    64 << 10,
		BaseContext:       func(net.Listener) context.Context { return base },
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
}

// shut lets requests that are under way finish, and cuts off the rest.
func shut(srv *http.Server) error {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	err := srv.Shutdown(ctx)
	if errors.Is(err, context.DeadlineExceeded) {
		err = srv.Close()
	}
	if err != nil {
		return fmt.Errorf("stop serving: %w", err)
	}
	return nil
}

// askHealth asks a running program whether it can read its journal.
func askHealth(ctx context.Context, addr string) error {
	ctx, cancel := context.WithTimeout(ctx, 3*time.Second)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+here(addr)+"/healthz", nil)
	if err != nil {
		return misused("“%s” is not an address. Write it as %s.", addr, defaultAddr)
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		return fmt.Errorf("nothing answers on %s: %w", addr, cause(err))
	}
	defer resp.Body.Close()
	if _, err := io.Copy(io.Discard, io.LimitReader(resp.Body, 1<<10)); err != nil {
		return fmt.Errorf("read answer: %w", err)
	}
	if resp.StatusCode != http.StatusOK {
		return fmt.Errorf("the program on %s answers %s", addr, resp.Status)
	}
	return nil
}
