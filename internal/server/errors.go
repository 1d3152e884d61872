package server

import (
	"context"
	"errors"
	"net/http"

	"rimward/internal/journal"
)

// errBadRequest is a request that no form of ours sends.
var errBadRequest = errors.New("the request could not be read")

// errStillWeighing is said while the standings are worked out for the first
// time and take longer than a page may.
var errStillWeighing = errors.New("the standings are still being worked out")

// statusOf is the one place where an error becomes a status. A status of 0
// means that nobody is listening any more.
func statusOf(err error) int {
	var invalid *journal.InvalidError
	var tooLarge *http.MaxBytesError
	switch {
	case errors.Is(err, context.Canceled):
		return 0
	case errors.Is(err, journal.ErrNotFound):
		return http.StatusNotFound
	case errors.Is(err, journal.ErrConflict):
		return http.StatusConflict
	case errors.As(err, &invalid):
		return http.StatusUnprocessableEntity
	case errors.As(err, &tooLarge):
		return http.StatusRequestEntityTooLarge
	case errors.Is(err, errBadRequest):
		return http.StatusBadRequest
	case errors.Is(err, errStillWeighing):
		return http.StatusServiceUnavailable
	}
	return http.StatusInternalServerError
}

// sentenceFor is what a person is told of a status; the error's own text is
// shown only where it was written for people.
func sentenceFor(status int, err error) string {
	var invalid *journal.InvalidError
	if errors.As(err, &invalid) {
		return invalid.Error()
	}
	switch status {
	case http.StatusNotFound:
		return "There is nothing here. It may have been written in another journal."
	case http.StatusConflict:
		return "This was changed meanwhile, perhaps on another device. Open it again and look."
	case http.StatusRequestEntityTooLarge:
		return "That was more than this page can take."
	case http.StatusBadRequest:
		return "The request could not be read."
	case http.StatusServiceUnavailable:
		return "The standings are being worked out for the first time since the program was started. Open the page again in a moment."
	}
	return "Something went wrong here. Nothing that was saved before is lost. If it happens again, the log of the program has the line with this number."
}
