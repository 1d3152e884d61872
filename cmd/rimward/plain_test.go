package main

import (
	"strings"

	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/chromedp"
)

// With scripts off the page cannot be asked by evaluating in it: what follows
// works on the document and by real clicks and keys alone.

// openPlain opens a page whose scripts are off.
func (t *tab) openPlain(path string) {
	t.tb.Helper()
	t.must(chromedp.Do(t.ctx, chromedp.Navigate(t.base+path), chromedp.WaitReady(chromedp.CSS("main"))))
}

// html is the document as it stands.
func (t *tab) html() string {
	t.tb.Helper()
	doc, err := chromedp.Call(t.ctx, dom.GetDocument, dom.GetDocumentParams{})
	t.must(err)
	out, err := chromedp.Call(t.ctx, dom.GetOuterHTML, dom.GetOuterHTMLParams{NodeID: doc.Root.NodeID})
	t.must(err)
	return out.OuterHTML
}

// seePlain fails when the document does not hold the words.
func (t *tab) seePlain(words ...string) {
	t.tb.Helper()
	html := strings.Join(strings.Fields(t.html()), " ")
	for _, w := range words {
		if !strings.Contains(html, w) {
			t.tb.Fatalf("the document never says %q", w)
		}
	}
}

// submitPlain fills fields by real keys and presses the form's button.
func (t *tab) submitPlain(form string, fields map[string]string) {
	t.tb.Helper()
	for name, text := range fields {
		sel := chromedp.CSS(form + ` [name="` + name + `"]`)
		t.must(chromedp.Do(t.ctx, chromedp.Clear(sel), chromedp.SendKeys(sel, text)))
	}
	_, err := chromedp.RunResponse(t.ctx, chromedp.Click(chromedp.CSS(form+` button[type=submit].main`)))
	t.must(err)
	t.must(chromedp.Do(t.ctx, chromedp.WaitReady(chromedp.CSS("main"))))
}

func containsAll(s string, words ...string) bool {
	for _, w := range words {
		if !strings.Contains(s, w) {
			return false
		}
	}
	return true
}
