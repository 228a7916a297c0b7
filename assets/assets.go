// Package assets holds what Underfall carries with it: rule packs, demo jobs,
// the job format's schema, catalogues of words and the notices of others.
package assets

import (
	"cmp"
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"underfall/geometry/guide"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/rule"
)

//go:embed rules/*.json
var rules embed.FS

//go:embed demos/*.json
var demos embed.FS

//go:embed parts/*.json
var parts embed.FS

//go:embed guide/guide.json
var guideValues []byte

//go:embed pictures/examples/*.jpg
var examples embed.FS

//go:embed words/*/*.json
var words embed.FS

// Words are the catalogues of words: a folder for each language.
func Words() fs.FS {
	sub, err := fs.Sub(words, "words")
	if err != nil {
		panic(err) // the folder's name is written above
	}
	return sub
}

// Rules are the rule packs by region, each joined with the common rules.
func Rules() (map[string]rule.Pack, error) {
	sub, err := fs.Sub(rules, "rules")
	if err != nil {
		return nil, fmt.Errorf("opening the rule packs: %w", err)
	}
	return rule.Load(sub)
}

// Parts are the parts that come with Underfall, from one file a kind. Reading them in
// proves that all are sound and no two of a kind have one id.
func Parts() (part.Shelf, error) {
	names, err := fs.Glob(parts, "parts/*.json")
	if err != nil {
		return part.Shelf{}, fmt.Errorf("listing the parts: %w", err)
	}
	var all part.Shelf
	for _, name := range names {
		data, err := parts.ReadFile(name)
		if err != nil {
			return part.Shelf{}, fmt.Errorf("reading %s: %w", name, err)
		}
		s, err := part.ParseShelf(data)
		if err != nil {
			return part.Shelf{}, fmt.Errorf("%s: %w", name, err)
		}
		all.Add(s)
	}
	if err := all.Check(); err != nil {
		return part.Shelf{}, fmt.Errorf("the parts together: %w", err)
	}
	return all, nil
}

// Guide is what quantities are reckoned with: guide values and usual packs.
func Guide() (guide.Table, error) { return guide.Parse(guideValues) }

// Demo is an embedded demo job.
type Demo struct {
	File string
	Job  job.Job
}

// Picture is a small picture of a demo, as JPEG, for the page that jobs begin on; nil where there is none.
func (d Demo) Picture() []byte {
	data, err := examples.ReadFile("pictures/examples/" + strings.TrimSuffix(d.File, ".json") + ".jpg")
	if err != nil {
		return nil // the plan stands in
	}
	return data
}

// Demos are the demo jobs in the order of their file names.
func Demos() ([]Demo, error) {
	sub, err := fs.Sub(demos, "demos")
	if err != nil {
		return nil, fmt.Errorf("opening the demo jobs: %w", err)
	}
	return Jobs(sub)
}

// Jobs are the jobs of a folder in the order of their file names: of the numbers they
// begin with, then of the letters.
func Jobs(folder fs.FS) ([]Demo, error) {
	names, err := fs.Glob(folder, "*.json")
	if err != nil {
		return nil, fmt.Errorf("listing jobs: %w", err)
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(number(a), number(b)), strings.Compare(a, b))
	})
	var out []Demo
	for _, name := range names {
		data, err := fs.ReadFile(folder, name)
		if err != nil {
			return nil, fmt.Errorf("reading %s: %w", name, err)
		}
		j, err := job.Parse(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out = append(out, Demo{name, j})
	}
	return out, nil
}

// number is what a file name begins with; 0 for none.
func number(name string) int {
	digits, _, _ := strings.Cut(name, "-")
	n, err := strconv.Atoi(digits)
	if err != nil {
		return 0
	}
	return n
}
