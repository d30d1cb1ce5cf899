package proof

import (
	"fmt"

	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// Plausible houses for which the trade has figures of its own. They are documents as
// an installer would write them, solved the whole way.

// baseboardHouse is a house of 40,000 Btu/h at 14 °F with a length of fin-tube.
const baseboardHouse = `curvewright: 1
job: Baseboard house
display: us
site:
  design_outdoor: 14 °F
  annual_mean: 48 °F
house:
  floor_area: 1,800 ft²
  load: 40,000 Btu/h
  setpoint: 70 °F
  gains: 0 Btu/h
circuits:
  - name: Baseboards
    drop: 20 °F
    emitters:
      - fin_tube:
          length: %s
          output: 560 Btu/h·ft
          at: 180 °F
          rated_flow: 4 gpm
          heating_effect: %s
control:
  scale: fahrenheit
  max_supply: 220 °F
  curve: {bent: {}}
`

// slabHouse is a house on one slab, with tube at 9 in and 3 in of concrete over it.
const slabHouse = `curvewright: 1
job: Slab house
display: us
site:
  design_outdoor: 14 °F
  annual_mean: 48 °F
house:
  floor_area: 1,600 ft²
  load: %s
  setpoint: 70 °F
  gains: 0 Btu/h
circuits:
  - name: Slab
    kind: mixed
    drop: 10 °F
    emitters:
      - floor:
          construction: wet slab
          area: 1,400 ft²
          spacing: 9 in
          tube: 5/8 in
          tube_wall: 0.083 in
          cover: 3 in
          conductivity: 1.4 W/mK
          covering: R-0.5
          covering_kind: tile
          insulation_below: R-10
control:
  scale: fahrenheit
  curve: {two_points: {}}
`

// solvedHouse solves a document without sampling.
func solvedHouse(document string) (*settings.Sheet, error) {
	j, err := job.Read([]byte(document))
	if err != nil {
		return nil, err
	}
	return settings.Solve(j, settings.Options{System: units.US})
}

func designSupply(document string) func() (float64, error) {
	return func() (float64, error) {
		s, err := solvedHouse(document)
		if err != nil {
			return 0, err
		}
		return s.Circuits[0].Points[0].Ideal.Fahrenheit(), nil
	}
}

func houseRows() []Row {
	return []Row{
		{ID: "house-baseboard-167", Subject: "Whole houses",
			What: "supply at 14 °F of a baseboard house of 40,000 Btu/h whose 112 ft were sized for 167 °F supply and 20 °F drop: a rating of 560 Btu/h·ft at 180 °F, less its 15 % allowance, times 0.505/0.69 for 157 °F average water",
			Ours: designSupply(fmt.Sprintf(baseboardHouse, "112 ft", "included")), Published: 167, Unit: "°F", Abs: 2,
			Source:   "usual setting of high-temperature emitters, 167 °F at 14 °F; factors of the published fin-tube table, from memory",
			Standing: CommonPractice, Note: "the sizing uses the table, ours the output law"},
		{ID: "house-baseboard-190", Subject: "Whole houses",
			What: "supply of the same house with the 71.4 ft that the 180 °F column asks for, if the rating holds no allowance",
			Ours: designSupply(fmt.Sprintf(baseboardHouse, "71.4 ft", "not included")), Published: 190, Unit: "°F", Abs: 2,
			Source: "sizing by the 180 °F average-water column: 190 °F supply with 20 °F drop", Standing: CommonPractice,
			Note: "if the rating holds its 15 % allowance, such a house needs more than 200 °F on that day: the commonest reason for cold baseboard houses"},
		{ID: "house-slab-113", Subject: "Whole houses",
			What: "supply at 14 °F of a slab house of 20 Btu/h·ft² heated floor, tube at 9 in, 3 in over it, tile",
			Ours: designSupply(fmt.Sprintf(slabHouse, "28,000 Btu/h")), Published: 113, Unit: "°F", Abs: 8,
			Source: "usual setting of heated slabs, 113 °F at 14 °F", Standing: CommonPractice,
			Note: "closer tube or a smaller load needs less, a covering of carpet more; the preset fits this house"},
		{ID: "house-slab-limit", Subject: "Whole houses",
			What: "highest supply set for a slab house of 37 Btu/h·ft², which would need far more",
			Ours: func() (float64, error) {
				s, err := solvedHouse(fmt.Sprintf(slabHouse, "52,000 Btu/h"))
				if err != nil {
					return 0, err
				}
				return s.Circuits[0].Points[0].Set.Fahrenheit(), nil
			}, Published: 124, Unit: "°F", Abs: 6,
			Source: "slab supply preset near 118 °F and kept below 130 °F to spare the concrete", Standing: CommonPractice,
			Note: "the sheet says that the house falls short and by how much"},
	}
}
