package server_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// Eight marks on each line of a picture of 64 by 48: a wall of radius 20, a pool
// of radius 15 about the same middle.
const (
	wallMarks = "52,24 44,40 32,44 16,36 12,24 20,8 32,4 48,12"
	poolMarks = "47,24 41,36 32,39 20,33 17,24 23,12 32,9 44,15"
)

func measureAt(pairs ...string) string { return "/photos/1/measure?" + formOf(nil, pairs...).Encode() }

func TestAPoolIsMarkedAndUsedForItsCheck(t *testing.T) {
	s := newCandleSite(t)
	s.checked()
	s.upload("check", 1, sentFile{"a.jpg", grey(10)})
	s.shows("/photos/1", 200, `href="/photos/1/measure"`, "Measure the pool")
	s.shows("/photos/1/measure", 200, "Mark the inner wall", "Not enough yet", `type="image"`, `width="64" height="48"`)

	// A click leads to the address with its mark, in a vessel of 76 mm.
	w := s.ask(measureAt("wall", "52,24", "pool", "", "at.x", "43", "at.y", "39"), nil)
	to, err := url.Parse(w.Header().Get("Location"))
	if err != nil || w.Code != http.StatusSeeOther || to.Query().Get("wall") != "52,24 43.5,39.5" {
		t.Errorf("a click leads to %v with %d", to, w.Code)
	}
	s.shows(measureAt("at.x", "0", "at.y", "0"), 422, "Point at a place on the picture")
	s.shows(measureAt("x", "70", "y", "3"), 422, "That place is not on the picture.", `value="70"`)
	s.shows(measureAt("wall", wallMarks, "pool", poolMarks), 200, "Longest way across", "57.0", "Use for the check", `rx="20"`, `rx="15"`)
	for _, wrong := range []string{"nowhere", "1,99", "1,1 2"} {
		s.shows(measureAt("wall", wrong), 400)
	}

	post := func(then string, change ...string) url.Values {
		return formOf(change, "token", "m-"+then, "version", "1", "wall", wallMarks, "pool", poolMarks, "then", then)
	}
	s.sendsOn("/photos/1/measure", post("check"), "/checks/1/edit?width_a=57&width_b=57")
	if m := s.rows(journal.NounCheck, 1)[0].Marks; m.Wall.String() != wallMarks || m.Pool.String() != poolMarks {
		t.Errorf("kept: %+v", m)
	}
	// The check was recorded as full: the offer takes the tick away.
	got := s.ask("/checks/1/edit?width_a=57&width_b=57", nil).Body.String()
	for _, want := range []string{`name="width_a" value="57"`, `name="width_b" value="57"`, "nothing is changed until you save"} {
		if !strings.Contains(got, want) {
			t.Errorf("the check's form lacks %q:\n%s", want, got)
		}
	}
	if i := strings.Index(got, `name="full"`); i < 0 || strings.Contains(got[i:i+strings.Index(got[i:], ">")], "checked") {
		t.Error("the tick of a full pool stands beside the widths")
	}
	s.shows("/photos/1", 200, "Marks: <del>not noted</del> → <ins>8 on the wall, 8 on the pool&#39;s edge</ins>")
	s.shows("/photos/1/measure", 200, "57.0") // the kept marks stand

	s.sendsBack("/photos/1/measure", post("photo", "token", "late", "wall", ""), 409, "changed meanwhile", `value="2"`)
	s.sendsOn("/photos/1/measure", post("photo", "version", "2", "pool", ""), "/photos/1")
	s.sendsOn("/photos/1/measure", post("check", "token", "full", "version", "3", "pool", wallMarks), "/checks/1/edit?full=1")
	s.sendsBack("/photos/1/measure", post("check", "token", "x", "wall", "99,99"), 400)
}

func TestOnlyPoolsInKnownWallsAreMeasured(t *testing.T) {
	s := newCandleSite(t)
	s.upload("pour", 1, sentFile{"a.jpg", grey(10)})
	s.upload("candle", 1, sentFile{"b.jpg", grey(20)})
	s.shows("/photos/1/measure", 404)
	s.shows("/photos/99/measure", 404)
	if w := s.ask("/photos/1", nil); strings.Contains(w.Body.String(), "Measure the pool") {
		t.Error("a pour's photo is offered to be measured")
	}
	// A photo of no check keeps its marks and leads back.
	s.sendsOn("/photos/2/measure", formOf(nil, "token", "k", "version", "1", "wall", wallMarks, "pool", poolMarks, "then", "check"), "/photos/2")
	v := s.Vessel
	v.Shape, v.InnerLength = journal.Irregular, &v.InnerWidth
	if err := s.store.Write(t.Context(), func(tx *sqlite.Tx) error { return tx.SaveVessel(&v) }); err != nil {
		t.Fatal(err)
	}
	s.shows("/photos/2/measure", 200, "only round and oval walls can be fitted")
}
