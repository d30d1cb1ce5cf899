package pipework

// Is the water too fast to be quiet, or too slow to carry the air to where it can
// leave? Limits of the trade, none of them law.

import (
	"cmp"
	"fmt"

	"curvewright/units"
)

const (
	quietTo       = units.Velocity(1.2192)      // 4 ft/s
	airFrom       = units.Velocity(0.6096)      // 2 ft/s
	copperHot     = units.Velocity(0.9144)      // 3 ft/s
	copperWarm    = units.Velocity(1.524)       // 5 ft/s
	copperHotFrom = units.Temperature(333.15)   // 140 °F
	steepest      = units.PressureGradient(400) // about 4 ft/100 ft
	smallTo       = 2.1 * inch                  // bore of 2 in tube, whatever its standard
	noiseSource   = "ASHRAE Handbook Fundamentals, pipe sizing, from memory"
	copperSource  = "copper trade association handbook, from memory"
)

// JudgeVelocity holds a flow in a tube against the usual limits for noise, erosion and
// the carrying of air.
//
//	to 2 in: v ≤ 1.2 m/s (4 ft/s); larger: Δp/L ≤ 400 Pa/m (4 ft/100 ft)
//	copper above 60 °C (140 °F): v ≤ 0.9 m/s (3 ft/s); cooler: v ≤ 1.5 m/s (5 ft/s)
//	air goes along, also downward, from v = 0.6 m/s (2 ft/s)
//
// Units: flow in m³/s.
// Range: flow above zero.
// Source: ASHRAE Handbook Fundamentals, pipe sizing, and a copper trade association
// handbook, both from memory; in houses 100 to 300 Pa/m is common practice.
// Errors: no flow, a tube without a bore, no liquid.
func JudgeVelocity(p Pipe, flow units.Flow, l Liquid) ([]Judgement, error) {
	if err := cmp.Or(above("flow in "+p.String(), flow, mostFlow), l.check()); err != nil {
		return nil, err
	}
	gradient, err := Gradient(p, flow, l)
	if err != nil {
		return nil, err
	}
	v, subject := p.Velocity(flow), "flow in "+p.String()
	judge := func(fits bool, source, well, ill string) Judgement {
		text := well
		if !fits {
			text = ill
		}
		return Judgement{Subject: subject, Fits: fits, Text: text, Source: source}
	}
	var out []Judgement
	if p.Bore <= smallTo {
		out = append(out, judge(v <= quietTo, noiseSource,
			fmt.Sprintf("the water runs at %s, below %s: quiet", tell(v), tell(quietTo)),
			fmt.Sprintf("the water runs at %s; above %s it may be heard: take a larger tube or less flow", tell(v), tell(quietTo))))
	} else {
		out = append(out, judge(gradient <= steepest, noiseSource,
			fmt.Sprintf("the tube takes %s, below %s: quiet", tell(gradient), tell(steepest)),
			fmt.Sprintf("the tube takes %s; above %s it may be heard and costs pump power: take a larger tube or less flow", tell(gradient), tell(steepest))))
	}
	switch p.Standard {
	case CopperK, CopperL, CopperM, CopperMetric:
		limit := copperWarm
		if l.At > copperHotFrom {
			limit = copperHot
		}
		out = append(out, judge(v <= limit, copperSource,
			fmt.Sprintf("the water runs at %s at %s, below %s: no erosion expected", tell(v), tell(l.At), tell(limit)),
			fmt.Sprintf("the water runs at %s at %s; above %s it may wear the copper where it circulates all year: take a larger tube or less flow", tell(v), tell(l.At), tell(limit))))
	}
	return append(out, judge(v >= airFrom, noiseSource,
		fmt.Sprintf("the water runs at %s, enough to carry air along", tell(v)),
		fmt.Sprintf("the water runs at %s; below %s air stays where it is: give high points an air vent and flush this tube faster when filling", tell(v), tell(airFrom)))), nil
}
