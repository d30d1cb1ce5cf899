package job

import "curvewright/units"

// Control is what the installer copies from the manual of whatever control hangs
// on the wall: what it can hold, not what make it is.
type Control struct {
	Scale        string                   `yaml:"scale" oneof:"fahrenheit,celsius" doc:"scale that the control shows"`
	Clock        string                   `yaml:"clock" oneof:"12 hour,24 hour" doc:"how it shows time"`
	Step         Given[units.Difference]  `yaml:"step" doc:"smallest step of a supply temperature; 1 °F or 0.5 K if left out"`
	RoomStep     Given[units.Difference]  `yaml:"room_step" doc:"smallest step of a room temperature"`
	MinSupply    Given[units.Temperature] `yaml:"min_supply" doc:"lowest supply limit that can be set"`
	MaxSupply    Given[units.Temperature] `yaml:"max_supply" doc:"highest supply limit that can be set"`
	Curve        Shapes                   `yaml:"curve" doc:"shape of the heating curve that it can hold; exactly one"`
	CutOff       *CutOff                  `yaml:"cut_off" doc:"warm-weather cut-off; leave out if it has none"`
	PointsPerDay int                      `yaml:"points_per_day" doc:"switching points a day; 0 if it has no program"`
	RoomSensor   string                   `yaml:"room_influence" oneof:"yes,no" doc:"whether it can correct the curve from a room sensor"`
	FrostBy      []string                 `yaml:"frost_by" oneof:"outdoor,room" doc:"what its frost protection can watch"`
	OutputLimit  string                   `yaml:"output_limit" oneof:"percent,power,none" doc:"how it limits the heating output of the boiler"`
	SlabLimit    string                   `yaml:"circuit_limit" oneof:"yes,no" doc:"whether each circuit has a highest supply of its own"`
	EmitterKinds string                   `yaml:"asks_emitter_kind" oneof:"yes,no" doc:"whether it asks for the kind of emitter"`
	SensorAsked  string                   `yaml:"asks_separator_sensor" oneof:"yes,no" doc:"whether it asks where the separator sensor is"`
}

// Shapes are the families of curve; a control has exactly one.
type Shapes struct {
	TwoPoints  *TwoPoints  `yaml:"two_points" doc:"straight line through a cold point and a mild point"`
	SlopeShift *SlopeShift `yaml:"slope_shift" doc:"slope and parallel shift about the room set-point"`
	Bent       *Bent       `yaml:"bent" doc:"curve bent by an exponent between a cold point and a mild point"`
	Table      *TableShape `yaml:"table" doc:"table of points, straight between them"`
}

// TwoPoints is a line through two points.
type TwoPoints struct {
	ColdOutdoor Range  `yaml:"cold_outdoor" doc:"outdoor temperature of the cold point: a range, or one value if it is fixed"`
	MildOutdoor Range  `yaml:"mild_outdoor" doc:"outdoor temperature of the mild point"`
	ColdSupply  Range  `yaml:"cold_supply" doc:"supply temperature at the cold point"`
	MildSupply  Range  `yaml:"mild_supply" doc:"supply temperature at the mild point"`
	Beyond      string `yaml:"beyond" oneof:"continues,holds" doc:"colder than the cold point: the curve continues, or holds the cold supply; continues if left out"`
}

// Bent is a curve bent by an exponent between two points.
type Bent struct {
	ColdOutdoor Range       `yaml:"cold_outdoor" doc:"outdoor temperature of the cold point"`
	MildOutdoor Range       `yaml:"mild_outdoor" doc:"outdoor temperature of the mild point"`
	ColdSupply  Range       `yaml:"cold_supply" doc:"supply temperature at the cold point"`
	MildSupply  Range       `yaml:"mild_supply" doc:"supply temperature at the mild point"`
	Exponent    NumberRange `yaml:"exponent" doc:"exponent: a range with a step, or one value"`
	Beyond      string      `yaml:"beyond" oneof:"continues,holds" doc:"colder than the cold point: the curve continues, or holds the cold supply; continues if left out"`
}

// SlopeShift is supply = room + shift + slope · (room − outdoor).
type SlopeShift struct {
	Slope NumberRange     `yaml:"slope" doc:"slope"`
	Shift DifferenceRange `yaml:"shift" doc:"parallel shift"`
}

// TableShape is a table of points.
type TableShape struct {
	Points  int   `yaml:"points" need:"yes" doc:"how many points it holds, 2 to 12"`
	Outdoor Range `yaml:"outdoor" doc:"range of its outdoor temperatures"`
	Supply  Range `yaml:"supply" doc:"range of its supply temperatures"`
}

// Range is a range of temperatures that can be set; from = to means fixed.
type Range struct {
	From Given[units.Temperature] `yaml:"from" doc:"lowest value"`
	To   Given[units.Temperature] `yaml:"to" doc:"highest value"`
}

// NumberRange is a range of plain figures.
type NumberRange struct {
	From Given[units.Number] `yaml:"from" doc:"lowest value"`
	To   Given[units.Number] `yaml:"to" doc:"highest value"`
	Step Given[units.Number] `yaml:"step" doc:"step"`
}

// DifferenceRange is a range of temperature differences.
type DifferenceRange struct {
	From Given[units.Difference] `yaml:"from" doc:"lowest value"`
	To   Given[units.Difference] `yaml:"to" doc:"highest value"`
	Step Given[units.Difference] `yaml:"step" doc:"step"`
}

// CutOff is the warm-weather cut-off.
type CutOff struct {
	From Given[units.Temperature] `yaml:"from" doc:"lowest value"`
	To   Given[units.Temperature] `yaml:"to" doc:"highest value"`
	Step Given[units.Difference]  `yaml:"step" doc:"step"`
}
