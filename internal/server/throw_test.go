package server_test

import (
	"fmt"
	"io"
	"log/slog"
	"math"
	"math/rand/v2"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/server"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// typed makes a form of pairs.
func typed(pairs ...string) url.Values {
	u := url.Values{}
	for i := 0; i+1 < len(pairs); i += 2 {
		u.Add(pairs[i], pairs[i+1])
	}
	return u
}

// beginForm is the form of a smelling of candles 1 to 3 at the site's noon.
func beginForm(how string, change ...string) url.Values {
	u := typed("kind", "cold", "how", how, "at_date", "2026-05-14", "at_time", "11:30", "room", "30 m3", "c1.pick", "1", "c2.pick", "1", "c3.pick", "1", "token", "t-"+how)
	for i := 0; i+1 < len(change); i += 2 {
		u.Set(change[i], change[i+1])
	}
	return u
}

// begun begins a smelling of three candles and gives it back.
func (s candleSite) begun(how string) journal.SmellingLog {
	s.t.Helper()
	s.sendsOn("/throw/new", beginForm(how), "/throw/1")
	return s.smelling(1)
}

func (s candleSite) smelling(id journal.ID) journal.SmellingLog {
	s.t.Helper()
	l, err := s.store.SmellingLog(s.t.Context(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	return l
}

// sheet is what one nose posts: a score for each cup, in the order of codes.
func sheet(l journal.SmellingLog, nose string, scores ...string) url.Values {
	u := typed("nose", nose, "turn", fmt.Sprint(len(l.Noses())), "token", "s-"+nose+strings.Join(scores, ""))
	for i, n := range scores {
		u.Set("k"+l.Cups[i].Cup.Code+".score", n)
	}
	return u
}

func TestASmellingBegins(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/throw", 200, "Nothing was smelled yet")
	s.shows("/throw/new?candle=2", 200, `name="c2.pick" value="1" checked`)
	l := s.begun("open")
	if len(l.Cups) != 3 || l.Smelling.Blind || *l.Smelling.Room != 30 || l.Smelling.Kind != journal.ColdThrow {
		t.Errorf("kept %+v", l)
	}
	s.shows("/throw", 200, "Cold throw of three candles", "/throw/1")
	s.shows("/throw/1", 200, "1-A", "Save this nose")
	again := s.ask("/throw/new", beginForm("open"))
	if again.Code != http.StatusSeeOther || again.Header().Get("Location") != "/throw/1" {
		t.Errorf("the same form sent twice answers %d to %q", again.Code, again.Header().Get("Location"))
	}
	s.shows("/throw/99", 404)
	s.shows("/throw/x", 404)
	s.shows("/throw/1/labels", 404)
	s.shows("/throw/1/uncover", 404)
}

var askedKey = regexp.MustCompile(`name="asked" value="([^"]+)"`)

func TestASmellingIsSentBackWhole(t *testing.T) {
	s := newCandleSite(t)
	for name, c := range map[string]struct {
		form url.Values
		says string
	}{
		"no candle":          {beginForm("open", "c1.pick", "", "c2.pick", "", "c3.pick", ""), "Tick the candles that are smelled"},
		"neither cold nor":   {beginForm("open", "kind", "warm"), "Choose one from the list"},
		"a room of nothing":  {beginForm("open", "room", "NaN"), "Write a room such as"},
		"a room of a mile":   {beginForm("open", "room", "99999"), "Between 1 and 10,000 m³"},
		"tomorrow":           {beginForm("open", "at_date", "2026-05-15"), "lies in the future"},
		"before it was made": {beginForm("open", "at_date", "2026-01-01"), "was poured only after that"},
		"hot and unlit":      {beginForm("open", "kind", "hot"), "was not lit at that time"},
	} {
		c.form.Set("note", "kept "+name)
		s.sendsBack("/throw/new", c.form, 422, c.says, `value="kept `+name+`"`)
	}
	if lines, _, err := s.store.Smellings(t.Context(), 0, 9); err != nil || len(lines) > 0 {
		t.Errorf("refused forms left %v (%v)", lines, err)
	}
	asked := beginForm("open", "kind", "hot")
	for _, m := range askedKey.FindAllStringSubmatch(s.ask("/throw/new", asked).Body.String(), -1) {
		asked.Add("asked", m[1])
	}
	s.sendsOn("/throw/new", asked, "/throw/1")
}

func TestThirtyCandlesAreTooMany(t *testing.T) {
	s := newCandleSite(t)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		for range 27 {
			c := journal.Candle{Pour: s.Pour.ID, Vessel: s.Vessel.ID, Wick: s.Wicks[0].ID, Wicks: 1}
			if err := tx.SaveCandle(&c); err != nil {
				return err
			}
		}
		return nil
	})
	form := beginForm("blind")
	for i := 4; i <= 30; i++ {
		form.Set(fmt.Sprintf("c%d.pick", i), "1")
	}
	s.sendsBack("/throw/new", form, 422, "At most 12 candles")
	for i := 8; i <= 30; i++ {
		form.Del(fmt.Sprintf("c%d.pick", i))
	}
	s.sendsBack("/throw/new", form, 422, "More than six candles tire a nose")
}

func TestMinutesComeFromTheLitBurn(t *testing.T) {
	s := newCandleSite(t)
	testkit.Light(t, s.store, 95*60e9, s.Candles[1])
	s.shows("/throw/new", 200, `name="c2.minutes" value="95"`, `value="hot" checked`)
	form := beginForm("open", "kind", "hot", "at_time", "12:00", "c1.pick", "", "c3.pick", "", "c2.minutes", "1 h 40")
	s.sendsOn("/throw/new", form, "/throw/1")
	if m := s.smelling(1).Cups[0].Cup.Minutes; m == nil || *m != 100 {
		t.Errorf("kept %v minutes", m)
	}
	s.shows("/throw/1/edit", 200, `name="c2.version" value="1"`)
	v := typed("at_date", "2026-05-14", "at_time", "12:00", "room", "", "note", "n", "version", "1", "c2.minutes", "105", "c2.version", "1")
	s.sendsBack("/throw/1/edit", url.Values{"version": {"1"}, "at_date": {"2026-05-14"}, "at_time": {"12:00"}, "c2.minutes": {"soon"}}, 422, "Write minutes such as", `value="soon"`)
	s.sendsOn("/throw/1/edit", v, "/throw/1")
	if l := s.smelling(1); *l.Cups[0].Cup.Minutes != 105 || l.Smelling.Note != "n" || l.Smelling.Room != nil {
		t.Errorf("corrected to %+v", l)
	}
	s.sendsBack("/throw/1/edit", typed("at_date", "2026-05-14", "at_time", "12:00", "note", "other", "version", "1"), 409, "changed meanwhile", "other")
	stale := typed("at_date", "2026-05-14", "at_time", "12:00", "room", "", "note", "n", "version", "2", "c2.minutes", "77", "c2.version", "1")
	s.sendsBack("/throw/1/edit", stale, 409, "changed meanwhile", `value="77"`, `name="c2.version" value="2"`)
	if l := s.smelling(1); *l.Cups[0].Cup.Minutes != 105 {
		t.Errorf("a stale form left %v minutes", *l.Cups[0].Cup.Minutes)
	}
	stale.Set("c2.version", "2")
	s.sendsOn("/throw/1/edit", stale, "/throw/1")
}

func TestANoseScores(t *testing.T) {
	s := newCandleSite(t)
	l := s.begun("open")
	for name, c := range map[string]struct {
		form url.Values
		says string
	}{
		"six":          {sheet(l, "Mara", "6", "3", "3"), "Choose a whole number from 0 to 5."},
		"below none":   {sheet(l, "Mara", "-1", "3", "3"), "Choose a whole number from 0 to 5."},
		"a word":       {sheet(l, "Mara", "strong", "3", "3"), "Choose a whole number from 0 to 5."},
		"nobody":       {sheet(l, " ", "3", "3", "3"), "Whose nose is it?"},
		"a long name":  {sheet(l, strings.Repeat("n", 41), "3", "3", "3"), "under 40 characters"},
		"nothing":      {sheet(l, "Mara", "", "", ""), "Nothing was scored yet"},
		"a note alone": {func() url.Values { u := sheet(l, "Mara"); u.Set("k"+l.Cups[0].Cup.Code+".note", "soapy"); return u }(), "a note but no score"},
	} {
		s.sendsBack("/throw/1/scores", c.form, 422, c.says, "Not saved yet")
		if noses := s.smelling(1).Noses(); len(noses) > 0 {
			t.Fatalf("%s was saved: %v", name, noses)
		}
	}
	s.sendsBack("/throw/1/scores", sheet(l, "Mara", "4", "6", ""), 422, `value="Mara"`, `value="4" checked`)
	s.sendsOn("/throw/1/scores", sheet(l, "Mara", "4", "3", ""), "/throw/1")
	s.sendsOn("/throw/1/scores", sheet(l, "Mara", "4", "3", ""), "/throw/1") // a second click
	s.sendsBack("/throw/1/scores", sheet(s.smelling(1), "MARA", "1", "1", "1"), 422, "has scored")
	s.sendsOn("/throw/1/scores", sheet(s.smelling(1), "Jo", "5", "2", "1"), "/throw/1")
	s.shows("/throw/1", 200, "Mara", "scored 2 of 3 candles", "Jo", "scored all", "The result so far")
	order := []int{}
	for _, c := range s.smelling(1).Cups {
		order = append(order, *c.Of("Jo").Order)
	}
	if slices.Equal(order, []int{1, 2, 3}) || len(order) != 3 {
		t.Errorf("the second nose smelled in the order %v", order)
	}
	s.shows("/throw/1/scores", 404)
	s.sendsBack("/throw/99/scores", sheet(l, "Jo", "1"), 404)
}

func TestScoresAreCorrected(t *testing.T) {
	s := newCandleSite(t)
	l := s.begun("blind")
	s.sendsOn("/throw/1/scores", sheet(l, "Mara", "4", "3", "2"), "/throw/1")
	a, b, c := l.Cups[0].Cup.Code, l.Cups[1].Cup.Code, l.Cups[2].Cup.Code
	s.shows("/throw/1?nose=mara", 200, "The scores of Mara", `name="k`+a+`.version" value="1"`, `name="correcting" value="Mara"`)
	correct := func(scores [3]string, version string) url.Values {
		u := typed("correcting", "Mara", "turn", "0", "token", "c"+strings.Join(scores[:], "")+version)
		for i, code := range []string{a, b, c} {
			u.Set("k"+code+".score", scores[i])
			u.Set("k"+code+".version", version)
		}
		return u
	}
	s.sendsOn("/throw/1/scores", correct([3]string{"4", "5", ""}, "1"), "/throw/1")
	l = s.smelling(1)
	if l.Cups[0].Of("Mara").Version != 1 || l.Cups[1].Of("Mara").Score != 5 || l.Cups[2].Of("Mara") != nil {
		t.Errorf("corrected to %+v", l.Cups)
	}
	s.shows("/throw/1?nose=Mara", 200, "whoever has not scored yet should not look at these scores")
	if w := s.ask("/throw/1", nil).Body.String(); strings.Contains(w, "Mara’s score") || strings.Contains(w, "not smelled after all") || !strings.Contains(w, "Whoever has not scored yet should not look") {
		t.Errorf("the page of the next nose shows what Mara scored:\n%s", w)
	}
	s.sendsBack("/throw/1/scores", correct([3]string{"4", "2", ""}, "1"), 409, "changed meanwhile", `name="k`+b+`.version" value="2"`)
	s.sendsBack("/throw/1/scores", correct([3]string{"4", "", ""}, "1"), 409, "changed meanwhile", `name="k`+b+`.version" value="2"`)
	if x := s.smelling(1).Cups[1].Of("Mara"); x == nil || x.Score != 5 {
		t.Errorf("a stale sheet took a correction back: %+v", x)
	}
	again := correct([3]string{"4", "2", ""}, "2")
	again.Set("k"+a+".version", "1")
	s.sendsOn("/throw/1/scores", again, "/throw/1")
	if got := s.smelling(1).Cups[1].Of("Mara").Score; got != 2 {
		t.Errorf("the second correction left %d", got)
	}
	s.sendsOn("/throw/1/uncover", typed("version", "1", "token", "u"), "/throw/1")
	s.shows("/throw/1", 200, "Mara’s score of "+l.Cups[1].Made.Candle.Code()+" corrected", "not smelled after all")
	s.sendsOn("/withdraw/candle/"+fmt.Sprint(l.Cups[0].Cup.Candle), typed("why", "dropped"), "/candles/"+fmt.Sprint(l.Cups[0].Cup.Candle))
	s.shows("/throw/1", 200, "Withdrawn since: "+l.Cups[0].Made.Candle.Code())
}

var named = regexp.MustCompile(`\b1-[A-C]\b|/candles/\d|Pebble|Larkspur|c[123]\.`)

// While a blind smelling is covered, no page that a nose may see names its
// candles, orders codes as candles are ordered, or numbers them alike.
func TestACoveredSmellingTellsNothing(t *testing.T) {
	s := newCandleSite(t)
	testkit.Light(t, s.store, 95*60e9, s.Candles...)
	form := beginForm("blind", "kind", "hot", "at_time", "12:00", "c1.minutes", "61", "c2.minutes", "62", "c3.minutes", "63")
	s.sendsOn("/throw/new", form, "/throw/1")
	l := s.smelling(1)
	tells := func(path string, w string) {
		t.Helper()
		if got := named.FindString(w); got != "" {
			t.Errorf("%s tells %q", path, got)
		}
		if strings.Contains(w, "61 min") || strings.Contains(w, `value="61"`) {
			t.Errorf("%s tells how long a candle was lit", path)
		}
	}
	look := func(paths ...string) {
		t.Helper()
		for _, p := range paths {
			w := s.ask(p, nil)
			if w.Code != 200 {
				t.Errorf("%s answers %d", p, w.Code)
			}
			tells(p, w.Body.String())
			if found := inline.FindString(strings.ReplaceAll(w.Body.String(), `xmlns="http://www.w3.org/2000/svg"`, "")); found != "" {
				t.Errorf("%s holds %q", p, found)
			}
		}
	}
	look("/throw/1", "/throw", "/throw/1/labels", "/withdraw/smelling/1", "/throw/1/uncover")
	tells("a rejected sheet", s.ask("/throw/1/scores", sheet(l, "", "9", "3", "3")).Body.String())
	s.sendsOn("/throw/1/scores", sheet(l, "Mara", "4", "3", "2"), "/throw/1")
	s.sendsOn("/throw/1/scores", func() url.Values {
		u := typed("correcting", "Mara", "turn", "0", "k"+l.Cups[0].Cup.Code+".score", "1", "k"+l.Cups[0].Cup.Code+".version", "1",
			"k"+l.Cups[1].Cup.Code+".score", "3", "k"+l.Cups[1].Cup.Code+".version", "1", "k"+l.Cups[2].Cup.Code+".score", "2", "k"+l.Cups[2].Cup.Code+".version", "1")
		return u
	}(), "/throw/1")
	look("/throw/1", "/throw/1?nose=Mara", "/throw", "/withdraw/score/1", "/throw/1/uncover")
	s.shows("/withdraw/cup/1", 404) // cups are numbered as the candles were listed
	for i := 1; i <= 3; i++ {
		w := s.ask(fmt.Sprintf("/candles/%d", i), nil).Body.String()
		if strings.Contains(w, "/throw/1") || strings.Contains(w, "smelled</dt>") {
			t.Errorf("the page of candle %d tells of a covered smelling", i)
		}
	}
	body := s.ask("/throw/1", nil).Body.String()
	for _, c := range l.Cups {
		if !strings.Contains(body, ">"+c.Cup.Code+"<") {
			t.Errorf("the sheet has no row for %s", c.Cup.Code)
		}
	}
	s.shows("/throw/1/labels?show=1", 200, "for 1-A", l.Cups[0].Cup.Code)
}

func TestCodesAreUncovered(t *testing.T) {
	s := newCandleSite(t)
	l := s.begun("blind")
	s.sendsBack("/throw/1/uncover", typed("version", "1"), 422, "Nobody has scored yet")
	s.sendsOn("/throw/1/scores", sheet(l, "Mara", "4", "3", "2"), "/throw/1")
	s.shows("/throw/1/uncover", 200, "Uncover the codes?", "One nose has scored so far")
	s.sendsBack("/throw/1/uncover", typed("version", "9"), 409, "changed meanwhile")
	s.sendsOn("/throw/1/uncover", typed("version", "1", "token", "u"), "/throw/1")
	s.sendsOn("/throw/1/uncover", typed("version", "1", "token", "later"), "/throw/1") // from an old tab
	s.shows("/throw/1", 200, "1-A", "1-B", "Result", "Indicative only: 1 judgement", "ASTM E544", "no new nose would be blind")
	s.shows("/throw/1/uncover", 404)
	late := sheet(l, "Jo", "1", "1", "1")
	s.sendsBack("/throw/1/scores", late, 422, "would not be blind", `value="Jo"`)
	s.shows("/candles/1", 200, "Cold throw, smelled", "/throw/1")
	cup := s.smelling(1).Cups[0]
	id := fmt.Sprint(cup.Cup.ID)
	s.shows("/throw/1", 200, "/withdraw/cup/"+id)
	s.sendsOn("/withdraw/cup/"+id, typed("why", "spilt"), "/throw/1")
	s.shows("/throw/1", 200, "Bring "+cup.Made.Candle.Code()+" back", "spilt")
	s.sendsOn("/restore/cup/"+id, typed("x", "1"), "/throw/1")
	if s.smelling(1).Cups[0].Cup.IsGone() {
		t.Error("a cup that was brought back is gone")
	}
}

func TestASmellingIsWithdrawnAndBroughtBack(t *testing.T) {
	s := newCandleSite(t)
	l := s.begun("open")
	s.sendsOn("/throw/1/scores", sheet(l, "Mara", "4", "3", "2"), "/throw/1")
	s.sendsOn("/withdraw/smelling/1", typed("why", "wrong room"), "/throw/1")
	s.shows("/throw/1", 200, "wrong room", "Bring it back")
	s.sendsBack("/throw/1/scores", sheet(l, "Jo", "1", "1", "1"), 422, "withdrawn", `value="Jo"`)
	s.sendsOn("/restore/smelling/1", typed("x", "1"), "/throw/1")
	s.sendsOn("/withdraw/score/1", typed("why", "a cold"), "/throw/1")
	s.shows("/throw/1", 200, "scored 2 of 3")
	s.shows("/withdraw/score/99", 404)
	s.shows("/withdraw/smelling/99", 404)
}

// A server that was given no chance does not start: it has none of its own.
func TestAServerNeedsChance(t *testing.T) {
	if _, err := server.New(server.Options{Store: emptySite(t).store, Now: time.Now}); err == nil {
		t.Error("a server started without chance")
	}
}

// Codes come from the chance that the server is given, and which candle gets
// which follows from nothing else: over many smellings every candle comes first
// in the order of codes about equally often, within four standard deviations.
func TestCodesComeByChance(t *testing.T) {
	s := emptySite(t)
	rng := rand.New(rand.NewPCG(7, 7))
	web, err := server.New(server.Options{Store: s.store, Now: func() time.Time { return candleNoon }, Log: slog.New(slog.NewTextHandler(io.Discard, nil)), Version: "test", Draw: rng.IntN})
	if err != nil {
		t.Fatal(err)
	}
	s.web, s.Studio = web, testkit.NewStudio(t, s.store)
	const n = 60
	first := map[journal.ID]int{}
	for i := range n {
		form := beginForm("blind", "token", fmt.Sprint("chance-", i))
		s.sendsOn("/throw/new", form, fmt.Sprintf("/throw/%d", i+1))
		first[s.smelling(journal.ID(i + 1)).Cups[0].Cup.Candle]++
	}
	spread := 4 * math.Sqrt(n*2.0/9) // of a share of a third
	for _, c := range s.Candles {
		if math.Abs(float64(first[c.ID])-n/3) > spread {
			t.Errorf("candle %s came first %d times of %d", c.Code(), first[c.ID], n)
		}
	}
}

// A candle that was withdrawn meanwhile is not dropped without a word.
func TestATickedCandleThatIsGoneIsSaid(t *testing.T) {
	s := newCandleSite(t)
	s.sendsBack("/throw/new", beginForm("blind", "c99.pick", "1"), 422, "A candle that was ticked cannot be smelled any more", `name="c1.pick"`)
	s.sendsBack("/throw/new", typed("kind", "cold", "how", "open", "at_date", "2026-05-14", "at_time", "11:30"), 422, "Tick the candles that are smelled")
}
