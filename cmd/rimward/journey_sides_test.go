package main

import (
	"strings"
	"testing"
)

// columns are the names at the head of side by side.
func (t *tab) columns() string {
	t.tb.Helper()
	return js[string](t, `[...document.querySelectorAll(".sides-name")].map(e => e.innerText).join(" ")`)
}

// Three candles are ticked in the list, put side by side, one is removed, and
// the address shows the rest again.
func TestJourneySideBySide(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), laptop)
	b.open("/candles?vessel=1&wax=1")
	js[bool](b, `([...document.querySelectorAll(".sides-pick")].slice(-3).forEach(e => e.click()), true)`)
	b.click("Put side by side")
	b.see("Three candles", "Where they differ", "Pools by burn and hour", "can’t tell")
	all := strings.Fields(b.columns())
	if len(all) != 3 {
		t.Fatalf("the columns are %v", all)
	}
	b.shot("sides-1-three")
	b.leaving(func() {
		js[bool](b, `(document.querySelector("a[aria-label='Remove `+all[1]+`']").click(), true)`)
	})
	if got, want := b.columns(), all[0]+" "+all[2]; got != want {
		t.Errorf("without %s the columns are %q, want %q", all[1], got, want)
	}
	b.open(strings.TrimPrefix(js[string](b, "location.href"), s.base()))
	if got, want := b.columns(), all[0]+" "+all[2]; got != want {
		t.Errorf("opened again the columns are %q, want %q", got, want)
	}
	b.fill("code", strings.ToLower(all[1]))
	b.click("Add")
	if got, want := b.columns(), all[0]+" "+all[2]+" "+all[1]; got != want {
		t.Errorf("with %s again the columns are %q, want %q", all[1], got, want)
	}
}

// Without a script, on a phone, two rungs of the standings are put side by
// side.
func TestJourneySideBySideWithoutScript(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), screen{width: 390, height: 844, mobile: true, noScript: true})
	b.open("/side-by-side")
	b.click("The rungs of Larkspur in Pebble tumbler")
	b.see("In the standings", "Larkspur 6")
	if out := b.overflows(); out != "" {
		t.Errorf("%s sticks out", out)
	}
}
