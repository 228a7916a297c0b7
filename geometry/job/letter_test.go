package job_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// lettersOf are the letters of a room's walls by their indices, and cornersOf the names of its corners.
func lettersOf(r job.Room) string {
	var out []string
	for i := range r.Outline {
		out = append(out, r.Letter(i).String())
	}
	return strings.Join(out, " ")
}

func cornersOf(r job.Room) string {
	var out []string
	for i := range r.Outline {
		out = append(out, r.Corner(i).String())
	}
	return strings.Join(out, " ")
}

func room(door int, outline ...plan.Point) job.Room {
	r := job.Room{Outline: outline, Walls: make([]job.Wall, len(outline))}
	if door >= 0 {
		r.Doorways = []job.Doorway{{Wall: door, WidthMM: 700}, {Wall: (door + 1) % len(outline), WidthMM: 700}}
	}
	return r
}

// A room 3000 by 2000, seen from above with y upwards. Walked anticlockwise its walls are front, right,
// back and left; who stands in a door looking in has the wall on the left that comes next clockwise:
// front, left, back, right. Walked clockwise from the same corner they are left, back, right and front.
func TestLettersOfARectangle(t *testing.T) {
	anticlockwise := []plan.Point{{0, 0}, {3000, 0}, {3000, 2000}, {0, 2000}}
	clockwise := []plan.Point{{0, 0}, {0, 2000}, {3000, 2000}, {3000, 0}}
	for _, c := range []struct {
		what             string
		outline          []plan.Point
		door             int
		letters, corners string // of front right, back … as they are walked
	}{
		// Corners anticlockwise: front left, front right, back right, back left.
		{"door in front", anticlockwise, 0, "A D C B", "AB DA CD BC"},
		{"door at the right", anticlockwise, 1, "B A D C", "BC AB DA CD"},
		{"door at the back", anticlockwise, 2, "C B A D", "CD BC AB DA"},
		{"door at the left", anticlockwise, 3, "D C B A", "DA CD BC AB"},
		// Corners clockwise: front left, back left, back right, front right.
		{"clockwise, door at the left", clockwise, 0, "A B C D", "DA AB BC CD"},
		{"clockwise, door at the back", clockwise, 1, "D A B C", "CD DA AB BC"},
		{"clockwise, door at the right", clockwise, 2, "C D A B", "BC CD DA AB"},
		{"clockwise, door in front", clockwise, 3, "B C D A", "AB BC CD DA"},
		{"no door", anticlockwise, -1, "A D C B", "AB DA CD BC"},
		{"clockwise, no door", clockwise, -1, "A B C D", "DA AB BC CD"},
		{"a door in no wall", anticlockwise, 9, "A D C B", "AB DA CD BC"},
	} {
		r := room(c.door, c.outline...)
		if letters, corners := lettersOf(r), cornersOf(r); letters != c.letters || corners != c.corners {
			t.Errorf("%s: walls %s, corners %s; want %s, %s", c.what, letters, corners, c.letters, c.corners)
		}
	}
}

// An L walked anticlockwise from the front left: front, right of the foot, top of the foot, right of the
// upright, back, left. With the door in the top of the foot, its left (looking in, to the front) is the
// right of the foot: then front, left, back, right of the upright.
func TestLettersOfAnL(t *testing.T) {
	r := room(2, plan.Point{0, 0}, plan.Point{3000, 0}, plan.Point{3000, 1000}, plan.Point{1500, 1000}, plan.Point{1500, 2500}, plan.Point{0, 2500})
	if got := lettersOf(r); got != "C B A F E D" {
		t.Errorf("walls %s, want C B A F E D", got)
	}
	if got := cornersOf(r); got != "CD BC AB FA EF DE" {
		t.Errorf("corners %s, want CD BC AB FA EF DE", got)
	}
	want := []int{2, 1, 0, 5, 4, 3}
	if got := r.InOrder(); !slices.Equal(got, want) {
		t.Errorf("in order %v, want %v", got, want)
	}
	// Looking in one looks to the front: the left wall is on the right.
	for wall, where := range []message.ID{"wall.ahead", "wall.left", "wall.come-in-by", "wall.left", "wall.behind", "wall.right"} {
		if got := r.Called(wall).ID; got != where {
			t.Errorf("wall %d is called %s, want %s", wall, got, where)
		}
	}
	if none := r.Letter(6); none != 0 || none.String() != "–" || r.Letter(-1) != 0 || r.Corner(6) != (message.Corner{}) {
		t.Errorf("a wall that is not there is called %s", none)
	}
}

// Wherever a room is begun to be walked, and either way round, the same letters are at the same places.
func TestLettersStayWhereTheyAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// A star about a point, with corners in order of their direction, anticlockwise.
		n := rapid.IntRange(3, 40).Draw(t, "corners")
		var outline []plan.Point
		for i := range n {
			far := rapid.Float64Range(1500, 4000).Draw(t, "far")
			outline = append(outline, plan.DirectionDeg(360/float64(n)*float64(i)).Mul(far))
		}
		door := rapid.IntRange(0, n-1).Draw(t, "door")
		r := room(door, outline...)
		// The wall from outline[k] to outline[k+1] is told by its middle.
		at := func(r *job.Room, wall int) plan.Point {
			return r.Outline[wall].Add(r.Outline[(wall+1)%n]).Mul(0.5)
		}
		start := rapid.IntRange(0, n-1).Draw(t, "start")
		other := room(-1, slices.Concat(outline[start:], outline[:start])...)
		otherDoor := (door - start + n) % n
		if rapid.Bool().Draw(t, "clockwise") {
			slices.Reverse(other.Outline)
			otherDoor = (2*n - 2 - otherDoor) % n
		}
		other.Doorways = []job.Doorway{{Wall: otherDoor}}
		j := job.Job{Room: r, Floor: job.Floor{Kind: job.FloorTimber, Joists: job.Joists{DirectionDeg: rapid.Float64Range(0, 360).Draw(t, "joists")}}}
		k := j
		k.Room = other
		if a, b := j.JoistsFrom(), k.JoistsFrom(); a != b || a == 0 {
			t.Fatalf("joists are counted from %s, or walked otherwise from %s", a, b)
		}
		for wall := range n {
			again := slices.IndexFunc(r.Outline, func(plan.Point) bool { return false })
			for i := range n {
				if at(&r, wall).Sub(at(&other, i)).Len() < 1e-6 {
					again = i
				}
			}
			if again < 0 || r.Letter(wall) != other.Letter(again) || r.Called(wall).String() != other.Called(again).String() {
				t.Fatalf("the wall %s is called %s where it is walked otherwise", r.Called(wall), other.Called(again))
			}
			// The corner at its start is that wall's start, or the next one's where it is walked the other way.
			for i := range n {
				if r.Outline[wall].Sub(other.Outline[i]).Len() < 1e-6 && r.Corner(wall) != other.Corner(i) {
					t.Fatalf("the corner %s is called %s where it is walked otherwise", r.Corner(wall), other.Corner(i))
				}
			}
		}
		if a := r.Letter(door); a != 1 {
			t.Fatalf("the wall with the door is called %s", a)
		}
	})
}

// Joists that run to the back, 90°, are counted from the right, those to the right, 0°, from the front,
// those to the front, 270°, from the left and those to the left, 180°, from the back; up to 40° off as
// those. Door in front: A front, B left, C back, D right.
func TestWhichWallJoistsAreCountedFrom(t *testing.T) {
	j := job.New()
	j.Floor.Kind = job.FloorTimber
	j.Room.Outline = []plan.Point{{0, 0}, {3000, 0}, {3000, 2000}, {0, 2000}}
	for deg, want := range map[float64]string{0: "A", 40: "A", 50: "D", 90: "D", 130: "D", 140: "C", 180: "C", 230: "B", 270: "B", 310: "B", 320: "A", -90: "B"} {
		j.Floor.Joists.DirectionDeg = deg
		if got := j.JoistsFrom().String(); got != want {
			t.Errorf("joists at %v° are counted from %s, want %s", deg, got, want)
		}
	}
	// An L: right of the foot at x = 3000, F, and of the upright at 1500, D; the first joist is at the foot,
	// even where the upright's wall runs a little more along the joists.
	j.Room.Outline = []plan.Point{{0, 0}, {3000, 0}, {2970, 1000}, {1500, 1000}, {1500, 2500}, {0, 2500}}
	j.Floor.Joists.DirectionDeg = 90
	if got := j.JoistsFrom().String(); got != "F" {
		t.Errorf("joists of an L are counted from %s, want F", got)
	}
	j.Floor.Kind = job.FloorSlab
	if got := j.JoistsFrom(); got != 0 {
		t.Errorf("without joists they are counted from %s", got)
	}
}

// The shower's place is told from the corner that its wall starts in; where the shower stands in another, its field says so, and
// calls it as everything else does.
func TestThePlaceOfTheShowerSaysItsCorner(t *testing.T) {
	j := job.New()
	wall := j.Shower.Wall
	long := j.Room.WallLengthMM(wall)
	start, end := j.Room.Corner(wall), j.Room.Corner((wall+1)%len(j.Room.Outline))
	for _, c := range []struct {
		offsetMM float64
		in       message.Corner // none where it stands in none
		named    string
	}{
		{0, start, "named.from-corner"},
		{(long - j.Shower.WidthMM) / 2, message.Corner{}, "named.from-corner"},
		{long - j.Shower.WidthMM, end, "named.from-corner-in"},
	} {
		j.Shower.OffsetMM = c.offsetMM
		in, ok := j.ShowerCorner()
		named, _ := j.Named("shower.offsetMM")
		if in != c.in || ok != (c.in != message.Corner{}) || string(named.ID) != c.named {
			t.Errorf("%v from corner %v: it stands in %v, %v and is named %v", c.offsetMM, start, in, ok, named)
		}
	}
}
