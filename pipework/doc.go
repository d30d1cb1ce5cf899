// Package pipework answers what the water does between boiler and emitters: how much
// pressure a flow costs, which flow a pump makes of it, how branches share it, which
// temperature comes out where streams mix, and what the closed system needs to hold
// its pressure and stay clean.
//
// Most callers want these ways in:
//
//	Find, NewLiquid, NewPath        // a tube, the water in it, a run of parts
//	DesignLoops, LongestLoop        // floor loops on a manifold
//	NewPumpCurve, Dial, Operate     // a pump, what to dial in, what comes of it
//	Balance, Solve                  // valves to set; flows if nobody sets them
//	Couple, JudgeCoupling           // separator, tees, buffer: what reaches the circuits
//	HotShare, ValveFor              // mixing valves
//	SizeVessel, HardnessOf          // expansion vessel and fill water
//	GlycolFor, GlycolCost           // frost protection and its price
//
// Flows of volume count at the temperature of the [Liquid] they were asked with. Where
// streams mix, flows are heat capacity flows in W/K: the same gallons are not the same
// mass at two temperatures, and only heat capacity flows add up exactly.
//
// What the package does not do: water hammer, gravity flow, gas in the water, series
// pumps, looped networks beyond parallel branches, and electrical power of pumps.
package pipework
