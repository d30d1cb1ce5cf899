package logs

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"testing"
)

// workbook packs the parts of a small spreadsheet.
func workbook(t testing.TB, sheet string, more map[string]string) []byte {
	t.Helper()
	parts := map[string]string{
		"xl/workbook.xml":            `<workbook xmlns:r="urn:r"><sheets><sheet name="Log" sheetId="1" r:id="rId7"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="rId7" Target="worksheets/data.xml"/></Relationships>`,
		"xl/styles.xml":              `<styleSheet><numFmts><numFmt numFmtId="165" formatCode="dd\.mm\.yyyy\ hh:mm"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="165"/></cellXfs></styleSheet>`,
		"xl/sharedStrings.xml":       `<sst><si><t>time</t></si><si><r><t>out</t></r><r><t>door °C</t></r></si><si><t>=cmd|' /C calc'!A1</t></si></sst>`,
		"xl/worksheets/data.xml":     sheet,
	}
	for k, v := range more {
		parts[k] = v
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, text := range parts {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func rows(n int) string {
	var b strings.Builder
	b.WriteString(`<worksheet><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c r="C1" t="inlineStr"><is><t>kitchen °C</t></is></c><c r="D1" t="s"><v>2</v></c></row>`)
	for i := range n {
		// 46035 is 2026-01-13. The room is a formula with the value that it had.
		fmt.Fprintf(&b, `<row><c r="A%d" s="1"><v>%.8f</v></c><c r="B%d"><v>%d.5</v></c><c r="C%d"><f>B%d+20</f><v>%.1f</v></c><c r="D%d" t="s"><v>2</v></c></row>`, i+2, 46035+float64(i)/288, i+2, i%7-3, i+2, i+2, 20+float64(i%9)/10, i+2)
	}
	b.WriteString(`</sheetData></worksheet>`)
	return b.String()
}

func TestReadsASpreadsheet(t *testing.T) {
	data := workbook(t, rows(200), nil)
	open := func() io.Reader {
		r, err := Sheet(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	r, err := Recognise(open())
	if err != nil {
		t.Fatal(err)
	}
	if r.Columns[1].Role != Outdoor || r.Columns[2].Role != Room || r.Columns[3].Role != Leave || r.Step != 300 {
		t.Fatalf("%+v", r)
	}
	l, err := Read(context.Background(), open(), r.Mapping, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if Say(l.Stamps[0]) != "2026-01-13 00:00" || len(l.Stamps) != 200 || l.Series[1].Values[1] != 20.1+zero {
		t.Errorf("%s, %d rows, %v", Say(l.Stamps[0]), len(l.Stamps), l.Series[1].Values[1]-zero)
	}
}

func TestRefusesSpreadsheetsThatAreNone(t *testing.T) {
	bomb := workbook(t, rows(3), map[string]string{"xl/worksheets/data.xml": strings.Repeat(" ", packingMatters+1)})
	texts := workbook(t, rows(3), map[string]string{"xl/sharedStrings.xml": "<sst>" + strings.Repeat("<si><t>"+strings.Repeat("a", 97)+fmt.Sprint(len(t.Name()))+"</t></si>", mostStrings/100)})
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"no archive":      {[]byte("hello"), "no spreadsheet"},
		"unpacks to much": {bomb, "that is no log"},
		"endless texts":   {texts, "unpacks"},
		"no sheet":        {workbook(t, "", map[string]string{"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="rId7" Target="gone.xml"/></Relationships>`}), "no sheet"},
		"broken texts":    {workbook(t, rows(3), map[string]string{"xl/sharedStrings.xml": "<sst><si><t>"}), "damaged"},
	} {
		_, err := Sheet(bytes.NewReader(c.data), int64(len(c.data)))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

func FuzzSheet(f *testing.F) {
	f.Add(rows(5))
	f.Fuzz(func(t *testing.T, sheet string) {
		data := workbook(t, sheet, nil)
		r, err := Sheet(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			return
		}
		if _, err := io.Copy(io.Discard, io.LimitReader(r, 1<<20)); err != nil {
			return
		}
	})
}
