package visit

import (
	"fmt"
	"math"

	"curvewright/attendance"
	"curvewright/fluid"
	"curvewright/pipework"
	"curvewright/units"
	"curvewright/working"
)

// The records of water, pressure test and balancing, held against the sheet's figures.

// Checked is a figure of a record with its verdict.
type Checked struct {
	What     string
	Of       string // loop, where there are several
	Measured units.Quantity
	Wanted   units.Quantity // nil where a sentence says it
	Verdict  Verdict
	Says     string
}

// How near two figures must be; common practice.
const (
	gaugeNear  = 15e3 // Pa: one mark of a usual gauge
	gaugeWrong = 35e3
	flowNear   = 0.10
	flowWrong  = 0.20
)

// JudgeWater holds what was measured of the heating water against the sheet.
//
// Units: those of the document.
// Range: as pipework.HardnessOf and pipework.JudgeWater; pressures within 0.15 bar are the
// sheet's.
// Source: hardness by output and content VDI 2035 sheet 1 (2021), from memory; pH and
// conductivity as pipework.JudgeWater; pressures the sheet's own.
// Errors: figures outside those ranges.
func (h *House) JudgeWater(w attendance.Water) ([]Checked, error) {
	var out []Checked
	site := &h.plan.Site
	if w.Filled.Set {
		j, err := pipework.JudgeRefill(site.Content, w.Filled.Value)
		if err != nil {
			return nil, err
		}
		out = append(out, Checked{What: "Water filled in", Measured: working.Water(w.Filled.Value), Wanted: working.Water(site.Content), Verdict: fits(j.Fits), Says: upper(j.Text) + "."})
	}
	if w.Hardness.Set {
		limit, err := pipework.HardnessOf(pipework.VDI2035Of2021, pipework.Plant{Output: h.job.Boiler.Output.Or(h.plan.Sheet.Load.Total).Value, Content: site.Content, BoilerContent: h.job.System.BoilerWater.Value})
		if err != nil {
			return nil, err
		}
		c := Checked{What: "Hardness", Measured: w.Hardness.Value, Verdict: Right, Says: "No limit at this content and output."}
		if !limit.None {
			c.Wanted, c.Verdict = limit.Limit, fits(w.Hardness.Value <= limit.Limit)
			c.Says = "Soft enough for this content and output."
			if c.Verdict == Wrong {
				c.Says = "Too hard for this content and output: scale settles on the exchanger. Demineralise a part of the fill."
			}
		}
		out = append(out, c)
	}
	if w.PH.Set || w.Conductivity.Set {
		list, err := pipework.JudgeWater(pipework.WaterTest{PH: w.PH.Value, Conductivity: w.Conductivity.Value, Aluminium: h.job.System.Aluminium == "yes"})
		if err != nil {
			return nil, err
		}
		for _, j := range list {
			c := Checked{What: "Conductivity", Measured: w.Conductivity.Value, Verdict: fits(j.Fits), Says: j.Text + "."}
			if j.Subject == "pH" {
				c.What, c.Measured = "pH", w.PH.Value
			}
			out = append(out, c)
		}
	}
	if w.Antifreeze.Set {
		c, err := h.glycol(w.Antifreeze.Value)
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	if !site.Filled {
		return out, nil
	}
	if w.Precharge.Set {
		out = append(out, onGauge("Precharge", w.Precharge.Value, site.Precharge,
			"The precharge is too low: the vessel is full of water when cold.", "The precharge is too high: the vessel takes no water until late."))
	}
	if w.Fill.Set {
		c := onGauge("Cold fill", w.Fill.Value, site.Fill, "The fill is too low: air is drawn in at the top.", "The fill is too high: little is left to the relief valve.")
		if w.Precharge.Set && w.Fill.Value < w.Precharge.Value-gaugeNear {
			c.Verdict, c.Says = Wrong, "The fill is below the precharge: the vessel holds no water at all."
		}
		out = append(out, c)
	}
	return out, nil
}

func fits(yes bool) Verdict {
	if yes {
		return Right
	}
	return Wrong
}

// onGauge holds a pressure against the sheet's.
func onGauge(what string, is, wanted units.Pressure, low, high string) Checked {
	c := Checked{What: what, Measured: is, Wanted: wanted, Verdict: Right, Says: "As the sheet says."}
	if off := math.Abs(float64(is - wanted)); off > gaugeNear {
		c.Verdict, c.Says = Doubtful, low
		if is > wanted {
			c.Says = high
		}
		if off > gaugeWrong {
			c.Verdict = Wrong
		}
	}
	return c
}

// glycol holds a share of antifreeze against the frost that it is for.
func (h *House) glycol(share units.Fraction) (Checked, error) {
	c := Checked{What: "Antifreeze", Measured: share, Verdict: Right}
	s := h.job.System
	if share == 0 {
		if s.Antifreeze != "" && s.Antifreeze != "none" {
			c.Verdict = Wrong
		}
		c.Says = "Water alone."
		return c, nil
	}
	kind := fluid.PropyleneGlycol
	if s.Antifreeze == "ethylene glycol" {
		kind = fluid.EthyleneGlycol
	}
	mix, err := fluid.GlycolByVolume(kind, share)
	if err != nil {
		return c, err
	}
	ice, err := mix.FreezePoint()
	if err != nil {
		return c, err
	}
	target := s.FrostTarget.Or(h.plan.Design).Value
	c.Says = fmt.Sprintf("Its first ice comes at %s, which stands %s.", ice.Text(h.system), target.Text(h.system))
	if ice > target {
		c.Verdict, c.Says = Wrong, fmt.Sprintf("Its first ice comes at %s; it should stand %s.", ice.Text(h.system), target.Text(h.system))
	} else if share < 0.25 {
		c.Verdict, c.Says = Doubtful, "Under 25 % the inhibitor is too thin and germs grow."
	}
	return c, nil
}

// What a pressure test of a house is held against: two hours with water, a drop of no more
// than a mark of the gauge, 0.2 bar where tube of plastic stretches; a pressure of 1.3 times
// the hottest. All from memory of EN 14336 and DIN 18380; the local code comes first.
const (
	testDrop     = 10e3 // Pa
	testDropMost = 20e3
	testHours    = 2.0
	testOverHot  = 1.3
	airTestNeeds = 0.5 // h
	airTested    = 293.15
	atmosphere   = 101325.0
)

// JudgePressureTest tells by its figures whether a test held, with what a change of
// temperature does to it.
//
//	drop = start − end; with air ΔT = T·drop/(start + 1 atm) explains it
//
// Units: those of the document.
// Range: water at room temperature or air; a drop of up to 0.1 bar holds, up to 0.2 bar is
// doubtful.
// Source: EN 14336 and DIN 18380, from memory; gas law for air. The local code comes first.
func (h *House) JudgePressureTest(p attendance.PressureTest) []Checked {
	drop := float64(p.Start.Value - p.End.Value)
	fell := Checked{What: "Pressure drop", Measured: units.Pressure(math.Max(0, drop)), Wanted: units.Pressure(testDrop), Verdict: Right, Says: "It held by its figures."}
	switch {
	case drop < -testDrop:
		fell.Verdict, fell.Says = Doubtful, "The pressure rose: the pipework warmed meanwhile. Let it settle and read again."
	case drop > testDropMost:
		fell.Verdict, fell.Says = Wrong, "It did not hold: find the leak, or an end that was still cooling down, and test again."
	case drop > testDrop:
		fell.Verdict, fell.Says = Doubtful, "Tube of plastic stretches and water cools: pump up once more and read again."
	}
	if p.With == "air" && drop > testDrop {
		kelvins := units.Difference(airTested * drop / (float64(p.Start.Value) + atmosphere))
		fell.Says = fmt.Sprintf("Air that cools by %s explains as much; at the same temperature it is a leak.", kelvins.Text(h.system))
	}
	if fell.Verdict == Wrong && p.Held == "yes" {
		fell.Says += " The record says that it held."
	}
	out := []Checked{fell}
	least := units.Hours(testHours)
	if p.With == "air" {
		least = units.Hours(airTestNeeds)
	}
	long := Checked{What: "Time of the test", Measured: p.For.Value, Wanted: least, Verdict: Right, Says: "Long enough."}
	if p.For.Value < least {
		long.Verdict, long.Says = Doubtful, "Short: a slow leak does not show."
	}
	out = append(out, long)
	if p.With == "water" && h.plan.Site.Filled {
		high := Checked{What: "Test pressure", Measured: p.Start.Value, Wanted: units.Pressure(testOverHot * float64(h.plan.Site.Hot)), Verdict: Right, Says: "Well above the pressure in use."}
		if p.Start.Value < units.Pressure(testOverHot*float64(h.plan.Site.Hot))-gaugeNear {
			high.Verdict, high.Says = Doubtful, "Less than 1.3 times the pressure with the hottest water."
		}
		out = append(out, high)
	}
	return out
}

// JudgeLoops holds the flow that was set in each loop against the one wanted.
//
// Units: those of the document.
// Range: loops with both flows; within a tenth right, within a fifth doubtful.
// Source: common practice.
func (h *House) JudgeLoops(loops []attendance.Loop) []Checked {
	var out []Checked
	for _, l := range loops {
		if !l.Wanted.Set || !l.Set.Set || l.Wanted.Value <= 0 {
			continue
		}
		c := Checked{What: "Flow", Of: l.Name, Measured: l.Set.Value, Wanted: l.Wanted.Value, Verdict: Right, Says: "Within a tenth."}
		switch off := float64(l.Set.Value)/float64(l.Wanted.Value) - 1; {
		case off > flowNear:
			c.Verdict, c.Says = Doubtful, fmt.Sprintf("%.0f %% too much: it robs the other loops.", 100*off)
		case off < -flowNear:
			c.Verdict, c.Says = Doubtful, fmt.Sprintf("%.0f %% too little: its room stays behind.", -100*off)
		}
		if off := math.Abs(float64(l.Set.Value)/float64(l.Wanted.Value) - 1); off > flowWrong {
			c.Verdict = Wrong
		}
		out = append(out, c)
	}
	return out
}
