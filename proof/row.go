// Package proof holds every check of the engine against something outside it: a
// standard, a handbook table, a worked example, a fact of the trade. The same rows
// run in the user's own binary (curvewright proof), in the tests, and in
// docs/proof.md, so none of the three can drift from the others.
package proof

import (
	"fmt"
	"math"
)

// Standing says how far a published value can be trusted.
type Standing string

// The kinds of standing, from the strongest down.
const (
	Published      Standing = "published"       // read in the source named
	Formula        Standing = "formula"         // worked out by hand from the published formula named
	CommonPractice Standing = "common practice" // a fact of the trade without a single source
	FromMemory     Standing = "from memory"     // recalled from the source named, not re-read
)

// Row is one check.
type Row struct {
	ID        string                  // short and stable: "radiator-55-45-20"
	Subject   string                  // the heading it stands under: "Radiators"
	What      string                  // the quantity and its inputs, for a person
	Ours      func() (float64, error) // computes our value through the public engine
	Published float64
	Unit      string  // unit of both values, as printed
	Abs       float64 // allowed absolute difference, in Unit
	Rel       float64 // allowed difference as a share of Published; the larger of the two counts
	Source    string  // standard or document with clause, table or page
	Standing  Standing
	Note      string // why the tolerance is what it is, or why we differ
}

// Verdict is the outcome of one row.
type Verdict struct {
	Row
	Value float64
	Err   error
	Pass  bool
}

// Tolerance is the allowed absolute difference.
func (r Row) Tolerance() float64 {
	return math.Max(r.Abs, r.Rel*math.Abs(r.Published))
}

// Run computes every row.
func Run(rows []Row) []Verdict {
	out := make([]Verdict, len(rows))
	for i, r := range rows {
		v := Verdict{Row: r}
		v.Value, v.Err = compute(r)
		v.Pass = v.Err == nil && math.Abs(v.Value-r.Published) <= r.Tolerance()*(1+1e-12)
		out[i] = v
	}
	return out
}

// compute turns a panic of the engine into a failed row, so that one fault does
// not hide all the others.
func compute(r Row) (value float64, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panicked: %v", p)
		}
	}()
	return r.Ours()
}
