package report

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"curvewright/settings"
	"curvewright/units"
	"curvewright/year"
)

// yearFixture is a made-up year on the made-up house: a wave over the year and one over
// the day, supplies that swing about their curves, rooms near their set-points.
func yearFixture(sheet *settings.Sheet) (year.Result, year.Trace) {
	var h year.House
	var p year.Plant
	r := year.Result{Settings: "the sheet", Starts: 0, WorstDay: 16}
	for _, ct := range sheet.Circuits {
		p.Circuits = append(p.Circuits, year.Circuit{Name: ct.Name})
		r.Circuits = append(r.Circuits, year.CircuitResult{Name: ct.Name})
		for _, room := range ct.Rooms {
			h.Rooms = append(h.Rooms, year.Room{Name: room.Name, Set: room.Setpoint})
			r.Rooms = append(r.Rooms, year.RoomResult{Name: room.Name})
		}
	}
	columns := year.Columns(h, p)
	fill := func(every units.Time, rows int, from float64) year.Trace {
		t := year.Trace{Every: every, Columns: columns, Rows: rows, Values: make([]float64, rows*len(columns))}
		for row := range rows {
			hour := from + float64(row+1)*float64(every)/3600
			out := 46 - 33*math.Cos(2*math.Pi*(hour/8760-0.05)) - 8*math.Cos(2*math.Pi*(hour-3)/24) + 5*math.Sin(hour/37)
			v := t.Values[row*len(columns) : (row+1)*len(columns)]
			v[0] = float64(units.Fahrenheit(out))
			for i, ct := range sheet.Circuits {
				share := max(0, (62.5-out)/57.5)
				mild, cold := ct.Points[len(ct.Points)-1].Set, ct.Points[0].Set
				set := float64(mild) + float64(cold-mild)*share
				v[4+3*i], v[5+3*i] = set, set+2*math.Sin(hour*5.3)
				v[6+3*i] = v[5+3*i] - 10*share
			}
			for i, room := range h.Rooms {
				v[len(columns)-len(h.Rooms)+i] = float64(room.Set) + math.Sin(hour/4+float64(i)) - 0.3*float64(i%3)
			}
		}
		return t
	}
	r.Worst = fill(300, 288, 16*24)
	for day := range 365 {
		n := int(max(0, 20+18*math.Cos(2*math.Pi*float64(day-20)/365)+4*math.Sin(float64(day))-9))
		r.StartsPerDay = append(r.StartsPerDay, n)
		r.Starts += n
	}
	return r, fill(3600, 8760, 0)
}

func yearCharts(sheet *settings.Sheet, r year.Result, t year.Trace, width, height float64) map[string]string {
	return map[string]string{
		"curve":  YearCurveSVG(sheet, 0, t, width, height),
		"day":    YearDaySVG(sheet, r, width, height+80),
		"starts": YearStartsSVG(r, width, height*0.7),
	}
}

func TestYearChartsAreWhatWasAgreed(t *testing.T) {
	us, si := fixture(units.US), fixture(units.SI)
	r, trace := yearFixture(us)
	for name, svg := range yearCharts(us, r, trace, 340, 300) {
		golden(t, "year-"+name+"-phone.svg", svg)
	}
	for name, svg := range yearCharts(us, r, trace, 720, 390) {
		golden(t, "year-"+name+"-wide.svg", svg)
	}
	golden(t, "year-curve-slab-celsius-wide.svg", YearCurveSVG(si, 1, trace, 720, 390))
	golden(t, "year-day-celsius-wide.svg", YearDaySVG(si, r, 720, 470))
}

func TestYearChartsAreWellFormedForAnyNameAndSize(t *testing.T) {
	sheet := fixture(units.US)
	sheet.Circuits[0].Name = `<script>"&' ` + "\x00\xff\ufffe"
	sheet.Circuits[0].Rooms[0].Name = `</text><script>alert(1)</script>`
	r, trace := yearFixture(sheet)
	broken := trace
	broken.Values = append([]float64{}, trace.Values...)
	for i := range broken.Values {
		if i%3 == 0 {
			broken.Values[i] = math.NaN()
		}
	}
	ill := r
	ill.Worst.Values = append([]float64{}, r.Worst.Values...)
	for i := range ill.Worst.Values {
		ill.Worst.Values[i] = math.Inf(1)
	}
	for _, size := range [][2]float64{{340, 300}, {0, 0}, {math.NaN(), math.Inf(1)}, {1e9, -4}} {
		for k, charts := range []map[string]string{yearCharts(sheet, r, trace, size[0], size[1]), yearCharts(sheet, ill, broken, size[0], size[1])} {
			for name, svg := range charts {
				d := xml.NewDecoder(strings.NewReader(svg))
				for {
					tok, err := d.Token()
					if err == io.EOF {
						break
					}
					if err != nil {
						t.Fatalf("%s, size %v: %v", name, size, err)
					}
					if e, ok := tok.(xml.StartElement); ok && (e.Name.Local == "script" || e.Name.Local == "style") {
						t.Errorf("%s, size %v: the chart has a <%s>", name, size, e.Name.Local)
					}
				}
				if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
					t.Errorf("%s, size %v, %d: a coordinate is no number", name, size, k)
				}
			}
		}
	}
}

func TestAYearsScatterIsThinnedOverAllHoursOfTheDay(t *testing.T) {
	sheet := fixture(units.US)
	_, trace := yearFixture(sheet)
	for _, every := range []int{1, 2, 4, 6} {
		some := year.Trace{Every: trace.Every, Columns: trace.Columns, Rows: trace.Rows / every, Values: trace.Values}
		svg := YearCurveSVG(sheet, 0, some, 340, 300)
		marks := regexp.MustCompile(`M[0-9.]+ [0-9.]+h0`).FindAllString(svg, -1)
		if len(marks) > mostMarks || len(marks) < 100 {
			t.Errorf("%d rows: %d marks", some.Rows, len(marks))
		}
	}
	// Hours that differ by their place in the day are all there.
	for row := range trace.Rows {
		trace.Values[row*len(trace.Columns)] = float64(units.Celsius(float64(row % 24)))
	}
	seen := map[string]bool{}
	for _, m := range heatedHours(trace, sheet.Circuits[0].Name) {
		seen[fmt.Sprintf("%.0f", m.outdoor.Celsius())] = true
	}
	if len(seen) != 24 {
		t.Errorf("%d hours of the day have marks, want 24", len(seen))
	}
}

func TestYearChartsWithoutDataSaySo(t *testing.T) {
	sheet := fixture(units.US)
	r, trace := yearFixture(sheet)
	resting := year.Trace{Columns: trace.Columns, Rows: 24, Values: make([]float64, 24*len(trace.Columns))}
	for i := range resting.Values {
		resting.Values[i] = 300
	}
	for what, c := range map[string]struct{ svg, says string }{
		"no sheet":             {YearCurveSVG(nil, 0, trace, 340, 300), "No curve for this circuit"},
		"no circuit":           {YearCurveSVG(sheet, 9, trace, 340, 300), "No curve for this circuit"},
		"no trace":             {YearCurveSVG(sheet, 0, year.Trace{}, 340, 300), "This circuit gave no heat in the year"},
		"a circuit that rests": {YearCurveSVG(sheet, 0, resting, 340, 300), "This circuit gave no heat in the year"},
		"no sheet for a day":   {YearDaySVG(nil, r, 340, 300), "No day to show"},
		"no day":               {YearDaySVG(sheet, year.Result{}, 340, 300), "No day to show"},
		"no start":             {YearStartsSVG(year.Result{StartsPerDay: make([]int, 365)}, 340, 300), "The burner never started"},
		"no days":              {YearStartsSVG(year.Result{}, 340, 300), "The burner never started"},
	} {
		if !strings.Contains(c.svg, c.says) {
			t.Errorf("%s: the image does not say %q", what, c.says)
		}
	}
}

func TestDaysOfAYearHaveTheirNames(t *testing.T) {
	for _, c := range []struct {
		days, day int
		want      string
	}{{365, 0, "January 1"}, {365, 58, "February 28"}, {365, 59, "March 1"}, {366, 59, "February 29"}, {365, 364, "December 31"}, {366, 365, "December 31"}} {
		if got := YearDay(year.Result{StartsPerDay: make([]int, c.days)}, c.day); got != c.want {
			t.Errorf("day %d of %d: %s, want %s", c.day, c.days, got, c.want)
		}
	}
}
