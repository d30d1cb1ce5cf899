package trial

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"curvewright/building"
	"curvewright/units"
	"curvewright/year"
)

// What would a reader stumble over who knows houses but not this one?

const (
	manyStarts = 4000                    // in a year, from which on they are explained (own choice)
	longWarm   = units.Time(1000 * 3600) // too warm in heating weather, from which on it is explained (own choice)
	longCold   = units.Time(20 * 3600)   // too cold, likewise
)

// balance is the outdoor temperature above which people, appliances and a little sun carry
// the whole house.
func (t *Trial) balance() units.Temperature {
	var loss building.Loss
	area, inside := 0.0, 0.0
	for _, room := range t.Plan.Rooms {
		loss = loss.Plus(room.Loss)
		area += float64(room.Area)
		inside += float64(room.Loss.Coefficient()) * float64(room.Setpoint)
	}
	if loss.Coefficient() == 0 {
		return 0
	}
	return loss.BalanceOutdoor(units.Temperature(inside/float64(loss.Coefficient())), units.Power(float64(building.AverageGains+building.SeasonSun)*area))
}

// ByHand is the fuel of a year as degree-days alone have it: what the house loses to those
// below its own balance, and the hot water, at the efficiency of the year that was played.
//
//	(H·DD + hot water)/η
//
// Units: J, kelvin-seconds, and the balance.
// Range: results of [Trial.Run].
// Source: variable-base degree-days, ISO 15927-6:2007; gains of common practice.
func (t *Trial) ByHand(r year.Result) (fuel units.Energy, days units.DegreeDays, below units.Temperature) {
	below = t.balance()
	for _, outdoor := range t.Weather.Outdoor {
		days += units.DegreeDays(3600 * math.Max(0, below.Celsius()-outdoor))
	}
	loss := 0.0
	for _, room := range t.House.Rooms {
		loss += float64(room.Loss.Coefficient())
	}
	heat := loss*float64(days) + float64(r.Balance.HotWater+r.Balance.TankLost)
	if r.Efficiency > 0 {
		fuel = units.Energy(heat / float64(r.Efficiency))
	}
	return fuel, days, below
}

// Notes say what a reader might stumble over: how the fuel compares with a reckoning by
// hand and with the bills, why the burner starts so often, why rooms are too warm or too
// cold.
//
// Units: those of the system, written into the sentences.
// Range: results of [Trial.Run], the sheet's first.
// Source: own choice of what is told.
func (t *Trial) Notes(results []year.Result, s units.System) []string {
	sheet := results[0]
	var list []string
	say := func(format string, a ...any) { list = append(list, fmt.Sprintf(format, a...)) }
	if fuel, days, below := t.ByHand(sheet); fuel > 0 {
		also := ""
		if sheet.Balance.Behind > sheet.Fuel/50 {
			also = fmt.Sprintf("%s lost below floors and behind radiators, ", sheet.Balance.Behind.Text(s))
		}
		say("A check by hand: the heat loss times %s (below %s, above which people and sun carry the house) and the hot water, at the efficiency of the year, make about %s of fuel. The year played takes %s: %slowered hours, open windows and the sun of single days are the difference.",
			days.Text(s), below.Text(s), fuel.Text(s), sheet.Fuel.Text(s), also)
		if b := t.bill; b.Energy.Set {
			say("The bills of the survey say %s for a year of %s (below %s). They hold cooking and whatever else burns there, and the habits and the boiler of that year.",
				b.Energy.Value.Text(s), b.DegreeDays.Value.Text(s), b.Base.Or(units.Fahrenheit(65)).Value.Text(s))
		}
	}
	if t.savesNothing(results) {
		say("The curve saves next to no fuel here: the water is cool enough to condense either way, and the room thermostats hold the rest back. What it changes is how often the burner starts and how long the pump runs.")
	}
	if sheet.Starts > manyStarts {
		draws := 0
		if t.Plant.Combi != nil {
			draws = len(t.Plant.Combi.Draws.Draws) * int(math.Round(float64(sheet.Time)/86400))
			say("Hot water is made as it flows, and each draw of it is a start: about %s of the %s.", units.Number(draws).Text(s), units.Number(sheet.Starts).Text(s))
		}
		if sheet.Starts-draws > manyStarts {
			say("So many starts come where valves and thermostats shut: then the boiler warms little more than its own water, and its least output of %s is more than what still takes heat. A buffer, a wider differential or a large circuit that stays open calms it.",
				t.Plant.Boiler.Least.Text(s))
		}
	}
	worst := slices.MaxFunc(sheet.Rooms, func(a, b year.RoomResult) int { return int(a.Above - b.Above) })
	if worst.Above > longWarm {
		why := "Sun and people do that: shade and open windows help, the curve does not."
		if len(sheet.Rooms) > 1 {
			why = "Sun and people do that, and where a circuit without valves of its own serves rooms of unequal need, the coldest of them keeps it running: valves or balancing help, the curve does not."
		}
		say("Too warm for longest: %s, for %s of heating weather. %s", worst.Name, Hours(worst.Above), why)
	}
	coldest := func(r year.Result) units.Time {
		return slices.MaxFunc(r.Rooms, func(a, b year.RoomResult) int { return int(a.Below - b.Below) }).Below
	}
	if t.lowersAlone() && coldest(sheet) > longCold {
		say("The sheet lowers the house as the household wishes, and what stands beside it does not: its hours too cold are mostly mornings on which the house is still warming up. Warming up earlier takes a little more fuel.")
	}
	return list
}

// lowersAlone tells whether the sheet's settings lower the house, and none of the others.
func (t *Trial) lowersAlone() bool {
	lowers := func(s year.Settings) bool {
		return slices.ContainsFunc(s.Circuits, func(c year.CircuitSettings) bool { return len(c.Program) > 0 })
	}
	return len(t.Settings) > 1 && lowers(t.Settings[0]) && !slices.ContainsFunc(t.Settings[1:], lowers)
}

// savesNothing tells whether all settings take the same fuel, condensing.
func (t *Trial) savesNothing(results []year.Result) bool {
	least, most := results[0].Fuel, results[0].Fuel
	condenses := true
	for _, r := range results {
		least, most = min(least, r.Fuel), max(most, r.Fuel)
		condenses = condenses && r.Burning > 0 && r.Condensing/r.Burning > 0.95
	}
	return len(results) > 1 && condenses && float64(most/least) < 1.02
}

// wrapped breaks a sentence at so many letters.
func wrapped(text string, width int) string {
	var b strings.Builder
	used := 0
	for i, word := range strings.Split(text, " ") {
		n := len([]rune(word))
		switch {
		case i == 0:
		case used+1+n > width:
			b.WriteByte('\n')
			used = 0
		default:
			b.WriteByte(' ')
			used++
		}
		b.WriteString(word)
		used += n
	}
	return b.String()
}
