package job

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"
)

// Whatever comes in, reading does not fall over; it gives a job or faults, never
// both; and a job that was read goes out and in again unchanged.
func FuzzRead(f *testing.F) {
	seeds, err := os.ReadDir("testdata/fuzz/FuzzRead")
	if err != nil || len(seeds) == 0 {
		f.Fatalf("no seeds: %v", err)
	}
	for _, data := range examples(f) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := Read(data)
		if err != nil {
			var faults *Faults
			if j != nil || !errors.As(err, &faults) || len(faults.List) == 0 || err.Error() == "" {
				t.Fatalf("job %v with error %v", j, err)
			}
			return
		}
		written, err := Write(j)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Read(written)
		if err != nil {
			t.Fatalf("%v\n%s", err, written)
		}
		if !reflect.DeepEqual(j, again) {
			t.Fatalf("changed on its way:\n%s", written)
		}
		twice, err := Write(again)
		if err != nil || !bytes.Equal(written, twice) {
			t.Fatalf("written differently the second time: %v\n%s\n%s", err, written, twice)
		}
	})
}

// house12 is a house of twelve rooms on three circuits.
func house12(t testing.TB) []byte {
	ridge := string(examples(t)["ridge-house.yaml"])
	ridge = strings.Replace(ridge, "\ncircuits:\n", `
  - name: Workshop
    area: 200 ft²
    elements:
      - {name: walls, area: 240 ft², construction: Old wall}
      - {name: windows, area: 30 ft², u: U-0.50}
    emitters:
      - circuit: Workshop
        fan_coil: {output: "12,000 Btu/h", entering_water: 140 °F, entering_air: 65 °F, water_flow: 2 gpm, air_flow: 300 cfm}

circuits:
  - {name: Workshop, kind: direct, drop: 20 °F}
`, 1)
	j, err := Read([]byte(ridge))
	if err != nil {
		t.Fatal(err)
	}
	if len(j.Rooms) != 12 || len(j.Circuits) != 3 {
		t.Fatal(fmt.Sprint(len(j.Rooms), " rooms, ", len(j.Circuits), " circuits"))
	}
	return []byte(ridge)
}

func BenchmarkRead(b *testing.B) {
	data := house12(b)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Read(data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	j, err := Read(house12(b))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Write(j); err != nil {
			b.Fatal(err)
		}
	}
}
