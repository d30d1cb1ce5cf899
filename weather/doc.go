// Package weather holds the outdoor temperature of a place: how many hours of a
// year lie near each temperature, and the conditions for which a system is designed.
package weather
