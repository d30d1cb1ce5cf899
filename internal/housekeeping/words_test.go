package housekeeping

import (
	"encoding/json"
	"path"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

// unwelcome are words that say something about the machine or the circumstances in
// which a file was written, and nothing to its reader. They are put together from
// pieces so that this list does not find itself.
var unwelcome = []struct {
	words  *regexp.Regexp
	reason string
}{
	{regexp.MustCompile(`/wo` + `rk/|/tm` + `p/|/ro` + `ot/|/ho` + `me/[a-z]|/User` + `s/[a-zA-Z]|C:\\User` + `s`), "a path of one machine"},
	{regexp.MustCompile(`(?i)\b(cla` + `ude|anthro` + `pic|open` + `ai|chat` + `gpt|gpt-\d|gem` + `ini|co` + `pilot|ll` + `ms?)\b`), "how a text came about does not concern its reader"},
	{regexp.MustCompile(`(?i)\b(sub` + `-?agents?|(our|this|other) age` + `nts?|language mod` + `els?|AI[- ](assist` + `ant|gener` + `ated)|generated (by|with) AI)\b`), "how a text came about does not concern its reader"},
	{regexp.MustCompile(`(?i)\b((this|our|a|an|earlier|previous|next|other) (working )?sess` + `ions? (started|wrote|did|was asked|will)|the br` + `ief says|other wor` + `kers|common\` + `.md|shared/(ch` + `ecks|DES` + `IGN|sty` + `le)|our shared fi` + `les)\b`), "notes of the workplace stay out of the repository"},
	{regexp.MustCompile(`\b(FIX` + `ME|X` + `XX|HA` + `CK)\b`), "finish it, or write down what is not done where a reader looks for it"},
}

// isText tells whether a person could read the file in an editor.
func isText(data string) bool {
	head := data[:min(len(data), 8000)]
	return !strings.Contains(head, "\x00") && utf8.ValidString(data)
}

func TestNoUnwelcomeWords(t *testing.T) {
	for _, name := range files(t) {
		text := read(t, name)
		if !isText(text) || path.Base(name) == "go.sum" || path.Base(name) == "package-lock.json" {
			continue // checksums spell anything
		}
		for i, line := range strings.Split(text, "\n") {
			for _, u := range unwelcome {
				if found := u.words.FindString(line); found != "" {
					t.Errorf("%s:%d: %q: %s", name, i+1, found, u.reason)
				}
			}
		}
	}
}

// A lock file that names hosts ties every build to the mirror of the person who
// wrote it last. Versions and checksums say all that is needed.
func TestLockFilesNameNoHost(t *testing.T) {
	for _, name := range files(t) {
		if path.Base(name) != "package-lock.json" {
			continue
		}
		var lock struct {
			Packages map[string]struct {
				Version, Resolved, Integrity string
				Link                         bool
			}
		}
		if err := json.Unmarshal([]byte(read(t, name)), &lock); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for pkg, p := range lock.Packages {
			switch {
			case pkg == "" || p.Link:
			case p.Resolved != "":
				t.Errorf("%s: %s is tied to %s; write the file with omit-lockfile-registry-resolved=true", name, pkg, p.Resolved)
			case p.Integrity == "":
				t.Errorf("%s: %s has no checksum", name, pkg)
			}
		}
	}
}
