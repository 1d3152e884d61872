package server

import "github.com/go-chi/chi/v5"

// candleRoutes are the addresses of pours and candles.
func (s *Server) candleRoutes(r chi.Router) {}
