package pipework

// May the tap fill this system, and if not, how much of the water has to be treated?

import (
	"cmp"
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// WaterGuide names a rule for the hardness of fill water. Editions differ in the edges of
// their bands, so the edition is part of the question.
type WaterGuide string

// The guides.
const (
	VDI2035Of2005 WaterGuide = "VDI 2035 sheet 1, 2005-era"
	VDI2035Of2021 WaterGuide = "VDI 2035 sheet 1, 2021"
	OENormH5195   WaterGuide = "ÖNORM H 5195-1"
)

// unlimited marks a field of a guide without a limit.
const unlimited = -1

// hardnessTable is a guide: limits in mol/m³ by output (rows: to 50, 200, 600 kW, above)
// and by litres per kilowatt (columns).
type hardnessTable struct {
	guide        WaterGuide
	source       string
	first        float64 // edges of the columns, L/kW
	second       float64
	edgesBelong  bool // to the lower column
	large, small [4][3]float64
}

func degrees(d [4][3]float64) [4][3]float64 {
	for i := range d {
		for j := range d[i] {
			d[i][j] /= 5.6
		}
	}
	return d
}

var hardnessTables = []hardnessTable{
	{VDI2035Of2005, "VDI 2035 sheet 1, 2005-era, as quoted in installation sheets; the field for 20 to 50 L/kW of small-content boilers read from a run-together column", 20, 50, true,
		[4][3]float64{{unlimited, 3, 0.02}, {2, 1.5, 0.02}, {1.5, 0.02, 0.02}, {0.02, 0.02, 0.02}},
		[4][3]float64{{3, 2, 0.02}, {2, 1.5, 0.02}, {1.5, 0.02, 0.02}, {0.02, 0.02, 0.02}}},
	{VDI2035Of2021, "VDI 2035 sheet 1, 2021, from memory", 20, 40, true,
		[4][3]float64{{unlimited, 3, 0.05}, {2, 1, 0.05}, {1.5, 0.05, 0.05}, {0.05, 0.05, 0.05}},
		[4][3]float64{{3, 1.5, 0.05}, {2, 1, 0.05}, {1.5, 0.05, 0.05}, {0.05, 0.05, 0.05}}},
	{OENormH5195, "ÖNORM H 5195-1 as quoted in installation sheets", 20, 50, false,
		degrees([4][3]float64{{16.8, 11.2, 5.6}, {11.2, 5.6, 2.8}, {5.6, 2.8, 0.6}, {2.8, 0.6, 0.6}}),
		degrees([4][3]float64{{11.2, 5.6, 0.6}, {5.6, 2.8, 0.6}, {2.8, 0.6, 0.6}, {0.6, 0.6, 0.6}})},
}

// smallContent is the boiler content, L/kW, below which a guide calls it small.
const smallContent = 0.3

// Plant is what a guide asks about a plant.
type Plant struct {
	Output        units.Power  // of all boilers
	SmallestPart  units.Power  // output of the smallest boiler; zero: the output, one boiler
	Content       units.Volume // of the system
	BoilerContent units.Volume // zero: not known, reckoned as small
}

// HardnessLimit is what a guide allows.
type HardnessLimit struct {
	Guide    WaterGuide
	None     bool // no limit
	Limit    units.Hardness
	PerPower float64 // litres per kilowatt of the smallest boiler
	Small    bool    // the boiler's own content is small, or not known
	Text     string
	Source   string
}

// HardnessOf gives the highest hardness that a guide allows for the fill water.
//
//	litres per kW = system content / output of the smallest boiler
//
// Units: W and m³; mol/m³; litres per kilowatt a plain figure.
// Range: output above 0 to 100 MW; content above 0.
// Source: VDI 2035 sheet 1 (2005-era as quoted, 2021 from memory); ÖNORM H 5195-1 as quoted.
// EN 14868 gives no such table.
// Errors: an unknown guide, a figure outside the range.
func HardnessOf(guide WaterGuide, p Plant) (HardnessLimit, error) {
	if p.SmallestPart == 0 {
		p.SmallestPart = p.Output
	}
	if err := cmp.Or(above("output of the boilers", p.Output, mostPower), above("output of the smallest boiler", p.SmallestPart, p.Output),
		above("water content of the system", p.Content, mostVolume), within("water content of the boiler", p.BoilerContent, 0, p.Content)); err != nil {
		return HardnessLimit{}, err
	}
	for _, t := range hardnessTables {
		if t.guide != guide {
			continue
		}
		out := HardnessLimit{Guide: guide, PerPower: p.Content.Litres() / (float64(p.SmallestPart) / 1e3), Source: t.source}
		own := p.BoilerContent.Litres() / (float64(p.SmallestPart) / 1e3)
		limits := t.large
		// "0.3 and more" counts as large in the one, "above 0.3" in the other.
		if out.Small = own < smallContent || !t.edgesBelong && own == smallContent; out.Small {
			limits = t.small
		}
		row := 3
		for i, most := range []units.Power{50e3, 200e3, 600e3} {
			if p.Output <= most {
				row = i
				break
			}
		}
		column := 2
		for i, edge := range []float64{t.first, t.second} {
			if out.PerPower < edge || t.edgesBelong && out.PerPower == edge {
				column = i
				break
			}
		}
		limit := limits[row][column]
		if out.None = limit == unlimited; out.None {
			out.Text = fmt.Sprintf("no limit of hardness at %s and %.0f litres per kilowatt; scale still grows with every refill", tell(p.Output), out.PerPower)
			return out, nil
		}
		out.Limit = units.Hardness(limit)
		out.Text = fmt.Sprintf("at most %s at %s and %.0f litres per kilowatt", hardness(out.Limit), tell(p.Output), out.PerPower)
		return out, nil
	}
	return HardnessLimit{}, &refuse.Error{What: "guide for fill water", Given: fmt.Sprintf("%q", guide), Accept: string(VDI2035Of2005) + ", " + string(VDI2035Of2021) + " or " + string(OENormH5195)}
}

// hardness prints what the label of a test kit anywhere may say.
func hardness(h units.Hardness) string {
	return fmt.Sprintf("%s (%.3g\u00a0°dH, %s)", h.Text(units.SI), h.GermanDegrees(), h.Text(units.US))
}

// treatedRest is what demineralised water still holds, 0.1 °dH.
var treatedRest = units.GermanDegrees(0.1)

// TreatedShare gives the share of the fill that has to be demineralised so that the whole
// keeps a limit.
//
//	share = (tap − limit)/(tap − 0.1 °dH), at least 0
//
// Units: mol/m³; a share of one.
// Range: tap hardness 0 to 20 mol/m³; limit from 0; below 0.1 °dH all is treated.
// Source: mixing balance; rest of 0.1 °dH as in an installation sheet's worked example.
// Errors: a figure outside the range.
func TreatedShare(tap, limit units.Hardness) (units.Fraction, error) {
	if err := cmp.Or(within("hardness of the tap water", tap, 0, 20), within("limit of hardness", limit, 0, 20)); err != nil {
		return 0, err
	}
	switch {
	case tap <= limit:
		return 0, nil
	case limit <= treatedRest:
		return 1, nil
	}
	return units.Fraction((tap - limit) / (tap - treatedRest)), nil
}

// mostRefill is fill and top-up over the life, in contents of the system.
const mostRefill = 3

// JudgeRefill holds what has been filled in over the years against the content.
//
//	filled in all ≤ 3·content
//
// Units: m³.
// Range: content above 0; filled from 0.
// Source: VDI 2035 sheet 1 as quoted in installation sheets.
// Errors: a figure outside the range.
func JudgeRefill(content, filled units.Volume) (Judgement, error) {
	if err := cmp.Or(above("water content of the system", content, mostVolume), within("water filled in all", filled, 0, 1e6)); err != nil {
		return Judgement{}, err
	}
	j := Judgement{Subject: "fill and top-up water", Fits: filled <= mostRefill*content, Source: "VDI 2035 sheet 1 as quoted in installation sheets",
		Text: fmt.Sprintf("%s filled in all is within three times the content of %s", tell(filled), tell(content))}
	if !j.Fits {
		j.Text = fmt.Sprintf("%s filled in all is more than three times the content of %s: find the leak or the failed vessel before treating the water", tell(filled), tell(content))
	}
	return j, nil
}

// WaterTest is what was measured in the heating water; zero stands for not measured.
type WaterTest struct {
	Conductivity units.ElectricalConductivity
	PH           units.Number // at 25 °C
	Aluminium    bool         // the boiler's exchanger, or radiators, are of aluminium
	Oxygen       units.Number // mg/L
}

const vdiTwo = "VDI 2035 sheet 2 as quoted in installation sheets"

// JudgeWater holds measured heating water against the usual bands.
//
//	conductivity below 100 µS/cm low in salt, to 1500 µS/cm saline
//	pH 8.2 to 10.0, with aluminium 6.5 to 8.5
//	oxygen below 0.1 mg/L low in salt, 0.02 mg/L saline
//
// Units: S/m; pH a plain figure; oxygen in mg/L, a plain figure.
// Range: pH 4 to 13; conductivity to 1 S/m; oxygen to 20 mg/L.
// Source: VDI 2035 sheet 2 as quoted; with aluminium its 2021 edition has 8.2 to 9.0 and BS
// 7593:2019 has 7.0 to 8.5, both from memory.
// Errors: a figure outside the range, nothing measured.
func JudgeWater(w WaterTest) ([]Judgement, error) {
	if err := cmp.Or(within("conductivity of the water", w.Conductivity, 0, 1), within("oxygen in mg/L", w.Oxygen, 0, 20)); err != nil {
		return nil, err
	}
	var out []Judgement
	saline := units.MicrosiemensPerCentimetre(100)
	if w.Conductivity > 0 {
		j := Judgement{Subject: "conductivity", Fits: true, Source: vdiTwo, Text: fmt.Sprintf("%s is low in salt: the mild kind of water", tell(w.Conductivity))}
		switch {
		case w.Conductivity > units.MicrosiemensPerCentimetre(1500):
			j.Fits, j.Text = false, fmt.Sprintf("%s is more salt than the usual limit of 1500 µS/cm: flush and refill with treated water", tell(w.Conductivity))
		case w.Conductivity >= saline:
			j.Text = fmt.Sprintf("%s is saline: allowed to 1500 µS/cm, if the system is tight against oxygen", tell(w.Conductivity))
		}
		out = append(out, j)
	}
	if w.PH != 0 {
		if err := within("pH", w.PH, 4, 13); err != nil {
			return nil, err
		}
		low, high, metal := units.Number(8.2), units.Number(10), "without aluminium"
		if w.Aluminium {
			low, high, metal = 6.5, 8.5, "with aluminium"
		}
		j := Judgement{Subject: "pH", Fits: w.PH >= low && w.PH <= high, Source: vdiTwo,
			Text: fmt.Sprintf("pH %.1f lies within %.1f to %.1f, the band %s", w.PH, low, high, metal)}
		if !j.Fits {
			j.Text = fmt.Sprintf("pH %.1f lies outside %.1f to %.1f, the band %s: wait eight to twelve weeks after filling, measure again, then treat as the boiler's maker says", w.PH, low, high, metal)
		}
		out = append(out, j)
	}
	if w.Oxygen > 0 {
		limit := units.Number(0.1)
		if w.Conductivity >= saline {
			limit = 0.02
		}
		j := Judgement{Subject: "oxygen", Fits: w.Oxygen < limit, Source: vdiTwo, Text: fmt.Sprintf("%.2g mg/L of oxygen is below %.2g mg/L", w.Oxygen, limit)}
		if !j.Fits {
			j.Text = fmt.Sprintf("%.2g mg/L of oxygen is more than %.2g mg/L: look for tube without a barrier, low pressure at the top and air drawn in", w.Oxygen, limit)
		}
		out = append(out, j)
	}
	if len(out) == 0 {
		return nil, &refuse.Error{What: "water test", Given: "nothing measured", Accept: "conductivity, pH or oxygen"}
	}
	return out, nil
}

// FillWaterNotes are sentences for the sheet.
//
// Units: none.
// Range: systems of steel, copper, plastic with a barrier and aluminium.
// Source: BS 7593:2019, from memory; EN 14868 (assessment of corrosion, no hardness table), from memory.
func FillWaterNotes() []string {
	return []string{
		"clean and flush before a new boiler runs (BS 7593:2019, from memory)",
		"dose an inhibitor suited to every metal in the system and write amount and date beside the boiler (BS 7593:2019, from memory)",
		"fit a filter in the return to the boiler (BS 7593:2019, from memory)",
		"test the water every year; with aluminium keep pH 7.0 to 8.5 (BS 7593:2019, from memory)",
		"softened water keeps its salt: where a maker forbids it, demineralise (common practice)",
		CautionBackflow,
	}
}
