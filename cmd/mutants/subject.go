package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// leftOut are packages that only serve tests, and frozen ones.
var leftOut = []string{"demotest", "version1", "version2", "version3", "version4"}

// subject is a package that is mutated.
type subject struct {
	path    string
	files   []*source
	tested  bool // has tests of its own
	set     *token.FileSet
	imports types.Importer
	info    *types.Info
}

// source is a file of a subject, as it was read.
type source struct {
	name   string // from the module's folder, with slashes
	path   string
	text   []byte
	syntax *ast.File
}

// listedPackage is what go list tells about a package.
type listedPackage struct {
	ImportPath, Dir, Export            string
	GoFiles, TestGoFiles, XTestGoFiles []string
	DepOnly                            bool
	Module                             *struct{ Path, Dir string }
}

// listing is what go list tells from a folder about packages and all that they
// stand on.
func listing(ctx context.Context, folder string, patterns ...string) (listed []listedPackage, err error) {
	cmd := exec.CommandContext(ctx, "go", append([]string{"list", "-export", "-deps",
		"-json=ImportPath,Dir,Export,GoFiles,TestGoFiles,XTestGoFiles,DepOnly,Module"}, patterns...)...)
	cmd.Dir = folder
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("listing the packages: %w\n%s", err, errs.String())
	}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listedPackage
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return listed, nil
		} else if err != nil {
			return nil, fmt.Errorf("reading go's list of packages: %w", err)
		}
		listed = append(listed, p)
	}
}

// importerOf finds the types of listed packages in what the compiler wrote of
// them.
func importerOf(set *token.FileSet, listed []listedPackage) types.Importer {
	exports := map[string]string{}
	for _, p := range listed {
		exports[p.ImportPath] = p.Export
	}
	return importer.ForCompiler(set, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
}

// load reads and type-checks the packages that are mutated, as go list finds
// them from a folder, in the order of their paths.
func load(ctx context.Context, folder, pattern string) ([]*subject, error) {
	listed, err := listing(ctx, folder, pattern)
	if err != nil {
		return nil, err
	}
	set := token.NewFileSet()
	imports := importerOf(set, listed)
	listed = slices.DeleteFunc(listed, func(p listedPackage) bool {
		return p.DepOnly || slices.Contains(leftOut, path.Base(p.ImportPath))
	})
	slices.SortFunc(listed, func(a, b listedPackage) int { return strings.Compare(a.ImportPath, b.ImportPath) })
	var subjects []*subject
	for _, p := range listed {
		s := &subject{path: p.ImportPath, set: set, imports: imports, tested: len(p.TestGoFiles)+len(p.XTestGoFiles) > 0}
		for _, name := range p.GoFiles {
			file := filepath.Join(p.Dir, name)
			text, err := os.ReadFile(file)
			if err != nil {
				return nil, fmt.Errorf("reading a source: %w", err)
			}
			within, err := filepath.Rel(p.Module.Dir, file)
			if err != nil {
				return nil, fmt.Errorf("placing %s in the module: %w", file, err)
			}
			s.files = append(s.files, &source{name: filepath.ToSlash(within), path: file, text: text})
		}
		if err := s.check(); err != nil {
			return nil, err
		}
		subjects = append(subjects, s)
	}
	return subjects, nil
}

// check parses the files and finds the types in them.
func (s *subject) check() error {
	for _, f := range s.files {
		var err error
		if f.syntax, err = parser.ParseFile(s.set, f.path, f.text, parser.SkipObjectResolution); err != nil {
			return fmt.Errorf("parsing %s: %w", f.name, err)
		}
	}
	s.info = &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}
	if err := s.checkTypes(s.files, s.info); err != nil {
		return fmt.Errorf("checking %s: %w", s.path, err)
	}
	return nil
}

// checkTypes says what is wrong with the package made of these files.
func (s *subject) checkTypes(files []*source, info *types.Info) error {
	var syntax []*ast.File
	for _, f := range files {
		syntax = append(syntax, f.syntax)
	}
	config := types.Config{Importer: s.imports}
	_, err := config.Check(s.path, s.set, syntax, info)
	return err
}

// compiles tells whether the package still compiles with the mutant in it. The
// type checker refuses what the compiler would, in a hundredth of its time.
func (m mutant) compiles() bool {
	changed := &source{name: m.file.name, path: m.file.path, text: m.mutated()}
	var err error
	if changed.syntax, err = parser.ParseFile(m.of.set, changed.path, changed.text, parser.SkipObjectResolution); err != nil {
		return false
	}
	files := slices.Clone(m.of.files)
	files[slices.Index(files, m.file)] = changed
	return m.of.checkTypes(files, nil) == nil
}
