//go:build js

package web

import "net/http"

// searches have no place where the browser itself is the server: they take all the cores
// of a desk.
type searches struct{}

func (s *server) decideRoutes(*http.ServeMux) {}
