//go:build !js

package web

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/report"
	"curvewright/report/pdf"
	"curvewright/settings"
	"curvewright/store"
	"curvewright/web/words"
)

// No English is left on a page, a paper or a file in another language. A word that is shown
// must stand in the wordings of that language, or be a name that somebody gave, a unit, or
// the name of a file. That is stricter than looking for English, and needs no list of its
// words: what nobody has put into the language cannot be among its wordings.

// wordings are the words of a language, as its wordings use them.
var wordings = sync.OnceValue(func() map[words.Language]map[string]bool {
	all := map[words.Language]map[string]bool{}
	for _, l := range words.Languages() {
		all[l] = map[string]bool{}
	}
	files, _ := filepath.Glob("words/*.go")
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			panic(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			list, ok := n.(*ast.CompositeLit)
			if !ok {
				return true
			}
			first := words.Language(len(words.Languages()) - len(list.Elts)) // wordings of the engine leave out the English
			if first != words.English && first != words.French {
				return true
			}
			for i, e := range list.Elts {
				if text, ok := literal(e); ok {
					for _, w := range wordsIn(text) {
						all[first+words.Language(i)][w] = true
					}
				}
			}
			return true
		})
	}
	return all
})

// literal is a text written out in the source, perhaps in several pieces.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, err == nil && e.Kind == token.STRING
	case *ast.BinaryExpr:
		a, ok1 := literal(e.X)
		b, ok2 := literal(e.Y)
		return a + b, ok1 && ok2
	}
	return "", false
}

var wordShape = regexp.MustCompile(`\p{L}{2,}`)

// wordsIn are the words of a text in small letters.
func wordsIn(text string) []string { return wordShape.FindAllString(strings.ToLower(text), -1) }

// ofAllLanguages are units, and names that are written alike everywhere: of this program, of
// the languages, of standards and kinds of file.
var ofAllLanguages = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range wordsIn(`Curvewright English Français Español Deutsch
		°C °F kW MW Wh kWh MWh kJ MJ Btu kBtu MBH min ms mm cm km ft sq EDR gal gpm gpd gpg cfm therm therms MMBtu RSI ohm mL lb kg psi bar mbar
		kPa Pa hPa am pm dH fH mol ppm kv Cv kΩ MΩ CO Pt ΔT mK ach kgK sin
		mg GJ kcal QR EU ASSE EN ISO SDR NTC PEX DIN ASTM UTF UTC GB MB kB EPW TMY TMY3 NOAA
		TXT CSV PDF YAML JSON ZIP ICS XLSX PNG JPG JPEG WEBP GPS EUR CHF USD GBP`) {
		all[w] = true
	}
	return all
}()

// fileName are names of files, with what they end in; idName those of fields in a document.
var (
	fileShape = regexp.MustCompile(`(?i)[\p{L}\p{N}_.-]*\.(csv|pdf|yaml|yml|json|zip|ics|png|jpe?g|webp|epw|psv|txt|xlsx|exe|html|bin)(\.bin)?\b|\.gz\b`)
	cutName   = regexp.MustCompile(`[\p{L} ]+…`) // for which a drawing has no room
	idName    = regexp.MustCompile(`\b[a-z]+(_[a-z]+)+\b`)
)

// finder looks for words that are of no wording.
type finder struct {
	t     *testing.T
	names []string // that somebody gave, the longest first
	told  map[string]bool
}

// given notes names that somebody typed.
func (f *finder) given(names ...string) {
	for _, n := range names {
		if n = strings.Join(strings.Fields(n), " "); len(n) > 1 {
			f.names = append(f.names, n)
		}
	}
	slices.SortStableFunc(f.names, func(a, b string) int { return len(b) - len(a) })
	f.names = slices.Compact(f.names)
}

// document notes the names in a job.
func (f *finder) document(text string) {
	j, err := job.Draft([]byte(text))
	if j == nil {
		f.t.Fatal(err)
	}
	for _, spot := range job.Spots(j) {
		switch spot.Kind {
		case job.TextSpot:
			f.given(spot.Text())
		case job.WordsSpot:
			f.given(spot.Texts()...)
		}
	}
}

// strange are the words of a text that no wording of a language has.
func (f *finder) strange(l words.Language, text string) []string {
	text = strings.Join(strings.Fields(strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(text)), " ")
	for _, n := range f.names {
		text = without(without(text, n), capital(n))
	}
	text = documentKeys.ReplaceAllString(text, "·")
	text = cutName.ReplaceAllString(text, "·")
	text = idName.ReplaceAllString(fileShape.ReplaceAllString(text, "·"), "·")
	var list []string
	for _, w := range wordsIn(text) {
		if !wordings()[l][w] && !ofAllLanguages[w] {
			list = append(list, w)
		}
	}
	return list
}

// without is a text with a name taken out wherever it stands by itself.
func without(text, name string) string {
	var out strings.Builder
	for {
		at := strings.Index(text, name)
		if at < 0 {
			return out.String() + text
		}
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		after, _ := utf8.DecodeRuneInString(text[at+len(name):])
		out.WriteString(text[:at])
		if unicode.IsLetter(before) || unicode.IsLetter(after) {
			out.WriteString(name)
		} else {
			out.WriteString("·")
		}
		text = text[at+len(name):]
	}
}

// documentKeys are fields as a document has to name them, several in a list.
var documentKeys = regexp.MustCompile(`: [a-z]+(_[a-z]+)*, [a-z]+_[a-z]+(, [a-z_]+)*`)

// Signs as they must not be set: a figure with a decimal point, and in French a high sign
// without its space, or with one that may break.
var (
	decimalPoint = regexp.MustCompile(`(^|[^\d.])\d+\.\d+($|[^\d.])`)
	frenchTight  = regexp.MustCompile(`[\p{L}\d)%»][:;!?](\s|$)|«[^\x{a0}\x{202f}]|[^\x{a0}\x{202f}]»`)
	writtenSo    = regexp.MustCompile(`^(écrit|escrito como|geschrieben als) `)
	frenchLoose  = regexp.MustCompile(`[\p{L}\d)%»] [:;!?»]|« `)
)

// look reports a text in which there are such.
func (f *finder) look(l words.Language, where, text string) {
	bare := text
	for _, n := range f.names {
		bare = without(bare, n)
	}
	bare = strings.ReplaceAll(bare, "\u00a0:", "") // well set
	wrong := ""
	switch {
	case writtenSo.MatchString(bare) || strings.HasPrefix(bare, ";"): // as a document has it; a piece of a formula
	case decimalPoint.MatchString(bare):
		wrong = "a decimal point"
	case l == words.French && frenchTight.MatchString(bare):
		wrong = "a sign without its space"
	case l == words.French && frenchLoose.MatchString(bare):
		wrong = "a sign behind a space that breaks"
	}
	if wrong != "" && !f.told[l.Tag()+wrong+text] {
		f.told[l.Tag()+wrong+text] = true
		f.t.Errorf("%s, %s: %s, in %q", l.Tag(), where, wrong, text)
	}
	if list := f.strange(l, text); len(list) > 0 && !f.told[l.Tag()+text] {
		f.told[l.Tag()+text] = true
		f.t.Errorf("%s, %s: %q, in %q", l.Tag(), where, list, text)
	}
}

// page looks through a page. What is marked as English is not known in the language.
func (f *finder) page(l words.Language, where, page string) {
	if l == words.English {
		return
	}
	for _, n := range textNodes(page) {
		if n.in == "pre" || n.in == "q" || n.in == "code" { // as somebody wrote it, or as it has to be written
			continue
		}
		f.look(l, where+" <"+n.in+">", n.text)
	}
	for _, m := range markedEnglish.FindAllStringSubmatch(page, -1) {
		if key := l.Tag() + m[1]; !f.told[key] {
			f.told[key] = true
			f.t.Errorf("%s, %s: not known: %q", l.Tag(), where, m[1])
		}
	}
}

var markedEnglish = regexp.MustCompile(`<span lang="en">([^<]*)<`)

// visitor asks for pages in a language and has each looked through.
type visitor struct {
	*finder
	h http.Handler
	l words.Language
}

func (v visitor) ask(r *http.Request) *httptest.ResponseRecorder {
	r.Header.Set("Accept-Language", v.l.Tag())
	w := httptest.NewRecorder()
	v.h.ServeHTTP(w, r)
	if kind := w.Header().Get("Content-Type"); strings.HasPrefix(kind, "text/html") {
		v.page(v.l, strconv.Itoa(w.Code)+" "+r.Method+" "+short(r.URL.String()), w.Body.String())
	}
	return w
}

var longID = regexp.MustCompile(`/(jobs|visit|logs|controls|library|papers)/[a-z0-9]{8,}`)

// short is an address without the names of what is kept.
func short(address string) string { return longID.ReplaceAllString(address, "/$1/…") }

func (v visitor) get(address string) string {
	return v.ask(httptest.NewRequest(http.MethodGet, address, nil)).Body.String()
}

func (v visitor) post(address string, form url.Values) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, address, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return v.ask(r)
}

// refused posts a form with answers that cannot be.
func (v visitor) refused(address, to string, answers map[string]string) {
	v.t.Helper()
	form := formOn(v.get(address))
	for name, text := range answers {
		form.Set(name, text)
	}
	if w := v.post(to, form); w.Code < 400 {
		v.t.Errorf("%s of %v was taken: %d", short(to), answers, w.Code)
	}
}

// send posts a form with a file.
func (v visitor) send(address, field, name string, data []byte, values url.Values) *httptest.ResponseRecorder {
	return v.ask(formWith(v.t, address, values, sent{field, name, data}))
}

// overheard is a press that notes what is printed.
type overheard struct {
	report.Press
	said *[]string
}

func (o overheard) Text(f report.Font, colour string, x, y float64, text string) {
	*o.said = append(*o.said, text)
	o.Press.Text(f, colour, x, y, text)
}

// overhearing makes presses that note what is printed.
func overhearing(said *[]string) report.NewPress {
	return func(d report.Document) (report.Press, error) {
		*said = append((*said)[:0], d.Title, d.Subject) // a document may be laid out more than once
		p, err := pdf.New(d)
		return overheard{p, said}, err
	}
}

// demo is a server in which everything has been done to a job.
type demo struct {
	h      http.Handler
	store  *failing
	at     string // the job
	visit  string
	log    string
	said   []string // what was last printed
	finder *finder
}

func newDemo(t *testing.T) *demo {
	t.Helper()
	d := &demo{store: &failing{Store: memory()}, finder: &finder{t: t, told: map[string]bool{}}}
	var err error
	d.h, err = New(Config{Version: "1", Store: d.store, Year: PlayYear, Today: func() string { return "2026-11-25" },
		Print: func(w io.Writer, s *settings.Sheet, o report.PDFOptions) error {
			return report.Print(w, s, o, overhearing(&d.said))
		},
		Record: func(w io.Writer, p *report.Paperwork, o report.PDFOptions) error {
			return report.PrintPaperwork(w, p, o, overhearing(&d.said))
		},
		Household: func(w io.Writer, s *report.HouseholdSheet, o report.PDFOptions) error {
			return report.PrintHousehold(w, s, o, overhearing(&d.said))
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range examples.List() {
		d.finder.document(e.Document)
		d.finder.given(e.Title)
	}
	d.finder.given("Orla Penhallow", "Box Quux", "Long Quux", "Quux", "quux", "winter", "Not <i>played</i>", "ft of head", "not a job", "zip: not a valid zip file", "lenght", "curvewright: 1", "design_outdoor, annual_mean, elevation", "no", "Δp", "1.234", "2.5", "1,234.5", "entries", "MZ", "<html><script>", "Sans nom", "Sin nombre", "return °C", "heat W", "supply °C", "outdoor °C", "room °C", "time", "„return“", "„heat“", "«return»", "«heat»", "« return »", "« heat »", "„outdoor“", "„supply“", "„room“")
	d.fill(t)
	return d
}

// fill does everything once, in English.
func (d *demo) fill(t *testing.T) {
	h := d.h
	d.at = begun(t, h, "ridge-house")
	post(t, h, d.at+"/visits", nil) // one that is begun and left
	d.visit = post(t, h, d.at+"/visits", nil).Header().Get("Location")
	answer := func(section string, answers map[string]string) {
		t.Helper()
		form := formOn(get(t, h, d.visit+"/"+section).Body.String())
		for name, text := range answers {
			form.Set(name, text)
		}
		if w := post(t, h, d.visit+"/"+section, form); w.Code >= 400 {
			t.Fatalf("%s: %d %s", section, w.Code, w.Body)
		}
	}
	answer("settings", map[string]string{"l.cut-off": "otherwise", "v.cut-off": "45", "l.slab.max-supply": "otherwise", "v.slab.max-supply": "150 °F"})
	answer("readings", map[string]string{"f.conditions.outdoor": "20 °F", "f.readings.boiler.supply": "170 °F", "f.readings.boiler.return": "120 °F",
		"f.readings.circuits[0].supply": "110 °F", "f.readings.circuits[0].return": "108 °F"})
	answer("sign-off", map[string]string{"f.follow_up": "2027-01-15"})
	shoot(t, h, d.visit, "air", "Quux", "IMG.JPG", aPhoto(t, 90))
	post(t, h, d.visit+"/sign", url.Values{"who": {"Orla Penhallow"}, "as": {"installer"}})
	// A log with a sensor that fails, an hour near freezing, cold rooms and a control that follows another line.
	d.log = logged(t, h, d.at, "winter.csv", aHeatedLog(420, func(i int, _, supply, back, room, _ *float64) {
		switch {
		case i >= 400 && i < 404:
			*back = 2
		case i >= 500 && i < 530:
			*supply = 85
		case i%24 < 5:
			*supply -= 9
			*room -= 2
		}
	}))
	form := formOn(get(t, h, d.at+"/follow-up").Body.String())
	for i, felt := range []string{"too cold", "too warm", "no hot water", "noise"} {
		n := "-" + strconv.Itoa(i)
		form.Set("felt"+n, felt)
		form.Set("date"+n, "2026-01-1"+strconv.Itoa(i))
		form.Set("outdoor"+n, strconv.Itoa(3+10*i))
		form.Set("by"+n, "3")
		form.Set("often"+n, "2")
	}
	if w := post(t, h, d.at+"/follow-up", form); w.Code >= 400 {
		t.Fatalf("remarks: %d", w.Code)
	}
	uploadAll(t, h, d.at+"/papers", url.Values{"name": {"Quux"}}, sent{"files", "manual.pdf", []byte("%PDF-1.7\nx")})
	w := post(t, h, "/controls", url.Values{"name": {"Box Quux"}, "shape": {shapes[0].id}})
	if w.Code != http.StatusSeeOther {
		t.Fatalf("a control: %d", w.Code)
	}
}

// addresses are all pages of the demo.
func (d *demo) addresses(t *testing.T) []string {
	t.Helper()
	list := append([]string{}, alone...)
	for _, e := range examples.List() {
		list = append(list, "/try?example="+e.Name)
	}
	for _, place := range jobPlaces {
		list = append(list, d.at+"/"+place)
	}
	for _, part := range surveyParts {
		list = append(list, d.at+"/survey/"+part.ID)
	}
	for room := range keptJob(t, d.h, d.at).Rooms {
		list = append(list, fmt.Sprintf("%s/survey/rooms?room=%d", d.at, room))
	}
	for section := range visitParts {
		list = append(list, d.visit+"/"+section)
	}
	for i := range tourSteps {
		list = append(list, (&house{Entry: store.Entry{ID: strings.TrimPrefix(d.at, "/jobs/")}}).tourAt(i+1))
	}
	return append(list, d.at+"/record", d.at+"/decide", d.log)
}

func everyOther() []words.Language { return words.Languages()[1:] }

func TestEveryPageOfAFilledJobIsInItsLanguage(t *testing.T) {
	d := newDemo(t)
	list := d.addresses(t)
	for _, l := range everyOther() {
		v := visitor{d.finder, d.h, l}
		for _, address := range list {
			v.get(address)
		}
		for _, s := range shapes {
			v.get(post(t, d.h, "/controls", url.Values{"name": {"Box Quux"}, "shape": {s.id}}).Header().Get("Location"))
		}
		for _, kind := range ownKinds {
			v.get(post(t, d.h, "/library", url.Values{"kind": {kind}, "name": {"Long Quux"}}).Header().Get("Location"))
		}
		v.get(d.at + "/household/" + l.Tag())
	}
}

func TestEveryRefusalIsInItsLanguage(t *testing.T) {
	d := newDemo(t)
	for _, l := range everyOther() {
		v := visitor{d.finder, d.h, l}
		v.given("quuxly", "8 quux", "Quuxfeld")
		house := d.at + "/survey/house"
		for _, typed := range []string{"quuxly", "8 quux", "8 gpm", "1.234"} {
			v.refused(house, house, map[string]string{"f.site.design_outdoor": typed})
			v.refused(house, house, map[string]string{"f.house.setpoint": typed})
		}
		for _, typed := range []string{"900 °F", "-400 °F"} { // kept, and told above the settings
			form := formOn(v.get(house))
			form.Set("f.site.design_outdoor", typed)
			v.post(house, form)
			v.get(house)
			v.get(d.at + "/history")
			v.post(d.at+"/undo", nil)
			v.get(d.at + "/history")
		}
		v.refused("/try?example=short-survey", "/try", map[string]string{"f.site.design_outdoor": "quuxly", "f.house.floor_area": "8 gpm"})
		for _, document := range badDocuments {
			v.post("/try", url.Values{"document": {document}})
			v.post("/jobs", url.Values{"document": {document}})
			v.send("/jobs", "file", "quux.yaml", []byte(document), nil)
			v.post("/year/section", url.Values{"document": {document}})
			v.post("/drawing", url.Values{"document": {document}})
		}
		for field, text := range map[string]string{"date-0": "quuxly", "outdoor-0": "quuxly", "by-0": "quuxly", "often-0": "quuxly"} {
			v.refused(d.at+"/follow-up", d.at+"/follow-up", map[string]string{"felt-0": "too cold", field: text})
		}
		for name, data := range badLogs {
			v.send(d.at+"/logs", "log", name, []byte(data), nil)
		}
		for _, one := range []map[string]string{{"offset": "quuxly"}, {"offset": "40"}, {"role-1": "leave out", "role-2": "leave out", "role-3": "leave out", "role-4": "leave out", "role-5": "leave out"},
			{"role-0": "leave out"}, {"role-1": "time"}, {"role-2": "outdoor"}, {"unit-1": "quuxly"}, {"role-1": "quuxly"}} {
			w := d.at + "/logs"
			log := sendFile(t, d.h, w, "log", "winter.csv", aHeatedLog(200, nil)).Header().Get("Location")
			form := formOn(v.get(log))
			for name, text := range one {
				form.Set(name, text)
			}
			v.post(log, form)
		}
		for _, form := range []url.Values{
			{"found-0": {"quuxly"}, "found-1": {"115 °F"}}, {"found-0": {"160 °F"}}, {foundCutOff: {"quuxly"}}, {keptWeather: {"nowhere"}},
		} {
			v.post(d.at+"/year", form)
		}
		for name, data := range map[string]string{"quux.csv": "hello", "quux.epw": "LOCATION,a,b\n1,2", "quux.gz": "\x1f\x8b quux"} {
			v.send(d.at+"/year", weatherFile, name, []byte(data), nil)
		}
		for name, data := range map[string]string{"quux.html": "<html><script>", "quux.jpg": "\xff\xd8\xff\xe0 no", "quux.exe": "MZ", "quux.zip": "PK\x03\x04 quux"} {
			v.send(d.at+"/papers", "files", name, []byte(data), nil)
			v.send("/jobs", "file", name, []byte(data), nil)
			v.send(d.visit+"/photos", "files", name, []byte(data), url.Values{"section": {"before-power"}, "step": {"air"}})
			v.send("/controls", "file", name, []byte(data), nil)
			v.send("/library", "file", name, []byte(data), nil)
		}
		v.send("/controls", "file", "quux.yaml", []byte("control: {curve: {quux: 3}}"), nil)
		v.send("/library", "file", "quux.yaml", []byte("curvewright_library: 1\nentries: 3"), nil)
		v.post("/controls", url.Values{"shape": {"quuxly"}})
		v.post("/library", url.Values{"kind": {"quuxly"}})
		v.post("/library", url.Values{"kind": {"radiator"}})
		v.post("/new", nil)
		v.post("/preferences", url.Values{"price": {"quuxly"}})
		rooms := d.at + "/survey/rooms?room=0"
		for _, e := range []struct{ id, size string }{{"panel-22-600", ""}, {"fin-tube-usual", "quuxly"}, {"cast-iron-3-columns-38", "2.5"}, {"floor-screed-150", "3 ft"}, {"quuxly", "3"}, {"", ""}} {
			v.refused(rooms, rooms, map[string]string{"lib.rooms[0].emitters": e.id, "lib-size.rooms[0].emitters": e.size, "do": "library rooms[0].emitters"})
		}
		for _, e := range []string{"", "panel-22-600", "quuxly"} {
			v.refused(house, house, map[string]string{"lib.constructions": e, "do": "library constructions"})
		}
		v.refused(house, house, map[string]string{"do": "quuxly"})
		v.refused(house, house, map[string]string{"do": "remove rooms[99]"})
		// Two tabs that answer one question otherwise.
		one, two := formOn(v.get(house)), formOn(v.get(house))
		one.Set("f.site.design_outdoor", strconv.Itoa(-10-int(l)))
		two.Set("f.site.design_outdoor", "-20")
		v.post(house, one)
		if w := v.post(house, two); w.Code < 400 {
			t.Errorf("two answers to one question: %d", w.Code)
		}
		for section, answers := range map[string]map[string]string{
			"readings": {"f.conditions.outdoor": "quuxly", "f.readings.boiler.supply": "999 °F"},
		} {
			v.refused(d.visit+"/"+section, d.visit+"/"+section, answers)
		}
		for section, answers := range map[string]map[string]string{
			"settings": {"l.cut-off": "otherwise", "v.cut-off": "quuxly"},
			"sign-off": {"f.follow_up": "quuxly"}, // kept, and told when it is signed
		} {
			form := formOn(v.get(d.visit + "/" + section))
			for name, text := range answers {
				form.Set(name, text)
			}
			v.post(d.visit+"/"+section, form)
			v.get(d.visit + "/" + section)
		}
		v.post(d.visit+"/sign", url.Values{"as": {"installer"}})
		v.post(d.visit+"/sign", url.Values{"who": {"Orla Penhallow"}, "as": {"quuxly"}, "seal": {"yes"}})
		curve := d.at + "/curve"
		form := formOn(v.get(curve))
		for name := range form {
			if strings.HasPrefix(name, "try") || strings.HasPrefix(name, "found") {
				form.Set(name, "quuxly")
			}
		}
		v.post(curve+"/try", form)
		for _, how := range []error{store.NotFound, store.NotTrashed, store.Full, store.Busy, store.ReadOnly, store.Newer, store.Failed, store.Damaged, &store.Conflict{Newest: 3}} {
			d.store.how = how
			form := formOn(v.get(house))
			form.Set("f.house.setpoint", "66")
			v.post(house, form)
			v.post("/preferences", url.Values{"name": {"Quux"}})
			v.post("/jobs", url.Values{"example": {"ridge-house"}})
			v.post(d.at+"/visits", nil)
			d.store.how = nil
		}
		for _, verb := range []string{"erase", "quuxly", "undo", "redo", "history/99"} {
			v.post(d.at+"/"+verb, nil)
		}
	}
}

// badDocuments are jobs with every kind of fault.
var badDocuments = []string{
	"", "not a job", "zip: not a valid zip file", "curvewright: 9\njob: Quux\n", "curvewright: 1\n", "a: [1\n", "curvewright: 1\n\tjob: Quux\n", strings.Repeat("a: {", 300),
	"curvewright: 1\njob: Quux\nsite:\n  design_outdoor: -6\nhouse: {floor_area: quux, era: quux, setpoint: 400 °F}\ncircuits:\n  - name: Quux\n    lenght: 3 ft\n  - name: Quux\n    emitters: 7\n",
	"curvewright: 1\njob: Quux\njob: Quux\nsite: [1]\ncircuits: []\n",
	"curvewright: 1\njob: Quux\nsite: {design_outdoor: -6 gpm}\nhouse: {floor_area: 100 m², load: -3 kW}\ncircuits:\n  - {name: Quux, emitters: [{radiator: {output: 9 kW}, floor: {area: 3 m²}}]}\n",
	fmt.Sprintf(notPlayed, "floor_area: 100 m²,", "radiator: {output: 9 kW}", "separator: {kind: two-pipe buffer}\n"),
	noArea,
}

// badLogs are files in which there is no log.
var badLogs = map[string]string{
	"quux-1.csv": "hello", "quux-2.csv": "time,outdoor\n", "quux-3.csv": "\x00\x01\x02\xff", "quux-4.xlsx": "PK\x03\x04 nothing", "quux-5.csv": "",
	"quux-6.csv": "a;b;c\n1;2;3\n", "quux-7.csv": "time;outdoor °C\n2026-01-05 00:00;1\n2026-01-05 01:00;2\n", "quux-8.csv": strings.Repeat("\n", 50),
	"quux-9.json": "{}", "quux-10.csv": "time;outdoor °C;supply °C\n" + strings.Repeat("soon;1;2\n", 40),
}

func TestPlayedYearsAreInTheirLanguage(t *testing.T) {
	d := newDemo(t)
	post(t, d.h, "/preferences", url.Values{"price": {"0.12"}, "currency": {"€"}, "carbon": {"0.2"}})
	form := url.Values{keepWeather: {"yes"}, "found-0": {"180 °F at 0 °F, 110 °F at 60 °F"}, "found-1": {"115 °F"}, foundCutOff: {"70 °F"}}
	for _, l := range everyOther() {
		v := visitor{d.finder, d.h, l}
		v.send(d.at+"/year", weatherFile, "weather-file.bin", mildYear(), form)
		v.post(d.at+"/year", nil)
	}
}

func TestPapersAreInTheirLanguage(t *testing.T) {
	d := newDemo(t)
	for _, l := range everyOther() {
		v := visitor{d.finder, d.h, l}
		for _, paper := range []string{"sheet.pdf", "record.pdf", "household/" + l.Tag() + ".pdf", "year.pdf"} {
			w := v.ask(httptest.NewRequest(http.MethodGet, d.at+"/"+paper, nil))
			if !strings.HasPrefix(w.Body.String(), "%PDF") {
				t.Errorf("%s: %d", paper, w.Code)
				continue
			}
			for _, text := range d.said {
				d.finder.look(l, paper, text)
			}
		}
	}
}

func TestASearchIsToldInEveryLanguage(t *testing.T) {
	if testing.Short() {
		t.Skip("plays a hundred years")
	}
	d := newDemo(t)
	at := begun(t, d.h, "short-survey")
	post(t, d.h, at+"/decide", nil)
	for range 2400 {
		if !strings.Contains(get(t, d.h, at+"/decide?live=yes").Body.String(), "data-running") {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	for _, l := range everyOther() {
		visitor{d.finder, d.h, l}.get(at + "/decide")
	}
}
