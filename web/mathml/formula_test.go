package mathml_test

import (
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"

	"curvewright/examples"
	"curvewright/job"
	"curvewright/settings"
	"curvewright/units"
	"curvewright/web/mathml"
	"curvewright/working"
)

// brief is markup made short enough to compare.
var brief = strings.NewReplacer(`<math displaystyle="true"><mrow>`, "[", "</mrow></math>", "]", "<mrow>", "{", "</mrow>", "}",
	"<mi>", "", "</mi>", "", "<mn>", "", "</mn>", "", "<mo>", " ", `<mo form="infix">`, " ", "</mo>", " ", "<mtext>", "'", "</mtext>", "'",
	`<mspace width="0.25em"></mspace>`, "~", "\u00a0", "_", "\u2061", "@")

func TestFormulasAreSetAsMathematics(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Q = U · A · (θi − θe)", "[Q = U · A · { ( <msub>θ'i'</msub> − <msub>θ'e'</msub> ) }]"},
		{"Tr = Ts − Q/C", "[<msub>T'r'</msub> = <msub>T's'</msub> − <mfrac>{Q}{C}</mfrac>]"},
		{"C = Q / (Ts − Tr)", "[C = <mfrac>{Q}{<msub>T's'</msub> − <msub>T'r'</msub>}</mfrac>]"},
		{"t = V · H / Q", "[t = <mfrac>{V · H}{Q}</mfrac>]"},
		{"Δp = f · L/D · ρ·v²/2", "[Δp = f · <mfrac>{L}{D}</mfrac> · ρ · <mfrac>{<msup>{v}{2}</msup>}{2}</mfrac>]"},
		{"x = √(a/b)", "[x = <msqrt>{<mfrac>{a}{b}</mfrac>}</msqrt>]"},
		{"M = (Q/K)^(1/n)", "[M = <msup>{{ ( <mfrac>{Q}{K}</mfrac> ) }}{<mfrac>{1}{n}</mfrac>}</msup>]"},
		{"ε = 1 − e^(−UA/C)", "[ε = 1 − <msup>{e}{ − <mfrac>{UA}{C}</mfrac>}</msup>]"},
		{"H = ΣH", "[H =  ∑ H]"},
		{"p0 ≤ 0.5 bar", "[<msub>p0</msub> ≤ 0.5'_bar']"},
		{"ΔT_log = 5 K", "[<msub>ΔT'log'</msub> = 5'_K']"},
		{"CO2 = C / dry gas", "[<msub>CO2</msub> = <mfrac>{C}{'dry_gas'}</mfrac>]"},
		{"V = max(a, b)", "[V = 'max' @ { ( a , b ) }]"},
		{"η = Σheat / Σ(heat/η), against gross heat", "[η = <mfrac>{ ∑ 'heat'}{ ∑ { ( <mfrac>{'heat'}{η}</mfrac> ) }}</mfrac>], against gross heat"},
		{"q; the supply at which K = q", "q; the supply at which [K = q]"},
	} {
		f, ok := mathml.Read(c.text, nil)
		if !ok {
			t.Errorf("%q was not read", c.text)
			continue
		}
		if got := brief.Replace(f.Markup()); got != c.want {
			t.Errorf("%q\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

func TestWhatIsNoFormulaIsLeftAlone(t *testing.T) {
	for _, text := range []string{"", "as surveyed", "no sensor, no outdoor reset; shaded north side", "8.2 to 10.0; with aluminium 8.2 to 8.5",
		"Q = ", "= 3", "a + (b", "a + b)", "x ^", "√", "a = b = ", "Q = a // b", "<script>alert(1)</script>", "Q = \x00", "Q = {a}",
		strings.Repeat("(", 3000) + "=", strings.Repeat("√", 500) + "x = 1", "Q = " + strings.Repeat("a+", 2000) + "a"} {
		if f, ok := mathml.Read(text, nil); ok {
			t.Errorf("%.40q was read as %s", text, brief.Replace(f.Markup()))
		}
	}
}

func TestFiguresTakeThePlaceOfSymbols(t *testing.T) {
	for _, c := range []struct {
		text   string
		values []mathml.Value
		want   string
	}{
		{"Tr = Ts − Q/C", []mathml.Value{{"Ts", "55.0 °C"}, {"Q", "6.1 kW"}, {"C", "610 W/K"}},
			"[<msub>T'r'</msub> = {55.0'_°C'} − <mfrac>{{6.1'_kW'}}{{610'_W/K'}}</mfrac>]"},
		{"Q = H · (Ti − To)", []mathml.Value{{"H", "185 W/K"}, {"Ti", "21 °C"}, {"To", "−12 °C"}},
			"[Q] [ = {185'_W/K'} · { ( {21'_°C'} − { ( −12'_°C' ) } ) }]"},
		{"C = Q / (Ts − Tr)", []mathml.Value{{"Q", "6 kW"}, {"Ts − Tr", "10 K"}}, "[C = <mfrac>{{6'_kW'}}{{10'_K'}}</mfrac>]"},
		{"Q = ΣQ of the rooms", []mathml.Value{{"Q", "1 kW"}, {"Q", "2 kW"}}, "[Q = { ( {1'_kW'} + {2'_kW'} ) }~'of_the_rooms']"},
		{"H = Σ A · U", []mathml.Value{{"A", "1 m²"}, {"U", "2 W/m²K"}}, ""},
		{"H = A · U; x = y", []mathml.Value{{"A", "<b>1</b>"}}, "[H = {'&lt;b&gt;1&lt;/b&gt;'} · U]"},
		{"H = (fuel − other uses) · η", []mathml.Value{{"fuel", "9 MWh"}, {"other uses", "1 MWh"}}, "[H = { ( {9'_MWh'} − {1'_MWh'} ) } · η]"},
		{"x = y", nil, ""},
	} {
		f, ok := mathml.Read(c.text, c.values)
		if !ok {
			t.Errorf("%q was not read", c.text)
			continue
		}
		if got := brief.Replace(f.Filled()); got != c.want {
			t.Errorf("%q\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

// acts finds an operator that only a formula has.
var acts = regexp.MustCompile(`[=≤≥√^·ΣΔ∫]`)

// Every formula of every example is set as mathematics, and its figures find their places.
func TestEveryFormulaOfTheExamplesIsRead(t *testing.T) {
	texts, filled, open := map[string]bool{}, 0, 0
	for _, e := range examples.List() {
		j, err := job.Read([]byte(e.Document))
		if err != nil {
			t.Fatal(err)
		}
		for _, system := range []units.System{units.US, units.SI} {
			o := settings.DefaultOptions(j)
			o.System, o.Samples = system, 0
			sheet, err := settings.Solve(j, o)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range steps(sheet) {
				var values []mathml.Value
				for _, in := range s.Inputs {
					if in.Value != nil {
						values = append(values, mathml.Value{Symbol: in.Symbol, Text: in.Value.Text(system)})
					}
				}
				f, ok := mathml.Read(s.Formula, values)
				if !ok {
					if acts.MatchString(s.Formula) {
						t.Errorf("%s, %s: %q was not read", e.Name, s.Name, s.Formula)
					}
					continue
				}
				texts[s.Formula] = true
				wellFormed(t, f.Markup())
				wellFormed(t, f.Filled())
				if f.Filled() != "" {
					filled++
				} else if len(values) > 0 {
					open++
				}
			}
		}
	}
	if len(texts) < 40 || filled < 4*open {
		t.Errorf("%d formulas were read, figures went into %d and into %d not", len(texts), filled, open)
	}
}

func steps(s *settings.Sheet) []working.Step {
	var all []working.Step
	for _, f := range s.Figures {
		all = append(all, f.Working...)
	}
	for _, f := range s.Findings {
		all = append(all, f.Working...)
	}
	for _, section := range s.Sections {
		for _, l := range section.Lines {
			all = append(all, l.Working...)
		}
	}
	return all
}

func wellFormed(t testing.TB, markup string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader("<x>" + markup + "</x>"))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatalf("%v: %s", err, markup)
		}
		if start, ok := token.(xml.StartElement); ok && start.Name.Local != "x" && !known[start.Name.Local] {
			t.Fatalf("an element of another kind, %s: %s", start.Name.Local, markup)
		}
	}
}

var known = map[string]bool{"math": true, "mrow": true, "mi": true, "mn": true, "mo": true, "mtext": true, "msub": true, "msup": true,
	"mfrac": true, "msqrt": true, "mspace": true}

func FuzzRead(f *testing.F) {
	f.Add("Q = U · A · (θi − θe)", "U", "0.3 W/m²K")
	f.Add("V = √(ρ/1000/Δp_valve)^−2², Σ output(Ts) ≤ 5 K", "Ts", "−5 °C")
	f.Add("x = <b>a</b>", "b", "<script>")
	f.Fuzz(func(t *testing.T, text, symbol, value string) {
		formula, ok := mathml.Read(text, []mathml.Value{{Symbol: symbol, Text: value}})
		if !ok {
			return
		}
		for _, markup := range []string{formula.Markup(), formula.Filled()} {
			if strings.ContainsFunc(value, func(r rune) bool { return r < ' ' || r >= 0xfffe && r <= 0xffff || r == 0xfffd }) {
				continue // no XML can hold it
			}
			wellFormed(t, markup)
		}
	})
}

func ExampleRead() {
	f, _ := mathml.Read("Q = H/2", []mathml.Value{{Symbol: "H", Text: "100 W/K"}})
	fmt.Println(f.Markup())
	// Output: <math displaystyle="true"><mrow><mi>Q</mi><mo>=</mo><mfrac><mrow><mi>H</mi></mrow><mrow><mn>2</mn></mrow></mfrac></mrow></math>
}
