package job

import (
	"curvewright/units"
)

// A radiator may be rated as a whole, or as its data sheet has it: per length or per section.

// airOfRating is the air at which radiators are rated: 20 °C, EN 442-2.
const airOfRating = units.Temperature(293.15)

// Rated is the output of the whole radiator at the temperatures of its rating.
//
//	output = output per length · length, or output of a section · sections
//
// Units: W/m and m, or W; result in W.
// Range: any radiator that [Check] finds nothing wrong with; not set where it is not said.
// Source: outputs in proportion to length or sections, as data sheets give them (EN 442-2).
func (r Radiator) Rated() Given[units.Power] {
	switch {
	case r.Output.Set:
		return r.Output
	case r.PerLength.Set && r.Length.Set:
		return Says(units.Power(float64(r.PerLength.Value)*float64(r.Length.Value)), r.PerLength.How())
	case r.PerSection.Set && r.Sections > 0:
		return Says(r.PerSection.Value*units.Power(r.Sections), r.PerSection.How())
	}
	return Given[units.Power]{}
}

// RatedExcess is how far the water lay above the air in the rating.
//
//	excess = average water − air; 50 K if neither is said
//
// Units: K.
// Range: any radiator that [Check] finds nothing wrong with.
// Source: EN 442-2 (50 K at 75/65/20 °C); ratings in the United States name the average water.
func (r Radiator) RatedExcess() Given[units.Difference] {
	if r.At.Set {
		return Says(r.At.Value.Sub(r.Air.Or(airOfRating).Value), r.At.How())
	}
	return r.Excess.Or(50)
}

func (c *checker) radiator(r Radiator, p *place) {
	if n := r.Exponent; n.Set && (n.Value < 1 || n.Value > 1.6) {
		c.fault(p.at("exponent"), n.text(), "is not the exponent of a radiator", "1 to 1.6; panels near 1.3", "")
	}
	at, given := p.at("excess"), r.Excess.text()
	if r.At.Set {
		at, given = p.at("at"), r.At.text()
	}
	if d := r.RatedExcess().Value; d < 10 || d > 80 {
		c.fault(at, given, "is not an excess temperature that radiators are rated at", c.say(units.Kelvins(10))+" to "+c.say(units.Kelvins(80)), "")
	}
	if r.At.Set && r.Excess.Set {
		c.fault(p.at("at"), r.At.text(), "is given beside the excess temperature", "one of them", "")
	}
	c.radiatorOutput(r, p)
}

// radiatorOutput asks for one output, with how much there is of it.
func (c *checker) radiatorOutput(r Radiator, p *place) {
	outside(c, r.PerLength, 20, 20e3, p.at("per_length"), "is not the output of a radiator per length")
	outside(c, r.PerSection, 5, 2e3, p.at("per_section"), "is not the output of a section")
	outside(c, r.Length, 0.1, 60, p.at("length"), "is not the length of a radiator")
	switch {
	case r.Output.Set && r.PerLength.Set:
		c.fault(p.at("per_length"), r.PerLength.text(), "is given beside the output of the whole", "one of them", "")
	case r.Output.Set && r.PerSection.Set:
		c.fault(p.at("per_section"), r.PerSection.text(), "is given beside the output of the whole", "one of them", "")
	case r.PerLength.Set && r.PerSection.Set:
		c.fault(p.at("per_section"), r.PerSection.text(), "is given beside an output per length", "one of them", "")
	case r.PerLength.Set && !r.Length.Set:
		c.fault(p.at("length"), "", "is missing", "its length, since its output is given per length", "")
	case r.PerSection.Set && r.Sections <= 0:
		c.fault(p.at("sections"), "", "is missing", "how many sections it has, since its output is given for one", "")
	case !r.Rated().Set:
		c.fault(p.at("output"), "", "is missing", "its rated output, or one per length or per section", "")
	}
	if r.Sections < 0 || r.Sections > 100 {
		c.fault(p.at("sections"), "", "is not a number of sections", "1 to 100", "")
	}
}
