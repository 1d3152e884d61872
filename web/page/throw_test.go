package page_test

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
)

// panelScores are what noses made of three candles, - for one left out.
type panelScores map[string][3]string

// aSmelling is a smelling of 14-A, 14-B and 14-C under the codes 731, 204 and
// 568 some hours before noon.
func aSmelling(blind bool, ago float64, noses []string, given panelScores) journal.SmellingLog {
	l := journal.SmellingLog{Smelling: journal.Smelling{Meta: journal.Meta{ID: 4, Version: 1}, At: noon.Add(-hours(ago)), Kind: journal.HotThrow, Blind: blind, Room: of(quantity.CubicMetres(30))}}
	for i, code := range []string{"731", "204", "568"} {
		m := aCandle().Made
		m.Candle.ID, m.Candle.Letter = journal.ID(71+i), string(rune('A'+i))
		c := journal.CupLog{Cup: journal.Cup{Meta: journal.Meta{ID: journal.ID(i + 1)}, Smelling: 4, Candle: m.Candle.ID, Code: code, Minutes: of(quantity.Minutes(90 + 5*i))}, Made: m}
		for n, nose := range noses {
			if s := given[nose][i]; s != "-" {
				c.Scores = append(c.Scores, journal.Score{Meta: journal.Meta{ID: journal.ID(10*n + i + 1), Version: 1}, Nose: nose, Score: int(s[0] - '0')})
			}
		}
		l.Cups = append(l.Cups, c)
	}
	slices.SortFunc(l.Cups, func(a, b journal.CupLog) int { return strings.Compare(a.Cup.Code, b.Cup.Code) })
	return l
}

var eightNoses = []string{"a", "b", "c", "d", "e", "f", "g", "h"}

// eightAgree rank C above A above B, all alike.
var eightAgree = panelScores{"a": {"3", "1", "5"}, "b": {"3", "2", "4"}, "c": {"2", "1", "4"}, "d": {"3", "1", "5"}, "e": {"4", "2", "5"}, "f": {"3", "0", "4"}, "g": {"2", "1", "3"}, "h": {"3", "2", "5"}}

func result(t *testing.T, l journal.SmellingLog) page.ThrowResult {
	t.Helper()
	p := page.NewSmellingPage(l, nil, nil, metricView())
	if p.Result == nil {
		t.Fatal("there is no result")
	}
	return *p.Result
}

// Eight noses who agree wholly: W is 1 and chi-squared 8 (3 - 1) = 16, p =
// exp(-8) = 0.0003 (Kendall & Babington Smith 1939: chi-squared is n (k - 1) W;
// of two degrees of freedom p is exp(-x/2)). Least difference of rank sums 1.96
// sqrt(8*3*4/6) = 7.84; the sums are 16, 8 and 24, so all pairs are apart.
func TestNosesWhoAgreeAreSaidTo(t *testing.T) {
	t.Parallel()
	l := aSmelling(true, 2, eightNoses, eightAgree)
	l.Smelling.Uncovered = of(noon)
	r := result(t, l)
	want := []string{"The noses agree closely (W 1); the candles differ more than chance would make them (p under 0.01).", "14-C ranks above 14-A and 14-B; 14-A ranks above 14-B."}
	if d := cmp.Diff(want, r.Words); d != "" {
		t.Errorf("words (-want +got)\n%s", d)
	}
	if d := cmp.Diff([]string{"Ranking can show that candles differ, not by how much (ISO 8587)."}, r.Doubts); d != "" {
		t.Errorf("doubts (-want +got)\n%s", d)
	}
	var rows []string
	for _, x := range r.Rows {
		rows = append(rows, strings.Join([]string{x.Candle, x.Code, x.Median, x.Word, x.Spread, x.N, x.Lit}, "|"))
	}
	if d := cmp.Diff([]string{"14-C|568|4.5|between strong and very strong|middle half 4 to 5|8 noses|100 min", "14-A|731|3|medium|middle half 2.75 to 3|8 noses|90 min", "14-B|204|1|very weak|middle half 1 to 2|8 noses|95 min"}, rows); d != "" {
		t.Errorf("rows (-want +got)\n%s", d)
	}
	method := strings.Join(r.Method, " ")
	for _, says := range []string{"chi-squared 16, 2 degrees of freedom, p 0.0003, 8 noses", "7.8 or more apart", "ASTM E544-18", "ISO 8587", "Krippendorff", "ISO 13299", "from memory"} {
		if !strings.Contains(method, says) {
			t.Errorf("how it is worked out does not say %q: %s", says, method)
		}
	}
}

// A candle, or a pour, that was withdrawn since counts in nothing. What is left
// is what two candles alone come to: of two columns that all eight noses rank
// alike chi-squared is n (k - 1) W = 8 (Kendall & Babington Smith 1939).
func TestWithdrawnCandlesCountInNothing(t *testing.T) {
	t.Parallel()
	for name, withdraw := range map[string]func(*journal.Made){
		"candle": func(m *journal.Made) { m.Candle.Gone = of(noon) }, "pour": func(m *journal.Made) { m.Pour.Gone = of(noon) },
	} {
		l := aSmelling(true, 2, append(slices.Clone(eightNoses), "late"), with(eightAgree, "late", "-", "-", "5"))
		l.Smelling.Uncovered = of(noon)
		for i := range l.Cups {
			if l.Cups[i].Cup.Code == "568" { // 14-C, the strongest
				withdraw(&l.Cups[i].Made)
			}
		}
		r := result(t, l)
		var rows []string
		for _, x := range r.Rows {
			rows = append(rows, strings.Join([]string{x.Candle, x.Median, x.Word, x.Spread, x.N}, "|"))
		}
		if d := cmp.Diff([]string{"14-A|3|medium|middle half 2.75 to 3|8 noses", "14-B|1|very weak|middle half 1 to 2|8 noses", "14-C|–|withdrawn|not counted|9 noses"}, rows); d != "" {
			t.Errorf("%s: rows (-want +got)\n%s", name, d)
		}
		if x := r.Rows[2]; !x.Gone || x.Dots.Median != "" || strings.Contains(x.Dots.Title, "median") || len(x.Dots.Dots) != 9 {
			t.Errorf("%s: the withdrawn row is %+v", name, x)
		}
		if r.Words[1] != "14-A ranks above 14-B." || !strings.Contains(strings.Join(r.Method, " "), "chi-squared 8, 1 degree of freedom") {
			t.Errorf("%s: says %v %v", name, r.Words, r.Method)
		}
		if got := strings.Join(r.Doubts, " "); !strings.Contains(got, "Withdrawn since: 14-C.") || strings.Contains(got, "left a candle out") {
			t.Errorf("%s: doubts %s", name, got)
		}
	}
}

// with is a panel with one more nose.
func with(p panelScores, nose string, a, b, c string) panelScores {
	out := maps.Clone(p)
	out[nose] = [3]string{a, b, c}
	return out
}

func TestNothingIsComparedOnceAllAreWithdrawn(t *testing.T) {
	t.Parallel()
	l := aSmelling(false, 2, []string{"a"}, eightAgree)
	for i := range l.Cups {
		l.Cups[i].Made.Pour.Gone = of(noon)
	}
	if r := result(t, l); len(r.Words) != 1 || !strings.Contains(r.Words[0], "nothing to compare") || len(r.Doubts) != 1 || r.Method != nil {
		t.Errorf("got %+v", r)
	}
}

// While codes are covered a withdrawn candle looks like any other, and the
// history tells no score to the next nose.
func TestACoveredPageTellsNeitherWithdrawalsNorScores(t *testing.T) {
	t.Parallel()
	l := aSmelling(true, 2, []string{"Ines"}, panelScores{"Ines": {"5", "2", "3"}})
	sheet := func(l journal.SmellingLog) page.ScoreSheet { return page.NewScoreSheet(page.Input{}, l, 1, "") }
	history := []journal.Change{{Noun: journal.NounScore, Of: 1, Kind: journal.Corrected, At: noon, Before: []byte(`{"score":2}`), After: []byte(`{"score":5}`)},
		{Noun: journal.NounSmelling, Of: 4, Kind: journal.Corrected, At: noon, Before: []byte(`{"note":"a"}`), After: []byte(`{"note":"b"}`)}}
	was := page.NewSmellingPage(l, of(sheet(l)), history, metricView())
	if len(was.Changes) != 1 || strings.Contains(was.Changes[0].What, "Ines") {
		t.Errorf("the next nose reads %+v", was.Changes)
	}
	l.Cups[0].Made.Candle.Gone = of(noon)
	if d := cmp.Diff(was, page.NewSmellingPage(l, of(sheet(l)), history, metricView())); d != "" {
		t.Errorf("a withdrawal shows while covered (-before +after)\n%s", d)
	}
	l.Smelling.Uncovered = of(noon)
	if p := page.NewSmellingPage(l, nil, history, metricView()); len(p.Changes) != 2 || !strings.Contains(p.Changes[0].What, "Ines’s score of 14-A") {
		t.Errorf("once uncovered the history is %+v", p.Changes)
	}
}

func TestSmallPanelsAreIndicativeOnly(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		noses  []string
		given  panelScores
		words  string
		doubts []string
	}{
		"one nose":        {[]string{"a"}, eightAgree, "takes two noses who each score every candle; so far one nose has", []string{"1 judgement."}},
		"all alike":       {[]string{"a", "b"}, panelScores{"a": {"3", "3", "3"}, "b": {"2", "2", "2"}}, "scored all candles alike", []string{"2 judgements."}},
		"no telling":      {[]string{"a", "b", "c"}, panelScores{"a": {"1", "2", "3"}, "b": {"3", "1", "2"}, "c": {"2", "3", "1"}}, "no more agreement than chance would give (W 0, p over 0.99)", []string{"3 judgements.", "Ranking can show"}},
		"an incomplete":   {[]string{"a", "b", "c"}, panelScores{"a": {"1", "2", "3"}, "b": {"1", "2", "3"}, "c": {"2", "-", "1"}}, "no more agreement than chance would give (W 1, p 0.14)", []string{"2 judgements.", "One nose left a candle out", "Ranking can show"}},
		"seven who agree": {eightNoses[:7], eightAgree, "the candles differ more", []string{"7 judgements.", "Ranking can show"}},
	} {
		r := result(t, aSmelling(false, 20, c.noses, c.given))
		if !strings.Contains(r.Words[0], c.words) {
			t.Errorf("%s: says %q, want %q", name, r.Words[0], c.words)
		}
		if len(r.Doubts) != len(c.doubts) {
			t.Errorf("%s: doubts %v", name, r.Doubts)
			continue
		}
		for i, d := range c.doubts {
			if !strings.Contains(r.Doubts[i], d) {
				t.Errorf("%s: doubt %q, want %q", name, r.Doubts[i], d)
			}
		}
		if !strings.HasPrefix(r.Doubts[0], "Indicative only") {
			t.Errorf("%s: the first doubt is %q", name, r.Doubts[0])
		}
	}
}

// Three noses who guess come to a mean W of a third (Kendall & Gibbons, Rank
// Correlation Methods, from memory: chi-squared n (k - 1) W has the mean k - 1).
// Ranks 1 2 3, 1 3 2 and 2 1 3 sum to 4, 6 and 8: chi-squared 12/(3*3*4)*116 -
// 36 = 2.67, W 0.44, p exp(-1.33) = 0.26. No word of agreement belongs to that.
func TestNoWordOfAgreementWhereChanceGivesAsMuch(t *testing.T) {
	t.Parallel()
	r := result(t, aSmelling(false, 20, []string{"a", "b", "c"}, panelScores{"a": {"1", "2", "3"}, "b": {"1", "3", "2"}, "c": {"2", "1", "3"}}))
	want := "The noses show no more agreement than chance would give (W 0.44, p 0.26), so the candles cannot be told apart yet. More noses may settle it."
	if len(r.Words) != 1 || r.Words[0] != want {
		t.Errorf("says %q, want %q", r.Words, want)
	}
}

func TestACoveredSmellingShowsCodesAlone(t *testing.T) {
	t.Parallel()
	l := aSmelling(true, 2, []string{"Mara"}, panelScores{"Mara": {"3", "1", "5"}})
	sheet := page.NewScoreSheet(page.Input{}, l, 1, "")
	p := page.NewSmellingPage(l, &sheet, nil, metricView())
	if p.Result != nil || !p.Going {
		t.Errorf("a covered smelling shows a result: %+v", p.Result)
	}
	var codes []string
	for _, c := range sheet.Cups {
		codes = append(codes, c.Code)
		if c.What != "" || strings.Contains(c.Name, "14-") {
			t.Errorf("a covered cup tells %q", c.What)
		}
	}
	if slices.Sort(codes); !slices.Equal(codes, []string{"204", "568", "731"}) {
		t.Errorf("the codes are %v", codes)
	}
	for _, f := range p.Facts {
		if f.Label == "Lit before" {
			t.Errorf("it tells how long they were lit: %s", f.Text)
		}
	}
	l.Smelling.Uncovered = of(noon)
	shown := page.NewScoreSheet(page.Input{}, l, 1, "Mara")
	if i := slices.IndexFunc(shown.Cups, func(c page.CupRow) bool { return c.Code == "14-A" }); i < 0 {
		t.Errorf("an uncovered sheet shows %+v", shown.Cups)
	}
	if open := page.NewSmellingPage(l, nil, nil, metricView()); open.Closed == "" || open.Facts[1].Text != "90 to 100 min" {
		t.Errorf("an uncovered smelling says %q and %+v", open.Closed, open.Facts)
	}
}

// A burning candle is not shuffled: candles are not moved while their wax is
// liquid (general candle advice).
func TestLabelsMoveNoFlame(t *testing.T) {
	t.Parallel()
	l := aSmelling(true, 2, nil, nil)
	p := page.NewLabelsPage(l, true)
	if !strings.Contains(p.Lede, "Never move a candle that burns") || strings.Contains(p.Lede, "shuffle") {
		t.Errorf("labels of a hot throw say %q", p.Lede)
	}
	var rows []string
	for _, r := range p.Rows {
		rows = append(rows, r.Candle+" "+r.Code)
	}
	if d := cmp.Diff([]string{"for 14-A 731", "for 14-B 204", "for 14-C 568"}, rows); d != "" {
		t.Errorf("labels (-want +got)\n%s", d)
	}
	if hidden := page.NewLabelsPage(l, false); hidden.Show == "" || hidden.Rows != nil {
		t.Errorf("unasked, labels show %+v", hidden)
	}
}

func TestOpenSmellingsFoldTheirResult(t *testing.T) {
	t.Parallel()
	for ago, going := range map[float64]bool{1: true, 11.9: true, 12.1: false, 400: false} {
		l := aSmelling(false, ago, []string{"a"}, eightAgree)
		sheet := page.NewScoreSheet(page.Input{}, l, 1, "")
		if p := page.NewSmellingPage(l, &sheet, nil, metricView()); p.Going != going || p.Result == nil {
			t.Errorf("%v h later going is %v", ago, p.Going)
		}
	}
}

func TestSheetsAskForARest(t *testing.T) {
	t.Parallel()
	l := aSmelling(true, 2, nil, nil)
	for i := range 4 {
		c := l.Cups[0]
		c.Cup.Code = "90" + string(rune('0'+i))
		l.Cups = append(l.Cups, c)
	}
	var rests []int
	for i, c := range page.NewScoreSheet(page.Input{}, l, 0, "").Cups {
		if c.Rest != nil {
			rests = append(rests, i)
			if !strings.Contains(c.Rest.Text, "common practice, no source") {
				t.Errorf("the rest names no source: %s", c.Rest.Text)
			}
		}
	}
	if !slices.Equal(rests, []int{3, 6}) {
		t.Errorf("a rest comes before cups %v of seven", rests)
	}
	if s := page.NewScoreSheet(page.Input{}, l, 0, ""); !strings.Contains(s.Lede, "Judge on entering") || !strings.Contains(s.Lede, "flame") {
		t.Errorf("the sheet says %q", s.Lede)
	}
}

func TestThrowPartKeepsSourcesApart(t *testing.T) {
	t.Parallel()
	throw := func(n int, at float64) journal.Check { return journal.Check{HotThrow: &n, At: noon.Add(hours(at))} }
	burn := aBurn(1, 5, throw(2, -4), throw(3, -3), throw(4, -3.1))
	gone := throw(5, -2)
	gone.Gone = of(noon)
	burn.Checks = append(burn.Checks, gone)
	log := aCandle(burn)
	smelled := []journal.Smelled{
		{Smelling: journal.Smelling{Meta: journal.Meta{ID: 1}, Kind: journal.ColdThrow, At: noon.AddDate(0, 0, -9)}, Cup: journal.Cup{Candle: 7}, Scores: []journal.Score{{Nose: "Mara", Score: 2}, {Nose: "Jo", Score: 1}}},
		{Smelling: journal.Smelling{Meta: journal.Meta{ID: 2}, Kind: journal.HotThrow, Blind: true, At: noon.AddDate(0, 0, -1)}, Cup: journal.Cup{Candle: 7, Minutes: of(quantity.Minutes(95))}, Scores: []journal.Score{{Nose: "mara", Score: 4}}},
		{Smelling: journal.Smelling{Meta: journal.Meta{ID: 3}, Kind: journal.HotThrow, At: noon}, Cup: journal.Cup{Candle: 7}, Scores: []journal.Score{{Nose: "Mara", Score: 3}}},
	}
	p := page.NewThrowPart(smelled, []journal.CandleLog{log}, 7, metricView())
	var facts []string
	for _, f := range p.Facts {
		facts = append(facts, strings.ReplaceAll(f.Label+"|"+f.Text+"|"+f.More, "\u00a0", " "))
	}
	want := []string{
		"Cold throw, smelled|median 1.5, between very weak and weak|1 to 2; 2 scores by 2 noses in 1 smelling",
		"Hot throw, smelled|median 3.5, between medium and strong|3 to 4; 2 scores by 1 nose in 2 smellings",
		"Hot throw, from checks|1 h: 2 (n 1), 2 h: 3.5 (n 2)|median by the hour since lighting; 3 checks, beside the candle and not blind",
	}
	if d := cmp.Diff(want, facts); d != "" {
		t.Errorf("facts (-want +got)\n%s", d)
	}
	if len(p.Items) != 3 || p.Items[0].Href != "/throw/3" || p.Items[1].More != "median 4 · one score · 1 nose · 95 min lit · blind" {
		t.Errorf("items %+v", p.Items)
	}
	if !strings.Contains(strings.Join(p.Notes, " "), "twice the load does not double the score") || !strings.Contains(p.Notes[0], "indicative only") {
		t.Errorf("notes %v", p.Notes)
	}
	spent := aBurn(1, 5)
	spent.Burn.Ending = journal.Spent
	if p := page.NewThrowPart(nil, []journal.CandleLog{aCandle(spent)}, 7, metricView()); slices.Contains(texts(p.Acts), "Smell it") {
		t.Error("a spent candle can be smelled")
	}
	if empty := page.NewThrowPart(nil, []journal.CandleLog{aCandle()}, 7, metricView()); empty.Empty == "" || texts(empty.Acts)[0] != "Smell it" {
		t.Errorf("nothing smelled shows %+v", empty)
	}
}

func TestListOfSmellings(t *testing.T) {
	t.Parallel()
	if p := page.NewSmellingsPage(nil, false, 0, metricView()); p.Empty == nil || len(p.Empty.Acts) != 1 {
		t.Errorf("an empty list shows %+v", p)
	}
	at := noon.Add(-time.Hour)
	lines := []journal.SmellingLine{
		{Smelling: journal.Smelling{Meta: journal.Meta{ID: 3}, Kind: journal.HotThrow, Blind: true, At: at}, Cups: 3, Noses: 2},
		{Smelling: journal.Smelling{Meta: journal.Meta{ID: 2, Gone: &at, GoneWhy: "wrong room"}, Kind: journal.ColdThrow, At: at}, Cups: 1},
	}
	p := page.NewSmellingsPage(lines, true, 9, metricView())
	if p.Pager.Older != "/throw?before=2" || p.Pager.Newest != "/throw" || !p.Items[0].Waits || !p.Items[1].Gone {
		t.Errorf("got %+v", p)
	}
	if got := p.Items[0].Text + "|" + p.Items[0].More + "|" + p.Items[1].More; got != "Hot throw of three candles|blind, still covered · two noses so far|withdrawn wrong room" {
		t.Errorf("the lines say %s", got)
	}
}

func TestNothingIsANumberWhereNobodySmelled(t *testing.T) {
	t.Parallel()
	l := aSmelling(false, 20, []string{"Mara"}, panelScores{"Mara": {"3", "-", "5"}})
	for _, r := range result(t, l).Rows {
		if r.Candle == "14-B" && (r.Median != "–" || r.Word != "not smelled" || r.Dots.Median != "" || strings.Contains(r.Dots.Title, "NaN")) {
			t.Errorf("an unsmelled candle shows %+v", r)
		}
	}
}
