package geometry_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/settle"

	"pgregory.net/rapid"
)

// sidesTold is what a layout tells of the shower's sides: the walls that each stands at, where it is open, where one
// walks in, the edges that ramps lead to, the corners of two ramps and the cheeks.
func sidesTold(l *layout.Layout) map[string]int {
	out := map[string]int{}
	for _, e := range l.Edges {
		out[fmt.Sprintf("%s at wall %d", e.Side, e.Wall)]++
	}
	for i, e := range l.OpenEdges() {
		if l.WalkedOver(i) {
			out["step at "+string(e.Side)]++
		}
	}
	for _, f := range l.Ramps {
		switch {
		case len(f.Slopes) == 1:
			out[fmt.Sprintf("ramp at %d", f.Slopes[0].Edge)]++
		case f.Slopes[0].Edge == f.Slopes[1].Edge:
			out[fmt.Sprintf("cheek at %d", f.Slopes[0].Edge)]++
		default:
			out["corner of ramps"]++
		}
	}
	return out
}

// What a shower stands against is what it stood against, also where it would lie in the room if it slid a few millimetres out
// of its corner: it is made 4 mm shallower instead, as the corner moved 4 mm.
func TestAShowerIsTrimmedRatherThanSlidOffItsWall(t *testing.T) {
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(demos, func(d assets.Demo) bool { return strings.HasPrefix(d.File, "5-") })
	j := demos[at].Job.Clone()
	ring := slices.Clone(j.Room.Outline)
	ring[5] = ring[5].Add(plan.DirectionDeg(29).Mul(3.9921875))
	moved := settle.Do(j, edit.Outline(ring))
	if moved.Refused != nil {
		t.Fatalf("refused: %v", moved.Refused.What)
	}
	if s := moved.Job.Shower; s.DepthMM != j.Shower.DepthMM-4 || math.Abs(s.OffsetMM) > job.AtWallMM || s.WidthMM != j.Shower.WidthMM {
		t.Errorf("%v × %v, %v along its wall; want %v × %v at its corner", s.WidthMM, s.DepthMM, s.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM-4)
	}
	was, is := layout.Of(j, &plan.Shaper{}), layout.Of(moved.Job, &plan.Shaper{})
	if want, told := sidesTold(&was), sidesTold(&is); !maps.Equal(told, want) {
		t.Errorf("%v, were %v", told, want)
	}
}

// A tape finds every corner a few millimetres from where it was drawn. Which sides of a shower stand at walls, where one
// steps in, and the ramps with their cheeks, are the same then; and no strip of the room's floor is left at a wall.
func TestARoomALittleOutOfSquareKeepsItsSides(t *testing.T) {
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range demos {
		j := d.Job.Clone()
		j.Room.Edge = job.EdgeRamp
		drawn := layout.Of(j, &plan.Shaper{})
		want := sidesTold(&drawn)
		t.Run(d.File, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				ring := append([]plan.Point(nil), j.Room.Outline...)
				i := rapid.IntRange(0, len(ring)-1).Draw(t, "corner")
				towards := plan.DirectionDeg(float64(rapid.IntRange(0, 359).Draw(t, "towards")))
				ring[i] = ring[i].Add(towards.Mul(rapid.Float64Range(0, 4).Draw(t, "byMM")))
				moved := settle.Do(j, edit.Outline(ring))
				if moved.Refused != nil {
					t.Fatalf("refused: %v", moved.Refused.What)
				}
				l := layout.Of(moved.Job, &plan.Shaper{})
				if told := sidesTold(&l); !maps.Equal(told, want) {
					t.Errorf("%v, were %v", told, want)
				}
			})
		})
	}
}
