package viewer_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// From above the middle of the shower's tile is seen, what lies a hand deep in the structural floor under
// it is that floor's own and what lies under the floor is hidden; what is on the side that a cut takes away
// is not to be seen either, and layers drawn apart take their places along.
func TestPlacesAreTold(t *testing.T) {
	r := demotest.Results(t)[0]
	f := viewer.Frame{Scene: viewer.NewScene(r, nil), Stage: buildup.StageTile, Width: 460, Height: 270,
		Camera: viewer.CameraFor(viewer.ViewPlan, r, 1.7)}
	middle := r.Layout.Shower.Centroid()
	tile := middle.Vec3(r.Heights.ShowerAt(&r.Layout, middle))
	cut := section.ThroughDrain(r)
	beside := func(mm float64) mgl64.Vec3 { return tile.Sub(cut.Normal.Mul(cut.Side(tile))).Add(cut.Normal.Mul(mm)) }
	for name, c := range map[string]struct {
		at     mgl64.Vec3
		cut    bool
		hidden bool
	}{
		"on the tile": {tile, false, false}, "under the slab": {middle.Vec3(-2000), false, true},
		"beside the cut, kept": {beside(-100), true, false}, "beside the cut, taken away": {beside(100), true, true},
		"on the cut": {beside(0), true, false},
	} {
		g := f
		if c.cut {
			g.Caps = &viewer.Caps{Cuts: []solid.Cut{cut}}
		}
		of, _ := g.At(c.at)
		if at, hidden := g.Place(c.at, of); hidden != c.hidden || at != c.at {
			t.Errorf("%s: hidden %v, at %v for %v", name, hidden, at, c.at)
		}
	}
	f.Apart = 1
	of, _ := f.At(tile)
	if at, _ := f.Place(tile, of); at[2] < tile[2]+100 {
		t.Errorf("apart, the tile's middle is at %v for %v", at, tile)
	}
}

// From any side of any demo, cut or not: what a line of sight to a finding's place meets well before it, of a
// part that the place neither lies in nor is of, hides it; and where a line of sight meets nothing, and no cut
// face is before it, nothing does. What a place lies in is told from its mesh.
func TestHiddenIsToldAsLinesOfSightSay(t *testing.T) {
	const seed, cameras, clearMM = 11, 12, 8
	random := rand.New(rand.NewPCG(seed, 1))
	told := map[bool]int{}
	for _, r := range demotest.Results(t) {
		f := viewer.Frame{Scene: viewer.NewScene(r, nil), Stage: buildup.StageTile, Look: viewer.LookTechnical, Width: 460, Height: 270}
		cut := section.ThroughDrain(r)
		for i := range cameras {
			f.Caps = nil
			if i%2 == 1 {
				f.Caps = &viewer.Caps{Cuts: []solid.Cut{cut}}
			}
			f.Camera = viewer.CameraFor(viewer.ViewCorner, r, 1.7).Orbit(random.Float64()*2*math.Pi, random.Float64()-0.4)
			eye := f.Camera.Eye()
			for _, found := range r.Findings {
				at := found.Measurement.At
				of, _ := f.At(at)
				_, hidden := f.Place(at, of)
				if f.Caps != nil && math.Abs(cut.Side(at)) < clearMM {
					continue
				}
				way := at.Sub(eye)
				hit, ok := f.Pick(eye, way.Normalize())
				own := ok && (hit.Part.ID == of || demotest.Holds(hit.Part.Mesh(), at))
				before := ok && hit.At.Sub(eye).Len() < way.Len()-clearMM
				switch {
				case f.Caps != nil && cut.Side(at) > 0:
					if !hidden {
						t.Errorf("%s, %s: cut away and not told as hidden", r.Settled.Name, found.Key())
					}
				case before && !own && !hidden:
					t.Errorf("%s, %s: %s is before it and it is not told as hidden", r.Settled.Name, found.Key(), hit.Part.ID)
				case !before && f.Caps == nil && hidden:
					t.Errorf("%s, %s: nothing is before it and it is told as hidden", r.Settled.Name, found.Key())
				}
				told[hidden]++
			}
		}
	}
	if told[true] < 100 || told[false] < 100 {
		t.Errorf("hidden and not: %v", told)
	}
}
