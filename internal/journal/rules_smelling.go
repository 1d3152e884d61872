package journal

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"
)

// longestNose is how long a name or initials may be, in characters.
const longestNose = 40

// SmellingFacts is what the rules of a smelling need to know beside it.
type SmellingFacts struct {
	Now    time.Time
	Before *Smelling  // what is kept; nil when it is new
	Scores int        // that count
	First  *time.Time // when the first of them was given
	Poured *time.Time // when the last of its candles was; nil without candles
}

// Validate holds the rules of a smelling.
func (s Smelling) Validate(f SmellingFacts) error {
	var ps problems
	ps.addIf(s.Kind != ColdThrow && s.Kind != HotThrow, "kind", "Say whether the candles are smelled cold or hot.")
	ps.addIf(s.At.IsZero(), "at", "Say when they were smelled.")
	ps.addIf(s.At.After(f.Now.Add(clockSlack)), "at", "This lies in the future. A smelling is written down when it begins.")
	ps.addIf(s.At.Year() < 1970 && !s.At.IsZero(), "at", "This is before 1970.")
	ps.addIf(!within(s.Room, 1, 10000), "room", "Between 1 and 10,000 m³ (35 and 353,000 cu ft).")
	ps.addIf(f.First != nil && s.At.After(f.First.Add(clockSlack)), "at", "The first score was given before that.")
	ps.addIf(!s.Blind && s.Uncovered != nil, "", "Only a blind smelling can be uncovered.")
	if b := f.Before; b != nil {
		moved := !b.At.Equal(s.At)
		ps.addIf(moved && f.Poured != nil && s.At.Before(*f.Poured), "at", "One of its candles was poured only after that.")
		ps.addIf(b.Kind != s.Kind, "kind", "A smelling stays cold or hot as it began.")
		ps.addIf(b.Blind != s.Blind, "blind", "A smelling stays blind or open as it began.")
		ps.addIf(b.Uncovered != nil && s.Uncovered == nil, "", "It was uncovered. That cannot be taken back.")
		ps.addIf(b.Uncovered == nil && s.Uncovered != nil && f.Scores == 0, "", "Nobody has scored yet. Uncover it when at least one score is in.")
		ps.addIf(b.IsGone() && b.Uncovered == nil && s.Uncovered != nil, "", "The smelling was withdrawn.")
	}
	return ps.err()
}

// LosesCups reports, as the error of a refusal, whether a candle may be taken
// out of the smelling: while codes are covered that could tell which is which.
func (s Smelling) LosesCups() error {
	var ps problems
	ps.addIf(s.Covered(), "", "The codes are still covered. Uncover them before a candle is taken out.")
	return ps.err()
}

// CupFacts is what the rules of a cup need to know beside it.
type CupFacts struct {
	Smelling Smelling
	Candle   Candle
	PouredAt time.Time
	Gone     bool  // the candle or its pour was withdrawn
	Others   []Cup // of the same smelling; withdrawn ones keep their codes
}

// Validate holds the rules of a cup.
func (c Cup) Validate(f CupFacts) error {
	var ps problems
	ps.addIf(!validCode(c.Code), "code", "A code is three digits that are not all alike.")
	ps.addIf(!within(c.Minutes, 0, 1440), "minutes", "Between 0 and 1,440 min (24 h).")
	ps.addIf(c.Minutes != nil && f.Smelling.Kind == ColdThrow, "minutes", "A cold throw is smelled unlit, so there are no minutes.")
	ps.addIf(f.Smelling.IsGone(), "", "The smelling was withdrawn.")
	ps.addIf(c.ID == 0 && f.Gone, "candle", f.Candle.Code()+" was withdrawn.")
	ps.addIf(f.Smelling.At.Before(f.PouredAt), "at", f.Candle.Code()+" was poured only after that.")
	count := 1
	for _, o := range f.Others {
		if o.ID == c.ID {
			continue
		}
		ps.addIf(o.Code == c.Code, "code", "Another candle of this smelling has this code.")
		ps.addIf(o.Candle == c.Candle, "candle", f.Candle.Code()+" is in this smelling already.")
		count++
	}
	ps.addIf(c.ID == 0 && count > MostCups, "", fmt.Sprintf("At most %d candles in one smelling. A nose tires long before.", MostCups))
	return ps.err()
}

// validCode reports whether a code is three digits that are not all alike.
func validCode(s string) bool {
	return len(s) == 3 && strings.Trim(s, "0123456789") == "" && (s[0] != s[1] || s[1] != s[2])
}

// ScoreFacts is what the rules of a score need to know beside it.
type ScoreFacts struct {
	Now      time.Time
	Smelling Smelling
	Cup      Cup
	Others   []Score // of the same cup, that count
}

// Validate holds the rules of a score. Once a blind smelling is uncovered its
// scores can be corrected but none can be added: no nose would be blind.
func (s Score) Validate(f ScoreFacts) error {
	var ps problems
	ps.addIf(s.Score < LeastThrow || s.Score > MostThrow, "score", "Choose a whole number from 0 to 5.")
	ps.addIf(s.Nose == "" || s.Nose != TidyNose(s.Nose), "nose", "Whose nose is it? A name or initials.")
	ps.addIf(utf8.RuneCountInString(s.Nose) > longestNose, "nose", "Keep it under 40 characters.")
	ps.addIf(s.Order != nil && (*s.Order < 1 || *s.Order > MostCups), "order", "A place in the order from 1 to 12.")
	ps.addIf(s.At.After(f.Now.Add(clockSlack)), "at", "This lies in the future.")
	ps.addIf(s.At.Before(f.Smelling.At.Add(-clockSlack)), "at", "The smelling began only after that.")
	ps.addIf(f.Smelling.IsGone(), "", "The smelling was withdrawn, so it takes no scores.")
	ps.addIf(f.Cup.IsGone(), "", "The candle was taken out of the smelling.")
	ps.addIf(s.ID == 0 && f.Smelling.Uncovered != nil, "nose", "The codes are uncovered, so a new score would not be blind. Begin another smelling.")
	for _, o := range f.Others {
		ps.addIf(o.ID != s.ID && SameNose(o.Nose, s.Nose), "nose", o.Nose+" has scored "+f.Cup.Code+" already. Correct that score instead.")
	}
	return ps.err()
}

// aroundSmelling is how long before or after a smelling a burn may have ended
// or begun to count as the burn that was smelled.
const aroundSmelling = 15 * time.Minute

// tiringCups is the number of candles above which a nose tires within one
// smelling (common practice, no source).
const tiringCups = 6

// DoubtsOfSmelling asks about a smelling that is unlikely: a hot throw of a
// candle that was not lit around that time, and more candles than a nose
// bears. logs are its candles.
func DoubtsOfSmelling(s Smelling, logs []CandleLog) []Doubt {
	var ds []Doubt
	at := float64(s.At.Unix())
	for _, l := range logs {
		code := l.Candle.Code()
		if s.Kind == HotThrow && !l.litAround(s.At) {
			ds = append(ds, doubt("unlit-"+code, "", at, code+" was not lit at that time. A hot throw is smelled while the candle burns. Begin all the same?"))
		}
		if s.Kind == ColdThrow && l.litAround(s.At) {
			ds = append(ds, doubt("lit-"+code, "", at, code+" was lit around that time. A cold throw is smelled unlit. Begin all the same?"))
		}
	}
	if len(logs) > tiringCups {
		ds = append(ds, doubt("many", "", float64(len(logs)), "More than six candles tire a nose, and the last ones are judged worse than they are. Smell them all in one go all the same?"))
	}
	return ds
}

// litAround reports whether the candle was lit at a moment, or nearly.
func (l CandleLog) litAround(at time.Time) bool {
	for _, b := range l.Burns {
		x := b.Burn
		if !x.IsGone() && !x.LitAt.After(at.Add(aroundSmelling)) && (x.OutAt == nil || x.OutAt.After(at.Add(-aroundSmelling))) {
			return true
		}
	}
	return false
}
