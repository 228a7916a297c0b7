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
	"underfall/geometry/section"
	"underfall/geometry/solid"
)

// The layers of the starting job named by hand, with boards on its walls and a mat under
// the room's tanking. The cut runs through the drain; half way from the front edge to the
// drain the former is 20 and 408.5/50 more.
func TestNotesNameEveryLayer(t *testing.T) {
	j := job.New()
	j.Layers.Wall.Under = []job.Course{{Kind: job.CourseLining, Layer: job.Layer{ThicknessMM: 12.5}}}
	j.Layers.Room.Under = []job.Course{{Kind: job.CourseDecoupling, Layer: job.Layer{ThicknessMM: 3}}}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	d := section.Of(r, section.ThroughDrain(r), buildup.StageTile)
	type line struct {
		name message.ID
		mm   float64
	}
	want := [][]line{
		{{"layer.shower-tile", 9}, {"layer.shower-bed", 3}, {"layer.shower-tanking", 1}, {"layer.former", 28.17}, {"layer.former-bed", 3}, {"layer.base", 69}, {"layer.base-bed", 3}, {"layer.structure", 0}},
		{{"layer.room-tile", 9}, {"layer.room-bed", 3}, {"layer.room-tanking", 1}, {"layer.decoupling", 3}, {"layer.structure", 0}},
		{{"part.wall-tile", 9}, {"part.wall-bed", 3}, {"part.wall-tanking", 1}, {"part.wall-course", 12.5}},
	}
	if len(d.Notes) != len(want) {
		t.Fatalf("%d notes, want %d", len(d.Notes), len(want))
	}
	for i, n := range d.Notes {
		best := n.Places[0]
		if len(best.Texts) != len(want[i]) {
			t.Errorf("note %d: %v", i, best.Texts)
			continue
		}
		for k, m := range best.Texts {
			name, mm := m.ID, 0.0
			if m.ID == "note.layer" || m.ID == "note.wedge" {
				name, mm = m.Args[0].Value.(message.Said).ID, lengthIn(m.Args[1].Value)
			}
			if name != want[i][k].name || math.Abs(mm-want[i][k].mm) > 1e-6 {
				t.Errorf("note %d, line %d: %s %v, want %v", i, k, name, mm, want[i][k])
			}
		}
		for _, at := range n.Places {
			for _, p := range at.Points {
				if area, ok := d.At(p); !ok || area.PartID == "wall-3" {
					t.Errorf("note %d points at %v, where there is %q", i, p, area.PartID)
				}
			}
		}
	}
	// Before it is tiled there is no tile to name.
	bare := section.Of(r, section.ThroughDrain(r), buildup.StageFormer)
	if got := bare.Notes[0].Places[0].Texts[0].Args[0].Value.(message.Said).ID; got != "layer.former" {
		t.Errorf("the former's stage names %q first", got)
	}
}

// The plan says how much of the floor is heated, at a place that is, and shows where the
// tanking ends, and of the floor beside the drain that is level.
func TestPlanShowsHeatAndTanking(t *testing.T) {
	beyond := 300.0
	j := job.New()
	plain := section.PlanOf(geometry.Evaluate(j, demotest.Packs(t)[j.Region]))
	j.Layers.Room.Under = []job.Course{{Kind: job.CourseHeating}}
	j.Layers.Heating = &job.Heating{MarginMM: 100}
	j.Layers.Tanking = &job.Tanking{BeyondMM: &beyond}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	d := section.PlanOf(r)
	if len(plain.Notes) != 1 || len(d.Notes) != 2 || len(d.Lines) != len(plain.Lines)+1 {
		t.Fatalf("%d notes and %d lines, without heat and tanking %d and %d", len(d.Notes), len(d.Lines), len(plain.Notes), len(plain.Lines))
	}
	if got := d.Notes[1].Places[0].Texts[0].Args[0].Value.(message.Area).MM2; got != r.Layout.Heated.Area() || got == 0 {
		t.Errorf("heated %v mm², want %v", got, r.Layout.Heated.Area())
	}
	for _, p := range plain.Notes[0].Places {
		if p.Texts[0].ID != "note.level-floor" || !r.Water.Level.Region.Contains(p.Points[0], 0) {
			t.Errorf("%v is said at %v", p.Texts[0], p.Points[0])
		}
	}
	for _, p := range d.Notes[1].Places {
		if !r.Layout.Heated.Contains(p.Points[0], 0) {
			t.Errorf("%v is not heated", p.Points[0])
		}
	}
}

// Whatever a section of a demo points at is there: each line of a note at the body it names,
// at the same place in all drawings as thick as it is said to be; and the structural floor's
// mark at a slab, a deck or a joist.
func TestEverythingPointedAtIsThere(t *testing.T) {
	for _, r := range append(demotest.Results(t), demotest.Shown(t)...) {
		if r.Stops() {
			continue // a job that cannot be built may clash with itself
		}
		for _, c := range []solid.Cut{section.ThroughDrain(r), section.AlongRun(r)} {
			for stage := range buildup.Stages {
				d := section.Of(r, c, stage)
				under := func(p plan.Point) string {
					area, _ := d.At(p)
					return area.PartID
				}
				structure := func(id string) bool { return id == "slab" || id == "deck" || strings.HasPrefix(id, "joist-") }
				for _, n := range d.Notes {
					for _, at := range n.Places {
						for i, p := range at.Points {
							said := at.Texts[i]
							if said.ID == "layer.structure" {
								if id := under(p); !structure(id) {
									t.Errorf("%s, stage %d: the structural floor is shown at %v, where there is %q", r.Settled.Name, stage, p, id)
								}
								continue
							}
							area, _ := d.At(p)
							thick := 0.0
							for _, iv := range area.Region.Clip(plan.Point{p.X(), 0}, plan.Point{0, 1}) {
								if p.Y() >= iv.From && p.Y() <= iv.To {
									thick = iv.To - iv.From
								}
							}
							if of := lengthIn(said.Args[1].Value); math.Abs(thick-of) > 1e-3 && !strings.HasPrefix(area.PartID, "wall-") {
								t.Errorf("%s, stage %d: %v is shown at %v, where there are %v of %q", r.Settled.Name, stage, said, p, thick, area.PartID)
							}
						}
					}
				}
				for _, m := range d.Marks {
					if id := under(plan.Point{m.At.X(), m.At.Y() - 5}); m.Of == section.MarkStructure && !structure(id) {
						t.Errorf("%s, stage %d: the structural floor's level stands over %q", r.Settled.Name, stage, id)
					}
				}
			}
		}
	}
}

// One level has one value: the height dimensioned at an edge of the shower ends at the level that
// is marked there, which is the floor's.
func TestEdgesHaveOneLevel(t *testing.T) {
	seen := 0
	for _, r := range append(demotest.Results(t), demotest.Shown(t)...) {
		for _, c := range []solid.Cut{section.ThroughDrain(r), section.AlongRun(r)} {
			d := section.Of(r, c, buildup.StageTile)
			for _, m := range d.Marks {
				if m.Of != section.MarkTile {
					continue
				}
				highest := math.Inf(-1)
				for _, dim := range d.Dimensions {
					if dim.Side.Y() == 0 && dim.Row > 1 && dim.To.X() == m.At.X() {
						highest = math.Max(highest, dim.To.Y())
					}
				}
				if math.IsInf(highest, -1) {
					continue
				}
				seen++
				at := c.Space(m.At)
				if floor := r.Floor.FinishedMM(plan.Point{at.X(), at.Y()}); math.Abs(highest-m.LevelMM) > 1e-6 || math.Abs(floor-m.LevelMM) > 1e-6 {
					t.Errorf("%s: the edge at %v is dimensioned up to %v, marked %v, its floor is at %v", r.Settled.Name, m.At.X(), highest, m.LevelMM, floor)
				}
			}
		}
	}
	if seen < 30 {
		t.Errorf("%d edges compared", seen)
	}
}

// The movement joint of a floor parted at 2000 is drawn in plan where it runs, at x = 1303
// over the whole room, and the plan says the larger field.
func TestFieldJointsInPlan(t *testing.T) {
	j := job.New()
	plain := section.PlanOf(geometry.Evaluate(j, demotest.Packs(t)["UK"]))
	j.Layers.Joints = &job.Joints{PerimeterMM: 8, GreatestFieldMM: 2000}
	d := section.PlanOf(geometry.Evaluate(j, demotest.Packs(t)["UK"]))
	if lines := linesOf(plain, "field-joint"); len(lines) != 0 {
		t.Errorf("joints %v without any stated", lines)
	}
	lines := linesOf(d, "field-joint")
	if len(lines) != 1 {
		t.Fatalf("joints %v, want one", lines)
	}
	expectLine(t, lines[0], section.Medium, true, plan.Point{1303, 0}, plan.Point{1303, 1900})
	if len(d.Notes) != len(plain.Notes)+1 || d.Notes[len(d.Notes)-1].Places[0].Texts[0].String() != "note.field-joints{n: 1, width: 1303 mm, depth: 1900 mm}" {
		t.Errorf("notes %v", d.Notes)
	}
}

// lengthIn is the length that a value is, in full.
func lengthIn(v message.Value) float64 {
	if part, ok := v.(message.InChain); ok {
		return part.MM()
	}
	return v.(message.Length).MM
}
