// Package assets holds what Underfall carries with it: rule packs, demo jobs,
// the job format's schema, catalogues of words and the notices of others.
package assets

import (
	"embed"
	"fmt"
	"io/fs"
	"sort"

	"underfall/geometry/job"
	"underfall/geometry/rule"
)

//go:embed rules/*.json
var rules embed.FS

//go:embed demos/*.json
var demos embed.FS

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

// Demo is an embedded demo job.
type Demo struct {
	File string
	Job  job.Job
}

// Demos are the demo jobs in the order of their file names.
func Demos() ([]Demo, error) {
	names, err := fs.Glob(demos, "demos/*.json")
	if err != nil {
		return nil, fmt.Errorf("listing the demo jobs: %w", err)
	}
	sort.Strings(names)
	var out []Demo
	for _, name := range names {
		data, err := demos.ReadFile(name)
		if err != nil {
			return nil, fmt.Errorf("reading %s: %w", name, err)
		}
		j, err := job.Parse(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out = append(out, Demo{name[len("demos/"):], j})
	}
	return out, nil
}
