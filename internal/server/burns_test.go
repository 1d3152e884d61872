package server_test

import (
	"context"
	"net/url"
	"regexp"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/testkit"
)

func TestLightASitting(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/light?candle=2", 200, "1-A", "1-B", "Trim", `name="c2.pick" value="1" checked`)
	s.sendsBack("/light", url.Values{"token": {"a"}}, 422, "Tick the candles that you light.")
	s.sendsBack("/light", url.Values{"token": {"a"}, "c1.pick": {"1"}, "c1.trim": {"short"}, "c1.place": {"north bench"}}, 422, "Write a length such as", `value="short"`, `value="north bench"`)
	s.sendsOn("/light", url.Values{"token": {"a"}, "room": {"70F"}, "draught": {"slight"},
		"c1.pick": {"1"}, "c1.trim": {"6"}, "c1.mass_before": {"250"}, "c3.pick": {"1"}, "c2.trim": {"6"}}, "/")
	one, two := s.open(1), s.open(3)
	if one.Candle != 1 || two.Candle != 3 || one.Sitting == nil || *one.Sitting != *two.Sitting || !one.LitAt.Equal(candleNoon) {
		t.Errorf("the sitting is %+v and %+v", one, two)
	}
	if *one.Trim != 6 || *one.MassBefore != 250 || one.Draught != "slight" || *two.Room < 21.1 || *two.Room > 21.2 {
		t.Errorf("the burns are %+v and %+v", one, two)
	}
	// What is lit stands on the list no more.
	s.sendsOn("/light", url.Values{"token": {"b"}, "c2.pick": {"1"}}, "/")
	s.sendsBack("/light", url.Values{"token": {"c"}, "c2.pick": {"1"}}, 422, "Tick the candles that you light.")
}

// open is the burn that a candle is lit in.
func (s candleSite) open(candle journal.ID) journal.Burn {
	s.t.Helper()
	l, err := s.store.CandleLog(context.Background(), candle)
	if err != nil || l.OpenBurn() == nil {
		s.t.Fatalf("candle %d is not lit: %v", candle, err)
	}
	return l.OpenBurn().Burn
}

// A candle that cures still is asked about once.
func TestLightingBeforeTheCure(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/pours/1/edit", pourForm("version", "1", "at_date", "2026-05-12"), "/pours/1")
	s.sendsOn("/shelf/waxes/1/edit", url.Values{"token": {"w"}, "version": {"1"}, "name": {"Meadow blend"}, "family": {"soy"}, "cure_days_low": {"14"}}, "/shelf/waxes/1")
	form := url.Values{"token": {"a"}, "c1.pick": {"1"}, "lit_time": {"11:50"}}
	w := s.ask("/light", form)
	s.hold("/light", w, 422, []string{"has not finished its cure", `name="asked"`})
	asked := regexp.MustCompile(`name="asked" value="([^"]+)"`).FindStringSubmatch(w.Body.String())
	form.Set("asked", asked[1])
	s.sendsOn("/light", form, "/")
}

func TestSnuffAndWeigh(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/light", url.Values{"token": {"a"}, "lit_time": {"09:00"}, "c1.pick": {"1"}, "c1.mass_before": {"250"}, "c2.pick": {"1"}, "c2.mass_before": {"250"}}, "/")
	s.shows("/snuff", 200, "Put them out", "1-A", "1-B")
	s.sendsBack("/snuff", url.Values{"token": {"s"}}, 422, "Tick the candles that are out.")
	// One row is unlikely (a scale in ounces), the other is saved.
	form := url.Values{"token": {"s"}, "out_time": {"12:00"}, "b1.token": {"s1"}, "b1.pick": {"1"}, "b1.ending": {"snuffed"}, "b1.after_smoke": {"24"},
		"b2.token": {"s2"}, "b2.pick": {"1"}, "b2.ending": {"went out"}, "b2.mass_after": {"8.1"}}
	s.sendsBack("/snuff", form, 422, "g/h for each wick", "Saved for 1-A", `value="8.1"`)
	if b := s.burn(1); b.Lit() || b.Ending != journal.Snuffed || *b.AfterSmoke != 24 || !b.OutAt.Equal(candleNoon) {
		t.Errorf("the burn is %+v", b)
	}
	form = url.Values{"token": {"s"}, "out_time": {"12:00"}, "b2.token": {"s2"}, "b2.pick": {"1"}, "b2.ending": {"went out"}, "b2.mass_after": {"231"}}
	s.sendsOn("/snuff", form, "/")
	s.shows("/weigh", 200, "1-A", "before: 250")
	s.sendsBack("/weigh", url.Values{"token": {"w"}}, 422, "No mass was typed yet.")
	s.sendsBack("/weigh", url.Values{"token": {"w"}, "b1.token": {"w1"}, "b1.mass_after": {"260"}}, 422, "Heavier than before", `value="260"`)
	s.sendsOn("/weigh", url.Values{"token": {"w"}, "b1.token": {"w1"}, "b1.mass_after": {"231.1"}}, "/")
	if r, ok := s.burn(1).Rate(); !ok || r < 6.2 || r > 6.4 {
		t.Errorf("the rate is %v", r)
	}
}

// A second click on a burn that is over says so and changes nothing.
func TestSnuffTwice(t *testing.T) {
	s := newCandleSite(t)
	testkit.Light(t, s.store, time.Hour, s.Candles[0])
	form := url.Values{"token": {"s"}, "out_time": {"12:00"}, "b1.token": {"x"}, "b1.pick": {"1"}}
	s.sendsOn("/burns/1/snuff", form, "/")
	s.sendsOn("/burns/1/snuff", form, "/candles/1")
	if b := s.burn(1); b.Version != 2 || b.Ending != journal.Snuffed {
		t.Errorf("the burn was changed %d times", b.Version-1)
	}
}

func paperForm(change ...string) url.Values {
	return formOf(change, "token", "p", "lit_date", "2026-05-10", "lit_time", "22:30", "out_time", "01:30", "ending", "snuffed", "mass_before", "250", "mass_after", "231",
		"k1.at_time", "23:30", "k1.width_a", "45", "k2.at_time", "1 h 30", "k2.width_a", "56", "k3.at_time", "00:30", "k3.width_a", "63", "k3.width_b", "61")
}

func TestPaperSheet(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/candles/1/paper", 200, "A burn of 1-A")
	s.sendsBack("/candles/1/paper", paperForm("k2.width_a", "80"), 422, "Wider than the inside of the vessel", "Check 2", `value="80"`, `value="00:30"`)
	if logs, _ := s.store.CandleLog(context.Background(), 1); len(logs.Burns) != 0 {
		t.Fatalf("a sheet that came back left %d burns", len(logs.Burns))
	}
	s.sendsBack("/candles/1/paper", paperForm("k3.width_a", "40"), 422, "wider at an earlier check")
	s.sendsBack("/candles/1/paper", paperForm("k3.at_time", ""), 422, "Say when this check was made.")
	s.sendsBack("/candles/1/paper", paperForm("k3.at_time", "03:30"), 422, "The candle was out by then")
	s.sendsOn("/candles/1/paper", paperForm(), "/candles/1")
	lit := time.Date(2026, 5, 10, 22, 30, 0, 0, time.UTC)
	cs := s.checks(1)
	if len(cs) != 3 || !cs[0].At.Equal(lit.Add(time.Hour)) || !cs[1].At.Equal(lit.Add(90*time.Minute)) || !cs[2].At.Equal(lit.Add(2*time.Hour)) {
		t.Errorf("the checks are %+v", cs)
	}
	if b := s.burn(1); !b.OutAt.Equal(lit.Add(3 * time.Hour)) {
		t.Errorf("out at %v", b.OutAt)
	}
}

func TestCorrectionsKeepWhatWasThere(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm(), "/candles/1")
	s.shows("/burns/1/edit", 200, `value="250"`, `value="22:30"`)
	edit := url.Values{"token": {"e"}, "version": {"1"}, "lit_date": {"2026-05-10"}, "lit_time": {"22:30"}, "out_date": {"2026-05-11"}, "out_time": {"01:30"}, "ending": {"snuffed"}, "mass_before": {"252"}, "mass_after": {"231"}}
	s.sendsOn("/burns/1/edit", edit, "/candles/1")
	s.shows("/candles/1", 200, "250", "252")
	// Somebody else corrected it meanwhile: the text is kept, the next save
	// goes through.
	edit.Set("token", "f")
	edit.Set("mass_before", "253")
	s.sendsBack("/burns/1/edit", edit, 409, "changed meanwhile", `value="253"`, `name="version" value="2"`)
	s.sendsBack("/burns/1/edit", formOf([]string{"out_time", "00:10"}, flat(edit, "version", "2")...), 422, "A check of this burn was made after that")
	s.shows("/checks/1/edit", 200, `value="45"`)
	s.sendsOn("/checks/1/edit", url.Values{"token": {"g"}, "version": {"1"}, "at_date": {"2026-05-10"}, "at_time": {"23:30"}, "width_a": {"47"}, "left_out": {"1"}}, "/candles/1")
	if c := s.checks(1)[0]; *c.WidthA != 47 || !c.LeftOut || c.Version != 2 {
		t.Errorf("the check is %+v", c)
	}
	s.shows("/burns/1/checks/new", 200, "A missed check of 1-A")
	s.sendsOn("/burns/1/checks/new", url.Values{"token": {"h"}, "at_date": {"2026-05-11"}, "at_time": {"01:15"}, "width_a": {"70"}}, "/candles/1")
	if got := len(s.checks(1)); got != 4 {
		t.Errorf("%d checks", got)
	}
}

// flat is a form as pairs, with some values changed.
func flat(v url.Values, change ...string) []string {
	for i := 0; i+1 < len(change); i += 2 {
		v.Set(change[i], change[i+1])
	}
	var out []string
	for k := range v {
		out = append(out, k, v.Get(k))
	}
	return out
}

func TestWithdrawAndRestore(t *testing.T) {
	s := litSite(t)
	s.shows("/withdraw/burn/1", 200, "Withdraw burn 1 of 1-A?")
	s.sendsBack("/withdraw/candle/1", url.Values{"token": {"x"}}, 422, "Snuff it first")
	s.sendsOn("/withdraw/burn/1", url.Values{"token": {"y"}, "why": {"lit by mistake"}}, "/candles/1")
	s.shows("/candles/1", 200, "lit by mistake")
	s.sendsOn("/restore/burn/1", url.Values{"a": {"b"}}, "/candles/1")
	if b := s.burn(1); b.IsGone() {
		t.Error("the burn is still gone")
	}
}
