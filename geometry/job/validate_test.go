package job_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
)

// Each case is a change to the starting job and all that is found wrong with it
// then: nothing, where it lies just within a limit.
func TestProblemsOfTheRoom(t *testing.T) {
	// The doorway stands from 1500 to 2260 of the first wall, 2400 long.
	second := func(wall int, offsetMM, widthMM float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Room.Doorways = append(j.Room.Doorways, job.Doorway{Wall: wall, OffsetMM: offsetMM, WidthMM: widthMM,
				HeightMM: 2040, Leaf: job.LeafNone})
		}
	}
	doorway := func(offsetMM, widthMM float64) func(*job.Job) {
		return func(j *job.Job) { j.Room.Doorways[0].OffsetMM, j.Room.Doorways[0].WidthMM = offsetMM, widthMM }
	}
	// A room without anything in it: 100 × 100 mm has the least floor there may be.
	small := func(b, c plan.Point) func(*job.Job) {
		return func(j *job.Job) {
			j.Room.Outline = []plan.Point{{0, 0}, b, c, {0, 100}}
			j.Room.Doorways = nil
			j.Waste.Exit.OffsetMM = 0
		}
	}
	eachOf(t, map[string]problemCase{
		"version before":           {func(j *job.Job) { j.Version = 5 }, "version"},
		"version after":            {func(j *job.Job) { j.Version = 12 }, "version"},
		"name of 120":              {func(j *job.Job) { j.Name = strings.Repeat("é", 120) }, ""},
		"name of 121":              {func(j *job.Job) { j.Name = strings.Repeat("é", 121) }, "name"},
		"notes of 8000":            {func(j *job.Job) { j.Notes = strings.Repeat("é", 7998) + "\n." }, ""},
		"notes of 8001":            {func(j *job.Job) { j.Notes = strings.Repeat("é", 8001) }, "notes"},
		"corners 1 mm apart":       {func(j *job.Job) { j.Room.Outline[1] = plan.Point{0, -1} }, "room.doorways[0].offsetMM"},
		"corners less apart":       {func(j *job.Job) { j.Room.Outline[1] = plan.Point{0, -0.999} }, "room.outline[0]"},
		"last corner on the first": {func(j *job.Job) { j.Room.Outline[3] = plan.Point{0.5, 0} }, "room.outline[3] waste.exit.offsetMM"},
		"corner nowhere":           {func(j *job.Job) { j.Room.Outline[1][0] = math.NaN() }, "room.outline[1][0]"},
		"corner far off":           {func(j *job.Job) { j.Room.Outline[1] = plan.Point{1200, 60000} }, "room.outline[1][1]"},
		"least floor":              {small(plan.Point{100, 0}, plan.Point{100, 100}), "shower"},
		"less than that":           {small(plan.Point{99.99, 0}, plan.Point{100, 100}), "room.outline"},
		"least floor the other way": {func(j *job.Job) {
			small(plan.Point{100, 0}, plan.Point{100, 100})(j)
			slices.Reverse(j.Room.Outline)
		}, "shower"},
		"more walls than sides":  {func(j *job.Job) { j.Room.Walls = append(j.Room.Walls, j.Room.Walls[0]) }, "room.walls"},
		"masonry needs no studs": {func(j *job.Job) { j.Room.Walls[2].StudSpacingMM = -1 }, ""},
		"a cavity wall has two leaves": {func(j *job.Job) {
			w := &j.Room.Walls[3]
			w.Kind, w.ThicknessMM, w.InnerLeafMM, w.CavityMM = job.WallCavity, 200, 100, 100
		}, "room.walls[3].cavityMM"},
		"studs need a spacing": {func(j *job.Job) { j.Room.Walls[2].Kind = job.WallStud },
			"room.walls[2].studSpacingMM room.walls[2].studWidthMM"},
		"doorway from the corner":      {doorway(0, 760), ""},
		"doorway before the corner":    {doorway(-0.001, 760), "room.doorways[0].offsetMM"},
		"doorway nowhere":              {doorway(math.NaN(), 760), "room.doorways[0].offsetMM"},
		"doorway to the corner":        {doorway(1640, 760), ""},
		"doorway a hair past":          {doorway(1640+0.9e-6, 760), ""},
		"doorway past the corner":      {doorway(1640+1.05e-6, 760), "room.doorways[0].offsetMM"},
		"doorway without a width":      {doorway(1500, 0), "room.doorways[0].widthMM"},
		"doorway in no wall":           {second(4, 10, 300), "room.doorways[1].wall"},
		"doorway in the wall before 1": {second(-1, 10, 300), "room.doorways[1].wall"},
		"doorway in the last wall":     {second(3, 1140, 760), ""},
		"and past its end":             {second(3, 1141, 760), "room.doorways[1].offsetMM"},
		"doorway up to another":        {second(0, 1000, 500), ""},
		"doorway into another":         {second(0, 1000, 500.001), "room.doorways[1]"},
		"doorway after another":        {second(0, 2260, 100), ""},
		"doorway begun in another":     {second(0, 2259.999, 100), "room.doorways[1]"},
		"doorway opposite another":     {second(2, 1500, 760), ""},
	})
}

// problemCase is a change to the starting job and the places of all problems
// there are then, in order, with spaces between.
type problemCase struct {
	change func(*job.Job)
	want   string
}

func eachOf(t *testing.T, cases map[string]problemCase) {
	t.Helper()
	for name, c := range cases {
		j := job.New()
		c.change(&j)
		got := paths(j)
		want := strings.Fields(c.want)
		if !slices.Equal(got, want) {
			t.Errorf("%s: problems at %v, want %v: %v", name, got, want, j.Validate())
		}
	}
}

func TestProblemsOfFloorAndRun(t *testing.T) {
	joists := func(change func(*job.Joists)) func(*job.Job) {
		return func(j *job.Job) {
			*j = timbered()
			change(&j.Floor.Joists)
		}
	}
	curve := func(points ...part.HeadFlow) func(*job.Job) {
		return func(j *job.Job) { j.Drain.CapacityCurve = points }
	}
	exit := func(wall int, offsetMM float64) func(*job.Job) {
		return func(j *job.Job) { j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = wall, offsetMM }
	}
	fitting := func(f job.Fitting) func(*job.Job) {
		return func(j *job.Job) { j.Waste.Fittings = []job.Fitting{f} }
	}
	reducer := func(outsideMM, boreMM, slope float64) func(*job.Job) {
		pipe := part.Pipe{NominalMM: 50, OutsideDiameterMM: outsideMM, BoreMM: boreMM, SocketOutsideMM: outsideMM + 7}
		return fitting(job.Fitting{Kind: job.FittingReducer, LengthMM: 1, Pipe: pipe, Slope: slope})
	}
	eachOf(t, map[string]problemCase{
		"joists with a gap":        {joists(func(s *job.Joists) { s.WidthMM, s.SpacingMM = 299.9, 300 }), ""},
		"joists side by side":      {joists(func(s *job.Joists) { s.WidthMM, s.SpacingMM = 300, 300 }), "floor.joists.spacingMM"},
		"no joists in a slab":      {func(j *job.Job) { j.Floor.Joists.WidthMM, j.Floor.Joists.SpacingMM = 300, 300 }, ""},
		"supports in order":        {joists(func(s *job.Joists) { s.SupportsMM = []float64{-50, 0, 0.001} }), ""},
		"support on another":       {joists(func(s *job.Joists) { s.SupportsMM = []float64{-50, 0, 0} }), "floor.joists.supportsMM[2]"},
		"one support in a slab":    {func(j *job.Job) { j.Floor.Joists.SupportsMM = []float64{0} }, ""},
		"let in between joists":    {func(j *job.Job) { *j = timbered(); j.Base.Support = job.BetweenJoists }, ""},
		"cover with one setting":   {func(j *job.Job) { j.Drain.CoverLeastMM, j.Drain.CoverGreatestMM = 9, 9 }, ""},
		"cover the wrong way":      {func(j *job.Job) { j.Drain.CoverLeastMM, j.Drain.CoverGreatestMM = 9, 8.9 }, "drain.coverGreatestMM"},
		"outlet at the trap's end": {func(j *job.Job) { j.Drain.TrapDepthMM = 75 }, ""},
		"outlet below the trap":    {func(j *job.Job) { j.Drain.TrapDepthMM = 74.9 }, "drain.trapDepthMM"},
		"outlet a turn and 90°":    {func(j *job.Job) { j.Drain.OutletTurnDeg = -270 }, ""},
		"outlet nearly square":     {func(j *job.Job) { j.Drain.OutletTurnDeg = 90.001 }, "drain.outletTurnDeg"},
		"curve":                    {curve(part.HeadFlow{HeadMM: 5, FlowLPS: 0.2}, part.HeadFlow{HeadMM: 5.1, FlowLPS: 0.2}), ""},
		"curve of one water": {curve(part.HeadFlow{HeadMM: 5, FlowLPS: 0.2}, part.HeadFlow{HeadMM: 5, FlowLPS: 0.3}),
			"drain.capacityCurve[1]"},
		"curve that carries less": {curve(part.HeadFlow{HeadMM: 5, FlowLPS: 0.2}, part.HeadFlow{HeadMM: 6, FlowLPS: 0.19}),
			"drain.capacityCurve[1]"},
		"bore a hair less":         {func(j *job.Job) { j.Waste.BoreMM = 49.999 }, ""},
		"bore as wide":             {func(j *job.Job) { j.Waste.BoreMM = 50 }, "waste.boreMM"},
		"exit in the first wall":   {exit(0, 2400), ""},
		"exit past its end":        {exit(0, 2400.001), "waste.exit.offsetMM"},
		"exit in the last wall":    {exit(3, 1900), ""},
		"exit past that":           {exit(3, 1900.001), "waste.exit.offsetMM"},
		"exit before the walls":    {exit(-1, 10), "waste.exit.wall"},
		"exit after the walls":     {exit(4, 10), "waste.exit.wall"},
		"pipe: no matter the wall": {func(j *job.Job) { exit(9, 9e4)(j); j.Waste.Exit.Kind = job.ExitPipe }, ""},
		"through a wall: no matter the place": {func(j *job.Job) {
			j.Waste.Exit.At = plan.Point{1e9, 1e9}
		}, ""},
		"a turn nowhere":           {func(j *job.Job) { j.Waste.Waypoints = []plan.Point{{1, 1}, {math.NaN(), 1}} }, "waste.waypoints[1][0]"},
		"reducer without a slope":  {reducer(50, 49.9, 7), ""},
		"reducer's bore as wide":   {reducer(50, 50, 0), "waste.fittings[0].boreMM"},
		"reducer's bore too small": {reducer(250, 9.9, 0), "waste.fittings[0].boreMM"},
		"falling piece, no size": {fitting(job.Fitting{Kind: job.FittingFallingPiece, LengthMM: 1,
			Pipe: part.Pipe{BoreMM: 3, OutsideDiameterMM: 2}}), ""},
		// What can only be looked at in a room and a floor that are sound is not
		// looked at in others.
		"no region, shower far outside": {func(j *job.Job) { j.Region, j.Shower.OffsetMM = "", 9000 }, "region"},
		"no region, drain far outside":  {func(j *job.Job) { j.Region, j.Drain.OffsetMM = "", 3000 }, "region"},
		"shower at the first wall":      {func(j *job.Job) { j.Shower.Wall = 0 }, ""},
		"shower at no wall":             {func(j *job.Job) { j.Shower.Wall = 4 }, "shower.wall"},
		"shower at the wall before 1":   {func(j *job.Job) { j.Shower.Wall = -1 }, "shower.wall"},
	})
}

// The shower may leave the room by 100 mm², which is rounding, and says by how
// much and where it leaves it by more. By hand: 900 deep, it ends at the wall's
// end, 2400; 0.11 farther is 99 mm² out, 0.112 is 100.8.
func TestShowerInTheRoom(t *testing.T) {
	for name, c := range map[string]struct {
		offset, width, depth float64
		says                 string
	}{
		"at the corner":        {1000, 1400, 900, ""},
		"99 mm² out":           {1000.11, 1400, 900, ""},
		"101 mm² out":          {1000.112, 1400, 900, "problem.shower-out{by: 1 mm, corner: corner.back-left}"},
		"out at the left":      {1050, 1400, 900, "problem.shower-out{by: 50 mm, corner: corner.back-left}"},
		"more than a whole mm": {1050.3, 1400, 900, "problem.shower-out{by: 51 mm, corner: corner.back-left}"},
		"out at the front":     {500, 1400, 2000, "problem.shower-out{by: 100 mm, corner: corner.front-right}"},
		// The front left corner lies 100 over and 100 on from the room's corner.
		"out both ways": {1100, 1400, 2000, "problem.shower-out{by: 142 mm, corner: corner.front-left}"},
	} {
		j := job.New()
		j.Shower.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM = c.offset, c.width, c.depth
		p := j.Validate()
		if c.says == "" && len(p) > 0 || c.says != "" && (len(p) != 1 || p[0].What.String() != c.says) {
			t.Errorf("%s: %v, want %q", name, p, c.says)
		}
	}
	// A pier of 400 × 400 in the middle of the wall opposite reaches into the
	// shower between its corners.
	j := job.New()
	j.Room.Outline = []plan.Point{{0, 0}, {1500, 0}, {1500, 1400}, {1700, 1400}, {1700, 0}, {2400, 0}, {2400, 1900}, {0, 1900}}
	j.Room.Walls = repeated(8, j.Room.Walls[2])
	j.Room.Doorways = nil
	j.Shower.Wall, j.Shower.OffsetMM, j.Waste.Exit.Wall = 6, 0, 7
	if p := j.Validate(); len(p) != 1 || p[0].Key != "shower" || p[0].What.String() != "problem.shower-out-between-corners" {
		t.Errorf("%v", p)
	}
}

// By hand, facing the wall at the back of the shower: the corners of a room of
// 2400 × 1900, walked either way round.
func TestShowerCornersByHand(t *testing.T) {
	j := job.New()
	clockwise := []plan.Point{{0, 0}, {0, 1900}, {2400, 1900}, {2400, 0}}
	for _, c := range []struct {
		outline []plan.Point
		wall    int
		want    [4]plan.Point
	}{
		// The back wall runs from x = 2400 down; the shower from 100 to 1500 of it.
		{j.Room.Outline, 2, [4]plan.Point{{900, 1900}, {2300, 1900}, {2300, 1000}, {900, 1000}}},
		// The last wall runs from y = 1900 down at x = 0; left of it lies y = 400.
		{j.Room.Outline, 3, [4]plan.Point{{0, 400}, {0, 1800}, {900, 1800}, {900, 400}}},
		// The same back wall walked from x = 0 up.
		{clockwise, 1, [4]plan.Point{{100, 1900}, {1500, 1900}, {1500, 1000}, {100, 1000}}},
		// The last wall runs from x = 2400 down at y = 0; who faces it has x = 2300 to
		// the left.
		{clockwise, 3, [4]plan.Point{{2300, 0}, {900, 0}, {900, 900}, {2300, 900}}},
	} {
		k := j
		k.Room.Outline = c.outline
		k.Shower = job.Shower{Wall: c.wall, OffsetMM: 100, WidthMM: 1400, DepthMM: 900}
		got := k.ShowerCorners()
		for i := range got {
			if got[i].Sub(c.want[i]).Len() > 1e-9 {
				t.Errorf("wall %d: corners %v, want %v", c.wall, got, c.want)
				break
			}
		}
	}
}
