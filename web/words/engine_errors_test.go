package words

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"curvewright/examples"
	"curvewright/job"
)

// faultPackages are those whose errors reach a reader's page.
var faultPackages = []string{"attendance", "boiler", "building", "catalogue", "changes", "curve", "decide", "emitter", "fluid", "followup", "hotwater", "job", "logs",
	"pipework", "refuse", "report", "sensor", "settings", "store", "store/sqlite", "trial", "units", "visit", "weather", "working", "year", "web"}

// toPrograms are what only a program that calls the engine can run into: numbers of workers,
// of rooms in an array, a form of JSON. No answer on a page leads to one.
var toPrograms = regexp.MustCompile(`^(search: |comparison: |combi: %w|house: |doors: |fabric: |share of the radiant heat: |window: |boiler: %w|boiler: no flow|tank: |outage: |pipe space |valve: |layers: |emitters: |radiator %d: |slab %d: |slabs: |coupling: |buffer: |circuits: |circuit %q: %w|hot water: a tank and a combi|step: |weekday |trace: |what the household wants: |settings %q: %w|curve: it|reference room: |switching point |weather: |room %q: %w|result as JSON|%s as JSON|files of the page)`)

// fillings are what may stand in the holes of an error.
var fillings = map[byte][]string{
	'd': {"7"},
	'g': {"7.5"},
	'f': {"7.5"},
	'c': {"x"},
	'q': {`"Quux"`, `"year first"`},
	's': {"21 °C", "Quux", "the disk", "tank"},
	'v': {"21 °C", "Quux", "the disk", "7"},
	'w': {"Quux", "21 °C"},
	'x': {"7"},
	'T': {"Quux"},
}

var errorVerb = regexp.MustCompile(`%(%|[-+# 0]*[\d.]*[a-zA-Z])`)

// Every error that the engine or a store can write is known in every language.
func TestErrorsAreKnown(t *testing.T) {
	for _, pkg := range faultPackages {
		files, _ := filepath.Glob(filepath.Join("..", "..", pkg, "*.go"))
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") || strings.HasSuffix(name, "_templ.go") {
				continue
			}
			fset := token.NewFileSet()
			file, err := parser.ParseFile(fset, name, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(file, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok || len(call.Args) == 0 {
					return true
				}
				f, ok := call.Fun.(*ast.SelectorExpr)
				if !ok {
					return true
				}
				if fn := f.Sel.Name; fn != "Errorf" && fn != "New" {
					return true
				}
				lit, ok := call.Args[0].(*ast.BasicLit)
				if !ok || lit.Kind != token.STRING {
					return true
				}
				text, _ := strconv.Unquote(lit.Value)
				if slices.Contains([]string{"year", "decide", "report", "web"}, pkg) && toPrograms.MatchString(text) {
					return true
				}
				if !anyFilling(text, "") && !anyFilling(text+".", "") {
					t.Errorf("%s: %q", fset.Position(lit.Pos()), text)
				}
				return true
			})
		}
	}
}

// anyFilling tells whether a format is understood with some filling of its holes.
func anyFilling(format, before string) bool {
	at := errorVerb.FindStringIndex(format)
	if at == nil {
		_, known := French.Understand(before + format)
		return known
	}
	before, kind, after := before+format[:at[0]], format[at[1]-1], format[at[1]:]
	if kind == '%' {
		return anyFilling(after, before+"%")
	}
	for _, filling := range fillings[kind] {
		if anyFilling(after, before+filling) {
			return true
		}
	}
	return false
}

// wrongValues are what a person may write where something else belongs.
var wrongValues = []string{"quux", "-5", "-3 kW", "-3 m", "-30 %", "900 °F", "-400 °F", "0 m", "0 kW", "0 %", "1e9 m", "1e9 kW", "400 %", "1e9 L", "0 L", "5 gpm", "1e9 gpm", "7 quux",
	"1e9 bar", "0 bar", "[1]", "{quux: 1}", "\"\"", "", "-3", "0", "1", "99999", "2.5", "yes", "no", "2026-99-99", "25:00", "1e9 h", "1e9 mm", "*quux", "&quux 3", "!!quux 3", "1e9 W/K", "1e9 m²", "0 m²", "R-900", "1,5 m", "70 degrees", "nan", "70"}

// Whatever is wrong with a document is said in every language.
func TestFaultsOfAnyFieldAreKnown(t *testing.T) {
	field := regexp.MustCompile(`^(\s*(?:- )?)([a-z_0-9]+):(.*)$`)
	unknown := map[string]string{}
	look := func(document string) {
		_, err := job.Read([]byte(document))
		var faults *job.Faults
		if err == nil {
			return
		}
		if !errors.As(err, &faults) {
			t.Errorf("no list of faults: %v", err)
			return
		}
		for _, f := range faults.List {
			if strings.HasPrefix(f.Problem, "is not the name of") || f.Problem == "is not a field here" {
				f.Accept = "" // names, which stay as they are
			}
			for _, text := range []string{f.Problem, f.Accept, f.Hint} {
				if _, ok := French.Understand(text); !ok {
					if _, there := unknown[text]; !there {
						unknown[text] = f.Error()
					}
				}
			}
			if said, ok := phrasebook().where(German, f.Place, 0); !ok && f.Place != "" && !strings.Contains(f.Problem, "is not a field") {
				unknown[said] = "place " + f.Place
			}
		}
	}
	documents := variants(t)
	for _, e := range examples.List() {
		documents = append(documents, e.Document)
	}
	seen := map[string]bool{}
	for _, document := range documents {
		lines := strings.Split(document, "\n")
		for i, line := range lines {
			m := field.FindStringSubmatch(line)
			if m == nil || seen[m[1]+m[2]] {
				continue
			}
			seen[m[1]+m[2]] = true
			put := func(text string) {
				lines[i] = text
				look(strings.Join(lines, "\n"))
				lines[i] = line
			}
			for k := len(seen) % 3; k < len(wrongValues); k += 3 { // in turn: a document takes its time
				put(m[1] + m[2] + ": " + wrongValues[k])
			}
			put(m[1] + m[2] + "x:" + m[3])
			put("")
			put(line + "\n" + line)
			put(line + ": 3")
			put(line + " \"")
			put(line + " [")
			put("\t" + line)
			put(m[1] + m[2] + m[3])
			put(m[1] + "  " + m[2] + ":" + m[3])
		}
	}
	for _, document := range []string{"", "quux", "[1]", "3", "curvewright: 9\n", "curvewright: 2.5\n", strings.Repeat("a: {", 300), "curvewright: 1\n---\ncurvewright: 1\n", "a: \x01", "\xff", "curvewright: 1\n" + strings.Repeat("# quux\n", 200000)} {
		look(document)
	}
	for text, where := range unknown {
		t.Errorf("%q, in %q", text, where)
	}
}
