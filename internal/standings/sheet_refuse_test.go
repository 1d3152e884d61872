package standings_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/standings"
)

// A line of the sheet, and the same with one cell changed.
const (
	names = "vessel,inner_width_mm,target_hour,series,rung,candle,burn,hour,width_mm,full\n"
	good  = "Pebble,80,3,Larkspur,3,A,1,1,41,no\n"
)

// with is the good line with another cell in a column.
func with(column, cell string) string {
	cells := strings.Split(strings.TrimSpace(good), ",")
	for i, name := range strings.Split(strings.TrimSpace(names), ",") {
		if name == column {
			cells[i] = cell
		}
	}
	return strings.Join(cells, ",") + "\n"
}

func TestBadCellsAreRefused(t *testing.T) {
	t.Parallel()
	const (
		width  = "write millimetres such as 48.5"
		hour   = "write hours since lighting, above 0 and at most 24, such as 2.5"
		inner  = "write millimetres between 10 and 500, such as 76.2"
		target = "write hours between 0.25 and 24, such as 3, or leave it blank"
		rung   = "write its place in the ladder as a whole number, such as 7, or leave it blank for wicks without a ladder"
	)
	for _, c := range []struct{ column, cell, says string }{
		{"width_mm", "abc", `"abc" is not a width; ` + width},
		{"width_mm", "NaN", `"NaN" is not a width; ` + width},
		{"width_mm", "Inf", `"Inf" is not a width; ` + width},
		{"width_mm", "-Inf", `"-Inf" is not a width; ` + width},
		{"width_mm", "1e999", `"1e999" is not a width; ` + width},
		{"width_mm", "0x30", `"0x30" is not a width; ` + width},
		{"width_mm", "1_0", `"1_0" is not a width; ` + width},
		{"width_mm", "-3", `"-3" is not a width; ` + width},
		{"width_mm", "48.5 mm", `"48.5 mm" is not a width; ` + width},
		{"width_mm", `"48,5"`, `"48,5" is not a width; ` + width},
		{"width_mm", "90.5", `the pool cannot be wider than the vessel, 90.5 mm against 80 mm; check both`},
		{"width_mm", "1e9", `"1e9" is not a width; ` + width},
		{"width_mm", "", `there is nothing to go by; write the width in millimetres, or yes under full`},
		{"hour", "0", `"0" is not an hour; ` + hour},
		{"hour", "-1", `"-1" is not an hour; ` + hour},
		{"hour", "60", `"60" is not an hour; ` + hour},
		{"hour", "NaN", `"NaN" is not an hour; ` + hour},
		{"hour", "1e-300", `"1e-300" is not an hour; ` + hour},
		{"hour", "", `nothing is written here; ` + hour},
		{"inner_width_mm", "9.9", `"9.9" is not an inner width; ` + inner},
		{"inner_width_mm", "500.1", `"500.1" is not an inner width; ` + inner},
		{"inner_width_mm", "inf", `"inf" is not an inner width; ` + inner},
		{"inner_width_mm", "", `nothing is written here; ` + inner},
		{"target_hour", "0", `"0" is not a target hour; ` + target},
		{"target_hour", "-2", `"-2" is not a target hour; ` + target},
		{"target_hour", "25", `"25" is not a target hour; ` + target},
		{"target_hour", "soon", `"soon" is not a target hour; ` + target},
		{"rung", "3.5", `"3.5" is not a rung; ` + rung},
		{"rung", "three", `"three" is not a rung; ` + rung},
		{"rung", "1001", `"1001" is not a rung; ` + rung},
		{"rung", "1e9", `"1e9" is not a rung; ` + rung},
		{"full", "maybe", `"maybe" is neither yes nor no; write yes, no, or leave it blank for no`},
		{"vessel", "", `nothing is written here; every reading needs its vessel`},
		{"series", " ", `nothing is written here; every reading needs its series`},
		{"candle", "", `nothing is written here; every reading needs its candle`},
		{"burn", "", `nothing is written here; every reading needs its burn`},
		{"candle", "A\x1b[2J", `"A\x1b[2J" has a sign that cannot be shown; write it in one line of plain letters`},
		{"width_mm", strings.Repeat("9", 60), `"` + strings.Repeat("9", 40) + `…" is not a width; ` + width},
	} {
		t.Run(c.column+" "+c.cell, func(t *testing.T) {
			t.Parallel()
			got := problemsOf(t, names+good+with(c.column, c.cell))
			if diff := cmp.Diff([]string{"line 3, " + c.column + ": " + c.says}, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// What lies just within the limits is taken.
func TestCellsAtTheLimitsAreTaken(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ column, cell string }{
		{"width_mm", "0"}, {"width_mm", "90"}, {"width_mm", "+41"}, {"width_mm", ".5"}, {"width_mm", "41."}, {"hour", "24"}, {"hour", "0.01"},
		{"target_hour", "0.25"}, {"target_hour", "24"}, {"target_hour", ""}, {"rung", "-4"}, {"rung", "0"}, {"rung", "7.0"}, {"rung", ""}, {"full", "X"}, {"full", ""},
	} {
		if _, err := standings.ReadSheet(strings.NewReader(names+with(c.column, c.cell)), 1); err != nil {
			t.Errorf("%s %q: %v", c.column, c.cell, err)
		}
	}
	for _, inner := range []string{"10", "500"} {
		if _, err := standings.ReadSheet(strings.NewReader(strings.ReplaceAll(names+with("inner_width_mm", inner), ",41,", ",9,")), 1); err != nil {
			t.Errorf("inner width %s: %v", inner, err)
		}
	}
}

func TestSheetsAreRefusedWithWhatToDo(t *testing.T) {
	t.Parallel()
	const list = "vessel, inner_width_mm, target_hour, series, rung, candle, burn, hour, width_mm, full"
	for name, c := range map[string]struct {
		text string
		says []string
	}{
		"an empty file":         {"", []string{"the file is empty; its first line must name the columns: " + list}},
		"a mark and nothing":    {"\xef\xbb\xbf\r\n \n", []string{"the file is empty; its first line must name the columns: " + list}},
		"names of columns only": {names, []string{"there are no readings below the names of the columns; add one line for each look at a pool"}},
		"no UTF-8":              {names + good + "Caf\xe9,80,3,Larkspur,3,A,1,1,41,no\n", []string{"line 3: this is not UTF-8 text; save the sheet as CSV in UTF-8"}},
		"two bytes a letter":    {"\xff\xfev\x00e\x00", []string{"line 1: this is not UTF-8 text; save the sheet as CSV in UTF-8"}},
		"a column missing": {strings.Replace(names, ",full", "", 1) + "Pebble,80,3,Larkspur,3,A,1,1,41\n",
			[]string{"line 1: no column is named full; the first line must name " + list + ", parted by commas or semicolons"}},
		"no names of columns": {good, []string{"line 1: no column is named vessel, inner_width_mm, series, rung, candle, burn, hour, width_mm, full; the first line must name " + list + ", parted by commas or semicolons"}},
		"a column twice": {strings.Replace(names, "candle", "hour", 1) + good,
			[]string{"line 1, hour: two columns have this name; keep one of them",
				"line 1: no column is named candle; the first line must name " + list + ", parted by commas or semicolons"}},
		"an open quotation mark": {names + good + "\"Pebble,80,3,Larkspur,3,A,1,1,41,no\n",
			[]string{"line 3: a quotation mark is out of place; put one before and one after the whole cell, and write two for one within it"}},
		"decimal commas among commas": {names + "Pebble,76,2,3,Larkspur,3,A,1,1,41,no\n",
			[]string{"line 2: there are 11 cells here and 10 columns; where decimals have a comma, part the columns by semicolons"}},
		"one vessel with two widths": {names + good + good + with("inner_width_mm", "76.2"),
			[]string{`line 4, inner_width_mm: two vessels of the same name: "Pebble" has an inner width of 76.2 mm here and 80 mm on line 2; name them apart, or mend one`}},
		"one vessel with two target hours": {names + with("target_hour", "") + good + with("target_hour", "2.5") + with("target_hour", "2.5"),
			[]string{`line 4, target_hour: two vessels of the same name: "Pebble" has a target hour of 2.5 h here and 3 h on line 3; name them apart, or mend one`}},
		"rungs for some only": {names + good + with("rung", ""),
			[]string{"line 3, rung: nothing is written here, but line 2 of this vessel and series has a rung; give all of them one, or none"}},
		"sizes for rungs": {names + good + with("rung", "64"),
			[]string{"line 3, rung: rungs 3 (line 2) and 64 (line 3) lie too far apart for one ladder; number the wicks by their place in it: 1, 2, 3 …"}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if diff := cmp.Diff(c.says, problemsOf(t, c.text)); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

func TestProblemsAreNamedTogetherInOrderOfLines(t *testing.T) {
	t.Parallel()
	got := problemsOf(t, names+good+with("inner_width_mm", "70")+with("hour", "x")+with("full", "perhaps"))
	for i, start := range []string{"line 3, inner_width_mm", "line 4, hour", "line 5, full"} {
		if len(got) != 3 || !strings.HasPrefix(got[i], start) {
			t.Fatalf("got %q", got)
		}
	}
	got = problemsOf(t, names+strings.Repeat(with("hour", "x"), 33))
	if len(got) != 21 || got[20] != "and 13 more problems" || !strings.HasPrefix(got[19], "line 21,") {
		t.Errorf("got %q", got)
	}
}

// endless gives the same line again and again.
type endless struct {
	line string
	at   int
}

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = e.line[e.at%len(e.line)]
		e.at++
	}
	return len(p), nil
}

func TestSheetsHaveALimit(t *testing.T) {
	t.Parallel()
	for says, r := range map[string]io.Reader{
		"larger than 64 MB":          &endless{line: good},
		"more than 200,000 readings": io.MultiReader(strings.NewReader(names), io.LimitReader(&endless{line: good}, int64(200_001*len(good)))),
	} {
		if _, err := standings.ReadSheet(r, 1); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("got %v, want %q", err, says)
		}
	}
	full := io.MultiReader(strings.NewReader(names), io.LimitReader(&endless{line: good}, int64(200_000*len(good))))
	if _, err := standings.ReadSheet(full, 1); err != nil {
		t.Errorf("200,000 readings: %v", err)
	}
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, fmt.Errorf("the disk is gone") }

func TestAReaderThatFailsSaysWhy(t *testing.T) {
	t.Parallel()
	if _, err := standings.ReadSheet(broken{}, 1); err == nil || err.Error() != "read sheet: the disk is gone" {
		t.Errorf("got %v", err)
	}
}
