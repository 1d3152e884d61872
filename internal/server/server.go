// Package server answers the browser: it finds the handler, calls the store
// and the pure packages, builds a page and sends it.
//
// It decides nothing of candles and does no sums; it refuses requests for
// other hosts and posts from other sites.
package server

import (
	"errors"
	"log/slog"
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"
	"rimward/internal/photo"
	"rimward/internal/sqlite"
	"rimward/internal/throw"
	"rimward/web"
)

// Options is what a server needs to know.
type Options struct {
	Store   *sqlite.Store
	Photos  *photo.Folder // where pictures lie; without one none can be added
	Now     func() time.Time
	Log     *slog.Logger
	Demo    bool
	Version string
	Hosts   []string // names that may stand in Host beside loopback
	Token   func() string
	Draw    throw.Draw // chance for the codes of smellings; required
}

// Server holds what handlers share.
type Server struct {
	store   *sqlite.Store
	now     func() time.Time
	log     *slog.Logger
	demo    bool
	version string
	hosts   map[string]bool
	files   *web.Files
	token   func() string
	scales  *scales
	moved   movedAnswers
	photos  *photo.Folder
	draw    throw.Draw
}

// New makes the handler for the whole program. It fails only when an embedded
// file or the chance for codes is missing.
func New(opt Options) (http.Handler, error) {
	if opt.Draw == nil {
		return nil, errors.New("serve pages: no chance was given to draw codes by")
	}
	files, err := web.Load()
	if err != nil {
		return nil, err
	}
	s := &Server{
		store: opt.Store, now: opt.Now, log: opt.Log, demo: opt.Demo,
		version: opt.Version, hosts: map[string]bool{}, files: files, token: opt.Token,
		scales: newScales(opt.Store, opt.Now, opt.Log), photos: opt.Photos, draw: opt.Draw,
	}
	if s.token == nil {
		s.token = newToken
	}
	for _, h := range opt.Hosts {
		s.hosts[h] = true
	}
	r := chi.NewRouter()
	s.use(r)
	s.routes(r)
	return r, nil
}
