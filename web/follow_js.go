//go:build js

package web

import "net/http"

// Where the browser itself is the server, logs wait for a desk.
func (s *server) followRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET /jobs/{id}/follow-up", s.placePage("follow-up"))
}
