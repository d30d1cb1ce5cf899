package web

import (
	"html"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/web/words"
)

// A page that is half in English is worse to read than one that is in English whole.

// spokenPages are the addresses of all that is shown of a job, with a visit and a log in it.
func spokenPages(t *testing.T, h http.Handler, at string) []string {
	t.Helper()
	list := []string{}
	for _, place := range jobPlaces {
		list = append(list, at+"/"+place)
	}
	for _, part := range surveyParts {
		list = append(list, at+"/survey/"+part.ID)
	}
	list = append(list, at+"/survey/rooms?room=0", at+"/decide", at+"/record")
	w := post(t, h, at+"/visits", nil)
	visit := w.Header().Get("Location")
	for section := range visitParts {
		list = append(list, visit+"/"+section)
	}
	measured := visit + "/readings"
	form := formOn(get(t, h, measured).Body.String())
	form.Set("f.conditions.outdoor", "20 °F")
	form.Set("f.readings.boiler.supply", "170 °F")
	form.Set("f.readings.boiler.return", "120 °F")
	form.Set("f.readings.circuits[0].supply", "110 °F")
	form.Set("f.readings.circuits[0].return", "108 °F")
	post(t, h, measured, form)
	return list
}

// alone are the pages that belong to no job.
var alone = []string{"/", "/new", "/controls", "/library", "/preferences", "/help", "/nowhere", "/jobs/nobody/survey", "/?state=trashed", "/?state=archived"}

// textNode is one piece of writing on a page, with the element or attribute that holds it.
type textNode struct{ in, text string }

var (
	markup     = regexp.MustCompile(`(?s)<!--.*?-->|<![^>]*>|<(/?)([a-zA-Z][a-zA-Z0-9-]*)((?:[^>"]|"[^"]*")*)>`)
	spokenAttr = regexp.MustCompile(`\s(aria-label|title|placeholder|alt|data-spoken|data-name)="([^"]*)"`)
	emptyTag   = regexp.MustCompile(`^(meta|link|input|br|img|path|circle|rect|line|polyline|polygon|hr|col|source)$`)
)

// textNodes are the pieces of writing on a page, but for what is marked as a source, which
// is the name of a book and stays as it is.
func textNodes(page string) []textNode {
	var list []textNode
	var open []string
	skipped := 0 // how deep in what is left out
	add := func(in, text string) {
		// A space that does not break is none that a page may set otherwise.
		if text = strings.Join(strings.FieldsFunc(html.UnescapeString(text), func(r rune) bool { return strings.ContainsRune(" \t\r\n", r) }), " "); text != "" && skipped == 0 {
			list = append(list, textNode{in, text})
		}
	}
	last := 0
	for _, m := range markup.FindAllStringSubmatchIndex(page, -1) {
		in := ""
		if len(open) > 0 {
			in = open[len(open)-1]
		}
		add(in, page[last:m[0]])
		last = m[1]
		if m[4] < 0 {
			continue
		}
		closing, tag, attributes := page[m[2]:m[3]] != "", strings.ToLower(page[m[4]:m[5]]), page[m[6]:m[7]]
		if closing {
			if n := len(open); n > 0 {
				if strings.HasSuffix(open[n-1], "!") {
					skipped--
				}
				open = open[:n-1]
			}
			continue
		}
		for _, a := range spokenAttr.FindAllStringSubmatch(attributes, -1) {
			add(tag+" "+a[1], a[2])
		}
		if emptyTag.MatchString(tag) || strings.HasSuffix(attributes, "/") {
			continue
		}
		if tag == "script" || tag == "style" || tag == "textarea" || strings.Contains(attributes, `class="source"`) || strings.Contains(attributes, `class="symbol"`) || tag == "math" {
			tag += "!"
			skipped++
		}
		open = append(open, tag)
	}
	return list
}

func TestTextNodesOfAPage(t *testing.T) {
	got := textNodes(`<p title="A tip">One <b>two</b><br/> three</p><dd class="source" lang="en">A book</dd><svg><text x="1">Four &amp; five</text></svg>`)
	want := []textNode{{"p title", "A tip"}, {"p", "One"}, {"b", "two"}, {"p", "three"}, {"text", "Four & five"}}
	if !slices.Equal(got, want) {
		t.Errorf("text nodes are %q, not %q", got, want)
	}
}

var (
	longWord = regexp.MustCompile(`\p{L}{3,}`)
	// cognates are words that one language shares with English.
	cognates = map[words.Language]string{
		words.French: `Menu Source Circuits Circuit circuit direct tube pause altitude Instruments Signatures correction table convector Glycol
			glycol Dates Menu Combustion`,
		words.Spanish: `convector`,
		words.German:  `parallel Frost`,
	}
	// sameEverywhere are words that are written alike in another language, and names.
	sameEverywhere = map[string]bool{}
)

func init() {
	for _, w := range strings.Fields(`RSI Curvewright English Français Español Deutsch Btu kWh MWh kBtu MBH gpm psi bar mbar kPa EDR therm therms MMBtu gal
		EPW TMY3 TMY NOAA CSV PDF YAML JSON yaml json csv ics zip png jpg epw psv txt xlsx kΩ MΩ RSI ASSE PEX NTC mol ach
		Code Direction Section Installation installation Radiator radiator Radiators Thermostat Signal Point points Position Place
		Exponent mild Starts Apr Aug Sep Nov Jun Jul Jan Feb Letter Zone kgK gpg SDR ASTM ISO North bedroo Air test Restart Version version Format Minute minutes Minutes Volume volume Date date Photo Type type Sensor sensor Temperatur
		Total total Normal normal Control control Material material Information Documents documents Solar solar Material Person
		Notes Note note Service Test Program Gas gas Butan Propan propane butane Diesel diesel Import Export Combi combi Boiler
		Pumpe Design design Slab Passive passive Fin Tank tank Min min Max max Extra extra Name Situation situation Condensation condensation
		Station Stations Relation page Page Pages Simple simple Double double Triple triple Europa fixed Error error Start Stop stop`) {
		sameEverywhere[w] = true
	}
}

// namesIn are the words that a person wrote into a document.
func namesIn(t *testing.T, document string) map[string]bool {
	t.Helper()
	j, err := job.Read([]byte(document))
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	add := func(text string) {
		for _, w := range longWord.FindAllString(text, -1) {
			names[w] = true
		}
	}
	for _, spot := range job.Spots(j) {
		switch spot.Kind {
		case job.TextSpot:
			add(spot.Text())
		case job.WordsSpot:
			for _, text := range spot.Texts() {
				add(text)
			}
		}
	}
	return names
}

// english are the pieces of a page in another language that stand on the English one too.
func englishIn(page, other string, l words.Language, names map[string]bool) []textNode {
	shared := strings.Fields(cognates[l])
	known := map[string]bool{}
	for _, n := range textNodes(page) {
		known[n.text] = true
	}
	var list []textNode
	seen := map[string]bool{}
	for _, n := range textNodes(other) {
		if !known[n.text] || seen[n.text] {
			continue
		}
		for _, w := range longWord.FindAllString(n.text, -1) {
			if !sameEverywhere[w] && !names[w] && !slices.Contains(shared, w) {
				seen[n.text] = true
				list = append(list, n)
				break
			}
		}
	}
	return list
}

// pageIn gets a page in a language.
func pageIn(h http.Handler, address string, l words.Language) string {
	r := httptest.NewRequest(http.MethodGet, address, nil)
	r.Header.Set("Accept-Language", l.Tag())
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Body.String()
}

func TestNoPageIsLeftInEnglish(t *testing.T) {
	report := func(address string, l words.Language, left []textNode) {
		for _, n := range left {
			t.Errorf("%s in %s: <%s> %q", address, l.Name(), n.in, n.text)
		}
	}
	list := examples.List()
	slices.SortFunc(list, func(a, b examples.Example) int { return len(b.Document) - len(a.Document) })
	for i, e := range list {
		h := handler(t)
		names := namesIn(t, e.Document)
		for _, e := range list { // all titles stand in the list of examples
			for _, w := range longWord.FindAllString(e.Title, -1) {
				names[w] = true
			}
		}
		pages := append(spokenPages(t, h, begun(t, h, e.Name)), "/try?example="+e.Name)
		for n, address := range pages {
			english := pageIn(h, address, words.English)
			for k, l := range words.Languages()[1:] {
				if i > 0 && n%3 != k { // the largest example in every language, the others in turn
					continue
				}
				report(strings.TrimPrefix(address, "/jobs/"), l, englishIn(english, pageIn(h, address, l), l, names))
			}
		}
	}
	h := handler(t)
	titles := map[string]bool{} // of the examples, which are names
	for _, e := range list {
		for _, w := range longWord.FindAllString(e.Title, -1) {
			titles[w] = true
		}
	}
	for _, address := range alone {
		english := pageIn(h, address, words.English)
		for _, l := range words.Languages()[1:] {
			report(address, l, englishIn(english, pageIn(h, address, l), l, titles))
		}
	}
}

func TestAPlayedYearIsSaidInEveryLanguage(t *testing.T) {
	for i, e := range examples.List() {
		h := handler(t)
		at := begun(t, h, e.Name)
		played := func(l words.Language) string {
			r := httptest.NewRequest(http.MethodPost, at+"/year", strings.NewReader(url.Values{"units": {"us"}}.Encode()))
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			r.Header.Set("Accept-Language", l.Tag())
			w := httptest.NewRecorder()
			h.ServeHTTP(w, r)
			return w.Body.String()
		}
		english := played(words.English)
		for k, l := range words.Languages()[1:] {
			if i%3 != k { // in turn: a year takes its time
				continue
			}
			for _, n := range englishIn(english, played(l), l, namesIn(t, e.Document)) {
				t.Errorf("%s in %s: <%s> %q", e.Name, l.Name(), n.in, n.text)
			}
		}
	}
}
