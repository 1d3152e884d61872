package main

import (
	"errors"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// sixInPebble is a pairing of the demo of which nothing that is recorded is
// missing.
const sixInPebble = "vessel=1&wax=1&series=1.1.1-8000&wick=4"

// A pairing is accepted: the list of what is missing, a reason that was left
// out, a claim that is asked about, the verdict, and its sheet on one page.
func TestJourneyVerdict(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), laptop)
	b.open("/standings/pairing?" + sixInPebble)
	b.see("No verdict yet.", "Wanted before accepting", "Not ticked yet", "Two things are missing.")
	b.shot("verdict-1-pairing")
	b.click("Write a verdict")
	b.see("A verdict on Larkspur 6 in Pebble tumbler", "4 candles", "at most")
	js[bool](b, `(document.querySelector("[name=ruling][value=accepted]").click(), document.querySelector("[name=tip_test]").click(), true)`)
	b.fill("decided_by", "Tilda")
	b.fill("claimed_hours", "40")
	b.click("Save the verdict")
	b.see("Write why you accept it all the same.")
	if got := b.value("claimed_hours") + "|" + b.value("decided_by"); got != "40|Tilda" {
		t.Errorf("the form came back with %q", got)
	}
	b.fill("why", "Seven is sold out until spring, and six was full in time in four candles.")
	b.click("Save the verdict")
	b.see("Unusual, so we ask once", "2nd of 5", "nine candles in ten")
	b.fill("claimed_hours", "26")
	b.click("Save the verdict")
	b.see("The verdict is saved", "Larkspur 6 in Pebble tumbler", "Nothing has moved since.", "Tilda")
	b.click("Spec sheet")
	b.see("Larkspur 6 in Pebble tumbler", "Accepted", "26 h", "no certificate")
	if strings.Contains(b.text(), "draft") {
		t.Error("the sheet of an accepted pairing calls itself a draft")
	}
	b.shot("verdict-2-sheet")
	b.onOnePage(t)
	b.open("/standings")
	b.see("accepted", "The verdict: accepted")
	b.open("/verdicts")
	b.see("Seven is sold out", "more candles were burned since.")
}

// The sheet keeps to one page when everything on it is as long as it may be.
func TestTheFullestSheetIsOnePage(t *testing.T) {
	s := demoStudio(t)
	err := s.store.Write(t.Context(), func(tx *sqlite.Tx) error {
		x, err := s.store.Verdict(t.Context(), 1)
		if err != nil {
			return err
		}
		x.Meta, x.By, x.Why = journal.Meta{}, strings.Repeat("n", 120), strings.Repeat("because it was so ", 40)
		x.ClaimedHours = x.Figures.Label.Bound
		h := x.Figures.Label.Mean
		x.ClaimedHours, x.Figures.Label.Bound, x.Figures.Revision = &h, &h, 1<<40
		for range 5 { // the most that package life says at once, each as long as all but one of them
			x.Figures.Label.Doubts = append(x.Figures.Label.Doubts, strings.Repeat("Some were burned lower than the last burn, and ", 2)+"it matters a lot. Settle it.")
		}
		x.Ruling = journal.Rejected
		for range 12 {
			x.Figures.Hard = append(x.Figures.Hard, strings.Repeat("The flame stands far too high. ", 6))
			x.Figures.Faults = append(x.Figures.Faults, journal.FaultCount{Name: "full before half the target hour", Burns: 10, Of: 30})
		}
		vessel, err := s.store.Vessel(t.Context(), 1)
		if err != nil {
			return err
		}
		vessel.Name = strings.Repeat("Pebble tumbler ", 8)
		vessel.WallLimit, vessel.FlameLimit = new(quantity.Celsius(70)), new(quantity.Millimetres(60))
		return errors.Join(tx.SaveVessel(&vessel), tx.SaveVerdict(&x))
	})
	if err != nil {
		t.Fatal(err)
	}
	b := newTab(t, s.base(), laptop)
	b.open("/verdicts/3/sheet")
	b.see("and ten others")
	b.pdf("verdict-fullest")
	b.onOnePage(t)
}

var pdfPage = regexp.MustCompile(`/Type\s*/Page[^s]`)

// onOnePage prints the page on A4 and on Letter and counts.
func (t *tab) onOnePage(tb testing.TB) {
	tb.Helper()
	for name, size := range map[string][2]float64{"A4": {8.27, 11.69}, "Letter": {8.5, 11}} {
		for _, yes := range []bool{true, false} {
			b, err := chromedp.Call(t.ctx, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: size[0], PaperHeight: size[1], PreferCSSPageSize: &yes})
			t.must(err)
			if n := len(pdfPage.FindAll(b.Data, -1)); n != 1 {
				tb.Errorf("%s takes %d pages of %s (by the stylesheet's size: %v)", t.path(), n, name, yes)
			}
		}
	}
}

// The demo decides on the figures of the evening in question, and accepts
// nothing that a hard finding stands against, whatever the season's luck.
func TestTheDemoDecidesAsThePagesDo(t *testing.T) {
	s := demoStudio(t)
	list, err := s.store.Verdicts(t.Context())
	if err != nil || len(list) != 2 {
		t.Fatalf("%d verdicts, %v", len(list), err)
	}
	rejected, accepted := list[0], list[1]
	if f := accepted.Figures; accepted.Ruling != journal.Accepted || f.Telling != 2 || len(f.Hard) > 0 || len(f.Missing) != 1 || !f.At.Equal(accepted.At) || f.At.After(s.now().AddDate(0, 0, -33)) {
		t.Errorf("accepted on %+v", f)
	}
	if f := rejected.Figures; rejected.Ruling != journal.Rejected || len(f.Hard) == 0 {
		t.Errorf("rejected on %+v", f)
	}
	again := rejected
	again.Ruling = journal.Accepted
	if err := judge(t.Context(), s.store, again, s.now()); err != nil {
		t.Fatal(err)
	}
	if list, err = s.store.Verdicts(t.Context()); err != nil || len(list) != 3 || list[0].Ruling != journal.LeftOpen {
		t.Errorf("accepted over a hard finding: %+v, %v", list[0].Ruling, err)
	}
	again.Wicks = 5
	if err := judge(t.Context(), s.store, again, s.now()); !errors.Is(err, journal.ErrNotFound) {
		t.Errorf("a pairing that is not there: %v", err)
	}
}
