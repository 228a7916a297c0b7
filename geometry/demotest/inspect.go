package demotest

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
)

// Holds tells whether a point lies in a closed mesh: a ray up from it goes out
// through more faces than it comes in by, also where bodies overlap.
func Holds(m *solid.Mesh, p mgl64.Vec3) bool {
	out := 0
	// A hair off, so that the ray meets no edge.
	x, y := p.X()+1.7e-5, p.Y()+2.3e-5
	for _, tri := range m.Triangles {
		a, b, c := m.Vertices[tri[0]], m.Vertices[tri[1]], m.Vertices[tri[2]]
		side := func(u, v mgl64.Vec3) float64 { return (v.X()-u.X())*(y-u.Y()) - (v.Y()-u.Y())*(x-u.X()) }
		s, t, u := side(b, c), side(c, a), side(a, b)
		if (s > 0) == (t > 0) && (t > 0) == (u > 0) && (s*a.Z()+t*b.Z()+u*c.Z())/(s+t+u) > p.Z() {
			// Counter-clockwise seen from above a face looks up.
			if s > 0 {
				out++
			} else {
				out--
			}
		}
	}
	return out > 0
}

// WellInside tells whether a point lies in a region and no nearer to its border
// than given: Contains knows no margin to the inside.
func WellInside(r plan.Region, p plan.Point, marginMM float64) bool {
	return r.Contains(p, 0) && r.EdgeMM(p) >= marginMM
}

// Inspect is the one check every built job must pass: part names are unique,
// bodies are closed and keep their volume, the water's path falls as the run
// says, the layers of every stack follow each other without gap or overlap, and
// rows and measurements have ids of their own.
func Inspect(t interface {
	Helper()
	Errorf(string, ...any)
}, r geometry.Result) {
	t.Helper()
	seen := map[string]bool{}
	for _, p := range r.Assembly.Parts {
		if seen[p.ID] {
			t.Errorf("%s: two parts are called %s", r.Settled.Name, p.ID)
		}
		seen[p.ID] = true
		m := p.Mesh()
		if err := m.CheckClosed(); err != nil {
			t.Errorf("%s: %s: %v", r.Settled.Name, p.ID, err)
		}
		if got, want := m.Volume(), p.Shape.Volume(); !(math.Abs(got-want) <= 1e-6*math.Abs(want)+1e-2) || !(want > 0) {
			t.Errorf("%s: %s: mesh volume %v, shape volume %v", r.Settled.Name, p.ID, got, want)
		}
	}
	rows := map[buildup.RowID]bool{}
	for _, row := range r.Schedule {
		if math.IsNaN(row.Value) || math.IsInf(row.Value, 0) {
			t.Errorf("%s: level of %q is %v", r.Settled.Name, row.Message(), row.Value)
		}
		if rows[row.ID] {
			t.Errorf("%s: two rows of the schedule have one id: %s", r.Settled.Name, row.Message())
		}
		rows[row.ID] = true
		for i := 1; i < len(row.Stack); i++ {
			if row.Stack[i].BottomMM != row.Stack[i-1].TopMM || row.Stack[i].ThicknessMM() <= 0 {
				t.Errorf("%s: %s: layers %+v and %+v", r.Settled.Name, row.Message(), row.Stack[i-1], row.Stack[i])
			}
		}
	}
	measured := map[string]bool{}
	for _, m := range r.Measured {
		if measured[m.ID()] {
			t.Errorf("%s: two measurements have one id: %s of %s", r.Settled.Name, m.Quantity, m.Subject)
		}
		measured[m.ID()] = true
		if _, ok := rule.Quantities()[m.Quantity]; !ok {
			t.Errorf("%s: %q is measured but not described", r.Settled.Name, m.Quantity)
		}
		if math.IsNaN(m.Value) {
			t.Errorf("%s: %s of %s is not a number", r.Settled.Name, m.Quantity, m.Subject)
		}
		for _, v := range m.At {
			if math.IsNaN(v) || math.Abs(v) > 1e6 {
				t.Errorf("%s: %s of %s lies at %v", r.Settled.Name, m.Quantity, m.Subject, m.At)
			}
		}
	}
}
