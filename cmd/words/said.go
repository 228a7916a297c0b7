package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"

	"underfall/geometry/message"
)

// messagePackage is where ids are declared.
const messagePackage = "underfall/geometry/message"

// saying is what is known of an id that is said somewhere.
type saying struct {
	at string // the first place it is said at
	// values go along with it, an example of each, at each place where they can be
	// read off.
	values [][]message.Arg
}

// listed is a package as `go list` tells of it.
type listed struct {
	ImportPath, Dir, Export string
	GoFiles, CgoFiles       []string
	DepOnly                 bool
}

// saidIn are the ids that packages say, tests aside: every constant of the type of
// ids, and those that follow from data.
func saidIn(packages string) (map[message.ID]*saying, error) {
	said := map[message.ID]*saying{}
	for _, id := range fromData() {
		said[id] = &saying{at: "data"}
	}
	list := exec.Command("go", "list", "-deps", "-export", "-json=ImportPath,Dir,Export,GoFiles,CgoFiles,DepOnly", packages)
	list.Dir = root()
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("listing the packages: %w", err)
	}
	exports := map[string]string{}
	var ours []listed
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, fmt.Errorf("reading the list of packages: %w", err)
		}
		exports[p.ImportPath] = p.Export
		if !p.DepOnly {
			ours = append(ours, p)
		}
	}
	files := token.NewFileSet()
	from := importer.ForCompiler(files, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	for _, p := range ours {
		if err := p.read(files, from, said); err != nil {
			return nil, err
		}
	}
	return said, nil
}

// root is the folder of the module, wherever this is run.
func root() string {
	dir, err := os.Getwd()
	for ; err == nil && dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if _, missing := os.Stat(filepath.Join(dir, "go.mod")); missing == nil {
			return dir
		}
	}
	return "."
}

// read adds what a package says. What it has in C is taken as it is used.
func (p listed) read(files *token.FileSet, from types.Importer, said map[message.ID]*saying) error {
	var trees []*ast.File
	for _, name := range slices.Concat(p.GoFiles, p.CgoFiles) {
		tree, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		if err != nil {
			return fmt.Errorf("reading %s: %w", name, err)
		}
		trees = append(trees, tree)
	}
	known := types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}
	c := types.Config{Importer: from, FakeImportC: true}
	if _, err := c.Check(p.ImportPath, files, trees, &known); err != nil {
		return fmt.Errorf("checking the types of %s: %w", p.ImportPath, err)
	}
	for _, tree := range trees {
		ast.Inspect(tree, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				note(said, files, &known, n)
			case ast.Expr:
				if id, ok := idOf(&known, n); ok && said[id] == nil {
					said[id] = &saying{at: files.Position(n.Pos()).String()}
				}
			}
			return true
		})
	}
	return nil
}

// idOf is the id that an expression stands for.
func idOf(known *types.Info, e ast.Expr) (message.ID, bool) {
	t, ok := known.Types[e]
	if !ok || t.Value == nil || t.Value.Kind() != constant.String || !isNamed(t.Type, "ID") {
		return "", false
	}
	id := constant.StringVal(t.Value)
	return message.ID(id), id != ""
}

func isNamed(t types.Type, name string) bool {
	n, ok := t.(*types.Named)
	return ok && n.Obj().Name() == name && n.Obj().Pkg() != nil && n.Obj().Pkg().Path() == messagePackage
}

// note writes down what values go along with an id in a call, where all can be read
// off.
func note(said map[message.ID]*saying, files *token.FileSet, known *types.Info, call *ast.CallExpr) {
	if len(call.Args) == 0 || call.Ellipsis.IsValid() {
		return
	}
	id, ok := idOf(known, call.Args[0])
	if !ok {
		return
	}
	signature, ok := known.Types[call.Fun].Type.(*types.Signature)
	if !ok || !signature.Variadic() {
		return
	}
	if last, ok := signature.Params().At(signature.Params().Len() - 1).Type().(*types.Slice); !ok || !isNamed(last.Elem(), "Arg") {
		return
	}
	values := []message.Arg{}
	for _, a := range call.Args[1:] {
		value, ok := exampleOf(known, a)
		if !ok {
			return
		}
		values = append(values, value)
	}
	if said[id] == nil {
		said[id] = &saying{at: files.Position(call.Pos()).String()}
	}
	said[id].values = append(said[id].values, values)
}

// exampleOf is a value as it may go along: of the name and kind that a call which
// makes one gives it, or that one written out has.
func exampleOf(known *types.Info, e ast.Expr) (message.Arg, bool) {
	if !isNamed(known.Types[e].Type, "Arg") {
		return message.Arg{}, false
	}
	switch e := e.(type) {
	case *ast.CallExpr:
		if len(e.Args) == 0 {
			return message.Arg{}, false
		}
		name, ok := stringOf(known, e.Args[0])
		fun := e.Fun
		if in, is := fun.(*ast.SelectorExpr); is {
			fun = in.Sel
		}
		return message.Arg{Name: name, Value: example(fun.(*ast.Ident).Name)}, ok
	case *ast.CompositeLit:
		var name string
		var value message.Value
		for k, part := range e.Elts {
			isName := k == 0
			if pair, ok := part.(*ast.KeyValueExpr); ok {
				part, isName = pair.Value, pair.Key.(*ast.Ident).Name == "Name"
			}
			if isName {
				name, _ = stringOf(known, part)
			} else if of, ok := known.Types[part].Type.(*types.Named); ok {
				value = example(of.Obj().Name())
			}
		}
		return message.Arg{Name: name, Value: value}, name != "" && value != nil
	}
	return message.Arg{}, false
}

// example is a value of a kind, by the name of its type or of the function that
// makes one; somebody's own text for what has no number.
func example(kind string) message.Value {
	switch kind {
	case "Length", "MM":
		return message.Length{MM: 1234.56}
	case "Layer":
		return message.Length{MM: 3.26, Round: message.Half}
	case "Fine":
		return message.Length{MM: 0.34, Round: message.Tenth}
	case "Level", "At":
		return message.Level{MM: -72.34}
	case "Fall", "Slope":
		return message.Fall{Slope: 0.0213}
	case "Flow":
		return message.Flow{LPS: 0.2}
	case "Speed":
		return message.Speed{MPS: 0.754}
	case "Volume":
		return message.Volume{Litres: 37.85}
	case "Load":
		return message.Load{KNM2: 1.5}
	case "Mass":
		return message.Mass{KG: 12.5}
	case "Liquid":
		return message.Liquid{Litres: 0.31}
	case "Yield":
		return message.Yield{KGPerLitre: 1.4}
	case "Coverage":
		return message.Coverage{LitresPerM2: 0.15}
	case "Minutes":
		return message.Minutes(1.5)
	case "Degrees":
		return message.Degrees(22.5)
	case "Share":
		return message.Share(0.125)
	case "Count", "N":
		return message.Count(2)
	case "Number", "No":
		return message.Number(3)
	case "Letter", "Wall":
		return message.Letter(2)
	case "Corner", "AtCorner":
		return message.Corner{2, 3}
	case "Size", "Nominal":
		return message.Size(40)
	}
	return message.Own("…")
}

func stringOf(known *types.Info, e ast.Expr) (string, bool) {
	t := known.Types[e]
	if t.Value == nil || t.Value.Kind() != constant.String {
		return "", false
	}
	return constant.StringVal(t.Value), true
}

// inOrder are ids in order.
func inOrder(said map[message.ID]*saying) []message.ID { return slices.Sorted(maps.Keys(said)) }
