package sqlite_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// smelled is a blind smelling of the bench's three candles.
type smelled struct {
	bench
	of   journal.Smelling
	cups []journal.Cup
}

func newSmelled(t *testing.T, blind bool) smelled {
	t.Helper()
	s := smelled{bench: newBench(t)}
	must(t, s.write(t, func(tx *sqlite.Tx) error {
		s.of = journal.Smelling{At: s.clock.at, Kind: journal.HotThrow, Blind: blind, Room: p(quantity.CubicMetres(30))}
		if err := tx.SaveSmelling(&s.of); err != nil {
			return err
		}
		for i, code := range []string{"731", "204", "568"} {
			c := journal.Cup{Smelling: s.of.ID, Candle: s.st.Candles[i].ID, Code: code, Minutes: p(quantity.Minutes(90))}
			if err := tx.SaveCup(&c); err != nil {
				return err
			}
			s.cups = append(s.cups, c)
		}
		return nil
	}))
	return s
}

// score saves one score and gives back the error.
func (s smelled) score(t *testing.T, cup int, nose string, n int) (journal.Score, error) {
	t.Helper()
	x := journal.Score{Cup: s.cups[cup].ID, Nose: nose, Score: n, Order: p(1), At: s.clock.at}
	return x, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveScore(&x) })
}

// uncover resolves the codes and gives back the error.
func (s *smelled) uncover(t *testing.T) error {
	t.Helper()
	x := s.of
	x.Uncovered = p(s.clock.at)
	err := s.write(t, func(tx *sqlite.Tx) error { return tx.SaveSmelling(&x) })
	if err == nil {
		s.of = x
	}
	return err
}

func refusedWith(t *testing.T, err error, words string) {
	t.Helper()
	var invalid *journal.InvalidError
	if !errors.As(err, &invalid) || !strings.Contains(err.Error(), words) {
		t.Errorf("got %v, want a refusal that says %q", err, words)
	}
}

// No candle is smelled before it is poured, whichever of the two is corrected.
func TestASmellingStaysAfterThePour(t *testing.T) {
	s := newSmelled(t, true)
	x := s.of
	x.At = s.st.Pour.At.Add(-time.Hour)
	refusedWith(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveSmelling(&x) }), "was poured only after that")
	x.At = s.st.Pour.At
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveSmelling(&x) }))
	late := s.st.Pour
	late.At = s.st.Pour.At.Add(time.Hour)
	refusedWith(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SavePour(&late) }), "was smelled before that")
}

func TestASmellingIsKeptWhole(t *testing.T) {
	s := newSmelled(t, true)
	for i, n := range []int{3, 4, 2} {
		_, err := s.score(t, i, "Mara", n)
		must(t, err)
	}
	l, err := s.SmellingLog(t.Context(), s.of.ID)
	must(t, err)
	var codes []string
	for _, c := range l.Cups {
		codes = append(codes, c.Cup.Code+"="+c.Made.Candle.Code())
		if len(c.Scores) != 1 || c.Scores[0].Nose != "Mara" || *c.Cup.Minutes != 90 {
			t.Errorf("%s holds %+v", c.Cup.Code, c)
		}
	}
	if d := cmp.Diff([]string{"204=1-B", "568=1-C", "731=1-A"}, codes); d != "" {
		t.Errorf("cups in the order of their codes (-want +got)\n%s", d)
	}
	if d := cmp.Diff(s.of, l.Smelling); d != "" {
		t.Errorf("the smelling\n%s", d)
	}
}

func TestANoseScoresACupOnce(t *testing.T) {
	s := newSmelled(t, true)
	first, err := s.score(t, 0, "Mara", 3)
	must(t, err)
	_, err = s.score(t, 0, "  mara ", 4)
	refusedWith(t, err, "has scored 731 already")
	first.Score = 4
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveScore(&first) }))
	h, err := s.SmellingHistory(t.Context(), s.of.ID)
	must(t, err)
	if len(h) != 6 || h[0].Kind != journal.Corrected || h[0].Noun != journal.NounScore || !strings.Contains(string(h[0].Before), `"score":3`) {
		t.Errorf("the history holds %d changes, the last %+v", len(h), h[0])
	}
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounScore, first.ID, "slip") }))
	again, err := s.score(t, 0, "Mara", 1)
	must(t, err)
	err = s.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounScore, first.ID) })
	refusedWith(t, err, "already")
	stale := again
	stale.Version = 7
	if err := s.write(t, func(tx *sqlite.Tx) error { return tx.SaveScore(&stale) }); !errors.Is(err, journal.ErrConflict) {
		t.Errorf("a stale correction gives %v", err)
	}
}

func TestCodesStayCoveredUntilSomebodyScored(t *testing.T) {
	s := newSmelled(t, true)
	refusedWith(t, s.uncover(t), "Nobody has scored yet")
	x, err := s.score(t, 0, "Mara", 3)
	must(t, err)
	ids := []journal.ID{s.st.Candles[0].ID, s.st.Candles[1].ID}
	seen, err := s.SmelledOf(t.Context(), ids)
	must(t, err)
	if len(seen) != 0 {
		t.Errorf("a covered smelling shows %+v", seen)
	}
	s.clock.wait(time.Hour)
	must(t, s.uncover(t))
	first := *s.of.Uncovered
	s.clock.wait(time.Hour)
	must(t, s.uncover(t))
	if !s.of.Uncovered.Equal(first) {
		t.Errorf("uncovered at %s, and again at %s", first, s.of.Uncovered)
	}
	seen, err = s.SmelledOf(t.Context(), ids)
	must(t, err)
	if len(seen) != 2 || len(seen[0].Scores) != 1 || seen[0].Cup.Candle != ids[0] {
		t.Errorf("an uncovered smelling shows %+v", seen)
	}
	_, err = s.score(t, 1, "Jo", 3)
	refusedWith(t, err, "would not be blind")
	x.Score = 5
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveScore(&x) }))
}

// While codes are covered no candle is taken out: the gap could name it.
func TestACoveredSmellingKeepsItsCups(t *testing.T) {
	s := newSmelled(t, true)
	_, err := s.score(t, 0, "Mara", 3)
	must(t, err)
	takeOut := func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCup, s.cups[1].ID, "spilt") }
	refusedWith(t, s.write(t, takeOut), "still covered")
	must(t, s.uncover(t))
	must(t, s.write(t, takeOut))
}

// A stale sheet takes no newer correction back.
func TestAScoreIsTakenBackAsItWasSeen(t *testing.T) {
	s := newSmelled(t, true)
	seen, err := s.score(t, 0, "Mara", 3)
	must(t, err)
	now := seen
	now.Score = 5
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveScore(&now) }))
	takeBack := func(x journal.Score) error {
		return s.write(t, func(tx *sqlite.Tx) error { return tx.TakeBackScore(x, "not smelled") })
	}
	if err := takeBack(seen); !errors.Is(err, journal.ErrConflict) {
		t.Errorf("a stale sheet gives %v", err)
	}
	if x, err := s.Score(t.Context(), now.ID); err != nil || x.IsGone() || x.Score != 5 {
		t.Errorf("it left %+v (%v)", x, err)
	}
	must(t, takeBack(now))
	if x, err := s.Score(t.Context(), now.ID); err != nil || !x.IsGone() {
		t.Errorf("it is taken back as %+v (%v)", x, err)
	}
}

func TestWhatIsWithdrawnTakesNoScores(t *testing.T) {
	s := newSmelled(t, false)
	_, err := s.score(t, 0, "Mara", 3)
	must(t, err)
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCup, s.cups[1].ID, "spilt") }))
	_, err = s.score(t, 1, "Mara", 3)
	refusedWith(t, err, "taken out")
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounSmelling, s.of.ID, "wrong room") }))
	_, err = s.score(t, 0, "Jo", 3)
	refusedWith(t, err, "withdrawn")
	seen, err := s.SmelledOf(t.Context(), []journal.ID{s.st.Candles[0].ID})
	must(t, err)
	if len(seen) != 0 {
		t.Errorf("a withdrawn smelling shows %+v", seen)
	}
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounSmelling, s.of.ID) }))
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounCup, s.cups[1].ID) }))
	_, err = s.score(t, 1, "Jo", 3)
	must(t, err)
}

func TestCupsAreRefused(t *testing.T) {
	s := newSmelled(t, true)
	try := func(c journal.Cup) error {
		c.Smelling = s.of.ID
		return s.write(t, func(tx *sqlite.Tx) error { return tx.SaveCup(&c) })
	}
	refusedWith(t, try(journal.Cup{Candle: s.st.Candles[0].ID, Code: "999"}), "not all alike")
	refusedWith(t, try(journal.Cup{Candle: s.st.Candles[0].ID, Code: "310"}), "in this smelling already")
	refusedWith(t, try(journal.Cup{Candle: 99, Code: "310"}), "not in the journal")
	changed := s.cups[0]
	changed.Candle, changed.Code, changed.Minutes = s.st.Candles[2].ID, "111", p(quantity.Minutes(60))
	must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveCup(&changed) }))
	if changed.Candle != s.cups[0].Candle || changed.Code != "731" || *changed.Minutes != 60 {
		t.Errorf("a cup became %+v", changed)
	}
}

func TestSmellingsAreListedInPages(t *testing.T) {
	s := newSmelled(t, true)
	_, err := s.score(t, 0, "Mara", 3)
	must(t, err)
	_, err = s.score(t, 1, "MARA", 3)
	must(t, err)
	var ids []journal.ID
	for i := range 5 {
		x := journal.Smelling{At: s.clock.at.AddDate(0, 0, -i%2-1), Kind: journal.ColdThrow}
		must(t, s.write(t, func(tx *sqlite.Tx) error { return tx.SaveSmelling(&x) }))
		ids = append(ids, x.ID)
	}
	want := []journal.ID{s.of.ID, ids[4], ids[2], ids[0], ids[3], ids[1]}
	var got []journal.ID
	for before := journal.ID(0); ; {
		lines, more, err := s.Smellings(t.Context(), before, 2)
		must(t, err)
		for _, l := range lines {
			got = append(got, l.Smelling.ID)
		}
		if before == 0 && (lines[0].Cups != 3 || lines[0].Noses != 1) {
			t.Errorf("the first line is %+v", lines[0])
		}
		if !more {
			break
		}
		before = lines[len(lines)-1].Smelling.ID
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("the list (-want +got)\n%s", d)
	}
}
