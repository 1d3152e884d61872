package main

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
)

// pick chooses a number for a cup as a thumb does: on the words around it.
func (t *tab) pick(code, n string) {
	t.tb.Helper()
	ok := js[bool](t, `(() => { const e = document.querySelector('input[name="k`+code+`.score"][value="`+n+`"]'); if (!e) return false; e.closest("label").click(); return e.checked })()`)
	if !ok {
		t.tb.Fatalf("%s takes no %s", code, n)
	}
}

// covered names anything by which a candle of the studio could be known.
var covered = regexp.MustCompile(`\b1-[A-C]\b|/candles/\d|Larkspur|Pebble`)

// Two noses smell three lit candles blind, on a phone that is handed round; then
// the codes are uncovered and the result is read.
func TestJourneyBlindSmelling(t *testing.T) {
	s := emptyStudio(t)
	s.lit(2*time.Hour, s.shelved(3)...)
	b := newTab(t, s.base(), phone)
	b.open("/candles")
	b.click("Throw: how they smell")
	b.see("Nothing was smelled yet")
	b.click("New smelling")
	b.see("Tick the candles to smell")
	if got := b.value("c1.minutes"); got != "120" {
		t.Errorf("the minutes lit are %q", got)
	}
	js[bool](b, `(() => { document.querySelector('input[name=how][value=blind]').click(); for (const i of [1,2,3]) document.querySelector('input[name="c'+i+'.pick"]').click(); return true })()`)
	b.fill("room", "4 x 3 x 2.5 m")
	b.click("Begin")
	b.see("under codes", "Judge on entering")
	l := smellingOf(t, s)
	// Each nose feels 1-A weakest and 1-C strongest.
	felt := map[string][]string{"Mara": {"1", "3", "4"}, "T. O.": {"2", "3", "5"}}
	for _, nose := range []string{"Mara", "T. O."} {
		if html := js[string](b, `document.documentElement.outerHTML`); covered.MatchString(html) {
			t.Errorf("the sheet tells %q", covered.FindString(html))
		}
		b.shot("throw-sheet")
		b.fill("nose", nose)
		for _, c := range l.Cups {
			b.pick(c.Cup.Code, felt[nose][c.Cup.Candle-1])
		}
		b.click("Save this nose")
		b.see("Saved for " + nose)
	}
	if out := b.overflows(); out != "" {
		t.Errorf("%s sticks out", out)
	}
	b.click("Uncover the codes")
	b.see("Two noses have scored so far")
	b.click("Uncover them")
	b.see("The codes are uncovered", "no more agreement than chance would give (W 1, p 0.14)", "Indicative only: 2 judgements", "no new nose would be blind")
	text := strings.Join(strings.Fields(b.text()), " ")
	if a, c := strings.Index(text, "1-A as"), strings.Index(text, "1-C as"); a < 0 || c < 0 || c > a {
		t.Errorf("the strongest does not stand first: %s", text)
	}
	b.shot("throw-result")
	b.open("/candles/3")
	b.see("Hot throw, smelled", "2 scores by 2 noses in 1 smelling", "120 min lit")
}

// smellingOf is the studio's first smelling.
func smellingOf(t *testing.T, s *studio) journal.SmellingLog {
	t.Helper()
	l, err := s.store.SmellingLog(t.Context(), 1)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// The timer of a rest starts by hand, counts down and stops nobody.
func TestJourneyANoseRests(t *testing.T) {
	s := emptyStudio(t)
	s.lit(time.Hour, s.shelved(5)...)
	b := newTab(t, s.base(), phone)
	b.open("/throw/new")
	js[bool](b, `(() => { for (const i of [1,2,3,4,5]) document.querySelector('input[name="c'+i+'.pick"]').click(); return true })()`)
	b.click("Begin")
	b.see("Step out and rest your nose", "Rest for 3 min")
	js[bool](b, `(document.querySelector("[data-rest-start]").click(), true)`)
	b.see("left")
	b.fill("nose", "Jo")
	for _, c := range smellingOf(t, s).Cups {
		b.pick(c.Cup.Code, "3")
	}
	b.click("Save this nose")
	b.see("Saved for Jo")
	b.open("/throw/new")
	b.wear(screen{width: 390, height: 844, mobile: true, noScript: true})
	b.open("/throw/1")
	b.see("Step out and rest your nose")
	if strings.Contains(b.text(), "Rest for 3 min") {
		t.Error("without script the timer shows a button that does nothing")
	}
}
