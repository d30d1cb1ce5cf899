package job

import (
	"strings"
	"testing"
)

const taught = small + `learned: {from: winter.csv, until: 2027-02-14, loss: 1.12, loss_doubt: 5 %, emitters: [{circuit: House, factor: 0.94, doubt: 8 %}]}
`

func TestWhatWasLearnedIsChecked(t *testing.T) {
	read := func(text string) *Job {
		t.Helper()
		j, err := Read([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return j
	}
	name := read(small).Circuits[0].Name
	good := strings.Replace(taught, "circuit: House", "circuit: "+name, 1)
	j := read(good)
	if j.Learned == nil || j.Learned.Loss.Value != 1.12 || len(j.Learned.Emitters) != 1 {
		t.Fatalf("%+v", j.Learned)
	}
	for _, c := range []struct{ old, new, want string }{
		{"loss: 1.12", "loss: 9", "cannot be the same house"},
		{"factor: 0.94", "factor: 0.1", "cannot be the same house"},
		{"2027-02-14", "soon", "is not a day"},
		{"circuit: " + name, "circuit: Attic", "is not the name of a circuit"},
		{", doubt: 8 %}", ", doubt: 8 %}, {circuit: " + name + ", factor: 1, doubt: 8 %}", "has its factor already"},
		{"loss_doubt: 5 %", "loss_doubt: 0 %", "is not more than zero"},
	} {
		if _, err := Read([]byte(strings.Replace(good, c.old, c.new, 1))); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.new, err, c.want)
		}
	}
}
