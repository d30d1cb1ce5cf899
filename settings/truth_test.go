package settings_test

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"curvewright/hotwater"
	"curvewright/settings"
	"curvewright/units"
)

// These tests hold one line of the sheet against another: what is worked out twice must
// come out once, and what is printed must be what the rest is worked out from.

// number is the figure of an input or result in a line's working.
func number(t *testing.T, l settings.Line, step, meaning string) float64 {
	t.Helper()
	for _, w := range l.Working {
		if !strings.HasPrefix(w.Name, step) {
			continue
		}
		for _, in := range append(w.Inputs, w.Result) {
			if strings.HasPrefix(in.Meaning, meaning) && in.Value != nil {
				return reflect.ValueOf(in.Value).Float()
			}
		}
	}
	t.Fatalf("%s has no %q › %q in its working", l.ID, step, meaning)
	return 0
}

func line(t *testing.T, s *settings.Sheet, id string) settings.Line {
	t.Helper()
	l, ok := lineNamed(s, id)
	if !ok {
		t.Fatalf("no line %s", id)
	}
	return l
}

const highHouse = `curvewright: 1
job: High up
display: si
site: {design_outdoor: -16 °C, annual_mean: 7 °C, elevation: %s}
house: {floor_area: 150 m², load: 9 kW, setpoint: 21 °C}
circuits:
  - name: Heating
    drop: 10 K
    emitters:
      - radiator: {output: 16 kW}
boiler: {kind: condensing, fuel: natural gas, output: 10 kW, min_output: 2 kW}
hot_water: {%s}
control: {scale: celsius, output_limit: power, curve: {two_points: {}}}
`

// TestAltitudeReachesAllThatTheBoilerGives: at 1524 m (5000 ft) the trade's rule leaves
// 0.80 of a rating (NFPA 54/ANSI Z223.1 as quoted), for the heating as for hot water.
func TestAltitudeReachesAllThatTheBoilerGives(t *testing.T) {
	const tank = "by: tank with own pump, tank: 200 L, setpoint: 60 °C, cold: 10 °C, mixing_valve: yes, coil: {output: 40 kW, supply: 80 °C, flow: 30 L/min, tank: 35 °C}"
	low, high := solve(t, read(t, fmt.Sprintf(highHouse, "0 m", tank))), solve(t, read(t, fmt.Sprintf(highHouse, "1524 m", tank)))
	if f := said(high, "at this altitude"); len(f) != 1 || f[0].Severity != "short" {
		t.Errorf("10 kW at 5000 ft are 8 kW and do not carry 9 kW: %+v", f)
	}
	if l := line(t, high, "output-limit"); l.Value != "no limit" || !strings.HasSuffix(plainly(l.Allowed), "to 8 kW") {
		t.Errorf("output limit %q, allowed %q", l.Value, l.Allowed)
	}
	if l := line(t, low, "output-limit"); !strings.HasPrefix(l.Value, "9.9") {
		t.Errorf("output limit at sea level %q", l.Value)
	}
	if l := line(t, high, "hot-water.coil"); !strings.HasPrefix(plainly(l.Value), "8 kW cold") {
		t.Errorf("heat into the tank %q", l.Value)
	}
	flow := func(s *settings.Sheet) float64 {
		return number(t, line(t, s, "hot-water.flow"), "Flow that a combi", "flow")
	}
	combi := func(elevation string) *settings.Sheet {
		return solve(t, read(t, fmt.Sprintf(highHouse, elevation, "by: combi, setpoint: 48 °C, cold: 10 °C")))
	}
	if ratio := flow(combi("1524 m")) / flow(combi("0 m")); math.Abs(ratio-0.8) > 0.001 {
		t.Errorf("the combi's flow keeps %.3f, want 0.80", ratio)
	}
	j := read(t, fmt.Sprintf(highHouse, "1524 m", tank))
	p, err := settings.Prepare(j, settings.DefaultOptions(j))
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(p.Most)-8000) > 1 {
		t.Errorf("the year is played with %.0f W", float64(p.Most))
	}
}

const dryOnSlab = `curvewright: 1
job: Dry boiler
display: si
site: {design_outdoor: -16 °C, annual_mean: 7 °C}
house: {floor_area: 120 m², load: 6 kW, setpoint: 21 °C}
circuits:
  - name: Slab
    kind: direct
    drop: 5 K
    emitters:
      - floor: {construction: wet slab, area: 110 m², spacing: 150 mm, covering_kind: tile}
boiler: {kind: non-condensing, fuel: natural gas, output: 20 kW}
control: {scale: celsius, curve: {%s: {}}}
`

// TestDryBoilerOnSlabGetsNoFigures: water that spares the slab rots the boiler, so no
// figure is printed that somebody could enter.
func TestDryBoilerOnSlabGetsNoFigures(t *testing.T) {
	figure := regexp.MustCompile(`\d`)
	for _, shape := range []string{"two_points", "slope_shift", "table"} {
		s := solve(t, read(t, strings.Replace(fmt.Sprintf(dryOnSlab, shape), "table: {}", "table: {points: 4}", 1)))
		if len(said(s, "stay dry")) == 0 {
			t.Fatal("no stop")
		}
		for _, sec := range s.Sections {
			if !strings.HasPrefix(sec.Title, "Heating curve") {
				continue
			}
			for _, l := range sec.Lines {
				switch l.ID {
				case "slab.emitters":
				case "slab.max-supply":
					if !strings.Contains(l.Instead, "not at the boiler") {
						t.Errorf("%s: %q", l.ID, l.Instead)
					}
				default:
					if figure.MatchString(l.Value+l.Also+l.Allowed) || l.Band.Known || !strings.Contains(l.Caution, "carbon monoxide") {
						t.Errorf("%s, %s: %+v", shape, l.ID, l)
					}
				}
			}
		}
	}
}

// TestCondensingIsToldByTheReturn: the share of the sheet is that of the returns that it
// prints against the dew point that it prints, whatever the maker's points are.
func TestCondensingIsToldByTheReturn(t *testing.T) {
	const rated = `kind: condensing, fuel: natural gas, output: 20 kW, min_output: 4 kW, rated: [{return: 30 °C, efficiency: 88 %}, {return: 60 °C, efficiency: 82 %}]`
	for _, b := range []string{`kind: condensing, fuel: natural gas, output: 20 kW, min_output: 4 kW`, rated} {
		s := solve(t, read(t, wateredHouse(b, "")))
		cool, all := 0.0, 0.0
		for k, p := range s.Boiler.Points {
			q := float64(p.Load) * float64(s.Circuits[0].Points[k].Hours)
			all += q
			if p.Return < s.Boiler.DewPoint {
				cool += q
			}
		}
		if math.Abs(float64(s.Boiler.Condensing)-cool/all) > 1e-9 {
			t.Errorf("%s: %.3f condensing, by its returns %.3f", b, float64(s.Boiler.Condensing), cool/all)
		}
		if odd := len(said(s, "hotter than the water comes back")) > 0; odd != (b == rated) {
			t.Errorf("%s: odd points told: %v", b, odd)
		}
		l := line(t, s, "condensing")
		if loss := number(t, l, "Loss up the flue by the full", "of the gross heat"); loss < 0.02 || loss > 0.25 {
			t.Errorf("stack loss %.3f", loss)
		}
		// (65 − 20) · (0.66/(21 − 4.6) + 0.009) = 2.2 %, the least that the formula gives here.
		if loss := number(t, l, "Loss up the flue by Siegert", "of the net heat"); loss < 0.0215 || loss > 0.2 {
			t.Errorf("Siegert %.4f", loss)
		}
	}
}

// TestPressuresFollowFromWhatIsPrinted works the hot pressure out again from the precharge
// and the fill on the sheet: (p0 + pa)·V/(V·(p0 + pa)/(fill + pa) − Ve) − pa.
func TestPressuresFollowFromWhatIsPrinted(t *testing.T) {
	for _, display := range []string{"si", "us"} {
		for _, height := range []float64{4, 6.3, 8.1} {
			doc := fmt.Sprintf(boilerRoom, panels, fmt.Sprintf("system: {content: 150 L, height: %g m, vessel: 25 L, relief: 3 bar}", height))
			s := solve(t, read(t, strings.Replace(doc, "display: si", "display: "+display, 1)))
			unit := 1e5
			if display == "us" {
				unit = 6894.757
			}
			printed := func(id string) float64 {
				var x float64
				if _, err := fmt.Sscanf(plainly(line(t, s, id).Value), "%f", &x); err != nil {
					t.Fatal(err)
				}
				return x * unit
			}
			l := line(t, s, "fill-pressure")
			air, swelling := number(t, l, "Cold fill", "air pressure"), number(t, l, "Swelling", "swelling")
			p0, fill, volume := printed("precharge")+air, printed("fill-pressure")+air, 0.025
			want := p0*volume/(volume*p0/fill-swelling) - air
			if got := number(t, l, "Cold fill", "hot pressure"); math.Abs(got-want) > 300 {
				t.Errorf("%s, %g m: hot %.0f Pa, from what is printed %.0f", display, height, got, want)
			}
		}
	}
}

// TestVesselIsSizedForTheHottestWater: a tank charged at 75 °C or a boiler that can be set
// to 80 °C heats the system's water, though the curve ends far below.
func TestVesselIsSizedForTheHottestWater(t *testing.T) {
	at := func(boiler, more string) float64 {
		doc := strings.Replace(fmt.Sprintf(boilerRoom, "radiator: {output: 30 kW}", "system: {content: 150 L}\n"+more), "boiler: {output: 20 kW}", "boiler: {output: 20 kW"+boiler+"}", 1)
		l := line(t, solve(t, read(t, doc)), "vessel")
		for _, in := range l.Working[0].Inputs {
			if in.Symbol == "hot" {
				return reflect.ValueOf(in.Value).Float() - 273.15
			}
		}
		t.Fatal("no hottest water")
		return 0
	}
	if hot := at("", ""); hot > 65 {
		t.Errorf("the curve alone asks %.1f °C", hot)
	}
	if hot := at("", "hot_water: {by: tank with own pump, tank: 150 L, setpoint: 60 °C, mixing_valve: yes}"); math.Abs(hot-60-float64(hotwater.AboveTarget)) > 0.1 {
		t.Errorf("tank charging: %.1f °C", hot)
	}
	if hot := at(", max_supply: 80 °C", ""); math.Abs(hot-80) > 0.1 {
		t.Errorf("a boiler that can be set to 80 °C: %.1f °C", hot)
	}
	if hot := at(", max_supply: 105 °C", ""); math.Abs(hot-100) > 0.1 {
		t.Errorf("beyond the range of the sizing: %.1f °C", hot)
	}
}

// TestTooSmallVesselIsToldApart: the fill pressure is that of a new vessel and says so; the
// advice on the precharge names both.
func TestTooSmallVesselIsToldApart(t *testing.T) {
	s := withSystem(t, "content: 300 L, height: 6 m, vessel: 8 L, precharge: 0.5 bar, relief: 3 bar")
	if l := line(t, s, "fill-pressure"); !strings.Contains(l.Value, "new vessel") || !strings.Contains(l.Why, "The one found") {
		t.Errorf("fill pressure: %q %q", l.Value, l.Why)
	}
	if l := line(t, s, "vessel"); !strings.Contains(l.Instead, "too small") || !strings.Contains(l.Instead, "for a new one") {
		t.Errorf("vessel: %q", l.Instead)
	}
	f := said(s, "precharge of 0.50")
	if len(f) != 1 || !strings.Contains(f[0].Text, "The found vessel's") || len(f[0].Cures) < 2 ||
		!strings.Contains(f[0].Cures[0], "until the vessel found is replaced") || !strings.Contains(f[0].Cures[1], "a new vessel") {
		t.Errorf("precharge: %+v", f)
	}
	// Of the vessel found the fill is the precharge: it has no room for a reserve.
	if l := line(t, s, "precharge"); len(f) == 1 && !strings.Contains(f[0].Cures[0], "fill to "+l.Value) {
		t.Errorf("precharge %q, cure %q", l.Value, f[0].Cures[0])
	}
}

// TestTableEndsAreTold: a table holds its last point, so that no colder night is served.
func TestTableEndsAreTold(t *testing.T) {
	s := solve(t, read(t, strings.Replace(fmt.Sprintf(boilerRoom, panels, ""), "two_points: {}", "table: {points: 4}", 1)))
	l := line(t, s, "heating.max-supply")
	if strings.Contains(l.Why, "colder than the design day, no more") || !strings.Contains(l.Why, "gets no hotter water") {
		t.Errorf("%q", l.Why)
	}
}

// TestFloorFlowCarriesAllHeat: the drop that was asked for is the one that the settings
// give, with what the floor loses below.
func TestFloorFlowCarriesAllHeat(t *testing.T) {
	const floor = `floor: {construction: wet slab, area: 120 m², spacing: 150 mm, covering_kind: tile, insulation_below: 0.6 m²K/W, temperature_below: 8 °C}`
	s := solve(t, read(t, strings.Replace(fmt.Sprintf(boilerRoom, floor, ""), "drop: 10 K", "drop: 6 K", 1)))
	p := s.Circuits[0].Points[0]
	if drop := float64(p.Set - p.Return); math.Abs(drop-6) > 0.2 {
		t.Errorf("asked for 6 K, the settings give %.2f K", drop)
	}
	l := line(t, s, "heating.assign")
	if taken := number(t, l, "Water flow", "taken from the water"); taken < 9500 {
		t.Errorf("taken from the water: %.0f W, the load is 9000 W", taken)
	}
	if !strings.Contains(plainly(l.Why), "6 K drop") {
		t.Errorf("%q", l.Why)
	}
}

// TestChokingValveWantsALargerOne: an authority near 1 is no praise if the valve takes the
// pump's head.
func TestChokingValveWantsALargerOne(t *testing.T) {
	with := func(kv string) (*settings.Sheet, settings.Line) {
		s := solve(t, read(t, header{floor: "valve: " + kv}.document()))
		return s, line(t, s, "floor.valve")
	}
	s, l := with("kv 0.63")
	f := said(s, "too small")
	if len(f) != 1 || !strings.Contains(strings.Join(f[0].Cures, "; "), "a larger valve: kv") || !strings.HasPrefix(l.Instead, "A larger valve: kv") {
		t.Errorf("%+v %+v", f, l)
	}
	if s, l := with("kv 2.5"); len(said(s, "is too small")) != 0 || l.Instead != "" {
		t.Errorf("a valve that fits: %+v", l)
	}
}

// TestOffsetEndsAtTheBoilersLimit: nothing is added that the boiler cannot make, and the
// line says what the circuits get then.
func TestOffsetEndsAtTheBoilersLimit(t *testing.T) {
	h := header{separator: "kind: low-loss header, sensor: none, boiler_flow: 5 L/min"}
	free := line(t, solve(t, read(t, h.document())), "separator-offset")
	var added float64
	if _, err := fmt.Sscanf(plainly(free.Value), "+%f K", &added); err != nil || added < 5 {
		t.Fatalf("without a limit: %q", free.Value)
	}
	for _, top := range []float64{63, 70} {
		s := solve(t, read(t, strings.Replace(h.document(), "output: 15 kW", fmt.Sprintf("output: 15 kW, max_supply: %g °C", top), 1)))
		l := line(t, s, "separator-offset")
		got := 0.0
		if l.Value != "none" {
			if _, err := fmt.Sscanf(plainly(l.Value), "+%f K", &got); err != nil {
				t.Fatalf("%q", l.Value)
			}
		}
		if set := s.Circuits[0].Points[0].Set.Celsius(); set+got > top+0.01 || got >= added {
			t.Errorf("%.1f °C and %.1f K is more than the boiler's %.0f °C", set, got, top)
		}
		if !strings.Contains(l.Why, "the circuits then get") || (top > 65) != (got > 0) {
			t.Errorf("%g °C: %q %q", top, l.Value, l.Why)
		}
	}
}

// TestPauseHoldsTheStarts: the starts are counted with the pause that the same sheet sets.
func TestPauseHoldsTheStarts(t *testing.T) {
	s := solve(t, read(t, wateredHouse("kind: condensing, fuel: natural gas, output: 30 kW, min_output: 12 kW, water: 12 L", "")))
	var pause float64
	if _, err := fmt.Sscanf(line(t, s, "rest").Value, "%f min", &pause); err != nil {
		t.Fatal(err)
	}
	for _, p := range s.Boiler.Points {
		if p.Run > 0 && float64(p.Rest) < 60*pause-1 {
			t.Errorf("at %s it rests %.0f s, the sheet sets %.0f min", p.Outdoor.Text(units.SI), float64(p.Rest), pause)
		}
	}
	if most := 60 / pause; float64(s.Boiler.Worst) > most {
		t.Errorf("%.1f starts an hour with a pause of %.0f min", float64(s.Boiler.Worst), pause)
	}
	if why := line(t, s, "differential").Why; !strings.Contains(why, "about "+s.Boiler.StartsText(units.SI)+" starts") {
		t.Errorf("%q, and elsewhere %s", why, s.Boiler.StartsText(units.SI))
	}
}

// TestOneFireIsNotHeldDown: a burner that knows only on and off cycles with its full
// output, and no output limit is asked of it.
func TestOneFireIsNotHeldDown(t *testing.T) {
	s := solve(t, read(t, wateredHouse("kind: non-condensing, fuel: heating oil, output: 20 kW", "")))
	if l, there := lineNamed(s, "output-limit"); there {
		t.Errorf("an output limit: %+v", l)
	}
	l := line(t, s, "differential")
	if q := number(t, l, "Runs and rests", "least output"); q != 20000 {
		t.Errorf("cycles with %.0f W", q)
	}
	line(t, s, "rest")
	if !s.Boiler.Cycles || s.Boiler.Starts <= 0 {
		t.Errorf("no starts: %+v", s.Boiler)
	}
	modulating := solve(t, read(t, wateredHouse("kind: condensing, fuel: natural gas, output: 20 kW", "")))
	line(t, modulating, "output-limit")
	if _, there := lineNamed(modulating, "differential"); there {
		t.Error("the least output of a modulating burner is not known")
	}
}

// TestOwnUnitsLead: no sentence of a sheet names the other system's unit first.
func TestOwnUnitsLead(t *testing.T) {
	wrong := map[units.System]*regexp.Regexp{
		units.SI: regexp.MustCompile(`(°F|gpm|psi|gal) \([\d.,]+[ \x{a0}](°C|K|L)`),
		units.US: regexp.MustCompile(`(°C|K|L/min|bar) \([\d.,]+[ \x{a0}](°F|gpm|psi)`),
	}
	for _, name := range []string{"ridge-house", "combi-slab", "short-survey", "bills-house"} {
		for sys, pattern := range wrong {
			j := example(t, name)
			s, err := settings.Solve(j, settings.Options{System: sys, Samples: 10, Seed: 1})
			if err != nil {
				t.Fatal(err)
			}
			check := func(where string, texts ...string) {
				for _, text := range texts {
					if pattern.MatchString(text) {
						t.Errorf("%s, %v, %s: %q", name, sys, where, text)
					}
				}
			}
			for _, sec := range s.Sections {
				for _, l := range sec.Lines {
					check(l.ID, l.Value, l.Why, l.TooHigh, l.TooLow, l.Caution, l.Instead)
					for _, w := range l.Working {
						check(l.ID, w.Formula, w.Range, w.Source, w.Note)
					}
				}
			}
			for _, f := range s.Findings {
				check("finding", append(f.Cures, f.Text)...)
			}
			check("cautions", s.Cautions...)
		}
	}
}

// TestAmountsInSensibleFigures: what was entered in litres is not told in hundredths of a
// gallon.
func TestAmountsInSensibleFigures(t *testing.T) {
	fine := regexp.MustCompile(`\d\d\.\d\d[ \x{a0}]gal`)
	j := read(t, fmt.Sprintf(boilerRoom, panels, "system: {content: 156 L, vessel: 56 L}"))
	s, err := settings.Solve(j, settings.Options{System: units.US})
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []string{"content", "vessel"} {
		if l := line(t, s, id); fine.MatchString(l.Value) || fine.MatchString(l.Why) {
			t.Errorf("%s: %q %q", id, l.Value, l.Why)
		}
	}
	b := settings.BoilerSeason{Buffer: units.Litres(56)}
	if got := plainly(b.BufferText(units.US)); got != "15 gal" && got != "15.0 gal" {
		t.Errorf("56 L: %s", got)
	}
}

// TestPartsOfTheHouseAreSingular: the sentences say "needs" and "reaches".
func TestPartsOfTheHouseAreSingular(t *testing.T) {
	s := solve(t, read(t, header{}.document()))
	for _, sec := range s.Sections {
		for _, l := range sec.Lines {
			if strings.Contains(l.Why, "rooms on Floor needs") || strings.Contains(l.Why, "rooms on Radiators needs") {
				t.Errorf("%s: %q", l.ID, l.Why)
			}
		}
	}
}

// TestFiveHundredIsTold: each flow says what its fluid carries. Water at 140 °F carries
// 491.8 Btu/h for 1 gpm and 1 °F (worked out from IAPWS).
func TestFiveHundredIsTold(t *testing.T) {
	k := func(more string) (float64, settings.Line) {
		j := read(t, fmt.Sprintf(boilerRoom, panels, more))
		s, err := settings.Solve(j, settings.Options{System: units.US})
		if err != nil {
			t.Fatal(err)
		}
		l := line(t, s, "heating.assign")
		return number(t, l, "Heat that the flow carries", "here") * 6.309020e-5 * 5 / 9 / 0.2930711, l
	}
	plain, l := k("")
	if math.Abs(plain-491.8) > 0.5 || !strings.Contains(l.Working[1].Formula, "500") {
		t.Errorf("water at 140 °F: %.1f, %q", plain, l.Working[1].Formula)
	}
	if thick, _ := k("system: {antifreeze: propylene glycol, antifreeze_share: 30 %}"); thick >= plain-5 || thick < 440 {
		t.Errorf("30 %% propylene glycol: %.1f", thick)
	}
	for _, id := range []string{"house.flow", "slab.flow", "separator-sensor", "slab.loops", "hot-water.first-hour"} {
		l := line(t, solve(t, example(t, "ridge-house")), id)
		number(t, l, "Heat that the flow carries", "here")
	}
}

// TestOpenBranchesShareThePump: what each branch takes with no valve set adds up to the
// pump's flow, and the easier branch takes more than it wants.
func TestOpenBranchesShareThePump(t *testing.T) {
	const two = `pipes: [{tube: "copper EN 1057", size: 22x1, length: 20 m}, {tube: "copper EN 1057", size: 15x1, length: 10 m, share: 50 %}, {tube: "copper EN 1057", size: 15x1, length: 40 m, share: 50 %}]
    pump: {mode: constant pressure, points: [{flow: 0 L/min, head: 60 kPa}, {flow: 20 L/min, head: 50 kPa}, {flow: 40 L/min, head: 30 kPa}]}`
	l := line(t, solve(t, read(t, header{radiators: two}.document())), "radiators.balance")
	easy, wanted := number(t, l, "Branches left open", "run 2"), number(t, l, "Branches left open", "run 2 wants")
	hard, all := number(t, l, "Branches left open", "run 3"), number(t, l, "Branches left open", "of all")
	if !(easy > wanted && hard < easy) || math.Abs(easy+hard-all) > 1e-9 {
		t.Errorf("%g and %g of %g, each wants %g", easy, hard, all, wanted)
	}
	if !strings.Contains(l.Instead, "With no valve set") {
		t.Errorf("%q", l.Instead)
	}
}
