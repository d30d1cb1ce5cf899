package visit

import "fmt"

// What is to be said and done about a fault? Remedies are common practice; makers'
// instructions and local code outrank them.

// tell writes a cause in words.
func (h *House) tell(c *cause, x float64, values []float64) Cause {
	out := Cause{Fault: c.fault, Size: c.says(x), Order: c.order, values: values}
	other := ""
	if c.circuit >= 0 {
		out.Circuit = h.plant.circuits[c.circuit].name
	}
	if c.room >= 0 {
		out.Room = h.plant.rooms[c.room].name
	}
	if c.fault == CurvesSwapped {
		other = h.plant.circuits[c.other].name
	}
	out.Says, out.Remedy = words(out, other)
	return out
}

// name is a cause with its place.
func (c *Cause) name() string {
	switch {
	case c.Room != "":
		return string(c.Fault) + ": " + c.Room
	case c.Circuit != "":
		return string(c.Fault) + ": " + c.Circuit
	}
	return string(c.Fault)
}

// Name is the cause with its place, in words.
//
// Range: any cause.
// Source: definition.
func (c Cause) Name() string { return c.name() }

// words says what a cause means and what to do.
func words(c Cause, other string) (says, remedy string) {
	size := c.Size
	switch c.Fault {
	case Nothing:
		return "The readings fit a sound plant with the settings of the sheet.", "Leave it. Write the readings down for the next visit."
	case LowPressure:
		return fmt.Sprintf("The cold pressure is down %s of what the height asks.", size), "Find the leak or the dead vessel first; check its precharge with no water pressure on it, then fill and vent."
	case PumpOff:
		return fmt.Sprintf("The pump of %s does not run, or runs against a shut valve.", c.Circuit), "See that it has power and a call, free its shaft, open its valves; look whether the check valve sits the right way."
	case AirInCircuit:
		return fmt.Sprintf("Air holds the flow of %s down %s.", c.Circuit, size), "Purge loop by loop, vent the highest points, check the pressure; then read again."
	case BranchShut:
		return fmt.Sprintf("No water passes through the emitters in %s: a shut or stuck valve, a zone valve without power, or air.", c.Room), "Open valve and thermostat, see the actuator move, vent; then read the return again."
	case DirtyFilter:
		return fmt.Sprintf("Dirt in the common pipe holds all flows down %s.", size), "Clean filter and magnet, look at the water; treat it and find where oxygen gets in."
	case PumpSlow:
		return fmt.Sprintf("The pump of %s moves too little: the flow is down %s.", c.Circuit, size), "Set its speed for the flow of the sheet; then balance."
	case PumpFast:
		return fmt.Sprintf("The pump of %s moves too much: the flow is up %s.", c.Circuit, size), "Slow it to the flow of the sheet; the return falls and the boiler condenses more."
	case BoilerPumpSlow:
		return fmt.Sprintf("The boiler's pump moves too little, down %s: the circuits mix their own return in.", size), "Match the flows at the separator; let the sensor behind it lead. Do not raise the boiler."
	case BoilerPumpFast:
		return fmt.Sprintf("The boiler's pump moves too much, up %s: hot water goes straight back.", size), "Slow it until its return is about the circuits', not below the boiler's least flow."
	case GhostFlow:
		return fmt.Sprintf("Water passes through %s though it does not call.", c.Circuit), "Fit or free its check valve; see that no pump is left on by hand."
	case ValveReversed:
		return fmt.Sprintf("The mixing valve of %s moves the wrong way: %s.", c.Circuit, size), "Turn the direction of its motor in the settings or at the plug; check ports against its arrow. A floor needs its own high limit."
	case ValveStuck:
		return fmt.Sprintf("The mixing valve of %s does not follow: it stands %s.", c.Circuit, size), "Move it by hand, see its motor and coupling; check that the right sensor leads it."
	case BoilerSensorsSwap:
		return "Supply and return sensor of the boiler are exchanged: it holds its return.", "Warm one sensor by hand and see which figure moves; exchange the plugs, by the maker's instructions."
	case SensorsSwapped:
		return fmt.Sprintf("Supply and return sensor of %s are exchanged: the valve opens until the return is as warm as the supply should be.", c.Circuit), "Warm one sensor by hand and see which figure moves; exchange the plugs."
	case SensorUnused:
		return "The control holds the boiler's own supply; the sensor behind the separator is not connected or not chosen.", "Connect it and choose it in the settings; compare both supplies again."
	case WarmOutdoorSensor:
		return fmt.Sprintf("The outdoor sensor reads too warm %s: sun, a vent, a warm wall.", size), "Read again before sunrise. Move it to the shaded north side, away from openings."
	case WrongOutdoor:
		return fmt.Sprintf("The outdoor sensor is off %s: another kind than the control expects, a bad contact, damp.", size), "Take its wires off and hold its resistance against its table; set the right kind, or replace it."
	case CurvesSwapped:
		return fmt.Sprintf("The curves of %s and %s are exchanged.", c.Circuit, other), "Compare the wiring of pumps and valves with the circuits of the control; enter each curve at its own."
	case WrongCurve:
		return fmt.Sprintf("Another curve than the sheet's is entered for %s: the supply wanted is off %s.", c.Circuit, size), "Compare every figure of the curve with the sheet, also the room set-point that it turns about."
	case LowLimit:
		return fmt.Sprintf("The highest supply of %s is set too low, %s.", c.Circuit, size), "Set the limit of the sheet; a floor's own limit stays."
	case LowOutput:
		return fmt.Sprintf("The boiler is held down %s.", size), "Set the heating output of the sheet; look whether the maker's own limit, or a fault, holds it."
	case LowCutOff:
		return "The heating is off for warm weather though it is not warm.", "Set the cut-off of the sheet; see whether the control is in summer mode."
	case SetBack:
		return fmt.Sprintf("The program has lowered the curve %s.", size), "See the clock and the program; read again in the time of comfort."
	case WeakEmitters:
		return fmt.Sprintf("The emitters on %s give less than rated, down %s: covered, sludged, or not as surveyed.", c.Circuit, size), "Take covers off, vent and flush; then measure the emitters again and correct the survey."
	case SmallEmitter:
		return fmt.Sprintf("The emitter in %s gives less than surveyed, down %s.", c.Room, size), "See whether it is covered or half cold; else correct the survey: more emitter or more flow there, not a hotter house."
	case RoomLosesMore:
		return fmt.Sprintf("%s loses more than reckoned, up %s.", c.Room, size), "Look for an open window, draughts, a missing insulation; correct the survey."
	case PriorityStuck:
		return "Hot water holds the boiler: the heating waits though the tank does not call.", "See the tank's sensor and its place, the diverting valve, and the limit of the priority."
	case PoorCoil:
		return fmt.Sprintf("The tank takes up too little heat, down %s: scale, air, a slow charging pump.", size), "Vent the coil, see the pump's speed, descale; set the primary 15 K (27 °F) above the tank's target."
	}
	return fmt.Sprintf("The gas does not burn at the rate of the plate (%s).", size), StopLicensed
}
