package demo

import (
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// The shelf's records by their place in the season's own count.
const (
	meadow  journal.ID = 1
	harbour journal.ID = 2

	fig  journal.ID = 1
	rain journal.ID = 2

	pebble journal.ID = 1
	fern   journal.ID = 2
	slate  journal.ID = 3

	larkspur journal.ID = 1
	alder    journal.ID = 2
)

// firstCotton is the number on the packet of the lowest cotton rung.
const firstCotton = 3

// The rungs of each ladder.
const (
	cottonRungs = 8
	woodRungs   = 4
)

func p[T any](v T) *T { return &v }

func span[T ~float64](low, high T) journal.Range[T] {
	return journal.Range[T]{Low: &low, High: &high}
}

// counted is what was on the shelf when it was written down.
func counted[T quantity.Grams | int](n T) journal.Stock[T] { return journal.Stock[T]{OnHand: &n} }

func meta(id journal.ID) journal.Meta { return journal.Meta{ID: id} }

// waxes are two invented blends with guidance as a supplier words it.
func waxes() []journal.Wax {
	return []journal.Wax{
		{
			Meta: meta(meadow), Name: "Meadow blend", Family: "blend", BlendNote: "mostly soy, some rapeseed", Form: "flakes",
			SolidDensity: p(quantity.GramsPerMillilitre(0.9)), LiquidDensity: p(quantity.GramsPerMillilitre(0.86)),
			MeltingPoint: p(quantity.Celsius(49)), HeatTo: span[quantity.Celsius](75, 85),
			AddOilAt: span[quantity.Celsius](70, 75), PourAt: span[quantity.Celsius](55, 65),
			Load: span[quantity.Fraction](0.06, 0.1), LoadBasis: journal.OfWax, CureDays: span[quantity.Days](7, 14), HeatOfCombustion: p(quantity.KilojoulesPerGram(38.2)),
			Price: p(9.8), Stock: counted[quantity.Grams](18400),
			Note: "Pour slowly; the second bag frosted more than the first.",
		},
		{
			Meta: meta(harbour), Name: "Harbour blend", Family: "coconut", BlendNote: "coconut-rich, with a little stearin", Form: "slab",
			SolidDensity: p(quantity.GramsPerMillilitre(0.91)), MeltingPoint: p(quantity.Celsius(43)),
			HeatTo: span[quantity.Celsius](70, 80), AddOilAt: span[quantity.Celsius](65, 72),
			PourAt: span[quantity.Celsius](58, 68), Load: span[quantity.Fraction](0.05, 0.12), LoadBasis: journal.OfWax,
			CureDays: journal.Range[quantity.Days]{Low: p(quantity.Days(14))}, Price: p(13.4), Stock: counted[quantity.Grams](6400),
		},
	}
}

func fragrances() []journal.Fragrance {
	return []journal.Fragrance{
		{Meta: meta(fig), Name: "Fig and smoke", Density: p(quantity.GramsPerMillilitre(0.98)), FlashPoint: p(quantity.Celsius(94)), MaxLoad: p(quantity.Fraction(0.1)), MaxBasis: journal.OfWax, Price: p(64.0), Stock: counted[quantity.Grams](1200)},
		{Meta: meta(rain), Name: "Rain on slate", Density: p(quantity.GramsPerMillilitre(0.95)), FlashPoint: p(quantity.Celsius(81)), MaxLoad: p(quantity.Fraction(0.12)), MaxBasis: journal.OfWax, Price: p(71.5), Stock: counted[quantity.Grams](900)},
	}
}

// vessels are a round glass, an oval bowl for two wicks and a rectangular tin.
func vessels() []journal.Vessel {
	return []journal.Vessel{
		{
			Meta: meta(pebble), Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 78,
			FillHeight: p(quantity.Millimetres(62)), Volume: p(quantity.Millilitres(296)),
			Material: "glass", EmptyMass: p(quantity.Grams(212)), Certificate: true, Price: p(1.35), Stock: counted(96),
		},
		{
			Meta: meta(fern), Name: "Fern bowl", Shape: journal.Oval, InnerWidth: 82, InnerLength: p(quantity.Millimetres(104)),
			FillHeight: p(quantity.Millimetres(45)), WaterFill: p(quantity.Grams(301)),
			Material: "ceramic", EmptyMass: p(quantity.Grams(386)), Price: p(3.9), Stock: counted(18), Note: "Two wicks, 40 mm apart along the length.",
		},
		{
			Meta: meta(slate), Name: "Slate tin", Shape: journal.Rectangular, InnerWidth: 66, InnerLength: p(quantity.Millimetres(92)),
			FillHeight: p(quantity.Millimetres(38)), Material: journal.Metal, EmptyMass: p(quantity.Grams(58)), Price: p(0.85), Stock: counted(40),
		},
	}
}

func ladders() []journal.Ladder {
	return []journal.Ladder{
		{Meta: meta(larkspur), Name: "Larkspur", Kind: "flat braid", Core: "cotton"},
		{Meta: meta(alder), Name: "Alder", Kind: "wood", Note: "Cut to 6 mm above the wax and light along the whole edge."},
	}
}

// wicks are the rungs of both ladders, cotton first.
func wicks() []journal.Wick {
	var ws []journal.Wick
	for i := range cottonRungs {
		ws = append(ws, journal.Wick{
			Meta: meta(wickID(larkspur, i+1)), Ladder: larkspur, Rung: i + 1,
			Label: strconv.Itoa(firstCotton + i), Threads: p(18 + 6*i), Price: p(0.11), Stock: counted(50),
		})
	}
	for i := range woodRungs {
		ws = append(ws, journal.Wick{
			Meta: meta(wickID(alder, i+1)), Ladder: alder, Rung: i + 1,
			Label: strconv.Itoa(9+3*i) + " mm", Width: p(quantity.Millimetres(9 + 3*i)), Price: p(0.32), Stock: counted(24),
		})
	}
	return ws
}

// wickID is the season's own count of a ladder's rung.
func wickID(ladder journal.ID, rung int) journal.ID {
	if ladder == larkspur {
		return journal.ID(rung)
	}
	return journal.ID(cottonRungs + rung)
}

// stock writes the settings and the shelf down.
func (s *studio) stock(at time.Time) {
	set := journal.DefaultSettings()
	set.TimeZone = s.zone.String()
	set.Currency, set.Melter, set.BenchPlaces = "€", p(quantity.Grams(3000)), p(8)
	s.write(at, set)
	each(s, at, waxes())
	each(s, at, fragrances())
	each(s, at, vessels())
	each(s, at, ladders())
	each(s, at, wicks())
}

func each[T any](s *studio, at time.Time, records []T) {
	for _, r := range records {
		s.write(at, r)
	}
}
