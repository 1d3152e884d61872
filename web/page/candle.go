package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/chart"
	"rimward/web/ui"
)

// CandlePage shows one candle with everything that was recorded of it.
type CandlePage struct {
	Code, Lede string
	Gone       string
	Disc       chart.Disc // the pool as it was last seen
	Seen       string
	Acts, More []ui.Action
	Again      []ui.Action
	Facts      []ui.Fact
	Findings   []ui.Warning
	Guidance   GuidancePart
	AllFound   string // where everything outside the limits is listed
	Unit       string // of the pool widths
	Burns      []BurnStrip
	Empty      *MissingPage // instead of burns
	Readings   []ReadingRow
	Units      WalkUnits
	Growth     *GrowthPair
	Mass       MassPart
	Photos     PhotoPart // of the candle itself
	Life       CandleLife
	Charts     []ChartFigure // that stand open
	MoreCharts []ChartFigure // that can be opened
	MoreText   string
	Throw      ThrowPart
	Setting    SettingPart
	Changes    []ui.ChangeLine // what was corrected or withdrawn
	Routine    []ui.ChangeLine // what was written down as it happened
}

// NewCandlePage builds the page of a candle.
func NewCandlePage(l journal.CandleLog, lim safety.Limits, k Known, history []journal.Change, token string, v View) CandlePage {
	p := CandlePage{
		Code: l.Candle.Code(), Lede: candleLede(l, v), Disc: discOf(l.Vessel, l.Candle.Wicks, lastSeen(l), 0, v),
		Facts: madeFacts(l, v), Findings: candleFindings(l, lim, v), Unit: v.Units.Length.Word(), Guidance: guidanceOfCandle(l, v),
		Units: WalkUnits{v.Units.Length.Word(), v.Units.Temperature.Word()},
	}
	switch {
	case l.Candle.IsGone():
		p.Gone = joinWords("Withdrawn "+v.Day(*l.Candle.Gone)+".", l.Candle.GoneWhy)
	case l.Pour.IsGone():
		p.Gone = capital(pourName(l.Pour)) + " was withdrawn, and its candles with it."
	}
	p.Seen = seenText(l, v)
	p.AllFound = "/candles/" + idText(l.Candle.ID) + "/findings"
	p.Acts, p.More = candleActs(l, len(safety.OfLevel(safety.All(l, lim, v.Units), safety.Hard)) > 0, v)
	p.More = append(p.More, besideActions(l)...)
	if !l.Pour.IsGone() {
		p.Again = againActions(l.Candle, k, token)
	}
	for _, b := range l.Burns {
		p.Burns = append(p.Burns, burnStrip(b, l, lim, v))
		p.Readings = append(p.Readings, readingRows(b, v)...)
	}
	if len(l.Burns) == 0 {
		p.Empty = noBurns(l, v)
	}
	p.Setting = newSettingPart(l, v)
	p.Growth, p.Mass = growthOf(l, v), massOf(l, v)
	p.Life = newCandleLife(l, lim, v)
	p.Charts, p.MoreCharts = chartsOf(l, lim, p.Growth, p.Mass, v)
	p.MoreText = moreText(p.MoreCharts)
	p.Changes, p.Routine = candleChanges(l, k, history, v)
	return p
}

// candleLede is the candle in a sentence or two.
func candleLede(l journal.CandleLog, v View) string {
	f := l.Life()
	s := capital(counted(l.Candle.Wicks, l.WickName(), l.WickName())) + " in " + l.Vessel.Name + ". "
	if b := l.OpenBurn(); b != nil {
		s += "Lit for " + b.Burn.Lasted(v.Now).Clock() + ", burn " + strconv.Itoa(b.Burn.Number) + "."
	} else {
		s += capital(stateText(f, v)) + "."
	}
	if f.Burns == 0 {
		return s
	}
	return s + " " + capital(counted(f.Burns, "burn", "burns")) + ", " + litFor(l, v) + " lit."
}

// litFor is how long the candle was lit over all its burns that count.
func litFor(l journal.CandleLog, v View) string {
	var sum float64
	for _, b := range l.Burns {
		if !b.Burn.IsGone() {
			sum += float64(b.Burn.Lasted(v.Now))
		}
	}
	return hoursText(sum)
}

// lastSeen is the latest check that counts and says how wide the pool was;
// nil when there is none.
func lastSeen(l journal.CandleLog) *journal.Check {
	for i := len(l.Burns) - 1; i >= 0; i-- {
		if l.Burns[i].Burn.IsGone() {
			continue
		}
		if c := lastMeasured(l.Burns[i].Checks); c != nil {
			return c
		}
	}
	return nil
}

// seenText says what the disc shows.
func seenText(l journal.CandleLog, v View) string {
	c := lastSeen(l)
	if c == nil {
		return "no pool seen yet"
	}
	if c.Full {
		return "full when last seen"
	}
	text, unit := poolText(*c, v)
	return joinWords(text, unit) + " when last seen"
}

// candleActs are what can be done with the candle in its state, and what can
// always be done. Lighting is not what it asks for first where a finding
// stands against it.
func candleActs(l journal.CandleLog, against bool, v View) (acts, more []ui.Action) {
	at, id := "/candles/"+idText(l.Candle.ID), idText(l.Candle.ID)
	light := ui.Action{Text: "Light it", Href: "/light?candle=" + id}
	paper := ui.Action{Text: "Enter a burn from paper", Href: at + "/paper"}
	correct := ui.Action{Text: "Correct", Href: at + "/edit"}
	withdraw := ui.Action{Text: "Withdraw", Href: "/withdraw/candle/" + id}
	switch state := l.Life().StateAt(v.Now); {
	case l.Candle.IsGone():
		return []ui.Action{{Text: "Bring it back", Href: "/restore/candle/" + id, Post: true}}, []ui.Action{correct}
	case l.Pour.IsGone():
		return []ui.Action{{Text: capital(pourName(l.Pour)), Href: "/pours/" + idText(l.Pour.ID)}}, []ui.Action{correct}
	case state == journal.LitNow:
		burn := idText(l.OpenBurn().Burn.ID)
		return []ui.Action{{Text: "Check it", Href: at + "/check", Main: true}, {Text: "Put it out", Href: "/burns/" + burn + "/snuff"}},
			[]ui.Action{correct}
	case cracked(l):
		return nil, []ui.Action{paper, correct, withdraw}
	case state == journal.IsSpent:
		return nil, []ui.Action{paper, correct, withdraw}
	default:
		light.Main = !against && (state == journal.Ready || state == journal.Resting)
		return []ui.Action{light}, []ui.Action{paper, correct, withdraw}
	}
}

// cracked reports whether a check that counts says that the vessel cracked.
func cracked(l journal.CandleLog) bool {
	for _, b := range l.Burns {
		for _, c := range b.Checks {
			if !b.Burn.IsGone() && !c.IsGone() && c.Has(journal.Cracked) {
				return true
			}
		}
	}
	return false
}

// noBurns says what comes first when the candle was never lit.
func noBurns(l journal.CandleLog, v View) *MissingPage {
	f := l.Life()
	switch f.StateAt(v.Now) {
	case journal.Setting, journal.Curing:
		return missing("No burns yet. It is set and cured "+v.Day(f.ReadyAt())+"; the bench will say so.", nil)
	case journal.Withdrew:
		return missing("It was never lit.", nil)
	}
	return missing("No burns yet. Trim the wick, weigh the candle, light it, and check it once an hour.", nil)
}

// candleFindings are what the candle as a whole shows, and every hard finding
// of its burns with the burn's number.
func candleFindings(l journal.CandleLog, lim safety.Limits, v View) []ui.Warning {
	var fs []safety.Finding
	seen := map[string]bool{}
	for _, f := range safety.All(l, lim, v.Units) {
		key := f.Rule + strconv.Itoa(f.Burn)
		if f.Level != safety.Hard || seen[key] {
			continue
		}
		seen[key] = true
		if f.Burn > 0 {
			f.Text = "Burn " + strconv.Itoa(f.Burn) + ": " + f.Text
		}
		fs = append(fs, f)
	}
	for _, f := range safety.OfCandle(l, lim, v.Units) {
		if f.Level != safety.Hard {
			fs = append(fs, f)
		}
	}
	return warnings(fs)
}
