package job_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// parameterRow is what is promised of one number of a job.
type parameterRow struct {
	key                   string
	quantity              unit.Kind
	least, greatest, step float64
	when                  string // what the job must have for the number to count
}

// parameterRows are the numbers of a job, typed a second time on purpose: a
// range or a step is changed in two places or not at all. Common practice, no
// source.
var parameterRows = []parameterRow{
	{"room.heightMM", unit.Length, 500, 6000, 50, "always"},
	{"floor.setDownMM", unit.Length, 0, 300, 1, "slab"},
	{"floor.joists.directionDeg", unit.Angle, -360, 360, 5, "timber"},
	{"floor.joists.depthMM", unit.Length, 50, 600, 5, "timber"},
	{"floor.joists.widthMM", unit.Length, 20, 300, 1, "timber"},
	{"floor.joists.spacingMM", unit.Length, 100, 2000, 10, "timber"},
	{"floor.joists.firstOffsetMM", unit.Along, -2000, 5000, 10, "timber"},
	{"floor.slabThicknessMM", unit.Length, 20, 1000, 5, "slab"},
	{"floor.deck.thicknessMM", unit.Length, 5, 100, 1, "timber"},
	{"floor.joists.bearingMM", unit.Length, 0, 300, 5, "timber"},
	{"shower.offsetMM", unit.Along, 0, 20000, 10, "always"},
	{"shower.widthMM", unit.Along, 300, 10000, 10, "always"},
	{"shower.depthMM", unit.Along, 300, 10000, 10, "always"},
	{"room.rampRunMM", unit.Along, 0, 4000, 50, "ramp"},
	{"drain.lengthMM", unit.Length, 0, 6000, 10, "linear"},
	{"former.slope", unit.Slope, 0, 0.25, 0.001, "always"},
	{"base.heightMM", unit.Length, -600, 1000, 1, "height chosen"},
	{"base.minThicknessMM", unit.Length, 0, 200, 1, "always"},
	{"base.adhesiveMM", unit.Length, 0, 50, 0.5, "on the floor"},
	{"base.betweenLeastMM", unit.Length, 0, 30, 0.5, "boards"},
	{"base.betweenGreatestMM", unit.Length, 0, 30, 0.5, "boards"},
	{"base.sawMarginMM", unit.Length, 0, 100, 1, "always"},
	{"base.boardLengthMM", unit.Length, 100, 5000, 10, "of boards"},
	{"base.boardWidthMM", unit.Length, 0, 5000, 10, "of boards"},
	{"base.keepZoneMM", unit.Along, 0, 5000, 10, "of boards"},
	{"base.ledgerWidthMM", unit.Length, 0, 150, 1, "let in"},
	{"base.ledgerDepthMM", unit.Length, 0, 200, 1, "let in"},
	{"base.nogginSpacingMM", unit.Length, 0, 3000, 10, "let in"},
	{"former.endSlope", unit.Slope, 0, 0.25, 0.001, "falling ends"},
	{"former.thicknessAtDrainMM", unit.Length, 0.5, 300, 1, "always"},
	{"former.bedMM", unit.Length, 0, 30, 0.5, "always"},
	{"former.longestMM", unit.Length, 0, 10000, 10, "always"},
	{"former.widestMM", unit.Length, 0, 10000, 10, "always"},
	{"drain.offsetMM", unit.Along, -5000, 5000, 10, "always"},
	{"drain.wallClearanceMM", unit.Along, 0, 500, 1, "at a wall"},
	{"drain.widthMM", unit.Length, 20, 600, 1, "always"},
	{"drain.trapOffsetMM", unit.Along, -3000, 3000, 10, "linear"},
	{"drain.trapDepthMM", unit.Length, 10, 600, 1, "always"},
	{"drain.trapSizeMM", unit.Length, 40, 500, 1, "always"},
	{"drain.outletInvertDepthMM", unit.Length, 5, 500, 1, "always"},
	{"drain.outletNominalMM", unit.Length, 20, 200, 1, "always"},
	{"drain.outletTurnDeg", unit.Angle, -360, 360, 90, "always"},
	{"drain.bedUnderMM", unit.Length, 0, 50, 0.5, "always"},
	{"drain.leastFormerMM", unit.Length, 0, 100, 1, "always"},
	{"drain.channelDepthMM", unit.Length, 0, 300, 1, "always"},
	{"drain.coverLeastMM", unit.Length, 0, 200, 1, "always"},
	{"drain.coverGreatestMM", unit.Length, 0, 300, 1, "always"},
	{"drain.weirDepthMM", unit.Length, 1, 500, 1, "always"},
	{"drain.sealMM", unit.Length, 0, 200, 1, "always"},
	{"drain.passageMM", unit.Length, 0, 200, 1, "always"},
	{"drain.outletJointMM", unit.Length, 0, 300, 1, "always"},
	{"drain.outletJointOutsideMM", unit.Length, 20, 300, 0.5, "always"},
	{"drain.capacityLPS", unit.Flow, 0, 20, 1.0 / 60, "always"},
	{"drain.capacityHeadMM", unit.Length, 1, 200, 1, "always"},
	{"water.otherDU", unit.Count, 0, 50, 0.1, "always"},
	{"water.largestDU", unit.Count, 0, 20, 0.1, "shared"},
	{"waste.exit.offsetMM", unit.Along, 0, 50000, 10, "exit through a wall"},
	{"waste.exit.nominalMM", unit.Length, 0, 250, 1, "exit into a pipe"},
	{"waste.gradient", unit.Slope, -0.5, 1, 0.001, "fall stated"},
	{"waste.holeRoomMM", unit.Length, 1, 100, 1, "exit through a wall or floor"},
	{"waste.clearUnderMM", unit.Length, 0, 50, 0.5, "always"},
	{"waste.nominalMM", unit.Length, 20, 200, 1, "always"},
	{"waste.outsideDiameterMM", unit.Length, 20, 250, 0.1, "always"},
	{"waste.boreMM", unit.Length, 10, 240, 0.1, "always"},
	{"waste.socketOutsideMM", unit.Length, 20, 300, 0.5, "always"},
	{"waste.insertionMM", unit.Length, 0, 300, 1, "always"},
	{"waste.bend45FaceMM", unit.Length, 1, 300, 1, "always"},
	{"waste.bend90FaceMM", unit.Length, 1, 500, 1, "always"},
	{"layers.shower.tileLengthMM", unit.Length, 5, 3500, 1, "always"},
	{"layers.shower.tileWidthMM", unit.Length, 5, 3500, 1, "always"},
	{"layers.shower.jointMM", unit.Length, 0, 30, 0.5, "always"},
	{"layers.shower.tile.thicknessMM", unit.Length, 0, 100, 0.5, "always"},
	{"layers.shower.bed.thicknessMM", unit.Length, 0, 100, 0.5, "always"},
	{"layers.shower.tanking.thicknessMM", unit.Length, 0, 100, 0.5, "always"},
	{"layers.room.tileLengthMM", unit.Length, 5, 3500, 1, "room tiled"},
	{"layers.room.tileWidthMM", unit.Length, 5, 3500, 1, "room tiled"},
	{"layers.room.jointMM", unit.Length, 0, 30, 0.5, "room tiled"},
	{"layers.room.tile.thicknessMM", unit.Length, 0, 100, 0.5, "room tiled"},
	{"layers.room.bed.thicknessMM", unit.Length, 0, 100, 0.5, "room tiled"},
	{"layers.room.tanking.thicknessMM", unit.Length, 0, 100, 0.5, "room tiled"},
	{"layers.wall.tileLengthMM", unit.Length, 5, 3500, 1, "always"},
	{"layers.wall.tileWidthMM", unit.Length, 5, 3500, 1, "always"},
	{"layers.wall.jointMM", unit.Length, 0, 30, 0.5, "always"},
	{"layers.wall.tile.thicknessMM", unit.Length, 0, 100, 0.5, "always"},
	{"layers.wall.bed.thicknessMM", unit.Length, 0, 100, 0.5, "always"},
	{"layers.wall.tanking.thicknessMM", unit.Length, 0, 100, 0.5, "always"},
	{"layers.wallTiledToMM", unit.Length, 300, 6000, 50, "always"},
	{"tolerances.floorMM", unit.Length, 0, 50, 0.5, "no readings"},
	{"tolerances.baseMM", unit.Length, 0, 20, 0.5, "always"},
	{"tolerances.bedMM", unit.Length, 0, 20, 0.5, "always"},
	{"tolerances.formerMM", unit.Length, 0, 20, 0.5, "always"},
	{"tolerances.fallMM", unit.Length, 0, 50, 0.5, "always"},
	{"tolerances.outletMM", unit.Length, 0, 20, 0.5, "always"},
	{"tolerances.trapMM", unit.Length, 0, 20, 0.5, "always"},
	{"tolerances.pipeMM", unit.Length, 0, 50, 0.5, "fall stated"},
	{"tolerances.exitMM", unit.Length, 0, 100, 0.5, "exit's level known"},
	{"tolerances.doorwayMM", unit.Length, 0, 50, 0.5, "doorways"},
	{"tolerances.groundMM", unit.Length, 0, 500, 0.5, "exit through a wall"},
	{"tolerances.setUpMM", unit.Length, 0, 20, 0.5, "always"},
	{"layers.shower.tile.toleranceMM", unit.Length, 0, 30, 0.1, "always"},
	{"layers.shower.bed.toleranceMM", unit.Length, 0, 30, 0.1, "always"},
	{"layers.shower.tanking.toleranceMM", unit.Length, 0, 30, 0.1, "always"},
	{"layers.room.tile.toleranceMM", unit.Length, 0, 30, 0.1, "room tiled"},
	{"layers.room.bed.toleranceMM", unit.Length, 0, 30, 0.1, "room tiled"},
	{"layers.room.tanking.toleranceMM", unit.Length, 0, 30, 0.1, "room tiled"},
	{"layers.wall.tile.toleranceMM", unit.Length, 0, 30, 0.1, "always"},
	{"layers.wall.bed.toleranceMM", unit.Length, 0, 30, 0.1, "always"},
	{"layers.wall.tanking.toleranceMM", unit.Length, 0, 30, 0.1, "always"},
}

// The rows of the program are those typed here, in this order, and each leads
// to the place in a file that its key names, and nowhere else.
func TestParametersAreAsTyped(t *testing.T) {
	all := job.Parameters()
	if len(all) != len(parameterRows) {
		t.Fatalf("%d parameters, want %d", len(all), len(parameterRows))
	}
	for i, want := range parameterRows {
		p := all[i]
		if got := (parameterRow{p.Key, p.Kind, p.Least, p.Greatest, p.Step, want.when}); got != want {
			t.Errorf("row %d is %+v, want %+v", i, got, want)
		}
		// A value that no other number of the job has.
		const mark = 123456.75
		j := p.With(job.New(), mark)
		if got := p.Get(j); got != mark {
			t.Errorf("%s: set to %v, it reads %v", p.Key, mark, got)
		}
		if places := placesOf(t, j, mark); len(places) != 1 || places[0] != p.Key {
			t.Errorf("%s leads to %v", p.Key, places)
		}
	}
}

// placesOf are the paths in a job's file where a number stands.
func placesOf(t *testing.T, j job.Job, number float64) []string {
	t.Helper()
	data, err := json.Marshal(j)
	if err != nil {
		t.Fatal(err)
	}
	var file map[string]any
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	var places []string
	var look func(path string, v any)
	look = func(path string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for name, inner := range v {
				look(strings.TrimPrefix(path+"."+name, "."), inner)
			}
		case []any:
			for _, inner := range v {
				look(path+"[]", inner)
			}
		case float64:
			if v == number {
				places = append(places, path)
			}
		}
	}
	look("", file)
	return places
}

// A parameter takes both ends of its range and nothing beyond either, and says
// what it takes.
func TestParametersKeepTheirRanges(t *testing.T) {
	for p := range job.EachParameter {
		for _, v := range []float64{p.Least, (p.Least + p.Greatest) / 2, p.Greatest} {
			if wrong := p.Check(v); !wrong.IsZero() {
				t.Errorf("%s: %v is refused: %v", p.Key, v, wrong)
			}
		}
		below, above := math.Nextafter(p.Least, math.Inf(-1)), math.Nextafter(p.Greatest, math.Inf(1))
		for _, v := range append(noNumbers(), below, above) {
			if wrong := p.Check(v); wrong.ID != "problem.between" {
				t.Errorf("%s: of %v it says %v", p.Key, v, wrong)
			}
		}
	}
	p, _ := job.Find("shower.widthMM")
	if wrong := p.Check(299); wrong.String() != "problem.between{least: 300 mm, greatest: 10000 mm}" {
		t.Errorf("a width of 299: %v", wrong)
	}
}

// A number counts exactly for the jobs that use it: a job out of range in it is
// refused then, and only one that is no number at all otherwise.
func TestParametersCountWhereTheyAreUsed(t *testing.T) {
	usual := []string{"always", "slab", "on the floor", "linear", "at a wall", "fall stated", "exit through a wall",
		"exit through a wall or floor", "room tiled", "no readings", "doorways", "of boards"}
	for name, c := range map[string]struct {
		change  func(*job.Job)
		add     []string
		without string
	}{
		"as it begins":  {func(*job.Job) {}, nil, ""},
		"ramp":          {func(j *job.Job) { j.Room.Edge = job.EdgeRamp }, []string{"ramp"}, ""},
		"timber":        {func(j *job.Job) { j.Floor.Kind = job.FloorTimber }, []string{"timber"}, "slab"},
		"let in":        {func(j *job.Job) { j.Base.Support = job.BetweenJoists }, []string{"let in"}, "on the floor"},
		"chosen":        {func(j *job.Job) { j.Base.Height = job.HeightChosen }, []string{"height chosen"}, ""},
		"ends fall":     {func(j *job.Job) { j.Former.Ends = job.EndsFalling }, []string{"falling ends"}, ""},
		"ends of none":  {func(j *job.Job) { j.Former.Ends, j.Former.Fall = job.EndsFalling, job.FallPoint }, nil, "linear, at a wall"},
		"fall mid":      {func(j *job.Job) { j.Former.Fall = job.FallMid }, nil, "at a wall"},
		"mid, as long":  {func(j *job.Job) { j.Former.Fall, j.Drain.LengthMM = job.FallMid, 0 }, nil, ""},
		"fall left":     {func(j *job.Job) { j.Former.Fall = job.FallLeft }, nil, ""},
		"fall right":    {func(j *job.Job) { j.Former.Fall = job.FallRight }, nil, ""},
		"fall front":    {func(j *job.Job) { j.Former.Fall = job.FallFront }, nil, ""},
		"fall point":    {func(j *job.Job) { j.Former.Fall = job.FallPoint }, nil, "linear, at a wall"},
		"fall room":     {func(j *job.Job) { j.Former.Fall = job.FallRoom }, nil, "linear, at a wall"},
		"not below":     {func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(0) }, []string{"exit's level known"}, ""},
		"exactly":       {func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(0) }, []string{"exit's level known"}, "fall stated"},
		"pipe":          {func(j *job.Job) { j.Waste.Exit.Kind = job.ExitPipe }, []string{"exit into a pipe"}, "exit through a wall, exit through a wall or floor"},
		"through floor": {func(j *job.Job) { j.Waste.Exit.Kind = job.ExitFloor }, nil, "exit through a wall"},
		"finish kept": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 0.5, Out: job.OutShower}}
		}, nil, "room tiled"},
		"kept, raised": {func(j *job.Job) {
			j.Floor.Existing, j.Room.Edge = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 12, Out: job.OutShower}}, job.EdgeRaiseRoom
		}, nil, ""},
		"kept, room falls": {func(j *job.Job) {
			j.Floor.Existing, j.Former.Fall = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 12, Out: job.OutShower}}, job.FallRoom
		}, nil, "linear, at a wall"},
		"readings":    {func(j *job.Job) { j.SpotLevels = []job.SpotLevel{{At: plan.Point{1, 1}}} }, nil, "no readings"},
		"boards":      {func(j *job.Job) { j.Base.BoardsMM = []float64{20} }, []string{"boards"}, ""},
		"screed":      {func(j *job.Job) { j.Base.Screed = true }, nil, "of boards"},
		"shared":      {func(j *job.Job) { j.Water.OtherDU = 1 }, []string{"shared"}, ""},
		"no doorways": {func(j *job.Job) { j.Room.Doorways = nil }, nil, "doorways"},
	} {
		holds := map[string]bool{}
		for _, w := range append(usual[:len(usual):len(usual)], c.add...) {
			holds[w] = true
		}
		for _, w := range strings.Split(c.without, ", ") {
			delete(holds, w)
		}
		j := job.New()
		c.change(&j)
		for i, p := range job.Parameters() {
			want := holds[parameterRows[i].when]
			if got := p.Uses(j); got != want {
				t.Errorf("%s: %s counts: %v, want %v", name, p.Key, got, want)
			}
			// Changing a number may change what else counts, as a finish that is
			// kept does; of itself it says the same.
			beyond := p.With(j, p.Greatest+1)
			if got := has(beyond.Validate(), p.Key); got != p.Uses(beyond) {
				t.Errorf("%s: %s out of its range is refused: %v", name, p.Key, got)
			}
			for _, v := range noNumbers() {
				if !has(p.With(j, v).Validate(), p.Key) {
					t.Errorf("%s: %s of %v goes through", name, p.Key, v)
				}
			}
		}
	}
}

// noNumbers are what no number of a job can be.
func noNumbers() []float64 { return []float64{math.NaN(), math.Inf(1), math.Inf(-1)} }

// has tells whether there is a problem at a place.
func has(problems job.Problems, path string) bool {
	for _, p := range problems {
		if p.Key == path {
			return true
		}
	}
	return false
}

// Looking through the parameters sets nothing aside: every check of a job does
// it, for every sample and every key pressed.
func TestParametersAreReadWithoutMakingAList(t *testing.T) {
	last := job.Parameters()[len(job.Parameters())-1].Key
	if n := testing.AllocsPerRun(100, func() {
		if p, ok := job.Find(last); !ok || p.Key != last {
			t.Fatalf("%s is not found", last)
		}
	}); n > 0 {
		t.Errorf("finding %s sets aside memory %v times", last, n)
	}
	n := 0
	for range job.EachParameter {
		if n++; n == 3 {
			break
		}
	}
	if n != 3 {
		t.Errorf("%d parameters before the end was called", n)
	}
}
