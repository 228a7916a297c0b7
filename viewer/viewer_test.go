package viewer_test

import (
	"errors"
	"image"
	"image/color"
	"math"
	"runtime"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/build"
	"underfall/geometry/demotest"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// open gives a renderer on this thread; the test is skipped where there is no
// OpenGL.
func open(tb testing.TB) *viewer.Renderer {
	tb.Helper()
	runtime.LockOSThread()
	r, err := viewer.NewRenderer()
	if errors.Is(err, viewer.ErrNoGraphics) {
		tb.Skipf("no picture to test: %v", err)
	}
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(r.Close)
	return r
}

func frame(r geometry.Result, v viewer.View, width, height int) viewer.Frame {
	cut := section.ThroughDrain(r)
	f := viewer.Frame{Scene: viewer.NewScene(r), Camera: viewer.CameraFor(v, r, float64(width)/float64(height), cut), Stage: build.StageTile, Width: width, Height: height}
	if v == viewer.ViewCut {
		f.Caps = viewer.NewCaps(r, build.StageTile, 11, cut)
	}
	return f
}

// near tells whether two colours are alike.
func near(a, b color.RGBA, by int) bool {
	d := func(x, y uint8) int { return int(math.Abs(float64(x) - float64(y))) }
	return d(a.R, b.R) <= by && d(a.G, b.G) <= by && d(a.B, b.B) <= by
}

func share(img *image.RGBA, is func(color.RGBA) bool) float64 {
	n := 0
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if is(img.RGBAAt(x, y)) {
				n++
			}
		}
	}
	return float64(n) / float64(img.Rect.Dx()*img.Rect.Dy())
}

// Every demo fills a good part of its picture, in every ready-made view and
// look.
func TestEveryDemoIsSeen(t *testing.T) {
	r := open(t)
	for _, res := range demotest.Results(t) {
		for _, v := range []viewer.View{viewer.ViewCorner, viewer.ViewPlan, viewer.ViewFront, viewer.ViewCut} {
			for _, look := range []viewer.Look{viewer.LookFinished, viewer.LookTechnical, viewer.LookThrough} {
				f := frame(res, v, 300, 200)
				f.Look = look
				img, err := r.Draw(f, true)
				if err != nil {
					t.Fatal(err)
				}
				back := img.RGBAAt(0, 199)
				if s := share(img, func(c color.RGBA) bool { return !near(c, back, 3) }); s < 0.1 {
					t.Errorf("%s, %s, look %d: only %.0f %% of the picture is not background", res.Job.Name, v, look, 100*s)
				}
			}
		}
	}
}

// A cap in the picture is where the exact section is: seen square on, the base
// board's colour covers the area its section has, within 3 %.
func TestCapsAreTheSection(t *testing.T) {
	r := open(t)
	res := demotest.Results(t)[0]
	cut := section.ThroughDrain(res)
	const width, height = 1200, 600
	f := frame(res, viewer.ViewCut, width, height)
	f.Caps = viewer.NewCaps(res, build.StageTile, 1e6, cut) // no hatch over it
	var want, centre = 0.0, mgl64.Vec3{}
	for _, a := range section.Areas(res.Assembly, cut, build.StageTile) {
		if a.PartID == "base" {
			want, centre = a.Region.Area(), cut.Space(a.Region.Centroid())
		}
	}
	f.Camera = viewer.Camera{Target: centre, Yaw: math.Atan2(cut.Normal.Y(), cut.Normal.X()), DistanceMM: 1600}
	img, err := r.Draw(f, true)
	if err != nil {
		t.Fatal(err)
	}
	base := viewer.DisplayColour(build.BaseBoard)
	pixels := share(img, func(c color.RGBA) bool { return near(c, base, 3) }) * width * height
	// A pixel at the target's distance, for a field of view of 36°.
	perPixel := 2 * 1600 * math.Tan(18*math.Pi/180) / height
	if got := pixels * perPixel * perPixel; math.Abs(got-want) > 0.03*want+2*800*1.5*perPixel {
		t.Errorf("the base's cap covers %.0f mm², its section has %.0f", got, want)
	}
}

// Nothing in front of the cut is drawn: looked at along the cut from its far
// side, the half taken away is background.
func TestCutTakesTheFrontAway(t *testing.T) {
	r := open(t)
	res := demotest.Results(t)[0]
	f := frame(res, viewer.ViewCut, 400, 300)
	whole := f
	whole.Caps = nil
	for _, g := range []*viewer.Frame{&f, &whole} {
		g.Camera = viewer.Camera{Target: mgl64.Vec3{1100, 950, 0}, Yaw: -math.Pi / 2, Pitch: 1.2, DistanceMM: 6000}
	}
	a, err := r.Draw(f, true)
	if err != nil {
		t.Fatal(err)
	}
	b, err := r.Draw(whole, true)
	if err != nil {
		t.Fatal(err)
	}
	// The cut looks along +x: the room's right half is gone.
	back := a.RGBAAt(399, 299)
	if !near(a.RGBAAt(270, 200), back, 3) || near(b.RGBAAt(270, 200), back, 3) {
		t.Errorf("right of the cut: %v with it, %v without; background %v", a.RGBAAt(270, 200), b.RGBAAt(270, 200), back)
	}
}

// Refining converges: the last of many samples changes next to nothing, and
// the same frame gives the same picture.
func TestRefineConverges(t *testing.T) {
	r := open(t)
	f := frame(demotest.Results(t)[0], viewer.ViewCorner, 240, 160)
	var last *image.RGBA
	for n := range 16 {
		img, samples, err := r.Refine(f, 0, 1, true)
		if err != nil || samples != n+1 {
			t.Fatalf("sample %d of %d: %v", samples, n+1, err)
		}
		if n == 15 {
			sum := 0.0
			for i := range img.Pix {
				sum += math.Abs(float64(img.Pix[i]) - float64(last.Pix[i]))
			}
			if mean := sum / float64(len(img.Pix)); mean > 1.5 {
				t.Errorf("the 16th sample still changes the picture by %.2f of 255", mean)
			}
		}
		last = img
	}
}

// Looking straight down from over the shower one picks its tile; the stage
// before tiling, something below; outside a wall, never that wall.
func TestPick(t *testing.T) {
	res := demotest.Results(t)[0]
	f := viewer.Frame{Scene: viewer.NewScene(res), Stage: build.StageTile}
	down := mgl64.Vec3{0, 0, -1}
	hit, ok := f.Pick(mgl64.Vec3{700, 1300, 1500}, down)
	if !ok || hit.Part.ID != "tile" || math.Abs(hit.At.Z()-res.Heights.ShowerAt(res.Layout, [2]float64{700, 1300})) > 1e-3 {
		t.Errorf("picked %s at %v", hit.Part.ID, hit.At)
	}
	f.Apart = 1
	if lifted, _ := f.Pick(mgl64.Vec3{700, 1300, 1500}, down); lifted.Part.ID != "tile" || lifted.At.Z() < hit.At.Z()+100 {
		t.Errorf("drawn apart one picks %s at %v", lifted.Part.ID, lifted.At)
	}
	f.Apart, f.Stage = 0, build.StageBase
	if hit, _ := f.Pick(mgl64.Vec3{700, 1300, 1500}, down); hit.Part.ID != "base" {
		t.Errorf("before the former one picks %s", hit.Part.ID)
	}
	f.Stage = build.StageTile
	f.Caps = viewer.NewCaps(res, build.StageTile, 11, solid.VerticalCut([2]float64{0, 1400}, [2]float64{1, 0}))
	if hit, ok := f.Pick(mgl64.Vec3{700, 1300, 1500}, down); ok {
		t.Errorf("in front of the cut one picks %s", hit.Part.ID)
	}
	f.Caps = nil
	if hit, _ := f.Pick(mgl64.Vec3{-3000, 300, 1000}, mgl64.Vec3{1, 0, 0}); hit.Part.Wall == 4 {
		t.Error("a wall one stands behind is picked")
	}
}

// Projecting a point and looking back through it meets it.
func TestCameraRoundTrip(t *testing.T) {
	c := viewer.Camera{Target: mgl64.Vec3{500, 700, 100}, Yaw: 0.7, Pitch: 0.4, DistanceMM: 2500}
	for _, p := range []mgl64.Vec3{{500, 700, 100}, {0, 0, 0}, {900, 1200, 300}} {
		x, y, ok := c.Project(p, 1.5)
		from, d := c.Ray(x, y, 1.5)
		if off := p.Sub(from).Cross(d).Len(); !ok || off > 1e-6 {
			t.Errorf("%v: the line of sight passes %v off", p, off)
		}
	}
}

// Rebuilding the scene over and over keeps nothing.
func TestRebuildsDoNotPileUp(t *testing.T) {
	r := open(t)
	res := demotest.Results(t)[0]
	draw := func(n int) {
		for range n {
			if _, err := r.Draw(frame(res, viewer.ViewCut, 60, 40), true); err != nil {
				t.Fatal(err)
			}
		}
		runtime.GC()
	}
	var before, after runtime.MemStats
	draw(20)
	runtime.ReadMemStats(&before)
	draw(120)
	runtime.ReadMemStats(&after)
	if grown := float64(after.HeapAlloc) - float64(before.HeapAlloc); grown > 8<<20 {
		t.Errorf("120 rebuilds keep %.1f MiB", grown/(1<<20))
	}
}

func TestDrawRefusesNothing(t *testing.T) {
	r := open(t)
	if _, err := r.Draw(viewer.Frame{Width: 10, Height: 10}, true); err == nil {
		t.Error("a frame without a scene is drawn")
	}
}

func BenchmarkScene(b *testing.B) {
	res := demotest.Results(b)[5]
	for b.Loop() {
		viewer.NewScene(res)
	}
}

// BenchmarkMoving is one picture while something moves, at the sizes the
// window uses on software OpenGL.
func BenchmarkMoving(b *testing.B) {
	res := demotest.Results(b)[5]
	for _, size := range []struct {
		name          string
		width, height int
	}{{"600x400", 600, 400}, {"900x600", 900, 600}, {"1200x800", 1200, 800}} {
		for _, look := range []struct {
			name string
			look viewer.Look
		}{{"finished", viewer.LookFinished}, {"technical", viewer.LookTechnical}} {
			f := frame(res, viewer.ViewCut, size.width, size.height)
			f.Look = look.look
			b.Run(size.name+"/"+look.name, func(b *testing.B) {
				r := open(b) // each benchmark runs on a thread of its own
				for b.Loop() {
					if _, err := r.Draw(f, true); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// BenchmarkCutMoving adds slicing, capping and hatching the cut anew.
func BenchmarkCutMoving(b *testing.B) {
	r := open(b)
	res := demotest.Results(b)[5]
	f := frame(res, viewer.ViewCut, 600, 400)
	cut := section.ThroughDrain(res)
	for b.Loop() {
		cut.Origin = cut.Origin.Add(cut.Normal.Mul(0.1))
		f.Caps = viewer.NewCaps(res, build.StageTile, 11, cut)
		if _, err := r.Draw(f, true); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFirstPicture opens a context, builds the scene and draws.
func BenchmarkFirstPicture(b *testing.B) {
	res := demotest.Results(b)[5]
	runtime.LockOSThread()
	for b.Loop() {
		r, err := viewer.NewRenderer()
		if err != nil {
			b.Skip(err)
		}
		if _, err := r.Draw(frame(res, viewer.ViewCut, 700, 400), true); err != nil {
			b.Fatal(err)
		}
		r.Close()
	}
}
