// Package weather holds the outdoor climate of a place: a typical year hour by hour,
// how many hours lie near each temperature, the conditions for which a system is
// designed, and the sun on a wall or a window.
//
// A [Year] comes from a file ([Parse] recognises which kind) or, where there is none,
// from twelve monthly means ([Climate.MakeUp]); it says which, and its Report says what
// was missing and how it was bridged. A [Spread] is the rough stand-in made of two
// temperatures. Both answer [Year.HoursBetween] and [Year.DegreeDays].
//
// What the package does not do: open files, know a place's climate by its name, or use
// wind direction, rain, snow and humidity beyond the dew point.
package weather
