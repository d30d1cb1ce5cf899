package housekeeping

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
)

// root is the repository, seen from this package.
const root = "../.."

// module is the path under which our packages are imported.
const module = "curvewright"

// notOurs are folders whose contents we neither write nor keep.
var notOurs = []string{".git", "node_modules", "bin", "build", "dist"}

// files lists the repository's files by their path from the root, with slashes, as
// far as the name ends in one of the given endings; all files without an ending.
func files(t *testing.T, endings ...string) []string {
	t.Helper()
	var found []string
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && slices.Contains(notOurs, d.Name()) {
			return fs.SkipDir
		}
		wanted := len(endings) == 0 || slices.ContainsFunc(endings, func(e string) bool { return strings.HasSuffix(name, e) })
		if d.Type().IsRegular() && wanted {
			found = append(found, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(found) == 0 {
		t.Fatalf("no files ending in %v: the test looks in the wrong place", endings)
	}
	return found
}

func read(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(path.Join(root, name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// source is one parsed Go file.
type source struct {
	name  string // path from the root
	pkg   string // its package's path from the root
	test  bool
	file  *ast.File
	where *token.FileSet
}

func sources(t *testing.T) []source {
	t.Helper()
	var all []source
	for _, name := range files(t, ".go") {
		where := token.NewFileSet()
		file, err := parser.ParseFile(where, name, read(t, name), parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Errorf("cannot be parsed: %v", err)
			continue
		}
		all = append(all, source{name: name, pkg: path.Dir(name), test: strings.HasSuffix(name, "_test.go"), file: file, where: where})
	}
	return all
}

// at says where a node stands, for a message.
func (s source) at(n ast.Node) string { return s.where.Position(n.Pos()).String() }
