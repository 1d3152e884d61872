package server_test

import (
	"context"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

func TestCandlesOfAPourAreAddedAtOnce(t *testing.T) {
	for _, c := range []struct {
		name string
		form url.Values
		want []string // filled masses of the candles after the studio's three
	}{
		{"one, when nothing is counted", candleForm(), []string{"-"}},
		{"as many as are counted", candleForm("count", "3", "filled_2", "182"), []string{"-", "182 g", "-"}},
		{"as many as have a mass", candleForm("filled_1", "180", "filled_3", "6.42 oz"), []string{"180 g", "-", "182 g"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newCandleSite(t)
			s.sendsOn("/pours/1/candles/new", c.form, "/pours/1")
			lines, err := s.store.PourCandles(context.Background(), 1)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for i, l := range lines[3:] {
				if l.Candle.Letter != journal.LetterOf(3+i) || l.Candle.Wicks != 2 || l.Candle.Wick != 2 {
					t.Errorf("candle %+v", l.Candle)
				}
				got = append(got, filledText(l.Candle.Filled))
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func filledText(m *quantity.Grams) string {
	if m == nil {
		return "-"
	}
	return m.String()
}

func TestCandlesThatAreWrongComeBackAsTyped(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/pours/1/candles/new", http.StatusOK, "1-D", "1-O", "How many alike")
	for _, c := range []struct{ name, field, value, says string }{
		{"more masses than candles", "count", "1", "More masses are typed below than candles counted here."},
		{"too many at once", "count", "13", "Between 1 and 12 at once."},
		{"no mass", "filled_1", "a lot", `value="a lot"`},
		{"a mass beyond all scales", "filled_2", "30 kg", `id="f-filled_2-problem">Between 1 g and 20 kg.`},
		{"no wick", "wick", "", "Not saved yet"},
		{"a wick that is not on the shelf", "wick", "99", "Not saved yet"},
	} {
		t.Run(c.name, func(t *testing.T) {
			form := candleForm("filled_2", "182", c.field, c.value)
			s.sendsBack("/pours/1/candles/new", form, http.StatusUnprocessableEntity, c.says)
		})
	}
	if lines, err := s.store.PourCandles(context.Background(), 1); err != nil || len(lines) != 3 {
		t.Errorf("%d candles (%v), want the three of the studio", len(lines), err)
	}
}

func TestSameFormTwiceAddsCandlesOnce(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/pours/1/candles/new", candleForm("count", "2"), "/pours/1")
	s.sendsOn("/pours/1/candles/new", candleForm("count", "2"), "/pours/1")
	if lines, err := s.store.PourCandles(context.Background(), 1); err != nil || len(lines) != 5 {
		t.Errorf("%d candles (%v), want 5", len(lines), err)
	}
}

func TestCandleIsCorrected(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/candles/1/edit", http.StatusOK, "Correct 1-A", `name="version" value="1"`)
	s.sendsOn("/candles/1/edit", candleForm("version", "1", "filled", "182"), "/candles/1")
	if c := s.candle(1); c.Wick != 2 || c.Wicks != 2 || c.Letter != "A" || filledText(c.Filled) != "182 g" {
		t.Errorf("candle %+v", c)
	}
	s.shows("/candles/1", http.StatusOK, "Candle 1-A corrected", "Larkspur 6", "2 × Larkspur 7")
	s.sendsBack("/candles/1/edit", candleForm("version", "1", "token", "later"), http.StatusConflict, "changed meanwhile")
	s.sendsBack("/candles/1/edit", candleForm("version", "2", "wicks", "many"), http.StatusUnprocessableEntity, `value="many"`)
}

func TestSameAgainTakesTheNextLetter(t *testing.T) {
	s := newCandleSite(t)
	again := url.Values{"wick": {"3"}, "token": {"a"}}
	s.sendsOn("/candles/1/again", again, "/candles/4")
	s.sendsOn("/candles/1/again", again, "/candles/4")
	c := s.candle(4)
	if c.Code() != "1-D" || c.Wick != 3 || c.Vessel != 1 || c.Wicks != 1 || c.Filled != nil {
		t.Errorf("candle %+v", c)
	}
	s.sendsBack("/candles/1/again", url.Values{"token": {"b"}}, http.StatusUnprocessableEntity, "Choose the wick.")
}

func TestCandlePageShowsABurnWithItsReadings(t *testing.T) {
	s := newCandleSite(t)
	b := testkit.Light(t, s.store, 3*time.Hour, s.Candles[0])[0]
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		a, c := quantity.Millimetres(48), quantity.Millimetres(46)
		if err := tx.SaveCheck(&journal.Check{Burn: b.ID, At: b.LitAt.Add(time.Hour), WidthA: &a, WidthB: &c}); err != nil {
			return err
		}
		return tx.SaveCheck(&journal.Check{Burn: b.ID, At: b.LitAt.Add(150 * time.Minute), Full: true})
	})
	s.shows("/candles/1", http.StatusOK, "1-A", "Lit for 3 h 00, burn 1.", "/candles/1/check", "/burns/1/snuff", "48 × 46", "2 h 30",
		"Width against time", "wall 76 mm", "Not enough weighings yet.", "/checks/1/edit", "/withdraw/check/2", "Burn 1 written down", "Same again with ")
	s.shows("/candles/2", http.StatusOK, "/light?candle=2", "No burns yet.")
	s.shows("/candles", http.StatusOK, "1-A", "lit", "ready, not burned yet")
}

func TestCandleListIsNarrowed(t *testing.T) {
	s := newCandleSite(t)
	w := s.ask("/candles?wick=2", nil)
	if body := w.Body.String(); !strings.Contains(body, ">1-B<") || strings.Contains(body, ">1-A<") {
		t.Error("the list is not narrowed to the wick")
	}
	s.shows("/candles?vessel=9", http.StatusOK, "No candle fits.", "All candles")
	w = s.ask("/candles?before=2", nil)
	if body := w.Body.String(); !strings.Contains(body, ">1-A<") || strings.Contains(body, ">1-B<") {
		t.Error("the list does not go on before the second candle")
	}
}

func TestWithdrawnCheckIsBroughtBackFromTheCandle(t *testing.T) {
	s := newCandleSite(t)
	b := testkit.Light(t, s.store, 3*time.Hour, s.Candles[0])[0]
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		c := journal.Check{Burn: b.ID, At: b.LitAt.Add(time.Hour), Full: true}
		if err := tx.SaveCheck(&c); err != nil {
			return err
		}
		return tx.Withdraw(journal.NounCheck, c.ID, "wrong candle")
	})
	s.shows("/candles/1", http.StatusOK, "withdrawn: wrong candle", `action="/restore/check/1"`, "Bring it back")
	s.sendsOn("/restore/check/1", url.Values{}, "/candles/1")
	s.shows("/candles/1", http.StatusOK, "/withdraw/check/1", "brought back")
}

func TestUnknownPoursAndCandlesAreNotFound(t *testing.T) {
	s := newCandleSite(t)
	for _, path := range []string{"/pours/99", "/pours/x", "/pours/99/edit", "/pours/99/candles/new", "/candles/99", "/candles/0", "/candles/99/edit"} {
		s.shows(path, http.StatusNotFound, "There is nothing here.")
	}
	for _, path := range []string{"/pours/99/edit", "/pours/99/candles/new", "/candles/99/edit", "/candles/99/again"} {
		s.sendsBack(path, candleForm(), http.StatusNotFound, "There is nothing here.")
	}
}

func TestEmptyJournalSaysWhatAPourAndACandleNeed(t *testing.T) {
	s := emptySite(t)
	s.shows("/pours", http.StatusOK, "No pour yet.", "/pours/new")
	s.shows("/candles", http.StatusOK, "No candle yet.", "/pours/new")
	s.shows("/pours/new", http.StatusOK, "A pour needs a wax", "/shelf/waxes/new")
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		w := journal.Wax{Name: "Meadow blend", Family: "soy", LoadBasis: journal.OfWax}
		if err := tx.SaveWax(&w); err != nil {
			return err
		}
		return tx.SavePour(&journal.Pour{At: candleNoon, Wax: w.ID, LoadBasis: journal.OfWax})
	})
	s.shows("/pours/1/candles/new", http.StatusOK, "A candle needs a vessel and a wick", "/shelf/vessels/new", "/shelf/ladders/new")
}
