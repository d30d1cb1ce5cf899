package report

import (
	"archive/zip"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A spreadsheet in the open XML form (ISO/IEC 29500): text and numbers, nothing that is
// worked out. A text stays text whatever it begins with, since every cell says what it is.

// Table is one sheet of a spreadsheet. Its first row is set in bold and stays in view.
type Table struct {
	Name   string
	Widths []float64 // of the columns, in letters
	Rows   [][]TableCell
}

// TableCell is a text, or a number.
type TableCell struct {
	Text   string
	Number float64
	IsText bool
}

// TextCell is a cell of text.
func TextCell(text string) TableCell { return TableCell{Text: text, IsText: true} }

// NumberCell is a cell with a number.
func NumberCell(x float64) TableCell { return TableCell{Number: x} }

// mostCellText is what a cell may hold (ISO/IEC 29500-1; programs refuse the file above).
const mostCellText = 32767

const xmlHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

// Spreadsheet writes tables as a file .xlsx. The same tables give the same bytes.
//
// Errors: no table at all; a failure of w.
func Spreadsheet(w io.Writer, tables ...Table) error {
	if len(tables) == 0 {
		return fmt.Errorf("a spreadsheet needs a table")
	}
	z := zip.NewWriter(w)
	var kinds, sheets, links strings.Builder
	for i, t := range tables {
		n := i + 1
		fmt.Fprintf(&kinds, `<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`, n)
		fmt.Fprintf(&sheets, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, escaped(sheetName(t.Name, n)), n, n)
		fmt.Fprintf(&links, `<Relationship Id="rId%d" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet%d.xml"/>`, n, n)
	}
	parts := []struct{ name, text string }{
		{"[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
			`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>` +
			`<Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>` + kinds.String() + `</Types>`},
		{"_rels/.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
			`<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">` +
			`<sheets>` + sheets.String() + `</sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` + links.String() +
			fmt.Sprintf(`<Relationship Id="rId%d" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/></Relationships>`, len(tables)+1)},
		{"xl/styles.xml", `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">` +
			`<fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts>` +
			`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
			`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
			`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
			`<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/></cellXfs>` +
			`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`},
	}
	for i, t := range tables {
		parts = append(parts, struct{ name, text string }{fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), t.xml()})
	}
	for _, part := range parts {
		f, err := z.Create(part.name)
		if err == nil {
			_, err = io.WriteString(f, xmlHead+part.text)
		}
		if err != nil {
			return err
		}
	}
	return z.Close()
}

func (t Table) xml() string {
	var b strings.Builder
	b.WriteString(`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">` +
		`<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>`)
	if len(t.Widths) > 0 {
		b.WriteString("<cols>")
		for i, w := range t.Widths {
			fmt.Fprintf(&b, `<col min="%d" max="%d" width="%g" customWidth="1"/>`, i+1, i+1, w)
		}
		b.WriteString("</cols>")
	}
	b.WriteString("<sheetData>")
	for r, row := range t.Rows {
		fmt.Fprintf(&b, `<row r="%d">`, r+1)
		bold := ""
		if r == 0 {
			bold = ` s="1"`
		}
		for c, cell := range row {
			at := columnName(c) + strconv.Itoa(r+1)
			switch {
			case cell.IsText && cell.Text == "", math.IsNaN(cell.Number) || math.IsInf(cell.Number, 0):
			case cell.IsText:
				fmt.Fprintf(&b, `<c r="%s"%s t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, at, bold, escaped(shortened(cell.Text)))
			default:
				fmt.Fprintf(&b, `<c r="%s"%s><v>%s</v></c>`, at, bold, strconv.FormatFloat(cell.Number, 'g', -1, 64))
			}
		}
		b.WriteString("</row>")
	}
	b.WriteString("</sheetData></worksheet>")
	return b.String()
}

// columnName is A to Z, AA and so on.
func columnName(i int) string {
	name := ""
	for i++; i > 0; i = (i - 1) / 26 {
		name = string(rune('A'+(i-1)%26)) + name
	}
	return name
}

// sheetName keeps out what a sheet's name may not hold.
func sheetName(name string, n int) string {
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`[]:*?/\'`, r) {
			return ' '
		}
		return r
	}, name)
	if runes := []rune(strings.TrimSpace(name)); len(runes) > 31 {
		name = string(runes[:31])
	}
	if name = strings.TrimSpace(name); name == "" {
		name = fmt.Sprintf("Sheet %d", n)
	}
	return name
}

func shortened(text string) string {
	if utf8.RuneCountInString(text) <= mostCellText {
		return text
	}
	return string([]rune(text)[:mostCellText])
}

// escaped writes a text for XML; what XML cannot hold becomes a replacement sign.
func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a Builder does not fail
	return b.String()
}
