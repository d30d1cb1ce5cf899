// Package units holds the quantities that a heating installer works with, one
// Go type for each, and the reading and printing of them in US customary and SI
// units.
//
// Every type is a float64 whose value is in SI: kelvin, watt, metre, pascal.
// Text enters through [Parse], which demands a unit, and leaves through the Text
// methods, which round to the figures a person can use. Nothing converts in
// between, so switching a page from °F to °C and back changes no value.
//
// A temperature and a temperature difference are two types. "Raise the supply by
// 20 °F" is 11.1 K, never -6.7 °C; with one type that slip compiles, with two it
// does not:
//
//	supply := units.Fahrenheit(150)
//	rise := units.FahrenheitDifference(20)
//	supply = supply.Add(rise)   // 170 °F
//	// supply = supply + rise   // does not compile: mismatched types
//
// What the types cannot catch: two quantities of the same type swapped in a call
// (supply for return), and a power per kelvin used for the wrong pair of
// temperatures.
package units
