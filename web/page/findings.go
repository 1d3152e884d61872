package page

import (
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"rimward/internal/journal"
	"rimward/internal/safety"
)

// FindingsPage lists everything outside the limits in one candle's record.
type FindingsPage struct {
	Code, Lede, Back string
	List             FindingsPart
}

// FindingsPart is the list itself, of a candle or of a pairing, with the faults
// in words.
type FindingsPart struct {
	Count   string // in words
	Filters []FindingsFilter
	Groups  []FindingsGroup
	Empty   string
	CSV     string
	Faults  []FaultCourse
	Unseen  string // faults that were looked for and not seen
	Change  string // the one thing to change next
	Why     string // what that answers, and where it comes from
}

// FindingsFilter leads to the findings of one level.
type FindingsFilter struct {
	Text, Href string
	Current    bool
}

// FindingsGroup is the findings of one level.
type FindingsGroup struct {
	Title string
	Hard  bool
	Rules []FindingsRule
}

// FindingsRule is one kind of finding with every time it was seen.
type FindingsRule struct {
	Name, Count, Source string
	Do                  []string
	Seen                []FindingSeen
}

// FindingSeen is one finding, or several that say the same but for their
// reading, with where each was seen. Where the readings differ the words are
// those of the first, and each reading stands with its place.
type FindingSeen struct {
	Text, Reading, Limit string
	Places               []FindingPlace

	alike string // the words without the reading
	n     int
}

// FindingPlace is where and when a finding was seen; hours of one burn stand
// together.
type FindingPlace struct {
	Day, Where, Href string
	Hours            []FindingHour
}

// FindingHour is the time since lighting of one finding, and its reading where
// others of its kind read differently; either may be empty.
type FindingHour struct{ At, Reading string }

// FaultCourse is one fault over the life of candles.
type FaultCourse struct{ Name, Text, Remedy string }

// levelWords are the headings and the counts of the levels.
var levelWords = map[safety.Level]struct{ title, one, many, all string }{
	safety.Hard:    {"Stands against it", "stands against it", "stand against it", "standing against it"},
	safety.Caution: {"Take care", "asks for care", "ask for care", "asking for care"},
	safety.Note:    {"Worth knowing", "is worth knowing", "are worth knowing", "worth knowing"},
}

// FindingsLevel reads which level was asked for; "" for all.
func FindingsLevel(q url.Values) safety.Level {
	for _, l := range safety.Levels() {
		if q.Get("level") == string(l) {
			return l
		}
	}
	return ""
}

// NewFindingsPage builds the list of one candle.
func NewFindingsPage(l journal.CandleLog, lim safety.Limits, level safety.Level, v View) FindingsPage {
	at := "/candles/" + idText(l.Candle.ID)
	p := FindingsPage{
		Code: l.Candle.Code(), Lede: candleLede(l, v), Back: at,
		List: newFindings(safety.Everything(l, lim, v.Units), safety.Courses([]journal.CandleLog{l}, lim, v.Units), level, at+"/findings", url.Values{}, true, v),
	}
	p.List.setting([]journal.CandleLog{l})
	return p
}

// NewPairingFindings builds the list of a pairing from its candles.
func NewPairingFindings(logs []journal.CandleLog, lim safety.Limits, q url.Values, v View) *FindingsPart {
	p := newFindings(safety.EverythingOf(logs, lim, v.Units), safety.Courses(logs, lim, v.Units), FindingsLevel(q), "/standings/pairing", q, false, v)
	p.setting(logs)
	p.CSV = "/standings/pairing/findings.csv?" + withoutKey(q, "level").Encode()
	return &p
}

func newFindings(fs []safety.Finding, courses []safety.Course, level safety.Level, base string, q url.Values, one bool, v View) FindingsPart {
	p := FindingsPart{Count: countFindings(fs), Filters: findingsFilters(fs, level, base, q), CSV: base + ".csv"}
	for _, l := range safety.Levels() {
		if of := safety.OfLevel(fs, l); len(of) > 0 && (level == "" || level == l) {
			p.Groups = append(p.Groups, FindingsGroup{Title: levelWords[l].title, Hard: l == safety.Hard, Rules: findingsRules(of, one, v)})
		}
	}
	switch {
	case len(fs) == 0:
		p.Empty = "Nothing that was recorded lies outside the limits kept here. That is no proof of safety."
	case len(p.Groups) == 0:
		p.Empty = "No finding of this weight. That is no proof of safety."
	}
	p.faults(courses)
	return p
}

// countFindings counts the findings in words.
func countFindings(fs []safety.Finding) string {
	if len(fs) == 0 {
		return ""
	}
	var parts []string
	for _, l := range safety.Levels() {
		if n := len(safety.OfLevel(fs, l)); n > 0 {
			parts = append(parts, counted(n, levelWords[l].one, levelWords[l].many))
		}
	}
	if n := len(safety.OfLevel(fs, fs[0].Level)); n == len(fs) {
		return capital(counted(n, "finding", "findings")) + ", " + joinWords(map[bool]string{true: "all"}[n > 1], levelWords[fs[0].Level].all) + "."
	}
	return capital(counted(len(fs), "finding", "findings")) + ": " + listed(parts) + "."
}

// findingsFilters lead to all findings and to those of each level that has any.
func findingsFilters(fs []safety.Finding, level safety.Level, base string, q url.Values) []FindingsFilter {
	if len(fs) == 0 {
		return nil
	}
	link := func(text string, l safety.Level) FindingsFilter {
		to := withoutKey(q, "level")
		if l != "" {
			to.Set("level", string(l))
		}
		href := base
		if len(to) > 0 {
			href += "?" + to.Encode()
		}
		return FindingsFilter{Text: text, Href: href + "#findings", Current: level == l}
	}
	out := []FindingsFilter{link("All "+strconv.Itoa(len(fs)), "")}
	for _, l := range safety.Levels() {
		if n := len(safety.OfLevel(fs, l)); n > 0 || level == l {
			out = append(out, link(levelWords[l].title+" "+strconv.Itoa(n), l))
		}
	}
	return out
}

// withoutKey is a copy of a query less one name.
func withoutKey(q url.Values, name string) url.Values {
	out := url.Values{}
	for k, vs := range q {
		if k != name {
			out[k] = vs
		}
	}
	return out
}

// findingsRules gathers findings of one level by their rule, in the order in
// which each rule was first broken.
func findingsRules(fs []safety.Finding, one bool, v View) []FindingsRule {
	var out []FindingsRule
	at := map[string]int{}
	for _, f := range fs {
		i, ok := at[f.Rule]
		if !ok {
			i = len(out)
			at[f.Rule] = i
			out = append(out, FindingsRule{Name: capital(f.Rule), Source: f.Source, Do: f.Do})
		}
		out[i].see(f, one, v)
	}
	for i := range out {
		n := 0
		for k := range out[i].Seen {
			out[i].Seen[k].settle()
			n += out[i].Seen[k].n
		}
		out[i].Count = timesText(n)
	}
	return out
}

// timesText writes how often: once, twice, three times.
func timesText(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return counted(n, "time", "times")
}

// see adds a finding to those of its rule that say the same.
func (r *FindingsRule) see(f safety.Finding, one bool, v View) {
	s := FindingSeen{Text: f.Text, Reading: f.Reading.String(), Limit: f.Limit.String(), alike: strings.Replace(f.Text, f.Reading.String(), "", 1)}
	i := slices.IndexFunc(r.Seen, func(x FindingSeen) bool { return x.alike == s.alike })
	if i < 0 {
		i = len(r.Seen)
		r.Seen = append(r.Seen, s)
	}
	r.Seen[i].n++
	r.Seen[i].place(f, one, v)
}

// place adds where a finding was seen.
func (s *FindingSeen) place(f safety.Finding, one bool, v View) {
	p := FindingPlace{Day: findingDay(f.At, v), Where: findingPlace(f, one)}
	if f.CandleID != 0 && !one {
		p.Href = "/candles/" + idText(f.CandleID)
	}
	i := slices.IndexFunc(s.Places, func(x FindingPlace) bool { return x.Day == p.Day && x.Where == p.Where })
	if i < 0 {
		i = len(s.Places)
		s.Places = append(s.Places, p)
	}
	h := FindingHour{Reading: tight(f.Reading.String())}
	if f.Hour > 0 {
		h.At = tight(f.Hour.Clock())
	}
	s.Places[i].Hours = append(s.Places[i].Hours, h)
}

// settle shows readings in one place only: in the row where all are the same,
// else with their places. A reading that is the hour itself is not said twice.
func (s *FindingSeen) settle() {
	same := true
	for _, p := range s.Places {
		for _, h := range p.Hours {
			same = same && h.Reading == tight(s.Reading)
		}
	}
	for i := range s.Places {
		hours := s.Places[i].Hours
		for k := range hours {
			if same {
				hours[k].Reading = ""
			} else if hours[k].Reading == hours[k].At {
				hours[k].At = ""
			}
		}
		s.Places[i].Hours = slices.DeleteFunc(hours, func(h FindingHour) bool { return h == FindingHour{} })
	}
	if !same {
		s.Reading = ""
	}
}

func findingDay(at time.Time, v View) string {
	if at.IsZero() {
		return "no date"
	}
	return v.Day(at)
}

// findingPlace is the candle, where the page has several, and the burn.
func findingPlace(f safety.Finding, one bool) string {
	burn, candle := "", f.Candle
	if f.Burn > 0 {
		burn = "burn " + strconv.Itoa(f.Burn)
	}
	if one {
		candle = ""
	}
	return tight(joinWords(candle, burn))
}

// faults puts the courses of faults on the page, and the one change to make.
func (p *FindingsPart) faults(cs []safety.Course) {
	var unseen []string
	for _, c := range cs {
		if c.Burns == 0 {
			unseen = append(unseen, lowerFirst(c.Fault)+" ("+figured(c.Of, "burn", "burns")+")")
			continue
		}
		p.Faults = append(p.Faults, FaultCourse{c.Fault, c.Text, c.Remedy.Do})
	}
	if len(unseen) > 0 {
		p.Unseen = "Looked for and not seen: " + listed(unseen) + "."
	}
	if r, fault, ok := safety.OneChange(cs); ok {
		p.Change, p.Why = r.Do, "For "+lowerFirst(fault)+"; "+r.Source+". Change one thing at a time: leave all else as it is, burn again, and look."
	}
}

// lowerFirst begins a word with a small letter, in the middle of a sentence.
func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]|0x20) + s[1:]
}
