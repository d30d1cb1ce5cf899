package weather_test

import (
	"fmt"
	"strings"

	"curvewright/units"
	"curvewright/weather"
)

func ExampleParse() {
	// A logger's table: here the same cold and mild hour over and over.
	table := "outdoor temperature (°F)\n" + strings.Repeat("14\n52\n", 8760/2)
	y, err := weather.Parse([]byte(table), weather.Place{})
	if err != nil {
		fmt.Println(err)
		return
	}
	show := func(q units.Quantity) string { return strings.ReplaceAll(q.Text(units.US), "\u00a0", " ") }
	fmt.Println("design", show(y.DesignTemperature(weather.Design99)))
	fmt.Println("below 65 °F", show(y.DegreeDays(units.Fahrenheit(65))))
	fmt.Println(y.Report.Columns[0].Text())
	// Output:
	// design 14 °F
	// below 65 °F 11,680 °F·d
	// dry bulb: complete
}
