package main

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// radio chooses one of a few words by its label.
func (t *tab) radio(name, value string) {
	t.tb.Helper()
	if !js[bool](t, `(() => { const e = document.querySelector('input[name="`+name+`"][value="`+value+`"]'); if (!e) return false; e.closest("label").click(); return e.checked })()`) {
		t.tb.Fatalf("%s cannot be %s", name, value)
	}
}

// A mould goes on the shelf, a pour fills it, the bench asks for the pieces a
// day later, and the summary says how they came.
func TestJourneyCast(t *testing.T) {
	s := emptyStudio(t)
	s.shelved(1)
	err := s.store.Write(t.Context(), func(tx *sqlite.Tx) error {
		return tx.SavePour(&journal.Pour{At: s.now().Add(-time.Hour).Truncate(time.Minute), Wax: 1, LoadBasis: journal.OfWax})
	})
	if err != nil {
		t.Fatal(err)
	}
	b := newTab(t, s.base(), laptop)
	b.open("/shelf")
	b.click("Add a mould")
	b.fill("name", "Fir cones")
	b.fill("cavities", "0")
	b.fill("water_fill", "55")
	b.radio("detail", "undercut")
	b.click("Save the mould")
	b.see("Between 1 and 200 cavities.")
	b.fill("cavities", "4")
	b.click("Save the mould")
	b.see("Fir cones", "undercut", "No cast yet")

	b.open("/pours/2")
	b.click("Record a cast")
	b.fill("fillings", "2")
	b.fill("pieces", "")
	b.click("Save the cast")
	b.see("8 pieces of pour 2", "still in the mould")
	b.open("/")
	b.see("8 pieces of pour 2", "take them out")

	s.later(24 * time.Hour)
	b.open("/")
	b.click("Take 8 pieces of pour 2 out of the mould")
	b.fill("clean", "6")
	b.fill("broken", "3")
	b.radio("firmness", "soft")
	b.click("Save how they came")
	b.see("come to 9; 8 were cast")
	if got := b.value("clean") + "|" + b.value("broken"); got != "6|3" {
		t.Errorf("the counts came back as %q", got)
	}
	b.fill("broken", "2")
	b.click("Save how they came")
	b.see("How the pieces came out is saved.", "25 h 0", "6 clean and 2 broken", "dents or bends")
	b.shot("cast-out")

	b.open("/casts")
	b.see("75 %", "8 pieces, one cast of one pour", "All of one pour", "Try a wax that sets harder.")
	b.shot("cast-summary")
}
