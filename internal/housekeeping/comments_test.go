package housekeeping

import (
	"go/ast"
	"regexp"
	"strings"
	"testing"
)

// Every exported function of these packages says where it holds and where it comes
// from. Packages units and working hold no formulas of the trade.
var formulas = map[string]bool{"fluid": true, "boiler": true, "pipework": true, "hotwater": true, "sensor": true, "year": true, "weather": true, "logs": true, "building": true, "emitter": true, "curve": true, "job": true, "changes": true, "settings": true, "catalogue": true, "attendance": true, "visit": true}

// prose are methods that only turn a value into words.
var prose = map[string]bool{"String": true, "Text": true, "Error": true}

// noFormula are functions that hold no formula, each with the reason why.
var noFormula = map[string]string{
	"fluid.Water":    "makes the fill that needs no further figure",
	"job.Says":       "makes an input",
	"job.Given.Or":   "chooses between two inputs",
	"job.Given.How":  "tells how an input is known",
	"building.Fuels": "lists what the table beside it holds",
}

var (
	rangeLine  = regexp.MustCompile(`(?m)^Range: \S`)
	sourceLine = regexp.MustCompile(`(?m)^Source: \S`)
	unitsLine  = regexp.MustCompile(`(?m)^Units: \S`)
)

func TestEveryFormulaSaysItsRangeAndSource(t *testing.T) {
	excused := map[string]bool{}
	for _, s := range sources(t) {
		if s.test || !formulas[s.pkg] {
			continue
		}
		for _, d := range s.file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || !f.Name.IsExported() || prose[f.Name.Name] {
				continue
			}
			name := s.pkg + "." + f.Name.Name
			if f.Recv != nil {
				of := receiver(f.Recv.List[0].Type)
				if !ast.IsExported(of) {
					continue
				}
				name = s.pkg + "." + of + "." + f.Name.Name
			}
			if _, excuse := noFormula[name]; excuse {
				excused[name] = true
				continue
			}
			doc := f.Doc.Text()
			if !rangeLine.MatchString(doc) {
				t.Errorf("%s: the comment on %s has no line \"Range:\"", s.at(f), name)
			}
			if !sourceLine.MatchString(doc) {
				t.Errorf("%s: the comment on %s has no line \"Source:\"", s.at(f), name)
			}
			// A quantity of package units names its unit by its type; a plain figure does not.
			if plainFigure(f.Type) && !unitsLine.MatchString(doc) {
				t.Errorf("%s: %s takes or gives a plain figure, and its comment has no line \"Units:\"", s.at(f), name)
			}
		}
	}
	for name := range noFormula {
		if !excused[name] {
			t.Errorf("%s is excused but does not exist", name)
		}
	}
}

// receiver gives the name of a method's type without pointer and type parameters.
func receiver(of ast.Expr) string {
	switch of := of.(type) {
	case *ast.StarExpr:
		return receiver(of.X)
	case *ast.IndexExpr:
		return receiver(of.X)
	case *ast.IndexListExpr:
		return receiver(of.X)
	case *ast.Ident:
		return of.Name
	}
	return ""
}

// plainFigure tells whether a function takes or gives a figure whose type names no
// unit: float64, or the dimensionless units.Number.
func plainFigure(f *ast.FuncType) bool {
	found := false
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Ident:
			found = found || strings.HasPrefix(n.Name, "float")
		case *ast.SelectorExpr:
			x, ok := n.X.(*ast.Ident)
			found = found || ok && x.Name == "units" && n.Sel.Name == "Number"
		}
		return true
	})
	return found
}
