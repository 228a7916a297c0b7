package geometry_test

import (
	"testing"

	"underfall/geometry"
	"underfall/geometry/demotest"
)

// BenchmarkEvaluate evaluates each demo: everything, the covering of every part
// with triangles too, but for lifting those to meshes, which parts do when they
// are first drawn.
func BenchmarkEvaluate(b *testing.B) {
	packs := demotest.Packs(b)
	for _, d := range demotest.Demos(b) {
		b.Run(d.File, func(b *testing.B) {
			for b.Loop() {
				geometry.Evaluate(d.Job, packs[d.Job.Region])
			}
		})
	}
}

// BenchmarkMeshes makes every mesh of each demo.
func BenchmarkMeshes(b *testing.B) {
	packs := demotest.Packs(b)
	for _, d := range demotest.Demos(b) {
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
