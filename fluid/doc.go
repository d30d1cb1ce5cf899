// Package fluid holds what the water of a heating system is made of and what it
// carries: density, specific heat, viscosity, conductivity, freezing point, and
// from these the flow that a heat load needs.
//
// Most callers want three things:
//
//	fluid.Water().FlowFor(load, drop, at)      // load and drop to flow
//	fluid.Water().CapacityFlow(flow, at)       // flow to heat per degree
//	fluid.GlycolByVolume(fluid.PropyleneGlycol, 0.35)
//
// A flow of volume has the heat that its density gives it at the place where it is
// measured: the temperature "at" is that of the water in the meter or the pump. The
// same stream is 3 % more gallons when hot than when cold.
//
// Water is taken at 2 bar absolute, about 15 psi on the gauge of a heating system.
// Between 0 and 10 bar the density changes by less than 0.05 % and nothing else by
// more than 0.15 %, so the pressure is not asked for. Glycol mixtures are those of pure
// glycol and water: inhibitors change them a little, and the supplier's table
// outranks the figures here.
package fluid
