package attendance

import (
	"bytes"
	"os"
	"reflect"
	"strings"
	"testing"
)

func ridge(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/ridge.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestAVisitGoesOutAsItCameIn: nothing of a whole visit is lost in writing and reading.
func TestAVisitGoesOutAsItCameIn(t *testing.T) {
	v, err := Read(ridge(t))
	if err != nil {
		t.Fatal(err)
	}
	written, err := Write(v)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Read(written)
	if err != nil {
		t.Fatalf("%v\n%s", err, written)
	}
	if !reflect.DeepEqual(v, again) {
		t.Errorf("changed on its way:\n%s", written)
	}
	if v.Readings.Circuits[1].Return.Text != "95 °F" || !v.Combustion.Monoxide.Set || v.Loops[0].Wanted.Value <= 0 {
		t.Errorf("not all was read: %+v", v)
	}
}

func TestWhatIsRefused(t *testing.T) {
	const good = "curvewright: 1\nvisit: 2026-11-25\nconditions: {outdoor: 20 °F}\n"
	for _, c := range []struct{ add, want string }{
		{"readings: {boiler: {suply: 131 °F}}", "did you mean"},
		{"readings: {boiler: {supply: 131}}", "unit"},
		{"readings: {boiler: {supply: 400 °F}}", "boiler › supply"},
		{"readings: {circuits: [{name: A}, {name: A}]}", "twice"},
		{"combustion: {co: 30 ppm}", "neither oxygen nor co2"},
		{"corrects: yesterday", "2026-11-25"},
		{"corrects: 2026-11-20\nreason: service", "correction"},
		{"entered: [{line: cut-off, as: otherwise}]", "not what"},
		{"checks: [{step: air, done: perhaps}]", "does not apply"},
	} {
		_, err := Read([]byte(good + c.add))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want a sentence with %q", c.add, err, c.want)
		}
		if err != nil && strings.Contains(err.Error(), "in the job") {
			t.Errorf("%s: speaks of a job: %v", c.add, err)
		}
	}
	if _, err := Read([]byte(strings.Replace(good, "{outdoor: 20 °F}", "{outdoor: 20 °F, state: fresh}", 1))); err == nil || !strings.Contains(err.Error(), "since") {
		t.Errorf("fresh without since: %v", err)
	}
}

// TestASignedVisitNoLongerChanges: the seal breaks with any letter, and a second one is
// refused.
func TestASignedVisitNoLongerChanges(t *testing.T) {
	v, err := Read(ridge(t))
	if err != nil {
		t.Fatal(err)
	}
	sealed, err := v.Seal("0.1.0", []byte("the job"))
	if err != nil {
		t.Fatal(err)
	}
	text, err := Write(&sealed)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Read(text)
	if err != nil || !again.Intact() {
		t.Fatalf("a sealed visit is not intact after reading: %v", err)
	}
	if again.Against != Fingerprint([]byte("the job")) || again.Engine != "0.1.0" {
		t.Errorf("judged against %q by %q", again.Against, again.Engine)
	}
	again.Notes += "."
	if again.Intact() {
		t.Error("a changed visit passes for intact")
	}
	if _, err := sealed.Seal("0.1.0", nil); err == nil || !strings.Contains(err.Error(), "correction") {
		t.Errorf("sealed twice: %v", err)
	}
	v.Signatures = nil
	if _, err := v.Seal("0.1.0", nil); err == nil || v.Intact() {
		t.Error("sealed without a signature")
	}
}

func FuzzRead(f *testing.F) {
	f.Add(ridge(f))
	f.Fuzz(func(t *testing.T, data []byte) {
		v, err := Read(data)
		if err != nil {
			if v != nil || err.Error() == "" {
				t.Fatalf("visit %v with error %v", v, err)
			}
			return
		}
		written, err := Write(v)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Read(written)
		if err != nil {
			t.Fatalf("%v\n%s", err, written)
		}
		twice, err := Write(again)
		if err != nil || !bytes.Equal(written, twice) {
			t.Fatalf("written differently the second time: %v\n%s\n%s", err, written, twice)
		}
	})
}
