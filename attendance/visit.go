package attendance

import (
	"curvewright/job"
	"curvewright/units"
)

// Visit is one attendance on site.
type Visit struct {
	Version     int           `yaml:"curvewright" need:"yes" doc:"version of this document; 1"`
	Date        string        `yaml:"visit" need:"yes" doc:"day of the visit, as 2026-11-25"`
	Job         string        `yaml:"job" doc:"name of the job"`
	By          string        `yaml:"by" doc:"who attended"`
	Reason      string        `yaml:"reason" oneof:"commissioning,return visit,complaint,service,correction" doc:"why"`
	Corrects    string        `yaml:"corrects" doc:"day of the signed visit that this one corrects"`
	Engine      string        `yaml:"engine" doc:"version of the engine that judged"`
	Against     string        `yaml:"judged_against" doc:"fingerprint of the job document that was judged against"`
	Conditions  Conditions    `yaml:"conditions" doc:"under which conditions was read"`
	Readings    Readings      `yaml:"readings" doc:"what was read"`
	Instruments Instruments   `yaml:"instruments" doc:"what the instruments may be off"`
	Entered     []Entered     `yaml:"entered" doc:"lines of the settings sheet, as entered in the control"`
	Curves      []Curve       `yaml:"curves" doc:"curves as found in the control, where they are not the sheet's"`
	Checks      []Check       `yaml:"checks" doc:"steps of the walk"`
	Combustion  *Combustion   `yaml:"combustion" apart:"yes" doc:"what the analyser said"`
	Water       *Water        `yaml:"water" apart:"yes" doc:"water of the heating system"`
	Pressure    *PressureTest `yaml:"pressure_test" apart:"yes" doc:"test of the pipework"`
	Loops       []Loop        `yaml:"loops" doc:"balancing of the loops"`
	Photos      []Photo       `yaml:"photos" doc:"photographs, kept beside the document"`
	Signatures  []Signature   `yaml:"signatures" doc:"who signed"`
	Again       string        `yaml:"follow_up" doc:"day of the return visit"`
	Notes       string        `yaml:"notes" doc:"anything worth keeping"`
	Sealed      string        `yaml:"sealed" doc:"fingerprint of the signed document; set on signing"`
}

// Conditions are what is known without reading the plant.
type Conditions struct {
	Outdoor job.Given[units.Temperature] `yaml:"outdoor" need:"yes" doc:"outdoor temperature, by a thermometer in the shade"`
	State   string                       `yaml:"state" oneof:"steady,settled,held,fresh" doc:"steady: all valves up, the same calls for half an hour; settled: for days; held: left to itself; fresh: just switched on; steady if left out"`
	Calling []string                     `yaml:"calling" doc:"circuits that call; all of them if left out"`
	Tank    string                       `yaml:"tank" oneof:"yes,no" doc:"whether the hot-water tank calls"`
	Since   job.Given[units.Time]        `yaml:"since" doc:"of a fresh house: how long it has been on"`
	Start   job.Given[units.Temperature] `yaml:"start" doc:"of a fresh house: how warm it was then"`
}

// Readings are what was read, all of it or some.
type Readings struct {
	Outdoor   job.Given[units.Temperature] `yaml:"outdoor_shown" doc:"outdoor temperature that the control shows"`
	Boiler    Boiler                       `yaml:"boiler" doc:"at the boiler"`
	Separator Separator                    `yaml:"separator" doc:"behind the separator"`
	Circuits  []Circuit                    `yaml:"circuits" doc:"by circuit"`
	Rooms     []Room                       `yaml:"rooms" doc:"by room"`
	Tank      job.Given[units.Time]        `yaml:"tank_charge" doc:"time from the tank's start to its set-point"`
	Sensors   []Sensor                     `yaml:"sensors" doc:"resistances at the sensors' terminals"`
}

// Boiler is what is read at the boiler.
type Boiler struct {
	Supply     job.Given[units.Temperature] `yaml:"supply" doc:"supply"`
	Shown      job.Given[units.Temperature] `yaml:"supply_shown" doc:"supply that the control shows"`
	Return     job.Given[units.Temperature] `yaml:"return" doc:"return"`
	Rate       job.Given[units.Fraction]    `yaml:"rate" doc:"firing rate that it shows, of full fire"`
	Run        job.Given[units.Time]        `yaml:"run" doc:"length of a run of the burner"`
	Pause      job.Given[units.Time]        `yaml:"pause" doc:"length of a pause"`
	Meter      job.Given[units.Time]        `yaml:"meter" doc:"time of a turn of the meter's dial at full fire"`
	Flue       job.Given[units.Temperature] `yaml:"flue" doc:"flue gas"`
	Condensate job.Given[units.MassFlow]    `yaml:"condensate" doc:"condensate that drips"`
	Pressure   job.Given[units.Pressure]    `yaml:"pressure" doc:"pressure of the system"`
	Filter     job.Given[units.Pressure]    `yaml:"filter_drop" doc:"difference of pressure across filter and dirt separator, pumps running"`
}

// Separator is what is read on the circuits' side.
type Separator struct {
	Supply job.Given[units.Temperature] `yaml:"supply" doc:"supply towards the circuits"`
	Return job.Given[units.Temperature] `yaml:"return" doc:"return from the circuits"`
}

// Circuit is what is read of a circuit.
type Circuit struct {
	Name   string                       `yaml:"name" need:"yes" doc:"name of the circuit"`
	Wanted job.Given[units.Temperature] `yaml:"wanted" doc:"supply that the control wants"`
	Supply job.Given[units.Temperature] `yaml:"supply" doc:"supply, by a thermometer"`
	Shown  job.Given[units.Temperature] `yaml:"supply_shown" doc:"supply that the control shows"`
	Return job.Given[units.Temperature] `yaml:"return" doc:"return"`
	Flow   job.Given[units.Flow]        `yaml:"flow" doc:"flow"`
	Head   job.Given[units.Pressure]    `yaml:"pump_head" doc:"difference of pressure across its pump, by gauges or as the pump shows it"`
}

// Room is what is read of a room.
type Room struct {
	Name    string                       `yaml:"name" need:"yes" doc:"name of the room"`
	Air     job.Given[units.Temperature] `yaml:"air" doc:"air"`
	Circuit string                       `yaml:"circuit" doc:"circuit of the return, where the room has several"`
	Return  job.Given[units.Temperature] `yaml:"return" doc:"return of its emitters"`
}

// Sensor is a resistance read at a sensor's terminals.
type Sensor struct {
	Name   string                              `yaml:"name" need:"yes" doc:"name of the sensor in the job"`
	Reads  job.Given[units.ElectricResistance] `yaml:"reads" need:"yes" doc:"resistance, wires off the control"`
	Beside job.Given[units.Temperature]        `yaml:"beside" doc:"temperature beside it, by a thermometer"`
}

// Instruments are what they may be off, by their sheets; usual ones where left out.
type Instruments struct {
	Thermometer job.Given[units.Difference] `yaml:"thermometer" doc:"of water temperatures; 2 °F if left out"`
	Room        job.Given[units.Difference] `yaml:"room" doc:"of room temperatures"`
	Flue        job.Given[units.Difference] `yaml:"flue" doc:"of the flue gas"`
	Flow        job.Given[units.Fraction]   `yaml:"flow" doc:"of the flow, as a share; 10 % if left out"`
	Gauge       job.Given[units.Pressure]   `yaml:"gauge" doc:"of the pressure gauge"`
	Analyser    string                      `yaml:"analyser" doc:"the analyser and its last calibration"`
}

// Entered is a line of the sheet as entered.
type Entered struct {
	Line  string `yaml:"line" need:"yes" doc:"name of the line on the settings sheet"`
	As    string `yaml:"as" need:"yes" oneof:"sheet,otherwise,not there" doc:"as the sheet says, otherwise, or the control has no such line"`
	Sheet string `yaml:"sheet" doc:"what the sheet said"`
	Value string `yaml:"value" doc:"what was entered instead"`
	Why   string `yaml:"why" doc:"why"`
}

// Curve is a curve as found in the control; only what the control has is given.
type Curve struct {
	Circuit  string                       `yaml:"circuit" need:"yes" doc:"name of the circuit"`
	Cold     job.Given[units.Temperature] `yaml:"cold_outdoor" doc:"outdoor temperature of the cold point"`
	ColdAt   job.Given[units.Temperature] `yaml:"cold_supply" doc:"supply there"`
	Mild     job.Given[units.Temperature] `yaml:"mild_outdoor" doc:"outdoor temperature of the mild point"`
	MildAt   job.Given[units.Temperature] `yaml:"mild_supply" doc:"supply there"`
	Exponent job.Given[units.Number]      `yaml:"exponent" doc:"exponent of a bent curve"`
	Slope    job.Given[units.Number]      `yaml:"slope" doc:"slope"`
	Shift    job.Given[units.Difference]  `yaml:"shift" doc:"parallel shift"`
	Least    job.Given[units.Temperature] `yaml:"min_supply" doc:"lowest supply set"`
	Most     job.Given[units.Temperature] `yaml:"max_supply" doc:"highest supply set"`
}

// Check is a step of the walk.
type Check struct {
	Step string `yaml:"step" need:"yes" doc:"name of the step"`
	Done string `yaml:"done" need:"yes" oneof:"yes,no,does not apply" doc:"whether it is done"`
	Note string `yaml:"note" doc:"what was found"`
}

// Combustion is an analyser's slip with the maker's limits beside it.
type Combustion struct {
	Fuel     string                         `yaml:"fuel" oneof:"natural gas,propane,heating oil" doc:"fuel; the job's if left out"`
	Fire     string                         `yaml:"fire" oneof:"full,least" doc:"at full or least fire; full if left out"`
	Oxygen   job.Given[units.Fraction]      `yaml:"oxygen" doc:"oxygen in the dry flue gas; this or co2"`
	CO2      job.Given[units.Fraction]      `yaml:"co2" doc:"carbon dioxide in the dry flue gas"`
	Monoxide job.Given[units.Concentration] `yaml:"co" doc:"carbon monoxide, as shown"`
	Flue     job.Given[units.Temperature]   `yaml:"flue" doc:"flue gas"`
	Air      job.Given[units.Temperature]   `yaml:"air" doc:"combustion air"`
	Limits   Limits                         `yaml:"limits" doc:"the maker's limits, copied from the manual"`
}

// Limits are a maker's.
type Limits struct {
	OxygenFrom job.Given[units.Fraction]      `yaml:"oxygen_from" doc:"least oxygen"`
	OxygenTo   job.Given[units.Fraction]      `yaml:"oxygen_to" doc:"most oxygen"`
	CO2From    job.Given[units.Fraction]      `yaml:"co2_from" doc:"least carbon dioxide"`
	CO2To      job.Given[units.Fraction]      `yaml:"co2_to" doc:"most carbon dioxide"`
	Monoxide   job.Given[units.Concentration] `yaml:"co" doc:"most carbon monoxide, as shown"`
	AirFree    job.Given[units.Concentration] `yaml:"co_air_free" doc:"most carbon monoxide, air-free"`
	Flue       job.Given[units.Temperature]   `yaml:"flue" doc:"hottest flue gas"`
}

// Water is what was measured of the heating water.
type Water struct {
	Filled       job.Given[units.Volume]                 `yaml:"filled" doc:"water filled in, by the meter"`
	Hardness     job.Given[units.Hardness]               `yaml:"hardness" doc:"hardness of the fill"`
	PH           job.Given[units.Number]                 `yaml:"ph" doc:"pH"`
	Conductivity job.Given[units.ElectricalConductivity] `yaml:"conductivity" doc:"electrical conductivity"`
	Antifreeze   job.Given[units.Fraction]               `yaml:"antifreeze" doc:"antifreeze by volume, by a refractometer"`
	Inhibitor    string                                  `yaml:"inhibitor" doc:"inhibitor and how much of it"`
	Precharge    job.Given[units.Pressure]               `yaml:"precharge" doc:"precharge of the vessel, no water pressure on it"`
	Fill         job.Given[units.Pressure]               `yaml:"fill" doc:"pressure of the cold fill"`
}

// PressureTest is a test of the pipework.
type PressureTest struct {
	With  string                    `yaml:"with" need:"yes" oneof:"water,air" doc:"water or air"`
	Start job.Given[units.Pressure] `yaml:"start" need:"yes" doc:"pressure at the start"`
	End   job.Given[units.Pressure] `yaml:"end" need:"yes" doc:"pressure at the end"`
	For   job.Given[units.Time]     `yaml:"for" need:"yes" doc:"how long"`
	Held  string                    `yaml:"held" oneof:"yes,no" doc:"whether it held, by the local code"`
}

// Loop is a loop or branch with its flow.
type Loop struct {
	Name    string                       `yaml:"name" need:"yes" doc:"name of the loop"`
	Circuit string                       `yaml:"circuit" doc:"its circuit"`
	Wanted  job.Given[units.Flow]        `yaml:"wanted" doc:"flow wanted"`
	Set     job.Given[units.Flow]        `yaml:"set" doc:"flow set"`
	Return  job.Given[units.Temperature] `yaml:"return" doc:"its return in steady flow"`
}

// Photo names a photograph kept beside the document.
type Photo struct {
	File string `yaml:"file" need:"yes" doc:"name of the picture, by its content"`
	Of   string `yaml:"of" doc:"what it shows"`
	Step string `yaml:"step" doc:"step of the walk that it belongs to"`
	// Reading names it as judgements do: boiler supply, return of a circuit, air in a room.
	Reading string `yaml:"reading" doc:"reading that it shows, in place of a step"`
}

// Signature names a drawn signature kept beside the document.
type Signature struct {
	Who  string `yaml:"who" need:"yes" doc:"name in clear"`
	As   string `yaml:"as" need:"yes" oneof:"installer,household,owner,witness" doc:"role"`
	On   string `yaml:"on" need:"yes" doc:"day, as 2026-11-25"`
	File string `yaml:"file" doc:"name of the picture of the signature"`
}
