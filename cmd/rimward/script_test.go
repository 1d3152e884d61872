package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"rimward": main})
}

// TestScripts runs the program as a person would, by the scripts in
// testdata/script. Beside the usual commands a script may say:
//
//	start ARGS…          start rimward and wait until it listens at $ADDR
//	halt interrupt|term  send it the signal; it must end with 0, leaving out.txt and err.txt
//	fetch PATH STATUS    get a page into body.txt, with $HOST as its Host if set
//	locate NAME PATTERN  set a variable to the one path that matches
//	spoil FILE           overwrite part of a file's middle
//	age FILE             let a journal claim to come from a later program
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("HOME", filepath.Join(e.WorkDir, "home"))
			e.Setenv("TMPDIR", filepath.Join(e.WorkDir, "tmp"))
			return os.Mkdir(filepath.Join(e.WorkDir, "tmp"), 0o700)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"start": start, "halt": halt, "fetch": fetch, "locate": locate, "spoil": spoil, "age": age,
		},
	})
}

// started is a rimward that runs in the background of a script.
type started struct {
	cmd *exec.Cmd
	out bytes.Buffer // complete once done is closed
	err bytes.Buffer
	end error
	did chan struct{}
}

var running sync.Map // script to *started

func start(ts *testscript.TestScript, neg bool, args []string) {
	s := &started{cmd: exec.Command("rimward", args...), did: make(chan struct{})}
	path, err := exec.LookPath("rimward")
	ts.Check(err)
	s.cmd.Path, s.cmd.Dir = path, ts.MkAbs(".")
	for _, name := range []string{"HOME", "TMPDIR", "PATH", "TZ"} {
		s.cmd.Env = append(s.cmd.Env, name+"="+ts.Getenv(name))
	}
	s.cmd.Stderr = &s.err
	pipe, err := s.cmd.StdoutPipe()
	ts.Check(err)
	ts.Check(s.cmd.Start())
	addr := make(chan string, 1)
	go s.follow(pipe, addr)
	running.Store(ts, s)
	ts.Defer(func() { _ = s.cmd.Process.Kill() })
	select {
	case a := <-addr:
		ts.Setenv("ADDR", a)
	case <-s.did:
		ts.Fatalf("rimward ended before it listened: %v\n%s", s.end, s.err.String())
	case <-time.After(time.Minute):
		ts.Fatalf("rimward does not listen")
	}
}

// follow reads what the program says until it ends.
func (s *started) follow(pipe io.Reader, addr chan<- string) {
	lines := bufio.NewScanner(pipe)
	for lines.Scan() {
		fmt.Fprintln(&s.out, lines.Text())
		if a, ok := strings.CutPrefix(lines.Text(), "listening on http://"); ok {
			addr <- a
		}
	}
	s.end = s.cmd.Wait()
	close(s.did)
}

func halt(ts *testscript.TestScript, neg bool, args []string) {
	v, ok := running.LoadAndDelete(ts)
	if !ok {
		ts.Fatalf("nothing was started")
	}
	s := v.(*started)
	signal := map[string]os.Signal{"interrupt": os.Interrupt, "term": syscall.SIGTERM}[args[0]]
	ts.Check(s.cmd.Process.Signal(signal))
	select {
	case <-s.did:
	case <-time.After(10 * time.Second):
		ts.Fatalf("rimward does not stop")
	}
	ts.Check(os.WriteFile(ts.MkAbs("out.txt"), s.out.Bytes(), 0o600))
	ts.Check(os.WriteFile(ts.MkAbs("err.txt"), s.err.Bytes(), 0o600))
	if s.end != nil {
		ts.Fatalf("rimward ends with %v\n%s", s.end, s.err.String())
	}
}

func fetch(ts *testscript.TestScript, neg bool, args []string) {
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+here(ts.Getenv("ADDR"))+args[0], nil)
	ts.Check(err)
	req.Host = ts.Getenv("HOST")
	resp, err := http.DefaultClient.Do(req)
	ts.Check(err)
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs("body.txt"), body, 0o600))
	if got := fmt.Sprint(resp.StatusCode); got != args[1] {
		ts.Fatalf("%s answers %s, want %s", args[0], got, args[1])
	}
}

func locate(ts *testscript.TestScript, neg bool, args []string) {
	found, err := filepath.Glob(ts.MkAbs(args[1]))
	ts.Check(err)
	if len(found) != 1 {
		ts.Fatalf("%d paths match %s", len(found), args[1])
	}
	ts.Setenv(args[0], found[0])
}

func spoil(ts *testscript.TestScript, neg bool, args []string) {
	b, err := os.ReadFile(ts.MkAbs(args[0]))
	ts.Check(err)
	copy(b[len(b)/2:], bytes.Repeat([]byte{0xa5}, 8000))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b, 0o600))
}

// age writes into the user version of the header, at byte 60 ("The Database
// Header" in SQLite's file format document).
func age(ts *testscript.TestScript, neg bool, args []string) {
	b, err := os.ReadFile(ts.MkAbs(args[0]))
	ts.Check(err)
	copy(b[60:64], []byte{0, 0, 0x27, 0x0f})
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b, 0o600))
}
