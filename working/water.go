package working

import "curvewright/units"

// Water is a volume of water in a step: it prints in litres or gallons, where a plain
// volume prints as a space.
type Water units.Volume

// Text prints the volume for a reader of the system.
func (v Water) Text(s units.System) string { return units.Volume(v).WaterText(s) }
