package question_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/assets"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/rule"
	"underfall/geometry/unit"
)

// practice is that of a country.
func practice(t testing.TB, region string) question.Practice {
	t.Helper()
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	return question.PracticeIn(region, shelf)
}

// made is the job of a sheet that makes one.
func made(t *testing.T, p question.Practice, s question.Sheet) job.Job {
	t.Helper()
	j, problems := p.Job(s)
	if len(problems) > 0 {
		t.Fatalf("%+v: %v", s, problems)
	}
	return j
}

func near(a, b plan.Point) bool { return a.Sub(b).Len() < 1e-9 }

// The room of the design's own example: 2400 along A, 1900 away from it, a door of 760 that begins
// 140 from DA, a shower of 1400 by 900 in BC, the water out through B. As one comes in, A is behind,
// B to the left, C ahead and D to the right: seen from above with A below, that is clockwise.
func TestTheWallsRunOnToTheLeft(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin()
	for e, mm := range map[question.Entry]float64{question.RoomLong: 2400, question.RoomWide: 1900,
		question.DoorWide: 760, question.DoorFrom: 140, question.ShowerLong: 1400, question.ShowerDeep: 900} {
		s = s.With(e, question.Given(mm))
	}
	s.Floor.Is = question.Concrete
	s.Shower.Stands, s.Shower.Wall = question.InCorner, 1
	s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 1}
	j := made(t, p, s)

	ab, bc, cd, da := plan.Point{0, 0}, plan.Point{0, 1900}, plan.Point{2400, 1900}, plan.Point{2400, 0}
	for i, want := range []plan.Point{da, ab, bc, cd} { // where walls A, B, C and D begin
		if !near(j.Room.Outline[i], want) {
			t.Errorf("wall %s begins at %v, not %v", question.Letter(i), j.Room.Outline[i], want)
		}
	}
	// The job calls its walls and corners the same.
	for i := range 4 {
		letter, corner := j.Room.Letter(i).String(), j.Room.Corner((i+1)%4).String()
		if letter != question.Letter(i) || corner != question.Corner(i, 4).String() {
			t.Errorf("wall %s and corner %s are %s and %s in the job", question.Letter(i), question.Corner(i, 4), letter, corner)
		}
	}
	if d := j.Room.Doorways[0]; d.Wall != 0 || d.WidthMM != 760 || d.OffsetMM != 140 {
		t.Errorf("the door is %+v", d)
	}
	// The shower's long side lies along C, from BC on: its corners, back left first, by hand.
	want := [4]plan.Point{{0, 1900}, {1400, 1900}, {1400, 1000}, {0, 1000}}
	if got := j.ShowerCorners(); got != want {
		t.Errorf("the shower has its corners at %v, not %v", got, want)
	}
	if e := j.Waste.Exit; e.Kind != job.ExitWall || e.Wall != 1 {
		t.Errorf("the water goes to %+v", e)
	}
	if j.Room.Walls[1].OutsideGroundMM == nil || j.Room.Walls[3].OutsideGroundMM != nil {
		t.Error("B is an outside wall, D is none")
	}
	// Straight out: the run has one leg.
	if n := len(evaluated(t, j).Heights.Run.Corners); n != 2 {
		t.Errorf("the run has %d corners", n)
	}
}

func evaluated(t testing.TB, j job.Job) geometry.Result {
	t.Helper()
	packs, err := assets.Rules()
	if err != nil {
		t.Fatal(err)
	}
	r := geometry.Evaluate(j, packs[j.Region])
	if len(r.Problems) > 0 {
		t.Fatalf("refused: %v", r.Problems)
	}
	return r
}

// Each corner takes the shower, either way round: two of its corners lie at the walls' corner and
// along its longer wall, by hand for a room of 2400 by 1900 and a shower of 1000 by 800.
func TestEveryCorner(t *testing.T) {
	p := practice(t, "UK")
	for corner, cases := range [][2][4]plan.Point{
		{{{0, 0}, {0, 1000}, {800, 1000}, {800, 0}}, {{1000, 0}, {0, 0}, {0, 800}, {1000, 800}}},
		{{{0, 1900}, {1000, 1900}, {1000, 1100}, {0, 1100}}, {{0, 900}, {0, 1900}, {800, 1900}, {800, 900}}},
		{{{1400, 1900}, {2400, 1900}, {2400, 1100}, {1400, 1100}}, {{2400, 1900}, {2400, 900}, {1600, 900}, {1600, 1900}}},
		{{{2400, 1000}, {2400, 0}, {1600, 0}, {1600, 1000}}, {{2400, 0}, {1400, 0}, {1400, 800}, {2400, 800}}},
	} {
		for turned, want := range cases {
			s := p.Begin().With(question.RoomLong, question.Given(2400)).With(question.RoomWide, question.Given(1900)).
				With(question.ShowerLong, question.Given(1000)).With(question.ShowerDeep, question.Given(800))
			s.Shower.Stands, s.Shower.Wall, s.Shower.Turned = question.InCorner, corner, turned == 1
			if got := made(t, p, s).ShowerCorners(); got != want {
				t.Errorf("in %s, turned %d: corners at %v, not %v", question.Corner(corner, 4), turned, got, want)
			}
		}
	}
}

// What cannot be is a sentence at the answer that it is about; nothing else is changed for it.
func TestWhatCannotBe(t *testing.T) {
	p := practice(t, "UK")
	room := func(long, wide float64) question.Sheet {
		return p.Begin().With(question.RoomLong, question.Given(long)).With(question.RoomWide, question.Given(wide))
	}
	corner := func(s question.Sheet, wall int) question.Sheet {
		s.Shower.Stands, s.Shower.Wall = question.InCorner, wall
		return s
	}
	cut := room(3000, 2500)
	cut.Room.Shape, cut.Room.Cut.At = question.LShaped, question.FarLeft
	for name, c := range map[string]struct {
		sheet question.Sheet
		at    question.Entry
		id    string
	}{
		"a room of nothing":      {room(0, 1900), question.RoomLong, "question.between"},
		"a room without end":     {room(9999999, 1900), question.RoomLong, "question.between"},
		"a wide door":            {room(700, 1900).With(question.DoorWide, question.Given(760)), question.DoorWide, "question.door-wide"},
		"a door past the corner": {room(2000, 1900).With(question.DoorFrom, question.Given(1500)), question.DoorFrom, "question.door-past"},
		"a shower past its wall": {room(1200, 1900).With(question.ShowerLong, question.Given(1400)).
			With(question.ShowerDeep, question.Given(900)), "", ""},
		"a shower of both": {room(1200, 1200).With(question.ShowerLong, question.Given(1400)),
			question.ShowerLong, "question.shower-long"},
		"a deep shower":           {room(2400, 800).With(question.ShowerDeep, question.Given(900)), question.ShowerDeep, "question.shower-deep"},
		"a corner that juts out":  {corner(cut, 2), "", "question.corner-stands-out"},
		"more cut out than there": {cut.With(question.CutLong, question.Given(2900)), question.CutLong, "question.cut"},
	} {
		_, problems := p.Job(c.sheet)
		switch {
		case c.id == "" && len(problems) > 0: // the room is longer the other way, where it has room
			t.Errorf("%s: %v", name, problems)
		case c.id != "" && (len(problems) == 0 || problems[0].At != c.at || string(problems[0].What.ID) != c.id):
			t.Errorf("%s: %v", name, problems)
		}
	}
}

// What was not answered fits whatever room there is.
func TestTheRestFits(t *testing.T) {
	for _, region := range []string{"UK", "US", "DE"} {
		p := practice(t, region)
		rapid.Check(t, func(t *rapid.T) {
			s := p.Begin()
			s = s.With(question.RoomLong, question.Given(rapid.Float64Range(900, 8000).Draw(t, "long"))).
				With(question.RoomWide, question.Given(rapid.Float64Range(900, 8000).Draw(t, "wide")))
			s.Floor.Is = question.FloorIs(rapid.IntRange(0, 2).Draw(t, "floor"))
			s.Floor.Runs = question.Runs(rapid.IntRange(0, 2).Draw(t, "runs"))
			s.Room.Shape = question.Shape(rapid.IntRange(0, 1).Draw(t, "shape"))
			s.Room.Cut.At = question.Quarter(rapid.IntRange(0, 3).Draw(t, "at"))
			s.Water.To = question.GoesTo(rapid.IntRange(0, 4).Draw(t, "water"))
			s.Water.Wall = rapid.IntRange(0, 3).Draw(t, "through")
			s.Shower.Stands = question.Stands(rapid.IntRange(0, 2).Draw(t, "stands"))
			s.Shower.Wall = rapid.IntRange(0, 5).Draw(t, "wall")
			s.Shower.Turned = rapid.Bool().Draw(t, "turned")
			j, problems := p.Job(s)
			for _, q := range problems {
				if q.What.ID != "question.corner-stands-out" && q.What.ID != "question.no-room" {
					t.Fatalf("%+v: %v", s, problems)
				}
			}
			if len(problems) == 0 && len(j.Validate()) > 0 {
				t.Fatalf("%+v: %v", s, j.Validate())
			}
		})
	}
}

// No answers, however mad, do more than say what is wrong.
func TestAnyAnswers(t *testing.T) {
	p := practice(t, "UK")
	rapid.Check(t, func(t *rapid.T) {
		s := p.Begin()
		for _, e := range question.Entries() {
			if rapid.Bool().Draw(t, string(e)) {
				s = s.With(e, question.Given(rapid.OneOf(
					rapid.Float64Range(0, 5000), rapid.Just(math.NaN()), rapid.Just(math.Inf(1)), rapid.Just(-1.0)).Draw(t, "mm")))
			}
		}
		s.Room.Shape = question.Shape(rapid.IntRange(0, 1).Draw(t, "shape"))
		s.Shower.Stands, s.Shower.Wall = question.Stands(rapid.IntRange(0, 2).Draw(t, "stands")), rapid.IntRange(0, 3).Draw(t, "wall")
		s.Floor.Is = question.FloorIs(rapid.IntRange(0, 2).Draw(t, "floor"))
		if j, problems := p.Job(s); len(problems) == 0 && len(j.Validate()) > 0 {
			t.Fatalf("%+v: %v", s, j.Validate())
		}
	})
}

// A country's practice is in its own round sizes, and lengths are read in the sheet's units.
func TestCountries(t *testing.T) {
	p := practice(t, "US")
	s := p.Begin()
	if s.Units != unit.Imperial || p.UsualMM(s, question.RoomLong) != 96*25.4 {
		t.Errorf("a US room is %v mm long in %v", p.UsualMM(s, question.RoomLong), s.Units)
	}
	for text, want := range map[string]float64{"8'": 96 * 25.4, "94.5": 94.5 * 25.4, "7-10 1/2": 0, "2400 mm": 2400} {
		l, err := s.Read(question.RoomLong, text)
		if want > 0 && (err != nil || math.Abs(l.MM-want) > 1e-9) {
			t.Errorf("%q reads as %v, %v", text, l, err)
		}
	}
	for _, text := range []string{"", "9999999", "0", "-5", "a room", "2400\t1900\n2300", "1:50", "12 l/s"} {
		if l, err := s.Read(question.RoomLong, text); err == nil {
			t.Errorf("%q reads as %v", text, l)
		}
	}
}

// What was not answered is assumed, what nobody knows is not known, what was answered is stated.
func TestStandings(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin().With(question.RoomLong, question.Given(2400)).With(question.RoomWide, question.Given(1900)).
		With(question.JoistDeep, question.Given(195)).With(question.JoistWide, question.Given(63))
	s.Floor.Is = question.Timber
	s.Water.To = question.GoesNotKnown
	s.Outside = s.Outside.With(3, true) // said to be outside, and nothing of how it is made or how high the ground lies there
	j := made(t, p, s)
	for key, want := range map[string]job.Standing{
		"room.outline": job.Stated, "floor.kind": job.Stated, "floor.joists.depthMM": job.Stated, "floor.joists.spacingMM": job.Assumed,
		"floor.joists.directionDeg": job.NotKnown, "waste.exit.kind": job.NotKnown, "shower.widthMM": job.Assumed,
		"room.doorways[0].widthMM": job.Assumed, "room.walls[1].thicknessMM": job.Assumed, "room.walls[2].thicknessMM": job.Stated,
		"floor.slabThicknessMM": job.Assumed, "floor.joists.widthMM": job.Stated,
		"room.walls[1].outsideGroundMM": job.Assumed, "room.walls[3].outsideGroundMM": job.Assumed, "room.walls[3].kind": job.Assumed,
	} {
		if got := j.StandingOf(key); got != want {
			t.Errorf("%s: %q, not %q", key, got, want)
		}
	}
	if w := j.Floor.Joists.WidthMM; w != 63 {
		t.Errorf("joists are %v wide", w)
	}
	if problems := p.Check(s.With(question.JoistWide, question.Given(120)).With(question.JoistEvery, question.Given(110))); len(problems) != 1 || problems[0].At != question.JoistEvery {
		t.Errorf("joists of 120 every 110: %v", problems)
	}
	s.Water.To, s.Floor.Is = question.GoesIntoPipe, question.FloorNotKnown
	j = made(t, p, s)
	for _, key := range []string{"room.pipeEnds[0].at[0]", "room.pipeEnds[0].at[1]", "room.pipeEnds[0].invertMM", "floor.kind"} {
		if !j.StandingOf(key).Open() {
			t.Errorf("%s is stated", key)
		}
	}
}

// What is typed keeps its value; what hangs on it moves as little as it must, and is told.
func TestSettling(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin()
	for e, mm := range map[question.Entry]float64{question.RoomLong: 2400, question.RoomWide: 1900, question.DoorWide: 760,
		question.DoorFrom: 1500, question.ShowerLong: 1400, question.ShowerDeep: 900} {
		s = s.With(e, question.Given(mm))
	}
	s.Shower.Stands, s.Shower.Wall = question.InCorner, 1
	// A room 1300 long has a door of 760 no farther along than 540. Its walls B and D are now the
	// longer ones, 1900, along which the shower's 1400 lie, and its 900 go into 1300.
	short, moved, problems := p.Settle(s.With(question.RoomLong, question.Given(1300)), question.RoomLong)
	if len(problems) > 0 || len(moved) != 1 || moved[0].At != question.DoorFrom || moved[0].WasMM != 1500 || moved[0].MM != 540 {
		t.Errorf("moved %v, %v", moved, problems)
	}
	if short.At(question.ShowerLong).MM != 1400 || short.At(question.RoomLong).MM != 1300 {
		t.Errorf("%+v", short)
	}
	// A room of 1300 by 1200 takes 1300 of the shower along C, and 900 into its 1200.
	small, moved, problems := p.Settle(short.With(question.RoomWide, question.Given(1200)), question.RoomWide)
	if len(problems) > 0 || len(moved) != 1 || moved[0].At != question.ShowerLong || small.At(question.ShowerLong).MM != 1300 {
		t.Errorf("moved %v, %v", moved, problems)
	}
	// What was typed last does not give way: it is refused, and nothing is moved.
	same, moved, problems := p.Settle(s.With(question.ShowerLong, question.Given(2500)), question.ShowerLong)
	if len(problems) != 1 || problems[0].At != question.ShowerLong || len(moved) > 0 || same.At(question.DoorFrom).MM != 1500 {
		t.Errorf("%v, %v", moved, problems)
	}
}

// Studs of a usual wall stand where they did in the usual room, whose walls run the other way round: in
// the US 8, 24, 40, 56 and 72 in from corner BC along the 75 in of wall B, so 3 in from AB at first, and
// none at the exit 2.75 in from BC.
func TestStudsKeepTheirPlaces(t *testing.T) {
	const inch = 25.4
	p := practice(t, "US")
	s := p.Begin()
	s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 1}
	j := made(t, p, s)
	w := j.Room.Walls[1]
	if w.Kind == job.WallStud && math.Abs(w.FirstStudMM-3*inch) > 1e-6 {
		t.Errorf("the first stud of B stands %v in from AB", w.FirstStudMM/inch)
	}
	if d := j.Room.Walls[3]; d.Kind != job.WallStud || math.Abs(d.FirstStudMM-3*inch) > 1e-6 {
		t.Errorf("the first stud of D stands %v in from CD", d.FirstStudMM/inch)
	}
}

// argument is an argument of a message as it is told to who looks for faults.
func argument(m message.Message, name string) string {
	for _, a := range m.Args {
		if a.Name == name {
			return a.Value.String()
		}
	}
	return ""
}

// Where the water joins outside the wall is an answer of its own: what was said of it is stated, with
// levels counted down from the floor; what was not is what is usual in the country and assumed.
func TestWhereTheWaterJoins(t *testing.T) {
	for region, usual := range map[string]job.JoinKind{"UK": job.JoinGully, "US": job.JoinDrain, "DE": job.JoinDrain} {
		p := practice(t, region)
		s := p.Begin()
		s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 1}
		j := made(t, p, s)
		if b := j.Waste.Beyond; b == nil || b.Joins != usual ||
			j.StandingOf("waste.beyond.joins") != job.Assumed || j.StandingOf("waste.beyond.lengthMM") != job.Assumed {
			t.Errorf("%s: %+v, %v", region, b, j.Standings)
		}
		s.Water.Joins = question.JoinsNotKnown
		if j := made(t, p, s); j.StandingOf("waste.beyond.joins") != job.NotKnown || !j.StandingOf("waste.beyond.lengthMM").Open() {
			t.Errorf("%s: %v", region, j.Standings)
		}
		for joins, want := range map[question.Joins]job.JoinKind{question.JoinsGully: job.JoinGully, question.JoinsStack: job.JoinStack,
			question.JoinsDrain: job.JoinDrain} {
			s.Water.Joins = joins
			half := made(t, p, s)
			j := made(t, p, s.With(question.JoinFar, question.Given(800)).With(question.Grating, question.Given(250)))
			b := j.Waste.Beyond
			if b.Joins != want || b.LengthMM != 800 || len(j.OpenUnder("waste.beyond")) > 0 || len(half.OpenUnder("waste.beyond")) != 1 {
				t.Errorf("%s: %+v, open %v", region, b, j.OpenUnder("waste.beyond"))
			}
			if grated := b.GratingMM != nil; grated != (want == job.JoinGully) || grated && *b.GratingMM != -250 {
				t.Errorf("%s: grating %v", region, b.GratingMM)
			}
		}
	}
}

// The answer waits for what the water joins, not for how far it is to there: a length that is assumed is told
// as such like any other.
func TestTheAnswerDoesNotWaitForALengthThatIsAssumed(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin()
	s.Floor.Is = question.Concrete
	s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 1}
	if is := evaluated(t, made(t, p, s)).Answer(nil).Standing; is != geometry.NotKnown {
		t.Errorf("with nothing said of what it joins it is %s", is)
	}
	for _, joins := range []question.Joins{question.JoinsGully, question.JoinsStack, question.JoinsDrain} {
		s.Water.Joins = joins
		j := made(t, p, s)
		if a := evaluated(t, j).Answer(nil); a.Standing == geometry.NotKnown || j.StandingOf("waste.beyond.lengthMM") != job.Assumed {
			t.Errorf("with %v it is %s: %s", joins, a.Standing, a.Headline())
		}
	}
}

// A pipe in the floor and a stack are where they were said to be, along wall A from AB and away from A,
// the pipe so far below the floor.
func TestWhereThePipeIs(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin().With(question.RoomLong, question.Given(3000)).With(question.RoomWide, question.Given(2500))
	s.Water.To = question.GoesIntoPipe
	s = s.With(question.WaterAlong, question.Given(700)).With(question.WaterAway, question.Given(1200)).
		With(question.PipeDeep, question.Given(90))
	j := made(t, p, s)
	if e := j.Room.PipeEnds[0]; e.At != (plan.Point{700, 1200}) || e.InvertMM == nil || *e.InvertMM != -90 ||
		len(j.OpenUnder("room.pipeEnds[0]")) > 0 {
		t.Errorf("%+v, %v", e, j.Standings)
	}
	s.Water.To = question.GoesIntoStack
	if j := made(t, p, s); j.Room.Stacks[0].At != (plan.Point{700, 1200}) || j.StandingOf("room.stacks[0].at[0]").Open() {
		t.Errorf("%+v, %v", j.Room.Stacks[0], j.Standings)
	}
	// A stack stands beside the shower, and what lies bare of the way to it is boxed in with it; nobody said so.
	if j := made(t, p, s); j.Waste.Boxing == nil || j.StandingOf("waste.boxing") != job.Assumed {
		t.Errorf("boxed in: %v, %v", j.Waste.Boxing, j.Standings)
	}
	// A branch that stands ready is exactly where it was said to be; without one the run comes out as it may.
	if j := made(t, p, s); j.Waste.Exit.Level.Kind() != job.ExitFree {
		t.Errorf("a stack without a branch: %v", j.Waste.Exit.Level)
	}
	ready := s.With(question.BranchDeep, question.Given(40))
	if j := made(t, p, ready); !j.Waste.Exit.Level.Equal(job.Exactly(-40)) || j.StandingOf("waste.exit.level").Open() {
		t.Errorf("a branch 40 below the floor: %v, %v", j.Waste.Exit.Level, j.Standings)
	}
	// Of one of the two the other is found.
	half := s.With(question.WaterAway, question.Length{})
	if j := made(t, p, half); j.Room.Stacks[0].At.X() != 700 || j.StandingOf("room.stacks[0].at[0]").Open() ||
		!j.StandingOf("room.stacks[0].at[1]").Open() ||
		j.Room.Stacks[0].At.Y() != p.UsualMM(half, question.WaterAway) {
		t.Errorf("%+v, %v", j.Room.Stacks[0], j.Standings)
	}
}

// In another country what is assumed of joists is what is usual there: 16 in from one to the next in the United States, as 400 mm in
// the United Kingdom. Common practice, no source. What was typed stays as it was.
func TestJoistsInAnotherCountry(t *testing.T) {
	shelf, err := assets.Parts()
	if err != nil {
		t.Fatal(err)
	}
	p := practice(t, "UK")
	s := p.Begin().With(question.JoistDeep, question.Given(195))
	s.Floor = question.Floor{Is: question.Timber, Said: true, Deep: question.Given(195)}
	j := edit.Region("US", "2026-11", shelf).Apply(made(t, p, s))
	if at := j.Floor.Joists; at.SpacingMM != 406.4 || at.DepthMM != 195 ||
		j.StandingOf("floor.joists.spacingMM") != job.Assumed || j.StandingOf("floor.joists.depthMM") != job.Stated {
		t.Errorf("there the joists are %+v, %v", at, j.Standings)
	}
	s.Floor = question.Floor{Is: question.Concrete, Said: true}
	j = edit.FloorKind(job.FloorTimber).Apply(edit.Region("US", "2026-11", shelf).Apply(made(t, p, s)))
	if at := j.Floor.Joists; at.SpacingMM != 406.4 || j.StandingOf("floor.joists.spacingMM") != job.Assumed {
		t.Errorf("on timber after concrete the joists are %+v, %v", at, j.Standings)
	}
	if j = edit.Region("UK", "2026-11", shelf).Apply(j); j.Floor.Joists.SpacingMM != 400 {
		t.Errorf("back, they are %+v", j.Floor.Joists)
	}
}

// What nobody typed of a floor of joists is assumed in a job on concrete as well, as is a slab's thickness over joists: the floor
// may turn out to be the other. What was typed of joists is stated, and no longer once the answer is concrete.
func TestTheOtherFloorIsAssumed(t *testing.T) {
	joists := []string{"floor.joists.directionDeg", "floor.joists.depthMM", "floor.joists.widthMM", "floor.joists.spacingMM",
		"floor.joists.firstOffsetMM", "floor.deck.thicknessMM", "base.support"}
	for _, region := range []string{"UK", "US"} {
		p := practice(t, region)
		s := p.Begin()
		s.Floor = question.Floor{Is: question.Concrete, Said: true}
		j := made(t, p, s)
		for _, key := range append(joists, "floor.slabThicknessMM") {
			if is := j.StandingOf(key); is != job.Assumed {
				t.Errorf("%s on concrete: %s is %q", region, key, is)
			}
		}
		over := edit.FloorKind(job.FloorTimber).Apply(j)
		for _, key := range joists {
			if is := over.StandingOf(key); is != job.Assumed {
				t.Errorf("%s on timber after concrete: %s is %q", region, key, is)
			}
		}
		back := edit.FloorKind(job.FloorTimber).Apply(edit.FloorKind(job.FloorSlab).Apply(over))
		for _, key := range joists {
			if is := back.StandingOf(key); is != job.Assumed {
				t.Errorf("%s on timber, concrete and timber again: %s is %q", region, key, is)
			}
		}
		s.Floor = question.Floor{Is: question.Timber, Said: true, Runs: question.FromA, Deep: question.Given(220)}
		j = made(t, p, s)
		if j.StandingOf("floor.joists.depthMM").Open() || j.StandingOf("floor.joists.directionDeg").Open() {
			t.Errorf("%s: what was answered of joists is %v", region, j.Standings)
		}
		if j.StandingOf("floor.slabThicknessMM") != job.Assumed {
			t.Errorf("%s: a slab under joists is stated", region)
		}
		s.Floor.Is = question.Concrete
		if j = made(t, p, s); j.StandingOf("floor.joists.depthMM") != job.Assumed {
			t.Errorf("%s: of concrete the depth of joists is %q", region, j.StandingOf("floor.joists.depthMM"))
		}
	}
}

// A shower whose waste goes into a stack, of which nothing else was said, can be built on either floor: what stands in for the place of
// the stack and for the way to it stops nothing.
func TestUsualWayIntoAStackCanBeBuilt(t *testing.T) {
	for _, region := range []string{"UK", "IE", "US", "AU", "NZ", "DE"} {
		p := practice(t, region)
		for _, floor := range []question.FloorIs{question.Concrete, question.Timber} {
			s := p.Begin()
			s.Floor, s.Water.To = question.Floor{Is: floor, Said: true}, question.GoesIntoStack
			if a := evaluated(t, made(t, p, s)).Answer(nil); len(a.Of(rule.Stop)) > 0 {
				t.Errorf("%s, %v: %v", region, floor, a.Of(rule.Stop)[0].Places[0].Finding.Message())
			}
		}
	}
}
