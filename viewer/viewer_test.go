package viewer_test

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"runtime"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

func frame(r geometry.Result, v viewer.View, width, height int) viewer.Frame {
	cut := section.ThroughDrain(r)
	f := viewer.Frame{Scene: viewer.NewScene(r, nil), Camera: viewer.CameraFor(v, r, float64(width)/float64(height), cut), Stage: buildup.StageTile, Width: width, Height: height}
	if v == viewer.ViewCut {
		f.Caps = viewer.NewCaps(r, buildup.StageTile, 11, cut)
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
	r := viewer.Open(t)
	for _, res := range demotest.Results(t) {
		for _, v := range []viewer.View{viewer.ViewCorner, viewer.ViewPlan, viewer.ViewFront, viewer.ViewCut} {
			for _, look := range []viewer.Look{viewer.LookFinished, viewer.LookTechnical, viewer.LookThrough} {
				f := frame(res, v, 300, 200)
				f.Look = look
				img, err := r.Draw(f)
				if err != nil {
					t.Fatal(err)
				}
				back := img.RGBAAt(0, 199)
				if s := share(img, func(c color.RGBA) bool { return !near(c, back, 3) }); s < 0.1 {
					t.Errorf("%s, %s, look %d: only %.0f %% of the picture is not background", res.Settled.Name, v, look, 100*s)
				}
			}
		}
	}
}

// A cap in the picture is where the exact section is: seen square on, the
// colours of base and former cover the area their sections have, within 0.5 %,
// once the half of their outlines that lies inside is counted in.
func TestCapsAreTheSection(t *testing.T) {
	r := viewer.Open(t)
	res := demotest.Results(t)[0]
	cut := section.ThroughDrain(res)
	const width, height, distance = 1500, 900, 1300.0
	f := frame(res, viewer.ViewCut, width, height)
	f.Caps = viewer.NewCaps(res, buildup.StageTile, 0, cut) // no hatch over it
	// A pixel at the target's distance, for a field of view of 36°.
	perPixel := 2 * distance * math.Tan(18*math.Pi/180) / height
	const outlinePixels = 1.8 * height / 900
	for id, material := range map[string]material.Material{"base": material.BaseBoard, "former": material.FormerBody} {
		area, round, centre := 0.0, 0.0, mgl64.Vec3{}
		areas, err := section.Areas(res.Assembly, cut, buildup.StageTile)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range areas {
			if a.PartID != id {
				continue
			}
			area, centre = a.Region.Area(), cut.Space(a.Region.Centroid())
			for _, poly := range a.Region {
				for _, ring := range poly.Rings() {
					for i := range ring {
						round += ring[(i+1)%len(ring)].Sub(ring[i]).Len()
					}
				}
			}
		}
		ink := material.Colour()
		pixels := 0.0
		// Over shifts by parts of a pixel, so that no edge lies on a row by luck.
		const shifts = 9
		for k := range shifts {
			by := mgl64.Vec3{0, 0, 1}.Mul(perPixel * float64(k) / shifts)
			f.Camera = viewer.Camera{Target: centre.Add(by), Yaw: math.Atan2(cut.Normal.Y(), cut.Normal.X()), DistanceMM: distance}
			img, err := r.Draw(f)
			if err != nil {
				t.Fatal(err)
			}
			pixels += share(img, func(c color.RGBA) bool { return near(c, ink, 2) }) * width * height / shifts
		}
		got := pixels*perPixel*perPixel + round*outlinePixels/2*perPixel
		if math.Abs(got-area) > 0.005*area {
			t.Errorf("the cap of the %s covers %.0f mm², its section has %.0f (%.2f %% off)", id, got, area, 100*(got/area-1))
		}
	}
}

// Two cuts take away only what lies before both: what one alone takes away and
// the other leaves is there.
func TestCornerCut(t *testing.T) {
	r := viewer.Open(t)
	res := demotest.Results(t)[0]
	cuts := section.Corner(res)
	at := func(dx, dy float64) mgl64.Vec3 { // from where the cuts meet, along their normals
		o := cuts[0].Origin.Add(cuts[1].Normal.Mul(cuts[1].Side([3]float64(cuts[0].Origin)) * -1))
		p := o.Add(cuts[0].Normal.Mul(dx)).Add(cuts[1].Normal.Mul(dy))
		return mgl64.Vec3{p.X(), p.Y(), 2000}
	}
	f := viewer.Frame{Scene: viewer.NewScene(res, nil), Stage: buildup.StageTile, Caps: viewer.NewCaps(res, buildup.StageTile, 11, cuts[:]...)}
	down := mgl64.Vec3{0, 0, -1}
	for name, c := range map[string]struct {
		dx, dy float64
		there  bool
	}{"before both": {200, 300, false}, "before the first": {200, -30, true}, "before the second": {-200, 300, true}, "behind both": {-200, -30, true}} {
		if _, ok := f.Pick(at(c.dx, c.dy), down); ok != c.there {
			t.Errorf("%s: there %v, want %v", name, ok, c.there)
		}
	}
	// The picture agrees with the picking.
	const width, height = 400, 300
	f.Width, f.Height = width, height
	f.Camera = viewer.Camera{Target: cuts[0].Origin, Yaw: -math.Pi / 2, Pitch: 1.54, DistanceMM: 5000}
	img, err := r.Draw(f)
	if err != nil {
		t.Fatal(err)
	}
	background := img.RGBAAt(0, 0)
	for name, c := range map[string]struct {
		dx, dy float64
		there  bool
	}{"before both": {300, 400, false}, "before the second": {-300, 400, true}} {
		p := at(c.dx, c.dy)
		p[2] = res.Heights.TileMM
		x, y, _ := f.Camera.Project(p, float64(width)/height)
		if seen := !near(img.RGBAAt(int(x*width), int(y*height)), background, 3); seen != c.there {
			t.Errorf("%s: drawn %v, want %v", name, seen, c.there)
		}
	}
}

// Standing and doorway views are seen from the height that rooms are photographed from, 1350 over the floor: from in the
// room, or where it is too small from behind where one would stand, over the shower's floor. Common practice, no source.
func TestPeopleStandInTheRoom(t *testing.T) {
	const furthestMM = 1600
	inside := 0
	for _, res := range demotest.Results(t) {
		for _, v := range []viewer.View{viewer.ViewStanding, viewer.ViewDoorway} {
			eye := viewer.CameraFor(v, res, 1.5).Eye()
			p := plan.Point{eye.X(), eye.Y()}
			floor := p
			if res.Layout.Room.Contains(p, 0) {
				inside++
			} else if floor = res.Layout.Shower.Centroid(); !res.Layout.Room.Contains(p, furthestMM) {
				t.Errorf("%s, %s: the eyes are far from the room, at %v", res.Settled.Name, v, eye)
			}
			if math.Abs(eye.Z()-res.Floor.FinishedMM(floor)-1350) > 1 {
				t.Errorf("%s, %s: the eyes are at %v", res.Settled.Name, v, eye)
			}
		}
	}
	if inside == 0 {
		t.Error("nobody stands in a room")
	}
}

// Every bond, surface, sheen, metal, cover and light makes a picture of its
// own.
func TestStylesDiffer(t *testing.T) {
	r := viewer.Open(t)
	packs := demotest.Packs(t)
	base := demotest.Rooms(t)[0].Job
	draw := func(change func(*job.Job), set func(*viewer.Frame)) *image.RGBA {
		j := base.Clone()
		change(&j)
		res := geometry.Evaluate(j, packs[j.Region])
		if len(res.Problems) > 0 {
			t.Fatal(res.Problems)
		}
		f := frame(res, viewer.ViewCorner, 210, 135)
		f.Camera = viewer.CameraFor(viewer.ViewStanding, res, 210.0/135)
		set(&f)
		img, _, err := r.Refine(f, 0, 4, true)
		if err != nil {
			t.Fatal(err)
		}
		return img
	}
	same := func(*viewer.Frame) {}
	plain := draw(func(*job.Job) {}, same)
	for name, c := range map[string]struct {
		change func(*job.Job)
		set    func(*viewer.Frame)
	}{
		"half":        {func(j *job.Job) { j.Layers.Wall.Bond = job.BondHalf }, same},
		"third":       {func(j *job.Job) { j.Layers.Wall.Bond = job.BondThird }, same},
		"herringbone": {func(j *job.Job) { j.Layers.Wall.Bond = job.BondHerringbone }, same},
		"hexagon":     {func(j *job.Job) { j.Layers.Shower.Bond = job.BondHexagon }, same},
		"stone":       {func(j *job.Job) { j.Layers.Shower.Surface = job.SurfaceStone }, same},
		"terrazzo":    {func(j *job.Job) { j.Layers.Shower.Surface = job.SurfaceTerrazzo }, same},
		"gloss":       {func(j *job.Job) { j.Layers.Shower.Sheen = job.SheenGloss }, same},
		"black":       {func(j *job.Job) { j.Style.Metal = job.MetalBlack }, same},
		"tile insert": {func(j *job.Job) { j.Style.Cover = job.CoverTileInsert }, same},
		"no glass":    {func(j *job.Job) { j.Shower.Screens = nil }, same},
		"evening":     {func(*job.Job) {}, func(f *viewer.Frame) { f.Light.Kind = job.LightEvening }},
		"wet":         {func(*job.Job) {}, func(f *viewer.Frame) { f.Wet = true }},
		"heights":     {func(*job.Job) {}, func(f *viewer.Frame) { f.Look = viewer.LookHeights }},
		"apart":       {func(*job.Job) {}, func(f *viewer.Frame) { f.Apart = 1 }},
	} {
		if worst, _, _, _ := differ(plain, draw(c.change, c.set)); worst < 0.5 {
			t.Errorf("%s looks the same (differs by %.2f)", name, worst)
		}
	}
}

// A picture without a background is clear where there is nothing, and solid
// where there is something.
func TestTransparent(t *testing.T) {
	r := viewer.Open(t)
	f := frame(demotest.Results(t)[0], viewer.ViewCorner, 240, 160)
	f.Transparent, f.Camera.DistanceMM = true, 9000
	img, _, err := r.Refine(f, 0, 4, true)
	if err != nil {
		t.Fatal(err)
	}
	if img.RGBAAt(2, 2).A != 0 || img.RGBAAt(120, 100).A != 255 {
		t.Errorf("corner %v, middle %v", img.RGBAAt(2, 2), img.RGBAAt(120, 100))
	}
}

// Nothing in front of the cut is drawn: looked at along the cut from its far
// side, the half taken away is background.
func TestCutTakesTheFrontAway(t *testing.T) {
	r := viewer.Open(t)
	res := demotest.Results(t)[0]
	f := frame(res, viewer.ViewCut, 400, 300)
	whole := f
	whole.Caps = nil
	for _, g := range []*viewer.Frame{&f, &whole} {
		g.Camera = viewer.Camera{Target: mgl64.Vec3{1100, 950, 0}, Yaw: -math.Pi / 2, Pitch: 1.2, DistanceMM: 6000}
	}
	a, err := r.Draw(f)
	if err != nil {
		t.Fatal(err)
	}
	b, err := r.Draw(whole)
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
	r := viewer.Open(t)
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
	f := viewer.Frame{Scene: viewer.NewScene(res, nil), Stage: buildup.StageTile}
	down := mgl64.Vec3{0, 0, -1}
	hit, ok := f.Pick(mgl64.Vec3{700, 1300, 1500}, down)
	if !ok || hit.Part.ID != "tile" || math.Abs(hit.At.Z()-res.Heights.ShowerAt(&res.Layout, [2]float64{700, 1300})) > 1e-3 {
		t.Errorf("picked %s at %v", hit.Part.ID, hit.At)
	}
	f.Apart = 1
	if lifted, _ := f.Pick(mgl64.Vec3{700, 1300, 1500}, down); lifted.Part.ID != "tile" || lifted.At.Z() < hit.At.Z()+100 {
		t.Errorf("drawn apart one picks %s at %v", lifted.Part.ID, lifted.At)
	}
	f.Apart, f.Stage = 0, buildup.StageBase
	if hit, _ := f.Pick(mgl64.Vec3{700, 1300, 1500}, down); hit.Part.ID != "base" {
		t.Errorf("before the former one picks %s", hit.Part.ID)
	}
	f.Stage = buildup.StageTile
	f.Caps = viewer.NewCaps(res, buildup.StageTile, 11, solid.VerticalCut([2]float64{0, 1400}, [2]float64{1, 0}))
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

// Hundreds of rebuilds of the scene, each drawn and some refined, keep nothing: what is allowed is as little for each as noise lets
// tell.
func TestRebuildsDoNotPileUp(t *testing.T) {
	if testing.Short() {
		t.Skip("some seconds of rebuilding")
	}
	r := viewer.Open(t)
	res := demotest.Results(t)[0]
	draw := func(n int) {
		for range n {
			f := frame(res, viewer.ViewCut, 24, 16)
			if _, err := r.Draw(f); err != nil {
				t.Fatal(err)
			}
		}
		if _, _, err := r.Refine(frame(res, viewer.ViewCut, 24, 16), 0, 20, false); err != nil {
			t.Fatal(err)
		}
		runtime.GC()
	}
	var before, after runtime.MemStats
	draw(60)
	runtime.ReadMemStats(&before)
	first := viewer.ResidentMB(t)
	const rebuilds, heapKB, residentKB = 500, 8, 60 // for each
	draw(rebuilds)
	runtime.ReadMemStats(&after)
	if grown := float64(after.HeapAlloc) - float64(before.HeapAlloc); grown > rebuilds*heapKB<<10 {
		t.Errorf("%d rebuilds keep %.1f MiB of Go's memory", rebuilds, grown/(1<<20))
	}
	if grown := viewer.ResidentMB(t) - first; grown > rebuilds*residentKB/1024.0 {
		t.Errorf("%d rebuilds keep %.0f MiB of the process's memory", rebuilds, grown)
	}
}

// The memory of a quick picture is used again late enough: a comparison draws two
// frames a picture, and its last picture but one may still be looked at. It used
// to be drawn over.
func TestQuickPicturesStayWhileTheyAreLookedAt(t *testing.T) {
	r := viewer.Open(t)
	f := frame(demotest.Results(t)[0], viewer.ViewCorner, 40, 30)
	first, err := r.Draw(f)
	if err != nil {
		t.Fatal(err)
	}
	before := append([]uint8(nil), first.Pix...)
	f.Look, f.Camera.DistanceMM = viewer.LookTechnical, 20000
	for range 2*viewer.Slots + viewer.Slots - 1 {
		if _, err := r.Draw(f); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(before, first.Pix) {
		t.Error("the picture that is looked at was drawn over")
	}
}

// A picture does not depend on what was drawn before it: the first sample of a
// context used to have other shadows than the same sample later.
func TestFirstPictureIsLikeTheOthers(t *testing.T) {
	f := frame(demotest.Results(t)[0], viewer.ViewCut, 320, 210)
	var pictures [2]*image.RGBA
	for i := range pictures {
		r := viewer.Open(t)
		if i == 1 {
			if _, err := r.Draw(f); err != nil {
				t.Fatal(err)
			}
		}
		var err error
		if pictures[i], _, err = r.Refine(f, 0, 1, true); err != nil {
			t.Fatal(err)
		}
		r.Close()
	}
	if !bytes.Equal(pictures[0].Pix, pictures[1].Pix) {
		worst, _, at, _ := differ(pictures[0], pictures[1])
		t.Errorf("differs by %v at %v", worst, at)
	}
}

func TestDrawRefusesNothing(t *testing.T) {
	r := viewer.Open(t)
	if _, err := r.Draw(viewer.Frame{Width: 10, Height: 10}); err == nil {
		t.Error("a frame without a scene is drawn")
	}
}

func BenchmarkScene(b *testing.B) {
	res := demotest.Results(b)[5]
	for b.Loop() {
		viewer.NewScene(res, nil)
	}
}

// A scene made from the one before looks the same as one made anew, and takes
// over what has not changed.
func TestSceneTakesOver(t *testing.T) {
	r := viewer.Open(t)
	j := demotest.Rooms(t)[0].Job
	packs := demotest.Packs(t)
	before := geometry.Evaluate(j, packs[j.Region])
	j.Former.Slope *= 1.3
	after := geometry.Evaluate(j, packs[j.Region])
	f := frame(after, viewer.ViewCut, 240, 160)
	fresh, err := r.Draw(f)
	if err != nil {
		t.Fatal(err)
	}
	g := f
	g.Scene = viewer.NewScene(before, nil)
	if _, err := r.Draw(g); err != nil {
		t.Fatal(err)
	}
	g.Scene = viewer.NewScene(after, g.Scene)
	taken, err := r.Draw(g)
	if err != nil {
		t.Fatal(err)
	}
	if worst, _, _, _ := differ(fresh, taken); worst != 0 {
		t.Errorf("the picture differs by %v", worst)
	}
}

// BenchmarkSceneAfterAChange rebuilds a scene from the one before, with the
// fall of the floor changed.
func BenchmarkSceneAfterAChange(b *testing.B) {
	j := demotest.Rooms(b)[5].Job
	packs := demotest.Packs(b)
	var results [2]geometry.Result
	for i := range results {
		j.Former.Slope *= 1.01
		results[i] = geometry.Evaluate(j, packs[j.Region])
	}
	s := viewer.NewScene(results[0], nil)
	for i := 0; b.Loop(); i++ {
		s = viewer.NewScene(results[(i+1)%2], s)
	}
}

// BenchmarkMoving is one picture while something moves, at the sizes the
// window uses on software OpenGL.
func BenchmarkMoving(b *testing.B) {
	res := demotest.Results(b)[5]
	for _, size := range []struct {
		name          string
		width, height int
	}{{"600x400", 600, 400}, {"900x600", 900, 600}, {"1200x800", 1200, 800}, {"1920x1080", 1920, 1080}} {
		for _, look := range []struct {
			name string
			look viewer.Look
		}{{"finished", viewer.LookFinished}, {"technical", viewer.LookTechnical}} {
			f := frame(res, viewer.ViewCut, size.width, size.height)
			f.Look = look.look
			b.Run(size.name+"/"+look.name, func(b *testing.B) {
				r := viewer.Open(b) // each benchmark runs on a thread of its own
				for b.Loop() {
					if _, err := r.Draw(f); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// BenchmarkRest is a picture at rest refined as far as the window does in its
// two seconds on software rendering, and a large still as clean as it gets,
// which is only drawn where a graphics card does it.
func BenchmarkRest(b *testing.B) {
	res := demotest.Results(b)[5]
	for _, size := range []struct {
		name                   string
		width, height, samples int
		card                   bool
	}{{"1200x800, 16 samples", 1200, 800, 16, false}, {"3840x2160, 96 samples", 3840, 2160, 96, true}} {
		f := frame(res, viewer.ViewCorner, size.width, size.height)
		b.Run(size.name, func(b *testing.B) {
			r := viewer.Open(b)
			if size.card && r.Software() {
				b.Skip("no graphics card")
			}
			for i := 0; b.Loop(); i++ {
				f.Camera.Yaw += 1e-6 // begin again
				if _, _, err := r.Refine(f, 0, size.samples, true); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkCutMoving adds slicing, capping and hatching the cut anew.
func BenchmarkCutMoving(b *testing.B) {
	r := viewer.Open(b)
	res := demotest.Results(b)[5]
	f := frame(res, viewer.ViewCut, 600, 400)
	cut := section.ThroughDrain(res)
	for b.Loop() {
		cut.Origin = cut.Origin.Add(cut.Normal.Mul(0.1))
		f.Caps = viewer.NewCaps(res, buildup.StageTile, 11, cut)
		if _, err := r.Draw(f); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFirstPicture opens a context, builds the scene and draws.
func BenchmarkFirstPicture(b *testing.B) {
	res := demotest.Results(b)[5]
	for b.Loop() {
		r := viewer.Open(b)
		if _, err := r.Draw(frame(res, viewer.ViewCut, 700, 400)); err != nil {
			b.Fatal(err)
		}
		r.Close()
	}
}
