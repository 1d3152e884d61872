package server

import (
	"net/http"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// askWithdraw asks before something is withdrawn or retired, and for the
// reason.
func (s *Server) askWithdraw(w http.ResponseWriter, r *http.Request, v visit) error {
	thing, err := s.thing(r)
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Withdraw", ""), page.WithdrawPage(thing, s.blank(v, nil)))
}

// withdraw takes something out of the count; it stays on record.
func (s *Server) withdraw(w http.ResponseWriter, r *http.Request, v visit) error {
	thing, err := s.thing(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	why := p.Text("why")
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: thing.Done,
		save: func(tx *sqlite.Tx) (string, error) { return thing.Back, tx.Withdraw(thing.Noun, thing.ID, why) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			return "Withdraw", "", page.WithdrawPage(thing, in), nil
		},
	})
}

// restore brings something back that was withdrawn or retired.
func (s *Server) restore(w http.ResponseWriter, r *http.Request) error {
	thing, err := s.thing(r)
	if err != nil {
		return err
	}
	err = s.store.Write(lasting(r), func(tx *sqlite.Tx) error { return tx.Restore(thing.Noun, thing.ID) })
	if err != nil {
		return err
	}
	s.redirect(w, r, thing.Back, "It counts again.")
	return nil
}

// thing names what the address points at: any noun that keeps a history.
func (s *Server) thing(r *http.Request) (page.Withdrawable, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return page.Withdrawable{}, err
	}
	ctx, noun := r.Context(), journal.Noun(chi.URLParam(r, "noun"))
	switch noun {
	case journal.NounWax:
		x, err := s.store.Wax(ctx, id)
		return page.RetirableThing(noun, id, x.Name, "/shelf/waxes/"+idText(id)), err
	case journal.NounFragrance:
		x, err := s.store.Fragrance(ctx, id)
		return page.RetirableThing(noun, id, x.Name, "/shelf/fragrances/"+idText(id)), err
	case journal.NounVessel:
		x, err := s.store.Vessel(ctx, id)
		return page.RetirableThing(noun, id, x.Name, "/shelf/vessels/"+idText(id)), err
	case journal.NounLadder:
		x, err := s.store.Ladder(ctx, id)
		return page.RetirableThing(noun, id, x.Name, "/shelf/ladders/"+idText(id)), err
	case journal.NounWick:
		x, err := s.store.Wick(ctx, id)
		return page.RetirableThing(noun, id, x.Label, "/shelf/ladders/"+idText(x.Ladder)+"/rungs/"+idText(id)), err
	case journal.NounMould:
		x, err := s.store.Mould(ctx, id)
		return page.RetirableThing(noun, id, x.Name, "/shelf/moulds/"+idText(id)), err
	case journal.NounCast:
		x, err := s.store.CastLine(ctx, id)
		return page.WithdrawableCast(x), err
	case journal.NounPour:
		x, err := s.store.Pour(ctx, id)
		return page.WithdrawablePour(x), err
	case journal.NounCandle:
		x, err := s.store.Candle(ctx, id)
		return page.WithdrawableCandle(x), err
	case journal.NounBurn:
		return s.withdrawableBurn(r, id)
	case journal.NounCheck:
		x, err := s.store.Check(ctx, id)
		if err != nil {
			return page.Withdrawable{}, err
		}
		b, err := s.withdrawableBurn(r, x.Burn)
		return page.WithdrawableCheck(x, b), err
	case journal.NounPhoto:
		return s.withdrawablePhoto(r)
	case journal.NounSmelling, journal.NounCup, journal.NounScore:
		return s.withdrawableSmelled(ctx, noun, id)
	case journal.NounRound:
		x, err := s.store.Round(ctx, id)
		return page.WithdrawableRound(x), err
	case journal.NounSetCheck:
		return s.withdrawableSetCheck(r, id)
	case journal.NounVerdict:
		return s.withdrawableVerdict(ctx, id)
	case journal.NounPourSheet:
		x, err := s.store.PourSheet(ctx, id)
		return page.WithdrawablePourSheet(x), err
	}
	return page.Withdrawable{}, journal.ErrNotFound
}

func (s *Server) withdrawableBurn(r *http.Request, id journal.ID) (page.Withdrawable, error) {
	b, err := s.store.Burn(r.Context(), id)
	if err != nil {
		return page.Withdrawable{}, err
	}
	c, err := s.store.Candle(r.Context(), b.Candle)
	return page.WithdrawableBurn(b, c), err
}
