package visit

import (
	"fmt"

	"curvewright/units"
	"curvewright/working"
)

// How did an expected reading come about? One step each, with the figures put in.

// working shows a reading's calculation.
func (h *House) working(r *reading, item Item, s *state, out *at) []working.Step {
	p := &h.plant
	at := units.Temperature(s.outdoor)
	step := working.Step{Name: item.Label, Result: working.Input{Symbol: "", Meaning: r.String(), Value: item.Value}, Range: "steady",
		Source: "heat balance of the water",
		Note:   fmt.Sprintf("to %s: survey and plant %s, instrument %s", item.Tolerance.Text(h.system), item.Survey.Text(h.system), item.Instrument.Text(h.system))}
	in := func(symbol, meaning string, v units.Quantity) {
		step.Inputs = append(step.Inputs, working.Input{Symbol: symbol, Meaning: meaning, Value: v})
	}
	kelvin := func(x float64) units.Quantity { return units.Temperature(x) }
	switch r.Measure {
	case OutdoorShown:
		step.Formula, step.Source = "as the thermometer in the shade", "definition"
		in("To", "outdoors", at)
	case Wanted, Supply, SupplyShown, Return, Flow, BranchReturn:
		return h.circuitWorking(r, step, s, out)
	case BoilerSupply, BoilerShown, SecondarySupply:
		step.Formula = "Tb = Tr + (Ts − Tr)·max(1, ΣW/W_b), as hot as the hottest circuit asks"
		in("T", "asked for", kelvin(out.target))
		in("Ts", "behind the coupling", kelvin(out.supply))
		in("Tr", "return of all circuits", kelvin(out.systemReturn))
		in("ΣW", "drawn by the circuits", units.LossCoefficient(out.drawn))
		in("W_b", "through the boiler", units.LossCoefficient(out.pumped))
		if out.limited {
			in("Q", "most that the boiler may give", units.Power(p.most))
		}
	case BoilerReturn, SecondaryReturn:
		step.Formula = "Tr = ΣW·Tr/ΣW; Tbr = (ΣW·Tr + max(0, W_b − ΣW)·Tb)/W_b"
		in("Tr", "return of all circuits", kelvin(out.systemReturn))
		in("Tb", "boiler supply", kelvin(out.boiler))
		in("ΣW", "drawn by the circuits", units.LossCoefficient(out.drawn))
		in("W_b", "through the boiler", units.LossCoefficient(out.pumped))
	case FiringRate, MeanFire:
		step.Formula, step.Range = "share = Q/Q_full", "the control counts its own full fire"
		in("Q", "heat of all circuits", units.Power(out.heat))
		in("Q_full", "rated output", units.Power(p.rated))
	case BurnerRun, BurnerPause:
		step.Formula = "C1·dT1/dt = Q_burner − G·(T1 − T2), C2·dT2/dt = G·(T1 − T2) − Q"
		step.Range, step.Source = "a mixing valve keeps its circuit out of the swing; sensor delay not counted", "heat balance of boiler and emitters"
		in("Q", "heat of all circuits", units.Power(out.heat))
		in("Q_least", "least output", units.Power(p.least))
		in("C1", "boiler, without the pipes of its circuits", h.plan.Stores)
		in("ΔT", "differential", h.plan.Differential)
		in("pause", "shortest, as on this sheet", units.Time(p.pause))
	case MeterTime:
		step.Formula, step.Source = "t = V·correction·H·η/Q_full", "definition; pressure by the ideal gas law"
		in("V", "gas for a turn", h.plan.Site.Meter.PerRevolution)
		in("H", "gross heat in the gas", h.plan.Site.HeatingValue)
		in("Q_full", "output at full fire", h.plan.Site.FullFire)
	case FlueGas:
		step.Formula, step.Range, step.Source = "return + approach·rate", "steady fire", "approach common practice, or the maker's efficiencies"
		in("Tbr", "boiler return", kelvin(out.back))
		in("approach", "at full fire", p.model.Approach)
	case Condensate:
		step.Formula, step.Range, step.Source = "water of the fuel · share condensed · Q/η", "equilibrium; real gas leaves a little wetter", "heat and mass balance of the flue gas"
		in("Tbr", "boiler return", kelvin(out.back))
		in("t_dew", "dew point", p.model.FlueGas().DewPoint)
		in("Q", "heat of all circuits, mean", units.Power(out.heat))
	case Pressure:
		step.Formula, step.Range, step.Source = "p = p_fill + (p_hot − p_fill)·(Tm − 10 °C)/(T_hot − 10 °C)", "straight between both; whole system as warm as the boiler", "vessel by the ideal gas law, straightened"
		in("p_fill", "cold", h.plan.Site.Fill)
		in("p_hot", "hottest water", h.plan.Site.Hot)
		in("Tm", "mean of the boiler's water", kelvin((out.boiler+out.back)/2))
	case FilterDrop:
		step.Formula, step.Range, step.Source = "Δp = Δp_c·(1 − (1 − 0.1)·x²)", "a clean filter takes a tenth of the head; turbulent", "common practice"
		in("Δp_c", "most head of a circuit", units.Pressure(p.head()))
	case PumpHead:
		step.Formula, step.Range, step.Source = "Δp of the circuit at its flow", "the pump set as the sheet says", "pipes and loops as surveyed"
	case TankCharge:
		t := p.tank
		step.Formula, step.Range, step.Source = "t = ∫ V·ρ·c/(Q(T) − loss) dT", "mixed tank, nobody draws", "heat balance"
		in("V", "tank", working.Water(t.Tank.Volume))
		in("T", "from", t.Set.Add(-t.Differential))
		in("T", "to", t.Set)
		in("Ts", "primary supply", t.Charge.Supply)
	case Air:
		step.Formula, step.Source = "loss(Ti, To) − gains = heat of its emitters", "heat balance of the room"
		in("To", "outdoors", at)
		in("gains", "that can be relied on", units.Power(p.rooms[r.room].gains))
		in("T", "set-point", kelvin(p.rooms[r.room].set))
	}
	return []working.Step{step}
}

func (h *House) circuitWorking(r *reading, step working.Step, s *state, out *at) []working.Step {
	n, c := &h.plant.circuits[r.circuit], &out.circuits[r.circuit]
	in := func(symbol, meaning string, v units.Quantity) {
		step.Inputs = append(step.Inputs, working.Input{Symbol: symbol, Meaning: meaning, Value: v})
	}
	switch r.Measure {
	case Wanted:
		step.Formula, step.Range, step.Source = "the entered curve at To, within its limits", "the control's sensor reads true", "definition of the curve"
		in("To", "outdoors", units.Temperature(s.outdoor))
		in("T", "least supply set", n.curve.Limit.From)
		in("T", "highest supply set", n.curve.Limit.To)
	case Supply, SupplyShown:
		step.Formula = "Ts = x·T + (1 − x)·Tr; direct x = 1; no more than wanted"
		in("T", "behind the coupling", units.Temperature(out.supply))
		in("Ts", "wanted", units.Temperature(c.wanted))
		in("x", "share of hot water", units.Fraction(c.hot))
	case Return, BranchReturn:
		step.Formula, step.Source = "Tr = Ts − Q/C; Q where the emitters' law and the water's balance agree", "EN 442-2, EN 1264-2 and heat balance"
		in("Ts", "supply", units.Temperature(c.supply))
		in("Q", "heat of the circuit", units.Power(c.heat))
		in("C", "water, heat per degree", units.LossCoefficient(c.flow))
		if r.Measure == BranchReturn {
			in("Ti", "room", units.Temperature(out.rooms[r.room].air))
		}
	case Flow:
		step.Formula, step.Source = "as surveyed, or from the drop of the design day", "the survey"
		in("C", "water, heat per degree", units.LossCoefficient(c.flow))
	}
	if !c.on {
		step.Formula, step.Source = "no call: the pipe goes towards the air about it", "common practice"
		step.Inputs = nil
	}
	return []working.Step{step}
}
