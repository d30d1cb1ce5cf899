package words

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"curvewright/job"
)

// fullJob holds one of everything that a document can hold, so that each of its fields
// is listed.
func fullJob() *job.Job {
	j := &job.Job{}
	fill(reflect.ValueOf(j).Elem())
	return j
}

func fill(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if v.Type().Elem().Kind() == reflect.Struct {
			v.Set(reflect.New(v.Type().Elem()))
			fill(v.Elem())
		}
	case reflect.Slice:
		if v.Type().Elem().Kind() == reflect.Struct {
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
			fill(v.Index(0))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				fill(f)
			}
		}
	}
}

func TestEveryFieldHasItsNameAndExplanation(t *testing.T) {
	asked := map[string]bool{}
	for _, spot := range job.Spots(fullJob()) {
		asked[spot.Pattern] = true
		f, ok := fields[spot.Pattern]
		if !ok {
			t.Errorf("%s (%s) has no name", spot.Pattern, spot.Doc)
			continue
		}
		for i, text := range f.help {
			if strings.TrimSpace(text) == "" {
				t.Errorf("%s has no explanation in %s", spot.Pattern, Language(i+1).Name())
			}
		}
		if spot.Kind == job.ListSpot {
			entry := spot.Pattern + "[]"
			asked[entry] = true
			if _, ok := fields[entry]; !ok {
				t.Errorf("an entry of %s has no name: %s", spot.Pattern, entry)
			}
		}
	}
	for pattern, f := range fields {
		if !asked[pattern] {
			t.Errorf("%s is named, but no document holds it", pattern)
		}
		for i, label := range f.label {
			if words := len(strings.Fields(label)); words == 0 || words > 5 {
				t.Errorf("%s: a name in %s takes one to five words, not %q", pattern, Language(i).Name(), label)
			}
			if first, _ := utf8.DecodeRuneInString(label); unicode.IsLower(first) {
				t.Errorf("%s: %q begins small in %s", pattern, label, Language(i).Name())
			}
		}
	}
}

// Two fields that stand beneath each other under one heading must not bear one name.
func TestFieldsOfOneGroupBearDifferentNames(t *testing.T) {
	for _, l := range Languages() {
		taken := map[string]string{}
		for _, spot := range job.Spots(fullJob()) {
			group, _, _ := cutLast(spot.Pattern, ".")
			place := group + "|" + fields[spot.Pattern].label[l]
			if other, twice := taken[place]; twice {
				t.Errorf("%s and %s are both called %q in %s", other, spot.Pattern, fields[spot.Pattern].label[l], l.Name())
			}
			taken[place] = spot.Pattern
		}
	}
}

func cutLast(s, sep string) (before, after string, found bool) {
	if i := strings.LastIndex(s, sep); i >= 0 {
		return s[:i], s[i+len(sep):], true
	}
	return "", s, false
}

func TestEveryWordToChooseHasItsWording(t *testing.T) {
	asked := map[string]bool{}
	for _, spot := range job.Spots(fullJob()) {
		for _, l := range Languages() {
			taken := map[string]string{}
			for _, word := range spot.Words {
				asked[word] = true
				e, ok := choices[word]
				if !ok || strings.TrimSpace(e[l]) == "" {
					t.Errorf("%s: the word %q has no wording in %s", spot.Pattern, word, l.Name())
				} else if other, twice := taken[e[l]]; twice {
					t.Errorf("%s: %q and %q are both %q in %s", spot.Pattern, other, word, e[l], l.Name())
				} else {
					taken[e[l]] = word
				}
			}
		}
	}
	for word := range choices {
		if !asked[word] {
			t.Errorf("the word %q has a wording, but no field accepts it", word)
		}
	}
}

func TestWordingsAgreeInTheirFigures(t *testing.T) {
	for key, e := range catalogue {
		one, more, counted := strings.Cut(e[English], " || ")
		want := holes(one)
		if counted && !slices.Equal(holes(more), want) {
			t.Errorf("%s: the wordings for one and for more take other figures", key)
		}
		for _, l := range Languages() {
			if strings.TrimSpace(e[l]) == "" {
				t.Errorf("%s has no wording in %s", key, l.Name())
			}
			parts := strings.Split(e[l], " || ")
			if counted != (len(parts) == 2) {
				t.Errorf("%s: in %s there are %d wordings for its counts", key, l.Name(), len(parts))
			}
			for _, part := range parts {
				if got := holes(part); !slices.Equal(got, want) {
					t.Errorf("%s: %q has the figures %v, the English %v", key, part, got, want)
				}
			}
		}
	}
}

var verb = regexp.MustCompile(`%(?:\[(\d+)\])?([-+# 0]*[\d.]*[a-zA-Z%])`)

// holes are the figures that a wording takes, as "1d": its place among the arguments, and
// its kind.
func holes(text string) []string {
	var found []string
	next := 1
	for _, m := range verb.FindAllStringSubmatch(text, -1) {
		if m[2] == "%" {
			continue
		}
		if m[1] != "" {
			next, _ = strconv.Atoi(m[1])
		}
		found = append(found, strconv.Itoa(next)+m[2])
		next++
	}
	slices.Sort(found)
	return found
}

var (
	spoken  = regexp.MustCompile(`\b(?:Say|Count|say|count)\(\s*(?:\w+,\s*)?"([a-z][a-zA-Z0-9.-]*)"\s*([,)+])`)
	literal = regexp.MustCompile(`"([a-z][a-zA-Z0-9-]*(?:\.[a-zA-Z0-9-]+)+)"`)
)

func TestEveryMessageIsSaidAndKnown(t *testing.T) {
	said := map[string]bool{}
	var prefixes []string // of keys that a page puts together: "jobs.state." + state
	sources(t, func(path, text string) {
		for _, m := range spoken.FindAllStringSubmatch(text, -1) {
			key, follows := m[1], m[2]
			if follows == "+" && strings.HasSuffix(key, ".") {
				prefixes = append(prefixes, key)
				continue
			}
			if _, ok := catalogue[key]; !ok && strings.Contains(key, ".") {
				t.Errorf("%s says %q, which is in no catalogue", path, key)
			}
		}
		for _, m := range literal.FindAllStringSubmatch(text, -1) {
			said[m[1]] = true
		}
	})
	for key := range catalogue {
		question := strings.TrimSuffix(key, ".help") // a question and its help are said together
		if !said[question] && !slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(key, p) }) {
			t.Errorf("nobody says %q", key)
		}
	}
}

// sources are the pages and what serves them; what templates were made into is left out.
func sources(t *testing.T, each func(path, text string)) {
	t.Helper()
	err := filepath.WalkDir("..", func(path string, d os.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (path == filepath.Join("..", "words") || d.Name() == "node_modules" || d.Name() == "testdata"):
			return filepath.SkipDir
		case strings.HasSuffix(path, "_templ.go") || strings.HasSuffix(path, "_test.go"):
			return nil
		}
		if ext := filepath.Ext(path); ext == ".go" || ext == ".templ" {
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			each(path, string(text))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestABrowserIsAnsweredInItsLanguage(t *testing.T) {
	for _, c := range []struct {
		header string
		want   Language
	}{
		{"", English},
		{"de", German},
		{"fr-CA,fr;q=0.9,en;q=0.8", French},
		{"it-IT, es-MX;q=0.7, en;q=0.3", Spanish},
		{"ja, zh;q=0.5", English},
		{"DE-at", German},
	} {
		if got := Wanted(c.header); got != c.want {
			t.Errorf("a browser that wants %q is answered in %s, not in %s", c.header, got.Name(), c.want.Name())
		}
	}
}

func TestAMessageIsSaidInTheLanguageOfItsContext(t *testing.T) {
	said := func(l Language) string { return Count(In(context.Background(), l), "jobs.count", 0) }
	for l, want := range map[Language]string{English: "0 jobs", French: "0 chantier", Spanish: "0 trabajos", German: "0 Aufträge"} {
		if got := said(l); got != want {
			t.Errorf("no job is %q in %s, not %q", got, l.Name(), want)
		}
	}
	ctx := In(context.Background(), German)
	if got := Label(ctx, "system.precharge"); got != "Vordruck" {
		t.Errorf("the precharge is called %q", got)
	}
	if got := Help(context.Background(), "system.precharge", "its precharge as found"); got != "its precharge as found" {
		t.Errorf("English explains with the document’s own sentence, not %q", got)
	}
	if got := Choice(ctx, "low-loss header"); got != "hydraulische Weiche" {
		t.Errorf("a low-loss header is %q", got)
	}
	if got := fmt.Sprint(Figure(ctx, "1.5"), " ", Figure(context.Background(), "1.5")); got != "1,5 1.5" {
		t.Errorf("one and a half is written %q", got)
	}
}
