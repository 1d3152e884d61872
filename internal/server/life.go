package server

import (
	"net/http"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/page"
)

// pairingLife loads the candles of a pairing and reads their lives, with the
// burn time that the address claims.
func (s *Server) pairingLife(r *http.Request, v visit, candles []journal.ID) (page.PairingLife, error) {
	logs, err := s.store.LogsOf(r.Context(), candles)
	if err != nil {
		return page.PairingLife{}, err
	}
	return page.NewPairingLife(logs, safety.NewLimits(v.set.Limits), r.URL.Query(), v.view), nil
}

// claimStatus is that of a page whose claimed time could or could not be read.
func claimStatus(p page.PairingLife) int {
	if p.Rejected() {
		return http.StatusUnprocessableEntity
	}
	return http.StatusOK
}
