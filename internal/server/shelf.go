package server

import (
	"context"
	"net/http"
	"net/url"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/web/page"
	"rimward/web/ui"
)

// shelfKind is one kind of thing on the shelf: how it is read, saved and shown.
// The four kinds differ in nothing else.
type shelfKind[T any] struct {
	noun   journal.Noun
	base   string // address of the kind
	one    string // what one of it is called in a sentence
	load   func(ctx context.Context, id journal.ID) (T, error)
	read   func(p *form.Parser) T
	meta   func(x *T) *journal.Meta
	save   func(tx *sqlite.Tx, x *T, values url.Values) error
	values func(x T, u quantity.Units) url.Values
	form   func(in page.Input, action, cancel string, fresh bool) ui.Form
	show   func(ctx context.Context, v page.View, x T, use journal.Use, h []journal.Change) (string, templ.Component, error)
}

// mount gives a kind its five addresses.
func mount[T any](s *Server, r chi.Router, k shelfKind[T]) {
	r.Get(k.base+"/new", s.visited(k.fresh(s)))
	r.Post(k.base+"/new", s.visited(k.post(s)))
	r.Get(k.base+"/{id}", s.visited(k.page(s)))
	r.Get(k.base+"/{id}/edit", s.visited(k.edit(s)))
	r.Post(k.base+"/{id}/edit", s.visited(k.post(s)))
}

// fresh shows the empty form.
func (k shelfKind[T]) fresh(s *Server) visiting {
	return func(w http.ResponseWriter, r *http.Request, v visit) error {
		f := k.form(s.blank(v, nil), k.base+"/new", "/shelf", true)
		return s.render(w, r, http.StatusOK, s.frame(r, v.set, "New "+k.one, "shelf"), page.FormOf("A new "+k.one, "", f))
	}
}

// edit shows the form around what is recorded.
func (k shelfKind[T]) edit(s *Server) visiting {
	return func(w http.ResponseWriter, r *http.Request, v visit) error {
		x, err := k.find(r)
		if err != nil {
			return err
		}
		m := k.meta(&x)
		at := k.at(m.ID)
		f := k.form(s.editing(v, k.values(x, v.set.Units), m.Version), at+"/edit", at, false)
		return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Correct a "+k.one, "shelf"), page.FormOf("Correct the "+k.one, correctLede, f))
	}
}

const correctLede = "What was there before is kept in the history."

func (k shelfKind[T]) at(id journal.ID) string { return k.base + "/" + idText(id) }

func (k shelfKind[T]) find(r *http.Request) (T, error) {
	id, err := pathID(r, "id")
	if err != nil {
		var none T
		return none, err
	}
	return k.load(r.Context(), id)
}

// post saves a new thing or a correction.
func (k shelfKind[T]) post(s *Server) visiting {
	return func(w http.ResponseWriter, r *http.Request, v visit) error {
		p, values, err := s.posted(r, v)
		if err != nil {
			return err
		}
		if chi.URLParam(r, "id") == "" {
			return s.submit(w, r, k.submission(v, p, values, nil))
		}
		old, err := k.find(r)
		if err != nil {
			return err
		}
		return s.submit(w, r, k.submission(v, p, values, &old))
	}
}

// submission puts a posted form of this kind on its way; old is nil for a new
// thing.
func (k shelfKind[T]) submission(v visit, p *form.Parser, values url.Values, old *T) submission {
	x := k.read(p)
	action, cancel, title, lede := k.base+"/new", "/shelf", "A new "+k.one, ""
	sub := submission{visit: v, parser: p, values: values, said: "The " + k.one + " is saved."}
	if old != nil {
		m := *k.meta(old)
		cancel = k.at(m.ID)
		action, title, lede = cancel+"/edit", "Correct the "+k.one, correctLede
		sub.version = func() (int, error) { return m.Version, nil }
		m.Version = postedVersion(values)
		*k.meta(&x) = m
	}
	sub.save = func(tx *sqlite.Tx) (string, error) {
		y := x
		err := k.save(tx, &y, values)
		return k.at(k.meta(&y).ID), err
	}
	sub.back = func(in page.Input) (string, string, templ.Component, error) {
		return title, "shelf", page.FormOf(title, lede, k.form(in, action, cancel, old == nil)), nil
	}
	return sub
}

// page shows one thing.
func (k shelfKind[T]) page(s *Server) visiting {
	return func(w http.ResponseWriter, r *http.Request, v visit) error {
		x, err := k.find(r)
		if err != nil {
			return err
		}
		id := k.meta(&x).ID
		use, err := s.store.Use(r.Context(), k.noun, id)
		if err != nil {
			return err
		}
		h, err := s.store.History(r.Context(), k.noun, id)
		if err != nil {
			return err
		}
		title, body, err := k.show(r.Context(), v.view, x, use, h)
		if err != nil {
			return err
		}
		return s.render(w, r, http.StatusOK, s.frame(r, v.set, title, "shelf"), body)
	}
}

// showShelf lists everything on the shelf.
func (s *Server) showShelf(w http.ResponseWriter, r *http.Request, v visit) error {
	sh, err := s.shelf(r.Context())
	if err != nil {
		return err
	}
	p := page.NewShelfPage(sh.Waxes, sh.Ladders, sh.Wicks, sh.Vessels, sh.Fragrances, v.view)
	p.Sections = append(p.Sections, page.MouldSection(sh.Moulds, v.view))
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Shelf", "shelf"), page.Shelf(p))
}

// shelf loads everything on the shelf: a few dozen rows at most.
func (s *Server) shelf(ctx context.Context) (page.Shelves, error) {
	var sh page.Shelves
	var err error
	if sh.Waxes, err = s.store.Waxes(ctx); err != nil {
		return sh, err
	}
	if sh.Ladders, err = s.store.Ladders(ctx); err != nil {
		return sh, err
	}
	if sh.Wicks, err = s.store.Wicks(ctx); err != nil {
		return sh, err
	}
	if sh.Vessels, err = s.store.Vessels(ctx); err != nil {
		return sh, err
	}
	if sh.Moulds, err = s.store.Moulds(ctx); err != nil {
		return sh, err
	}
	sh.Fragrances, err = s.store.Fragrances(ctx)
	return sh, err
}
