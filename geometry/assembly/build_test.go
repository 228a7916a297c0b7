package assembly_test

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// built is an assembly with the levels it was made of.
type built struct {
	t *testing.T
	assembly.Assembly
	stage.Levelled
}

// build makes the assembly of the starting job with a change. The bodies of the
// starting job, which most tests here begin with, follow from these levels, by
// hand: floor 0, adhesive 3, base up to 72, bed to 75, flange 95 with the trap
// standing on the floor, outlet's invert 20, tile at the drain 108. The room is
// 2400 × 1900 from the origin, the shower its left 1400 × 900 at the back, the
// drain 800 × 70 about (700, 1852), the trap 110 square about (700, 1832); the
// floor is level from y = 1817 back and rises 1:50 towards the room.
func build(t *testing.T, change func(*job.Job)) built {
	t.Helper()
	j := job.New()
	if change != nil {
		change(&j)
	}
	return assembled(t, j)
}

// assembled is the assembly of a job, of which every part must be a closed body
// that has an id of its own and as much volume as its shape says.
func assembled(t *testing.T, j job.Job) built {
	t.Helper()
	var sh plan.Shaper
	l := stage.Place(j, rule.Pack{}, &sh).Level()
	a, err := assembly.Assemble(l.Settled, l.Layout, l.Heights, l.BuildUp(), l.Crossings(), &sh)
	if err != nil || sh.Err() != nil {
		t.Fatal(err, sh.Err())
	}
	b := built{t, a, l}
	seen := map[string]bool{}
	for _, p := range b.Parts {
		if seen[p.ID] || p.ID == "" || p.Name.IsZero() || p.From == "" {
			t.Errorf("%q (%v, from %q) has no id, name or origin of its own", p.ID, p.Name, p.From)
		}
		seen[p.ID] = true
		m := p.Mesh()
		if err := m.CheckClosed(); err != nil {
			t.Errorf("%s: %v", p.ID, err)
		}
		if got, want := m.Volume(), p.Shape.Volume(); !(want > 0) || math.Abs(got-want) > 1e-6*want+1e-2 {
			t.Errorf("%s: a mesh of %v mm³, a shape of %v", p.ID, got, want)
		}
		box, inner := p.Bounds(), m.Bounds()
		for i := range 3 {
			if inner.Low[i] < box.Low[i]-1e-6 || inner.High[i] > box.High[i]+1e-6 {
				t.Errorf("%s: the mesh %v reaches out of its box %v", p.ID, inner, box)
			}
		}
	}
	return b
}

// has tells whether there is a part.
func (b built) has(id string) bool {
	for _, p := range b.Parts {
		if p.ID == id {
			return true
		}
	}
	return false
}

func (b built) part(id string) assembly.Part {
	b.t.Helper()
	for _, p := range b.Parts {
		if p.ID == id {
			return p
		}
	}
	b.t.Fatalf("there is no %s", id)
	return assembly.Part{}
}

// none fails where there is any of the parts.
func (b built) none(ids ...string) {
	b.t.Helper()
	for _, id := range ids {
		if b.has(id) {
			b.t.Errorf("there is a %s of %v mm³", id, b.part(id).Shape.Volume())
		}
	}
}

// volume holds a part's volume against one worked by hand, to a part in ten
// million: all faces flat.
func (b built) volume(id string, wantMM3 float64) {
	b.t.Helper()
	b.between(id, wantMM3*(1-1e-7), wantMM3*(1+1e-7))
}

// rounded is volume for a body with round faces, that come out as chords: it is
// off by as much as the chords take off the round, and to that side only.
func (b built) rounded(id string, wantMM3, chordsMM3 float64) {
	b.t.Helper()
	b.between(id, wantMM3-math.Max(0, chordsMM3)-1e-7*wantMM3, wantMM3-math.Min(0, chordsMM3)+1e-7*wantMM3)
}

func (b built) between(id string, leastMM3, mostMM3 float64) {
	b.t.Helper()
	if got := b.part(id).Mesh().Volume(); !(got >= leastMM3 && got <= mostMM3) {
		b.t.Errorf("%s has %.3f mm³, want %.3f to %.3f", id, got, leastMM3, mostMM3)
	}
}

// box holds where a part lies, to a thousandth of a millimetre.
func (b built) box(id string, low, high mgl64.Vec3) {
	b.t.Helper()
	b.boxWithin(id, low, high, 1e-3)
}

func (b built) boxWithin(id string, low, high mgl64.Vec3, withinMM float64) {
	b.t.Helper()
	got := b.part(id).Mesh().Bounds()
	for i := range 3 {
		if math.Abs(got.Low[i]-low[i]) > withinMM || math.Abs(got.High[i]-high[i]) > withinMM {
			b.t.Errorf("%s lies from %v to %v, want from %v to %v", id, got.Low, got.High, low, high)
			return
		}
	}
}

// filled fails unless the part is there at every one of the points; open, where
// it is at any.
func (b built) filled(id string, points ...mgl64.Vec3) {
	b.t.Helper()
	for _, p := range points {
		if !demotest.Holds(b.part(id).Mesh(), p) {
			b.t.Errorf("%s is not at %v", id, p)
		}
	}
}

func (b built) open(id string, points ...mgl64.Vec3) {
	b.t.Helper()
	for _, p := range points {
		if demotest.Holds(b.part(id).Mesh(), p) {
			b.t.Errorf("%s is at %v", id, p)
		}
	}
}

// chords is what inscribed chords that lie within 0.05 mm of their circle take
// off a round face as long as given: the segments between, two thirds of their
// height times their width.
func chords(perimeterMM, lengthMM float64) float64 { return perimeterMM * 0.05 * 2 / 3 * lengthMM }
