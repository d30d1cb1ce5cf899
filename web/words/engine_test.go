package words

import (
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
)

// told is one text of a sheet, with the field that holds it.
type told struct{ field, text string }

// unspoken are fields that hold no sentence of the engine: names that somebody gave,
// names for programs, symbols and formulas, and the names of standards.
var unspoken = []string{"ID", "Job", "Place", "Surveyed", "By", "Room", "Circuit", "Symbol", "Formula", "Source", "Severity", "Name", "Part"}

// spokenNames are such fields that hold words of the engine all the same.
var spokenNames = []string{"Step.Name", "Load.Source", "RoomLoad.Source"}

// texts lists what a sheet says, but for the names that somebody gave.
func texts(s *settings.Sheet) []told {
	var all []told
	given := map[string]bool{}
	for _, c := range s.Circuits {
		given[c.Name] = true
		for _, r := range c.Rooms {
			given[r.Name] = true
		}
	}
	for _, r := range s.Load.Rooms {
		given[r.Name] = true
	}
	var walk func(field string, v reflect.Value)
	walk = func(field string, v reflect.Value) {
		switch v.Kind() {
		case reflect.String:
			if v.String() != "" && (!given[v.String()] || v.String() == "the house") {
				all = append(all, told{field, v.String()})
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(field, v.Index(i))
			}
		case reflect.Struct:
			for i := range v.NumField() {
				f := v.Type().Field(i)
				name := v.Type().Name() + "." + f.Name
				if f.IsExported() && (!slices.Contains(unspoken, f.Name) || slices.Contains(spokenNames, name)) {
					walk(name, v.Field(i))
				}
			}
		}
	}
	walk("", reflect.ValueOf(*s))
	return all
}

func sheetOf(t testing.TB, document string, s units.System) *settings.Sheet {
	t.Helper()
	j, err := job.Read([]byte(document))
	if err != nil {
		return nil // the change does not fit this example
	}
	sheet, err := settings.Solve(j, settings.Options{System: s, Samples: 20, Seed: 1})
	if err != nil {
		return nil
	}
	return sheet
}

// english are words that no other of the languages has.
var english = regexp.MustCompile(`\b(the|and|with|which|below|outdoors|from|needs)\b|%[svd]`)

// A sheet that is half in English is worse to read than one that is in English whole.
func TestTheSheetsOfTheExamplesAreSaidInEveryLanguage(t *testing.T) {
	for _, e := range examples.List() {
		for _, system := range []units.System{units.US, units.SI} {
			sheet := sheetOf(t, e.Document, system)
			if sheet == nil {
				t.Fatalf("%s cannot be solved", e.Name)
			}
			for _, l := range []Language{French, Spanish, German} {
				unknown := map[string]bool{}
				for _, told := range texts(sheet) {
					if said, ok := l.Understand(told.text); !ok && !unknown[told.text] {
						unknown[told.text] = true
						t.Errorf("%s: %s is not known in %s: %q", e.Name, told.field, l.Name(), told.text)
					} else if english.MatchString(said) {
						t.Errorf("%s: %q is half said in %s: %q", e.Name, told.text, l.Name(), said)
					}
				}
			}
		}
	}
}

// Houses like the examples, each with one thing otherwise, say what the examples do not.
func TestSheetsOfOtherHousesAreMostlySaid(t *testing.T) {
	all, unknown := map[told]bool{}, map[told]bool{}
	sheets := 0
	for _, document := range variants(t) {
		for _, system := range []units.System{units.US, units.SI} {
			sheet := sheetOf(t, document, system)
			if sheet == nil {
				continue
			}
			sheets++
			for _, told := range texts(sheet) {
				all[told] = true
				if _, ok := German.Understand(told.text); !ok {
					unknown[told] = true
				}
			}
		}
	}
	byField := map[string][2]int{}
	for told := range all {
		n := byField[told.field]
		n[0]++
		if unknown[told] {
			n[1]++
			t.Logf("not known: %s: %q", told.field, told.text)
		}
		byField[told.field] = n
	}
	for field, n := range byField {
		if n[1] > 0 {
			t.Logf("%s: %d of %d texts are not known", field, n[1], n[0])
		}
	}
	t.Logf("%d sheets, %d texts, %d of them not known", sheets, len(all), len(unknown))
	if len(unknown)*100 > len(all) {
		t.Errorf("%d of %d texts are not known: more than one in a hundred", len(unknown), len(all))
	}
}

// variants are the examples, each with one change.
func variants(t testing.TB) []string {
	t.Helper()
	data, err := os.ReadFile("testdata/variants.txt")
	if err != nil {
		t.Fatal(err)
	}
	unescape := strings.NewReplacer(`\n`, "\n")
	var all []string
	for _, line := range strings.Split(string(data), "\n") {
		old, put, ok := strings.Cut(line, " => ")
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		change := regexp.MustCompile("(?m)" + unescape.Replace(old))
		for _, e := range examples.List() {
			if change.MatchString(e.Document) {
				all = append(all, change.ReplaceAllString(e.Document, unescape.Replace(put)))
			}
		}
	}
	return all
}

func TestAWholeSheetIsSaidAtOnce(t *testing.T) {
	e, _ := examples.Find("ridge-house")
	said := texts(sheetOf(t, e.Document, units.US))
	German.Engine("none") // opens the phrasebook
	best := time.Hour
	for range 5 {
		start := time.Now()
		for _, told := range said {
			German.Engine(told.text)
		}
		best = min(best, time.Since(start))
	}
	t.Logf("%d texts in %v", len(said), best)
	if best > 40*time.Millisecond { // 10 ms on a quiet machine
		t.Errorf("a sheet of %d texts takes %v", len(said), best)
	}
}

func BenchmarkSheet(b *testing.B) {
	e, _ := examples.Find("ridge-house")
	said := texts(sheetOf(b, e.Document, units.US))
	for b.Loop() {
		for _, told := range said {
			German.Engine(told.text)
		}
	}
}
