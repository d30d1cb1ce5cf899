package web

import (
	"slices"
	"strings"

	"curvewright/attendance"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/visit"
)

// What a house does not have is not asked on a visit: no separator, no questions about its
// far side. What was answered all the same stays.

// fitting leaves out the fields and groups of a section that do not belong to the house.
func (p *page) fitting(blocks []*block) []*block {
	var kept []*block
	for _, b := range blocks {
		if !p.belongsTo(b.Pattern) && (b.Absent || b.List && len(b.Blocks) == 0) {
			continue
		}
		had := len(b.Fields) + len(b.Seldom) + len(b.Blocks)
		b.Fields, b.Seldom = p.fittingFields(b.Fields), p.fittingFields(b.Seldom)
		b.Blocks = p.fitting(b.Blocks)
		if had > 0 && len(b.Fields)+len(b.Seldom)+len(b.Blocks) == 0 && !b.List {
			continue
		}
		kept = append(kept, b)
	}
	return kept
}

func (p *page) fittingFields(list []field) []field {
	return slices.DeleteFunc(list, func(f field) bool {
		return f.Figure == "" && f.Fault == "" && (!p.belongsTo(patternOf(f.Path)) || !p.readable(f.Path))
	})
}

// belongsTo tells whether the house has what a field or a group of the visit is about.
func (p *page) belongsTo(pattern string) bool {
	h := p.House.Visit.House
	switch pattern {
	case "loops":
		return slices.ContainsFunc(p.Sheet.Plant.Circuits, func(c settings.PlantCircuit) bool { return c.Family == "floor" })
	case "water.antifreeze":
		return p.job.System.Antifreeze != "" && p.job.System.Antifreeze != "none"
	case "conditions.calling":
		return len(p.job.Circuits) > 1
	case "conditions.since", "conditions.start":
		return p.House.Visit.Visit.Conditions.State == string(visit.Fresh)
	case "conditions.tank":
		return h.Reads(visit.Reading{Measure: visit.TankCharge})
	}
	return true
}

// readable tells whether the house has the reading of a field; what is no reading is.
func (p *page) readable(path string) bool {
	v := p.House.Visit.Visit
	spot, ok := job.WholeOf(v).Find(path)
	if !ok {
		return true
	}
	measure, known := shownBy[spot.Pattern]
	if !known || measure == outdoorRead || measure == resistance || measure == visit.BranchReturn {
		return true
	}
	return p.House.Visit.House.Reads(visit.Reading{Measure: measure, Circuit: placeName(v, spot, "circuits"), Room: placeName(v, spot, "rooms")})
}

// placeName is the name of the circuit or room in which a field lies.
func placeName(v *attendance.Visit, spot job.Spot, list string) string {
	if !strings.HasPrefix(spot.Pattern, "readings."+list+"[]") {
		return ""
	}
	if at, ok := job.WholeOf(v).Find(spot.Path[:strings.LastIndex(spot.Path, ".")] + ".name"); ok {
		return at.Text()
	}
	return ""
}
