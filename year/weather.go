package year

// What does the sky do to the house, hour by hour?

import (
	"fmt"

	"curvewright/refuse"
	"curvewright/units"
)

// Weather is an hourly series in local standard time, starting at midnight of a first
// of January. Figures are plain, as the readers of weather files hold them.
type Weather struct {
	// Outdoor is the air temperature at the end of each hour in °C; between them it is
	// taken to go straight.
	Outdoor []float64
	// Sun is the mean irradiance of each hour in W/m², for each façade that a window
	// names.
	Sun [][]float64
}

// hours gives the length of the series.
func (w Weather) hours() int { return len(w.Outdoor) }

// Check says what of a weather cannot be used.
//
// Units: °C and W/m².
// Range: whole days, 1 to 366 of them; −70 to 60 °C, 0 to 1500 W/m²; the same length
// for every façade.
// Source: own requirement.
// Errors: the first hour that is outside, by its number.
func (w Weather) Check() error {
	if w.hours() < 24 || w.hours() > 8784 || w.hours()%24 != 0 {
		return fmt.Errorf("weather: %d hours given; accepted: whole days, 24 to 8,784 hours", w.hours())
	}
	for i, t := range w.Outdoor {
		if err := refuse.Within("outdoor temperature", units.Temperature(t+zeroCelsius), coldest, warmest); err != nil {
			return fmt.Errorf("weather: hour %d: %w", i+1, err)
		}
	}
	if len(w.Sun) > mostFacades {
		return fmt.Errorf("weather: sun for %d façades given; accepted: up to %d", len(w.Sun), mostFacades)
	}
	for f, sun := range w.Sun {
		if len(sun) != w.hours() {
			return fmt.Errorf("weather: façade %d has sun for %d hours, but there are temperatures for %d", f, len(sun), w.hours())
		}
		for i, s := range sun {
			if !(s >= 0 && s <= 1500) {
				return fmt.Errorf("weather: hour %d: sun on façade %d: %s given; accepted: 0 to 1500 W/m²", i+1, f, refuse.Both(units.Flux(s)))
			}
		}
	}
	return nil
}

// Steady gives a weather that does not change and has no sun, for checks.
//
// Units: outdoor temperature in K.
// Range: 1 to 366 days, façades from 0.
// Source: definition.
func Steady(outdoor units.Temperature, days, facades int) Weather {
	w := Weather{Outdoor: make([]float64, 24*max(1, days)), Sun: make([][]float64, max(0, facades))}
	for i := range w.Outdoor {
		w.Outdoor[i] = outdoor.Celsius()
	}
	for f := range w.Sun {
		w.Sun[f] = make([]float64, len(w.Outdoor))
	}
	return w
}

const zeroCelsius = 273.15
