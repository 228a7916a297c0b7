package geometry_test

import (
	"testing"

	"underfall/assets"
	"underfall/geometry"
)

// BenchmarkEvaluate evaluates each demo: everything but the triangle meshes,
// which parts make when they are first drawn.
func BenchmarkEvaluate(b *testing.B) {
	packs, err := assets.Rules()
	if err != nil {
		b.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil {
		b.Fatal(err)
	}
	for _, d := range demos {
		b.Run(d.File, func(b *testing.B) {
			for b.Loop() {
				geometry.Evaluate(d.Job, packs[d.Job.Region])
			}
		})
	}
}

// BenchmarkMeshes makes every mesh of each demo.
func BenchmarkMeshes(b *testing.B) {
	packs, err := assets.Rules()
	if err != nil {
		b.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil {
		b.Fatal(err)
	}
	for _, d := range demos {
		r := geometry.Evaluate(d.Job, packs[d.Job.Region])
		b.Run(d.File, func(b *testing.B) {
			for b.Loop() {
				for _, p := range r.Assembly.Parts {
					p.Shape.Mesh()
				}
			}
		})
	}
}
