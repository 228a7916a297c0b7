package section_test

import (
	"math"
	"strings"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// wedgeTexts are the values of what is named as a wedge in a drawing, by layer: where it is named, thinnest, thickest.
func wedgeTexts(d *section.Drawing) map[message.ID][3]float64 {
	out := map[message.ID][3]float64{}
	for _, n := range d.Notes {
		for _, m := range n.Places[0].Texts {
			if m.ID == "note.wedge" {
				out[m.Args[0].Value.(message.Said).ID] = [3]float64{lengthIn(m.Args[1].Value), lengthIn(m.Args[2].Value), lengthIn(m.Args[3].Value)}
			}
		}
	}
	return out
}

// Layers that are wedges tell by hand how thin and how thick they come: the starting job's former 20 at the drain and 817/50 more at
// the front edge; a ramp of 600 before that from nought to the 111.34 it climbs, half of that where it is named. The ramp is
// dimensioned at its head, over the slab, inwards; its foot is nought. Under the former the layers are as thick all along.
func TestWedgesAreToldAtBothEnds(t *testing.T) {
	const hairMM = 0.001
	d := through(starting(t, ramped), buildup.StageTile)
	want := map[message.ID][3]float64{"layer.former": {20 + 817/100.0, 20, 20 + 817/50.0}, "layer.ramp": {55.67, 0, 111.34}}
	got := wedgeTexts(&d)
	for layer, mm := range want {
		for i := range mm {
			if math.Abs(got[layer][i]-mm[i]) > hairMM {
				t.Errorf("%s is told as %v, want %v", layer, got[layer], mm)
			}
		}
	}
	if len(got) != len(want) {
		t.Errorf("wedges are %v", got)
	}
	heads := 0
	for _, m := range d.Dimensions {
		if m.Side == left && math.Abs(m.From.X()+832) < 0.01 && math.Abs(m.From.Y()) < hairMM && math.Abs(m.To.Y()-111.34) < hairMM {
			heads++
		}
	}
	if heads != 1 {
		t.Errorf("the ramp's head is dimensioned %d times: %+v", heads, d.Dimensions)
	}
}

// Between falls to both sides of a drain in the middle the former is thin in the middle and thick at both ends of the cut: each of its
// two stretches is dimensioned at the drain, besides at the ends where the build-up is.
func TestFormersAreDimensionedAtTheDrain(t *testing.T) {
	d := through(starting(t, falls(job.FallMid)), buildup.StageTile)
	thin := 0
	for _, m := range d.Dimensions {
		if m.Side.X() != 0 && math.Abs(m.To.Y()-m.From.Y()-20) < 0.01 && math.Abs(m.From.X()+35) < 0.01 {
			thin++
		}
	}
	if thin != 1 { // the other side of the drain, 70 wide, is as thick
		t.Errorf("the former's thin end is dimensioned %d times", thin)
	}
}

// The room's floor is marked once on a stretch of it that is level: at the doorway that the cut goes across, not again half way; and not
// where the shower's own tile begins at the doorway as high.
func TestRoomFloorIsMarkedOnce(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   []float64 // how far in from the doorway's wall
	}{
		"level":    {func(*job.Job) {}, []float64{125}},
		"wet room": {falls(job.FallRoom), nil},
	} {
		r := starting(t, c.change)
		d, err := section.Through(r, section.Cutting{Of: section.CutPoints, From: plan.Point{1880, -300}, To: plan.Point{1880, 1800}}, buildup.StageTile)
		if err != nil {
			t.Fatal(err)
		}
		var at []float64
		for _, m := range d.Marks {
			if m.Of == section.MarkRoomFloor {
				at = append(at, d.Cut.Origin.Y()+m.At.X())
			}
		}
		if len(at) != len(c.want) || len(at) == 1 && math.Abs(at[0]-c.want[0]) > 1e-6 {
			t.Errorf("%s: the room's floor is marked at %v, want %v", name, at, c.want)
		}
	}
}

// A length along the floor is told in whole millimetres, stated or worked out: of walls, the shower and a cut alike.
func TestLengthsAreToldWhole(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.Shower.WidthMM, j.Shower.DepthMM, j.Room.Outline[1][0], j.Room.Outline[2][0] = 1400.5, 900.5, 2400.5, 2400.5
	})
	p, d := section.PlanOf(r), through(r, buildup.StageTile)
	told := 0
	for _, m := range p.Dimensions {
		told++
		if text := written(m.Text); strings.Contains(text, ".5") {
			t.Errorf("the plan tells %s", text)
		}
	}
	for _, m := range d.Dimensions {
		if text := written(m.Text); m.Side.Y() != 0 {
			told++
			if strings.Contains(text, ".5") {
				t.Errorf("the section tells %s", text)
			}
		}
	}
	if told < 10 {
		t.Errorf("only %d lengths are told", told)
	}
}
