package plan_test

import (
	"fmt"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
)

// spec is a round of vessels, wicks, loads and pour temperatures.
func spec(vessels, wicks, loads, temps int) plan.Spec {
	s := plan.Spec{Copies: 3, BenchPlaces: 8, Seed: 7, Ladders: map[journal.ID]journal.ID{}}
	for i := range vessels {
		s.Factors.Vessels = append(s.Factors.Vessels, journal.ID(10+i))
	}
	for i := range wicks {
		s.Factors.Wicks = append(s.Factors.Wicks, journal.RoundWick{Wick: journal.ID(20 + i), Wicks: 1})
		s.Ladders[journal.ID(20+i)] = 1
	}
	for i := range loads {
		s.Factors.Loads = append(s.Factors.Loads, quantity.Fraction(0.06+0.02*float64(i)))
	}
	for i := range temps {
		s.Factors.PourAts = append(s.Factors.PourAts, quantity.Celsius(60+3*float64(i)))
	}
	return s
}

func draw(t *testing.T, s plan.Spec) []journal.RoundPlace {
	t.Helper()
	places, problems := plan.Draw(s)
	if len(problems) > 0 {
		t.Fatalf("%+v: %v", s, problems)
	}
	return places
}

// written is a plan in one line a place.
func written(places []journal.RoundPlace) (out []string) {
	for _, p := range places {
		load, at := "-", "-"
		if p.Load != nil {
			load = fmt.Sprintf("%g", float64(*p.Load))
		}
		if p.PourAt != nil {
			at = fmt.Sprintf("%g", float64(*p.PourAt))
		}
		out = append(out, fmt.Sprintf("%d melt %d copy %d: vessel %d, %d × wick %d, load %s, at %s; evening %d, place %d",
			p.Number, p.Melt, p.Copy, p.Vessel, p.Wicks, p.Wick, load, at, p.Evening, p.Bench))
	}
	return out
}
