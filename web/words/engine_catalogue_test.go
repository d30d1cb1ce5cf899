package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"curvewright/examples"
)

// engineParts are the catalogues of the engine's sentences by their names.
var engineParts = map[string]map[string]wording{
	"cautions": engineCautions, "headings": engineHeadings, "control": engineControl, "plant": enginePlant, "drive": engineDrive, "tap": engineTap,
	"water": engineWater, "values": engineValues, "findings": engineFindings, "cures": engineCures, "facts": engineFacts,
	"seldom": engineSeldom, "seldom steps": engineSeldomSteps, "steps": engineSteps, "ranges": engineRanges, "notes": engineNotes,
	"meanings": engineMeanings, "rules": engineRules, "faults": engineFaults, "records": engineRecords, "web": engineWeb, "follow": engineFollow, "visit": engineVisit, "visit, more": engineVisitMore, "drawn": engineDrawn, "played": enginePlayed, "printed": enginePrinted, "visited": engineVisited, "followup": engineFollowup, "logged": engineLogged, "seen": engineSeen, "troubles": engineTroubles, "refused": engineRefused, "sunned": engineSunned,
}

func TestWordingsTakeTheHolesOfTheirPattern(t *testing.T) {
	seen := map[string]string{}
	for part, catalogue := range engineParts {
		for english, w := range catalogue {
			if other, twice := seen[english]; twice {
				t.Errorf("%q stands among the %s and the %s", english, other, part)
			}
			seen[english] = part
			want := takeApart(english, w)
			for i, text := range w {
				l := Language(i + 1)
				if strings.TrimSpace(text) == "" {
					t.Errorf("%q has no wording in %s", english, l.Name())
				}
				used := make([]int, len(want.kinds))
				for _, c := range pieces(text) {
					switch {
					case c.kind == 0:
					case c.hole >= len(used):
						t.Errorf("%q takes more figures than the English in %s: %q", english, l.Name(), text)
					default:
						used[c.hole]++
					}
				}
				for k, n := range used {
					if n != 1 {
						t.Errorf("%q: figure %d is said %d times in %s: %q", english, k+1, n, l.Name(), text)
					}
				}
			}
		}
	}
}

// A pattern that another takes the sentences of would never be said.
func TestEveryPatternKnowsItsOwnSentences(t *testing.T) {
	fill := map[byte]string{'s': "12.5\u00a0°C", 'v': "Zimmer", 'd': "7"}
	for part, catalogue := range engineParts {
		for english, w := range catalogue {
			p := takeApart(english, w)
			sentence, holes := p.between[0], make([]string, len(p.kinds))
			for i, kind := range p.kinds {
				sentence += fill[kind] + p.between[i+1]
				holes[i] = German.figures(fill[kind])
			}
			for _, l := range []Language{French, Spanish, German} {
				said, ok := l.Understand(sentence)
				if want := p.with(l, holes); !ok || !strings.EqualFold(said, want) {
					t.Errorf("among the %s: %q is said %q in %s, not %q", part, sentence, said, l.Name(), want)
				}
			}
		}
	}
}

// engineFolders are the packages whose sentences reach a page.
var engineFolders = []string{"settings", "job", "units", "sensor", "hotwater", "pipework", "emitter", "building", "fluid", "boiler", "curve", "visit", "web", "report", "trial", "decide", "followup", "attendance", "logs", "store", "changes", "catalogue", "weather", "year", "refuse", "store/sqlite"}

// A sentence that the engine has given up would be dead weight here. The engine puts some
// of its sentences together from pieces, so that not every word of a pattern stands beside
// the next one in the sources; most do.
func TestThePatternsStandInTheEngine(t *testing.T) {
	stands := map[string]bool{}
	for _, e := range examples.List() {
		for _, three := range threes(e.About) {
			stands[three] = true
		}
	}
	for _, folder := range engineFolders {
		files, err := filepath.Glob(filepath.Join("..", "..", folder, "*.go"))
		if err != nil || len(files) == 0 {
			t.Fatalf("no sources in %s: %v", folder, err)
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			for _, text := range literalsOf(t, file) {
				for _, three := range threes(text) {
					stands[three] = true
				}
			}
		}
	}
	for part, catalogue := range engineParts {
		for english, w := range catalogue {
			found, all := 0, 0
			for _, piece := range takeApart(english, w).between {
				for _, three := range threes(piece) {
					all++
					if stands[three] {
						found++
					}
				}
			}
			if all > 3 && 2*found < all {
				t.Errorf("among the %s: the engine does not say %q any more", part, english)
			}
		}
	}
}

// threes are the words of a text, each with the two that follow it.
func threes(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" .,;:()%\"", r) })
	var out []string
	for i := 0; i+2 < len(words); i++ {
		out = append(out, strings.Join(words[i:i+3], " "))
	}
	return out
}

func literalsOf(t *testing.T, file string) []string {
	t.Helper()
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	parsed, err := parser.ParseFile(token.NewFileSet(), file, src, 0)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if text, err := strconv.Unquote(lit.Value); err == nil {
				out = append(out, text)
			}
		}
		return true
	})
	return out
}

func TestSentencesAreSaidInTheOrderOfTheLanguage(t *testing.T) {
	for _, c := range []struct {
		l             Language
		english, want string
	}{
		{German, "Kitchen needs 71.8\u00a0°C to hold 21.1\u00a0°C, the hottest of the circuit.", "Kitchen braucht 71,8\u00a0°C, um 21,1\u00a0°C zu halten, am meisten im Heizkreis."},
		{French, "The house needs 156\u00a0°F to hold 70\u00a0°F, the hottest of the circuit.", "La maison\u00a0: il faut 156\u00a0°F pour tenir 70\u00a0°F, le plus chaud du circuit."},
		{French, "On paper Kitchen needs 161\u00a0°F on the design day; the likeliest is 172\u00a0°F.", "Sur le papier, il faut 161\u00a0°F pour Kitchen le jour de base\u202f; le plus probable est 172\u00a0°F."},
		{Spanish, "fin-tube and cast iron", "zócalos aleteados y hierro fundido"},
		{German, "36,700\u00a0Btu/h on the design day, about 3.73\u00a0gpm of water, 20\u00a0°F drop.", "36\u202f700\u00a0Btu/h am Auslegungstag, etwa 3,73\u00a0gpm Wasser, Spreizung 20\u00a0°F."},
		{German, "19\u00a0°F", "19\u00a0°F"},
		{French, "2 of 6 points a day. Warming begins 2 h early; below −6.1\u00a0°C outdoors hold instead. Slab: hold, no program.", "2 des 6 commutations par jour. La remise en chauffe commence 2 h plus tôt\u202f; sous −6,1\u00a0°C dehors, garder constant. Slab\u00a0: constant, sans programme."},
		{German, "Design day, boiler off. North bedroom: 0.0\u00a0°C in 18\u00a0h.", "Auslegungstag, Kessel aus. North bedroom: 0,0\u00a0°C in 18\u00a0h."},
		{English, "Open only cold.", "Open only cold."},
	} {
		if got := c.l.Engine(c.english); got != c.want {
			t.Errorf("%q is said %q in %s, not %q", c.english, got, c.l.Name(), c.want)
		}
	}
}

// What is not known stays as it was, as a whole: half a sentence helps nobody.
func TestAnUnknownSentenceStaysEnglish(t *testing.T) {
	for _, text := range []string{
		"The moon is full tonight.",
		"Never plug or cap the relief valve. The moon is full tonight.",
		"", " ", "12 moons", "needs needs needs", "a vessel of at least the moon",
	} {
		if said, known := German.Understand(text); said != text || known != (strings.TrimSpace(text) == "") {
			t.Errorf("%q became %q, known %v", text, said, known)
		}
	}
}

func FuzzUnderstand(f *testing.F) {
	for _, catalogue := range engineParts {
		for english := range catalogue {
			f.Add(english)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, l := range Languages() {
			if said, known := l.Understand(text); !known && said != text {
				t.Errorf("%q is not known and yet became %q", text, said)
			}
		}
	})
}

func TestFiguresAreWrittenAsTheLanguageDoes(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"1,850\u00a0ft²", "1850\u00a0ft²"}, {"1,036,700.5", "1\u202f036\u202f700,5"}, {"36,700", "36\u202f700"}, {"0.85", "0,85"}, {"12 ft 6 in, 3/4 in, 2.4 m", "12 ft 6 in, 3/4 in, 2,4 m"},
		{"10:30 pm", "10:30 pm"}, {"−6.5\u00a0°C", "−6,5\u00a0°C"}, {"10.8 % CO2, 4.5 % O2", "10,8 % CO2, 4,5 % O2"}, {"2.5%", "2,5\u00a0%"},
	} {
		if got := German.figures(c.in); got != c.want || !isFigure(c.in) {
			t.Errorf("%q is written %q, not %q", c.in, got, c.want)
		}
	}
	for _, words := range []string{"", "a tank", "hold 70 °F", "Room 3"} {
		if isFigure(words) {
			t.Errorf("%q is taken for a figure", words)
		}
	}
}
