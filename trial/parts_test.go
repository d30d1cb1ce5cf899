package trial_test

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"strings"
	"testing"

	"curvewright/examples"
	"curvewright/settings"
	"curvewright/trial"
	"curvewright/units"
)

func example(t testing.TB, name string, o trial.Options) *trial.Trial {
	t.Helper()
	for _, e := range examples.List() {
		if e.Name == name {
			tr, err := trial.New(read(t, []byte(e.Document)), o)
			if err != nil {
				t.Fatal(err)
			}
			return tr
		}
	}
	t.Fatalf("no example %q", name)
	return nil
}

func TestPrices(t *testing.T) {
	for _, c := range []struct {
		text string
		heat units.Energy
		want string // of the whole
	}{
		{"1.20/therm", units.Therms(1000), "1,200"},
		{"$1.20/therm", units.Therms(1000), "$1,200"},
		{" 0.11 EUR / kWh", units.KilowattHours(10000), "1,100\u00a0EUR"},
		{"90 EUR/MWh", units.KilowattHours(10000), "900\u00a0EUR"},
		{"12/mmbtu", units.Therms(100), "120"},
		{"30/GJ", 2e9, "60"},
	} {
		p, err := trial.ParsePrice(c.text)
		if err != nil || p.Text(c.heat) != c.want {
			t.Errorf("%s: %q, %v; want %q", c.text, p.Text(c.heat), err, c.want)
		}
	}
	for _, text := range []string{"", "1.20", "1.20/gallon", "free/therm", "$1.20 USD/therm", "0/therm", "1.2.3/therm", "NaN/therm", "-1e9999/therm"} {
		if p, err := trial.ParsePrice(text); err == nil {
			t.Errorf("%q is read as %+v", text, p)
		}
	}
}

func TestCarbonFactors(t *testing.T) {
	for text, want := range map[string]string{"5.3 kg/therm": "5,300\u00a0kg", "0.2kg/kWh": "5,861\u00a0kg", "11.7 lb/therm": "5,307\u00a0kg", "200 g/kWh": "5,861\u00a0kg"} {
		c, err := trial.ParseCarbon(text)
		if err != nil || c.Text(units.Therms(1000), units.SI) != want {
			t.Errorf("%s: %q, %v; want %q", text, c.Text(units.Therms(1000), units.SI), err, want)
		}
	}
	for _, text := range []string{"", "5 t/therm", "kg/therm", "$5 kg/therm", "5 kg"} {
		if _, err := trial.ParseCarbon(text); err == nil {
			t.Errorf("%q is not refused", text)
		}
	}
}

func TestFoundCurves(t *testing.T) {
	f, err := trial.ParseFound("House: 110 °F at 60 °F, 180 °F at 0 °F")
	if err != nil || f.Name != "House" || math.Abs(f.Curve.Cold.Outdoor.Fahrenheit()) > 1e-9 || math.Abs(f.Curve.Mild.Supply.Fahrenheit()-110) > 1e-9 {
		t.Errorf("%+v, %v", f, err)
	}
	if f, err := trial.ParseFound("Slab: 40 °C"); err != nil || math.Abs(f.Curve.At(units.Celsius(-30)).Celsius()-40) > 1e-9 || math.Abs(f.Curve.At(units.Celsius(30)).Celsius()-40) > 1e-9 {
		t.Errorf("%+v, %v", f, err)
	}
	for _, text := range []string{"", "House", ": 40 °C", "House: warm", "House: 40 °C at", "House: 40 °C at 0 °C", "House: 40 °C at 0 °C, 30 °C at 0 °C", "House: 40 at 0 °C, 30 °C at 10 °C", "House: 40 °C, 30 °C"} {
		if f, err := trial.ParseFound(text); err == nil {
			t.Errorf("%q is read as %+v", text, f)
		}
	}
}

func FuzzParseFound(f *testing.F) {
	f.Add("House: 180 °F at 0 °F, 110 °F at 60 °F")
	f.Add("Slab: 40 °C")
	f.Fuzz(func(t *testing.T, text string) {
		if c, err := trial.ParseFound(text); err == nil && (c.Name == "" || c.Curve.Cold.Outdoor >= c.Curve.Mild.Outdoor) {
			t.Errorf("%q gives %+v", text, c)
		}
	})
}

func FuzzParsePrice(f *testing.F) {
	f.Add("$1.20/therm")
	f.Add("0.11 EUR/kWh")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := trial.ParsePrice(text)
		if err == nil && !(p.PerJoule >= 0) {
			t.Errorf("%q gives %+v", text, p)
		}
	})
}

// TestAsFound plays what was found, and refuses what lacks a circuit.
func TestAsFound(t *testing.T) {
	house, err := trial.ParseFound("House: 190 °F at 0 °F, 130 °F at 60 °F")
	if err != nil {
		t.Fatal(err)
	}
	slab, err := trial.ParseFound("Slab: 108 °F")
	if err != nil {
		t.Fatal(err)
	}
	o := trial.Options{Seed: 1, Against: []trial.Against{trial.AsFound}, Found: &settings.Found{Circuits: []settings.FoundCircuit{house, slab}}}
	o.Price, _ = trial.ParsePrice("1.20/therm")
	o.Carbon, _ = trial.ParseCarbon("5.3 kg/therm")
	tr := example(t, "ridge-house", o)
	results, err := tr.Run(nil)
	if err != nil {
		t.Fatal(err)
	}
	if results[1].Fuel <= results[0].Fuel {
		t.Errorf("hot water all year takes %v, the sheet %v", results[1].Fuel, results[0].Fuel)
	}
	rows := tr.Rows(results, units.US)
	if rows[1].Name != "cost of the fuel" || rows[2].Name != "carbon dioxide" || len(rows[1].Cells) != 2 {
		t.Errorf("%+v", rows[:3])
	}
	j := read(t, []byte(examples.List()[len(examples.List())-1].Document))
	for want, found := range map[string]*settings.Found{"nothing says": nil, "circuit": {Circuits: []settings.FoundCircuit{{Name: "nowhere"}}}} {
		if _, err := trial.New(j, trial.Options{Against: []trial.Against{trial.AsFound}, Found: found}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want a sentence with %q", err, want)
		}
	}
}

// TestTheSurveyOfTheControlIsPlayed: what the job says of the control as found, and what is
// typed in its place.
func TestTheSurveyOfTheControlIsPlayed(t *testing.T) {
	document := ""
	for _, e := range examples.List() {
		if e.Name == "ridge-house" {
			document = e.Document
		}
	}
	j := read(t, []byte(document+`
as_found:
  curves:
    - {circuit: House, cold_outdoor: 0 °F, cold_supply: 180 °F, mild_outdoor: 60 °F, mild_supply: 110 °F}
    - {circuit: Slab, preset: floor}
  cut_off: 68 °F
  lower: 60 °F
  lowered_from: 22:00
  lowered_to: 05:00
  differential: 5 K
  least_rest: 3 min
  hot_water: 150 °F
  hot_water_differential: 9 K
  priority: no
  frost_room: 45 °F
`))
	if !trial.KnowsFound(j) || !slices.Equal(trial.Usual(j, nil), []trial.Against{trial.AsFound, trial.Preset, trial.Fixed}) {
		t.Error("the job says how its control was found, and nobody asks for it")
	}
	typed, err := trial.ParseFound("Slab: 108 °F")
	if err != nil {
		t.Fatal(err)
	}
	for _, over := range []*settings.Found{nil, {Circuits: []settings.FoundCircuit{typed}, CutOff: units.Fahrenheit(75)}} {
		tr, err := trial.New(j, trial.Options{Seed: 1, Against: []trial.Against{trial.AsFound}, Found: over})
		if err != nil {
			t.Fatal(err)
		}
		s := tr.Settings[1]
		wantSlab, wantCutOff := 113.0, 68.0
		if over != nil {
			wantSlab, wantCutOff = 108, 75
		}
		at := units.Fahrenheit(14)
		if got := s.Circuits[1].Curve.At(at).Fahrenheit(); math.Abs(got-wantSlab) > 1e-6 {
			t.Errorf("slab at %.1f °F, not %.1f", got, wantSlab)
		}
		if got := s.CutOff.Above.Fahrenheit(); math.Abs(got-wantCutOff) > 1e-6 {
			t.Errorf("cut-off at %.1f °F, not %.1f", got, wantCutOff)
		}
		if s.Differential != 5 || s.Rest != 180 || s.HeatingLimit != 0 || s.Tank.Priority || s.Tank.Differential != 9 || math.Abs(s.Tank.Set.Fahrenheit()-150) > 1e-6 || s.Frost == 0 {
			t.Errorf("%+v", s)
		}
		if len(s.Circuits[0].Program) != 14 {
			t.Errorf("%d switching points", len(s.Circuits[0].Program))
		}
		results, err := tr.Run(nil)
		if err != nil {
			t.Fatal(err)
		}
		// Four kelvin lower at night and from no hour before waking: colder, on little less fuel.
		if r := results; r[1].Rooms[0].Below <= r[0].Rooms[0].Below || math.Abs(float64(r[1].Fuel/r[0].Fuel)-1) > 0.1 || r[1].Balance.OpenShare > 1e-9 {
			t.Errorf("as found %v and %v too cold, sheet %v and %v, balance open by %g", r[1].Fuel, r[1].Rooms[0].Below, r[0].Fuel, r[0].Rooms[0].Below, float64(r[1].Balance.OpenShare))
		}
	}
}

// TestWhatTheJobSaysIsPlayed: the tank, the program of radiators and not of slabs, and the
// limit of the output.
func TestWhatTheJobSaysIsPlayed(t *testing.T) {
	tr := example(t, "ridge-house", trial.Options{Seed: 1})
	s := tr.Settings[0]
	if tr.Plant.Tank == nil || !s.Tank.Priority || s.Tank.Set.Fahrenheit() < 139 {
		t.Errorf("tank %+v, settings %+v", tr.Plant.Tank, s.Tank)
	}
	if len(s.Circuits[0].Program) != 14 || len(s.Circuits[1].Program) != 0 {
		t.Errorf("%d switching points on radiators, %d on the slab", len(s.Circuits[0].Program), len(s.Circuits[1].Program))
	}
	if !(s.HeatingLimit > 0 && s.HeatingLimit < tr.Plant.Boiler.Most) || s.Rest != 480 {
		t.Errorf("limit %v of %v, pause %v", s.HeatingLimit, tr.Plant.Boiler.Most, s.Rest)
	}
	if len(tr.Wanted) != 14 || tr.Wanted[0].From != 6*3600 {
		t.Errorf("the household wants %+v", tr.Wanted)
	}
	results, err := tr.Run(nil)
	if err != nil {
		t.Fatal(err)
	}
	if w := results[0].Tank.Water.Litres(); w < 30000 || results[0].Balance.OpenShare > 1e-9 {
		t.Errorf("%.0f L drawn, balance open by %g", w, float64(results[0].Balance.OpenShare))
	}
	si := example(t, "combi-slab", trial.Options{Seed: 1})
	if si.Settings[0].Circuits[0].Influence == 0 || si.Plant.Tank != nil || si.Plant.Combi == nil {
		t.Errorf("combi: influence %v, tank %v, combi %v", si.Settings[0].Circuits[0].Influence, si.Plant.Tank, si.Plant.Combi)
	}
}

// TestABoilerThatStops: every example freezes some day, its pipe spaces first; the words
// name an alarm.
func TestABoilerThatStops(t *testing.T) {
	for _, e := range examples.List() {
		tr := example(t, e.Name, trial.Options{})
		f, err := tr.Fail()
		if err != nil {
			t.Fatal(err)
		}
		n := len(tr.House.Rooms)
		if len(f.Power) != n+len(tr.Plan.Year.Pipes) || !f.Power[0].IsFrozen || f.Alarm == 0 {
			t.Errorf("%s: %+v", e.Name, f)
		}
		for _, p := range f.Power[n:] {
			if p.Freezes >= f.Power[0].Freezes {
				t.Errorf("%s: pipes in %s freeze after %v, rooms after %v", e.Name, p.Name, p.Freezes, f.Power[0].Freezes)
			}
		}
		var b bytes.Buffer
		if err := f.WriteText(&b, units.US); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"power fails", "larm", "Frost guard", f.Power[len(f.Power)-1].Name} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: the text lacks %q", e.Name, want)
			}
		}
	}
}

// TestHoursAsATable: what is written can be read, and says what was traced.
func TestHoursAsATable(t *testing.T) {
	tr := example(t, "ridge-house", trial.Options{Seed: 1})
	_, trace, err := tr.Traced(units.Hours(1))
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []units.System{units.US, units.SI} {
		var b bytes.Buffer
		if err := trial.WriteCSV(&b, trace, s); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil || len(rows) != trace.Rows+1 || len(rows[0]) != len(trace.Columns)+1 {
			t.Fatalf("%d rows, %v", len(rows), err)
		}
		if rows[24][0] != "01-02 00:00" || !strings.Contains(rows[0][1], map[units.System]string{units.US: "°F", units.SI: "°C"}[s]) {
			t.Errorf("%v, %v", rows[0][:2], rows[24][:2])
		}
		for _, cell := range rows[100][1:] {
			if strings.Contains(cell, "NaN") || cell == "" {
				t.Errorf("%v", rows[100])
			}
		}
	}
	trace.Rows = 0
	if err := trial.WriteCSV(&bytes.Buffer{}, trace, units.US); err == nil {
		t.Error("a table of nothing")
	}
}

// TestTheYearAgreesWithAReckoningByHand: degree-days to the house's own balance hold no
// lowered hours and a usual sun, yet the year must come near them; a house known by its
// bills must burn what the bills say, in a year as cold; and what a reader stumbles over
// is told.
func TestTheYearAgreesWithAReckoningByHand(t *testing.T) {
	for _, c := range []struct {
		name string
		says []string
	}{
		{"ridge-house", []string{"A check by hand", "So many starts", "Too warm for longest: Hall", "mornings"}},
		{"bills-house", []string{"A check by hand", "The bills of the survey say 22,500", "So many starts"}},
		{"short-survey", []string{"A check by hand", "mornings"}},
		{"combi-slab", []string{"A check by hand", "saves next to no fuel", "each draw of it is a start"}},
	} {
		tr := example(t, c.name, trial.Options{Seed: 1, Against: []trial.Against{trial.Preset}})
		results, err := tr.Run(nil)
		if err != nil {
			t.Fatal(err)
		}
		hand, days, below := tr.ByHand(results[0])
		if ratio := float64(results[0].Fuel / hand); ratio < 0.85 || ratio > 1.15 || days <= 0 || below < units.Celsius(10) || below > units.Celsius(18) {
			t.Errorf("%s: the year takes %.2f of the reckoning by hand, %v below %v", c.name, ratio, days, below)
		}
		if c.name == "bills-house" {
			cold := 0.0
			for _, outdoor := range tr.Weather.Outdoor {
				cold += max(0, 18-outdoor) / 24
			}
			burnt, billed := float64(results[0].Fuel/units.KilowattHours(1)), 22500*cold/4600
			if math.Abs(burnt/billed-1) > 0.08 {
				t.Errorf("the bills say %.0f kWh, the year %.0f kWh", billed, burnt)
			}
		}
		notes := strings.Join(tr.Notes(results, units.SI), "\n")
		for _, want := range c.says {
			if !strings.Contains(strings.ReplaceAll(notes, "\u00a0", " "), want) {
				t.Errorf("%s: %q is missing in:\n%s", c.name, want, notes)
			}
		}
	}
}
