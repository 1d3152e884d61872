package sqlite

import (
	"regexp"
	"testing"

	sqlite3 "modernc.org/sqlite/lib"

	"rimward/internal/journal"
)

// scansSmelled finds a step that reads all of a table of smellings.
var scansSmelled = regexp.MustCompile(`SCAN (cup|score|smelling)\b`)

// The tables hold what the rules of smellings hold, whatever writes to them.
func TestTheTablesHoldTheRulesOfSmellings(t *testing.T) {
	s, _ := openInside(t)
	fillInside(t, s)
	const check, unique, foreign, restrict = sqlite3.SQLITE_CONSTRAINT_CHECK, sqlite3.SQLITE_CONSTRAINT_UNIQUE, sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY, sqlite3.SQLITE_CONSTRAINT_TRIGGER
	again := "INSERT INTO score (version, created_at, gone_why, cup_id, nose, score, at, note) SELECT version, created_at, gone_why, cup_id, "
	cup := "INSERT INTO cup (version, created_at, gone_why, smelling_id, candle_id, code) SELECT version, created_at, gone_why, smelling_id, candle_id, "
	try(t, s, []attempt{
		{"UPDATE smelling SET blind = 0, uncovered_at = '2026-03-14T18:00:00Z'", check}, {"UPDATE smelling SET uncovered_at = '2026-03-14T18:00:00Z'", 0},
		{"UPDATE cup SET code = '777'", check}, {"UPDATE cup SET code = '31'", check}, {"UPDATE cup SET code = '3141'", check}, {"UPDATE cup SET code = '31A'", check}, {"UPDATE cup SET code = '010'", 0},
		{"UPDATE score SET nose = '  '", check}, {"UPDATE score SET nose = printf('%41s', 'x')", check},
		{again + "'MARA', 3, at, note FROM score", unique}, {again + "'Jo', 3, at, note FROM score", 0},
		{cup + "'315' FROM cup", unique}, {"UPDATE cup SET candle_id = 9", foreign}, {"UPDATE cup SET smelling_id = 9", foreign}, {"UPDATE score SET cup_id = 9", foreign},
		{"DELETE FROM smelling", restrict}, {"DELETE FROM cup", restrict},
		{"UPDATE smelling SET gone_why = 'why'", check}, {"UPDATE cup SET gone_why = 'why'", check}, {"UPDATE score SET gone_why = 'why'", check}, {"UPDATE score SET version = 0", check},
	})
}

// The ranges of the tables are those of the rules.
func TestTablesAndRulesOfSmellingsAgree(t *testing.T) {
	t.Parallel()
	agree(t, smellings, journal.Smelling{At: insideNow, Kind: journal.HotThrow}, func(x journal.Smelling) error {
		return x.Validate(journal.SmellingFacts{Now: insideNow})
	})
	agree(t, cups, journal.Cup{Code: "314"}, func(x journal.Cup) error {
		return x.Validate(journal.CupFacts{Smelling: journal.Smelling{At: insideNow, Kind: journal.HotThrow}})
	})
	agree(t, scores, journal.Score{Nose: "Mara", At: insideNow}, func(x journal.Score) error {
		if err := x.Validate(journal.ScoreFacts{Now: insideNow}); err != nil {
			return renamed(err)
		}
		return nil
	})
}

// renamed calls the order of a score as its column is called.
func renamed(err error) error {
	invalid := err.(*journal.InvalidError)
	for i, p := range invalid.Problems {
		if p.Field == "order" {
			invalid.Problems[i].Field = "place"
		}
	}
	return invalid
}

// No query about smellings reads all of their tables.
func TestNoReadGoesThroughAllScores(t *testing.T) {
	s, _ := openInside(t)
	fillInside(t, s)
	p := &planner{DB: s.read}
	r := reader{t.Context(), p}
	for name, read := range map[string]func() error{
		"log":     func() error { _, err := r.smellingLog(1); return err },
		"candles": func() error { _, err := r.smelledOf([]journal.ID{1}); return err },
		"history": func() error { _, err := r.smellingHistory(1); return err },
	} {
		p.plans = nil
		ok(t, read())
		for _, plan := range p.plans {
			if scansWhole(plan) || scansSmelled.MatchString(plan) {
				t.Errorf("%s: %s", name, plan)
			}
		}
	}
}
