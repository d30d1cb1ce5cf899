// Package year plays a house and its plant through a year, minute by minute: what the
// settings of the control come to in fuel, starts of the burner and warmth of the
// rooms.
//
// A [House] is rooms with air, fabric, sun and gains. A [Plant] is boiler, separator,
// circuits with radiators and heated slabs, valves, and a tank. [Settings] are the
// figures in the control. [Run] plays them on a [Weather] and gives a [Result];
// [Compare] does it for several settings at once; [Fail] lets the boiler stand still on
// the design night.
//
// Steps are explicit and short. Whatever leaves one node enters another in the same
// step, so that heat is conserved to rounding; the balance of every run is reported.
// Nothing is allocated between the first step and the last.
//
// Left out: heat that the pipes lose on their way, the wander of a control's mixing
// valve (ours knows where to go and takes its time), the interplay of valves through
// the pump's pressure, wind, and windows that people open in winter.
package year
