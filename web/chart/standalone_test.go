package chart

import (
	"bytes"
	"encoding/csv"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// dayStyle is what the page's stylesheets say of charts, outside their media
// rules, in the colours of day.
func dayStyle(t *testing.T) string {
	t.Helper()
	day, _ := tokens(t)
	out := `text{font-family:"STIX Two Text",Charter,"Sitka Text",Cambria,Georgia,serif;font-variant-numeric:lining-nums tabular-nums}
.sheet{fill:` + hex(day["paper"]) + `}
.sheet-title{font-size:15px;font-weight:600;fill:` + hex(day["ink"]) + `}
.sheet-caption{font-size:13px;fill:` + hex(day["soft"]) + `}
`
	for _, file := range []string{"50-chart.css", "52-charts.css"} {
		b, err := os.ReadFile("../static/css/" + file)
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(string(b), "\n") {
			if strings.HasPrefix(line, ".chart ") {
				out += regexp.MustCompile(`var\(--([a-z-]+)\)`).ReplaceAllStringFunc(line, func(v string) string {
					return hex(day[strings.TrimSuffix(strings.TrimPrefix(v, "var(--"), ")")])
				}) + "\n"
			}
		}
	}
	return out
}

func hex(c [3]float64) string {
	out := "#"
	for _, v := range c {
		s := strconv.FormatInt(int64(v*255+0.5), 16)
		if len(s) < 2 {
			s = "0" + s
		}
		out += s
	}
	return out
}

func TestOwnStyleIsThatOfThePageByDay(t *testing.T) {
	t.Parallel()
	want := dayStyle(t)
	if *update {
		if err := os.WriteFile("standalone.css", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(want, ownStyle); diff != "" {
		t.Errorf("standalone.css differs from the stylesheets; renew it with -update (-want +got):\n%s", diff)
	}
	if strings.Contains(ownStyle, "var(") {
		t.Error("a colour is left to the page")
	}
}

func TestStandaloneDrawingCarriesWhatItNeeds(t *testing.T) {
	t.Parallel()
	c := NewCourse(flames())
	c.Caption = "Pools & flames < 50 mm. " + strings.Repeat("A long caption is broken into lines. ", 6)
	c.Wide.Title = "Flame <height> & more"
	got := render(t, Standalone(c))
	wellFormed(t, got)
	for part, want := range map[string]int{
		`xmlns="http://www.w3.org/2000/svg"`: 2, "<style>": 1, `class="sheet-title"`: 1, "Flame &lt;height&gt; &amp; more": 2, "chart-limit": 3,
	} {
		if n := strings.Count(got, part); n < want {
			t.Errorf("%q occurs %d times, want at least %d", part, n, want)
		}
	}
	if n := strings.Count(got, `class="sheet-caption"`); n < 2 {
		t.Errorf("a long caption stands on %d lines", n)
	}
}

// The rules are those of RFC 4180 (commas, quotes doubled, CR LF) and of OWASP
// on CSV injection (cells beginning with = + - @, tab or carriage return).
func TestTableAsCommaSeparatedValues(t *testing.T) {
	t.Parallel()
	var b bytes.Buffer
	tab := Table{Head: []string{"Burn", "Width, mm"}, Rows: [][]string{
		{"1", `48 "about"`}, {"=1+1", "-5"}, {"+4.5", "-5 mm"}, {"@sum", "-1,5"}, {"", "\t=1"}, {"48, 50", "−3"}}}
	if err := CSV(&b, tab); err != nil {
		t.Fatal(err)
	}
	want := "Burn,\"Width, mm\"\r\n1,\"48 \"\"about\"\"\"\r\n'=1+1,-5\r\n+4.5,'-5 mm\r\n'@sum,\"-1,5\"\r\n,'\t=1\r\n\"48, 50\",−3\r\n"
	if diff := cmp.Diff(want, b.String()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if _, err := csv.NewReader(&b).ReadAll(); err != nil {
		t.Errorf("it cannot be read back: %v", err)
	}
}
