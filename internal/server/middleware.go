package server

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"runtime/debug"
	"strings"
	"time"

	"github.com/go-chi/chi/v5"
	"github.com/go-chi/chi/v5/middleware"
)

const (
	maxBody   = 1 << 20 // a form is text; 1 MiB is a paper sheet a hundred times over
	csp       = "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'; object-src 'none'"
	longCache = "public, max-age=31536000, immutable"
)

// use lays the layers that every request passes, outermost first.
func (s *Server) use(r chi.Router) {
	r.Use(middleware.RequestID, s.accessLog, s.recoverer, s.headers, s.hostAllowed,
		http.NewCrossOriginProtection().Handler, bodyLimit)
}

// accessLog writes one line a request; never what was typed.
func (s *Server) accessLog(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		began := time.Now()
		ww := middleware.NewWrapResponseWriter(w, r.ProtoMajor)
		next.ServeHTTP(ww, r)
		s.log.Info("request", "id", middleware.GetReqID(r.Context()), "method", r.Method,
			"path", r.URL.Path, "status", ww.Status(), "bytes", ww.BytesWritten(), "took", time.Since(began))
	})
}

// recoverer turns a panic into the error page.
func (s *Server) recoverer(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			if p := recover(); p != nil && p != http.ErrAbortHandler {
				s.log.Error("panic", "id", middleware.GetReqID(r.Context()), "was", fmt.Sprint(p), "stack", string(debug.Stack()))
				s.sendError(w, r, fmt.Errorf("serve page: panic"))
			}
		}()
		next.ServeHTTP(w, r)
	})
}

// headers are the same for every answer.
func (s *Server) headers(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", csp)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		// Not no-referrer: over plain HTTP that makes browsers send
		// "Origin: null", and every form would be refused.
		h.Set("Referrer-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		next.ServeHTTP(w, r)
	})
}

// hostAllowed answers only requests that name this machine: a page of another
// name that was pointed at loopback (DNS rebinding) gets nothing.
func (s *Server) hostAllowed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !s.ourHost(r.Host) {
			http.Error(w, "This address does not belong to this journal.", http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}

func (s *Server) ourHost(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.Trim(strings.ToLower(name), "[]")
	return name == "localhost" || name == "127.0.0.1" || name == "::1" || s.hosts[name]
}

func bodyLimit(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		most := int64(maxBody)
		if r.Method == http.MethodPost && r.URL.Path == "/photos/new" {
			most = maxPhotos
		}
		r.Body = http.MaxBytesReader(w, r.Body, most)
		next.ServeHTTP(w, r)
	})
}

// lasting is the request's context without its end: what is being saved is
// saved even when the phone drops out in the middle.
func lasting(r *http.Request) context.Context { return context.WithoutCancel(r.Context()) }
