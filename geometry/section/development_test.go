package section_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// box is the extent of an area as it should be.
type box struct {
	id, name  string
	of        material.Material
	cut       bool
	low, high plan.Point
}

func expectBoxes(t *testing.T, what string, got []section.Area, want []box) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d areas, want %d", what, len(got), len(want))
	}
	for i := range min(len(got), len(want)) {
		low, high, _ := got[i].Region.Bounds()
		g, w := got[i], want[i]
		same := g.PartID == w.id && g.Name.String() == w.name && g.Material == w.of && g.Cut == w.cut
		if !same || !near(low, w.low) || !near(high, w.high) {
			t.Errorf("%s: %s %v of %s, cut %v, from %v to %v; want %+v", what, g.PartID, g.Name, g.Material, g.Cut, low, high, w)
		}
	}
}

func named(d section.Drawing, ids ...string) (out []section.Area) {
	for _, a := range d.Areas {
		for _, id := range ids {
			if a.PartID == id {
				out = append(out, a)
			}
		}
	}
	return out
}

// The long section of the starting job by hand; see starting. It is 920 long, to 60
// past a wall of 215, and 110 of trap; 108 and 60 high over −3 − 60: twice its 231
// is less than half of its length. From 40 before the trap to the wall it shows the
// slab 60 deep, the former and the finish, and as far as the trap the boards with their
// beds, which are sawn out along the run; the wall
// from 60 under the pipe's 2 of wall at −3 to 60 over the tile, but for a hole 8 wider than
// the pipe, whose invert is at 3.875 inside and at −1.5 outside.
func TestLongSectionByHand(t *testing.T) {
	r := starting(t)
	d := section.LongOf(r)
	if d.Rise != 2 {
		t.Fatalf("a rise of %v, want 2", d.Rise)
	}
	at := func(s, z float64) plan.Point { return plan.Point{s, 2 * z} }
	depth := r.Water.Pieces[0].DepthShare * 46
	if !(depth > 5 && depth < 40) {
		t.Errorf("water %v deep in the pipe", depth)
	}
	expectBoxes(t, "long section", d.Areas, []box{
		{"slab", "part.slab", material.Concrete, true, at(-150, -60), at(645, 0)},
		{"base", "layer.base", material.BaseBoard, true, at(-150, 0), at(0, 72)},
		{"former-bed", "layer.former-bed", material.Adhesive, true, at(-150, 72), at(0, 75)},
		{"former", "layer.former", material.FormerBody, true, at(-150, 75), at(645, 95)},
		{"tile", "layer.shower-tile", material.Tile, true, at(-150, 95), at(645, 108)},
		{"wall", "part.wall{wall: B}", material.Masonry, true, at(645, -65), at(860, -6.125)},
		{"wall", "part.wall{wall: B}", material.Masonry, true, at(645, 54.5), at(860, 168)},
		{"trap", "part.trap", material.Plastic, false, at(-110, 0), at(0, 95)},
		// Towards the outlet the weir's plate stands from 30 beyond the trap's middle on, up
		// to 63, with the chamber's floor behind it; the dip's plates from 50 before the
		// middle and to 10 beyond it, down to 13.
		{"trap", "part.trap-weir", material.Plastic, false, at(-25, 17.5), at(-22.5, 63)},
		{"trap", "part.trap-weir", material.Plastic, false, at(-22.5, 17.5), at(-2.5, 20)},
		{"trap-water", "part.seal", material.Water, false, at(-107.5, 2.5), at(-2.5, 63)},
		{"trap", "part.trap-dip", material.Plastic, false, at(-105, 13), at(-102.5, 95)},
		{"trap", "part.trap-dip", material.Plastic, false, at(-47.5, 13), at(-45, 95)},
		{"pipe-1", "piece.pipe{number: 1}", material.Plastic, false, at(0, -5), at(920, 68)},
		{"pipe-1-water", "part.pipe-water", material.Water, false, at(0, -3), at(920, 20+depth)},
	})
	expectDimensions(t, "long section", d.Dimensions, []section.Dimension{
		{From: at(0, -65), To: at(645, -65), Row: 1, Side: below, Key: "waste.gradient",
			Text: message.Of("dimension.length-and-fall", message.MM("length", 645), message.Arg{Name: "fall", Value: message.Fall{Slope: 0.025}})},
		{From: at(0, -65), To: at(645, -65), Text: length(645), Row: 2, Side: below},
		{From: at(-110, 13), To: at(-110, 63), Text: sealed(50), Row: 1, Side: left, Key: "drain.sealMM"},
	})
	// Least cover: a crown of 68 under a base's top of 72.
	expectMarks(t, "long section", d.Marks, []section.Mark{
		{At: at(0, 20), LevelMM: 20, Of: section.MarkInvert}, {At: at(645, 3.875), LevelMM: 3.875, Of: section.MarkInvert},
		// The hole, in the middle of the wall of 215.
		{At: at(752.5, 24.1875), LevelMM: 24.1875, ThicknessMM: 78, Of: section.MarkCore},
		{At: at(645, 49.875), LevelMM: 49.875, Of: section.MarkCrown}, {At: at(0, 68), Of: section.MarkLeastCover, ThicknessMM: 4}})
	expectHandle(t, d, edit.Handle{Kind: edit.HandleExitLevel}, at(645, 3.875), 1)
	// Beside what there is, from −130 to 336, it has 40, an eighth of that above, and
	// half as much again below.
	expectPoint(t, "focus low", d.FocusLow, plan.Point{-190, -130 - 87.375})
	expectPoint(t, "focus high", d.FocusHigh, plan.Point{960, 336 + 58.25})
	if len(d.Lines) > 0 {
		t.Errorf("ground 150 under the floor is out of the picture: %+v", d.Lines)
	}
	// The picture's foot is at −65.
	for ground, want := range map[float64]int{-65.1: 0, -65: 0, -64.9: 1} {
		if got := section.LongOf(starting(t, func(j *job.Job) { j.Room.Walls[3].OutsideGroundMM = &ground })).Lines; len(got) != want {
			t.Errorf("ground at %v: %+v", ground, got)
		}
	}
}

// Heights are exaggerated as much as lets the drawing be two and a half times as long as tall, and to twice where that leaves it
// twice as long: the starting job's are 231, so that ten times needs 5775, of which 920 are the run, and twice 924.
func TestRise(t *testing.T) {
	for length, want := range map[float64]float64{
		5775: 10, 5774: 8, 4620: 8, 4619: 5, 2887.5: 5, 2887: 4, 2310: 4, 2309: 3, 1732.5: 3, 1732: 2, 924: 2, 923.9: 1,
	} {
		r := starting(t)
		r.Settled.Drain.TrapSizeMM = length - 920
		if got := section.LongOf(r).Rise; got != want {
			t.Errorf("%v long: a rise of %v, want %v", length, got, want)
		}
	}
	// A deep trap makes it taller than the pipe's end does: 108 + 60 + 60 and 100 more.
	deep := starting(t)
	deep.Heights.TrapMM = -100
	deep.Settled.Drain.TrapSizeMM = 2.5*3*328 - 920
	if got := section.LongOf(deep).Rise; got != 3 {
		t.Errorf("with a deep trap a rise of %v, want 3", got)
	}
	if deep.Settled.Drain.TrapSizeMM--; section.LongOf(deep).Rise != 2 {
		t.Errorf("a little shorter a rise of %v, want 2", section.LongOf(deep).Rise)
	}
	none := starting(t, func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{645, 1832}} })
	if d := section.LongOf(none); len(d.Areas)+len(d.Marks)+len(d.Dimensions) > 0 {
		t.Errorf("of no run: %+v", d)
	}
}

// The ground outside shows, from the wall to 30 past the pipe, where it lies over
// 60 under the pipe's end at −5.
func TestGroundOutside(t *testing.T) {
	for ground, want := range map[float64]bool{-50: true, -64.9: true, -65.1: false} {
		r := starting(t)
		*r.Settled.Room.Walls[3].OutsideGroundMM = ground
		lines := section.LongOf(r).Lines
		if len(lines) > 0 != want {
			t.Errorf("ground at %v: %+v", ground, lines)
		}
		if want {
			expectLine(t, lines[0], section.Heavy, false, plan.Point{860, 2 * ground}, plan.Point{950, 2 * ground})
		}
	}
	inside := starting(t)
	inside.Settled.Room.Walls[3].OutsideGroundMM, inside.Settled.Room.Walls[3].Kind = nil, job.WallStud
	d := section.LongOf(inside)
	if wall := named(d, "wall"); len(d.Lines) > 0 || wall[0].Material != material.StudWall {
		t.Errorf("a stud wall inside: %+v, lines %+v", wall, d.Lines)
	}
}

// toTheRight leads the waste out of the shower, through the room at y = 1832 and the
// right wall: 755 to 2400, and 160 on; out of the shower 645 along.
func toTheRight(j *job.Job) {
	j.Drain.OutletTurnDeg = 0
	j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
}

// Floors that are not raised are left out beside the shower; a raised room has its
// base and finish, changing where the shower ends.
func TestFloorsAlongTheRun(t *testing.T) {
	flat := section.LongOf(starting(t, toTheRight))
	for _, a := range flat.Areas {
		if _, high, _ := a.Region.Bounds(); a.Cut && a.PartID != "slab" && a.PartID != "wall" && high.X() > 645+1e-3 {
			t.Errorf("%s is drawn up to %v", a.PartID, high.X())
		}
	}
	// A strip of 100 beside a shower of 2300 is a floor of its own: the shower ends 1095
	// from the outlet at 1205.
	strip := section.LongOf(starting(t, toTheRight, func(j *job.Job) { j.Shower.OffsetMM, j.Shower.WidthMM = 100, 2300 }))
	for _, a := range named(strip, "base", "former", "tile") {
		if _, high, _ := a.Region.Bounds(); high.X() > 1095+1e-3 {
			t.Errorf("%s is drawn up to %v in a strip of the room", a.PartID, high.X())
		}
	}
	// A leg before a bend is drawn in one: where the line of the next leg meets the
	// shower's edge behind the bend nothing changes.
	turned := section.LongOf(starting(t, func(j *job.Job) {
		j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 0, 300
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	}))
	for _, a := range named(turned, "base") {
		if low, high, _ := a.Region.Bounds(); low.X() >= 0 && high.X() <= 300 && high.X()-low.X() < 299 {
			t.Errorf("the base is parted from %v to %v along the first leg", low.X(), high.X())
		}
	}
	raised := section.LongOf(starting(t, toTheRight, func(j *job.Job) { j.Room.Edge = job.EdgeRaiseRoom }))
	rise := raised.Rise
	got := named(raised, "room-base", "room-tile")
	if len(got) != 1 {
		t.Fatalf("%d areas of a raised room", len(got))
	}
	// 124.34 at the shower's front edge, 13 of it finish; its boards are sawn out.
	for i, want := range [][2]float64{{111.34, 124.34}} {
		low, high, _ := got[i].Region.Bounds()
		if low.Sub(plan.Point{645, want[0] * rise}).Len() > 1e-3 || high.Sub(plan.Point{1645, want[1] * rise}).Len() > 1e-3 {
			t.Errorf("%s from %v to %v, want levels %v", got[i].PartID, low, high, want)
		}
	}
	// A floor that slopes shows so: 1:100 down along the run, 6.45 at the wall.
	sloping := starting(t, func(j *job.Job) {
		j.SpotLevels = []job.SpotLevel{{At: plan.Point{0, 0}, LevelMM: 0}, {At: plan.Point{2400, 0}, LevelMM: 24},
			{At: plan.Point{0, 1900}, LevelMM: 0}}
	})
	slab := named(section.LongOf(sloping), "slab")[0]
	low, high, _ := slab.Region.Bounds()
	d := section.LongOf(sloping)
	if !near(low, plan.Point{-150, -60 * d.Rise}) || !near(high, plan.Point{645, 7.95 * d.Rise}) {
		t.Errorf("a sloping slab from %v to %v, rise %v", low, high, d.Rise)
	}
	// Where the run begins, at x = 645, the floor is at 6.45.
	if a, ok := d.At(plan.Point{0, 6.4 * d.Rise}); ok && a.PartID == "base" {
		t.Errorf("the base hangs under the floor at the outlet: %v", a.Name)
	}
}

// Along a bend a floor's line has a corner at each of the bend's: on a floor that
// slopes both ways it is at every one as high as the floor there.
func TestFloorAlongABend(t *testing.T) {
	r := starting(t, func(j *job.Job) {
		j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 0, 300
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
		j.SpotLevels = []job.SpotLevel{{At: plan.Point{0, 0}, LevelMM: 0}, {At: plan.Point{2400, 0}, LevelMM: 24},
			{At: plan.Point{0, 1900}, LevelMM: 38}}
	})
	d := section.LongOf(r)
	levels := map[float64]bool{}
	for _, p := range named(d, "slab")[0].Region[0].Outer {
		levels[math.Round(p.X()*1e3)] = true
	}
	var path []plan.Point
	for _, p := range r.Heights.Run.Pieces {
		path = append(path, p.Path...)
	}
	s := 0.0
	if len(path) < 10 {
		t.Fatalf("a bend of %d corners", len(path))
	}
	for i, p := range path {
		if i > 0 {
			s += p.Sub(path[i-1]).Len()
		}
		if s > r.Heights.Run.ExitAtMM {
			break
		}
		if i > 0 && !levels[math.Round(s*1e3)] {
			t.Errorf("no corner of the floor %v along, at %v", s, p)
		}
		// 1:100 to the right, 1:50 to the back.
		z := p.X()/100 + p.Y()/50
		low, ok := d.At(plan.Point{s - 0.01, (z - 0.05) * d.Rise})
		if s > 1 && (!ok || !slices.Contains([]string{"slab", "pipe-1", "pipe-2", "pipe-3"}, low.PartID)) {
			t.Errorf("just under the floor %v along there is %q", s, low.PartID)
		}
	}
}

// On timber the deck is drawn over the joists, but for where a base let in took it out.
// Joists of 47 stand at x = 1200, met from 421.5 to 468.5 along, their tops under
// the deck's 22.
func TestJoistsAlongTheRun(t *testing.T) {
	timber := func(j *job.Job) {
		toTheRight(j)
		j.Floor.Kind, j.Floor.Joists.DirectionDeg = job.FloorTimber, 90
		j.Floor.Joists.SpacingMM, j.Floor.Joists.FirstOffsetMM = 1200, 0
	}
	letIn := func(j *job.Job) { timber(j); j.Base.Support, j.Base.HeightMM = job.BetweenJoists, 72 }
	for name, c := range map[string]struct {
		change func(*job.Job)
		from   float64 // where the deck begins
	}{"on the deck": {timber, -150}, "let in": {letIn, 645}} {
		d := section.LongOf(starting(t, c.change))
		if slab := named(d, "slab"); len(slab) > 0 {
			t.Errorf("%s: a slab", name)
		}
		begins, ends := math.Inf(1), 0.0
		for _, a := range named(d, "deck") {
			low, high, _ := a.Region.Bounds()
			begins, ends = math.Min(begins, low.X()), math.Max(ends, high.X())
			if !(math.Abs(low.Y()+22*d.Rise) <= 1e-6) || !(math.Abs(high.Y()) <= 1e-6) || a.Material != material.Deck || !a.Cut {
				t.Errorf("%s: deck from %v to %v", name, low, high)
			}
		}
		if !(math.Abs(begins-c.from) <= 1e-3) || !(math.Abs(ends-1645) <= 1e-3) {
			t.Errorf("%s: the deck lies from %v to %v, want from %v to the wall", name, begins, ends, c.from)
		}
		expectBoxes(t, name, named(d, "joist-2"), []box{{"joist-2", "part.joist{n: 2, wall: D}", material.Timber, true,
			plan.Point{421.5, -217 * d.Rise}, plan.Point{468.5, -22 * d.Rise}}})
	}
}

// piecesAlong is what is told along a run: its lengths with their falls, what each changes when it is typed on, and where
// inverts are marked.
type piecesAlong struct {
	change func(*job.Job)
	text   []string
	keys   []string
	marks  []float64
}

// throughFloor has the run end in a drop through the floor.
func throughFloor(j *job.Job) {
	j.Waste.Exit = job.Exit{Kind: job.ExitFloor, At: plan.Point{100, 1832}}
}

func allPiecesAlong() map[string]piecesAlong {
	turned := func(j *job.Job) {
		j.Waste.Exit.Wall, j.Waste.Exit.OffsetMM = 0, 300
		j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	}
	fitting := func(at, length float64) func(*job.Job) {
		return func(j *job.Job) {
			j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
			j.Waste.Fittings = []job.Fitting{{Kind: job.FittingFallingPiece, AtMM: at, LengthMM: length, Slope: 0.05}}
		}
	}
	exactly := func(j *job.Job) { j.Waste.Exit.Level = job.Exactly(7.1) }
	return map[string]piecesAlong{
		"one straight": {func(*job.Job) {}, []string{"645 mm  1:40 (25 mm/m)", "645 mm"}, []string{"waste.gradient", ""}, []float64{0, 645}},
		// 12.9 down on 645.
		"to a level": {exactly, []string{"645 mm  1:50 (20 mm/m)", "645 mm"}, []string{"", ""}, []float64{0, 645}},
		// Its bend of 45 takes π/2·45 = 70.7, less what chords are shorter.
		"with a bend": {turned, []string{"300 mm  1:40 (25 mm/m)", "71 mm", "1787 mm  1:40 (25 mm/m)", "2158 mm"},
			[]string{"waste.gradient", "", "waste.gradient", ""}, []float64{0, 300, 2157.7}},
		"with a fitting": {fitting(300, 100), []string{"300 mm  1:40 (25 mm/m)", "100 mm  1:20 (50 mm/m)", "245 mm  1:40 (25 mm/m)", "645 mm"},
			[]string{"waste.gradient", "", "waste.gradient", ""}, []float64{0, 300, 400, 645}},
		// It begins less than 1 before the exit.
		"a fitting there": {fitting(644.5, 100), []string{"645 mm  1:40 (25 mm/m)", "645 mm"},
			[]string{"waste.gradient", ""}, []float64{0, 645}},
		"a fitting 1 before": {fitting(644, 100), []string{"644 mm  1:40 (25 mm/m)", "1 mm  1:20 (50 mm/m)", "645 mm"},
			[]string{"waste.gradient", "", ""}, []float64{0, 645}},
		"a little more": {fitting(643.9, 100), []string{"644 mm  1:40 (25 mm/m)", "1 mm  1:20 (50 mm/m)", "645 mm"},
			[]string{"waste.gradient", "", ""}, []float64{0, 643.9, 645}},
		"a fitting to begin": {fitting(0, 100), []string{"100 mm  1:20 (50 mm/m)", "545 mm  1:40 (25 mm/m)", "645 mm"},
			[]string{"", "waste.gradient", ""}, []float64{0, 645}},
		"through the floor": {throughFloor, []string{"500 mm  1:40 (25 mm/m)", "45 mm", "545 mm"},
			[]string{"waste.gradient", "", ""}, []float64{0, 500}},
		"in feet and inches": {func(j *job.Job) { j.Units = "imperial" }, []string{`2' 1 3/8"  5/16 in/ft (2.5 %)`, `2' 1 3/8"`},
			[]string{"waste.gradient", ""}, []float64{0, 645}},
		"to an existing pipe": {func(j *job.Job) { j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{45, 1832}} },
			[]string{"600 mm  1:40 (25 mm/m)", "600 mm"},
			[]string{"waste.gradient", ""}, []float64{0, 600}},
	}
}

// toldAlong is what a result tells along its run.
func toldAlong(r geometry.Result) (text, keys []string, marks []float64) {
	d := section.LongOf(r)
	for _, m := range d.Dimensions {
		if m.Text.ID == "dimension.seal" {
			continue
		}
		text, keys = append(text, writtenIn(m.Text, r.Settled.Units)), append(keys, m.Key)
	}
	for _, m := range d.Marks {
		if m.Of == section.MarkInvert {
			marks = append(marks, math.Round(m.At.X()*10)/10)
		}
	}
	return text, keys, marks
}

// Every piece longer than a millimetre has its length, and its fall unless it is a
// bend; the fall can be changed of a straight whose exit is free. Inverts are marked
// where something changes, to a millimetre before the exit.
func TestPiecesAlongTheRun(t *testing.T) {
	for name, c := range allPiecesAlong() {
		text, keys, marks := toldAlong(starting(t, c.change))
		same := len(text) == len(c.text) && len(marks) == len(c.marks)
		for i := 0; same && i < len(text); i++ {
			same = strings.HasPrefix(text[i], c.text[i]) && keys[i] == c.keys[i]
		}
		for i := 0; same && i < len(marks); i++ {
			same = math.Abs(marks[i]-c.marks[i]) <= 0.1
		}
		if !same {
			t.Errorf("%s: %q, keys %q, marks %v; want %q, %q, %v", name, text, keys, marks, c.text, c.keys, c.marks)
		}
	}
	// Down through the floor there is no level to drag, no wall, and the drop no pipe.
	d := section.LongOf(starting(t, throughFloor))
	for _, h := range d.Handles {
		if h.Moves.Kind == edit.HandleExitLevel {
			t.Errorf("a handle %+v", h)
		}
	}
	if got := named(d, "wall", "pipe-2"); len(got) > 0 {
		t.Errorf("%+v", got)
	}
}
