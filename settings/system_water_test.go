package settings_test

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"curvewright/fluid"
	"curvewright/job"
	"curvewright/pipework"
	"curvewright/settings"
	"curvewright/units"
)

// boilerRoom is a house with a blank for its closed system and its sensors.
const boilerRoom = `curvewright: 1
job: Boiler room
display: si
site: {design_outdoor: -16 °C, annual_mean: 7 °C, elevation: 300 m}
house: {floor_area: 150 m², load: 9 kW, setpoint: 21 °C, storeys: 2}
circuits:
  - name: Heating
    drop: 10 K
    emitters:
      - %s
boiler: {output: 20 kW}
control: {scale: celsius, curve: {two_points: {}}}
%s
`

const panels = "radiator: {output: 16 kW, kind: panel}"

func withSystem(t testing.TB, system string) *settings.Sheet {
	t.Helper()
	return solve(t, read(t, fmt.Sprintf(boilerRoom, panels, "system: {"+system+"}")))
}

func lineOf(s *settings.Sheet, id string) (settings.Line, bool) {
	for _, sec := range s.Sections {
		for _, l := range sec.Lines {
			if l.ID == id {
				return l, sec.Part == settings.BoilerRoom
			}
		}
	}
	return settings.Line{}, false
}

// said are the findings that hold a word.
func said(s *settings.Sheet, word string) (out []settings.Finding) {
	for _, f := range s.Findings {
		if strings.Contains(f.Text, word) {
			out = append(out, f)
		}
	}
	return out
}

// plain takes typographic spaces and signs out of a sentence.
func plain(s string) string {
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ", "−", "-").Replace(s)
}

// result is the figure at the end of the step of a line that holds a word in its name.
func result(t testing.TB, s *settings.Sheet, id, step string) float64 {
	t.Helper()
	l, _ := lineOf(s, id)
	for _, w := range l.Working {
		if strings.Contains(w.Name, step) {
			return reflect.ValueOf(w.Result.Value).Float()
		}
	}
	t.Fatalf("line %q has no step %q", id, step)
	return 0
}

func TestWithoutSurveyNothingIsAdded(t *testing.T) {
	s := solve(t, read(t, fmt.Sprintf(boilerRoom, panels, "")))
	for _, sec := range s.Sections {
		if sec.Title == "System water" || sec.Title == "Sensors" {
			t.Errorf("a section %q without a survey", sec.Title)
		}
	}
	if len(s.Sensors) != 0 {
		t.Errorf("sensors %v", s.Sensors)
	}
}

func TestContentIsEstimatedByEmitters(t *testing.T) {
	for _, c := range []struct {
		emitter string
		litres  float64 // per kilowatt
		source  string
	}{
		{panels, 10, "common practice"},
		{"radiator: {output: 16 kW, kind: column}", 18, "common practice"},
		{"radiator: {output: 16 kW, kind: convector}", 6, "common practice"},
		{"towel_rail: {output: 16 kW}", 10, "common practice, as panels"},
		{"cast_iron: {edr: 250 EDR}", 14, "common practice"},
		{"fin_tube: {length: 120 ft}", 6, "common practice"},
		{"sized: {like: heated slab}", 20, "common practice"},
		{"sized: {like: fan coil}", 6, "common practice"},
	} {
		s := solve(t, read(t, fmt.Sprintf(boilerRoom, c.emitter, "system: {boiler_water: 5 L}")))
		want := 0.005 + c.litres*1e-6*float64(s.Circuits[0].Load)
		if got := result(t, s, "content", "by its emitters"); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %.1f L, want %.1f", c.emitter, 1000*got, 1000*want)
		}
		if l, _ := lineOf(s, "content"); !l.Band.Known || !strings.Contains(l.Why, "Guessed") {
			t.Errorf("%s: the guess does not say that it is one: %+v", c.emitter, l)
		}
		if s.Boiler.Known && math.Abs(float64(s.Boiler.Water)-want) > 1e-9 {
			t.Errorf("%s: the boiler's season reckons with %v", c.emitter, s.Boiler.Water)
		}
	}
	if s := withSystem(t, "content: {value: 300 L, known: measured}"); math.Abs(float64(s.Boiler.Water)-0.3) > 1e-9 {
		t.Errorf("measured content: the boiler's season reckons with %v", s.Boiler.Water)
	}
}

// TestVesselIsSized holds the line to the standard's own formula with the sheet's
// temperatures.
func TestVesselIsSized(t *testing.T) {
	s := withSystem(t, "content: 200 L, height: 10 m, relief: 3 bar")
	l, room := lineOf(s, "vessel")
	if !room {
		t.Error("the vessel is not in the boiler room's part")
	}
	var hot units.Temperature
	for _, in := range l.Working[0].Inputs {
		if in.Symbol == "hot" {
			hot = in.Value.(units.Temperature)
		}
	}
	static, err := pipework.StaticPressure(fluid.Water(), 10, units.Celsius(10))
	if err != nil {
		t.Fatal(err)
	}
	want, err := pipework.SizeVessel(pipework.VesselInput{Content: units.Litres(200), Cold: units.Celsius(10), Hot: hot,
		Static: static, Relief: units.Bar(3)})
	if err != nil {
		t.Fatal(err)
	}
	if got := result(t, s, "vessel", "with a reserve"); math.Abs(got-float64(want.Least)) > 1e-9 {
		t.Errorf("least vessel %.2f L, want %.2f", 1000*got, 1000*float64(want.Least))
	}
	if got := result(t, s, "fill-pressure", "Cold fill"); got > float64(want.End)+2e3 || got < float64(want.Fill) {
		t.Errorf("hot pressure %.2f bar between fill %.2f and highest %.2f", got/1e5, want.Fill.Bar(), want.End.Bar())
	}
	if l, _ := lineOf(s, "precharge"); plain(l.Value) != "1.30 bar" {
		t.Errorf("precharge %q under 10 m of water", l.Value)
	}
}

// TestVesselFound: what is found is judged, and the cure cures.
func TestVesselFound(t *testing.T) {
	at := func(litres float64, more string) *settings.Sheet {
		return withSystem(t, fmt.Sprintf("content: 250 L, height: 9 m, relief: 3 bar, vessel: %g L%s", litres, more))
	}
	for _, c := range []struct {
		litres   float64
		value    string
		severity string // of the finding; empty: none
		text     string
	}{
		{4, "at least", "short", "too small"},
		{8, "at least", "short", "pressure climbs"},
		{12, "barely enough", "note", "holds no water when cold"},
		{35, "35 L, enough", "", ""},
	} {
		s := at(c.litres, "")
		if l, _ := lineOf(s, "vessel"); !strings.Contains(plain(l.Value), c.value) {
			t.Errorf("%g L: %q, want %q", c.litres, l.Value, c.value)
		}
		found := said(s, "expansion vessel")
		if c.severity == "" {
			if len(found) > 0 {
				t.Errorf("%g L: %v", c.litres, found)
			}
			continue
		}
		if len(found) != 1 || found[0].Severity != c.severity || !strings.Contains(found[0].Text, c.text) || len(found[0].Cures) == 0 || len(found[0].Working) == 0 {
			t.Errorf("%g L: %+v, want %q and %q", c.litres, found, c.severity, c.text)
			continue
		}
		var cure float64
		if _, err := fmt.Sscanf(plain(found[0].Cures[0]), "a vessel of at least %f L", &cure); err != nil {
			t.Fatalf("cure %q: %v", found[0].Cures[0], err)
		}
		if again := said(at(cure, ""), "expansion vessel"); len(again) > 0 {
			t.Errorf("with the cure of %g L: %v", cure, again)
		}
	}
}

func TestPrechargeFound(t *testing.T) {
	at := func(bar float64) *settings.Sheet {
		return withSystem(t, fmt.Sprintf("content: 250 L, height: 9 m, relief: 3 bar, vessel: 25 L, precharge: %g bar", bar))
	}
	for _, c := range []struct {
		bar  float64
		text string // empty: no finding
		cure string
	}{
		{0, "cold water fills it", "a new vessel"},
		{0.8, "lower than the 1.20 bar", "set its gas to 1.20 bar"},
		{1.2, "", ""},
		{1.1, "", ""},
		{1.8, "higher than the 1.20 bar", "set its gas to 1.20 bar"},
	} {
		found := said(at(c.bar), "precharge of")
		if c.text == "" {
			if len(found) > 0 {
				t.Errorf("%g bar: %v", c.bar, found)
			}
			continue
		}
		if len(found) != 1 || !strings.Contains(plain(found[0].Text), c.text) || !strings.Contains(plain(strings.Join(found[0].Cures, "; ")), c.cure) {
			t.Errorf("%g bar: %+v, want %q and %q", c.bar, found, c.text, c.cure)
		}
	}
}

// TestPressureLaws: more water, hotter or higher, wants a larger vessel; a relief valve of
// higher setting a smaller one; the hot pressure lies above the cold and below the relief
// valve.
func TestPressureLaws(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		content := rapid.Float64Range(40, 1500).Draw(rt, "content")
		height := rapid.Float64Range(1, 12).Draw(rt, "height")
		relief := rapid.Float64Range(2.8, 6).Draw(rt, "relief")
		at := func(content, height, relief float64) (vessel, fill, hot float64) {
			s := withSystem(t, fmt.Sprintf("content: %g L, height: %g m, relief: %g bar", content, height, relief))
			l, _ := lineOf(s, "fill-pressure")
			for _, w := range l.Working {
				for _, in := range w.Inputs {
					if in.Symbol == "fill" {
						fill = reflect.ValueOf(in.Value).Float()
					}
				}
			}
			return result(t, s, "vessel", "with a reserve"), fill, result(t, s, "fill-pressure", "Cold fill")
		}
		vessel, fill, hot := at(content, height, relief)
		if !(fill < hot && hot < relief*1e5) {
			rt.Errorf("cold %.2f bar, hot %.2f bar, relief %.2f bar", fill/1e5, hot/1e5, relief)
		}
		if more, _, _ := at(content*1.2, height, relief); more < vessel {
			rt.Errorf("more water wants %.4f, less %.4f m³", more, vessel)
		}
		if higher, _, _ := at(content, height+2, relief); higher < vessel {
			rt.Errorf("a higher house wants %.4f, a lower %.4f m³", higher, vessel)
		}
		if strong, _, _ := at(content, height, relief+1); strong > vessel {
			rt.Errorf("a stronger relief valve wants %.4f, a weaker %.4f m³", strong, vessel)
		}
	})
}

// TestWhatCannotBeSizedIsAFinding, and never an error.
func TestWhatCannotBeSizedIsAFinding(t *testing.T) {
	s := withSystem(t, "height: 20 m, relief: 1.5 bar")
	if f := said(s, "No expansion vessel can be sized"); len(f) != 1 || f[0].Severity != "stop" || !strings.Contains(f[0].Text, "relief valve") {
		t.Errorf("a relief valve too low for the height: %+v", s.Findings)
	}
	if _, ok := lineOf(s, "vessel"); ok {
		t.Error("a vessel is given all the same")
	}
	if _, ok := lineOf(s, "fill-water"); !ok {
		t.Error("the fill water is left out though nothing is wrong with it")
	}
	steam := strings.Replace(fmt.Sprintf(boilerRoom, "sized: {like: fin-tube, supply: 112 °C}", "system: {relief: 3 bar}"), "scale: celsius", "scale: celsius, max_supply: 118 °C", 1)
	if f := said(solve(t, read(t, steam)), "No expansion vessel can be sized"); len(f) != 1 || !strings.Contains(f[0].Text, "hottest temperature") {
		t.Errorf("water above its boiling point: %+v", f)
	}
}

// TestHeightIsAssumedByStoreys, and says so.
func TestHeightIsAssumedByStoreys(t *testing.T) {
	l, _ := lineOf(withSystem(t, "relief: 3 bar"), "precharge")
	in := l.Working[0].Inputs[0]
	if in.Known != string(job.Assumed) || math.Abs(float64(in.Value.(units.Length))-5.6) > 1e-9 {
		t.Errorf("%+v", in)
	}
	v, _ := lineOf(withSystem(t, "height: 5 m"), "vessel")
	for _, in := range v.Working[2].Inputs {
		if in.Symbol == "relief" && (in.Known != string(job.Assumed) || in.Value != units.Quantity(units.Bar(3))) {
			t.Errorf("%+v", in)
		}
	}
}

func TestFillWater(t *testing.T) {
	for _, c := range []struct {
		system, value, why string
		share              int // in percent to treat; 0: no finding
		source             string
	}{
		// 20 kW with a boiler of small content: to 20 L/kW 3, to 40 L/kW 1.5, above 0.05 mol/m³.
		{"content: 300 L", "no harder than 16.8 °dH (3 mol/m³)", "use a test strip", 0, "VDI 2035 sheet 1, 2021, from memory"},
		{"content: 300 L, boiler_water: 10 L", "no limit", "use a test strip", 0, "the same"},
		{"content: 600 L, hardness: 5 °dH", "no harder than 8.4 °dH (1.5 mol/m³)", "fill untreated", 0, "the same"},
		{"content: 600 L, hardness: 16 °dH", "no harder than 8.4 °dH (1.5 mol/m³)", "demineralise 48 % of the fill", 48, "(16 − 8.4)/(16 − 0.1)"},
		{"content: 900 L, hardness: 16 °dH", "no harder than 0.28 °dH (0.05 mol/m³)", "demineralise 99 % of the fill", 99, "the same"},
		{"content: 300 L, boiler_water: 10 L, hardness: 30 °dH", "no limit", "fill untreated", 0, "the same"},
	} {
		s := withSystem(t, c.system)
		l, _ := lineOf(s, "fill-water")
		if plain(l.Value) != c.value || !strings.Contains(plain(l.Why), c.why) || !strings.Contains(l.Why, "2021") || !strings.Contains(l.Caution, "backflow") {
			t.Errorf("%s: %q, %q, %q", c.system, l.Value, l.Why, l.Caution)
		}
		found := said(s, "too hard")
		if (len(found) == 1) != (c.share > 0) || c.share > 0 && !strings.Contains(found[0].Cures[0], fmt.Sprintf("demineralise %d %%", c.share)) {
			t.Errorf("%s: %+v", c.system, found)
		}
	}
	for word, want := range map[string]string{"yes": "8.2 to 8.5", "no": "8.2 to 10.0"} {
		if l, _ := lineOf(withSystem(t, "aluminium: "+word), "water-ph"); l.Value != want {
			t.Errorf("aluminium %s: %q", word, l.Value)
		}
	}
	if _, ok := lineOf(withSystem(t, "height: 5 m"), "water-ph"); ok {
		t.Error("a pH for nobody knows what metal")
	}
	if f := said(withSystem(t, "content: 600 L, hardness: 16 °dH, aluminium: yes"), "too hard"); len(f) != 1 || slices.ContainsFunc(f[0].Cures, func(c string) bool { return strings.Contains(c, "soften") }) {
		t.Errorf("softened water for aluminium: %+v", f)
	}
}

func TestAntifreeze(t *testing.T) {
	for _, c := range []struct {
		name, system, value, why, finding string
	}{
		{"nothing said", "height: 5 m", "none", "no antifreeze and no frost target", ""},
		{"none, and none needed", "antifreeze: none", "none", "water freezes at 0.0 °C", ""},
		{"none, but a frost to stand", "frost_target: -20 °C", "propylene glycol 39% by volume", "None is in", ""},
		{"poison, as found", "antifreeze: ethylene glycol, antifreeze_share: 36 %, frost_target: -20 °C", "ethylene glycol 36% by volume", "Freezes at -2", ""},
		{"as found, for the design day", "antifreeze: propylene glycol, antifreeze_share: 36 %", "propylene glycol 36% by volume", "-16.0 °C asks for", ""},
		{"share not known", "antifreeze: propylene glycol", "propylene glycol, share not known", "refractometer", ""},
		{"too thin", "antifreeze: propylene glycol, antifreeze_share: 27 %, frost_target: -20 °C", "propylene glycol 27% by volume", "Freezes at -1", "too thin"},
		{"too thin for its inhibitor", "antifreeze: propylene glycol, antifreeze_share: 15 %, frost_target: -3 °C", "propylene glycol 15% by volume", "asks for 25%", "inhibitor no longer protects"},
		{"too thick", "antifreeze: propylene glycol, antifreeze_share: 55 %, frost_target: -15 °C", "propylene glycol 55% by volume", "asks for", "thicker than needed"},
		{"a mild target still wants its inhibitor", "antifreeze: propylene glycol, antifreeze_share: 30 %, frost_target: -2 °C", "propylene glycol 30% by volume", "asks for 25%", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := withSystem(t, c.system)
			l, _ := lineOf(s, "antifreeze")
			if plain(l.Value) != c.value || !strings.Contains(plain(l.Why), c.why) {
				t.Errorf("%q, %q", l.Value, l.Why)
			}
			glycol := strings.Contains(l.Value, "glycol")
			if glycol != strings.Contains(l.Caution, "poisonous") {
				t.Errorf("caution %q", l.Caution)
			}
			found := said(s, "antifreeze")
			if (len(found) > 0) != (c.finding != "") || c.finding != "" && !strings.Contains(found[0].Text, c.finding) {
				t.Fatalf("findings %+v, want %q", found, c.finding)
			}
			if c.finding == "" {
				return
			}
			// Brought to the share that the cure names, all is well.
			to := regexp.MustCompile(`to come to (\d+)`).FindStringSubmatch(found[0].Cures[0])
			if to == nil {
				t.Fatalf("cures %q", found[0].Cures)
			}
			cured := regexp.MustCompile(`antifreeze_share: \d+`).ReplaceAllString(c.system, "antifreeze_share: "+to[1])
			if again := said(withSystem(t, cured), "antifreeze"); len(again) > 0 {
				t.Errorf("with the cure: %+v", again)
			}
		})
	}
	outside := fmt.Sprintf(boilerRoom, panels, "system: {antifreeze: propylene glycol, antifreeze_share: 27 %, frost_target: -20 °C}\nfrost: {pipes_outside: [garage]}")
	if f := said(solve(t, read(t, outside)), "too thin"); len(f) != 1 {
		t.Errorf("the same is said %d times: %+v", len(f), f)
	}
	glycol := fmt.Sprintf(boilerRoom, panels, "system: {height: 5 m}\nfrost: {glycol: yes}")
	if l, _ := lineOf(solve(t, read(t, glycol)), "antifreeze"); l.Value != "not known" || !strings.Contains(l.Why, "refractometer") {
		t.Errorf("glycol of which nobody knows more: %+v", l)
	}
}

// TestAntifreezeCosts: more glycol costs more flow and pressure and leaves less heat.
func TestAntifreezeCosts(t *testing.T) {
	price := func(share int) (flow, pressure, heat float64) {
		l, _ := lineOf(withSystem(t, fmt.Sprintf("antifreeze: propylene glycol, antifreeze_share: %d %%", share)), "antifreeze")
		w := l.Working[len(l.Working)-1]
		return reflect.ValueOf(w.Inputs[3].Value).Float(), reflect.ValueOf(w.Inputs[4].Value).Float(), reflect.ValueOf(w.Result.Value).Float()
	}
	flow, pressure, heat := 1.0, 1.0, 1.0
	for share := 25; share <= 55; share += 10 {
		f, p, h := price(share)
		if !(f > flow && p > pressure && h < heat && h > 0.8) {
			t.Errorf("%d %%: flow × %.3f, pressure × %.3f, heat × %.3f after %.3f, %.3f, %.3f", share, f, p, h, flow, pressure, heat)
		}
		flow, pressure, heat = f, p, h
	}
}

// TestUncheckedSystemIsRefused: a job that was not read from a document is refused with
// block and field, where it cannot be reckoned with.
func TestUncheckedSystemIsRefused(t *testing.T) {
	for _, c := range []struct {
		want  string
		spoil func(*job.Job)
	}{
		{"system › antifreeze_share", func(j *job.Job) {
			j.System.Antifreeze, j.System.Share = "propylene glycol", job.Says(units.Fraction(0.9), "")
		}},
		{"system › frost_target", func(j *job.Job) { j.System.FrostTarget = job.Says(units.Celsius(-80), "") }},
		{"system › boiler_water", func(j *job.Job) {
			j.System.Content, j.System.BoilerWater = job.Says(units.Litres(100), ""), job.Says(units.Litres(200), "")
		}},
		{"system › hardness", func(j *job.Job) {
			j.System.Content, j.System.Hardness = job.Says(units.Litres(100), ""), job.Says(units.Hardness(50), "")
		}},
		{"sensors › tank › r25", func(j *job.Job) { j.Sensors = []job.Sensor{{Name: "tank", Type: "thermistor"}} }},
		{"sensors › tank › b", func(j *job.Job) {
			j.Sensors = []job.Sensor{{Name: "tank", Type: "thermistor", R25: job.Says(units.Ohms(1e4), "")}}
		}},
		{"sensors › tank: sensor: B", func(j *job.Job) {
			j.Sensors = []job.Sensor{{Name: "tank", Type: "thermistor", R25: job.Says(units.Ohms(1e4), ""), B: job.Says(units.Number(3), "")}}
		}},
		{"sensors › tank: sensor: rows", func(j *job.Job) { j.Sensors = []job.Sensor{{Name: "tank", Type: "table"}} }},
		{"sensors › tank › type", func(j *job.Job) { j.Sensors = []job.Sensor{{Name: "tank", Type: "thermocouple"}} }},
		{"sensors › tank: sensor: temperature", func(j *job.Job) {
			j.Sensors = []job.Sensor{{Name: "tank", Type: "Pt100", Reads: job.Says(units.Ohms(100), ""), Beside: job.Says(units.Celsius(1200), "")}}
		}},
	} {
		j := read(t, fmt.Sprintf(boilerRoom, panels, "system: {height: 5 m}"))
		c.spoil(j)
		s, err := settings.Solve(j, settings.Options{System: units.US})
		if s != nil || err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
}

// TestAnySystemSolves: whatever passes the check of a document gives a sheet in short
// sentences, the same findings in both systems of units.
func TestAnySystemSolves(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var fields []string
		add := func(name, format string, low, high float64) {
			if rapid.Bool().Draw(rt, name+"?") {
				fields = append(fields, fmt.Sprintf(name+": "+format, rapid.Float64Range(low, high).Draw(rt, name)))
			}
		}
		add("content", "%.4g L", 5, 20000)
		add("height", "%.3g m", 0.5, 45)
		add("vessel", "%.3g L", 1, 2000)
		add("precharge", "%.3g bar", 0, 1.4)
		add("relief", "%.3g bar", 1.5, 10)
		add("hardness", "%.3g mol/m³", 0, 20)
		add("boiler_water", "%.3g L", 0.1, 4)
		add("frost_target", "%.3g °C", -48, 0)
		if rapid.Bool().Draw(rt, "aluminium?") {
			fields = append(fields, "aluminium: yes")
		}
		if kind := rapid.SampledFrom([]string{"", "none", "propylene glycol", "ethylene glycol"}).Draw(rt, "antifreeze"); kind != "" {
			fields = append(fields, "antifreeze: "+kind)
			if kind != "none" {
				add("antifreeze_share", "%.3g", 0.01, 0.57)
			}
		}
		if len(fields) == 0 {
			return
		}
		document := fmt.Sprintf(boilerRoom, panels, "system: {"+strings.Join(fields, ", ")+"}")
		j, err := job.Read([]byte(document))
		if err != nil {
			rt.Fatalf("%v", err)
		}
		counts := map[units.System]int{}
		for _, sys := range []units.System{units.SI, units.US} {
			s, err := settings.Solve(j, settings.Options{System: sys})
			if err != nil {
				rt.Fatalf("%v: %v", fields, err)
			}
			finite(t, "sheet", reflect.ValueOf(s))
			counts[sys] = len(s.Findings)
			for _, sec := range s.Sections {
				if sec.Title == "System water" {
					shortSentences(rt, sec)
				}
			}
		}
		if counts[units.SI] != counts[units.US] {
			rt.Errorf("%v: %d findings in SI, %d in US units", fields, counts[units.SI], counts[units.US])
		}
	})
}

// shortSentences holds a section to what the sheet has room for.
func shortSentences(t interface{ Errorf(string, ...any) }, sec settings.Section) {
	for _, l := range sec.Lines {
		if n := utf8.RuneCountInString(l.Why); n > 110 || n == 0 {
			t.Errorf("%s: %d letters: %q", l.ID, n, l.Why)
		}
		if n := utf8.RuneCountInString(l.Caution); n > 115 {
			t.Errorf("%s: %d letters of caution: %q", l.ID, n, l.Caution)
		}
		if l.Value == "" || l.Label == "" || l.TooHigh == "" || l.TooLow == "" || len(l.Working) == 0 {
			t.Errorf("%s: incomplete: %+v", l.ID, l)
		}
		for _, w := range l.Working {
			if w.Name == "" || w.Formula == "" || w.Range == "" || w.Source == "" {
				t.Errorf("%s: a step lacks something: %+v", l.ID, w)
			}
		}
	}
}
