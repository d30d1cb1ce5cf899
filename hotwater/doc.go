// Package hotwater answers what a house's hot water needs and what it costs the
// heating: how fast a tank is charged, whether a day's draws are met, how long the
// rooms go without heat meanwhile, what a circulation loop loses, and what hygiene
// and scalding demand of the temperatures.
//
// The usual way in:
//
//	coil, err := hotwater.NewCoil(rating)                     // one rated point of the tank's coil
//	out, err := hotwater.Charge{...}.At(tankTemperature)      // least of boiler, coil and pump
//	day, err := hotwater.TankDay(hotwater.EUMedium().Timeline(), setup)
//	advice, err := hotwater.Advise(plan)                      // what to set
//
// What the package does not do: solar coils and heat pumps in the tank, water in
// long dead legs, the start-up seconds of a combi, tanks side by side.
package hotwater
