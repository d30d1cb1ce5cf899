package job

import (
	"bytes"
	"reflect"
	"slices"
)

// A job is not the only document: what was found on a visit is kept in one of its own,
// with the same strictness and the same words for what is wrong.

// ReadDocument reads a document of another kind into the struct that describes it by the
// same tags as [Job]: yaml, doc, need and oneof. The kind is told in the messages: "visit".
//
// Units: every value carries its own; inside they are SI.
// Range: documents up to 1 MB; structs of texts, counts, yes or no, [Given] quantities,
// lists and groups.
// Source: the format is our own; YAML 1.2 and JSON carry it.
// Errors: [*Faults], each fault with its place, what was given and what would be
// accepted. With an error there is no document.
func ReadDocument[T any](data []byte, kind string) (*T, error) {
	r := &reader{lines: bytes.Split(data, []byte("\n")), what: kind, faults: Faults{What: kind}}
	document := new(T)
	if root := r.root(data); root != nil {
		r.group(reflect.ValueOf(document).Elem(), root, nil)
	}
	if len(r.faults.List) == 0 {
		return document, nil
	}
	slices.SortStableFunc(r.faults.List, func(a, b Fault) int { return a.Line - b.Line })
	return nil, &r.faults
}

// DraftDocument reads a document that may be unfinished: as far as it can be read,
// beside what is still to be put right.
//
// Units: every value carries its own; inside they are SI.
// Range: as [ReadDocument].
// Source: the format is our own.
// Errors: [*Faults]. The document is nil only if this is none of ours at all.
func DraftDocument[T any](data []byte, kind string) (*T, error) {
	r := &reader{lines: bytes.Split(data, []byte("\n")), what: kind, faults: Faults{What: kind}, draft: true}
	root := r.root(data)
	if root == nil {
		return nil, &r.faults
	}
	document := new(T)
	r.group(reflect.ValueOf(document).Elem(), root, nil)
	return document, r.faults.err()
}

// WriteDocument writes such a document; reading it again gives the same.
//
// Units: values that have no text of their own are written in SI.
// Range: as [ReadDocument].
// Source: the format is our own.
// Errors: text that is not UTF-8, or a way of knowing that a document cannot say.
func WriteDocument[T any](document *T) ([]byte, error) {
	return encode(reflect.ValueOf(document).Elem())
}
