package server

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"strconv"
	"strings"
	"sync"

	"rimward/internal/journal"
	"rimward/web"
)

// zipped keeps the compressed form of each embedded file once it was asked for.
var zipped sync.Map

// sendFile sends one embedded file under its fingerprinted name.
func (s *Server) sendFile(w http.ResponseWriter, r *http.Request) error {
	f, ok := s.files.At(r.URL.Path)
	if !ok {
		return journal.ErrNotFound
	}
	w.Header().Set("Cache-Control", longCache)
	return sendBytes(w, r, f)
}

// sendIcon answers browsers that ask for /favicon.ico unbidden.
func (s *Server) sendIcon(w http.ResponseWriter, r *http.Request) error {
	w.Header().Set("Cache-Control", "public, max-age=86400")
	return sendBytes(w, r, s.files.Icon())
}

func sendBytes(w http.ResponseWriter, r *http.Request, f web.File) error {
	body := f.Body
	w.Header().Set("Content-Type", f.Type)
	w.Header().Set("Vary", "Accept-Encoding")
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		body = compressed(f)
		w.Header().Set("Content-Encoding", "gzip")
	}
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	_, err := w.Write(body)
	return ignoreGone(err)
}

// ignoreGone drops the error of a browser that hung up.
func ignoreGone(error) error { return nil }

func compressed(f web.File) []byte {
	if b, ok := zipped.Load(f.Path); ok {
		return b.([]byte)
	}
	var buf bytes.Buffer
	z := gzip.NewWriter(&buf)
	z.Write(f.Body) //nolint:errcheck // a buffer takes everything
	z.Close()
	zipped.Store(f.Path, buf.Bytes())
	return buf.Bytes()
}
