package sensor_test

import (
	"fmt"
	"strings"

	"curvewright/sensor"
	"curvewright/units"
)

// A 10 kΩ thermistor outdoors reads 15 kΩ in the sun while it is 40 °F in the shade.
func ExampleJudge() {
	s, err := sensor.FromSteinhartHart("type 2", 1.129148e-3, 2.34125e-4, 8.76741e-8)
	if err != nil {
		fmt.Println(err)
		return
	}
	judgement, err := sensor.Judge(s, sensor.Reading{Reads: units.Kiloohms(15), True: units.Fahrenheit(40), Instrument: units.FahrenheitDifference(2), Outdoor: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	sentences := strings.SplitAfter(strings.ReplaceAll(judgement.Text(units.US), "\u00a0", " "), ". ")
	fmt.Println(sentences[1])
	// Output: The thermometer says 40 °F ± 2 °F; the sensor shows 21 °F too warm: wrong.
}
