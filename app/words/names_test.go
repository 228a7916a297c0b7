package words_test

import (
	"slices"
	"testing"

	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/assembly"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/stage"
)

// Whatever a floor is made of and whatever row it has in the schedule has words, each
// of its own.
func TestPartsAndRowsHaveWords(t *testing.T) {
	b := book(t)
	said := map[string]string{}
	own := func(kind string, m message.Message) {
		text := b.Say(m)
		if before, ok := said[kind+text]; ok && before != m.String() || text == "" {
			t.Errorf("%s and %s are both called “%s”", before, m, text)
		}
		said[kind+text] = m.String()
	}
	for k := buildup.Structure; k <= buildup.RoomTile; k++ {
		own("layer", message.Of(k.Facts().Name))
		if k != buildup.Structure {
			own("part", message.Of(k.Facts().PartName, message.In("layer", message.Of("layer.screed"))))
		}
	}
	for s := range buildup.Stages {
		own("stage", s.Message())
	}
	for _, s := range []layout.Side{layout.Back, layout.Right, layout.Front, layout.Left} {
		own("edge", message.Of(s.At()))
	}
	for of := buildup.FloorHigh; of <= buildup.RampFoot; of++ {
		own("row", buildup.Row{ID: buildup.RowID{Of: of}, Side: layout.Left, Piece: message.Numbered{ID: "piece.pipe", Number: 1}}.Message())
	}
	for _, m := range []material.Material{
		material.Concrete, material.Timber, material.Deck, material.Masonry, material.StudWall, material.Adhesive,
		material.BaseBoard, material.FormerBody, material.Membrane, material.TileBed, material.Tile, material.Screed,
		material.Plastic, material.Metal, material.Water, "something else",
	} {
		own("material", m.Message())
	}
}

// All that the demos bring up has words: their rows, layers, parts and the levels
// measured while the work goes on. Parts are told apart by what they are called.
func TestDemosHaveWords(t *testing.T) {
	b := book(t)
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil || len(demos) == 0 {
		t.Fatal(err)
	}
	for _, d := range demos {
		for _, edge := range []job.EdgeKind{d.Job.Room.Edge, job.EdgeRamp} {
			j := d.Job.Clone()
			j.Room.Edge = edge
			r := geometry.Evaluate(j, packs[j.Region])
			for _, row := range r.Schedule {
				b.Say(row.Message())
				for _, l := range row.Stack {
					b.Say(message.Of(l.Kind.Facts().Name))
				}
			}
			called := map[string]string{}
			for _, p := range r.Assembly.Parts {
				name := b.Say(p.Name)
				if other, ok := called[name]; ok && p.Wall == 0 {
					t.Errorf("%s: %s and %s are both called “%s”", d.File, other, p.ID, name)
				}
				called[name] = p.ID
				b.Say(p.Material.Message())
			}
		}
	}
}

// Names in sentences, as they were looked at last.
func TestNamesInWords(t *testing.T) {
	b := book(t)
	ramp, left := message.Of(buildup.RampBase.Facts().PartName), message.Of(layout.Left.At())
	bend := message.Numbered{ID: "piece.bend-90", Number: 2}
	for want, m := range map[string]message.Message{
		"Ramp at the left edge":              message.Of("part.at-edge", message.In("part", ramp), message.In("at", left)),
		"Side at the back edge, low":         buildup.Row{ID: buildup.RowID{Of: buildup.EdgeLow}, Side: layout.Back}.Message(),
		"90° bend 2, invert at end":          buildup.Row{ID: buildup.RowID{Of: buildup.PieceInvert}, Piece: bend}.Message(),
		"Doorway 2, step":                    buildup.Row{ID: buildup.RowID{Of: buildup.DoorStep, Number: 1}}.Message(),
		"Wall tile, wall C":                  message.Of("part.wall-tile", message.Wall("wall", 3)),
		"the sweep of the door in doorway 2": message.Of("shape.door-sweep", message.No("doorway", 2)),
	} {
		if got := b.Say(m); got != want {
			t.Errorf("“%s”, want “%s”", got, want)
		}
	}
}

// Every shape that may fail is called something, as a refusal would call it.
func TestShapesHaveWords(t *testing.T) {
	b := book(t)
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	demos, err := assets.Demos()
	if err != nil {
		t.Fatal(err)
	}
	shapes := map[string]bool{}
	for _, d := range demos {
		for _, edge := range []job.EdgeKind{job.EdgeStep, job.EdgeRamp, job.EdgeRaiseRoom} {
			j := d.Job.Clone()
			j.Room.Edge = edge
			sh := plan.Shaper{Refuse: func(what message.Message, _ float64) error {
				shapes[b.Say(what)] = true
				return nil
			}}
			l := stage.Place(j, packs[j.Region], &sh).Level()
			if _, err := assembly.Assemble(l.Settled, l.Layout, l.Heights, l.BuildUp(), l.Crossings(), &sh); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, want := range []string{
		"the shower within the room", "the base beside the channel for the pipe", "the ramp at the right edge", "joist 5 from wall D with its cuts",
	} {
		if !shapes[want] {
			t.Errorf("no shape is called “%s”: %v", want, shapes)
		}
	}
}

// Whatever the levels measured say has words.
func TestMeasuredLevelsHaveWords(t *testing.T) {
	b := book(t)
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		change func(a *job.AsBuilt, mm *float64)
		mm     float64
		want   string
	}{
		{func(a *job.AsBuilt, mm *float64) { a.BaseTopMM = mm }, 70, "Now: Bed under the former 5 mm instead of 3 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.BaseTopMM = mm }, -0.5, "Measure again: Top of the base lies under the floor, by 0.5 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.FormerAtDrainMM = mm }, 93, "Now: Tile bed at the drain 5 mm instead of 3 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.FormerAtDrainMM = mm }, 72.4,
			"Measure again: Top of the former at the drain lies under the base's top, by 0.1 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.FormerAtEdgeMM = mm }, 112, "Now: Tile bed at the high end 2.5 mm instead of 3 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.FormerAtEdgeMM = mm }, 94.5,
			"Measure again: Top of the former at its high end lies under that at the drain, by 0.5 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.TileAtDrainMM = mm }, 109, "Now: Cover of the drain above the flange 14 mm instead of 13 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.TileAtDrainMM = mm }, 104.5,
			"Measure again: Tile at the drain lies under its own layers, by 0.5 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.OutletInvertMM = mm }, 19, "Now: Invert of the pipe at the exit +3 mm instead of +4 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.OutletInvertMM = mm }, 90.5,
			"Measure again: Outlet's invert lies over the flange it hangs from, by 0.5 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.OutletInvertMM = mm }, -405.5,
			"Measure again: Outlet's invert lies too far under the flange it hangs from, by 0.5 mm."},
		{func(a *job.AsBuilt, mm *float64) { a.ExitInvertMM = mm }, 20 - 645*0.02,
			"Now: Fall of the pipe between the two ends 1:50 (20 mm/m) instead of 1:40 (25 mm/m)."},
	} {
		j := job.New()
		c.change(&j.AsBuilt, &c.mm)
		l := stage.Place(j, packs[j.Region], &plan.Shaper{}).Level()
		var got []string
		for _, x := range l.Contradictions {
			got = append(got, b.Say(x.Message()))
		}
		for _, x := range l.DoNow {
			got = append(got, b.Say(x.Message()))
		}
		if !slices.Contains(got, c.want) {
			t.Errorf("%v: %q, want “%s”", c.mm, got, c.want)
		}
	}
}
