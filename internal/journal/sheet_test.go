package journal

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/quantity"
)

func aSheet() PourSheet {
	return PourSheet{Wax: 1, LoadBasis: OfWax, Fragrance: new(ID(2)), Load: new(quantity.Fraction(0.08)), Body: SheetBody{Step: 1, Lines: []SheetLine{
		{Vessel: new(ID(3)), Wick: new(ID(4)), Wicks: 1, Count: 2}, {Mould: new(ID(5)), Count: 3}, {Vessel: new(ID(3)), Count: 1},
	}}}
}

// Each rule of a sheet is broken by itself, and answered beside its box.
func TestRulesOfAPourSheet(t *testing.T) {
	if err := aSheet().Validate(SheetFacts{}); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		spoil func(*PourSheet)
		field string
	}{
		"no wax":                   {func(s *PourSheet) { s.Wax = 0 }, "wax"},
		"load above a half":        {func(s *PourSheet) { *s.Load = 0.51 }, "load"},
		"load without fragrance":   {func(s *PourSheet) { s.Fragrance = nil }, "fragrance"},
		"no basis":                 {func(s *PourSheet) { s.LoadBasis = "" }, "load_basis"},
		"nothing to fill":          {func(s *PourSheet) { s.Body.Lines = nil }, "lines"},
		"no step":                  {func(s *PourSheet) { s.Body.Step = 0 }, "step"},
		"a melter for a thimble":   {func(s *PourSheet) { s.Body.Melter = new(quantity.Grams(9)) }, "melter"},
		"negative waste":           {func(s *PourSheet) { s.Body.Waste = new(quantity.Grams(-1)) }, "waste"},
		"spare of twice":           {func(s *PourSheet) { s.Body.Spare = new(quantity.Fraction(1.01)) }, "spare"},
		"poured at red heat":       {func(s *PourSheet) { s.Body.PourAt = new(quantity.Celsius(251)) }, "pour_at"},
		"neither vessel nor mould": {func(s *PourSheet) { s.Body.Lines[2].Vessel = nil }, "l2.what"},
		"both vessel and mould":    {func(s *PourSheet) { s.Body.Lines[2].Mould = new(ID(5)) }, "l2.what"},
		"none of it":               {func(s *PourSheet) { s.Body.Lines[0].Count = 0 }, "l0.count"},
		"no wick of a wick":        {func(s *PourSheet) { s.Body.Lines[0].Wicks = 0 }, "l0.wicks"},
		"a wick in a mould":        {func(s *PourSheet) { s.Body.Lines[1].Wick, s.Body.Lines[1].Wicks = new(ID(4)), 1 }, "l1.wick"},
		"places of another count":  {func(s *PourSheet) { s.Body.Lines[0].Places = []int{7} }, "l0.count"},
		"empty test fill":          {func(s *PourSheet) { s.Body.Lines[0].TestFill = new(quantity.Grams(0)) }, "l0.test_fill"},
		"two carts too many": {func(s *PourSheet) {
			s.Body.Lines = []SheetLine{{Vessel: new(ID(3)), Count: 1500}, {Vessel: new(ID(3)), Count: 501}}
		}, "lines"},
		"more than one line takes": {func(s *PourSheet) { s.Body.Lines[0].Count = 1 << 62 }, "l0.count"},
		"a tick of no step":        {func(s *PourSheet) { s.Body.Ticks = []SheetTick{{Key: "m1.sing"}} }, ""},
		"a tick of no melt":        {func(s *PourSheet) { s.Body.Ticks = []SheetTick{{Key: "m0.wax"}} }, ""},
		"one tick twice":           {func(s *PourSheet) { s.Body.Ticks = []SheetTick{{Key: "m1.wax"}, {Key: "m1.wax"}} }, ""},
		"a mass off a thermometer": {func(s *PourSheet) { s.Body.Ticks = []SheetTick{{Key: "m1.heat", Weighed: new(quantity.Grams(5))}} }, "m1.heat"},
		"a heat off a scale":       {func(s *PourSheet) { s.Body.Ticks = []SheetTick{{Key: "m1.wax", Read: new(quantity.Celsius(5))}} }, "m1.wax"},
	} {
		t.Run(name, func(t *testing.T) {
			s := aSheet()
			c.spoil(&s)
			var bad *InvalidError
			if err := s.Validate(SheetFacts{}); !errors.As(err, &bad) || len(bad.Problems) != 1 || bad.Problems[0].Field != c.field {
				t.Errorf("%v", err)
			}
		})
	}
}

// A sheet is poured once and stays as it was, until its pour is withdrawn.
func TestAPouredSheetStays(t *testing.T) {
	before := aSheet()
	before.ID, before.Pour = 9, new(ID(14))
	for name, spoil := range map[string]func(*PourSheet){
		"poured again":   func(s *PourSheet) { s.Pour = new(ID(15)) },
		"not poured":     func(s *PourSheet) { s.Pour = nil },
		"another load":   func(s *PourSheet) { s.Load = new(quantity.Fraction(0.09)) },
		"one more":       func(s *PourSheet) { s.Body.Lines[0].Count = 3 },
		"another tick":   func(s *PourSheet) { s.Body.Ticks = []SheetTick{{Key: "m1.wax"}} },
		"another melter": func(s *PourSheet) { s.Body.Melter = new(quantity.Grams(500)) },
	} {
		s := aSheet()
		s.ID, s.Pour = 9, new(ID(14))
		spoil(&s)
		if err := s.Validate(SheetFacts{Before: &before}); err == nil || !strings.Contains(err.Error(), "poured") {
			t.Errorf("%s: %v", name, err)
		}
		if err := s.Validate(SheetFacts{Before: &before, PourIsGone: true}); err != nil {
			t.Errorf("%s, its pour withdrawn: %v", name, err)
		}
	}
	s := aSheet()
	s.ID, s.Pour, s.Note = 9, new(ID(14)), "a note may follow"
	if err := s.Validate(SheetFacts{Before: &before}); err != nil {
		t.Error(err)
	}
}

// Two melts: the first was weighed as 603 g of wax and its oil not at all, the
// second as planned. 603 + 300 = 903 g wax; 48 + 25 = 73 g oil.
func TestASheetAsAPour(t *testing.T) {
	s := aSheet()
	s.Body.Ticks = []SheetTick{{Key: "m1.wax", Weighed: new(quantity.Grams(603))}, {Key: "m1.oil"}, {Key: "m2.heat", Read: new(quantity.Celsius(80))},
		{Key: "m1.stir", Read: new(quantity.Celsius(70))}, {Key: "m1.pour", Read: new(quantity.Celsius(62))}, {Key: "m2.pour", Read: new(quantity.Celsius(58))}, {Key: "m2.oil", Weighed: new(quantity.Grams(25))}}
	at := time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)
	p := s.AsPour(at, []SheetMasses{{600, 48}, {300, 24}})
	if *p.WaxMass != 903 || *p.OilMass != 73 || *p.HeatedTo != 80 || *p.OilAt != 70 || *p.PouredAt != 62 || !p.At.Equal(at) || *p.Load != 0.08 || p.Wax != 1 {
		t.Errorf("%+v", p)
	}
	s.Load = new(quantity.Fraction(0))
	if p := s.AsPour(at, []SheetMasses{{600, 0}}); p.Fragrance != nil || p.OilMass != nil {
		t.Errorf("no oil: %+v", p)
	}
	s.Round, s.Body.Lines[0].Places = new(ID(6)), []int{4, 9}
	cs := s.Candles(14)
	if len(cs) != 2 || cs[1].RoundPlace != 9 || *cs[1].Round != 6 || cs[0].Pour != 14 {
		t.Errorf("candles %+v", cs)
	}
	if casts := s.Casts(14, func(ID) int { return 4 }); len(casts) != 1 || casts[0].Pieces != 12 || casts[0].Mould != 5 {
		t.Errorf("casts %+v", casts)
	}
}

// Candles of a round take their letters in the order that was drawn, however
// their lines stand.
func TestCandlesOfARoundStandInTheirOrder(t *testing.T) {
	line := func(wick ID, places ...int) SheetLine {
		return SheetLine{Vessel: new(ID(3)), Wick: new(wick), Wicks: 1, Count: len(places), Places: places}
	}
	s := PourSheet{Round: new(ID(1)), Body: SheetBody{Lines: []SheetLine{line(4, 1, 5), line(5, 2, 3)}}}
	got := []int{}
	for _, c := range s.Candles(1) {
		got = append(got, c.RoundPlace, int(c.Wick))
	}
	if d := cmp.Diff([]int{1, 4, 2, 5, 3, 5, 5, 4}, got); d != "" {
		t.Error(d)
	}
}

// The places of one melt, those alike on one line, in the order of pouring.
func TestAMeltOfARoundIsASheet(t *testing.T) {
	r := TestRound{Meta: Meta{ID: 3}, Wax: 1, Fragrance: new(ID(2)), Factors: RoundFactors{LoadBasis: OfTotal}, Places: []RoundPlace{
		{Number: 1, Melt: 1, Vessel: 3, Wick: 4, Wicks: 1, Load: new(quantity.Fraction(0.08)), PourAt: new(quantity.Celsius(60))},
		{Number: 2, Melt: 2, Vessel: 3, Wick: 4, Wicks: 1, Load: new(quantity.Fraction(0.1))},
		{Number: 3, Melt: 1, Vessel: 3, Wick: 5, Wicks: 1, Load: new(quantity.Fraction(0.08))},
		{Number: 4, Melt: 1, Vessel: 3, Wick: 4, Wicks: 1, Load: new(quantity.Fraction(0.08)), PourAt: new(quantity.Celsius(60))},
		{Number: 5, Melt: 1, Vessel: 3, Wick: 4, Wicks: 2, Load: new(quantity.Fraction(0.08)), PourAt: new(quantity.Celsius(60))},
	}}
	s := r.MeltSheet(1, Settings{ScaleStep: 0.1, Melter: new(quantity.Grams(2000))}, 3)
	if err := s.Validate(SheetFacts{}); err != nil {
		t.Fatal(err)
	}
	if len(s.Body.Lines) != 2 || s.Body.Lines[0].Count != 2 || s.Body.Lines[0].Places[1] != 4 || s.Body.Lines[1].Places[0] != 5 {
		t.Errorf("lines %+v", s.Body.Lines)
	}
	if *s.Load != 0.08 || s.LoadBasis != OfTotal || *s.Round != 3 || s.Body.Step != 0.1 || *s.Body.Melter != 2000 || *s.Body.PourAt != 60 {
		t.Errorf("%+v", s)
	}
}
