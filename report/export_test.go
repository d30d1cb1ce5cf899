package report

import "curvewright/settings"

// What the tests of the print, which stand outside the package, share with those inside.
var (
	Fixture         = fixture
	HardSheets      = hardSheets
	BoilerRoomSheet = boilerRoomSheet
)

// SettingsPages is how many pages the settings take, and how many there are in all.
func SettingsPages(sheet *settings.Sheet, opts PDFOptions, newPress NewPress) (settings, all int, err error) {
	p, err := layOutSheet(sheet, opts, newPress)
	if err != nil {
		return 0, 0, err
	}
	return p.settingsPages, p.press.PageNo(), nil
}
