package form_test

import (
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/form"
	"rimward/internal/quantity"
)

// Lists as hands write them (no source: what we would write ourselves).
func TestSeveral(t *testing.T) {
	t.Parallel()
	for text, want := range map[string][]string{
		"8":              {"8"},
		"8, 10":          {"8", "10"},
		"8 and 10 %":     {"8 %", "10 %"},
		"8;10":           {"8", "10"},
		"8 10":           {"8", "10"},
		"8 or 10":        {"8", "10"},
		"8.5, 10":        {"8.5", "10"},
		"7,5; 8":         {"7,5", "8"},
		"145 or 150 °F":  {"145 °F", "150 °F"},
		"145F / 150F":    {"145F", "150F"},
		"62 °C and 65":   {"62 °C", "65 °C"},
		"6 vs 8 and 10%": {"6 %", "8 %", "10%"},
	} {
		got, wrong := form.Several(text, "8")
		if wrong != "" || !cmp.Equal(want, got) {
			t.Errorf("%q: got %q %q, want %q", text, got, wrong, want)
		}
	}
	for text, want := range map[string]string{
		"8,10":              "“8,10” can be read in two ways. Write 8.10, or 8; 10.",
		"eight":             "Write one value or several, such as 8.",
		"8 to 10":           "Write one value or several, such as 8.",
		"8-10":              "Write one value or several, such as 8.",
		"8 % hot":           "Write one value or several, such as 8.",
		"1 2 3 4 5 6 7 8 9": "At most eight values in one list.",
	} {
		if got, wrong := form.Several(text, "8"); wrong != want {
			t.Errorf("%q: got %q %q, want %q", text, got, wrong, want)
		}
	}
}

func roundForm(change ...string) url.Values {
	u := url.Values{"wax": {"1"}, "fragrance": {"1"}, "vessels": {"1"}, "rungs": {"3", "4"}, "loads": {"8"}, "copies": {"2"}, "weekdays": {"1", "5"}}
	for i := 0; i+1 < len(change); i += 2 {
		u.Set(change[i], change[i+1])
	}
	return u
}

func TestReadRound(t *testing.T) {
	t.Parallel()
	p := form.NewParser(roundForm("pour_ats", "145; 150 °F", "away", "2026-05-04, 2026-05-08 to 2026-05-10", "pour_on", "2026-03-29", "wicks", "1; 2", "seed", "77"), quantity.Metric, time.UTC)
	in := form.ReadRound(p)
	r := in.Round()
	if p.Problems().Any() {
		t.Fatal(p.Problems())
	}
	if len(r.Factors.Wicks) != 4 || r.Factors.Wicks[3].Wicks != 2 || r.Seed != 77 || r.Copies != 2 || r.Days.Burns != 0 {
		t.Errorf("got %+v", r)
	}
	if got := r.Factors.PourAts; len(got) != 2 || got[0].String() != "62.8 °C" || got[1].String() != "65.6 °C" {
		t.Errorf("145 and 150 °F read as %v", got) // (F - 32) / 1.8
	}
	if want := []string{"2026-05-04", "2026-05-08", "2026-05-09", "2026-05-10"}; !cmp.Equal(want, r.Days.Away) {
		t.Error(cmp.Diff(want, r.Days.Away))
	}
	if !cmp.Equal([]time.Weekday{time.Monday, time.Friday}, r.Days.Weekdays) || r.Days.Start != "18:00" || r.Days.Hours != 4 {
		t.Errorf("got %+v", r.Days)
	}
}

func TestReadRoundSaysWhatIsWrong(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ field, value, want string }{
		{"wax", "", "Please fill this in."},
		{"vessels", "", "Tick one vessel at least."},
		{"rungs", "", "Tick one rung at least."},
		{"loads", "", "Say how much of the fragrance"},
		{"loads", "60", "Each load lies between 0 and 50 %."},
		{"loads", "8; 8 %", "Write each value once"},
		{"loads", "8,10", "can be read in two ways"},
		{"loads", "lots", "Write one value or several"},
		{"pour_ats", "hot", "Write one value or several"},
		{"pour_ats", "5", "Each pour temperature lies between"},
		{"wicks", "0", "Between 1 and 12 wicks in one candle."},
		{"copies", "0", "It must be more than nothing."},
		{"copies", "13", "It can be 12 at most."},
		{"weekdays", "", "Tick one evening of the week at least."},
		{"weekdays", "9", "Choose one from the list."},
		{"away", "next week", "Write the days you are away"},
		{"away", "2026-05-09 to 2026-05-01", "Write the days you are away"},
		{"pour_on", "2026-02-30", "Write the date as it stands in a calendar."},
		{"start", "evening", "Write a time of day"},
		{"hours", "0", "It must be more than nothing."},
		{"seed", "-3", "It must be more than nothing."},
	} {
		p := form.NewParser(roundForm(c.field, c.value), quantity.Metric, time.UTC)
		form.ReadRound(p)
		if got := p.Problems().For(c.field); !strings.Contains(got, c.want) {
			t.Errorf("%s %q: got %q, want %q", c.field, c.value, got, c.want)
		}
	}
	p := form.NewParser(roundForm("fragrance", ""), quantity.Metric, time.UTC)
	form.ReadRound(p)
	if got := p.Problems().For("fragrance"); got != "A load above nothing needs its fragrance." {
		t.Errorf("got %q", got)
	}
}

func FuzzSeveral(f *testing.F) {
	for _, s := range []string{"8, 10", "145 or 150 °F", "8,10", "", "½", "\x00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		parts, wrong := form.Several(text, "8")
		if (len(parts) == 0) != (wrong != "") {
			t.Errorf("%q: %q and %q", text, parts, wrong)
		}
	})
}
