package pipework

// Cautions that belong to the results, wherever they are shown.

// Sentences of safety. Local code, the makers' instructions and licensed practice
// outrank every figure of this package.
const (
	CautionRelief      = "The relief valve protects people: never plug, cap or isolate it, pipe its outlet full size to a safe place, and keep its setting at or below the working pressure of the weakest part."
	CautionVessel      = "Check an expansion vessel's precharge with no water pressure on it; open a system only when it is cold and without pressure."
	CautionGlycol      = "Ethylene glycol is poisonous: use it nowhere near drinking water; with a potable-water heat exchanger take propylene glycol with inhibitors made for heating, and keep car antifreeze out."
	CautionGlycolWaste = "Drained glycol is waste: no drain, no ground; follow the local rule."
	CautionBackflow    = "Join heating water to drinking water only through the backflow preventer that the local plumbing code asks for, and never leave a fill hose connected."
	CautionFreezeBurst = "The freezing point is where ice begins; the supplier's burst point lies lower. A pipe that must still flow needs the freezing point."
	CautionHighLimit   = "A floor behind a mixing valve needs a high limit of its own that stops its pump, for the day the valve sticks."
	CautionFlowMinimum = "Keep the boiler's least flow when slowing its pump; the maker's figure outranks the balance."
	CautionDraining    = "Draining and venting hot water scalds: let it cool below 50 °C (122 °F) first."
)
