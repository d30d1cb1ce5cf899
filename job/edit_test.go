package job

import (
	"errors"
	"reflect"
	"strings"
	"testing"
)

func at(t *testing.T, j *Job, path string) Spot {
	t.Helper()
	s, found := At(j, path)
	if !found {
		t.Fatalf("there is no %s", path)
	}
	return s
}

func ridgeHouse(t *testing.T) *Job {
	t.Helper()
	j, err := Read(examples(t)["ridge-house.yaml"])
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func TestTakeKeepsHowAValueIsKnown(t *testing.T) {
	j := ridgeHouse(t)
	s := at(t, j, "house.floor_area")
	if err := s.Take("190 m²"); err != nil {
		t.Fatal(err)
	}
	if got := j.House.FloorArea; got.Value != 190 || got.Text != "190 m²" || got.Known != Measured {
		t.Errorf("%+v", got)
	}
	if err := s.Take(" "); err != nil || j.House.FloorArea.Set || j.House.FloorArea.Known != "" {
		t.Errorf("cleared to %+v, %v", j.House.FloorArea, err)
	}
}

func TestTakeTellsWhereAndWhatIsWrong(t *testing.T) {
	j := ridgeHouse(t)
	var fault Fault
	if err := at(t, j, "rooms[1].area").Take("20"); !errors.As(err, &fault) {
		t.Fatalf("%v", err)
	}
	if fault.Path != "rooms[1].area" || fault.Place != `room 2 "Kitchen" › area` || fault.Given != "20" || !strings.Contains(fault.Accept, "ft²") {
		t.Errorf("%+v", fault)
	}
	for _, path := range []string{"rooms", "rooms[0]", "house"} {
		if err := at(t, j, path).Take("x"); !errors.As(err, &fault) {
			t.Errorf("%s took a text: %v", path, err)
		}
	}
	if !reflect.DeepEqual(j, ridgeHouse(t)) {
		t.Error("a refusal changed the job")
	}
}

func TestACloneSharesNothing(t *testing.T) {
	j := ridgeHouse(t)
	clone := Clone(j)
	if !reflect.DeepEqual(j, clone) {
		t.Fatal("the clone is another job")
	}
	for _, s := range Spots(clone) {
		if s.Kind != ListSpot && s.Kind != GroupSpot {
			s.Put(s.Blank())
		}
	}
	if !reflect.DeepEqual(j, ridgeHouse(t)) {
		t.Error("clearing the clone cleared the job")
	}
}

func TestArrangeIsForLists(t *testing.T) {
	j := ridgeHouse(t)
	s := at(t, j, "site.elevation")
	_, another := s.Another()
	for _, err := range []error{s.Arrange(nil), s.SetTexts(nil), another} {
		if err == nil {
			t.Error("a value was arranged as a list")
		}
	}
	rooms := at(t, j, "rooms")
	if err := rooms.Arrange(nil); err != nil || j.Rooms != nil {
		t.Errorf("%d rooms, %v", len(j.Rooms), err)
	}
}
