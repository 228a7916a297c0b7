package main_test

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// ranks orders the packages: one imports lower ranks only, never its own. The
// table is in DEVELOPERS.md as well.
var ranks = map[string]int{
	"geometry/unit":         0,
	"geometry/plan":         0,
	"geometry/hydraulic":    0,
	"geometry/material":     0,
	"geometry/parallel":     0,
	"geometry/job/version1": 0,
	"geometry/job/version2": 0,
	"geometry/solid":        1,
	"geometry/job":          1,
	"geometry/layout":       2,
	"geometry/clash":        2,
	"geometry/rule":         2,
	"geometry/waste":        3,
	"assets":                3,
	"geometry/level":        4,
	"geometry/joist":        5,
	"geometry/edit":         5,
	"geometry/buildup":      5,
	"geometry/asbuilt":      6,
	"geometry/assembly":     6,
	"geometry/stage":        7,
	"geometry/measure":      8,
	"geometry/chance":       9,
	"geometry/search":       9,
	"geometry":              10,
	"app/store":             10,
	"geometry/section":      11,
	"geometry/demotest":     11,
	"app/guard":             11,
	"viewer":                12,
	"app/desk":              12,
	"app/paint":             12,
	"app":                   13,
	"app/command":           14,
	"cmd/mutants":           14,
	"cmd/notices":           14,
	"cmd/underfall":         15,
}

// only lists imports that are kept to some packages.
var only = map[string][]string{
	"fyne.io/fyne/v2/app":              {"app"},
	"fyne.io/fyne/v2":                  {"app"},
	"github.com/g3n/engine/gls":        {"viewer"},
	"github.com/g3n/engine/math32":     {"viewer"},
	"github.com/go-gl/gl/v3.3-core/gl": {"viewer"},
}

// pureForbids are imports the geometry does without: it is pure.
var pureForbids = []string{"os", "net", "log", "time", "net/http", "math/rand", "fyne.io/fyne/v2"}

// readsSources makes the source of the whole program an input of a test that
// runs the go command on it: the test is linked without that code, so go test
// would keep its result however the code changes. Folders that are read count
// as inputs.
func readsSources(t *testing.T) {
	t.Helper()
	for _, root := range []string{"app", "assets", "cmd", "geometry", "viewer"} {
		err := filepath.WalkDir(filepath.Join("..", "..", root), func(path string, entry fs.DirEntry, err error) error {
			if err == nil && entry.IsDir() {
				_, err = os.ReadDir(path)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

func TestRanks(t *testing.T) {
	readsSources(t)
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}}:{{join .Imports " "}}`, "underfall/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		path, imports, _ := strings.Cut(line, ":")
		name := strings.TrimPrefix(path, "underfall/")
		rank, ok := ranks[name]
		if !ok {
			t.Errorf("%s has no rank; give it one here and in DEVELOPERS.md", name)
			continue
		}
		for _, i := range strings.Fields(imports) {
			if other, ours := strings.CutPrefix(i, "underfall/"); ours && ranks[other] >= rank {
				t.Errorf("%s (rank %d) imports %s (rank %d)", name, rank, other, ranks[other])
			}
			for _, f := range pureForbids {
				if i == f && strings.HasPrefix(name, "geometry") {
					t.Errorf("%s imports %s", name, i)
				}
			}
			if allowed, kept := only[i]; kept && !contains(allowed, name) {
				t.Errorf("%s imports %s, which is kept to %v", name, i, allowed)
			}
		}
	}
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
