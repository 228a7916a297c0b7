package furnish_test

import (
	"math"
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Strips beside a niche by hand: tiles of 600 by 300 with joints of 2 from the drain's middle and the shower's tile on, so that joints
// lie every 602 along and every 302 up, each from 1 before to 1 after. The niche of 480 by 320 is 100 to the right of that middle to its
// own: its left side at -140, 601 - 140 = 461 after the joint at -602; its right at 340, 601 - 340 = 261 before the next; its foot
// 1080 up, 1080 - 907 = 173 over the joint at 906; its head at 1400, 1509 - 1400 = 109 under that at 1510. The left side is nearest
// to a joint: 140.
func TestStripsBesideANicheByHand(t *testing.T) {
	r := demotest.Results(t)[0]
	l := &r.Layout
	f := &r.Settled.Layers.Wall
	f.TileLengthMM, f.TileWidthMM, f.JointMM, f.Bond = 600, 300, 2, job.BondStack
	wall := 0
	for i, w := range l.Walls {
		if math.Abs(plan.Cross(w.Along, l.DrainAlong)) < 1e-6 && math.Abs(w.A.Sub(l.DrainEdge).Dot(w.Outward)) < 1 {
			wall = i
		}
	}
	w := l.Walls[wall]
	o := furnish.Object{Kind: furnish.Niche, Wall: wall, Out: w.Outward.Mul(-1), WidthMM: 480, DepthMM: 90,
		FromMM: r.Heights.TileMM + 1080, ToMM: r.Heights.TileMM + 1400}
	o.At = w.At(l.DrainEdge.Sub(w.A).Dot(w.Along)).Add(o.Along().Mul(100))
	s, ok := furnish.SlipsOf(&r, o)
	want := furnish.Slips{LeftMM: 461, RightMM: 261, BelowMM: 173, AboveMM: 109, ToJointMM: 140}
	if !ok || !alike(s, want) {
		t.Errorf("%+v, want %+v", s, want)
	}
	o.At = o.At.Add(o.Along().Mul(s.ToJointMM))
	if s, _ := furnish.SlipsOf(&r, o); s.LeftMM != 0 || math.Abs(s.ToJointMM) > 1e-6 {
		t.Errorf("moved to the joint: %+v", s)
	}
	f.Bond = job.BondHerringbone
	if _, ok := furnish.SlipsOf(&r, o); ok {
		t.Error("there are no joints through herringbone")
	}
}

func alike(a, b furnish.Slips) bool {
	const nearMM = 1e-6
	d := []float64{a.LeftMM - b.LeftMM, a.RightMM - b.RightMM, a.BelowMM - b.BelowMM, a.AboveMM - b.AboveMM, a.ToJointMM - b.ToJointMM}
	for _, v := range d {
		if math.Abs(v) > nearMM {
			return false
		}
	}
	return true
}
