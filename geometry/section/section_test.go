package section_test

import (
	"math"
	"slices"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// No two faces of a section overlap: what is drawn is what is there.
func TestAreasDoNotOverlap(t *testing.T) {
	for _, r := range demotest.Results(t) {
		if r.Stops() {
			continue // a job that cannot be built may clash with itself
		}
		for name, cut := range map[string]section.Drawing{"drain": section.Of(r, section.ThroughDrain(r), buildup.StageTile), "run": section.Of(r, section.AlongRun(r), buildup.StageTile)} {
			for i, a := range cut.Areas {
				for _, b := range cut.Areas[:i] {
					if over := plan.SharedArea(a.Region, b.Region); over > 0.5 {
						t.Errorf("%s, section %s: %s overlaps %s by %.2f mm²", r.Settled.Name, name, a.PartID, b.PartID, over)
					}
				}
			}
		}
	}
}

// At any place of the cut the section shows the part whose body is there, of
// several the one with the greatest precedence, and nothing where none is; the
// bodies tell by themselves, without being sliced. It is looked at in the middle of
// every layer and through the whole height; let-in bases too, whose base was drawn
// and whose dimensions told of a floor that began at the deck.
func TestSectionShowsTheStack(t *testing.T) {
	results := demotest.Results(t)
	letIn := results[2].Stated
	letIn.Base.Support, letIn.Base.Height, letIn.Base.HeightMM = job.BetweenJoists, job.HeightChosen, -10
	results = append(results, geometry.Evaluate(letIn, demotest.Packs(t)[letIn.Region]))
	for _, r := range results {
		if r.Stops() {
			continue // a job that cannot be built may clash with itself
		}
		c := section.ThroughDrain(r)
		d := section.Of(r, c, buildup.StageTile)
		shows := func(q plan.Point) (ids []string) {
			for _, a := range d.Areas {
				if a.Region.Contains(q, 0) {
					ids = append(ids, a.PartID)
				}
			}
			return ids
		}
		there := func(q plan.Point) (ids []string) {
			greatest := -1
			for _, p := range r.Assembly.Parts {
				if p.Precedence >= greatest && c.Crosses(p.Bounds()) && demotest.Holds(p.Mesh(), c.Space(q)) {
					if p.Precedence > greatest {
						ids = nil
					}
					ids, greatest = append(ids, p.ID), p.Precedence
				}
			}
			return ids
		}
		layers, filled, empty := map[string]int{}, 0, 0
		for x := d.Low.X() + 3.13; x < d.High.X(); x += 17 {
			at := c.Space(plan.Point{x, 0})
			p := plan.Point{at.X(), at.Y()}
			levels := []float64{}
			if demotest.WellInside(r.Layout.FallArea, p, 5) {
				for _, course := range r.Floor.At(p)[1:] {
					levels = append(levels, (course.BottomMM+course.TopMM)/2)
				}
			}
			for z := d.Low.Y() + 1.37; z < d.High.Y(); z += 43 {
				levels = append(levels, z)
			}
			for _, z := range levels {
				want, got := there(plan.Point{x, z}), shows(plan.Point{x, z})
				if !slices.Equal(got, want) {
					t.Errorf("%s: at %.2f and %.2f %v is drawn where %v is", r.Settled.Name, x, z, got, want)
				}
				if len(want) > 0 {
					filled++
					layers[want[0]]++
				} else {
					empty++
				}
			}
		}
		if filled < 150 || empty < 150 || len(layers) < 10 {
			t.Errorf("%s: looked at %d places in %v, and %d empty ones", r.Settled.Name, filled, layers, empty)
		}
	}
	// By hand: base from the joists' tops, 22 under the deck's 0, up to −10; by the wall it is
	// sawn out for the trap.
	twelve := 0
	for _, dim := range section.Of(results[len(results)-1], section.ThroughDrain(results[len(results)-1]), buildup.StageTile).Dimensions {
		if written(dim.Text) == "12 mm" {
			twelve++
		}
	}
	if twelve != 1 {
		t.Errorf("the base of 12 mm is dimensioned %d times, want at the open edge", twelve)
	}
}

// Hatch lines stay inside their region and cover it evenly: total length times
// spacing is the area.
func TestHatchCoversArea(t *testing.T) {
	r := demotest.Results(t)[0]
	for _, a := range section.Of(r, section.ThroughDrain(r), buildup.StageTile).Areas {
		for _, f := range section.PatternOf(a.Material).Families {
			if f.Spacing == 0 || f.Dash > 0 {
				continue
			}
			const spacing = 3.0
			sum := 0.0
			for _, s := range section.Hatch(a.Region, material.Pattern{Families: [4]material.Family{f}}, spacing) {
				sum += s[1].Sub(s[0]).Len() * f.Spacing * spacing
				if !a.Region.Contains(s[0].Add(s[1]).Mul(0.5), 1e-6) {
					t.Fatalf("%s: hatch leaves its region", a.PartID)
				}
			}
			if area := a.Region.Area(); area > 2000 && !(math.Abs(sum-area) <= 0.08*area) {
				t.Errorf("%s: hatch covers %.0f of %.0f mm²", a.PartID, sum, area)
			}
		}
	}
}
