package boiler

// Sentences that stand beside the numbers of this package wherever a person reads
// them. A number from here never replaces what they ask for.

// The cautions.
const (
	CautionGas = "Gas pressure, burner settings and gas leaks are for a person licensed for gas work, after the maker's instructions and the local code."

	CautionCarbonMonoxide = "Carbon monoxide kills without a smell: if the alarm sounds or a reading in the room is raised, shut the burner off, air the room, get everybody out and call the gas supplier or the fire service."

	CautionCombustion = "A flue-gas reading is judged against the maker's figures for this burner and fuel, with a calibrated analyser, at steady fire; the figures here are arithmetic, not a verdict on safety."

	CautionAltitude = "For altitude the maker's own table outranks any rule: fan-assisted and modulating burners often adapt by themselves or follow other figures, and the local authority has the last word."

	CautionOutputLimit = "Limit the output for heating only; hot water may need the full output, and some controls limit both with one setting."

	CautionCondensate = "Condensate is acid: its drain, neutraliser and frost protection follow the maker's instructions and the local code."

	CautionReturn = "Below the dew point a boiler, chimney or vent that is not made for it corrodes; the maker's least return temperature outranks the figure here, and the vent must suit the flue gas."

	CautionClocking = "When the meter is clocked, every other gas appliance, pilot flames included, must be off."

	CautionOil = "Sulphur in oil raises the temperature at which acid condenses far above the dew point of the water; low-sulphur oil less than the rest."
)
