package housekeeping

import (
	"net/url"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"
)

var (
	link   = regexp.MustCompile(`\]\(([^)\s]+)\)`)
	fenced = regexp.MustCompile("(?ms)^```.*?^```|`[^`\n]+`")
)

// links lists where a page points within the repository, by path from the root.
func links(t *testing.T, page string) []string {
	t.Helper()
	var to []string
	for _, found := range link.FindAllStringSubmatch(fenced.ReplaceAllString(read(t, page), ""), -1) {
		u, err := url.Parse(found[1])
		if err != nil {
			t.Errorf("%s: link %q: %v", page, found[1], err)
			continue
		}
		if u.Scheme == "" && u.Path != "" {
			to = append(to, path.Join(path.Dir(page), u.Path))
		}
	}
	return to
}

func TestLinksLeadSomewhere(t *testing.T) {
	for _, page := range files(t, ".md") {
		for _, to := range links(t, page) {
			if _, err := os.Stat(path.Join(root, to)); err != nil {
				t.Errorf("%s points to %s, which is not there", page, to)
			}
		}
	}
}

func TestEveryPageOfTheDocsIsInTheIndex(t *testing.T) {
	const index = "docs/README.md"
	listed := map[string]bool{index: true}
	for _, to := range links(t, index) {
		listed[to] = true
	}
	for _, page := range files(t, ".md", ".json") {
		if strings.HasPrefix(page, "docs/") && !listed[page] {
			t.Errorf("%s is not in %s", page, index)
		}
	}
}
