//go:build js

package web

import (
	"context"
	"net/http"

	"curvewright/store"
)

// readLogs are kept at a desk only.
type readLogs struct{}

// Where the browser itself is the server, logs wait for a desk.
func (s *server) followRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /jobs/{id}/follow-up", s.placePage("follow-up"))
}

func (s *server) noteFor(context.Context, *page, string) (string, error) {
	return "", store.NotFound
}
