package job

import (
	"fmt"
	"strconv"

	"go.yaml.in/yaml/v3"
)

// step lifts a document from one version to the next. It works on the document as
// written, before anything is decoded, so that the types hold the newest version
// only. A step is never edited after release.
type step struct {
	from  int
	apply func(document *yaml.Node)
}

// steps are all the steps there have been, oldest first. Version 1 is the first
// version, so there are none yet.
var steps []step

// lift brings a document to the version wanted. A document that does not say its
// version is left to the decoder, which asks for it.
func lift(document *yaml.Node, steps []step, wanted int) *Fault {
	const field = "curvewright"
	node := fieldOf(document, field)
	if node == nil || node.Kind != yaml.ScalarNode {
		return nil
	}
	version, err := strconv.Atoi(node.Value)
	fault := &Fault{
		Path: field, Place: field, Line: node.Line, Column: node.Column, Given: shorten(node.Value),
		Accept: fmt.Sprintf("whole numbers from 1 to %d", wanted),
	}
	switch {
	case err != nil:
		return nil
	case version > wanted:
		fault.Problem = "is a newer version of the document than this program knows"
		fault.Hint = "open it with a newer Curvewright"
		return fault
	case version < 1:
		fault.Problem = "is not a version of the document"
		return fault
	}
	for _, s := range steps {
		if s.from == version && version < wanted {
			s.apply(document)
			version++
		}
	}
	node.Value = strconv.Itoa(version)
	return nil
}

// fieldOf finds the value of a field of a mapping.
func fieldOf(mapping *yaml.Node, field string) *yaml.Node {
	if mapping == nil || mapping.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		if mapping.Content[i].Value == field {
			return mapping.Content[i+1]
		}
	}
	return nil
}
