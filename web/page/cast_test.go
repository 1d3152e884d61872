package page_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/page"
)

// firCones is a mould with undercuts.
func firCones() journal.Mould {
	return journal.Mould{Meta: journal.Meta{ID: 5, Version: 1}, Name: "Fir cones", Cavities: 4, WaterFill: of(quantity.Grams(55)), Detail: journal.Undercut, Material: "silicone"}
}

// castFrom is a cast of a pour that is some hours old, out after some more;
// none of them leaves it in the mould.
func castFrom(pour journal.ID, ago, hours float64, clean, chipped, broken int) journal.CastLine {
	l := journal.CastLine{Pour: aPour(), Wax: aShelf().Waxes[0], Mould: firCones()}
	l.Pour.ID, l.Pour.Number, l.Pour.At = pour, int(pour), noon.Add(-time.Duration(ago*float64(time.Hour)))
	l.Cast = journal.Cast{Meta: journal.Meta{ID: pour * 10, Version: 1}, Pour: pour, Mould: 5, Pieces: clean + chipped + broken}
	if hours > 0 {
		l.Cast.Out = of(l.Pour.At.Add(time.Duration(hours * float64(time.Hour))))
		l.Cast.Clean, l.Cast.Chipped, l.Cast.Broken = &clean, &chipped, &broken
	}
	return l
}

// Nine of ten clean: Wilson's range is 59.6 to 98.2 % (Newcombe 1998 and R
// 4.2.2, testdata/reference/binomial_intervals.csv).
func TestCastsPageSaysHowSureItIs(t *testing.T) {
	p := page.NewCastsPage([]journal.CastLine{castFrom(1, 99, 25, 5, 0, 0), castFrom(2, 99, 26, 4, 1, 0)}, nil, metricView())
	s := p.Waxes[0].Rows[0].Share
	want := []string{"90 %", "60 to 98 %", "9 clean and 1 chipped", "10 pieces, two casts of two pours", "", ""}
	if d := cmp.Diff(want, []string{s.Share, s.Range, s.Counts, s.From, s.Doubt, s.NotYet}); d != "" {
		t.Error(d)
	}
	one := page.NewCastsPage([]journal.CastLine{castFrom(1, 99, 25, 9, 1, 0)}, nil, metricView()).Waxes[0].Rows[0].Share
	if !strings.Contains(one.Doubt, "All of one pour") {
		t.Errorf("ten pieces of one pour are doubted as %q", one.Doubt)
	}
	few := page.NewCastsPage([]journal.CastLine{castFrom(1, 99, 25, 2, 1, 0)}, nil, metricView()).Waxes[0].Rows[0].Share
	if few.Told || few.NotYet != "Not enough yet to tell a share: two more pieces would be." || few.Share != "" {
		t.Errorf("three pieces: %+v", few)
	}
}

func TestCastsPageTellsWhatToTryAndWhatIsLeftOut(t *testing.T) {
	open := castFrom(4, 99, 25, 3, 0, 0)
	open.Cast.Clean, open.Cast.Chipped, open.Cast.Broken = nil, nil, nil
	p := page.NewCastsPage([]journal.CastLine{castFrom(1, 99, 6, 2, 2, 2), castFrom(2, 99, 26, 4, 0, 0), castFrom(3, 30, 0, 4, 0, 0), open}, nil, metricView())
	r := p.Waxes[0].Rows[0]
	tries := []string{"Leave the pieces in the mould for a full day.", "Try a wax that sets harder.", "Try a mould with less detail to hold on to."}
	if d := cmp.Diff(tries, r.Tries); d != "" {
		t.Error(d)
	}
	if r.Rest != "Four pieces are still in the mould. Three pieces are out, but how they came was not counted." {
		t.Errorf("left out: %q", r.Rest)
	}
	if len(r.Hours) != 2 || r.Hours[0].Share.Share != "33 %" || !strings.Contains(r.Hours[1].Share.NotYet, "one more piece would be") {
		t.Errorf("hours: %+v", r.Hours)
	}
	if len(p.Inside) != 1 || p.Inside[0].Href != "/casts/30/out" || p.Inside[0].When != "a day old" {
		t.Errorf("inside: %+v", p.Inside)
	}
	early := page.NewCastsPage([]journal.CastLine{castFrom(1, 99, 6, 9, 0, 0)}, nil, metricView()).Waxes[0].Rows[0]
	if early.Rest != "All came out before a full day was over." || early.Hours != nil {
		t.Errorf("all early: %+v", early)
	}
}

func TestCastsPageSaysWhatToDoFirst(t *testing.T) {
	none := page.NewCastsPage(nil, nil, metricView())
	some := page.NewCastsPage(nil, []journal.Mould{firCones()}, metricView())
	if none.Empty.Acts[0].Href != "/shelf/moulds/new" || some.Empty.Acts[0].Href != "/pours" {
		t.Errorf("first steps: %+v, %+v", none.Empty, some.Empty)
	}
}

func TestCastPage(t *testing.T) {
	k := page.NewKnown(page.Shelves{Moulds: []journal.Mould{firCones()}})
	in := page.NewCastPage(castFrom(3, 30, 0, 4, 0, 0), nil, nil, k, metricView())
	if in.Acts[0].Href != "/casts/30/out" || factOf(t, in.Facts, "In the mould").Text != "for 30 h 00" {
		t.Errorf("in the mould: %+v", in)
	}
	out := page.NewCastPage(castFrom(3, 30, 6.5, 2, 1, 1), nil, nil, k, metricView())
	if f := factOf(t, out.Facts, "In the mould"); f.Text != "6 h 30" || !strings.Contains(f.More, "before a full day was over") {
		t.Errorf("out early: %+v", f)
	}
	if out.Lede != "Meadow blend in Fir cones, 2 clean, 1 chipped and 1 broken." || out.Title != "4 pieces of pour 3" || out.Photos.Box == nil {
		t.Errorf("out: %q, %q", out.Title, out.Lede)
	}
	gone := castFrom(3, 30, 25, 4, 0, 0)
	gone.Pour.Gone = &noon
	if p := page.NewCastPage(gone, nil, nil, k, metricView()); !strings.Contains(p.Gone, "Pour 3 was withdrawn") || p.Photos.Box != nil {
		t.Errorf("of a withdrawn pour: %q", p.Gone)
	}
}

// What is written into the form reads back as the same cast.
func TestCastFormReadsBack(t *testing.T) {
	l := castFrom(3, 30, 25, 2, 1, 1)
	l.Cast.Captured, l.Cast.Surface, l.Cast.Firmness, l.Cast.Note = journal.DetailSoft, journal.SurfacePitted, journal.Brittle, "n"
	for _, c := range []journal.Cast{l.Cast, castFrom(3, 30, 0, 4, 0, 0).Cast} {
		p := form.NewParser(page.CastValues(c, metricView()), quantity.Metric, time.UTC)
		got := form.ReadCast(p, noon).Cast(firCones())
		got.Meta, got.Pour = c.Meta, c.Pour
		if d := cmp.Diff(c, got); d != "" || p.Problems().Any() {
			t.Errorf("%v\n%s", p.Problems(), d)
		}
	}
}

func TestCastFormNeedsAMould(t *testing.T) {
	retired := firCones()
	retired.Gone = &noon
	if p := page.NewCastForm(page.Input{}, aPour(), []journal.Mould{retired}, nil); p.Missing == nil {
		t.Error("a shelf whose only mould is retired gives a form")
	}
	if v := page.NewCastValues([]journal.Mould{firCones()}, 0, metricView()); v.Get("mould") != "5" || v.Get("pieces") != "4" {
		t.Errorf("the only mould is not filled in: %v", v)
	}
	two := []journal.Mould{firCones(), {Meta: journal.Meta{ID: 6}, Name: "Tablets", Cavities: 6}}
	if v := page.NewCastValues(two, 6, metricView()); v.Get("mould") != "6" || v.Get("pieces") != "6" {
		t.Errorf("the mould that was asked for is not filled in: %v", v)
	}
	if v := page.NewCastValues(two, 0, metricView()); v.Get("mould") != "" {
		t.Errorf("one of two moulds was guessed: %v", v)
	}
}

func TestTakeOutWarnsOfADayThatIsNotOver(t *testing.T) {
	early := page.NewTakeOutPage(page.Input{}, castFrom(3, 23.9, 0, 4, 0, 0), metricView())
	if early.Early == nil || !strings.Contains(early.Early.Text, "today, 12:06") {
		t.Errorf("before a day: %+v", early.Early)
	}
	if late := page.NewTakeOutPage(page.Input{}, castFrom(3, 24, 0, 4, 0, 0), metricView()); late.Early != nil {
		t.Errorf("after a day: %+v", late.Early)
	}
}

func TestMouldPageSaysWhatItHasDone(t *testing.T) {
	p := page.NewMouldPage(firCones(), []journal.CastLine{castFrom(2, 99, 26, 4, 1, 0), castFrom(1, 99, 25, 5, 0, 0)}, journal.Use{Pours: 2, Casts: 2}, nil, metricView())
	if p.Thing.Use != "Used so far in two pours and two casts." || p.Share.Share != "90 %" || len(p.Casts) != 2 || p.Casts[0].More != "4 clean and 1 chipped after 26 h 00 in the mould" {
		t.Errorf("%+v", p)
	}
	if p := page.NewMouldPage(firCones(), nil, journal.Use{}, nil, metricView()); p.Empty == "" || p.Thing.Use != "Not used yet." {
		t.Errorf("a new mould: %+v", p)
	}
}

func TestBenchAsksForPieces(t *testing.T) {
	v := metricView()
	b := plan.Bench(v.Now, nil, nil, nil)
	b.AddCasts(v.Now, []journal.CastLine{castFrom(3, 30, 0, 4, 0, 0), castFrom(4, 2, 0, 1, 0, 0)})
	p := page.NewBenchPage(b, page.FirstSteps{Burn: true}, safety.NewLimits(nil), v)
	if len(p.Due) != 1 || p.Due[0].Text != "Take 4 pieces of pour 3 out of the mould" || p.Due[0].Href != "/casts/30/out" {
		t.Errorf("due: %+v", p.Due)
	}
	if len(p.Coming) != 1 || p.Coming[0].Text != "1 piece of pour 4" || p.Coming[0].When != "tomorrow" {
		t.Errorf("coming: %+v", p.Coming)
	}
}
