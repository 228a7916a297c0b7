package tolerance_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/tolerance"
	"underfall/geometry/waste"
)

// off is a job's input by its name, moved by 0.5 on a copy of the job: its tolerance, and
// the job and layout as it leaves them.
func off(t *testing.T, j job.Job, id string, number int) (toleranceMM float64, k job.Job, l layout.Layout) {
	t.Helper()
	l = layout.Of(j, &plan.Shaper{})
	h := level.Solve(j, l, waste.Lay(j, l), 0)
	for _, in := range tolerance.Inputs(&j, &l, &h) {
		if string(in.Name.ID) == "input."+id && in.Name.Number == number {
			k = j.Clone()
			in.Shift(&k, &l, 0.5)
			return in.ToleranceMM, k, l
		}
	}
	return math.NaN(), j, l
}

// Each input has the tolerance that is stated for it and moves one number of the job by
// as much as it is off, those of the trap its passage as well.
func TestInputsByHand(t *testing.T) {
	mm := func(v float64) *float64 { return &v }
	base := job.New()
	base.Tolerances = job.Tolerances{FloorMM: 1, BaseMM: 2, BedMM: 3, FormerMM: 4, FallMM: 5, OutletMM: 6, TrapMM: 7, PipeMM: 8, ExitMM: 9, DoorwayMM: 10, GroundMM: 11}
	with := func(change func(*job.Job)) job.Job {
		j := base.Clone()
		change(&j)
		return j
	}
	timber := func(j *job.Job) { j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists }
	for name, c := range map[string]struct {
		job       job.Job
		id        string
		number    int
		tolerance float64 // not a number where it is none
		by        float64
		of        func(job.Job) float64
	}{
		"floor":    {base, "floor", 0, 1, 0.5, func(j job.Job) float64 { return level.Measure(j.SpotLevels, nil, 0).Floor.Level }},
		"base":     {base, "base-top", 0, 2, 0.5, func(j job.Job) float64 { return j.Base.AdhesiveMM }},
		"bed":      {base, "bed-under-former", 0, 3, 0.5, func(j job.Job) float64 { return j.Former.BedMM }},
		"former":   {base, "former", 0, 4, 0.5, func(j job.Job) float64 { return j.Former.ThicknessAtDrainMM }},
		"fall":     {base, "former-fall", 0, 5, 0.5 / 817, func(j job.Job) float64 { return j.Former.Slope }},
		"outlet":   {base, "outlet-below-flange", 0, 6, 0.5, func(j job.Job) float64 { return j.Drain.OutletInvertDepthMM }},
		"its weir": {base, "outlet-below-flange", 0, 6, 0, func(j job.Job) float64 { return j.Drain.WeirDepthMM }},
		"trap":     {base, "trap-depth", 0, 7, 0.5, func(j job.Job) float64 { return j.Drain.TrapDepthMM }},
		"passage":  {base, "trap-depth", 0, 7, 0.5, func(j job.Job) float64 { return j.Drain.PassageMM }},
		"pipe":     {base, "pipe-as-laid", 0, 8, 0.5 / 1000, func(j job.Job) float64 { return j.Waste.Gradient }},
		"no exit":  {base, "exit-as-measured", 0, math.NaN(), 0, nil},
		"doorway":  {base, "floor-beyond-doorway", 1, 10, 0.5, func(j job.Job) float64 { return j.Room.Doorways[0].NeighbourFFLMM }},
		"ground":   {base, "ground-outside", 0, 11, 0.5, func(j job.Job) float64 { return *j.Room.Walls[3].OutsideGroundMM }},
		"grating": {with(func(j *job.Job) {
			j.Waste.Beyond = &job.Beyond{Joins: job.JoinGully, GratingMM: mm(-50), WaterMM: mm(-300)}
		}), "gully", 0, 11, 0.5, func(j job.Job) float64 { return *j.Waste.Beyond.GratingMM }},
		"gully's water": {with(func(j *job.Job) { j.Waste.Beyond = &job.Beyond{Joins: job.JoinGully, WaterMM: mm(-300)} }), "gully", 0, 11, 0.5,
			func(j job.Job) float64 { return *j.Waste.Beyond.WaterMM }},
		"gully unknown":   {with(func(j *job.Job) { j.Waste.Beyond = &job.Beyond{Joins: job.JoinGully} }), "gully", 0, math.NaN(), 0, nil},
		"drain, no gully": {with(func(j *job.Job) { j.Waste.Beyond = &job.Beyond{Joins: job.JoinDrain, WaterMM: mm(-300)} }), "gully", 0, math.NaN(), 0, nil},
		"tile":            {base, "shower-tile", 0, 0.5, 0.5, func(j job.Job) float64 { return j.Layers.Shower.Tile.ThicknessMM }},
		"tile bed":        {base, "room-bed", 0, 1, 0.5, func(j job.Job) float64 { return j.Layers.Room.Bed.ThicknessMM }},
		"wall tank":       {base, "wall-tanking", 0, 0.3, 0.5, func(j job.Job) float64 { return j.Layers.Wall.Tanking.ThicknessMM }},
		"course": {with(func(j *job.Job) {
			j.Layers.Room.Under = []job.Course{{Kind: job.CoursePrimer}, {Kind: job.CourseScreed, Layer: job.Layer{ThicknessMM: 65, ToleranceMM: 3}}}
		}), "room-course", 2, 3, 0.5, func(j job.Job) float64 { return j.Layers.Room.Under[1].ThicknessMM }},
		"course under the base": {with(func(j *job.Job) {
			j.Base.Under = []job.Course{{Kind: job.CourseScreed, Layer: job.Layer{ThicknessMM: 65, ToleranceMM: 4}}}
		}), "base-course", 1, 4, 0.5, func(j job.Job) float64 { return j.Base.Under[0].ThicknessMM }},
		"exit": {with(func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(-50) }), "exit-as-measured", 0, 9, 0.5, func(j job.Job) float64 {
			mm, _ := j.Waste.Exit.Level.InvertMM()
			return mm
		}},
		"an exit that is given": {with(func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(-50) }), "pipe-as-laid", 0, math.NaN(), 0, nil},
		"an outlet that is the weir": {with(func(j *job.Job) { j.Drain.OutletInvertDepthMM = 32 }), "outlet-below-flange", 0, 6, 0.5,
			func(j job.Job) float64 { return j.Drain.WeirDepthMM }},
		"its passage": {with(func(j *job.Job) { j.Drain.OutletInvertDepthMM = 32 }), "outlet-below-flange", 0, 6, -0.5,
			func(j job.Job) float64 { return j.Drain.PassageMM }},
		// What has been measured is as good as the laser, 1 (common practice, no source).
		"a measured base":   {with(func(j *job.Job) { j.AsBuilt.BaseTopMM = mm(72) }), "base-top", 0, 1, 0.5, func(j job.Job) float64 { return j.Base.HeightMM }},
		"a measured former": {with(func(j *job.Job) { j.AsBuilt.FormerAtDrainMM = mm(95) }), "former", 0, 1, 0.5, func(j job.Job) float64 { return j.Former.ThicknessAtDrainMM }},
		"and no bed":        {with(func(j *job.Job) { j.AsBuilt.FormerAtDrainMM = mm(95) }), "bed-under-former", 0, math.NaN(), 0, nil},
		"a measured outlet": {with(func(j *job.Job) { j.AsBuilt.OutletInvertMM = mm(20) }), "outlet-below-flange", 0, 1, 0.5, func(j job.Job) float64 { return j.Drain.OutletInvertDepthMM }},
		// Let in flush there is no base to be off; raised over the joists there is.
		"let in flush":  {with(timber), "base-top", 0, math.NaN(), 0, nil},
		"let in raised": {with(func(j *job.Job) { timber(j); j.Base.Height, j.Base.HeightMM = job.HeightChosen, -10 }), "base-top", 0, 2, 0.5, func(j job.Job) float64 { return j.Base.HeightMM }},
		// A floor that does not fall has no fall to be off, one measured has readings.
		"level": {with(func(j *job.Job) { j.Former.Slope = 0 }), "former-fall", 0, math.NaN(), 0, nil},
		"read": {with(func(j *job.Job) {
			j.SpotLevels = []job.SpotLevel{{ToleranceMM: 2}, {At: plan.Point{9, 9}, ToleranceMM: 3}}
		}), "spot-level", 2, 3, 0.5,
			func(j job.Job) float64 { return j.SpotLevels[1].LevelMM }},
		"read, not guessed": {with(func(j *job.Job) { j.SpotLevels = []job.SpotLevel{{ToleranceMM: 2}} }), "floor", 0, math.NaN(), 0, nil},
		// Of a reading's 10 the laser's set-up is 6: 8 are its own, as √(10² − 6²).
		"set-up":              {with(func(j *job.Job) { j.Tolerances.SetUpMM = 6 }), "set-up", 0, 6, 0.5, func(j job.Job) float64 { return j.Room.Doorways[0].NeighbourFFLMM }},
		"and the ground":      {with(func(j *job.Job) { j.Tolerances.SetUpMM = 6 }), "set-up", 0, 6, 0.5, func(j job.Job) float64 { return *j.Room.Walls[3].OutsideGroundMM }},
		"a doorway by itself": {with(func(j *job.Job) { j.Tolerances.SetUpMM = 6 }), "floor-beyond-doorway", 1, 8, 0.5, func(j job.Job) float64 { return j.Room.Doorways[0].NeighbourFFLMM }},
		"readings all at once": {with(func(j *job.Job) {
			j.Tolerances.SetUpMM, j.SpotLevels = 3, []job.SpotLevel{{ToleranceMM: 5}, {At: plan.Point{9, 9}, ToleranceMM: 3}}
		}), "set-up", 0, 3, 0.5, func(j job.Job) float64 { return j.SpotLevels[1].LevelMM }},
		"one by itself":            {with(func(j *job.Job) { j.Tolerances.SetUpMM, j.SpotLevels = 3, []job.SpotLevel{{ToleranceMM: 5}} }), "spot-level", 1, 4, 0.5, func(j job.Job) float64 { return j.SpotLevels[0].LevelMM }},
		"no better than the laser": {with(func(j *job.Job) { j.Tolerances.SetUpMM, j.SpotLevels = 3, []job.SpotLevel{{ToleranceMM: 2}} }), "spot-level", 1, math.NaN(), 0, nil},
		"an exit with the rest": {with(func(j *job.Job) { j.Tolerances.SetUpMM, j.Waste.Exit.Level = 3, job.NotBelow(-50) }), "set-up", 0, 3, 0.5, func(j job.Job) float64 {
			mm, _ := j.Waste.Exit.Level.InvertMM()
			return mm
		}},
		"a gully with the rest": {with(func(j *job.Job) {
			j.Tolerances.SetUpMM, j.Waste.Beyond = 3, &job.Beyond{Joins: job.JoinGully, WaterMM: mm(-300)}
		}), "set-up", 0, 3, 0.5, func(j job.Job) float64 { return *j.Waste.Beyond.WaterMM }},
		"sure": {with(func(j *job.Job) { j.Tolerances.TrapMM = 0 }), "trap-depth", 0, math.NaN(), 0, nil},
	} {
		got, k, _ := off(t, c.job, c.id, c.number)
		if math.IsNaN(c.tolerance) {
			if !math.IsNaN(got) {
				t.Errorf("%s: %s may be off by %v", name, c.id, got)
			}
			continue
		}
		if got != c.tolerance {
			t.Errorf("%s: may be off by %v, want %v", name, got, c.tolerance)
		} else if by := c.of(k) - c.of(c.job); math.Abs(by-c.by) > 1e-12 {
			t.Errorf("%s: moves by %v, want %v", name, by, c.by)
		}
	}
	// The layout falls as its job does: 817 at a slope that is 0.5 over them steeper.
	_, _, l := off(t, base, "former-fall", 0)
	if _, rise := l.HighEnd(); math.Abs(rise-(16.34+0.5)) > 1e-9 {
		t.Errorf("it rises %v", rise)
	}
}

// A job restored is the planned one again, and what is then shifted is its own.
func TestRestore(t *testing.T) {
	planned := job.New()
	planned.SpotLevels = []job.SpotLevel{{LevelMM: 4}}
	var k job.Job
	for range 2 {
		tolerance.Restore(&k, &planned)
		if k.SpotLevels[0].LevelMM != 4 || k.Room.Doorways[0].NeighbourFFLMM != 20 || *k.Room.Walls[3].OutsideGroundMM != -150 || k.Base.AdhesiveMM != 3 {
			t.Fatalf("restored to %+v", k)
		}
		k.SpotLevels[0].LevelMM, k.Room.Doorways[0].NeighbourFFLMM, *k.Room.Walls[3].OutsideGroundMM, k.Base.AdhesiveMM = 9, 9, 9, 9
	}
	if planned.SpotLevels[0].LevelMM != 4 || planned.Room.Doorways[0].NeighbourFFLMM != 20 || *planned.Room.Walls[3].OutsideGroundMM != -150 {
		t.Errorf("the planned job became %+v", planned)
	}
}
