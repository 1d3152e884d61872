package server

import (
	"net/http"

	"github.com/go-chi/chi/v5"
)

// routes lists every address, one line each.
func (s *Server) routes(r chi.Router) {
	r.NotFound(s.handle(func(http.ResponseWriter, *http.Request) error { return errNoPage }))
	r.MethodNotAllowed(s.handle(func(http.ResponseWriter, *http.Request) error { return errNoPage }))

	r.Get("/healthz", s.handle(s.healthy))
	r.Get("/static/*", s.handle(s.sendFile))
	r.Get("/favicon.ico", s.handle(s.sendIcon))

	r.Get("/understood", s.handle(s.understood))
	r.Get("/pulse", s.handle(s.pulse))
	r.Get("/receipts/{token}", s.handle(s.receipt))

	r.Get("/shelf", s.visited(s.showShelf))
	mount(s, r, s.waxKind())
	mount(s, r, s.fragranceKind())
	mount(s, r, s.vesselKind())
	mount(s, r, s.ladderKind())
	r.Get("/shelf/ladders/{id}/rungs/new", s.handle(s.newRung))
	r.Post("/shelf/ladders/{id}/rungs/new", s.handle(s.saveNewRung))
	r.Get("/shelf/ladders/{id}/rungs/{wick}", s.handle(s.showRung))
	r.Get("/shelf/ladders/{id}/rungs/{wick}/edit", s.handle(s.editRung))
	r.Post("/shelf/ladders/{id}/rungs/{wick}/edit", s.handle(s.saveRung))
	r.Post("/shelf/ladders/{id}/rungs/{wick}/move", s.handle(s.moveRung))
	s.countRoutes(r)

	r.Get("/withdraw/{noun}/{id}", s.visited(s.askWithdraw))
	r.Post("/withdraw/{noun}/{id}", s.visited(s.withdraw))
	r.Post("/restore/{noun}/{id}", s.handle(s.restore))

	s.benchRoutes(r)
	s.candleRoutes(r)
	s.sheetRoutes(r)
	s.burnRoutes(r)
	s.readingRoutes(r)
	s.photoRoutes(r)
	s.findingRoutes(r)
	s.throwRoutes(r)
	s.verdictRoutes(r)
	s.roundRoutes(r)
	s.castRoutes(r)
	s.labelRoutes(r)
	s.guideRoutes(r)
	s.settingRoutes(r)
}
