package server

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// visit is what almost every handler starts from: the studio's settings and
// the view that follows from them.
type visit struct {
	set  journal.Settings
	view page.View
}

// visit loads the settings for one request.
func (s *Server) visit(r *http.Request) (visit, error) {
	set, err := s.store.Settings(r.Context())
	if err != nil {
		return visit{}, err
	}
	return visit{set, page.NewView(set, s.now())}, nil
}

// visiting is a handler that starts from a visit, as almost every one does.
type visiting func(w http.ResponseWriter, r *http.Request, v visit) error

// visited loads the settings, then calls the handler.
func (s *Server) visited(h visiting) http.HandlerFunc {
	return s.handle(func(w http.ResponseWriter, r *http.Request) error {
		v, err := s.visit(r)
		if err != nil {
			return err
		}
		return h(w, r, v)
	})
}

// blank is the input of a form that nobody has sent yet.
func (s *Server) blank(v visit, values url.Values) page.Input {
	if values == nil {
		values = url.Values{}
	}
	return page.Input{Values: values, Units: v.set.Units, Token: s.token()}
}

// editing is the input of a form that corrects a record.
func (s *Server) editing(v visit, values url.Values, version int) page.Input {
	in := s.blank(v, values)
	in.Version = strconv.Itoa(version)
	return in
}

// submission is one posted form on its way into the journal.
type submission struct {
	visit  visit
	parser *form.Parser
	values url.Values
	// doubts finds what is unlikely; asked only when nothing is wrong.
	doubts func() ([]journal.Doubt, error)
	// save writes it and returns where to go next.
	save func(tx *sqlite.Tx) (ref string, err error)
	// back builds the page again around what was typed.
	back func(in page.Input) (title, section string, body templ.Component, err error)
	said string
	// version reads the record's version now, for a form that met a
	// conflict; nil for new records.
	version func() (int, error)
}

// posted reads the posted form.
func (s *Server) posted(r *http.Request, v visit) (*form.Parser, url.Values, error) {
	if err := readForm(r); err != nil {
		return nil, nil, err
	}
	return form.NewParser(r.PostForm, v.set.Units, v.set.Zone()), r.PostForm, nil
}

// postedVersion is the version that the form was opened at.
func postedVersion(values url.Values) int {
	n, _ := strconv.Atoi(values.Get("version"))
	return n
}

// submit takes a form through the three kinds of "no", then saves it once.
func (s *Server) submit(w http.ResponseWriter, r *http.Request, sub submission) error {
	if sub.parser.Problems().Any() {
		return s.sendBack(w, r, sub, nil, http.StatusUnprocessableEntity)
	}
	if sub.doubts != nil {
		ds, err := sub.doubts()
		if err != nil {
			return err
		}
		if ds = unanswered(ds, sub.values["asked"]); len(ds) > 0 {
			return s.sendBack(w, r, sub, ds, http.StatusUnprocessableEntity)
		}
	}
	ref, again, err := s.store.Once(lasting(r), onceKey(sub.values), sub.save)
	if errors.Is(err, journal.ErrConflict) && sub.version != nil {
		return s.sendBack(w, r, sub, nil, http.StatusConflict)
	}
	if err = mergeRow(err, sub.parser); err != nil {
		return err
	}
	if sub.parser.Problems().Any() {
		return s.sendBack(w, r, sub, nil, http.StatusUnprocessableEntity)
	}
	said := sub.said
	if again {
		said = "That was saved already."
	}
	s.redirect(w, r, ref, said, sub.values.Get("token"))
	return nil
}

// conflictText is said when somebody else changed the record meanwhile.
const conflictText = "This was changed meanwhile, perhaps on another device. What you typed is kept below. Save again to put it in place of the other; the history keeps both."

// sendBack sends the form back whole, with what is wrong or asked.
func (s *Server) sendBack(w http.ResponseWriter, r *http.Request, sub submission, ds []journal.Doubt, status int) error {
	in := s.returned(sub.visit, sub.values, sub.parser.Problems(), ds)
	if status == http.StatusConflict {
		n, err := sub.version()
		if err != nil {
			return err
		}
		in.Version = strconv.Itoa(n)
		in.Problems = append(in.Problems, form.Problem{Text: conflictText})
	}
	title, section, body, err := sub.back(in)
	if err != nil {
		return err
	}
	return s.render(w, r, status, s.frame(r, sub.visit.set, title, section), body)
}

// returned is the input of a form that comes back.
func (s *Server) returned(v visit, values url.Values, ps form.Problems, ds []journal.Doubt) page.Input {
	return page.Input{Values: values, Problems: ps, Doubts: ds, Asked: values["asked"], Units: v.set.Units,
		Token: values.Get("token"), Version: values.Get("version"), Retried: true}
}

// unanswered drops the doubts that were asked before about the same entry.
func unanswered(ds []journal.Doubt, asked []string) []journal.Doubt {
	return slices.DeleteFunc(ds, func(d journal.Doubt) bool { return slices.Contains(asked, d.Key) })
}

// onceKey names one filling of one form. A double click sends the same token
// with the same content; going back and changing a number sends other content
// and is a saving of its own.
func onceKey(values url.Values) string {
	token := values.Get("token")
	if token == "" {
		return ""
	}
	content := url.Values{}
	for k, v := range values {
		if k != "token" && k != "asked" {
			content[k] = v
		}
	}
	sum := sha256.Sum256([]byte(content.Encode()))
	return token + ":" + hex.EncodeToString(sum[:8])
}
