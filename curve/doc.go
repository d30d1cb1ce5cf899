// Package curve finds the supply temperature that each room needs at every outdoor
// temperature, and the best heating curve that a given control can hold.
//
// A [Circuit] is rooms with their losses, gains and emitters on one stream of water.
// [Circuit.Solve] gives, over a list of outdoor temperatures, the supply that each
// room needs, the governing room, and where every other room would settle. [Fit]
// then chooses the settings of one of the four shapes of control curve ([Shape]) so
// that no room is short by more than a stated tolerance and the water is no hotter
// than it has to be, weighted by the hours of the year.
//
// It does not know what a document or a settings sheet is.
package curve
