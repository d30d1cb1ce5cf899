package year_test

import (
	"fmt"

	"curvewright/boiler"
	"curvewright/building"
	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/pipework"
	"curvewright/units"
	"curvewright/year"
)

// One room of 60 W/K with a radiator, a boiler and a straight curve, in five steady cold
// days.
func ExampleRun() {
	fuel, _ := boiler.FuelByKey("natural-gas")
	model, _ := boiler.NewModel(fuel, 0.25, boiler.Air{Temperature: units.Celsius(20), Humidity: 0.4}, true, 0.2)
	law, err := emitter.Radiator(3600, emitter.RatedAtExcess(50), 1.3)
	if err != nil {
		fmt.Println(err)
		return
	}
	house := year.House{Rooms: []year.Room{{
		Name: "living room", Set: units.Celsius(20), Air: 300e3, Loss: building.Loss{Outdoor: 60},
		Fabric: []year.Fabric{{Capacity: 5e6, ToAir: 150}},
	}}}
	plant := year.Plant{
		Boiler:   year.Boiler{Model: model, Least: 1500, Most: 12000, Capacity: 60e3, Hottest: units.Celsius(85)},
		Coupling: pipework.Direct,
		Circuits: []year.Circuit{{Name: "radiators", Water: 40e3, Pump: 30,
			Radiators: []year.Radiator{{Law: law, Flow: 200, Capacity: 120e3, Radiant: 0.3}}}},
	}
	settings := year.Settings{Differential: 6, Rest: 180, Circuits: []year.CircuitSettings{{Curve: curve.Setting{
		Cold:  curve.Point{Outdoor: units.Celsius(-15), Supply: units.Celsius(55)},
		Mild:  curve.Point{Outdoor: units.Celsius(20), Supply: units.Celsius(20)},
		Limit: curve.Span[units.Temperature]{From: units.Celsius(20), To: units.Celsius(70)},
	}}}}
	result, err := year.Run(house, plant, settings, year.Steady(units.Celsius(-5), 5, 0), year.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("fuel %.0f kWh, %d starts, mean %.1f °C\n", float64(result.Fuel)/3.6e6, result.Starts, result.Rooms[0].Mean.Celsius())
	// Output:
	// fuel 182 kWh, 46 starts, mean 18.7 °C
}
