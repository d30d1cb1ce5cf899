package settings

import (
	"curvewright/job"
	"curvewright/units"
)

// Construction gives the U-value of a construction: as given, or from its layers.
//
// Units: the result in W/m²K.
// Range: as [building.Assembly.Transmittance]; a bridge without a share takes 15 %.
// Source: ISO 6946, combined method for inhomogeneous layers.
// Errors: a construction with neither U-value nor layers that can be used.
func Construction(c job.Construction) (units.Transmittance, error) {
	if c.U.Set {
		return c.U.Value, nil
	}
	u, _, err := assembly(c)
	return u.Transmittance, err
}
