package report

import (
	"math"

	"curvewright/settings"
	"curvewright/units"
	"curvewright/working"
)

// A made-up house for the tests of this package: three circuits, twelve rooms, the
// names as varied as customers' are. The physics is a plain power law, near enough
// for a picture.

func fixture(s units.System) *settings.Sheet {
	f := units.Fahrenheit
	sheet := &settings.Sheet{CondensesBelow: f(130),
		Job: "Brânduș & Nguyễn house", Place: "14 Mill Lane, Saint-Åsgarð", Surveyed: "2026-11-25", By: "Ελένη Παπαδοπούλου, Łukasz Żółć",
		System: s, Scale: units.US, Design: f(5),
		Load: settings.Load{Total: units.BtuPerHour(46200), PerArea: units.Flux(61), Source: "room by room",
			Billed: units.BtuPerHour(43500), Balance: f(61), Estimate: "fair: within about 12 %"},
	}
	radiators := circuit("Radiators", "direct", 5, f(151), f(131), 1.3, f(180), "highest supply of the boiler", []settings.CircuitRoom{
		{Name: "Living room", Setpoint: f(70), Emitters: "2 column radiators", Need: f(151), Governs: true, Condition: "governs"},
		{Name: "Dining room", Setpoint: f(70), Emitters: "cast-iron radiator, 42 EDR", Need: f(146), Condition: "5 °F to spare"},
		{Name: "Bedroom Ștefan", Setpoint: f(68), Emitters: "panel radiator", Need: f(139), Condition: "12 °F to spare"},
		{Name: "Спальня Ольги", Setpoint: f(68), Emitters: "panel radiator", Need: f(133), Condition: "18 °F to spare"},
		{Name: "Bathroom", Setpoint: f(72), Emitters: "towel rail, panel radiator", Need: f(149), Condition: "2 °F to spare"},
		{Name: "Hall", Setpoint: f(66), Emitters: "cast-iron radiator, 30 EDR", Need: f(128), Condition: "23 °F to spare"},
	})
	slab := circuit("Kitchen slab", "mixed", 5, f(104), f(92), 1.05, f(113), "highest supply for this screed and tile", []settings.CircuitRoom{
		{Name: "Kitchen", Setpoint: f(70), Emitters: "heated slab, 210 ft²", Need: f(104), Governs: true, Condition: "governs"},
		{Name: "Mud room", Setpoint: f(66), Emitters: "heated slab, 60 ft²", Need: f(96), Condition: "8 °F to spare"},
		{Name: "Half bath", Setpoint: f(70), Emitters: "heated slab, 30 ft²", Need: f(101), Condition: "3 °F to spare"},
	})
	attic := circuit("Attic baseboard", "mixed", 5, f(165), f(149), 1.35, f(165), "highest supply of the mixed circuit", []settings.CircuitRoom{
		{Name: "Attic studio", Setpoint: f(70), Emitters: "22 ft fin-tube", Need: f(171), Governs: true, Condition: "6 °F short"},
		{Name: "Attic bedroom", Setpoint: f(68), Emitters: "14 ft fin-tube", Need: f(158), Condition: "7 °F to spare"},
		{Name: "Box room", Setpoint: f(60), Emitters: "6 ft fin-tube", Need: f(140), Condition: "25 °F to spare"},
	})
	sheet.Circuits = []settings.Circuit{radiators, slab, attic}
	for i, r := range []struct {
		circuit int
		load    float64
	}{{0, 7200}, {0, 4300}, {0, 3600}, {0, 3300}, {0, 1900}, {0, 2400}} {
		sheet.Load.Rooms = append(sheet.Load.Rooms, settings.RoomLoad{Name: radiators.Rooms[i].Name, Setpoint: radiators.Rooms[i].Setpoint,
			Load: units.BtuPerHour(r.load), Source: "surfaces and air change"})
	}
	for i, load := range []float64{6100, 1900, 800} {
		sheet.Load.Rooms = append(sheet.Load.Rooms, settings.RoomLoad{Name: slab.Rooms[i].Name, Setpoint: slab.Rooms[i].Setpoint, Load: units.BtuPerHour(load), Source: "surfaces and air change"})
	}
	for i, load := range []float64{8900, 4600, 1200} {
		sheet.Load.Rooms = append(sheet.Load.Rooms, settings.RoomLoad{Name: attic.Rooms[i].Name, Setpoint: attic.Rooms[i].Setpoint, Load: units.BtuPerHour(load), Source: "given"})
	}
	for _, c := range sheet.Circuits {
		for _, p := range c.Points {
			out := p.Outdoor.Fahrenheit()
			if n := int(math.Round(out)); n != 5 && n%10 != 0 {
				continue
			}
			sheet.Expected = append(sheet.Expected, settings.Expected{Circuit: c.Name, Outdoor: p.Outdoor, Supply: p.Set, Return: p.Return,
				Heat: c.Load * units.Power((65-out)/60), Condensing: p.Return < units.Celsius(54)})
		}
	}
	sheet.Findings = []settings.Finding{
		{Severity: "stop", Circuit: "Kitchen slab", Text: "No high-limit thermostat was found on the slab circuit. Without it a stuck mixing valve sends 151 °F into the floor.",
			Cures: []string{"fit a strap-on safety thermostat set to 130 °F that stops the slab pump, before the circuit runs"}},
		{Severity: "short", Circuit: "Attic baseboard", Room: "Attic studio", Text: "The studio needs 171 °F at 5 °F outdoors, but its circuit is limited to 165 °F: it will settle near 68 °F below 9 °F outdoors.",
			Cures:   []string{"add 3 ft of fin-tube", "or insulate the knee wall: R-13 lowers the need to 162 °F"},
			Working: []working.Step{{Name: "Supply needed", Formula: "Ts = Ti + ΔT", Result: working.Input{Symbol: "Ts", Value: f(171)}}}},
		{Severity: "note", Text: "The fuel bills suggest 43,500 Btu/h, 6 % below the room-by-room load: within what surveys usually miss by."},
	}
	sheet.Cautions = []string{
		"The figures come from the survey. The maker's instructions, local code and licensed practice come before this sheet.",
		"Have the combustion checked with an analyser after the highest supply or the output limit was changed.",
	}
	sheet.Surer = []settings.Measurement{
		{What: "air change of the house", Share: 0.46, How: "a blower-door test, or a cold still night with all zones calling"},
		{What: "finned length in the living room", Share: 0.21, How: "measure the fins under the cover, not the cover"},
		{What: "flow of the radiator circuit", Share: 0.12, How: "read supply and return with clamp-on sensors on a steady call"},
	}
	sheet.Sections = sections()
	return sheet
}

// circuit makes a circuit that follows a power law from the design day to 65 °F.
func circuit(name, kind string, design float64, supply, back units.Temperature, n float64, limit units.Temperature, limitedBy string, rooms []settings.CircuitRoom) settings.Circuit {
	f := units.Fahrenheit
	c := settings.Circuit{Name: name, Kind: kind, Flow: units.GallonsPerMinute(2.4), Load: units.BtuPerHour(22000), Shape: "line through two points",
		Setpoint: f(70), Limit: limit, LimitedBy: limitedBy, CutOff: f(62), Rooms: rooms,
		LostMean: units.FahrenheitDifference(3), WorstShort: units.FahrenheitDifference(1), WorstOver: units.FahrenheitDifference(2)}
	mean := (supply.Fahrenheit()+back.Fahrenheit())/2 - 70
	drop := supply.Fahrenheit() - back.Fahrenheit()
	mild := 72 + mean*0.09
	at := func(need, out float64) float64 {
		q := (65 - out) / (65 - design)
		return 70 + (need-70-drop/2)*math.Pow(q, 1/n) + drop/2*q
	}
	for out := design; out <= 62.5; out += 2.5 {
		q := (65 - out) / (65 - design)
		ideal := at(rooms[0].Need.Fahrenheit(), out)
		set := mild + (supply.Fahrenheit()-mild)*(62.5-out)/(62.5-design) + 0.03*(supply.Fahrenheit()-mild)*(1-q)*q*4
		set = math.Min(set, limit.Fahrenheit())
		p := settings.Point{Outdoor: f(out), Ideal: f(ideal), Set: f(set), Return: f(set - drop*q),
			Hours: units.Hours(math.Round(330 * math.Exp(-math.Pow((out-38)/17, 2))))}
		for i, r := range rooms {
			need := at(r.Need.Fahrenheit(), out)
			reaches := r.Setpoint.Fahrenheit() + (set-need)/mean*(65-out)*0.55 + float64(i%2)*0.2
			p.Rooms = append(p.Rooms, settings.RoomPoint{Need: f(need), Reaches: f(reaches)})
		}
		c.Points = append(c.Points, p)
		c.Band = append(c.Band, settings.BandPoint{Outdoor: f(out), Low: f(ideal - 7*q - 1), Median: f(ideal), High: f(ideal + 6*q + 1)})
	}
	return c
}

func sections() []settings.Section {
	l := func(id, label, value, allowed, why string) settings.Line {
		return settings.Line{ID: id, Label: label, Value: value, Allowed: allowed, Why: why}
	}
	sure := func(x settings.Line, low, high, words string) settings.Line {
		x.Band = settings.Band{Known: true, Low: low, High: high, Words: words}
		return x
	}
	caution := func(x settings.Line, text string) settings.Line { x.Caution = text; return x }
	instead := func(x settings.Line, text string) settings.Line { x.Instead = text; return x }
	on := func(circuit string, lines ...settings.Line) []settings.Line {
		for i := range lines {
			lines[i].Circuit = circuit
		}
		return lines
	}
	cold := sure(l("radiators.cold-supply", "Supply at the cold point", "151 °F", "60 – 180 °F", "The living room needs 151 °F to hold 70 °F at 5 °F outdoors."), "145 °F", "157 °F", "fair")
	cold.TooHigh = "Rooms overshoot, the boiler condenses less and fuel is wasted."
	cold.TooLow = "The living room falls behind on the coldest days."
	cold.Working = []working.Step{
		{Name: "Load of the living room", Formula: "Q = H · (Ti − To)", Inputs: []working.Input{
			{Symbol: "H", Meaning: "heat loss per degree", Value: units.LossCoefficient(58.5), Known: "drawings"},
			{Symbol: "Ti", Meaning: "room temperature wanted", Value: units.Fahrenheit(70), Known: "measured"},
			{Symbol: "To", Meaning: "design outdoor temperature", Value: units.Fahrenheit(5), Known: "drawings"}},
			Result: working.Input{Symbol: "Q", Meaning: "heat load", Value: units.BtuPerHour(7200)},
			Range:  "steady state", Source: "EN 12831-1:2017, 6.3"},
		{Name: "Excess temperature of the radiators", Formula: "ΔT = ΔT₀ · (Q / Q₀)^(1/n)", Inputs: []working.Input{
			{Symbol: "ΔT₀", Meaning: "excess temperature of the rating", Value: units.Kelvins(50), Known: "assumed"},
			{Symbol: "Q₀", Meaning: "rated output", Value: units.BtuPerHour(9100), Known: "measured"},
			{Symbol: "n", Meaning: "exponent", Value: units.Number(1.3), Known: "assumed"}},
			Result: working.Input{Symbol: "ΔT", Meaning: "excess temperature", Value: units.Kelvins(41.7)},
			Range:  "ΔT 10 K to 75 K", Source: "EN 442-2", Note: "column radiators without a test sheet: the usual exponent"},
	}
	out := []settings.Section{
		{Title: "Outdoor sensor", Lines: []settings.Line{
			l("sensor.fitted", "Outdoor sensor", "connected", "yes / no", "The curve follows the outdoor temperature; without it the supply stays at one value."),
			l("sensor.offset", "Correction of its reading", "0 °F", "−9 – +9 °F", "On the north wall, 5 ft up and away from vents, it needs no correction."),
		}},
		{Title: "Boiler", Lines: []settings.Line{
			caution(l("boiler.max-supply", "Highest supply temperature", "165 °F", "68 – 185 °F", "The attic baseboard needs the most; nothing needs more than 165 °F."),
				"a relief valve and the boiler's own high limit must be in place and tested; this setting replaces neither."),
			l("boiler.min-supply", "Lowest supply temperature", "77 °F", "50 – 140 °F", "A condensing boiler may run as cool as the circuits ask."),
			sure(l("boiler.output-limit", "Limit of heating output", "62 %", "20 – 100 %", "Load plus 10 % is 50,800 Btu/h of the boiler's 82,000; hot water still has all of it."), "56 %", "68 %", "fair"),
		}},
		{Title: "Separator", Lines: []settings.Line{
			l("separator.sensor", "Sensor at the separator", "at the boiler", "none / boiler / module", "It was found in the low-loss header's pocket, wired to the boiler."),
		}},
		{Title: "Radiators", Lines: on("Radiators",
			l("radiators.kind", "Kind of circuit", "direct", "direct / mixed", "Boiler water as it comes: no mixing valve on this circuit."),
			l("radiators.cold-outdoor", "Cold point: outdoor", "5 °F", "−22 – 32 °F", "The design day of the place."),
			cold,
			l("radiators.mild-outdoor", "Mild point: outdoor", "62 °F", "50 – 77 °F", "Where heating stops; the line ends there."),
			sure(l("radiators.mild-supply", "Supply at the mild point", "79 °F", "60 – 140 °F", "Keeps the straight line at or above the bent need of the radiators all the way."), "76 °F", "83 °F", "good"),
			l("radiators.max-supply", "Highest supply of the circuit", "160 °F", "60 – 180 °F", "A few degrees above the cold point, so that a sensor fault cannot run it hotter."),
		)},
		{Title: "Kitchen slab", Lines: on("Kitchen slab",
			l("slab.kind", "Kind of circuit", "mixed", "direct / mixed", "A motor valve cools the boiler water for the floor."),
			sure(l("slab.cold-supply", "Supply at the cold point", "104 °F", "60 – 180 °F", "The kitchen floor needs 104 °F to hold 70 °F; its surface is then 82 °F."), "99 °F", "110 °F", "rough"),
			l("slab.mild-supply", "Supply at the mild point", "76 °F", "60 – 140 °F", "Floors ask for little in mild weather."),
			caution(l("slab.max-supply", "Highest supply of the circuit", "113 °F", "60 – 180 °F", "Above it the tile would pass 84 °F, the most that feet and screed should see."),
				"a screed can crack and a floor can hurt: fit a separate safety thermostat that stops the pump; this setting alone is no protection."),
		)},
		{Title: "Attic baseboard", Lines: on("Attic baseboard",
			sure(l("attic.cold-supply", "Supply at the cold point", "165 °F", "60 – 180 °F", "The studio would need 171 °F; 165 °F is the circuit's limit (see findings)."), "160 °F", "165 °F", "fair"),
			l("attic.mild-supply", "Supply at the mild point", "86 °F", "60 – 140 °F", "Fin-tube gives almost nothing below 85 °F."),
			l("attic.max-supply", "Highest supply of the circuit", "165 °F", "60 – 180 °F", "The multilayer pipe to the attic is rated for it."),
		)},
		{Title: "Hot water", Lines: []settings.Line{
			caution(l("water.setpoint", "Tank temperature", "140 °F", "86 – 149 °F", "Hot enough to keep legionella from growing in the tank."),
				"140 °F scalds in about 5 seconds: a mixing valve set to 120 °F must stand at the tank's outlet."),
			l("water.priority", "Hot water first", "yes", "yes / no", "The tank takes 25 minutes; the house does not notice."),
			instead(l("water.program", "Warm-up of the tank", "05:30 and 17:00", "2 times a day", "Before the morning and the evening draw."), "if the control has no program for hot water, leave it always on"),
		}},
		{Title: "Frost", Lines: []settings.Line{
			caution(l("frost.outdoor", "Frost protection starts at", "38 °F outdoors", "23 – 50 °F", "A pipe runs through the garage: pumps must run before it freezes."),
				"no control protects pipes in a power cut; drain them or use glycol if the house is left alone in winter."),
			l("frost.room", "Room kept from frost", "45 °F", "41 – 60 °F", "Keeps pipes in outer walls safe while nobody is at home."),
		}},
		{Title: "Program", Lines: []settings.Line{
			l("program.cutoff", "Heating stops above", "62 °F", "50 – 86 °F", "Sun and people carry the house above 61 °F outdoors."),
			l("program.night", "Room temperature at night", "66 °F", "41 – 86 °F", "Four degrees lower: the slab cannot follow more, and the boiler need not catch up."),
			l("program.lower", "Lowered from", "22:00", "00:00 – 24:00", "Half an hour before bedtime: the house coasts."),
			l("program.warm", "Warm again at", "05:15", "00:00 – 24:00", "Starts 75 minutes before getting up on the coldest day."),
		}},
	}
	out[0].Lines[1].Also = "0 K"
	return out
}
