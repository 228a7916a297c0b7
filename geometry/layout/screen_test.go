package layout_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
)

// screens are those of a job on the starting shower, 1400 by 900 with its left and its back
// at walls.
func screens(s ...job.Screen) job.Job {
	j := job.New()
	j.Shower.Screens = s
	return j
}

func glass(kind job.ScreenKind, side job.ShowerSide, offset, width float64) job.Screen {
	return job.Screen{Kind: kind, Side: side, OffsetMM: offset, WidthMM: width, HeightMM: 2000, ThicknessMM: 8, GapMM: 4}
}

// Offsets count from the left along back and front, from the back along left and right,
// whichever way the room is walked; glass stands 22 inside and is 8 thick.
func TestScreensByHand(t *testing.T) {
	inEveryFrame(t, func(t *testing.T, f frame) {
		l := place(t, f.job(screens(glass(job.ScreenPane, job.SideRight, 13, 842), glass(job.ScreenDoor, job.SideFront, 100, 700))))
		right, front := l.Screens[0], l.Screens[1]
		nearPoint(t, "right, near end", right.A, f.point(plan.Point{1400, 1887}))
		nearPoint(t, "right, far end", right.B, f.point(plan.Point{1400, 1045}))
		nearPoint(t, "front, near end", front.A, f.point(plan.Point{100, 1000}))
		nearPoint(t, "front, far end", front.B, f.point(plan.Point{800, 1000}))
		nearArea(t, "glass", right.Glass, 842*8)
		nearPoint(t, "middle of the glass", right.Glass.Centroid(), f.point(plan.Point{1400 - 22 + 4, 1466}))
		near(t, "off the right", right.OffMM, 0)
		near(t, "off the front", front.OffMM, 0)
		if right.Sweep != nil || front.OverMM > 0 {
			t.Errorf("%+v, %+v", right, front)
		}
		// The leaf hangs at the left and opens into the room.
		if !front.Sweep.Contains(f.point(plan.Point{101, 310}), 0) || front.Sweep.Contains(f.point(plan.Point{790, 310}), 0) || front.Sweep.Contains(f.point(plan.Point{200, 1010}), 0) {
			t.Error("the leaf sweeps elsewhere")
		}
		if got, want := front.Sweep.Area(), math.Pi*700*700/4; got > want || got < 0.995*want {
			t.Errorf("it sweeps %v, a quarter disc is %v", got, want)
		}
	})
}

// Beside a pane of 842 from 13 on the right of 900, 13 at one end is no way, 45 at the
// other is; the front of 1400 is one way through a door of 700, 8 of it its leaf. Without
// counting the door 100 and 600 are left of it.
func TestWaysByHand(t *testing.T) {
	l := place(t, screens(glass(job.ScreenPane, job.SideRight, 13, 842), glass(job.ScreenDoor, job.SideFront, 100, 700)))
	for name, c := range map[string]struct {
		got  []layout.Way
		want map[layout.Side][]float64
	}{
		"ways":       {l.Ways(), map[layout.Side][]float64{layout.Right: {45}, layout.Front: {1392}}},
		"unscreened": {l.Unscreened(), map[layout.Side][]float64{layout.Right: {45}, layout.Front: {600, 100}}},
	} {
		widths := map[layout.Side][]float64{}
		for _, w := range c.got {
			widths[w.Side] = append(widths[w.Side], w.WidthMM)
		}
		if len(widths) != len(c.want) {
			t.Errorf("%s: %v", name, widths)
		}
		for side, want := range c.want {
			if len(widths[side]) != len(want) {
				t.Errorf("%s at %s: %v, want %v", name, side, widths[side], want)
				continue
			}
			for i := range want {
				near(t, name, widths[side][i], want[i])
			}
		}
	}
}

// A screen at the left stands at a wall with all of it; one from 1200 on along the front
// of 1400 sticks out with 300 of 500; one from 600 to 900 stands with 200 of it in one to
// 800.
func TestScreensWithoutAPlace(t *testing.T) {
	l := place(t, screens(glass(job.ScreenPane, job.SideLeft, 100, 300), glass(job.ScreenPane, job.SideFront, 1200, 500),
		glass(job.ScreenPane, job.SideFront, 0, 800), glass(job.ScreenPane, job.SideFront, 600, 300)))
	for i, want := range [][2]float64{{300, 0}, {300, 0}, {0, 0}, {0, 200}} {
		near(t, "off", l.Screens[i].OffMM, want[0])
		near(t, "over", math.Max(0, l.Screens[i].OverMM), want[1])
	}
}

// A door of 700 on the front that opens into the shower passes over a quarter of a disc behind the
// front, y = 1000, and a sliding one of 1200 of which 650 stay in the way leaves 1400 − 650 of the
// front.
func TestScreensThatOpenOtherwise(t *testing.T) {
	in := glass(job.ScreenDoor, job.SideFront, 100, 700)
	in.OpensIn = true
	l := place(t, screens(in))
	if sweep := l.Screens[0].Sweep; !sweep.Contains(plan.Point{101, 1690}, 0) || sweep.Contains(plan.Point{200, 990}, 0) {
		t.Error("a door that opens in sweeps elsewhere")
	}
	near(t, "past the leaf", widestIn(l, layout.Front), 1392)
	slide := glass(job.ScreenSlide, job.SideFront, 100, 1200)
	slide.KeepsMM = 650
	l = place(t, screens(slide))
	if l.Screens[0].Sweep != nil {
		t.Error("a sliding door sweeps over the floor")
	}
	near(t, "past what slides", widestIn(l, layout.Front), 1400-650)
}

// widestIn is the widest way through a side.
func widestIn(l layout.Layout, side layout.Side) (mm float64) {
	for _, w := range l.Ways() {
		if w.Side == side {
			mm = max(mm, w.WidthMM)
		}
	}
	return mm
}
