package server

import (
	"errors"
	"io/fs"
	"net/http"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// photoRoutes are the addresses of photos.
func (s *Server) photoRoutes(r chi.Router) {
	r.Get("/photos/new", s.visited(s.newPhotos))
	r.Post("/photos/new", s.visited(s.addPhotos))
	r.Get("/photos/files/{name}", s.handle(s.sendPhoto))
	r.Get("/photos/{id}", s.visited(s.showPhoto))
	r.Get("/photos/{id}/edit", s.visited(s.editPhoto))
	r.Post("/photos/{id}/edit", s.visited(s.savePhoto))
	r.Get("/photos/{id}/measure", s.visited(s.measurePhoto))
	r.Post("/photos/{id}/measure", s.visited(s.keepMarks))
}

// subject finds what photos of a kind show.
func (s *Server) subject(r *http.Request, of journal.Noun, id journal.ID) (page.PhotoSubject, error) {
	switch of {
	case journal.NounPour:
		p, err := s.store.Pour(r.Context(), id)
		return page.PourSubject(p), err
	case journal.NounCandle:
		c, err := s.store.Candle(r.Context(), id)
		return page.CandleSubject(c), err
	case journal.NounCast:
		l, err := s.store.CastLine(r.Context(), id)
		return page.CastSubject(l), err
	case journal.NounBurn:
		return s.burnSubject(r, id)
	case journal.NounCheck:
		k, err := s.store.Check(r.Context(), id)
		if err != nil {
			return page.PhotoSubject{}, err
		}
		return s.checkSubject(r, k)
	case journal.NounSetCheck:
		return s.setCheckSubject(r, id)
	}
	return page.PhotoSubject{}, journal.ErrNotFound
}

func (s *Server) burnSubject(r *http.Request, id journal.ID) (page.PhotoSubject, error) {
	b, err := s.store.BurnLog(r.Context(), id)
	if err != nil {
		return page.PhotoSubject{}, err
	}
	c, err := s.store.Candle(r.Context(), b.Burn.Candle)
	return page.BurnSubject(b, c), err
}

func (s *Server) checkSubject(r *http.Request, k journal.Check) (page.PhotoSubject, error) {
	b, err := s.store.BurnLog(r.Context(), k.Burn)
	if err != nil {
		return page.PhotoSubject{}, err
	}
	c, err := s.store.Candle(r.Context(), b.Burn.Candle)
	return page.CheckSubject(k, b, c), err
}

// photoPart is the part of a page about the photos of one thing.
func (s *Server) photoPart(r *http.Request, of journal.Noun, id journal.ID) (page.PhotoPart, error) {
	x, err := s.subject(r, of, id)
	if err != nil {
		return page.PhotoPart{}, err
	}
	list, err := s.store.PhotosOf(r.Context(), of, id)
	return page.NewPhotoPart(x, list), err
}

// sendPhoto sends a picture or a thumbnail. Its name is the hash of its
// content, so that a browser may keep it for ever.
func (s *Server) sendPhoto(w http.ResponseWriter, r *http.Request) error {
	name := chi.URLParam(r, "name")
	file, err := s.photos.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return journal.ErrNotFound
	}
	if err != nil {
		return err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "image/jpeg")
	w.Header().Set("Cache-Control", longCache)
	w.Header().Set("ETag", `"`+name+`"`)
	http.ServeContent(w, r, name, info.ModTime(), file)
	return nil
}

// photo finds the photo that the address names, and what it shows.
func (s *Server) photo(r *http.Request) (journal.Photo, page.PhotoSubject, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.Photo{}, page.PhotoSubject{}, err
	}
	x, err := s.store.Photo(r.Context(), id)
	if err != nil {
		return x, page.PhotoSubject{}, err
	}
	of, err := s.subject(r, x.Of, x.OfID)
	return x, of, err
}

// showPhoto shows one photo with its neighbours.
func (s *Server) showPhoto(w http.ResponseWriter, r *http.Request, v visit) error {
	x, of, err := s.photo(r)
	if err != nil {
		return err
	}
	around, err := s.around(r, of)
	if err != nil {
		return err
	}
	h, err := s.store.History(r.Context(), journal.NounPhoto, x.ID)
	if err != nil {
		return err
	}
	p := page.NewPhotoPage(x, of, around, h, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Photo of "+of.Name, of.Section), page.Photo(p))
}

// around lists the photos of the same candle or pour.
func (s *Server) around(r *http.Request, of page.PhotoSubject) ([]journal.Photo, error) {
	if of.Candle == 0 {
		return s.store.PhotosOf(r.Context(), of.Of, of.ID)
	}
	return s.store.CandlePhotos(r.Context(), of.Candle)
}

// editPhoto shows the form of a photo's note.
func (s *Server) editPhoto(w http.ResponseWriter, r *http.Request, v visit) error {
	x, of, err := s.photo(r)
	if err != nil {
		return err
	}
	title := page.PhotoFormTitle(of)
	f := page.PhotoForm(s.editing(v, page.PhotoValues(x), x.Version), x)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, title, of.Section), page.FormOf(title, "", f))
}

// savePhoto corrects the note of a photo.
func (s *Server) savePhoto(w http.ResponseWriter, r *http.Request, v visit) error {
	old, of, err := s.photo(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x := old
	x.Note, x.Version = p.Text("note"), postedVersion(values)
	title := page.PhotoFormTitle(of)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The note is saved.",
		version: func() (int, error) { return old.Version, nil },
		save:    func(tx *sqlite.Tx) (string, error) { y := x; return "/photos/" + idText(x.ID), tx.SavePhoto(&y) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			return title, of.Section, page.FormOf(title, "", page.PhotoForm(in, old)), nil
		},
	})
}

// withdrawablePhoto names a photo before it is withdrawn.
func (s *Server) withdrawablePhoto(r *http.Request) (page.Withdrawable, error) {
	x, of, err := s.photo(r)
	return page.WithdrawablePhoto(x, of), err
}
