package page

import (
	"net/url"
	"strconv"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/web/ui"
)

// MeasurePage marks the wall and the pool on a photo and shows what follows.
type MeasurePage struct {
	Title, Lede string
	Back        ui.Item
	Refused     string // why this photo cannot be measured; "" where it can
	Picture     MeasurePicture
	Lines       []MeasureLine
	Say         string // what to mark now
	Problem     string // why the place that was pointed at was not marked
	Wrong       []string
	Form        MeasureForm
	Zooms       []MeasureLine
	Undo, Clear string // addresses, "" where there is nothing to take back
	Next        string // the address of the other line, "" until this one has enough
	Results     MeasureResults
	Keep        *MeasureKeep // nil where there is nothing to keep
}

// MeasurePicture is the photo with what was marked drawn over it.
type MeasurePicture struct {
	Src, Alt, Box string
	Width, Height string // px on the page
	Real          string // px of the photo across
	Fits          bool   // it may shrink with the page
	Marks         []MeasureMark
	Rings         []MeasureRing
}

// MeasureMark is a mark as a cross.
type MeasureMark struct{ Path, Class string }

// MeasureRing is a fitted ellipse.
type MeasureRing struct{ CX, CY, RX, RY, Turn, Class string }

// MeasureLine is a choice between lines or sizes.
type MeasureLine struct {
	Text, More, Href string
	Now              bool
}

// MeasureForm carries what the next mark is added to.
type MeasureForm struct {
	Action, Label string
	Hidden        []ui.Hidden
	X, Y          string
	Problem       string // why the place that was typed was not marked
	Across, Down  string // how far the picture goes, px
}

// MeasureKeep keeps the marks, and leads to the check.
type MeasureKeep struct {
	Action   string
	Hidden   []ui.Hidden
	ForCheck bool
}

// Measuring is all that the page of a measurement is built from.
type Measuring struct {
	Photo  journal.Photo
	Of     PhotoSubject
	Vessel journal.Vessel
	Input  form.MarksInput
	Send   Input // what came back of keeping it, or its token
	View   View
}

// NewMeasurePage builds the page.
func NewMeasurePage(m Measuring) MeasurePage {
	p := MeasurePage{Title: "Measure the pool", Back: ui.Item{Text: "Back to the photo", Href: m.at()}, Refused: m.refused(),
		Lede: capital(m.Of.Name) + ", in " + m.Vessel.Name + ", " + wallText(m.Vessel, m.View) + " inside."}
	if p.Refused != "" {
		return p
	}
	p.Picture, p.Lines, p.Say, p.Form, p.Zooms = m.picture(), m.lines(), m.say(), m.form(), m.zooms()
	if p.Problem = m.Input.Problem; p.Form.X != "" || p.Form.Y != "" {
		p.Problem, p.Form.Problem = "", m.Input.Problem
	}
	for _, w := range m.Send.Problems {
		p.Wrong = append(p.Wrong, w.Text)
	}
	p.Undo, p.Clear, p.Next = m.undo(), m.clear(), m.next()
	p.Results = m.results()
	if m.Input.Marks.Any() && !m.Photo.IsGone() {
		p.Keep = m.keep(p.Results)
	}
	return p
}

// at is the address of the photo.
func (m Measuring) at() string { return "/photos/" + idText(m.Photo.ID) }

// refused says why a photo cannot be measured.
func (m Measuring) refused() string {
	if m.Vessel.Shape == journal.Round || m.Vessel.Shape == journal.Oval {
		return ""
	}
	return "A pool is measured from a photo by the outline of its vessel, and only round and oval walls can be fitted. " +
		m.Vessel.Name + " is " + string(m.Vessel.Shape) + ": lay a ruler along its length and across, and write both widths into the check."
}

// MeasureHref is the address at which the marking of a photo stands as it does
// now.
func MeasureHref(photo journal.ID, in form.MarksInput) string {
	q := url.Values{"wall": {in.Marks.Wall.String()}, "pool": {in.Marks.Pool.String()}}
	if in.Pool {
		q.Set("line", "pool")
	}
	if in.Shown != 0 {
		q.Set("shown", strconv.Itoa(in.Shown))
	}
	return "/photos/" + idText(photo) + "/measure?" + q.Encode()
}

// href is the address after a change.
func (m Measuring) href(change func(*form.MarksInput)) string {
	in := m.Input
	change(&in)
	return MeasureHref(m.Photo.ID, in)
}

// enough is how many marks a line wants: two more than an ellipse needs.
const enough = 8

func (m Measuring) lines() []MeasureLine {
	line := func(name string, n int, pool bool) MeasureLine {
		return MeasureLine{Text: name, More: counted(n, "mark", "marks"), Now: m.Input.Pool == pool,
			Href: m.href(func(in *form.MarksInput) { in.Pool = pool })}
	}
	return []MeasureLine{line("The wall", len(m.Input.Marks.Wall), false), line("The pool", len(m.Input.Marks.Pool), true)}
}

// say is what to mark now.
func (m Measuring) say() string {
	switch {
	case m.Input.Pool:
		return "Mark the edge where melted wax meets solid wax: eight marks or more, well spread all round."
	case m.Vessel.Shape == journal.Oval:
		return "Mark the inner wall where the wax meets it. Begin at one end of the vessel's length; then seven marks or more, well spread all round."
	}
	return "Mark the inner wall where the wax meets it: eight marks or more, well spread all round."
}

func (m Measuring) undo() string {
	if len(*m.Input.Line()) == 0 {
		return ""
	}
	return m.href(func(in *form.MarksInput) { l := in.Line(); *l = (*l)[:len(*l)-1] })
}

func (m Measuring) clear() string {
	if len(*m.Input.Line()) == 0 {
		return ""
	}
	return m.href(func(in *form.MarksInput) { *in.Line() = nil })
}

func (m Measuring) next() string {
	if m.Input.Pool || len(m.Input.Marks.Wall) < enough || len(m.Input.Marks.Pool) >= enough {
		return ""
	}
	return m.href(func(in *form.MarksInput) { in.Pool = true })
}

func (m Measuring) zooms() []MeasureLine {
	var out []MeasureLine
	for i, text := range []string{"Fit", "Larger", "Largest"} {
		shown := 0
		if i > 0 {
			shown = form.PictureWidths[i]
		}
		out = append(out, MeasureLine{Text: text, Now: m.Input.Shown == shown, Href: m.href(func(in *form.MarksInput) { in.Shown = shown })})
	}
	return out
}

func (m Measuring) form() MeasureForm {
	in := m.Input
	f := MeasureForm{Action: m.at() + "/measure", Label: "Put a mark on the wall", X: in.X, Y: in.Y,
		Across: strconv.Itoa(m.Photo.Width), Down: strconv.Itoa(m.Photo.Height), Hidden: m.hidden()}
	if in.Pool {
		f.Label = "Put a mark on the pool's edge"
		f.Hidden = append(f.Hidden, ui.Hidden{Name: "line", Value: "pool"})
	}
	if in.Shown != 0 {
		f.Hidden = append(f.Hidden, ui.Hidden{Name: "shown", Value: strconv.Itoa(in.Shown)})
	}
	return f
}

func (m Measuring) hidden() []ui.Hidden {
	return []ui.Hidden{{Name: "wall", Value: m.Input.Marks.Wall.String()}, {Name: "pool", Value: m.Input.Marks.Pool.String()}}
}

// keep is the form that keeps the marks.
func (m Measuring) keep(r MeasureResults) *MeasureKeep {
	k := &MeasureKeep{Action: m.at() + "/measure", Hidden: append(m.hidden(), ui.Hidden{Name: "token", Value: m.Send.Token},
		ui.Hidden{Name: "version", Value: m.Send.Version})}
	k.ForCheck = m.Of.Of == journal.NounCheck && !m.Of.Gone && len(r.Facts) > 0
	return k
}

// vessel is the wall as the measurement knows it.
func (m Measuring) vessel() meltpool.Vessel {
	return meltpool.Vessel{Length: m.Vessel.Length(), Width: m.Vessel.InnerWidth}
}
