package asbuilt_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"underfall/geometry/asbuilt"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// settle puts the levels of a job into it. What it makes of them is worked out
// by hand from the starting job, which stands at:
//
//	base top 72, bed 3, former 20, flange 95, tanking 1 and tile 9 over a bed
//	of 3, tile 108; front edge 817 from the drain's, 817/50 = 16.34 higher;
//	outlet 75 under the flange at 20, exit 645 along, 645/40 = 16.125 lower at
//	3.875; trap 20 under the outlet.
//
// The shower is 1400 × 900 in the corner over (0, 1900), the drain's edge at
// (700, 1817), the outlet at (645, 1832), the exit at (0, 1832).
func settle(j job.Job) asbuilt.Settled {
	l := layout.Of(j, &plan.Shaper{})
	return asbuilt.Settle(j, l, level.Solve(j, l, waste.Lay(j, l), 0))
}

// measured is the starting job with levels measured on it, and changed so first.
func measured(levels job.AsBuilt, changes ...func(*job.Job)) job.Job {
	j := job.New()
	// The base stays at 72 whatever the rest of the job asks for.
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	for _, change := range changes {
		change(&j)
	}
	j.AsBuilt = levels
	return j
}

func base(v float64) job.AsBuilt   { return job.AsBuilt{BaseTopMM: &v} }
func former(v float64) job.AsBuilt { return job.AsBuilt{FormerAtDrainMM: &v} }
func edge(v float64) job.AsBuilt   { return job.AsBuilt{FormerAtEdgeMM: &v} }
func tile(v float64) job.AsBuilt   { return job.AsBuilt{TileAtDrainMM: &v} }
func outlet(v float64) job.AsBuilt { return job.AsBuilt{OutletInvertMM: &v} }
func exit(v float64) job.AsBuilt   { return job.AsBuilt{ExitInvertMM: &v} }

func close(a, b float64) bool { return math.Abs(a-b) <= 1e-9 }

func closeAt(a, b mgl64.Vec3) bool { return a.Sub(b).Len() <= 1e-6 }

// Each instruction has its value, what was planned, whether it can be done, and
// its place.
func TestInstructions(t *testing.T) {
	cover := func(least float64) func(*job.Job) {
		return func(j *job.Job) { j.Drain.CoverLeastMM = least }
	}
	exactly := func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(5) }
	notBelow := func(j *job.Job) { j.Waste.Exit.Level = job.NotBelow(2) }
	flat := func(j *job.Job) { j.Former.Slope = 0.001 }
	const (
		bed     = "now.former-bed"
		atDrain = "now.tile-bed-at-drain"
		atEdge  = "now.tile-bed-at-high-end"
		covered = "now.cover-over-flange"
		falls   = "now.pipe-fall"
		atExit  = "now.exit-invert"
	)
	for name, c := range map[string]struct {
		j        job.Job
		what     message.ID
		kind     buildup.RowKind
		value    float64
		planned  float64
		possible bool
		at       mgl64.Vec3
	}{
		// Beds of 1 to 10 can be laid, to a thousand-millionth.
		"thinnest bed":               {measured(base(74)), bed, buildup.IsDepth, 1, 3, true, mgl64.Vec3{700, 1450, 74}},
		"a hair under":               {measured(base(74 + 0.95e-9)), bed, buildup.IsDepth, 1, 3, true, mgl64.Vec3{700, 1450, 74}},
		"more than a hair under":     {measured(base(74 + 1.05e-9)), bed, buildup.IsDepth, 1, 3, false, mgl64.Vec3{700, 1450, 74}},
		"under the thinnest":         {measured(base(74.01)), bed, buildup.IsDepth, 0.99, 3, false, mgl64.Vec3{700, 1450, 74.01}},
		"thickest bed":               {measured(base(65)), bed, buildup.IsDepth, 10, 3, true, mgl64.Vec3{700, 1450, 65}},
		"a hair over":                {measured(base(65 - 0.95e-9)), bed, buildup.IsDepth, 10, 3, true, mgl64.Vec3{700, 1450, 65}},
		"more than a hair over":      {measured(base(65 - 1.05e-9)), bed, buildup.IsDepth, 10, 3, false, mgl64.Vec3{700, 1450, 65}},
		"over the thickest":          {measured(base(64.99)), bed, buildup.IsDepth, 10.01, 3, false, mgl64.Vec3{700, 1450, 64.99}},
		"tile bed, thinnest":         {measured(former(97)), atDrain, buildup.IsDepth, 1, 3, true, mgl64.Vec3{700, 1817, 97}},
		"tile bed, too thin":         {measured(former(97.01)), atDrain, buildup.IsDepth, 0.99, 3, false, mgl64.Vec3{700, 1817, 97.01}},
		"tile bed, thickest":         {measured(former(88)), atDrain, buildup.IsDepth, 10, 3, true, mgl64.Vec3{700, 1817, 88}},
		"tile bed, too thick":        {measured(former(87.99)), atDrain, buildup.IsDepth, 10.01, 3, false, mgl64.Vec3{700, 1817, 87.99}},
		"a former left out":          {measured(former(60)), atDrain, buildup.IsDepth, 3, 3, true, mgl64.Vec3{700, 1817, 95}},
		"high end, thinnest":         {measured(edge(95 + 16.34 + 2)), atEdge, buildup.IsDepth, 1, 3, true, mgl64.Vec3{1400, 1000, 113.34}},
		"high end, too thin":         {measured(edge(95 + 16.34 + 2.01)), atEdge, buildup.IsDepth, 0.99, 3, false, mgl64.Vec3{1400, 1000, 113.35}},
		"high end, thickest":         {measured(edge(95 + 16.34 - 7)), atEdge, buildup.IsDepth, 10, 3, true, mgl64.Vec3{1400, 1000, 104.34}},
		"high end, too thick":        {measured(edge(95 + 16.34 - 7.01)), atEdge, buildup.IsDepth, 10.01, 3, false, mgl64.Vec3{1400, 1000, 104.33}},
		"high end level with drain":  {measured(edge(95)), atEdge, buildup.IsDepth, 19.34, 3, false, mgl64.Vec3{1400, 1000, 95}},
		"high end of a fall of 0.8":  {measured(edge(96.5), flat), atEdge, buildup.IsDepth, 108 + 0.817 - 96.5 - 10, 3, true, mgl64.Vec3{1400, 1000, 96.5}},
		"cover, at its greatest":     {measured(tile(120)), covered, buildup.IsDepth, 25, 13, true, mgl64.Vec3{700, 1817, 120}},
		"cover, over it":             {measured(tile(120.01)), covered, buildup.IsDepth, 25.01, 13, false, mgl64.Vec3{700, 1817, 120.01}},
		"cover, at its least":        {measured(tile(107), cover(12)), covered, buildup.IsDepth, 12, 13, true, mgl64.Vec3{700, 1817, 107}},
		"cover, under it":            {measured(tile(106.99), cover(12)), covered, buildup.IsDepth, 11.99, 13, false, mgl64.Vec3{700, 1817, 106.99}},
		"tile with no bed":           {measured(tile(105)), covered, buildup.IsDepth, 10, 13, true, mgl64.Vec3{700, 1817, 105}},
		"pipe of 1:50":               {measured(exit(20 - 12.9)), falls, buildup.IsFall, 0.02, 0.025, true, mgl64.Vec3{0, 1832, 7.1}},
		"pipe that hardly falls":     {measured(exit(20 - 645*1.05e-6)), falls, buildup.IsFall, 1.05e-6, 0.025, true, mgl64.Vec3{0, 1832, 20 - 645*1.05e-6}},
		"pipe that does not fall":    {measured(exit(20 - 645*0.95e-6)), falls, buildup.IsFall, 0.95e-6, 0.025, false, mgl64.Vec3{0, 1832, 20 - 645*0.95e-6}},
		"level pipe":                 {measured(exit(20)), falls, buildup.IsFall, 0, 0.025, false, mgl64.Vec3{0, 1832, 20}},
		"pipe that rises":            {measured(exit(26.45)), falls, buildup.IsFall, -0.01, 0.025, false, mgl64.Vec3{0, 1832, 26.45}},
		"outlet 1 low":               {measured(outlet(19)), atExit, buildup.IsLevel, 2.875, 3.875, true, mgl64.Vec3{0, 1832, 2.875}},
		"outlet of a base 2 low":     {measured(base(70)), atExit, buildup.IsLevel, 1.875, 3.875, true, mgl64.Vec3{0, 1832, 1.875}},
		"outlet of a former 2 low":   {measured(former(93)), atExit, buildup.IsLevel, 1.875, 3.875, true, mgl64.Vec3{0, 1832, 1.875}},
		"exit bound, outlet 1 low":   {measured(outlet(19), exactly), atExit, buildup.IsLevel, 5, 5, true, mgl64.Vec3{0, 1832, 5}},
		"exit not below, outlet low": {measured(outlet(19), notBelow), atExit, buildup.IsLevel, 2.875, 3.875, true, mgl64.Vec3{0, 1832, 2.875}},
		"an outlet left out":         {measured(outlet(94)), atExit, buildup.IsLevel, 3.875, 3.875, true, mgl64.Vec3{0, 1832, 3.875}},
	} {
		found := 0
		for _, i := range settle(c.j).Instructions {
			if i.What != c.what {
				continue
			}
			found++
			// Either front corner is the highest: the one may stand for the other.
			i.At[0], c.at[0] = math.Mod(i.At[0], 1400), math.Mod(c.at[0], 1400)
			if !closeTo(i.Value, c.value, 2e-9) || !close(i.Planned, c.planned) || i.Kind != c.kind || i.Possible != c.possible || !closeAt(i.At, c.at) {
				t.Errorf("%s: %+v, want %v, planned %v, possible %v at %v", name, i, c.value, c.planned, c.possible, c.at)
			}
		}
		if found != 1 {
			t.Errorf("%s: %q is said %d times", name, c.what, found)
		}
	}
}

func closeTo(a, b, within float64) bool { return math.Abs(a-b) <= within }

// What is told follows from what has been measured, and nothing more: once a later
// level is known there is no more to do about an earlier one.
func TestWhatIsToldWhen(t *testing.T) {
	both := func(a, b job.AsBuilt) job.AsBuilt {
		for i, l := range b.Levels() {
			if *l.MM != nil {
				*a.Levels()[i].MM = *l.MM
			}
		}
		return a
	}
	level := func(j *job.Job) { j.Former.Slope = 0 }
	noRun := func(j *job.Job) {
		j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{645, 1832}, Level: job.NotBelow(7)}
	}
	// The whole run is a length with a fall of its own.
	fixed := func(j *job.Job) {
		j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: 0, LengthMM: 645 + 215 + 60, Slope: 0.02}}
	}
	exactly := func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(5) }
	fixedTo := func(j *job.Job) { fixed(j); exactly(j) }
	for name, c := range map[string]struct {
		j    job.Job
		want []message.ID
	}{
		"nothing":            {measured(job.AsBuilt{}), nil},
		"base":               {measured(base(71)), []message.ID{"now.former-bed", "now.exit-invert"}},
		"base and former":    {measured(both(base(71), former(94))), []message.ID{"now.tile-bed-at-drain", "now.exit-invert"}},
		"former and edge":    {measured(both(former(94), edge(112))), []message.ID{"now.tile-bed-at-drain", "now.tile-bed-at-high-end", "now.exit-invert"}},
		"edge":               {measured(edge(112)), []message.ID{"now.tile-bed-at-high-end"}},
		"edge too low":       {measured(edge(94.9)), nil},
		"edge of no fall":    {measured(edge(112), level), nil},
		"edge and tile":      {measured(both(edge(112), tile(108))), []message.ID{"now.cover-over-flange"}},
		"former and tile":    {measured(both(former(94), tile(108))), []message.ID{"now.cover-over-flange", "now.exit-invert"}},
		"tile too low":       {measured(tile(104.9)), nil},
		"outlet":             {measured(outlet(19)), []message.ID{"now.exit-invert"}},
		"outlet and exit":    {measured(both(outlet(19), exit(3))), []message.ID{"now.pipe-fall"}},
		"exit":               {measured(exit(3)), []message.ID{"now.pipe-fall"}},
		"no run, outlet":     {measured(outlet(19), noRun), nil},
		"no run, exit":       {measured(exit(19), noRun), nil},
		"fixed run, exit":    {measured(exit(3), fixed), nil},
		"fixed run, outlet":  {measured(outlet(19), fixed), []message.ID{"now.exit-invert"}},
		"fixed run, to exit": {measured(outlet(19), fixedTo), []message.ID{"now.exit-invert"}},
	} {
		var got []message.ID
		s := settle(c.j)
		for _, i := range s.Instructions {
			got = append(got, i.What)
			// Down the fixed run from 19 by 645·0.02.
			if name == "fixed run, outlet" && !close(i.Value, 6.1) {
				t.Errorf("%s: %v, want 6.1", name, i.Value)
			}
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: told %q, want %q", name, got, c.want)
		}
		if name == "no run, exit" && s.Job.Waste.Exit.Level != job.NotBelow(7) {
			t.Errorf("%s: a run that is not there has its exit at %v", name, s.Job.Waste.Exit.Level)
		}
	}
}

// A measured level on the wrong side of what it rests on is left out and named,
// with how far; on its right side it is none.
func TestContradictions(t *testing.T) {
	level := func(mm float64) func(*job.Job) {
		return func(j *job.Job) { j.SpotLevels = []job.SpotLevel{{At: plan.Point{700, 1450}, LevelMM: mm}} }
	}
	letIn := func(j *job.Job) {
		j.Floor.Kind, j.Base.Support, j.Base.HeightMM = job.FloorTimber, job.BetweenJoists, 72
	}
	const (
		underFloor = "contradiction.base-under-floor"
		underBase  = "contradiction.former-under-base"
		underDrain = "contradiction.high-end-under-drain"
		underTile  = "contradiction.tile-under-layers"
		overFlange = "contradiction.outlet-over-flange"
		farUnder   = "contradiction.outlet-far-under-flange"
	)
	for name, c := range map[string]struct {
		j    job.Job
		what message.ID // empty for none
		by   float64
		at   mgl64.Vec3
	}{
		"base on the floor":          {measured(base(0)), "", 0, mgl64.Vec3{}},
		"base under it":              {measured(base(-0.5)), underFloor, 0.5, mgl64.Vec3{700, 1450, -0.5}},
		"base on a floor at 10":      {measured(base(10), level(10)), "", 0, mgl64.Vec3{}},
		"base under a floor at 10":   {measured(base(9.5), level(10)), underFloor, 0.5, mgl64.Vec3{700, 1450, 9.5}},
		"base let in under the deck": {measured(base(-20), letIn), "", 0, mgl64.Vec3{}},
		"former 0.5 over the base":   {measured(former(72.5)), "", 0, mgl64.Vec3{}},
		"former 0.4 over the base":   {measured(former(72.4)), underBase, 0.1, mgl64.Vec3{700, 1817, 72.4}},
		"edge level with the drain":  {measured(edge(95)), "", 0, mgl64.Vec3{}},
		"edge under the drain":       {measured(edge(94.5)), underDrain, 0.5, mgl64.Vec3{1400, 1000, 94.5}},
		"tile on its layers":         {measured(tile(105)), "", 0, mgl64.Vec3{}},
		"tile in its layers":         {measured(tile(104.5)), underTile, 0.5, mgl64.Vec3{700, 1817, 104.5}},
		"outlet 5 under the flange":  {measured(outlet(90)), "", 0, mgl64.Vec3{}},
		"outlet less under it":       {measured(outlet(90.5)), overFlange, 0.5, mgl64.Vec3{645, 1832, 90.5}},
		"outlet 500 under it":        {measured(outlet(-405)), "", 0, mgl64.Vec3{}},
		"outlet more under it":       {measured(outlet(-405.5)), farUnder, 0.5, mgl64.Vec3{645, 1832, -405.5}},
	} {
		got := settle(c.j).Contradictions
		if c.what == "" {
			if len(got) > 0 {
				t.Errorf("%s: %+v", name, got)
			}
			continue
		}
		if len(got) != 1 {
			t.Errorf("%s: %+v", name, got)
			continue
		}
		got[0].At[0], c.at[0] = math.Mod(got[0].At[0], 1400), math.Mod(c.at[0], 1400)
		if got[0].What != c.what || !close(got[0].ByMM, c.by) || !closeAt(got[0].At, c.at) {
			t.Errorf("%s: %+v, want %q by %v at %v", name, got, c.what, c.by, c.at)
		}
	}
}
