package followup

import (
	"math"
	"slices"
	"testing"

	"curvewright/logs"
	"curvewright/trial"
	"curvewright/units"
	"curvewright/year"
)

// with puts a column more into a log.
func with(l *logs.Log, role logs.Role, unit string, at func(i int) float64) {
	s := logs.Series{Column: logs.Column{Heading: string(role), Role: role, Unit: unit}, Values: make([]float64, len(l.Stamps))}
	for i := range s.Values {
		s.Values[i] = at(i)
	}
	l.Series = append(l.Series, s)
}

func clock(l *logs.Log, i int) float64 { return float64(l.Stamps[i]%daily) / hour }

// rested lets the pump rest at night, with a pipe that cools or one that does not.
func rested(l *logs.Log, excess func(since float64) float64) {
	s, r, b := series(l, logs.Supply), series(l, logs.Return), series(l, logs.Burner)
	still := func(i int) bool { return clock(l, i) < 5 }
	with(l, logs.Pump, "0/1", func(i int) float64 {
		if still(i) {
			return 0
		}
		return 1
	})
	for i := range s {
		if still(i) {
			s[i] = zero + 20 + excess(clock(l, i))
			r[i], b[i] = s[i]-0.1, 0
		}
	}
}

// charged draws a tank that is charged twice a day for so many minutes.
func charged(l *logs.Log, minutes, fall float64) {
	with(l, logs.Tank, "°C", func(i int) float64 {
		h := math.Mod(clock(l, i)+6, 12) // charges begin at 6 and at 18
		if h*60 < minutes {
			return zero + 45 + 13*h*60/minutes
		}
		return zero + 58 - 13*(h*60-minutes)/(720-minutes)*fall
	})
}

func TestFindsWhatIsWrongWithThePlant(t *testing.T) {
	winter := wish{days: 35, first: 350}
	firing := func(l *logs.Log) {
		b := series(l, logs.Burner)
		for i := range b {
			b[i] = 1
		}
	}
	for _, c := range []struct {
		name string
		wish wish
		over func(l *logs.Log)
		want string
	}{
		{"separator sends supply back", winter, func(l *logs.Log) {
			firing(l)
			s, r := series(l, logs.Supply), series(l, logs.Return)
			with(l, logs.Boiler, "°C", func(i int) float64 { return s[i] })
			with(l, logs.BoilerBack, "°C", func(i int) float64 { return r[i] + 0.6*math.Max(6, s[i]-r[i]) })
		}, "separator sends supply back"},
		{"separator mixes return in", winter, func(l *logs.Log) {
			firing(l)
			s, r := series(l, logs.Supply), series(l, logs.Return)
			for i := range s {
				r[i] = s[i] - 5
			}
			with(l, logs.Boiler, "°C", func(i int) float64 { return s[i] + 7 })
			with(l, logs.BoilerBack, "°C", func(i int) float64 { return r[i] + 0.2 })
		}, "separator mixes return in"},
		{"pressure too low", winter, func(l *logs.Log) {
			with(l, "water pressure", "bar", func(i int) float64 { return 1.4e5 - 1.2e5*float64(i)/float64(len(l.Stamps)) })
		}, "water pressure too low"},
		{"pressure swings", winter, func(l *logs.Log) {
			with(l, "water pressure", "bar", func(i int) float64 { return 1.7e5 + 0.6e5*math.Sin(float64(i)/40) })
		}, "water pressure swings"},
		{"silting", wish{days: 100, first: 320}, func(l *logs.Log) {
			s, r := series(l, logs.Supply), series(l, logs.Return)
			for i := range s {
				days := float64(l.Stamps[i]-l.Stamps[0]) / daily
				r[i] = s[i] - (s[i]-r[i])*math.Pow(1.15, days/30)
			}
		}, "flow is going down"},
		{"boost", wish{days: 35, first: 350, edit: func(t *trial.Trial) {
			for i := range t.Settings[0].Circuits {
				t.Settings[0].Circuits[i].Program = year.Night(units.Hours(22), units.Hours(5), 4, false)
			}
		}}, func(l *logs.Log) {
			s, r := series(l, logs.Supply), series(l, logs.Return)
			for i := range s {
				if h := clock(l, i); h >= 5 && h < 7 {
					s[i], r[i] = zero+74, zero+62
				}
			}
		}, "boost spoils condensing"},
		{"charges too long", winter, func(l *logs.Log) { charged(l, 100, 1) }, "charges take too long"},
		{"boiler kept hot", winter, func(l *logs.Log) {
			charged(l, 30, 1)
			firing(l)
			s := series(l, logs.Supply)
			with(l, logs.Boiler, "°C", func(i int) float64 { return math.Max(zero+72, s[i]+18) })
		}, "boiler kept hot for the tank"},
		{"gravity", winter, func(l *logs.Log) { rested(l, func(h float64) float64 { return 22 - h }) }, "water circulates by itself"},
		{"circulation of the tank", winter, func(l *logs.Log) { charged(l, 30, 2.2) }, "tank cools at night"},
		{"two outdoors", winter, func(l *logs.Log) {
			o := series(l, logs.Outdoor)
			with(l, logs.Outdoor, "°C", func(i int) float64 { return o[i] + 2.6 + 0.2*math.Sin(float64(i)) })
		}, "outdoor sensors disagree"},
		{"pipe sensors", wish{days: 40, first: 190}, func(l *logs.Log) {
			s, r := series(l, logs.Supply), series(l, logs.Return)
			with(l, logs.Pump, "0/1", func(int) float64 { return 0 })
			b := series(l, logs.Burner)
			for i := range s {
				s[i], r[i], b[i] = zero+24.3, zero+22+0.1*math.Sin(float64(i)), 0
			}
		}, "pipe sensors disagree"},
		{"frost in a pipe", winter, func(l *logs.Log) {
			r := series(l, logs.Return)
			for i := 3000; i < 3030; i++ {
				r[i] = zero + 3
			}
		}, "pipe close to freezing"},
		{"frost in a room", winter, func(l *logs.Log) {
			r := series(l, logs.Room)
			for i := 3000; i < 3030; i++ {
				r[i] = zero + 5
			}
		}, "room close to freezing"},
		{"lock-out", winter, func(l *logs.Log) {
			s, b, o := series(l, logs.Supply), series(l, logs.Burner), series(l, logs.Outdoor)
			firing(l)
			coldest := 2000
			for i := 2000; i < len(o)-2000; i++ {
				if o[i] < o[coldest] && l.Stamps[i+40]-l.Stamps[i-40] == 80*300 {
					coldest = i
				}
			}
			coldest -= coldest % 12
			for i := coldest - 24; i < coldest+36; i++ {
				o[i] = math.Min(o[i], o[coldest]+1)
				s[i], b[i] = zero+22, 0
				for k := range l.Series {
					if l.Series[k].Role == logs.Room {
						l.Series[k].Values[i] = zero + 20 - 2*float64(i-coldest+24)/60
					}
				}
			}
		}, "boiler stops in the cold"},
	} {
		r := analyse(t, 4, c.wish, c.over)
		i := slices.IndexFunc(r.Findings, func(f Finding) bool { return f.Name == c.want })
		if i < 0 {
			t.Errorf("%s: found %q, want %q", c.name, names(r), c.want)
			continue
		}
		if f := r.Findings[i]; f.Text == "" || f.Remedy == "" || f.To <= f.From {
			t.Errorf("%s: %+v", c.name, f)
		}
	}
}

// What is as it should be raises no alarm.
func TestRestsAndChargesOfASoundPlantGiveNoAlarm(t *testing.T) {
	for name, over := range map[string]func(l *logs.Log){
		"a pipe that cools":   func(l *logs.Log) { rested(l, func(h float64) float64 { return 22 * math.Exp(-2.5*h) }) },
		"a tank that is fine": func(l *logs.Log) { charged(l, 30, 0.3) },
		"two good sensors": func(l *logs.Log) {
			o := series(l, logs.Outdoor)
			with(l, logs.Outdoor, "°C", func(i int) float64 { return o[i] + 0.5*math.Sin(float64(i)) })
		},
	} {
		for _, f := range analyse(t, 4, wish{days: 35, first: 350}, over).Findings {
			if slices.Contains([]string{"water circulates by itself", "tank cools at night", "outdoor sensors disagree", "pipe sensors disagree", "pipe close to freezing", "boiler stops in the cold", "charges take too long"}, f.Name) {
				t.Errorf("%s: %s: %s", name, f.Name, f.Text)
			}
		}
	}
}
