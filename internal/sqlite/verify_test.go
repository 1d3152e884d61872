package sqlite

import (
	"os"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
)

// spoiled fills a journal, spoils it past all rules and verifies it.
func spoiled(t *testing.T, statements ...string) []string {
	t.Helper()
	s, path := openInside(t)
	fillInside(t, s)
	ok(t, s.Write(t.Context(), func(tx *Tx) error {
		out := insideNow
		b := journal.Burn{Meta: journal.Meta{ID: 1, Version: 1}, Candle: 1, LitAt: insideNow.Add(-time.Hour), OutAt: &out, Ending: journal.Snuffed}
		return tx.SaveBurn(&b)
	}))
	db, err := handle(path, "_pragma=foreign_keys(0)&_pragma=ignore_check_constraints(1)", 1)
	ok(t, err)
	for _, x := range statements {
		_, err := db.ExecContext(t.Context(), x)
		ok(t, err)
	}
	ok(t, db.Close())
	problems, err := Verify(t.Context(), path)
	ok(t, err)
	return problems
}

func TestVerifyFindsWhatIsBroken(t *testing.T) {
	const burn2 = `INSERT INTO burn (version, created_at, gone_why, candle_id, number, lit_at, draught, place, out_at, ending, note)
		SELECT version, created_at, gone_why, candle_id, 2, `
	for name, c := range map[string]struct {
		spoil []string
		says  string
	}{
		"a check before its burn":   {[]string{"UPDATE checks SET at = '2026-03-14T16:00:00Z'"}, "A check of burn 1 of candle 1-A"},
		"a check after its burn":    {[]string{"UPDATE checks SET at = '2026-03-14T18:00:01Z'"}, "The candle was out by then"},
		"burns that overlap":        {[]string{burn2 + "'2026-03-14T17:30:00Z', draught, place, '2026-03-14T18:30:00Z', ending, note FROM burn"}, "overlaps burn 1 of 1-A"},
		"a burn before its pour":    {[]string{"UPDATE pour SET at = '2026-03-14T17:30:00Z'"}, "poured only after that"},
		"a burn after a spent one":  {[]string{"UPDATE burn SET ending = 'spent'", burn2 + "'2026-03-14T19:30:00Z', draught, place, '2026-03-14T20:30:00Z', 'snuffed', note FROM burn"}, "is spent"},
		"a reference to nothing":    {[]string{"UPDATE candle SET wick_id = 77"}, "refers to a wick that is not there"},
		"a photo of nothing":        {[]string{"UPDATE photo SET of_id = 999999"}, "Photo 1 shows a check that is not there, with the number 999999."},
		"a withdrawn photo too":     {[]string{"UPDATE photo SET of_noun = 'pour', of_id = 9, gone_at = created_at"}, "Photo 1 shows a pour that is not there"},
		"a photo of a wax":          {[]string{"UPDATE photo SET of_noun = 'wax'"}, "Photo 1 shows a wax that is not there"},
		"a set check of a lit one":  {[]string{"UPDATE set_check SET at = '2026-03-14T17:30:00Z'"}, "candle 1-A: It was lit before that"},
		"pieces out too early":      {[]string{"UPDATE pour_cast SET out_at = '2001-01-01T00:00:00Z'"}, "A cast of pour 1: It was poured only after that."},
		"a round of no wick":        {[]string{`UPDATE round SET factors = replace(factors, '"wick":1', '"wick":9'), places = replace(places, '"wick":1', '"wick":9')`}, "Round 1: A wick of the round is not in the journal."},
		"a place that is not there": {[]string{"UPDATE candle SET round_id = 1, round_place = 2"}, "Candle 1-A has place 2 of round 1, which has 1."},
		"two on one place":          {[]string{"UPDATE candle SET round_id = 1, round_place = 1", "INSERT INTO candle (version, created_at, gone_why, pour_id, letter, vessel_id, wick_id, wicks, round_id, round_place, note) SELECT version, created_at, gone_why, pour_id, 'B', vessel_id, wick_id, wicks, round_id, round_place, note FROM candle"}, "Candle 1-B has place 1 of round 1, and so has candle 1-A."},
		"a sheet of no vessel":      {[]string{`UPDATE pour_sheet SET body = replace(body, '"vessel":1', '"vessel":9')`}, "Pour sheet 1: Choose one from the list."},
		"a broken table's rule":     {[]string{"UPDATE burn SET mass_before = -5"}, "CHECK constraint failed"},
	} {
		t.Run(name, func(t *testing.T) {
			problems := strings.Join(spoiled(t, c.spoil...), "\n")
			if !strings.Contains(problems, c.says) {
				t.Errorf("got %q, want %q in it", problems, c.says)
			}
		})
	}
	if problems := spoiled(t); len(problems) > 0 {
		t.Errorf("a sound journal: %v", problems)
	}
	if problems := spoiled(t, "UPDATE checks SET at = '2026-03-14T16:00:00Z', gone_at = created_at"); len(problems) > 0 {
		t.Errorf("a withdrawn check counts: %v", problems)
	}
}

func TestVerifyFindsADamagedFile(t *testing.T) {
	s, path := openInside(t)
	fillInside(t, s)
	copied := path + ".copy"
	ok(t, Backup(t.Context(), path, copied))
	data, err := os.ReadFile(copied)
	ok(t, err)
	for i := 4096 * 3; i < 4096*9; i++ {
		data[i] = 0xA5
	}
	ok(t, os.WriteFile(copied, data, 0o600))
	problems, err := Verify(t.Context(), copied)
	if len(problems) == 0 && err == nil {
		t.Error("the damage was not found")
	}
	for _, p := range problems {
		if !strings.HasPrefix(p, "The file is damaged: ") {
			t.Errorf("got %q", p)
		}
	}
}
