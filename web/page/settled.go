package page

import (
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/settle"
	"rimward/web/ui"
)

// SettledPage tells how the candles of each wax set.
type SettledPage struct {
	Lede  string
	All   string // where all waxes stand, when only one is shown
	Waxes []SettledWax
	Empty *MissingPage
	Notes []string
}

// SettledWax is one wax.
type SettledWax struct {
	Name, Href, Lede string
	OnePour          string // that all rests on one pour; "" otherwise
	Rows             []SettledRow
	Unseen           string // why there is no table yet
	Tables           []SettledTable
}

// SettledRow is one fault over all candles of a wax.
type SettledRow struct {
	Fault                   string
	Seen, Share, Range      string
	Pours, NotLooked, Usual string
}

// SettledTable is the faults against bands of pour temperature.
type SettledTable struct {
	Title, Lede string
	Heads       []SettledHead
	Rows        []SettledBandRow // none where there is but one band
}

// SettledHead is one band.
type SettledHead struct{ Text, Behind string }

// SettledBandRow is one fault over the bands.
type SettledBandRow struct {
	Fault string
	Cells []SettledCell
}

// SettledCell is how often a fault came in one band.
type SettledCell struct{ Head, Seen, Share string }

// NewSettledPage builds the page; only is the wax that was asked for, 0 for
// all.
func NewSettledPage(waxes []settle.Wax, only journal.ID, v View) SettledPage {
	p := SettledPage{Lede: "How often each fault was seen a day or more after the pour, and what the pour’s temperature went with."}
	if only != 0 {
		p.All = "/settled"
	}
	for _, w := range waxes {
		p.Waxes = append(p.Waxes, settledWax(w, v))
	}
	if len(waxes) == 0 {
		p.Empty = missing("No candle is set yet. A full day after a pour the bench asks for a look at its tops; what you write down is counted here.",
			[]ui.Action{{Text: "The pours", Href: "/pours", Main: true}})
		return p
	}
	p.Notes = settledNotes()
	return p
}

func settledNotes() []string {
	return []string{
		"Intervals are Wilson’s at " + quantity.Fraction(settle.Level).Percent().String() + " (J. Am. Stat. Assoc. 22:209–212, 1927) and take candles as independent. Candles of one pour are not: they share their wax, their oil and their evening. So the interval is too narrow where pours are few; look at the pours beside it.",
		"A candle that nobody looked at for a fault is counted apart, never as one without it. Looks before a full 24 h do not count here (common practice, no source). A share is told from " + counted(settle.Enough, "candle", "candles") + " on (app default).",
		"Wet spots are counted from less than " + safety.StuckWell.Percent().String() + " of the wall stuck (app default). What goes with a temperature need not come from it: hotter pours may have been other candles, loads or rooms.",
	}
}

func settledWax(w settle.Wax, v View) SettledWax {
	x := SettledWax{Name: w.Wax.Name, Href: "/shelf/waxes/" + idText(w.Wax.ID), Lede: settledLede(w.All)}
	if w.All.Looked == 0 {
		x.Unseen = "None was looked at once it was set, so there is nothing to tell yet."
		return x
	}
	if w.All.Pours == 1 {
		x.OnePour = "One pour only: its candles share their luck, and another pour may set quite differently."
	}
	for _, c := range w.All.Counts {
		x.Rows = append(x.Rows, settledRow(c))
	}
	x.Tables = []SettledTable{guideTable(w, v), stepTable(w, v)}
	return x
}

func settledLede(g settle.Group) string {
	s := capital(counted(g.Candles, "candle", "candles")) + " set; " + counted(g.Looked, "was", "were") + " looked at, of " + counted(g.Pours, "pour", "pours")
	if g.Looked == 0 {
		s = capital(counted(g.Candles, "candle", "candles")) + " set; none was looked at"
	}
	if g.Early > 0 {
		s += "; " + counted(g.Early, "was", "were") + " looked at only before a full day had passed"
	}
	return s + "."
}

func settledRow(c settle.Count) SettledRow {
	r := SettledRow{Fault: capital(string(c.Fault)), NotLooked: strconv.Itoa(c.NotLooked)}
	r.Seen, r.Share, r.Range = countTexts(c)
	if c.Looked > 0 {
		r.Pours = strconv.Itoa(c.PoursSeen) + " of " + strconv.Itoa(c.Pours)
		if c.OnePour() {
			r.Pours += ", one pour only"
		}
	}
	if c.Heavy > 0 {
		r.Seen += ", " + strconv.Itoa(c.Heavy) + " heavily"
	}
	if c.Seen > 0 {
		r.Usual = safety.SetRemedy(c.Fault).Do
	}
	return r
}

// countTexts writes a count, its share, and the interval of that.
func countTexts(c settle.Count) (seen, share, interval string) {
	if c.Looked == 0 {
		return "not looked at", "", ""
	}
	seen = strconv.Itoa(c.Seen) + " of " + strconv.Itoa(c.Looked)
	if !c.Enough() {
		return seen, "not enough yet: " + strconv.Itoa(settle.Enough-c.Looked) + " more would do", ""
	}
	return seen, wholePercent(c.Share()) + " %", wholePercent(c.Low) + " to " + wholePercent(c.High) + " %"
}

// wholePercent writes a share without decimals: counts this small tell no more.
func wholePercent(share float64) string { return quantity.Number(100*share, 0) }

func guideTable(w settle.Wax, v View) SettledTable {
	t := SettledTable{Title: "Against the guidance for pouring", Lede: "The supplier’s range is " + rangeText(w.Wax.PourAt, v.temperature).String() + ", both ends within it."}
	if w.Wax.PourAt.IsZero() {
		t.Lede = "No range for pouring is stated for this wax; it can be added on the shelf."
	}
	t.bands(w.ByGuide, func(b settle.Band) string { return capital(string(b.Side)) })
	return t
}

func stepTable(w settle.Wax, v View) SettledTable {
	t := SettledTable{Title: "By the temperature of the pour", Lede: "In steps of " + v.Units.ShowTemperatureDifference(settle.Step).String() + ", each from its lower end to just below its upper."}
	t.bands(w.BySteps, func(b settle.Band) string {
		if b.Side != "" {
			return capital(string(b.Side))
		}
		return v.temperature(b.From).Number + " to " + v.temperature(b.Top).String()
	})
	return t
}

// bands fills a table, one column for each band; where all that were looked at
// fall into one, its figures are those of all, and words say so.
func (t *SettledTable) bands(bands []settle.Band, name func(settle.Band) string) {
	looked := slices.DeleteFunc(slices.Clone(bands), func(b settle.Band) bool { return b.Group.Looked == 0 })
	if len(looked) == 1 {
		t.Lede = joinWords(t.Lede, "All that were looked at fall into one group ("+name(looked[0])+"), so there is nothing to set against it yet.")
		return
	}
	for i, f := range safety.SetFaults {
		row := SettledBandRow{Fault: capital(string(f))}
		for _, b := range bands {
			c := b.Group.Counts[i]
			cell := SettledCell{Head: name(b)}
			var interval string
			cell.Seen, cell.Share, interval = countTexts(c)
			if interval != "" {
				cell.Share += " (" + interval + ")"
			}
			if c.OnePour() {
				cell.Share = joinBy("; ", cell.Share, "one pour only")
			}
			row.Cells = append(row.Cells, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	for _, b := range bands {
		t.Heads = append(t.Heads, SettledHead{name(b), figured(b.Group.Looked, "candle", "candles") + ", " + figured(b.Group.Pours, "pour", "pours")})
	}
}
