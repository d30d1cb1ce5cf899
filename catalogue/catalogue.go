// Package catalogue holds what is usual: walls, roofs, floors and windows as they were built,
// and emitters as they are sold everywhere, for an installer to begin from. Nothing in
// it is a maker's product. A figure of the house itself, or of a data sheet, is better.
package catalogue

import (
	"errors"
	"fmt"

	"curvewright/job"
	"curvewright/refuse"
	"curvewright/units"
)

// Group is a heading under which entries are offered.
type Group string

// The groups, constructions first.
const (
	Walls   Group = "walls"
	Roofs   Group = "roofs"
	Floors  Group = "floors"
	Windows Group = "windows"

	FinTubes  Group = "fin-tubes"
	CastIron  Group = "cast-iron"
	Panels    Group = "panels"
	TowelRail Group = "towel-rails"
	Heated    Group = "heated-floors"
)

// ConstructionGroups and EmitterGroups are the groups in the order in which they are
// offered.
var (
	ConstructionGroups = []Group{Walls, Roofs, Floors, Windows}
	EmitterGroups      = []Group{FinTubes, CastIron, Panels, TowelRail, Heated}
)

// Measure is what has to be known of an emitter besides its entry.
type Measure string

// The measures of an emitter.
const (
	ByPiece   Measure = "piece"   // how many alike; one if nothing is said
	ByLength  Measure = "length"  // finned length, length of a panel
	BySection Measure = "section" // number of sections
	ByArea    Measure = "area"    // heated floor
)

// Entry is one construction or one emitter.
type Entry struct {
	ID      string // of the entry, the same in every version and language
	Kind    string // of its name: entries that differ in their figures only share one
	Figures []any  // in that name
	Group   Group
	Source  string // where its figures come from: the ID of a remark

	Construction *job.Construction // its name and those of its materials are IDs too
	Emitter      *job.Emitter      // for the measure 1: a metre, a section, a piece
	Measure      Measure
}

// The sources of the entries, by the IDs that [Entry.Source] holds.
const (
	FromLayers   = "layers"     // computed from layers by ISO 6946; conductivities after ISO 10456, from memory
	UsualWindow  = "window"     // typical value, common practice; ISO 10077-1 gives that of one window
	UsualFin     = "fin-tube"   // typical rating, common practice; the data sheet has its own
	EDRTable     = "edr"        // handbook tables of cast-iron radiators, from memory
	UsualPanel   = "panel"      // typical output by EN 442, from memory; the data sheet has its own
	UsualRail    = "towel-rail" // typical output by EN 442, common practice
	UsualHeating = "floor"      // usual dimensions, common practice; output by EN 1264
)

// List gives all entries, those of a group together.
//
// Range: entries for a survey before anything better is known.
// Source: each entry names its own.
func List() []Entry { return append(constructions(), emitters()...) }

// Find gives the entry of an ID.
//
// Range: the IDs of [List].
// Source: each entry names its own.
func Find(id string) (Entry, bool) {
	for _, e := range List() {
		if e.ID == id {
			return e, true
		}
	}
	return Entry{}, false
}

// Size is how much there is of an emitter; what its measure does not ask for is left out.
type Size struct {
	Length units.Length
	Area   units.Area
	Pieces int // sections, or emitters alike
}

// errors of a size that is missing
var (
	errNoLength   = errors.New("it is not said how long it is; accepted: a length such as 1.2 m or 4 ft")
	errNoArea     = errors.New("it is not said how large it is; accepted: an area such as 12 m² or 130 ft²")
	errNoSections = errors.New("it is not said how many sections it has; accepted: a whole number such as 8")
)

// Sized makes an emitter of an entry for a survey: the entry's figures times its length, or
// its number of sections.
//
//	output = output per metre · length; EDR = EDR of a section · sections
//
// Range: lengths from 0.1 to 60 m, areas from 0.2 to 500 m², 1 to 100 sections or pieces.
// Source: the entry's own; outputs in proportion to length are common practice.
// Errors: an entry that is no emitter; a size that is missing or outside the range.
func (e Entry) Sized(s Size) (job.Emitter, error) {
	if e.Emitter == nil {
		return job.Emitter{}, errors.New("this entry of the library is no emitter")
	}
	if s.Pieces < 0 || s.Pieces > 100 {
		return job.Emitter{}, fmt.Errorf("%d of them cannot be meant; accepted: 1 to 100", s.Pieces)
	}
	made := *e.Emitter
	switch e.Measure {
	case ByLength:
		if s.Length == 0 {
			return job.Emitter{}, errNoLength
		}
		if err := refuse.Within("its length", s.Length, 0.1, 60); err != nil {
			return job.Emitter{}, err
		}
		if made.FinTube != nil {
			fins := *made.FinTube
			fins.Length = job.Given[units.Length]{Value: s.Length, Set: true}
			made.FinTube = &fins
		}
		if made.Radiator != nil && made.Radiator.PerLength.Set {
			panel := *made.Radiator
			panel.Length = job.Given[units.Length]{Value: s.Length, Set: true}
			made.Radiator = &panel
		} else if made.Radiator != nil {
			panel := *made.Radiator
			panel.Output = job.Says(units.Power(float64(panel.Output.Value)*float64(s.Length)), job.Estimated)
			made.Radiator = &panel
		}
	case ByArea:
		if s.Area == 0 {
			return job.Emitter{}, errNoArea
		}
		if err := refuse.Within("its area", s.Area, 0.2, 500); err != nil {
			return job.Emitter{}, err
		}
		floor := *made.Floor
		floor.Area = job.Given[units.Area]{Value: s.Area, Set: true}
		made.Floor = &floor
	case BySection:
		if s.Pieces == 0 {
			return job.Emitter{}, errNoSections
		}
		if made.Radiator != nil {
			column := *made.Radiator
			column.Sections = s.Pieces
			made.Radiator = &column
			break
		}
		made.CastIron = &job.CastIron{EDR: job.Says(units.RadiatorArea(float64(made.CastIron.EDR.Value)*float64(s.Pieces)), job.Estimated)}
	case ByPiece:
		if s.Pieces > 1 {
			made.Count = s.Pieces
		}
	}
	return made, nil
}

// MeasureOf is what has to be known of an emitter that an installer keeps: the length of
// fin-tube and of a radiator rated per length, the sections of one rated per section, the
// area of a floor, how many of anything else.
//
// Range: any emitter.
// Source: common practice.
func MeasureOf(e job.Emitter) Measure {
	switch {
	case e.FinTube != nil, e.Radiator != nil && e.Radiator.PerLength.Set:
		return ByLength
	case e.Radiator != nil && e.Radiator.PerSection.Set:
		return BySection
	case e.Floor != nil:
		return ByArea
	}
	return ByPiece
}
