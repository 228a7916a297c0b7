package chance_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"underfall/geometry/chance"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// sure is the usual job with nothing that may be off, its base kept at 72: the former
// is at 75, the flange at 95, the tile at 108, the outlet at 20, the trap on the floor at
// 0. The pipe goes 645 to the exit and falls 1:40.
func sure(change func(*job.Job)) job.Job {
	j := job.New()
	j.Tolerances = job.Tolerances{}
	for _, f := range []*job.Finish{&j.Layers.Shower, &j.Layers.Room, &j.Layers.Wall} {
		f.Tanking.ToleranceMM, f.Bed.ToleranceMM, f.Tile.ToleranceMM = 0, 0, 0
	}
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, 69
	change(&j)
	return j
}

func of(v float64) *float64 { return &v }

func levelled(t *testing.T, j job.Job, pack rule.Pack) stage.Levelled {
	t.Helper()
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	var sh plan.Shaper
	l := stage.Place(j, pack, &sh).Level()
	if sh.Err() != nil {
		t.Fatal(sh.Err())
	}
	return l
}

// readings are three of the floor, out of reach of the shower, whose back is at
// y = 1900: it rises 1:100 to the back. With a fourth it is no plane.
func readings(j *job.Job, fourth bool) {
	j.SpotLevels = []job.SpotLevel{{}, {At: plan.Point{2000, 0}}, {At: plan.Point{0, 800}, LevelMM: 8}}
	if fourth {
		j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: plan.Point{2000, 800}, LevelMM: 12})
	}
}

// right turns the outlet to the right, from where it is 1645 to the wall.
func right(j *job.Job) {
	j.Drain.OutletTurnDeg = 0
	j.Waste.Exit = job.Exit{Kind: job.ExitWall, Wall: 1, OffsetMM: 1832}
}

// inputCase is one input off by itself, and what it then does to a measurement at its
// tolerance.
type inputCase struct {
	name, quantity, subject string
	effect                  float64
	off                     func(*job.Job)
}

// input is what an input is called in these cases.
func input(n message.Numbered) string {
	name := strings.TrimPrefix(string(n.ID), "input.")
	if n.Number > 0 {
		name += " " + strconv.Itoa(n.Number)
	}
	return name
}

// gully is a way outside to one, with its grating and its water at levels.
func gully(gratingMM, waterMM float64) *job.Beyond {
	return &job.Beyond{Joins: job.JoinGully, LengthMM: 150, GratingMM: &gratingMM, WaterMM: &waterMM}
}

func inputCases() []inputCase {
	ground := func(name string, effect float64, off func(*job.Job)) inputCase {
		return inputCase{name, "exit.above-ground", "exit", effect, off}
	}
	edge := func(name string, effect float64, off func(*job.Job)) inputCase {
		return inputCase{name, "step.edge", "open-edge 2, front", effect, off}
	}
	door := func(name string, effect float64, off func(*job.Job)) inputCase {
		return inputCase{name, "step.door", "doorway 1", effect, off}
	}
	strip := func(name string, effect float64, off func(*job.Job)) inputCase {
		return inputCase{name, "drain.strip", "drain", effect,
			func(j *job.Job) { off(j); j.Drain.WallClearanceMM = 40; j.Waste.Exit.OffsetMM = 95 }}
	}
	pipe := func(name string, effect float64, off func(*job.Job)) inputCase {
		return inputCase{name, "pipe.gradient", "pipe 1", effect, off}
	}
	return []inputCase{
		// All that stands on the floor moves with it. The third reading, 800 to the back,
		// turns the floor about the other two: 1900/800 as much at the shower's back, its
		// highest.
		ground("floor", 3, func(j *job.Job) { j.Tolerances.FloorMM = 3 }),
		ground("spot-level 3", 2*1900.0/800, func(j *job.Job) { readings(j, false); j.SpotLevels[2].ToleranceMM = 2 }),
		// Four readings that lie 1 off their plane, each the other way than its neighbours:
		// two deviations of √(4·1²/(4 − 3)).
		ground("floor-between-readings", 4, func(j *job.Job) { readings(j, true) }),
		ground("base-top", 2, func(j *job.Job) { j.Tolerances.BaseMM = 2 }),
		ground("bed-under-former", 2, func(j *job.Job) { j.Tolerances.BedMM = 2 }),
		ground("former", 2, func(j *job.Job) { j.Tolerances.FormerMM = 2 }),
		ground("outlet-below-flange", 2, func(j *job.Job) { j.Tolerances.OutletMM = 2 }),
		ground("ground-outside", 20, func(j *job.Job) { j.Tolerances.GroundMM = 20 }),
		// A gully is one body: its grating and the water in it move together.
		{"gully", "gully.under-grating", "gully", 20, func(j *job.Job) { j.Tolerances.GroundMM = 20; j.Waste.Beyond = gully(100, -200) }},
		{"gully", "gully.over-water", "gully", 20, func(j *job.Job) { j.Tolerances.GroundMM = 20; j.Waste.Beyond = gully(100, -200) }},
		// The former falls over 817.
		{"former-fall", "floor.fall", "plane 1", 2.0 / 817, func(j *job.Job) { j.Tolerances.FallMM = 2 }},
		// The trap 10 in the floor.
		{"trap-depth", "trap.into-floor", "trap", 2, func(j *job.Job) { j.Tolerances.TrapMM = 2; j.Base.HeightMM = 59 }},
		// The outlet moves under a weir that stays.
		{"outlet-below-flange", "trap.inner-weir", "trap", 2, func(j *job.Job) { j.Tolerances.OutletMM = 2 }},
		// Over a metre, or over all of a run that is longer.
		pipe("pipe-as-laid", 3.0/1000, func(j *job.Job) { j.Tolerances.PipeMM = 3 }),
		pipe("pipe-as-laid", 3.0/1645, func(j *job.Job) { j.Tolerances.PipeMM = 3; right(j) }),
		pipe("exit-as-measured", 2.0/645, func(j *job.Job) { j.Tolerances.ExitMM = 2; j.Waste.Exit.Level = job.Exactly(0) }),
		{"exit-as-measured", "exit.too-low", "exit", 2, func(j *job.Job) { j.Tolerances.ExitMM = 2; j.Waste.Exit.Level = job.NotBelow(30) }},
		// The neighbour's floor is 7 over the room's.
		door("floor-beyond-doorway 1", 2, func(j *job.Job) { j.Tolerances.DoorwayMM = 2 }),
		door("room-tanking", 0.3, func(j *job.Job) { j.Layers.Room.Tanking.ToleranceMM = 0.3 }),
		door("room-bed", 1, func(j *job.Job) { j.Layers.Room.Bed.ToleranceMM = 1 }),
		door("room-tile", 0.5, func(j *job.Job) { j.Layers.Room.Tile.ToleranceMM = 0.5 }),
		edge("shower-tanking", 0.3, func(j *job.Job) { j.Layers.Shower.Tanking.ToleranceMM = 0.3 }),
		edge("shower-bed", 1, func(j *job.Job) { j.Layers.Shower.Bed.ToleranceMM = 1 }),
		edge("shower-tile", 0.5, func(j *job.Job) { j.Layers.Shower.Tile.ToleranceMM = 0.5 }),
		strip("wall-tanking", 0.3, func(j *job.Job) { j.Layers.Wall.Tanking.ToleranceMM = 0.3 }),
		strip("wall-bed", 1, func(j *job.Job) { j.Layers.Wall.Bed.ToleranceMM = 1 }),
		strip("wall-tile", 0.5, func(j *job.Job) { j.Layers.Wall.Tile.ToleranceMM = 0.5 }),
		// Measured as built each is as good as the laser, ±1, and what lies under it does not
		// come in.
		ground("base-top", 1, func(j *job.Job) {
			j.Tolerances.BaseMM, j.Tolerances.FloorMM, j.AsBuilt.BaseTopMM = 5, 3, of(72)
		}),
		ground("former", 1, func(j *job.Job) {
			j.Tolerances.FormerMM, j.Tolerances.BedMM, j.AsBuilt.FormerAtDrainMM = 5, 4, of(95)
		}),
		ground("outlet-below-flange", 1, func(j *job.Job) { j.Tolerances.OutletMM, j.AsBuilt.OutletInvertMM = 5, of(20) }),
		{"former-fall", "floor.fall", "plane 1", 1.0 / 817, func(j *job.Job) { j.Tolerances.FallMM, j.AsBuilt.FormerAtEdgeMM = 5, of(95+16.34) }},
		pipe("exit-as-measured", 1.0/645, func(j *job.Job) { j.Tolerances.ExitMM, j.AsBuilt.ExitInvertMM = 5, of(3.875) }),
	}
}

// Each input by itself: held to a limit one standard deviation over the plan, half of
// its effect at its tolerance, the measurement is over it in 15.87 of 100, below one as
// far under it as well, and the input is named with all of the variance. Of 250
// samples the share is known to √(0.1587·0.8413/250) = 0.0231; four of those are 0.0925.
func TestEachInputByItself(t *testing.T) {
	const samples, share, byAtMost = 250, 0.1587, 0.0925
	for _, c := range inputCases() {
		j := sure(c.off)
		l := levelled(t, j, rule.Pack{})
		planned := math.NaN()
		for _, m := range measure.All(l, l.BuildUp(), l.Crossings(), measure.WaterOf(l), measure.SealingOf(l)) {
			if m.Quantity == c.quantity && m.Subject.String() == c.subject {
				planned = m.Value
			}
		}
		l.Pack = rule.Pack{Rules: []rule.Rule{
			{ID: "over", Quantity: c.quantity, Compare: rule.AtMost, Limit: planned + c.effect/2, Severity: rule.Stop},
			{ID: "under", Quantity: c.quantity, Compare: rule.AtLeast, Limit: planned - c.effect/2, Severity: rule.Stop}}}
		got, err := chance.Count(t.Context(), l, nil, samples, 5)
		if err != nil {
			t.Fatal(err)
		}
		found := map[string]bool{}
		for _, r := range got.Risks {
			if r.Measurement.Subject.String() != c.subject {
				continue
			}
			found[r.Rule.ID] = true
			if input(r.Main) != c.name || r.MainShare < 0.95 ||
				math.Abs(r.Probability-share) > byAtMost || r.Planned || r.Measurement.Value != planned {
				t.Errorf("%s: %s the limit in %.3f, by %s with %.3f, from %v", c.name, r.Rule.ID, r.Probability, input(r.Main),
					r.MainShare, r.Measurement.Value)
			}
		}
		if !found["over"] || !found["under"] {
			t.Errorf("%s: %s of %s, planned %v, is a risk %v", c.name, c.quantity, c.subject, planned, found)
		}
	}
}

// Outlet and body may be off by 2, and the trap holds what is stated: weir and dip are one
// moulding, and the passage under the dip takes up the rest. The body is full to the
// last half millimetre, and an outlet that is the weir stays it.
func TestSealIsNotOff(t *testing.T) {
	of := func(quantity string, c rule.Compare, limit float64) rule.Rule {
		return rule.Rule{ID: quantity, Quantity: quantity, Compare: c, Limit: limit, Severity: rule.Stop}
	}
	pack := rule.Pack{Rules: []rule.Rule{of("trap.seal", rule.AtLeast, 50), of("trap.seal", rule.AtMost, 50),
		of("trap.water-short-by", rule.AtMost, 0),
		of("trap.outlet-over-weir", rule.AtMost, 0), of("trap.passage-share", rule.AtMost, math.Pi/4*46*46/(220*10))}}
	atWeir := rule.Pack{Rules: append([]rule.Rule{of("trap.inner-weir", rule.AtMost, 0)}, pack.Rules...)}
	for name, c := range map[string]struct {
		pack   rule.Pack
		change func(*job.Job)
		from   string // the input that takes from the passage
	}{
		"a weir inside, the body off":   {pack, func(j *job.Job) { j.Tolerances.TrapMM = 2 }, "trap-depth"},
		"a weir inside, the outlet off": {pack, func(j *job.Job) { j.Tolerances.OutletMM = 2 }, ""},
		"outlet at the weir, the body off": {atWeir, func(j *job.Job) { j.Tolerances.TrapMM, j.Drain.OutletInvertDepthMM = 2, 32.5 },
			"trap-depth"},
		"outlet at the weir, it is off": {atWeir, func(j *job.Job) { j.Tolerances.OutletMM, j.Drain.OutletInvertDepthMM = 2, 32.5 },
			"outlet-below-flange"},
	} {
		l := levelled(t, sure(func(j *job.Job) { j.Drain.WeirDepthMM = 32.5; c.change(j) }), c.pack)
		got, err := chance.Count(t.Context(), l, nil, 250, 5)
		if err != nil {
			t.Fatal(err)
		}
		took := ""
		for _, r := range got.Risks {
			if r.Rule.ID != "trap.passage-share" {
				t.Errorf("%s: %s is a risk of %v", name, r.Rule.ID, r.Probability)
				continue
			}
			took = input(r.Main)
		}
		if took != c.from {
			t.Errorf("%s: the passage is narrowed by %q, want %q", name, took, c.from)
		}
	}
}

// spreadCase is an input at its tolerance, and by how much each row of the schedule may then be off, by hand.
type spreadCase struct {
	off   func(*job.Job)
	wants map[string]float64
}

func spreadCases() map[string]spreadCase {
	const front, overPipe = "row.edge-tile{at: edge.at-front}", "row.pipe-cover"
	base := []string{"row.base-top"}
	trap := []string{"row.trap-under"}
	outlet := []string{"row.outlet-invert", "row.piece-invert-at-wall{piece: piece.pipe{number: 1}}",
		"row.exit-invert", "row.exit-crown", "row.core-middle"}
	exit := outlet[1:4] // the middle of the wall, further along the pipe, is off by more
	// It lies half of 215 past the exit at 645. The hole for 50 with 8 round
	// it holds the 215 of fall through the wall as well.
	core := func(m map[string]float64, from, to float64) map[string]float64 {
		least := func(fall float64) float64 { return 66*math.Sqrt(1+fall*fall) + 215*fall }
		m["row.core-middle"], m["row.core-least"] = 2.0/645*(645+215.0/2), math.Abs(least(to)-least(from))
		return m
	}
	flange := []string{"row.flange"}
	tile := []string{"row.tile-at-drain", "row.cover-set", "row.edge-low{at: edge.at-right}", "row.edge-high{at: edge.at-right}", front}
	steps := []string{"row.edge-step{at: edge.at-front}"}
	high := []string{"row.edge-high{at: edge.at-right}", front, "row.edge-step{at: edge.at-front}"}
	room := []string{"row.room-floor", "row.door-floor{n: 1}", "row.door-step{n: 1}"}
	floor := []string{"row.floor-high", "row.base-under"}
	all := func(parts ...[]string) map[string]float64 {
		out := map[string]float64{}
		for _, p := range parts {
			for _, label := range p {
				out[label] = 2
			}
		}
		return out
	}
	with := func(m map[string]float64, label string, value float64) map[string]float64 {
		m[label] = value
		return m
	}
	return map[string]spreadCase{
		"nothing": {func(*job.Job) {}, nil},
		"floor":   {func(j *job.Job) { j.Tolerances.FloorMM = 2 }, all(floor, base, trap, outlet, flange, tile, room)},
		"base":    {func(j *job.Job) { j.Tolerances.BaseMM = 2 }, all(floor[1:2], base, trap, outlet, flange, tile, steps)},
		// What lifts the flange lifts the outlet, and takes it nearer to the base's top.
		"bed": {func(j *job.Job) { j.Tolerances.BedMM = 2 }, all(trap, outlet, flange, tile, steps, []string{overPipe})},
		"former": {func(j *job.Job) { j.Tolerances.FormerMM = 2 },
			all(trap, outlet, flange, tile, steps, []string{overPipe, "row.former-over-pipe"})},
		// The glass ends 772 up the plane of 817.
		"fall": {func(j *job.Job) { j.Tolerances.FallMM = 2 }, with(with(with(all(high), "row.plane-fall{n: 1}", 2.0/817),
			"row.screen-drop{n: 1}", 2*772.0/817), "row.screen-tall{n: 1}", 2*772.0/817)},
		"outlet": {func(j *job.Job) { j.Tolerances.OutletMM = 2 }, all(outlet, []string{overPipe})},
		"trap":   {func(j *job.Job) { j.Tolerances.TrapMM = 2 }, all(trap)},
		// Over 645 of a metre.
		"pipe": {func(j *job.Job) { j.Tolerances.PipeMM = 2 / 0.645 },
			core(with(all(exit), "row.piece-fall{piece: piece.pipe{number: 1}}", 2.0/645), 0.025, 0.025+2.0/645)},
		"exit": {func(j *job.Job) { j.Tolerances.ExitMM, j.Waste.Exit.Level = 2, job.Exactly(0) },
			core(with(all(exit), "row.piece-fall{piece: piece.pipe{number: 1}}", 2.0/645), 20.0/645, 18.0/645)},
		"doorway": {func(j *job.Job) { j.Tolerances.DoorwayMM = 2 }, map[string]float64{"row.door-step{n: 1}": 2}},
		"ground":  {func(j *job.Job) { j.Tolerances.GroundMM = 2 }, nil},
		"shower":  {func(j *job.Job) { j.Layers.Shower.Bed.ToleranceMM = 2 }, all(tile, steps)},
		"room":    {func(j *job.Job) { j.Layers.Room.Bed.ToleranceMM = 2 }, all(room, steps)},
		"wall":    {func(j *job.Job) { j.Layers.Wall.Bed.ToleranceMM = 2 }, nil},
		// The base stays where it was measured, with all that stands on it.
		"floor under a measured base": {func(j *job.Job) { j.Tolerances.FloorMM, j.AsBuilt.BaseTopMM = 2, of(72) },
			map[string]float64{floor[0]: 2, floor[1]: 2, room[0]: 2, room[1]: 2, room[2]: 2, steps[0]: 3,
				base[0]: 1, trap[0]: 1, outlet[0]: 1, outlet[1]: 1, outlet[2]: 1, outlet[3]: 1, outlet[4]: 1,
				flange[0]: 1, tile[0]: 1, tile[1]: 1, tile[2]: 1, tile[3]: 1, tile[4]: 1}},
	}
}

// What each input at its tolerance does to every level of the schedule; what is not
// named stays as it is.
func TestEffectsOnTheSchedule(t *testing.T) {
	for name, c := range spreadCases() {
		l := levelled(t, sure(c.off), demotest.Packs(t)["UK"])
		floor := l.BuildUp()
		planned := floor.Schedule()
		rows := chance.Spread(l, planned)
		seen := 0
		for i, row := range rows {
			want := c.wants[row.Message().String()]
			if want != 0 {
				seen++
			}
			if math.Abs(row.Worst-want) > 1e-6 {
				t.Errorf("%s: %s may be off by %v, by hand %v", name, row.Message().String(), row.Worst, want)
			}
			if planned[i].Worst != 0 || row.Value != planned[i].Value {
				t.Errorf("%s: %s was %v ± %v, and is %v", name, row.Message().String(), planned[i].Value, planned[i].Worst, row.Value)
			}
		}
		if seen != len(c.wants) {
			t.Errorf("%s: %d of %d rows are there", name, seen, len(c.wants))
		}
	}
}

// A reading among level ones lifts what lies on the floor by all it is too high, and
// lets it down by nothing, as the others hold it up: a spread takes inputs up.
func TestSpreadTakesInputsUp(t *testing.T) {
	j := sure(func(j *job.Job) {
		for _, x := range []float64{300, 700, 1100} {
			for _, y := range []float64{1100, 1450, 1800} {
				j.SpotLevels = append(j.SpotLevels, job.SpotLevel{At: plan.Point{x, y}})
			}
		}
		j.SpotLevels[4].ToleranceMM = 2
	})
	l := levelled(t, j, rule.Pack{})
	floor := l.BuildUp()
	for _, row := range chance.Spread(l, floor.Schedule()) {
		if row.Message().String() == "row.base-top" && math.Abs(row.Worst-2) > 1e-9 {
			t.Errorf("the base may be off by %v, by hand 2", row.Worst)
		}
	}
	// With a tolerance the fall takes up, it falls by what it is too high at its high end.
	steep := levelled(t, sure(func(j *job.Job) { j.Tolerances.FallMM = 817 * 0.03 }), rule.Pack{})
	floor = steep.BuildUp()
	for _, row := range chance.Spread(steep, floor.Schedule()) {
		if row.Message().String() == "row.plane-fall{n: 1}" && math.Abs(row.Worst-0.03) > 1e-9 {
			t.Errorf("the fall may be off by %v, by hand 0.03", row.Worst)
		}
	}
}

// A former that would come out level or falling back is taken to be all but level: of a
// fall of 16.34 that may be off by 40 mm two deviations, one of 20, those under −16.34
// are 20.7 of 100. None falls by less than nothing.
func TestFallsAreNeverLess(t *testing.T) {
	l := levelled(t, sure(func(j *job.Job) { j.Tolerances.FallMM = 40 }), rule.Pack{Rules: []rule.Rule{
		{ID: "back", Quantity: "floor.fall", Compare: rule.AtLeast, Limit: -1e-6, Severity: rule.Stop},
		{ID: "level", Quantity: "floor.fall", Compare: rule.AtLeast, Limit: 3e-6, Severity: rule.Stop}}})
	c, err := chance.Count(t.Context(), l, nil, 250, 1)
	if err != nil || len(c.Risks) != 1 || c.Risks[0].Rule.ID != "level" {
		t.Fatalf("%+v, %v", c.Risks, err)
	}
	// Of 250 samples it is known to √(0.207·0.793/250) = 0.0256; four of those are 0.103.
	if p := c.Risks[0].Probability; math.Abs(p-0.207) > 0.103 {
		t.Errorf("%v of the formers come out level", p)
	}
}
