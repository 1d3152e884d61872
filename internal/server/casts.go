package server

import (
	"context"
	"net/http"
	"net/url"
	"time"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
	"rimward/web/ui"
)

// castRoutes are the addresses of moulds and of what comes out of them.
func (s *Server) castRoutes(r chi.Router) {
	mount(s, r, s.mouldKind())
	r.Get("/casts", s.visited(s.showCasts))
	r.Get("/pours/{id}/casts/new", s.visited(s.newCast))
	r.Post("/pours/{id}/casts/new", s.visited(s.saveNewCast))
	r.Get("/casts/{id}", s.visited(s.showCast))
	r.Get("/casts/{id}/edit", s.visited(s.editCast))
	r.Post("/casts/{id}/edit", s.visited(s.saveCast))
	r.Get("/casts/{id}/out", s.visited(s.newTakeOut))
	r.Post("/casts/{id}/out", s.visited(s.saveTakeOut))
}

func (s *Server) mouldKind() shelfKind[journal.Mould] {
	return shelfKind[journal.Mould]{
		noun: journal.NounMould, base: "/shelf/moulds", one: "mould", load: s.store.Mould,
		read:   func(p *form.Parser) journal.Mould { return form.ReadMould(p).Mould() },
		meta:   func(x *journal.Mould) *journal.Meta { return &x.Meta },
		save:   func(tx *sqlite.Tx, x *journal.Mould, _ url.Values) error { return tx.SaveMould(x) },
		values: page.MouldValues,
		form:   func(in page.Input, a, c string, _ bool) ui.Form { return page.MouldForm(in, a, c) },
		show: func(ctx context.Context, v page.View, x journal.Mould, u journal.Use, h []journal.Change) (string, templ.Component, error) {
			lines, err := s.store.Casts(ctx, journal.CastFilter{Mould: x.ID})
			return x.Name, page.Mould(page.NewMouldPage(x, lines, u, h, v)), err
		},
	}
}

// showCasts says how moulds let go, wax by wax.
func (s *Server) showCasts(w http.ResponseWriter, r *http.Request, v visit) error {
	lines, err := s.store.Casts(r.Context(), journal.CastFilter{})
	if err != nil {
		return err
	}
	moulds, err := s.store.Moulds(r.Context())
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "How moulds let go", "pours"), page.Casts(page.NewCastsPage(lines, moulds, v.view)))
}

// castPart is the part of a pour's page about its moulded pieces.
func (s *Server) castPart(ctx context.Context, p journal.Pour, v visit) (page.CastPart, error) {
	lines, err := s.store.Casts(ctx, journal.CastFilter{Pour: p.ID, Withdrawn: true})
	return page.NewCastPart(p, lines, v.view), err
}

// castLine finds the cast that the address names.
func (s *Server) castLine(r *http.Request) (journal.CastLine, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.CastLine{}, err
	}
	return s.store.CastLine(r.Context(), id)
}

// showCast shows one cast.
func (s *Server) showCast(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.castLine(r)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	h, err := s.store.History(r.Context(), journal.NounCast, l.Cast.ID)
	if err != nil {
		return err
	}
	photos, err := s.store.PhotosOf(r.Context(), journal.NounCast, l.Cast.ID)
	if err != nil {
		return err
	}
	p := page.NewCastPage(l, photos, h, k, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.Cast(p))
}

// newCast shows the form of a cast of one pour.
func (s *Server) newCast(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.pour(r)
	if err != nil {
		return err
	}
	moulds, err := s.store.Moulds(r.Context())
	if err != nil {
		return err
	}
	p := page.NewCastForm(s.blank(v, page.NewCastValues(moulds, queryID(r, "mould"), v.view)), x, moulds, nil)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.CastForm(p))
}

// saveNewCast writes a cast down.
func (s *Server) saveNewCast(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.pour(r)
	if err != nil {
		return err
	}
	return s.submitCast(w, r, v, x, nil)
}

// editCast shows the form around what is recorded.
func (s *Server) editCast(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.castLine(r)
	if err != nil {
		return err
	}
	moulds, err := s.store.Moulds(r.Context())
	if err != nil {
		return err
	}
	p := page.NewCastForm(s.editing(v, page.CastValues(l.Cast, v.view), l.Cast.Version), l.Pour, moulds, &l.Cast)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.CastForm(p))
}

// saveCast corrects a cast.
func (s *Server) saveCast(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.castLine(r)
	if err != nil {
		return err
	}
	return s.submitCast(w, r, v, l.Pour, &l.Cast)
}

// submitCast puts a posted cast on its way; old is nil for a new one.
func (s *Server) submitCast(w http.ResponseWriter, r *http.Request, v visit, pour journal.Pour, old *journal.Cast) error {
	moulds, err := s.store.Moulds(r.Context())
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	c := readCast(p, moulds, s.now().Truncate(time.Minute))
	c.Pour = pour.ID
	sub := submission{visit: v, parser: p, values: values, said: "The cast is saved."}
	if old != nil {
		c.Meta = old.Meta
		c.Version = postedVersion(values)
		sub.version = func() (int, error) { return old.Version, nil }
	}
	sub.save = func(tx *sqlite.Tx) (string, error) {
		y := c
		err := tx.SaveCast(&y)
		return "/casts/" + idText(y.ID), err
	}
	sub.back = func(in page.Input) (string, string, templ.Component, error) {
		f := page.NewCastForm(in, pour, moulds, old)
		return f.Title, "pours", page.CastForm(f), nil
	}
	return s.submit(w, r, sub)
}

// readCast reads a cast into the mould that was chosen.
func readCast(p *form.Parser, moulds []journal.Mould, now time.Time) journal.Cast {
	in := form.ReadCast(p, now)
	for _, m := range moulds {
		if in.Mould != nil && *in.Mould == m.ID {
			return in.Cast(m)
		}
	}
	if in.Mould != nil {
		p.Problem("mould", "Choose a mould from the list.")
	}
	return in.Cast(journal.Mould{})
}

// newTakeOut shows the chore of taking pieces out of their mould.
func (s *Server) newTakeOut(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.insideLine(r)
	if err != nil {
		return err
	}
	p := page.NewTakeOutPage(s.editing(v, page.TakeOutValues(l.Cast), l.Cast.Version), l, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.TakeOut(p))
}

// insideLine is a cast that must still be in its mould for the address to mean
// anything.
func (s *Server) insideLine(r *http.Request) (journal.CastLine, error) {
	l, err := s.castLine(r)
	if err == nil && l.Cast.Out != nil {
		err = journal.Invalid("", "These pieces are out of the mould already. How they came can be corrected from their page.")
	}
	return l, err
}

// saveTakeOut writes down how pieces came out of their mould.
func (s *Server) saveTakeOut(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.castLine(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	c := form.ReadTakeOut(p, l.Cast, s.now().Truncate(time.Minute))
	if !l.Counts() {
		p.Problem("", page.TakeOutAstray)
	}
	c.Version = postedVersion(values)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "How the pieces came out is saved.",
		version: func() (int, error) { return l.Cast.Version, nil },
		save:    func(tx *sqlite.Tx) (string, error) { x := c; return "/casts/" + idText(c.ID), tx.SaveCast(&x) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			f := page.NewTakeOutPage(in, l, v.view)
			return f.Title, "pours", page.TakeOut(f), nil
		},
	})
}
