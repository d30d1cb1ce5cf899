package logs

// A spreadsheet in the open XML form (ISO/IEC 29500), read row by row. Only its largest
// sheet counts; formulas are not worked out.

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"path"
	"strconv"
	"strings"
)

// unworked stands in the place of a formula that was saved without the value it has.
const unworked = "#formula"

// Bounds against files that unpack without end.
const (
	mostParts      = 5000
	mostUnpacked   = 2 << 30
	mostStrings    = 64 << 20
	mostSmallPart  = 8 << 20
	worstPacking   = 300 // times, from the size on from which it matters
	packingMatters = 64 << 20
	sheetRowBuffer = 64 << 10
)

// Sheet gives the sheet of a spreadsheet that has the most in it as rows of text with
// tabs between the cells, for [Recognise] and [Read].
//
// A date is written as 2026-01-31 13:00:00. A formula gives the value that it had when
// the file was saved. Text stays text whatever it begins with; nothing is carried out.
//
// Units: size in bytes.
// Range: up to 2 GiB unpacked, 64 MiB of texts, 256 columns.
// Source: ISO/IEC 29500-1, 18.3 and 18.8 for cells and formats of numbers.
// Errors: what is no such file; one that unpacks beyond the bounds, in a sentence.
func Sheet(r io.ReaderAt, size int64) (io.ReadCloser, error) {
	z, err := zip.NewReader(r, size)
	if err != nil {
		return nil, errors.New("the file is no spreadsheet in the form .xlsx")
	}
	if len(z.File) > mostParts {
		return nil, fmt.Errorf("the spreadsheet has %d parts; accepted: up to %d", len(z.File), mostParts)
	}
	b := book{parts: map[string]*zip.File{}}
	for _, f := range z.File {
		if f.UncompressedSize64 > packingMatters && f.UncompressedSize64/worstPacking > f.CompressedSize64 || f.UncompressedSize64 > mostUnpacked {
			return nil, fmt.Errorf("a part of the spreadsheet unpacks to %d MB from %d kB; that is no log", f.UncompressedSize64>>20, f.CompressedSize64>>10)
		}
		b.parts[f.Name] = f
	}
	name, err := b.largestSheet()
	if err != nil {
		return nil, err
	}
	if err := b.texts(); err != nil {
		return nil, err
	}
	if err := b.formats(); err != nil {
		return nil, err
	}
	in, err := b.parts[name].Open()
	if err != nil {
		return nil, errors.New("the spreadsheet's first sheet cannot be unpacked")
	}
	return &sheetRows{book: &b, part: in, xml: xml.NewDecoder(io.LimitReader(in, mostUnpacked))}, nil
}

// book is what the cells of a sheet refer to.
type book struct {
	parts  map[string]*zip.File
	shared []string
	isDate []bool // by style of a cell
	from04 bool   // days count from 1904
}

// small reads a part that must be small.
func (b *book) small(name string, most int64) ([]byte, error) {
	f, ok := b.parts[name]
	if !ok {
		return nil, nil
	}
	in, err := f.Open()
	if err != nil {
		return nil, fmt.Errorf("part %s of the spreadsheet cannot be unpacked", clip([]byte(name)))
	}
	defer in.Close()
	data, err := io.ReadAll(io.LimitReader(in, most+1))
	if err != nil {
		return nil, fmt.Errorf("part %s of the spreadsheet is damaged", clip([]byte(name)))
	}
	if int64(len(data)) > most {
		return nil, fmt.Errorf("part %s of the spreadsheet unpacks to more than %d MB", clip([]byte(name)), most>>20)
	}
	return data, nil
}

// each calls do for every element of a part that begins.
func each(data []byte, do func(e xml.StartElement, d *xml.Decoder) error) error {
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		t, err := d.Token()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return errors.New("the spreadsheet is damaged: its XML does not hold together")
		}
		if e, ok := t.(xml.StartElement); ok {
			if err := do(e, d); err != nil {
				return err
			}
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// largestSheet gives the part of the sheet with the most in it: covers and sums are small
// beside a log.
func (b *book) largestSheet() (string, error) {
	workbook, err := b.small("xl/workbook.xml", mostSmallPart)
	if err != nil {
		return "", err
	}
	listed := map[string]bool{}
	err = each(workbook, func(e xml.StartElement, _ *xml.Decoder) error {
		switch e.Name.Local {
		case "workbookPr":
			b.from04 = attribute(e, "date1904") == "1" || attribute(e, "date1904") == "true"
		case "sheet":
			for _, a := range e.Attr {
				if a.Name.Local == "id" && a.Name.Space != "" {
					listed[a.Value] = true
				}
			}
		}
		return nil
	})
	if err != nil {
		return "", err
	}
	relations, err := b.small("xl/_rels/workbook.xml.rels", mostSmallPart)
	if err != nil {
		return "", err
	}
	var sheets []string
	err = each(relations, func(e xml.StartElement, _ *xml.Decoder) error {
		if e.Name.Local == "Relationship" && listed[attribute(e, "Id")] {
			target := attribute(e, "Target")
			if strings.HasPrefix(target, "/") {
				sheets = append(sheets, strings.TrimPrefix(target, "/"))
			} else {
				sheets = append(sheets, path.Join("xl", target))
			}
		}
		return nil
	})
	if err != nil {
		return "", err
	}
	if len(listed) == 0 || len(sheets) == 0 {
		sheets = []string{"xl/worksheets/sheet1.xml"}
	}
	largest := ""
	for _, name := range sheets {
		if part := b.parts[name]; part != nil && (largest == "" || part.UncompressedSize64 > b.parts[largest].UncompressedSize64) {
			largest = name
		}
	}
	if largest == "" {
		return "", errors.New("the spreadsheet has no sheet with cells")
	}
	return largest, nil
}

// texts reads the table of texts that cells share.
func (b *book) texts() error {
	data, err := b.small("xl/sharedStrings.xml", mostStrings)
	if err != nil {
		return err
	}
	return each(data, func(e xml.StartElement, d *xml.Decoder) error {
		if e.Name.Local != "si" {
			return nil
		}
		text, err := textWithin(d, "si")
		b.shared = append(b.shared, text)
		return err
	})
}

// textWithin joins the texts up to the end of an element, without the aids to reading
// that some scripts have.
func textWithin(d *xml.Decoder, end string) (string, error) {
	var out strings.Builder
	inText, aside := false, false
	for {
		t, err := d.Token()
		if err != nil {
			return "", errors.New("the spreadsheet is damaged: its XML does not hold together")
		}
		switch t := t.(type) {
		case xml.StartElement:
			inText, aside = t.Name.Local == "t", aside || t.Name.Local == "rPh"
		case xml.EndElement:
			if t.Name.Local == end {
				return out.String(), nil
			}
			inText = false
			if t.Name.Local == "rPh" {
				aside = false
			}
		case xml.CharData:
			if inText && !aside && out.Len() < longestLine {
				out.Write(t)
			}
		}
	}
}

// formats finds which styles of cells are dates.
func (b *book) formats() error {
	data, err := b.small("xl/styles.xml", mostSmallPart)
	if err != nil {
		return err
	}
	dates := map[string]bool{}
	for _, id := range []int{14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47} {
		dates[strconv.Itoa(id)] = true
	}
	inCells := false
	return each(data, func(e xml.StartElement, _ *xml.Decoder) error {
		switch e.Name.Local {
		case "numFmt":
			dates[attribute(e, "numFmtId")] = looksLikeDate(attribute(e, "formatCode"))
		case "cellXfs":
			inCells = true
		case "cellStyleXfs", "cellStyles", "dxfs":
			inCells = false
		case "xf":
			if inCells {
				b.isDate = append(b.isDate, dates[attribute(e, "numFmtId")])
			}
		}
		return nil
	})
}

// looksLikeDate tells a format of dates or times from one of numbers: letters of a date
// outside of quotes and brackets.
func looksLikeDate(code string) bool {
	quoted, bracketed := false, false
	for i := 0; i < len(code); i++ {
		switch c := code[i]; {
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '\\':
			i++
		case c == '[':
			bracketed = true
		case c == ']':
			bracketed = false
		case bracketed:
		case strings.IndexByte("yYdDhHsSmM", c) >= 0:
			return true
		}
	}
	return false
}

// sheetRows hands out the rows of a sheet as text.
type sheetRows struct {
	book *book
	part io.Closer
	xml  *xml.Decoder
	out  bytes.Buffer
	done error
}

// Close ends the reading.
func (s *sheetRows) Close() error { return s.part.Close() }

// Read gives the next bytes of the rows.
func (s *sheetRows) Read(p []byte) (int, error) {
	for s.out.Len() == 0 {
		if s.done != nil {
			return 0, s.done
		}
		s.done = s.row()
	}
	return s.out.Read(p)
}

// row writes the next row.
func (s *sheetRows) row() error {
	column := 0
	for {
		t, err := s.xml.RawToken()
		if err == io.EOF {
			return io.EOF
		}
		if err != nil {
			return errors.New("the spreadsheet is damaged: its rows do not hold together")
		}
		switch t := t.(type) {
		case xml.StartElement:
			if t.Name.Local != "c" {
				continue
			}
			at := columnOf(attribute(t, "r"), column)
			if at >= mostCells {
				at = mostCells
			}
			text, err := s.cell(attribute(t, "t"), attribute(t, "s"))
			if err != nil {
				return err
			}
			if at < column || at == mostCells || s.out.Len() > sheetRowBuffer {
				continue
			}
			for ; column < at; column++ {
				s.out.WriteByte('\t')
			}
			s.out.WriteString(strings.Map(func(r rune) rune {
				if r == '\t' || r == '\n' || r == '\r' {
					return ' '
				}
				return r
			}, text))
		case xml.EndElement:
			if t.Name.Local == "row" {
				s.out.WriteByte('\n')
				return nil
			}
		}
	}
}

// columnOf reads the letters of a reference as C5; a cell without one follows the last.
func columnOf(ref string, last int) int {
	n := 0
	for i := 0; i < len(ref) && i < 4 && ref[i] >= 'A' && ref[i] <= 'Z'; i++ {
		n = n*26 + int(ref[i]-'A') + 1
	}
	if n == 0 {
		return last
	}
	return n - 1
}

// cell reads up to the end of a cell and gives its value as text.
func (s *sheetRows) cell(kind, style string) (string, error) {
	value, inline := "", ""
	in, formula := "", false
	for {
		t, err := s.xml.RawToken()
		if err != nil {
			return "", errors.New("the spreadsheet is damaged: a cell does not end")
		}
		switch t := t.(type) {
		case xml.StartElement:
			in = t.Name.Local
			formula = formula || in == "f"
		case xml.EndElement:
			if t.Name.Local == "c" {
				if formula && value == "" && inline == "" {
					return unworked, nil
				}
				return s.text(kind, style, value, inline), nil
			}
			in = ""
		case xml.CharData:
			switch {
			case len(value)+len(inline)+len(t) > longestLine:
			case in == "v":
				value += string(t)
			case in == "t":
				inline += string(t)
			}
		}
	}
}

func (s *sheetRows) text(kind, style, value, inline string) string {
	switch kind {
	case "s":
		if i, err := strconv.Atoi(value); err == nil && i >= 0 && i < len(s.book.shared) {
			return s.book.shared[i]
		}
		return ""
	case "inlineStr":
		return inline
	case "e":
		return ""
	case "str", "b", "d":
		return value
	}
	i, err := strconv.Atoi(style)
	if err != nil || i < 0 || i >= len(s.book.isDate) || !s.book.isDate[i] {
		return value
	}
	v, err := strconv.ParseFloat(value, 64)
	if err != nil || !(v >= 0 && v < 200000) {
		return value
	}
	if v < 1 { // a time of day by itself
		return Clock(int64(math.Round(v * day))).Format("15:04:05")
	}
	if s.book.from04 {
		v += 1462
	}
	return Clock(serialEpoch + int64(math.Round(v*day))).Format("2006-01-02 15:04:05")
}
