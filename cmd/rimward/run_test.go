package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/sqlite"
)

// within runs the program in this process, with a browser of the test's own.
func within(t *testing.T, ctx context.Context, browse func(string) error, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(ctx, args, surroundings{out: &o, err: &e, env: func(string) string { return "" }, now: time.Now, browse: browse, draw: rand.IntN})
	return code, o.String(), e.String()
}

func TestServeOpensTheBrowserAtItsAddress(t *testing.T) {
	t.Parallel()
	for name, fails := range map[string]error{"and goes on": nil, "and goes on without one": errors.New("no browser")} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
			defer cancel()
			var opened string
			code, out, errs := within(t, ctx, func(a string) error { opened = a; cancel(); return fails },
				"serve", "--addr", "127.0.0.1:0", "--data", t.TempDir())
			if code != 0 || !strings.Contains(out, "listening on "+opened+"\n") || opened == "" {
				t.Errorf("code %d, opened %q, said %q", code, opened, out)
			}
			if (fails != nil) != strings.Contains(errs, "open the address yourself") {
				t.Errorf("the browser's error is %v, said %q", fails, errs)
			}
		})
	}
}

func TestFlagsStandBeforeOrAfterTheFile(t *testing.T) {
	t.Parallel()
	for _, args := range [][]string{{"--data", "d", "file"}, {"file", "--data", "d"}, {"file", "--data=d"}, {"-data", "d", "--", "file"}} {
		fs := newFlags("backup")
		data := dataFlag(fs)
		rest, err := parse(fs, args, "the FILE")
		if err != nil || *data != "d" {
			t.Errorf("%v: data %q, %v", args, *data, err)
		}
		if d := cmp.Diff([]string{"file"}, rest); d != "" {
			t.Errorf("%v: %s", args, d)
		}
	}
}

// The XDG Base Directory Specification: $XDG_DATA_HOME, else
// $HOME/.local/share, and a relative path is to be ignored. The folders of
// macOS and Windows are those their makers document for a program's data (from
// memory).
func TestDataFolderFollowsTheSystem(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		system string
		env    map[string]string
		want   string
	}{
		{"linux", map[string]string{"HOME": "/h", "XDG_DATA_HOME": "/x"}, "/x/rimward"},
		{"linux", map[string]string{"HOME": "/h", "XDG_DATA_HOME": "x"}, "/h/.local/share/rimward"},
		{"freebsd", map[string]string{"HOME": "/h"}, "/h/.local/share/rimward"},
		{"darwin", map[string]string{"HOME": "/h", "XDG_DATA_HOME": "/x"}, "/h/Library/Application Support/Rimward"},
		{"windows", map[string]string{"HOME": "/h", "LocalAppData": "/l"}, "/l/Rimward"},
		{"linux", nil, ""}, {"windows", nil, ""}, {"darwin", nil, ""},
	} {
		got, err := dataFolder(c.system, func(n string) string { return c.env[n] })
		if got != filepath.FromSlash(c.want) || (err == nil) != (c.want != "") {
			t.Errorf("%s with %v: %q, %v; want %q", c.system, c.env, got, err, c.want)
		}
	}
}

func TestOpenerIsTheSystems(t *testing.T) {
	t.Parallel()
	for system, want := range map[string]string{"linux": "xdg-open", "darwin": "open", "windows": "rundll32"} {
		name, args := opener(system, "http://127.0.0.1:1")
		if name != want || args[len(args)-1] != "http://127.0.0.1:1" {
			t.Errorf("%s opens with %s %v", system, name, args)
		}
	}
}

// The blocks that are this machine's own are those of RFC 1122, 3.2.1.3 and
// RFC 4291, 2.5.3.
func TestOnlyLoopbackIsOurOwn(t *testing.T) {
	t.Parallel()
	for host, want := range map[string]bool{
		"127.0.0.1": true, "127.8.9.1": true, "::1": true, "localhost": true,
		"0.0.0.0": false, "::": false, "192.168.1.5": false, "bench.local": false, "": false,
	} {
		if isOwn(host) != want {
			t.Errorf("%q is our own: %t, want %t", host, !want, want)
		}
	}
}

func TestBrowserGoesToLoopbackWhenEveryAddressIsServed(t *testing.T) {
	t.Parallel()
	for addr, want := range map[string]string{"0.0.0.0:80": "127.0.0.1:80", "[::]:80": "127.0.0.1:80", "192.168.1.5:80": "192.168.1.5:80"} {
		if got := here(addr); got != want {
			t.Errorf("%s is opened as %s, want %s", addr, got, want)
		}
	}
}

func TestZoneHasANameThatCanBeLoadedAgain(t *testing.T) {
	t.Parallel()
	if got := localZone(func(string) string { return ":Pacific/Auckland" }).String(); got != "Pacific/Auckland" {
		t.Errorf("TZ names %s", got)
	}
	if _, err := time.LoadLocation(localZone(func(string) string { return "" }).String()); err != nil {
		t.Error(err)
	}
}

func TestDemoGoesOnWithTheMachinesClock(t *testing.T) {
	t.Parallel()
	ctx, now := context.Background(), time.Date(2026, 6, 17, 18, 7, 31, 0, time.UTC)
	around := surroundings{out: io.Discard, err: io.Discard, env: func(string) string { return "UTC" }, now: func() time.Time { return now }}
	store, err := fillDemo(ctx, filepath.Join(t.TempDir(), journalFile), 1, around)
	if err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	now = now.Add(3 * time.Hour)
	if err := store.Write(ctx, func(tx *sqlite.Tx) error {
		if !tx.Now().Equal(now) {
			t.Errorf("the journal's clock says %s, the machine's %s", tx.Now(), now)
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
}
