package job_test

import (
	"fmt"

	"curvewright/job"
)

func ExampleRead() {
	house, err := job.Read([]byte(`
curvewright: 1
job: Quillon house
site: {design_outdoor: -6 °F}
house:
  floor_area: {value: "1,850 ft²", known: drawings}
  era: 1946-1979
circuits:
  - name: Baseboards
    emitters:
      - fin_tube: {length: 118 ft}
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	area := house.House.FloorArea
	fmt.Printf("%s: %.1f m², known from %s, written as %s\n", house.Name, float64(area.Value), area.How(), area.Text)
	// Output: Quillon house: 171.9 m², known from drawings, written as 1,850 ft²
}

func ExampleRead_refused() {
	_, err := job.Read([]byte(`
curvewright: 1
job: Quillon house
site: {design_outdoor: -6}
house: {floor_area: 172 m², era: 1946-1979}
circuits:
  - name: Baseboards
    emitters:
      - fin_tube: {lenght: 118 ft}
`))
	fmt.Println(err)
	// Output:
	// 2 things to put right in the job
	// line 4: site › design_outdoor: "-6" has no unit for a temperature; accepted: 70 °F, 21.1 °C, 294 K
	//     4 | site: {design_outdoor: -6}
	// line 9: circuit 1 "Baseboards" › emitter 1 › fin_tube › lenght: "lenght" is not a field here; accepted: length, output, at, rated_flow, heating_effect, air_at_floor; did you mean "length"?
	//     9 |       - fin_tube: {lenght: 118 ft}
}
