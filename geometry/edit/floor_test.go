package edit_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// editCase is an edit of a job and what the job must be after it, by a change
// of its own: whatever the change leaves alone must have stayed.
type editCase struct {
	before func(*job.Job) // a change of the starting job; nil for none
	edit   edit.Edit
	after  func(*job.Job) // a change of that; nil for none
}

func eachEdit(t *testing.T, cases map[string]editCase) {
	t.Helper()
	for name, c := range cases {
		j := job.New()
		if c.before != nil {
			c.before(&j)
		}
		given, want := j.Clone(), j.Clone()
		if c.after != nil {
			c.after(&want)
		}
		if diff := cmp.Diff(want, c.edit.Apply(j), cmpopts.EquateEmpty(), cmpopts.EquateApprox(0, 1e-9)); diff != "" {
			t.Errorf("%s: less what was wanted, more what came:\n%s", name, diff)
		}
		if diff := cmp.Diff(given, j, cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%s: the job it was given has changed:\n%s", name, diff)
		}
		if c.edit.What.IsZero() {
			t.Errorf("%s does not say what it changes", name)
		}
	}
}

func ptr(v float64) *float64 { return &v }

// The sizes are common practice, no source; typed a second time on purpose. The
// shower of the starting job is 1400 wide and 900 deep, its drain 800 long.
func TestFallsByHand(t *testing.T) {
	shifted := func(j *job.Job) { j.Drain.OffsetMM, j.Drain.TrapOffsetMM, j.Drain.ForwardMM = 30, 40, ptr(300) }
	fall := func(k job.FallKind) func(*job.Job) {
		return func(j *job.Job) {
			j.Former.Fall = k
			shifted(j)
		}
	}
	// to is the drain in its middle again, with a fall, a width and a length.
	to := func(k job.FallKind, width, length float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Former.Fall, j.Drain.WidthMM, j.Drain.LengthMM = k, width, length
			j.Drain.OffsetMM, j.Drain.TrapOffsetMM, j.Drain.ForwardMM = 0, 0, nil
		}
	}
	sized := func(k job.FallKind, width, depth, length float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Former.Fall, j.Shower.WidthMM, j.Shower.DepthMM, j.Drain.LengthMM = k, width, depth, length
		}
	}
	eachEdit(t, map[string]editCase{
		"the same":                  {shifted, edit.Fall(job.FallBack), nil},
		"back to mid":               {shifted, edit.Fall(job.FallMid), to(job.FallMid, 70, 800)},
		"back to point":             {shifted, edit.Fall(job.FallPoint), to(job.FallPoint, 120, 800)},
		"back to room":              {shifted, edit.Fall(job.FallRoom), to(job.FallRoom, 120, 800)},
		"point to room":             {fall(job.FallPoint), edit.Fall(job.FallRoom), to(job.FallRoom, 70, 800)},
		"room to back":              {sized(job.FallRoom, 1400, 900, 300), edit.Fall(job.FallBack), to(job.FallBack, 70, 0)},
		"to the left, it just fits": {sized(job.FallBack, 1400, 900, 800), edit.Fall(job.FallLeft), to(job.FallLeft, 70, 800)},
		"to the left, shortened":    {sized(job.FallBack, 1400, 890, 800), edit.Fall(job.FallLeft), to(job.FallLeft, 70, 790)},
		"to the right, shortened":   {sized(job.FallBack, 1400, 890, 800), edit.Fall(job.FallRight), to(job.FallRight, 70, 790)},
		"to the front, shortened":   {sized(job.FallLeft, 890, 1400, 800), edit.Fall(job.FallFront), to(job.FallFront, 70, 790)},
		"no longer than it was":     {sized(job.FallLeft, 1400, 1400, 300), edit.Fall(job.FallFront), to(job.FallFront, 70, 300)},
		"to a short side":           {sized(job.FallBack, 1400, 195, 800), edit.Fall(job.FallLeft), to(job.FallLeft, 70, 100)},
		"to a side of 205":          {sized(job.FallBack, 1400, 205, 800), edit.Fall(job.FallLeft), to(job.FallLeft, 70, 105)},
	})
}

func TestFloorByHand(t *testing.T) {
	letIn := func(j *job.Job) { j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists }
	chosen := func(mm float64) func(*job.Job) {
		return func(j *job.Job) { j.Base.Height, j.Base.HeightMM = job.HeightChosen, mm }
	}
	eachEdit(t, map[string]editCase{
		"joists":       {nil, edit.FloorKind(job.FloorTimber), func(j *job.Job) { j.Floor.Kind = job.FloorTimber }},
		"joists again": {letIn, edit.FloorKind(job.FloorTimber), nil},
		"a slab under a let-in": {letIn, edit.FloorKind(job.FloorSlab), func(j *job.Job) {
			j.Floor.Kind, j.Base.Support, j.Standings = job.FloorSlab, job.OnFloor, map[string]job.Standing{"base.support": job.Assumed}
		}},
		"let in": {nil, edit.Support(job.BetweenJoists),
			func(j *job.Job) { j.Base.Support, j.Base.NogginSpacingMM = job.BetweenJoists, 600 }},
		"a height to be chosen": {nil, edit.Height(job.HeightChosen, 41.1), chosen(42)},
		"a whole one":           {nil, edit.Height(job.HeightChosen, 41), chosen(41)},
		"a chosen one again":    {chosen(55), edit.Height(job.HeightChosen, 41.1), nil},
		"the lowest":            {chosen(55), edit.Height(job.HeightBare, 41.1), func(j *job.Job) { j.Base.Height = job.HeightBare }},
		"a ramp as it was":      {nil, edit.Edge(job.EdgeRamp), func(j *job.Job) { j.Room.Edge = job.EdgeRamp }},
		"a ramp of next to none": {func(j *job.Job) { j.Room.RampRunMM = 0.5 }, edit.Edge(job.EdgeRamp),
			func(j *job.Job) { j.Room.Edge = job.EdgeRamp }},
		"a ramp as asked": {func(j *job.Job) { j.Room.RampRunMM = 0 }, edit.Edge(job.EdgeRamp),
			func(j *job.Job) { j.Room.Edge, j.Room.RampRunMM = job.EdgeRamp, 0 }},
		"a step needs no ramp": {func(j *job.Job) { j.Room.RampRunMM = 0 }, edit.Edge(job.EdgeStep), nil},
		"a wall of studs":      {nil, edit.Wall(3, job.WallStud), func(j *job.Job) { studs(j, 3, 400, 200, 47) }},
		"the first wall of studs": {func(j *job.Job) { j.Room.Walls[0] = j.Room.Walls[2] }, edit.Wall(0, job.WallStud),
			func(j *job.Job) { studs(j, 0, 400, 200, 47) }},
		"with studs of its own": {func(j *job.Job) { j.Room.Walls[2].StudSpacingMM = 600 }, edit.Wall(2, job.WallStud),
			func(j *job.Job) { studs(j, 2, 600, 0, 0) }},
		"a wall of two leaves": {nil, edit.Wall(3, job.WallCavity), func(j *job.Job) { j.Room.Walls[3].Kind = job.WallCavity }},
		"the wall before 1":    {nil, edit.Wall(-1, job.WallCavity), nil},
		"the wall after 4":     {nil, edit.Wall(4, job.WallCavity), nil},
	})
}

func studs(j *job.Job, wall int, spacing, first, width float64) {
	w := &j.Room.Walls[wall]
	w.Kind, w.StudSpacingMM, w.FirstStudMM, w.StudWidthMM = job.WallStud, spacing, first, width
}

// By hand: the wall at the back is 2400 long, the shower 1400 wide and 1000
// from its start, in its far corner, where it stays. At the last wall, 1900 long, it may be 1900 wide.
func TestWidenShowerByHand(t *testing.T) {
	to := func(offset, width, drain float64) func(*job.Job) {
		return func(j *job.Job) { j.Shower.OffsetMM, j.Shower.WidthMM, j.Drain.LengthMM = offset, width, drain }
	}
	left := func(j *job.Job) { j.Former.Fall, j.Drain.LengthMM = job.FallLeft, 700 }
	eachEdit(t, map[string]editCase{
		"narrower":           {nil, edit.WidenShower(-200), to(1200, 1200, 800)}, // in its corner at 2400
		"wider, pushed back": {nil, edit.WidenShower(100), to(900, 1500, 800)},
		"as wide as can be":  {nil, edit.WidenShower(1000), to(0, 2400, 800)},
		"wider than that":    {nil, edit.WidenShower(1001), to(0, 2401, 800)},
		"drain just fits":    {nil, edit.WidenShower(-500), to(1500, 900, 800)},
		"drain shortened":    {nil, edit.WidenShower(-501), to(1501, 899, 799)},
		"at the last wall":   {func(j *job.Job) { j.Shower.Wall, j.Shower.OffsetMM = 3, 400 }, edit.WidenShower(300), to(200, 1700, 800)},
		"drain at the side":  {left, edit.WidenShower(-700), to(1700, 700, 700)},
		"point drain":        {func(j *job.Job) { j.Former.Fall = job.FallPoint }, edit.WidenShower(-501), to(1501, 899, 800)},
	})
}

func TestOutlineByHand(t *testing.T) {
	door := func(wall int) job.Doorway {
		return job.Doorway{Wall: wall, OffsetMM: 100, WidthMM: 700, HeightMM: 2040}
	}
	doors := func(j *job.Job) { j.Room.Doorways = []job.Doorway{door(2), door(3), door(0)} }
	three := []plan.Point{{0, 0}, {3000, 0}, {0, 3000}}
	six := []plan.Point{{0, 0}, {3000, 0}, {3000, 2000}, {2000, 2000}, {2000, 3000}, {0, 3000}}
	at := func(wall int, offset float64) job.Doorway {
		d := door(wall)
		d.OffsetMM = offset
		return d
	}
	another := job.Wall{Kind: job.WallMasonry, ThicknessMM: 100}
	eachEdit(t, map[string]editCase{
		// Wall 3 is gone, the slanting one nearest to it: what was in its middle at (x, 1900) is
		// (3000 − x + 1900) ÷ √2 along that. Wall 4 begins 1100 earlier.
		"fewer corners": {doors, edit.Outline(three), func(j *job.Job) {
			j.Room.Outline, j.Room.Walls = three, []job.Wall{j.Room.Walls[0], another, j.Room.Walls[3]}
			j.Shower.Wall, j.Shower.OffsetMM = 1, 2269.848481 // x = 700, less 700
			j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 2, 1168
			j.Room.Doorways = []job.Doorway{at(1, 1735.965005), at(2, 1200), at(0, 100)} // x = 1950, less 350
		}},
		// The shower, 1400 long, ends where wall 3 does, at 3000.
		"the exit's wall goes": {func(j *job.Job) { j.Shower.Wall, j.Waste.Exit.Wall = 3, 2 }, edit.Outline(three), func(j *job.Job) {
			j.Room.Outline, j.Room.Walls = three, []job.Wall{j.Room.Walls[0], another, j.Room.Walls[3]}
			j.Shower.Wall, j.Shower.OffsetMM = 2, 1600
			j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 1, 1815.850214 // x = 2332
		}},
		// The shower is nearest to the farther of the two walls along the back, 1300 along it in its middle; the
		// first door ends where the nearer one does.
		"more corners": {doors, edit.Outline(six), func(j *job.Job) {
			w := j.Room.Walls
			j.Room.Outline, j.Room.Walls = six, []job.Wall{w[0], w[1], w[2], another, another, w[3]}
			j.Shower.Wall, j.Shower.OffsetMM = 4, 600
			j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 5, 1168
			j.Room.Doorways = []job.Doorway{at(2, 300), at(5, 1200), at(0, 100)}
		}},
	})
	given := []plan.Point{{0, 0}, {3000, 0}, {3000, 2000}, {0, 2000}}
	e := edit.Outline(given)
	given[1][0] = 1
	j := e.Apply(job.New())
	j.Room.Outline[2][0] = 2
	if again := e.Apply(job.New()).Room.Outline; again[1][0] != 3000 || again[2][0] != 3000 {
		t.Errorf("the edit's corners can be changed from outside: %v", again)
	}
}

// placed has the shower so far along its wall and so wide.
func placed(offsetMM, widthMM float64) func(*job.Job) {
	return func(j *job.Job) { j.Shower.OffsetMM, j.Shower.WidthMM = offsetMM, widthMM }
}

// By hand: a doorway of 760 takes 20 more at either side. The first wall, 2400
// long, has one up to 2260; the second is 1900 long and takes two, the first
// of them from 20, the next from 800; the third one would end at 2340.
func TestDoorwaysByHand(t *testing.T) {
	another := func(wall int, offset float64) job.Doorway {
		return job.Doorway{Wall: wall, OffsetMM: offset, WidthMM: 760, HeightMM: 2040, Leaf: job.LeafOut, LeafGapMM: 8}
	}
	with := func(d ...job.Doorway) func(*job.Job) {
		return func(j *job.Job) { j.Room.Doorways = append(j.Room.Doorways, d...) }
	}
	square := func(side float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Room.Outline = []plan.Point{{0, 0}, {side, 0}, {side, side}, {0, side}}
			j.Room.Doorways = nil
		}
	}
	doorways, _ := job.FindList(job.DoorwaysKey)
	width := doorways.Entries()[slices.IndexFunc(doorways.Entries(), func(e job.Entry) bool { return e.Key == "widthMM" })]
	eachEdit(t, map[string]editCase{
		"into the second wall":    {nil, edit.AddItem(doorways), with(another(1, 20))},
		"after that":              {with(another(1, 20)), edit.AddItem(doorways), with(another(1, 800))},
		"after one before it":     {with(another(1, 800), another(1, 20)), edit.AddItem(doorways), with(another(2, 20))},
		"into a wall of 800":      {square(800), edit.AddItem(doorways), with(another(0, 20))},
		"into none a little less": {square(799.9), edit.AddItem(doorways), nil},
		"into the last wall": {func(j *job.Job) {
			j.Room.Outline, j.Room.Doorways = []plan.Point{{0, 800}, {700, 800}, {700, 100}, {0, 0}}, nil
		}, edit.AddItem(doorways), with(another(3, 20))},
		"one less": {with(another(1, 20), another(2, 20)), edit.RemoveItem(doorways, 1),
			func(j *job.Job) { j.Room.Doorways = append(j.Room.Doorways[:1], another(2, 20)) }},
		"the first less":    {nil, edit.RemoveItem(doorways, 0), func(j *job.Job) { j.Room.Doorways = nil }},
		"one before less":   {nil, edit.RemoveItem(doorways, -1), nil},
		"one after less":    {nil, edit.RemoveItem(doorways, 1), nil},
		"changed":           {nil, edit.ItemNumber(doorways, 0, width, ptr(900)), func(j *job.Job) { j.Room.Doorways[0].WidthMM = 900 }},
		"one before it not": {nil, edit.ItemNumber(doorways, -1, width, ptr(900)), nil},
		"one after it not":  {nil, edit.ItemNumber(doorways, 1, width, ptr(900)), nil},
	})
}

func TestValuesByHand(t *testing.T) {
	width, _ := job.Find("shower.widthMM")
	height, _ := job.Find(job.BaseHeightKey)
	clear, _ := job.Find("drain.wallClearanceMM")
	turning := func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{300, 1832}} }
	cut := func(j *job.Job) **float64 { return &j.Base.CutAtStartMM }
	eachEdit(t, map[string]editCase{
		// And the hole of its straight waste, 68 from the corner, by as much.
		"a drain moved": {nil, edit.Number(clear, 25), func(j *job.Job) {
			j.Drain.WallClearanceMM, j.Waste.Exit.OffsetMM = 25, 80
		}},
		"a drain moved, its waste turning": {turning, edit.Number(clear, 25), func(j *job.Job) { j.Drain.WallClearanceMM = 25 }},
		"in its far corner":                {nil, edit.Number(width, 1300), placed(1100, 1300)},
		"too wide for it":                  {nil, edit.Number(width, 2500), placed(0, 2500)},
		"clear of it":                      {func(j *job.Job) { j.Shower.OffsetMM = 999 }, edit.Number(width, 1300), placed(999, 1300)},
		"from end to end":                  {placed(0, 2400), edit.Number(width, 1300), func(j *job.Job) { j.Shower.WidthMM = 1300 }},
		"a height is chosen": {nil, edit.Number(height, 70),
			func(j *job.Job) { j.Base.HeightMM, j.Base.Height = 70, job.HeightChosen }},
		"one that may lack": {nil, edit.Optional(message.Of("edit.test"), cut, ptr(50)),
			func(j *job.Job) { j.Base.CutAtStartMM = ptr(50) }},
		"taken away": {func(j *job.Job) { j.Base.CutAtStartMM = ptr(50) },
			edit.Optional(message.Of("edit.test"), cut, nil), func(j *job.Job) { j.Base.CutAtStartMM = nil }},
		"a level as built": {nil, edit.Measured(3, ptr(80)), func(j *job.Job) { j.AsBuilt.FormerAtDrainMM = ptr(80) }},
		"that taken away": {func(j *job.Job) { j.AsBuilt.BaseTopMM = ptr(80) }, edit.Measured(0, nil),
			func(j *job.Job) { j.AsBuilt.BaseTopMM = nil }},
		"two as one": {nil, edit.All(message.Of("edit.test"), edit.Edge(job.EdgeRamp), edit.Edge(job.EdgeStep), edit.Number(width, 1300)),
			placed(1100, 1300)},
	})
}
