package weather

// Which kind of file it is.

import "strings"

// Parse recognises the kind of a weather file and reads it. The place serves for files
// that do not name theirs.
//
// Units: as each kind of file has them; the place in degrees, metres and hours.
// Range: EPW, TMY3 CSV, NOAA ISD-Lite, ISD and GHCN-hourly, else CSV with named columns.
// Source: the readers of each kind, as [ParseEPW].
// Errors: those of the reader.
func Parse(data []byte, at Place) (*Year, error) {
	head := strings.TrimPrefix(string(data[:min(len(data), 4000)]), "\ufeff")
	first, rest := nextLine(head)
	second, _ := nextLine(rest)
	switch lower := strings.ToLower(first); {
	case strings.HasPrefix(lower, "location,"):
		return ParseEPW(data)
	case strings.HasPrefix(strings.ToLower(second), "date (mm/dd/yyyy),"):
		return ParseTMY3(data)
	case strings.Contains(lower, "|temperature|"):
		return ParseGHCNh(data, at)
	case len(first) >= 43 && digits(first[0:4]) && first[4] == ' ' && digits(first[5:7]) && digits(first[8:10]) && digits(first[11:13]):
		return ParseISDLite(data, at)
	case len(first) >= 99 && digits(first[15:27]) && strings.IndexByte("+-", first[28]) >= 0:
		return ParseISD(data, at)
	}
	return ParseCSV(data, at)
}

func digits(s string) bool { return strings.Trim(s, "0123456789") == "" }
