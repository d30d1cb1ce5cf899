package web

import (
	"fmt"
	"strings"

	"curvewright/job"
	"curvewright/units"
)

// Controls in general: each shape of heating curve with ranges as they are usual, for
// an installer to begin from and to correct after the manual.

// shape is a control of one kind.
type shape struct {
	id       string
	document string // the control in a job document, in °F and in K; in °C by inCelsius
}

var shapes = []shape{
	{"two-points", `
  curve:
    two_points:
      cold_outdoor: {from: -40 °F, to: 30 °F}
      mild_outdoor: {from: 40 °F, to: 80 °F}
      cold_supply: {from: 80 °F, to: 190 °F}
      mild_supply: {from: 70 °F, to: 140 °F}
`},
	{"slope-shift", `
  curve:
    slope_shift:
      slope: {from: 0.2, to: 3.5, step: 0.1}
      shift: {from: -15 K, to: 40 K, step: 1 K}
`},
	{"bent", `
  curve:
    bent:
      cold_outdoor: {from: -40 °F, to: 30 °F}
      mild_outdoor: {from: 40 °F, to: 80 °F}
      cold_supply: {from: 80 °F, to: 190 °F}
      mild_supply: {from: 70 °F, to: 140 °F}
      exponent: {from: 1, to: 1.5, step: 0.1}
`},
	{"table", `
  curve:
    table:
      points: 5
      outdoor: {from: -40 °F, to: 80 °F}
      supply: {from: 70 °F, to: 190 °F}
`},
}

// usual is what else a control of any shape mostly has (common practice).
const usual = `
  clock: 24 hour
  min_supply: 70 °F
  max_supply: 190 °F
  cut_off: {from: 50 °F, to: 80 °F, step: 1 °F}
  points_per_day: 6
  frost_by: [outdoor]
`

// inCelsius are the same ranges in the round figures of a control that counts in °C: a step of
// 1 °F is none that it could make.
var inCelsius = strings.NewReplacer("step: 1 °F", "step: 1 K", "-40 °F", "-40 °C", "30 °F", "0 °C", "40 °F", "5 °C", "50 °F", "10 °C",
	"70 °F", "20 °C", "80 °F", "25 °C", "140 °F", "60 °C", "190 °F", "90 °C")

func shapeNamed(id string) shape {
	for _, s := range shapes {
		if s.id == id {
			return s
		}
	}
	return shapes[0]
}

// into describes a control of this shape.
func (s shape) into(c *job.Control, system units.System) error {
	scale, document := "fahrenheit", usual+s.document
	if system.In(units.Temperatures) == units.SI {
		scale, document = "celsius", inCelsius.Replace(document)
	}
	j, err := job.Draft([]byte("curvewright: 1\njob: a control\nsite: {design_outdoor: 0 °F}\ncontrol:\n  scale: " + scale + document))
	if j == nil {
		return fmt.Errorf("this shape of control cannot be read: %w", err)
	}
	*c = j.Control
	return nil
}
