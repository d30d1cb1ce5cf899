package report

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"curvewright/logs"
)

// TestASpreadsheetReadsBack: every cell comes back as it was, by the reader of logs.
func TestASpreadsheetReadsBack(t *testing.T) {
	rows := [][]TableCell{
		{TextCell("visit"), TextCell("reading"), TextCell("value")},
		{TextCell("2026-11-25"), TextCell("=SUM(A1:A9)"), NumberCell(134.6)},
		{TextCell("+49 30 1"), TextCell("-2 & <b>\"@x\""), NumberCell(-0.5)},
		{TextCell("@cmd"), TextCell("Ελένη □ 東"), NumberCell(0)},
	}
	var b bytes.Buffer
	if err := Spreadsheet(&b, Table{Name: "Readings: [all]", Widths: []float64{12, 30, 10}, Rows: rows}, Table{Name: "", Rows: rows[:1]}); err != nil {
		t.Fatal(err)
	}
	in, err := logs.Sheet(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	read, err := io.ReadAll(in)
	if err != nil {
		t.Fatal(err)
	}
	want := "visit\treading\tvalue\n2026-11-25\t=SUM(A1:A9)\t134.6\n+49 30 1\t-2 & <b>\"@x\"\t-0.5\n@cmd\tΕλένη □ 東\t0\n"
	if string(read) != want {
		t.Errorf("read %q", read)
	}
	z, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range z.File {
		part, _ := f.Open()
		content, _ := io.ReadAll(part)
		if bytes.Contains(content, []byte("<f>")) {
			t.Errorf("%s holds a formula", f.Name)
		}
		if err := xml.Unmarshal(content, new(struct{})); err != nil {
			t.Errorf("%s: %v", f.Name, err)
		}
	}
	var again bytes.Buffer
	_ = Spreadsheet(&again, Table{Name: "Readings: [all]", Widths: []float64{12, 30, 10}, Rows: rows}, Table{Name: "", Rows: rows[:1]})
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("the same tables give other bytes")
	}
}

func TestASpreadsheetOfNothingIsRefused(t *testing.T) {
	if err := Spreadsheet(io.Discard); err == nil {
		t.Error("no table was written")
	}
	if err := Spreadsheet(brokenWriter{}, Table{Rows: [][]TableCell{{TextCell(strings.Repeat("x", 40000))}}}); err == nil {
		t.Error("a failure to write was kept quiet")
	}
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 701: "ZZ", 702: "AAA"} {
		if got := columnName(i); got != want {
			t.Errorf("column %d is %s, want %s", i, got, want)
		}
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("disk full") }
