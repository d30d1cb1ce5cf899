package boiler_test

import (
	"fmt"

	"curvewright/boiler"
	"curvewright/units"
)

// A condensing boiler on natural gas, a quarter more air than needed, tuned to two
// points of its maker.
func Example() {
	gas, _ := boiler.FuelByKey("natural-gas")
	m, err := boiler.NewModel(gas, 0.25, boiler.CellarAir(), true, 0.2)
	if err != nil {
		fmt.Println(err)
		return
	}
	m, _, err = m.Calibrated([]boiler.RatedPoint{
		{Return: units.Fahrenheit(80), Rate: 1, Efficiency: 0.965},
		{Return: units.Fahrenheit(140), Rate: 1, Efficiency: 0.875},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("dew point %.0f °F\n", m.FlueGas().DewPoint.Fahrenheit())
	for _, f := range []float64{100, 120, 140} {
		e, _ := m.Efficiency(units.Fahrenheit(f), 0.5, boiler.Gross)
		fmt.Printf("%.0f °F return: %.1f %%\n", f, 100*float64(e))
	}
	// Output:
	// dew point 132 °F
	// 100 °F return: 94.3 %
	// 120 °F return: 89.2 %
	// 140 °F return: 87.1 %
}
