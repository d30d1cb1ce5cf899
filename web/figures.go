package web

import (
	"slices"
	"strings"

	"curvewright/settings"
	"curvewright/working"
)

// The figures behind the settings that can be asked how they came about. The sheet
// lists them by their names for "why": load, load.kitchen, radiators.need.kitchen,
// radiators.return, each kind in the order of its rooms or circuits.

// workingsOf are the workings of one kind of figure. There are as many as rooms or
// circuits, or none at all.
func (p *page) workingsOf(count int, kind func(name string) bool) [][]working.Step {
	var list [][]working.Step
	for _, f := range p.Sheet.Figures {
		if kind(f.ID) {
			list = append(list, f.Working)
		}
	}
	if len(list) != count {
		return make([][]working.Step, count)
	}
	return list
}

// loadWorking is the working of the whole load, with that of the only room where there
// is but one.
func (p *page) loadWorking() []working.Step {
	steps := p.workingsOf(1, func(name string) bool { return name == "load" })[0]
	if rooms := p.roomLoads(); len(rooms) == 1 {
		steps = append(slices.Clone(steps), rooms[0].Working...)
	}
	return steps
}

// roomLoad is a room's load with its working.
type roomLoad struct {
	settings.RoomLoad
	Working []working.Step
}

func (p *page) roomLoads() []roomLoad {
	rooms := p.Sheet.Load.Rooms
	workings := p.workingsOf(len(rooms), func(name string) bool {
		return strings.HasPrefix(name, "load.") && strings.Count(name, ".") == 1
	})
	list := make([]roomLoad, len(rooms))
	for i, r := range rooms {
		list[i] = roomLoad{r, workings[i]}
	}
	return list
}

// roomNeed is what a room needs, with its working.
type roomNeed struct {
	settings.CircuitRoom
	Working []working.Step
}

func (p *page) roomNeeds(circuit int) []roomNeed {
	all, first := 0, 0
	for i, c := range p.Sheet.Circuits {
		if i == circuit {
			first = all
		}
		all += len(c.Rooms)
	}
	workings := p.workingsOf(all, func(name string) bool { return strings.Contains(name, ".need.") })
	var list []roomNeed
	for i, r := range p.Sheet.Circuits[circuit].Rooms {
		list = append(list, roomNeed{r, workings[first+i]})
	}
	return list
}

// returnWorking is the working of a circuit's return on the design day.
func (p *page) returnWorking(circuit int) []working.Step {
	return p.workingsOf(len(p.Sheet.Circuits), func(name string) bool {
		return strings.HasSuffix(name, ".return") && !strings.HasPrefix(name, "load.")
	})[circuit]
}
