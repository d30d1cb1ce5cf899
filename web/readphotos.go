package web

import (
	"context"
	"strings"

	"curvewright/attendance"
	"curvewright/job"
	"curvewright/visit"
	"curvewright/web/words"
)

// A reading may carry a photograph of the thermometer or the meter: who reads the record
// later sees what was seen.

// What can be photographed beside the measures that are judged.
const (
	outdoorRead visit.Measure = "outdoor temperature in the shade"
	resistance  visit.Measure = "resistance"
)

// shownBy are the measures behind the fields of a visit's document, by their pattern.
var shownBy = map[string]visit.Measure{
	"conditions.outdoor": outdoorRead, "readings.outdoor_shown": visit.OutdoorShown,
	"readings.boiler.supply": visit.BoilerSupply, "readings.boiler.supply_shown": visit.BoilerShown, "readings.boiler.return": visit.BoilerReturn,
	"readings.boiler.rate": visit.FiringRate, "readings.boiler.run": visit.BurnerRun, "readings.boiler.pause": visit.BurnerPause, "readings.boiler.meter": visit.MeterTime,
	"readings.boiler.flue": visit.FlueGas, "readings.boiler.condensate": visit.Condensate, "readings.boiler.pressure": visit.Pressure,
	"readings.separator.supply": visit.SecondarySupply, "readings.separator.return": visit.SecondaryReturn, "readings.tank_charge": visit.TankCharge,
	"readings.circuits[].wanted": visit.Wanted, "readings.circuits[].supply": visit.Supply, "readings.circuits[].supply_shown": visit.SupplyShown,
	"readings.circuits[].return": visit.Return, "readings.circuits[].pump_head": visit.PumpHead, "readings.boiler.filter_drop": visit.FilterDrop, "readings.circuits[].flow": visit.Flow,
	"readings.rooms[].air": visit.Air, "readings.rooms[].return": visit.BranchReturn, "readings.sensors[].reads": resistance,
}

// readingAt names the reading behind a field of a visit's document, as its photographs name
// it; empty for a field that is none, or whose circuit or room has no name yet.
func readingAt(v *attendance.Visit, spot job.Spot) string {
	measure, known := shownBy[spot.Pattern]
	if !known {
		return ""
	}
	if !strings.Contains(spot.Pattern, "[]") {
		return visit.Reading{Measure: measure}.String()
	}
	entry := spot.Path[:strings.LastIndex(spot.Path, ".")]
	name := ""
	if at, ok := job.WholeOf(v).Find(entry + ".name"); ok {
		name = at.Text()
	}
	switch {
	case name == "":
		return ""
	case measure == visit.Air:
		return visit.Reading{Measure: measure, Room: name}.String()
	case measure == visit.BranchReturn: // of the room, whatever its circuit
		measure = visit.Return
	}
	return visit.Reading{Measure: measure, Circuit: name}.String()
}

// readingPictures are the photographs of one reading, under its field.
type readingPictures struct {
	Name   string // of the reading
	At     string // address of the visit
	Photos []photograph
	Sealed bool
}

// showPhotos puts photographs, and the button that takes one, under every reading of the page.
func (p *page) showPhotos(blocks []*block) {
	for _, b := range blocks {
		for _, list := range [][]field{b.Fields, b.Seldom} {
			for i := range list {
				p.showPhotosOf(&list[i])
			}
		}
		p.showPhotos(b.Blocks)
	}
}

func (p *page) showPhotosOf(f *field) {
	a := p.House.Visit
	spot, ok := job.WholeOf(a.Visit).Find(f.Path)
	if !ok {
		return
	}
	name := readingAt(a.Visit, spot)
	if name == "" {
		return
	}
	f.Pictures = &readingPictures{Name: name, At: a.at(p.House, ""), Sealed: a.Sealed}
	for _, photo := range a.Photos {
		if photo.Reading == name {
			f.Pictures.Photos = append(f.Pictures.Photos, photo)
		}
	}
	if len(f.Pictures.Photos) == 0 && a.Sealed {
		f.Pictures = nil
	}
}

// ofReadings are the readings of the page, for the form without a script.
func (a *attended) ofReadings() []string {
	var names []string
	var collect func(blocks []*block)
	collect = func(blocks []*block) {
		for _, b := range blocks {
			for _, f := range append(append([]field{}, b.Fields...), b.Seldom...) {
				if f.Pictures != nil {
					names = append(names, f.Pictures.Name)
				}
			}
			collect(b.Blocks)
		}
	}
	collect(a.Blocks)
	return names
}

// readingMark stands before a reading where a form names what a photograph belongs to.
const readingMark = "reading "

// belongs tells the step or the reading that a form named. A reading that the visit does not
// have is none.
func (p *page) belongs(to string) attendance.Photo {
	reading, found := strings.CutPrefix(to, readingMark)
	if !found {
		return attendance.Photo{Step: plainName(to)}
	}
	if _, has := p.reading(reading); has {
		return attendance.Photo{Reading: reading}
	}
	return attendance.Photo{}
}

// reading finds the field of a reading.
func (p *page) reading(name string) (job.Spot, bool) {
	for _, spot := range job.WholeOf(p.House.Visit.Visit).All() {
		if name != "" && readingAt(p.House.Visit.Visit, spot) == name {
			return spot, true
		}
	}
	return job.Spot{}, false
}

// anchor is the place on the page to which the browser comes back.
func (p *page) anchor(photo attendance.Photo) string {
	if photo.Reading == "" {
		return "#step-" + idOf(photo.Step)
	}
	if spot, has := p.reading(photo.Reading); has {
		return "#" + field{Path: spot.Path}.ID()
	}
	return ""
}

// readingCaption says which reading a photograph shows, and what was read.
func (p *page) readingCaption(ctx context.Context, photo attendance.Photo) string {
	said := capital(words.Engine(ctx, photo.Reading))
	if spot, has := p.reading(photo.Reading); has {
		if q, _, given := spot.Value(); given {
			return words.Say(ctx, "photos.reading", said, p.quantity(q))
		}
	}
	return said
}
