package units_test

import (
	"fmt"
	"strings"

	"curvewright/units"
)

func Example() {
	loss, err := units.Parse[units.Power]("38,000 Btu/h")
	if err != nil {
		fmt.Println(err)
		return
	}
	// Text keeps number and unit together with a no-break space; a terminal wants none.
	show := func(q units.Quantity, s units.System) string { return strings.ReplaceAll(q.Text(s), "\u00a0", " ") }
	fmt.Println(show(loss, units.US), "is", show(loss, units.SI))

	supply := units.Fahrenheit(150).Add(units.FahrenheitDifference(20))
	fmt.Println(show(supply, units.US), "is", show(supply, units.SI), "and kept as", units.Exact(supply))

	step := units.Step{System: units.US, Size: 5}
	fmt.Println(show(step.Up(units.Fahrenheit(151)), units.US))

	_, err = units.Parse[units.Temperature]("20")
	fmt.Println(err)
	// Output:
	// 38,000 Btu/h is 11.1 kW
	// 170 °F is 76.7 °C and kept as 349.8166666666667 K
	// 155 °F
	// "20" has no unit for a temperature; accepted: 70 °F, 21.1 °C, 294 K
}
