package server

import (
	"context"
	"errors"
	"net/http"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/web/page"
)

// sidesOffered is how many of the newest candles are offered to be set side by
// side.
const sidesOffered = 60

// showSides sets candles and pairings side by side. A candle that is asked for
// by its code, or with its fellows of one pour, gets an address of its own
// first, so that the address can be shared.
func (s *Server) showSides(w http.ResponseWriter, r *http.Request, v visit) error {
	found := page.SidesFound{Choice: page.ReadSidesChoice(r.URL.Query())}
	before := len(found.Choice.Keys)
	if err := s.widenSides(r.Context(), &found); err != nil {
		return err
	}
	if len(found.Choice.Keys) > before {
		http.Redirect(w, r, found.Choice.Address(), http.StatusSeeOther)
		return nil
	}
	offers, err := s.findSides(r.Context(), &found, v)
	if err != nil {
		return err
	}
	status := http.StatusOK
	if found.Choice.Asked && len(found.Things) == 0 {
		status = http.StatusNotFound
	}
	p := page.NewSidesPage(found, offers, safety.NewLimits(v.set.Limits), v.view)
	return s.render(w, r, status, s.frame(r, v.set, "Side by side", "sides"), page.Sides(p))
}

// widenSides adds the candle of a code, and a candle's fellows of one pour.
func (s *Server) widenSides(ctx context.Context, f *page.SidesFound) error {
	if f.Choice.Code != "" {
		if err := s.addCode(ctx, f); err != nil {
			return err
		}
	}
	if f.Choice.Kin == 0 {
		return nil
	}
	c, err := s.store.Candle(ctx, f.Choice.Kin)
	if err != nil {
		return err
	}
	lines, err := s.store.PourCandles(ctx, c.Pour)
	if err != nil {
		return err
	}
	for _, k := range page.Kin(c, lines) {
		f.Choice.Add(k)
	}
	return nil
}

// addCode adds the candle of a code, or notes that there is none.
func (s *Server) addCode(ctx context.Context, f *page.SidesFound) error {
	pour, letter, ok := page.ReadCode(f.Choice.Code)
	if !ok {
		f.NoCode = true
		return nil
	}
	c, err := s.store.CandleByCode(ctx, pour, letter)
	if errors.Is(err, journal.ErrNotFound) {
		f.NoCode = true
		return nil
	}
	f.Choice.Add(page.SidesKey{Candle: c.ID})
	return err
}

// findSides loads what was chosen, and what else could be.
func (s *Server) findSides(ctx context.Context, f *page.SidesFound, v visit) (page.SidesOffers, error) {
	var offers page.SidesOffers
	weighed, _, err := s.scales.weigh(ctx)
	if err != nil {
		return offers, err
	}
	offers.Stacks = weighed.stacks
	if offers.Lines, _, err = s.store.Candles(ctx, journal.CandleFilter{Limit: sidesOffered}); err != nil {
		return offers, err
	}
	var table standings.Table
	if table, f.Note, err = s.judge(ctx, v, f.Choice.Picks); err != nil {
		return offers, err
	}
	for _, k := range f.Choice.Keys {
		t, err := s.sidesThing(ctx, k, table)
		switch {
		case errors.Is(err, journal.ErrNotFound):
			f.Lost = append(f.Lost, k)
		case err != nil:
			return offers, err
		default:
			f.Things = append(f.Things, t)
		}
	}
	return offers, nil
}

// sidesThing loads one candle or pairing.
func (s *Server) sidesThing(ctx context.Context, k page.SidesKey, table standings.Table) (page.SidesThing, error) {
	t := page.SidesThing{Key: k}
	if k.Candle != 0 {
		l, err := s.store.CandleLog(ctx, k.Candle)
		if err != nil {
			return t, err
		}
		t.Log, t.Side = &l, compare.OfCandle(l, page.PairingOf(table, k.Candle))
		t.Photos, err = s.store.CandlePhotos(ctx, k.Candle)
		return t, err
	}
	x, back, ok := page.FindPairing(table, k)
	if !ok {
		return t, journal.ErrNotFound
	}
	logs, err := s.store.LogsOf(ctx, x.CandleIDs())
	t.Back, t.Side = back, compare.OfPairing(x, logs)
	return t, err
}

// sidesChart sends one chart of what stands side by side as a file.
func (s *Server) sidesChart(w http.ResponseWriter, r *http.Request, v visit) error {
	found := page.SidesFound{Choice: page.ReadSidesChoice(r.URL.Query())}
	if _, err := s.findSides(r.Context(), &found, v); err != nil {
		return err
	}
	name, kind := chartFile(r)
	c, ok := page.FindSidesChart(name, found, v.view)
	if !ok {
		return journal.ErrNotFound
	}
	return s.sendChart(w, r, c, "side-by-side-"+name, kind)
}
