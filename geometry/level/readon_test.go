package level_test

import (
	"math"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// A staff that stands on a screed of 60 reads what lies 60 over the structural floor: the floor stays level with what was read, and
// all of the structure lies 60 lower. By hand: readings of 0 in shower and room; a finish of 15 over the screed comes out under the
// shower, so what was read as found lies 75 over the structural floor everywhere, and on what stays 60 over it under the shower and
// 75 beside it.
func TestLevelsLieOnWhatTheyWereReadOn(t *testing.T) {
	screed := job.Existing{Kind: job.ExistingScreed, ThicknessMM: 60, Out: job.OutNowhere}
	tiles := job.Existing{Kind: job.ExistingFinish, ThicknessMM: 15, Out: job.OutShower}
	out := job.Existing{Kind: job.ExistingScreed, ThicknessMM: 60, Out: job.OutEverywhere}
	for name, c := range map[string]struct {
		on                       job.ReadOn
		layers                   []job.Existing
		underShower, besideIt    float64 // levels read, of a floor whose structure is level
		structure, ground, floor float64 // of the structural floor, under the base, beside it
	}{
		"on the structure, under a screed":       {job.ReadOnStructure, []job.Existing{screed}, 0, 0, 0, 60, 60},
		"on a screed that stays":                 {job.ReadOnKept, []job.Existing{screed}, 0, 0, -60, 0, 0},
		"as found, a screed that stays":          {job.ReadOnFound, []job.Existing{screed}, 0, 0, -60, 0, 0},
		"as found, tiles out under the shower":   {job.ReadOnFound, []job.Existing{screed, tiles}, 0, 0, -75, -15, 0},
		"on what stays, tiles out of the shower": {job.ReadOnKept, []job.Existing{screed, tiles}, -15, 0, -75, -15, 0},
		"as found, a screed that comes out":      {job.ReadOnFound, []job.Existing{out}, 0, 0, -60, -60, -60},
		"on what stays, where nothing does":      {job.ReadOnKept, []job.Existing{out}, 0, 0, 0, 0, 0},
	} {
		for _, kind := range []job.FloorKind{job.FloorSlab, job.FloorTimber} {
			for _, read := range []bool{true, false} {
				j := job.New()
				j.Floor.Kind, j.Floor.Existing, j.Floor.ReadOn = kind, c.layers, c.on
				l := layout.Of(j, &plan.Shaper{})
				in, beside := l.FallArea.Centroid(), l.Rest.Centroid()
				if j.SpotLevels = nil; read {
					j.SpotLevels = []job.SpotLevel{{At: in, LevelMM: c.underShower}, {At: beside, LevelMM: c.besideIt},
						{At: in.Add(plan.Point{100, 0}), LevelMM: c.underShower}, {At: beside.Add(plan.Point{100, 0}), LevelMM: c.besideIt}}
				}
				h := level.Solve(j, l, waste.Lay(j, l), 0)
				for what, v := range map[string][2]float64{
					"structural floor": {h.Survey.Floor.At(in), c.structure}, "ground": {h.Ground.At(in), c.ground},
					"floor beside": {h.Beside.At(beside), c.floor}, "highest": {h.FloorHighMM, c.structure},
				} {
					if math.Abs(v[0]-v[1]) > 1e-9 {
						t.Errorf("%s, %s, read %v: %s at %v, want %v", name, kind, read, what, v[0], v[1])
					}
				}
			}
		}
	}
}
