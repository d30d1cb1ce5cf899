package hotwater

// What does a hot-water circulation lose, and what flow does it need?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/fluid"
	"curvewright/refuse"
	"curvewright/units"
)

// Run is a length of pipe of one kind.
type Run struct {
	Outside    units.Length // outside diameter of the pipe
	Insulation units.Length // thickness; 0 for a bare pipe
	Material   units.Conductivity
	Length     units.Length
	Around     units.Temperature
}

// Film is the usual coefficient of heat to air outside an insulated pipe, W/(m²·K)
// (common practice, still air and radiation).
const Film = units.Transmittance(10)

// PerLength gives the loss of a pipe per length.
//
//	q = 2π·(T − Ta)/(ln(r2/r1)/λ + 1/(h·r2))
//
// Units: a temperature, a coefficient; result in W/m.
// Range: outside diameter 5 to 300 mm, insulation 0 to 300 mm of 0.01 to 1 W/mK, film 2
// to 50 W/m²K, water 0 to 95 °C, around −40 to 60 °C. The wall of the pipe and the
// film of the water inside are left out: they hold back a few percent at most, in
// plastic pipe. Hangers and valves are not counted.
// Source: conduction through a cylinder, ISO 12241.
// Errors: a figure outside the range, water not warmer than what is around.
func (r Run) PerLength(water units.Temperature, film units.Transmittance) (units.LinearPower, error) {
	err := cmp.Or(
		within("outside diameter of the pipe", r.Outside, 0.005, 0.3),
		within("thickness of the insulation", r.Insulation, 0, 0.3),
		within("heat transfer to the air", film, 2, 50),
		checkWater("water in the loop", water),
		within("temperature around the pipe", r.Around, units.Celsius(-40), units.Celsius(60)),
	)
	if err == nil && r.Insulation > 0 {
		err = within("conductivity of the insulation", r.Material, 0.01, 1)
	}
	if err == nil && water < r.Around {
		err = &refuse.Error{Subject: subject, What: "water in the loop", Given: tell(water), Accept: "not below the " + tell(r.Around) + " around the pipe"}
	}
	if err != nil {
		return 0, err
	}
	inner := float64(r.Outside) / 2
	outer := inner + float64(r.Insulation)
	resistance := 1 / (float64(film) * outer)
	if r.Insulation > 0 {
		resistance += math.Log(outer/inner) / float64(r.Material)
	}
	return units.LinearPower(2 * math.Pi * float64(water-r.Around) / resistance), nil
}

// LoopLoss gives the loss of a whole circulation, supply and return pipes.
//
//	Q = Σ q·L
//
// Units: a temperature; result in W.
// Range: as [Run.PerLength]; lengths 0 to 10 km. All pipes at the temperature given:
// with the usual drop of 5 K, take the mean.
// Source: sum of the runs; ISO 12241.
// Errors: as PerLength.
func LoopLoss(runs []Run, water units.Temperature) (units.Power, error) {
	sum := units.Power(0)
	for i, r := range runs {
		q, err := r.PerLength(water, Film)
		if err == nil {
			err = within("length of the pipe", r.Length, 0, 1e4)
		}
		if err != nil {
			return 0, fmt.Errorf("pipe %d of the loop: %w", i+1, err)
		}
		sum += units.Power(float64(q) * float64(r.Length))
	}
	return sum, nil
}

// LoopDrop is the most that the water of a circulation may cool on its way round
// (DVGW W 551, from memory).
const LoopDrop = units.Difference(5)

// LoopFlow gives the flow that keeps a circulation's drop.
//
//	V̇ = Q/(ρ·c·ΔT)
//
// Units: a power, a difference, the supply temperature; the result is a flow.
// Range: loss 0 to 1 MW, drop 1 to 20 K, supply 20 to 95 °C.
// Source: heat balance of a stream.
// Errors: a figure outside the range.
func LoopFlow(loss units.Power, drop units.Difference, supply units.Temperature) (units.Flow, error) {
	err := cmp.Or(
		within("loss of the loop", loss, 0, largestPower),
		within("drop round the loop", drop, 1, 20),
		within("supply of the loop", supply, units.Celsius(20), hottest),
	)
	if err != nil {
		return 0, err
	}
	return fluid.Water().FlowFor(loss, drop, supply)
}

// longestStop of a circulation in a day in a hygienically sound system (DVGW W 551,
// from memory).
const longestStop = units.Time(8 * 3600)

// LoopTimer says what stopping a circulation for part of the day saves and what it
// risks.
//
//	saved per day = Q·t, an upper bound: the pipes lose heat while they cool
//
// Units: a power, a time; the sentence is in the units of its reader.
// Range: loss 0 to 1 MW, stop 0 to 24 h a day.
// Source: heat balance; DVGW W 551 from memory for the 8 h.
// Errors: a figure outside the range.
func LoopTimer(loss units.Power, off units.Time, s units.System) (string, error) {
	err := cmp.Or(
		within("loss of the loop", loss, 0, largestPower),
		within("time that the loop stands a day", off, 0, 86400),
	)
	if err != nil {
		return "", err
	}
	if off == 0 {
		return "the circulation runs all day and loses " + units.Energy(float64(loss)*86400).HeatText(s) + " a day; hygiene comes first, so insulate before thinking of a timer", nil
	}
	saved := units.Energy(float64(loss) * float64(off))
	text := "stopping the circulation for " + off.Text(s) + " a day saves at most " + saved.HeatText(s) +
		" a day, but while it stands the pipes cool through the range in which legionella grow"
	if off > longestStop {
		return text + "; a stop should not exceed " + longestStop.Text(s) + " a day (DVGW W 551, from memory): shorten it", nil
	}
	return text + "; stop it only in a clean system of a single household and not in homes of old or ill people", nil
}
