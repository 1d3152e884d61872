package server

import (
	"fmt"
	"io"
	"net/http"

	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
)

// errNoPage is an address that no page has.
var errNoPage = fmt.Errorf("find page: %w", journal.ErrNotFound)

// healthy answers while the journal can be read.
func (s *Server) healthy(w http.ResponseWriter, r *http.Request) error {
	if _, err := s.store.Revision(r.Context()); err != nil {
		return err
	}
	return sendText(w, http.StatusOK, "ok\n")
}

// pulse is the journal's revision, for pages that show what is lit.
func (s *Server) pulse(w http.ResponseWriter, r *http.Request) error {
	n, err := s.store.Revision(r.Context())
	if err != nil {
		return err
	}
	return sendText(w, http.StatusOK, fmt.Sprintln(n))
}

// understood says how a quantity would be read.
func (s *Server) understood(w http.ResponseWriter, r *http.Request) error {
	set, err := s.store.Settings(r.Context())
	if err != nil {
		return err
	}
	q := r.URL.Query()
	shown, problem := form.Understand(q.Get("kind"), q.Get("text"), set.Units)
	if problem != "" {
		return sendText(w, http.StatusUnprocessableEntity, problem)
	}
	return sendText(w, http.StatusOK, shown)
}

// receipt says whether a form with this token was saved.
func (s *Server) receipt(w http.ResponseWriter, r *http.Request) error {
	saved, err := s.store.Saved(r.Context(), chi.URLParam(r, "token"))
	if err != nil {
		return err
	}
	if !saved {
		return sendText(w, http.StatusNoContent, "")
	}
	return sendText(w, http.StatusOK, "saved\n")
}

func sendText(w http.ResponseWriter, status int, text string) error {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.WriteHeader(status)
	if text != "" {
		_, err := io.WriteString(w, text)
		return ignoreGone(err)
	}
	return nil
}
