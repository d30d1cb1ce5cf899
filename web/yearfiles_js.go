//go:build js

package web

import "net/http"

// yearRoutes has none where the browser itself is the server.
func (s *server) yearRoutes(*http.ServeMux) {}
