// Package job is the one document that holds what a person found in a house: the
// survey, and the control as its manual describes it. Everything else is computed
// from it.
//
// A document is YAML or JSON with units in its values. Reading is strict: every
// unknown field, missing unit and impossible value is refused with its place, what
// was given and what would be accepted, all of them at once.
//
// The struct tags drive the reader, the published JSON Schema and the messages:
// doc is the sentence shown to a person, need marks what may not be left out, and
// oneof lists the words that a text field accepts.
package job

import "curvewright/units"

// Version is the version of the document that this package writes. Older ones are
// lifted to it when they are read.
const Version = 1

// Job is one house.
type Job struct {
	Version       int            `yaml:"curvewright" need:"yes" doc:"version of this document; 1"`
	Name          string         `yaml:"job" need:"yes" doc:"name of the job"`
	Place         string         `yaml:"place" doc:"where the house stands, for the sheet's heading"`
	Date          string         `yaml:"surveyed" doc:"day of the survey, as 2026-11-25"`
	By            string         `yaml:"by" doc:"who surveyed"`
	Display       string         `yaml:"display" oneof:"us,si" doc:"units for reading: us or si"`
	Notes         string         `yaml:"notes" doc:"anything worth keeping"`
	Site          Site           `yaml:"site" need:"yes" doc:"climate of the place"`
	House         House          `yaml:"house" doc:"the house as a whole"`
	Constructions []Construction `yaml:"constructions" doc:"walls, roofs and floors by name"`
	Rooms         []Room         `yaml:"rooms" doc:"room by room; leave out for the short way"`
	Circuits      []Circuit      `yaml:"circuits" need:"yes" doc:"heating circuits, each with one supply temperature"`
	Boiler        Boiler         `yaml:"boiler" doc:"the boiler"`
	Separator     Separator      `yaml:"separator" doc:"low-loss header or closely spaced tees"`
	OutdoorSensor OutdoorSensor  `yaml:"outdoor_sensor" doc:"the outdoor temperature sensor"`
	HotWater      HotWater       `yaml:"hot_water" doc:"how hot water is made"`
	System        System         `yaml:"system" doc:"the closed heating system: water, pressure, antifreeze"`
	Sensors       []Sensor       `yaml:"sensors" doc:"temperature sensors, to print their tables and to judge a reading"`
	Frost         Frost          `yaml:"frost" doc:"what could freeze"`
	Program       Program        `yaml:"program" doc:"when the house may cool"`
	Control       Control        `yaml:"control" doc:"the control as its manual describes it"`
	Found         Found          `yaml:"as_found" doc:"the control as it stood when the installer came"`
	Learned       *Learned       `yaml:"learned" doc:"what a log of the running house has taught about the survey"`
}

// Learned corrects the survey by what the house was seen to do.
type Learned struct {
	From      string                `yaml:"from" doc:"the log that taught it"`
	Until     string                `yaml:"until" need:"yes" doc:"last day of that log, as 2027-02-14"`
	Loss      Given[units.Number]   `yaml:"loss" need:"yes" doc:"factor on the heat loss of the survey"`
	LossDoubt Given[units.Fraction] `yaml:"loss_doubt" need:"yes" doc:"doubt that is left of it: one standard deviation, as a share"`
	Emitters  []LearnedEmitters     `yaml:"emitters" doc:"factors on the emitters, circuit by circuit"`
}

// LearnedEmitters is what the emitters of a circuit were seen to give.
type LearnedEmitters struct {
	Circuit string                `yaml:"circuit" need:"yes" doc:"name of the circuit"`
	Factor  Given[units.Number]   `yaml:"factor" need:"yes" doc:"factor on the output of the surveyed emitters"`
	Doubt   Given[units.Fraction] `yaml:"doubt" need:"yes" doc:"doubt that is left of it: one standard deviation, as a share"`
}

// Site is the climate of the place.
type Site struct {
	DesignOutdoor Given[units.Temperature] `yaml:"design_outdoor" need:"yes" doc:"outdoor temperature of the design day (99 % or local code)"`
	AnnualMean    Given[units.Temperature] `yaml:"annual_mean" doc:"mean outdoor temperature of the year"`
	Elevation     Given[units.Length]      `yaml:"elevation" doc:"height above sea level"`
}

// House describes the house as a whole: enough for the short way, and the frame for
// the rooms otherwise.
type House struct {
	FloorArea  Given[units.Area]        `yaml:"floor_area" doc:"heated floor area"`
	Storeys    int                      `yaml:"storeys" doc:"heated storeys"`
	Height     Given[units.Length]      `yaml:"ceiling_height" doc:"clear height of the storeys"`
	Era        string                   `yaml:"era" oneof:"before 1946,1946-1979,1980-1999,2000-2011,2012 on" doc:"when it was built"`
	Insulation string                   `yaml:"insulation" oneof:"as built,improved,well insulated" doc:"state of the insulation today"`
	Glazing    string                   `yaml:"glazing" oneof:"single,double,double low-e,triple" doc:"most of the windows"`
	Tightness  string                   `yaml:"tightness" oneof:"leaky,average,tight" doc:"how draughty it is"`
	Under      string                   `yaml:"under" oneof:"unheated basement,heated basement,slab,crawl space" doc:"what lies under the lowest heated floor"`
	Setpoint   Given[units.Temperature] `yaml:"setpoint" doc:"room temperature wanted"`
	Load       Given[units.Power]       `yaml:"load" doc:"heat load of the whole house on the design day, if known"`
	Fuel       *FuelUse                 `yaml:"fuel" doc:"a year's fuel, to find the heat loss from bills"`
	Trust      string                   `yaml:"trust" oneof:"rooms,bills" doc:"which load counts where rooms and bills disagree; rooms if left out"`
	BlowerDoor Given[units.AirChange]   `yaml:"blower_door" doc:"air change at 50 Pa from a blower-door test"`
	Gains      Given[units.Power]       `yaml:"gains" doc:"heat from people and appliances that can be relied on at night"`
}

// FuelUse is a year on the meter.
type FuelUse struct {
	Fuel       string                   `yaml:"fuel" need:"yes" oneof:"natural gas,propane,heating oil" doc:"the fuel"`
	Energy     Given[units.Energy]      `yaml:"energy" doc:"heat content bought in a year (gross); give this or volume"`
	Volume     Given[units.Volume]      `yaml:"volume" doc:"fuel bought in a year; give this or energy"`
	DegreeDays Given[units.DegreeDays]  `yaml:"degree_days" need:"yes" doc:"degree-days of that year"`
	Base       Given[units.Temperature] `yaml:"base" doc:"base of the degree-days; 65 °F if left out"`
	OtherUses  Given[units.Energy]      `yaml:"other_uses" doc:"of the energy, what went to hot water and cooking"`
	People     int                      `yaml:"people" doc:"people in the house, to estimate hot water if other_uses is left out"`
	Efficiency Given[units.Fraction]    `yaml:"efficiency" doc:"seasonal efficiency of the boiler that burnt it"`
}

// Construction is a wall, roof or floor, by its U-value or by its layers from
// outside to inside.
type Construction struct {
	Name   string                     `yaml:"name" need:"yes" doc:"name used by the elements"`
	U      Given[units.Transmittance] `yaml:"u" doc:"U-value; give this or layers"`
	Facing string                     `yaml:"facing" oneof:"wall,roof,floor" doc:"which way heat flows: wall, roof (up) or floor (down)"`
	Layers []Layer                    `yaml:"layers" doc:"layers from outside to inside, without surface films"`
}

// Layer is one layer of a construction, with what bridges it.
type Layer struct {
	Material     string                    `yaml:"material" doc:"what it is"`
	Thickness    Given[units.Length]       `yaml:"thickness" doc:"thickness; with conductivity"`
	Conductivity Given[units.Conductivity] `yaml:"conductivity" doc:"thermal conductivity"`
	Resistance   Given[units.Resistance]   `yaml:"resistance" doc:"thermal resistance, instead of thickness and conductivity"`
	BridgedBy    Given[units.Conductivity] `yaml:"bridged_by" doc:"conductivity of studs, joists or mortar through the layer"`
	BridgeShare  Given[units.Fraction]     `yaml:"bridge_share" doc:"share of the area that the bridge takes"`
}

// Room is one heated room.
type Room struct {
	Name      string                   `yaml:"name" need:"yes" doc:"name of the room"`
	Setpoint  Given[units.Temperature] `yaml:"setpoint" doc:"temperature wanted, if not the house's"`
	Area      Given[units.Area]        `yaml:"area" doc:"floor area"`
	Height    Given[units.Length]      `yaml:"height" doc:"clear height, if not the house's"`
	Wet       bool                     `yaml:"wet_room" oneof:"yes,no" doc:"a bathroom: its floor may be warmer"`
	Load      Given[units.Power]       `yaml:"load" doc:"heat load on the design day, instead of elements"`
	Elements  []Element                `yaml:"elements" doc:"surfaces through which the room loses heat"`
	AirChange Given[units.AirChange]   `yaml:"air_change" doc:"air change at design, if not from the blower door"`
	Gains     Given[units.Power]       `yaml:"gains" doc:"heat that can be relied on at night, if not by area"`
	Emitters  []Emitter                `yaml:"emitters" doc:"what heats the room"`
}

// Element is one surface of a room.
type Element struct {
	Name         string                     `yaml:"name" doc:"what it is"`
	Area         Given[units.Area]          `yaml:"area" need:"yes" doc:"area"`
	U            Given[units.Transmittance] `yaml:"u" doc:"U-value; give this or construction"`
	Construction string                     `yaml:"construction" doc:"name of a construction"`
	To           string                     `yaml:"to" oneof:"outdoors,ground,unheated,room" doc:"what lies behind it; outdoors if left out"`
	Room         string                     `yaml:"room" doc:"name of the room behind it, with to: room"`
	Reduction    Given[units.Fraction]      `yaml:"reduction" doc:"towards an unheated space: share of the full difference, 50 % if left out"`
	Perimeter    Given[units.Length]        `yaml:"perimeter" doc:"of a floor on the ground: the exposed edge of the whole floor slab that this area belongs to"`
	SlabArea     Given[units.Area]          `yaml:"slab_area" doc:"of a floor on the ground: area of the whole slab, if it is larger than this room"`
	Insulation   Given[units.Resistance]    `yaml:"insulation" doc:"of a floor on the ground: insulation under or over the slab"`
	Depth        Given[units.Length]        `yaml:"depth" doc:"of a basement floor: depth below ground"`
}

// Emitter is one thing that heats. Exactly one of its kinds is given.
type Emitter struct {
	Name      string                `yaml:"name" doc:"what to call it"`
	Circuit   string                `yaml:"circuit" doc:"circuit that feeds it; needed where there are several"`
	Count     int                   `yaml:"count" doc:"how many alike; 1 if left out"`
	Carries   Given[units.Fraction] `yaml:"carries" doc:"share of the room's load, where a room is fed by two circuits"`
	FinTube   *FinTube              `yaml:"fin_tube" doc:"fin-tube baseboard"`
	CastIron  *CastIron             `yaml:"cast_iron" doc:"cast-iron radiator rated in EDR"`
	Radiator  *Radiator             `yaml:"radiator" doc:"radiator or convector rated to EN 442"`
	TowelRail *Radiator             `yaml:"towel_rail" doc:"towel rail rated to EN 442"`
	Floor     *Floor                `yaml:"floor" doc:"heated floor"`
	FanCoil   *FanCoil              `yaml:"fan_coil" doc:"fan coil or air handler coil"`
	Sized     *Sized                `yaml:"sized" doc:"size not known: the supply temperature it was probably sized for"`
}

// FinTube is baseboard rated per foot of finned length.
type FinTube struct {
	Length         Given[units.Length]      `yaml:"length" need:"yes" doc:"finned length, not the length of the cover"`
	Output         Given[units.LinearPower] `yaml:"output" doc:"rated output per length; 560 Btu/h·ft at 180 °F if left out"`
	At             Given[units.Temperature] `yaml:"at" doc:"average water temperature of the rating; 180 °F if left out"`
	RatedFlow      Given[units.Flow]        `yaml:"rated_flow" doc:"water flow of the rating; 1 gpm if left out"`
	HeatingEffect  string                   `yaml:"heating_effect" oneof:"included,not included" doc:"whether the rating has the 15 % heating-effect allowance in it; included if left out"`
	EnteringOffset Given[units.Difference]  `yaml:"air_at_floor" doc:"how far the air entering it lies below the room; 5 °F if left out"`
}

// CastIron is a radiator measured in square feet of equivalent direct radiation.
type CastIron struct {
	EDR Given[units.RadiatorArea] `yaml:"edr" need:"yes" doc:"rating in EDR"`
}

// Radiator is rated to EN 442.
type Radiator struct {
	Output     Given[units.Power]       `yaml:"output" doc:"rated output; or one per length or per section, with how much there is of it"`
	PerLength  Given[units.LinearPower] `yaml:"per_length" doc:"rated output per length, as a data sheet gives it; instead of output"`
	Length     Given[units.Length]      `yaml:"length" doc:"its length; with per_length"`
	PerSection Given[units.Power]       `yaml:"per_section" doc:"rated output of one section; instead of output"`
	Sections   int                      `yaml:"sections" doc:"how many sections it has; with per_section"`
	Excess     Given[units.Difference]  `yaml:"excess" doc:"excess temperature of the rating; 50 K if left out, as at 75/65/20 °C"`
	At         Given[units.Temperature] `yaml:"at" doc:"average water temperature of the rating, instead of excess: 180 °F"`
	Air        Given[units.Temperature] `yaml:"air" doc:"air temperature of the rating; with at; 68 °F if left out"`
	Exponent   Given[units.Number]      `yaml:"exponent" doc:"exponent; typical for its kind if left out"`
	Kind       string                   `yaml:"kind" oneof:"panel,column,convector" doc:"panel, column or convector"`
}

// Floor is a heated floor.
type Floor struct {
	Construction string                    `yaml:"construction" need:"yes" oneof:"wet slab,dry plates,under deck with plates,under deck" doc:"how it is built"`
	Area         Given[units.Area]         `yaml:"area" need:"yes" doc:"heated area, without what stands under fixed furniture"`
	Spacing      Given[units.Length]       `yaml:"spacing" doc:"tube spacing"`
	Tube         Given[units.Length]       `yaml:"tube" doc:"outside diameter of the tube, measured; for the size printed on it take tube_size"`
	Wall         Given[units.Length]       `yaml:"tube_wall" doc:"wall thickness of the tube"`
	Sold         string                    `yaml:"tube_size" doc:"size of the tube as it is sold, instead of tube and tube_wall: 1/2 for PEX of 5/8 in outside, 16x2 in millimetres"`
	Material     string                    `yaml:"tube_material" oneof:"pex,pe-rt,multilayer,copper,pp" doc:"material of the tube"`
	Cover        Given[units.Length]       `yaml:"cover" doc:"what lies above the tube without the covering: screed, slab or deck"`
	Conductivity Given[units.Conductivity] `yaml:"conductivity" doc:"conductivity of the cover"`
	Covering     Given[units.Resistance]   `yaml:"covering" doc:"thermal resistance of the floor covering"`
	CoveringKind string                    `yaml:"covering_kind" oneof:"bare,tile,vinyl,wood,laminate,carpet" doc:"what the covering is; wood and the like have limits of their own"`
	Zone         string                    `yaml:"zone" oneof:"occupied,edge,bathroom" doc:"where the floor lies; occupied if left out"`
	Under        Given[units.Resistance]   `yaml:"insulation_below" doc:"insulation under the tube"`
	Below        Given[units.Temperature]  `yaml:"temperature_below" doc:"temperature under that insulation"`
	Loops        int                       `yaml:"loops" doc:"how many loops of tube lie in it"`
	LoopLength   Given[units.Length]       `yaml:"loop_length" doc:"length of its longest loop with its tails"`
}

// FanCoil is described by one rated point.
type FanCoil struct {
	Output        Given[units.Power]       `yaml:"output" need:"yes" doc:"rated heat output"`
	EnteringWater Given[units.Temperature] `yaml:"entering_water" need:"yes" doc:"entering water of the rating"`
	EnteringAir   Given[units.Temperature] `yaml:"entering_air" need:"yes" doc:"entering air of the rating"`
	WaterFlow     Given[units.Flow]        `yaml:"water_flow" need:"yes" doc:"water flow of the rating"`
	AirFlow       Given[units.Flow]        `yaml:"air_flow" need:"yes" doc:"air flow of the rating"`
	Fan           Given[units.Power]       `yaml:"fan" doc:"electricity of its fan; 15 W for each kilowatt of its output if left out"`
}

// Sized stands for emitters whose size nobody has measured.
type Sized struct {
	Like   string                   `yaml:"like" need:"yes" oneof:"fin-tube,cast-iron,panel radiators,heated slab,fan coil" doc:"kind of emitter"`
	Supply Given[units.Temperature] `yaml:"supply" doc:"supply temperature on the design day for which they were sized"`
}

// Circuit is pipework with one supply temperature and one curve.
type Circuit struct {
	Name      string                       `yaml:"name" need:"yes" doc:"name of the circuit"`
	Kind      string                       `yaml:"kind" oneof:"direct,mixed" doc:"direct: boiler water as it comes; mixed: a valve cools it"`
	Layout    string                       `yaml:"layout" oneof:"parallel,series" doc:"series: one loop runs through its emitters one after the other, in the order of the document"`
	Flow      Given[units.Flow]            `yaml:"flow" doc:"water flow of the circuit"`
	Drop      Given[units.Difference]      `yaml:"drop" doc:"supply minus return on the design day; gives the flow if flow is left out"`
	MaxSupply Given[units.Temperature]     `yaml:"max_supply" doc:"highest supply temperature that this circuit may see"`
	Share     Given[units.Fraction]        `yaml:"share" doc:"in the short way: share of the house's load"`
	Area      Given[units.Area]            `yaml:"area" doc:"in the short way: floor area that the circuit heats; gives its share"`
	Emitters  []Emitter                    `yaml:"emitters" doc:"in the short way: what heats, without rooms"`
	Pipes     []PipeRun                    `yaml:"pipes" doc:"the pipework of the circuit, from the boiler room to its emitters and back"`
	Pump      *Pump                        `yaml:"pump" doc:"its pump"`
	PumpOf    string                       `yaml:"pump_of" doc:"another circuit whose pump also drives this one, side by side with it; this one then has no pump of its own"`
	Valve     Given[units.FlowCoefficient] `yaml:"valve" doc:"flow coefficient of its mixing valve, kv or Cv"`
}

// PipeRun is a length of tube with what is in it.
type PipeRun struct {
	Tube   string                `yaml:"tube" need:"yes" oneof:"copper K,copper L,copper M,copper EN 1057,pex ASTM F876,pex ISO 15875,pe-rt,multilayer,steel schedule 40,steel EN 10255" doc:"kind of tube"`
	Size   string                `yaml:"size" need:"yes" doc:"nominal size as printed on it: 3/4 or 22x1"`
	Length Given[units.Length]   `yaml:"length" need:"yes" doc:"length there and back"`
	Bends  int                   `yaml:"bends" doc:"elbows and bends"`
	Tees   int                   `yaml:"tees" doc:"tees through which the water turns off"`
	Valves int                   `yaml:"valves" doc:"open ball or gate valves"`
	Extra  Given[units.Pressure] `yaml:"extra" doc:"drop of anything else in it at the circuit's flow: filter, exchanger, manifold"`
	Share  Given[units.Fraction] `yaml:"share" doc:"share of the circuit's flow that passes through; all of it if left out. Runs whose shares make up the whole are branches side by side"`
}

// Pump is described by points of its curve.
type Pump struct {
	Mode   string      `yaml:"mode" oneof:"fixed speed,constant pressure,proportional pressure" doc:"how it runs; fixed speed if left out"`
	Points []PumpPoint `yaml:"points" doc:"points of its highest curve from the data sheet, the first at no flow"`
}

// PumpPoint is one point of a pump curve.
type PumpPoint struct {
	Flow Given[units.Flow]     `yaml:"flow" need:"yes" doc:"flow"`
	Head Given[units.Pressure] `yaml:"head" need:"yes" doc:"head at that flow"`
}

// Boiler is the heat source.
type Boiler struct {
	Kind      string                   `yaml:"kind" oneof:"condensing,non-condensing" doc:"condensing or not"`
	Fuel      string                   `yaml:"fuel" oneof:"natural gas,propane,heating oil" doc:"fuel"`
	Output    Given[units.Power]       `yaml:"output" doc:"highest heating output"`
	MinOutput Given[units.Power]       `yaml:"min_output" doc:"lowest output without stopping"`
	AtSite    string                   `yaml:"output_at_site" oneof:"yes,no" doc:"whether output and min_output are already the maker's figures for this altitude; no if left out"`
	Burner    string                   `yaml:"burner" oneof:"premix,forced draught,atmospheric" doc:"kind of burner: premix or forced draught with a fan, atmospheric under a draught hood; gives the excess air where nobody measured it"`
	Least     Given[units.Temperature] `yaml:"least_return" doc:"of a non-condensing boiler: least return temperature that its maker asks for; 130 °F or the dew point of its flue gas with a margin if left out"`
	MaxSupply Given[units.Temperature] `yaml:"max_supply" doc:"highest supply temperature that can be set"`
	MinSupply Given[units.Temperature] `yaml:"min_supply" doc:"lowest supply temperature that can be set"`

	Water        Given[units.Volume]       `yaml:"water" doc:"water that warms and cools with the burner: boiler, pipes and emitters always in flow, buffer"`
	Differential Given[units.Difference]   `yaml:"differential" doc:"between the burner's stop and its next start; 5 K if left out"`
	LeastRun     Given[units.Time]         `yaml:"least_run" doc:"shortest run wanted of the burner; 10 min if left out"`
	ExcessAir    Given[units.Fraction]     `yaml:"excess_air" doc:"excess air of the burner, from an analyser; 25 % if left out, 90 % for an atmospheric burner"`
	MeterDial    Given[units.Volume]       `yaml:"meter_dial" doc:"gas for one turn of the meter's watched dial; 1 ft³ or 0.01 m³ if left out"`
	HeatingValue Given[units.HeatingValue] `yaml:"heating_value" doc:"gross heat in a volume of the gas, from the bill; of a usual gas if left out"`
	Gas          *GasMix                   `yaml:"gas" doc:"what the gas consists of, by volume, from its supplier; a usual gas if left out"`
	Electricity  Given[units.Power]        `yaml:"electricity" doc:"electricity of the boiler while it burns, without pumps; 30 W if left out"`
	Idle         Given[units.Power]        `yaml:"electricity_idle" doc:"electricity of boiler and control at all other times too; 5 W if left out"`
	Rated        []RatedPoint              `yaml:"rated" doc:"efficiencies that the maker declares, to calibrate the boiler"`
}

// GasMix is a fuel gas by its components, which make up the whole.
type GasMix struct {
	Methane       Given[units.Fraction] `yaml:"methane" doc:"share of methane, CH4"`
	Ethane        Given[units.Fraction] `yaml:"ethane" doc:"share of ethane, C2H6"`
	Propane       Given[units.Fraction] `yaml:"propane" doc:"share of propane, C3H8"`
	Butane        Given[units.Fraction] `yaml:"butane" doc:"share of butane, C4H10, and what is heavier"`
	Hydrogen      Given[units.Fraction] `yaml:"hydrogen" doc:"share of hydrogen, H2"`
	Nitrogen      Given[units.Fraction] `yaml:"nitrogen" doc:"share of nitrogen, N2"`
	CarbonDioxide Given[units.Fraction] `yaml:"carbon_dioxide" doc:"share of carbon dioxide, CO2"`
}

// RatedPoint is one efficiency of a boiler's data sheet.
type RatedPoint struct {
	Return     Given[units.Temperature] `yaml:"return" need:"yes" doc:"return temperature"`
	Rate       Given[units.Fraction]    `yaml:"rate" doc:"share of full fire; 100 % if left out"`
	Efficiency Given[units.Fraction]    `yaml:"efficiency" need:"yes" doc:"efficiency declared; above 100 % only with basis: net"`
	Basis      string                   `yaml:"basis" oneof:"gross,net" doc:"counted against gross heat (higher heating value) or net heat (lower heating value); gross if left out"`
}

// Separator stands between boiler pump and circuit pumps.
type Separator struct {
	Kind   string              `yaml:"kind" oneof:"none,low-loss header,closely spaced tees,two-pipe buffer,three-pipe buffer,four-pipe buffer" doc:"what separates boiler and circuits"`
	Sensor string              `yaml:"sensor" oneof:"none,at the boiler,on a module" doc:"to what its temperature sensor is wired; the sensor itself sits behind the separator, in the supply that all circuits share"`
	Flow   Given[units.Flow]   `yaml:"boiler_flow" doc:"flow of the boiler's own pump on the boiler's side; taken to match the circuits if left out"`
	Volume Given[units.Volume] `yaml:"volume" doc:"of a buffer: the water that it holds"`
}

// OutdoorSensor is what outdoor reset depends on.
type OutdoorSensor struct {
	Fitted string `yaml:"fitted" oneof:"yes,no,planned" doc:"whether it is connected"`
	Place  string `yaml:"place" oneof:"north wall,north-west wall,north-east wall,west wall,east wall,south wall,not known" doc:"where it is"`
}

// HotWater says how hot water is made.
type HotWater struct {
	By       string                   `yaml:"by" oneof:"tank with own pump,tank with three-way valve,combi,none" doc:"how hot water is made"`
	Tank     Given[units.Volume]      `yaml:"tank" doc:"volume of the tank"`
	Setpoint Given[units.Temperature] `yaml:"setpoint" doc:"temperature wanted in the tank or at the combi outlet"`
	Mixing   string                   `yaml:"mixing_valve" oneof:"yes,no" doc:"a mixing valve at the tank's outlet"`
	Loop     string                   `yaml:"recirculation" oneof:"yes,no" doc:"a hot water circulation loop"`

	Priority   string                   `yaml:"priority" oneof:"yes,no" doc:"whether the heating waits while the tank is charged; worked out if left out"`
	People     int                      `yaml:"people" doc:"people who use it"`
	Pattern    string                   `yaml:"pattern" oneof:"EU M,EU L,EU XL,US low,US medium,US high" doc:"a day of draws to play; chosen by people if left out"`
	Cold       Given[units.Temperature] `yaml:"cold" doc:"cold water in winter; 50 °F if left out"`
	Coil       *TankCoil                `yaml:"coil" doc:"the tank's heating coil by one rated point"`
	StandLoss  Given[units.Power]       `yaml:"standing_loss" doc:"heat that the full tank loses"`
	TakesFrom  string                   `yaml:"takes_from" oneof:"boiler,buffer" doc:"beside a buffer: whether the tank draws from the boiler, past the buffer, or from the buffer; boiler if left out"`
	LoopLength Given[units.Length]      `yaml:"loop_length" doc:"length of the circulation loop there and back"`
	LoopTube   Given[units.Length]      `yaml:"loop_tube" doc:"outside diameter of its tube"`
	LoopCover  Given[units.Length]      `yaml:"loop_insulation" doc:"thickness of its insulation"`
}

// TankCoil is described by one rated point.
type TankCoil struct {
	Output Given[units.Power]       `yaml:"output" need:"yes" doc:"rated output"`
	Supply Given[units.Temperature] `yaml:"supply" need:"yes" doc:"primary supply of the rating"`
	Flow   Given[units.Flow]        `yaml:"flow" need:"yes" doc:"primary flow of the rating"`
	Tank   Given[units.Temperature] `yaml:"tank" doc:"mean tank temperature of the rating; 95 °F if left out"`
}

// System is the closed heating system.
type System struct {
	Content     Given[units.Volume]      `yaml:"content" doc:"water in the whole system, from the meter at filling or estimated"`
	Height      Given[units.Length]      `yaml:"height" doc:"from the vessel up to the highest emitter or pipe"`
	Vessel      Given[units.Volume]      `yaml:"vessel" doc:"nominal volume of the expansion vessel"`
	Precharge   Given[units.Pressure]    `yaml:"precharge" doc:"its precharge as found"`
	Relief      Given[units.Pressure]    `yaml:"relief" doc:"pressure at which the relief valve opens"`
	Hardness    Given[units.Hardness]    `yaml:"hardness" doc:"hardness of the fill water"`
	BoilerWater Given[units.Volume]      `yaml:"boiler_water" doc:"water in the boiler itself"`
	Aluminium   string                   `yaml:"aluminium" oneof:"yes,no" doc:"whether the boiler's heat exchanger is of aluminium"`
	Antifreeze  string                   `yaml:"antifreeze" oneof:"none,propylene glycol,ethylene glycol" doc:"antifreeze in the heating water"`
	Share       Given[units.Fraction]    `yaml:"antifreeze_share" doc:"its share by volume"`
	FrostTarget Given[units.Temperature] `yaml:"frost_target" doc:"coldest temperature that the fill should stand without freezing"`
}

// Sensor is one temperature sensor.
type Sensor struct {
	Name         string                          `yaml:"name" need:"yes" doc:"what it measures: outdoor, supply of Slab, tank"`
	Type         string                          `yaml:"type" need:"yes" oneof:"Pt100,Pt1000,thermistor,table" doc:"kind of element"`
	R25          Given[units.ElectricResistance] `yaml:"r25" doc:"of a thermistor: resistance at 25 °C; with b"`
	B            Given[units.Number]             `yaml:"b" doc:"of a thermistor: its B, in kelvin"`
	Coefficients *SteinhartHart                  `yaml:"coefficients" doc:"of a thermistor, instead of r25 and b: the three coefficients of Steinhart and Hart"`
	Points       []SensorPoint                   `yaml:"points" doc:"of type table: points from the maker's sheet"`
	Sheet        string                          `yaml:"sheet" doc:"of type table, instead of points: the maker's table as it is, a temperature and a resistance in each line"`
	Reads        Given[units.ElectricResistance] `yaml:"reads" doc:"what a meter shows at its terminals: a resistance, OL or open, 0 or short"`
	Beside       Given[units.Temperature]        `yaml:"beside" doc:"temperature beside it at that moment, by a thermometer; an open or shorted line needs none"`
}

// SteinhartHart are the coefficients of 1/T = a + b·ln R + c·(ln R)³, for ohms and kelvins.
type SteinhartHart struct {
	A Given[units.Number] `yaml:"a" need:"yes" doc:"first, as 1.129148e-3"`
	B Given[units.Number] `yaml:"b" need:"yes" doc:"second, as 2.34125e-4"`
	C Given[units.Number] `yaml:"c" need:"yes" doc:"third, as 8.76741e-8"`
}

// SensorPoint is one line of a maker's table.
type SensorPoint struct {
	At         Given[units.Temperature]        `yaml:"at" need:"yes" doc:"temperature"`
	Resistance Given[units.ElectricResistance] `yaml:"resistance" need:"yes" doc:"resistance there"`
}

// Frost says what could freeze and what could watch it.
type Frost struct {
	PipesOutside []string `yaml:"pipes_outside" doc:"places outside the heated shell where heating pipes run: garage, crawl space, attic"`
	Glycol       string   `yaml:"glycol" oneof:"yes,no" doc:"whether the system holds glycol"`
	RoomSensor   string   `yaml:"room_sensor" oneof:"yes,no" doc:"whether the control has a room sensor or room unit"`
	LeftAlone    string   `yaml:"left_alone" oneof:"yes,no" doc:"whether the house stands empty for days in winter"`
}

// Program says when the house may cool.
type Program struct {
	Wish   string                   `yaml:"wish" oneof:"hold,night,away" doc:"hold one temperature, lower it at night, or lower it at night and by day while away"`
	Lower  Given[units.Temperature] `yaml:"lower" doc:"the lower room temperature"`
	WakeUp string                   `yaml:"wake_up" doc:"when the house should be warm, as 06:30"`
	Bed    string                   `yaml:"bed" doc:"when it may cool, as 22:30"`
	Leave  string                   `yaml:"leave" doc:"with away: when the house empties, as 08:00"`
	Return string                   `yaml:"return" doc:"with away: when it should be warm again, as 17:00"`
}
