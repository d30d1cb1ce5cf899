package housekeeping

import (
	"go/ast"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// floors says on which floor each package lives; docs/DESIGN.md explains it. A
// package beneath a listed one lives on the same floor.
var floors = map[string]int{
	"units":           0,
	"examples":        0, // documents, without code of ours beneath
	"working":         1,
	"refuse":          1,
	"fluid":           1,
	"weather":         1,
	"logs":            1,
	"building":        2,
	"emitter":         2,
	"pipework":        2,
	"boiler":          2,
	"hotwater":        2,
	"sensor":          2,
	"curve":           3,
	"job":             3,
	"settings":        4,
	"catalogue":       4,
	"attendance":      4,
	"changes":         4,
	"year":            4,
	"proof":           5,
	"trial":           5,
	"decide":          5,
	"visit":           5,
	"followup":        5,
	"report":          5,
	"store":           5,
	"store/sqlite":    6,
	"web":             6,
	"cmd/curvewright": 7,
	"internal":        7, // tests of the repository itself
}

// engine is the highest floor of the pure engine.
const engine = 4

// pureAbove are packages of higher floors that are as pure.
var pureAbove = map[string]bool{"visit": true, "followup": true}

// onlyIn are modules that one package alone may lean on.
var onlyIn = map[string]map[string]string{
	"followup": {"gonum.org/v1/gonum": "regression, optimisers and distributions for estimates; too heavy for the engine in a browser, which does without"},
}

// notInTheEngine are imports that would tie the engine to a machine, a moment or a
// face. Values go in; values and errors come out.
var notInTheEngine = map[string]string{
	"os":                   "the engine touches no files, environment or standard streams",
	"os/exec":              "the engine starts no programs",
	"os/signal":            "the engine belongs to no process",
	"flag":                 "flags belong to the command line",
	"net":                  "the engine works without a network",
	"net/http":             "requests belong to web",
	"database/sql":         "what is stored belongs to whoever calls the engine",
	"html/template":        "pages belong to web, and the package weighs heavily in a browser",
	"text/template":        "sentences are built where they are meant, and the package weighs heavily in a browser",
	"log":                  "the engine returns errors and logs nothing",
	"log/slog":             "the engine returns errors and logs nothing",
	"math/rand":            "its seed is shared by the whole program: use math/rand/v2 with a seed of your own",
	"crypto/rand":          "the same job must give the same sheet",
	"syscall":              "the engine runs on every system, also in a browser",
	"unsafe":               "nothing here needs it",
	"embed":                "tables are Go values with their sources beside them",
	"runtime/debug":        "the engine does not look at the program around it",
	"github.com/a-h/templ": "pages belong to web",
}

// fromOutside are the modules that the engine may lean on, each for one reason.
var fromOutside = map[string]string{
	"go.yaml.in/yaml/v3": "job documents are YAML",
}

// notCalledInTheEngine are functions of packages that are welcome otherwise.
var notCalledInTheEngine = map[string]map[string]string{
	"time": {
		"Now": clock, "Since": clock, "Until": clock, "Sleep": clock, "After": clock, "AfterFunc": clock, "Tick": clock,
		"NewTimer": clock, "NewTicker": clock, "Local": "the engine knows no time zone of the machine",
	},
	"fmt": {"Print": prints, "Printf": prints, "Println": prints, "Scan": prints, "Scanf": prints, "Scanln": prints},
}

const (
	clock  = "the engine reads no clock: take the time as an argument"
	prints = "the engine neither prints nor asks"
)

// seeded are the names of math/rand/v2 that carry a seed; every other draws from a
// source that differs from run to run.
var seeded = []string{"New", "NewPCG", "NewChaCha8", "NewZipf", "Rand", "Source", "PCG", "ChaCha8", "Zipf"}

// home gives the listed package under which a package lives.
func home(pkg string) (string, bool) {
	for p := pkg; p != "." && p != "/"; p = path.Dir(p) {
		if _, listed := floors[p]; listed {
			return p, true
		}
	}
	return "", false
}

func imported(t *testing.T, s *ast.ImportSpec) string {
	t.Helper()
	name, err := strconv.Unquote(s.Path.Value)
	if err != nil {
		t.Fatal(err)
	}
	return name
}

func TestEveryPackageHasAFloor(t *testing.T) {
	lived := map[string]bool{}
	for _, s := range sources(t) {
		p, listed := home(s.pkg)
		if !listed {
			t.Errorf("%s: package %s is on no floor: add it here and to docs/DESIGN.md", s.name, s.pkg)
		}
		lived[p] = true
	}
	for p := range floors {
		if !lived[p] {
			t.Errorf("%s has a floor but no Go file", p)
		}
	}
}

func TestImportsPointDownwards(t *testing.T) {
	for _, s := range sources(t) {
		from, listed := home(s.pkg)
		if !listed || s.test {
			continue
		}
		for _, spec := range s.file.Imports {
			name, ours := strings.CutPrefix(imported(t, spec), module+"/")
			if !ours {
				continue
			}
			to, listed := home(name)
			if listed && to != from && floors[to] >= floors[from] {
				t.Errorf("%s: %s on floor %d imports %s on floor %d; imports point downwards only", s.at(spec), s.pkg, floors[from], name, floors[to])
			}
		}
	}
}

func TestTheEngineIsPure(t *testing.T) {
	for _, s := range sources(t) {
		p, listed := home(s.pkg)
		if !listed || floors[p] > engine && !pureAbove[p] || s.test || p == "examples" {
			continue
		}
		local := map[string]string{} // the name in this file: the path imported
		for _, spec := range s.file.Imports {
			name := imported(t, spec)
			if why, banned := notInTheEngine[name]; banned {
				t.Errorf("%s: imports %s: %s", s.at(spec), name, why)
			}
			first, _, _ := strings.Cut(name, "/")
			_, known := fromOutside[name]
			for module := range onlyIn[p] {
				known = known || strings.HasPrefix(name, module+"/")
			}
			if strings.Contains(first, ".") && !known {
				t.Errorf("%s: imports %s, which is not among the modules that the engine leans on", s.at(spec), name)
			}
			as := path.Base(name)
			if name == "math/rand/v2" {
				as = "rand"
			}
			if spec.Name != nil {
				as = spec.Name.Name
			}
			local[as] = name
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			selector, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			x, ok := selector.X.(*ast.Ident)
			if !ok {
				return true
			}
			name, of := selector.Sel.Name, local[x.Name]
			if why, banned := notCalledInTheEngine[of][name]; banned {
				t.Errorf("%s: uses %s.%s: %s", s.at(n), of, name, why)
			}
			if of == "math/rand/v2" && !slices.Contains(seeded, name) {
				t.Errorf("%s: uses rand.%s, whose seed differs from run to run: draw from rand.New with a seed that was given", s.at(n), name)
			}
			return true
		})
	}
}
