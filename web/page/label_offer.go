package page

import (
	"slices"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/web/ui"
)

// CandleLabel is the label of a candle's base.
func CandleLabel(l journal.CandleLine, v View) BaseLabel {
	b := BaseLabel{Key: "c" + idText(l.Candle.ID), Big: l.Candle.Code(), Path: "/candles/" + idText(l.Candle.ID), Opens: "candle " + l.Candle.Code()}
	b.Lines = []string{wickCount(l.Candle.Wicks) + l.WickName, l.VesselName, "ready " + v.Date(l.Life.ReadyAt())}
	if l.Candle.RoundPlace > 0 {
		b.Lines = append(b.Lines, "place "+strconv.Itoa(l.Candle.RoundPlace))
	}
	return b
}

// PlaceLabel is the label of a round's place: its candle's, or, while it is to
// be poured, one that says which place and melt it is for.
func PlaceLabel(x plan.PlaceProgress, sh Shelves, v View) BaseLabel {
	if x.Candle != nil {
		return CandleLabel(*x.Candle, v)
	}
	n := strconv.Itoa(x.Place.Number)
	return BaseLabel{Key: "p" + n, Big: "place " + n, Lines: []string{"melt " + strconv.Itoa(x.Place.Melt),
		wickCount(x.Place.Wicks) + wickNamed(sh, x.Place.Wick), vesselName(sh, x.Place.Vessel)}}
}

// PourLabels offers the labels of a pour's candles.
func PourLabels(p journal.Pour, lines []journal.CandleLine, v View) LabelOffer {
	at := "/pours/" + idText(p.ID)
	o := LabelOffer{Title: "Labels of " + pourName(p), Lede: "For the bases: code, wick, vessel and the day each is ready. The code opens the candle’s page.",
		Action: at + "/labels", All: true, Back: ui.Action{Text: "Back to the pour", Href: at},
		Empty: "No candle of this pour yet: say first which vessels it filled."}
	o.Labels = candleLabels(lines, v)
	return o
}

// RoundLabels offers the labels of a round's places.
func RoundLabels(r journal.TestRound, p plan.RoundProgress, sh Shelves, v View) LabelOffer {
	at := "/rounds/" + idText(r.ID)
	o := LabelOffer{Title: "Labels of a round", Lede: r.Question + " Places that are not poured yet have a label with their melt and no code.",
		Action: at + "/labels", All: true, Back: ui.Action{Text: "Back to the round", Href: at}, Empty: "This round has no places."}
	for _, x := range p.Places {
		o.Labels = append(o.Labels, PlaceLabel(x, sh, v))
	}
	return o
}

// AnyLabels offers the labels of any candles.
func AnyLabels(lines []journal.CandleLine, v View) LabelOffer {
	o := LabelOffer{Title: "Labels", Lede: "For the bases of candles. Those of one pour or one round are printed from its own page.",
		Action: "/labels", Back: ui.Action{Text: "Back to the candles", Href: "/candles"},
		Empty: "No candle yet. A candle belongs to a pour: record the pour first, then say which vessels it filled."}
	o.Labels = candleLabels(lines, v)
	return o
}

func candleLabels(lines []journal.CandleLine, v View) []BaseLabel {
	var out []BaseLabel
	for _, l := range lines {
		if !l.Life.Gone {
			out = append(out, CandleLabel(l, v))
		}
	}
	return out
}

// CoveredLabels offers the codes of a covered smelling, and nothing that tells
// which candle they stand for: they come in the order of the codes, and what
// they open is the score sheet.
func CoveredLabels(l journal.SmellingLog) LabelOffer {
	at := "/throw/" + idText(l.Smelling.ID)
	o := LabelOffer{Title: "Codes to print", Lede: "The codes alone, to be stuck on or set beside the candles. Which goes where stands on a page of its own, for whoever sets them out; it is not on this sheet.",
		Action: at + "/codes", Fixed: true, Back: ui.Action{Text: "Back to the score sheet", Href: at}, Empty: "There is no code in this smelling."}
	for _, c := range l.Cups {
		if !c.Cup.IsGone() {
			o.Labels = append(o.Labels, BaseLabel{Key: c.Cup.Code, Big: c.Cup.Code, Path: at, Opens: "the score sheet"})
		}
	}
	slices.SortFunc(o.Labels, func(a, b BaseLabel) int { return strings.Compare(a.Big, b.Big) })
	return o
}
