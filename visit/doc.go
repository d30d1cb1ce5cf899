// Package visit says what every thermometer in a house should read right now, and what
// is likeliest wrong if it does not.
//
// [New] makes a [House] from a job: its settings are solved and the plant is laid out as
// pipes, pumps, emitters and a boiler in steady flow. [House.Expect] gives the readings
// under [Conditions], each with a tolerance and its working. [House.Judge] holds what was
// measured against them: every fault of a list is played through the same plant, and the
// causes are ranked by how well each explains all readings together.
//
// A visit as a document, the walk through its steps and the record of a combustion
// measurement are in package attendance.
//
// Values go in; values and errors come out: no files, no clock, no chance without a seed.
//
// Left out: heat that pipes lose on their way, the pressures by which one valve that
// shuts pushes water through the others, and anything that swings while it is read.
package visit
