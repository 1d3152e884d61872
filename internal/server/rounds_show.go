package server

import (
	"bytes"
	"context"
	"errors"
	"net/http"
	"slices"

	"rimward/internal/ical"
	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/needs"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/internal/standings/tree"
	"rimward/web/page"
)

// showRound shows one round: how far it has come, what it answers, and the
// days ahead.
func (s *Server) showRound(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.roundAt(r)
	if err != nil {
		return err
	}
	p, err := s.roundPage(r.Context(), x, v)
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "rounds"), page.Round(p))
}

func (s *Server) roundPage(ctx context.Context, x journal.TestRound, v visit) (page.RoundPage, error) {
	sh, err := s.shelf(ctx)
	if err != nil {
		return page.RoundPage{}, err
	}
	progress, pours, err := s.roundProgress(ctx, x, v)
	if err != nil {
		return page.RoundPage{}, err
	}
	in := page.RoundShown{Pours: pours, Token: s.token()}
	if in.RoundInput, err = s.roundInput(ctx, x, &progress, v); err != nil {
		return page.RoundPage{}, err
	}
	if in.Sheets, err = s.sheetsOf(ctx, x.ID); err != nil {
		return page.RoundPage{}, err
	}
	if in.History, err = s.store.History(ctx, journal.NounRound, x.ID); err != nil {
		return page.RoundPage{}, err
	}
	k := page.NewKnown(sh)
	spec := page.RoundSpec(x, k)
	in.Warnings = plan.Warnings(spec)
	p := page.NewRoundPage(in, k, v.view)
	if p.Running {
		tells, err := s.roundTells(ctx, x, spec, v)
		if err != nil {
			return page.RoundPage{}, err
		}
		p.Plan.ShowTells(tells, x, k, v.view)
	}
	a, note, err := s.roundAnswer(ctx, x, progress, pours, v)
	if err != nil {
		return page.RoundPage{}, err
	}
	p.ShowParts(page.NewRoundProgress(progress, x, sh, v.view), page.NewRoundAnswer(a, x, sh, note, v.view))
	return p, nil
}

// sheetsOf are the pour sheets that were made for a round.
func (s *Server) sheetsOf(ctx context.Context, round journal.ID) ([]journal.PourSheet, error) {
	all, err := s.store.PourSheets(ctx)
	var out []journal.PourSheet
	for _, x := range all {
		if x.Round != nil && *x.Round == round {
			out = append(out, x)
		}
	}
	return out, err
}

// roundInput is what a round's plan is shown from; progress is nil while the
// round is not kept.
func (s *Server) roundInput(ctx context.Context, x journal.TestRound, progress *plan.RoundProgress, v visit) (page.RoundInput, error) {
	k, err := s.stocked(ctx)
	if err != nil {
		return page.RoundInput{}, err
	}
	spent, err := s.spentCandles(ctx, x)
	if err != nil {
		return page.RoundInput{}, err
	}
	shelf, basis := k.NeedsShelf(x, v.set), x.Factors.LoadBasis
	in := page.RoundInput{Round: x, Progress: progress, Needs: needs.Of(x.Places, basis, shelf), Ahead: needs.Of(progress.Unpoured(x.Places), basis, shelf), Lasting: needs.LastsAll(x.Places, spent)}
	in.Effort = plan.EffortOf(plan.EffortSpec{Places: x.Places, Burns: x.Days.Burns, Spent: in.Lasting.Hours, Sitting: x.Days.Hours, PerEvening: x.Days.PerEvening})
	in.Calendar, err = s.roundCalendar(ctx, x, progress, spent, k, v)
	return in, err
}

// spentLooked is how many candles of a vessel are looked through for how long
// they lasted.
const spentLooked = 200

// spentCandles are candles of the round's vessels, for how long they lasted.
func (s *Server) spentCandles(ctx context.Context, x journal.TestRound) (out []journal.CandleLine, err error) {
	for _, vessel := range x.Factors.Vessels {
		lines, _, err := s.store.Candles(ctx, journal.CandleFilter{Vessel: vessel, Limit: spentLooked})
		if err != nil {
			return nil, err
		}
		out = append(out, lines...)
	}
	return out, nil
}

// roundCalendar works out the days of a round from what has happened.
func (s *Server) roundCalendar(ctx context.Context, x journal.TestRound, progress *plan.RoundProgress, spent []journal.CandleLine, k page.Known, v visit) (plan.Calendar, error) {
	in := plan.CalendarInput{Now: v.view.Now, Zone: v.set.Zone(), Days: x.Days, Pace: plan.PaceOf(safety.NewLimits(v.set.Limits)), Together: true}
	turns := plan.BenchTurns(x.Places, x.Seed)
	for i, p := range x.Places {
		c := plan.CalendarCandle{Place: p.Number, Melt: p.Melt, Group: p.Evening, Benches: turns[i], Cure: k.CureOf(x.Wax), Lasts: needs.Lasts(p, spent).Hours}
		if progress != nil && progress.Places[i].Candle != nil {
			c = c.Been(*progress.Places[i].Candle)
			checked, err := s.setChecked(ctx, c, progress.Places[i])
			if err != nil {
				return plan.Calendar{}, err
			}
			c.SetChecked = checked
		}
		in.Candles = append(in.Candles, c)
	}
	return plan.NewCalendar(in), nil
}

// setChecked reports whether somebody looked at a set candle.
func (s *Server) setChecked(ctx context.Context, c plan.CalendarCandle, x plan.PlaceProgress) (bool, error) {
	if c.Over || c.Burns > 0 {
		return true, nil
	}
	checks, err := s.store.SetChecks(ctx, x.Candle.Candle.ID)
	for _, y := range checks {
		if !y.IsGone() {
			return true, err
		}
	}
	return false, err
}

// sendRoundCalendar sends the days of a round to a calendar program.
func (s *Server) sendRoundCalendar(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.roundAt(r)
	if err != nil {
		return err
	}
	taken := page.Taken{Now: v.view.Now}
	if taken.Revision, err = s.store.Revision(r.Context()); err != nil { // before what it counts
		return err
	}
	progress, _, err := s.roundProgress(r.Context(), x, v)
	if err != nil {
		return err
	}
	in, err := s.roundInput(r.Context(), x, &progress, v)
	if err != nil {
		return err
	}
	var buf bytes.Buffer
	err = ical.Write(&buf, ical.Calendar{Name: x.Question, Stamp: v.view.Now, Events: page.RoundEvents(in.Calendar, x, taken, page.PlaceCodes(&progress))})
	if errors.Is(err, ical.ErrEmpty) {
		s.redirect(w, r, "/rounds/"+idText(x.ID)+"/days", "There is nothing to put into a calendar yet: look at the days first.")
		return nil
	}
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/calendar; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="round-`+idText(x.ID)+`.ics"`)
	if _, err := w.Write(buf.Bytes()); err != nil {
		s.log.Info("calendar not delivered", "path", r.URL.Path, "err", err)
	}
	return nil
}

// makeRoundSheet makes the pour sheet of one melt, without the places that are
// poured already.
func (s *Server) makeRoundSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.roundAt(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	melt := p.Count("melt")
	progress, _, err := s.roundProgress(r.Context(), x, v)
	if err != nil {
		return err
	}
	if melt == nil || !slices.Contains(x.Melts(), *melt) || x.IsGone() {
		return journal.ErrNotFound
	}
	sheet := x.MeltSheet(*melt, v.set, progress.Taken()...)
	ref, again, err := s.store.Once(lasting(r), onceKey(values), func(tx *sqlite.Tx) (string, error) {
		y := sheet
		err := tx.SavePourSheet(&y)
		return "/pours/sheets/" + idText(y.ID), err
	})
	if err != nil {
		return err
	}
	said := "The pour sheet of melt " + values.Get("melt") + " is ready to weigh by."
	if again {
		said = "That sheet was made already."
	}
	s.redirect(w, r, ref, said)
	return nil
}

// mostNamed is up to how many candles of each the chances are told.
const mostNamed = 3

// roundTells is what a round can and cannot tell, from the spreads that the
// studio's burns show or, before there are any, from those that the program
// starts with.
func (s *Server) roundTells(ctx context.Context, x journal.TestRound, spec plan.Spec, v visit) (page.RoundTells, error) {
	prior, own := tree.Default(), false
	switch w, _, err := s.scales.weigh(ctx); {
	case errors.Is(err, errStillWeighing):
	case err != nil:
		return page.RoundTells{}, err
	default:
		prior, own = w.Believed(), len(w.stacks) > 0
	}
	k, err := s.known(ctx)
	if err != nil {
		return page.RoundTells{}, err
	}
	t := page.RoundTells{Spreads: plan.SpreadsOf(prior, own), Burns: x.Days.Burns}
	if t.Burns == 0 {
		t.Burns = usualBurns
	}
	var width quantity.Millimetres
	for _, id := range x.Factors.Vessels {
		vessel := k.Vessel(id)
		width = max(width, vessel.Width())
		wall := meltpool.Wall{Width: vessel.Width(), Target: vessel.Target()}
		t.Chances = append(t.Chances, plan.Chances(plan.NamingSpec{Rungs: k.RungsAt(x), Wall: wall, Burns: t.Burns, Seed: x.Seed, Spreads: t.Spreads}, max(mostNamed, x.Copies)))
	}
	t.Contrasts = plan.Contrasts(spec, t.Burns, width, t.Spreads)
	return t, nil
}

// usualBurns stands for candles that burn until they are spent: what more
// burns tell is little.
const usualBurns = 8

// showCandleRound says on a candle's page which place of which round it took.
func (s *Server) showCandleRound(ctx context.Context, p *page.CandlePage, c journal.Candle) error {
	if c.Round == nil {
		return nil
	}
	x, err := s.store.Round(ctx, *c.Round)
	if err == nil {
		p.ShowRound(c, x)
	}
	return err
}
