// Package demotest gives tests the rule packs, jobs to work on and their results.
package demotest

import (
	"embed"
	"io/fs"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/rule"
)

// Packs are the rule packs by region.
func Packs(tb testing.TB) map[string]rule.Pack {
	tb.Helper()
	p, err := assets.Rules()
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

//go:embed rooms/*.json
var rooms embed.FS

func readRooms() ([]assets.Demo, error) {
	sub, err := fs.Sub(rooms, "rooms")
	if err != nil {
		return nil, err
	}
	return assets.Jobs(sub)
}

// Rooms are six jobs whose numbers tests know by heart, in order: five sound ones and
// one that cannot be built. They are saved jobs of version 3 and stay as they are,
// whatever becomes of the demos.
func Rooms(tb testing.TB) []assets.Demo {
	tb.Helper()
	d, err := readRooms()
	if err != nil {
		tb.Fatal(err)
	}
	return d
}

// Results are the rooms evaluated under their regions' rules.
func Results(tb testing.TB) []geometry.Result {
	tb.Helper()
	packs := Packs(tb)
	var out []geometry.Result
	for _, d := range Rooms(tb) {
		out = append(out, geometry.Evaluate(d.Job, packs[d.Job.Region]))
	}
	return out
}

// Shown are the demos that Underfall comes with, evaluated; their numbers may change.
func Shown(tb testing.TB) []geometry.Result {
	tb.Helper()
	demos, err := assets.Demos()
	if err != nil {
		tb.Fatal(err)
	}
	packs := Packs(tb)
	var out []geometry.Result
	for _, d := range demos {
		out = append(out, geometry.Evaluate(d.Job, packs[d.Job.Region]))
	}
	return out
}
