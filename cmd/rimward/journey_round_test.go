package main

import (
	"fmt"
	"testing"
	"time"

	"rimward/internal/journal"
)

// A round is planned, kept, its first melt weighed and poured, and each candle
// stands at the place that was drawn for it.
func TestJourneyPlanningARound(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), laptop)
	b.open("/rounds")
	b.see("Running", "Answered")
	b.click("Plan a round")
	b.click("Which rung of a ladder?")
	b.fill("copies", "1")
	b.click("See the plan")
	b.see("Order of pouring", "What it can tell", "There is one candle of each.", "Nothing is saved yet.")
	b.shot("round-plan")
	b.fill("copies", "2")
	b.fill("seed", "481516")
	b.click("See the plan")
	b.see("Number of the draw")
	b.click("Keep this round")
	b.see("The round is kept.", "0 of 8 candles are poured")
	r, err := s.store.Round(t.Context(), 3)
	if err != nil || r.Seed != 481516 || len(r.Places) != 8 {
		t.Fatalf("%+v, %v", r, err)
	}
	b.click("Make the pour sheet")
	b.see("is ready to weigh by")
	b.click("Make it a pour")
	b.see("The sheet is a pour now.")
	lines, err := s.store.RoundCandles(t.Context(), 3)
	if err != nil || len(lines) == 0 {
		t.Fatalf("%d candles, %v", len(lines), err)
	}
	for _, l := range lines {
		standsWhereDrawn(t, r, l.Candle)
	}
	b.open("/rounds/3")
	b.see("setting", lines[0].Candle.Code())
	b.open(fmt.Sprintf("/candles/%d", lines[0].Candle.ID))
	b.see(r.Question, "place 1")
	b.open("/rounds/3/days")
	b.fill("away", "2020-01-01")
	b.fill("start", "19:30")
	b.click("See the days")
	b.see("What moves")
	b.click("Keep these days")
	b.see("The days are planned anew.", "19:30")
}

// Tonight's sitting of a round is lit from the bench: its candles are ticked,
// and each burn says the place that was drawn.
func TestJourneyLightingARoundTonight(t *testing.T) {
	s := demoStudio(t)
	r, err := s.store.Round(t.Context(), 2)
	if err != nil {
		t.Fatal(err)
	}
	b := newTab(t, s.base(), laptop)
	b.open("/light")
	b.see("Light candles")
	if b.says("Tonight at") {
		t.Fatalf("a sitting at %s is offered at 19:42", r.Days.Start)
	}
	s.later((6*24 - 2) * time.Hour) // 17:42, when the second melt has cured
	b.open("/rounds/2")
	b.see("Next: today", "at 18:00", "Light them")
	b.open("/")
	b.see("Burn 1 of ", "Tonight: "+r.Question)
	b.open("/light")
	b.see("Tonight at 18:00", "Tick these three")
	b.shot("light-tonight")
	b.click("Tick these three")
	b.see("Ticked below")
	want := map[journal.ID]string{}
	lines, err := s.store.RoundCandles(t.Context(), 2)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lines {
		row := fmt.Sprintf(`document.querySelector('[name="c%d.pick"]')`, l.Candle.ID)
		if js[bool](b, row+"?.checked === true") {
			want[l.Candle.ID] = b.value(fmt.Sprintf("c%d.place", l.Candle.ID))
		}
	}
	b.shot("light-round")
	b.click("Light them")
	b.see("Three candles are lit.")
	if len(want) != 3 {
		t.Fatalf("ticked %v", want)
	}
	for id, place := range want {
		l, err := s.store.CandleLog(t.Context(), id)
		if err != nil || l.OpenBurn() == nil || place == "" || l.OpenBurn().Burn.Place != place {
			t.Errorf("candle %d is not lit at %q, %v", id, place, err)
		}
	}
}

func standsWhereDrawn(t *testing.T, r journal.TestRound, c journal.Candle) {
	t.Helper()
	p, there := r.Place(c.RoundPlace)
	if !there || p.Wick != c.Wick || p.Vessel != c.Vessel || p.Wicks != c.Wicks {
		t.Errorf("candle %s stands at place %d, which was drawn for %+v", c.Code(), c.RoundPlace, p)
	}
}
