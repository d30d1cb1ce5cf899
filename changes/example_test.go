package changes_test

import (
	"fmt"

	"curvewright/changes"
	"curvewright/examples"
	"curvewright/job"
)

// Two people work on the survey of one house at the same time.
func ExampleMerge() {
	base, err := job.Read([]byte(examples.List()[0].Document))
	if err != nil {
		fmt.Println(err)
		return
	}
	ours, theirs := job.Clone(base), job.Clone(base)
	for _, edit := range []struct {
		j          *job.Job
		path, text string
	}{
		{ours, "site.design_outdoor", "-4 °F"},
		{ours, "hot_water.setpoint", "60 °C"},
		{theirs, "site.design_outdoor", "-20 °C"},
		{theirs, "circuits[0].name", "Upstairs"},
	} {
		if err := changes.Set(edit.j, edit.path, edit.text); err != nil {
			fmt.Println(err)
			return
		}
	}
	merged, conflicts := changes.Merge(base, ours, theirs)
	fmt.Println(changes.Sentence(changes.Between(base, merged)))
	for _, c := range conflicts {
		fmt.Printf("%s was %s: %s or %s?\n", c.Label, c.Base, c.Ours, c.Theirs)
	}
	// Output:
	// Site: design outdoor −6 °F → −4 °F; circuit "Baseboards" renamed to "Upstairs"; hot water: setpoint 140 °F → 60 °C
	// site: design outdoor was −6 °F: −4 °F or −20 °C?
}
