package section_test

import (
	"math"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/section"
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
		if len(n.Texts) != len(want[i]) {
			t.Errorf("note %d: %v", i, n.Texts)
			continue
		}
		for k, m := range n.Texts {
			name, mm := m.ID, 0.0
			if m.ID == "note.layer" {
				name, mm = m.Args[0].Value.(message.Said).ID, m.Args[1].Value.(message.Length).MM
			}
			if name != want[i][k].name || math.Abs(mm-want[i][k].mm) > 1e-6 {
				t.Errorf("note %d, line %d: %s %v, want %v", i, k, name, mm, want[i][k])
			}
		}
		for _, points := range n.Places {
			for k, p := range points {
				if area, ok := d.At(p); !ok || area.PartID == "wall-3" {
					t.Errorf("note %d points at %v, where there is %q", i, points[k], area.PartID)
				}
			}
		}
	}
	// Before it is tiled there is no tile to name.
	bare := section.Of(r, section.ThroughDrain(r), buildup.StageFormer)
	if got := bare.Notes[0].Texts[0].Args[0].Value.(message.Said).ID; got != "layer.former" {
		t.Errorf("the former's stage names %q first", got)
	}
}

// The plan says how much of the floor is heated, at a place that is, and shows where the
// tanking ends.
func TestPlanShowsHeatAndTanking(t *testing.T) {
	beyond := 300.0
	j := job.New()
	plain := section.PlanOf(geometry.Evaluate(j, demotest.Packs(t)[j.Region]))
	j.Layers.Room.Under = []job.Course{{Kind: job.CourseHeating}}
	j.Layers.Heating = &job.Heating{MarginMM: 100}
	j.Layers.Tanking = &job.Tanking{BeyondMM: &beyond}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	d := section.PlanOf(r)
	if len(plain.Notes) != 0 || len(d.Notes) != 1 || len(d.Lines) != len(plain.Lines)+1 {
		t.Fatalf("%d notes and %d lines, without heat and tanking %d and %d", len(d.Notes), len(d.Lines), len(plain.Notes), len(plain.Lines))
	}
	if got := d.Notes[0].Texts[0].Args[0].Value.(message.Area).MM2; got != r.Layout.Heated.Area() || got == 0 {
		t.Errorf("heated %v mm², want %v", got, r.Layout.Heated.Area())
	}
	for _, p := range d.Notes[0].Places {
		if !r.Layout.Heated.Contains(p[0], 0) {
			t.Errorf("%v is not heated", p[0])
		}
	}
}
