package main

import (
	"fmt"
	"testing"

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

func standsWhereDrawn(t *testing.T, r journal.TestRound, c journal.Candle) {
	t.Helper()
	p, there := r.Place(c.RoundPlace)
	if !there || p.Wick != c.Wick || p.Vessel != c.Vessel || p.Wicks != c.Wicks {
		t.Errorf("candle %s stands at place %d, which was drawn for %+v", c.Code(), c.RoundPlace, p)
	}
}
