package journal

import (
	"testing"
	"time"
)

// The rules are common practice, no source.
func TestWhichBurnsCount(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		log  BurnLog
		want string
	}{
		"still air":                  {BurnLog{Burn: Burn{Draught: Draught("none")}}, ""},
		"air not noted":              {BurnLog{}, ""},
		"a slight draught":           {BurnLog{Burn: Burn{Draught: DraughtSlight}}, ""},
		"a strong draught":           {BurnLog{Burn: Burn{Draught: DraughtStrong}, Checks: []Check{{}}}, "it burned in a strong draught"},
		"put out before a check":     {BurnLog{Burn: Burn{Ending: PutOutUnsafe}}, "it was put out for safety before the first check"},
		"put out after a check":      {BurnLog{Burn: Burn{Ending: PutOutUnsafe}, Checks: []Check{{}}}, ""},
		"snuffed before any reading": {BurnLog{Burn: Burn{Ending: Snuffed}}, ""},
	} {
		if got := WidthsCount(c.log); got != c.want {
			t.Errorf("%s: got %q, want %q", name, got, c.want)
		}
	}
}

func TestWhichReadingsCount(t *testing.T) {
	t.Parallel()
	lit := time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)
	out := lit.Add(4 * time.Hour)
	finished, open := Burn{LitAt: lit, OutAt: &out}, Burn{LitAt: lit}
	for name, c := range map[string]struct {
		burn    Burn
		at      time.Time
		leftOut bool
		want    string
	}{
		"in between":                 {finished, lit.Add(time.Hour), false, ""},
		"left out by hand":           {finished, lit.Add(time.Hour), true, "left out by hand"},
		"as it was lit":              {finished, lit, false, "read as it was lit"},
		"a minute after":             {finished, lit.Add(time.Minute), false, ""},
		"as it was put out":          {finished, out, false, ""},
		"a minute after it went out": {finished, out.Add(time.Minute), false, "read after the flame was out"},
		"still lit":                  {open, out.Add(time.Minute), false, ""},
	} {
		if got := ReadingCounts(c.burn, Check{At: c.at, LeftOut: c.leftOut}); got != c.want {
			t.Errorf("%s: got %q, want %q", name, got, c.want)
		}
	}
}
