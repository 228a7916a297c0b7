package app

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"underfall/app/sight"
)

// Goroutines and timers start through the guard; one that did not would end the
// program by a panic.
func TestGoroutinesAreGuarded(t *testing.T) {
	for _, root := range []string{".", "../viewer"} {
		err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() && entry.Name() == "guard" {
				return filepath.SkipDir
			}
			if entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			set := token.NewFileSet()
			tree, err := parser.ParseFile(set, path, nil, 0)
			if err != nil {
				return err
			}
			for _, d := range tree.Decls {
				ast.Inspect(d, func(n ast.Node) bool {
					unguarded := ""
					switch n := n.(type) {
					case *ast.GoStmt:
						unguarded = "a goroutine"
					case *ast.SelectorExpr:
						if x, ok := n.X.(*ast.Ident); ok && x.Name == "time" && n.Sel.Name == "AfterFunc" {
							unguarded = "a timer"
						}
					}
					if unguarded != "" {
						t.Errorf("%s: %s starts without the guard", set.Position(n.Pos()), unguarded)
					}
					return true
				})
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// All that goes on by itself ends with the window: the drawing, the water, the
// showroom, the search, the count, the keeping. The water and the keeping
// used to go on for ever.
func TestNothingOutlivesTheWindow(t *testing.T) {
	// What the toolkit starts once and keeps is there after the first window.
	first, _ := openWindow(t, Options{})
	first.view.Resize(fyne.NewSize(200, 150))
	until(t, "the first picture", func() bool { return first.view.Drawn() || noticeIn(first.view) != "" })
	first.end()
	settled := runtime.NumGoroutine()
	for range 20 { // what ends by itself may take a moment
		time.Sleep(10 * time.Millisecond)
		settled = min(settled, runtime.NumGoroutine())
	}
	w, _ := openWindow(t, Options{})
	w.view.Resize(fyne.NewSize(200, 150))
	until(t, "the picture", func() bool { return w.view.Drawn() || noticeIn(w.view) != "" })
	pressesIn(w.runs.Object(), "Find runs")[0].OnPressed()
	w.openShowroom()
	w.sight.Change(func(s *sight.State) { s.Water = true })
	for _, f := range w.followers {
		f.stop() // what holds still goes on once more
		f.follow(w.change.Result)
	}
	w.view.Redraw()
	if runtime.NumGoroutine() < settled+5 {
		t.Fatalf("only %d goroutines more: nothing goes on", runtime.NumGoroutine()-settled)
	}
	w.end()
	until(t, "the end of what went on", func() bool { return runtime.NumGoroutine() <= settled })
}
