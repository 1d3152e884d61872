package server

import "github.com/go-chi/chi/v5"

// readingRoutes are the addresses that read the record: standings, settings
// and what the program says of itself.
func (s *Server) readingRoutes(r chi.Router) {}
