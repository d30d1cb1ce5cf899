package web

import (
	"context"
	"html"
	"strings"

	"curvewright/settings"
	"curvewright/units"
	"curvewright/web/mathml"
	"curvewright/web/words"
	"curvewright/working"
)

// A tap on a figure leads to its working: which one that is, and how its formula is set.

// formula is a step's formula as markup, and once more with its figures put in. Both are
// empty where the formula is a rule in words, which is shown as it is.
func (p *page) formula(s working.Step) (symbols, figures string) {
	var values []mathml.Value
	for _, in := range inputs(s) {
		values = append(values, mathml.Value{Symbol: in.Symbol, Text: p.quantity(in.Value)})
	}
	f, ok := mathml.Read(s.Formula, values)
	if !ok {
		return "", ""
	}
	if p.System.In(units.Temperatures) == units.US && strings.Contains(s.Formula, " in °C") {
		return p.between(f.Markup()), "" // its numbers are for other degrees than the figures'
	}
	return p.between(f.Markup()), p.between(f.Filled())
}

// between says the words that stand around the signs of a formula.
func (p *page) between(markup string) string {
	if p.Language.Plain() == words.English {
		return markup
	}
	var out strings.Builder
	for markup != "" {
		start := strings.Index(markup, "<math")
		if start < 0 {
			start = len(markup)
		}
		plain := html.UnescapeString(markup[:start])
		inner := strings.Trim(plain, " ;,:.")
		if said := p.Language.Writing(inner); said != inner {
			plain = strings.Replace(plain, inner, said, 1)
		}
		out.WriteString(html.EscapeString(plain))
		markup = markup[start:]
		end := strings.Index(markup, "</math>")
		if end < 0 {
			out.WriteString(markup)
			break
		}
		end += len("</math>")
		out.WriteString(markup[:end])
		markup = markup[end:]
	}
	return out.String()
}

func (p *page) formulaSymbols(s working.Step) string {
	symbols, _ := p.formula(s)
	return symbols
}

func (p *page) formulaFigures(s working.Step) string {
	_, figures := p.formula(s)
	return figures
}

// why is where the working with a name stands: on this page, or among the settings where
// this page shows only a part of them.
func (p *page) why(id string) string {
	if p.House != nil && p.House.Place == "survey" && !strings.HasPrefix(id, "need-") && !strings.HasPrefix(id, "return-") && id != "surer" {
		return p.House.at("settings#" + id + inside)
	}
	if id == "surer" {
		return "#surer"
	}
	return "#" + id + inside
}

// inside ends the name of what a working holds. A link to it opens the working even
// without a script.
const inside = "-in"

// supplyWhy names the working of a circuit's supply on the design day.
func (p *page) supplyWhy(circuit int) string {
	rooms := p.Sheet.Circuits[circuit].Rooms
	if p.House == nil || p.House.Place != "survey" {
		if l, ok := p.lineOf(circuit, ".design-supply"); ok {
			return lineID(l) + "-more"
		}
	}
	for k, r := range rooms {
		if r.Governs {
			return "need-" + lines(circuit) + "-" + lines(k)
		}
	}
	return "need-" + lines(circuit) + "-0"
}

// flowWhy names the working of a circuit's water.
func (p *page) flowWhy(circuit int) string {
	if l, ok := p.lineOf(circuit, ".assign"); ok {
		return lineID(l) + "-more"
	}
	return "load"
}

// lineOf is a line of a circuit, by the end of its name.
func (p *page) lineOf(circuit int, ending string) (settings.Line, bool) {
	for _, section := range p.Sheet.Sections {
		for _, l := range section.Lines {
			if l.Circuit == p.Sheet.Circuits[circuit].Name && strings.HasSuffix(l.ID, ending) && hasMore(l) {
				return l, true
			}
		}
	}
	return settings.Line{}, false
}

// readingOf is one figure of the expected readings comes from.
type readingOf struct {
	settings.Expected
	ID      string
	Working settings.Reading
}

// readingsOf are the expected readings of one row, each with its working.
func (p *page) readingsOf(r row) []readingOf {
	var list []readingOf
	for k, e := range r.Cells {
		one := readingOf{Expected: e, ID: "reading-" + strings.ReplaceAll(r.Outdoor, "−", "m") + "-" + lines(k)}
		for i, known := range p.Sheet.Expected {
			if p.curves != nil && i < len(p.curves.Readings) && known == e {
				one.Working = p.curves.Readings[i]
			}
		}
		list = append(list, one)
	}
	return list
}

// sureness says how sure a figure is and what to measure to be surer; empty if that is not
// known.
func (p *page) sureness(ctx context.Context, b settings.Band) string {
	if !b.Known || b.Low == "" {
		return ""
	}
	text := words.Say(ctx, "why.band", words.Engine(ctx, b.Low), words.Engine(ctx, b.High))
	if most := p.surer(); len(most) > 0 {
		text += " " + words.Say(ctx, "why.surer", words.Engine(ctx, most[0].What), words.Engine(ctx, most[0].How))
	}
	return text
}
