package page

import (
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// SpecPage is the spec sheet of a pairing: one printed page.
type SpecPage struct {
	Draft       string // why it is no more than a draft; "" for an accepted pairing
	Title, Lede string
	Recipe      []SpecUsed
	Things      []SpecBlock // vessel, wick, fill
	Evidence    []SpecBlock
	Findings    []string
	Hard        []ui.Warning
	Doubts      string // about the tested bound; "" for none
	Verdict     []SpecLine
	Why         string
	Cautions    []string
	Checked     string // who looked at the local rules: ruled lines to be filled in by hand
	Sentence    string
	Back        ui.Item
}

// SpecUsed is one line of the recipe: what was used beside what the supplier
// says.
type SpecUsed struct{ Label, Used, Guide string }

// SpecBlock is a few lines under one heading.
type SpecBlock struct {
	Title string
	Lines []SpecLine
}

// SpecLine is one thing on the sheet.
type SpecLine struct{ Label, Text, More string }

// specSentence stands on every sheet.
const specSentence = "This is the studio’s own record of its tests and no certificate. It does not say that the candle complies with any standard or may be sold; for that it defers to the standards themselves, to the rules where the candle is sold and to a test laboratory."

// SpecSource is what a sheet is made of.
type SpecSource struct {
	Verdict journal.Verdict     // with its figures; without a ruling for a pairing that has no verdict
	Counts  bool                // it is the verdict that counts
	Logs    []journal.CandleLog // of the candles that the figures rest on
	Known   Known
	Limits  safety.Limits
	Now     *journal.VerdictFigures // of a verdict's pairing as it stands now; nil where there are none
}

// NewSpecPage builds the sheet.
func NewSpecPage(s SpecSource, v View) SpecPage {
	x, logs := s.Verdict, asOf(s.Logs, s.Verdict.Figures)
	p := SpecPage{Title: wickCount(x.Wicks) + clipped(s.Known.WickName(x.Wick), specName) + " in " + clipped(s.Known.vesselName(x.Vessel), specName), Lede: verdictSetting(x, s.Known), Draft: draftWhy(x, s.Counts), Sentence: specSentence}
	p.Recipe = specRecipe(x, logs, s.Known, v)
	p.Things = []SpecBlock{specVessel(s.Known.vessels[x.Vessel], v), specWick(x, logs, s.Known, s.Limits, v), specFill(logs, v)}
	p.Evidence = specEvidence(x, v)
	p.Doubts = specDoubts(x.Figures)
	p.Findings = specFindings(x.Figures)
	p.Hard = specAgainst(x.Figures.Hard)
	p.Verdict, p.Why = specVerdict(x, v)
	p.Verdict = append(p.Verdict, specSince(x, s.Now)...)
	p.Cautions = specCautions(s.Limits, v)
	p.Back = ui.Item{Text: "The pairing with its readings", Href: "/standings/pairing?" + PlaceQuery(x.Place())}
	if x.ID != 0 {
		p.Back = ui.Item{Text: "The verdict", Href: verdictHref(x)}
	}
	return p
}

// How much of what has no end fits on one page.
const (
	specMost  = 2   // findings that stand against it
	specHard  = 110 // characters of one
	specFault = 6   // faults
	specWhy   = 260 // characters of the reason
	specDoubt = 110 // characters of what was missing, and of what has moved
	specName  = 60  // characters of names, lots and notes
)

// draftWhy says why a sheet is a draft; "" for an accepted pairing.
func draftWhy(x journal.Verdict, counts bool) string {
	switch {
	case x.ID == 0:
		return "no verdict was made yet"
	case x.IsGone():
		return "the verdict was withdrawn"
	case !counts:
		return "a later verdict counts instead"
	case x.Ruling == journal.Rejected:
		return "the pairing was rejected"
	case x.Ruling != journal.Accepted:
		return "the pairing was left open"
	}
	return ""
}

// asOf leaves out what was burned after the figures were frozen.
func asOf(logs []journal.CandleLog, f journal.VerdictFigures) []journal.CandleLog {
	var out []journal.CandleLog
	for _, l := range logs {
		kept := l
		kept.Burns = nil
		for _, b := range l.Burns {
			if !b.Burn.IsGone() && !b.Burn.LitAt.After(f.At) {
				kept.Burns = append(kept.Burns, b)
			}
		}
		out = append(out, kept)
	}
	return out
}

// specEvidence is what the sheet rests on.
func specEvidence(x journal.Verdict, v View) []SpecBlock {
	pool := SpecBlock{Title: "Evidence on " + v.Date(x.Figures.At)}
	for _, which := range []verdict.Figure{verdict.Counts, verdict.Ended, verdict.Width, verdict.Next, verdict.Full, verdict.OnTarget, verdict.Place, verdict.Rate, verdict.AfterSmoke} {
		s := figureSaid(which, x.Figures, v)
		pool.Lines = append(pool.Lines, SpecLine{figureLabels[which], s.Text, s.More})
	}
	label := labelSaid(x.Figures)
	time := SpecBlock{Title: "Burn time", Lines: []SpecLine{{"Tested bound", label.Text, joinBy("; ", label.More, boundWords(x.Figures))}}}
	if x.ClaimedHours != nil {
		time.Lines = append(time.Lines, SpecLine{"Meant for the label", tight(x.ClaimedHours.Decimal().String()), claimWords(*x.ClaimedHours, x.Figures.Label)})
	}
	return []SpecBlock{pool, time}
}

// specDoubts are the first sentences of what is to be doubted of the bound; the
// verdict's own page has the rest.
func specDoubts(f journal.VerdictFigures) string {
	out := ""
	for _, d := range labelDoubts(f) {
		first, _, more := strings.Cut(d, ". ")
		if more {
			first += "."
		}
		out = joinWords(out, first)
	}
	return out
}

// boundWords say what the bound is.
func boundWords(f journal.VerdictFigures) string {
	switch {
	case f.Label != nil && f.Label.Candles >= life.LabelNeeds && f.Label.Bound == nil:
		return ""
	case f.Label == nil || f.Label.Bound == nil:
		return "it takes " + counted(life.LabelNeeds, "candle", "candles")
	}
	return "nine in ten last at least that long, at 90\u00a0% confidence"
}

// claimWords hold a claimed time against what was measured.
func claimWords(h quantity.Hours, l *journal.LabelFigures) string {
	if l == nil {
		return "nothing was measured to hold it against"
	}
	c, _ := life.NewClaim(h, l.Mean)
	within := tight(quantity.Fraction(life.ClaimWithin).Percent().String())
	said := map[life.ClaimSays]string{
		life.ClaimInside: "within " + within + " of the mean", life.ClaimOver: "longer than the mean by more than " + within, life.ClaimUnder: "shorter than the mean by more than " + within,
	}[c.Says] + ", the reference of a quality mark (RAL-GZ 041)"
	if l.Bound != nil && h > *l.Bound {
		said += "; longer than the tested bound"
	}
	return said
}

// specFindings are the faults that were seen.
func specFindings(f journal.VerdictFigures) []string {
	var out []string
	for _, x := range f.Faults[:min(len(f.Faults), specFault)] {
		out = append(out, capital(x.Name)+": "+tight(strconv.Itoa(x.Burns)+" of "+figured(x.Of, "burn", "burns")))
	}
	switch rest := len(f.Faults) - specFault; {
	case rest > 0:
		out = append(out, "and "+counted(rest, "other", "others"))
	case len(out) == 0:
		out = append(out, "No fault was seen in "+figured(f.AllBurns, "burn", "burns")+".")
	}
	return out
}

// specAgainst are the findings that stand against the pairing.
func specAgainst(hard []string) []ui.Warning {
	var out []ui.Warning
	for _, h := range hard[:min(len(hard), specMost)] {
		out = append(out, ui.Warning{Hard: true, Text: clipped(h, specHard)})
	}
	if rest := len(hard) - specMost; rest > 0 {
		out = append(out, ui.Warning{Hard: true, Text: "and " + counted(rest, "other", "others")})
	}
	return out
}

// specVerdict is who decided what, and why.
func specVerdict(x journal.Verdict, v View) (lines []SpecLine, why string) {
	if x.ID == 0 {
		return []SpecLine{{"Ruling", "none yet", ""}}, ""
	}
	lines = []SpecLine{
		{"Ruling", capital(rulingWord(x.Ruling)), "by " + clipped(x.By, specName) + ", " + v.Date(x.At)},
		{"By hand", "stays up on a slope of 10°: " + tickWord(x.TipTest), "surface below stays touchable: " + tickWord(x.BaseCheck)},
	}
	return lines, clipped(x.Why, specWhy)
}

// specSince is what was missing at the time and what has moved since: a sheet
// says no less than its verdict does.
func specSince(x journal.Verdict, now *journal.VerdictFigures) []SpecLine {
	var out []SpecLine
	if missing := listed(x.Figures.Missing); missing != "" && x.ID != 0 {
		out = append(out, SpecLine{"Missing at the time", clipped(missing, specDoubt), ""})
	}
	if says, matters := driftSaid(x.Figures, now); matters && x.ID != 0 {
		out = append(out, SpecLine{"Since then", clipped(joinWords(says...), specDoubt), ""})
	}
	return out
}

func tickWord(b bool) string {
	if b {
		return "yes"
	}
	return "not tried"
}

// specCautions are the usual cautions in plain words, for whoever burns it.
func specCautions(lim safety.Limits, v View) []string {
	return []string{
		"Never leave a burning candle.",
		"Never pour water on burning wax: put a metal lid on.",
		"Trim the wick to " + v.length(lim.Trim()).String() + " before each lighting.",
		"Burn it for " + lim.LongestBurn().Clock() + " at most, then let it set.",
		"Stop for good when " + v.length(lim.WaxLeft()).String() + " of wax is left.",
		"Burn it in still air, on a level surface that heat does not harm.",
		"Keep 30 cm (12 in) clear of anything that can burn.",
		"Keep it from children and animals.",
		"Do not move it while the wax is liquid or the vessel hot.",
		"Keep the wax free of trimmings and matches.",
	}
}
