package job

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"time"

	"curvewright/units"
)

// Check asks whether the parts of a job make sense together: names that refer to
// something, ranges the right way round, every room with a load and a way to heat
// it. Read ends with it; whoever builds a job otherwise calls it.
//
// Units: none of its own; limits are told in the units that the job displays.
// Range: rooms 5 °C to 35 °C, design outdoor temperature −60 °C to 20 °C, water
// 5 °C to 120 °C; other limits stand beside the rules.
// Source: common practice, except that two inputs cannot both be given where one
// follows from the other.
// Errors: [*Faults].
func Check(j *Job) error {
	return check(j, func(*place) (int, int) { return 0, 0 })
}

func check(j *Job, locate func(*place) (line, column int)) error {
	c := &checker{job: j, locate: locate}
	if j.Display != "si" {
		c.system = units.US
	}
	// Where a single value makes no sense, comparing it with others tells no more.
	if c.each(reflect.ValueOf(j).Elem(), nil, field{}); len(c.faults.List) == 0 {
		c.heading()
		c.site()
		c.house()
		c.constructions()
		c.circuits()
		c.rooms()
		c.plant()
		c.closedSystem()
		c.sensors()
		c.program()
		c.control()
		c.found()
		c.learned()
	}
	return c.faults.err()
}

type checker struct {
	job    *Job
	system units.System
	locate func(*place) (int, int)
	faults Faults
}

func (c *checker) fault(p *place, given, problem, accept, hint string) {
	f := Fault{Path: p.path(), Place: p.words(), Given: shorten(given), Problem: problem, Accept: accept, Hint: hint}
	f.Line, f.Column = c.locate(p)
	c.faults.add(f)
}

// top is a place at the top of the document.
func top(name string) *place { return (*place)(nil).at(name) }

// say prints a quantity for a message.
func (c *checker) say(q units.Quantity) string { return q.Text(c.system) }

// sign says which values a quantity can have in a house.
type sign int

const (
	positive sign = iota // the rule
	zeroUp               // may be nothing
	anyAtAll             // may be below zero
)

// signs are the fields that may be zero or below, by name.
var signs = map[string]sign{
	"elevation": anyAtAll, "from": anyAtAll, "to": anyAtAll, "depth": zeroUp, "gains": zeroUp, "other_uses": zeroUp,
	"covering": zeroUp, "insulation": zeroUp, "insulation_below": zeroUp, "air_at_floor": zeroUp,
	"air_change": zeroUp, "reduction": zeroUp, "bridge_share": zeroUp,
	"flow": zeroUp, "head": zeroUp, // the first and last point of a pump curve; others ask for more
	"loop_insulation": zeroUp, "precharge": zeroUp, "hardness": zeroUp, "reads": zeroUp,
	"a": anyAtAll, "c": zeroUp, // of a thermistor
	"shift": anyAtAll, // of a curve as found
}

// each visits every field and judges it by itself.
func (c *checker) each(v reflect.Value, p *place, f field) {
	if isInput(v.Type()) {
		c.value(v.Addr().Interface().(input), p, f)
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			c.each(v.Elem(), p, f)
		}
	case reflect.Slice:
		for i := range v.Len() {
			c.each(v.Index(i), p.entry(i, nameOf(v.Index(i))), f)
		}
	case reflect.String:
		if word := v.String(); word != "" && len(f.words) > 0 && !slices.Contains(f.words, word) {
			c.fault(p, word, "is not one of the words for this", list(f.words), meant(word, f.words))
		}
	case reflect.Int:
		if v.Int() < 0 || v.Int() > 1000 {
			c.fault(p, fmt.Sprint(v.Int()), "is not a number of things", "0 to 1000", "")
		}
	case reflect.Struct:
		for _, f := range layouts[v.Type()] {
			if f.need && v.Field(f.index).IsZero() && !isInput(v.Field(f.index).Type()) {
				c.fault(p.at(f.name), "", "is missing", f.doc, "")
				continue
			}
			c.each(v.Field(f.index), p.at(f.name), f)
		}
	}
}

func nameOf(v reflect.Value) string {
	if v.Kind() == reflect.Struct {
		if name := v.FieldByName("Name"); name.IsValid() {
			return name.String()
		}
	}
	return ""
}

// value judges one quantity by itself.
func (c *checker) value(in input, p *place, f field) {
	value, known, set := in.entry()
	if !set {
		if f.need {
			c.fault(p, "", "is missing", f.doc, "")
		}
		return
	}
	if known != "" && !slices.Contains(knownWords, string(known)) {
		c.fault(p.at("known"), string(known), "is not a way of knowing a value", list(knownWords), meant(string(known), knownWords))
	}
	number := reflect.ValueOf(value).Float()
	if math.IsNaN(number) || math.IsInf(number, 0) {
		c.fault(p, "", "is not a number that can be used", accepted(in), "")
		return
	}
	switch q := value.(type) {
	case units.Temperature:
		if low, high := temperatureLimits(f.name); q < low || q > high {
			c.fault(p, in.text(), "is not a temperature for this", c.say(low)+" to "+c.say(high), "")
		}
		return
	case units.Fraction:
		// Net efficiencies of condensing boilers lie above the whole; rated judges them.
		if f.name == "excess_air" {
			if q < 0 || q > mostExcessAir {
				c.fault(p, in.text(), "is not the excess air of a burner", "0 % to "+mostExcessAir.Text(c.system), "")
			}
			return
		}
		if q > 1 && !(f.name == "efficiency" && p.parent != nil && p.parent.listed) {
			c.fault(p, in.text(), "is more than the whole", "0 % to 100 %", "")
			return
		}
	}
	switch s := signs[f.name]; {
	case s == positive && number <= 0:
		c.fault(p, in.text(), "is not more than zero", accepted(in), "")
	case s == zeroUp && number < 0:
		c.fault(p, in.text(), "is less than zero", accepted(in), "")
	}
}

// temperatureLimits bound what a temperature of that name can be in a house.
func temperatureLimits(name string) (low, high units.Temperature) {
	switch name {
	case "setpoint_room", "lower", "entering_air":
		return units.Celsius(5), units.Celsius(35)
	case "design_outdoor":
		return units.Celsius(-60), units.Celsius(20)
	case "annual_mean", "temperature_below":
		return units.Celsius(-25), units.Celsius(40)
	case "base":
		return units.Celsius(10), units.Celsius(25)
	case "frost_target":
		return units.Celsius(-48), units.Celsius(0)
	case "cold": // of the main in a hard winter
		return units.Celsius(1), units.Celsius(120)
	case "beside", "at": // of sensors; the rating of baseboard has limits of its own
		return units.Celsius(-50), units.Celsius(150)
	case "from", "to": // outdoor and supply temperatures alike
		return units.Celsius(-60), units.Celsius(120)
	case "cold_outdoor", "mild_outdoor", "outdoor": // of a curve as found
		return units.Celsius(-60), units.Celsius(40)
	case "cut_off":
		return units.Celsius(-10), units.Celsius(40)
	case "frost_outdoor":
		return units.Celsius(-30), units.Celsius(20)
	case "frost_room":
		return units.Celsius(1), units.Celsius(20)
	}
	return units.Celsius(5), units.Celsius(120)
}

func (c *checker) heading() {
	if c.job.Version != Version {
		c.fault(top("curvewright"), fmt.Sprint(c.job.Version), "is not the version of the document in use", fmt.Sprint(Version), "")
	}
	if day := c.job.Date; day != "" {
		if _, err := time.Parse(time.DateOnly, day); err != nil {
			c.fault(top("surveyed"), day, "is not a day", "year, month and day as 2026-11-25", "")
		}
	}
}

func (c *checker) site() {
	s, at := c.job.Site, top("site")
	if s.AnnualMean.Set && s.AnnualMean.Value <= s.DesignOutdoor.Value {
		c.fault(at.at("annual_mean"), s.AnnualMean.text(), "is not warmer than the design day",
			"more than "+c.say(s.DesignOutdoor.Value), "")
	}
	if e := s.Elevation; e.Set && (e.Value < -450 || e.Value > 6000) {
		c.fault(at.at("elevation"), e.text(), "is not a height where people live",
			c.say(units.Length(-450))+" to "+c.say(units.Length(6000)), "")
	}
}

func (c *checker) house() {
	h, at := c.job.House, top("house")
	c.setpoint(h.Setpoint, at.at("setpoint"))
	if h.Fuel != nil {
		c.fuel(*h.Fuel, at.at("fuel"))
	}
	c.only(h.Trust == "bills", h.Fuel != nil, at.at("trust"), "fuel")
	if b := h.BlowerDoor; b.Set && b.Value > units.PerHour(50) {
		c.fault(at.at("blower_door"), b.text(), "is more than a blower door can measure in a house", "up to 50 /h", "")
	}
	c.height(h.Height, at.at("ceiling_height"))
	if len(c.job.Rooms) > 0 {
		return
	}
	if !h.FloorArea.Set {
		c.fault(at.at("floor_area"), "", "is missing", "the heated floor area, since there are no rooms", "")
	}
	if !c.houseLoad() {
		c.fault(at, "", "gives no way to find the heat load", "load, or fuel, or era, or rooms", "")
	}
}

// houseLoad tells whether the heat load can be found from the house as a whole.
func (c *checker) houseLoad() bool {
	h := c.job.House
	return h.Load.Set || h.Fuel != nil || h.Era != ""
}

func (c *checker) height(h Given[units.Length], at *place) {
	if h.Set && (h.Value < 1.5 || h.Value > 12) {
		c.fault(at, h.text(), "is not the height of a room", c.say(units.Length(1.5))+" to "+c.say(units.Length(12)), "")
	}
}

// setpoint judges a room temperature.
func (c *checker) setpoint(t Given[units.Temperature], at *place) {
	low, high := temperatureLimits("setpoint_room")
	switch {
	case !t.Set:
	case t.Value < low || t.Value > high:
		c.fault(at, t.text(), "is not a temperature to live in", c.say(low)+" to "+c.say(high), "")
	case t.Value <= c.job.Site.DesignOutdoor.Value:
		c.fault(at, t.text(), "is not warmer than the design day", "more than "+c.say(c.job.Site.DesignOutdoor.Value), "")
	}
}

func (c *checker) fuel(f FuelUse, at *place) {
	c.oneOf(at, f.Energy.Set, f.Volume.Set, "energy", "volume")
	if f.OtherUses.Set && f.Energy.Set && f.OtherUses.Value >= f.Energy.Value {
		c.fault(at.at("other_uses"), f.OtherUses.text(), "leaves nothing for heating", "less than "+c.say(f.Energy.Value), "")
	}
	if e := f.Efficiency; e.Set && e.Value < 0.3 {
		c.fault(at.at("efficiency"), e.text(), "is not the efficiency of a boiler", "30 % to 100 %", "")
	}
}

// oneOf asks for exactly one of two inputs.
func (c *checker) oneOf(at *place, first, second bool, one, other string) {
	switch {
	case first && second:
		c.fault(at, "", "has both "+one+" and "+other, "one of them", "")
	case !first && !second:
		c.fault(at, "", "has neither "+one+" nor "+other, "one of them", "")
	}
}

func (c *checker) constructions() {
	at := top("constructions")
	seen := map[string]bool{}
	for i, k := range c.job.Constructions {
		p := at.entry(i, k.Name)
		c.unique(seen, k.Name, p)
		c.oneOf(p, k.U.Set, len(k.Layers) > 0, "u", "layers")
		for n, l := range k.Layers {
			c.layer(l, p.at("layers").entry(n, l.Material))
		}
	}
}

func (c *checker) layer(l Layer, p *place) {
	switch {
	case l.Resistance.Set && l.Conductivity.Set:
		c.fault(p, "", "has both resistance and conductivity", "one of them", "")
	case !l.Resistance.Set && !(l.Thickness.Set && l.Conductivity.Set):
		c.fault(p, "", "has no thermal resistance", "resistance, or thickness and conductivity", "")
	}
	switch {
	case l.BridgedBy.Set != l.BridgeShare.Set:
		c.fault(p, "", "tells half of what bridges it", "bridged_by and bridge_share together", "")
	case l.BridgedBy.Set && !l.Thickness.Set:
		c.fault(p, "", "is bridged but has no thickness", "thickness beside the resistance", "")
	}
}

// unique asks that a name is not taken; capitals make no difference.
func (c *checker) unique(seen map[string]bool, name string, p *place) {
	key := strings.ToLower(strings.TrimSpace(name))
	if seen[key] {
		c.fault(p.at("name"), name, "is the name of another one", "a name of its own", "")
	}
	seen[key] = true
}

// exists asks that a name refers to something.
func (c *checker) exists(name string, all []string, what string, p *place) {
	if slices.Contains(all, name) {
		return
	}
	accept := list(all)
	if len(all) == 0 {
		accept = "nothing yet: there are no " + what + "s"
	}
	c.fault(p, name, "is not the name of a "+what, accept, meant(name, all))
}

func (c *checker) circuitNames() []string {
	var all []string
	for _, k := range c.job.Circuits {
		all = append(all, k.Name)
	}
	return all
}

func (c *checker) circuits() {
	at, short := top("circuits"), len(c.job.Rooms) == 0
	seen := map[string]bool{}
	shares, without := units.Fraction(0), 0
	for i, k := range c.job.Circuits {
		p := at.entry(i, k.Name)
		c.unique(seen, k.Name, p)
		if short {
			c.shortCircuit(k, p)
		} else {
			c.roomCircuit(k, p)
		}
		c.maxSupply(k, p)
		c.pipework(k, p)
		if d := k.Drop; d.Set && d.Value > 50 {
			c.fault(p.at("drop"), d.text(), "is more than water loses in a circuit", "up to "+c.say(units.Kelvins(50)), "")
		}
		switch {
		case k.Share.Set && k.Area.Set:
			c.fault(p, "", "has both share and area", "one of them", "")
		case k.Share.Set:
			shares += k.Share.Value
		case k.Area.Set && c.job.House.FloorArea.Set:
			shares += units.Fraction(k.Area.Value / c.job.House.FloorArea.Value)
		default:
			without++
		}
	}
	if !short {
		return
	}
	if shares > 1.001 {
		c.fault(at, shares.Text(c.system), "is what the shares of the circuits add up to", "100 % at most", "")
	}
	if without > 1 {
		c.fault(at, "", "do not tell how they share the load", "share or area for all circuits but one", "")
	}
}

// shortCircuit judges a circuit of a job without rooms.
func (c *checker) shortCircuit(k Circuit, p *place) {
	if len(k.Emitters) == 0 {
		c.fault(p.at("emitters"), "", "is missing", "what heats, since there are no rooms", "")
	}
	for i, e := range k.Emitters {
		at := p.at("emitters").entry(i, e.Name)
		if e.Circuit != "" && e.Circuit != k.Name {
			c.fault(at.at("circuit"), e.Circuit, "is not the circuit that this stands under", k.Name+", or nothing", "")
		}
		c.emitter(e, at)
	}
}

// roomCircuit judges a circuit of a job with rooms.
func (c *checker) roomCircuit(k Circuit, p *place) {
	const hint = "leave out the rooms for the short way"
	if len(k.Emitters) > 0 {
		c.fault(p.at("emitters"), "", "stand here and in the rooms", "emitters under the rooms, since there are rooms", hint)
	}
	if k.Share.Set || k.Area.Set {
		c.fault(p, "", "has a share of the load, which the rooms tell", "neither share nor area, since there are rooms", hint)
	}
	for _, r := range c.job.Rooms {
		for _, e := range r.Emitters {
			if e.Circuit == k.Name || e.Circuit == "" && len(c.job.Circuits) == 1 {
				return
			}
		}
	}
	if len(k.Emitters) == 0 {
		c.fault(p, "", "feeds nothing", "at least one emitter of a room with circuit: "+k.Name, "")
	}
}

// maxSupply asks that a circuit may be warmer than the rooms that it heats.
func (c *checker) maxSupply(k Circuit, p *place) {
	if !k.MaxSupply.Set {
		return
	}
	warmest := c.job.House.Setpoint.Value
	for _, r := range c.job.Rooms {
		for _, e := range r.Emitters {
			if r.Setpoint.Set && (e.Circuit == k.Name || e.Circuit == "") {
				warmest = max(warmest, r.Setpoint.Value)
			}
		}
	}
	if k.MaxSupply.Value <= warmest {
		c.fault(p.at("max_supply"), k.MaxSupply.text(), "is not warmer than the rooms on this circuit", "more than "+c.say(warmest), "")
	}
}

func (c *checker) rooms() {
	at := top("rooms")
	var rooms, walls []string
	for _, r := range c.job.Rooms {
		rooms = append(rooms, r.Name)
	}
	for _, k := range c.job.Constructions {
		walls = append(walls, k.Name)
	}
	seen := map[string]bool{}
	for i, r := range c.job.Rooms {
		p := at.entry(i, r.Name)
		c.unique(seen, r.Name, p)
		c.setpoint(r.Setpoint, p.at("setpoint"))
		c.height(r.Height, p.at("height"))
		c.roomLoad(r, p)
		for n, e := range r.Elements {
			c.element(e, r, rooms, walls, p.at("elements").entry(n, e.Name))
		}
		c.roomEmitters(r, p.at("emitters"))
	}
}

// leastFlux and mostFlux are around the heat load of any room by its floor; beyond them lies a
// figure in another unit than was meant, or with its decimal sign taken for another. Common
// practice. An inner room may have no load at all.
const leastFlux, mostFlux = units.Flux(0.5), units.Flux(1000)

func (c *checker) roomLoad(r Room, p *place) {
	if r.Load.Set && r.Area.Set && r.Area.Value > 0 && r.Load.Value > 0 {
		least, most := units.Power(float64(leastFlux)*float64(r.Area.Value)), units.Power(float64(mostFlux)*float64(r.Area.Value))
		if r.Load.Value < least || r.Load.Value > most {
			c.fault(p.at("load"), r.Load.text(), "is not the heat load of a room of this size", c.say(least)+" to "+c.say(most), "the usual slip is the unit")
		}
	}
	switch {
	case r.Load.Set && len(r.Elements) > 0:
		c.fault(p, "", "has both load and elements", "one of them", "")
	case r.Load.Set || len(r.Elements) > 0:
	case !c.houseLoad():
		c.fault(p, "", "gives no way to find its heat load", "load, or elements; or a load of the house to share", "")
	case !r.Area.Set:
		c.fault(p.at("area"), "", "is missing", "the floor area, to find its share of the house's load", "")
	}
}

func (c *checker) element(e Element, r Room, rooms, walls []string, p *place) {
	ground := e.To == "ground"
	switch {
	case e.U.Set && e.Construction != "":
		c.fault(p, "", "has both u and construction", "one of them", "")
	case !e.U.Set && e.Construction == "" && !(ground && e.Perimeter.Set):
		c.fault(p, "", "has neither u nor construction", "one of them; a floor on the ground may give its perimeter instead", "")
	case e.Construction != "":
		c.exists(e.Construction, walls, "construction", p.at("construction"))
	}
	switch {
	case e.To == "room" && e.Room == "":
		c.fault(p.at("room"), "", "is missing", "the name of the room behind it", "")
	case e.To == "room" && e.Room == r.Name:
		c.fault(p.at("room"), e.Room, "is this room itself", "the name of the room behind it", "")
	case e.To == "room":
		c.exists(e.Room, rooms, "room", p.at("room"))
	}
	c.only(e.Room != "", e.To == "room", p.at("room"), "to: room")
	c.only(e.Reduction.Set, e.To == "unheated", p.at("reduction"), "to: unheated")
	c.only(e.Perimeter.Set, ground, p.at("perimeter"), "to: ground")
	c.only(e.SlabArea.Set, ground, p.at("slab_area"), "to: ground")
	c.only(e.Insulation.Set, ground, p.at("insulation"), "to: ground")
	c.only(e.Depth.Set, ground, p.at("depth"), "to: ground")
	if e.SlabArea.Set && e.SlabArea.Value < e.Area.Value*(1-1e-9) {
		c.fault(p.at("slab_area"), e.SlabArea.text(), "is smaller than the part of it in this room", "at least "+c.say(e.Area.Value), "")
	}
}

// only asks that a field stands where it has a meaning.
func (c *checker) only(given, meaningful bool, p *place, with string) {
	if given && !meaningful {
		c.fault(p, "", "has no meaning here", "this field only with "+with, "")
	}
}

func (c *checker) roomEmitters(r Room, at *place) {
	circuits := c.circuitNames()
	carried := units.Fraction(0)
	for i, e := range r.Emitters {
		p := at.entry(i, e.Name)
		switch {
		case e.Circuit != "":
			c.exists(e.Circuit, circuits, "circuit", p.at("circuit"))
		case len(circuits) > 1:
			c.fault(p.at("circuit"), "", "is missing", list(circuits), "")
		}
		c.emitter(e, p)
		carried += e.Carries.Value
		if e.Floor != nil && r.Area.Set && e.Floor.Area.Value > r.Area.Value*1.001 {
			c.fault(p.at("floor").at("area"), e.Floor.Area.text(), "is more than the floor of the room", "up to "+c.say(r.Area.Value), "")
		}
	}
	if carried > 1.001 {
		c.fault(at, carried.Text(c.system), "is what its emitters are said to carry together", "100 % at most", "")
	}
}

func (c *checker) emitter(e Emitter, p *place) {
	if !c.choice(reflect.ValueOf(e), p, "what it is") {
		return
	}
	switch {
	case e.FinTube != nil:
		c.finTube(*e.FinTube, p.at("fin_tube"))
	case e.Radiator != nil:
		c.radiator(*e.Radiator, p.at("radiator"))
	case e.TowelRail != nil:
		c.radiator(*e.TowelRail, p.at("towel_rail"))
	case e.Floor != nil:
		c.floor(*e.Floor, p.at("floor"))
	case e.FanCoil != nil && e.FanCoil.EnteringWater.Value <= e.FanCoil.EnteringAir.Value:
		c.fault(p.at("fan_coil").at("entering_water"), e.FanCoil.EnteringWater.text(), "is not warmer than the entering air",
			"more than "+c.say(e.FanCoil.EnteringAir.Value), "")
	case e.Sized != nil && e.Sized.Supply.Set && e.Sized.Supply.Value < units.Celsius(25):
		c.fault(p.at("sized").at("supply"), e.Sized.Supply.text(), "is too cool to heat with", "more than "+c.say(units.Celsius(25)), "")
	}
}

// choice asks that exactly one of a struct's kinds is given.
func (c *checker) choice(v reflect.Value, p *place, what string) bool {
	var given []string
	for _, f := range layouts[v.Type()] {
		if k := v.Field(f.index); k.Kind() == reflect.Pointer && !k.IsNil() {
			given = append(given, f.name)
		}
	}
	kinds := list(choices(v.Type()))
	switch len(given) {
	case 1:
		return true
	case 0:
		c.fault(p, "", "does not say "+what, "one of "+kinds, "")
	default:
		c.fault(p, list(given), "are given together", "one of "+kinds, "")
	}
	return false
}

func (c *checker) finTube(f FinTube, p *place) {
	outside(c, f.At, units.Celsius(35), units.Celsius(120), p.at("at"), "is not a water temperature that baseboard is rated at")
	if o := f.EnteringOffset; o.Set && o.Value > 10 {
		c.fault(p.at("air_at_floor"), o.text(), "is more than air cools towards the floor", "up to "+c.say(units.Kelvins(10)), "")
	}
}

func (c *checker) floor(f Floor, p *place) {
	c.floorLoops(f, p)
	if s := f.Spacing; s.Set && (s.Value < 0.05 || s.Value > 0.6) {
		c.fault(p.at("spacing"), s.text(), "is not a tube spacing", c.say(units.Length(0.05))+" to "+c.say(units.Length(0.6)), "")
	}
	if t := f.Tube; t.Set && (t.Value < 0.006 || t.Value > 0.04) {
		c.fault(p.at("tube"), t.text(), "is not the diameter of a floor heating tube", c.say(units.Length(0.006))+" to "+c.say(units.Length(0.04)), "")
	}
	c.soldTube(f, p)
	if f.Wall.Set && f.Tube.Set && f.Wall.Value >= f.Tube.Value/2 {
		c.fault(p.at("tube_wall"), f.Wall.text(), "leaves no bore in the tube", "less than half of "+c.say(f.Tube.Value), "")
	}
	if k := f.Cover; k.Set && k.Value > 0.5 {
		c.fault(p.at("cover"), k.text(), "is more than lies above a tube", "up to "+c.say(units.Length(0.5)), "")
	}
}

// below asks that one limit lies below another, if both are given.
func below[T units.Quantity](c *checker, low, high Given[T], p *place, problem string) {
	if low.Set && high.Set && reflect.ValueOf(low.Value).Float() >= reflect.ValueOf(high.Value).Float() {
		c.fault(p, low.text(), problem, "less than "+high.text(), "")
	}
}

func (c *checker) program() {
	g, at := c.job.Program, top("program")
	for _, t := range []struct{ name, text string }{{"wake_up", g.WakeUp}, {"bed", g.Bed}, {"leave", g.Leave}, {"return", g.Return}} {
		if t.text == "" {
			continue
		}
		if _, err := time.Parse("15:04", t.text); err != nil || len(t.text) != 5 {
			c.fault(at.at(t.name), t.text, "is not a time of day", "hours and minutes as 06:30 or 22:30", "")
		}
	}
	c.only(g.Leave != "", g.Wish == "away", at.at("leave"), "wish: away")
	c.only(g.Return != "", g.Wish == "away", at.at("return"), "wish: away")
	c.setpoint(g.Lower, at.at("lower"))
	if g.Lower.Set && c.job.House.Setpoint.Set && g.Lower.Value >= c.job.House.Setpoint.Value {
		c.fault(at.at("lower"), g.Lower.text(), "is not lower than the room temperature wanted", "less than "+c.say(c.job.House.Setpoint.Value), "")
	}
}

func (c *checker) control() {
	k, at := c.job.Control, top("control")
	below(c, k.MinSupply, k.MaxSupply, at.at("min_supply"), "is not below the highest supply")
	if k.PointsPerDay > 12 {
		c.fault(at.at("points_per_day"), fmt.Sprint(k.PointsPerDay), "is more switching points than a control has", "0 to 12", "")
	}
	for _, step := range []struct {
		name string
		Given[units.Difference]
	}{{"step", k.Step}, {"room_step", k.RoomStep}} {
		if step.Set && step.Value > 10 {
			c.fault(at.at(step.name), step.text(), "is too coarse for a control", "up to "+c.say(units.Kelvins(10)), "")
		}
	}
	if o := k.CutOff; o != nil {
		span(c, o.From, o.To, at.at("cut_off"))
	}
	if k.Curve == (Shapes{}) {
		return // a line through two points is assumed
	}
	if c.choice(reflect.ValueOf(k.Curve), at.at("curve"), "which shape it is") {
		c.shape(k.Curve, at.at("curve"))
	}
}

func (c *checker) shape(s Shapes, at *place) {
	switch {
	case s.TwoPoints != nil:
		t := s.TwoPoints
		c.points(t.ColdOutdoor, t.MildOutdoor, t.ColdSupply, t.MildSupply, at.at("two_points"))
	case s.Bent != nil:
		b, p := s.Bent, at.at("bent")
		c.points(b.ColdOutdoor, b.MildOutdoor, b.ColdSupply, b.MildSupply, p)
		c.numbers(b.Exponent, 0.5, 3, p.at("exponent"))
	case s.SlopeShift != nil:
		p := at.at("slope_shift")
		c.numbers(s.SlopeShift.Slope, 0, 10, p.at("slope"))
		span(c, s.SlopeShift.Shift.From, s.SlopeShift.Shift.To, p.at("shift"))
	case s.Table != nil:
		t, p := s.Table, at.at("table")
		if t.Points < 2 || t.Points > 12 {
			c.fault(p.at("points"), fmt.Sprint(t.Points), "is not a number of points for a curve", "2 to 12", "")
		}
		span(c, t.Outdoor.From, t.Outdoor.To, p.at("outdoor"))
		span(c, t.Supply.From, t.Supply.To, p.at("supply"))
	}
}

// points judges the two points of a line or of a bent curve.
func (c *checker) points(coldOutdoor, mildOutdoor, coldSupply, mildSupply Range, p *place) {
	for _, r := range []struct {
		name string
		Range
	}{{"cold_outdoor", coldOutdoor}, {"mild_outdoor", mildOutdoor}, {"cold_supply", coldSupply}, {"mild_supply", mildSupply}} {
		span(c, r.From, r.To, p.at(r.name))
	}
	below(c, coldOutdoor.From, mildOutdoor.To, p.at("cold_outdoor"), "is nowhere colder than the mild point")
	below(c, mildSupply.From, coldSupply.To, p.at("mild_supply"), "is nowhere cooler than at the cold point")
}

// span asks that a range has two ends, the lower one first.
func span[T units.Quantity](c *checker, from, to Given[T], p *place) {
	switch {
	case from.Set != to.Set:
		c.fault(p, "", "has one end only", "from and to, or one value if it is fixed", "")
	case from.Set && reflect.ValueOf(from.Value).Float() > reflect.ValueOf(to.Value).Float():
		c.fault(p.at("from"), from.text(), "is above the other end", "up to "+to.text(), "")
	}
}

func (c *checker) numbers(r NumberRange, low, high units.Number, p *place) {
	span(c, r.From, r.To, p)
	if r.From.Set && (r.From.Value < low || r.From.Value > high) {
		c.fault(p.at("from"), r.From.text(), "is not a figure for this", c.say(low)+" to "+c.say(high), "")
	}
	if r.To.Set && r.To.Value > high {
		c.fault(p.at("to"), r.To.text(), "is not a figure for this", c.say(low)+" to "+c.say(high), "")
	}
}
