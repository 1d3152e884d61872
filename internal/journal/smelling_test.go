package journal

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/quantity"
)

// Each line is one rule, named for what it forbids or allows; the scale from 0
// to 5 is that of perfumery textbooks, three-digit codes are those of ISO 13299
// (read in an extract).
func TestSmellingRules(t *testing.T) {
	t.Parallel()
	uncovered := ptr(evening)
	smelling := func(f SmellingFacts, change func(*Smelling)) error {
		s := Smelling{Kind: HotThrow, At: evening, Blind: true}
		change(&s)
		f.Now = evening
		return s.Validate(f)
	}
	kept := &Smelling{Meta: Meta{ID: 1}, Kind: HotThrow, At: evening, Blind: true}
	over := &Smelling{Meta: Meta{ID: 1}, Kind: HotThrow, At: evening, Blind: true, Uncovered: uncovered}
	gone := &Smelling{Meta: Meta{ID: 1, Gone: uncovered}, Kind: HotThrow, At: evening, Blind: true}
	room := func(v quantity.CubicMetres) func(*Smelling) { return func(s *Smelling) { s.Room = &v } }
	for name, c := range map[string]struct {
		err   error
		field string
		wrong bool
	}{
		"a smelling":                      {smelling(SmellingFacts{}, func(*Smelling) {}), "", false},
		"neither cold nor hot":            {smelling(SmellingFacts{}, func(s *Smelling) { s.Kind = "warm" }), "kind", true},
		"tomorrow":                        {smelling(SmellingFacts{}, func(s *Smelling) { s.At = evening.AddDate(0, 0, 1) }), "at", true},
		"no moment":                       {smelling(SmellingFacts{}, func(s *Smelling) { s.At = time.Time{} }), "at", true},
		"a cupboard of 1 m³":              {smelling(SmellingFacts{}, room(1)), "", false},
		"less than a cupboard":            {smelling(SmellingFacts{}, room(0.99)), "room", true},
		"larger than a hall":              {smelling(SmellingFacts{}, room(10001)), "room", true},
		"uncovering what was open":        {smelling(SmellingFacts{}, func(s *Smelling) { s.Blind, s.Uncovered = false, uncovered }), "", true},
		"uncovering before a score":       {smelling(SmellingFacts{Before: kept}, func(s *Smelling) { s.Uncovered = uncovered }), "", true},
		"uncovering after a score":        {smelling(SmellingFacts{Before: kept, Scores: 1}, func(s *Smelling) { s.Uncovered = uncovered }), "", false},
		"uncovering what was withdrawn":   {smelling(SmellingFacts{Before: gone, Scores: 1}, func(s *Smelling) { s.Uncovered = uncovered }), "", true},
		"covering it again":               {smelling(SmellingFacts{Before: over, Scores: 1}, func(*Smelling) {}), "", true},
		"blind that becomes open":         {smelling(SmellingFacts{Before: kept}, func(s *Smelling) { s.Blind = false }), "blind", true},
		"hot that becomes cold":           {smelling(SmellingFacts{Before: kept}, func(s *Smelling) { s.Kind = ColdThrow }), "kind", true},
		"moved to before a pour":          {smelling(SmellingFacts{Before: kept, Poured: ptr(hoursAgo(1))}, func(s *Smelling) { s.At = hoursAgo(2) }), "at", true},
		"moved to the pour":               {smelling(SmellingFacts{Before: kept, Poured: ptr(hoursAgo(2))}, func(s *Smelling) { s.At = hoursAgo(2) }), "", false},
		"beginning after the first score": {smelling(SmellingFacts{Before: kept, Scores: 1, First: ptr(hoursAgo(1))}, func(*Smelling) {}), "at", true},
	} {
		if got := fieldOf(t, c.err); got != c.field || (c.err != nil) != c.wrong {
			t.Errorf("%s: problem %v of %q, want %v of %q", name, c.err, got, c.wrong, c.field)
		}
	}
}

func TestCupRules(t *testing.T) {
	t.Parallel()
	facts := func(others ...Cup) CupFacts {
		return CupFacts{Smelling: Smelling{At: evening, Kind: HotThrow}, Candle: Candle{PourNumber: 14, Letter: "C"}, PouredAt: hoursAgo(700), Others: others}
	}
	cold, gone, young, withdrawn := facts(), facts(), facts(), facts()
	cold.Smelling.Kind, gone.Gone, young.PouredAt = ColdThrow, true, evening.Add(time.Hour)
	withdrawn.Smelling.Gone = ptr(evening)
	var twelve []Cup
	for i := range MostCups {
		twelve = append(twelve, Cup{Meta: Meta{ID: ID(i + 1)}, Candle: ID(100 + i), Code: "20" + string(rune('0'+i%10))})
	}
	for name, c := range map[string]struct {
		cup   Cup
		f     CupFacts
		field string
		wrong bool
	}{
		"a cup":                       {Cup{Code: "314", Minutes: ptr(quantity.Minutes(120))}, facts(), "", false},
		"a leading nought":            {Cup{Code: "031"}, facts(), "", false},
		"three like digits":           {Cup{Code: "777"}, facts(), "code", true},
		"two digits":                  {Cup{Code: "31"}, facts(), "code", true},
		"a letter":                    {Cup{Code: "31A"}, facts(), "code", true},
		"a code that is taken":        {Cup{Code: "314", Candle: 2}, facts(Cup{Meta: Meta{ID: 1}, Code: "314", Candle: 1}), "code", true},
		"a candle twice":              {Cup{Code: "315", Candle: 1}, facts(Cup{Meta: Meta{ID: 1}, Code: "314", Candle: 1}), "candle", true},
		"a thirteenth":                {Cup{Code: "314", Candle: 1}, facts(twelve...), "", true},
		"a twelfth":                   {Cup{Code: "314", Candle: 1}, facts(twelve[1:]...), "", false},
		"minutes of a cold throw":     {Cup{Code: "314", Minutes: ptr(quantity.Minutes(5))}, cold, "minutes", true},
		"more than a day":             {Cup{Code: "314", Minutes: ptr(quantity.Minutes(1441))}, facts(), "minutes", true},
		"a withdrawn candle":          {Cup{Code: "314"}, gone, "candle", true},
		"a candle not poured yet":     {Cup{Code: "314"}, young, "at", true},
		"one of a withdrawn smelling": {Cup{Code: "314"}, withdrawn, "", true},
	} {
		err := c.cup.Validate(c.f)
		if got := fieldOf(t, err); got != c.field || (err != nil) != c.wrong {
			t.Errorf("%s: problem %v of %q, want %v of %q", name, err, got, c.wrong, c.field)
		}
	}
}

func TestScoreRules(t *testing.T) {
	t.Parallel()
	facts := ScoreFacts{Now: evening, Smelling: Smelling{At: hoursAgo(1), Blind: true}, Cup: Cup{Code: "314"},
		Others: []Score{{Meta: Meta{ID: 7}, Nose: "Mara"}}}
	gone, over, taken := facts, facts, facts
	gone.Smelling.Gone, over.Smelling.Uncovered, taken.Cup.Gone = ptr(evening), ptr(evening), ptr(evening)
	good := Score{Nose: "Jo", Score: 3, At: evening}
	with := func(change func(*Score)) Score { s := good; change(&s); return s }
	for name, c := range map[string]struct {
		s     Score
		f     ScoreFacts
		field string
		wrong bool
	}{
		"a score":                     {good, facts, "", false},
		"none":                        {with(func(s *Score) { s.Score = 0 }), facts, "", false},
		"five":                        {with(func(s *Score) { s.Score = 5 }), facts, "", false},
		"six":                         {with(func(s *Score) { s.Score = 6 }), facts, "score", true},
		"below none":                  {with(func(s *Score) { s.Score = -1 }), facts, "score", true},
		"nobody’s nose":               {with(func(s *Score) { s.Nose = "" }), facts, "nose", true},
		"a nose with loose spaces":    {with(func(s *Score) { s.Nose = " Jo" }), facts, "nose", true},
		"forty letters":               {with(func(s *Score) { s.Nose = strings.Repeat("é", 40) }), facts, "", false},
		"forty-one letters":           {with(func(s *Score) { s.Nose = strings.Repeat("e", 41) }), facts, "nose", true},
		"a nose that scored already":  {with(func(s *Score) { s.Nose = "MARA" }), facts, "nose", true},
		"its own correction":          {with(func(s *Score) { s.Nose, s.ID = "Mara", 7 }), facts, "", false},
		"a withdrawn smelling":        {good, gone, "", true},
		"a candle that was taken out": {good, taken, "", true},
		"a new nose once uncovered":   {good, over, "nose", true},
		"a correction once uncovered": {with(func(s *Score) { s.Nose, s.ID = "Mara", 7 }), over, "", false},
		"before it began":             {with(func(s *Score) { s.At = hoursAgo(2) }), facts, "at", true},
		"tomorrow":                    {with(func(s *Score) { s.At = evening.AddDate(0, 0, 1) }), facts, "at", true},
		"a thirteenth place":          {with(func(s *Score) { s.Order = ptr(13) }), facts, "order", true},
	} {
		err := c.s.Validate(c.f)
		if got := fieldOf(t, err); got != c.field || (err != nil) != c.wrong {
			t.Errorf("%s: problem %v of %q, want %v of %q", name, err, got, c.wrong, c.field)
		}
	}
}

// A hot throw of an unlit candle, a cold throw of a lit one and a long row of
// candles are asked about, never refused.
func TestDoubtsOfASmelling(t *testing.T) {
	t.Parallel()
	candle := func(letter string, burns ...Burn) CandleLog {
		l := CandleLog{Made: Made{Candle: Candle{PourNumber: 14, Letter: letter}}}
		for _, b := range burns {
			l.Burns = append(l.Burns, BurnLog{Burn: b})
		}
		return l
	}
	lit := candle("A", Burn{LitAt: hoursAgo(2)})
	out := candle("B", Burn{LitAt: hoursAgo(9), OutAt: ptr(hoursAgo(5))})
	just := candle("C", Burn{LitAt: hoursAgo(4), OutAt: ptr(hoursAgo(0.2))})
	withdrawn := candle("D", Burn{Meta: Meta{Gone: &evening}, LitAt: hoursAgo(2)})
	for name, c := range map[string]struct {
		kind ThrowKind
		logs []CandleLog
		want string
	}{
		"hot and lit":             {HotThrow, []CandleLog{lit, just}, ""},
		"hot and out":             {HotThrow, []CandleLog{lit, out}, "14-B was not lit"},
		"hot and never lit":       {HotThrow, []CandleLog{candle("E")}, "14-E was not lit"},
		"hot, its burn withdrawn": {HotThrow, []CandleLog{withdrawn}, "14-D was not lit"},
		"cold and out":            {ColdThrow, []CandleLog{out, candle("E")}, ""},
		"cold and lit":            {ColdThrow, []CandleLog{lit}, "14-A was lit around"},
		"seven":                   {HotThrow, []CandleLog{lit, lit, lit, lit, lit, lit, lit}, "More than six candles"},
		"six":                     {HotThrow, []CandleLog{lit, lit, lit, lit, lit, lit}, ""},
	} {
		ds := DoubtsOfSmelling(Smelling{Kind: c.kind, At: evening}, c.logs)
		switch {
		case c.want == "" && len(ds) > 0:
			t.Errorf("%s: doubted: %v", name, ds)
		case c.want != "" && (len(ds) != 1 || !strings.HasPrefix(ds[0].Text, c.want)):
			t.Errorf("%s: %v, want one that begins %q", name, ds, c.want)
		}
	}
	a := DoubtsOfSmelling(Smelling{Kind: HotThrow, At: evening}, []CandleLog{out, candle("E")})
	if len(a) != 2 || a[0].Key == a[1].Key {
		t.Errorf("two candles, one question: %v", a)
	}
}

func TestNosesAreToldApart(t *testing.T) {
	t.Parallel()
	l := SmellingLog{Cups: []CupLog{
		{Cup: Cup{Code: "200"}, Scores: []Score{{Meta: Meta{ID: 3}, Nose: "Jo"}, {Meta: Meta{ID: 1}, Nose: "Mara"}}},
		{Cup: Cup{Code: "300"}, Scores: []Score{{Meta: Meta{ID: 2}, Nose: "mara"}, {Meta: Meta{ID: 4, Gone: &evening}, Nose: "Bo"}}},
		{Cup: Cup{Code: "400", Meta: Meta{Gone: &evening}}, Scores: []Score{{Meta: Meta{ID: 5}, Nose: "Wilma"}}},
	}}
	if got := strings.Join(l.Noses(), ","); got != "Mara,Jo" {
		t.Errorf("the noses are %s, want Mara,Jo", got)
	}
	if s := l.Cups[1].Of(" MARA "); s == nil || s.ID != 2 {
		t.Errorf("Mara’s score is %+v", s)
	}
	if l.Cups[1].Of("Bo") != nil {
		t.Error("a withdrawn score counts")
	}
}
