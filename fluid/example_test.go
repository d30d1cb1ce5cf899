package fluid_test

import (
	"fmt"

	"curvewright/fluid"
	"curvewright/units"
)

func plain(q units.Quantity) string {
	out := []rune(q.Text(units.US))
	for i, r := range out {
		if r == '\u00a0' {
			out[i] = ' '
		}
	}
	return string(out)
}

// The pump of a house that loses 38,000 Btu/h on the design day, with 20 °F from
// supply to return and the return at 130 °F, filled with water or with glycol.
func Example() {
	load, drop, at := units.BtuPerHour(38000), units.FahrenheitDifference(20), units.Fahrenheit(130)
	glycol, err := fluid.GlycolByVolume(fluid.PropyleneGlycol, 0.40)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, fill := range []fluid.Mixture{fluid.Water(), glycol} {
		flow, err := fill.FlowFor(load, drop, at)
		if err != nil {
			fmt.Println(err)
			return
		}
		freeze, _ := fill.FreezePoint()
		fmt.Printf("%s: %s, freezes at %s\n", fill, plain(flow), plain(freeze))
	}
	// Output:
	// water: 3.85 gpm, freezes at 32 °F
	// propylene glycol 40.9% by mass: 4.13 gpm, freezes at −7 °F
}
