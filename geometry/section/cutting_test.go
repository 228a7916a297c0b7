package section_test

import (
	"math"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
)

// Cuts of the starting job by hand; see starting. The trap is at (700, 1832), the front edge at
// y = 1000 from 0 to 1400, the right one at x = 1400 from 1000 to 1900, the doorway from 1500 to
// 2260 in the wall at y = 0. That is wall A; on clockwise come B at x = 0, C at y = 1900 and D at
// x = 2400. The floor falls to the back, so that the right edge is highest at its front end, off
// which it is cut by 25. One looks from the right-hand side of the way that a cut runs.
func TestCuttings(t *testing.T) {
	r := starting(t)
	edge := func(n int) rule.Subject { return rule.Subject{Of: rule.OpenEdge, Number: n} }
	across := func(p plan.Point) plan.Point { return p.Normalize() }
	for name, c := range map[string]struct {
		cut            section.Cutting
		through, along plan.Point
		says           string
	}{
		"way in": {section.Cutting{Of: section.CutWayIn}, plan.Point{700, 1000}, plan.Point{0, 1},
			"cut.looking-at{cut: cut.across-way-in, wall: B}"},
		// The shower lies to the left of the doorway: to the middle of its front edge, at 700, 1000.
		"door": {section.Cutting{Of: section.CutDoor}, plan.Point{1880, 0}, across(plan.Point{-1180, 1000}),
			"cut.looking-at{cut: cut.across-the-door, wall: A}"},
		"right edge": {section.Across(edge(1)), plan.Point{1400, 1025}, plan.Point{-1, 0},
			"cut.looking-at{cut: cut.across-edge{at: edge.at-right}, wall: A}"},
		"front edge": {section.Across(edge(2)), plan.Point{700, 1000}, plan.Point{0, 1},
			"cut.looking-at{cut: cut.across-edge{at: edge.at-front}, wall: B}"},
		"doorway's step": {section.Across(rule.Subject{Of: rule.Doorway, Number: 1}), plan.Point{1880, 0}, across(plan.Point{-1180, 1000}),
			"cut.looking-at{cut: cut.across-the-door, wall: A}"},
		"pipe": {section.Cutting{Of: section.CutPipe}, plan.Point{645, 1832}, plan.Point{-1, 0},
			"cut.looking-at{cut: cut.along-pipe, wall: A}"},
		"drain": {section.Cutting{Of: section.CutDrain}, plan.Point{700, 1832}, plan.Point{0, 1},
			"cut.looking-at{cut: cut.through-drain, wall: B}"},
		"two points": {section.Cutting{Of: section.CutPoints, From: plan.Point{2000, 300}, To: plan.Point{1000, 1300}}, plan.Point{1500, 800},
			across(plan.Point{-1, 1}), "cut.looking-at{cut: cut.between-points, wall: A}"},
		"the other way": {section.Cutting{Of: section.CutPoints, From: plan.Point{1000, 1300}, To: plan.Point{2000, 300}}, plan.Point{1500, 800},
			across(plan.Point{1, -1}), "cut.looking-at{cut: cut.between-points, wall: D}"},
		"turned": {section.Cutting{Of: section.CutWayIn, TurnedDeg: -90}, plan.Point{700, 1000}, plan.Point{1, 0},
			"cut.turned{cut: cut.across-way-in, angle: -90°, wall: C}"},
		"turned by 30°": {section.Cutting{Of: section.CutDrain, TurnedDeg: 30}, plan.Point{700, 1832}, plan.Point{-0.5, math.Sqrt(0.75)},
			"cut.turned{cut: cut.through-drain, angle: 30°, wall: B}"},
	} {
		plane, err := c.cut.Plane(r)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		at, along := plan.Point{plane.Origin.X(), plane.Origin.Y()}, plan.Point{plane.Along.X(), plane.Along.Y()}
		if !near(at, c.through) || !near(along, c.along) || plane.Up.Z() != 1 {
			t.Errorf("%s: through %v along %v, want %v along %v", name, at, along, c.through, c.along)
		}
		if got := c.cut.Says(r).String(); got != c.says {
			t.Errorf("%s: says %s, want %s", name, got, c.says)
		}
	}
	// A run that bends goes on where the cut along its first leg does not.
	bent := r
	bent.Heights.Run.Corners = []plan.Point{{645, 1832}, {400, 1832}, {200, 1600}}
	if got := (section.Cutting{Of: section.CutPipe}).Goes(bent).String(); got != "cut.along-pipe-to-bend" {
		t.Errorf("along a run that bends: goes %s", got)
	}
	level := section.Cutting{Of: section.CutLevel, LevelMM: 60}
	if plane, err := level.Plane(r); err != nil || plane.Origin.Z() != 60 || plane.Normal.Z() != 1 {
		t.Errorf("at a level: %+v, %v", plane, err)
	}
	if got := level.Says(r).String(); got != "cut.at-level{level: 60 mm over the datum}" {
		t.Errorf("at a level: says %s", got)
	}
}

// A cut that is none is refused with its reason, and says and draws nothing.
func TestCuttingsRefused(t *testing.T) {
	r := starting(t)
	points := func(ax, ay, bx, by float64) section.Cutting {
		return section.Cutting{Of: section.CutPoints, From: plan.Point{ax, ay}, To: plan.Point{bx, by}}
	}
	unsolved := r
	unsolved.Problems = job.Problems{{Key: "room"}}
	closed, noRun := starting(t, closedIn), r
	noRun.Heights.Run.Corners = nil
	for name, c := range map[string]struct {
		r    geometry.Result
		cut  section.Cutting
		want message.ID
	}{
		"no length":             {r, points(700, 900, 700, 900), "cut.no-length"},
		"half a millimetre":     {r, points(700, 900, 700.5, 900), "cut.no-length"},
		"beside the room":       {r, points(-400, 0, -400, 1000), "cut.outside-room"},
		"towards the room":      {r, points(-900, 900, -300, 900), "cut.outside-room"},
		"no place":              {r, points(math.NaN(), 0, 100, 100), "cut.no-points"},
		"endless":               {r, points(math.Inf(-1), 0, 100, 100), "cut.no-points"},
		"turned by nothing":     {r, section.Cutting{Of: section.CutDrain, TurnedDeg: math.NaN()}, "cut.no-direction"},
		"over everything":       {r, section.Cutting{Of: section.CutLevel, LevelMM: 9000}, "cut.no-level"},
		"under everything":      {r, section.Cutting{Of: section.CutLevel, LevelMM: -9000}, "cut.no-level"},
		"at no level":           {r, section.Cutting{Of: section.CutLevel, LevelMM: math.NaN()}, "cut.no-level"},
		"a step that is gone":   {r, section.Across(rule.Subject{Of: rule.Doorway, Number: 7}), "cut.no-step"},
		"a step of no such":     {r, section.Across(rule.Subject{Of: rule.TheShower}), "cut.no-step"},
		"no open edge":          {closed, section.Cutting{Of: section.CutWayIn}, "cut.no-way-in"},
		"no doorway":            {closed, section.Cutting{Of: section.CutDoor}, "cut.no-door"},
		"no run":                {noRun, section.Cutting{Of: section.CutPipe}, "cut.no-pipe"},
		"a job not worked out":  {unsolved, section.Cutting{Of: section.CutDrain}, "cut.no-room"},
		"turned out of a niche": {r, section.Cutting{Of: section.CutDoor, TurnedDeg: 90}, ""},
	} {
		_, err := c.cut.Plane(c.r)
		_, drawn := section.Through(c.r, c.cut, buildup.StageTile)
		if c.want == "" {
			// Along the wall's own face the plane is one, as it meets the room's outline or the
			// room beside it; it must not panic, whatever it says.
			continue
		}
		if err == nil || message.OfError(err).ID != c.want || drawn == nil {
			t.Errorf("%s: %v, %v, want %s", name, err, drawn, c.want)
		}
		if said := c.cut.Says(c.r); !said.IsZero() {
			t.Errorf("%s: says %s", name, said)
		}
	}
}

// Every step of every demo has a cut across it that measures it there, as great as it is told, but
// for what it is less 25 off an end, and what is flush, which is not measured; whatever a rule may find wrong
// with a step can be cut so.
func TestEveryStepHasItsCut(t *testing.T) {
	const lessMM = 1.25 + 1e-6 // 25 at a fall of 1:20, the steepest there is
	measured, found := 0, 0
	for _, r := range demotest.Shown(t) {
		cuts := section.AcrossSteps(r)
		steps := r.Steps()
		if len(cuts) != len(steps) {
			t.Fatalf("%s: %d cuts of %d steps", r.Settled.Name, len(cuts), len(steps))
		}
		for i, c := range cuts {
			d, err := section.Through(r, c, buildup.StageTile)
			if err != nil {
				t.Errorf("%s: %s: %v", r.Settled.Name, steps[i].Where, err)
				continue
			}
			if said := c.Says(r); said.IsZero() {
				t.Errorf("%s: %s: says nothing", r.Settled.Name, steps[i].Where)
			}
			var of []float64
			for _, m := range d.Dimensions {
				if m.Step {
					of = append(of, m.To.Y()-m.From.Y())
				}
			}
			there := false
			for _, mm := range of {
				there = there || math.Abs(math.Abs(mm)-math.Abs(steps[i].MM)) < lessMM
			}
			if !there && steps[i].Kind != geometry.Flush {
				t.Errorf("%s: %s of %.1f: measured %v", r.Settled.Name, steps[i].Where, steps[i].MM, of)
			}
			if there {
				measured++
			}
		}
		for _, m := range r.Measured {
			if !strings.HasPrefix(m.Quantity, "step.") {
				continue
			}
			found++
			if _, err := section.Across(m.Subject).Plane(r); err != nil {
				t.Errorf("%s: %s of %s: %v", r.Settled.Name, m.Quantity, m.Subject, err)
			}
		}
	}
	if measured < 10 || found < 20 {
		t.Errorf("%d steps measured, %d measurements of steps", measured, found)
	}
}

// Level cuts of the starting job by hand. The pipe of 46 bore falls from 26.5 at the trap's outlet to the wall,
// and the cut lies half a bore over the middle of its inverts. The base is one board of 69 on its bed, the thickest
// there is. The tile of 9 at 108 over the drain ends at 99.
func TestLevelCuts(t *testing.T) {
	r := starting(t)
	run := &r.Heights.Run
	for of, want := range map[section.CuttingOf]float64{
		section.CutPipeLevel: (run.InvertAt(0)+run.InvertAt(run.ExitAtMM))/2 + run.Pieces[0].Pipe.BoreMM/2,
		section.CutTileLevel: r.Heights.TileMM - 9.5,
	} {
		c := section.Cutting{Of: of}
		plane, err := c.Plane(r)
		if err != nil || math.Abs(plane.Origin.Z()-want) > 0.01 || plane.Normal.Z() != 1 {
			t.Errorf("%s: %+v, %v, want a level of %v", of, plane, err, want)
		}
		if said := c.Says(r); said.ID != "cut.level-through" || said.Args[0].Value.(message.Said).ID != of.Name() {
			t.Errorf("%s: says %s", of, said)
		}
	}
	cutThrough := func(of section.CuttingOf, part string) bool {
		d, err := section.Through(r, section.Cutting{Of: of}, buildup.StageTile)
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range d.Areas {
			if strings.HasPrefix(a.PartID, part) && a.Cut {
				return true
			}
		}
		return false
	}
	for _, c := range []struct {
		of   section.CuttingOf
		part string
		cut  bool
	}{{section.CutPipeLevel, "run-straight", true}, {section.CutBoardsLevel, "base", true}, {section.CutBoardsLevel, "tile", false},
		{section.CutTileLevel, "former", true}, {section.CutTileLevel, "base", false}} {
		if got := cutThrough(c.of, c.part); got != c.cut {
			t.Errorf("%s cuts %s: %v", c.of, c.part, got)
		}
	}
	bare := r
	bare.Heights.Run.Pieces = nil
	if _, err := (section.Cutting{Of: section.CutPipeLevel}).Plane(bare); message.OfError(err).ID != "cut.no-pipe" {
		t.Errorf("without a run: %v", err)
	}
	for _, r := range demotest.Shown(t) {
		for _, of := range section.LevelCuts() {
			if _, err := section.Through(r, section.Cutting{Of: of}, buildup.StageTile); err != nil && message.OfError(err).ID != "cut.no-boards" {
				t.Errorf("%s: %s: %v", r.Settled.Name, of, err)
			}
		}
	}
}
