package main

import (
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// scanned prints the page, makes pictures of the pages of paper and reads the
// codes on them with a reader that is none of ours: each code once, where it was
// found at any of three resolutions, for a reader that is shown a whole page at
// once overlooks one now and then.
func (t *tab) scanned(tb testing.TB) (codes []string, pages int) {
	tb.Helper()
	for _, tool := range []string{"zbarimg", "pdftoppm"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("RIMWARD_BROWSER") == "must" {
				tb.Fatalf("%s is not installed, and this run must have it", tool)
			}
			tb.Skip(tool + " is not installed (apt-get install zbar-tools poppler-utils): nothing reads the labels back")
		}
	}
	yes := true
	b, err := chromedp.Call(t.ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &yes, PrintBackground: &yes})
	t.must(err)
	dir := tb.TempDir()
	t.must(os.WriteFile(filepath.Join(dir, "sheet.pdf"), b.Data, 0o644))
	for _, dots := range []string{"200", "300", "400"} {
		t.must(exec.CommandContext(t.ctx, "pdftoppm", "-r", dots, "-gray", "-png", filepath.Join(dir, "sheet.pdf"), filepath.Join(dir, "page"+dots)).Run())
	}
	pictures, err := filepath.Glob(filepath.Join(dir, "page*.png"))
	t.must(err)
	args := append([]string{"-q", "--raw", "-Sdisable", "-Sqrcode.enable"}, pictures...)
	out, err := exec.CommandContext(t.ctx, "zbarimg", args...).Output()
	t.must(err)
	codes = strings.Fields(string(out))
	slices.Sort(codes)
	return slices.Compact(codes), len(pictures) / 3
}

// Every code on a printed sheet reads back and names its candle, on every size of
// label and on both papers.
func TestPrintedLabelsReadBack(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), laptop)
	for _, c := range []struct {
		size, paper string
		pages       int // of 24 labels from the 5th place on
	}{{"38x21", "a4", 1}, {"25", "letter", 1}, {"63x38", "a4", 2}, {"63x38", "letter", 2}} {
		q := url.Values{"size": {c.size}, "paper": {c.paper}, "start": {"5"}, "base": {"http://192.168.1.20:7373"}}
		var want []string
		for i := 1; i <= 24; i++ {
			q.Add("of", fmt.Sprint("c", i))
			want = append(want, fmt.Sprint("http://192.168.1.20:7373/candles/", i))
		}
		slices.Sort(want)
		b.open("/labels?" + q.Encode())
		got, pages := b.scanned(t)
		if !slices.Equal(got, want) || pages != c.pages {
			t.Errorf("%s on %s: %d of %d codes read back, on %d pages", c.size, c.paper, len(got), len(want), pages)
		}
	}
}

// From a pour to its labels, and the code of one to its candle.
func TestALabelOpensItsCandle(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), laptop)
	b.open("/pours/1")
	b.click("Labels")
	b.see("Labels of pour 1")
	got, _ := b.scanned(t)
	if len(got) == 0 || !strings.HasPrefix(got[0], s.base()+"/candles/") {
		t.Fatalf("the codes hold %q", got)
	}
	b.open(strings.TrimPrefix(got[0], s.base()))
	b.see("Candle 1-")
}
