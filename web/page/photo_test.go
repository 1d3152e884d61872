package page_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/web/page"
	"rimward/web/ui"
)

// aPhoto is a picture of 1600 × 1200 that was attached at noon.
func aPhoto(id journal.ID, of journal.Noun, ofID journal.ID) journal.Photo {
	return journal.Photo{Meta: journal.Meta{ID: id, Version: 1}, Of: of, OfID: ofID, Hash: strings.Repeat(fmt.Sprint(id), 64), Width: 1600, Height: 1200, At: noon}
}

// strip writes a strip as its links, names and hours.
func strip(figures []page.PhotoFigure) string {
	var out []string
	for _, f := range figures {
		out = append(out, f.Href+" "+f.Alt+" ["+f.Hour+"]")
	}
	return strings.Join(out, "\n")
}

func TestPhotosStandUnderTheirBurnByTheHour(t *testing.T) {
	t.Parallel()
	l := aCandle(aBurn(1, 48, wide(40, 41), wide(50, 52)), aBurn(2, 2.5, wide(44, 44)))
	gone := aBurn(3, 1)
	gone.Burn.Gone = of(noon)
	l.Burns = append(l.Burns, gone)
	p := candlePage(l, metricView())
	noted := aPhoto(5, journal.NounCandle, 7)
	noted.Note = "top, set"
	p.ShowPhotos([]journal.Photo{aPhoto(1, journal.NounBurn, 21), aPhoto(2, journal.NounCheck, 100), aPhoto(3, journal.NounCheck, 101), aPhoto(4, journal.NounCheck, 200), noted}, l)
	want := []string{
		"/photos/2 Candle 14-B, burn 1, at 1 h 00 [1 h 00]\n/photos/3 Candle 14-B, burn 1, at 2 h 00 [2 h 00]\n/photos/1 Candle 14-B, burn 1 [whole burn]",
		"/photos/4 Candle 14-B, burn 2, at 1 h 00 [1 h 00]", "", "/photos/5 Candle 14-B: top, set []",
	}
	got := []string{strip(p.Burns[0].Photos), strip(p.Burns[1].Photos), strip(p.Burns[2].Photos), strip(p.Photos.Figures)}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("strips (-want +got):\n%s", diff)
	}
	if f := p.Burns[0].Photos[0]; f.Check != 100 || f.Src != "/photos/files/"+strings.Repeat("2", 64)+"-small.jpg" || f.Width != "320" || f.Height != "240" {
		t.Errorf("the thumbnail is %+v", f)
	}
	// A lit burn leads to its latest check, one that is over to the whole burn,
	// one that was withdrawn nowhere.
	links := []string{p.Burns[0].AddPhotos, p.Burns[1].AddPhotos, p.Burns[2].AddPhotos}
	if diff := cmp.Diff([]string{"/photos/new?of=burn&id=21", "/photos/new?of=check&id=200", ""}, links); diff != "" {
		t.Errorf("links (-want +got):\n%s", diff)
	}
	if p.Photos.Box == nil || p.Photos.Box.Of != "candle" || p.Photos.Box.ID != "7" || p.Photos.Summary != "Add photos of candle 14-B" {
		t.Errorf("the candle's own box is %+v", p.Photos)
	}
	l.Candle.Gone = of(noon)
	p.ShowPhotos(nil, l)
	if p.Photos.Box != nil {
		t.Error("photos can be added to a withdrawn candle")
	}
}

func TestPhotosAreNamedInTheHistory(t *testing.T) {
	t.Parallel()
	l := aCandle(aBurn(1, 48, wide(40, 41)))
	x := aPhoto(2, journal.NounCheck, 100)
	after, err := json.Marshal(x)
	if err != nil {
		t.Fatal(err)
	}
	x.Note = "a ring is left"
	noted, err := json.Marshal(x)
	if err != nil {
		t.Fatal(err)
	}
	p := candlePage(l, metricView(), journal.Change{Noun: journal.NounPhoto, Of: 2, At: noon, Kind: journal.Corrected, Before: after, After: noted},
		journal.Change{Noun: journal.NounPhoto, Of: 2, At: noon, Kind: journal.Written, After: after})
	if len(p.Changes) != 1 || p.Changes[0].What != "Photo of check at 1 h 00 of burn 1 corrected" || len(p.Changes[0].Diffs) != 1 || p.Changes[0].Diffs[0] != (ui.Diff{Label: "Note", Before: "not noted", After: "a ring is left"}) {
		t.Errorf("changes: %+v", p.Changes)
	}
	if len(p.Routine) != 1 || p.Routine[0].What != "Photo of check at 1 h 00 of burn 1 attached" {
		t.Errorf("routine: %+v", p.Routine)
	}
}

func TestAPhotosPageKnowsItsNeighbours(t *testing.T) {
	t.Parallel()
	b := aBurn(1, 48, wide(40, 41), wide(50, 52))
	of1 := page.CheckSubject(b.Checks[1], b, aCandle().Candle)
	around := []journal.Photo{aPhoto(3, journal.NounBurn, 21), aPhoto(2, journal.NounCheck, 101), aPhoto(9, journal.NounCheck, 101)}
	p := page.NewPhotoPage(around[1], of1, around, nil, metricView())
	if got := p.Title + " " + p.Before + " " + p.After; got != "Candle 14-B, burn 1, at 2 h 00 /photos/3 /photos/9" {
		t.Errorf("got %s", got)
	}
	if first, last := page.NewPhotoPage(around[0], of1, around, nil, metricView()), page.NewPhotoPage(around[2], of1, around, nil, metricView()); first.Before != "" || last.After != "" {
		t.Errorf("beyond the ends: %q and %q", first.Before, last.After)
	}
	if got := strings.Join(texts(p.Acts), ", "); got != "Measure the pool, Add a note, Withdraw" {
		t.Errorf("acts: %s", got)
	}
	var parts []string
	for _, i := range of1.Parts {
		parts = append(parts, i.Text+" "+i.Href)
	}
	if got := strings.Join(parts, ", "); got != "the burn as a whole /photos/new?of=burn&id=21, 1 h 00 /photos/new?of=check&id=100" {
		t.Errorf("parts: %s", got)
	}
	x := around[1]
	x.Gone, x.GoneWhy, x.Note = of(noon), "blurred", "n"
	p = page.NewPhotoPage(x, of1, nil, nil, metricView())
	if got := strings.Join(texts(p.Acts), ", "); got != "Bring it back" || !strings.Contains(p.Gone, "blurred") || p.Before+p.After != "" {
		t.Errorf("withdrawn: %s, %q", got, p.Gone)
	}
}

func TestNewPhotosSayWhatWasKept(t *testing.T) {
	t.Parallel()
	x := page.PourSubject(aPour())
	p := page.NewNewPhotosPage(x, []journal.Photo{aPhoto(1, journal.NounPour, 14)}, 3, 0, []string{page.NotKept("IMG_4.heic", "It is so."), page.NotKept("", "It is so.")})
	got := []string{p.Kept, p.Box.Wrong[0], p.Box.Wrong[1], p.Back.Text, p.Back.Href, p.Box.Of}
	want := []string{"Three photos are kept.", "IMG_4.heic was not kept. It is so.", "One picture was not kept. It is so.", "Back to pour 14", "/pours/14", "pour"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if p := page.NewNewPhotosPage(x, nil, 0, 0, nil); p.Kept != "" {
		t.Errorf("%+v", p)
	}
	for want, n := range map[string][2]int{"One photo is kept.": {1, 0}, "One photo was there already.": {0, 1}, "Two photos are kept. Three photos were there already.": {2, 3}} {
		if got := page.PhotosSaid(n[0], n[1]); got != want {
			t.Errorf("%v is said as %q, want %q", n, got, want)
		}
	}
}

// What belongs to something withdrawn takes no photos either.
func TestSubjectsAreGoneWithWhatTheyBelongTo(t *testing.T) {
	t.Parallel()
	c, whole := aCandle().Candle, aBurn(1, 48, wide(40, 41))
	if page.BurnSubject(whole, c).Gone || page.CheckSubject(whole.Checks[0], whole, c).Gone {
		t.Error("gone though nothing is")
	}
	gone := whole
	gone.Burn.Gone = of(noon)
	if !page.CheckSubject(gone.Checks[0], gone, c).Gone {
		t.Error("a check of a withdrawn burn takes photos")
	}
	c.Gone = of(noon)
	if !page.BurnSubject(whole, c).Gone || !page.CheckSubject(whole.Checks[0], whole, c).Gone {
		t.Error("a burn of a withdrawn candle takes photos")
	}
}
