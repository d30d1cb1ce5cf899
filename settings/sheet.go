package settings

import (
	"strings"

	"curvewright/units"
	"curvewright/working"
)

// Sheet is the answer to a job: what to enter in the control, in the order in which
// a person meets the questions, each line with its reason, and beneath it what the
// lines rest on.
type Sheet struct {
	Job      string
	Place    string
	Surveyed string
	By       string
	System   units.System // in which the sentences were written
	Scale    units.System // of the control: its values are in these degrees
	step     units.Step   // of the control, for its supply temperatures
	Design   units.Temperature
	// CondensesBelow is the return temperature under which the boiler condenses; zero
	// if it must not.
	CondensesBelow units.Temperature
	Load           Load
	Sections       []Section
	Circuits       []Circuit
	Findings       []Finding     // what the wanted curve runs into, and what would cure it
	Cautions       []string      // that belong to the whole sheet
	Surer          []Measurement // what to measure to be surer, best first
	Expected       []Expected    // expected readings, from design to mild, one per circuit and outdoor temperature
	Boiler         BoilerSeason  // what the boiler does over a heating season
	Flows          []FlowPoint   // temperatures and flows through the boiler room, by outdoor temperature
	Sensors        []SensorTable // tables of the job's sensors, to print
	Plant          Plant         // what stands in the boiler room
	Figures        []Figure      // what else can be asked for its working: loads, needs, returns
}

// SupplyText is a supply temperature without its unit, as fine as the control's step, so that
// it is the same number beside the line to enter. A reader on the other scale and a control
// with steps coarser than a degree get whole degrees.
//
// Units: kelvin; the text in the degrees of sys.
// Range: any temperature.
// Source: own rounding to the control's step.
func (s *Sheet) SupplyText(sys units.System, t units.Temperature) string {
	step := units.Step{System: sys, Size: 1}
	if sys.In(units.Temperatures) == s.Scale && s.step.Size > 0 {
		step.Size = min(1, s.step.Size)
	}
	figure, _, _ := strings.Cut(step.Text(step.Nearest(t)), "\u00a0")
	return figure
}

// Section groups lines under a heading.
type Section struct {
	Title string
	Part  string // "" for what is entered at the control, BoilerRoom for what belongs beside it
	Lines []Line
}

// BoilerRoom is the part of the sheet about the boiler room: flows, pumps, vessel,
// water, sensors.
const BoilerRoom = "boiler room"

// Line is one thing to enter or to check at the control.
type Line struct {
	ID      string // name for "why": "radiators.cold-supply"
	Label   string
	Circuit string // circuit it belongs to, if any
	Value   string // in the control's own scale and steps
	Also    string // the same in the reader's units, where they differ
	Allowed string // allowed range
	Why     string // one plain sentence
	TooHigh string // what happens if it is set too high
	TooLow  string // and too low
	Caution string // the usual caution, where someone or something could be hurt
	Instead string // what to do where the control cannot do this
	Band    Band
	Working []working.Step
}

// Figure is a figure behind the lines that can be asked how it came about.
type Figure struct {
	ID      string // name for "why": "load.kitchen"
	Label   string
	Value   units.Quantity
	Working []working.Step
}

// Band says how sure a value is.
type Band struct {
	Known     bool   // whether a band was computed
	Low, High string // the value lies between these in nine cases of ten
	Words     string // "good", "fair", "rough"
}

// Load is the heat loss behind the sheet.
type Load struct {
	Total    units.Power // design load of the house
	PerArea  units.Flux
	Source   string // "room by room", "from the fuel bills", "given", "estimated from ten answers"
	Rooms    []RoomLoad
	Billed   units.Power // load that the fuel bills imply, 0 without bills
	Balance  units.Temperature
	Estimate string // how rough, in words
}

// RoomLoad is the load of one room.
type RoomLoad struct {
	Name     string
	Setpoint units.Temperature
	Load     units.Power
	Source   string
}

// Circuit is one circuit's curve, wanted and set.
type Circuit struct {
	Name       string
	Kind       string // "direct" or "mixed"
	Flow       units.Flow
	Load       units.Power // carried on the design day
	Shape      string      // what the control holds, in words
	Setpoint   units.Temperature
	Limit      units.Temperature // highest supply that applies
	LimitedBy  string            // what sets it
	CutOff     units.Temperature
	Rooms      []CircuitRoom
	Points     []Point // from the design outdoor temperature to the heating limit, ascending
	Band       []BandPoint
	Withheld   bool             // whether its figures are not to be set: boiler water must not go in yet
	Lost       string           // what the control's shape costs against the ideal, in a sentence
	LostMean   units.Difference // mean supply above the ideal over the heating season
	WorstShort units.Difference // largest shortage of room temperature that the setting leaves
	WorstOver  units.Difference // largest surplus in the governing room if nothing throttles
}

// CircuitRoom is a room on a circuit.
type CircuitRoom struct {
	Name      string
	Setpoint  units.Temperature
	Emitters  string            // in words
	Need      units.Temperature // supply needed on the design day
	Governs   bool
	Condition string // "governs", "8 °F to spare"
}

// Point is the circuit at one outdoor temperature.
type Point struct {
	Outdoor units.Temperature
	Hours   units.Time        // of a typical year near this temperature
	Ideal   units.Temperature // supply that just holds the governing room
	Set     units.Temperature // supply that the setting gives
	Return  units.Temperature // at the setting
	Heat    units.Power       // to the rooms at the setting; what they get where they fall short
	Leads   int               // index of the governing room
	Rooms   []RoomPoint
}

// RoomPoint is one room at one outdoor temperature.
type RoomPoint struct {
	Need    units.Temperature // supply that this room alone needs
	Reaches units.Temperature // where it settles at the set supply with its valves open
}

// BandPoint is the spread of the needed supply at one outdoor temperature.
type BandPoint struct {
	Outdoor           units.Temperature
	Low, Median, High units.Temperature
}

// Finding is something the installer must know: a room that falls short, a limit
// reached, a survey that does not fit.
type Finding struct {
	Severity string // "stop", "short", "note"
	Circuit  string
	Room     string
	Text     string
	Cures    []string
	Working  []working.Step
}

// Measurement is an input that would narrow the result if it were measured.
type Measurement struct {
	What  string
	Share units.Fraction // of the spread that comes from it
	How   string
}

// Expected is what the thermometers should read.
type Expected struct {
	Circuit    string
	Outdoor    units.Temperature
	Supply     units.Temperature
	Return     units.Temperature
	Heat       units.Power
	Condensing bool // the boiler, with the returns of all circuits mixed
}

// BoilerSeason is what the boiler does from autumn to spring under the settings.
type BoilerSeason struct {
	Known      bool // whether there was enough to work it out
	DewPoint   units.Temperature
	Condensing units.Fraction // share of the season's heat made with a return below the dew point
	Efficiency units.Fraction // of the season against gross heat
	Cycles     bool           // whether starts could be worked out: the least output is known
	Modulation string         // where the burner stops running through
	// Starts are those of a year's heating as people live in the house, WaterStarts those
	// for hot water. Worst and WorstRun are the means of the weather with the most starts.
	Starts, WaterStarts units.Number
	Worst               units.Number // an hour
	WorstAt             units.Temperature
	WorstRun            units.Time
	// Steady is the most an hour in steady weather with all valves open.
	Steady   units.Number
	SteadyAt units.Temperature
	Water    units.Volume
	Buffer   units.Volume // to add for the shortest run wanted in steady weather with all valves open; 0 if none is needed
	// Alone is the circuit that asks for most water where it calls without the others, and
	// AloneBuffer what it asks for; of several circuits only.
	Alone       string
	AloneBuffer units.Volume
	Points      []BoilerPoint
}

// BoilerPoint is the boiler at one outdoor temperature.
type BoilerPoint struct {
	Outdoor    units.Temperature
	Supply     units.Temperature // leaving the boiler
	Return     units.Temperature // coming back to it, with what a separator sends straight back
	Load       units.Power
	Efficiency units.Fraction
	rate       units.Fraction // of full fire
	Run, Rest  units.Time     // of one cycle in steady weather with all valves open; both 0 if the burner runs through
}

// FlowPoint is the boiler room at one outdoor temperature: what the drawing shows.
type FlowPoint struct {
	Outdoor      units.Temperature
	BoilerSupply units.Temperature // leaving the boiler
	BoilerReturn units.Temperature // coming back to it
	BoilerFlow   units.Flow
	Separated    bool              // whether a separator, tees or a buffer stands between
	Secondary    units.Temperature // behind the separator, towards the circuits
	Circuits     []FlowCircuit
}

// FlowCircuit is one circuit at one outdoor temperature.
type FlowCircuit struct {
	Name   string
	Mixed  bool
	Supply units.Temperature // that reaches the emitters
	Return units.Temperature
	Flow   units.Flow
	Hot    units.Fraction // share of hot water through a mixing valve; 1 for a direct circuit
}

// SensorTable is the table of one sensor at round steps of the reader's thermometer.
type SensorTable struct {
	Name string
	Kind string // "Pt1000", "thermistor 10 kΩ at 25 °C, B 3977", "table of 5 points"
	Rows []SensorRow
}

// SensorRow is what a sensor reads at a temperature. A sound one lies between Low and High.
type SensorRow struct {
	At         units.Temperature
	Resistance units.ElectricResistance
	Low, High  units.ElectricResistance
}

// Plant is the boiler room as surveyed, in the words of the survey. An empty word was
// not surveyed.
type Plant struct {
	BoilerKind        string // "condensing", "non-condensing"
	Separator         string // "none", "low-loss header", "closely spaced tees", "two-pipe buffer" and so on
	SeparatorSensor   string // to what the sensor behind it is wired: "none", "at the boiler", "on a module"
	BufferVolume      units.Volume
	HotWater          string // "tank with own pump", "tank with three-way valve", "combi", "none"
	TankVolume        units.Volume
	TankSetpoint      units.Temperature // wanted in the tank, or at a combi's outlet
	MixingValveAtTank bool
	Loop              bool   // a hot water circulation loop
	Vessel            bool   // whether an expansion vessel was surveyed
	Relief            bool   // whether a relief valve was surveyed
	OutdoorSensor     string // "yes", "no", "planned"
	OutdoorPlace      string
	Circuits          []PlantCircuit
}

// PlantCircuit is one circuit in the boiler room.
type PlantCircuit struct {
	Name     string
	Kind     string            // "direct" or "mixed"
	Family   string            // of the emitters that carry most: "fin-tube", "cast iron", "radiators", "towel rail", "floor", "fan coil"
	PumpMode string            // how its pump runs; empty if its pump was not surveyed
	PumpOf   string            // the circuit whose pump drives it too; empty where it has its own
	Limit    units.Temperature // highest supply that it may see
}
