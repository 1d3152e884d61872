package ical_test

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	oracle "github.com/emersion/go-ical"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"rimward/internal/ical"
)

var update = flag.Bool("update", false, "write the golden file anew")

var stamp = time.Date(2026, 3, 1, 9, 30, 0, 0, time.UTC)

func written(t interface{ Fatal(...any) }, c ical.Calendar) []byte {
	var b bytes.Buffer
	if err := ical.Write(&b, c); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func berlin(t *testing.T) *time.Location {
	t.Helper()
	z, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func example(t *testing.T) ical.Calendar {
	z := berlin(t)
	return ical.Calendar{Name: "Which rung, at 8 %?", Stamp: stamp, Events: []ical.Event{
		{UID: "round-3-pour-1@rimward", Summary: "Pour 12 candles", WholeDays: true,
			Start: time.Date(2026, 3, 2, 12, 0, 0, 0, z), End: time.Date(2026, 3, 2, 12, 0, 0, 0, z)},
		{UID: "round-3-burn-1-1@rimward", Sequence: 2, Summary: "Light 6 candles; places 1, 2, 5",
			Detail: "Trim first.\nNever leave a burning candle unattended: four hours at most, on a level and heat-proof bench – Grüße 🕯.",
			Start:  time.Date(2026, 3, 28, 18, 0, 0, 0, z), End: time.Date(2026, 3, 28, 22, 0, 0, 0, z)},
		{UID: "round-3-burn-1-2@rimward", Summary: "Light 6 candles",
			Start: time.Date(2026, 3, 29, 18, 0, 0, 0, z), End: time.Date(2026, 3, 29, 22, 0, 0, 0, z)},
	}}
}

// The file as RFC 5545 wants it, byte for byte. 18:00 in Berlin is 17:00 UTC
// on 28 March 2026 and 16:00 UTC on the 29th, when the clocks have changed
// (IANA time zone database: last Sunday of March).
func TestGolden(t *testing.T) {
	got := written(t, example(t))
	const file = "testdata/round.ics"
	if *update {
		if err := os.WriteFile(file, got, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Error(d)
	}
}

// What RFC 5545 section 3.1 asks of lines.
func checkLines(t interface{ Errorf(string, ...any) }, file []byte) {
	text := string(file)
	if !utf8.ValidString(text) {
		t.Errorf("no UTF-8")
	}
	if !strings.HasSuffix(text, "\r\n") || strings.Count(text, "\n") != strings.Count(text, "\r\n") || strings.Count(text, "\r") != strings.Count(text, "\r\n") {
		t.Errorf("a line does not end with CR LF")
	}
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		if len(line) > 75 || line == "" {
			t.Errorf("a line of %d octets: %q", len(line), line)
		}
		if !utf8.ValidString(line) {
			t.Errorf("a fold parts a character: %q", line)
		}
	}
}

// What an independent reader (github.com/emersion/go-ical) finds is what was
// written, whatever the texts hold.
func TestReadBack(t *testing.T) {
	text := rapid.OneOf(rapid.String(), rapid.StringOf(rapid.SampledFrom([]rune("ab ,;:\\\"\n\r\t\x00\x07\x7fäß€🕯👩‍🔬n"))),
		rapid.Map(rapid.IntRange(0, 400), func(n int) string { return strings.Repeat("🕯é", n) }),
		rapid.Map(rapid.IntRange(0, 400), func(n int) string { return strings.Repeat("wax", n) }))
	minute := rapid.Map(rapid.Int64Range(0, 60*24*365*100), func(m int64) time.Time { return time.Unix(m*60, 0).UTC() })
	rapid.Check(t, func(t *rapid.T) {
		e := ical.Event{
			UID: "x" + text.Draw(t, "uid"), Sequence: rapid.IntRange(0, 1e6).Draw(t, "sequence"),
			Summary: text.Draw(t, "summary"), Detail: text.Draw(t, "detail"),
			Start: minute.Draw(t, "start"), WholeDays: rapid.Bool().Draw(t, "whole days"),
		}
		e.End = e.Start.Add(time.Duration(rapid.IntRange(0, 5000).Draw(t, "minutes")) * time.Minute)
		file := written(t, ical.Calendar{Name: text.Draw(t, "name"), Stamp: stamp, Events: []ical.Event{e, e}})
		checkLines(t, file)
		read, err := oracle.NewDecoder(bytes.NewReader(file)).Decode()
		if err != nil {
			t.Fatalf("%v\n%s", err, file)
		}
		es := read.Events()
		if len(es) != 2 {
			t.Fatalf("%d events", len(es))
		}
		same(t, es[0], e)
	})
}

func same(t *rapid.T, got oracle.Event, want ical.Event) {
	for name, text := range map[string]string{oracle.PropUID: want.UID, oracle.PropSummary: want.Summary, oracle.PropDescription: want.Detail} {
		read, err := got.Props.Text(name)
		if err != nil || read != kept(text) {
			t.Errorf("%s: %q (%v), want %q", name, read, err, kept(text))
		}
	}
	start, err := got.DateTimeStart(time.UTC)
	end, err2 := got.DateTimeEnd(time.UTC)
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	from, to := want.Start, want.End
	if want.WholeDays { // the end is the day after the last (section 3.6.1)
		from, to = from.Truncate(24*time.Hour), to.Truncate(24*time.Hour).Add(24*time.Hour)
	}
	if !start.Equal(from) || !end.Equal(to) {
		t.Errorf("from %v to %v, want %v to %v", start, end, from, to)
	}
	if at, err := got.Props.DateTime(oracle.PropDateTimeStamp, time.UTC); err != nil || !at.Equal(stamp) {
		t.Errorf("stamp %v %v", at, err)
	}
	if n, err := got.Props.Get(oracle.PropSequence).Int(); err != nil || n != want.Sequence {
		t.Errorf("sequence %d %v", n, err)
	}
}

// kept is a text without what no iCalendar text may hold, worked out rune by
// rune as section 3.1 has it: no control characters but the tab; a line break
// of any kind is one.
func kept(s string) string {
	var out []rune
	rs := []rune(s)
	for i, r := range rs {
		switch {
		case r == '\r' && i+1 < len(rs) && rs[i+1] == '\n':
		case r == '\r':
			out = append(out, '\n')
		case r == '\n', r == '\t', r >= 0x20 && r != 0x7f:
			out = append(out, r)
		}
	}
	return string(out)
}

func FuzzWrite(f *testing.F) {
	f.Add("plain", "a, b; c\\n\n\r\nd")
	f.Add("\xff\xfe", strings.Repeat("ü", 300))
	f.Fuzz(func(t *testing.T, summary, detail string) {
		file := written(t, ical.Calendar{Stamp: stamp, Events: []ical.Event{{UID: "u", Summary: summary, Detail: detail, Start: stamp, End: stamp}}})
		checkLines(t, file)
		if _, err := oracle.NewDecoder(bytes.NewReader(file)).Decode(); err != nil {
			t.Error(err)
		}
	})
}

// The example of RFC 5545 section 3.3.11: "Project XYZ Final Review", a line
// break, "Conference Room - 3B" and so on.
func TestEscapesAsTheStandardShows(t *testing.T) {
	const want = `Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`
	if got := ical.Escape("Project XYZ Final Review\nConference Room - 3B\r\nCome Prepared."); got != want {
		t.Errorf("%q", got)
	}
	if got := ical.Escape("a;b,c\\d"); got != `a\;b\,c\\d` {
		t.Errorf("%q", got)
	}
}

func TestRefuses(t *testing.T) {
	ok := ical.Event{UID: "u", Start: stamp, End: stamp}
	back, nameless := ok, ok
	back.End, nameless.UID = stamp.Add(-time.Minute), "\x01"
	for name, es := range map[string][]ical.Event{"no event": nil, "ends before it begins": {ok, back}, "no UID": {nameless}} {
		var b bytes.Buffer
		if err := ical.Write(&b, ical.Calendar{Stamp: stamp, Events: es}); err == nil || b.Len() > 0 {
			t.Errorf("%s: %v, %d octets", name, err, b.Len())
		}
	}
	if err := ical.Write(&bytes.Buffer{}, ical.Calendar{}); !errors.Is(err, ical.ErrEmpty) {
		t.Error(err)
	}
	if err := ical.Write(full{}, ical.Calendar{Stamp: stamp, Events: []ical.Event{ok}}); !errors.Is(err, errFull) {
		t.Error(err)
	}
}

var errFull = errors.New("the disk is full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

// An end must be later than the start (RFC 5545 section 3.8.2.2): one in the
// same second is left out.
func TestAnEventOfNoLengthHasNoEnd(t *testing.T) {
	for seconds, ends := range map[int]int{0: 0, 1: 1} {
		file := written(t, ical.Calendar{Stamp: stamp, Events: []ical.Event{{UID: "u", Start: stamp, End: stamp.Add(time.Duration(seconds) * time.Second)}}})
		if n := bytes.Count(file, []byte("\r\nDTEND:")); n != ends {
			t.Errorf("%d s: %d ends", seconds, n)
		}
	}
}
