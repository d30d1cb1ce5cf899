package web

import (
	"context"
	"html"
	"slices"
	"strings"

	"curvewright/job"
	"curvewright/units"
	"curvewright/web/words"
)

// What the engine says reaches the reader here, in the reader's language: sentences,
// figures, and the writing in drawings.

// say is a message in the language of the page.
func (p *page) say(key string, args ...any) string { return p.Language.Say(key, args...) }

// engine says a sentence of the engine in the language of the page.
func (p *page) engine(text string) string { return p.Language.Engine(text) }

// quantity prints a figure as the language of the page does. One that was left out prints
// as nothing.
func (p *page) quantity(q units.Quantity) string {
	if q == nil {
		return ""
	}
	return p.engine(q.Text(p.System))
}

// refusal is an error as a sentence in the language of the page.
func refusal(ctx context.Context, text string) string {
	text = strings.TrimSuffix(capital(text), ".")
	if said, known := words.Of(ctx).Understand(text); known {
		return said + "."
	}
	return words.Engine(ctx, text+".")
}

// isName tells whether a text is what somebody called a room, which stays as it is.
func (p *page) isName(text string) bool {
	return p.job != nil && slices.ContainsFunc(p.job.Rooms, func(r job.Room) bool { return r.Name == text })
}

// writing are the elements of a drawing that hold writing, as they begin and end.
var writing = [...][2]string{{"<text", "</text>"}, {"<title", "</title>"}, {"<desc", "</desc>"}}

// inLanguage says the writing in a drawing in a language. The drawing has its own marks
// around each piece of writing and none within.
func inLanguage(l words.Language, svg string) string {
	if l.Plain() == words.English {
		return svg
	}
	var out strings.Builder
	out.Grow(len(svg) + len(svg)/8)
	for svg != "" {
		at, end := len(svg), ""
		for _, w := range writing {
			if i := strings.Index(svg[:at], w[0]); i >= 0 {
				at, end = i, w[1]
			}
		}
		inside := strings.IndexByte(svg[at:], '>')
		if end == "" || inside < 0 {
			break
		}
		from := at + inside + 1
		to := strings.Index(svg[from:], end)
		if to < 0 {
			break
		}
		out.WriteString(svg[:from])
		out.WriteString(html.EscapeString(l.Writing(html.UnescapeString(svg[from : from+to]))))
		out.WriteString(end)
		svg = svg[from+to+len(end):]
	}
	out.WriteString(svg)
	return out.String()
}

// drawn is a drawing in the language of the page.
func (p *page) drawn(svg string) string { return inLanguage(p.Language, svg) }
