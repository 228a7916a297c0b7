package viewer

import (
	"slices"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/section"
)

// A map of shadows that is kept from one moving picture to the next holds those of the next: with all that changes
// shadows changed one after the other, each picture is the one that a map drawn for it alone gives.
func TestShadowsFollowWhatTheyAreOf(t *testing.T) {
	r := Open(t)
	all := demotest.Results(t)
	f := photographed(t, benchmarkDemo, 96, 60)
	f.Light = job.Light{Kind: job.LightDay, Hour: 10}
	frames := []Frame{f}
	with := func(change func(*Frame)) {
		g := f
		change(&g)
		frames = append(frames, g)
	}
	with(func(g *Frame) { g.Light.Hour = 16 })
	with(func(g *Frame) { g.Stage = buildup.StageFormer })
	with(func(g *Frame) { g.Stage, g.Arriving = buildup.StageFormer, 1 })
	with(func(g *Frame) { g.Apart = 1 })
	with(func(g *Frame) {
		g.Caps = NewCaps(all[benchmarkDemo], g.Stage, 11, section.ThroughDrain(all[benchmarkDemo]))
	})
	with(func(g *Frame) { g.Look = LookThrough })
	with(func(g *Frame) { g.Camera = CameraFor(ViewCorner, all[benchmarkDemo], 1.6) })
	with(func(g *Frame) { g.Scene = NewScene(all[0], nil) })
	draw := func(i int) []uint8 {
		img, err := r.Draw(frames[i])
		if err != nil {
			t.Fatal(err)
		}
		return slices.Clone(img.Pix)
	}
	for from := range frames {
		for to := range frames {
			draw(from)
			had := r.live.keyMap.of
			kept := draw(to)
			r.live.keyMap.of = shadows{}
			if !slices.Equal(kept, draw(to)) {
				t.Errorf("picture %d after picture %d has shadows that are not its own", to, from)
			}
			if from == to && !had.same(r.live.keyMap.of) {
				t.Errorf("picture %d after itself draws its shadows anew", to)
			}
		}
	}
}
