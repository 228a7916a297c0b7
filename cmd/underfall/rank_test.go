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
	"geometry/message":       0,
	"geometry/unit":          1,
	"geometry/plan":          1,
	"geometry/source":        1,
	"geometry/hydraulic":     0,
	"geometry/placing":       0,
	"geometry/material":      1,
	"geometry/parallel":      0,
	"geometry/job/version1":  0,
	"geometry/job/version2":  0,
	"geometry/job/version3":  0,
	"geometry/job/version4":  0,
	"geometry/job/version5":  0,
	"geometry/job/version6":  0,
	"geometry/job/version7":  0,
	"geometry/job/version8":  0,
	"geometry/job/version9":  0,
	"geometry/job/version10": 0,
	"geometry/sun":           0,
	"geometry/guide":         2,
	"geometry/part":          2,
	"geometry/solid":         2,
	"geometry/survey":        2,
	"geometry/job":           3,
	"geometry/layout":        4,
	"geometry/clash":         4,
	"geometry/rule":          4,
	"geometry/waste":         5,
	"assets":                 5,
	"geometry/level":         6,
	"geometry/tolerance":     7,
	"geometry/joist":         7,
	"geometry/edit":          7,
	"geometry/buildup":       7,
	"geometry/asbuilt":       8,
	"geometry/question":      8,
	"geometry/settle":        8,
	"geometry/assembly":      8,
	"geometry/stage":         9,
	"geometry/boarding":      9,
	"geometry/measure":       10,
	"geometry/chance":        11,
	"geometry/search":        11,
	"geometry":               12,
	"app/store":              12,
	"geometry/unknown":       13,
	"geometry/section":       13,
	"geometry/progress":      13,
	"geometry/demotest":      13,
	"geometry/sketch":        14,
	"geometry/fit":           13,
	"geometry/furnish":       13,
	"geometry/takeoff":       13,
	"app/words":              13,
	"app/pen":                1,
	"app/golden":             0,
	"app/guard":              13,
	"viewer/trace":           13,
	"viewer":                 14,
	"app/desk":               14,
	"app/role":               13,
	"app/version":            14,
	"app/paint":              14,
	"app/still":              15,
	"app/survival":           15,
	"app/sheet":              15,
	"geometry/price":         14,
	"geometry/sequence":      13,
	"geometry/setout":        14,
	"geometry/ways":          14,
	"app/theme":              15,
	"app/control":            16,
	"app/sight":              16,
	"app/roomtest":           16,
	"app/start":              17,
	"app/answer":             17,
	"app/drawing":            17,
	"app/lists":              17,
	"app/runs":               17,
	"app/show":               17,
	"app/space":              17,
	"app/rail":               17,
	"app/tag":                17,
	"app/papers":             17,
	"app/tray":               17,
	"app/trial":              17,
	"app":                    18,
	"app/command":            19,
	"cmd/mutants":            19,
	"cmd/notices":            19,
	"cmd/words":              19,
	"cmd/underfall":          20,
}

// only lists imports that are kept to some packages.
var only = map[string][]string{
	"fyne.io/fyne/v2/app":              {"app"},
	"fyne.io/fyne/v2":                  {"app", "app/theme", "app/control", "app/sight", "app/answer", "app/rail", "app/tag", "app/tray", "app/trial", "app/papers", "app/lists", "app/runs", "app/show", "app/drawing", "app/space", "app/start", "app/roomtest"},
	"github.com/g3n/engine/gls":        {"viewer"},
	"github.com/g3n/engine/math32":     {"viewer"},
	"github.com/go-gl/gl/v3.3-core/gl": {"viewer", "viewer/trace"},
	"github.com/go-gl/gl/v4.3-core/gl": {"viewer/trace"},
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

// The build without a window needs nothing that draws on a screen.
func TestNoWindowLinksNoGraphics(t *testing.T) {
	readsSources(t)
	out, err := exec.Command("go", "list", "-deps", "-tags", "nowindow", "underfall/cmd/underfall").Output()
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Fields(string(out))
	if !contains(all, "underfall/app/command") || !contains(all, "underfall/app/paint") {
		t.Fatalf("%d packages are linked, and not those that check and draw", len(all))
	}
	for _, path := range all {
		for _, graphics := range []string{"fyne.io/", "github.com/fyne-io/", "github.com/g3n/", "github.com/go-gl/gl", "underfall/viewer"} {
			if strings.HasPrefix(path, graphics) || path == "underfall/app" {
				t.Errorf("%s is linked", path)
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
