package page

import (
	"net/url"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// PhotoFigure is one photo in a strip, with the hour that it shows.
type PhotoFigure struct {
	Href, Src, Alt, Hour string
	Width, Height        string     // of the thumbnail, px
	Check                journal.ID // that it shows; 0 when it shows no check
}

// photoFigure shows a photo small.
func photoFigure(p journal.Photo, name, hour string) PhotoFigure {
	w, h := p.Small()
	return PhotoFigure{Href: "/photos/" + idText(p.ID), Src: "/photos/files/" + p.Hash + "-small.jpg", Alt: capital(joinBy(": ", name, p.Note)), Hour: hour,
		Width: strconv.Itoa(w), Height: strconv.Itoa(h)}
}

// photoFigures shows photos of one thing, without an hour.
func photoFigures(list []journal.Photo, name string) []PhotoFigure {
	var out []PhotoFigure
	for _, p := range list {
		out = append(out, photoFigure(p, name, ""))
	}
	return out
}

// PhotosOfBurns sorts the photos of a candle, its burns and its checks into
// one strip for each burn: its checks in the order in which they come, then
// what shows the burn as a whole. The candle's own stand under 0.
func PhotosOfBurns(list []journal.Photo, l journal.CandleLog) map[journal.ID][]PhotoFigure {
	subjects, out, whole := subjectsOf(l), map[journal.ID][]PhotoFigure{}, map[journal.ID][]PhotoFigure{}
	checks := checksOf(l)
	for _, p := range list {
		name := subjects[recordKey{p.Of, p.OfID}].Name
		switch p.Of {
		case journal.NounCheck:
			k := checks[p.OfID]
			f := photoFigure(p, name, k.hour)
			f.Check = p.OfID
			out[k.burn] = append(out[k.burn], f)
		case journal.NounBurn:
			whole[p.OfID] = append(whole[p.OfID], photoFigure(p, name, "whole burn"))
		default:
			out[0] = append(out[0], photoFigure(p, name, ""))
		}
	}
	for burn, figures := range whole {
		out[burn] = append(out[burn], figures...)
	}
	return out
}

// placed is where a check stands: its burn and its hour.
type placed struct {
	burn journal.ID
	hour string
}

func checksOf(l journal.CandleLog) map[journal.ID]placed {
	out := map[journal.ID]placed{}
	for _, b := range l.Burns {
		for _, k := range b.Checks {
			out[k.ID] = placed{b.Burn.ID, hourOf(k, b.Burn)}
		}
	}
	return out
}

// PhotoBox is the form that adds photos to something.
type PhotoBox struct {
	Of, ID string
	Wrong  []string // why some were not kept
}

// PhotoPart is the part of a page that shows photos and adds some.
type PhotoPart struct {
	Figures []PhotoFigure
	Box     *PhotoBox // nil where none can be added
	Summary string
}

// NewPhotoPart builds the part of a page about the photos of one thing.
func NewPhotoPart(x PhotoSubject, list []journal.Photo) PhotoPart {
	return photoPartOf(x, photoFigures(list, x.Name))
}

func photoPartOf(x PhotoSubject, figures []PhotoFigure) PhotoPart {
	p := PhotoPart{Figures: figures, Summary: "Add photos of " + x.Name}
	if !x.Gone {
		p.Box = photoBox(x)
	}
	return p
}

func photoBox(x PhotoSubject) *PhotoBox {
	return &PhotoBox{Of: string(x.Of), ID: idText(x.ID)}
}

// ShowPhotos puts photos on the page of a candle: those of burns and checks
// below their burn's pools, the candle's own in a part of their own.
func (p *CandlePage) ShowPhotos(list []journal.Photo, l journal.CandleLog) {
	strips := PhotosOfBurns(list, l)
	for i, b := range l.Burns {
		if !b.Burn.IsGone() {
			p.Burns[i].Photos, p.Burns[i].AddPhotos = strips[b.Burn.ID], addPhotosHere(b)
		}
	}
	p.Photos = photoPartOf(CandleSubject(l.Candle), strips[0])
}

// ShowPhotos puts photos on the page of a pour.
func (out *PourPage) ShowPhotos(list []journal.Photo, p journal.Pour) {
	out.Photos = NewPhotoPart(PourSubject(p), list)
}

// NewPhotosPage adds photos to one thing, and shows those that it has.
type NewPhotosPage struct {
	Title, Lede string
	Back        ui.Item
	Kept        string // how many were just kept, in words
	Box         PhotoBox
	Gone        bool
	Parts       []ui.Item
	Figures     []PhotoFigure
}

// NewNewPhotosPage builds the page that adds photos. list is what the thing
// has already; kept is how many of those were just kept, beside some that were
// not and are told of in wrong; there is how many were there already.
func NewNewPhotosPage(x PhotoSubject, list []journal.Photo, kept, there int, wrong []string) NewPhotosPage {
	p := NewPhotosPage{Title: "Photos of " + x.Name, Gone: x.Gone, Parts: x.Parts, Box: *photoBox(x), Figures: photoFigures(list, x.Name),
		Lede: "JPEG, PNG or WebP, up to ten at once. What is kept is the picture alone, at most 1,600 pixels long: not the place, not the camera.",
		Back: ui.Item{Text: "Back to " + x.Name, Href: x.Back}}
	if x.Candle != 0 {
		p.Back.Text = "Back to the candle"
	}
	p.Box.Wrong = wrong
	p.Kept = PhotosSaid(kept, there)
	return p
}

// PhotosSaid says how many photos were kept, and how many of those that were
// sent were there already; "" when there is nothing to say.
func PhotosSaid(kept, there int) string {
	var said []string
	if kept > 0 {
		said = append(said, capital(counted(kept, "photo is kept.", "photos are kept.")))
	}
	if there > 0 {
		said = append(said, capital(counted(there, "photo was there already.", "photos were there already.")))
	}
	return strings.Join(said, " ")
}

// TooMuchSent says that a post of photos was longer than it may be; most is
// in MB. name is the picture that it broke off in, "" between two.
func TooMuchSent(name string, most int) string {
	lost := "The rest was not kept"
	if name != "" {
		lost = name + " and what comes after it were not kept"
	}
	return lost + ": together the pictures are larger than the " + strconv.Itoa(most) + " MB that can be sent at once. Send fewer at a time."
}

// NotKept says why one of several photos was not kept; a phone's camera gives
// no name worth repeating.
func NotKept(name, why string) string {
	if name == "" {
		name = "One picture"
	}
	return name + " was not kept. " + why
}

// PhotoPage shows one photo large.
type PhotoPage struct {
	Kicker, Title, Name string
	Gone                string
	Src, Alt            string
	Width, Height       string // px
	Facts               []ui.Fact
	Acts                []ui.Action
	Before, After       string // pages of the neighbours, "" where there is none
	History             []ui.ChangeLine
}

// NewPhotoPage builds the page of a photo; around are the photos of the same
// candle or pour in order of time.
func NewPhotoPage(x journal.Photo, of PhotoSubject, around []journal.Photo, history []journal.Change, v View) PhotoPage {
	at := "/photos/" + idText(x.ID)
	p := PhotoPage{Title: capital(of.Name), Src: "/photos/files/" + x.Hash + ".jpg", Alt: capital(joinBy(": ", "photo of "+of.Name, x.Note)),
		Width: strconv.Itoa(x.Width), Height: strconv.Itoa(x.Height), Facts: photoPageFacts(x, of, v)}
	p.Acts = []ui.Action{{Text: noteAct(x), Href: at + "/edit"}, {Text: "Withdraw", Href: "/withdraw/photo/" + idText(x.ID)}}
	if of.Candle != 0 {
		p.Acts = append([]ui.Action{{Text: "Measure the pool", Href: at + "/measure"}}, p.Acts...)
	}
	if x.IsGone() {
		p.Gone = joinWords("Withdrawn "+v.Day(*x.Gone)+".", x.GoneWhy)
		p.Acts = []ui.Action{{Text: "Bring it back", Href: "/restore/photo/" + idText(x.ID), Post: true}}
	}
	for i, o := range around {
		if o.ID == x.ID && i > 0 {
			p.Before = "/photos/" + idText(around[i-1].ID)
		}
		if o.ID == x.ID && i < len(around)-1 {
			p.After = "/photos/" + idText(around[i+1].ID)
		}
	}
	p.History = changeLines(history, v, factsOf(photoFacts))
	return p
}

func noteAct(x journal.Photo) string {
	if x.Note == "" {
		return "Add a note"
	}
	return "Correct the note"
}

func photoPageFacts(x journal.Photo, of PhotoSubject, v View) []ui.Fact {
	l := factList{{Label: "Shows", Text: capital(of.Name), Href: of.Back}}
	l.text("Attached", v.Moment(x.At))
	l = append(l, ui.Fact{Label: "Size", Text: strconv.Itoa(x.Width) + " × " + strconv.Itoa(x.Height), Unit: "px"})
	l.text("Note", x.Note)
	return l
}

// photoFacts lists what can be corrected about a photo.
func photoFacts(x journal.Photo) []ui.Fact {
	var l factList
	l.text("Note", x.Note)
	l.text("Marks", marksText(x.Marks))
	return l
}

// marksText says what was marked on a photo.
func marksText(m journal.PhotoMarks) string {
	if !m.Any() {
		return ""
	}
	return strconv.Itoa(len(m.Wall)) + " on the wall, " + strconv.Itoa(len(m.Pool)) + " on the pool's edge"
}

// PhotoValues writes a photo into the boxes of its form.
func PhotoValues(x journal.Photo) url.Values { return url.Values{"note": {x.Note}} }

// PhotoForm is the form of a photo's note.
func PhotoForm(in Input, x journal.Photo) ui.Form {
	at := "/photos/" + idText(x.ID)
	return in.Form(ui.Form{Action: at + "/edit", Draft: at + "/edit", Cancel: at, Submit: "Save the note",
		Groups: []ui.Group{{Fields: []ui.Field{in.Area("note", "Note", focus)}}}})
}

// PhotoFormTitle names the page of that form.
func PhotoFormTitle(of PhotoSubject) string { return "Note on a photo of " + of.Name }

// WithdrawablePhoto is a photo.
func WithdrawablePhoto(x journal.Photo, of PhotoSubject) Withdrawable {
	return Withdrawable{journal.NounPhoto, x.ID, "Withdraw this photo of " + of.Name + "?",
		"It is shown no more, but stays on record and can be brought back.",
		"Withdraw it", "The photo is withdrawn.", "/photos/" + idText(x.ID)}
}
