package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// shot keeps a picture of the whole page where RIMWARD_SHOTS names a folder.
func (t *tab) shot(name string) {
	t.tb.Helper()
	dir := os.Getenv("RIMWARD_SHOTS")
	if dir == "" {
		return
	}
	t.must(os.MkdirAll(dir, 0o755))
	png, err := chromedp.Run(t.ctx, chromedp.FullScreenshot(100))
	t.must(err)
	t.must(os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644))
}

// pdf prints the page where RIMWARD_SHOTS names a folder.
func (t *tab) pdf(name string) {
	t.tb.Helper()
	dir := os.Getenv("RIMWARD_SHOTS")
	if dir == "" {
		return
	}
	yes := true
	b, err := chromedp.Call(t.ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &yes, PrintBackground: &yes})
	t.must(err)
	t.must(os.WriteFile(filepath.Join(dir, name+".pdf"), b.Data, 0o644))
}

// overflows names what sticks out of the page to the right.
func (t *tab) overflows() string {
	t.tb.Helper()
	return js[string](t, `(() => { const w = document.documentElement.clientWidth; if (document.documentElement.scrollWidth <= w) return "";
		return [...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > w + 1 && !e.closest(".scroll,.strip")).slice(0, 5).map(e => e.tagName + "." + e.className).join(", ") || "something" })()`)
}

// axe runs axe-core on the page and lists what it finds.
func (t *tab) axe(script string) []string {
	t.tb.Helper()
	js[bool](t, script+";true")
	raw := js[string](t, `axe.run(document, {resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations.map(v => v.id + ": " + v.help + " — " + v.nodes.slice(0, 3).map(n => n.target.join(" ") + " " + (n.failureSummary || "").split("\n").slice(1, 2).join("")).join(" | "))))`)
	var found []string
	t.must(json.Unmarshal([]byte(raw), &found))
	return found
}

// axeScript reads axe-core where .ci/run has put it; without it the test is
// skipped, saying so.
func axeScript(tb testing.TB) string {
	tb.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", ".cache", "axe.min.js"))
	if err == nil {
		return string(b)
	}
	if os.Getenv("RIMWARD_BROWSER") == "must" {
		tb.Fatal("no axe-core in .cache, and this run must have it")
	}
	tb.Skip("no axe-core in .cache: pages are not looked at for accessibility")
	return ""
}
