package job

import "curvewright/units"

// Found is the control as it stood when the installer came, so that a year can be played
// with it and a log judged by it. Whatever is left out is not known.
type Found struct {
	Curves       []FoundCurve             `yaml:"curves" doc:"the curve of each circuit as it stood"`
	CutOff       Given[units.Temperature] `yaml:"cut_off" doc:"warm-weather cut-off; heating all year if left out"`
	Lower        Given[units.Temperature] `yaml:"lower" doc:"room temperature while it lowered; never lowered if left out"`
	LoweredFrom  string                   `yaml:"lowered_from" doc:"when it began to lower, as 22:00"`
	LoweredTo    string                   `yaml:"lowered_to" doc:"when it ended, as 06:00"`
	OutputLimit  Given[units.Power]       `yaml:"output_limit" doc:"limit of the heating output; none if left out"`
	Differential Given[units.Difference]  `yaml:"differential" doc:"between the burner's stop and its next start; that of the boiler if left out"`
	Rest         Given[units.Time]        `yaml:"least_rest" doc:"shortest rest of the burner; 5 min if left out"`
	HotWater     Given[units.Temperature] `yaml:"hot_water" doc:"set-point of the hot water; that of the sheet if left out"`
	HotWaterDrop Given[units.Difference]  `yaml:"hot_water_differential" doc:"so far below it a charge began"`
	Priority     string                   `yaml:"priority" oneof:"yes,no" doc:"whether the heating waited while the tank was charged"`
	FrostOutdoor Given[units.Temperature] `yaml:"frost_outdoor" doc:"frost protection by the outdoor sensor; none if left out"`
	FrostRoom    Given[units.Temperature] `yaml:"frost_room" doc:"frost protection by a room sensor; none if left out"`
}

// FoundCurve is what made the supply of a circuit: a curve in one of its shapes, a supply
// held whatever the weather, or what the control came with.
type FoundCurve struct {
	Circuit     string                   `yaml:"circuit" doc:"name of the circuit; needed where there are several"`
	Preset      string                   `yaml:"preset" oneof:"radiators,floor" doc:"left as controls commonly come: 167 °F at 14 °F for radiators and baseboards, 113 °F at 14 °F for heated floors"`
	Held        Given[units.Temperature] `yaml:"held" doc:"supply held whatever the weather"`
	ColdOutdoor Given[units.Temperature] `yaml:"cold_outdoor" doc:"outdoor temperature of the cold point"`
	ColdSupply  Given[units.Temperature] `yaml:"cold_supply" doc:"supply there"`
	MildOutdoor Given[units.Temperature] `yaml:"mild_outdoor" doc:"outdoor temperature of the mild point"`
	MildSupply  Given[units.Temperature] `yaml:"mild_supply" doc:"supply there"`
	Exponent    Given[units.Number]      `yaml:"exponent" doc:"exponent, if the curve was bent between its two points"`
	Slope       Given[units.Number]      `yaml:"slope" doc:"slope"`
	Shift       Given[units.Difference]  `yaml:"shift" doc:"parallel shift; none if left out"`
	Points      []FoundPoint             `yaml:"points" doc:"points of a table, from cold to mild"`
	MinSupply   Given[units.Temperature] `yaml:"min_supply" doc:"lowest supply that was set"`
	MaxSupply   Given[units.Temperature] `yaml:"max_supply" doc:"highest supply that was set"`
}

// FoundPoint is one point of a table.
type FoundPoint struct {
	Outdoor Given[units.Temperature] `yaml:"outdoor" need:"yes" doc:"outdoor temperature"`
	Supply  Given[units.Temperature] `yaml:"supply" need:"yes" doc:"supply there"`
}
