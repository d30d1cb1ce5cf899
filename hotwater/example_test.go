package hotwater_test

import (
	"fmt"

	"curvewright/hotwater"
	"curvewright/units"
)

// A tank of 50 gal behind a three-way valve, on a boiler of 100,000 Btu/h.
func ExampleAdvise() {
	advice, err := hotwater.Advise(hotwater.Plan{
		By:        hotwater.ThreeWay,
		Tank:      hotwater.Tank{Volume: units.Gallons(50)},
		Charge:    hotwater.Charge{Boiler: units.BtuPerHour(100000), Flow: units.GallonsPerMinute(8), Drop: units.FahrenheitDifference(30)},
		Cold:      units.Fahrenheit(50),
		MaxSupply: units.Fahrenheit(185),
		Heating:   units.BtuPerHour(40000), Room: units.Fahrenheit(70), Outdoor: units.Fahrenheit(5), Constant: units.Hours(40),
		WakeUp: units.Hours(6.5), Bed: units.Hours(22),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("tank %.0f °F, boiler %.0f °F, a cold tank takes %.0f min, priority ends after %.0f min\n",
		advice.Set.Fahrenheit(), advice.Supply.Fahrenheit(), float64(advice.HeatUp)/60, float64(advice.Limit)/60)
	// Output: tank 140 °F, boiler 167 °F, a cold tank takes 22 min, priority ends after 30 min
}
