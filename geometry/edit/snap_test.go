package edit_test

import (
	"math"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// changed is the starting job with a change, with its layout.
func changed(t *testing.T, change func(*job.Job)) (*job.Job, *layout.Layout) {
	t.Helper()
	j := job.New()
	if change != nil {
		change(&j)
	}
	sh := new(plan.Shaper)
	l := layout.Of(j, sh)
	if err := sh.Err(); err != nil {
		t.Fatal(err)
	}
	return &j, &l
}

// By hand in the starting room: 2400 × 1900, its door from 1500 to 2260 in the wall along y = 0, the shower over x = 0 to
// 1400 and y = 1000 to 1900, its drain of 800 about x = 700, walls of 100 in front and to the right. What is dragged within
// 30 of a line falls onto it.
func TestSnapsByHand(t *testing.T) {
	basin := func(j *job.Job) {
		j.Room.Fixtures = []job.Fixture{{Kind: job.FixtureBasin, Wall: 1, OffsetMM: 0, WidthMM: 500, DepthMM: 400, HeightMM: 150}}
	}
	stack := func(j *job.Job) {
		j.Room.Stacks = []job.Stack{{At: plan.Point{300, 700}, NominalMM: 110, OutsideMM: 110}}
	}
	h := func(kind edit.HandleKind, i int) edit.Handle { return edit.Handle{Kind: kind, Index: i} }
	nan := plan.Point{math.NaN(), math.NaN()}
	for name, c := range map[string]struct {
		change func(*job.Job)
		handle edit.Handle
		to     plan.Point
		want   plan.Point
		onto   message.ID
	}{
		"a door in the middle of its wall":         {nil, h(edit.HandleDoorway, 0), plan.Point{1220, 5}, plan.Point{1200, 5}, "snap.middle-of"},
		"not from too far":                         {nil, h(edit.HandleDoorway, 0), plan.Point{1240, 5}, nan, ""},
		"its post in line with the shower's edge":  {nil, h(edit.HandleDoorway, 0), plan.Point{1400 + 380 + 12, 5}, plan.Point{1780, 5}, "snap.in-line"},
		"a fixture beside the open front":          {basin, h(edit.HandleFixture, 0), plan.Point{2400, 760}, plan.Point{2400, 750}, "snap.in-line"},
		"the front in line with nothing":           {nil, h(edit.HandleDepth, 0), plan.Point{700, 1700}, nan, ""},
		"the right edge in line with a post":       {nil, h(edit.HandleRight, 0), plan.Point{1515, 1400}, plan.Point{1500, 1400}, "snap.post"},
		"the shower between the posts":             {nil, h(edit.HandleShower, 0), plan.Point{810, 1400}, plan.Point{800, 1400}, "snap.post"},
		"the drain in the middle of its side":      {nil, h(edit.HandleDrain, 0), plan.Point{715, 1850}, plan.Point{700, 1850}, "snap.middle-of"},
		"the way straight out of the trap":         {nil, h(edit.HandleExit, 0), plan.Point{-90, 1810}, plan.Point{-90, 1832}, "snap.outlet"},
		"a wall in line with none":                 {nil, h(edit.HandleSide, 1), plan.Point{2520, 900}, nan, ""},
		"a corner square to the two beside it":     {nil, h(edit.HandleCorner, 1), plan.Point{2410, -15}, plan.Point{2400, 0}, "snap.in-line"},
		"a stack in line with the drain, in steps": {stack, h(edit.HandleStack, 0), plan.Point{715, 503}, plan.Point{700, 505}, "snap.middle-of"}, // 189 steps of 5 from the shower's middle at y = 1450
		"the vent, which falls nowhere":            {nil, h(edit.HandleVent, 0), plan.Point{700, 1850}, nan, ""},
		"a door that is not there":                 {nil, h(edit.HandleDoorway, 3), plan.Point{1200, 0}, nan, ""},
		"a wall that is not there":                 {nil, h(edit.HandleSide, 9), plan.Point{1200, 0}, nan, ""},
	} {
		j, l := changed(t, c.change)
		s, ok := edit.SnapTo(j, l, c.handle, c.to, 30)
		if ok != (c.want == c.want) {
			t.Errorf("%s: %v, onto %v", name, s.At, s.Onto)
			continue
		}
		if ok && (s.At.Sub(c.want).Len() > 1e-6 || s.Onto[0].Name.ID != c.onto) {
			t.Errorf("%s: %v onto %v, want %v onto %s", name, s.At, s.Onto[0].Name, c.want, c.onto)
		}
	}
}

// A turn at (300, 1832) between the outlet (645, 1832) and the pipe's end (300, 400): at 45° from the outlet and square
// to the end it is where the diagonal through (645, 1832) meets x = 300, at y = 1487.
func TestSnapOfATurnByHand(t *testing.T) {
	j, l := changed(t, pipeEnd)
	s, ok := edit.SnapTo(j, l, edit.Handle{Kind: edit.HandleTurn}, plan.Point{310, 1480}, 30)
	if want := (plan.Point{300, 1487}); !ok || s.At.Sub(want).Len() > 1e-6 || len(s.Onto) != 2 {
		t.Fatalf("%v, %v onto %v", ok, s.At, s.Onto)
	}
	names := map[message.ID]bool{s.Onto[0].Name.ID: true, s.Onto[1].Name.ID: true}
	if !names["snap.diagonal"] || !names["snap.square"] {
		t.Errorf("onto %v", names)
	}
}

// By hand in the same room, of 400 from joist to joist the first at x = 2300: between the first two is x = 2100.
func TestSnapBetweenJoistsByHand(t *testing.T) {
	j, l := changed(t, func(j *job.Job) {
		pipeEnd(j)
		j.Floor.Kind = job.FloorTimber
		j.Floor.Joists.DirectionDeg, j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 90, 400, 100
	})
	s, ok := edit.SnapTo(j, l, edit.Handle{Kind: edit.HandleExit}, plan.Point{2080, 431}, 30)
	if !ok || math.Abs(s.At.X()-2100) > 1e-6 || s.Onto[0].Name.ID != "snap.between-joists" {
		t.Errorf("%v, %v onto %v", ok, s.At, s.Onto)
	}
}

// By hand in the same room: what is told while something is dragged.
func TestSpansByHand(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		handle edit.Handle
		want   []float64
	}{
		"a door, from the nearer corner": {nil, edit.Handle{Kind: edit.HandleDoorway}, []float64{140}}, // 2400 − 2260
		"a window, to the door's post": {func(j *job.Job) {
			j.Room.Windows = []job.Window{{Wall: 0, OffsetMM: 800, WidthMM: 600, SillMM: 1100, HeightMM: 900}}
		}, edit.Handle{Kind: edit.HandleWindow}, []float64{100}},
		"the depth":                         {nil, edit.Handle{Kind: edit.HandleDepth}, []float64{900}},
		"the width":                         {nil, edit.Handle{Kind: edit.HandleLeft}, []float64{1400}},
		"the shower, from the other corner": {nil, edit.Handle{Kind: edit.HandleShower}, []float64{1000}},
		"the drain's two ends":              {nil, edit.Handle{Kind: edit.HandleDrain}, []float64{300, 300}}, // (1400 − 800)/2
		"the room's length":                 {nil, edit.Handle{Kind: edit.HandleSide, Index: 1}, []float64{2400}},
		"the two walls of a corner":         {nil, edit.Handle{Kind: edit.HandleCorner, Index: 1}, []float64{2400, 1900}},
		"a pipe's end, from two walls":      {pipeEnd, edit.Handle{Kind: edit.HandleExit}, []float64{300, 400}},
		"the legs of a turn":                {pipeEnd, edit.Handle{Kind: edit.HandleTurn}, []float64{345, 1432}},
		"a joist, from the wall beside it": {func(j *job.Job) {
			j.Floor.Kind = job.FloorTimber
			j.Floor.Joists.DirectionDeg, j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 90, 400, 100
		}, edit.Handle{Kind: edit.HandleJoist}, []float64{100}},
		"no door":  {nil, edit.Handle{Kind: edit.HandleDoorway, Index: 4}, nil},
		"no wall":  {nil, edit.Handle{Kind: edit.HandleSide, Index: 4}, nil},
		"no joist": {nil, edit.Handle{Kind: edit.HandleJoist}, nil},
	} {
		j, l := changed(t, c.change)
		spans := edit.Spans(j, l, c.handle)
		if len(spans) != len(c.want) {
			t.Errorf("%s: %v, want %v", name, spans, c.want)
			continue
		}
		for i, s := range spans {
			if math.Abs(s.MM()-c.want[i]) > 1e-6 {
				t.Errorf("%s: %v, want %v", name, s.MM(), c.want[i])
			}
		}
	}
}
