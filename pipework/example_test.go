package pipework_test

import (
	"fmt"
	"strings"

	"curvewright/fluid"
	"curvewright/pipework"
	"curvewright/units"
)

func plain(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }

// The boiler's pump moves 6 gpm, the circuits want 10: what reaches them, and where
// does the sensor belong?
func ExampleJudgeCoupling() {
	at := units.Fahrenheit(150)
	boiler, _ := fluid.Water().CapacityFlow(units.GallonsPerMinute(6), at)
	system, _ := fluid.Water().CapacityFlow(units.GallonsPerMinute(10), at)
	verdict, err := pipework.JudgeCoupling(pipework.LowLossHeader, pipework.Operation{
		Name: "the design day", Boiler: boiler, System: system, Heat: units.BtuPerHour(100000),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(plain(verdict.Offset.Text(units.US)))
	fmt.Println(verdict.Place)
	// Output:
	// 14 °F
	// in the common supply of the circuits, after the low-loss header
}

// A zone of 3/4 in copper, a zone valve and baseboard, on the pump that it needs.
func ExamplePumpCurve_Dial() {
	water, _ := pipework.NewLiquid(fluid.Water(), units.Fahrenheit(150))
	tube, _ := pipework.Find(pipework.CopperM, "3/4")
	zone, err := pipework.NewPath(water,
		pipework.Run{Pipe: tube, Length: units.Feet(140), K: 20},
		pipework.Valve{Name: "zone valve", Kv: units.Cv(3.5)},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	flow := units.GallonsPerMinute(3.5)
	curve, _ := pipework.NewPumpCurve(
		pipework.PumpPoint{Flow: 0, Head: units.FeetOfWater(19)},
		pipework.PumpPoint{Flow: units.GallonsPerMinute(6), Head: units.FeetOfWater(15)},
		pipework.PumpPoint{Flow: units.GallonsPerMinute(16), Head: units.FeetOfWater(1)},
	)
	dial, err := curve.Dial(pipework.ConstantPressure, pipework.PumpPoint{Flow: flow, Head: zone.Drop(flow)})
	fmt.Printf("%s at %.1f ft of water %v\n", dial.Mode, dial.Head.FeetOfWater(), err)
	// Output:
	// constant pressure at 7.2 ft of water <nil>
}
