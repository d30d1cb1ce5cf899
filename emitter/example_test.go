package emitter_test

import (
	"fmt"

	"curvewright/emitter"
	"curvewright/units"
)

// A radiator of 5,000 Btu/h at 180/160/70 °F, asked for half of that at the same flow.
func ExampleRadiator() {
	rating := emitter.Rating{Supply: units.Fahrenheit(180), Return: units.Fahrenheit(160), Room: units.Fahrenheit(70)}
	radiator, err := emitter.Radiator(units.BtuPerHour(5000), rating, emitter.Panel.Exponent())
	if err != nil {
		fmt.Println(err)
		return
	}
	flow := units.LossCoefficient(float64(units.BtuPerHour(5000)) / float64(units.FahrenheitDifference(20)))
	supply, err := radiator.SupplyFor(units.BtuPerHour(2500), flow, units.Fahrenheit(70))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("supply %.0f °F, return %.0f °F\n", supply.Fahrenheit(), radiator.Output(supply, flow, units.Fahrenheit(70)).Return.Fahrenheit())
	// Output: supply 134 °F, return 124 °F
}
