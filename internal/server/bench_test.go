package server_test

import (
	"context"
	"net/http"
	"net/url"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/testkit"
)

// checks are what the journal has of a burn.
func (s candleSite) checks(burn journal.ID) []journal.Check {
	s.t.Helper()
	l, err := s.store.BurnLog(context.Background(), burn)
	if err != nil {
		s.t.Fatal(err)
	}
	return l.Checks
}

func (s candleSite) burn(id journal.ID) journal.Burn {
	s.t.Helper()
	b, err := s.store.Burn(context.Background(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	return b
}

// litSite is a studio with its three candles lit two hours before noon.
func litSite(t *testing.T) candleSite {
	t.Helper()
	s := newCandleSite(t)
	testkit.Light(t, s.store, 2*time.Hour, s.Candles...)
	return s
}

func TestBenchShowsWhatIsLitAndDue(t *testing.T) {
	s := litSite(t)
	s.shows("/", 200, "Three candles lit", "1-A", "Larkspur 6", "no pool measured yet", "Walk the bench", "Never leave a burning candle", "no water on burning wax")
	s.shows("/pulse", 200)
	emptySite(t).shows("/", 200, "Put a wax on the shelf", `href="/rounds/new"`, `href="/pours/sheets/new"`, "Nothing is lit.")
}

func TestWalkSavesRightRowsAndKeepsWrongOnes(t *testing.T) {
	s := litSite(t)
	form := url.Values{"token": {"w"}, "b1.token": {"w1"}, "b1.width_a": {"61"}, "b1.width_b": {"58"}, "b1.clean": {"1"},
		"b2.token": {"w2"}, "b2.width_a": {"wide"}, "b2.note": {"leans <a bit>"}, "b3.token": {"w3"}}
	s.sendsBack("/walk", form, 422, "Check of 1-A saved", "Write a length such as", `value="wide"`, `leans &lt;a bit&gt;`, "saved for 12:00")
	if got := s.checks(1); len(got) != 1 || *got[0].WidthA != 61 || got[0].Soot != "none" {
		t.Errorf("the right row is %+v", got)
	}
	if got := len(s.checks(2)) + len(s.checks(3)); got != 0 {
		t.Errorf("%d checks of a wrong and an empty row", got)
	}
	form.Set("b2.width_a", "full")
	form.Set("at_time", "12:00")
	s.sendsOn("/walk", url.Values{"token": {"w"}, "at_time": {"12:00"}, "b2.token": {"w2"}, "b2.width_a": {"full"}}, "/")
	if got := s.checks(2); len(got) != 1 || !got[0].Full || got[0].WidthA != nil {
		t.Errorf("the mended row is %+v", got)
	}
}

func TestWalkWithNothingTyped(t *testing.T) {
	s := litSite(t)
	s.sendsBack("/walk", url.Values{"token": {"w"}, "b1.token": {"x"}}, 422, "Nothing was typed yet")
}

func TestWalkAsksOnceAndIsBelieved(t *testing.T) {
	s := litSite(t)
	form := url.Values{"token": {"w"}, "at_time": {"11:55"}, "b1.token": {"w1"}, "b1.width_a": {"2.5"}}
	s.sendsBack("/walk", form, 422, "Inches typed as millimetres?", `name="asked" value="b1.unit-slip:width_a:2.5"`)
	form.Set("asked", "b1.unit-slip:width_a:2.5")
	s.sendsOn("/walk", form, "/")
	if got := s.checks(1); len(got) != 1 || *got[0].WidthA != 2.5 || !got[0].At.Equal(candleNoon.Add(-5*time.Minute)) {
		t.Errorf("the check is %+v", got)
	}
}

// The same row sent twice is saved once; the same row with other numbers is
// a saving of its own and meets the rule that a minute has one check.
func TestWalkTwice(t *testing.T) {
	s := litSite(t)
	form := url.Values{"token": {"w"}, "at_time": {"11:55"}, "b1.token": {"w1"}, "b1.width_a": {"61"}}
	s.sendsOn("/walk", form, "/")
	s.sendsOn("/walk", form, "/")
	if got := s.checks(1); len(got) != 1 {
		t.Errorf("%d checks after two clicks", len(got))
	}
	form.Set("b1.width_a", "64")
	s.sendsBack("/walk", form, 422, "There is a check at this minute already", `value="64"`)
}

func TestCheckBeforeLightingAndAfterNow(t *testing.T) {
	s := litSite(t)
	s.sendsBack("/candles/1/check", url.Values{"token": {"x"}, "width_a": {"61"}, "at_time": {"09:59"}}, 422, "The candle was lit only after that", `value="09:59"`, `value="61"`)
	// 12:30 today has not come: it is read as yesterday, when nothing was lit.
	s.sendsBack("/candles/1/check", url.Values{"token": {"y"}, "width_a": {"61"}, "at_time": {"12:30"}}, 422, "The candle was lit only after that")
}

func TestCheckOfACandleThatIsNotLit(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/candles/1/check", 422, "is not lit")
}

func TestDangerIsSavedAndAnsweredFirst(t *testing.T) {
	s := litSite(t)
	s.sendsOn("/candles/2/check", url.Values{"token": {"d"}, "flame": {"76"}}, "/checks/1/danger")
	s.shows("/checks/1/danger", 200, "1-B", "Snuff it", "is saved")
	if got := s.checks(2); len(got) != 1 || *got[0].Flame != 76 {
		t.Errorf("the check is %+v", got)
	}
	// At the limit itself nothing is over it.
	s.sendsOn("/candles/1/check", url.Values{"token": {"e"}, "flame": {"75"}}, "/")
	// Unlikely and dangerous: danger is not kept waiting by a question.
	s.sendsOn("/candles/3/check", url.Values{"token": {"f"}, "odd": {"vessel cracked"}, "width_a": {"2"}}, "/checks/3/danger")
	// Dangerous and unreadable: the answer comes with what is wrong.
	s.sendsBack("/candles/1/check", url.Values{"token": {"g"}, "odd": {"flame on the pool"}, "width_a": {"?"}}, 422, "Smother it: put a metal lid on.", "Write a length such as")
}

func TestDangerOfAnUnknownCheck(t *testing.T) {
	litSite(t).shows("/checks/7/danger", http.StatusNotFound)
}
