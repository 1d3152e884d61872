package answer_test

import (
	"math"
	"testing"

	"rimward/internal/answer"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

func inBowl(wick int) journal.RoundPlace {
	return journal.RoundPlace{Wick: journal.ID(wick), Vessel: bowl.ID}
}

func (s *studio) vessels(t *testing.T) answer.VesselAnswer {
	t.Helper()
	a := s.answer(t).Vessels
	if a == nil {
		t.Fatal("nothing is said of the vessels")
	}
	return *a
}

// One wick in two vessels: it nearly fills the one and falls far short in the
// other. Until both were burned nothing is named.
func TestTheClosestVessel(t *testing.T) {
	t.Parallel()
	s := newStudio()
	s.burn(14, wick(6), 97, 96)
	if a := s.answer(t); a.Vessels != nil {
		t.Errorf("one vessel is compared: %+v", a.Vessels)
	}
	s.plan(inBowl(6))
	if a := s.vessels(t); a.State != answer.NotYet || len(a.Waiting) != 1 || a.Waiting[0] != bowl.ID {
		t.Errorf("one of two burned: %+v", a)
	}
	s.round.Places = s.round.Places[:1]
	s.burn(14, inBowl(6), 60, 61)
	a := s.vessels(t)
	if a.State != answer.Closest || a.Standing[0].Vessel != tumbler.ID || a.Standing[0].Chance < standings.SureEnough || a.Standing[0].Best.Wick.ID != 6 || len(a.InRunning()) != 1 {
		t.Errorf("both burned: %+v", a)
	}
	if !s.answer(t).Told() {
		t.Error("nothing is told")
	}
	s.plan(inBowl(7))
	if a := s.vessels(t); a.State != answer.SoFar {
		t.Errorf("another wick is planned in one: %s", a.State)
	}
}

// Vessels in which the same happens are as likely as each other, whichever way
// round they come, and neither is named.
func TestVesselsAlike(t *testing.T) {
	t.Parallel()
	s := newStudio()
	for _, w := range []int{6, 7} {
		s.burn(14, wick(w), float64(70+3*w))
		s.burn(14, inBowl(w), float64(70+3*w))
	}
	a := s.vessels(t)
	if a.State != answer.Running || len(a.Standing) != 2 || math.Abs(a.Standing[0].Chance-0.5) > 1e-6 || math.Abs(a.Standing[1].Chance-0.5) > 1e-6 {
		t.Errorf("got %+v", a)
	}
	if s.answer(t).Told() {
		t.Error("what is in the running is told")
	}
}

// A vessel is judged by its own wall: what is a full pool in a vessel of 50 mm
// is half of one in a vessel of 100 mm.
func TestVesselsByTheirOwnWalls(t *testing.T) {
	t.Parallel()
	s := newStudio()
	s.burn(14, wick(6), 49, 48.5)
	narrow := s.burn(14, inBowl(6), 49, 48.5)
	narrow.Vessel.InnerWidth = 50
	if a := s.vessels(t); a.State != answer.Closest || a.Standing[0].Vessel != bowl.ID {
		t.Errorf("got %+v", a)
	}
}

// A vessel with nothing above the line is out of it.
func TestVesselsBelowTheLine(t *testing.T) {
	t.Parallel()
	s := newStudio()
	s.burn(14, wick(6), 70, 71)
	bad := s.burn(14, inBowl(6), 97, 96)
	bad.Burns[0].Checks[1].Flame = ptr(quantity.Millimetres(120)) // above the 76 mm of ASTM F2417, see the limits
	a := s.vessels(t)
	if a.State != answer.Closest || len(a.Standing) != 1 || a.Standing[0].Chance != 1 || len(a.Below) != 1 || a.Below[0] != bowl.ID {
		t.Errorf("got %+v", a)
	}
	s.logs[0].Burns[0].Checks[1].Flame = ptr(quantity.Millimetres(120))
	if a := s.vessels(t); a.State != answer.AllBelow {
		t.Errorf("both below the line: %s", a.State)
	}
}

// Within one vessel the chances between all are those of its own group.
func TestBetweenAgreesWithinOneVessel(t *testing.T) {
	t.Parallel()
	s := newStudio()
	s.burn(14, wick(6), 80, 81)
	s.burn(14, wick(7), 90, 91)
	stacks := standings.StacksOf(s.logs, options)
	w, err := standings.NewDesk(tree.Default()).Weigh(t.Context(), stacks)
	if err != nil {
		t.Fatal(err)
	}
	table, err := w.JudgeBetween(t.Context(), stacks)
	if err != nil || len(table.Between) != 2 {
		t.Fatalf("%+v, %v", table.Between, err)
	}
	for _, b := range table.Between {
		if _, _, p, ok := table.Find(b.Wick); !ok || math.Abs(p.Closest-b.Chance) > 1e-9 {
			t.Errorf("wick %d: %v between all, %v in its group", b.Wick, b.Chance, p.Closest)
		}
	}
}
