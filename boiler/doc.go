// Package boiler gives what happens between the gas meter and the boiler's two pipes:
// combustion, condensing, efficiency, modulation and cycling.
//
// A [Fuel] burnt with so much excess air becomes [FlueGas], which knows its dew point
// and its heat. A [Model] puts a return temperature and a firing rate in front of it
// and gives an efficiency; [Model.Calibrated] bends the model to the points that a
// maker declares. [Cycling] says how long a burner runs and rests, [ContinuousBelow]
// at which outdoor temperature it stops resting.
//
// What the package does not do: it judges no combustion and sets no burner. That takes
// a licensed person, the maker's figures and an analyser; the sentences named Caution
// stand beside every number that touches it. Losses of a boiler at rest (standby,
// purging before a start) are not part of the steady efficiency.
package boiler
