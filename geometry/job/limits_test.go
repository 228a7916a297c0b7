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

// timbered is the starting job on joists.
func timbered() job.Job {
	j := job.New()
	j.Floor.Kind = job.FloorTimber
	return j
}

// Every number that is in a list or may be absent takes both ends of its range
// and nothing beyond either. Common practice, no source; typed a second time on
// purpose.
func TestLimitsOfWhatIsListed(t *testing.T) {
	pipe := func(j *job.Job) { j.Waste.Exit.Kind = job.ExitPipe }
	reducer := func(change func(*job.Fitting)) func(*job.Job) {
		return func(j *job.Job) {
			f := job.Fitting{Kind: job.FittingReducer, LengthMM: 60, Pipe: part.Pipe{NominalMM: 50, OutsideDiameterMM: 250, BoreMM: 15, SocketOutsideMM: 250 + 7}}
			change(&f)
			j.Waste.Fittings = []job.Fitting{f}
		}
	}
	for _, c := range []struct {
		path            string
		least, greatest float64
		set             func(*job.Job, float64)
	}{
		{"room.outline[1][0]", -50000, 50000, func(j *job.Job, v float64) { j.Room.Outline[1][0] = v }},
		{"room.outline[1][1]", -50000, 50000, func(j *job.Job, v float64) { j.Room.Outline[1][1] = v }},
		{"room.walls[2].thicknessMM", 10, 1500, func(j *job.Job, v float64) { j.Room.Walls[2].ThicknessMM = v }},
		{"room.walls[1].studSpacingMM", 50, 3000, func(j *job.Job, v float64) { j.Room.Walls[1].StudSpacingMM = v }},
		{"room.walls[1].firstStudMM", -3000, 3000, func(j *job.Job, v float64) { j.Room.Walls[1].FirstStudMM = v }},
		{"room.walls[1].studWidthMM", 10, 300, func(j *job.Job, v float64) { j.Room.Walls[1].StudWidthMM = v }},
		{"room.walls[3].outsideGroundMM", -20000, 5000, func(j *job.Job, v float64) { j.Room.Walls[3].OutsideGroundMM = &v }},
		{"room.doorways[0].widthMM", 100, 5000, func(j *job.Job, v float64) { j.Room.Doorways[0].WidthMM = v }},
		{"room.doorways[0].heightMM", 500, 4000, func(j *job.Job, v float64) { j.Room.Doorways[0].HeightMM = v }},
		{"room.doorways[0].neighbourFFLMM", -1000, 1000, func(j *job.Job, v float64) { j.Room.Doorways[0].NeighbourFFLMM = v }},
		{"room.doorways[0].leafGapMM", 0, 500, func(j *job.Job, v float64) { j.Room.Doorways[0].LeafGapMM = v }},
		{"floor.joists.supportsMM[0]", -50000, 50000, func(j *job.Job, v float64) {
			*j = timbered()
			j.Floor.Joists.SupportsMM = []float64{v, 60000}
		}},
		{"spotLevels[0].at[0]", -50000, 50000, func(j *job.Job, v float64) { j.SpotLevels = []job.SpotLevel{{At: plan.Point{v, 0}}} }},
		{"spotLevels[0].at[1]", -50000, 50000, func(j *job.Job, v float64) { j.SpotLevels = []job.SpotLevel{{At: plan.Point{0, v}}} }},
		{"spotLevels[0].levelMM", -500, 500, func(j *job.Job, v float64) { j.SpotLevels = []job.SpotLevel{{LevelMM: v}} }},
		{"spotLevels[0].toleranceMM", 0, 100, func(j *job.Job, v float64) { j.SpotLevels = []job.SpotLevel{{ToleranceMM: v}} }},
		{"base.cutAtStartMM", 0, 5000, func(j *job.Job, v float64) { j.Base.CutAtStartMM = &v }},
		{"drain.forwardMM", 0, 50000, func(j *job.Job, v float64) { j.Drain.ForwardMM = &v }},
		{"drain.capacityCurve[0].headMM", 0, 500, func(j *job.Job, v float64) { j.Drain.CapacityCurve = []part.HeadFlow{{HeadMM: v, FlowLPS: 1}} }},
		{"drain.capacityCurve[0].flowLPS", 0, 20, func(j *job.Job, v float64) { j.Drain.CapacityCurve = []part.HeadFlow{{HeadMM: 1, FlowLPS: v}} }},
		{"waste.exit.level.invertMM", -20000, 5000, func(j *job.Job, v float64) { j.Waste.Exit.Level = job.NotBelow(v) }},
		{"waste.exit.level.invertMM", -20000, 5000, func(j *job.Job, v float64) { j.Waste.Exit.Level = job.Exactly(v) }},
		{"waste.exit.at[0]", -50000, 50000, func(j *job.Job, v float64) { pipe(j); j.Waste.Exit.At[0] = v }},
		{"waste.exit.at[1]", -50000, 50000, func(j *job.Job, v float64) { pipe(j); j.Waste.Exit.At[1] = v }},
		{"waste.waypoints[0][0]", -50000, 50000, func(j *job.Job, v float64) { j.Waste.Waypoints = []plan.Point{{v, 0}} }},
		{"waste.waypoints[0][1]", -50000, 50000, func(j *job.Job, v float64) { j.Waste.Waypoints = []plan.Point{{0, v}} }},
		{"waste.fittings[0].atMM", 0, 50000, func(j *job.Job, v float64) { reducer(func(f *job.Fitting) { f.AtMM = v })(j) }},
		{"waste.fittings[0].lengthMM", 1, 2000, func(j *job.Job, v float64) { reducer(func(f *job.Fitting) { f.LengthMM = v })(j) }},
		{"waste.fittings[0].nominalMM", 20, 200, func(j *job.Job, v float64) { reducer(func(f *job.Fitting) { f.NominalMM = v })(j) }},
		{"waste.fittings[0].outsideDiameterMM", 20, 250, func(j *job.Job, v float64) { reducer(func(f *job.Fitting) { f.OutsideDiameterMM = v })(j) }},
		{"waste.fittings[0].boreMM", 10, 240, func(j *job.Job, v float64) { reducer(func(f *job.Fitting) { f.BoreMM = v })(j) }},
		{"waste.fittings[0].slope", 0, 1, func(j *job.Job, v float64) {
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, LengthMM: 100, Slope: v}}
		}},
		{"water.showerFlowsLPS[1]", 0, 20, func(j *job.Job, v float64) { j.Water.ShowerFlowsLPS = []float64{0.1, v} }},
		{"asBuilt.baseTopMM", -2000, 2000, func(j *job.Job, v float64) { j.AsBuilt.BaseTopMM = &v }},
		{"asBuilt.outletInvertMM", -2000, 2000, func(j *job.Job, v float64) { j.AsBuilt.OutletInvertMM = &v }},
		{"asBuilt.exitInvertMM", -2000, 2000, func(j *job.Job, v float64) { j.AsBuilt.ExitInvertMM = &v }},
		{"asBuilt.formerAtDrainMM", -2000, 2000, func(j *job.Job, v float64) { j.AsBuilt.FormerAtDrainMM = &v }},
		{"asBuilt.formerAtEdgeMM", -2000, 2000, func(j *job.Job, v float64) { j.AsBuilt.FormerAtEdgeMM = &v }},
		{"asBuilt.tileAtDrainMM", -2000, 2000, func(j *job.Job, v float64) { j.AsBuilt.TileAtDrainMM = &v }},
	} {
		problems := func(v float64) job.Problems {
			j := job.New()
			c.set(&j, v)
			return j.Validate()
		}
		for _, v := range []float64{c.least, c.greatest} {
			if p := problems(v); has(p, c.path) {
				t.Errorf("%s: %v is refused: %v", c.path, v, p)
			}
		}
		for _, v := range []float64{math.Nextafter(c.least, math.Inf(-1)), math.Nextafter(c.greatest, math.Inf(1)), math.NaN()} {
			if p := problems(v); !has(p, c.path) || !strings.Contains(p.Error(), "problem.between{least: ") {
				t.Errorf("%s: of %v it says only %v", c.path, v, p)
			}
		}
	}
}

// ring is a room of so many corners round a circle of 3 m, with a wall at each
// side.
func ring(n int) func(*job.Job) {
	return func(j *job.Job) {
		j.Room.Outline, j.Room.Walls = nil, nil
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			j.Room.Outline = append(j.Room.Outline, plan.Point{3000 * c, 3000 * s})
			j.Room.Walls = append(j.Room.Walls, job.Wall{Kind: job.WallMasonry, ThicknessMM: 100})
		}
	}
}

// repeated is so many of one thing.
func repeated[T any](n int, of T) []T { return slices.Repeat([]T{of}, n) }

// Lists may be as long as it says, and not one longer.
func TestLimitsOfLists(t *testing.T) {
	for _, c := range []struct {
		path        string
		least, most int
		set         func(*job.Job, int)
	}{
		{"room.outline", 3, 64, func(j *job.Job, n int) { ring(n)(j) }},
		{"room.walls", 4, 4, func(j *job.Job, n int) { j.Room.Walls = repeated(n, j.Room.Walls[2]) }},
		{"room.doorways", 0, 200, func(j *job.Job, n int) { j.Room.Doorways = repeated(n, j.Room.Doorways[0]) }},
		{"floor.joists.supportsMM", 2, 200, func(j *job.Job, n int) {
			*j = timbered()
			for i := range n {
				j.Floor.Joists.SupportsMM = append(j.Floor.Joists.SupportsMM, float64(i))
			}
		}},
		{"spotLevels", 0, 200, func(j *job.Job, n int) { j.SpotLevels = make([]job.SpotLevel, n) }},
		{"drain.capacityCurve", 0, 20, func(j *job.Job, n int) { j.Drain.CapacityCurve = make([]part.HeadFlow, n) }},
		{"waste.waypoints", 0, 200, func(j *job.Job, n int) { j.Waste.Waypoints = make([]plan.Point, n) }},
		{"waste.fittings", 0, 20, func(j *job.Job, n int) { j.Waste.Fittings = repeated(n, usualReducer(10)) }},
		{"water.showerFlowsLPS", 0, 10, func(j *job.Job, n int) { j.Water.ShowerFlowsLPS = make([]float64, n) }},
	} {
		refused := func(n int) bool {
			j := job.New()
			c.set(&j, n)
			return has(j.Validate(), c.path)
		}
		if refused(c.least) || refused(c.most) {
			t.Errorf("%s: %d or %d of them are refused", c.path, c.least, c.most)
		}
		if c.least > 0 && !refused(c.least-1) || !refused(c.most+1) {
			t.Errorf("%s: fewer than %d or more than %d of them go through", c.path, c.least, c.most)
		}
	}
	none := timbered()
	none.Floor.Joists.SupportsMM = nil
	if p := none.Validate(); len(p) > 0 {
		t.Errorf("joists borne by the room's walls: %v", p)
	}
}

// A value of a closed list must be one of it, wherever it stands.
func TestOnlyListedWordsGoThrough(t *testing.T) {
	finish := func(path string, of func(*job.Job) *job.Finish) map[string]func(*job.Job) {
		return map[string]func(*job.Job){
			path + ".bond":        func(j *job.Job) { of(j).Bond = "nonsense" },
			path + ".surface":     func(j *job.Job) { of(j).Surface = "nonsense" },
			path + ".sheen":       func(j *job.Job) { of(j).Sheen = "nonsense" },
			path + ".colour":      func(j *job.Job) { of(j).Colour = "" },
			path + ".groutColour": func(j *job.Job) { of(j).GroutColour = "#12345" },
		}
	}
	all := []map[string]func(*job.Job){
		finish("layers.shower", func(j *job.Job) *job.Finish { return &j.Layers.Shower }),
		finish("layers.room", func(j *job.Job) *job.Finish { return &j.Layers.Room }),
		finish("layers.wall", func(j *job.Job) *job.Finish { return &j.Layers.Wall }),
		{
			"units":                 func(j *job.Job) { j.Units = "nonsense" },
			"room.edge":             func(j *job.Job) { j.Room.Edge = "nonsense" },
			"room.walls[1].kind":    func(j *job.Job) { j.Room.Walls[1].Kind = "nonsense" },
			"room.doorways[0].leaf": func(j *job.Job) { j.Room.Doorways[0].Leaf = "nonsense" },
			"floor.kind":            func(j *job.Job) { j.Floor.Kind = "nonsense" },
			"former.fall":           func(j *job.Job) { j.Former.Fall = "nonsense" },
			"base.support":          func(j *job.Job) { j.Base.Support = "nonsense" },
			"base.height":           func(j *job.Job) { j.Base.Height = "nonsense" },
			"waste.exit.kind":       func(j *job.Job) { j.Waste.Exit.Kind = "nonsense" },
			"waste.fittings[1].kind": func(j *job.Job) {
				j.Waste.Fittings = []job.Fitting{usualReducer(1), {Kind: "nonsense", LengthMM: 10}}
			},
			"style.metal": func(j *job.Job) { j.Style.Metal = "nonsense" },
			"style.cover": func(j *job.Job) { j.Style.Cover = "nonsense" },
		},
	}
	for _, of := range all {
		for path, change := range of {
			j := job.New()
			change(&j)
			if got := paths(j); !slices.Equal(got, []string{path}) {
				t.Errorf("at %s, it finds fault with %v", path, got)
			}
		}
	}
}

// Colours are six digits to the base of sixteen after a #; the grout's may be
// left to be grey.
func TestColours(t *testing.T) {
	for text, sound := range map[string]bool{"#09afAF": true, "#000000": true, "#12345": false, "#1234567": false, "123456": false, "#12345g": false, "x#123456": false, "#123456\n": false} {
		j := job.New()
		j.Layers.Room.Colour = text
		if got := !has(j.Validate(), "layers.room.colour"); got != sound {
			t.Errorf("%q as a colour: %v", text, got)
		}
		j = job.New()
		j.Layers.Room.GroutColour = text
		if got := !has(j.Validate(), "layers.room.groutColour"); got != sound {
			t.Errorf("%q as the grout's: %v", text, got)
		}
	}
}

// paths are the places of all problems of a job.
func paths(j job.Job) []string {
	var out []string
	for _, p := range j.Validate() {
		out = append(out, p.Key)
	}
	return out
}
