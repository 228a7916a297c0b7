package app

import (
	"encoding/json"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"underfall/geometry/job"
)

var update = flag.Bool("update", false, "write the catalogue of words")

const catalogue = "../assets/translations/en.json"

// catalogueWords collects every word the window may show: the strings of this
// package.
func catalogueWords(t *testing.T) map[string]string {
	t.Helper()
	words := map[string]string{}
	add := func(s string) {
		if strings.IndexFunc(s, unicode.IsLetter) >= 0 {
			words[s] = s
		}
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			if _, isImport := n.(*ast.ImportSpec); isImport {
				return false
			}
			if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
				// Words begin with a capital or have a space; keys do not.
				if s, err := strconv.Unquote(l.Value); err == nil && s != "" && (unicode.IsUpper([]rune(s)[0]) || strings.Contains(s, " ")) {
					add(s)
				}
			}
			return true
		})
	}
	return words
}

// The catalogue lists every word, so that translators miss none.
func TestCatalogueIsComplete(t *testing.T) {
	words := catalogueWords(t)
	if *update {
		data, err := json.MarshalIndent(words, "", " ")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(catalogue, append(data, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	data, err := os.ReadFile(catalogue)
	if err != nil {
		t.Fatal(err)
	}
	var listed map[string]string
	if err := json.Unmarshal(data, &listed); err != nil {
		t.Fatal(err)
	}
	var missing []string
	for w := range words {
		if _, ok := listed[w]; !ok {
			missing = append(missing, w)
		}
	}
	sort.Strings(missing)
	if len(missing) > 0 {
		t.Errorf("not in the catalogue (run go test ./app -run Catalogue -update): %q", missing)
	}
}

// What a job is made of has its words: groups, parameters with what there is to know
// of them, choices.
func TestTheJobHasItsWords(t *testing.T) {
	b := british(t)
	for _, id := range job.IDs() {
		if b.Text(id) == "" {
			t.Errorf("%s says nothing", id)
		}
	}
}
