package question_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/question"
)

// A room of 4000 by 3000 with the door in a long wall, the shower in BC, the water out through B, D an outside wall, joists as A
// runs, and a pipe 700 from AB along A and 500 from A. With the door in B instead, by hand: A is 3000 long, B 4000; the corner
// that was BC is AB now, the wall that was B is A, D is C; joists run away from A. The pipe was 500 up B from AB, so it is
// 3000-500 from the new AB along A, and 700 from A. What was typed stays typed.
func TestTheDoorInAnotherWall(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin().With(question.RoomLong, question.Given(4000)).With(question.RoomWide, question.Given(3000)).
		With(question.DoorWide, question.Given(800)).With(question.DoorFrom, question.Given(1500)).
		With(question.ShowerLong, question.Given(1300)).With(question.ShowerDeep, question.Given(850))
	s.Floor = question.Floor{Is: question.Timber, Said: true, Runs: question.AlongA}
	s.Shower.Stands, s.Shower.Wall = question.InCorner, 1
	s.Outside = s.Outside.With(3, true)
	s.Water = question.Water{To: question.GoesIntoPipe, Along: question.Given(700), Away: question.Given(500)}
	is := p.DoorIn(s, 1)
	if is.Room.Long != s.Room.Long || is.Room.Wide != s.Room.Wide || is.Door.Wide != s.Door.Wide || is.Door.From.Given {
		t.Errorf("what was typed is %+v, %+v", is.Room, is.Door)
	}
	if a, b := p.WallMM(is, 0), p.WallMM(is, 1); a != 3000 || b != 4000 {
		t.Errorf("A is %v long, B %v", a, b)
	}
	if is.Shower.Wall != 0 || !is.Outside.Has(2) || is.Outside.Has(3) || is.Floor.Runs != question.FromA {
		t.Errorf("the shower is in the corner after %d, outside are %b, joists run %v", is.Shower.Wall, is.Outside, is.Floor.Runs)
	}
	if w := is.Water; math.Abs(w.Along.MM-2500) > 1e-9 || math.Abs(w.Away.MM-700) > 1e-9 {
		t.Errorf("the pipe is %+v", w)
	}
	// The job has its door in the wall of 3000, where practice puts it, and says that it is assumed.
	j := made(t, p, is)
	if d := j.Room.Doorways[0]; d.Wall != 0 || j.Room.WallLengthMM(0) != 3000 || j.StandingOf("room.doorways[0].offsetMM") != job.Assumed {
		t.Errorf("the door is %+v in a wall of %v, its place %q", d, j.Room.WallLengthMM(0), j.StandingOf("room.doorways[0].offsetMM"))
	}
	s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 1}
	if is := p.DoorIn(s, 1); is.Water.Wall != 0 {
		t.Errorf("the water goes out through %d", is.Water.Wall)
	}
	// Drawn wall by wall from here, the length that was typed is B's.
	is.Room.Wide = question.Length{}
	if w := p.Draw(is).Room.Drawn.Walls; w[0].Long.Given || w[1].Long != question.Given(4000) {
		t.Errorf("drawn, the walls are %+v", w[:4])
	}
}

// Whatever the room, with the door in one wall after the other all round nothing of it has changed but where the door is; and
// each time the shower and the pipe stand where they stood, as far from the corners of the room.
func TestTheDoorAllRound(t *testing.T) {
	p := practice(t, "UK")
	rapid.Check(t, func(t *rapid.T) {
		s := p.Begin()
		s.Room.Shape = question.Shape(rapid.IntRange(0, 1).Draw(t, "shape"))
		s.Room.Cut.At = question.Quarter(rapid.IntRange(0, 3).Draw(t, "at"))
		for e, most := range map[question.Entry]float64{question.RoomLong: 6000, question.RoomWide: 5000} {
			s = s.With(e, question.Given(rapid.Float64Range(3000, most).Draw(t, string(e))))
		}
		s = s.With(question.CutLong, question.Given(1100)).With(question.CutWide, question.Given(900))
		s.Shower.Stands, s.Shower.Wall = question.InCorner, rapid.IntRange(0, 3).Draw(t, "corner")
		s.Shower.Turned = rapid.Bool().Draw(t, "turned")
		s.Water = question.Water{To: question.GoesIntoPipe, Along: question.Given(rapid.Float64Range(100, 900).Draw(t, "along")), Away: question.Given(400)}
		if rapid.Bool().Draw(t, "drawn") {
			s = p.Draw(s)
		}
		n := len(p.Outline(s))
		places := func(s question.Sheet, from int) (out []float64) {
			o := p.Outline(s)
			st := p.Stand(s)
			for i := range n { // from the corner that A began at
				c := o[(i+from)%n]
				at := plan.Point{s.Water.Along.MM, s.Water.Away.MM}
				out = append(out, c.Sub(at).Len(), c.Sub(o[st.Wall]).Len())
			}
			return append(out, st.OffsetMM, st.LongMM, st.DeepMM)
		}
		next, want := s, places(s, 0)
		for i := range n {
			next = p.DoorIn(next, 1)
			for k, mm := range places(next, n-1-i) {
				if math.Abs(mm-want[k]) > 1e-6 {
					t.Fatalf("the door in the wall %d further on: %v is %v, was %v\n%+v\n%+v", i+1, k, mm, want[k], s, next)
				}
			}
		}
		if next.Room.Shape == s.Room.Shape && next.Shower != s.Shower {
			t.Errorf("all round the shower is %+v, was %+v", next.Shower, s.Shower)
		}
	})
}

// What was said of one wall does not go over to another, what was said of the floor stays.
func TestWhatWasSaidAndAnotherDoor(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin()
	say := func(key string, mm float64) {
		t.Helper()
		e := edit.Edit{}
		if in, ok := job.Find(key); ok {
			e = edit.Number(in, mm)
		} else if l, i, entry, ok := job.InList(key); ok {
			for _, of := range l.Entries() {
				if of.Key == entry {
					e = edit.ItemNumber(l, i, of, &mm)
				}
			}
		}
		next, problems := p.Say(s, key, e)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		s = next
	}
	say("drain.trapDepthMM", 88)
	say("room.walls[1].thicknessMM", 333)
	j := made(t, p, p.DoorIn(s, 1))
	if j.Drain.TrapDepthMM != 88 {
		t.Errorf("the trap is %v deep", j.Drain.TrapDepthMM)
	}
	for i, w := range j.Room.Walls {
		if w.ThicknessMM == 333 {
			t.Errorf("wall %d is 333 thick", i)
		}
	}
}

// A wall with no room for the narrowest door is not offered.
func TestAWallTooShortForADoor(t *testing.T) {
	p := practice(t, "UK")
	s := p.Begin().With(question.RoomLong, question.Given(3000)).With(question.RoomWide, question.Given(2500)).
		With(question.CutLong, question.Given(900)).With(question.CutWide, question.Given(250))
	s.Room.Shape = question.LShaped // far left: A 3000, B 2250, C 900, D 250, E 2100, F 2500
	for wall, want := range []bool{true, true, true, false, true, true} {
		if got := p.TakesDoor(s, wall); got != want {
			t.Errorf("wall %s, %v long: %v", question.Letter(wall), p.WallMM(s, wall), got)
		}
	}
}
