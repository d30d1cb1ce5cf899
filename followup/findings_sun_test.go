package followup

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"curvewright/logs"
)

// shine puts sun on the logged outdoor sensor of about half the days, between two hours,
// and takes so much off the supply as a control would that goes by it.
func shine(from, to, by, slope float64) func(l *logs.Log) {
	return func(l *logs.Log) {
		rng := rand.New(rand.NewPCG(3, 3))
		bright := map[int64]float64{}
		out, supply := series(l, logs.Outdoor), series(l, logs.Supply)
		for i, s := range l.Stamps {
			d := s / daily
			if _, known := bright[d]; !known {
				bright[d] = 0
				if rng.Float64() < 0.5 {
					bright[d] = by * (0.7 + 0.6*rng.Float64())
				}
			}
			h := float64(s%daily) / hour
			if h <= from || h >= to {
				continue
			}
			// Lit and dark again within a quarter of an hour: a house's corner does that.
			edge := math.Min(1, 4*math.Min(h-from, to-h))
			out[i] += edge * bright[d]
			if supply != nil {
				supply[i] -= slope * edge * bright[d]
			}
		}
	}
}

func without(role logs.Role, then func(l *logs.Log)) func(l *logs.Log) {
	return func(l *logs.Log) {
		then(l)
		l.Series = slices.DeleteFunc(l.Series, func(s logs.Series) bool { return s.Role == role })
	}
}

func TestSunOnOneOutdoorSensor(t *testing.T) {
	winter := wish{days: 35, first: 350, tank: true}
	for _, c := range []struct {
		name       string
		over       func(l *logs.Log)
		want, says string
	}{
		{"an hour or two in the morning, the logger's", shine(8, 10, 7, 0), "sun on the logger's sensor", "the logger's"},
		{"the control's", shine(8, 10, 7, 1.2), "sun on the outdoor sensor", "it is the control's"},
		{"the whole morning, the control's", shine(8.5, 13.5, 7, 1.2), "sun on the outdoor sensor", "from the east, and the supply goes down with it"},
		{"the afternoon, and no supply is logged", without(logs.Supply, without(logs.Boiler, shine(16, 18, 7, 0))), "sun on the outdoor sensor", "from the west; whether it is the control's these data cannot tell"},
	} {
		r := analyse(t, 4, winter, c.over)
		i := slices.IndexFunc(r.Findings, func(f Finding) bool { return f.Name == c.want })
		if i < 0 {
			t.Errorf("%s: found %q", c.name, names(r))
			continue
		}
		if !strings.Contains(r.Findings[i].Text, c.says) {
			t.Errorf("%s: %s", c.name, r.Findings[i].Text)
		}
		if s := r.Sunned; !s.Known || s.Low > 0.5 || s.High < 0.4 {
			t.Errorf("%s: on %v of the days", c.name, s)
		}
	}
}

// Where nothing is seen the share is nought, up to what so many clear days leave open;
// without clear days that is said.
func TestNoSunOnTheSensor(t *testing.T) {
	for _, seed := range []uint64{1, 2, 4, 7, 8} {
		r := analyse(t, seed, wish{days: 35, first: int(seed) * 40, tank: true}, nil)
		if r.Sunned.Known && (r.Sunned.Value > 0 || r.Sunned.High > 0.5) {
			t.Errorf("seed %d: %v, found %q", seed, r.Sunned, names(r))
		}
	}
	grey := analyse(t, 4, wish{days: 20, first: 350}, func(l *logs.Log) {
		out := series(l, logs.Outdoor)
		for i := range out {
			out[i] = zero + 2 + math.Sin(float64(i)/4000)
		}
	})
	if grey.Sunned.Known || !strings.Contains(grey.Sunned.Why, "cannot tell") {
		t.Errorf("grey days: %v", grey.Sunned)
	}
}
