// Package decide searches the settings of a control by playing years: curve, room
// influence, lowering and preheating, warm-weather cut-off, differential and pause of the
// burner.
//
// [Search] starts at the settings sheet and keeps to what the control can hold. It gives
// the least fuel that keeps everybody warm, and the [Answer.Front] of all that was played:
// less fuel against more cold, for a person to slide along. What it recommends is then
// played in houses that differ from the survey by as much as the survey may be off, and
// [Answer.Sure] tells in how many of them comfort holds.
//
// The same case gives the same answer on any number of cores.
package decide
