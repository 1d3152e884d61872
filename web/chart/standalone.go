package chart

import (
	"context"
	_ "embed" // the style of a drawing on its own
	"encoding/xml"
	"io"
	"strings"

	"github.com/a-h/templ"
)

// ownStyle is what the page's stylesheet says of charts, in the colours of
// day. A test keeps the two together.
//
//go:embed standalone.css
var ownStyle string

// The margin about a drawing on its own, and the height of a line of its words.
const (
	margin   = 24.0
	ownLine  = 19.0
	ownTitle = 34.0
)

// Standalone is the wide layout of a chart as a drawing of its own, readable
// without the page: with its title, its caption and its style inside.
func Standalone(c Chart) templ.Component {
	return templ.ComponentFunc(func(ctx context.Context, w io.Writer) error {
		var inner strings.Builder
		if err := Draw(c.Wide).Render(ctx, &inner); err != nil {
			return err
		}
		_, err := io.WriteString(w, ownSheet(c, inner.String()))
		return err
	})
}

// ownSheet puts a drawing onto a sheet between its title and its caption.
func ownSheet(c Chart, inner string) string {
	lines := wrapped(c.Caption, c.Wide.wide)
	wide, foot := c.Wide.wide+2*margin, ownTitle+c.Wide.high+margin
	high := foot + ownLine*float64(len(lines)) + margin/2
	var b strings.Builder
	b.WriteString(xml.Header + `<svg xmlns="http://www.w3.org/2000/svg" width="` + px(wide) + `" height="` + px(high) + `" viewBox="0 0 ` + px(wide) + ` ` + px(high) + `">`)
	b.WriteString(`<style>` + ownStyle + `</style><rect class="sheet" width="` + px(wide) + `" height="` + px(high) + `"/>`)
	b.WriteString(ownText("sheet-title", margin, 28, c.Wide.Title))
	b.WriteString(`<g transform="translate(` + px(margin) + ` ` + px(ownTitle+8) + `)">` + sized(c.Wide, inner) + `</g>`)
	for i, l := range lines {
		b.WriteString(ownText("sheet-caption", margin, foot+ownLine*float64(i)+8, l))
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// sized gives the inner drawing its own size: without it, it would fill the
// sheet.
func sized(d Drawing, inner string) string {
	return strings.Replace(inner, "<svg ", `<svg width="`+px(d.wide)+`" height="`+px(d.high)+`" overflow="visible" `, 1)
}

// ownText is a line of words.
func ownText(class string, x, y float64, words string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(words)); err != nil {
		return "" // a strings.Builder does not fail
	}
	return `<text class="` + class + `" x="` + px(x) + `" y="` + px(y) + `">` + b.String() + `</text>`
}

// wrapped breaks words into lines of a breadth.
func wrapped(words string, room float64) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(words) {
		if line != "" && breadth(line+" "+w) > room {
			lines, line = append(lines, line), ""
		}
		line = joined(line, " ", w)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
