package form

import (
	"testing"
	"time"

	"rimward/internal/journal"
)

func TestReadSmelling(t *testing.T) {
	t.Parallel()
	p := metric("kind", "hot", "how", "blind", "at_date", "2026-05-14", "at_time", "20:30", "room", "4 x 3 x 2.5 m", "note", " door shut ")
	s := ReadSmelling(p).Smelling()
	if p.Problems().Any() || s.Kind != journal.HotThrow || !s.Blind || *s.Room != 30 || s.Note != "door shut" || s.At.IsZero() {
		t.Errorf("read %+v with %v", s, p.Problems())
	}
	for name, c := range map[string]struct {
		fields []string
		want   string // the field of the problem
	}{
		"a kind that is none": {[]string{"kind", "warm"}, "kind"},
		"no kind":             {[]string{"kind", ""}, "kind"},
		"a way that is none":  {[]string{"how", "half"}, "how"},
		"no date":             {[]string{"at_date", ""}, "at_date"},
		"no time":             {[]string{"at_time", ""}, "at_time"},
		"a room that is none": {[]string{"room", "NaN"}, "room"},
		"an endless room":     {[]string{"room", "1e999"}, "room"},
		"a room in words":     {[]string{"room", "large"}, "room"},
	} {
		base := map[string]string{"kind": "cold", "how": "open", "at_date": "2026-05-14", "at_time": "20:30"}
		base[c.fields[0]] = c.fields[1]
		var fields []string
		for k, v := range base {
			fields = append(fields, k, v)
		}
		p := metric(fields...)
		s := ReadSmelling(p).Smelling()
		if p.Problems().For(c.want) == "" || s.Room != nil {
			t.Errorf("%s: problems %v", name, p.Problems())
		}
	}
	then := journal.Smelling{Kind: journal.ColdThrow, Blind: true, Note: "old"}
	p = metric("at_date", "2026-05-14", "at_time", "20:30", "room", "30", "note", "new")
	if s := ReadSmellingChange(p).Correct(then); s.Kind != journal.ColdThrow || !s.Blind || s.Note != "new" || *s.Room != 30 || s.At.Minute() != 30 {
		t.Errorf("corrected to %+v with %v", s, p.Problems())
	}
}

func TestReadScores(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]int{"0": 0, "5": 5, " 3 ": 3} {
		p := metric("score", text)
		if got := p.Score("score"); got == nil || *got != want || p.Problems().Any() {
			t.Errorf("%q reads as %v with %v", text, got, p.Problems())
		}
	}
	for _, text := range []string{"6", "-1", "strong", "2.5", "NaN", "1e1", "٣", "99999999999999999999"} {
		p := metric("score", text)
		if got := p.Score("score"); got != nil || p.Problems().For("score") != "Choose a whole number from 0 to 5." {
			t.Errorf("%q reads as %v with %v", text, got, p.Problems())
		}
	}
	if p := metric("score", ""); p.Score("score") != nil || p.Problems().Any() {
		t.Error("nothing chosen is a problem")
	}
	if p := metric("nose", "  "); p.Nose("nose") != "" || p.Problems().For("nose") == "" {
		t.Error("nobody’s nose is fine")
	}
	if p := metric("nose", " T.   O. "); p.Nose("nose") != "T. O." {
		t.Error("loose spaces stay")
	}
}

// Whatever is typed, what is read keeps the journal's limits of a score and is
// finite.
func FuzzSmelling(f *testing.F) {
	for _, s := range []string{"6", "-1", "strong", "NaN", "4 x 3 x 2.5 m", "1e308 x 1e308 x 1e308", "5", "1 h 30", "\x00", "½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p := metric("score", text, "room", text, "minutes", text, "nose", text, "at_date", text, "at_time", text, "kind", text, "how", text)
		if n := p.Score("score"); n != nil && (*n < 0 || *n > 5) {
			t.Errorf("%q is a score of %d", text, *n)
		}
		if m := p.Minutes("minutes"); m != nil && !(*m > -1e12 && *m < 1e12) {
			t.Errorf("%q is %v minutes", text, float64(*m))
		}
		s := ReadSmelling(p).Smelling()
		if s.Room != nil && !(*s.Room > -1e12 && *s.Room < 1e12) {
			t.Errorf("%q is a room of %v", text, float64(*s.Room))
		}
		if nose := p.Nose("nose"); nose != journal.TidyNose(nose) {
			t.Errorf("%q is the nose %q", text, nose)
		}
		_ = s.Validate(journal.SmellingFacts{Now: time.Date(2026, 5, 14, 20, 30, 0, 0, time.UTC)})
	})
}
