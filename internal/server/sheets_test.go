package server_test

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// sheetSite is a studio with a mould and a fragrance beside its vessel.
func sheetSite(t *testing.T) candleSite {
	t.Helper()
	s := newCandleSite(t)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		if err := tx.SaveMould(&journal.Mould{Name: "Fir cones", Cavities: 4, WaterFill: new(quantity.Grams(55)), Detail: journal.Undercut}); err != nil {
			return err
		}
		return tx.SaveFragrance(&journal.Fragrance{Name: "Fig and smoke", MaxBasis: journal.OfWax, MaxLoad: new(quantity.Fraction(0.1)), FlashPoint: new(quantity.Celsius(81))})
	})
	return s
}

// sheetForm fills two tumblers of 200 g and the mould once at 50 g a piece: 600 g,
// at 8 % of wax 555.6 g + 44.4 g, so 556 g and 44 g.
func sheetForm(pairs ...string) url.Values {
	form := url.Values{"token": {"s"}, "do": {"save"}, "wax": {"1"}, "fragrance": {"1"}, "load": {"8"}, "step": {"1"},
		"l0.what": {"v1"}, "l0.count": {"2"}, "l0.wick": {"1"}, "l0.test_fill": {"200"},
		"l3.what": {"m1"}, "l3.count": {"1"}, "l3.test_fill": {"50"}}
	for i := 0; i+1 < len(pairs); i += 2 {
		form.Set(pairs[i], pairs[i+1])
	}
	return form
}

// From nothing to a pour: the sums before saving, an empty row between, ticks
// one by one, and all that one click writes, once.
func TestASheetBecomesAPour(t *testing.T) {
	s := sheetSite(t)
	s.shows("/pours/sheets", http.StatusOK, "No pour sheet yet", "/pours/sheets/new")
	s.shows("/pours/sheets/new", http.StatusOK, "Fir cones, four cavities", `name="l2.what"`)
	s.showsAfter("/pours/sheets/new", sheetForm("do", "work"), "556", "44", "as one was weighed", `name="l1.what"`, "Not counted")
	s.showsAfter("/pours/sheets/new", sheetForm("do", "row", "l1.what", "", "l2.what", ""), `name="l4.what"`, `value="200"`)
	s.sendsOn("/pours/sheets/new", sheetForm(), "/pours/sheets/1")
	s.shows("/pours/sheets/1", http.StatusOK, "Never leave melting wax alone.", "keep the wax below 64.3 °C", "Make it a pour", "2 × Pebble tumbler, Larkspur 6: 200 g each", "4 × Fir cones: 50 g each")
	s.ticks("only", "m1.wax", "m1.wax.said", "560")
	s.ticks("only", "m1.heat", "m1.heat.done", "1")
	s.shows("/pours/sheets/1", http.StatusOK, "4 g over", "For the 560 g of wax that were weighed it is 45 g.")
	if w := s.tick("only", "m1.oil", "m1.oil.said", "a drop"); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Header().Get("Content-Type"), "text/plain") {
		t.Errorf("a mass that is none: %d %s", w.Code, w.Body)
	}
	form := url.Values{"token": {"p"}, "was": {"m1.wax", "m1.heat"}, "m1.wax.done": {"1"}, "m1.wax.said": {"560"}, "m1.heat.done": {"1"}, "m1.heat.said": {"80"}, "m1.pour.said": {"140F"}}
	s.sendsOn("/pours/sheets/1/pour", form, "/pours/2")
	s.sendsOn("/pours/sheets/1/pour", form, "/pours/2")
	p := s.pourNumber(2)
	if *p.WaxMass != 560 || *p.OilMass != 44 || *p.HeatedTo != 80 || quantity.Metric.ShowTemperature(*p.PouredAt).String() != "60 °C" || p.OilAt != nil || *p.Load != 0.08 || !p.At.Equal(candleNoon) || p.Note != "" {
		t.Errorf("pour %+v", p)
	}
	lines, err := s.store.PourCandles(t.Context(), p.ID)
	if err != nil || len(lines) != 2 || lines[1].Candle.Letter != "B" || lines[1].Candle.Wick != 1 {
		t.Errorf("candles %+v, %v", lines, err)
	}
	casts, err := s.store.Casts(t.Context(), journal.CastFilter{Pour: p.ID})
	if err != nil || len(casts) != 1 || casts[0].Cast.Pieces != 4 || casts[0].Cast.Out != nil {
		t.Errorf("casts %+v, %v", casts, err)
	}
	s.shows("/pours/sheets/1", http.StatusOK, "This sheet was poured", "560 g")
	s.sendsBack("/pours/sheets/1/pour", url.Values{"token": {"again"}}, http.StatusUnprocessableEntity, "poured")
	if lines, _, err := s.store.Pours(t.Context(), 0, 9); err != nil || len(lines) != 2 {
		t.Errorf("%d pours, %v", len(lines), err)
	}
}

// Without the script the whole page is sent; what another screen ticked since it
// was opened stays.
func TestTicksOfAnotherScreenStay(t *testing.T) {
	s := sheetSite(t)
	s.sendsOn("/pours/sheets/new", sheetForm(), "/pours/sheets/1")
	s.ticks("only", "m1.wax", "m1.wax.done", "1")
	s.sendsOn("/pours/sheets/1/tick", url.Values{"token": {"a"}, "m1.oil.said": {"44"}}, "/pours/sheets/1")
	if got := s.tickedKeys(); got != "m1.wax m1.oil" {
		t.Errorf("ticked: %s", got)
	}
	s.sendsOn("/pours/sheets/1/tick", url.Values{"token": {"b"}, "was": {"m1.wax", "m1.oil"}, "m1.oil.said": {"44"}}, "/pours/sheets/1")
	if got := s.tickedKeys(); got != "m1.oil" {
		t.Errorf("after the wax was unticked: %s", got)
	}
	s.sendsBack("/pours/sheets/1/tick", url.Values{"token": {"c"}, "m1.heat.said": {"lukewarm"}}, http.StatusUnprocessableEntity, `value="lukewarm"`)
}

// Bad entries come back whole, each with its sentence.
func TestSheetsThatAreWrongComeBackAsTyped(t *testing.T) {
	s := sheetSite(t)
	for _, c := range []struct{ name, field, value, says string }{
		{"load of a hundred", "load", "100", "f-load-problem"},
		{"negative load", "load", "-1", "f-load-problem"},
		{"no wax", "wax", "", "f-wax-problem"},
		{"nothing to fill", "l0.what", "", "Choose a vessel or a mould."},
		{"no count", "l0.count", "", "Say how many."},
		{"none", "l0.count", "0", "Between 1 and 2,000."},
		{"a thing that is not there", "l0.what", "x7", "Choose one from the list."},
		{"a vessel that is not there", "l0.what", "v77", "Choose one from the list."},
		{"melter too small", "melter", "150", "too small for a single piece"},
		{"no step", "step", "0", "f-step-problem"},
		{"a wick in a mould", "l3.wick", "1", "A wick goes with a vessel."},
	} {
		t.Run(c.name, func(t *testing.T) {
			s.sendsBack("/pours/sheets/new", sheetForm(c.field, c.value), http.StatusUnprocessableEntity, c.says)
		})
	}
	if list, err := s.store.PourSheets(t.Context()); err != nil || len(list) != 0 {
		t.Errorf("%d sheets, %v", len(list), err)
	}
}

// What is only missing is asked for on the sheet itself, which cannot be poured
// until then.
func TestASheetAsksForWhatIsMissing(t *testing.T) {
	s := sheetSite(t)
	s.sendsOn("/pours/sheets/new", sheetForm("l0.test_fill", ""), "/pours/sheets/1")
	s.shows("/pours/sheets/1", http.StatusOK, "It cannot be worked out yet", "This needs the volume of Pebble tumbler.", "/shelf/vessels/1/edit")
	s.sendsBack("/pours/sheets/1/pour", url.Values{"token": {"p"}}, http.StatusUnprocessableEntity, "cannot be worked out yet")
	s.shows("/pours/sheets/1/edit", http.StatusOK, `value="50"`, "Correct sheet 1")
	s.sendsOn("/pours/sheets/1/edit", sheetForm("token", "e", "version", "1"), "/pours/sheets/1")
	s.sendsBack("/pours/sheets/1/edit", sheetForm("token", "f", "version", "1", "load", "7"), http.StatusConflict, "changed meanwhile")
}

func TestWhatIsLeftIsWorkedOut(t *testing.T) {
	s := sheetSite(t)
	s.shows("/pours/sheets/left", http.StatusOK, "What can I fill with what is left?")
	s.shows("/pours/sheets/left?wax=1", http.StatusUnprocessableEntity, "Say how much wax is left")
	s.shows("/pours/sheets/left?wax=1&wax_left=1+kg", http.StatusOK, "This needs the volume of Pebble tumbler.", "density of Meadow blend")
	s.shows("/pours/sheets/left?wax=1&wax_left=much", http.StatusUnprocessableEntity, `value="much"`)
}

// A melt of a round fills the form, and its candles get their places, once.
func TestAMeltOfARoundIsPoured(t *testing.T) {
	s := sheetSite(t)
	place := func(n int) journal.RoundPlace {
		return journal.RoundPlace{Number: n, Melt: 1, Copy: n, Vessel: 1, Wick: 2, Wicks: 1, Bench: n, Evening: 1}
	}
	r := journal.TestRound{Question: "Which rung?", Wax: 1, Copies: 2, Factors: journal.RoundFactors{Vessels: []journal.ID{1}, Wicks: []journal.RoundWick{{Wick: 2, Wicks: 1}}, LoadBasis: journal.OfWax},
		Places: []journal.RoundPlace{place(1), place(2)}, Days: journal.RoundDays{Hours: 4, PerEvening: 1, BenchPlaces: 4, Weekdays: []time.Weekday{time.Friday}}}
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error { return tx.SaveRound(&r) })
	s.shows("/pours/sheets/new?round=1&melt=1", http.StatusOK, `value="1 2"`, "of a round: place 1, 2", `name="round" value="1"`)
	form := url.Values{"token": {"r"}, "do": {"save"}, "wax": {"1"}, "step": {"1"}, "round": {"1"}, "l0.what": {"v1"}, "l0.count": {"2"}, "l0.wick": {"2"}, "l0.wicks": {"1"}, "l0.places": {"1 2"}, "l0.test_fill": {"200"}}
	s.sendsOn("/pours/sheets/new", form, "/pours/sheets/1")
	form.Set("token", "r2")
	s.sendsOn("/pours/sheets/new", form, "/pours/sheets/2")
	s.sendsOn("/pours/sheets/1/pour", url.Values{"token": {"p"}}, "/pours/2")
	s.sendsBack("/pours/sheets/2/pour", url.Values{"token": {"q"}}, http.StatusUnprocessableEntity, "The candle of place 1 of the round is poured already.")
	lines, err := s.store.RoundCandles(t.Context(), 1)
	if err != nil || len(lines) != 2 || lines[1].Candle.RoundPlace != 2 {
		t.Errorf("%+v, %v", lines, err)
	}
}

func (s candleSite) showsAfter(path string, form url.Values, want ...string) {
	s.t.Helper()
	w := s.ask(path, form)
	for _, x := range want {
		if w.Code != http.StatusOK || !strings.Contains(strings.ToLower(w.Body.String()), strings.ToLower(x)) {
			s.t.Errorf("%s answers %d without %q", path, w.Code, x)
		}
	}
}

func (s candleSite) tick(pairs ...string) *httptest.ResponseRecorder {
	s.t.Helper()
	form := url.Values{}
	for i := 0; i+1 < len(pairs); i += 2 {
		form.Set(pairs[i], pairs[i+1])
	}
	return s.ask("/pours/sheets/1/tick", form)
}

func (s candleSite) ticks(pairs ...string) {
	s.t.Helper()
	if w := s.tick(pairs...); w.Code != http.StatusNoContent {
		s.t.Errorf("tick %v: %d %s", pairs, w.Code, w.Body)
	}
}

func (s candleSite) tickedKeys() string {
	s.t.Helper()
	x, err := s.store.PourSheet(s.t.Context(), 1)
	if err != nil {
		s.t.Fatal(err)
	}
	var keys []string
	for _, k := range x.Body.Ticks {
		keys = append(keys, k.Key)
	}
	return strings.Join(keys, " ")
}

func (s candleSite) pourNumber(id journal.ID) journal.Pour {
	s.t.Helper()
	p, err := s.store.Pour(s.t.Context(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	return p
}
