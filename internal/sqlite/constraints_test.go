package sqlite

import (
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	sqlite3 "modernc.org/sqlite/lib"
)

// attempt is a statement that a table must answer with one code; 0 is yes.
type attempt struct {
	statement string
	code      int
}

// try runs statements one by one on a filled journal and takes each back.
func try(t *testing.T, s *Store, list []attempt) {
	t.Helper()
	for _, a := range list {
		tx, err := s.write.BeginTx(t.Context(), nil)
		ok(t, err)
		_, err = tx.ExecContext(t.Context(), a.statement)
		if is := code(err); is != a.code || (err != nil) != (a.code != 0) {
			t.Errorf("%s: got code %d (%v), want %d", a.statement, is, err, a.code)
		}
		ok(t, tx.Rollback())
	}
}

// columns walks the tables as the migration writes them, one column a line.
func columns(t *testing.T, do func(table, column, line string)) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/schema.sql")
	ok(t, err)
	table := ""
	opens, column := regexp.MustCompile(`^CREATE TABLE "?(\w+)"?`), regexp.MustCompile(`^  ("?\w+"?) +(TEXT|REAL|INTEGER)\b`)
	for line := range strings.Lines(string(text)) {
		if m := opens.FindStringSubmatch(line); m != nil {
			table = m[1]
		}
		for _, part := range parts(line) {
			if m := column.FindStringSubmatch(part); m != nil {
				do(table, m[1], part)
			}
		}
	}
}

// added is where a column begins that was added to a table later: SQLite puts
// it behind the last one, on the same line.
var added = regexp.MustCompile(`, (\w+ (?:TEXT|REAL|INTEGER)\b)`)

// parts takes a line of the schema apart into one column each.
func parts(line string) []string { return strings.Split(added.ReplaceAllString(line, "\n  $1"), "\n") }

var between = regexp.MustCompile(`BETWEEN (\S+) AND ([0-9.e]+)\)`)

// rangeOf is the range that a column's line holds its number in.
func rangeOf(line string) (low, high float64, ok bool) {
	m := between.FindStringSubmatch(line)
	if m == nil || strings.Contains(line, "length(") {
		return 0, 0, false
	}
	low, errLow := strconv.ParseFloat(m[1], 64)
	high, errHigh := strconv.ParseFloat(m[2], 64)
	return low, high, errLow == nil && errHigh == nil
}

// stepOf is how far beyond the end of a range to try.
func stepOf(line string, low, high float64) float64 {
	if strings.Contains(line, " INTEGER") {
		return 1
	}
	return (high - low) / 1e6
}

// Every "BETWEEN low AND high" is tried at both ends and just beyond them; the
// numbers come from the migration, and limits_test.go holds them against the
// journal's rules.
func TestRangesAreHeldByTheTables(t *testing.T) {
	s, _ := openInside(t)
	fillInside(t, s)
	ranges := 0
	columns(t, func(table, column, line string) {
		low, high, ranged := rangeOf(line)
		if !ranged {
			return
		}
		ranges++
		step := stepOf(line, low, high)
		beside := map[string]string{"load_low": "load_basis = 'wax', ", "load_high": "load_basis = 'wax', ", "round_place": "round_id = 1, ", "max_load": "max_basis = 'wax', ",
			"inner_length": "shape = 'oval', inner_width = 10, ", "load": "fragrance_id = 1, ", "chipped": "out_at = '2026-03-15T18:00:00Z', "}[column]
		set := func(v float64) string {
			return fmt.Sprintf("UPDATE %s SET %s%s = %s", table, beside, column, strconv.FormatFloat(v, 'f', -1, 64))
		}
		const no = sqlite3.SQLITE_CONSTRAINT_CHECK
		try(t, s, []attempt{{set(low - step), no}, {set(low), 0}, {set(high), 0}, {set(high + step), no}})
	})
	if ranges < 51 {
		t.Errorf("found %d ranges", ranges)
	}
}

func TestWordsTimesAndTypesAreHeldByTheTables(t *testing.T) {
	s, _ := openInside(t)
	fillInside(t, s)
	words, times, flags := 0, 0, 0
	columns(t, func(table, column, line string) {
		set := func(v string) string { return fmt.Sprintf("UPDATE %s SET %s = %s", table, column, v) }
		switch {
		case strings.Contains(line, "strftime"):
			times++
			list := []attempt{}
			for _, v := range []string{"'2026-03-14 18:00:00'", "'2026-03-14T18:00:00+01:00'", "'2026-02-30T18:00:00Z'", "'2026-03-14T18:00:00.5Z'", "'soon'", "''"} {
				list = append(list, attempt{set(v), sqlite3.SQLITE_CONSTRAINT_CHECK})
			}
			try(t, s, list)
		case strings.Contains(line, "IN (0, 1)"):
			flags++
			try(t, s, []attempt{{set("2"), sqlite3.SQLITE_CONSTRAINT_CHECK}, {set("1"), 0}, {set("0"), 0}, {set("NULL"), sqlite3.SQLITE_CONSTRAINT_NOTNULL}})
		case strings.Contains(line, " IN ('"):
			words++
			try(t, s, []attempt{{set("'hullabaloo'"), sqlite3.SQLITE_CONSTRAINT_CHECK}, {set("NULL"), sqlite3.SQLITE_CONSTRAINT_NOTNULL}})
		}
		if strings.Contains(line, " REAL") || strings.Contains(line, " INTEGER") && !strings.Contains(line, "PRIMARY KEY") {
			try(t, s, []attempt{{set("'much'"), sqlite3.SQLITE_CONSTRAINT_DATATYPE}})
		}
	})
	if words < 18 || times < 25 || flags < 5 {
		t.Errorf("found %d lists of words, %d times, %d flags", words, times, flags)
	}
}

func TestRulesBetweenColumnsAreHeldByTheTables(t *testing.T) {
	s, _ := openInside(t)
	fillInside(t, s)
	const check, unique, foreign, primary = sqlite3.SQLITE_CONSTRAINT_CHECK, sqlite3.SQLITE_CONSTRAINT_UNIQUE, sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY, sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY
	copyOf := func(table, columns string) string {
		return fmt.Sprintf("INSERT INTO %s (%s) SELECT %s FROM %s", table, columns, columns, table)
	}
	var list []attempt
	for _, low := range []string{"heat_to", "add_oil_at", "pour_at"} {
		list = append(list, attempt{fmt.Sprintf("UPDATE wax SET %s_low = 80, %s_high = 79", low, low), check}, attempt{fmt.Sprintf("UPDATE wax SET %s_low = 80, %s_high = 80", low, low), 0})
	}
	for _, table := range []string{"wax", "fragrance", "vessel", "ladder", "wick", "pour", "candle", "burn", "checks", "verdict"} {
		list = append(list, attempt{"UPDATE " + table + " SET gone_why = 'why'", check}, attempt{"UPDATE " + table + " SET version = 0", check})
	}
	list = append(list, []attempt{
		{"UPDATE wax SET load_basis = 'wax', load_low = 0.1, load_high = 0.09", check}, {"UPDATE wax SET cure_days_low = 8, cure_days_high = 7", check},
		{"UPDATE wax SET load_low = 0.1", check}, {"UPDATE fragrance SET max_load = 0.1", check}, {"UPDATE wax SET name = '  '", check},
		{"UPDATE wax SET name = '" + strings.Repeat("n", 121) + "'", check}, {"UPDATE wick SET label = ''", check}, {"UPDATE wick SET label = '" + strings.Repeat("n", 61) + "'", check},
		{"UPDATE fragrance SET name = ''", check}, {"UPDATE vessel SET name = ''", check}, {"UPDATE ladder SET name = ''", check},
		{"UPDATE vessel SET shape = 'oval', inner_length = 75", check}, {"UPDATE vessel SET shape = 'oval'", check}, {"UPDATE vessel SET inner_length = 80", check},
		{"UPDATE vessel SET shape = 'oval', inner_length = 80", 0}, {"UPDATE vessel SET inner_length = 76", 0},
		{"UPDATE wick SET rung = 0", check}, {"UPDATE pour SET number = 0", check}, {"UPDATE pour SET load = 0.1", check}, {"UPDATE pour SET load = 0.1, fragrance_id = 1", 0},
		{"UPDATE candle SET letter = 'a'", check}, {"UPDATE candle SET letter = ''", check}, {"UPDATE candle SET letter = 'ABCD'", check},
		{"UPDATE burn SET number = 0", check}, {"UPDATE burn SET out_at = lit_at, ending = 'snuffed'", check}, {"UPDATE burn SET ending = 'snuffed'", check},
		{"UPDATE burn SET out_at = '2026-03-14T18:00:00Z'", check}, {"UPDATE burn SET mass_before = 100, mass_after = 101.1", check}, {"UPDATE burn SET mass_before = 100, mass_after = 101", 0},
		{"UPDATE checks SET odd = 'drowning,purring'", check}, {"UPDATE checks SET odd = 'drowning, sweating'", check}, {"UPDATE checks SET odd = 'debris'", check},
		{"UPDATE checks SET odd = 'flame on the pool,vessel cracked,debris in the pool,wick drifted,flickering,flame very small,drowning,sweating'", 0},
		{"UPDATE history SET noun = ''", check}, {"UPDATE history SET of_id = 0", check}, {"UPDATE history SET after_json = '{'", check}, {"UPDATE history SET before_json = '{', kind = 'corrected'", check},
		{"UPDATE history SET before_json = NULL, kind = 'corrected'", check}, {"UPDATE history SET before_json = '{}', kind = 'written'", check},
		{"UPDATE settings SET id = 2", check}, {"UPDATE settings SET version = 0", check}, {"UPDATE settings SET time_zone = ''", check},
		{"UPDATE settings_limit SET key = ''", check}, {"UPDATE receipt SET token = ''", check},
		{copyOf("settings_limit", "key, value"), primary}, {copyOf("receipt", "token, ref, at"), primary},
		{copyOf("pour", "version, created_at, gone_why, number, at, wax_id, wax_lot, fragrance_lot, load_basis, second_pour, heat_gun, dye, note"), unique},
		{copyOf("candle", "version, created_at, gone_why, pour_id, letter, vessel_id, wick_id, wicks, note"), unique},
		{copyOf("wick", "version, created_at, gone_why, ladder_id, rung, label, note"), unique},
		{copyOf("burn", "version, created_at, gone_why, candle_id, number, lit_at, draught, place, ending, note"), unique},
		{"INSERT INTO burn (version, created_at, gone_why, candle_id, number, lit_at, draught, place, ending, note) SELECT version, created_at, gone_why, candle_id, 2, lit_at, draught, place, ending, note FROM burn", unique},
		{"UPDATE wick SET ladder_id = 9", foreign}, {"UPDATE pour SET wax_id = 9", foreign}, {"UPDATE pour SET fragrance_id = 9", foreign}, {"UPDATE candle SET pour_id = 9", foreign},
		{"UPDATE candle SET vessel_id = 9", foreign}, {"UPDATE candle SET wick_id = 9", foreign}, {"UPDATE burn SET candle_id = 9", foreign}, {"UPDATE burn SET sitting_id = 9", foreign},
		{"UPDATE checks SET burn_id = 9", foreign},
		{"UPDATE verdict SET vessel_id = 9", foreign}, {"UPDATE verdict SET wick_id = 9", foreign}, {"UPDATE verdict SET wax_id = 9", foreign}, {"UPDATE verdict SET fragrance_id = 9", foreign},
		{"UPDATE verdict SET why = ' '", check}, {"UPDATE verdict SET why = '', ruling = 'accepted'", 0}, {"UPDATE verdict SET load = 0.1", check}, {"UPDATE verdict SET figures = '{'", check},
		{"UPDATE verdict SET series = ''", check}, {"UPDATE verdict SET decided_by = ' '", check}, {"UPDATE verdict SET decided_by = '" + strings.Repeat("n", 121) + "'", check},
	}...)
	// ON DELETE RESTRICT answers with a code of its own, that of a trigger.
	for _, table := range []string{"wax", "vessel", "ladder", "wick", "pour", "candle", "burn"} {
		list = append(list, attempt{"DELETE FROM " + table, sqlite3.SQLITE_CONSTRAINT_TRIGGER})
	}
	try(t, s, list)
}

func TestTheSchemaIsTheOneOnPaper(t *testing.T) {
	s, _ := openInside(t)
	var got strings.Builder
	r := reader{t.Context(), s.read}
	ok(t, r.rows(func(rows *sqlRows) error {
		var text string
		err := rows.Scan(&text)
		got.WriteString(text + ";\n\n")
		return err
	}, "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE 'goose%' AND name NOT LIKE 'sqlite%' ORDER BY rowid"))
	const file = "../../testdata/schema.sql"
	if *updateFlag {
		ok(t, os.WriteFile(file, []byte(got.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	ok(t, err)
	if got.String() != string(want) {
		t.Errorf("the schema is not that of %s; run the test with -update and look at the difference", file)
	}
}
