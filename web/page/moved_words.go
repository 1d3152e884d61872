package page

import (
	"slices"
	"strconv"

	"rimward/internal/influence"
)

// factorWords name a factor in the middle of a sentence, and the pour that
// would change it alone.
var factorWords = map[influence.Factor]struct{ name, title, alone string }{
	influence.Load:     {"load", "Fragrance load", "Pour one more batch of the same fragrance that changes only the load, and give it the same vessels and wicks."},
	influence.PouredAt: {"pour temperature", "Pour temperature", "Pour one more batch alike in everything but its pour temperature, into the same vessels and wicks."},
	influence.Warmed:   {"warmed vessels", "Warmed vessel", "From one batch, pour half into warmed vessels and half into cold ones, written down as two pours."},
	influence.Cured:    {"cure", "Cure", "Of one batch, light some candles when they are cured and others of the same pairing two weeks later."},
}

// movedUntold says why a factor cannot be told, and what would settle it.
func movedUntold(u influence.Untold, a influence.Answer, v View) MovedUntold {
	w := factorWords[u.Factor]
	out := MovedUntold{Name: w.title, Next: w.alone}
	switch u.Why {
	case influence.NeverVaried:
		out.Text = "It was the same for every candle."
		if u.Factor == influence.Warmed {
			out.Text = "No difference was noted: a vessel counts as warmed where the pour has a temperature for it."
		}
	case influence.NotWithin:
		out.Text = "It differed, but never between candles of one pairing and fragrance, so it cannot be told from what else differed there."
	case influence.Together:
		out.Text = capital(listed(togetherNames(u))) + " changed together here, always or nearly so."
		out.Next = "Pour one batch that changes only one of them."
	case influence.HardlyNoted:
		out.Text = "It was noted for only " + strconv.Itoa(u.Noted) + " of " + figured(u.Of, "candle", "candles") + "."
		out.Next = "Note it at every pour."
	case influence.TooFew:
		out.Text = "Not enough yet: too few candles for so many pairings."
		out.Next = "At least " + counted(u.Lacks, "more candle", "more candles") + " in pairings that were burned already would do."
	case influence.TooFewPours:
		out.Text, out.Next = fewPours(u), fewPoursNext(u)
	case influence.TooAlike:
		st := stepOf(u.Factor, v)
		out.Text = "The candles differ in it too little. " + st.words + " the pool may have been " + interval(change(u.Effect.Low, st, a), change(u.Effect.High, st, a), v) + ", which says nothing."
	case influence.WallHidesAll:
		out.Text = "Where it differed, the pools stood at the wall from the first look on, so little more than a least width is known of them."
		out.Next = "Look at the pool earlier, at a third of its target hour, or compare with a weaker wick."
	}
	return out
}

// fewPours says why the pours behind a factor do not do.
func fewPours(u influence.Untold) string {
	if u.Pours >= influence.LeastPours {
		return "Not enough yet: of the " + counted(u.Pours, "pour", "pours") + " that speak for it too few differ in it, and whatever else was particular to those would count along."
	}
	return "Not enough yet: its candles come from " + counted(u.Pours, "pour", "pours") + ", and whatever else differed between those would count along, however many candles each gave."
}

func fewPoursNext(u influence.Untold) string {
	next := factorWords[u.Factor].alone
	if u.Pours < influence.LeastPours {
		next += " At least " + counted(u.Lacks, "more pour", "more pours") + " would do."
	}
	return next
}

// togetherNames names the factors that moved together, in the usual order.
func togetherNames(u influence.Untold) []string {
	var out []string
	for _, f := range influence.Factors {
		if f == u.Factor || slices.Contains(u.With, f) {
			out = append(out, factorWords[f].name)
		}
	}
	return out
}

// movedLeftOut counts the candles that were not compared, with the reasons.
func movedLeftOut(l influence.LeftOut) []string {
	var out []string
	for _, x := range []struct {
		n   int
		why string
	}{
		{l.NoWidth, "without any width that was read late enough"},
		{l.Incomplete, "with something not noted that differs among the others"},
		{l.Alone, "with no other candle of the pairing and fragrance to compare with"},
		{l.AtWall, "of pairings whose pools were full at every look"},
	} {
		if x.n > 0 {
			out = append(out, figured(x.n, "candle", "candles")+" "+x.why)
		}
	}
	return out
}

// movedDoubts are what is to be said of all the differences.
func movedDoubts(a influence.Answer) []string {
	var out []string
	if len(a.Effects) == 0 {
		return nil
	}
	if a.Open > 0 {
		out = append(out, capital(counted(a.Open, "candle was", "candles were"))+" full at a first look: little more than a least width is known there, and it is reckoned as that.")
	}
	return out
}
