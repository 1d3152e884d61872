package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"rimward/internal/quantity"
	"rimward/internal/standings"
)

// writeStandings writes a table as text.
func writeStandings(w io.Writer, t standings.Table, u quantity.Units) error {
	var b strings.Builder
	for _, g := range t.Groups {
		for _, x := range g.Series {
			writeSeries(&b, g, x, u)
		}
		if len(g.Across) > 0 {
			fmt.Fprintf(&b, "Closest of all in %s:", g.Vessel.Name)
			for i, c := range g.Across {
				b.WriteString([]string{" ", ", "}[min(i, 1)] + c.Name + " " + quantity.Chance(c.Chance).String())
			}
			b.WriteString(".\n\n")
		}
	}
	if len(t.Groups) == 0 {
		b.WriteString("Nothing was burned yet.\n")
	} else {
		b.WriteString("Widths and hours are those of a next candle: half the time below the first number,\n" +
			"four times in five between the two in brackets. Chances rest on these readings and on\n" +
			"what is believed before the first burn; they are not a test by a laboratory. What may\n" +
			"be sold is a matter of the standards and of your local rules.\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// writeSeries writes one series: its title, its rows, what to try next, and
// the doubts.
func writeSeries(b *strings.Builder, g standings.Group, x standings.Series, u quantity.Units) {
	fmt.Fprintf(b, "%s · %s\n", g.Vessel.Name, x.In(g))
	fmt.Fprintf(b, "Inner width %s, target hour %s, %s, %s.\n\n", u.ShowLength(g.Vessel.Width()), g.Target.Clock(), counted(x.Candles, "candle"), counted(x.Burns, "burn"))
	writeRows(b, rowsOf(x, u))
	b.WriteString("\n" + x.Advice.Text + "\n")
	for _, line := range doubtsOf(x) {
		b.WriteString("- " + line + "\n")
	}
	b.WriteString("\n")
}

// textRow is one line of a table, or a heading within it.
type textRow struct {
	heading string
	cells   []string
}

var textColumns = textRow{cells: []string{"place", "wick", "closeness", "width at the hour", "full pool after", "on target", "closest", "candles", "burns"}}

// rowsOf are the pairings of a series in the order they are shown.
func rowsOf(x standings.Series, u quantity.Units) []textRow {
	out := []textRow{textColumns}
	under := ""
	add := func(heading string, p standings.Pairing) {
		if heading != under {
			under = heading
			out = append(out, textRow{heading: heading})
		}
		out = append(out, textRow{cells: cellsOf(p, x.Tested() == 1, u)})
	}
	for _, p := range x.Pairings {
		switch {
		case p.BelowLine():
			add("below the line, for the reasons given", p)
		case !p.Enough():
			add("not enough yet", p)
		default:
			add("", p)
		}
	}
	for _, p := range x.Guesses {
		add("guesses for rungs that were not burned", p)
	}
	return out
}

// cellsOf are the figures of one pairing in words.
func cellsOf(p standings.Pairing, lone bool, u quantity.Units) []string {
	place, closest, candles, burns := "", "", "", ""
	if p.Enough() {
		candles, burns = fmt.Sprint(p.Candles), fmt.Sprint(p.Burns)
	}
	if p.Enough() && !lone {
		closest = quantity.Chance(p.Closest).String()
	}
	if p.Rank > 0 {
		place = quantity.Ordinal(p.Rank)
	}
	if p.NotYet != "" {
		return []string{"", p.Name()}
	}
	return []string{place, p.Name(), quantity.Closeness(p.Closeness()).String(), widthText(p, u), fullText(p),
		quantity.Chance(p.OnTarget).String(), closest, candles, burns}
}

// widthText is the width at the target hour, next candle.
func widthText(p standings.Pairing, u quantity.Units) string {
	show := func(mm float64) string { return u.ShowLength(quantity.Millimetres(mm)).String() }
	if p.AtLeast {
		return "at least " + show(p.Next.P10)
	}
	return show(p.Next.P50) + " (" + show(p.Next.P10) + " to " + show(p.Next.P90) + ")"
}

// fullText is the time to a full pool, next candle.
func fullText(p standings.Pairing) string {
	show := func(h float64) string {
		if math.IsInf(h, 1) {
			return "may never"
		}
		return quantity.Hours(h).Clock()
	}
	if math.IsInf(p.Full.P50, 1) {
		return "may never, chance " + quantity.Chance(p.Never).String()
	}
	return show(p.Full.P50) + " (" + show(p.Full.P10) + " to " + show(p.Full.P90) + ")"
}

// doubtsOf are the reasons and warnings of a series, each with its wick.
func doubtsOf(x standings.Series) []string {
	out := slices.Clone(x.Warnings)
	for _, p := range x.Pairings {
		for _, d := range p.Doubts() {
			out = append(out, p.Name()+": "+d)
		}
	}
	var guesses []string
	for _, p := range x.Guesses {
		for _, d := range p.Doubts() {
			if !slices.Contains(guesses, d) {
				guesses = append(guesses, d)
				out = append(out, "Guesses: "+d)
			}
		}
	}
	return out
}

// toTheRight are the columns of numbers.
var toTheRight = []bool{2: true, 5: true, 6: true, 7: true, 8: true}

// writeRows sets rows in columns.
func writeRows(b *strings.Builder, rows []textRow) {
	widths := make([]int, len(textColumns.cells))
	for _, r := range rows {
		for i, c := range r.cells {
			widths[i] = max(widths[i], utf8.RuneCountInString(c))
		}
	}
	for _, r := range rows {
		line := r.heading
		for i, c := range r.cells {
			gap := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(c))
			if toTheRight[i] {
				line += gap + c + "  "
			} else {
				line += c + gap + "  "
			}
		}
		b.WriteString("  " + strings.TrimRight(line, " ") + "\n")
	}
}

func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprint(n) + " " + thing + "s"
}
