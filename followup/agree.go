package followup

// What is advised must agree with the corrected curve that is printed beside it: a finding
// in the rooms says that the curve errs, the correction says where and which way.

import "slices"

// strays are the findings by which the control does not follow the sheet's curve.
var strays = []string{"still as found", "not the sheet's curve", "no reset", "control does not keep to a curve"}

// roomsSay are those in the rooms that speak for a change of the curve, and whether the rooms
// are short.
var roomsSay = map[string]bool{
	"short in the cold": true, "short in mild weather": true, "curve too low": true,
	"too warm in the cold": false, "too warm in mild weather": false, "curve too high": false,
}

// agree puts the remedies of the curve into accord with the correction: what the sheet
// asks comes first, and what is said of the rooms is told by what the correction changes.
func (in *inspection) agree(c *Correction) {
	off := slices.ContainsFunc(in.found, func(f Finding) bool { return slices.Contains(strays, f.Name) })
	for i := range in.found {
		f := &in.found[i]
		short, room := roomsSay[f.Name]
		switch {
		case f.Name == "still as found" || f.Name == "not the sheet's curve":
			if c.Known && c.Fits() {
				f.Remedy = "leave it: it fits the house as this log corrects the survey; write it on the sheet"
			} else if c.Known {
				f.Remedy = "enter the sheet's curve as this log corrects it, and note the old one; judge the rooms by what is recorded after that"
			}
		case !room:
		case off && c.Known && c.Fits():
			f.Remedy = stays(short)
		case off:
			f.Remedy = "the sheet's curve first; then judge the rooms by what is recorded with it"
		case c.Known:
			if cold, mild := c.ends(); cold != nil {
				f.Remedy = turn(cold.step(), mild.step(), short)
			}
		}
	}
}

// turn is the change of slope and shift that takes both ends where the correction has
// them; where it goes against what the rooms show, the curve is not what is at fault.
func turn(cold, mild string, short bool) string {
	type ends struct{ cold, mild string }
	up := map[ends]string{
		{"warmer", "warmer"}:   "raise the shift",
		{"warmer", "the same"}: "raise the cold end only: more slope, less shift",
		{"the same", "warmer"}: "raise the mild end: more shift, less slope; look at the cut-off",
	}
	down := map[ends]string{
		{"cooler", "cooler"}:   "lower the shift in steps of 2 to 3 K (3 to 5 °F) with the leading room's valves open",
		{"the same", "cooler"}: "lower the mild end: less shift, more slope",
		{"cooler", "the same"}: "lower the cold end: less slope",
	}
	both := map[ends]string{
		{"warmer", "cooler"}: "raise the cold end and lower the mild one: more slope, less shift",
		{"cooler", "warmer"}: "lower the cold end and raise the mild one: less slope, more shift",
	}
	e := ends{cold, mild}
	if words, known := both[e]; known {
		return words
	}
	ways := down
	if short {
		ways = up
	}
	if words, known := ways[e]; known {
		return words
	}
	return stays(short)
}

// stays says where to look when the correction has no more, or no less, for such rooms.
func stays(short bool) string {
	if short {
		return "the corrected curve is no warmer: look at valves, flow and air before the curve"
	}
	return "the corrected curve is no cooler: look at valves, sun and heat of the household before the curve"
}
