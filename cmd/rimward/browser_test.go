package main

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// screen is what a journey is made on.
type screen struct {
	width, height int64
	mobile        bool
	night         bool
	noScript      bool
}

var (
	laptop = screen{width: 1440, height: 900}
	phone  = screen{width: 390, height: 844, mobile: true}
)

// chromium finds the browser. Without one a journey is skipped, saying so;
// where RIMWARD_BROWSER=must is set, as in continuous integration, its absence
// is an error.
func chromium(tb testing.TB) string {
	tb.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("RIMWARD_BROWSER") == "must" {
		tb.Fatal("no Chromium on this machine, and this run must have one")
	}
	tb.Skip("no Chromium on this machine: browser journeys are skipped")
	return ""
}

// newBrowser starts a browser for one test.
func newBrowser(tb testing.TB) context.Context {
	tb.Helper()
	path := chromium(tb)
	ctx, cancel := context.WithTimeout(context.Background(), 8*time.Minute)
	tb.Cleanup(cancel)
	alloc, stop := chromedp.NewExecAllocator(ctx,
		chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("disable-dev-shm-usage", true), chromedp.Flag("hide-scrollbars", true),
		chromedp.UserDataDir(tb.TempDir()))
	tb.Cleanup(stop)
	tab, done := chromedp.NewContext(alloc)
	tb.Cleanup(done)
	return tab
}

// tab is one page of a browser, with the few things that a person does.
type tab struct {
	tb   testing.TB
	ctx  context.Context
	base string
	keys int // pressed so far
}

// newTab opens a page of the given size on a server.
func newTab(tb testing.TB, base string, s screen) *tab {
	tb.Helper()
	t := &tab{tb: tb, ctx: newBrowser(tb), base: base}
	t.wear(s)
	return t
}

// wear gives the page another size or dress.
func (t *tab) wear(s screen) {
	t.tb.Helper()
	scheme := "light"
	if s.night {
		scheme = "dark"
	}
	_, err := chromedp.Call(t.ctx, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: s.width, Height: s.height, DeviceScaleFactor: 1, Mobile: s.mobile})
	t.must(err)
	_, err = chromedp.Call(t.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
	t.must(err)
	if s.noScript {
		// Pages have one script and no other (the security policy forbids it):
		// without it they are what a browser with scripts off shows, and the
		// test can still ask the page questions.
		_, err = chromedp.Call(t.ctx, network.SetBlockedURLs, network.SetBlockedURLsParams{
			URLPatterns: []*network.BlockPattern{{URLPattern: "*://*:*/static/*.js", Block: true}}})
		t.must(err)
	}
}

func (t *tab) must(err error) {
	t.tb.Helper()
	if err != nil {
		t.tb.Fatal(err)
	}
}

// open goes to an address of the server.
func (t *tab) open(path string) {
	t.tb.Helper()
	t.must(chromedp.Do(t.ctx, chromedp.Navigate(t.base+path)))
}

// js evaluates an expression in the page.
func js[T any](t *tab, expression string) T {
	t.tb.Helper()
	v, err := chromedp.Run(t.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		t.tb.Fatalf("%s: %v", expression, err)
	}
	return v
}

func quoted(s string) string { b, _ := json.Marshal(s); return string(b) }

// text is what the page says.
func (t *tab) text() string {
	t.tb.Helper()
	return js[string](t, `document.body.innerText`)
}

// see waits until the page says something.
func (t *tab) see(words ...string) {
	t.tb.Helper()
	for _, w := range words {
		if !t.says(w) {
			t.tb.Fatalf("the page at %s never said %q; it says:\n%s", t.path(), w, t.text())
		}
	}
}

// says reports whether the page comes to say something within a few seconds.
func (t *tab) says(w string) bool {
	t.tb.Helper()
	for end := time.Now().Add(8 * time.Second); time.Now().Before(end); time.Sleep(40 * time.Millisecond) {
		got, err := chromedp.Run(t.ctx, chromedp.Evaluate[string](`document.readyState === "complete" ? document.body.innerText : ""`))
		if err == nil && strings.Contains(strings.Join(strings.Fields(got), " "), w) {
			return true
		}
		if errors.Is(t.ctx.Err(), context.DeadlineExceeded) {
			return false
		}
	}
	return false
}

func (t *tab) path() string {
	t.tb.Helper()
	return js[string](t, `location.pathname + location.search`)
}

// field is the selector of a field by its name.
func field(name string) string { return `[name="` + name + `"]:not([type=hidden])` }

// fill types a text into a field, in place of what stood there.
func (t *tab) fill(name, text string) {
	t.tb.Helper()
	t.must(chromedp.Do(t.ctx, chromedp.WaitReady(chromedp.CSS(field(name)))))
	js[bool](t, `(() => { const e = document.querySelector(`+quoted(field(name))+`); e.focus(); if (e.select) e.select(); return true })()`)
	kind := js[string](t, `document.querySelector(`+quoted(field(name))+`).type`)
	if kind == "date" || kind == "time" || text == "" {
		t.put(name, text)
		return
	}
	t.must(chromedp.Do(t.ctx, chromedp.KeyEvent(text)))
}

// put sets a field's value without typing it.
func (t *tab) put(name, value string) {
	t.tb.Helper()
	js[bool](t, `(() => { const e = document.querySelector(`+quoted(field(name))+`); e.value = `+quoted(value)+`; e.dispatchEvent(new Event("input", {bubbles: true})); e.dispatchEvent(new Event("change", {bubbles: true})); return true })()`)
}

// choose picks the option of a select by its text.
func (t *tab) choose(name, text string) {
	t.tb.Helper()
	ok := js[bool](t, `(() => { const e = document.querySelector(`+quoted(field(name))+`); for (const o of e.options) if (o.text.trim() === `+quoted(text)+`) { e.value = o.value; e.dispatchEvent(new Event("change", {bubbles: true})); return true } return false })()`)
	if !ok {
		t.tb.Fatalf("%s has no option %q", name, text)
	}
}

// value is what stands in a field.
func (t *tab) value(name string) string {
	t.tb.Helper()
	return js[string](t, `document.querySelector(`+quoted(field(name))+`).value`)
}

// press presses keys, and counts them.
func (t *tab) press(keys ...string) {
	t.tb.Helper()
	for _, k := range keys {
		t.keys++
		if k == enterKey {
			t.enter()
			continue
		}
		t.must(chromedp.Do(t.ctx, chromedp.KeyEvent(k)))
	}
}

// enter presses Enter as a keyboard does: what the page does with the key going
// down decides whether anything else comes of it.
func (t *tab) enter() {
	t.tb.Helper()
	for _, kind := range []input.DispatchKeyEventType{input.DispatchKeyEventTypeKeyDown, input.DispatchKeyEventTypeKeyUp} {
		p := input.DispatchKeyEventParams{Type: kind, Key: "Enter", Code: "Enter", WindowsVirtualKeyCode: 13, NativeVirtualKeyCode: 13}
		if kind == input.DispatchKeyEventTypeKeyDown {
			p.Text, p.UnmodifiedText = "\r", "\r"
		}
		_, err := chromedp.Call(t.ctx, input.DispatchKeyEvent, p)
		t.must(err)
	}
}

// write types figures into the field that has the focus; they are not counted
// as key presses, since the numbers themselves must be typed in any case.
func (t *tab) write(text string) {
	t.tb.Helper()
	t.must(chromedp.Do(t.ctx, chromedp.KeyEvent(text)))
}

const (
	tabKey   = kb.Tab
	enterKey = kb.Enter
	spaceKey = " "
)

// focused is the name of the field that has the focus.
func (t *tab) focused() string {
	t.tb.Helper()
	return js[string](t, `document.activeElement ? (document.activeElement.name || document.activeElement.textContent || "") : ""`)
}

// click clicks the first link or button that says exactly this, and waits for
// the next page.
func (t *tab) click(text string) {
	t.tb.Helper()
	find := `[...document.querySelectorAll("main a, main button, header a, footer a")].find(e => e.textContent.trim() === ` + quoted(text) + `)`
	if !js[bool](t, `!!(`+find+`)`) {
		t.tb.Fatalf("nothing to click says %q at %s; the page says:\n%s", text, t.path(), t.text())
	}
	t.leaving(func() { js[bool](t, `(`+find+`.click(), true)`) })
}

// leaving does something and waits until another page has loaded.
func (t *tab) leaving(do func()) {
	t.tb.Helper()
	js[bool](t, `(window.rimwardOld = true)`)
	do()
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(25 * time.Millisecond) {
		fresh, err := chromedp.Run(t.ctx, chromedp.Evaluate[bool](`!window.rimwardOld && document.readyState === "complete"`))
		if err == nil && fresh {
			return
		}
	}
	t.tb.Fatalf("no other page came after %s", t.path())
}
