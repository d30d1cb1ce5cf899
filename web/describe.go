package web

import "github.com/a-h/templ"

// described ties a field to its unit and to the note beneath it.
func described(f field) templ.Attributes {
	a := templ.Attributes{}
	by := ""
	if len(f.Words) == 0 && (f.Unit != "" || f.Before != "") {
		by = f.ID() + "-unit "
	}
	a["aria-describedby"] = by + f.ID() + "-note"
	if f.Fault != "" {
		a["aria-invalid"] = "true"
	}
	return a
}
