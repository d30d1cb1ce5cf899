package settings

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"curvewright/building"
	"curvewright/job"
	"curvewright/units"
	"curvewright/weather"
	"curvewright/working"
)

// room is a heated room with its loss, however that was found.
type room struct {
	name     string
	setpoint units.Temperature
	area     units.Area
	wet      bool
	warmed   bool // its floor is heated: what the floor loses below is counted there
	loss     building.Loss
	gains    units.Power // that can be relied on at night
	source   string      // "given", "from its surfaces", "share of the house"
	doubt    float64     // relative standard error of the loss, beside the house's
	working  []working.Step
}

// house is what is known of the whole.
type house struct {
	area     units.Area
	setpoint units.Temperature
	loss     building.Loss // by the house-level route, zero without one
	source   string
	doubt    float64 // relative standard error of the house's loss, common to all rooms
	doubts   []building.Doubt
	billed   units.Power // design load by the bills, zero without
	working  []working.Step
	rough    string // how rough, in words
}

// lossDoubt is the relative standard error of a heat loss by how it is known, and
// outputDoubt that of an emitter's output (common practice; a repeated in-use
// measurement of the same home varies by about 7 %, doi 10.1177/17442591251365953).
var (
	lossDoubt   = map[job.Known]float64{job.Measured: 0.05, job.Drawings: 0.12, job.Bills: 0.10, job.Estimated: 0.20, job.Assumed: 0.25}
	outputDoubt = map[job.Known]float64{job.Measured: 0.05, job.Drawings: 0.07, job.Bills: 0.10, job.Estimated: 0.12, job.Assumed: 0.20}
)

// roomsTogether is the relative standard error that all rooms share when each was
// worked out by itself: the same U-values, the same draughts (common practice).
const roomsTogether = 0.08

const (
	usualHeight  = units.Length(8 * 0.3048)
	usualChange  = 0.5                       // air changes per hour, EN 12831:2003 least for dwelling rooms, from memory
	leastChange  = 0.3                       // the fresh air of a lived-in house, common practice
	bridgesUsual = units.Transmittance(0.05) // EN 12831-1:2017, new construction
	soil         = units.Conductivity(2.0)   // sand or gravel, ISO 13370
	outerWall    = units.Length(0.3)
)

// usualSetpoint is the room temperature where the survey gives none (common practice with
// outdoor reset): 70 °F, or the round 21 °C of a job kept in SI units. The job's own units
// count, not the reader's, who may turn them without changing the house.
func (m *model) usualSetpoint() units.Temperature {
	if m.job.Display == "si" {
		return units.Celsius(21)
	}
	return units.Fahrenheit(70)
}

// readHouse finds the house's loss by the routes that need no rooms: given, from
// bills, or estimated from ten answers.
func (m *model) readHouse() error {
	j := m.job
	h := &m.house
	h.area = j.House.FloorArea.Value
	if h.area == 0 {
		for _, r := range j.Rooms {
			h.area += r.Area.Value
		}
	}
	h.setpoint = j.House.Setpoint.Or(m.usualSetpoint()).Value
	if h.setpoint <= m.design {
		return fmt.Errorf("house › setpoint: the room temperature %s is not above the design outdoor temperature %s; nothing would have to be heated",
			m.say(h.setpoint), m.say(m.design))
	}
	if j.House.Fuel != nil {
		if err := m.readBills(*j.House.Fuel); err != nil {
			return fmt.Errorf("house › fuel: %w", err)
		}
	}
	switch {
	case j.House.Load.Set:
		loss, err := building.FromDesign(j.House.Load.Value, h.setpoint, m.design)
		if err != nil {
			return fmt.Errorf("house › load: %w", err)
		}
		h.loss, h.source, h.doubt = loss, "given", lossDoubt[j.House.Load.How()]
		h.working = append(h.working, m.lossFromLoad("the house", j.House.Load, h.setpoint, loss))
	case h.billed > 0:
		h.source = "from the fuel bills"
	case j.House.Era != "" || (len(j.Rooms) == 0 && h.area > 0):
		if err := m.estimateHouse(); err != nil {
			return fmt.Errorf("house: %w", err)
		}
	}
	return nil
}

func (m *model) lossFromLoad(what string, load job.Given[units.Power], setpoint units.Temperature, loss building.Loss) working.Step {
	return working.Step{
		Name: "Heat loss of " + what + " from its load on the design day", Formula: "H = Q / (Ti − To)",
		Inputs: []working.Input{
			{Symbol: "Q", Meaning: "load on the design day", Value: load.Value, Known: string(load.How())},
			{Symbol: "Ti", Meaning: "room temperature", Value: setpoint},
			{Symbol: "To", Meaning: "design outdoor temperature", Value: m.design, Known: string(m.job.Site.DesignOutdoor.How())},
		},
		Result: working.Input{Symbol: "H", Meaning: "heat loss per degree", Value: loss.Outdoor},
		Range:  "steady cold, no sun", Source: "steady heat balance, EN 12831-1:2017",
	}
}

func (m *model) readBills(f job.FuelUse) error {
	h := &m.house
	energy := f.Energy.Value
	if !f.Energy.Set {
		key := map[string]string{"natural gas": "gas-m3", "propane": "propane-L", "heating oil": "oil-L"}[f.Fuel]
		fuel, err := building.FuelByKey(key)
		if err != nil {
			return err
		}
		amount := float64(f.Volume.Value) // m³ of gas
		if f.Fuel != "natural gas" {
			amount *= 1000 // litres
		}
		if energy, err = fuel.Energy(units.Number(amount)); err != nil {
			return err
		}
	}
	efficiency := f.Efficiency.Or(0.82)
	other := f.OtherUses
	if !other.Set {
		people := f.People
		if people == 0 {
			people = 3
		}
		hot, err := building.HotWaterFuel(units.Number(people), efficiency.Value)
		if err != nil {
			return err
		}
		other = other.Or(hot)
	}
	base := f.Base.Or(units.Fahrenheit(65))
	bills := building.Bills{Fuel: energy, BaseLoad: other.Value, Efficiency: efficiency.Value, DegreeDays: f.DegreeDays.Value, Base: base.Value}
	gains := units.Power((building.AverageGains + building.SeasonSun) * units.Flux(h.area))
	place, err := weather.NewSpread(m.design, m.annual)
	if err != nil {
		return err
	}
	sig, err := bills.AtOwnBalance(h.setpoint, gains, place.DegreeDays)
	if err != nil {
		return err
	}
	h.billed = sig.Loss.At(h.setpoint, m.design)
	h.loss, h.doubt, h.doubts = sig.Loss, float64(sig.Error), sig.Doubts
	h.working = append(h.working, working.Step{
		Name: "Heat loss of the house from a year's fuel", Formula: "H = (fuel − other uses) · η / (degree-days · f(balance)/f(base)), balance = Ti − gains / H",
		Inputs: []working.Input{
			{Symbol: "fuel", Meaning: "gross heat bought", Value: energy, Known: string(job.Bills)},
			{Symbol: "other uses", Meaning: "hot water and cooking", Value: other.Value, Known: string(other.How())},
			{Symbol: "η", Meaning: "seasonal efficiency of the boiler", Value: efficiency.Value, Known: string(efficiency.How())},
			{Symbol: "degree-days", Meaning: "of that year, base " + m.say(base.Value), Value: f.DegreeDays.Value, Known: string(f.DegreeDays.How())},
			{Symbol: "Ti", Meaning: "room temperature", Value: h.setpoint},
			{Symbol: "gains", Meaning: "people, appliances and a little sun, 8 W/m²", Value: gains, Known: string(job.Assumed)},
			{Symbol: "balance", Meaning: "outdoors, above which the gains carry the house", Value: sig.Base},
			{Symbol: "f(balance)", Meaning: "degree-days of the place to the balance", Value: place.DegreeDays(sig.Base)},
			{Symbol: "f(base)", Meaning: "degree-days of the place to the base", Value: place.DegreeDays(base.Value)},
		},
		Result: working.Input{Symbol: "H", Meaning: "heat loss per degree", Value: sig.Loss.Outdoor},
		Range:  fmt.Sprintf("a whole year; standard error about %.0f %%", 100*float64(sig.Error)),
		Source: "variable-base degree-days, ISO 15927-6:2007; gains are common practice; errors combined as JCGM 100:2008",
	})
	return nil
}

// readRooms finds every room's loss; rooms without one of their own share what the
// house's figure leaves.
func (m *model) readRooms() error {
	if len(m.job.Rooms) == 0 {
		return nil // the circuits stand for the rooms
	}
	var known building.Loss
	var shared units.Area
	lacking := 0
	for i, jr := range m.job.Rooms {
		r, own, err := m.readRoom(jr)
		if err != nil {
			return fmt.Errorf("room %q: %w", jr.Name, err)
		}
		m.rooms = append(m.rooms, r)
		if own {
			known = known.Plus(r.loss)
		} else {
			shared += m.job.Rooms[i].Area.Value
			lacking++
		}
	}
	if lacking > 0 {
		return m.shareRest(known, shared)
	}
	m.compareWithBills(known)
	return nil
}

// shareRest spreads what is left of the house's loss over the rooms without their own.
func (m *model) shareRest(known building.Loss, shared units.Area) error {
	rest := float64(m.house.loss.Coefficient() - known.Coefficient())
	for i := range m.rooms {
		r := &m.rooms[i]
		if r.source != "" {
			continue
		}
		switch {
		case m.house.loss.Coefficient() == 0:
			return fmt.Errorf("room %q has neither a load nor surfaces, and the house has no load to share; give one of the three", r.name)
		case rest <= 0:
			return fmt.Errorf("the rooms with a load of their own already lose %s, more than the whole house's %s; nothing is left for room %q",
				m.say(known.Coefficient()), m.say(m.house.loss.Coefficient()), r.name)
		case !(shared > 0 && r.area > 0):
			return fmt.Errorf("room %q has no load, no surfaces and no floor area to share the house's load by; give one of the three", r.name)
		}
		share := float64(r.area) / float64(shared)
		f := rest / float64(m.house.loss.Coefficient()) * share
		r.loss = m.house.loss.Scale(units.Fraction(f))
		r.source, r.doubt = "share of the house", 0.20
		r.working = append(r.working, working.Step{
			Name: "Share of " + r.name + " in the heat loss of the house", Formula: "H = (H_house − ΣH_known) · A / ΣA",
			Inputs: []working.Input{
				{Symbol: "H_house", Meaning: "heat loss of the house, " + m.house.source, Value: m.house.loss.Coefficient()},
				{Symbol: "ΣH_known", Meaning: "rooms with a loss of their own", Value: known.Coefficient()},
				{Symbol: "A", Meaning: "floor area of the room", Value: r.area},
				{Symbol: "ΣA", Meaning: "floor area of the rooms that share", Value: shared},
			},
			Result: working.Input{Symbol: "H", Meaning: "heat loss per degree", Value: r.loss.Coefficient()},
			Range:  "rooms alike in outside walls and windows; corner rooms need more",
			Source: "common practice",
		})
	}
	return nil
}

// compareWithBills holds the sum of the rooms against the bills, and scales the rooms
// where the survey trusts the bills.
func (m *model) compareWithBills(rooms building.Loss) {
	h := &m.house
	if h.billed == 0 {
		h.source, h.doubt, h.doubts, h.working, h.rough = "room by room", roomsTogether, nil, nil, ""
		return
	}
	sum := rooms.At(h.setpoint, m.design)
	ratio := float64(h.billed / sum)
	if m.job.House.Trust == "bills" {
		for i := range m.rooms {
			m.rooms[i].loss = m.rooms[i].loss.Scale(units.Fraction(ratio))
		}
		h.source = "room by room, scaled to the fuel bills"
		return
	}
	h.source, h.doubt = "room by room", roomsTogether
	if math.Abs(ratio-1) > 0.2 {
		m.findings = append(m.findings, Finding{Severity: "note", Text: fmt.Sprintf(
			"The rooms add up to %s on the design day, the fuel bills come to %s. Paper loads are usually too high; look at air change and U-values, or say trust: bills to scale the rooms by %.2f.",
			m.say(sum), m.say(h.billed), ratio)})
	}
}

func (m *model) readRoom(jr job.Room) (room, bool, error) {
	r := room{name: jr.Name, area: jr.Area.Value, wet: jr.Wet, setpoint: jr.Setpoint.Or(m.house.setpoint).Value}
	for _, e := range jr.Emitters {
		r.warmed = r.warmed || e.Floor != nil
	}
	if r.setpoint <= m.design {
		return r, false, fmt.Errorf("its set-point %s is not above the design outdoor temperature %s", m.say(r.setpoint), m.say(m.design))
	}
	r.gains = units.Power(float64(building.DependableGains) * float64(r.area))
	if m.job.House.Gains.Set && m.house.area > 0 {
		r.gains = units.Power(float64(m.job.House.Gains.Value) * float64(r.area) / float64(m.house.area))
	}
	if jr.Gains.Set {
		r.gains = jr.Gains.Value
	}
	switch {
	case jr.Load.Set:
		loss, err := building.FromDesign(jr.Load.Value, r.setpoint, m.design)
		if err != nil {
			return r, false, err
		}
		r.loss, r.source, r.doubt = loss, "given", lossDoubt[jr.Load.How()]
		r.working = append(r.working, m.lossFromLoad(r.name, jr.Load, r.setpoint, loss))
		return r, true, nil
	case len(jr.Elements) > 0:
		err := m.lossFromElements(jr, &r)
		return r, true, err
	}
	return r, false, nil
}

func (m *model) lossFromElements(jr job.Room, r *room) error {
	total, variance := 0.0, 0.0
	for _, e := range jr.Elements {
		loss, step, known, err := m.lossThrough(e, r)
		if err != nil {
			name := e.Name
			if name == "" {
				name = e.To
			}
			return fmt.Errorf("surface %q: %w", name, err)
		}
		r.loss = r.loss.Plus(loss)
		r.working = append(r.working, step)
		c := math.Abs(float64(loss.Coefficient()))
		total += c
		variance += math.Pow(c*lossDoubt[known], 2)
	}
	height := jr.Height.Or(m.job.House.Height.Or(usualHeight).Value).Value
	change, step, err := m.airChange(jr)
	if err != nil {
		return err
	}
	volume := units.Volume(float64(r.area) * float64(height))
	air, err := building.AirLoss(volume, change.Value, m.job.Site.Elevation.Value)
	if err != nil {
		return err
	}
	step.Inputs = append(step.Inputs, working.Input{Symbol: "V", Meaning: "air volume of the room", Value: volume})
	step.Result = working.Input{Symbol: "H", Meaning: "loss by air", Value: air.Outdoor}
	r.working = append(r.working, step)
	r.loss = r.loss.Plus(air)
	c := float64(air.Outdoor)
	total += c
	variance += math.Pow(c*2*lossDoubt[change.How()], 2) // air is known half as well as surfaces
	r.source = "from its surfaces"
	sum := working.Step{Name: "Heat loss of " + r.name + " together", Formula: "H = ΣH",
		Result: working.Input{Symbol: "H", Meaning: "heat loss per degree", Value: r.loss.Coefficient()},
		Range:  "steady state", Source: "EN 12831-1:2017"}
	for _, step := range r.working {
		sum.Inputs = append(sum.Inputs, working.Input{Symbol: "H", Meaning: strings.TrimPrefix(step.Name, "Loss of "+r.name+" "), Value: step.Result.Value})
	}
	if r.loss.Fixed != 0 {
		sum.Note = "of these " + m.say(r.loss.Fixed) + " towards ground and neighbours at " + m.say(r.loss.FixedAt)
	}
	r.working = append(r.working, sum)
	if total > 0 {
		r.doubt = math.Sqrt(variance) / total
	}
	if !(r.loss.Coefficient() > 0) {
		return fmt.Errorf("its surfaces and air come to a loss of %s; a heated room loses more than nothing, so check the rooms beside it", m.say(r.loss.Coefficient()))
	}
	return nil
}

// airChange is the room's air change on the design day: given, from the blower door,
// or the least for dwelling rooms.
func (m *model) airChange(jr job.Room) (job.Given[units.AirChange], working.Step, error) {
	step := working.Step{
		Name: "Loss of " + jr.Name + " by air", Formula: "H = 0.34 Wh/m³K · n · V · (air density ratio)",
		Range: "steady wind of a cold spell; a storm needs more", Source: "EN 12831-1:2017, ventilation",
	}
	n := jr.AirChange
	if !n.Set && m.job.House.BlowerDoor.Set {
		inf, err := building.InfiltrationFromN50(m.job.House.BlowerDoor.Value)
		if err != nil {
			return n, step, err
		}
		n = job.Says(max(inf.Likely, units.PerHour(leastChange)), job.Estimated)
		step.Note = fmt.Sprintf("air change from the blower door, n50 %s divided by 20 (Kronvall–Persily), good within −50 %% and +100 %%; not below %g /h, which people need anyway", m.say(m.job.House.BlowerDoor.Value), leastChange)
	}
	n = n.Or(units.PerHour(usualChange))
	step.Inputs = []working.Input{{Symbol: "n", Meaning: "air change", Value: n.Value, Known: string(n.How())}}
	return n, step, nil
}

func (m *model) lossThrough(e job.Element, r *room) (building.Loss, working.Step, job.Known, error) {
	u, known, note, err := m.transmittance(e)
	if err != nil {
		return building.Loss{}, working.Step{}, known, err
	}
	name := cmp.Or(e.Name, e.Construction, e.To, "a surface")
	step := working.Step{
		Name: fmt.Sprintf("Loss of %s through %s", r.name, name), Formula: "H = A · U",
		Inputs: []working.Input{
			{Symbol: "A", Meaning: "area", Value: e.Area.Value, Known: string(e.Area.How())},
			{Symbol: "U", Meaning: "U-value", Value: u, Known: string(known)},
		},
		Range: "steady state", Source: "EN 12831-1:2017, transmission", Note: note,
	}
	var loss building.Loss
	switch e.To {
	case "ground":
		if r.warmed {
			step.Note = warmedFloor
			step.Result = working.Input{Symbol: "H", Meaning: "heat loss per degree", Value: units.LossCoefficient(0)}
			return loss, step, known, nil
		}
		return m.lossToGround(e, step, known)
	case "unheated":
		if r.warmed && m.facesDown(e) {
			step.Note = warmedFloor
			step.Result = working.Input{Symbol: "H", Meaning: "heat loss per degree", Value: units.LossCoefficient(0)}
			return loss, step, known, nil
		}
		b := e.Reduction.Or(0.5)
		step.Formula = "H = A · U · b"
		step.Inputs = append(step.Inputs, working.Input{Symbol: "b", Meaning: "share of the difference that lies across it", Value: b.Value, Known: string(b.How())})
		step.Source = "EN 12831-1:2017, transmission to unheated spaces; usual b from EN 12831:2003, from memory"
		loss, err = building.UnheatedLoss(units.LossCoefficient(float64(e.Area.Value)*float64(u)), b.Value)
	case "room":
		other, ok := m.setpointOf(e.Room)
		if !ok {
			return loss, step, known, fmt.Errorf("there is no room %q beside it", e.Room)
		}
		loss = building.Toward(units.LossCoefficient(float64(e.Area.Value)*float64(u)), other)
		step.Note = "towards " + e.Room + " at " + m.say(other)
		if other == r.setpoint {
			loss = building.Loss{}
			step.Note += ": no heat flows"
		}
	default:
		loss, err = building.OutsideLoss(e.Area.Value, u, bridgesUsual)
		step.Formula = "H = A · (U + ΔU)"
		step.Inputs = append(step.Inputs, working.Input{Symbol: "ΔU", Meaning: "thermal bridges", Value: bridgesUsual, Known: string(job.Assumed)})
	}
	step.Result = working.Input{Symbol: "H", Meaning: "heat loss per degree", Value: loss.Coefficient()}
	return loss, step, known, err
}

// warmedFloor is why a floor with tube in it is no loss of the room.
const warmedFloor = "the heated floor lies here: what it loses below is counted with the floor, not with the room"

// facesDown tells whether an element is a floor, by its construction.
func (m *model) facesDown(e job.Element) bool {
	for _, c := range m.job.Constructions {
		if c.Name == e.Construction {
			return c.Facing == "floor"
		}
	}
	return false
}

func (m *model) setpointOf(name string) (units.Temperature, bool) {
	for _, r := range m.job.Rooms {
		if r.Name == name {
			return r.Setpoint.Or(m.house.setpoint).Value, true
		}
	}
	return 0, false
}

// transmittance is the element's U-value, given or from its layers.
func (m *model) transmittance(e job.Element) (units.Transmittance, job.Known, string, error) {
	if e.U.Set {
		return e.U.Value, e.U.How(), "", nil
	}
	if e.Construction == "" && e.To == "ground" {
		return 0, job.Estimated, "", nil
	}
	for _, c := range m.job.Constructions {
		if c.Name != e.Construction {
			continue
		}
		if c.U.Set {
			return c.U.Value, c.U.How(), "", nil
		}
		v, known, err := assembly(c)
		if err != nil {
			return 0, known, "", err
		}
		return v.Transmittance, known, fmt.Sprintf("U-value of %q by ISO 6946 between the limits %s and %s", c.Name, m.say(v.Upper), m.say(v.Lower)), nil
	}
	return 0, "", "", fmt.Errorf("construction %q is not in the list of constructions", e.Construction)
}

func assembly(c job.Construction) (building.UValue, job.Known, error) {
	a := building.Assembly{Name: c.Name}
	switch c.Facing {
	case "roof":
		a.Flow = building.Upward
	case "floor":
		a.Flow = building.Downward
	}
	known := job.Drawings
	for i := len(c.Layers) - 1; i >= 0; i-- { // the engine counts from the inside
		l := c.Layers[i]
		b := building.Layer{Name: l.Material, Thickness: l.Thickness.Value, Conductivity: l.Conductivity.Value, Resistance: l.Resistance.Value}
		if l.BridgedBy.Set {
			b.Bridges = []building.Bridge{{Name: "bridge", Share: l.BridgeShare.Or(0.15).Value, Conductivity: l.BridgedBy.Value}}
		}
		if l.Thickness.How() == job.Estimated || l.Conductivity.How() == job.Estimated {
			known = job.Estimated
		}
		a.Layers = append(a.Layers, b)
	}
	v, err := a.Transmittance()
	return v, known, err
}

func (m *model) lossToGround(e job.Element, step working.Step, known job.Known) (building.Loss, working.Step, job.Known, error) {
	slabArea := e.SlabArea.Or(e.Area.Value).Value
	perimeter := e.Perimeter.Value
	var u units.Transmittance
	var err error
	if e.Depth.Value > 0 {
		var b building.BasementU
		b, err = building.Basement{Area: slabArea, Perimeter: perimeter, Depth: e.Depth.Value, Wall: outerWall, Ground: soil, Floor: e.Insulation.Value}.Transmittance()
		u = b.Floor
		step.Source = "ISO 13370:2007, basement floor; EN 12831-1:2017, heat to the ground"
	} else {
		u, err = building.Slab{Area: slabArea, Perimeter: perimeter, Wall: outerWall, Ground: soil, Floor: e.Insulation.Value}.Transmittance()
		step.Source = "ISO 13370:2007, slab on ground; EN 12831-1:2017, heat to the ground"
	}
	if err != nil {
		return building.Loss{}, step, known, err
	}
	loss, err := building.GroundLoss(e.Area.Value, u, m.annual, false)
	step.Formula = "H = 1.45 · A · U(A, P, R), towards the year's mean outdoor temperature"
	step.Inputs = []working.Input{
		{Symbol: "A", Meaning: "area", Value: e.Area.Value, Known: string(e.Area.How())},
		{Symbol: "P", Meaning: "exposed edge of the slab", Value: perimeter, Known: string(e.Perimeter.How())},
		{Symbol: "R", Meaning: "insulation", Value: e.Insulation.Value, Known: string(e.Insulation.How())},
		{Symbol: "U", Meaning: "U-value with the ground", Value: u},
		{Symbol: "Tm", Meaning: "mean outdoor temperature of the year", Value: m.annual, Known: string(m.job.Site.AnnualMean.Or(m.annual).How())},
	}
	step.Note = "soil taken as sand or gravel, 2.0 W/mK; wall 0.3 m"
	step.Result = working.Input{Symbol: "H", Meaning: "heat loss per degree to the ground", Value: loss.Fixed}
	return loss, step, known, err
}

// estimateHouse is the short way: a house of this size, age and state.
func (m *model) estimateHouse() error {
	jh, h := m.job.House, &m.house
	e, err := building.Survey{
		FloorArea: h.area, Storeys: units.Number(jh.Storeys), Era: building.Era(strings.ReplaceAll(jh.Era, "-", "–")),
		Insulation: building.Insulation(jh.Insulation), Glazing: building.Glazing(jh.Glazing),
		Tightness: building.Tightness(jh.Tightness), Under: building.Under(jh.Under),
		CeilingHeight: jh.Height.Value, AnnualMean: m.annual, Altitude: m.job.Site.Elevation.Value,
	}.Estimate()
	if err != nil {
		return err
	}
	h.loss, h.source, h.doubt, h.doubts = e.Loss, "estimated from the short survey", float64(e.Error), e.Doubts
	h.rough = fmt.Sprintf("rough, good to about ±%.0f %% in two cases of three", 100*float64(e.Error))
	step := working.Step{
		Name: "Heat loss of the house, estimated", Formula: "H = Σ A · U · b + 0.34 Wh/m³K · n · V",
		Result: working.Input{Symbol: "H", Meaning: "heat loss per degree", Value: e.Loss.Coefficient()},
		Range:  h.rough, Source: "a plain house of this size with typical U-values, common practice",
	}
	for _, el := range e.Elements {
		step.Inputs = append(step.Inputs, working.Input{Symbol: el.Name, Meaning: "loss per degree", Value: el.Coefficient, Known: string(job.Estimated)})
	}
	for _, a := range e.Assumed {
		step.Note += upper(strings.TrimSuffix(a, ".")) + ". "
	}
	h.working = append(h.working, step)
	return nil
}
