package needs_test

import (
	"math"
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/needs"
	"rimward/internal/quantity"
)

func ptr[T any](v T) *T { return &v }

// shelf has a vessel of 318.542 mL, a cylinder 76.2 mm wide and 69.85 mm high:
// π × 38.1² × 69.85 = 318,542 mm³.
func shelf() needs.Shelf {
	return needs.Shelf{
		Wax:       journal.Wax{Name: "Meadow blend", LiquidDensity: ptr(quantity.GramsPerMillilitre(0.9)), Stock: journal.Stock[quantity.Grams]{OnHand: ptr(quantity.Grams(500))}},
		Fragrance: &journal.Fragrance{Name: "Fig", Density: ptr(quantity.GramsPerMillilitre(0.9))},
		Vessels:   map[journal.ID]journal.Vessel{1: {Name: "Pebble tumbler", Volume: ptr(quantity.Millilitres(318.542)), Stock: journal.Stock[int]{OnHand: ptr(3)}}, 2: {Name: "Fern bowl"}},
		Wicks:     map[journal.ID]journal.Wick{1: {Stock: journal.Stock[int]{OnHand: ptr(1)}}, 2: {}},
		Step:      0.001,
	}
}

func place(n, melt int, vessel, wick journal.ID, wicks int, load float64) journal.RoundPlace {
	return journal.RoundPlace{Number: n, Melt: melt, Vessel: vessel, Wick: wick, Wicks: wicks, Load: ptr(quantity.Fraction(load))}
}

func near(t *testing.T, what string, got, want quantity.Grams) {
	t.Helper()
	if math.Abs(float64(got-want)) > 0.002 {
		t.Errorf("%s: %v g, want %v g", what, float64(got), float64(want))
	}
}

// Two vessels at 8 % of the wax: 2 × 318.542 mL × 0.9 g/mL = 573.376 g, of
// which 573.376 / 1.08 = 530.904 g are wax and 42.472 g oil. One more at 10 %,
// in a melt of its own: 286.688 g, 260.625 g wax and 26.063 g oil.
func TestWhatARoundTakes(t *testing.T) {
	t.Parallel()
	n := needs.Of([]journal.RoundPlace{place(1, 1, 1, 1, 1, 0.08), place(2, 2, 1, 1, 2, 0.1), place(3, 1, 1, 2, 1, 0.08)}, journal.OfWax, shelf())
	if len(n.Melts) != 2 || n.Melts[0].Candles != 2 || n.Melts[1].Candles != 1 || !n.Wax.Known {
		t.Fatalf("got %+v", n)
	}
	near(t, "wax of melt 1", n.Melts[0].Wax, 530.904)
	near(t, "oil of melt 1", n.Melts[0].Oil, 42.472)
	near(t, "wax of melt 2", n.Melts[1].Wax, 260.625)
	near(t, "oil of melt 2", n.Melts[1].Oil, 26.063)
	near(t, "all wax", n.Wax.Amount, 791.529)
	near(t, "all oil", n.Oil.Amount, 68.535)
	near(t, "wax that is short", short(n.Wax), 291.529)
	if short(n.Oil) != 0 || n.Oil.Stock.OnHand != nil {
		t.Errorf("oil was not counted: %+v", n.Oil)
	}
	if len(n.Wicks) != 2 || n.Wicks[0].Amount != 3 || short(n.Wicks[0].Need) != 2 || short(n.Wicks[1].Need) != 0 || n.Vessels[0].Amount != 3 || short(n.Vessels[0].Need) != 0 {
		t.Errorf("pieces: %+v %+v", n.Wicks, n.Vessels)
	}
}

// What was poured since the counts is off the shelf: 500 g less 200 g leave
// 300 g, so 491.529 g of 791.529 g are short; one of three vessels is gone.
func TestWhatWasPouredSinceIsGone(t *testing.T) {
	t.Parallel()
	sh := shelf()
	sh.Wax.ID = 7
	sh.Taken = journal.Takings{journal.NounWax: {7: {Pours: 1, Weighed: 1, Mass: 200}}, journal.NounVessel: {1: {Pieces: 1}}}
	n := needs.Of([]journal.RoundPlace{place(1, 1, 1, 1, 1, 0.08), place(2, 2, 1, 1, 2, 0.1), place(3, 1, 1, 2, 1, 0.08)}, journal.OfWax, sh)
	near(t, "wax that is short", short(n.Wax), 491.529)
	if short(n.Vessels[0].Need) != 1 || *n.Vessels[0].Left != 2 || n.Oil.Left != nil {
		t.Errorf("%+v, oil %+v", n.Vessels, n.Oil)
	}
}

func TestWhatIsMissingIsAskedFor(t *testing.T) {
	t.Parallel()
	n := needs.Of([]journal.RoundPlace{place(1, 1, 2, 1, 1, 0), place(2, 2, 2, 1, 1, 0.08)}, journal.OfWax, shelf())
	if n.Wax.Known || short(n.Wax) != 0 || len(n.Asks) != 1 || !strings.Contains(n.Asks[0], "the volume of Fern bowl") {
		t.Errorf("got %+v", n)
	}
}

// One at 10 % takes 286.688 g, so 600 g hold two; 286 g hold none.
func TestPerMelt(t *testing.T) {
	t.Parallel()
	f := journal.RoundFactors{Vessels: []journal.ID{1}, Loads: []quantity.Fraction{0.08, 0.1}, LoadBasis: journal.OfWax}
	for melter, want := range map[quantity.Grams]int{600: 2, 286.6: -1, 286.7: 1, 860.1: 3} {
		sh := shelf()
		sh.Melter = &melter
		if got := needs.PerMelt(f, sh); got != want {
			t.Errorf("%v g hold %d, want %d", float64(melter), got, want)
		}
	}
	if got := needs.PerMelt(f, shelf()); got != 0 {
		t.Errorf("an unknown melter holds %d", got)
	}
	sh := shelf()
	sh.Melter = ptr(quantity.Grams(600))
	f.Vessels = []journal.ID{1, 2}
	if got := needs.PerMelt(f, sh); got != 0 {
		t.Errorf("a vessel of unknown volume: %d", got)
	}
}

func spent(vessel, wick journal.ID, hours float64) journal.CandleLine {
	return journal.CandleLine{Candle: journal.Candle{Vessel: vessel, Wick: wick, Wicks: 1}, Life: journal.Life{Spent: true}, LitHours: hours}
}

func TestHowLongCandlesLast(t *testing.T) {
	t.Parallel()
	ls := []journal.CandleLine{spent(1, 1, 30), spent(1, 1, 34), spent(1, 2, 26), spent(2, 1, 80)}
	gone := spent(1, 1, 500)
	gone.Life.Gone = true
	ls = append(ls, gone, journal.CandleLine{Candle: journal.Candle{Vessel: 1, Wick: 1, Wicks: 1}, LitHours: 4})
	if got := needs.Lasts(place(1, 1, 1, 1, 1, 0), ls); got != (needs.Lasting{Hours: 32, Candles: 2, Alike: true}) {
		t.Errorf("the same wick: %+v", got)
	}
	if got := needs.Lasts(place(1, 1, 1, 3, 1, 0), ls); got != (needs.Lasting{Hours: 30, Candles: 3}) {
		t.Errorf("the same vessel: %+v", got)
	}
	if got := needs.LastsAll([]journal.RoundPlace{place(1, 1, 1, 1, 1, 0), place(2, 1, 1, 2, 1, 0), place(3, 1, 1, 1, 1, 0)}, ls); got.Hours != 30 || got.Candles != 3 || !got.Alike {
		t.Errorf("a round: %+v", got)
	}
	if got := needs.LastsAll([]journal.RoundPlace{place(1, 1, 3, 1, 1, 0)}, ls); got.Hours != 0 {
		t.Errorf("an unknown vessel: %+v", got)
	}
}

// Two vessels of one name and unlike volumes are two vessels: 318.542 mL and
// 100 mL of 0.9 g/mL are 376.688 g, of which 376.688 / 1.08 = 348.785 g wax.
func TestVesselsOfOneNameAreNotOneVessel(t *testing.T) {
	t.Parallel()
	sh := shelf()
	sh.Vessels[2] = journal.Vessel{Name: "Pebble tumbler", Volume: ptr(quantity.Millilitres(100))}
	n := needs.Of([]journal.RoundPlace{place(1, 1, 1, 1, 1, 0.08), place(2, 1, 2, 1, 1, 0.08)}, journal.OfWax, sh)
	near(t, "wax", n.Wax.Amount, 348.785)
}

// short is how much is missing of what is left; 0 where there is enough or
// nothing was counted.
func short[T quantity.Grams | int](n needs.Need[T]) T {
	if !n.Known || n.Left == nil {
		return 0
	}
	return max(0, n.Amount-*n.Left)
}
