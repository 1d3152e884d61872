package page

import (
	"net/url"
	"strconv"

	"rimward/internal/answer"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/web/chart"
	"rimward/web/ui"
)

// RoundAnswerPart is what a round answers so far.
type RoundAnswerPart struct {
	Note string // when it was worked out, where that is behind the record
	Told bool   // everything that was asked is answered
	// Vessels compares them; nil where the round has one.
	Vessels *RoundVessels
	Wicks   []RoundWicks
	Levels  []RoundLevels
	Method  string
}

// RoundWicks is what is said of the wicks in one vessel.
type RoundWicks struct {
	Title, Lede string
	Text, Next  string // the answer, and what would be enough where it is none
	Told        bool
	Rows        []RoundWickRow
	Below       []RoundBelow
	Href        string // what all candles of the setting say; "" while nothing was burned
}

// RoundWickRow is a wick of the round that stands above the line.
type RoundWickRow struct {
	Name, Href        string
	Disc              chart.Disc
	Width, Range      string
	OnTarget, Closest string
	Bar               chart.Bar
	Running           string
	Behind            string
}

// RoundBelow is one that a hard finding stands against.
type RoundBelow struct {
	Name string
	Hard []ui.Warning
}

// RoundLevels is what is said of the levels of a load or a pour temperature.
type RoundLevels struct {
	Title string
	Lines []RoundLevel
	Notes []string
}

// RoundLevel is one level beside the lowest.
type RoundLevel struct {
	Text, Next string
	Told       bool
}

// roundMethod says what an answer rests on.
func roundMethod() string {
	return "Worked out from this round’s candles alone. What the whole journal says of how burns and candles differ tells how sure the order is. A wick is named from a chance of " + chanceText(standings.SureEnough) + " up, and so is a vessel, each judged by its own wall. Loads and pour temperatures belong to a whole melt, so melts are counted there, not candles; a span holds the true difference " + quantity.Fraction(answer.Level).Percent().String() + " of the time."
}

// NewRoundAnswer puts a round's answer into words. note says where it is
// behind the record.
func NewRoundAnswer(a answer.RoundAnswer, r journal.TestRound, sh Shelves, note string, v View) RoundAnswerPart {
	p := RoundAnswerPart{Note: note, Told: a.Told(), Vessels: roundBetween(a.Vessels, sh), Method: roundMethod()}
	for _, w := range a.Wicks {
		p.Wicks = append(p.Wicks, roundWicks(w, r, sh, v))
	}
	for _, l := range a.Levels {
		p.Levels = append(p.Levels, roundLevels(l, a, v))
	}
	return p
}

func roundWicks(w answer.WickAnswer, r journal.TestRound, sh Shelves, v View) RoundWicks {
	out := RoundWicks{Title: "In " + vesselName(sh, w.Vessel), Told: w.State == answer.Closest || w.State == answer.Lone}
	if len(w.Settings) == 1 {
		out.Lede = settingText(w.Settings[0]) + "; full pool wanted by " + tight(w.Target.Clock())
	}
	if len(w.Settings) > 0 {
		out.Href = "/standings?" + url.Values{"vessel": {idText(w.Vessel)}, "wax": {idText(r.Wax)}}.Encode()
	}
	out.Text, out.Next = wicksAnswer(w, sh), wicksNext(w, sh)
	running := w.InRunning()
	for i, c := range w.Standing {
		out.Rows = append(out.Rows, roundWickRow(c, w, i < len(running), v))
	}
	for _, p := range w.Below {
		b := RoundBelow{Name: wickCount(p.Wicks) + p.Name()}
		for _, f := range p.Hard {
			b.Hard = append(b.Hard, ui.Warning{Hard: true, Text: whereSeen(f, v) + f.Text})
		}
		out.Below = append(out.Below, b)
	}
	return out
}

func roundWickRow(c answer.Choice, w answer.WickAnswer, running bool, v View) RoundWickRow {
	row := RoundWickRow{Name: wickCount(c.Wicks) + c.Name(), Disc: pairingDisc(c.Pairing), OnTarget: chanceText(c.OnTarget),
		Behind: figured(c.Candles, "candle", "candles") + ", " + burnsBehind(c.Pairing)}
	row.Width, row.Range = widthText(c.Pairing, v)
	row.Width += " " + v.Units.Length.Word()
	if len(w.Standing) > 1 {
		row.Closest, row.Bar = chanceText(c.Chance), chart.NewBar(c.Chance)
	}
	switch {
	case running && w.State == answer.Closest:
		row.Running = "the closest"
	case running && w.State == answer.SoFar:
		row.Running = "the closest so far"
	case running && w.State == answer.Running:
		row.Running = "still in the running"
	}
	return row
}

// wicksAnswer is the answer in words.
func wicksAnswer(w answer.WickAnswer, sh Shelves) string {
	best, _ := w.Best()
	name := wickCount(best.Wicks)
	if len(w.Standing) > 0 {
		name += best.Name()
	}
	switch w.State {
	case answer.Closest:
		if len(w.Standing) == 1 {
			return name + " is the only one without a hard finding against it" + onTarget(best) + "."
		}
		return name + " comes closest to a full pool at the target hour (chance " + chanceText(best.Chance) + ")" + onTarget(best) + "." + farAnyway(best)
	case answer.SoFar:
		return "Of those burned so far " + name + " comes closest (chance " + chanceText(best.Chance) + "), but " + listed(waitingNames(w, sh)) + waitingVerb(w) + " no burn that tells yet."
	case answer.Running:
		return listed(choiceNames(w.InRunning())) + " are still in the running: none is the closest with a chance of " + chanceText(standings.SureEnough) + " yet."
	case answer.Lone:
		return "Only " + name + " was planned here, so there is nothing to compare it with" + onTarget(best) + "."
	case answer.AllBelow:
		return "A hard finding stands against every wick that was burned: none of them is the answer."
	}
	if len(w.Standing)+len(w.Below) == 0 {
		return "Not enough yet: nothing of the pool is known from a burn here."
	}
	return "Not enough yet: only one wick has been burned here, and there is nothing to compare it with."
}

// onTarget says how likely a pairing is to have a full pool in time, which
// being the closest does not promise.
func onTarget(c answer.Choice) string {
	return "; its chance of a full pool in time, and not too soon, is " + chanceText(c.OnTarget)
}

// farAnyway says so where the closest of the round misses more often than not.
func farAnyway(c answer.Choice) string {
	switch {
	case c.OnTarget >= 0.5:
		return ""
	case c.Short >= c.Soon:
		return " Even so its pool will more often be short of the wall by then: another round may try a wick that melts more."
	}
	return " Even so its pool will more often be full too soon: another round may try a wick that melts less."
}

func choiceNames(cs []answer.Choice) []string {
	var out []string
	for _, c := range cs {
		out = append(out, wickCount(c.Wicks)+c.Name())
	}
	return out
}

func waitingNames(w answer.WickAnswer, sh Shelves) []string {
	var out []string
	for _, x := range w.Waiting {
		out = append(out, wickCount(x.Wicks)+wickNamed(sh, x.Wick))
	}
	return out
}

func waitingVerb(w answer.WickAnswer) string {
	if len(w.Waiting) == 1 {
		return " has"
	}
	return " have"
}

// wicksNext says what would be enough, from what is still planned.
func wicksNext(w answer.WickAnswer, sh Shelves) string {
	switch {
	case w.State == answer.Closest || w.State == answer.Lone:
		return ""
	case w.State == answer.AllBelow:
		return "Plan a round with other wicks, or a wider vessel."
	case len(w.Waiting) > 0 && w.CandlesLeft > 0:
		return "One burn with a width from each of " + listed(waitingNames(w, sh)) + " would allow a first answer" + leftText(w) + "."
	case w.CandlesLeft > 0:
		return "It may settle with what is still planned" + leftText(w) + "."
	case w.State == answer.Running:
		return "All that was planned is burned. One more candle of each of " + listed(choiceNames(w.InRunning())) + " would tell most; if they stay this close, either will do."
	}
	return "All that was planned is burned, but too few readings count. One burn with a width, or with a pool seen full, would do for each."
}

func leftText(w answer.WickAnswer) string {
	if w.BurnsLeft > 0 {
		return "; " + figured(w.BurnsLeft, "planned burn is", "planned burns are") + " still to come"
	}
	return "; " + figured(w.CandlesLeft, "candle is", "candles are") + " still to burn"
}

func roundLevels(l answer.LevelAnswer, a answer.RoundAnswer, v View) RoundLevels {
	out := RoundLevels{Title: map[answer.Factor]string{answer.Load: "Fragrance load", answer.PourAt: "Pour temperature"}[l.Factor]}
	for _, d := range l.Others {
		out.Lines = append(out.Lines, levelLine(l, d, a, v))
	}
	if l.AtWall > 0 {
		out.Notes = append(out.Notes, capital(counted(l.AtWall, "candle", "candles"))+" left out, of vessels and wicks where a pool was full at the first look: its width is not known.")
	}
	if l.Strayed > 0 {
		out.Notes = append(out.Notes, capital(counted(l.Strayed, "candle", "candles"))+" left out, being too far from what was planned.")
	}
	return out
}

// levelText writes a level as it is said.
func levelText(l answer.LevelAnswer, x float64, v View) string {
	if l.Factor == answer.Load {
		return tight(loadShown(quantity.Fraction(x), l.Basis).String())
	}
	return tight(v.temperature(quantity.Celsius(x)).String())
}

func levelLine(l answer.LevelAnswer, d answer.Difference, a answer.RoundAnswer, v View) RoundLevel {
	from, to := levelText(l, l.Base, v), levelText(l, d.Level, v)
	melts := " (" + figured(l.BaseMelts, "melt", "melts") + " against " + strconv.Itoa(d.Melts) + ")"
	span := interval(l.Wider(d.Low), l.Wider(d.High), v)
	switch d.Verdict {
	case answer.Told:
		return RoundLevel{Told: true, Text: capital(levelBy(l, d, v)) + " at " + to + " than at " + from + melts + ": the difference lies between " + span + ", about a pool of " + v.length(l.Typical).String() + "."}
	case answer.Open:
		return RoundLevel{Text: "Can’t tell yet whether " + to + " differs from " + from + melts + ": at " + to + " the pool may be anything from " + span + ".", Next: levelNext(l, d, a)}
	case answer.NoSpread:
		return RoundLevel{Text: "Can’t tell: the melts of " + from + " and " + to + " are alike to the step of the ruler" + melts + ", which says nothing of how far others may lie.", Next: levelNext(l, d, a)}
	case answer.TooFew:
		return RoundLevel{Text: "Not enough yet: " + to + " looks " + levelBy(l, d, v) + " than " + from + melts + ", but how much melts differ among themselves is not known from so few.", Next: levelNext(l, d, a)}
	case answer.Tangled:
		return RoundLevel{Text: "Can’t tell: " + to + " and " + from + " cannot be told apart from what else was different."}
	}
	return RoundLevel{Text: "Not enough yet: pools at " + to + " and at " + from + " are not both known in the same vessel and wick" + melts + ".", Next: levelNext(l, d, a)}
}

// levelBy is how much wider or narrower pools are.
func levelBy(l answer.LevelAnswer, d answer.Difference, v View) string {
	by := l.Wider(d.Log)
	if by < 0 {
		return v.Units.ShowLengthChange(-by).String() + " narrower"
	}
	return v.Units.ShowLengthChange(by).String() + " wider"
}

// levelNext says what would be enough.
func levelNext(l answer.LevelAnswer, d answer.Difference, a answer.RoundAnswer) string {
	left := ""
	if a.BurnsLeft > 0 {
		left = " " + capital(figured(a.BurnsLeft, "planned burn is", "planned burns are")) + " still to come."
	}
	have := min(l.BaseMelts, d.Melts)
	switch {
	case d.Verdict != answer.Open:
		return "Two melts of each, with a width short of the wall from each, would be the least." + left
	case d.Wanted == 0:
		return "If the difference is as small as it looks, even " + strconv.Itoa(answer.MostMelts) + " melts of each might not show it: they are as good as alike." + left
	case d.Wanted <= have:
		return "More melts of each would narrow it." + left
	}
	return "If the difference is as large as it looks, " + counted(d.Wanted, "melt", "melts") + " of each would show it four times in five." + left
}
