package hotwater

// What flow does a combi heat, and how hot does a flow become?

import (
	"cmp"

	"curvewright/units"
)

// CombiFlow gives the flow that a combi heats from cold to hot.
//
//	V̇ = Q/(ρ·c·(T_hot − T_cold)), ρ·c at the mean of both
//
// Units: a power and temperatures; the result is a flow.
// Range: as [Recovery].
// Source: heat balance of a stream.
// Errors: as Recovery.
func CombiFlow(output units.Power, cold, hot units.Temperature) (units.Flow, error) {
	return Recovery(output, cold, hot)
}

// CombiTemperature gives the temperature of the water that leaves a combi: the
// set-point, or less where the output does not suffice for the flow.
//
//	T = min(T_set, T_cold + Q/(ρ·c·V̇))
//
// Units: a power, temperatures, a flow; the result is a temperature.
// Range: output 0 to 1 MW, flow above 0 to 300 L/min, cold and set-point 0 to 95 °C.
// A combi holds its set-point only above its least flow and output.
// Source: heat balance of a stream, the reverse of [CombiFlow].
// Errors: a figure outside the range, a set-point not above the cold water.
func CombiTemperature(output units.Power, cold, set units.Temperature, flow units.Flow) (units.Temperature, error) {
	err := cmp.Or(
		within("combi output", output, 0, largestPower),
		checkRise(cold, set),
		within("hot-water flow", flow, units.LitresPerMinute(0.1), largestDraw),
	)
	if err != nil {
		return 0, err
	}
	return warmed(output, cold, set, flow), nil
}

// warmed repeats the balance with ρ·c at the mean it leads to; that changes by less
// than a thousandth per kelvin, so each round gains about two digits.
func warmed(output units.Power, cold, set units.Temperature, flow units.Flow) units.Temperature {
	hot := set
	for range 8 {
		hot = min(set, cold+units.Temperature(float64(output)/(perVolume(cold, hot)*float64(flow))))
	}
	return hot
}
