package boiler

import (
	"math"
	"testing"

	"curvewright/units"
	"pgregory.net/rapid"
)

// counting is a meter that is not corrected, as tables of clocking have it.
func counting(dial units.Volume) Meter { return Meter{PerRevolution: dial, Compensated: true} }

func TestClockingTable(t *testing.T) { // published table, 1 ft³ dial, 1000 Btu/ft³
	m := counting(units.CubicFeet(1))
	for _, c := range []struct{ seconds, kilo float64 }{{20, 180}, {24, 150}, {30, 120}, {36, 100}, {40, 90}, {60, 60}, {80, 45}} {
		q := ok[units.Power](t)(m.FiringRate(1, units.Time(c.seconds), units.BtuPerCubicFoot(1000)))
		near(t, "Btu/h", q.BtuPerHour(), 1000*c.kilo, 0.01)
	}
	q := ok[units.Power](t)(m.FiringRate(1, 36, units.BtuPerCubicFoot(1030)))
	near(t, "at 1030 Btu/ft³", q.BtuPerHour(), 103000, 0.01)
	metric := counting(0.01)
	flow := ok[units.Flow](t)(metric.Flow(1, 16))
	near(t, "m³/h", float64(flow)*3600, 2.25, 1e-9)
	near(t, "ft³/h", float64(flow)*3600/float64(units.CubicFeet(1)), 79.46, 0.005)
	near(t, "kW", float64(ok[units.Power](t)(metric.FiringRate(1, 16, 38.7e6)))/1000, 24.19, 0.005)
}

func TestMeterCorrection(t *testing.T) {
	// By hand: 7 in w.c. is 0.2529 psi: (14.696 + 0.2529)/14.73 at 60 °F.
	us := WatchedMeter(units.CubicFeet(1), BaseUS)
	near(t, "at sea level", float64(ok[units.Number](t)(us.Correction())), 1.01486, 2e-4)
	us.Air = ok[units.Pressure](t)(AirPressure(units.Feet(5000)))
	us.Gas = units.Fahrenheit(40)
	near(t, "at 5000 ft, 40 °F", float64(ok[units.Number](t)(us.Correction())), (14.696*0.8320+0.2529)/14.73*519.67/499.67, 2e-4)
	// By hand: (1013.25 + 20)/1013.25 · 273.15/288.15
	normal := WatchedMeter(0.01, BaseNormal)
	normal.Gas = units.Celsius(15)
	near(t, "to 0 °C", float64(ok[units.Number](t)(normal.Correction())), 0.96666, 1e-4)
}

func TestClockThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := WatchedMeter(units.Volume(rapid.SampledFrom([]float64{0.01, 0.0141584, 0.0283168, 0.0566337}).Draw(t, "dial")), BaseUS)
		m.Gas = units.Celsius(rapid.Float64Range(-20, 40).Draw(t, "gas"))
		value := units.HeatingValue(rapid.Float64Range(30e6, 100e6).Draw(t, "value"))
		rate := units.Power(rapid.Float64Range(3e3, 80e3).Draw(t, "rate"))
		time, err := m.RevolutionTime(rate, value)
		if err != nil {
			t.Fatal(err)
		}
		back, err := m.FiringRate(1, time, value)
		if err != nil || math.Abs(float64(back/rate)-1) > 1e-9 {
			t.Fatalf("%v comes back as %v (%v)", rate, back, err)
		}
	})
}

func TestBadClockingIsRefused(t *testing.T) {
	m := WatchedMeter(units.CubicFeet(1), BaseUS)
	_, err := m.FiringRate(1, 0, units.BtuPerCubicFoot(1030))
	refused(t, "no time", err, "time of the count|0 s")
	_, err = m.FiringRate(0, 30, units.BtuPerCubicFoot(1030))
	refused(t, "no revolution", err, "revolutions of the dial")
	_, err = m.FiringRate(1, 30, 1030)
	refused(t, "a value in other units", err, "heating value of the gas")
	_, err = m.RevolutionTime(0, units.BtuPerCubicFoot(1030))
	refused(t, "no fire", err, "firing rate")
	m.Gas = 0
	_, err = m.FiringRate(1, 30, units.BtuPerCubicFoot(1030))
	refused(t, "gas of 0 K", err, "gas temperature")
}
