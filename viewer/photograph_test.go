package viewer_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"pgregory.net/rapid"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/viewer"
)

// A line of sight through a place of the picture comes back to that place, however the camera stands and however
// far its horizon is shifted.
func TestProjectIsTheWayBackOfRay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		c := viewer.Camera{Target: mgl64.Vec3{in("x", -5000, 5000), in("y", -5000, 5000), in("z", -500, 3000)}, Yaw: in("yaw", -4, 4), Pitch: in("pitch", -1.3, 1.5),
			DistanceMM: in("distance", 100, 20000), FieldDeg: in("field", 10, 90), Rise: in("rise", -1, 1)}
		x, y, aspect := in("across", 0, 1), in("down", 0, 1), in("aspect", 0.4, 2.5)
		from, direction := c.Ray(x, y, aspect)
		gotX, gotY, ok := c.Project(from.Add(direction.Mul(in("away", 1500, 9000))), aspect)
		if !ok || math.Abs(gotX-x) > 1e-9 || math.Abs(gotY-y) > 1e-9 {
			t.Fatalf("%v %v comes back as %v %v, %v", x, y, gotX, gotY, ok)
		}
	})
}

// A camera that looks level keeps uprights upright, shifted or not; by hand: with a field of 90°, what stands one
// away and half of that over the eye lies at a quarter from the top, and half a height of shift lifts it to the top.
func TestTheShiftOfTheHorizon(t *testing.T) {
	for _, c := range []struct{ rise, want float64 }{{0, 0.25}, {0.5, 0}, {-0.5, 0.5}} {
		camera := viewer.Camera{DistanceMM: 1000, FieldDeg: 90, Rise: c.rise}
		eye := camera.Eye()
		x, y, ok := camera.Project(mgl64.Vec3{0, 0, 500}, 1.5)
		if !ok || math.Abs(x-0.5) > 1e-12 || math.Abs(y-c.want) > 1e-12 {
			t.Errorf("shifted by %v: %v, %v, want 0.5, %v", c.rise, x, y, c.want)
		}
		low, _, _ := camera.Project(eye.Add(mgl64.Vec3{-2000, 700, -900}), 1.5)
		high, _, _ := camera.Project(eye.Add(mgl64.Vec3{-2000, 700, 900}), 1.5)
		if math.Abs(low-high) > 1e-12 {
			t.Errorf("shifted by %v: an upright leans from %v to %v", c.rise, low, high)
		}
	}
}

// What OpenGL draws at a place of the picture is what lies on the line of sight through it: the wall tile's top edge
// ends where Project says, with the horizon shifted.
func TestPictureFollowsTheShift(t *testing.T) {
	r := viewer.Open(t)
	res := demotest.Results(t)[1]
	const width, height = 300, 200
	f := frame(res, viewer.ViewPhoto, width, height)
	if math.Abs(f.Camera.Rise) < 0.1 {
		t.Fatalf("the horizon is shifted by %v only", f.Camera.Rise)
	}
	f.Look = viewer.LookTechnical
	plain, err := r.Draw(f)
	if err != nil {
		t.Fatal(err)
	}
	before := plain.Pix
	hit, ok := f.Pick(f.Camera.Ray(0.55, 0.6, float64(width)/height))
	if !ok {
		t.Fatal("nothing is there")
	}
	f.Chosen = hit.Part.ID
	marked, err := r.Draw(f)
	if err != nil {
		t.Fatal(err)
	}
	// Every marked pixel's line of sight meets the marked part, but at its very edge.
	wrong, all := 0, 0
	for y := range height {
		for x := range width {
			i := plain.PixOffset(x, y)
			if before[i] == marked.Pix[i] && before[i+1] == marked.Pix[i+1] {
				continue
			}
			all++
			if got, ok := f.Pick(f.Camera.Ray((float64(x)+0.5)/width, (float64(y)+0.5)/height, float64(width)/height)); !ok || got.Part.ID != hit.Part.ID {
				wrong++
			}
		}
	}
	if all < 100 || wrong > all/50 {
		t.Errorf("%d of %d marked pixels do not lie on %s", wrong, all, hit.Part.ID)
	}
}

// shapes of pictures: an upright telephone, upright, square, a window's, a screen's.
func shapes() []float64 { return []float64{9.0 / 16, 1, 1.6, 16.0 / 9} }

// What a picture for a customer must keep to, in every demo, at every shape of picture and from everywhere: uprights are upright, the
// rose, the shower's floor and that before the step stand in it, all of it looks into the room, no pane is seen all but edge-on, and
// the eye stands clear of everything. How far edge-on a pane may be, which lenses there are: common practice, no source.
func TestRoomsArePhotographed(t *testing.T) {
	const tooSmallM2 = 3.7 // a room in which a picture as broad as a screen's cannot hold all
	lenses := map[bool]int{}
	for _, res := range demotest.Shown(t) {
		scene := viewer.NewScene(res, nil)
		for _, aspect := range shapes() {
			for _, v := range []viewer.View{viewer.ViewPhoto, viewer.ViewStanding, viewer.ViewDoorway} {
				c := viewer.CameraFor(v, res, aspect)
				name := fmt.Sprintf("%s, %s, %.2f", res.Settled.Name, v, aspect)
				if c.Pitch != 0 {
					t.Errorf("%s: uprights lean by %v", name, c.Pitch)
				}
				// Film of 36 mm along the longer side.
				lens := 18 / (math.Tan(c.FieldDeg*math.Pi/360) * math.Max(1, aspect))
				if lens < 14.99 || lens > 50.01 {
					t.Errorf("%s: a lens of %.1f mm", name, lens)
				}
				lenses[lens < 23.99]++
				f := viewer.Frame{Scene: scene, Stage: buildup.StageTile, Camera: c, Width: int(600 * aspect), Height: 600}
				standsClear(t, name, res, f)
				looksIntoTheRoom(t, res, c, aspect, v)
				if aspect > 1 && res.Layout.Room.Area()/1e6 < tooSmallM2 {
					continue
				}
				for what, at := range mustBeSeen(res) {
					if x, y, ok := c.Project(at, aspect); !ok || x < 0 || x > 1 || y < 0 || y > 1 {
						t.Errorf("%s: %s stands at %.2f %.2f of the picture", name, what, x, y)
					}
				}
				if h := res.Settled.Shower.Head; h != nil && !f.Sees(c, h.At.Vec3(res.Heights.ShowerAt(&res.Layout, h.At)+h.HeightMM)) {
					t.Errorf("%s: something stands before the rose", name)
				}
			}
		}
	}
	if lenses[true] > lenses[false]/2 {
		t.Errorf("%d pictures through a lens wider than 24 mm, %d not", lenses[true], lenses[false])
	}
}

// No photograph of a demo, and no view from its corner, shows the place where something stands that is left out of it with its wall:
// no light falls there, and the floor would be dark without a cause. The place is told by the middles of its sides.
func TestNothingLeavesItsMark(t *testing.T) {
	for _, res := range demotest.Shown(t) {
		scene := viewer.NewScene(res, nil)
		for _, seen := range []struct {
			view   viewer.View
			aspect float64
		}{
			{viewer.ViewPhoto, 1}, {viewer.ViewPhoto, 14.0 / 9}, {viewer.ViewPhoto, 1.6},
			{viewer.ViewCorner, 374.0 / 206}, {viewer.ViewCorner, 1.6},
		} {
			aspect := seen.aspect
			c := viewer.FreeView(scene, seen.view, res, aspect)
			eye := plan.Point{c.Eye().X(), c.Eye().Y()}
			for _, o := range furnish.Of(&res).Objects {
				if o.Wall < 0 || res.Layout.Walls[o.Wall].Outward.Dot(eye.Sub(res.Layout.Walls[o.Wall].A)) <= 0 {
					continue
				}
				level := res.Floor.FinishedMM(o.Middle())
				ring := o.Footprint()
				for i := range ring {
					at := ring[i].Add(ring[(i+1)%len(ring)]).Mul(0.5)
					if x, y, ok := c.Project(at.Vec3(level), aspect); ok && o.FromMM < level+100 && x > 0 && x < 1 && y > 0 && y < 1 {
						t.Errorf("%s, %s, %.2f: where the %s stands is seen at %.2f %.2f, the %s is not",
							res.Settled.Name, seen.view, aspect, o.Kind, x, y, o.Kind)
						break
					}
				}
			}
		}
	}
}

// The edge of a photograph cuts no large thing in two where the room leaves any choice: of what takes a twentieth of the picture or
// more nearly all is in it, or nearly nothing. How much: common practice, no source.
func TestNoEdgeCutsWhatIsLarge(t *testing.T) {
	const aspect, roomyM2, large, most, least = 14.0 / 9, 4.5, 0.05, 0.85, 0.1
	for _, res := range demotest.Shown(t) {
		if res.Layout.Room.Area()/1e6 < roomyM2 {
			continue
		}
		c := viewer.CameraFor(viewer.ViewPhoto, res, aspect)
		eye := plan.Point{c.Eye().X(), c.Eye().Y()}
		for _, o := range furnish.Of(&res).Objects {
			if o.Kind == furnish.Mat || o.Wall >= 0 && res.Layout.Walls[o.Wall].Outward.Dot(eye.Sub(res.Layout.Walls[o.Wall].A)) > 0 {
				continue
			}
			low, high, ok := [2]float64{2, 2}, [2]float64{-2, -2}, true
			for _, q := range o.Footprint() {
				for _, z := range []float64{o.FromMM, o.ToMM} {
					x, y, before := c.Project(q.Vec3(z), aspect)
					ok = ok && before
					low, high = [2]float64{min(low[0], x), min(low[1], y)}, [2]float64{max(high[0], x), max(high[1], y)}
				}
			}
			area := (high[0] - low[0]) * (high[1] - low[1])
			in := max(0, min(1, high[0])-max(0, low[0])) * max(0, min(1, high[1])-max(0, low[1]))
			if ok && in > large && in/area > least && in/area < most {
				t.Errorf("%s: %.2f of the %s is in the picture, and takes %.2f of it", res.Settled.Name, in/area, o.Kind, in)
			}
		}
	}
}

// Who looks in from above, where the ceiling is left out, sees no lamp of it hang in the air.
func TestLampsGoWithTheirCeiling(t *testing.T) {
	lamps := 0
	for _, res := range demotest.Shown(t) {
		scene := viewer.NewScene(res, nil)
		above := mgl64.Vec3{0, 0, 9000}
		f := viewer.Frame{Scene: scene, Stage: buildup.StageTile}
		for _, l := range furnish.Of(&res).Lamps {
			if l.Kind != furnish.Downlight {
				continue
			}
			lamps++
			way := l.At.Vec3(l.LevelMM).Sub(above)
			if hit, ok := f.Pick(above, way.Normalize()); ok && math.Abs(hit.At.Z()-l.LevelMM) < 5 {
				t.Errorf("%s: from above %s is seen in the ceiling's place", res.Settled.Name, hit.Part.ID)
			}
		}
	}
	if lamps < 4 {
		t.Errorf("%d lamps in all demos", lamps)
	}
}

// mustBeSeen are places that a picture of the shower shows, by what they are.
func mustBeSeen(res geometry.Result) map[string]mgl64.Vec3 {
	l, out := &res.Layout, map[string]mgl64.Vec3{"the drain": res.Layout.DrainCentre.Vec3(res.Heights.TileMM)}
	const roseMM, beforeMM = 100, 380
	if h := res.Settled.Shower.Head; h != nil {
		z := res.Heights.ShowerAt(l, h.At) + h.HeightMM
		for i, d := range []plan.Point{l.ToRight, l.ToRight.Mul(-1), l.Into, l.Into.Mul(-1)} {
			out[fmt.Sprint("the rose's side ", i)] = h.At.Add(d.Mul(roseMM)).Vec3(z)
		}
	}
	if l.Shower.Area() > 0.75*l.Room.Area() {
		return out
	}
	for i, p := range l.Corners {
		out[fmt.Sprint("the floor's corner ", i)] = p.Vec3(res.Heights.TileMM)
	}
	for i, e := range l.OpenEdges() {
		if p := e.Middle().Add(l.Outward(e).Mul(beforeMM)); res.Settled.Former.Fall != job.FallRoom && l.Room.Contains(p, 30) {
			out[fmt.Sprint("the floor before the step ", i)] = p.Vec3(res.Floor.FinishedMM(p))
		}
	}
	return out
}

// standsClear tells of an eye that is in something or all but touches it, and of a pane that is seen all but edge-on.
func standsClear(t *testing.T, name string, res geometry.Result, f viewer.Frame) {
	t.Helper()
	const clearMM, leastDeg = 100, 10
	eye := f.Camera.Eye()
	at := plan.Point{eye.X(), eye.Y()}
	if !f.Stands(f.Camera) {
		t.Errorf("%s: the eye stands in something", name)
	}
	if mm, _ := res.Layout.Clear(at); res.Layout.Room.Contains(at, 0) && mm < clearMM {
		t.Errorf("%s: the eye is %.0f mm from a wall", name, mm)
	}
	for _, o := range furnish.Of(&res).Objects {
		if eye.Z() > o.FromMM-clearMM && eye.Z() < o.ToMM+clearMM && plan.FromRing(o.Footprint()).Contains(at, clearMM) {
			t.Errorf("%s: the eye is in %s or near it", name, o.Kind)
		}
	}
	for _, x := range res.Layout.Screens {
		a, b := x.Foot()
		for _, q := range []plan.Point{a, b} {
			if deg := math.Asin(math.Abs(plan.Cross(b.Sub(a).Normalize(), q.Sub(at).Normalize()))) * 180 / math.Pi; deg < leastDeg-0.01 {
				t.Errorf("%s: the screen is seen %.1f° from edge-on", name, deg)
			}
		}
	}
}

// looksIntoTheRoom tells of lines of sight that never come into the room, walked along in small steps.
func looksIntoTheRoom(t *testing.T, res geometry.Result, c viewer.Camera, aspect float64, v viewer.View) {
	t.Helper()
	const stepMM, farMM = 20, 9000
	for _, x := range []float64{0.002, 0.5, 0.998} {
		for _, y := range []float64{0.002, 0.998} {
			from, d := c.Ray(x, y, aspect)
			in := false
			for mm := 0.0; mm < farMM && !in; mm += stepMM {
				p := from.Add(d.Mul(mm))
				in = res.Layout.Room.Contains(plan.Point{p.X(), p.Y()}, 0)
				if in && (p.Z() < -60 || p.Z() > res.Layout.CeilingAt(plan.Point{p.X(), p.Y()})+40) {
					break
				}
			}
			if !in {
				t.Errorf("%s, %s, %.2f: at %.3f %.3f one looks past the room", res.Settled.Name, v, aspect, x, y)
			}
		}
	}
}

// The second, nearer picture shows all of the drain, or in a picture that is upright its middle, and so much floor that its fall is seen;
// nothing stands before it, the eye is in the room, and clear of everything.
func TestTheDrainIsSeenFromNear(t *testing.T) {
	for _, res := range demotest.Shown(t) {
		l, scene := &res.Layout, viewer.NewScene(res, nil)
		for _, aspect := range shapes() {
			c := viewer.CameraFor(viewer.ViewDrain, res, aspect)
			name := fmt.Sprintf("%s, %.2f", res.Settled.Name, aspect)
			f := viewer.Frame{Scene: scene, Stage: buildup.StageTile, Camera: c, Width: int(600 * aspect), Height: 600}
			standsClear(t, name, res, f)
			if eye := c.Eye(); !l.Room.Contains(plan.Point{eye.X(), eye.Y()}, 0) {
				t.Errorf("%s: the eye is out of the room", name)
			}
			drain := l.DrainCentre.Vec3(res.Heights.ShowerAt(l, l.DrainCentre) + 5)
			if x, y, ok := c.Project(drain, aspect); !ok || x < 0.1 || x > 0.9 || y < 0.1 || y > 0.9 {
				t.Errorf("%s: the drain stands at %.2f %.2f of the picture", name, x, y)
			}
			if !f.Sees(c, drain) {
				t.Errorf("%s: something stands before the drain", name)
			}
			half := l.DrainAlong.Mul(res.Settled.DrainLengthMM() / 2)
			x0, y0, _ := c.Project(l.DrainCentre.Sub(half).Vec3(drain.Z()), aspect)
			x1, y1, _ := c.Project(l.DrainCentre.Add(half).Vec3(drain.Z()), aspect)
			if aspect > 1 && (min(x0, x1, y0, y1) < 0 || max(x0, x1, y0, y1) > 1) {
				t.Errorf("%s: the drain reaches from %.2f %.2f to %.2f %.2f", name, x0, y0, x1, y1)
			}
			// A step of 300 mm on the floor beside the drain is more than a tenth of the picture's height.
			away := l.Shower.Centroid().Sub(l.DrainCentre).Normalize()
			_, y2, _ := c.Project(l.DrainCentre.Add(away.Mul(300)).Vec3(drain.Z()), aspect)
			x2, _, _ := c.Project(l.DrainCentre.Add(away.Mul(300)).Vec3(drain.Z()), aspect)
			xd, yd, _ := c.Project(drain, aspect)
			if size := math.Hypot((x2-xd)*aspect, y2-yd); size < 0.1 {
				t.Errorf("%s: 300 mm of floor are %.2f of the picture's height", name, size)
			}
		}
	}
}

// BenchmarkCameraFor looks for the place that a room is seen from.
func BenchmarkCameraFor(b *testing.B) {
	for _, v := range []viewer.View{viewer.ViewPhoto, viewer.ViewStanding, viewer.ViewDoorway, viewer.ViewDrain} {
		for _, res := range demotest.Results(b) {
			b.Run(fmt.Sprintf("%s/%s", v, res.Settled.Name), func(b *testing.B) {
				for b.Loop() {
					viewer.CameraFor(v, res, 1.6)
				}
			})
		}
	}
}
