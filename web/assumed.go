package web

import (
	"curvewright/job"
	"curvewright/units"
	"curvewright/working"
)

// What nobody has answered is assumed, and the page says so beside the answers: which
// figure, and in what it is used.

// assumption is a figure that nobody entered.
type assumption struct {
	Meaning, Value string
	Used           []string // the results that rest on it
}

// mostAssumed bounds the list; the rest is told as a number.
const mostAssumed = 14

// assumptions are the assumed figures behind the sheet, in the order of the sheet.
func (p *page) assumptions() []assumption {
	var list []assumption
	at := map[string]int{}
	note := func(of string, steps []working.Step) {
		for _, s := range steps {
			for _, in := range s.Inputs {
				if in.Known != string(job.Assumed) || in.Value == nil || in.Meaning == "" {
					continue
				}
				a := assumption{Meaning: in.Meaning, Value: p.quantity(in.Value)}
				if v, isVolume := in.Value.(units.Volume); isVolume && v < 2 { // water: no room and no house is so small
					a.Value = p.engine(v.WaterText(p.System))
				}
				key := a.Meaning + "\x00" + a.Value
				i, known := at[key]
				if !known {
					i = len(list)
					at[key], list = i, append(list, a)
				}
				if used := list[i].Used; of != "" && (len(used) == 0 || used[len(used)-1] != of) {
					list[i].Used = append(used, of)
				}
			}
		}
	}
	for _, f := range p.Sheet.Figures {
		note(f.Label, f.Working)
	}
	for _, s := range p.Sheet.Sections {
		for _, l := range s.Lines {
			note(l.Label, l.Working)
		}
	}
	return list
}
