package assembly_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/assembly"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// What each part is, typed out: id, name, material, stage of the work, which of
// two that overlap a section shows (the greater), the key of the job it comes
// from, and the finish it has.
const startingParts = `
slab | part.slab | concrete | stage.bare | 1 | floor.slabThicknessMM |
wall-1 | part.wall{wall: A} | stud-wall | stage.bare | 0 | room.walls[0] |
wall-2 | part.wall{wall: D} | stud-wall | stage.bare | 0 | room.walls[1] |
wall-3 | part.wall{wall: C} | masonry | stage.bare | 0 | room.walls[2] |
wall-4 | part.wall{wall: B} | masonry | stage.bare | 0 | room.walls[3] |
adhesive | part.adhesive | adhesive | stage.base | 2 | base.adhesiveMM |
base | part.base | base-board | stage.base | 3 | base.heightMM |
channel | part.channel | metal | stage.former | 8 | drain.channelDepthMM |
cover | part.cover | metal | stage.tile | 8 | drain.coverLeastMM |
trap | part.trap | plastic | stage.waste | 8 | drain.trapDepthMM |
seal | part.seal | water | stage.waste | 7 | drain.sealMM |
run-straight-1 | piece.pipe{number: 1} | plastic | stage.waste | 7 | waste.gradient |
former-bed | part.former-bed | adhesive | stage.former | 2 | former.bedMM |
former | part.former | former | stage.former | 4 | former.slope |
tanking | part.tanking | tanking | stage.tanking | 5 | layers.shower.tanking.thicknessMM |
wall-tanking-1 | part.wall-tanking{wall: C} | tanking | stage.tanking | 5 | layers.wall.tanking.thicknessMM |
wall-bed-1 | part.wall-bed{wall: C} | tile-bed | stage.wall-tile | 5 | layers.wall.bed.thicknessMM |
wall-tile-1 | part.wall-tile{wall: C} | tile | stage.wall-tile | 6 | layers.wall.tile.thicknessMM | wall
wall-tanking-2 | part.wall-tanking{wall: B} | tanking | stage.tanking | 5 | layers.wall.tanking.thicknessMM |
wall-bed-2 | part.wall-bed{wall: B} | tile-bed | stage.wall-tile | 5 | layers.wall.bed.thicknessMM |
wall-tile-2 | part.wall-tile{wall: B} | tile | stage.wall-tile | 6 | layers.wall.tile.thicknessMM | wall
tile-bed | part.tile-bed | tile-bed | stage.tile | 5 | layers.shower.bed.thicknessMM |
tile | part.tile | tile | stage.tile | 6 | layers.shower.tile.thicknessMM | shower
room-tanking | part.room-tanking | tanking | stage.tanking | 5 | layers.room.tanking.thicknessMM |
room-bed | part.room-bed | tile-bed | stage.tile | 5 | layers.room.bed.thicknessMM |
room-tile | part.room-tile | tile | stage.tile | 6 | layers.room.tile.thicknessMM | room
`

// What other jobs have besides, in the same columns.
const otherParts = `
deck | part.deck | deck-board | stage.bare | 1 | floor.deck.thicknessMM |
joist-1 | part.joist{n: 1, wall: D} | timber | stage.bare | 1 | floor.joists.depthMM |
base-let-in | part.base-let-in | base-board | stage.base | 3 | base.minThicknessMM |
battens | part.battens | timber | stage.base | 1 | base.support |
cover-tile | part.cover-tile | tile | stage.tile | 8 | style.cover | shower
run-bend-2 | piece.bend-90{number: 2} | plastic | stage.waste | 7 | waste.gradient |
run-drop-2 | piece.drop{number: 2} | plastic | stage.waste | 7 | waste.gradient |
run-reducer-2 | piece.reducer{number: 2} | plastic | stage.waste | 7 | waste.gradient |
ramp-1 | part.at-edge{part: part.ramp, at: edge.at-right} | mortar | stage.base | 5 | room.rampRunMM |
room-tile-1 | part.at-edge{part: part.room-tile, at: edge.at-right} | tile | stage.tile | 6 | layers.room.tile.thicknessMM | room
room-base | part.room-base | base-board | stage.base | 3 | room.edge |
existing-1 | part.existing{layer: layer.existing-finish, n: 1} | existing-finish | stage.bare | 5 | floor.existing[0].thicknessMM |
`

// row writes a part in those columns.
func row(b built, p assembly.Part) string {
	finish := ""
	of := &b.Settled.Layers
	for name, f := range map[string]*job.Finish{"shower": &of.Shower, "room": &of.Room, "wall": &of.Wall} {
		// Each finish has a colour of its own.
		if p.Finish != nil && p.Finish.Colour == f.Colour {
			finish = name
		}
	}
	return strings.TrimSpace(fmt.Sprintf("%s | %s | %s | %s | %d | %s | %s",
		p.ID, p.Name, p.Material, p.Stage.Message(), p.Precedence, p.From, finish))
}

func TestStartingParts(t *testing.T) {
	b := build(t, nil)
	var got []string
	for _, p := range b.Parts {
		got = append(got, row(b, p))
	}
	want := strings.Split(strings.TrimSpace(startingParts), "\n")
	for i := range want {
		want[i] = strings.TrimSpace(want[i])
	}
	if !slices.Equal(got, want) {
		t.Errorf("parts\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	// The box of all of them: out to the walls' outer faces and the pipe past
	// wall B, from the walls' feet to the ceiling.
	low, high := b.Bounds().Low, b.Bounds().High
	if want := (mgl64.Vec3{2500, 2115, 2400}); high.Sub(want).Len() > 1e-9 || math.Abs(low.Y()+100) > 1e-9 ||
		math.Abs(low.Z()+150) > 1e-9 || low.X() > -275 || low.X() < -275-25*math.Sqrt2-1e-9 {
		t.Errorf("all parts lie from %v to %v", low, high)
	}
}

func TestOtherParts(t *testing.T) {
	jobs := []built{
		build(t, letIn), build(t, func(j *job.Job) { j.Style.Cover = job.CoverTileInsert }),
		build(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: [2]float64{300, 1600}} }),
		build(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: [2]float64{300, 1832}} }),
		build(t, func(j *job.Job) { j.Waste.Fittings = []job.Fitting{usualReducer(100)} }),
		build(t, func(j *job.Job) { j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil }),
		build(t, func(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom }),
		build(t, func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 10, Out: job.OutShower}}
		}),
	}
	for _, want := range strings.Split(strings.TrimSpace(otherParts), "\n") {
		want = strings.TrimSpace(want)
		id, _, _ := strings.Cut(want, " ")
		found := false
		for _, b := range jobs {
			if b.has(id) {
				found = true
				if got := row(b, b.part(id)); got != want {
					t.Errorf("%s\nwant %s", got, want)
				}
			}
		}
		if !found {
			t.Errorf("no job has a %s", id)
		}
	}
}

// What stands on something comes no earlier in the work: up through the layers
// at any place of the shower and the room no stage goes back.
func TestStagesGoUpThroughTheFloor(t *testing.T) {
	layers := []string{"slab", "deck", "adhesive", "base-let-in", "base", "former-bed", "former", "tanking", "tile-bed", "tile",
		"room-base", "room-finish", "room-tanking", "room-bed", "room-tile",
		"ramp-1", "ramp-2", "room-tile-1", "room-tile-2"}
	compared := 0
	for _, change := range []func(*job.Job){
		func(*job.Job) {}, letIn, func(j *job.Job) { j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil },
		func(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom }, func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 10, Out: job.OutShower}}
		},
	} {
		b := build(t, change)
		for _, at := range [][2]float64{{1200, 1200}, {800, 1500}, {2100, 1500}, {2200, 500}, {700, 700}} {
			type course struct {
				part assembly.Part
				low  float64
			}
			var stack []course
			for _, p := range b.Parts {
				if !slices.Contains(layers, p.ID) {
					continue
				}
				m := p.Mesh()
				for z := m.Bounds().Low.Z() + 0.05; z < m.Bounds().High.Z(); z += 0.25 {
					if demotest.Holds(m, mgl64.Vec3{at[0], at[1], z}) {
						stack = append(stack, course{p, z})
						break
					}
				}
			}
			slices.SortFunc(stack, func(a, b course) int { return int(math.Copysign(1, a.low-b.low)) })
			for i := 1; i < len(stack); i++ {
				compared++
				if stack[i].part.Stage < stack[i-1].part.Stage {
					t.Errorf("at %v %s stands on %s, which comes later", at, stack[i].part.ID, stack[i-1].part.ID)
				}
			}
		}
	}
	if compared < 60 {
		t.Errorf("%d pairs compared", compared)
	}
}

// differs is the ids of all parts that are there in one of two assemblies only or
// have a corner elsewhere.
func differs(a, b built) []string {
	var out []string
	for _, p := range a.Parts {
		if !b.has(p.ID) {
			out = append(out, p.ID)
			continue
		}
		same := func(u, v mgl64.Vec3) bool { return u.Sub(v).Len() < 1e-6 }
		if !slices.EqualFunc(p.Mesh().Vertices, b.part(p.ID).Mesh().Vertices, same) {
			out = append(out, p.ID)
		}
	}
	for _, p := range b.Parts {
		if !a.has(p.ID) {
			out = append(out, p.ID)
		}
	}
	slices.Sort(out)
	return out
}

// One input changed touches the parts it makes and those that make room for them
// or stand on them, and no other. The base is as low as works and the trap
// stands on the floor, so what lies between floor and flange moves nothing above.
func TestWhatAnInputTouches(t *testing.T) {
	const finishes = " wall-bed-1 wall-bed-2 wall-tanking-1 wall-tanking-2 wall-tile-1 wall-tile-2"
	const above = " channel cover former former-bed tanking tile tile-bed" + finishes
	for what, c := range map[string]struct {
		change func(*job.Job)
		want   string
	}{
		"nothing":            {func(*job.Job) {}, ""},
		"slab":               {func(j *job.Job) { j.Floor.SlabThicknessMM += 10 }, "slab wall-1 wall-2 wall-3 wall-4"},
		"ceiling":            {func(j *job.Job) { j.Room.HeightMM += 10 }, "wall-1 wall-2 wall-3 wall-4"},
		"doorway":            {func(j *job.Job) { j.Room.Doorways[0].OffsetMM += 10; j.Room.Doorways[0].WidthMM += 10 }, "wall-1"},
		"adhesive":           {func(j *job.Job) { j.Base.AdhesiveMM++ }, "adhesive base"},
		"saw margin":         {func(j *job.Job) { j.Base.SawMarginMM++ }, "adhesive base former-bed"},
		"former's bed":       {func(j *job.Job) { j.Former.BedMM++ }, "base former-bed"},
		"former's thickness": {func(j *job.Job) { j.Former.ThicknessAtDrainMM++ }, "base former former-bed"},
		"fall":               {func(j *job.Job) { j.Former.Slope *= 1.1 }, "former tanking tile tile-bed wall-bed-2 wall-tanking-2 wall-tile-2"},
		"height chosen": {func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, 79 },
			"base run-straight-1 seal trap wall-4" + above},
		"pipe's fall":      {func(j *job.Job) { j.Waste.Gradient = 1.0 / 50 }, "run-straight-1 wall-4"},
		"seal":             {func(j *job.Job) { j.Drain.SealMM = 10 }, "seal trap"},
		"weir":             {func(j *job.Job) { j.Drain.WeirDepthMM-- }, "seal trap"},
		"channel":          {func(j *job.Job) { j.Drain.ChannelDepthMM++ }, "base channel trap"},
		"drain's length":   {func(j *job.Job) { j.Drain.LengthMM += 22 }, "base channel cover former former-bed tanking tile tile-bed"},
		"kind of cover":    {func(j *job.Job) { j.Style.Cover = job.CoverTileInsert }, "cover cover-tile"},
		"shower's tile":    {func(j *job.Job) { j.Layers.Shower.Tile.ThicknessMM++ }, "channel cover tile" + finishes},
		"shower's tanking": {func(j *job.Job) { j.Layers.Shower.Tanking.ThicknessMM++ }, "channel cover tanking tile tile-bed" + finishes},
		"room's tile":      {func(j *job.Job) { j.Layers.Room.Tile.ThicknessMM++ }, "room-tile"},
		"room's tanking":   {func(j *job.Job) { j.Layers.Room.Tanking.ThicknessMM++ }, "room-bed room-tanking room-tile"},
		"wall's tile": {func(j *job.Job) { j.Layers.Wall.Tile.ThicknessMM++ },
			"tile tile-bed wall-bed-2 wall-tanking-2 wall-tile-1 wall-tile-2"},
		"edge": {func(j *job.Job) { j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil },
			"ramp-1 ramp-2 room-bed room-bed-1 room-bed-2 room-tanking room-tanking-1 room-tanking-2 room-tile room-tile-1 room-tile-2"},
		"existing finish": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 5, Out: job.OutShower}}
		}, "existing-1 room-bed room-tanking room-tile"},
		"a wall's thickness":    {func(j *job.Job) { j.Room.Walls[1].ThicknessMM += 10 }, "wall-1 wall-2 wall-3"},
		"what a wall is of":     {func(j *job.Job) { j.Room.Walls[1].Kind = job.WallMasonry }, ""},
		"the water":             {func(j *job.Job) { j.Water.ShowerFlowsLPS = []float64{0.5} }, ""},
		"tolerances":            {func(j *job.Job) { j.Tolerances.BaseMM++ }, ""},
		"the size of the tiles": {func(j *job.Job) { j.Layers.Shower.TileLengthMM++ }, ""},
	} {
		want := strings.Fields(c.want)
		slices.Sort(want)
		if got := differs(build(t, nil), build(t, c.change)); !slices.Equal(got, want) {
			t.Errorf("%s touches %v, want %v", what, got, want)
		}
	}
}

// The shapes that can fail have names, typed out: they stand in
// the refusal of a job that cannot be worked out.
func TestShapesHaveNames(t *testing.T) {
	names := func(change func(*job.Job)) []string {
		j := job.New()
		change(&j)
		l := stage.Place(j, rule.Pack{}, &plan.Shaper{}).Level()
		var seen []string
		sh := plan.Shaper{Refuse: func(what message.Message, _ float64) error {
			if !slices.Contains(seen, what.String()) {
				seen = append(seen, what.String())
			}
			return nil
		}}
		assembly.Assemble(l.Settled, l.Layout, l.Heights, l.BuildUp(), l.Crossings(), &sh)
		slices.Sort(seen)
		return seen
	}
	want := strings.Split(`part.base
part.former-bed
part.wall-bed{wall: B}
part.wall-bed{wall: C}
part.wall-tanking{wall: B}
part.wall-tanking{wall: C}
part.wall-tile{wall: B}
part.wall-tile{wall: C}
shape.base-beside-channel
shape.channel
shape.drain-channel
shape.drain-cover
shape.former
shape.room-finish
shape.shower-tile
shape.shower-tile-within-wall
shape.slab
shape.trap
shape.trap-water
shape.wall{wall: A}
shape.wall{wall: B}
shape.wall{wall: C}
shape.wall{wall: D}`, "\n")
	if got := names(func(*job.Job) {}); !slices.Equal(got, want) {
		t.Errorf("shapes %q\nwant %q", got, want)
	}
	for _, c := range []struct {
		change func(*job.Job)
		want   []string
	}{
		{letIn, []string{"shape.joist{n: 5, wall: D}", "shape.joist{n: 6, wall: D}", "shape.base-between-joists", "shape.battens", "shape.deck"}},
		{func(j *job.Job) { j.Room.Edge, j.Shower.Screens = job.EdgeRamp, nil },
			[]string{"shape.ramp{at: edge.at-front}", "shape.ramp{at: edge.at-right}", "shape.room-beside-ramp"}},
		{func(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom }, []string{"shape.room-base"}},
	} {
		got := names(c.change)
		for _, name := range c.want {
			if !slices.Contains(got, name) {
				t.Errorf("no shape is called %q: %q", name, got)
			}
		}
	}
}

// A wall is of what its kind says.
func TestWallMaterials(t *testing.T) {
	for kind, want := range map[job.WallKind]string{job.WallStud: "stud-wall", job.WallMasonry: "masonry", job.WallCavity: "masonry"} {
		b := build(t, func(j *job.Job) { j.Room.Walls[1].Kind = kind })
		if got := string(b.part("wall-2").Material); got != want {
			t.Errorf("a %s wall is of %s", kind, got)
		}
	}
}
