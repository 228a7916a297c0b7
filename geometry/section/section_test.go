package section_test

import (
	"math"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
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

// The layers in the section at the drain's edge are as thick as the job says.
func TestSectionShowsTheStack(t *testing.T) {
	for _, r := range demotest.Results(t) {
		d := section.Of(r, section.ThroughDrain(r), buildup.StageTile)
		for _, a := range d.Areas {
			if a.PartID != "tile" {
				continue
			}
			for _, p := range a.Region {
				low, high, _ := a.Region.Bounds()
				area := (high.X() - low.X()) * r.Settled.Layers.Shower.Tile.ThicknessMM
				if p.Outer.SignedArea() > area+1e-6 {
					t.Errorf("%s: tile in section has %.1f mm², at most %.1f", r.Settled.Name, p.Outer.SignedArea(), area)
				}
			}
		}
	}
}

// Hatch lines stay inside their region and cover it evenly: total length times
// spacing is the area.
func TestHatchCoversArea(t *testing.T) {
	r := demotest.Results(t)[0]
	for _, a := range section.Of(r, section.ThroughDrain(r), buildup.StageTile).Areas {
		for _, f := range section.PatternOf(a.Material).Families {
			if f.Dash > 0 {
				continue
			}
			const spacing = 3.0
			sum := 0.0
			for _, s := range section.Hatch(a.Region, section.Pattern{Families: []section.Family{f}}, spacing) {
				sum += s[1].Sub(s[0]).Len() * f.Spacing * spacing
				if !a.Region.Contains(s[0].Add(s[1]).Mul(0.5), 1e-6) {
					t.Fatalf("%s: hatch leaves its region", a.PartID)
				}
			}
			if area := a.Region.Area(); area > 2000 && math.Abs(sum-area) > 0.08*area {
				t.Errorf("%s: hatch covers %.0f of %.0f mm²", a.PartID, sum, area)
			}
		}
	}
}

// BenchmarkSection draws one section with hatch and dimensions; meshes are
// there already, as they are in the window.
func BenchmarkSection(b *testing.B) {
	for _, r := range demotest.Results(b) {
		cut := section.ThroughDrain(r)
		section.Of(r, cut, buildup.StageTile)
		b.Run(r.Settled.Name, func(b *testing.B) {
			for b.Loop() {
				d := section.Of(r, cut, buildup.StageTile)
				for _, a := range d.Areas {
					section.Hatch(a.Region, section.PatternOf(a.Material), 8)
				}
			}
		})
	}
}
