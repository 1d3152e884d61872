package server

import (
	"net/http"

	"rimward/web/page"
)

// claimStatus is that of a page whose claimed time could or could not be read.
func claimStatus(p page.PairingLife) int {
	if p.Rejected() {
		return http.StatusUnprocessableEntity
	}
	return http.StatusOK
}
