package pipework

// How do parallel branches share the water: which valves have to be set so that each
// gets its own, and what does each get if nobody sets them?

import (
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Branch is a circuit, radiator or loop beside others, with the flow it should have.
type Branch struct {
	Name string
	Flow units.Flow
	Path Path
}

// ValveSetting is what one branch's balancing valve has to do.
type ValveSetting struct {
	Name     string
	Own      units.Pressure        // taken by the branch itself at its flow
	Throttle units.Pressure        // left for the valve
	Kv       units.FlowCoefficient // to set; zero: fully open, nothing to take
	Index    bool                  // the branch that sets the head
}

// Balanced is a set of valve settings.
type Balanced struct {
	Valves []ValveSetting
	Index  int            // the branch with the largest drop of its own
	Head   units.Pressure // across all branches
	Flow   units.Flow     // of all together
}

// Balance gives the valve of each branch the pressure that the index branch, the one
// with the largest drop of its own, leaves over.
//
//	Δp_valve = max(Δp_own) + Δp_least − Δp_own; kv = V̇·√(ρ/1000/Δp_valve)
//
// Units: flows in m³/s; least in Pa, the drop that every valve is to keep, 0 or the 3 kPa
// that a flow meter on it needs (common practice).
// Range: 1 to 200 branches; flows above 0; least 0 to 1 bar.
// Source: balance of pressures; IEC 60534-2-1 for kv.
// Errors: no branch, a branch without flow or path, branches in different liquids.
func Balance(least units.Pressure, branches ...Branch) (Balanced, error) {
	if len(branches) == 0 || len(branches) > 200 {
		return Balanced{}, &refuse.Error{What: "branches to balance", Given: fmt.Sprint(len(branches)), Accept: "1 to 200"}
	}
	if err := within("drop kept for every balancing valve", least, 0, 1e5); err != nil {
		return Balanced{}, err
	}
	var out Balanced
	for i, b := range branches {
		name := named(b.Name, fmt.Sprintf("branch %d", i+1))
		if len(b.Path.sections) == 0 {
			return Balanced{}, &refuse.Error{What: "pipes of " + name, Given: "nothing", Accept: "at least one length of tube, valve or appliance"}
		}
		if err := within("flow of "+name, b.Flow, leastFlow, mostFlow); err != nil {
			return Balanced{}, err
		}
		if b.Path.liquid != branches[0].Path.liquid {
			return Balanced{}, &refuse.Error{What: "water in " + name, Given: "another liquid or temperature than in the first branch", Accept: "one liquid for all branches"}
		}
		v := ValveSetting{Name: name, Own: b.Path.Drop(b.Flow)}
		if out.Flow += b.Flow; v.Own > out.Head {
			out.Head, out.Index = v.Own, i
		}
		out.Valves = append(out.Valves, v)
	}
	out.Head += least
	out.Valves[out.Index].Index = true
	for i := range out.Valves {
		v := &out.Valves[i]
		if v.Throttle = out.Head - v.Own; v.Throttle > 1e-9*out.Head {
			v.Kv = kvFor(branches[i].Flow, v.Throttle, branches[i].Path.liquid)
		} else {
			v.Throttle = 0
		}
	}
	return out, nil
}

// Shared is how parallel branches share a pump's water.
type Shared struct {
	Flows  []units.Flow
	Total  units.Flow
	Head   units.Pressure // of the pump
	Across units.Pressure // branches, after the common pipes
}

// Solve gives the flows that come by themselves: parallel branches behind common pipes
// and a pump. The pressure across the branches is searched; each branch then has one
// flow, and their sum one head of the pump and one drop of the common pipes.
//
//	Δp_i(V̇_i) = Δp for every branch; H(ΣV̇_i) = Δp_common(ΣV̇_i) + Δp
//
// Units: m³/s and Pa.
// Range: 1 to 200 branches; the sum of flows inside the pump's curve. A closed branch is
// left out.
// Source: balance of pressures and of flow; bracketed search in both, to a billionth.
// Errors: no branch, a path not made by NewPath, a pump not made by Set, a flow beyond
// the curve. A nil common path means none.
func Solve(p Pump, common *Path, branches ...Path) (Shared, error) {
	if len(branches) == 0 || len(branches) > 200 {
		return Shared{}, &refuse.Error{What: "branches of the circuit", Given: fmt.Sprint(len(branches)), Accept: "1 to 200 that are open"}
	}
	if len(p.curve.flow) == 0 {
		return Shared{}, &refuse.Error{What: "pump", Given: "none", Accept: "a pump curve with a setting"}
	}
	for i, b := range branches {
		if len(b.sections) == 0 {
			return Shared{}, &refuse.Error{What: fmt.Sprintf("pipes of branch %d", i+1), Given: "nothing", Accept: "at least one length of tube, valve or appliance"}
		}
	}
	flows := make([]float64, len(branches))
	for i := range flows {
		flows[i] = p.reach() / float64(len(branches))
	}
	total := 0.0
	surplus := func(across float64) float64 {
		total = 0
		for i := range branches {
			// The flow found last is the best place to begin, unless it was none.
			flows[i] = branches[i].flowAt(across, max(flows[i], 1e-9))
			total += flows[i]
		}
		left := p.at(total) - across
		if common != nil {
			left -= common.drop(total)
		}
		return left
	}
	// No more than the highest head that the pump can make stands across the branches.
	low, high := 0.0, p.highest()
	across, _ := root(surplus, low, high, p.at(0), surplus(high), 1e-16*high)
	surplus(across)
	if total > p.reach()*(1+1e-9) {
		return Shared{}, beyondCurve(p.reach(), p.at(p.reach()))
	}
	out := Shared{Total: units.Flow(total), Head: units.Pressure(p.at(total)), Across: units.Pressure(across)}
	for _, v := range flows {
		out.Flows = append(out.Flows, units.Flow(v))
	}
	return out, nil
}

// highest is the largest head of the setting at any flow.
func (p Pump) highest() float64 {
	if p.setting.Mode == FixedSpeed {
		return p.at(0)
	}
	return float64(p.setting.Head)
}
