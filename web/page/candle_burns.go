package page

import (
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/chart"
	"rimward/web/ui"
)

// BurnStrip is one burn as a strip of pools, hour by hour.
type BurnStrip struct {
	Title, When, Lasted string
	Rate, RateUnit      string
	Ending, Note, Gone  string
	Missing             string // instead of pools
	Pools               []PoolFigure
	Warnings            []ui.Warning
	Notes               []string // what is worth knowing
	Correct, AddCheck   string
	Withdraw            string
	BringBack           *ui.Action
	Lit                 bool
	Photos              []PhotoFigure
	AddPhotos           string
}

// PoolFigure is one check's pool with its hour and widths.
type PoolFigure struct {
	Disc       chart.Disc
	Hour, Text string
	LeftOut    bool
}

// burnStrip builds the strip of one burn.
func burnStrip(b journal.BurnLog, l journal.CandleLog, lim safety.Limits, v View) BurnStrip {
	x := b.Burn
	id := idText(x.ID)
	s := BurnStrip{Title: "Burn " + strconv.Itoa(x.Number), When: v.Moment(x.LitAt), Lasted: x.Lasted(v.Now).Clock(),
		Ending: endingText(x), Note: x.Note, Lit: x.Lit(), Correct: "/burns/" + id + "/edit"}
	if x.IsGone() {
		s.Gone = joinWords("Withdrawn "+v.Day(*x.Gone)+".", x.GoneWhy)
		s.BringBack = &ui.Action{Text: "Bring it back", Href: "/restore/burn/" + id, Post: true}
		return s
	}
	s.AddCheck, s.Withdraw = "/burns/"+id+"/checks/new", "/withdraw/burn/"+id
	if r, ok := x.Rate(); ok {
		s.Rate, s.RateUnit = r.Shown().Number, r.Shown().Unit
	}
	for _, c := range inTime(b.Checks) {
		if !c.IsGone() && measured(c) {
			s.Pools = append(s.Pools, poolFigure(c, x, l, v))
		}
	}
	if len(s.Pools) == 0 {
		s.Missing = "No width was read in this burn."
	}
	s.Warnings, s.Notes = burnFindings(b, l.Made, lim, v)
	s.Notes = append(s.Notes, earlyNotes(x.Number, l)...)
	return s
}

// endingText says how the burn ended; "lit" while it burns.
func endingText(b journal.Burn) string {
	if b.OutAt == nil {
		return "still lit"
	}
	return string(b.Ending)
}

func poolFigure(c journal.Check, b journal.Burn, l journal.CandleLog, v View) PoolFigure {
	text, _ := poolText(c, v)
	if c.Full {
		text = "full"
	}
	return PoolFigure{Disc: discOf(l.Vessel, l.Candle.Wicks, &c, 0, v), Hour: spanOf(b.LitAt, c.At).Clock(),
		Text: text, LeftOut: c.LeftOut}
}

// inTime is the checks in order of time.
func inTime(checks []journal.Check) []journal.Check {
	cs := slices.Clone(checks)
	slices.SortStableFunc(cs, func(a, b journal.Check) int { return a.At.Compare(b.At) })
	return cs
}

// burnFindings are what one burn and its checks show: cautions once for each
// rule, with how often they came again, and what is merely worth knowing.
func burnFindings(b journal.BurnLog, m journal.Made, lim safety.Limits, v View) ([]ui.Warning, []string) {
	var fs []safety.Finding
	for _, c := range inTime(b.Checks) {
		if !c.IsGone() {
			for _, f := range safety.OfCheck(c, m, lim, v.Units) {
				f.Text = "At " + spanOf(b.Burn.LitAt, c.At).Clock() + ": " + f.Text
				fs = append(fs, f)
			}
		}
	}
	fs = append(fs, safety.OfBurn(b, m, lim, v.Units)...)
	var kept []safety.Finding
	var notes []string
	for i, f := range fs {
		if slices.ContainsFunc(fs[:i], func(o safety.Finding) bool { return o.Rule == f.Rule }) {
			continue
		}
		if n := timesOf(f.Rule, fs); n > 1 {
			f.Text += " Again at " + counted(n-1, "later check", "later checks") + "."
		}
		if f.Level == safety.Note {
			notes = append(notes, f.Text)
			continue
		}
		kept = append(kept, f)
	}
	return warnings(kept), notes
}

func timesOf(rule string, fs []safety.Finding) int {
	n := 0
	for _, f := range fs {
		if f.Rule == rule {
			n++
		}
	}
	return n
}

// ReadingRow is one check in the table of readings.
type ReadingRow struct {
	Burn, Hour, Width, Full, Depth, Flame string
	Mushroom, Soot, Wall, Temp, Throw     string
	Odd, Note, Edit                       string
	Gone, LeftOut                         bool
	BringBack                             *ui.Action
	Withdraw, AddPhotos                   string
}

// readingRows writes the checks of one burn, withdrawn ones struck through.
func readingRows(b journal.BurnLog, v View) []ReadingRow {
	var rows []ReadingRow
	for _, c := range inTime(b.Checks) {
		r := ReadingRow{Burn: strconv.Itoa(b.Burn.Number), Hour: spanOf(b.Burn.LitAt, c.At).Clock(),
			Mushroom: string(c.Mushroom), Soot: string(c.Soot), Wall: string(c.WallWax), Odd: oddText(c.Odd), Note: c.Note,
			Full: onlyYes(c.Full), Edit: "/checks/" + idText(c.ID) + "/edit", LeftOut: c.LeftOut}
		if c.WidthA != nil || c.WidthB != nil {
			r.Width, _ = poolText(c, v)
		}
		keepLength(&r.Depth, c.Depth, v.Units)
		keepLength(&r.Flame, c.Flame, v.Units)
		if c.VesselTemp != nil {
			r.Temp = v.temperature(*c.VesselTemp).Number
		}
		if c.HotThrow != nil {
			r.Throw = strconv.Itoa(*c.HotThrow)
		}
		r.Gone = c.IsGone() || b.Burn.IsGone()
		switch {
		case c.IsGone() && !b.Burn.IsGone():
			r.BringBack = &ui.Action{Text: "Bring it back", Href: "/restore/check/" + idText(c.ID), Post: true}
		case !r.Gone:
			r.Withdraw, r.AddPhotos = "/withdraw/check/"+idText(c.ID), addPhotosTo(journal.NounCheck, c.ID)
		}
		if c.IsGone() {
			r.Note = joinBy("; ", joinBy(": ", "withdrawn", c.GoneWhy), r.Note)
		}
		rows = append(rows, r)
	}
	return rows
}
