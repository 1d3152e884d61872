package server

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"strings"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"
	"github.com/google/uuid"

	"rimward/internal/journal"
	"rimward/web/page"
	"rimward/web/ui"
)

// handler is an ordinary handler that returns what went wrong.
type handler func(w http.ResponseWriter, r *http.Request) error

// handle turns a handler's error into the error page.
func (s *Server) handle(h handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if err := h(w, r); err != nil {
			s.sendError(w, r, err)
		}
	}
}

// sendError sends the page for an error. It never shows the error's own text
// unless that was written for people.
func (s *Server) sendError(w http.ResponseWriter, r *http.Request, err error) {
	status := statusOf(err)
	if status == 0 {
		return
	}
	id := middleware.GetReqID(r.Context())
	if status >= 500 {
		s.log.Error("failed", "id", id, "path", r.URL.Path, "err", err)
	}
	frame := s.frame(r, journal.DefaultSettings(), "That did not work", "")
	if rerr := s.render(w, r, status, frame, page.Error(sentenceFor(status, err), id)); rerr != nil {
		http.Error(w, sentenceFor(status, err), status)
	}
}

// frame is the layout's part of a page.
func (s *Server) frame(r *http.Request, set journal.Settings, title, section string) ui.Page {
	now := s.now()
	return ui.Page{
		Title: title, Section: section, Scheme: string(set.Scheme), Demo: s.demo,
		Clock: now.In(set.Zone()).Format("Mon 2 Jan, 15:04"), Now: strconv.FormatInt(now.UnixMilli(), 10), Zone: set.Zone().String(),
		Style: s.files.Path("rimward.css"), Script: s.files.Path("rimward.js"), Icon: s.files.Path("icon.svg"),
	}
}

// render sends a whole page or none: it is finished before the first byte
// leaves.
func (s *Server) render(w http.ResponseWriter, r *http.Request, status int, frame ui.Page, body templ.Component) error {
	frame.Flash, frame.Sent = s.takeFlash(w, r)
	var buf bytes.Buffer
	ctx := templ.WithChildren(r.Context(), body)
	if err := ui.Layout(frame).Render(ctx, &buf); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, err := w.Write(buf.Bytes())
	if err != nil {
		s.log.Info("page not delivered", "path", r.URL.Path, "err", err)
	}
	return nil
}

// renderBare sends a piece of a page.
func (s *Server) renderBare(w http.ResponseWriter, r *http.Request, body templ.Component) error {
	var buf bytes.Buffer
	if err := body.Render(r.Context(), &buf); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	if _, err := w.Write(buf.Bytes()); err != nil {
		s.log.Info("piece not delivered", "path", r.URL.Path, "err", err)
	}
	return nil
}

// flash is what the next page says, and the tokens of the forms that were
// saved, so that the browser may drop their drafts.
type flash struct {
	Text string   `json:"t"`
	Sent []string `json:"s,omitempty"`
}

const flashCookie = "rimward_said"

// redirect sends the browser on after something was saved.
func (s *Server) redirect(w http.ResponseWriter, r *http.Request, to, text string, sent ...string) {
	b, _ := json.Marshal(flash{text, sent})
	http.SetCookie(w, &http.Cookie{Name: flashCookie, Value: base64.RawURLEncoding.EncodeToString(b), Path: "/",
		HttpOnly: true, SameSite: http.SameSiteLaxMode, MaxAge: 120})
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// takeFlash reads what was to be said once, and forgets it.
func (s *Server) takeFlash(w http.ResponseWriter, r *http.Request) (text, sent string) {
	c, err := r.Cookie(flashCookie)
	if err != nil {
		return "", ""
	}
	http.SetCookie(w, &http.Cookie{Name: flashCookie, Path: "/", MaxAge: -1, HttpOnly: true, SameSite: http.SameSiteLaxMode})
	var f flash
	b, err := base64.RawURLEncoding.DecodeString(c.Value)
	if err != nil || json.Unmarshal(b, &f) != nil {
		return "", ""
	}
	return f.Text, strings.Join(f.Sent, " ")
}

// pathID reads a record's ID from the address; anything but a number is a
// record that does not exist.
func pathID(r *http.Request, name string) (journal.ID, error) {
	n, err := strconv.ParseInt(chi.URLParam(r, name), 10, 64)
	if err != nil || n < 1 {
		return 0, journal.ErrNotFound
	}
	return journal.ID(n), nil
}

// queryID reads an ID from the query; 0 when it is missing or unreadable.
func queryID(r *http.Request, name string) journal.ID {
	n, err := strconv.ParseInt(r.URL.Query().Get(name), 10, 64)
	if err != nil || n < 1 {
		return 0
	}
	return journal.ID(n)
}

func newToken() string { return uuid.NewString() }

// readForm parses the posted form, whatever its size limit says.
func readForm(r *http.Request) error {
	err := r.ParseForm()
	var tooLarge *http.MaxBytesError
	if err != nil && !errors.As(err, &tooLarge) {
		return errBadRequest
	}
	return err
}

// idText writes an ID into an address.
func idText(id journal.ID) string { return strconv.FormatInt(int64(id), 10) }
