// Package settings turns a job into what to enter in its control, with reasons.
//
// [Solve] is the way in. It finds the heat load of every room, the emitters' need for
// water, the ideal heating curve of every circuit, the best curve that the described
// control can hold, and writes the settings sheet: each line with its value in the
// control's steps, why, what happens if it is wrong, a caution where one is due, how
// sure it is, and its working.
//
// The sentences are written for one system of units; solving again in the other costs
// about a millisecond and changes no value.
package settings
