package section_test

import (
	"math"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/solid"
	"underfall/geometry/unit"
)

// starting is the starting job with changes, evaluated. Its room is 2400 × 1900,
// stud walls of 100 in front and to the right, masonry of 215 behind and to the
// left; the shower 1400 × 900 over (0, 1900), its drain 70 wide 13 off the back wall,
// the trap of 110 about (700, 1832); the floor at 0 on a slab of 150, base 3 to 72,
// former from 75 to the flange at 95, tile 9 to 108, all 817/50 = 16.34 higher along
// the front; the pipe from (645, 1832) to the left, its invert at 20 falling 1:40.
func starting(t *testing.T, changes ...func(*job.Job)) geometry.Result {
	t.Helper()
	j := job.New()
	for _, change := range changes {
		change(&j)
	}
	r := geometry.Evaluate(j, demotest.Packs(t)[j.Region])
	if len(r.Problems) > 0 {
		t.Fatal(r.Problems)
	}
	return r
}

func near(a, b plan.Point) bool { return a.Sub(b).Len() < 1e-6 }

// same tells whether two numbers are, but for rounding; no number is none.
func same(a, b float64) bool { return math.Abs(a-b) <= 1e-6 }

func expectPoint(t *testing.T, what string, got, want plan.Point) {
	t.Helper()
	if !near(got, want) {
		t.Errorf("%s at %v, want %v", what, got, want)
	}
}

// length is the text of a dimension that is a length alone.
func length(mm float64) message.Message {
	return message.Of("dimension.length", message.Layer("length", mm))
}

// raised is the text of a level over another.
func raised(mm float64) message.Message {
	return message.Of("dimension.length", message.MM("length", mm))
}

// sealed is the text of a seal's dimension.
func sealed(mm float64) message.Message {
	return message.Of("dimension.seal", message.Layer("seal", mm))
}

// written are the values of a text as a drawing shows them, one after the other.
func written(m message.Message) string { return writtenIn(m, unit.Metric) }

func writtenIn(m message.Message, u unit.System) string {
	var out []string
	for _, a := range m.Args {
		switch v := a.Value.(type) {
		case message.Length:
			out = append(out, unit.Rounded(v.MM, v.Round, u))
		case message.InChain:
			out = append(out, unit.Chained(v, u))
		case message.Fall:
			out = append(out, unit.Format(v.Slope, unit.Slope, u))
		default:
			out = append(out, v.String())
		}
	}
	return strings.Join(out, "  ")
}

func expectDimensions(t *testing.T, what string, got, want []section.Dimension) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d dimensions, want %d: %+v", what, len(got), len(want), got)
	}
	for i := range min(len(got), len(want)) {
		g, w := got[i], want[i]
		said := g.Text.ID == w.Text.ID && written(g.Text) == written(w.Text) && g.Key == w.Key
		if !said || g.Row != w.Row || !near(g.From, w.From) || !near(g.To, w.To) || !near(g.Side, w.Side) {
			t.Errorf("%s: %+v\nwant %+v", what, g, w)
		}
	}
}

func expectMarks(t *testing.T, what string, got, want []section.Mark) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d marks, want %d: %+v", what, len(got), len(want), got)
	}
	for i := range min(len(got), len(want)) {
		g, w := got[i], want[i]
		if g.Of != w.Of || !same(g.LevelMM, w.LevelMM) || !same(g.ThicknessMM, w.ThicknessMM) || !near(g.At, w.At) {
			t.Errorf("%s: %+v, want %+v", what, g, w)
		}
	}
}

var left, right, below = plan.Point{-1, 0}, plan.Point{1, 0}, plan.Point{0, -1}

// through is the section of a result through its drain.
func through(r geometry.Result, stage buildup.Stage) section.Drawing {
	return section.Of(r, section.ThroughDrain(r), stage)
}

// The section through the drain by hand. It runs into the room's depth, 0 at the
// trap's 1832: the room from −1832 to 68, the shower from −832, the drain from −15
// to 55. The stacks stand at the shower's edges, where the fall is 817/50 = 16.34 and
// at the wall none; there the base is sawn out for the trap and the tile lies under the
// wall's. The former's number is that at the drain, and shown only there. Tile is marked
// at each end of the fall.
func TestSectionByHand(t *testing.T) {
	d := through(starting(t), buildup.StageTile)
	expectPoint(t, "low", d.Low, plan.Point{-1932, -150})
	expectPoint(t, "high", d.High, plan.Point{283, 108 + 420})
	// The shower with 260 round it and 170 over its tile, but no more than there is.
	expectPoint(t, "focus low", d.FocusLow, plan.Point{-832 - 260, -150})
	expectPoint(t, "focus high", d.FocusHigh, plan.Point{283, 278})
	expectDimensions(t, "through the drain", d.Dimensions, []section.Dimension{
		// To the ceiling at 2400, where people stand 300 in from the front.
		{From: plan.Point{-532, 118.34}, To: plan.Point{-532, 2400}, Text: message.Of("dimension.headroom", message.MM("height", 2281.66)), Row: 1, Side: right},
		{From: plan.Point{-832, 3}, To: plan.Point{-832, 72}, Text: length(69), Row: 1, Side: left, Key: "base.heightMM"},
		// 69 over a bed of 3, this on another, 1 of tanking, 3 of bed and 9 are 124: it is told as 36.
		{From: plan.Point{-832, 75}, To: plan.Point{-832, 111.34}, Text: length(36), Row: 1, Side: left},
		{From: plan.Point{-832, 115.34}, To: plan.Point{-832, 124.34}, Text: length(9), Row: 1, Side: left, Key: "layers.shower.tile.thicknessMM"},
		{From: plan.Point{-832, 0}, To: plan.Point{-832, 124.34}, Text: raised(124.34), Row: 2, Side: left},
		{From: plan.Point{68, 75}, To: plan.Point{68, 95}, Text: length(20), Row: 1, Side: right, Key: "former.thicknessAtDrainMM"},
		{From: plan.Point{68, 0}, To: plan.Point{68, 108}, Text: raised(108), Row: 2, Side: right},
		// The floor before the shower, 1000 of it, then the shower: 1900 in all.
		{From: plan.Point{-1832, -150}, To: plan.Point{-832, -150}, Text: length(1000), Row: 1, Side: below},
		{From: plan.Point{-832, -150}, To: plan.Point{-15, -150}, Text: length(817), Row: 1, Side: below},
		{From: plan.Point{-15, -150}, To: plan.Point{55, -150}, Text: length(70), Row: 1, Side: below},
		{From: plan.Point{55, -150}, To: plan.Point{68, -150}, Text: length(13), Row: 1, Side: below},
		{From: plan.Point{-1832, -150}, To: plan.Point{68, -150}, Text: length(1900), Row: 2, Side: below},
		{From: plan.Point{-55, 13}, To: plan.Point{-55, 63}, Text: sealed(50), Row: 1, Side: left, Key: "drain.sealMM"},
		// The room's floor is at 13.
		{From: plan.Point{-832, 13}, To: plan.Point{-832, 124.34}, Text: message.Of("dimension.step", message.Between("step", 13, 124.34)), Row: 3, Side: left, Step: true},
	})
	expectMarks(t, "through the drain", d.Marks, []section.Mark{
		{At: plan.Point{-832, 124.34}, LevelMM: 124.34, Of: section.MarkTile},
		{At: plan.Point{-15, 108}, LevelMM: 108, Of: section.MarkTile},
		{At: plan.Point{-1332, 13}, LevelMM: 13, Of: section.MarkRoomFloor},
		{At: plan.Point{-404.5, 0}, LevelMM: 0, Of: section.MarkStructure},
	})
}

// Stretches along the cut of 5 and less have no room for a dimension.
func TestShortStretches(t *testing.T) {
	for behind, want := range map[float64]int{4.9: 4, 5.1: 5} {
		n := 0
		for _, m := range through(starting(t, func(j *job.Job) { j.Drain.WallClearanceMM = behind }), buildup.StageTile).Dimensions {
			if m.Side == below {
				n++
			}
		}
		if n != want {
			t.Errorf("%v behind the drain: %d lengths, want %d", behind, n, want)
		}
	}
}

// Layers of 8 and more are dimensioned, at both ends where they are there.
func TestThinLayers(t *testing.T) {
	for tile, want := range map[float64]int{8: 2, 7.9: 0, 8.1: 2} {
		n := 0
		for _, m := range through(starting(t, func(j *job.Job) {
			j.Layers.Shower.Tile.ThicknessMM, j.Drain.WallClearanceMM = tile, 100
		}), buildup.StageTile).Dimensions {
			if m.Key == "layers.shower.tile.thicknessMM" {
				n++
			}
		}
		if n != want {
			t.Errorf("a tile of %v: %d dimensions, want %d", tile, n, want)
		}
	}
}

// Let in, the base is dimensioned without the number of what stands over the deck.
func TestBaseLetInHasNoNumber(t *testing.T) {
	d := through(starting(t, func(j *job.Job) {
		j.Floor.Kind, j.Base.Support = job.FloorTimber, job.BetweenJoists
		j.Base.Height, j.Base.HeightMM, j.Drain.WallClearanceMM = job.HeightChosen, -10, 150
	}), buildup.StageTile)
	n := 0
	for _, m := range d.Dimensions {
		if m.Key == "base.heightMM" {
			t.Errorf("%+v", m)
		}
		if written(m.Text) == "12 mm" {
			n++
		}
	}
	if n != 2 {
		t.Errorf("a base of 12 is dimensioned %d times", n)
	}
}

// At each stage the section shows what has been laid by then: its total height at
// both ends, its mark, and the parts of the stage.
func TestStages(t *testing.T) {
	r := starting(t)
	for stage, c := range map[buildup.Stage]struct {
		totals   []string // left and right
		label    message.ID
		low      float64 // of the mark at the high end and by the drain
		high     float64
		newPart  string
		notThere string
	}{
		buildup.StageBare:     {nil, section.MarkFloor, 0, 0, "slab", "base"},
		buildup.StageBase:     {[]string{"72 mm", "72 mm"}, section.MarkBase, 72, 72, "base", "trap"},
		buildup.StageWaste:    {[]string{"72 mm", "72 mm"}, section.MarkBase, 72, 72, "trap", "former"},
		buildup.StageFormer:   {[]string{"111 mm", "95 mm"}, section.MarkFormer, 95, 111.34, "former", "tanking"},
		buildup.StageTanking:  {[]string{"112 mm", "96 mm"}, section.MarkFormer, 95, 111.34, "tanking", "tile"},
		buildup.StageWallTile: {[]string{"112 mm", "96 mm"}, section.MarkFormer, 95, 111.34, "wall-tile-1", "tile"},
		buildup.StageTile:     {[]string{"124 mm", "108 mm"}, section.MarkTile, 108, 124.34, "tile", ""},
	} {
		d := through(r, stage)
		var totals []string
		for _, m := range d.Dimensions {
			if m.Row == 2 && m.Side != below {
				totals = append(totals, written(m.Text))
			}
		}
		if len(totals) != len(c.totals) || len(totals) == 2 && (totals[0] != c.totals[0] || totals[1] != c.totals[1]) {
			t.Errorf("stage %d: totals %v, want %v", stage, totals, c.totals)
		}
		if m := d.Marks; m[0].Of != c.label || !same(m[0].LevelMM, c.high) || m[1].Of != c.label || !same(m[1].LevelMM, c.low) {
			t.Errorf("stage %d: marks %+v, want %s at %v and %v", stage, m, c.label, c.high, c.low)
		}
		parts := map[string]bool{}
		for _, a := range d.Areas {
			parts[a.PartID] = true
		}
		if !parts[c.newPart] || parts[c.notThere] {
			t.Errorf("stage %d: parts %v, want %q and no %q", stage, parts, c.newPart, c.notThere)
		}
	}
}

// Over a floor at 50 what is laid counts from there: nothing of the bare floor, 72 of
// the base.
func TestTotalsOverAFloorAtALevel(t *testing.T) {
	r := starting(t, func(j *job.Job) { j.SpotLevels = []job.SpotLevel{{At: plan.Point{700, 1450}, LevelMM: 50}} })
	for stage, want := range map[buildup.Stage][]string{buildup.StageBare: nil, buildup.StageBase: {"72 mm", "72 mm"}} {
		var got []string
		for _, m := range through(r, stage).Dimensions {
			if m.Row == 2 && m.Side != below {
				got = append(got, written(m.Text))
			}
		}
		if len(got) != len(want) || len(got) == 2 && (got[0] != want[0] || got[1] != want[1]) {
			t.Errorf("stage %d: totals %v, want %v", stage, got, want)
		}
	}
}

// Walls show 420 over the tile, structure 320 under the floor, or 80 under trap and
// pipe where these go deeper; the focus 170 under the deeper of floor and trap.
func TestHowFarASectionShows(t *testing.T) {
	thick := func(j *job.Job) {
		j.Floor.SlabThicknessMM = 700
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	}
	for name, c := range map[string]struct {
		change     func(*job.Job)
		low, focus float64
	}{
		"thick slab":    {thick, -320, -170},
		"deep trap":     {func(j *job.Job) { thick(j); j.Drain.TrapDepthMM = 95 + 300 }, -300 - 80, -380},
		"trap just not": {func(j *job.Job) { thick(j); j.Drain.TrapDepthMM = 95 + 239 }, -320, -320},
		"trap at −100":  {func(j *job.Job) { thick(j); j.Drain.TrapDepthMM = 95 + 100 }, -320, -270},
		// The pipe falls from 20 by 320/645 for each millimetre to −300 at the wall
		// and on to 20 − 920·320/645 at its end.
		"deep pipe": {func(j *job.Job) { thick(j); j.Waste.Exit.Level = job.Exactly(-300) }, 20 - 920*320/645.0 - 80, -170},
	} {
		d := through(starting(t, c.change), buildup.StageTile)
		if !(math.Abs(d.Low.Y()-c.low) <= 1e-6) || !(math.Abs(d.FocusLow.Y()-c.focus) <= 1e-6) || !(math.Abs(d.High.Y()-528) <= 1e-6) {
			t.Errorf("%s: from %v, focus from %v, up to %v; want %v, %v, 528", name, d.Low.Y(), d.FocusLow.Y(), d.High.Y(), c.low, c.focus)
		}
		for _, a := range d.Areas {
			if low, high, _ := a.Region.Bounds(); low.Y() < c.low-1e-6 || high.Y() > 528+1e-6 {
				t.Errorf("%s: %s reaches from %v to %v", name, a.PartID, low.Y(), high.Y())
			}
		}
	}
	// Beside the shower there is 260 where the room is wide enough; a cut that misses
	// it looks at everything.
	wide := starting(t, func(j *job.Job) { j.Shower.OffsetMM = 600 })
	d := section.Of(wide, section.Corner(wide)[1], buildup.StageTile)
	expectPoint(t, "focus low beside", plan.Point{d.FocusLow.X(), 0}, plan.Point{-700 - 260, 0})
	expectPoint(t, "focus high beside", plan.Point{d.FocusHigh.X(), 0}, plan.Point{700 + 260, 0})
	beside := section.Of(wide, solid.VerticalCut(plan.Point{1200, 300}, plan.Point{1, 0}), buildup.StageTile)
	expectPoint(t, "focus without the shower", beside.FocusLow, beside.Low)
	expectPoint(t, "focus without the shower", beside.FocusHigh, beside.High)
	for _, m := range beside.Dimensions {
		t.Errorf("a cut beside the shower has %+v", m)
	}
}

// A cut through the shower, but for strips under 60, is marked where it begins and
// ends; once where it is level within 0.05 and no longer than 600. The room's floor
// is marked where there is more than 50 of it.
func TestWhereLevelsAreMarked(t *testing.T) {
	depth := func(mm float64) func(*job.Job) { return func(j *job.Job) { j.Shower.DepthMM = mm } }
	slope := func(s float64) func(*job.Job) {
		return func(j *job.Job) { j.Shower.DepthMM, j.Former.Slope = 583, s }
	}
	behind := func(mm float64) func(*job.Job) { return func(j *job.Job) { j.Drain.WallClearanceMM = mm } }
	narrow := func(rest float64) func(*job.Job) {
		return func(j *job.Job) { j.Shower.DepthMM = 1900 - rest }
	}
	for name, c := range map[string]struct {
		change func(*job.Job)
		stage  buildup.Stage
		label  message.ID
		want   int
	}{
		"level, 600 long":         {depth(683), buildup.StageBase, section.MarkBase, 1},
		"level, longer":           {depth(683.1), buildup.StageBase, section.MarkBase, 2},
		"falling, 600 long":       {depth(683), buildup.StageTile, section.MarkTile, 2},
		"hardly falling":          {slope(0.0001), buildup.StageTile, section.MarkTile, 1},
		"just falling":            {slope(0.000102), buildup.StageTile, section.MarkTile, 2},
		"strip of 59.9 behind":    {behind(59.9), buildup.StageTile, section.MarkTile, 2},
		"strip of 60 behind":      {behind(60), buildup.StageTile, section.MarkTile, 3},
		"room of 50":              {narrow(50), buildup.StageTile, section.MarkRoomFloor, 0},
		"room of 50.1":            {narrow(50.1), buildup.StageTile, section.MarkRoomFloor, 1},
		"room that falls with it": {func(j *job.Job) { j.Former.Fall = job.FallRoom }, buildup.StageTile, section.MarkRoomFloor, 0},
	} {
		got := 0
		for _, m := range through(starting(t, func(j *job.Job) { j.Room.Doorways = nil }, c.change), c.stage).Marks {
			if m.Of == c.label {
				got++
			}
		}
		if got != c.want {
			t.Errorf("%s: %d marks for %s, want %d", name, got, c.label, c.want)
		}
	}
	// The strip of 60 behind the drain is level with it, marked at its edge.
	d := through(starting(t, behind(60)), buildup.StageTile)
	expectMarks(t, "strip", d.Marks[2:3], []section.Mark{{At: plan.Point{1840 - 1785, 108}, LevelMM: 108, Of: section.MarkTile}})
}

// Where a cut crosses the run, the invert marked is that on the cut, 345 along:
// 20 − 8.625; where it follows the run, those at both ends. Before the waste is laid
// there is none.
func TestInvertsOnACut(t *testing.T) {
	r := starting(t)
	inverts := func(c solid.Cut, stage buildup.Stage) (out []section.Mark) {
		for _, m := range section.Of(r, c, stage).Marks {
			if m.Of == section.MarkInvert {
				out = append(out, m)
			}
		}
		return out
	}
	acrossAt := func(x float64) solid.Cut { return solid.VerticalCut(plan.Point{x, 0}, plan.Point{0, 1}) }
	invert := func(along, level float64) section.Mark {
		return section.Mark{At: plan.Point{along, level}, LevelMM: level, Of: section.MarkInvert}
	}
	across := acrossAt(300)
	expectMarks(t, "across", inverts(across, buildup.StageWaste), []section.Mark{invert(1832, 11.375)})
	expectMarks(t, "across, between the steps", inverts(acrossAt(302), buildup.StageTile), []section.Mark{invert(1832, 11.425)})
	expectMarks(t, "before", inverts(across, buildup.StageBase), nil)
	expectMarks(t, "along", inverts(section.AlongRun(r), buildup.StageTile), []section.Mark{invert(0, 20), invert(920, -3)})
	// Along it half a bore of 23 beside, it is met no more; nearer it is.
	for beside, want := range map[float64]int{22.9: 2, 23: 0} {
		if got := inverts(solid.VerticalCut(plan.Point{0, 1832 + beside}, plan.Point{1, 0}), buildup.StageTile); len(got) != want {
			t.Errorf("a cut %v beside the run has inverts %+v, want %d", beside, got, want)
		}
	}
	// One of 45, too short for a mark at both ends, has one where it begins.
	short := starting(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{600, 1832}} })
	var got []section.Mark
	for _, m := range section.Of(short, section.AlongRun(short), buildup.StageTile).Marks {
		if m.Of == section.MarkInvert {
			got = append(got, m)
		}
	}
	expectMarks(t, "a short run", got, []section.Mark{invert(0, 20)})
	// Where the run begins within half a bore of a cut, the cut is met between its first
	// steps: 2 along.
	expectMarks(t, "at the beginning", inverts(acrossAt(643), buildup.StageTile), []section.Mark{invert(1832, 19.95)})
	// Just before its beginning a cut across meets it at its end.
	expectMarks(t, "at the end", inverts(acrossAt(650), buildup.StageTile), []section.Mark{invert(1832, 20)})
}
