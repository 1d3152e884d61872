package server_test

import (
	"context"
	"net/url"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

func TestPricesAndStocksAreKept(t *testing.T) {
	s := newCandleSite(t)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		s.Wax.Price, s.Wax.OnHand = new(float64), new(quantity.Grams)
		*s.Wax.Price, *s.Wax.OnHand = 18.5, 4200
		return tx.SaveWax(&s.Wax)
	})
	s.shows("/shelf/waxes/1", 200, "18.50", "per kg", "4.2", "counted 14 May 2026; none poured since")
	s.shows("/shelf/waxes/1/edit", 200, `value="18.5"`, `value="4200"`, "Counted again today")
	// The form sends no moment of counting; a correction keeps it.
	s.sendsOn("/shelf/waxes/1/edit", url.Values{"token": {"a"}, "version": {"2"}, "name": {"Meadow two"}, "family": {"soy"}, "price": {"18.5"}, "on_hand": {"4200"}}, "/shelf/waxes/1")
	w, err := s.store.Wax(context.Background(), 1)
	if err != nil || *w.Price != 18.5 || w.CountedAt == nil {
		t.Errorf("after a correction: %+v, %v", w, err)
	}
	s.sendsOn("/shelf/vessels/1/edit", url.Values{"token": {"b"}, "version": {"1"}, "name": {"Pebble"}, "shape": {"round"}, "material": {"glass"}, "inner_width": {"76"}, "price": {"1.2"}, "on_hand": {"48"}}, "/shelf/vessels/1")
	s.shows("/shelf/vessels/1", 200, "1.20", "48", "none poured since")
	s.sendsOn("/shelf/ladders/1/rungs/1/edit", url.Values{"token": {"c"}, "version": {"1"}, "label": {"6"}, "rung": {"1"}, "price": {"0.12"}, "on_hand": {"30"}}, "/shelf/ladders/1")
	s.shows("/shelf/ladders/1/rungs/1", 200, "0.12", "30", "counted 14 May 2026")
	s.sendsBack("/shelf/ladders/1/rungs/1/edit", url.Values{"token": {"d"}, "version": {"2"}, "label": {"6"}, "price": {"cheap"}, "on_hand": {"-2"}}, 422, "Write a price such as", `value="cheap"`)
	s.sendsBack("/shelf/ladders/1/rungs/1/edit", url.Values{"token": {"d"}, "version": {"2"}, "label": {"6"}, "on_hand": {"-2"}}, 422, "Between 0 and 1,000,000 pieces.")
}

func TestAStockIsCountedAgain(t *testing.T) {
	s := newCandleSite(t)
	long := candleNoon.AddDate(0, 0, -60)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		if err := tx.SaveFragrance(&journal.Fragrance{Name: "Fig", MaxBasis: journal.OfWax}); err != nil {
			return err
		}
		s.Vessel.OnHand = new(int)
		*s.Vessel.OnHand = 48
		if err := tx.SaveVessel(&s.Vessel); err != nil {
			return err
		}
		s.Vessel.CountedAt = &long
		return tx.SaveVessel(&s.Vessel)
	})
	s.shows("/shelf/vessels/1", 200, "counted 15 Mar 2026; three pieces in candles poured since, so about 45")
	form := url.Values{"token": {"a"}, "version": {"3"}, "name": {"Pebble"}, "shape": {"round"}, "material": {"glass"}, "inner_width": {"76"}, "on_hand": {"48"}}
	s.sendsOn("/shelf/vessels/1/edit", form, "/shelf/vessels/1")
	s.shows("/shelf/vessels/1", 200, "counted 15 Mar 2026")
	form.Set("recounted", "1")
	form.Set("version", "4")
	form.Set("token", "b")
	s.sendsOn("/shelf/vessels/1/edit", form, "/shelf/vessels/1")
	s.shows("/shelf/vessels/1", 200, "counted 14 May 2026; none poured since")
}

func TestSettingsOfMaking(t *testing.T) {
	s := newCandleSite(t)
	form := url.Values{"token": {"a"}, "version": {"0"}, "length": {"mm"}, "mass": {"g"}, "temperature": {"C"}, "volume": {"mL"}, "ruler": {"1 mm"}, "time_zone": {"UTC"}, "scheme": {"day"},
		"currency": {"€"}, "scale_step": {"0.5"}, "melter": {"3 kg"}, "bench_places": {"8"}}
	s.sendsBack("/settings", formOf([]string{"melter", "5", "bench_places", "99"}, flat(form)...), 422, "Between 10 g and 1,000 kg.", "Between 1 and 60 places.", `value="99"`)
	s.sendsOn("/settings", form, "/settings")
	s.shows("/settings", 200, `value="€"`, `value="0.5"`, `value="3000"`, `value="8"`, "Smallest step of the scale")
	set, err := s.store.Settings(context.Background())
	if err != nil || set.Currency != "€" || set.ScaleStep != 0.5 || *set.Melter != 3000 || *set.BenchPlaces != 8 {
		t.Errorf("the settings are %+v, %v", set, err)
	}
	s.sendsOn("/settings/limits", url.Values{"token": {"b"}, "version": {"1"}}, "/settings/limits")
	if set, _ = s.store.Settings(context.Background()); set.Currency != "€" || set.Melter == nil {
		t.Errorf("saving the limits lost %+v", set)
	}
}

func TestWeighedLoadIsAskedAboutOnce(t *testing.T) {
	s := newCandleSite(t)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		return tx.SaveFragrance(&journal.Fragrance{Name: "Fig", MaxBasis: journal.OfWax})
	})
	form := pourForm("fragrance", "1", "load", "8", "wax_mass", "700", "oil_mass", "63")
	w := s.ask("/pours/new", form)
	s.hold("/pours/new", w, 422, []string{"Unusual, so we ask once", "comes to 9 % of the wax, not 8 %", `value="700"`, `value="63"`})
	_, key, found := strings.Cut(w.Body.String(), `name="asked" value="`)
	if !found {
		t.Fatal("the doubt has no key")
	}
	key, _, _ = strings.Cut(key, `"`)
	form.Set("asked", key)
	s.sendsOn("/pours/new", form, "/pours/2")
	s.shows("/pours/2", 200, "Wax weighed in", "700", "Oil weighed in", "63")
	s.shows("/pours/2/edit", 200, `value="700"`, `value="63"`)
	s.sendsOn("/pours/new", pourForm("token", "q", "fragrance", "1", "load", "8", "wax_mass", "700", "oil_mass", "56"), "/pours/3")
}

func TestGuidanceStandsBesideThePour(t *testing.T) {
	s := newCandleSite(t)
	range_ := func(low, high quantity.Celsius) journal.Range[quantity.Celsius] {
		return journal.Range[quantity.Celsius]{Low: &low, High: &high}
	}
	seven := quantity.Days(7)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		s.Wax.PourAt, s.Wax.CureDays.Low = range_(55, 60), &seven
		return tx.SaveWax(&s.Wax)
	})
	s.sendsOn("/pours/new", pourForm(), "/pours/2") // poured at 63.5 °C
	s.shows("/pours/2", 200, "Beside the suppliers’ guidance", "3.5 °C above", "not stated by the supplier", "A single pour, without a heat gun.")
	s.sendsOn("/pours/2/candles/new", candleForm(), "/pours/2")
	s.shows("/candles/4", 200, "One thing lies outside what the suppliers advise: poured 3.5 °C above.", "not lit yet")
	s.shows("/pours/guidance?wax=1&poured_at=50", 200, "5 °C below")
	s.shows("/pours/guidance", 200, "Choose the wax")
	s.shows("/pours/guidance?wax=99", 200, "Choose the wax")
	s.shows("/pours/new", 200, `data-guidance="/pours/guidance"`)
}

func TestWhatCures(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/curing", 200, "Its supplier states no cure.", "Soy usually cures for 7–14 days (common practice, no source)", "set; no cure stated", "/light?pour=1", "1-A")
	fourteen := quantity.Days(14)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		s.Wax.CureDays.High = &fourteen
		if err := tx.SaveWax(&s.Wax); err != nil {
			return err
		}
		p := journal.Pour{At: candleNoon.AddDate(0, 0, -2), Wax: 1, LoadBasis: journal.OfWax}
		if err := tx.SavePour(&p); err != nil {
			return err
		}
		return tx.SaveCandle(&journal.Candle{Pour: p.ID, Vessel: 1, Wick: 1, Wicks: 1})
	})
	s.shows("/curing", 200, "curing, day 3 of 14", "Tue 26 May", "2-A", "up to 14 days")
	s.shows("/pours", 200, `href="/curing"`)
	s.shows("/", 200, `href="/curing"`)
	testkit.Light(t, s.store, time.Hour, s.candle(4))
	s.shows("/candles/4", 200, "Burn 1 was lit 2 days after the pour, 12 days early: 14 days of setting and cure is meant.")
	emptySite(t).shows("/curing", 200, "Nothing waits for its first burn.")
}
