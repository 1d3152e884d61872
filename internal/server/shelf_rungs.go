package server

import (
	"net/http"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// rungs is what the forms of one ladder's rungs need.
type rungs struct {
	visit
	ladder journal.Ladder
	wicks  []journal.Wick
	base   string
}

func (s *Server) rungsOf(r *http.Request) (rungs, error) {
	v, err := s.visit(r)
	if err != nil {
		return rungs{}, err
	}
	id, err := pathID(r, "id")
	if err != nil {
		return rungs{}, err
	}
	l, err := s.store.Ladder(r.Context(), id)
	if err != nil {
		return rungs{}, err
	}
	wicks, err := s.store.WicksOf(r.Context(), id)
	return rungs{v, l, wicks, "/shelf/ladders/" + idText(id)}, err
}

// wick finds the rung that the address names, on this ladder.
func (g rungs) wick(r *http.Request) (journal.Wick, error) {
	id, err := pathID(r, "wick")
	if err != nil {
		return journal.Wick{}, err
	}
	for _, w := range g.wicks {
		if w.ID == id {
			return w, nil
		}
	}
	return journal.Wick{}, journal.ErrNotFound
}

// others are the rungs that another can stand above.
func (g rungs) others(w journal.ID) []journal.Wick {
	var out []journal.Wick
	for _, o := range g.wicks {
		if o.ID != w {
			out = append(out, o)
		}
	}
	return out
}

// newRung shows the form of a new rung, on top of the ladder unless moved.
func (s *Server) newRung(w http.ResponseWriter, r *http.Request) error {
	g, err := s.rungsOf(r)
	if err != nil {
		return err
	}
	values := page.WickValues(journal.Wick{Rung: len(g.wicks) + 1}, g.set.Units)
	f := page.WickForm(s.blank(g.visit, values), g.base+"/rungs/new", g.base, g.wicks)
	return s.render(w, r, http.StatusOK, s.frame(r, g.set, "New rung", "shelf"), page.FormOf("A new rung of "+g.ladder.Name, "", f))
}

// saveNewRung puts a rung on the ladder; those above move up by one.
func (s *Server) saveNewRung(w http.ResponseWriter, r *http.Request) error {
	g, err := s.rungsOf(r)
	if err != nil {
		return err
	}
	return s.submitRung(w, r, g, journal.Wick{Ladder: g.ladder.ID}, g.base+"/rungs/new", "A new rung of "+g.ladder.Name)
}

// showRung shows one wick.
func (s *Server) showRung(w http.ResponseWriter, r *http.Request) error {
	g, err := s.rungsOf(r)
	if err != nil {
		return err
	}
	x, err := g.wick(r)
	if err != nil {
		return err
	}
	use, err := s.store.Use(r.Context(), journal.NounWick, x.ID)
	if err != nil {
		return err
	}
	h, err := s.store.History(r.Context(), journal.NounWick, x.ID)
	if err != nil {
		return err
	}
	p := page.NewWickPage(x, g.ladder, use, h, g.view)
	if err := s.showPiecesTaken(r.Context(), &p, journal.NounWick, x.ID, x.Stock); err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, g.set, p.Title, "shelf"), page.Thing(p))
}

// editRung shows the form of a rung around what is recorded.
func (s *Server) editRung(w http.ResponseWriter, r *http.Request) error {
	g, err := s.rungsOf(r)
	if err != nil {
		return err
	}
	x, err := g.wick(r)
	if err != nil {
		return err
	}
	at := g.base + "/rungs/" + idText(x.ID)
	f := page.WickForm(s.editing(g.visit, page.WickValues(x, g.set.Units), x.Version), at+"/edit", at, g.others(x.ID))
	return s.render(w, r, http.StatusOK, s.frame(r, g.set, "Correct a rung", "shelf"), page.FormOf("Correct the rung", correctLede, f))
}

// saveRung corrects a rung.
func (s *Server) saveRung(w http.ResponseWriter, r *http.Request) error {
	g, err := s.rungsOf(r)
	if err != nil {
		return err
	}
	x, err := g.wick(r)
	if err != nil {
		return err
	}
	return s.submitRung(w, r, g, x, g.base+"/rungs/"+idText(x.ID)+"/edit", "Correct the rung")
}

// submitRung puts a posted rung on its way; old has no ID when it is new.
func (s *Server) submitRung(w http.ResponseWriter, r *http.Request, g rungs, old journal.Wick, action, title string) error {
	p, values, err := s.posted(r, g.visit)
	if err != nil {
		return err
	}
	x := form.ReadWick(p).Wick()
	x.Ladder, x.Meta = g.ladder.ID, old.Meta
	sub := submission{visit: g.visit, parser: p, values: values, said: "The rung is saved."}
	if old.ID != 0 {
		x.Version = postedVersion(values)
		sub.version = func() (int, error) { return old.Version, nil }
	}
	sub.save = func(tx *sqlite.Tx) (string, error) {
		y := x
		if y.ID != 0 {
			y.Rung = old.Rung
		}
		recounted(&y.Stock, values, tx)
		if err := tx.SaveWick(&y); err != nil {
			return "", err
		}
		if y.ID != 0 && x.ID != 0 && x.Rung != 0 && x.Rung != old.Rung {
			return g.base, tx.MoveWick(y.ID, placeAfterLeaving(x.Rung, old.Rung))
		}
		return g.base, nil
	}
	sub.back = func(in page.Input) (string, string, templ.Component, error) {
		return title, "shelf", page.FormOf(title, "", page.WickForm(in, action, g.base, g.others(x.ID))), nil
	}
	return s.submit(w, r, sub)
}

// placeAfterLeaving is the rung to move to when the wanted place was counted
// with the wick still on its old rung.
func placeAfterLeaving(want, old int) int {
	if want > old {
		return want - 1
	}
	return want
}

// moveRung moves a rung up or down by a button.
func (s *Server) moveRung(w http.ResponseWriter, r *http.Request) error {
	g, err := s.rungsOf(r)
	if err != nil {
		return err
	}
	x, err := g.wick(r)
	if err != nil {
		return err
	}
	p, _, err := s.posted(r, g.visit)
	if err != nil {
		return err
	}
	to := p.Count("rung")
	if to == nil {
		return errBadRequest
	}
	if err := s.store.Write(lasting(r), func(tx *sqlite.Tx) error { return tx.MoveWick(x.ID, *to) }); err != nil {
		return err
	}
	s.redirect(w, r, g.base, g.ladder.Name+" "+x.Label+" was moved.")
	return nil
}
