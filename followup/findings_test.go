package followup

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"curvewright/job"
	"curvewright/logs"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/year"
)

// analyse plays a house with a fault and gives what is found.
func analyse(t *testing.T, seed uint64, w wish, over func(l *logs.Log)) *Result {
	t.Helper()
	s := play(t, seed, w)
	l := take(t, s.csv)
	if over != nil {
		over(l)
	}
	r, err := Analyse(t.Context(), l, s.job, Options{System: units.SI, Cheap: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func names(r *Result) []string {
	var out []string
	for _, f := range r.Findings {
		out = append(out, f.Name)
	}
	return out
}

// lift moves every circuit's curve.
func lift(cold, mild float64) func(t *trial.Trial) {
	return func(t *trial.Trial) {
		for i := range t.Settings[0].Circuits {
			c := &t.Settings[0].Circuits[i].Curve
			c.Cold.Supply, c.Mild.Supply = c.Cold.Supply.Add(units.Kelvins(cold)), c.Mild.Supply.Add(units.Kelvins(mild))
		}
	}
}

func series(l *logs.Log, role logs.Role) []float64 {
	for _, s := range l.Series {
		if s.Role == role {
			return s.Values
		}
	}
	return nil
}

// TestAControlThatNobodySetIsToldFromOneThatErrs: the log follows the curve as found.
func TestAControlThatNobodySetIsToldFromOneThatErrs(t *testing.T) {
	var was []job.FoundCurve
	s := play(t, 4, wish{days: 35, first: 350, edit: func(t *trial.Trial) {
		lift(14, 12)(t)
		for i, c := range t.Settings[0].Circuits {
			k := job.FoundCurve{Circuit: t.Plan.Circuits[i].Name}
			for _, outdoor := range []float64{-30, -20, -10, 0, 10, 20} {
				at := units.Celsius(outdoor)
				k.Points = append(k.Points, job.FoundPoint{Outdoor: job.Says(at, job.Measured), Supply: job.Says(c.Curve.At(at), job.Measured)})
			}
			was = append(was, k)
		}
	}})
	for _, c := range []struct {
		found []job.FoundCurve
		want  string
	}{{nil, "not the sheet's curve"}, {was, "still as found"}} {
		s.job.Found.Curves = c.found
		r, err := Analyse(t.Context(), take(t, s.csv), s.job, Options{System: units.SI, Cheap: true})
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Contains(names(r), c.want) {
			t.Errorf("%q is not among %v", c.want, names(r))
		}
	}
}

func TestFindsWhatIsWrongWithTheHouse(t *testing.T) {
	winter := wish{days: 35, first: 350, tank: true}
	for _, c := range []struct {
		name string
		seed uint64
		wish wish
		over func(l *logs.Log)
		want string // among the findings; empty for none of those below
	}{
		{"curve far too low", 4, wish{days: 35, first: 350, edit: lift(-22, -9)}, nil, "not the sheet's curve"},
		{"rooms short", 4, wish{days: 35, first: 350, edit: lift(-22, -9)}, nil, "curve too low"},
		{"curve far too high", 4, wish{days: 35, first: 350, edit: lift(14, 12)}, nil, "not the sheet's curve"},
		{"supply does not move", 4, wish{days: 35, first: 350, edit: func(t *trial.Trial) {
			for i := range t.Settings[0].Circuits {
				t.Settings[0].Circuits[i].Held = units.Celsius(60)
			}
		}}, nil, "no reset"},
		{"limit reached", 4, wish{days: 35, first: 350, edit: func(t *trial.Trial) {
			for i := range t.Settings[0].Circuits {
				t.Settings[0].Circuits[i].Curve.Limit.To = units.Celsius(48)
			}
		}}, nil, "supply limit reached"},
		{"heating in summer", 4, wish{days: 60, first: 150, edit: func(t *trial.Trial) {
			t.Settings[0].CutOff = year.CutOff{}
			for i := range t.Settings[0].Circuits {
				c := &t.Settings[0].Circuits[i].Curve
				c.Mild.Supply = units.Celsius(40)
				c.Limit.From = units.Celsius(38)
			}
			for i := range t.Plant.Circuits {
				t.Plant.Circuits[i].Thermostat = 0
			}
		}}, nil, "heating in summer"},
		{"boiler far too large", 0, wish{days: 35, first: 350, edit: func(t *trial.Trial) {
			t.Plant.Boiler.Least *= 3
			t.Plant.Boiler.Most *= 3
			t.Settings[0].HeatingLimit = 0
		}}, nil, "short cycling"},
		{"setback never made up", 4, wish{days: 35, first: 350, edit: func(t *trial.Trial) {
			lift(-7, -2)(t)
			for i := range t.Settings[0].Circuits {
				t.Settings[0].Circuits[i].Program = year.Night(units.Hours(20), units.Hours(6), 6, false)
			}
		}}, nil, "setback never recovers"},
		{"sun on the sensor", 4, winter, func(l *logs.Log) {
			rng := rand.New(rand.NewPCG(3, 3))
			sunny := map[int64]bool{}
			out := series(l, logs.Outdoor)
			for i, s := range l.Stamps {
				d := s / daily
				if _, known := sunny[d]; !known {
					sunny[d] = rng.Float64() < 0.5
				}
				if h := float64(s%daily) / hour; sunny[d] && h > 8 && h < 10 {
					out[i] += 8 * math.Sin((h-8)*math.Pi/2)
				}
			}
		}, "sun on the outdoor sensor"},
		{"too much water", 4, winter, func(l *logs.Log) {
			s, r := series(l, logs.Supply), series(l, logs.Return)
			for i := range s {
				r[i] = s[i] - 0.2*(s[i]-r[i])
			}
		}, "flow too high"},
		{"too little water", 4, winter, func(l *logs.Log) {
			s, r := series(l, logs.Supply), series(l, logs.Return)
			for i := range s {
				r[i] = s[i] - 3.2*(s[i]-r[i])
			}
		}, "flow too low"},
		{"another house", 4, winter, func(l *logs.Log) {
			h := series(l, logs.HeatMeter)
			for i := range h {
				h[i] *= 5
			}
		}, "another house"},
		{"twice the heat", 3, winter, func(l *logs.Log) {
			h := series(l, logs.HeatMeter)
			for i := range h {
				h[i] *= 2
			}
		}, "survey and log disagree"},
		{"°F read as °C", 4, winter, func(l *logs.Log) {
			o := series(l, logs.Outdoor)
			for i := range o {
				o[i] = (o[i]-zero)*1.8 + 32 + 20 + zero
			}
		}, "weather of elsewhere"},
	} {
		r := analyse(t, c.seed, c.wish, c.over)
		if !slices.Contains(names(r), c.want) {
			t.Errorf("%s: found %q, want %q", c.name, names(r), c.want)
		}
		last := LogItself
		for _, f := range r.Findings {
			if f.Group < last {
				t.Errorf("%s: %s comes after a later step of repair", c.name, f.Name)
			}
			last = f.Group
			if f.Text == "" || f.Remedy == "" || f.To < f.From || strings.Contains(f.Text, "NaN") {
				t.Errorf("%s: finding %+v", c.name, f)
			}
		}
	}
}

// A house without a fault gives no alarm about sensors, water or the log. Its loss may
// differ from the survey's.
func TestASoundHouseGivesNoAlarm(t *testing.T) {
	for _, seed := range []uint64{1, 2, 4} {
		r := analyse(t, seed, wish{days: 35, first: 350, tank: true}, nil)
		for _, f := range r.Findings {
			if f.Name == "another house" || f.Group == Sensors || f.Group == FlowAndAir {
				t.Errorf("seed %d: %s: %s", seed, f.Name, f.Text)
			}
		}
	}
}

// Survey and readings together lie between the two, and are surer than either.
func TestCorrectionUpdatesTheSurvey(t *testing.T) {
	r := analyse(t, 4, wish{days: 35, first: 350, tank: true}, nil)
	c := r.Correction
	if !c.Known {
		t.Fatal(c.Why)
	}
	own := 0.0
	for _, room := range c.Old.Rooms {
		own += float64(room.Loss.Outdoor)
	}
	seen := float64(r.Signature.Loss.Value) / own
	if f := float64(c.Loss.Value); (f-1)*(f-seen) > 0.02 {
		t.Errorf("factor %.3f does not lie between 1 and %.3f", f, seen)
	}
	if c.Loss.half() > r.Signature.Loss.half()+0.02 {
		t.Errorf("the update is less sure (%.3f) than the readings alone (%.3f)", c.Loss.half(), r.Signature.Loss.half())
	}
	if len(c.Points) < 5 || c.Message == "" {
		t.Errorf("points %d, message %q", len(c.Points), c.Message)
	}
	for i := 1; i < len(c.Points); i++ {
		if c.Points[i].Set > c.Points[i-1].Set {
			t.Errorf("the new curve rises with the weather: %+v", c.Points)
		}
	}
}

// What was learned from an earlier log is where a later one begins; a log of the same time
// begins with the survey alone, so that nothing counts twice.
func TestALaterLogBeginsWithWhatWasLearned(t *testing.T) {
	s := play(t, 4, wish{days: 35, first: 350, tank: true})
	l := take(t, s.csv)
	correct := func(until string) Correction {
		t.Helper()
		j := *s.job
		if until != "" {
			j.Learned = &job.Learned{Until: until, Loss: job.Says(units.Number(1.3), job.Measured), LossDoubt: job.Says(units.Fraction(0.03), job.Measured)}
		}
		r, err := Analyse(t.Context(), l, &j, Options{System: units.SI, Cheap: true})
		if err != nil || !r.Correction.Known {
			t.Fatal(r, err)
		}
		return r.Correction
	}
	alone, same, later := correct(""), correct("2026-12-31"), correct("2025-06-01")
	if same.Learned.Loss != alone.Learned.Loss {
		t.Errorf("a log of the same time: %v, alone %v", same.Learned.Loss, alone.Learned.Loss)
	}
	if a, b := math.Abs(float64(later.Learned.Loss-1.3)), math.Abs(float64(alone.Learned.Loss-1.3)); a >= b {
		t.Errorf("a later log: %v, alone %v; learned before 1.3", later.Learned.Loss, alone.Learned.Loss)
	}
}

func TestRemarksPointToCauses(t *testing.T) {
	j := readExample(t, "short-survey")
	p := planOf(t, j)
	cold, mild := p.Design.Add(3), p.CutOff.Add(-3)
	for _, c := range []struct {
		name    string
		remarks []Remark
		want    Cause
		rises   bool // the curve at its cold end
	}{
		{"cold only in great cold", []Remark{{Felt: TooCold, Outdoor: cold, Often: 3}, {Felt: TooCold, Outdoor: cold, When: Evening}}, SlopeLow, true},
		{"too warm in the cold", []Remark{{Felt: TooWarm, Outdoor: cold, Often: 3}, {Felt: TooWarm, Outdoor: cold}}, SlopeHigh, false},
		{"stuffy in spring", []Remark{{Felt: TooWarm, Outdoor: mild, Often: 4}, {Felt: TooWarm, Outdoor: mild, When: Night}}, ShiftHigh, false},
		{"one room", []Remark{{Felt: TooCold, Room: "Bedroom", Outdoor: cold}, {Felt: TooCold, Room: "Bedroom", Outdoor: cold, Often: 5}}, RoomShort, false},
		{"cold mornings", []Remark{{Felt: TooCold, When: Morning, Outdoor: cold, Often: 5}, {Felt: TooCold, When: Morning, Outdoor: cold}}, SetbackDeep, false},
		{"hot afternoons in the sun", []Remark{{Felt: TooWarm, When: Afternoon, Sunny: true, Often: 3}}, StoredHeat, false},
		{"gurgling and cold", []Remark{{Felt: Noise, Often: 7}, {Felt: Noise, Room: "Hall"}}, FlowFault, false},
		{"shower runs cold", []Remark{{Felt: NoHotWater, Shower: true, Often: 2}}, TankFault, false},
		{"cold while others shower", []Remark{{Felt: TooCold, Shower: true, When: Morning, Outdoor: cold, Often: 3}, {Felt: TooCold, Shower: true, When: Evening, Outdoor: cold}}, TankFirst, false},
	} {
		a, err := Weigh(p, j, 0, c.remarks)
		if err != nil {
			t.Fatal(err)
		}
		if a.Suspects[0].Cause != c.want {
			t.Errorf("%s: %v, want %s", c.name, a.Suspects[:3], c.want)
		}
		sum := 0.0
		for _, s := range a.Suspects {
			sum += float64(s.Chance)
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("%s: chances add up to %f", c.name, sum)
		}
		if a.Change == nil {
			continue
		}
		first, last := a.Change.Points[0], a.Change.Points[len(a.Change.Points)-1]
		switch c.want {
		case SlopeLow:
			if first.New <= first.Old || math.Abs(float64(last.New-last.Old)) > float64(first.New-first.Old)/2 || first.Rooms <= 0 {
				t.Errorf("%s: %+v", c.name, a.Change.Points)
			}
		case ShiftHigh:
			if last.New >= last.Old || math.Abs(float64(first.New-first.Old)) > float64(last.Old-last.New) {
				t.Errorf("%s: %+v", c.name, a.Change.Points)
			}
		}
		if a.Text == "" {
			t.Errorf("%s: no text", c.name)
		}
	}
	for _, bad := range [][]Remark{nil, {{Felt: "purple"}}, {{Felt: TooCold, Outdoor: units.Celsius(90)}}, {{Felt: TooCold, By: units.Kelvins(math.NaN())}}, make([]Remark, 300)} {
		if _, err := Weigh(p, j, 0, bad); err == nil {
			t.Errorf("%v was taken", bad[:min(1, len(bad))])
		}
	}
}
