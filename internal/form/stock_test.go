package form

import (
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

func TestReadPricesAndStocks(t *testing.T) {
	t.Parallel()
	w := ReadWax(metric("name", "A", "family", "palm", "price", "18,50", "on_hand", "4.2 kg")).Wax()
	diff(t, "wax", [2]any{18.5, quantity.Grams(4200)}, [2]any{*w.Price, *w.OnHand})
	f := ReadFragrance(metric("name", "A", "price", "60 per kg", "on_hand", "350")).Fragrance()
	diff(t, "fragrance", [2]any{60.0, quantity.Grams(350)}, [2]any{*f.Price, *f.OnHand})
	v := ReadVessel(metric("name", "A", "shape", "round", "material", "glass", "inner_width", "76", "price", "1.2", "on_hand", "48")).Vessel()
	diff(t, "vessel", [2]any{1.2, 48}, [2]any{*v.Price, *v.OnHand})
	k := ReadWick(metric("label", "6", "price", "0.12", "on_hand", "0")).Wick()
	diff(t, "wick", [2]any{0.12, 0}, [2]any{*k.Price, *k.OnHand})
	refuseAll(t, func(p *Parser) { ReadWax(p) }, []refused{
		{"a price in words", []string{"name", "A", "family", "palm", "price", "dear", "on_hand", "some"},
			Problems{{"price", "Write a price such as 18.50, 18.50 per kg or 8.20 per lb, without the currency."}, {"on_hand", "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."}}},
		{"below nothing", []string{"name", "A", "family", "palm", "price", "-1", "on_hand", "-1"}, Problems{{"price", "Between 0 and 1,000,000."}, {"on_hand", "Between 0 g and 1,000 t."}}},
	})
}

func TestReadMaking(t *testing.T) {
	t.Parallel()
	set := journal.Settings{ScaleStep: 9, Currency: "£", Melter: of(quantity.Grams(1)), BenchPlaces: of(3)}
	ReadMaking(metric()).Apply(&set)
	diff(t, "empty boxes", journal.Settings{ScaleStep: 1}, set)
	ReadMaking(metric("currency", "€", "scale_step", "0.1", "melter", "3 kg", "bench_places", "8")).Apply(&set)
	diff(t, "all boxes", journal.Settings{Currency: "€", ScaleStep: 0.1, Melter: of(quantity.Grams(3000)), BenchPlaces: of(8)}, set)
	refuseAll(t, func(p *Parser) { ReadMaking(p) }, []refused{
		{"at its ends", []string{"currency", "12345678", "scale_step", "0.001", "melter", "10", "bench_places", "1"}, nil},
		{"at the other ends", []string{"currency", "€€€€€€€€", "scale_step", "100", "melter", "1000 kg", "bench_places", "60"}, nil},
		{"below", []string{"scale_step", "0.0009", "melter", "9.9", "bench_places", "0"}, Problems{{"scale_step", scaleSentence}, {"melter", melterSentence}, {"bench_places", placesSentence}}},
		{"above", []string{"currency", "123456789", "scale_step", "100.1", "melter", "1001 kg", "bench_places", "61"},
			Problems{{"currency", currencySentence}, {"scale_step", scaleSentence}, {"melter", melterSentence}, {"bench_places", placesSentence}}},
		{"words", []string{"scale_step", "fine", "bench_places", "many"}, Problems{{"scale_step", "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."}, {"bench_places", "Write a whole number."}}},
	})
}
