package server

import (
	"cmp"
	"context"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"time"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// showLight lists the candles that can be lit; ?candle= ticks one beforehand,
// ?pour= its candles, ?round= those of its sitting tonight.
func (s *Server) showLight(w http.ResponseWriter, r *http.Request, v visit) error {
	waiting, err := s.store.Waiting(r.Context(), waitingShown)
	if err != nil {
		return err
	}
	asked, err := s.lightAsked(r.Context(), queryID(r, "round"), v)
	if err != nil {
		return err
	}
	values, waiting := ofRound(asked, waiting, v)
	waiting = picking(r, values, waiting)
	p, err := s.lightPage(r.Context(), s.blank(v, values), waiting, asked, v)
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Light candles", "bench"), page.Light(p))
}

// lightPage is the page that lights a sitting.
func (s *Server) lightPage(ctx context.Context, in page.Input, waiting []journal.CandleLine, asked page.LightAsked, v visit) (page.LightPage, error) {
	sweats, err := s.sweating(ctx, waiting)
	p := page.NewLightPage(in, waiting, safety.BeforeLighting(), v.view)
	p.Caution(sweats)
	p.Offer(asked, v.view)
	return p, err
}

// sweating are those of the candles on which oil beads stood when they were set.
func (s *Server) sweating(ctx context.Context, waiting []journal.CandleLine) (map[journal.ID]bool, error) {
	out := map[journal.ID]bool{}
	for _, c := range waiting {
		checks, err := s.store.SetChecks(ctx, c.Candle.ID)
		if err != nil {
			return nil, err
		}
		for _, x := range checks {
			if !x.IsGone() && x.Sweating.Seen() {
				out[c.Candle.ID] = true
			}
		}
	}
	return out, nil
}

// picking ticks the candle or the pour that the address names, and puts what
// it names on top of the list.
func picking(r *http.Request, values url.Values, waiting []journal.CandleLine) []journal.CandleLine {
	var first, rest []journal.CandleLine
	candle, pour := queryID(r, "candle"), queryID(r, "pour")
	for _, c := range waiting {
		if c.Candle.ID == candle || (pour != 0 && c.Candle.Pour == pour) {
			values.Set(page.LightPrefix(c.Candle.ID)+"pick", "1")
			first = append(first, c)
		} else {
			rest = append(rest, c)
		}
	}
	return append(first, rest...)
}

// rowError is an error that belongs to one row of a form.
type rowError struct {
	parser *form.Parser // with the row's prefix
	err    error
}

func (e rowError) Error() string { return e.err.Error() }
func (e rowError) Unwrap() error { return e.err }

// mergeRow turns a row's refusal into problems beside its fields.
func mergeRow(err error, whole *form.Parser) error {
	var row rowError
	if errors.As(err, &row) {
		return row.parser.Merge(row.err)
	}
	return whole.Merge(err)
}

// lighting is one candle that was ticked.
type lighting struct {
	parser *form.Parser
	prefix string
	burn   journal.Burn
	wicks  int
}

// saveLight lights everything that was ticked, as one sitting, or nothing.
func (s *Server) saveLight(w http.ResponseWriter, r *http.Request, v visit) error {
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	waiting, err := s.store.Waiting(r.Context(), waitingShown)
	if err != nil {
		return err
	}
	asked, err := s.lightAsked(r.Context(), postedRound(values), v)
	if err != nil {
		return err
	}
	_, waiting = ofRound(asked, waiting, v)
	at, stamped := s.stampAs(p, values, "lit_time")
	picked := s.picked(p, waiting, at)
	if len(picked) == 0 && !p.Problems().Any() {
		p.Problem("", "Tick the candles that you light.")
	}
	return s.submit(w, r, submission{
		visit: v, parser: p, values: stamped, said: page.LitText(len(picked)),
		doubts: func() ([]journal.Doubt, error) { return s.doubtsOfLighting(r, picked) },
		save:   func(tx *sqlite.Tx) (string, error) { return "/", lightAll(tx, picked) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			p, err := s.lightPage(r.Context(), in, waiting, asked, v)
			return "Light candles", "bench", page.Light(p), err
		},
	})
}

// picked reads the rows that were ticked.
func (s *Server) picked(p *form.Parser, waiting []journal.CandleLine, at time.Time) []lighting {
	var out []lighting
	room, draught := p.Temperature("room"), journal.Draught(p.Choice("draught", "", "none", "slight", "strong"))
	for _, c := range waiting {
		prefix := page.LightPrefix(c.Candle.ID)
		row := p.With(prefix)
		if !row.Flag("pick") {
			continue
		}
		out = append(out, lighting{row, prefix, journal.Burn{
			Candle: c.Candle.ID, LitAt: at, Room: room, Draught: draught,
			Trim: row.Length("trim"), MassBefore: row.Mass("mass_before"), Place: row.Text("place"),
		}, c.Candle.Wicks})
	}
	// In the order of the codes, whatever order the list had.
	slices.SortFunc(out, func(a, b lighting) int { return cmp.Compare(a.burn.Candle, b.burn.Candle) })
	return out
}

func (s *Server) doubtsOfLighting(r *http.Request, picked []lighting) ([]journal.Doubt, error) {
	var out []journal.Doubt
	for _, l := range picked {
		facts, err := s.store.BurnFacts(r.Context(), l.burn)
		if err != nil {
			return nil, err
		}
		for _, d := range doubtsOfBurn(l.burn, l.wicks, facts) {
			d.Key, d.Field = l.prefix+d.Key, l.prefix+d.Field
			out = append(out, d)
		}
	}
	return out, nil
}

// lightAll writes one sitting with a burn for each candle.
func lightAll(tx *sqlite.Tx, picked []lighting) error {
	sitting, err := tx.NewSitting()
	if err != nil {
		return err
	}
	for _, l := range picked {
		b := l.burn
		b.Sitting = &sitting
		if err := tx.SaveBurn(&b); err != nil {
			return rowError{l.parser, err}
		}
	}
	return nil
}
