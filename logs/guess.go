package logs

// What a column is taken for: its heading's words first, then its values, then what the
// other columns leave over.

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// guess reads the heading of one column and looks at its values.
func (c *Column) guess(under string, values []float64) {
	role, sure, word := meaning(c.Heading)
	unit, named := unitIn(c.Heading)
	if !named && under != "" {
		unit, named = UnitNamed(bracketless([]byte(under)))
	}
	v := statistics(values)
	if v.n == 0 {
		c.Role, c.Confidence, c.Reason = Leave, 0.9, "no numbers in the first rows"
		return
	}
	if v.counts && v.n > 20 {
		c.Role, c.Confidence, c.Reason = Leave, 0.9, "counts the rows"
		return
	}
	if role == Time || role == TimeOfDay {
		role = ""
	}
	role, sure = reconcile(role, sure, unit, named, v)
	c.Role, c.Confidence = role, sure
	switch {
	case role != "" && word != "":
		c.Reason = fmt.Sprintf("the heading says %q", word)
	case role != "":
		c.Reason = "by its unit"
	}
	if named {
		c.Unit = unit.Name
	}
	if role == Room {
		if c.Name = strings.TrimSpace(bare(c.Heading)); c.Name == "" {
			c.Name = c.Heading
		}
	}
}

// reconcile lets the unit correct what the words say.
func reconcile(role Role, sure float64, unit Unit, named bool, v values) (Role, float64) {
	if !named {
		if role == FuelMeter && !v.rising {
			return Fuel, sure * 0.7
		}
		if role == HeatMeter && !v.rising {
			return Heat, sure * 0.7
		}
		return role, sure
	}
	if role == Leave || role != "" && slices.Contains(kinds[role], unit.Kind) {
		if (role == HeatMeter || role == FuelMeter) && !v.rising {
			sure *= 0.6
		}
		return role, sure
	}
	switch unit.Kind {
	case Flow:
		if role == FuelMeter || role == Fuel {
			return Fuel, sure * 0.9
		}
		return WaterFlow, 0.8
	case Power:
		if role == FuelMeter {
			return Fuel, sure * 0.9
		}
		return Heat, 0.75
	case Energy:
		if role == Fuel {
			return FuelMeter, sure * 0.9
		}
		return HeatMeter, 0.75
	case Volume:
		return FuelMeter, 0.6
	case Pressure:
		return Water, 0.85
	case Irradiance:
		return Sun, 0.9
	case Temperature:
		switch role {
		case WaterFlow:
			return Supply, 0.8
		case Burner:
			return Boiler, 0.7
		case Pump, Heat:
			return "", 0
		}
	case Share:
		if role == Heat || role == Boiler || role == Fuel {
			return Burner, 0.75
		}
	}
	return role, sure * 0.4
}

// bare is a heading without its unit and without words for temperature.
func bare(heading string) string {
	if open := strings.IndexAny(heading, "(["); open > 0 {
		heading = heading[:open]
	}
	var out []string
	for _, w := range strings.FieldsFunc(heading, func(r rune) bool { return r == ' ' || r == '_' || r == '.' || r == ',' }) {
		if _, isUnit := UnitNamed(w); isUnit {
			continue
		}
		switch strings.ToLower(w) {
		case "temp", "temperature", "temperatur", "température", "temperatura", "t", "sensor":
			continue
		case "room", "raum":
			if len(out) == 0 {
				continue
			}
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// values describes a column's numbers.
type values struct {
	n                        int
	low, median, high, swing float64 // 5th, 50th, 95th percentile; least to most
	rising                   bool    // never falls, and rises
	contact                  bool    // two values only, 0 and 1 or 0 and 100
	whole                    bool    // numbers without decimals
	counts                   bool    // one more, or one less, from each row to the next
}

func statistics(x []float64) values {
	var v values
	sorted := make([]float64, 0, len(x))
	last, falls, rises, ones := math.NaN(), 0, 0, 0
	v.whole = true
	distinct := map[float64]bool{}
	for _, y := range x {
		if math.IsNaN(y) {
			continue
		}
		sorted = append(sorted, y)
		v.whole = v.whole && y == math.Trunc(y)
		if math.Abs(y-last) == 1 {
			ones++
		}
		if y < last {
			falls++
		} else if y > last {
			rises++
		}
		last = y
		if len(distinct) < 4 {
			distinct[y] = true
		}
	}
	if v.n = len(sorted); v.n == 0 {
		return v
	}
	slices.Sort(sorted)
	at := func(p float64) float64 { return sorted[int(p*float64(v.n-1)+0.5)] }
	v.low, v.median, v.high = at(0.05), at(0.5), at(0.95)
	v.swing = sorted[v.n-1] - sorted[0]
	v.rising = falls <= v.n/2000 && rises > 0 && v.n > 20 && len(distinct) > 3 || falls == 0 && rises > 2
	v.counts = ones*20 > v.n*19 && (rises*20 > v.n*19 || falls*20 > v.n*19)
	v.contact = len(distinct) <= 2 && sorted[0] == 0 && (sorted[v.n-1] == 1 || sorted[v.n-1] == 100)
	return v
}

// settle looks at all columns together: units that no heading names, columns without
// words, roles given twice.
func (r *Recognised) settle(f *layoutFound) {
	seen := make([]values, len(r.Columns))
	for i, c := range r.Columns {
		if c.Role != Time && c.Role != TimeOfDay {
			seen[i] = statistics(f.sample(i, r.Comma))
		}
	}
	r.byValues(f, seen)
	scale, evidence := scaleOfAll(r.Columns, seen)
	if strings.HasPrefix(scale, "0.1") {
		r.doubt("the temperatures are whole numbers that can only be tenths of %s, by column %q; that was taken", scale[3:], evidence)
	}
	for i := range r.Columns {
		c, v := &r.Columns[i], seen[i]
		accept, measures := kinds[c.Role]
		if !measures {
			continue
		}
		u, ok := UnitNamed(c.Unit)
		if ok && slices.Contains(accept, u.Kind) {
			if strings.HasPrefix(scale, "0.1") && u.Kind == Temperature && v.whole {
				c.Unit, c.Confidence = scale, min(c.Confidence, 0.5)
				c.Reason += "; tenths by its values, against its heading"
				continue
			}
			r.doubtUnit(c, u, v)
			continue
		}
		c.Unit = unitByValue(c.Role, v, scale)
		c.Confidence *= 0.8
		c.Reason += "; " + c.Unit + " by its values"
		if accept[0] == Temperature && evidence == "" {
			r.doubt("column %q: whether °C or °F is meant cannot be told from the values; %s was taken", c.Heading, c.Unit)
		}
		if accept[0] != Temperature && accept[0] != Share {
			r.doubt("column %q names no unit; %s was taken", c.Heading, c.Unit)
		}
	}
	r.once()
	r.exchanged(f)
	if f.ambiguous {
		r.doubt("whether day or month comes first cannot be told from the dates; %s was taken", f.layout)
	}
	if f.utc {
		r.doubt("the times are in UTC: give the offset of the house's standard time, or hours of the day are shifted")
	}
	if f.layout == Seconds || f.layout == Millis {
		r.doubt("seconds since 1970 are in UTC: give the offset of the house's standard time, or hours of the day are shifted")
	}
	if f.step >= 900 && !f.said24 {
		r.doubt("a row every %s: whether its time begins or ends the interval is not said; the beginning was taken", lasting(f.step))
	}
	for i := range r.Columns {
		if r.Columns[i].Role == "" {
			r.Columns[i].Role, r.Columns[i].Reason = Leave, "neither heading nor values tell what it is"
		}
	}
}

func (r *Recognised) doubt(format string, a ...any) {
	r.Doubts = append(r.Doubts, fmt.Sprintf(format, a...))
}

// scaleOfAll finds the unit of temperatures that name none, from a column that names one,
// from a room, or from water or weather that would otherwise be impossible.
func scaleOfAll(columns []Column, seen []values) (unit, evidence string) {
	for i, c := range columns {
		if scale := tenthsOf(c.Role, seen[i]); scale != "" {
			return scale, c.Heading
		}
	}
	for i, c := range columns {
		if u, ok := UnitNamed(c.Unit); ok && u.Kind == Temperature && seen[i].n > 0 {
			return u.Name, c.Heading
		}
	}
	for _, roles := range [][]Role{{Room}, {Supply, Return, Boiler, BoilerBack, Tank}, {Outdoor}} {
		for i, c := range columns {
			v := seen[i]
			if v.n == 0 || !slices.Contains(roles, c.Role) {
				continue
			}
			switch {
			case v.median > 255 && v.median < 390: // no tenths: those were told above
				return "K", c.Heading
			case c.Role == Room && v.median > 45 && v.median < 100, roles[0] == Supply && v.high > 105, c.Role == Outdoor && v.high > 48:
				return "°F", c.Heading
			case c.Role == Room && v.median > 5 && v.median < 35, c.Role == Outdoor && v.low < -22:
				return "°C", c.Heading
			}
		}
	}
	return "", ""
}

// tenthsOf tells temperatures in whole tenths of a degree by rooms or water that no other
// unit makes possible.
func tenthsOf(role Role, v values) string {
	water := slices.Contains([]Role{Supply, Return, Boiler, BoilerBack, Tank}, role)
	switch {
	case !v.whole || v.n < 10:
	case role == Room && v.median > 120 && v.median < 280, water && v.high > 390 && v.high < 1000:
		return "0.1°C"
	case role == Room && v.median > 480 && v.median < 880, water && v.high >= 1000 && v.high < 2200:
		return "0.1°F"
	}
	return ""
}

// doubtUnit names a unit that the values contradict, and takes the other.
func (r *Recognised) doubtUnit(c *Column, u Unit, v values) {
	if u.Kind != Temperature || v.n == 0 {
		return
	}
	other := ""
	switch {
	case c.Role == Room && u.Name == "°C" && v.median > 45 && v.median < 100:
		other = "°F"
	case c.Role == Room && u.Name == "°F" && v.median > 8 && v.median < 32:
		other = "°C"
	case c.Role == Outdoor && u.Name == "°C" && v.high > 52:
		other = "°F"
	case (c.Role == Supply || c.Role == Return || c.Role == Boiler) && u.Name == "°C" && v.high > 115:
		other = "°F"
	}
	if other == "" {
		return
	}
	r.doubt("column %q says %s, but its values (half of them above %.0f) can only be %s; that was taken", c.Heading, u.Name, v.median, other)
	c.Unit, c.Confidence = other, min(c.Confidence, 0.4)
	c.Reason += "; " + other + " by its values, against its heading"
}

func unitByValue(role Role, v values, scale string) string {
	switch role {
	case WaterFlow:
		switch {
		case v.high < 0.01:
			return "L/s"
		case v.high < 6:
			return "m³/h"
		case v.high > 150:
			return "L/h"
		}
		return "L/min"
	case Heat, Fuel:
		switch {
		case v.high < 100:
			return "kW"
		case v.high > 30000:
			return "Btu/h"
		}
		return "W"
	case HeatMeter:
		return "kWh"
	case FuelMeter:
		return "m³"
	case Burner, Pump:
		if v.high > 1.5 {
			return "%"
		}
		return "0/1"
	case Water:
		if v.median > 6 {
			return "psi"
		}
		return "bar"
	case Sun:
		return "W/m²"
	}
	switch {
	case scale != "":
		return scale
	case v.median > 200:
		return "K"
	}
	return "°C"
}

// exchanged changes supply and return where the values contradict the headings: water
// that heats comes back cooler than it went.
func (r *Recognised) exchanged(f *layoutFound) {
	for _, pair := range [][2]Role{{Supply, Return}, {Boiler, BoilerBack}} {
		a := slices.IndexFunc(r.Columns, func(c Column) bool { return c.Role == pair[0] })
		b := slices.IndexFunc(r.Columns, func(c Column) bool { return c.Role == pair[1] })
		if a < 0 || b < 0 {
			continue
		}
		unit, _ := UnitNamed(r.Columns[a].Unit)
		other, _ := UnitNamed(r.Columns[b].Unit)
		back := f.sample(b, r.Comma)
		n, over, warm := 0, 0, 0
		for i, v := range f.sample(a, r.Comma) {
			supply, water := v*unit.Factor+unit.Offset, back[i]*other.Factor+other.Offset
			if math.Abs(supply-water) > apartK {
				n++
				if supply < water {
					over++
				}
				if water > zero+heatingFrom {
					warm++
				}
			}
		}
		if n < 50 || over*10 < n*7 || warm*2 < n {
			continue
		}
		x, y := &r.Columns[a], &r.Columns[b]
		r.doubt("column %q is cooler than column %q in %.0f %% of the rows in which they differ: supply and return are exchanged, and were taken so", x.Heading, y.Heading, 100*float64(over)/float64(n))
		x.Role, y.Role = y.Role, x.Role
		for _, c := range []*Column{x, y} {
			c.Confidence = min(c.Confidence, 0.5)
			c.Reason += "; exchanged by the values"
		}
	}
}

const (
	apartK      = 2.0 // K between supply and return that tell which is which
	heatingFrom = 25  // °C of the warmer: below, the house may be cooled
)

// byValues gives columns without words a meaning: contacts, meters, and temperatures by
// how warm and how steady they are.
func (r *Recognised) byValues(f *layoutFound, seen []values) {
	free := map[Role]bool{Outdoor: true, Supply: true, Return: true, Room: true, Burner: true}
	for _, c := range r.Columns {
		delete(free, c.Role)
	}
	var temps []int
	for i := range r.Columns {
		c, v := &r.Columns[i], seen[i]
		u, named := UnitNamed(c.Unit)
		if c.Role != "" || v.n < 10 {
			continue
		}
		set := func(role Role, sure float64, why string) { c.Role, c.Confidence, c.Reason = role, sure, why }
		switch {
		case v.contact && free[Burner]:
			set(Burner, 0.35, "only on and off")
			delete(free, Burner)
		case v.contact:
			set(Pump, 0.3, "only on and off")
		case v.rising && v.high > 20 && (!named || u.Kind != Temperature):
			set(HeatMeter, 0.3, "rises all the time like a meter")
		case (!named || u.Kind == Temperature) && v.low > -50 && v.high < 230 && v.swing > 0.5:
			temps = append(temps, i)
		}
	}
	// Coldest in the middle: outdoors. Hottest: supply, the next: return. The rest, if
	// steady: rooms.
	slices.SortStableFunc(temps, func(a, b int) int {
		switch {
		case seen[a].median < seen[b].median:
			return -1
		case seen[a].median > seen[b].median:
			return 1
		}
		return 0
	})
	take := func(k int, role Role, sure float64, why string) {
		c := &r.Columns[temps[k]]
		c.Role, c.Confidence, c.Reason = role, sure, why
		if role == Room {
			c.Name = strings.TrimSpace(c.Heading)
			if c.Name == "" {
				c.Name = fmt.Sprintf("column %d", temps[k]+1)
			}
		}
		temps = slices.Delete(temps, k, k+1)
	}
	if free[Outdoor] && len(temps) > 0 && (len(temps) > 1 || !free[Supply]) {
		take(0, Outdoor, 0.4, "the coldest of the temperatures")
	}
	if free[Supply] && len(temps) > 0 {
		take(len(temps)-1, Supply, 0.35, "the hottest of the temperatures")
	}
	if free[Return] && len(temps) > 1 {
		take(len(temps)-1, Return, 0.3, "the second hottest of the temperatures")
	}
	for len(temps) > 0 {
		v := seen[temps[0]]
		if v.high-v.low < 0.35*math.Max(10, v.median) {
			take(0, Room, 0.3, "steady as a room")
		} else {
			temps = temps[1:]
		}
	}
}

// once keeps the surest column of each role that a log has once.
func (r *Recognised) once() {
	for _, role := range Roles() {
		if role == Leave || role == Room || role == Time {
			continue
		}
		best := -1
		for i, c := range r.Columns {
			if c.Role == role && (best < 0 || c.Confidence > r.Columns[best].Confidence) {
				best = i
			}
		}
		for i := range r.Columns {
			c := &r.Columns[i]
			if c.Role != role || i == best {
				continue
			}
			r.doubt("columns %q and %q both look like %s; the first was taken", r.Columns[best].Heading, c.Heading, role)
			c.Role, c.Reason = Leave, fmt.Sprintf("%s is taken from %q already", role, r.Columns[best].Heading)
		}
	}
}
