package main

import (
	"fmt"
	"math"
	"strconv"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// walk moves the cross on the picture from one place to another, in steps of
// twenty pixels and of one.
func (t *tab) walk(from, to [2]int) {
	t.tb.Helper()
	for axis, keys := range [][2]string{{kb.ArrowLeft, kb.ArrowRight}, {kb.ArrowUp, kb.ArrowDown}} {
		d, key := to[axis]-from[axis], keys[1]
		if d < 0 {
			d, key = -d, keys[0]
		}
		for range d / 20 {
			t.must(chromedp.Do(t.ctx, chromedp.KeyEvent(key, chromedp.KeyModifiers(chromedp.ModifierShift))))
		}
		for range d % 20 {
			t.must(chromedp.Do(t.ctx, chromedp.KeyEvent(key)))
		}
	}
}

// roundPicture lists eight places on a circle about the middle of the drawn picture.
func roundPicture(radius float64) (out [][2]int) {
	for i := range 8 {
		s, c := math.Sincos(float64(i) * math.Pi / 4)
		out = append(out, [2]int{600 + int(math.Round(radius*c)), 450 + int(math.Round(radius*s))})
	}
	return out
}

// marked waits until the line that is marked now has so many marks.
func (t *tab) marked(words string) {
	t.tb.Helper()
	for end := time.Now().Add(8 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if js[string](t, `(document.querySelector(".gauge-choice [aria-current] small") || {}).innerText || ""`) == words {
			return
		}
	}
	t.tb.Fatalf("the line never had %s; the page says:\n%s", words, t.text())
}

var markWords = []string{"no marks", "one mark", "two marks", "three marks", "four marks", "five marks", "six marks", "seven marks", "eight marks"}

// A drawn pool of 520 px in a wall of 800 px is marked with the keyboard alone:
// 520/800 of 80 mm are 52 mm, and the check takes both widths.
func TestJourneyMeasure(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(2*time.Hour, s.shelved(1)...)
	s.seen(burns[0], s.now().Add(-time.Hour), 40)
	s.upload("check", 1, poolPicture(520))
	b := newTab(t, s.base(), laptop)
	b.open("/photos/1")
	b.click("Measure the pool")
	b.see("Mark the inner wall", "By keyboard")
	js[bool](b, `(document.querySelector("[data-measure-spot]").focus(), true)`)
	at := [2]int{600, 450}
	for _, radius := range []float64{400, 260} {
		for i, p := range roundPicture(radius) {
			b.walk(at, p)
			b.enter()
			b.marked(markWords[i+1])
			at = p
		}
		if radius == 400 {
			b.enter()
			b.marked("nine marks")
			b.press(kb.Backspace)
			b.marked("eight marks")
			js[bool](b, `(document.querySelector(".gauge-acts .main").click(), true)`)
			b.marked("no marks")
			js[bool](b, `(document.querySelector("[data-measure-spot]").focus(), true)`)
		}
	}
	b.see("Longest way across", "Wax left, narrowest")
	b.shot("measure")
	inner := 400.0 / float64(s.inner(t)) * 2 // px a millimetre
	want := strconv.FormatFloat(520/inner, 'f', 0, 64)
	address := b.path()
	b.open(address)
	b.marked("eight marks")
	b.click("Use for the check")
	b.see("The pool is filled in from the marks on the photo")
	for _, name := range []string{"width_a", "width_b"} {
		got, err := strconv.ParseFloat(b.value(name), 64)
		if err != nil || math.Abs(got-520/inner) > 0.3 {
			t.Errorf("%s is filled in with %q, want about %s", name, b.value(name), want)
		}
	}
	b.click("Save the check")
	b.see("The check is saved")
	k := checksOf(t, s, burns[0].ID)[0]
	if k.WidthA == nil || math.Abs(float64(*k.WidthA)-520/inner) > 0.3 || k.WidthB == nil {
		t.Errorf("the journal has %+v", k)
	}
}

// inner is the vessel's inner width, mm.
func (s *studio) inner(t *testing.T) float64 {
	t.Helper()
	l, err := s.store.CandleLog(t.Context(), 1)
	if err != nil {
		t.Fatal(err)
	}
	return float64(l.Vessel.InnerWidth)
}

// touch puts a finger down, draws it along and lifts it, in px of the window.
func (t *tab) touch(points ...[2]float64) {
	t.tb.Helper()
	send := func(kind input.DispatchTouchEventType, at ...[2]float64) {
		var list []*input.TouchPoint
		for _, p := range at {
			list = append(list, &input.TouchPoint{X: p[0], Y: p[1]})
		}
		_, err := chromedp.Call(t.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: list})
		t.must(err)
	}
	send("touchStart", points[0])
	for _, p := range points[1:] {
		send("touchMove", p)
	}
	send("touchEnd")
}

// On a phone a finger that is drawn moves the place a third as far, so that it
// can be put to a pixel or two of the photo; and without script every click is
// a mark.
func TestJourneyMeasureOnAPhone(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(2*time.Hour, s.shelved(1)...)
	s.seen(burns[0], s.now().Add(-time.Hour), 40)
	s.upload("check", 1, poolPicture(520))
	b := newTab(t, s.base(), phone)
	b.open("/photos/1/measure")
	b.see("By touch")
	box := js[[]float64](b, `(() => { const s = document.querySelector("[data-measure-spot]"); s.scrollIntoView({block: "center"}); const r = s.getBoundingClientRect(); return [r.left, r.top, r.width, r.height] })()`)
	if box[0] < 0 || box[0]+box[2] > 391 {
		t.Errorf("the picture lies at %v", box)
	}
	x, y := box[0]+100, box[1]+80
	b.touch([2]float64{x, y}, [2]float64{x + 15, y}, [2]float64{x + 30, y - 12})
	b.marked("one mark")
	scale := 1200 / box[2]
	want := fmt.Sprintf("%.0f,%.0f", (100+10)*scale, (80-4)*scale)
	if got := js[string](b, `new URLSearchParams(location.search).get("wall").split(",").map(v => Math.round(v)).join(",")`); got != want {
		t.Errorf("the mark is at %s, want %s", got, want)
	}
	if js[bool](b, `!!document.querySelector(".gauge-glass")`) {
		t.Error("the glass stays")
	}
	b.shot("measure-phone")

	plain := phone
	plain.noScript = true
	b = newTab(t, s.base(), plain)
	b.open("/photos/1/measure")
	at := js[[]float64](b, `(() => { const r = document.querySelector("[data-measure-spot]").getBoundingClientRect(); return [r.left, r.top, r.width] })()`)
	if at[2] != 800 {
		t.Errorf("without script the picture is %v px wide", at[2])
	}
	b.leaving(func() { b.must(chromedp.Do(b.ctx, chromedp.MouseClickXY(at[0]+200, at[1]+100))) })
	b.marked("one mark")
	if got := js[string](b, `new URLSearchParams(location.search).get("wall")`); got != "300.8,150.8" {
		t.Errorf("without script the mark is at %s", got)
	}
}

// The page of a measurement in every state, as all other pages are looked at.
func TestPagesOfMeasuring(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(2*time.Hour, s.shelved(1)...)
	s.seen(burns[0], s.now().Add(-time.Hour), 40)
	s.upload("check", 1, poolPicture(520))
	line := func(radius float64) (out string) {
		for _, p := range roundPicture(radius) {
			out += fmt.Sprintf("%d,%d+", p[0], p[1])
		}
		return out
	}
	lookAt(t, s, "measure", []string{"/photos/1/measure", "/photos/1/measure?x=9999", "/photos/1/measure?wall=" + line(400),
		"/photos/1/measure?line=pool&wall=" + line(400) + "&pool=" + line(260), "/photos/1/measure?shown=1600&wall=" + line(400) + "&pool=" + line(400)})
}
