package pipework

// How long may a floor loop be, what flow does it want, and which loop governs the
// manifold?

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Loop is one loop of tube in a floor.
type Loop struct {
	Name      string
	Pipe      Pipe
	Length    units.Length // all of it, with the way to the manifold and back
	Heat      units.Power  // taken from the water: to the room and downward
	Drop      units.Difference
	Allowance units.Fraction // added to the length for bends; none is usual for wide bends
	Manifold  []Element      // valves and meter of this loop
}

// LoopLength gives the tube that a floor takes.
//
//	L = A/s + tail
//
// Units: area in m²; lengths in m. The tail is the tube to the manifold and back.
// Range: area above 0 to 1000 m²; spacing 30 mm to 1 m; tail 0 to 500 m.
// Source: geometry.
// Errors: a figure outside the range.
func LoopLength(area units.Area, spacing, tail units.Length) (units.Length, error) {
	if err := cmp.Or(above("floor area of the loop", area, 1000), within("tube spacing", spacing, units.Millimetres(30), 1), within("tube from floor to manifold and back", tail, 0, 500)); err != nil {
		return 0, err
	}
	return units.Length(float64(area)/float64(spacing)) + tail, nil
}

// LoopDesign is a loop with its flow and pressure.
type LoopDesign struct {
	Name      string
	Flow      units.Flow
	Pressure  units.Pressure
	Velocity  units.Velocity
	Reynolds  units.Number
	Path      Path
	Judgement []Judgement
}

// Loops are the loops of one manifold.
type Loops struct {
	Each      []LoopDesign
	Governing int // the loop that wants most pressure
	Pressure  units.Pressure
	Flow      units.Flow
}

// DesignLoops gives flow and pressure of each loop on a manifold and the loop that
// governs the pump. With equal heat per length that is the longest.
//
//	V̇ = Q/(ρ·cp·ΔT); Δp = (1 + allowance)·L·Δp/L + manifold
//
// Units: as [Loop].
// Range: length above 0 to 1000 m; heat above 0 to 100 kW; drop 1 to 30 K; allowance 0
// to 1; the liquid is that of the loop's mean temperature.
// Source: heat balance; Darcy–Weisbach as [Path.Drop]; longest usual loops: common practice.
// Errors: no loop, a figure outside the range, no liquid.
func DesignLoops(l Liquid, loops ...Loop) (Loops, error) {
	if err := l.check(); err != nil {
		return Loops{}, err
	}
	if len(loops) == 0 {
		return Loops{}, &refuse.Error{What: "floor loops", Given: "none", Accept: "one or more"}
	}
	var out Loops
	for i, loop := range loops {
		name := named(loop.Name, fmt.Sprintf("loop %d", i+1))
		if err := cmp.Or(
			above("length of "+name, loop.Length, 1000), above("heat of "+name, loop.Heat, 1e5),
			within("drop from supply to return of "+name, loop.Drop, 1, 30), within("allowance for bends of "+name, loop.Allowance, 0, 1),
		); err != nil {
			return Loops{}, err
		}
		path, err := NewPath(l, append([]Element{Run{Pipe: loop.Pipe, Length: loop.Length * units.Length(1+loop.Allowance)}}, loop.Manifold...)...)
		if err != nil {
			return Loops{}, fmt.Errorf("%s: %w", name, err)
		}
		d := LoopDesign{Name: name, Flow: l.flowFor(loop.Heat, loop.Drop), Path: path}
		d.Pressure, d.Velocity = path.Drop(d.Flow), loop.Pipe.Velocity(d.Flow)
		if d.Reynolds, err = Reynolds(loop.Pipe, d.Flow, l); err != nil {
			return Loops{}, err
		}
		if d.Judgement, err = path.Judge(d.Flow); err != nil {
			return Loops{}, err
		}
		d.Judgement = append(d.Judgement, judgeLoop(name, loop))
		if out.Flow += d.Flow; d.Pressure > out.Pressure {
			out.Governing, out.Pressure = i, d.Pressure
		}
		out.Each = append(out.Each, d)
	}
	return out, nil
}

// UsualLoop is the longest loop that installers lay of a tube: about 200 ft of 3/8, 300 ft
// of 1/2, 400 ft of 5/8, 500 ft of 3/4.
//
// Units: bore and length in m.
// Range: floor heating tube.
// Source: common practice.
func UsualLoop(bore units.Length) units.Length {
	switch {
	case bore < 0.0095:
		return units.Feet(200)
	case bore < 0.0135:
		return units.Feet(300)
	case bore < 0.0165:
		return units.Feet(400)
	}
	return units.Feet(500)
}

func judgeLoop(name string, loop Loop) Judgement {
	usual := UsualLoop(loop.Pipe.Bore)
	j := Judgement{Subject: "length of " + name, Fits: loop.Length <= usual, Source: "common practice",
		Text: fmt.Sprintf("%s of %s is within the usual %s", tell(loop.Length), loop.Pipe, tell(usual))}
	if !j.Fits {
		j.Text = fmt.Sprintf("%s of %s is more than the usual %s: it sets the head of the pump for all loops; split it", tell(loop.Length), loop.Pipe, tell(usual))
	}
	return j
}

// LongestLoop gives the longest loop that a head pushes enough water through. Longer
// loops carry more heat and so more flow: the pressure grows with almost the cube of
// the length.
//
//	Δp(L) = (1 + allowance)·L·Δp/L at V̇ = q·L/(ρ·cp·ΔT); L where Δp(L) = the head
//
// Units: heat per length in W/m, all that the water loses; drop in K; head in Pa, after
// the valves of the manifold; m.
// Range: heat per length 1 to 200 W/m; drop 1 to 30 K; head 100 Pa to 2 bar; allowance 0
// to 1; answers to 2000 m.
// Source: heat balance and Darcy–Weisbach, searched to a millimetre.
// Errors: a figure outside the range, no liquid.
func LongestLoop(p Pipe, l Liquid, heat units.LinearPower, drop units.Difference, head units.Pressure, allowance units.Fraction) (units.Length, error) {
	if err := cmp.Or(p.check(), l.check(), within("heat of the loop per length", heat, 1, 200), within("drop from supply to return", drop, 1, 30),
		within("head for the loop", head, 100, 2e5), within("allowance for bends", allowance, 0, 1)); err != nil {
		return 0, err
	}
	miss := func(length float64) float64 {
		flow := l.flowFor(units.Power(float64(heat)*length), drop)
		return run(p, length*float64(1+allowance), 0, l).drop(float64(flow)) - float64(head)
	}
	const longest = 2000.0
	most := miss(longest)
	if most <= 0 {
		return longest, nil
	}
	length, _ := root(miss, 0, longest, -float64(head), most, 1e-3)
	return units.Length(length), nil
}
