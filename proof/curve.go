package proof

import (
	"fmt"

	"curvewright/building"
	"curvewright/curve"
	"curvewright/emitter"
	"curvewright/units"
)

// oneEmitter is a circuit of one room with one emitter that just holds it at the
// design temperatures: the house behind every published characteristic heating curve.
func oneEmitter(room, design, supply, ret units.Temperature, n units.Number) (curve.Circuit, error) {
	load := units.Power(10000)
	loss, err := building.FromDesign(load, room, design)
	if err != nil {
		return curve.Circuit{}, err
	}
	law, err := emitter.Radiator(load, emitter.Rating{Supply: supply, Return: ret, Room: room}, n)
	if err != nil {
		return curve.Circuit{}, err
	}
	flow := units.LossCoefficient(float64(load) / float64(supply-ret))
	return curve.Circuit{Name: "one emitter", Flow: flow, Rooms: []curve.Room{{Name: "room", Setpoint: room, Loss: loss,
		Emitters: []emitter.Emitter{law}, Flows: []units.LossCoefficient{flow}}}}, nil
}

// curveRows hold the engine's need of supply against the characteristic heating curve
// of the handbooks, log-mean form:
//
//	q = (Ti − To)/(Ti − To,design), M = M_design·q^(1/n), D = q·(Ts − Tr)_design
//	Ts = Ti + D·e^(D/M)/(e^(D/M) − 1), Tr = Ts − D
func curveRows() []Row {
	type set struct {
		n              units.Number
		supply, ret    float64
		outdoor        []float64
		wantTs, wantTr []float64
	}
	var rows []Row
	for _, s := range []set{
		{1.3, 75, 65, []float64{-10, -5, 0, 5, 10, 15}, []float64{75, 67.61, 59.92, 51.81, 43.11, 33.41}, []float64{65, 59.28, 53.25, 46.81, 39.78, 31.74}},
		{1.3, 55, 45, []float64{-10, -5, 0, 5, 10, 15}, []float64{55, 50.22, 45.26, 40.06, 34.51, 28.35}, []float64{45, 41.89, 38.59, 35.06, 31.17, 26.69}},
		{1.1, 35, 28, []float64{-10, -5, 0, 5, 10, 15}, []float64{35, 32.65, 30.27, 27.85, 25.38, 22.82}, []float64{28, 26.82, 25.60, 24.35, 23.07, 21.65}},
	} {
		c, err := oneEmitter(units.Celsius(20), units.Celsius(-10), units.Celsius(s.supply), units.Celsius(s.ret), s.n)
		for i, to := range s.outdoor {
			solve := func() (supply, ret float64, e error) {
				if err != nil {
					return 0, 0, err
				}
				at, e := c.Solve([]units.Temperature{units.Celsius(to)}, 0.5)
				if e != nil {
					return 0, 0, e
				}
				return at[0].Supply.Celsius(), c.Return(at[0].Supply, at[0].Load).Celsius(), nil
			}
			name := fmt.Sprintf("n %g, %g/%g/20 °C at −10 °C: outdoors %g °C", float64(s.n), s.supply, s.ret, to)
			row := Row{Subject: "Heating curve", Unit: "°C", Abs: 0.011,
				Source: "characteristic heating curve with the EN 442 output law, log-mean form", Standing: Formula}
			row.ID, row.What, row.Published = fmt.Sprintf("curve-%g-%g-%g-supply", float64(s.n), s.supply, to), "supply, "+name, s.wantTs[i]
			row.Ours = func() (float64, error) { ts, _, e := solve(); return ts, e }
			rows = append(rows, row)
			if i%2 == 1 {
				row.ID, row.What, row.Published = fmt.Sprintf("curve-%g-%g-%g-return", float64(s.n), s.supply, to), "return, "+name, s.wantTr[i]
				row.Ours = func() (float64, error) { _, tr, e := solve(); return tr, e }
				rows = append(rows, row)
			}
		}
	}
	us, err := oneEmitter(units.Fahrenheit(70), units.Fahrenheit(0), units.Fahrenheit(180), units.Fahrenheit(160), 1.3)
	for i, to := range []float64{0, 10, 20, 30, 40, 50, 60} {
		want := []float64{180, 167.39, 154.34, 140.73, 126.40, 111.01, 93.81}[i]
		rows = append(rows, Row{ID: fmt.Sprintf("curve-us-%g", to), Subject: "Heating curve",
			What: fmt.Sprintf("supply, n 1.3, 180/160/70 °F at 0 °F: outdoors %g °F", to), Published: want, Unit: "°F", Abs: 0.3,
			Source: "characteristic heating curve, arithmetic-mean form of the handbooks", Standing: Formula,
			Note: "ours uses the logarithmic mean; at a drop of 20 °F the two forms differ by up to 0.16 K",
			Ours: func() (float64, error) {
				if err != nil {
					return 0, err
				}
				at, e := us.Solve([]units.Temperature{units.Fahrenheit(to)}, 0.5)
				if e != nil {
					return 0, e
				}
				return at[0].Supply.Fahrenheit(), nil
			}})
	}
	return rows
}
