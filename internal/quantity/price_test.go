package quantity

import "testing"

// A pound is 453.59237 g exactly (NIST Handbook 44 appendix C, from memory):
// 8.20 for a pound is 8.20/0.45359237 = 18.077905 for a kilogram.
func TestParsePrice(t *testing.T) {
	t.Parallel()
	price := func(s string) (Hours, error) { v, err := ParsePrice(s); return Hours(v), err }
	readAll(t, price, []reading{{"18", 18}, {"18.5", 18.5}, {" 0,12 ", 0.12}, {"0", 0}})
	refuseAll(t, price, "Write a price", append([]string{"18 €", "$18", "18 /kg"}, never...)...)
	byMass := func(u Units) func(string) (Hours, error) {
		return func(s string) (Hours, error) { v, err := u.ParsePriceByMass(s); return Hours(v), err }
	}
	readAll(t, byMass(Metric), []reading{{"18.5", 18.5}, {"18.5 /kg", 18.5}, {"18.5/kg", 18.5}, {"18,5 per kg", 18.5}, {"8.2 per lb", 8.2 / 0.45359237}, {"0.02 /g", 20}, {"1 /oz", 1 / (0.45359237 / 16)}})
	readAll(t, byMass(Imperial), []reading{{"8.2", 8.2 / 0.45359237}, {"18.5 per kg", 18.5}})
	refuseAll(t, byMass(Metric), "Write a price", append([]string{"18 per stone", "/kg", "18 €", "per kg"}, never...)...)
}

func TestPricesAndStocksAreShown(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		got  Shown
		want string
	}{
		{ShowMoney(18, "€"), "18.00 €"}, {ShowMoney(0.125, "EUR"), "0.12 EUR"}, {ShowMoney(0.021, ""), "0.021"}, {ShowMoney(0.004, "€"), "0.0040 €"}, {ShowMoney(0, "€"), "0.00 €"},
		{Metric.ShowPriceByMass(18.5, "€"), "18.50 € per kg"}, {Metric.ShowPriceByMass(18.5, ""), "18.50 per kg"},
		// 18.077905 for a kilogram is 8.20 for a pound, as above.
		{Imperial.ShowPriceByMass(18.077905, "$"), "8.20 $ per lb"},
		{Metric.ShowStock(4200), "4.2 kg"}, {Metric.ShowStock(999), "999 g"}, {Metric.ShowStock(1000), "1 kg"},
		{Imperial.ShowStock(453.59237 * 9.25), "9.25 lb"}, {Imperial.ShowStock(226.796185), "8 oz"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("shown as %q, want %q", got, c.want)
		}
	}
	for days, want := range map[Days]int{0: 1, 0.99: 1, 1: 2, 6.5: 7} {
		if got := days.Begun(); got != want {
			t.Errorf("after %v days it is day %d, want %d", float64(days), got, want)
		}
	}
}

// What a box is filled with reads back as the same price.
func TestPricesGoThroughTheirBox(t *testing.T) {
	t.Parallel()
	for _, u := range []Units{Metric, Imperial} {
		for _, p := range []float64{0, 18.5, 7.25, 1234.5} {
			got, err := u.ParsePriceByMass(u.EditPriceByMass(p))
			if err != nil || got < p*(1-1e-7) || got > p*(1+1e-7) {
				t.Errorf("%v comes back as %v, %v", p, got, err)
			}
		}
	}
}
