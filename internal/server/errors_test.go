package server

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"testing"

	"rimward/internal/journal"
)

func TestStatusOfErrors(t *testing.T) {
	for want, err := range map[int]error{
		0:                                fmt.Errorf("read: %w", context.Canceled),
		http.StatusNotFound:              fmt.Errorf("find candle 7: %w", journal.ErrNotFound),
		http.StatusConflict:              fmt.Errorf("correct wax 1: %w", journal.ErrConflict),
		http.StatusUnprocessableEntity:   fmt.Errorf("save: %w", journal.Invalid("name", "Give it a name.")),
		http.StatusRequestEntityTooLarge: &http.MaxBytesError{Limit: 1},
		http.StatusBadRequest:            errBadRequest,
		http.StatusInternalServerError:   errors.New("the disk is full"),
	} {
		if got := statusOf(err); got != want {
			t.Errorf("%v has the status %d, want %d", err, got, want)
		}
		if want == http.StatusInternalServerError && sentenceFor(want, err) == err.Error() {
			t.Error("the error's own text is shown")
		}
	}
}
