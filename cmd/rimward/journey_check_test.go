package main

import (
	"context"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
)

// A check that cannot be keeps what was typed; one that is unlikely is asked
// about once and then believed.
func TestJourneyRejectedCheck(t *testing.T) {
	s := emptyStudio(t)
	cs := s.shelved(1)
	burns := s.lit(time.Hour, cs[0])
	b := newTab(t, s.base(), phone)
	b.open("/candles/1/check")
	b.fill("width_a", "97")
	b.fill("width_b", "abc")
	b.fill("note", "smells of smoke")
	b.click("Save the check")
	b.see("Not saved yet", "Write a length such as")
	if got := b.value("width_a") + "|" + b.value("width_b") + "|" + b.value("note"); got != "97|abc|smells of smoke" {
		t.Errorf("what was typed came back as %q", got)
	}
	b.fill("width_b", "")
	b.click("Save the check")
	b.see("Wider than the inside of the vessel")
	b.shot("check-refused")
	b.fill("width_a", "2.5")
	b.click("Save the check")
	b.see("Inches typed as millimetres?")
	b.fill("width_a", "48")
	b.click("Save the check")
	b.see("Check of 1-A saved")
	checks := checksOf(t, s, burns[0].ID)
	if len(checks) != 1 || *checks[0].WidthA != 48 || checks[0].Note != "smells of smoke" {
		t.Errorf("the journal has %+v", checks)
	}
	s.later(time.Hour)
	b.open("/candles/1/check")
	b.fill("width_a", "40")
	b.click("Save the check")
	b.see("wider at an earlier check")
	b.click("Save the check")
	b.see("Check of 1-A saved")
}

func checksOf(t *testing.T, s *studio, burn journal.ID) []journal.Check {
	t.Helper()
	l, err := s.store.BurnLog(context.Background(), burn)
	if err != nil {
		t.Fatal(err)
	}
	return l.Checks
}

// What is typed survives a reload and a server that was away.
func TestJourneyDraft(t *testing.T) {
	s := emptyStudio(t)
	s.lit(time.Hour, s.shelved(2)...)
	b := newTab(t, s.base(), laptop)
	b.open("/walk")
	b.fill("b1.width_a", "51")
	b.fill("b2.note", "leans a little")
	b.see("draft kept")
	s.stop()
	s.start()
	b.open("/walk")
	b.see("brought back")
	if got := b.value("b1.width_a") + "|" + b.value("b2.note"); got != "51|leans a little" {
		t.Errorf("the draft came back as %q", got)
	}
	b.click("Save two checks")
	b.see("Checks of 1-A and 1-B saved")
	s.later(time.Hour)
	b.open("/walk")
	if got := b.value("b1.width_a"); got != "" {
		t.Errorf("the draft of a saved walk came back: %q", got)
	}
}

// A double click saves once; going back and changing a number is not lost.
func TestJourneyDoubleClick(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(time.Hour, s.shelved(1)...)
	b := newTab(t, s.base(), laptop)
	b.open("/candles/1/check")
	b.fill("width_a", "48")
	twice := `(async () => { const f = document.querySelector("form.form"); const d = new URLSearchParams(new FormData(f));
		d.set("at_time", ` + quoted(s.now().UTC().Format("15:04")) + `);
		const r = await Promise.all([1, 2].map(() => fetch(f.action, {method: "POST", body: d, redirect: "manual"}))); return r.map(x => x.type).join(" ") })()`
	if got := js[string](b, twice); got != "opaqueredirect opaqueredirect" {
		t.Errorf("two clicks were answered by %q", got)
	}
	if got := len(checksOf(t, s, burns[0].ID)); got != 1 {
		t.Errorf("two clicks saved %d checks", got)
	}
}

// A dangerous check is saved, and answered at once with what to do now.
func TestJourneyDanger(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(2*time.Hour, s.shelved(1)...)
	b := newTab(t, s.base(), phone)
	b.open("/candles/1/check")
	b.fill("flame", "81")
	js[bool](b, `(document.querySelector("[name=odd][value='flame on the pool']").click(), true)`)
	b.click("Save the check")
	first := strings.TrimSpace(js[string](b, `document.querySelector("main").innerText`))
	b.see("Never pour water on it", "metal lid")
	b.shot("danger")
	if !strings.Contains(firstLines(first, 3), "1-A") || !strings.Contains(first[:400], "lid") {
		t.Errorf("the page does not begin with what to do now:\n%s", first)
	}
	if checks := checksOf(t, s, burns[0].ID); len(checks) != 1 || !checks[0].Has(journal.FlameOnPool) {
		t.Errorf("the dangerous check is not saved: %+v", checks)
	}
	b.click("It is out: note how it ended")
	if got := b.value("b1.ending"); got != string(journal.PutOutUnsafe) {
		t.Errorf("the ending offered is %q", got)
	}
	b.click("Save")
	b.see("Saved for 1-A")
}

func firstLines(s string, n int) string {
	lines := strings.SplitN(s, "\n", n+1)
	return strings.Join(lines[:min(n, len(lines))], "\n")
}

// A danger in a row that cannot be saved is answered all the same.
func TestJourneyDangerInWrongRow(t *testing.T) {
	s := emptyStudio(t)
	s.lit(2*time.Hour, s.shelved(2)...)
	b := newTab(t, s.base(), laptop)
	b.open("/walk")
	b.fill("b1.width_a", "60")
	b.fill("b2.width_a", "lots")
	b.fill("b2.flame", "90")
	b.click("Save two checks")
	b.see("Do not blow", "Write a length such as", "Check of 1-A saved")
	b.shot("danger-in-walk")
	if got := b.value("b2.width_a"); got != "lots" {
		t.Errorf("what was typed came back as %q", got)
	}
}
