package server

import (
	"bytes"
	"net/http"
	"strings"

	"github.com/go-chi/chi/v5"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/chart"
	"rimward/web/page"
)

// candleChart sends one chart of a candle as a file.
func (s *Server) candleChart(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.candleLog(r)
	if err != nil {
		return err
	}
	name, kind := chartFile(r)
	c, ok := page.CandleChart(name, l, safety.NewLimits(v.set.Limits), v.view)
	if !ok {
		return journal.ErrNotFound
	}
	return s.sendChart(w, r, c, "candle-"+l.Candle.Code()+"-"+name, kind)
}

// standingsChart sends one chart of a series, or of one of its pairings, as a
// file.
func (s *Server) standingsChart(w http.ResponseWriter, r *http.Request, v visit) error {
	choice := page.ReadPairingChoice(r.URL.Query())
	table, _, err := s.judge(r.Context(), v, choice.Picks)
	if err != nil {
		return err
	}
	name, kind := chartFile(r)
	c, ok := page.StandingsChart(name, table, choice, v.view)
	if !ok {
		return journal.ErrNotFound
	}
	return s.sendChart(w, r, c, "standings-"+name, kind)
}

// chartFile is the chart's name and the kind of file that the address names.
func chartFile(r *http.Request) (name, kind string) {
	name, kind, _ = strings.Cut(chi.URLParam(r, "file"), ".")
	return name, kind
}

// sendChart sends a chart as a drawing or its table as values; any other kind
// of file is not there.
func (s *Server) sendChart(w http.ResponseWriter, r *http.Request, c chart.Chart, name, kind string) error {
	var buf bytes.Buffer
	var err error
	media := "text/csv; charset=utf-8"
	switch kind {
	case "svg":
		media, err = "image/svg+xml", chart.Standalone(c).Render(r.Context(), &buf)
	case "csv":
		err = chart.CSV(&buf, c.Table)
	default:
		err = journal.ErrNotFound
	}
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", media)
	w.Header().Set("Content-Disposition", `attachment; filename="`+name+"."+kind+`"`)
	if _, err := w.Write(buf.Bytes()); err != nil {
		s.log.Info("file not delivered", "path", r.URL.Path, "err", err)
	}
	return nil
}
