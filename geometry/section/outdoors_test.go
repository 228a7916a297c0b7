package section_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// The damp-proof course at 75 below the floor's datum and the ground 100 below it are drawn in
// the section along the run, through the left wall from x = −215 to 0 and outside of that.
func TestOutdoorsInSections(t *testing.T) {
	course, ground := -75.0, -100.0
	r := starting(t, func(j *job.Job) {
		j.Room.Walls[3].DampCourseMM, j.Room.Walls[3].OutsideGroundMM = &course, &ground
	})
	c := solid.VerticalCut(plan.Point{0, 1832}, plan.Point{1, 0})
	d := section.Of(r, c, buildup.StageTile)
	x := func(p plan.Point) float64 { return c.Flat(p.Vec3(0)).X() }
	inner, outer := x(plan.Point{0, 1832}), x(plan.Point{-215, 1832})
	from, to := math.Min(inner, outer), math.Max(inner, outer)
	dpc, out := linesOf(d, "damp-course"), linesOf(d, "ground")
	if len(dpc) != 1 || len(out) != 1 {
		t.Fatalf("%d damp-proof courses, %d lines of ground", len(dpc), len(out))
	}
	expectLine(t, dpc[0], section.Heavy, false, plan.Point{from, -75}, plan.Point{to, -75})
	for _, p := range out[0].Points {
		if p.Y() != -100 || p.X() > from && p.X() < to {
			t.Errorf("ground at %v", p)
		}
	}
	for _, of := range []message.ID{section.MarkDampCourse, section.MarkGround} {
		if !slices.ContainsFunc(d.Marks, func(m section.Mark) bool { return m.Of == of }) {
			t.Errorf("%s is not named", of)
		}
	}
	if bare := section.Of(starting(t), c, buildup.StageTile); len(linesOf(bare, "damp-course")) > 0 {
		t.Error("a damp-proof course that is not stated")
	}
}

// headrooms are the clear heights dimensioned in a section.
func headrooms(r geometry.Result, c solid.Cut) (out []float64) {
	for _, m := range section.Of(r, c, buildup.StageTile).Dimensions {
		if m.Text.ID == "dimension.headroom" {
			out = append(out, m.To.Y()-m.From.Y())
		}
	}
	slices.Sort(out)
	return out
}

// A ceiling that rises 1 in 1 from 1500 at the back wall: over the floor that lies from there to
// 900 before it, 300 inside of both ends it is at 1800 and 2100, and a cut along the wall is
// under one height. Under a level ceiling at 2400 it is where the floor is highest, and the
// ceiling is drawn.
func TestHeadroomInSections(t *testing.T) {
	r := starting(t, func(j *job.Job) { j.Room.Slopes = []job.Slope{{Wall: 2, KneeMM: 1500, PitchDeg: 45}} })
	floor := func(y float64) float64 { return r.Heights.ShowerAt(&r.Layout, plan.Point{1200, y}) }
	got := headrooms(r, solid.VerticalCut(plan.Point{1200, 1000}, plan.Point{0, 1}))
	across := headrooms(r, solid.VerticalCut(plan.Point{0, 1400}, plan.Point{1, 0}))
	if len(got) != 2 || !(math.Abs(got[0]-(1800-floor(1600))) <= 1e-6) || !(math.Abs(got[1]-(2100-floor(1300))) <= 1e-6) {
		t.Errorf("headroom %v", got)
	}
	if len(across) != 1 || !(math.Abs(across[0]-(2000-floor(1400))) <= 1e-6) {
		t.Errorf("along the wall %v", across)
	}
	level, deep := starting(t), solid.VerticalCut(plan.Point{1200, 1000}, plan.Point{0, 1})
	if got := headrooms(level, deep); len(got) != 1 || !(math.Abs(got[0]-(2400-floor(1300))) <= 1e-6) {
		t.Errorf("under a level ceiling %v", got)
	}
	lines := linesOf(section.Of(level, deep, buildup.StageTile), "ceiling")
	if len(lines) != 1 {
		t.Fatalf("a level ceiling is drawn as %v", lines)
	}
	expectLine(t, lines[0], section.Medium, false, plan.Point{-1000, 2400}, plan.Point{900, 2400})
}

// Where nobody has measured how high the room is, the headroom says that its ceiling is assumed.
func TestHeadroomToAnAssumedCeiling(t *testing.T) {
	for standing, want := range map[job.Standing]string{job.Stated: "dimension.headroom", job.Assumed: "dimension.headroom-assumed"} {
		r := starting(t, func(j *job.Job) { j.SetStanding("room.heightMM", standing) })
		found := false
		for _, d := range section.Of(r, solid.VerticalCut(plan.Point{1200, 1000}, plan.Point{0, 1}), buildup.StageTile).Dimensions {
			found = found || string(d.Text.ID) == want
		}
		if !found {
			t.Errorf("%q: %s is not dimensioned", standing, want)
		}
	}
}
