// Package examples holds the jobs of this folder inside the program, so that it can
// be tried without a house at hand.
package examples

import (
	"embed"
	"strings"
)

//go:embed combi-slab.yaml short-survey.yaml *-house.yaml
var files embed.FS

// order is from the least to know about a house to the most.
var order = []string{"short-survey", "combi-slab", "bills-house", "ridge-house"}

// Example is one job.
type Example struct {
	Name     string // of its file, without the ending
	Title    string // of the job
	About    string // one line: what it shows
	Document string
}

// List gives the examples, the simplest first.
func List() []Example {
	var list []Example
	for _, name := range order {
		data, err := files.ReadFile(name + ".yaml")
		if err != nil {
			panic(err) // the order names a file that is not in the folder
		}
		list = append(list, read(name, string(data)))
	}
	return list
}

// Find gives the example of a name.
func Find(name string) (Example, bool) {
	for _, e := range List() {
		if e.Name == name {
			return e, true
		}
	}
	return Example{}, false
}

// read takes the title from the document and what it is about from the comment that
// opens it.
func read(name, document string) Example {
	e := Example{Name: name, Document: document}
	var about []string
	for _, line := range strings.Split(document, "\n") {
		if words, ok := strings.CutPrefix(line, "# "); ok && e.Title == "" && len(about) < 3 {
			about = append(about, words)
		}
		if title, ok := strings.CutPrefix(line, "job: "); ok {
			e.Title = strings.TrimSpace(title)
			break
		}
	}
	e.About = strings.Join(about, " ")
	return e
}
