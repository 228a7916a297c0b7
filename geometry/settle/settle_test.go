package settle_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"underfall/app/words"
	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

func number(key string, v float64) edit.Edit {
	p, ok := job.Find(key)
	if !ok {
		panic(key)
	}
	return edit.Number(p, v)
}

// item changes an entry of the first thing of a list.
func item(t *testing.T, list, entry string, v float64) edit.Edit {
	t.Helper()
	l, ok := job.FindList(list)
	for _, e := range l.Entries() {
		switch {
		case e.Key != entry || !ok:
		case e.Wall != nil:
			return edit.ItemWall(l, 0, e, int(v))
		default:
			return edit.ItemNumber(l, 0, e, &v)
		}
	}
	t.Fatalf("%s has no %s", list, entry)
	return edit.Edit{}
}

// in says messages in British English.
func in(t *testing.T, u unit.System) func(message.Message) string {
	t.Helper()
	shelf, err := words.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	return shelf.Book("en-GB", u, func(m message.Message) { t.Errorf("no words for %v", m) }).Say
}

// with is the starting job with a change of it: a room of 2400 by 1900, whose wall 1 has a door 760 wide at
// 1500, whose wall 3 has a shower of 1400 by 900 at 1000 in its far corner, and from whose wall 4 the waste
// leaves at 68.
func with(change func(*job.Job)) job.Job {
	j := job.New()
	change(&j)
	return j
}

func none(*job.Job) {}

func held(keys ...string) func(*job.Job) {
	return func(j *job.Job) {
		for _, key := range keys {
			j.SetStanding(key, job.Held)
		}
	}
}

func TestWhatMovesByHand(t *testing.T) {
	say := in(t, unit.Metric)
	for name, c := range map[string]struct {
		before job.Job
		edit   edit.Edit
		after  func(*job.Job) // what is expected beside what the edit itself does
		told   []string
	}{
		// Wall 1 becomes 2000, and so does wall 3: 2000 − 760 and 2000 − 1400.
		"a wall made shorter": {with(none), edit.Side{Wall: 0}.Set(2000), func(j *job.Job) { j.Room.Doorways[0].OffsetMM = 1240 },
			[]string{"Wall C: 2400 mm long became 2000 mm.", "The shower: 1000 mm from corner CD became 600 mm.", "The door: 1500 mm from corner AB became 1240 mm."}},
		// 2400 − 1000.
		"a door made wider": {with(none), item(t, job.DoorwaysKey, "widthMM", 1000), func(j *job.Job) { j.Room.Doorways[0].OffsetMM = 1400 },
			[]string{"The door: 1500 mm from corner AB became 1400 mm."}},
		// 1900 − 760: the shower's end at wall 4 takes 0 to 900 of it.
		"a door in another wall": {with(none), item(t, job.DoorwaysKey, "wall", 3), func(j *job.Job) { j.Room.Doorways[0].OffsetMM = 1140 },
			[]string{"The walls have other letters, as they run on from the first door: what was wall B is wall A now.", "The door: 1140 mm from corner AB, 1500 mm before."}},
		// 1900 − 1300 = 600 deep is all there is: the glass begins at 13.
		"a room made shallower": {with(none), edit.Side{Wall: 1}.Set(600), func(j *job.Job) {
			j.Shower.DepthMM, j.Shower.Screens[0].WidthMM = 600, 587
		}, []string{"Wall B: 1900 mm long became 600 mm.", "The shower is smaller than you stated, as there is no more room: 900 mm deep became 600 mm.", "The glass: 842 mm wide became 587 mm."}},
		// Both sides of the shower are longer than the room's: it fills the room. Wall 1 is 40 longer than its
		// door; the glass begins at 13, and the drain is as long as its side.
		"a room smaller than its shower": {with(none), edit.Outline([]plan.Point{{0, 0}, {800, 0}, {800, 700}, {0, 700}}), func(j *job.Job) {
			j.Room.Doorways[0].OffsetMM = 40
			j.Shower.OffsetMM, j.Shower.WidthMM, j.Shower.DepthMM, j.Shower.Screens[0].WidthMM = 0, 800, 700, 687
		}, nil},
		"a shower as wide as its wall": {with(none), number("shower.widthMM", 2400), none,
			[]string{"The shower: 1000 mm from corner CD became 0 mm."}},
		// Wall 1 is too short for the door, and wall 2 begins nearest to it. A side of 700 leaves 600 of drain.
		"a wall too short for its door": {with(none), edit.Side{Wall: 0}.Set(700), func(j *job.Job) {
			j.Room.Doorways[0].Wall, j.Room.Doorways[0].OffsetMM = 1, 0
			j.Shower.OffsetMM, j.Shower.WidthMM, j.Drain.LengthMM = 0, 700, 600
		}, []string{"Wall D: 2400 mm long became 700 mm.", "The shower is smaller than you stated, as there is no more room: 1000 mm from corner DA became 0 mm and 1400 mm wide became 700 mm.",
			"The door is now at what was wall D, and is wall A now: 0 mm from corner AB, 1500 mm before.", "The drain: 800 mm long became 600 mm."}},
		// Wall 4 is 1900 long and the hole 25 + 8 wide on each side.
		"a way out past its wall": {with(func(j *job.Job) { j.Waste.Exit.OffsetMM = 1700 }), edit.Side{Wall: 1}.Set(1500),
			func(j *job.Job) { j.Waste.Exit.OffsetMM = 1467 }, []string{"Wall B: 1900 mm long became 1500 mm.", "The way out: 1700 mm from corner BC became 1467 mm."}},
		"an outlet deeper than its trap": {with(none), number("drain.outletInvertDepthMM", 100), func(j *job.Job) { j.Drain.TrapDepthMM = 100 },
			[]string{"The drain: Trap depth was 95 mm and became 100 mm."}},
		// The shower beside the door leaves it 1500 to 2260; 24 more push it on.
		"a door beside the shower": {beside(none), number("shower.widthMM", 1524), func(j *job.Job) { j.Room.Doorways[0].OffsetMM = 1524 },
			[]string{"The door: 1500 mm from corner AB became 1524 mm."}},
		// A stack by wall 2, 115 off it, still is 115 off it when that has moved in by 400: from 2285 to 1885.
		"a stack by a wall that comes in": {with(func(j *job.Job) {
			j.Room.Stacks = []job.Stack{{At: plan.Point{2285, 500}, NominalMM: 110, OutsideMM: 110}}
			j.Room.Doorways[0].OffsetMM = 200
		}), edit.Side{Wall: 0}.Set(2000), func(j *job.Job) { j.Room.Stacks[0].At = plan.Point{1885, 500} },
			[]string{"Wall C: 2400 mm long became 2000 mm.", "The shower: 1000 mm from corner CD became 600 mm.", "The stack moved 400 mm and stands 115 mm from wall D."}},
		"a reading outside": {with(func(j *job.Job) {
			j.SpotLevels = []job.SpotLevel{{At: plan.Point{100, 100}}, {At: plan.Point{2300, 100}}}
			j.Room.Doorways[0].OffsetMM = 200
		}), edit.Side{Wall: 0}.Set(2000), none,
			[]string{"Wall C: 2400 mm long became 2000 mm.", "The shower: 1000 mm from corner CD became 600 mm.", "Reading 2 lies outside the room now."}},
	} {
		t.Run(name, func(t *testing.T) {
			s := settle.Do(c.before, c.edit)
			if s.Refused != nil {
				t.Fatalf("refused: %s", say(s.Refused.What))
			}
			want := c.edit.Apply(c.before)
			if c.after(&want); !reflect.DeepEqual(s.Job, want) {
				t.Errorf("settled\n%+v\nwant\n%+v", s.Job.Room, want.Room)
				t.Errorf("settled\n%+v\nwant\n%+v", s.Job.Shower, want.Shower)
			}
			var told []string
			for _, m := range s.Moved {
				told = append(told, say(m.What))
			}
			if c.told != nil && !reflect.DeepEqual(told, c.told) {
				t.Errorf("told\n%q\nwant\n%q", told, c.told)
			}
		})
	}
}

// beside is the starting job with its shower in the near corner of wall 1, beside the door.
func beside(change func(*job.Job)) job.Job {
	return with(func(j *job.Job) {
		j.Shower.Wall, j.Shower.OffsetMM, j.Shower.Screens = 0, 0, nil
		change(j)
	})
}

func TestRefusalsByHand(t *testing.T) {
	say := in(t, unit.Metric)
	for name, c := range map[string]struct {
		before job.Job
		edit   edit.Edit
		what   string
		cures  []string
	}{
		"a held door beside the shower": {beside(held("room.doorways[0].offsetMM")), number("shower.widthMM", 1524),
			"A shower 1524 mm wide does not fit between wall B and the door. There are 1500 mm.", []string{"Make it 1500 mm", "Move the door 24 mm"}},
		"a held door in a shorter wall": {with(held("room.doorways[0].offsetMM")), edit.Side{Wall: 0}.Set(2000),
			"The door, 760 mm wide and 1500 mm from corner AB, does not fit in wall A, which is 2000 mm long.",
			[]string{"Make it 2260 mm", "Move the door 260 mm"}},
		"a shower wider than its wall": {with(none), number("shower.widthMM", 2500),
			"A shower 2500 mm wide does not fit between wall D and wall B. There are 2400 mm.", []string{"Make it 2400 mm"}},
		"a door wider than its wall": {with(none), item(t, job.DoorwaysKey, "widthMM", 2500),
			"The door, 2500 mm wide, does not fit in wall A, which is 2400 mm long.", []string{"Make it 2400 mm"}},
		"a way out past its wall": {with(none), number("waste.exit.offsetMM", 2500),
			"A way out 2500 mm from corner BC lies past the end of wall B, which is 1900 mm long.", []string{"Make it 1900 mm"}},
		// (1400 − 800) ÷ 2.
		"a drain past its side": {with(none), number("drain.offsetMM", 400),
			"The drain, 800 mm long, cannot lie 400 mm from the middle of its side. There are 300 mm.", []string{"Make it 300 mm"}},
		// The wall of 1900 is the room's depth, less than the shower is held to be.
		"a room shallower than a held shower": {with(held("shower.depthMM", "shower.widthMM")), edit.Side{Wall: 1}.Set(600),
			"Depth (Shower) is held at 900 mm, and is in the way.",
			[]string{"Make it 900 mm", "Make the shower 600 mm deep"}},
		"a trap held above its outlet": {with(held("drain.trapDepthMM")), number("drain.outletInvertDepthMM", 100),
			"Trap depth (Drain and trap) is held at 95 mm, and is in the way.",
			[]string{"Make it 95 mm", "Trap depth: make it 100 mm"}},
		"a drain longer than its side": {with(none), number("drain.lengthMM", 1500),
			"A drain 1500 mm long does not fit its side of the shower. There are 1400 mm.", []string{"Make it 1400 mm"}},
	} {
		t.Run(name, func(t *testing.T) {
			s := settle.Do(c.before, c.edit)
			if s.Refused == nil {
				t.Fatal("it is made")
			}
			if !reflect.DeepEqual(s.Job, c.before) || len(s.Moved) > 0 {
				t.Error("something has changed")
			}
			if got := say(s.Refused.What); got != c.what {
				t.Errorf("refused with\n%s\nwant\n%s", got, c.what)
			}
			var cures []string
			for _, cure := range s.Refused.Cures {
				cures = append(cures, say(cure.What))
				if cured := settle.Do(c.before, cure.Edit); cured.Refused != nil {
					t.Errorf("%s does not do", say(cure.What))
				}
			}
			if !reflect.DeepEqual(cures, c.cures) {
				t.Errorf("cures %q, want %q", cures, c.cures)
			}
		})
	}
}

// The room drawn anew as an L keeps what was at its walls at its place, and tells what could not stay.
func TestOutlineDrawnAnew(t *testing.T) {
	s := settle.Do(job.New(), edit.Outline([]plan.Point{{0, 0}, {2400, 0}, {2400, 950}, {1200, 950}, {1200, 1900}, {0, 1900}}))
	if s.Refused != nil {
		t.Fatal(s.Refused.What)
	}
	r := &s.Job.Room
	got := fmt.Sprint(r.Doorways[0].Wall, r.Doorways[0].OffsetMM, s.Job.Shower.Wall, s.Job.Shower.OffsetMM, s.Job.Shower.WidthMM,
		s.Job.Waste.Exit.Wall, s.Job.Waste.Exit.OffsetMM, r.Walls[5].Kind, *r.Walls[5].OutsideGroundMM)
	// The far end of the old wall 3 is now wall 5, 1200 long; the old wall 4 is wall 6.
	if want := fmt.Sprint(0, 1500, 4, 0, 1200, 5, 68, job.WallMasonry, -150); got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// In inches a cure is a length that a tape reads.
func TestCuresInInches(t *testing.T) {
	j := job.NewInInches()
	say := in(t, unit.Imperial)
	s := settle.Do(j, number("shower.widthMM", 97*25.4))
	if s.Refused == nil || len(s.Refused.Cures) == 0 {
		t.Fatal("it is made, or has no cure")
	}
	// Its wall is 96 in long: 8 ft.
	if got, want := say(s.Refused.Cures[0].What), "Make it 8' 0\""; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// A cure of what a person has typed is typed as well: held.
func TestCuresAreTypedToo(t *testing.T) {
	s := settle.Do(job.New(), edit.Typed(number("shower.widthMM", 2500), "shower.widthMM"))
	if s.Refused == nil || len(s.Refused.Cures) == 0 {
		t.Fatal("it is made, or has no cure")
	}
	cured := settle.Do(job.New(), s.Refused.Cures[0].Edit).Job
	if cured.Shower.WidthMM != 2400 || cured.StandingOf("shower.widthMM") != job.Held {
		t.Errorf("%v wide, %q", cured.Shower.WidthMM, cured.StandingOf("shower.widthMM"))
	}
}

// A wall of very many doors is settled at once all the same: 100 of 380 each 390 apart go into 38,500.
func TestManyThings(t *testing.T) {
	j := with(func(j *job.Job) {
		j.Room.Outline = []plan.Point{{0, 0}, {40000, 0}, {40000, 1900}, {0, 1900}}
		door := j.Room.Doorways[0]
		j.Room.Doorways = nil
		for i := range 100 {
			door.OffsetMM, door.WidthMM = float64(i)*390, 380
			j.Room.Doorways = append(j.Room.Doorways, door)
		}
	})
	s := settle.Do(j, edit.Side{Wall: 0}.Set(38500))
	if s.Refused != nil || len(s.Job.Validate()) > 0 {
		t.Errorf("%+v", s.Refused)
	}
}

// Held, a number that the edit itself would take along stays.
func TestHeldStaysInItsCorner(t *testing.T) {
	j := with(held("shower.offsetMM"))
	s := settle.Do(j, number("shower.widthMM", 1200))
	if s.Refused != nil || s.Job.Shower.OffsetMM != 1000 || s.Job.Shower.WidthMM != 1200 {
		t.Fatalf("%+v, %+v", s.Refused, s.Job.Shower)
	}
}

// A drag that would be refused goes as far as it can: the shower, 1400 wide in the corner of wall 4, is 2400
// wide at most, and no deeper than the room; a door that is held stops the wall that is dragged to it.
func TestDragsGoAsFarAsTheyCan(t *testing.T) {
	right := settle.Do(job.New(), edit.Drag(edit.Handle{Kind: edit.HandleRight}, plan.Point{5000, 1500}))
	if right.Refused != nil || right.Job.Shower.WidthMM != 2400 {
		t.Errorf("to the right: %+v, %v wide", right.Refused, right.Job.Shower.WidthMM)
	}
	deep := settle.Do(job.New(), edit.Drag(edit.Handle{Kind: edit.HandleDepth}, plan.Point{700, -4000}))
	if deep.Refused != nil || deep.Job.Shower.DepthMM != 1900 {
		t.Errorf("towards the front: %+v, %v deep", deep.Refused, deep.Job.Shower.DepthMM)
	}
	side := settle.Do(with(held("room.doorways[0].offsetMM")), edit.Drag(edit.Handle{Kind: edit.HandleSide, Index: 1}, plan.Point{1000, 900}))
	// 1500 + 760.
	if side.Refused != nil || side.Job.Room.WallLengthMM(0) != 2260 {
		t.Errorf("the wall: %+v, %v long", side.Refused, side.Job.Room.WallLengthMM(0))
	}
}

// What is added finds its own place, and moves nothing: a usual window, 600 wide, begins at 900 of wall 1, and
// there the door stands from 1000 to 1760.
func TestWhatIsAddedGivesWay(t *testing.T) {
	j := with(func(j *job.Job) { j.Room.Doorways[0].OffsetMM = 1000 })
	l, _ := job.FindList("room.windows")
	s := settle.Do(j, edit.AddItem(l))
	if s.Refused != nil || len(s.Moved) > 0 || s.Job.Room.Doorways[0].OffsetMM != 1000 {
		t.Fatalf("%+v, %v", s.Refused, s.Moved)
	}
	// Before the door it moves by 500, past it by 860.
	if w := s.Job.Room.Windows[0]; w.Wall != 0 || w.OffsetMM != 400 {
		t.Errorf("%+v", w)
	}
}

func BenchmarkNothingMoves(b *testing.B) {
	j := job.New()
	for name, e := range map[string]edit.Edit{
		"plain number": number("layers.shower.tile.thicknessMM", 10),
		"shower":       number("shower.depthMM", 950),
		"drag":         edit.Drag(edit.Handle{Kind: edit.HandleShower}, plan.Point{800, 1400}),
		"apply only":   number("shower.depthMM", 950),
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if name == "apply only" {
					after := e.Apply(j)
					_ = after.Validate()
				} else if s := settle.Do(j, e); s.Refused != nil {
					b.Fatal(s.Refused.What)
				}
			}
		})
	}
}

func BenchmarkMoves(b *testing.B) {
	j := job.New()
	for b.Loop() {
		settle.Do(j, edit.Side{Wall: 0}.Set(2000))
	}
}

func BenchmarkRefused(b *testing.B) {
	j := beside(held("room.doorways[0].offsetMM"))
	for b.Loop() {
		settle.Do(j, number("shower.widthMM", 1524))
	}
}

// A pier that comes out of wall 2, from 1000 to 1200 along it and to 1200 from wall 4, takes the corner of
// a shower of 1400 by 900: less wide it is 1200, less deep 700. What is stated of it stays as long as what
// is only assumed can give way; where both are stated, it is told that a size that was stated gave way.
func TestWhatIsStatedOfTheShowerGivesWayLast(t *testing.T) {
	say := in(t, unit.Metric)
	pier := edit.Outline([]plan.Point{{0, 0}, {2400, 0}, {2400, 1000}, {1200, 1000}, {1200, 1200}, {2400, 1200}, {2400, 1900}, {0, 1900}})
	for name, c := range map[string]struct {
		assumed      []string
		wide, deep   float64
		statedSaidIt bool
	}{
		"both stated":   {nil, 1400, 700, true},
		"width assumed": {[]string{"shower.widthMM"}, 1200, 900, false},
		"depth assumed": {[]string{"shower.depthMM"}, 1400, 700, false},
		"both assumed":  {[]string{"shower.widthMM", "shower.depthMM"}, 1400, 700, false},
	} {
		j := with(func(j *job.Job) {
			for _, key := range c.assumed {
				j.SetStanding(key, job.Assumed)
			}
		})
		s := settle.Do(j, pier)
		if s.Refused != nil {
			t.Errorf("%s: refused, %s", name, say(s.Refused.What))
			continue
		}
		if sh := s.Job.Shower; sh.WidthMM != c.wide || sh.DepthMM != c.deep || sh.OffsetMM+sh.WidthMM != s.Job.Room.WallLengthMM(sh.Wall) {
			t.Errorf("%s: %v by %v at %v, want %v by %v in its corner", name, sh.WidthMM, sh.DepthMM, sh.OffsetMM, c.wide, c.deep)
		}
		told := ""
		for _, m := range s.Moved {
			told += say(m.What) + "\n"
		}
		if strings.Contains(told, "smaller than you stated") != c.statedSaidIt {
			t.Errorf("%s: told\n%s", name, told)
		}
	}
}
