package buildup_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// starting is the starting job with a change. Its room is 2400 × 1900, the shower
// 1400 × 900 over (0, 1900), the drain's edge along y = 1817; base top at 72, flange
// at 95, tile at 108 and 817/50 = 16.34 higher along the front edge y = 1000; the
// room's floor of 1 + 3 + 9 at 13.
func starting(change func(*job.Job)) job.Job {
	j := job.New()
	if change != nil {
		change(&j)
	}
	return j
}

func ramped(j *job.Job) { j.Room.Edge, j.Room.RampRunMM, j.Shower.Screens = job.EdgeRamp, 600, nil }
func raised(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom }
func kept(j *job.Job) {
	j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 18, Out: job.OutShower}}
}
func allFalls(j *job.Job) { j.Former.Fall = job.FallRoom }

// sloping has a floor that rises 1:100 both ways from 0 at the origin, and a base
// of 80.
func sloping(j *job.Job) {
	j.SpotLevels = []job.SpotLevel{{At: plan.Point{0, 0}, LevelMM: 0}, {At: plan.Point{2400, 0}, LevelMM: 24},
		{At: plan.Point{0, 1900}, LevelMM: 19}}
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 80
}

// zone is what the stack at a place is by hand.
type zone struct {
	name       string
	change     func(*job.Job)
	at         plan.Point
	start, top float64
	want       layers
}

// stacks holds zones to what they are by hand.
func stacks(t *testing.T, zones []zone) {
	t.Helper()
	for _, c := range zones {
		f, _, _ := floorOf(starting(c.change))
		expect(t, c.name, f.At(c.at), c.start, c.top, c.want)
		if got := f.FinishedMM(c.at); !(math.Abs(got-c.top) <= 1e-9) {
			t.Errorf("%s: finished at %v, want %v", c.name, got, c.top)
		}
		all := f.LayersAt(c.at)
		if len(all) < len(c.want) || !(math.Abs(all[len(all)-1].Top.At(c.at)-c.top) <= 1e-9) ||
			!(math.Abs(all[0].Bottom.At(c.at)-c.start) <= 1e-9) {
			t.Errorf("%s: layers %v", c.name, all)
		}
	}
}

// Stacks of every zone by hand.
func TestStacksOfEveryZone(t *testing.T) {
	shower := func(adhesive, base, former float64) layers {
		return layers{"layer.base-bed": adhesive, "layer.base": base, "layer.former-bed": 3, "layer.former": former,
			"layer.shower-tanking": 1, "layer.shower-bed": 3, "layer.shower-tile": 9}
	}
	stacks(t, []zone{
		{"front edge", nil, plan.Point{700, 1000}, 0, 124.34, shower(3, 69, 36.34)},
		{"behind the drain", nil, plan.Point{700, 1890}, 0, 108, shower(3, 69, 20)},
		{"half way up the fall", nil, plan.Point{700, 1408.5}, 0, 116.17, shower(3, 69, 28.17)},
		// Highest under the shower at (1400, 1900), 33: base from 36 to 116, flange
		// 139. At (700, 1450) the floor is at 21.5 and the fall 367/50 = 7.34 up.
		{"sloping floor, shower", sloping, plan.Point{700, 1450}, 21.5, 159.34, shower(14.5, 80, 27.34)},
		{"sloping floor, room", sloping, plan.Point{2000, 500}, 25, 38, ownRoom(nil)},
		// From 124.34 at the front edge down to 13 over 600, on a wedge of mortar; by the
		// same fall from 115.34, half way along the right edge.
		{"front ramp, quarter", ramped, plan.Point{700, 850}, 0, 124.34 - 111.34/4, ownRoom(layers{"layer.ramp": 111.34 * 3 / 4})},
		{"right ramp, half", ramped, plan.Point{1700, 1450}, 0, 115.34 - 111.34/2, ownRoom(layers{"layer.ramp": 102.34 - 111.34/2})},
		// Round the corner, 100 out to the front and 300 to the right: the right edge's
		// plane, 124.34 + 2 − 300·111.34/600, is the lower one.
		{"corner of the ramps", ramped, plan.Point{1700, 900}, 0, 126.34 - 111.34/2, ownRoom(layers{"layer.ramp": 113.34 - 111.34/2})},
		// On a finish of 18 that stays beside it the ramp ends at 18: its wedge is 5 there.
		{"ramp by a kept finish", func(j *job.Job) { ramped(j); kept(j) }, plan.Point{700, 400.001},
			0, 18 + 106.34*0.001/600, ownRoom(layers{"layer.ramp": 5 + 106.34*0.001/600})},
		{"beside the ramps", ramped, plan.Point{2100, 200}, 0, 13, ownRoom(nil)},
		{"kept finish", kept, plan.Point{2000, 500}, 0, 18, layers{"layer.existing-finish": 18}},
		{"beyond the walls", nil, plan.Point{-5000, 500}, 0, 13, ownRoom(nil)},
		// Layers of nothing are none, down to a thousand-millionth.
		{"no tanking", func(j *job.Job) { j.Layers.Room.Tanking.ThicknessMM = 0 }, plan.Point{2000, 500},
			0, 12, layers{"layer.room-bed": 3, "layer.room-tile": 9}},
		{"hardly any", func(j *job.Job) { j.Layers.Room.Tanking.ThicknessMM = 0.95e-9 }, plan.Point{2000, 500},
			0, 12, layers{"layer.room-bed": 3, "layer.room-tile": 9}},
		{"a little", func(j *job.Job) { j.Layers.Room.Tanking.ThicknessMM = 1.05e-9 }, plan.Point{2000, 500},
			0, 12 + 1.05e-9, layers{"layer.room-tanking": 1.05e-9, "layer.room-bed": 3, "layer.room-tile": 9}},
	})
}

// The room comes up to the shower, on a base of its own.
func TestStacksOfARaisedRoom(t *testing.T) {
	stacks(t, []zone{
		// The room comes up to the front edge: 124.34 − 13 of base on its bed of 3.
		{"raised room", raised, plan.Point{2000, 500}, 0, 124.34, ownRoom(layers{"layer.room-base-bed": 3, "layer.room-base": 108.34})},
		// Of boards at hand 100, 6 and 2 between go into the 108.34 over a bed of 3, which takes up
		// what they leave.
		{"raised on boards", func(j *job.Job) {
			raised(j)
			j.Base.BoardsMM = []float64{6, 10, 20, 100}
		}, plan.Point{2000, 500}, 0, 124.34, ownRoom(layers{"layer.room-base-bed": 3.34, "layer.room-lower-board": 100,
			"layer.room-board-bed": 2, "layer.room-base": 6})},
		// The thinnest board is too thick: the base is in one piece on its bed.
		{"raised on no board", func(j *job.Job) {
			raised(j)
			j.Base.BoardsMM = []float64{120}
		}, plan.Point{2000, 500}, 0, 124.34, ownRoom(layers{"layer.room-base-bed": 3, "layer.room-base": 108.34})},
		// With 85 of insulation on it 23.34 are left over a bed of 3: too little for a board of 25.
		{"raised by less than a board", func(j *job.Job) {
			raised(j)
			j.Base.BoardsMM = []float64{25}
			j.Layers.Room.Under = []job.Course{{Kind: job.CourseInsulation, Layer: job.Layer{ThicknessMM: 85}}}
		}, plan.Point{2000, 500}, 0, 124.34, ownRoom(layers{"layer.room-levelling": 26.34, "layer.insulation": 85})},
	})
}

// Down into a shower that is let in deep there is no ramp: the room's floor goes on to its
// edge.
func TestNoRampIntoADeepShower(t *testing.T) {
	j := letIn()
	ramped(&j)
	j.Base.HeightMM = -96
	f, _, _ := floorOf(j)
	for _, out := range []float64{1, 100, 550} {
		p := plan.Point{1400 + out, 1450}
		if got, stack := f.FinishedMM(p), f.At(p).TopMM(); got != 13 || stack != 13 {
			t.Errorf("%v out the floor is at %v, its layers reach %v; want the room's 13", out, got, stack)
		}
	}
}

// Boards between joists end at the joists' faces.
func TestBoardsEndAtJoists(t *testing.T) {
	f, l, _ := floorOf(letIn())
	// The fourth, 200 + 3·400 from the right, runs under the shower at x = 1000.
	low, high, _ := l.Joists[3].Footprint.Bounds()
	for x, want := range map[float64]bool{low.X() - 0.5: true, low.X() + 0.5: false, high.X() - 0.5: false, high.X() + 0.5: true} {
		_, got := courses(f.At(plan.Point{x, 1500}))["layer.base-between-joists"]
		if got != want {
			t.Errorf("boards at x = %v by a joist from %v to %v: %v, want %v", x, low.X(), high.X(), got, want)
		}
	}
}

// A point on the shower's border, to a millionth beyond it, is the shower's.
func TestBorderIsTheShowers(t *testing.T) {
	f, _, _ := floorOf(starting(nil))
	for x, want := range map[float64]float64{1399: 116.17, 1400: 116.17, 1400 + 0.95e-6: 116.17, 1400 + 1.05e-6: 13, 1401: 13} {
		if got := f.FinishedMM(plan.Point{x, 1408.5}); !(math.Abs(got-want) <= 1e-6) {
			t.Errorf("at x = %v: %v, want %v", x, got, want)
		}
	}
}

// The zones of a floor, in the order they come in, with the edges of ramps: the
// open ones are the right edge and then the front.
func TestZones(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		edges  []int
	}{
		"step": {nil, []int{-1, -1}}, "ramps": {ramped, []int{-1, 0, 0, 1, 0, 1, -1}}, "raised": {raised, []int{-1, -1}},
		"whole room": {allFalls, []int{-1}},
	} {
		f, l, _ := floorOf(starting(c.change))
		var edges []int
		for _, z := range f.Zones {
			edges = append(edges, z.Edge)
			for i, layer := range z.Layers[1:] {
				if &layer.Bottom[0] != &z.Layers[i].Top[0] {
					t.Errorf("%s: the %s does not lie on the %s", name, layer.Kind.Facts().Name, z.Layers[i].Kind.Facts().Name)
				}
			}
		}
		if len(edges) != len(c.edges) {
			t.Errorf("%s: zones at edges %v, want %v", name, edges, c.edges)
			continue
		}
		for i := range edges {
			if edges[i] != c.edges[i] {
				t.Errorf("%s: zones at edges %v, want %v", name, edges, c.edges)
			}
		}
		if name == "whole room" {
			if top := f.At(plan.Point{2200, 300}); top[len(top)-1].Kind != buildup.ShowerTile {
				t.Errorf("the far corner ends in %v", top)
			}
		}
		if name != "ramps" {
			continue
		}
		// Beside the right edge 83 by the drain of 95 over the room and 817 that rise to
		// 111.34, all by 111.34 over 600 down; the front; the corner, 600 by 600, on a hip
		// that goes 12/111.34 farther to the right than to the front.
		const run, hip = 600 / 111.34, 1 + 0.02*600/111.34
		for i, want := range []float64{95 * run * 83, (95 + 111.34) / 2 * run * 817, 600 * 1400, 600 * 600 / 2, 600 * 600 / 2 * hip} {
			if got := f.Zones[1+i].Region.Area(); math.Abs(got-want) > 1 {
				t.Errorf("ramp's part %d takes %v mm², want %v", i, got, want)
			}
		}
		if l.OpenEdges()[0].Side != "right" {
			t.Errorf("the first open edge is the %s", l.OpenEdges()[0].Side)
		}
	}
}

// Dead loads by hand: the room's 4 mm at 1600 and 9 at 2300 are 27.1 kg/m²; a raised
// one has 108.34 at 350 under it on 3 at 1600, 69.819; a finish of 18 at 1600 28.8; a ramp half way
// down has the room's 27.1 on 46.67 at 2100, 125.107. By 9.81 m/s².
func TestLoadOfEveryZone(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		at     plan.Point
		kgM2   float64
	}{
		"room":   {nil, plan.Point{2000, 500}, 27.1},
		"raised": {raised, plan.Point{2000, 500}, 69.819},
		"kept":   {kept, plan.Point{2000, 500}, 28.8},
		"ramp":   {ramped, plan.Point{1700, 1450}, 125.107},
	} {
		f, _, _ := floorOf(starting(c.change))
		if got, want := f.AddedKNM2(c.at), c.kgM2*9.81/1000; !(math.Abs(got-want) <= 1e-9) {
			t.Errorf("%s: %v kN/m², want %v", name, got, want)
		}
	}
}

// factsTyped is the table of layers, typed out a second time.
func factsTyped() map[buildup.Kind]buildup.Facts {
	const shower, room = "layers.shower.", "layers.room."
	return map[buildup.Kind]buildup.Facts{
		buildup.Structure: {Name: "layer.structure"},
		buildup.BaseBed: {Name: "layer.base-bed", PartID: "adhesive", PartName: "part.adhesive", Material: material.Adhesive,
			Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "base.adhesiveMM", ThicknessKey: "base.adhesiveMM"},
		buildup.BaseBetweenJoists: {Name: "layer.base-between-joists", PartID: "base-let-in", PartName: "part.base-let-in",
			Material: material.BaseBoard, Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "base.minThicknessMM"},
		buildup.Base: {Name: "layer.base", PartID: "base", PartName: "part.base", Material: material.BaseBoard,
			Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "base.heightMM", ThicknessKey: "base.heightMM"},
		buildup.FormerBed: {Name: "layer.former-bed", PartID: "former-bed", PartName: "part.former-bed", Material: material.Adhesive,
			Stage: buildup.StageFormer, Extent: buildup.BesideChannel, Key: "former.bedMM", ThicknessKey: "former.bedMM"},
		buildup.Former: {Name: "layer.former", PartID: "former", PartName: "part.former", Material: material.FormerBody,
			Stage: buildup.StageFormer, Extent: buildup.RoundDrain, Key: "former.slope", ThicknessKey: "former.thicknessAtDrainMM"},
		buildup.ShowerTanking: {Name: "layer.shower-tanking", PartID: "tanking", PartName: "part.tanking", Material: material.Membrane,
			Stage: buildup.StageTanking, Extent: buildup.RoundDrain, Key: shower + "tanking.thicknessMM"},
		buildup.ShowerBed: {Name: "layer.shower-bed", PartID: "tile-bed", PartName: "part.tile-bed", Material: material.TileBed,
			Stage: buildup.StageTile, Extent: buildup.InsideTile, Key: shower + "bed.thicknessMM"},
		buildup.ShowerTile: {Name: "layer.shower-tile", PartID: "tile", PartName: "part.tile", Material: material.Tile,
			Stage: buildup.StageTile, Extent: buildup.InsideTile, Key: shower + "tile.thicknessMM", ThicknessKey: shower + "tile.thicknessMM"},
		buildup.RoomBase: {Name: "layer.room-base", PartID: "room-base", PartName: "part.room-base", Material: material.BaseBoard,
			Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "room.edge"},
		buildup.RoomLevelling: {Name: "layer.room-levelling", PartID: "room-levelling", PartName: "part.room-levelling",
			Material: material.Levelling, Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "room.edge"},
		buildup.RoomBaseBed: {Name: "layer.room-base-bed", PartID: "room-adhesive", PartName: "part.room-adhesive", Material: material.Adhesive,
			Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "base.adhesiveMM"},
		buildup.RoomLowerBoard: {Name: "layer.room-lower-board", PartID: "room-lower-board", PartName: "part.room-lower-board",
			Material: material.BaseBoard, Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "room.edge"},
		buildup.RoomBoardBed: {Name: "layer.room-board-bed", PartID: "room-board-bed", PartName: "part.room-board-bed",
			Material: material.Adhesive, Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "base.betweenLeastMM"},
		buildup.Existing: {Name: "layer.existing", PartID: "existing", PartName: "part.existing", Material: material.Screed,
			Stage: buildup.StageBare, Extent: buildup.Whole, Key: "floor.existing"},
		buildup.ExistingUnder: {Name: "layer.existing", PartID: "existing-under", PartName: "part.existing-under", Material: material.Screed,
			Stage: buildup.StageBare, Extent: buildup.Whole, Key: "floor.existing"},
		buildup.BaseCourse: {Name: "layer.course", PartID: "base-course", PartName: "part.base-course", Material: material.Mortar,
			Stage: buildup.StageBase, Extent: buildup.Whole, Key: "base.under"},
		buildup.ShowerCourse: {Name: "layer.course", PartID: "shower-course", PartName: "part.shower-course", Material: material.Mortar,
			Stage: buildup.StageTanking, Extent: buildup.RoundDrain, Key: "layers.shower.under"},
		buildup.RoomCourse: {Name: "layer.course", PartID: "room-course", PartName: "part.room-course", Material: material.Mortar,
			Stage: buildup.StageTanking, Extent: buildup.Whole, Key: "layers.room.under"},
		buildup.RoomTanking: {Name: "layer.room-tanking", PartID: "room-tanking", PartName: "part.room-tanking", Material: material.Membrane,
			Stage: buildup.StageTanking, Extent: buildup.Whole, Key: room + "tanking.thicknessMM"},
		buildup.RoomBed: {Name: "layer.room-bed", PartID: "room-bed", PartName: "part.room-bed", Material: material.TileBed,
			Stage: buildup.StageTile, Extent: buildup.Whole, Key: room + "bed.thicknessMM"},
		buildup.RoomTile: {Name: "layer.room-tile", PartID: "room-tile", PartName: "part.room-tile", Material: material.Tile,
			Stage: buildup.StageTile, Extent: buildup.Whole, Key: room + "tile.thicknessMM"},
		buildup.RampBase: {Name: "layer.ramp", PartID: "ramp", PartName: "part.ramp", Material: material.Mortar,
			Stage: buildup.StageBase, Extent: buildup.BesideChannel, Key: "room.rampRunMM"},
	}
}

func TestFactsOfEveryKind(t *testing.T) {
	for kind, want := range factsTyped() {
		if got := kind.Facts(); got != want {
			t.Errorf("kind %d: %+v, want %+v", kind, got, want)
		}
	}
	stages := [...]message.ID{"stage.bare", "stage.base", "stage.waste", "stage.former", "stage.tanking", "stage.wall-tile", "stage.tile"}
	for stage, want := range stages {
		if got := buildup.Stage(stage).Message().ID; got != want {
			t.Errorf("stage %d is called %q, want %q", stage, got, want)
		}
	}
	if buildup.Stages != 7 {
		t.Errorf("%d stages", buildup.Stages)
	}
}

// A base chosen under the floor, without adhesive: its top lies at −30, the tile 36
// over that and 6 over the floor; at −40 it ends 4 under it, and nothing lies on the
// structure, which is finished as it is.
func TestFloorSunkUnderTheStructure(t *testing.T) {
	j := job.New()
	j.Base.AdhesiveMM, j.Base.Height = 0, job.HeightChosen
	j.Base.HeightMM = -30
	f, l, _ := floorOf(j)
	expect(t, "tile out of the floor", f.At(l.DrainEdge), 0, 6, layers{"layer.shower-tile": 6})
	j.Base.HeightMM = -40
	f, l, _ = floorOf(j)
	expect(t, "tile in the floor", f.At(l.DrainEdge), 0, 0, nil)
	if got := f.FinishedMM(l.DrainEdge); got != 0 {
		t.Errorf("finished at %v, want 0", got)
	}
}

// A floor made in the room of any other is as good as a new one.
func TestSetLeavesNothing(t *testing.T) {
	ramp, room := letIn(), job.New()
	ramp.Room.Edge, ramp.Room.RampRunMM, ramp.Shower.Screens = job.EdgeRamp, 600, nil
	room.Former.Fall = job.FallRoom
	point := job.New()
	point.Former.Fall = job.FallPoint
	var again buildup.Floor
	for _, j := range []job.Job{ramp, job.New(), room, letIn(), point, room, ramp} {
		want, l, h := floorOf(j)
		again.Set(&j, &l, &h)
		if len(again.Zones) != len(want.Zones) {
			t.Fatalf("%d zones, want %d", len(again.Zones), len(want.Zones))
		}
		for i := range want.Zones {
			if d := cmp.Diff(want.Zones[i], again.Zones[i]); d != "" {
				t.Errorf("zone %d: %s", i, d)
			}
		}
	}
}
