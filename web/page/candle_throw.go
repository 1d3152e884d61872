package page

import (
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/stats"
	"rimward/internal/throw"
	"rimward/web/ui"
)

// ThrowPart is what is known of the throw of a candle or of a pairing's
// candles: from smellings, and from the checks of burns.
type ThrowPart struct {
	Facts []ui.Fact
	Items []ui.Item // the smellings behind it
	Empty string    // instead of everything
	Notes []string
	Acts  []ui.Action
}

// NewThrowPart builds the section. smelled must hold no covered smelling; logs
// are the candles. ask is the candle that can be smelled from here, 0 for none.
func NewThrowPart(smelled []journal.Smelled, logs []journal.CandleLog, ask journal.ID, v View) ThrowPart {
	p := ThrowPart{}
	if ask != 0 && canSmell(logs, ask) {
		p.Acts = append(p.Acts, ui.Action{Text: "Smell it", Href: "/throw/new?candle=" + idText(ask)})
	}
	p.Acts = append(p.Acts, ui.Action{Text: "All smellings", Href: "/throw"})
	var few bool
	if p.Facts, few = throwFacts(smelled, logs); len(p.Facts) == 0 {
		p.Empty = "Not smelled yet, and no check has a hot throw."
		return p
	}
	p.Items, p.Notes = smelledItems(smelled, logs, v), throwNotes(few)
	return p
}

// throwFacts are the figures of each source by itself; few says that one of
// them rests on few judgements.
func throwFacts(smelled []journal.Smelled, logs []journal.CandleLog) (facts []ui.Fact, few bool) {
	for _, kind := range []journal.ThrowKind{journal.ColdThrow, journal.HotThrow} {
		if f, n := smelledFact(smelled, kind); n > 0 {
			facts, few = append(facts, f), few || n < stats.EnoughJudgements
		}
	}
	if hours := checkThrows(logs); len(hours) > 0 {
		facts = append(facts, checksFact(hours))
	}
	return facts, few
}

// throwNotes say how far the figures may be trusted.
func throwNotes(few bool) (notes []string) {
	if few {
		notes = append(notes, "Under "+strconv.Itoa(stats.EnoughJudgements)+" judgements a figure is indicative only (ASTM E544).")
	}
	return append(notes, "A score is a word, not a quantity: how strong a smell seems grows as a power of its concentration, so twice the load does not double the score (perfumery textbooks).")
}

// canSmell reports whether a candle is there to be smelled.
func canSmell(logs []journal.CandleLog, id journal.ID) bool {
	return slices.ContainsFunc(logs, func(l journal.CandleLog) bool {
		life := l.Life()
		return l.Candle.ID == id && !life.Gone && !life.Spent
	})
}

// smelledFact is the middle and the spread of all scores of one kind.
func smelledFact(smelled []journal.Smelled, kind journal.ThrowKind) (ui.Fact, int) {
	var scores []float64
	var noses []string
	sessions := map[journal.ID]bool{}
	for _, x := range smelled {
		if x.Smelling.Kind != kind {
			continue
		}
		for _, s := range x.Scores {
			scores, sessions[x.Smelling.ID] = append(scores, float64(s.Score)), true
			if !slices.ContainsFunc(noses, func(n string) bool { return journal.SameNose(n, s.Nose) }) {
				noses = append(noses, s.Nose)
			}
		}
	}
	sum := throw.Summarise(scores)
	median, word, spread := summaryTexts(sum)
	behind := figured(sum.N, "score", "scores") + " by " + figured(len(noses), "nose", "noses") + " in " + figured(len(sessions), "smelling", "smellings")
	if sum.N == 1 {
		spread = ""
	}
	return ui.Fact{Label: capital(string(kind)) + " throw, smelled", Text: "median " + median + ", " + word, More: joinBy("; ", spread, behind)}, sum.N
}

// checkThrows gathers the hot throws of checks that count, by the nearest whole
// hour since lighting; the first half hour stands with hour 0.
func checkThrows(logs []journal.CandleLog) map[int][]float64 {
	out := map[int][]float64{}
	for _, l := range logs {
		for _, b := range l.Burns {
			for _, c := range b.Checks {
				if c.HotThrow == nil || c.IsGone() || b.Burn.IsGone() {
					continue
				}
				h := spanOf(b.Burn.LitAt, c.At).Nearest()
				out[h] = append(out[h], float64(*c.HotThrow))
			}
		}
	}
	return out
}

// checksFact is the middle hot throw of checks, hour by hour.
func checksFact(hours map[int][]float64) ui.Fact {
	var parts []string
	n := 0
	for h := 0; len(parts) < len(hours); h++ {
		if x := hours[h]; len(x) > 0 {
			s := throw.Summarise(x)
			parts, n = append(parts, tight(strconv.Itoa(h)+" h")+": "+quantity.Score(s.Median)+tight(" (n "+strconv.Itoa(s.N)+")")), n+s.N
		}
	}
	return ui.Fact{Label: "Hot throw, from checks", Text: joinBy(", ", parts...), More: "median by the hour since lighting; " + figured(n, "check", "checks") + ", beside the candle and not blind"}
}

func codesByID(logs []journal.CandleLog) map[journal.ID]string {
	out := map[journal.ID]string{}
	for _, l := range logs {
		out[l.Candle.ID] = l.Candle.Code()
	}
	return out
}

// smelledItems are the smellings that gave a score, the latest first.
func smelledItems(smelled []journal.Smelled, logs []journal.CandleLog, v View) (items []ui.Item) {
	codes := codesByID(logs)
	for _, x := range slices.Backward(smelled) {
		if len(x.Scores) > 0 {
			items = append(items, smelledItem(x, codes, len(logs) > 1, v))
		}
	}
	return items
}

// smelledItem is one candle in one smelling.
func smelledItem(x journal.Smelled, codes map[journal.ID]string, several bool, v View) ui.Item {
	scores := make([]float64, len(x.Scores))
	for i, s := range x.Scores {
		scores[i] = float64(s.Score)
	}
	median, _, spread := summaryTexts(throw.Summarise(scores))
	i := ui.Item{Text: string(x.Smelling.Kind) + " throw", Href: "/throw/" + idText(x.Smelling.ID), When: v.Day(x.Smelling.At)}
	if several {
		i.Text = codes[x.Cup.Candle] + ", " + i.Text
	}
	how := "open"
	if x.Smelling.Blind {
		how = "blind"
	}
	var lit string
	if x.Cup.Minutes != nil {
		lit = x.Cup.Minutes.String() + " lit"
	}
	i.Text, i.More = capital(i.Text), joinBy(" · ", "median "+median, spread, figured(len(scores), "nose", "noses"), lit, how)
	return i
}
