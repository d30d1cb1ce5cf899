package hotwater

// What does the way hot water is made mean for the heating, and what should be set?

import (
	"cmp"
	"fmt"
	"math"

	"curvewright/refuse"
	"curvewright/units"
)

// Arrangement is how hot water is made, in the words of the job document.
type Arrangement string

// The arrangements.
const (
	OwnPump  Arrangement = "tank with own pump"
	ThreeWay Arrangement = "tank with three-way valve"
	Combi    Arrangement = "combi"
	None     Arrangement = "none"
)

// Meaning says what an arrangement means for the heating.
//
// Range: the four arrangements.
// Source: common practice.
// Errors: an arrangement that is not among them.
func (a Arrangement) Meaning() (string, error) {
	switch a {
	case OwnPump:
		return "the tank has a pump of its own: with priority the control stops the heating pumps while the tank is charged; without priority both run and share the boiler's output", nil
	case ThreeWay:
		return "the valve sends the whole boiler flow either to the tank or to the house: while the tank is charged the heating gets nothing", nil
	case Combi:
		return "the boiler heats tap water as it flows: while a tap runs the heating gets nothing", nil
	case None:
		return "the boiler makes no hot water: priority, tank and charge hours do not apply", nil
	}
	return "", &refuse.Error{Subject: subject, What: "way hot water is made", Given: fmt.Sprintf("%q", string(a)), Accept: "tank with own pump, tank with three-way valve, combi or none"}
}

// RoomDrop gives how much the rooms cool while the heating stands still.
//
//	ΔT = (Ti − To)·(1 − e^(−t/τ))
//
// Units: times and temperatures; the result is a difference.
// Range: time 0 to 48 h, time constant 1 to 10,000 h, temperatures −60 to 60 °C. A
// house of one capacity without gains: the air falls faster in the first half hour,
// most with fan coils and fin-tube, least with a slab.
// Source: solution of C·dT/dt = −H·(T − To), as ISO 13790.
// Errors: a figure outside the range.
func RoomDrop(without, constant units.Time, room, outdoor units.Temperature) (units.Difference, error) {
	err := cmp.Or(
		within("time without heating", without, 0, 48*3600),
		checkHouse(constant, room, outdoor),
	)
	if err != nil || outdoor >= room {
		return 0, err
	}
	return units.Difference(-math.Expm1(-float64(without/constant)) * float64(room-outdoor)), nil
}

func checkHouse(constant units.Time, room, outdoor units.Temperature) error {
	return cmp.Or(
		within("time constant of the house", constant, 3600, 1e4*3600),
		within("room temperature", room, units.Celsius(-60), units.Celsius(60)),
		within("outdoor temperature", outdoor, units.Celsius(-60), units.Celsius(60)),
	)
}

// Plan is what the hot-water settings are derived from.
type Plan struct {
	By        Arrangement
	Tank      Tank
	Charge    Charge            // its Supply is recommended and need not be given
	Cold      units.Temperature // cold water
	Set       units.Temperature // wanted in the tank or at the combi's outlet; 0 means the recommended one
	MaxSupply units.Temperature // highest that the boiler can be set to
	Heating   units.Power       // heat load on the design day
	Room      units.Temperature
	Outdoor   units.Temperature // of the design day
	Constant  units.Time        // time constant of the house
	MayDrop   units.Difference  // by which the rooms may cool during a charge; 0 means 0.5 K
	WakeUp    units.Time        // after midnight
	Bed       units.Time
	LongDraw  units.Time // longest draw of a combi; 0 means 20 min
}

// Advice is what to set, and what it means for the rooms.
type Advice struct {
	Set          units.Temperature
	Differential units.Difference
	Supply       units.Temperature // primary supply while the tank is charged
	Priority     bool
	Limit        units.Time // of the priority
	Hours        []Window   // for charging
	HeatUp       units.Time // of the whole tank from cold
	Reheat       units.Time // from Set − Differential
	Without      units.Time // longest time in one piece that the house goes without heat
	RoomDrop     units.Difference
	Missed       units.Energy // heat that the house does not get in that time
	Notes        []Note       // what the installer should know
}

// Note is a remark on an advice in the units of its reader.
type Note func(units.System) string

// The figures behind the advice, common practice of the trade.
const (
	SetPoint         = units.Temperature(273.15 + 60) // stored water, see [Guidances]
	Differential     = units.Difference(5)
	AboveTarget      = units.Difference(15)      // primary supply above the tank's target
	LongestPriority  = units.Time(45 * 60)       // beyond this rooms are felt to cool
	ShortestPriority = units.Time(20 * 60)       // a limit below this only makes the boiler change over
	mayDrop          = units.Difference(0.5)     // 1 °F
	longDraw         = units.Time(20 * 60)       // a bath or a long shower
	combiSet         = units.Temperature(323.15) // 50 °C: no stored water, no growth; still a scald
)

// Advise gives the hot-water settings of a job.
//
//	supply = target + 15 K, at most what the boiler can; priority limit = the time in
//	which the rooms lose MayDrop, from 20 to 45 min; charge hours from a cold tank's
//	heat-up before waking until bed-time
//
// Priority is left off only where the tank has its own pump and the boiler carries
// house and coil together.
//
// Units: as the types.
// Range: as [Charge.At], [Tank.HeatUp] and [RoomDrop].
// Source: target by the guidance in [Guidances]; 15 K, differential and limits common
// practice; times by heat balance.
// Errors: a figure outside the range; a tank that the boiler cannot bring to its
// target.
func Advise(p Plan) (Advice, error) {
	if _, err := p.By.Meaning(); err != nil {
		return Advice{}, err
	}
	switch p.By {
	case None:
		return Advice{}, nil
	case Combi:
		return adviseCombi(p)
	}
	return adviseTank(p)
}

func adviseCombi(p Plan) (Advice, error) {
	a := Advice{Set: p.Set, Priority: true, Without: p.LongDraw}
	if a.Set == 0 {
		a.Set = combiSet
	}
	if a.Without == 0 {
		a.Without = longDraw
	}
	if err := checkRise(p.Cold, a.Set); err != nil {
		return Advice{}, err
	}
	return a, a.forRooms(p)
}

// forRooms fills in what the rooms lose.
func (a *Advice) forRooms(p Plan) error {
	drop, err := RoomDrop(a.Without, p.Constant, p.Room, p.Outdoor)
	if err != nil {
		return err
	}
	if err := within("heat load of the house", p.Heating, 0, largestPower); err != nil {
		return err
	}
	a.RoomDrop, a.Missed = drop, units.Energy(float64(p.Heating)*float64(a.Without))
	return nil
}

func adviseTank(p Plan) (Advice, error) {
	a := Advice{Set: p.Set, Differential: Differential}
	if a.Set == 0 {
		a.Set = SetPoint
	}
	err := cmp.Or(
		checkRise(p.Cold, a.Set),
		within("highest supply of the boiler", p.MaxSupply, units.Celsius(30), hottestPlant),
		within("drop that the rooms may take", p.MayDrop, 0, 5),
		within("wake-up time", p.WakeUp, 0, 86400),
		within("bed-time", p.Bed, 0, 86400),
	)
	if err != nil {
		return Advice{}, err
	}
	a.Supply = a.Set.Add(AboveTarget)
	if a.Supply > p.MaxSupply {
		a.Supply = p.MaxSupply
		a.note(func(s units.System) string {
			return "the boiler reaches only " + p.MaxSupply.Text(s) + ", less than the tank's target + " + AboveTarget.Text(s) + ": charging slows towards the end"
		})
	}
	charge := p.Charge
	charge.Supply = a.Supply
	whole, err := p.Tank.HeatUp(charge, p.Cold, a.Set)
	if err != nil {
		return Advice{}, err
	}
	again, err := p.Tank.HeatUp(charge, a.Set-units.Temperature(a.Differential), a.Set)
	if err != nil {
		return Advice{}, err
	}
	a.HeatUp, a.Reheat = whole.Time, again.Time
	a.Priority = p.By == ThreeWay || charge.Boiler < p.Heating+whole.Begin.Heat
	if err := a.limit(p); err != nil {
		return Advice{}, err
	}
	if a.Set < SetPoint {
		a.note(func(s units.System) string {
			return "stored at " + a.Set.Text(s) + ": " + CautionLegionella
		})
	}
	a.note(func(units.System) string { return CautionScald })
	a.Hours = chargeHours(p, a.HeatUp)
	return a, a.forRooms(p)
}

// limit sets the priority's limit and the time without heat that follows from it.
func (a *Advice) limit(p Plan) error {
	if !a.Priority {
		return nil
	}
	if err := checkHouse(p.Constant, p.Room, p.Outdoor); err != nil {
		return err
	}
	drop := p.MayDrop
	if drop == 0 {
		drop = mayDrop
	}
	a.Limit = LongestPriority
	if span := p.Room.Sub(p.Outdoor); span > drop {
		until := -float64(p.Constant) * math.Log1p(-float64(drop/span))
		const step = 300 // controls are set in steps of some minutes
		a.Limit = min(LongestPriority, max(ShortestPriority, units.Time(math.Floor(until/step)*step)))
	}
	a.Without = min(a.HeatUp, a.Limit)
	if limit, reheat := a.Limit, a.Reheat; reheat > limit {
		a.note(func(s units.System) string {
			return "warming the tank by its differential takes " + reheat.Text(s) + ", longer than the priority may last (" + limit.Text(s) +
				"): look at the primary flow, scale in the coil and the output released for hot water"
		})
	}
	if heatUp, limit := a.HeatUp, a.Limit; heatUp > limit {
		a.note(func(s units.System) string {
			return "a cold tank takes " + heatUp.Text(s) + "; the heating has its turn after " + limit.Text(s) + ", so charge before the house wants its morning heat"
		})
	}
	return nil
}

func (a *Advice) note(n Note) { a.Notes = append(a.Notes, n) }

// chargeHours run from a cold tank's heat-up, and a quarter hour to spare, before
// waking until bed-time, in quarter hours.
func chargeHours(p Plan, heatUp units.Time) []Window {
	const quarter, day = 900.0, 86400.0
	if p.WakeUp == p.Bed {
		return nil
	}
	from := math.Floor((float64(p.WakeUp)-float64(heatUp))/quarter)*quarter - quarter
	awake := math.Mod(float64(p.Bed-p.WakeUp)+day, day)
	if awake+float64(p.WakeUp)-from >= day {
		return nil // it takes the night as well
	}
	return []Window{{From: units.Time(math.Mod(from+day, day)), To: p.Bed}}
}
