package viewer

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/settle"
)

// From where a room is photographed every line of sight ends on something finished: no void, nothing that a wall or a
// floor is built of, no back of a wall.
func TestPhotographsShowNothingRaw(t *testing.T) {
	const aspect, columns, rows = 1.6, 9, 7
	for _, r := range demotest.Results(t) {
		s := NewScene(r, nil)
		for _, v := range []View{ViewPhoto, ViewDoorway, ViewDrain} {
			f := Frame{Scene: s, Stage: buildup.StageTile, Camera: CameraFor(v, r, aspect), Width: 160, Height: 100}
			eye := f.Camera.Eye()
			for i := range columns * rows {
				from, d := f.Camera.Ray((float64(i%columns)+0.5)/columns, (float64(i/columns)+0.5)/rows, aspect)
				nearest := math.Inf(1)
				var at *Body
				for k := range s.Bodies {
					b := &s.Bodies[k]
					if !f.shows(*b, eye) || !meetsBox(from, d, math.Inf(1), b.box) {
						continue
					}
					b.each(func(p, q, w, _ mgl64.Vec3) {
						if mm, ok := meetsTriangle(from, d, p, q, w); ok && mm < nearest {
							nearest, at = mm, b
						}
					})
				}
				if at == nil {
					t.Errorf("%s, %s: ray %d sees nothing", r.Settled.Name, v, i)
				} else if at.raw {
					t.Errorf("%s, %s: ray %d sees %s", r.Settled.Name, v, i, at.Part.ID)
				}
			}
		}
	}
}

// A wall 3000 long and 2400 high with a door of 800 by 2000 and a window of 600 by 900: what is left of its face is
// 7.2 − 1.6 − 0.54 m². Under a ceiling that falls from 2400 to 1800 along it, 0.9 m² less.
func TestFaceOfAWall(t *testing.T) {
	w := &layout.Wall{A: plan.Point{0, 0}, B: plan.Point{3000, 0}, Along: plan.Point{1, 0}, Outward: plan.Point{0, -1}, LengthMM: 3000}
	holes := []hole{{200, 1000, 0, 2000}, {1900, 2500, 700, 1600}}
	for _, c := range []struct{ end, want float64 }{{2400, 5.06e6}, {1800, 4.16e6}} {
		f := alongWall(w)
		f.panel(3000, 0, []plan.Point{{0, 2400}, {3000, c.end}}, holes)
		area := 0.0
		Body{vertices: f.vertices}.each(func(a, b, d, n mgl64.Vec3) {
			area += b.Sub(a).Cross(d.Sub(a)).Len() / 2
			if n.Y() < 0.99 {
				t.Errorf("a face looks to %v, out of the room", n)
			}
		})
		if math.Abs(area-c.want) > 1 {
			t.Errorf("%v mm² left, want %v", area, c.want)
		}
		// A hole cut out of the whole face afterwards leaves as much.
		whole := alongWall(w)
		whole.panel(3000, 0, []plan.Point{{0, 2400}, {3000, c.end}}, nil)
		for _, h := range holes {
			whole.vertices, _ = whole.besideHole(whole.vertices, h)
		}
		area = 0
		Body{vertices: whole.vertices}.each(func(a, b, d, _ mgl64.Vec3) { area += b.Sub(a).Cross(d.Sub(a)).Len() / 2 })
		if math.Abs(area-c.want) > 1 {
			t.Errorf("cut out, %v mm² are left, want %v", area, c.want)
		}
	}
}

// No object reaches out of the room that its rule keeps free for it, by more than a trifle; by each face's corners.
func TestObjectsStayInTheirPlace(t *testing.T) {
	const overMM = 70 // a leaf, a lever, the bowl and bottle on a top
	for _, r := range demotest.Results(t) {
		triangles := 0
		for _, b := range NewScene(r, nil).Bodies {
			if b.dressing {
				triangles += len(b.vertices) / 18
			}
			o, ok := b.object()
			if !ok {
				continue
			}
			for i := 0; i < len(b.vertices); i += 6 {
				p := plan.Point{float64(b.vertices[i]), float64(b.vertices[i+1])}.Sub(o.At)
				across, out := math.Abs(p.Dot(o.Along())), p.Dot(o.Out)
				if across > o.WidthMM/2+overMM || out < -1 || out > o.DepthMM+overMM {
					t.Errorf("%s: %s reaches %.0f aside of %.0f and from its wall %.0f of %.0f", r.Settled.Name, b.Part.ID, across, o.WidthMM/2, out, o.DepthMM)
					break
				}
			}
		}
		const most = 24000
		if triangles > most {
			t.Errorf("%s: %d triangles dress the picture", r.Settled.Name, triangles)
		}
	}
}

// A room whose walls are dragged, from each scene to the next, looks as one that is built at once: what stands in it, doors,
// windows and skirtings move along with their places.
func TestTheRoomMovesAlong(t *testing.T) {
	const steps, byMM, leastMM = 3, 17, 0.01
	for _, before := range demotest.Results(t) {
		for wall := range before.Layout.Walls {
			r, scene := before, NewScene(before, nil)
			for step := range steps {
				w := &before.Layout.Walls[wall]
				to := w.At(w.LengthMM / 2).Add(w.Outward.Mul(float64(step+1) * byMM))
				s := settle.Do(before.Stated, edit.Drag(edit.Handle{Kind: edit.HandleSide, Index: wall}, to))
				if r = geometry.Evaluate(s.Job, before.Pack); len(r.Problems) > 0 {
					break
				}
				scene = NewScene(r, scene)
			}
			if len(r.Problems) > 0 {
				continue
			}
			fresh := NewScene(r, nil)
			if len(scene.Bodies) != len(fresh.Bodies) {
				t.Fatalf("%s: %d bodies, %d built at once", r.Settled.Name, len(scene.Bodies), len(fresh.Bodies))
			}
			for i, b := range fresh.Bodies {
				if a := &scene.Bodies[i]; a.Part.ID != b.Part.ID || furthest(a.vertices, b.vertices) > leastMM || a.face != b.face || a.outward != b.outward {
					t.Errorf("%s, wall %d: %s stands elsewhere than %s built at once", r.Settled.Name, wall, a.Part.ID, b.Part.ID)
				}
			}
		}
	}
}

// furthest is how far two lists of numbers are apart where they are most.
func furthest(a, b []float32) (most float64) {
	if len(a) != len(b) {
		return math.Inf(1)
	}
	for i := range a {
		most = math.Max(most, math.Abs(float64(a[i]-b[i])))
	}
	return most
}
