package form_test

import (
	"net/url"
	"strings"
	"testing"

	"rimward/internal/form"
	"rimward/internal/journal"
)

func TestMarksInAnAddress(t *testing.T) {
	p := journal.Photo{Width: 1600, Height: 1200, Marks: journal.PhotoMarks{Wall: journal.MarkLine{{X: 1, Y: 2}}}}
	for name, c := range map[string]struct {
		query      string
		wall, pool string
		problem    string
		added, ok  bool
	}{
		"nothing: the kept ones":          {"", "1,2", "", "", false, true},
		"lines in place of the kept":      {"pool=3,4+5.5,6", "", "3,4 5.5,6", "", false, true},
		"a click at half size":            {"at.x=400&at.y=300", "1,2 801,601", "", "", true, true},
		"a click at full size":            {"at.x=400&at.y=300&shown=1600&line=pool", "1,2", "400.5,300.5", "", true, true},
		"a click at one and a half":       {"at.x=1200&at.y=3&shown=2400&line=pool", "1,2", "800.3,2.3", "", true, true},
		"a click on the very edge":        {"at.x=799&at.y=599", "1,2 1599,1199", "", "", true, true},
		"a size that is not offered":      {"at.x=400&at.y=300&shown=7", "1,2 801,601", "", "", true, true},
		"Enter on the picture":            {"at.x=0&at.y=0", "1,2", "", "Point at a place", false, true},
		"typed":                           {"x=640&y=480,27&wall=&line=wall", "640,480.3", "", "", true, true},
		"half typed":                      {"x=640", "1,2", "", "Write both numbers", false, true},
		"typed beside the picture":        {"x=1601&y=3", "1,2", "", "not on the picture", false, true},
		"one too many":                    {"x=1&y=3&wall=" + strings.Repeat("5,5+", 60), strings.TrimSpace(strings.Repeat("5,5 ", 60)), "", "Sixty marks", false, true},
		"more than anybody was given":     {"wall=" + strings.Repeat("5,5+", 61), "", "", "", false, false},
		"beside the picture":              {"pool=1,1300", "", "", "", false, false},
		"no marks":                        {"wall=here", "", "", "", false, false},
		"both a click and typed: a click": {"at.x=400&at.y=300&x=&y=", "1,2 801,601", "", "", true, true},
	} {
		q, err := url.ParseQuery(c.query)
		if err != nil {
			t.Fatal(err)
		}
		in, ok := form.ReadMarks(q, p)
		if ok != c.ok {
			t.Errorf("%s: ok %v", name, ok)
		}
		if !ok {
			continue
		}
		if in.Marks.Wall.String() != c.wall || in.Marks.Pool.String() != c.pool || in.Added != c.added || (in.Problem == "") != (c.problem == "") || !strings.Contains(in.Problem, c.problem) {
			t.Errorf("%s: %q and %q, added %v, %q", name, in.Marks.Wall, in.Marks.Pool, in.Added, in.Problem)
		}
	}
	if p.Marks.Wall.String() != "1,2" {
		t.Error("the photo's own marks were changed")
	}
}
