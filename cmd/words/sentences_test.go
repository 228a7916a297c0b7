package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// sentence is what reads like words for people: two words one after the other.
var sentence = regexp.MustCompile(`\pL{2,}[,:;]? \pL{2,}`)

// forMenders are calls whose text is for whoever mends the program.
var forMenders = map[string]bool{"fmt.Errorf": true, "errors.New": true, "panic": true, "parallel.Guard": true, "Guard": true}

// kept are words that are no sentences: of a file, of a library, of the trade's own
// classes of timber.
var kept = map[string]string{
	"json: unknown field ": "what the library for JSON says, to be read",
	"New shower":           "a new job's name where no catalogue gives one",
	"Hem-Fir No.1":         "a class of timber",
	"SPF No.2":             "a class of timber",
	" fl oz":               "a unit",
	" fl oz/ft²":           "a unit",
	"run axis":             "what a line of a drawing stands for",

	"the driver does not say why": "in the place of what a driver says, to be read",
}

// shades tells that a text is part of a program for the graphics card: it has statements, or declares or defines what one reads.
func shades(text string) bool {
	return strings.Contains(text, ";\n") || strings.Contains(text, "#version") || strings.Contains(text, "#define ")
}

// Nothing in geometry or viewer makes a sentence.
func TestNoSentencesBelowTheApp(t *testing.T) {
	read := 0
	for _, folder := range []string{"geometry", "viewer"} {
		err := filepath.WalkDir(filepath.Join(root(), folder), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") ||
				strings.Contains(path, "demotest") || strings.HasSuffix(path, "shaders.go") {
				return err
			}
			files := token.NewFileSet()
			tree, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			read++
			var within []ast.Node
			ast.Inspect(tree, func(n ast.Node) bool {
				if n == nil {
					within = within[:len(within)-1]
					return true
				}
				within = append(within, n)
				l, ok := n.(*ast.BasicLit)
				if !ok || l.Kind != token.STRING {
					return true
				}
				text, err := strconv.Unquote(l.Value)
				if _, is := kept[text]; err == nil && sentence.MatchString(text) && !is && !shades(text) && !told(within) {
					t.Errorf("%s: %q: say it as a message", files.Position(l.Pos()), text)
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if read < 100 {
		t.Errorf("only %d files were read", read)
	}
}

// told tells whether a text is only for whoever mends the program: in an error, or in
// what shows a value.
func told(within []ast.Node) bool {
	for _, n := range within {
		switch n := n.(type) {
		case *ast.FuncDecl:
			if name := n.Name.Name; name == "String" || name == "Error" || name == "describe" {
				return true
			}
		case *ast.CallExpr:
			switch f := n.Fun.(type) {
			case *ast.Ident:
				if forMenders[f.Name] {
					return true
				}
			case *ast.SelectorExpr:
				if x, ok := f.X.(*ast.Ident); ok && forMenders[x.Name+"."+f.Sel.Name] {
					return true
				}
			}
		}
	}
	return false
}
