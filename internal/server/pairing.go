package server

import (
	"context"
	"net/http"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/web/page"
)

// pairingEvidence is one pairing with everything that was recorded of it, from
// which the sections of its page are built.
type pairingEvidence struct {
	choice  page.PairingChoice
	group   standings.Group
	series  standings.Series
	pairing standings.Pairing
	logs    []journal.CandleLog // its candles, with the burns and checks that count

	revision int64 // of the journal that the standing was worked out from
}

// pairingStanding finds the pairing that the address names, without its logs.
func (s *Server) pairingStanding(ctx context.Context, choice page.PairingChoice, v visit) (pairingEvidence, error) {
	table, _, revision, err := s.judgeAt(ctx, v, choice.Picks)
	if err != nil {
		return pairingEvidence{}, err
	}
	e := pairingEvidence{choice: choice, revision: revision}
	var ok bool
	if e.group, e.series, e.pairing, ok = table.Find(choice.Wick); !ok {
		return e, journal.ErrNotFound
	}
	return e, nil
}

// pairingEvidence finds the pairing that the address names, with its logs.
func (s *Server) pairingEvidence(ctx context.Context, choice page.PairingChoice, v visit) (pairingEvidence, error) {
	e, err := s.pairingStanding(ctx, choice, v)
	if err != nil {
		return e, err
	}
	e.logs, err = s.store.LogsOf(ctx, e.pairing.CandleIDs())
	return e, err
}

// showPairing shows one pairing: what its standing rests on and everything
// else that is known of it. A row that is opened in the standings gets the
// first part alone.
func (s *Server) showPairing(w http.ResponseWriter, r *http.Request, v visit) error {
	choice := page.ReadPairingChoice(r.URL.Query())
	if r.URL.Query().Has("inner") {
		e, err := s.pairingStanding(r.Context(), choice, v)
		if err != nil {
			return err
		}
		return s.renderBare(w, r, page.PairingInner(page.NewPairingPage(e.group, e.series, e.pairing, v.view)))
	}
	e, err := s.pairingEvidence(r.Context(), choice, v)
	if err != nil {
		return err
	}
	p := page.NewPairingPage(e.group, e.series, e.pairing, v.view)
	p.Life = page.NewPairingLife(e.logs, safety.NewLimits(v.set.Limits), r.URL.Query(), v.view)
	p.Found = page.NewPairingFindings(e.logs, safety.NewLimits(v.set.Limits), r.URL.Query(), v.view)
	if p.Throw, err = s.throwPart(r.Context(), e.logs, 0, v); err != nil {
		return err
	}
	if p.Verdict, err = s.pairingVerdict(r.Context(), e, v); err != nil {
		return err
	}
	return s.render(w, r, claimStatus(p.Life), s.frame(r, v.set, p.Title, "standings"), page.Pairing(p))
}
