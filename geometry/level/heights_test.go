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

// Chosen heights, the floor at 5 (one reading). On the floor 100 over its bed
// of 3: 108, former on 3 of bed at 111, 20 thick: flange 131; tile 13 more; from
// the flange 75 to the outlet, 95 to the trap's and 25 to the channel's
// underside. Let in, 10 under the deck at 5: −5.
func TestChosenHeights(t *testing.T) {
	for name, c := range map[string]struct {
		support   job.SupportKind
		height    float64
		top       float64
		thickness float64
	}{"on the floor": {job.OnFloor, 100, 108, 100}, "let in": {job.BetweenJoists, -10, -5, -10}, "let in, over the deck": {job.BetweenJoists, 30, 35, 30}} {
		j := job.New()
		j.SpotLevels = spots([3]float64{1200, 1000, 5})
		j.Floor.Kind = job.FloorTimber
		j.Base.Support, j.Base.Height, j.Base.HeightMM = c.support, job.HeightChosen, c.height
		_, h := solve(j)
		near(t, name+", base top", h.BaseTopMM, c.top)
		near(t, name+", base thickness", h.BaseThicknessMM(&j), c.thickness)
		near(t, name+", former", h.FormerMM, c.top+3)
		near(t, name+", flange", h.FlangeMM, c.top+23)
		near(t, name+", tile", h.TileMM, c.top+36)
		near(t, name+", outlet", h.OutletMM, c.top+23-75)
		near(t, name+", trap", h.TrapMM, c.top+23-95)
		near(t, name+", channel", h.ChannelMM, c.top+23-25)
		near(t, name+", gradient", h.Gradient, 1.0/40)
		near(t, name+", invert at the outlet", h.Run.InvertAt(0), c.top+23-75)
	}
}

// The base at 108, the outlet at 56: to an exit at exactly 30 the pipe falls 26
// on 645. Where there is no pipe to fall in, it is level.
func TestGradientOfAnExactExit(t *testing.T) {
	j := job.New()
	j.SpotLevels = spots([3]float64{1200, 1000, 5})
	j.Base.Height = job.HeightChosen
	j.Waste.Exit.Level = job.Exactly(30)
	_, h := solve(j)
	near(t, "gradient", h.Gradient, 26.0/645)
	near(t, "invert at the exit", h.Run.InvertAt(h.Run.ExitAtMM), 30)
	run := waste.Run{ExitAtMM: 600, Pieces: []waste.Piece{{Kind: waste.FallingPiece, ToMM: 600, OwnSlope: 0.01, Path: []plan.Point{{600, 1832}, {0, 1832}}}}}
	h = level.Solve(j, layout.Of(j, &plan.Shaper{}), run, 0.018)
	if h.Gradient != 0 {
		t.Errorf("without a pipe the gradient is %v", h.Gradient)
	}
}

// A raised room comes up to the highest open edge: tile 144 and 817 of fall at
// 1:50. It never goes under its own floor: the highest of the structure, 5, and
// 13 of layers. A room that falls as a whole, and one without an open edge, is
// not raised. Otherwise the room follows its floor, with what stays on it where
// that is stated.
func TestRaisedRoom(t *testing.T) {
	alone := func(j *job.Job) {
		j.Room.Outline = []plan.Point{{0, 1000}, {1400, 1000}, {1400, 1900}, {0, 1900}}
		j.Shower.OffsetMM, j.Room.Doorways = 0, nil
	}
	niche := func(j *job.Job) { // as wide as the shower: open at its front alone
		j.Room.Outline = []plan.Point{{0, 0}, {1400, 0}, {1400, 1900}, {0, 1900}}
		j.Shower.OffsetMM, j.Room.Doorways = 0, nil
	}
	rising := func(j *job.Job) { // 10 mm/m to the right: 24 at the far wall
		j.SpotLevels = spots([3]float64{0, 0, 0}, [3]float64{2400, 0, 24}, [3]float64{0, 1900, 0})
	}
	deep := func(j *job.Job) {
		j.Floor.Kind, j.Base.Support, j.Base.HeightMM = job.FloorTimber, job.BetweenJoists, -200
	}
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   float64 // NaN: not raised
		at     float64 // the room's floor at (2000, 500)
	}{
		"raised":           {func(*job.Job) {}, 144 + 16.34, 144 + 16.34},
		"one open edge":    {niche, 144 + 16.34, 144 + 16.34},
		"deep shower":      {deep, 18, 18},
		"deep, rising":     {func(j *job.Job) { deep(j); rising(j) }, 37, 37},
		"whole room falls": {func(j *job.Job) { j.Former.Fall = job.FallRoom }, math.NaN(), 18},
		"no open edge":     {alone, math.NaN(), 18},
		"step":             {func(j *job.Job) { j.Room.Edge = job.EdgeStep }, math.NaN(), 18},
		"step, rising":     {func(j *job.Job) { j.Room.Edge = job.EdgeStep; rising(j) }, math.NaN(), 33},
		"finish kept": {func(j *job.Job) {
			j.Room.Edge, j.Floor.Existing = job.EdgeStep, []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 9, Out: job.OutShower}}
			rising(j)
		}, math.NaN(), 29},
		"raised, kept": {func(j *job.Job) {
			j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 9, Out: job.OutShower}}
		}, 144 + 16.34, 144 + 16.34},
		"raised, left":  {func(j *job.Job) { j.Former.Fall = job.FallLeft }, 144 + 26.34, 144 + 26.34},
		"raised, front": {func(j *job.Job) { j.Former.Fall = job.FallFront }, 144 + 16.34, 144 + 16.34},
	} {
		j := job.New()
		j.SpotLevels = spots([3]float64{1200, 1000, 5})
		j.Room.Edge, j.Base.Height = job.EdgeRaiseRoom, job.HeightChosen
		c.change(&j)
		_, h := solve(j)
		if math.IsNaN(c.want) != math.IsNaN(h.RoomTopMM) {
			t.Errorf("%s: raised to %v, want %v", name, h.RoomTopMM, c.want)
		} else if !math.IsNaN(c.want) {
			near(t, name+", raised room", h.RoomTopMM, c.want)
		}
		near(t, name+", room", h.RoomAt(&j, plan.Point{2000, 500}), c.at)
	}
}
