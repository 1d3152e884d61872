package main

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// demoPages are the pages of the demo season; the IDs are those of the first
// things in it.
var demoPages = []string{
	"/", "/walk", "/light", "/light?round=1", "/light?round=2", "/snuff", "/weigh", "/candles", "/candles/1", "/candles/1/edit", "/candles/1/paper",
	"/standings", "/standings?setting=", "/standings?vessel=&wax=&setting=", pairingPage, "/standings/method", "/side-by-side", "/side-by-side?of=c1&of=c2&of=c3", "/side-by-side?of=p1.1.2.1.1.1-8000&of=p1.1.3.1.1.1-8000&of=p1.1.4.1.1.1-8000&of=p1.1.5.1.1.1-8000&of=p1.1.6.1.1.1-8000&of=p1.1.7.1.1.1-8000", "/side-by-side?of=c1&of=p1.1.3.1.1.1-8000&of=c999", "/pours", "/curing", "/pours/1", "/pours/1/edit", "/pours/new", "/pours/1/candles/new", "/candles/1/findings", "/candles/1/findings?level=note", "/standings/moved", "/standings/moved?wax=2",
	"/shelf", "/shelf/waxes/1", "/shelf/waxes/1/edit", "/shelf/vessels/1", "/shelf/vessels/1/edit", "/shelf/fragrances/1",
	"/shelf/ladders/1", "/shelf/ladders/1/counts", "/shelf/ladders/1/rungs/1", "/shelf/ladders/1/rungs/1/edit", "/shelf/ladders/1/rungs/new", "/shelf/ladders/new",
	"/casts", "/casts/1", "/casts/1/edit", "/casts/11/out", "/pours/1/casts/new", "/shelf/moulds/1", "/shelf/moulds/2/edit", "/shelf/moulds/new",
	"/burns/1/edit", "/checks/1/edit", "/withdraw/candle/1", "/burns/1/checks/new", "/photos/new?of=burn&id=1",
	"/verdicts", "/verdicts/1", "/verdicts/2", "/verdicts/1/edit", "/verdicts/1/sheet", "/verdicts/new?" + sixInPebble, "/spec?" + sixInPebble, "/withdraw/verdict/1",
	"/rounds", "/rounds/new", "/rounds/new?ask=rung", "/rounds/1", "/rounds/2", "/rounds/2/days", "/rounds/2/edit", "/rounds/2/labels", "/withdraw/round/2",
	"/settings", "/settings/limits", "/settings/beliefs", "/about", "/cautions", "/nowhere",
	"/pours/sheets", "/pours/sheets/1", "/pours/sheets/2", "/pours/sheets/2/edit", "/pours/sheets/new", "/pours/sheets/left", "/pours/sheets/left?wax=1&fragrance=1&load=8&wax_left=5000", "/withdraw/pour_sheet/2",
	"/pours/21/tops", "/pours/1/tops?candle=1", "/set-checks/1", "/set-checks/1/edit", "/withdraw/set%20check/1", "/settled", "/settled?wax=1",
	"/throw", "/throw/new", "/throw/1", "/throw/2", "/throw/2?nose=Ines", "/throw/2/edit", "/throw/3", "/throw/3/uncover", "/throw/3/labels", "/throw/3/labels?show=1", "/withdraw/smelling/1",
	"/labels", "/labels?of=c1&of=c2", "/pours/1/labels", "/pours/1/labels?size=25&paper=letter&start=999&of=c1", "/throw/3/codes",
}

// pairingPage is the middle rung of the demo's busiest ladder.
const pairingPage = "/standings/pairing?vessel=1&wax=1&series=1.1.1-8000&wick=5"

// emptyPages are the pages that say what to do first.
var emptyPages = []string{"/", "/walk", "/light", "/weigh", "/candles", "/pours", "/pours/new", "/standings", "/standings/method", "/side-by-side", "/shelf", "/settings", "/settings/beliefs", "/standings/moved", "/throw", "/throw/new", "/verdicts", "/labels", "/casts", "/rounds", "/rounds/new", "/curing", "/pours/sheets", "/pours/sheets/new", "/pours/sheets/left", "/settled"}

// Every page, in both dresses, has no finding of axe-core and nothing that
// sticks out at any width.
func TestPagesOfTheDemo(t *testing.T) {
	s := demoStudio(t)
	lit := litPages(t, s)
	lookAt(t, s, "demo", append(demoPages, lit...))
}

func TestPagesOfAnEmptyJournal(t *testing.T) {
	lookAt(t, emptyStudio(t), "empty", emptyPages)
}

// litPages are the pages of a candle that is lit.
func litPages(t *testing.T, s *studio) []string {
	t.Helper()
	lit, err := s.store.LitLogs(t.Context())
	if err != nil || len(lit) == 0 {
		t.Fatalf("nothing is lit in the demo: %v", err)
	}
	c, b := lit[0].Candle.ID, lit[0].OpenBurn().Burn.ID
	return []string{fmt.Sprintf("/candles/%d", c), fmt.Sprintf("/candles/%d/check", c), fmt.Sprintf("/burns/%d/snuff", b)}
}

func lookAt(t *testing.T, s *studio, which string, paths []string) {
	axe := axeScript(t)
	b := newTab(t, s.base(), laptop)
	for _, night := range []bool{false, true} {
		for _, width := range []int64{1440, 768, 390, 320} {
			if night && width != 1440 && os.Getenv("RIMWARD_SHOTS") == "" {
				continue // by night only colours differ: one width tells them
			}
			b.wear(screen{width: width, height: 900, mobile: width < 500, night: night})
			for _, p := range paths {
				b.open(p)
				name := fmt.Sprintf("%s%s-%d-%s", which, strings.NewReplacer("/", "-", "?", "-", "&", "-", "=", "").Replace(p), width, map[bool]string{false: "day", true: "night"}[night])
				if width == 1440 || width == 390 {
					b.shot(name)
				}
				if out := b.overflows(); out != "" && !night {
					t.Errorf("%s at %d px: %s sticks out", p, width, out)
				}
				if width == 1440 || (width == 390 && !night) {
					for _, v := range b.axe(axe) {
						t.Errorf("%s at %d px (night %v): %s", p, width, night, v)
					}
				}
				if width == 1440 && !night {
					b.pdf(name)
				}
			}
		}
	}
}

// An evening for which two rounds plan more candles than the bench holds.
func TestPagesOfACrowdedEvening(t *testing.T) {
	s := demoStudio(t)
	r, err := s.store.Round(t.Context(), 2)
	if err != nil {
		t.Fatal(err)
	}
	first, err := s.store.RoundCandles(t.Context(), r.ID)
	if err != nil || len(first) == 0 {
		t.Fatalf("no candle of the round: %v", err)
	}
	r.Meta, r.Question, r.Days.BenchPlaces = journal.Meta{}, "Does Larkspur 7 burn as the last batch did?", 8
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		if err := tx.SaveRound(&r); err != nil {
			return err
		}
		for _, p := range r.Places {
			c := journal.Candle{Pour: first[len(first)-1].Candle.Pour, Vessel: p.Vessel, Wick: p.Wick, Wicks: p.Wicks, Round: &r.ID, RoundPlace: p.Number}
			if err := tx.SaveCandle(&c); err != nil {
				return err
			}
		}
		return nil
	})
	s.later((6*24 - 2) * time.Hour) // 17:42, when both have cured
	lookAt(t, s, "evening", []string{"/", "/light", "/light?round=3", "/rounds/2"})
}
