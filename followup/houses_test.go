package followup

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"sync"
	"testing"

	"curvewright/units"
)

var (
	houses     = flag.Int("houses", 8, "how many houses of known truth are played")
	firstHouse = flag.Uint64("seed", 0, "number of the first of them; 0 begins with the houses that the methods were made on")
	writeTable = flag.Bool("table", false, "write the table of the houses into docs/followup.md")
)

// tally counts how often intervals hold the truth.
type tally struct {
	name               string
	known, held, asked int
	off                []float64 // shares of the truth; for temperatures K
	absolute           bool
}

func (t *tally) add(known bool, low, value, high, truth float64) {
	t.asked++
	if !known {
		return
	}
	t.known++
	if low <= truth && truth <= high {
		t.held++
	}
	off := math.Abs(value - truth)
	if !t.absolute {
		off /= math.Abs(truth)
	}
	t.off = append(t.off, off)
}

func (t *tally) line() string {
	off := fmt.Sprintf("%.1f %%", 100*median(append([]float64{}, t.off...)))
	if t.absolute {
		off = fmt.Sprintf("%.1f K", median(append([]float64{}, t.off...)))
	}
	return fmt.Sprintf("| %s | %d of %d | %.0f %% | %s |", t.name, t.known, t.asked, 100*float64(t.held)/float64(max(1, t.known)), off)
}

func check[T Quantity](t *tally, e Estimate[T], truth float64) {
	t.add(e.Known, float64(e.Low), float64(e.Value), float64(e.High), truth)
}

// Houses of known truth, seen for some weeks of winter by a logger with noise, offsets
// and gaps: what is found, and whether the interval holds it.
func TestHousesOfKnownTruth(t *testing.T) {
	loss := &tally{name: "heat loss, four winter weeks, heat meter"}
	sunny := &tally{name: "heat loss, six weeks, sun and tank logged"}
	slope := &tally{name: "slope of the curve, four weeks"}
	cold := &tally{name: "supply at −5 °C, four weeks", absolute: true}
	starts := &tally{name: "starts a day, four weeks of five-minute rows"}
	inertia := &tally{name: "heat loss by the model of inertia, six weeks, sun and tank logged"}
	constant := &tally{name: "time constant, the same"}
	var guard sync.Mutex
	var wait sync.WaitGroup
	next := make(chan uint64)
	one := func(seed uint64) {
		four := play(t, seed, wish{days: 28, first: -1})
		six := play(t, seed+1000, wish{days: 42, first: -1, sun: true, tank: true})
		p, q := planOf(t, four.job), planOf(t, six.job)
		f := newFrame(take(t, four.csv), householdOf(p, four.job))
		g := newFrame(take(t, six.csv), householdOf(q, six.job))
		room := p.Sheet.Circuits[0].Setpoint
		c := readCurve(f, room, "", p.Differential)
		cycles := readCycles(f, units.Celsius(55))
		th, err := thermal(t.Context(), g)
		if err != nil {
			t.Error(err)
		}
		guard.Lock()
		defer guard.Unlock()
		check(loss, signature(f, float64(room)).Loss, four.truth.loss)
		check(sunny, signature(g, float64(q.Sheet.Circuits[0].Setpoint)).Loss, six.truth.loss)
		check(slope, c.Slope, four.truth.slope)
		at := unknown[units.Temperature]("")
		if c.Slope.Known {
			at = c.lineAt(zero - 5)
		}
		check(cold, at, four.truth.cold)
		check(starts, cycles.StartsPerDay, four.truth.starts)
		check(inertia, th.Loss, six.truth.loss)
		check(constant, th.Constant, coolsIn(six.truth.house))
	}
	for range 2 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for seed := range next {
				one(seed)
			}
		}()
	}
	for seed := range uint64(*houses) {
		next <- *firstHouse + seed
	}
	close(next)
	wait.Wait()
	var lines []string
	for _, x := range []*tally{loss, sunny, slope, cold, starts, inertia, constant} {
		lines = append(lines, x.line())
		t.Log(x.line())
	}
	if m := median(append([]float64{}, loss.off...)); m > 0.10 {
		t.Errorf("the heat loss is off by %.1f %% in the median", 100*m)
	}
	for _, x := range []*tally{loss, sunny, slope, cold} {
		if x.known*3 < x.asked*2 {
			t.Errorf("%s: told in %d of %d houses only", x.name, x.known, x.asked)
		}
		if float64(x.held) < 0.7*float64(x.known) {
			t.Errorf("%s: %d of %d intervals hold the truth", x.name, x.held, x.known)
		}
	}
	if *writeTable {
		which := "houses"
		if *firstHouse > 0 {
			which = "other houses"
		}
		writeInto(t, "../docs/followup.md", which, strings.Join(lines, "\n"))
	}
}

// writeInto replaces what stands between the marks of a page.
func writeInto(t *testing.T, page, which, table string) {
	t.Helper()
	data, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	begin, end := "<!-- "+which+" -->\n", "<!-- end of "+which+" -->"
	before, rest, ok := strings.Cut(string(data), begin)
	_, after, ok2 := strings.Cut(rest, end)
	if !ok || !ok2 {
		t.Fatalf("%s has no marks %q and %q", page, begin, end)
	}
	head := "| what | told for | intervals that hold the truth | off, in the median |\n|---|---|---|---|\n"
	if err := os.WriteFile(page, []byte(before+begin+head+table+"\n"+end+after), 0o644); err != nil {
		t.Fatal(err)
	}
}
