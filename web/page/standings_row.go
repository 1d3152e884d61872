package page

import (
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/web/chart"
	"rimward/web/ui"
)

// StandingsRow is one pairing.
type StandingsRow struct {
	Rank, Name, Count string
	Disc              chart.Disc
	Share, Width      string // at the target hour, in per cent of the width and as a length
	Range, Left       string
	Full, FullMore    string
	Candles, Burns    string
	Faults            []string
	Hard              []ui.Warning // why it stands below the line
	Doubts            string
	NotYet            string
	Behind            string // names what can be opened
	Rows              []StandingsCandle
}

// StandingsCandle is what one candle adds to its pairing.
type StandingsCandle struct {
	Code, Href, Mean string
	Burns            []StandingsBurn
}

// StandingsBurn is what one burn adds to its candle.
type StandingsBurn struct {
	Number, Day string
	Share       string // at the target hour; "" when it does not count
	How         string // what the share rests on, or why the burn does not count
	Read        string // the widths that were read
	LeftOut     []string
}

func standingsRow(x standings.Pairing, read burnReadings, v View) StandingsRow {
	r := StandingsRow{Name: x.Name(), Count: capital(counted(x.Wicks, "wick", "wicks")), Disc: pairingDisc(x),
		Candles: strconv.Itoa(x.Candles), Burns: strconv.Itoa(x.Burns), NotYet: x.NotYet}
	r.Full, r.FullMore = fullPool(x.Full)
	if x.Enough() {
		r.Share, r.Range = percent(*x.Ratio), spread(*x.Min, *x.Max)
		r.Width, r.Left = v.length(*x.Width).Number, v.length(*x.Left).Number
	}
	for _, f := range x.Faults {
		r.Faults = append(r.Faults, f.Name+" in "+strconv.Itoa(f.Burns)+" of "+strconv.Itoa(f.Of))
	}
	for _, f := range x.Hard {
		r.Hard = append(r.Hard, ui.Warning{Hard: true, Text: whereSeen(f) + f.Text})
	}
	r.Doubts = doubts(x)
	r.Behind = "The readings of " + figured(len(x.Rows), "candle", "candles") + " and " + figured(x.AllBurns, "burn", "burns")
	for _, c := range x.Rows {
		r.Rows = append(r.Rows, standingsCandle(c, read, v))
	}
	return r
}

// pairingDisc draws the mean pool at the target hour.
func pairingDisc(x standings.Pairing) chart.Disc {
	s := chart.DiscSpec{Shape: string(x.Vessel.Shape), Length: float64(x.Vessel.Length()), Width: float64(x.Vessel.InnerWidth),
		Wicks: x.Wicks, Decorative: true, Unlit: !x.Enough()}
	if x.Enough() {
		s.PoolA, s.PoolB = s.Length**x.Ratio, s.Width**x.Ratio
	}
	return chart.NewDisc(s)
}

func percent(ratio float64) string { return quantity.Fraction(ratio).Percent().Number }

// spread writes the smallest and the largest share; one where they are shown
// alike.
func spread(low, high float64) string {
	if percent(low) == percent(high) {
		return percent(low)
	}
	return percent(low) + "–" + percent(high)
}

// whereSeen names the candle and the burn of a finding.
func whereSeen(f safety.Finding) string {
	switch {
	case f.Candle == "":
		return ""
	case f.Burn == 0:
		return f.Candle + ": "
	}
	return f.Candle + ", burn " + strconv.Itoa(f.Burn) + ": "
}

// doubts joins what the average carries, but for what stands elsewhere: pools
// full too soon among the faults, the mixed settings above the table.
func doubts(x standings.Pairing) string {
	var kept []string
	for _, w := range x.Warnings {
		switch {
		case strings.HasPrefix(w, "Full before half"):
		case strings.Contains(w, "averaged together"):
			kept = append(kept, "Averaged over "+counted(len(x.Settings), "setting", "settings")+".")
		default:
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}

func standingsCandle(c standings.CandleRow, read burnReadings, v View) StandingsCandle {
	out := StandingsCandle{Code: c.Candle.Code(), Href: "/candles/" + idText(c.Candle.ID), Mean: "no burn tells the width at the hour"}
	if c.Mean != nil {
		out.Mean = "mean " + percent(*c.Mean) + " % of the width"
	}
	for _, b := range c.Burns {
		out.Burns = append(out.Burns, standingsBurn(b, read, v))
	}
	return out
}

func standingsBurn(b standings.BurnRow, read burnReadings, v View) StandingsBurn {
	out := StandingsBurn{Number: strconv.Itoa(b.Number), Day: v.Day(b.LitAt), How: "does not count: " + b.Why, Read: read.text(b, v)}
	if b.Used {
		out.Share, out.How = percent(b.Ratio), string(b.How)
	}
	for _, o := range b.LeftOut {
		out.LeftOut = append(out.LeftOut, "left out: the check of "+v.Clock(o.At)+", "+o.Why)
	}
	return out
}

// readings finds a burn's checks by its ID.
type burnReadings map[journal.ID]journal.BurnLog

func readingsOf(logs []journal.CandleLog) burnReadings {
	r := burnReadings{}
	for _, l := range logs {
		for _, b := range l.Burns {
			r[b.Burn.ID] = b
		}
	}
	return r
}

// text lists the widths of a burn that were not left out: 48 × 46 mm at
// 1 h 00, full at 2 h 30.
func (r burnReadings) text(b standings.BurnRow, v View) string {
	out := map[journal.ID]bool{}
	for _, o := range b.LeftOut {
		out[o.Check] = true
	}
	var parts []string
	for _, c := range r[b.Burn].Checks {
		if c.IsGone() || out[c.ID] || !measured(c) {
			continue
		}
		text, unit := poolText(c, v)
		parts = append(parts, joinWords(text, unit)+" at "+spanOf(b.LitAt, c.At).Clock())
	}
	return strings.Join(parts, ", ")
}
