package decide

import (
	"fmt"
	"math"
	"strings"

	"curvewright/units"
)

// Recommended tells whether the best found may be called a recommendation: it keeps comfort
// in the surveyed house and, where others were tried, in at least half of them (own choice).
func (a Answer) Recommended() bool {
	return a.Best.Keeps && (a.Sure.Played == 0 || 2*a.Sure.Keeping >= a.Sure.Played)
}

// hopeless tells whether no setting in range keeps comfort in any house that was tried.
func (a Answer) hopeless() bool {
	return a.Complete && (!a.Best.Keeps || a.Sure.Played > 0 && a.Sure.Keeping == 0) && (a.Surer == nil || a.SurerIn.Keeping == 0)
}

// coldest are the rooms that are cold too long, at most three.
func (a Answer) coldest() string {
	rooms := []string{a.Best.ColdRoom}
	if len(a.Sure.Fails) > 0 {
		rooms = nil
		for _, f := range a.Sure.Fails[:min(3, len(a.Sure.Fails))] {
			rooms = append(rooms, f.Room)
		}
	}
	return strings.Join(rooms, "; ")
}

// Advice tells the answer in sentences, the recommendation first.
//
// Units: those of the system.
// Range: an answer of [Search].
// Source: none: words only.
func (a Answer) Advice(s units.System) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if a.Sheet.Fuel == 0 {
		return []string{"Stopped before a single year was played."}
	}
	if !a.Complete {
		say("Stopped early: this is the best of %d years played.", a.Runs)
	}
	saved := 1 - float64(a.Best.Fuel/a.Sheet.Fuel)
	if a.hopeless() {
		say("Not recommended: no setting in range keeps comfort. Even with the supply as high as this control and its limits allow, too little heat comes to: %s. The emitters there are too small at that water for what the rooms lose, or the survey takes their loss too high. Measure both first; then larger emitters, less loss, or a higher limit of the supply where the floor and the boiler bear it.", a.coldest())
	}
	switch {
	case !a.Best.Keeps && !a.Complete:
		say("Nothing yet keeps every room within %s of its set-point for all but %s a year.", a.Comfort.Band.Text(s), hours(a.Comfort.Hours))
	case !a.Best.Keeps:
		say("Nothing that this control can hold keeps every room within %s of its set-point for all but %s a year; the least cold is shown.", a.Comfort.Band.Text(s), hours(a.Comfort.Hours))
	case !a.Sheet.Keeps:
		say("The sheet's settings leave %s cold for %s a year; these leave it so for %s at most, and %s fuel.", a.Sheet.ColdRoom, hours(a.Sheet.ColdFor), hours(a.Best.ColdFor), change(saved))
	case saved > 0.002:
		say("%s less fuel than the sheet's settings, and no room is cold for more than %s.", percent(saved), hours(a.Best.ColdFor))
	case saved < -0.002:
		say("%s more fuel than the sheet's settings: what is surer to keep comfort.", percent(-saved))
	default:
		say("The sheet's settings are as good as anything this control can hold, within 0.2 %% of the fuel.")
	}
	if least := 1 - float64(a.Least.Fuel/a.Best.Fuel); a.Least.Keeps && least > 0.002 {
		say("In a house exactly as surveyed %s less would do, with %s of cold.", percent(least), hours(a.Least.ColdFor))
	}
	if u := a.Sure; u.Played > 0 {
		say("In %d of %d houses that differ from the survey as much as it may be off, comfort is kept.", u.Keeping, u.Played)
		if !u.Holds {
			var rooms []string
			for _, f := range u.Fails {
				rooms = append(rooms, fmt.Sprintf("%s (%d houses, up to %s)", f.Room, f.Houses, hours(f.Longest)))
			}
			say("That is fewer than nine in ten. Cold too long: %s. Raise the curve if it shows, or measure first what the sheet says would make it surer.", strings.Join(rooms[:min(4, len(rooms))], "; "))
		}
	}
	if a.Surer != nil {
		say("Raised as far as this control goes it holds in %d of %d houses, for %s more fuel.", a.SurerIn.Keeping, a.SurerIn.Played, percent(float64(a.Surer.Fuel/a.Best.Fuel)-1))
	}
	for _, slab := range a.Slabs {
		if slab.Hold {
			say("%s: do not set it back. Lowering the slab would %s and its rooms come back too late: %s more of cold.", slab.Circuit, change(float64(slab.Saved)), hours(max(0, slab.Colder)))
			continue
		}
		say("%s: lowering the slab would %s, for %s more of cold.", slab.Circuit, change(float64(slab.Saved)), hours(max(0, slab.Colder)))
	}
	return out
}

func change(saved float64) string {
	if saved < 0 {
		return "cost " + percent(-saved)
	}
	return "save " + percent(saved)
}

func percent(share float64) string { return fmt.Sprintf("%.1f\u00a0%%", 100*share) }

func hours(t units.Time) string {
	return units.Number(math.Round(float64(t)/3600)).Text(units.US) + "\u00a0h"
}
