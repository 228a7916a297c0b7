package section

import (
	"math"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/layout"
	"underfall/geometry/plan"
	"underfall/geometry/solid"
)

// Levels over the tile at the drain that stacks and vents are named at.
const (
	stackLevelMM = 60
	ventLevelMM  = 120
)

// uprights names the stacks, the vent, the boxing and the pump that the cut goes through.
func (d *Drawing) uprights(r geometry.Result, stage buildup.Stage) {
	h, w := &r.Heights, &r.Settled.Waste
	run := &h.Run
	across := func(region plan.Region, m Mark) {
		for _, iv := range d.along(region) {
			m.At = plan.Point{(iv.From + iv.To) / 2, math.Min(m.LevelMM, d.High.Y())}
			d.Marks = append(d.Marks, m)
		}
	}
	circle := func(at plan.Point, radiusMM float64) plan.Region {
		return plan.FromRing(plan.Circle(at, radiusMM, solid.ChordErrorMM))
	}
	for i, s := range r.Layout.Stacks {
		across(circle(s.At, s.RadiusMM), Mark{Of: MarkStack, Number: i + 1, Size: sizeOf(&r, r.Settled.Room.Stacks[i].NominalMM), LevelMM: h.TileMM + stackLevelMM})
	}
	if at, ok := ventAt(&r); ok && stage >= buildup.StageWaste {
		where := circle(run.PointAt(at), w.Vent.NominalMM/2)
		if s, in := r.Settled.StackAsVent(run.LengthMM); in {
			where = circle(s.At, s.OutsideMM/2)
		}
		if p := run.PointAt(at); !r.Layout.FallArea.Contains(p, 0) {
			across(where, Mark{Of: MarkVent, Size: sizeOf(&r, w.Vent.NominalMM), LevelMM: h.TileMM + ventLevelMM})
		}
	}
	if stage >= buildup.StageTile {
		d.boxing(&r)
	}
	if p := w.IntoPump(); p != nil && stage >= buildup.StageTile && len(run.Pieces) > 0 {
		inlet, _ := h.PumpInletMM(&r.Settled, &r.Layout, run)
		across(plan.FromRing(layout.PumpBox(*p, run.Exit, run.ExitTo)), Mark{Of: MarkPump, LevelMM: inlet - p.InletMM + p.HeightMM})
	}
}

// besidePump are stretches of the room's floor less what a pump stands on.
func (d *Drawing) besidePump(r geometry.Result, floor []plan.Interval) []plan.Interval {
	p, run := r.Settled.Waste.IntoPump(), &r.Heights.Run
	if p == nil || len(run.Pieces) == 0 {
		return floor
	}
	return plan.Without(floor, d.along(plan.FromRing(layout.PumpBox(*p, run.Exit, run.ExitTo))))
}
