package followup

// What of the job the readings are understood by.

import (
	"curvewright/boiler"
	"curvewright/fluid"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

const usualEfficiency = 0.90 // of the season, gross, where the sheet cannot say

// householdOf takes it from the survey and from what was worked out of it.
func householdOf(p *settings.Plan, j *job.Job) household {
	h := household{efficiency: usualEfficiency, most: j.Boiler.Output.Value, least: p.Least, fill: fluid.Water(), weights: map[string]float64{}}
	if p.Sheet.Boiler.Known && p.Sheet.Boiler.Efficiency > 0.5 {
		h.efficiency = float64(p.Sheet.Boiler.Efficiency)
	}
	if h.most == 0 {
		h.most = p.Most
	}
	h.heatingValue = heatInVolume(p, j)
	kind := fluid.PropyleneGlycol
	switch j.System.Antifreeze {
	case "ethylene glycol":
		kind = fluid.EthyleneGlycol
		fallthrough
	case "propylene glycol":
		if m, err := fluid.GlycolByVolume(kind, j.System.Share.Value); err == nil {
			h.fill = m
		}
	}
	for _, r := range p.Rooms {
		h.weights[plainName(r.Name)] = float64(r.Loss.Coefficient())
	}
	for _, c := range p.Circuits {
		h.circuits = append(h.circuits, plainName(c.Name))
	}
	h.hotWater = j.HotWater.By != "" && j.HotWater.By != "none"
	return h
}

// boilerFuels are the survey's fuels as package boiler calls them.
var boilerFuels = map[string]string{"": "natural-gas", "natural gas": "natural-gas", "propane": "propane", "heating oil": "oil"}

// heatInVolume is the gross heat in a volume as the meter counts it: of gas as thin as it
// is at this altitude, as the sheet reckons its time of a turn.
func heatInVolume(p *settings.Plan, j *job.Job) units.HeatingValue {
	if m := p.Site.Meter; m != nil {
		if by, err := m.Correction(); err == nil {
			return p.Site.HeatingValue * units.HeatingValue(by)
		}
	}
	if j.Boiler.HeatingValue.Set {
		return j.Boiler.HeatingValue.Value
	}
	f, err := boiler.FuelByKey(boilerFuels[j.Boiler.Fuel])
	if err != nil {
		return 0
	}
	gross, _, err := f.HeatingValue(boiler.BaseUS)
	if err != nil {
		return 0
	}
	return gross
}
