// Package demotest gives tests the rule packs, the demo jobs and their results.
package demotest

import (
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

// Demos are the demo jobs, in order.
func Demos(tb testing.TB) []assets.Demo {
	tb.Helper()
	d, err := assets.Demos()
	if err != nil {
		tb.Fatal(err)
	}
	return d
}

// Results are the demo jobs evaluated under their regions' rules.
func Results(tb testing.TB) []geometry.Result {
	tb.Helper()
	packs := Packs(tb)
	var out []geometry.Result
	for _, d := range Demos(tb) {
		out = append(out, geometry.Evaluate(d.Job, packs[d.Job.Region]))
	}
	return out
}
