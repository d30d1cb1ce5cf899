// Package sensor turns the resistance of a temperature sensor into a temperature and
// back, says how far the sensor may be off, and judges a reading taken at the
// terminals against a thermometer held beside the sensor.
//
// A [Sensor] comes from what its sheet gives: [FromB], [FromSteinhartHart],
// [FromTable] (or a pasted table, [ParseTable]) or [Platinum]. A single B is fitted
// between two temperatures, and the sensor's own table departs from it by 1 to 2 K at
// −20 and 100 °C: a table or three coefficients outrank it, and [Sensor.Basis] says
// which was used.
//
// What the package does not do: self-heating by the meter, voltages and currents of
// active sensors, the resistance of long leads.
package sensor
