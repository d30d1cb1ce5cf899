package proof

import (
	"curvewright/sensor"
	"curvewright/units"
)

// sensorRows checks platinum sensors and thermistors.
func sensorRows() []Row {
	return append(platinumRows(), thermistorRows()...)
}

// reads gives a sensor's resistance at a temperature in °C.
func reads(make func() (sensor.Sensor, error), at float64) func() (float64, error) {
	return func() (float64, error) {
		s, err := make()
		if err != nil {
			return 0, err
		}
		r, err := s.Resistance(units.Celsius(at))
		return float64(r), err
	}
}

// shows gives the temperature, °C, for a resistance.
func shows(make func() (sensor.Sensor, error), ohms float64) func() (float64, error) {
	return func() (float64, error) {
		s, err := make()
		if err != nil {
			return 0, err
		}
		t, err := s.Temperature(units.Ohms(ohms))
		return t.Celsius(), err
	}
}

func platinumRows() []Row {
	const (
		subject = "Platinum sensors"
		iec     = "IEC 60751"
		class   = "IEC 60751, class "
	)
	pt100 := func() (sensor.Sensor, error) { return sensor.Platinum("Pt100", 100) }
	pt1000 := func() (sensor.Sensor, error) { return sensor.Platinum("Pt1000", 1000) }
	band := func(c sensor.PlatinumClass, at float64) func() (float64, error) {
		return func() (float64, error) {
			s, err := pt1000()
			if err != nil {
				return 0, err
			}
			d, err := s.With(sensor.Class(c)).Band(units.Celsius(at))
			return float64(d), err
		}
	}
	return []Row{
		{ID: "pt100-100", Subject: subject, What: "Pt100 at 100 °C", Ours: reads(pt100, 100), Published: 138.5055, Unit: "Ω", Abs: 1e-4, Source: iec, Standing: Published},
		{ID: "pt100-200", Subject: subject, What: "Pt100 at 200 °C", Ours: reads(pt100, 200), Published: 175.856, Unit: "Ω", Abs: 5e-4, Source: iec, Standing: Published, Note: "printed with three decimals"},
		{ID: "pt100-m20", Subject: subject, What: "Pt100 at −20 °C", Ours: reads(pt100, -20), Published: 92.1599, Unit: "Ω", Abs: .005, Source: iec, Standing: Published},
		{ID: "pt100-m50", Subject: subject, What: "Pt100 at −50 °C", Ours: reads(pt100, -50), Published: 80.31, Unit: "Ω", Abs: .005, Source: iec, Standing: Published},
		{ID: "pt100-m100", Subject: subject, What: "Pt100 at −100 °C", Ours: reads(pt100, -100), Published: 60.2558, Unit: "Ω", Abs: .005, Source: iec, Standing: Published},
		{ID: "pt100-back", Subject: subject, What: "temperature of a Pt100 of 108.5 Ω", Ours: shows(pt100, 108.5), Published: 21.8189, Unit: "°C", Abs: .001, Source: iec + ", a published worked answer", Standing: Published},
		{ID: "pt1000-m40", Subject: subject, What: "Pt1000 at −40 °C", Ours: reads(pt1000, -40), Published: 842.707, Unit: "Ω", Abs: .001, Source: iec, Standing: Formula},
		{ID: "pt1000-25", Subject: subject, What: "Pt1000 at 25 °C", Ours: reads(pt1000, 25), Published: 1097.347, Unit: "Ω", Abs: .001, Source: iec, Standing: Formula},
		{ID: "pt1000-60", Subject: subject, What: "Pt1000 at 60 °C", Ours: reads(pt1000, 60), Published: 1232.419, Unit: "Ω", Abs: .001, Source: iec, Standing: Formula},
		{ID: "pt1000-back", Subject: subject, What: "temperature of a Pt1000 of 921.599 Ω", Ours: shows(pt1000, 921.599), Published: -20, Unit: "°C", Abs: .001, Source: iec, Standing: Formula},
		{ID: "pt-class-b", Subject: subject, What: "band of class B at 100 °C", Ours: band(sensor.ClassB, 100), Published: .8, Unit: "K", Abs: 1e-6, Source: class + "B", Standing: FromMemory},
		{ID: "pt-class-a", Subject: subject, What: "band of class A at −50 °C", Ours: band(sensor.ClassA, -50), Published: .25, Unit: "K", Abs: 1e-6, Source: class + "A", Standing: FromMemory},
	}
}

func thermistorRows() []Row {
	const (
		subject  = "Thermistors"
		equation = "B-equation of a thermistor (IEC 60539-1)"
		type2    = "10 kΩ type 2 curve, table and coefficients"
	)
	b := func(r25, k float64) func() (sensor.Sensor, error) {
		return func() (sensor.Sensor, error) { return sensor.FromB("NTC", units.Ohms(r25), units.Number(k)) }
	}
	three := func() (sensor.Sensor, error) {
		return sensor.FromSteinhartHart("NTC 10 kΩ, type 2", 1.129148e-3, 2.34125e-4, 8.76741e-8)
	}
	return []Row{
		{ID: "ntc-3435-m20", Subject: subject, What: "10 kΩ, B 3435, at −20 °C", Ours: reads(b(10e3, 3435), -20), Published: 77522.5, Unit: "Ω", Abs: .1, Source: equation, Standing: Formula},
		{ID: "ntc-3950-0", Subject: subject, What: "10 kΩ, B 3950, at 0 °C", Ours: reads(b(10e3, 3950), 0), Published: 33620.6, Unit: "Ω", Abs: .1, Source: equation, Standing: Formula},
		{ID: "ntc-3950-60", Subject: subject, What: "10 kΩ, B 3950, at 60 °C", Ours: reads(b(10e3, 3950), 60), Published: 2486.2, Unit: "Ω", Abs: .1, Source: equation, Standing: Formula},
		{ID: "ntc-3977-80", Subject: subject, What: "10 kΩ, B 3977, at 80 °C", Ours: reads(b(10e3, 3977), 80), Published: 1252.5, Unit: "Ω", Abs: .1, Source: equation, Standing: Formula},
		{ID: "ntc-3740-10", Subject: subject, What: "12 kΩ, B 3740, at 10 °C", Ours: reads(b(12e3, 3740), 10), Published: 23322.8, Unit: "Ω", Abs: .1, Source: equation, Standing: Formula},
		{ID: "ntc-3740-back", Subject: subject, What: "temperature of 12 kΩ, B 3740, at 37,826 Ω", Ours: shows(b(12e3, 3740), 37826), Published: 0, Unit: "°C", Abs: .001, Source: equation, Standing: Formula},
		{ID: "ntc-type2-0", Subject: subject, What: "type 2 at 32,650 Ω", Ours: shows(three, 32650), Published: 0, Unit: "°C", Abs: .03, Source: type2, Standing: FromMemory, Note: "two recollections that agree to 0.03 K"},
		{ID: "ntc-type2-25", Subject: subject, What: "type 2 at 10,000 Ω", Ours: shows(three, 10000), Published: 25, Unit: "°C", Abs: .03, Source: type2, Standing: FromMemory},
		{ID: "ntc-type2-50", Subject: subject, What: "type 2 at 3,602 Ω", Ours: shows(three, 3602), Published: 50, Unit: "°C", Abs: .03, Source: type2, Standing: FromMemory},
		{ID: "ntc-type2-100", Subject: subject, What: "type 2 at 679 Ω", Ours: shows(three, 679), Published: 100, Unit: "°C", Abs: .03, Source: type2, Standing: FromMemory},
		{ID: "ntc-single-b", Subject: subject, What: "by how much B 3977 misreads type 2 at its 32,650 Ω for 0 °C", Ours: shows(b(10e3, 3977), 32650), Published: .75, Unit: "K", Abs: .05, Source: type2 + " against the B-equation", Standing: FromMemory,
			Note: "why a table or three coefficients outrank a single B"},
	}
}
