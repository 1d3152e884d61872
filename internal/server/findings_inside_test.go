package server

import (
	"log/slog"
	"net/http/httptest"
	"testing"
)

// A cell that a spreadsheet would work out as a formula is preceded by an
// apostrophe (OWASP, CSV injection); lines end in CR LF (RFC 4180).
func TestTablesBeginNoFormula(t *testing.T) {
	t.Parallel()
	w := httptest.NewRecorder()
	s := &Server{log: slog.Default()}
	if err := s.sendTable(w, httptest.NewRequest("GET", "/", nil), "findings", [][]string{{"text"}, {"=1+1"}, {"-4"}}); err != nil {
		t.Fatal(err)
	}
	if got, want := w.Body.String(), "text\r\n'=1+1\r\n-4\r\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
