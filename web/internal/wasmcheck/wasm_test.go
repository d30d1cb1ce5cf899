package main

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"flag"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// budget is the most that the page may weigh as WebAssembly, before compression, which
// makes a quarter of it. docs/offline.md says where the bytes are and why they are more
// than the 9 MB that were wanted.
const budget = 20_900_000

// notInlined keeps the compiler from copying a component of the page into every page
// that shows it, and other functions of ours into their callers: a tenth of the whole.
const notInlined = "-gcflags=curvewright/...=-l"

var table = flag.Bool("table", false, "log the size of the code by package")

func built(t *testing.T, flags ...string) string {
	t.Helper()
	if testing.Short() {
		t.Skip("compiles the whole page for another machine")
	}
	out := filepath.Join(t.TempDir(), "page.wasm")
	build := exec.Command("go", append(append([]string{"build", "-trimpath", notInlined, "-o", out}, flags...), ".")...)
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	return out
}

func TestPageCompilesForABrowserWithinItsBudget(t *testing.T) {
	file, err := os.Stat(built(t, "-ldflags=-s -w"))
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d bytes", file.Size())
	if file.Size() > budget {
		t.Errorf("%d bytes, %d at most", file.Size(), budget)
	}
}

// A telephone shows what the desk shows, to the last byte. The two have different
// packages beneath for requests, forms and addresses.
func TestABrowserSaysWhatTheDeskSays(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("other machines round otherwise in the last digit")
	}
	var desk bytes.Buffer
	if err := walk(&desk); err != nil {
		t.Fatal(err)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	browser := exec.Command("node", filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec_node.js"), built(t))
	var trouble strings.Builder
	browser.Stderr = &trouble
	said, err := browser.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, trouble.String())
	}
	lines := strings.Split(string(said), "\n")
	for i, want := range strings.Split(desk.String(), "\n") {
		if i >= len(lines) || lines[i] != want {
			t.Fatalf("%s\nat the desk %s", strings.Join(lines[min(i, len(lines)):min(i+1, len(lines))], ""), want)
		}
	}
}

// With -table it says where the code is, to find what a change has brought in.
func TestCodeByPackage(t *testing.T) {
	if !*table {
		t.Skip("nobody asked for the table")
	}
	module, err := os.ReadFile(built(t))
	if err != nil {
		t.Fatal(err)
	}
	sections, err := sectionsOf(module)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range sections {
		t.Logf("section %2d %-12s %9d", s.id, s.name, len(s.data))
	}
	code, err := codeByPackage(sections)
	if err != nil {
		t.Fatal(err)
	}
	packages := slices.SortedFunc(maps.Keys(code), func(a, b string) int { return cmp.Compare(code[b].bytes, code[a].bytes) })
	for _, p := range packages[:min(40, len(packages))] {
		t.Logf("%9d in %4d functions: %s", code[p].bytes, code[p].functions, p)
	}
}

// A module is a magic word, a version and sections, each with its kind and length
// (WebAssembly Core Specification, binary format).
type section struct {
	id   byte
	name string // of a section of its own kind
	data []byte
}

const (
	ownKind  = 0
	imports  = 2
	codeKind = 10
)

var errCut = errors.New("the module ends too early")

// reader takes numbers and stretches off the front of what is left.
type reader struct{ left []byte }

func (r *reader) number() (int, error) {
	n, length := binary.Uvarint(r.left)
	if length <= 0 {
		return 0, errCut
	}
	r.left = r.left[length:]
	return int(n), nil
}

// stretch is preceded by its length.
func (r *reader) stretch() ([]byte, error) {
	n, err := r.number()
	if err != nil || n > len(r.left) {
		return nil, errCut
	}
	s := r.left[:n]
	r.left = r.left[n:]
	return s, nil
}

func sectionsOf(module []byte) ([]section, error) {
	r := reader{bytes.TrimPrefix(module, []byte("\x00asm\x01\x00\x00\x00"))}
	var all []section
	for len(r.left) > 0 {
		s := section{id: r.left[0]}
		r.left = r.left[1:]
		data, err := r.stretch()
		if err != nil {
			return nil, err
		}
		s.data = data
		if s.id == ownKind {
			own := reader{data}
			name, err := own.stretch()
			if err != nil {
				return nil, err
			}
			s.name, s.data = string(name), own.left
		}
		all = append(all, s)
	}
	return all, nil
}

type weight struct{ bytes, functions int }

// codeByPackage adds up the functions' code under the packages in their names.
func codeByPackage(sections []section) (map[string]weight, error) {
	names, first := map[int]string{}, 0
	var code section
	for _, s := range sections {
		r := reader{s.data}
		var err error
		switch {
		case s.id == imports: // these have the first numbers
			first, err = r.number()
		case s.id == codeKind:
			code = s
		case s.name == "name":
			names, err = functionNames(r)
		}
		if err != nil {
			return nil, err
		}
	}
	r := reader{code.data}
	count, err := r.number()
	if err != nil {
		return nil, err
	}
	all := map[string]weight{}
	for i := range count {
		body, err := r.stretch()
		if err != nil {
			return nil, err
		}
		p, _, _ := strings.Cut(names[first+i], ".")
		all[p] = weight{all[p].bytes + len(body), all[p].functions + 1}
	}
	return all, nil
}

// functionNames reads the part of the names that is about functions; its kind is 1.
func functionNames(r reader) (map[int]string, error) {
	names := map[int]string{}
	for len(r.left) > 0 {
		kind := r.left[0]
		r.left = r.left[1:]
		part, err := r.stretch()
		if err != nil {
			return nil, err
		}
		if kind != 1 {
			continue
		}
		f := reader{part}
		count, err := f.number()
		if err != nil {
			return nil, err
		}
		for range count {
			number, err := f.number()
			if err != nil {
				return nil, err
			}
			name, err := f.stretch()
			if err != nil {
				return nil, err
			}
			names[number] = string(name)
		}
	}
	return names, nil
}
