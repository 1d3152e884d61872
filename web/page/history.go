package page

import (
	"encoding/json"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// reader turns the kept JSON of a record into its facts.
type reader func(raw []byte) []ui.Fact

// factsOf makes a reader from the function that lists a record's facts.
func factsOf[T any](facts func(T) []ui.Fact) reader {
	return func(raw []byte) []ui.Fact {
		var x T
		if len(raw) == 0 || json.Unmarshal(raw, &x) != nil {
			return nil
		}
		return facts(x)
	}
}

// changeLines writes a record's history, newest first.
func changeLines(changes []journal.Change, v View, read reader) []ui.ChangeLine {
	lines := make([]ui.ChangeLine, 0, len(changes))
	for _, c := range changes {
		lines = append(lines, changeLine(c, "", v, read))
	}
	return lines
}

// changeLine writes one change; what names the record where a list mixes them.
func changeLine(c journal.Change, what string, v View, read reader) ui.ChangeLine {
	l := ui.ChangeLine{When: v.Moment(c.At), What: capital(joinWords(what, kindWord(c)))}
	switch c.Kind {
	case journal.Corrected:
		l.Diffs = diffs(read(c.Before), read(c.After))
	case journal.Withdrawn:
		if why := whyOf(c.After); why != "" {
			l.Diffs = []ui.Diff{{Label: "Reason", Before: "", After: why}}
		}
	}
	return l
}

func kindWord(c journal.Change) string {
	shelf := c.Noun == journal.NounWax || c.Noun == journal.NounFragrance || c.Noun == journal.NounVessel ||
		c.Noun == journal.NounLadder || c.Noun == journal.NounMould || c.Noun == journal.NounWick
	switch {
	case c.Kind == journal.Withdrawn && shelf:
		return "retired"
	case c.Kind == journal.Restored && shelf:
		return "brought back"
	case c.Kind == journal.Restored:
		return "brought back"
	case c.Kind == journal.Written && c.Noun == journal.NounPhoto:
		return "attached"
	case c.Kind == journal.Written:
		return "written down"
	}
	return string(c.Kind)
}

// whyOf reads the reason from a withdrawn record.
func whyOf(raw []byte) string {
	var m struct {
		GoneWhy string `json:"gone_why"`
	}
	if json.Unmarshal(raw, &m) != nil {
		return ""
	}
	return m.GoneWhy
}

// diffs lists the facts that differ, in the order of the facts after.
func diffs(before, after []ui.Fact) []ui.Diff {
	was := map[string]string{}
	for _, f := range before {
		was[f.Label] = factText(f)
	}
	var out []ui.Diff
	for _, f := range after {
		if old := was[f.Label]; old != factText(f) {
			out = append(out, ui.Diff{Label: f.Label, Before: orNothing(old), After: factText(f)})
		}
		delete(was, f.Label)
	}
	for _, f := range before {
		if old, left := was[f.Label]; left {
			out = append(out, ui.Diff{Label: f.Label, Before: old, After: orNothing("")})
		}
	}
	return out
}

func factText(f ui.Fact) string { return joinWords(f.Text, f.Unit) }

func orNothing(s string) string {
	if s == "" {
		return "not noted"
	}
	return s
}
