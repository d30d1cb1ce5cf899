package emitter

// What does a fan coil give at another water temperature, flow or room than its
// table shows? One rated point fixes its heat transmission; the effectiveness of a
// crossflow heat exchanger gives the rest.

import (
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// airHeatCapacity turns an air flow into heat capacity flow, J/(m³·K): standard air,
// 1.2 kg/m³ times 1006 J/(kg·K), the trade's 1.08 Btu/h per cfm and °F.
const airHeatCapacity = 1.2 * 1006

// Coil is a fan coil at one fan speed. It is an [Emitter] whose air enters at room
// temperature. Make one with [NewCoil].
type Coil struct {
	transmission float64 // UA, W/K, taken as constant
	air          float64 // heat capacity flow of the air, W/K
}

// CoilRating is one rated point of a fan coil.
type CoilRating struct {
	Output        units.Power
	EnteringWater units.Temperature
	EnteringAir   units.Temperature
	WaterFlow     units.Flow
	AirFlow       units.Flow
}

// NewCoil makes a fan coil from one rated point by finding the heat transmission UA
// that gives it. UA is then kept: the air side, whose flow the fan holds, makes up
// most of the resistance. Well below half the rated water flow the real output is
// therefore somewhat less than given here.
//
//	ε = Q/(Cmin·(tw − ta)); ε = 1 − exp[(N^0.22/r)·(exp(−r·N^0.78) − 1)]
//	N = UA/Cmin, r = Cmin/Cmax
//
// Units: as [CoilRating].
// Range: effectiveness above 0 to 0.95; flows above 0.
// Source: crossflow, both fluids unmixed: effectiveness relation of heat-transfer
// textbooks (Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, chapter on
// heat exchangers), from memory; an approximation, good to about 1 %.
// Errors: a figure not above 0, water no warmer than the air, or more heat than air
// and water could exchange.
func NewCoil(r CoilRating) (Coil, error) {
	water, air := float64(r.WaterFlow)*waterHeatCapacity, float64(r.AirFlow)*airHeatCapacity
	span := float64(r.EnteringWater - r.EnteringAir)
	switch {
	case !(r.Output > 0 && r.Output <= 1e6):
		return Coil{}, fmt.Errorf("fan coil: an output of %s is not usable; give the rated output, for example 3 kW or 10,000 Btu/h", refuse.Both(r.Output))
	case !(water > 0 && water <= largestFlow):
		return Coil{}, fmt.Errorf("fan coil: a water flow of %s is not usable; give the rated flow, for example 2 gpm", refuse.Both(r.WaterFlow))
	case !(air > 0 && air <= largestFlow):
		return Coil{}, fmt.Errorf("fan coil: an air flow of %s is not usable; give the rated flow, for example 300 cfm", refuse.Both(r.AirFlow))
	case !(span > 0 && span <= largestExcess):
		return Coil{}, fmt.Errorf("fan coil: entering water at %s is not above the entering air at %s; check the rated point", refuse.Both(r.EnteringWater), refuse.Both(r.EnteringAir))
	}
	least := math.Min(water, air)
	ratio := least / math.Max(water, air)
	wanted := float64(r.Output) / (least * span)
	if wanted > 0.95 {
		return Coil{}, fmt.Errorf("fan coil: %s is %.0f %% of all the heat that water and air at these flows could exchange; accepted: up to 95 %%, so check flows and temperatures",
			refuse.Both(r.Output), 100*wanted)
	}
	low, high := 0.0, 1e5 // at r = 1 an effectiveness of 0.95 needs N of about 150
	for range 100 {
		middle := low + (high-low)/2
		if crossflow(middle, ratio) < wanted {
			low = middle
		} else {
			high = middle
		}
	}
	return Coil{transmission: high * least, air: air}, nil
}

// Output gives the heat at a water temperature and flow, with air entering at room
// temperature.
//
//	Q = ε·Cmin·(Ts − room); Tr = Ts − Q/C
//
// Units: supply and room in K, flow in W/K; result in W and K.
// Range: supply above the room, flow above 0; otherwise no heat. Fan at the rated
// speed.
// Source: effectiveness and transfer units, as [NewCoil].
func (c Coil) Output(supply units.Temperature, flow units.LossCoefficient, room units.Temperature) Heat {
	span := float64(supply - room)
	if !(span > 0 && span <= largestExcess && flow > 0 && flow <= largestFlow && c.transmission > 0) {
		return idle(supply, room)
	}
	q := c.perKelvin(float64(flow)) * span
	return Heat{Room: units.Power(q), Water: units.Power(q), Return: supply - units.Temperature(q/float64(flow))}
}

// SupplyFor gives the supply temperature at which the coil gives the heat q.
//
//	Ts = room + q/(ε·Cmin)
//
// Units: q in W, flow in W/K, room in K; result in K.
// Range: q from 0; flow above 0; answers to 150 °C (302 °F).
// Source: effectiveness and transfer units, as [NewCoil].
// Errors: a coil not made by NewCoil, a negative heat, no flow, a supply above 150 °C.
func (c Coil) SupplyFor(q units.Power, flow units.LossCoefficient, room units.Temperature) (units.Temperature, error) {
	if c.transmission <= 0 {
		return 0, fmt.Errorf("fan coil: it has no rated point; enter output, water, air and flows first")
	}
	if err := checkDemand(q, flow, room); err != nil || q == 0 {
		return room, err
	}
	return withinHouse(room+units.Temperature(float64(q)/c.perKelvin(float64(flow))), q, flow)
}

// perKelvin is ε·Cmin, the heat for each kelvin between entering water and air.
func (c Coil) perKelvin(water float64) float64 {
	least := math.Min(water, c.air)
	return crossflow(c.transmission/least, least/math.Max(water, c.air)) * least
}

// crossflow gives the effectiveness for transfer units n and capacity ratio r. As r
// goes to 0 the relation becomes 1 − e^(−n), which is used below 1e-6, where the
// difference of exponentials loses its digits.
func crossflow(n, r float64) float64 {
	if n <= 0 {
		return 0
	}
	if r < 1e-6 {
		return -math.Expm1(-n)
	}
	return -math.Expm1(math.Pow(n, 0.22) / r * math.Expm1(-r*math.Pow(n, 0.78)))
}
