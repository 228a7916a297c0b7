package job

import (
	"math"

	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// lettering is which wall is A, by its index, and which way through the walls as they are stored
// the letters run: clockwise as seen from above, to the left of who stands in the door looking in.
// The wall of the first doorway is A; without a doorway the first wall.
func (r *Room) lettering() (first, step int) {
	if len(r.Doorways) > 0 {
		if w := r.Doorways[0].Wall; w >= 0 && w < len(r.Outline) {
			first = w
		}
	}
	if plan.Ring(r.Outline).SignedArea() > 0 {
		return first, -1
	}
	return first, 1
}

// Letter is what a wall is called, by its index; none where the room has no such wall.
func (r *Room) Letter(wall int) message.Letter {
	n := len(r.Outline)
	if wall < 0 || wall >= n {
		return 0
	}
	first, step := r.lettering()
	return message.Letter((step*(wall-first)+n)%n + 1)
}

// Wall is a wall in a text, by its index: its letter, and its own name where it has one.
func (r *Room) Wall(name string, wall int) message.Arg {
	called := ""
	if wall >= 0 && wall < len(r.Walls) {
		called = r.Walls[wall].Name
	}
	return message.WallCalled(name, r.Letter(wall), called)
}

// LastLetter is that of the last wall.
func (r *Room) LastLetter() message.Letter { return message.Letter(len(r.Outline)) }

// Corner is what the corner is called that a wall starts in, by the wall's index.
func (r *Room) Corner(wall int) message.Corner {
	n := len(r.Outline)
	if wall < 0 || wall >= n {
		return message.Corner{}
	}
	ends := wall // the wall that ends there as the letters run
	if _, step := r.lettering(); step > 0 {
		ends = (wall + n - 1) % n
	}
	return r.Letter(ends).Corner(n)
}

// InOrder are the walls in the order of their letters, by their indices.
func (r *Room) InOrder() []int {
	first, step := r.lettering()
	n := len(r.Outline)
	out := make([]int, n)
	for i := range out {
		out[i] = (first + step*i + n) % n
	}
	return out
}

// Called is what a wall is called where one of them is chosen, by its index: its letter, and where it
// is for who comes in by the first doorway.
func (r *Room) Called(wall int) message.Message {
	letter := r.Wall("wall", wall)
	if len(r.Doorways) == 0 || r.Letter(wall) == 0 {
		return message.Of("wall.called", letter)
	}
	first, _ := r.lettering()
	if wall == first {
		return message.Of("wall.come-in-by", letter)
	}
	in, out := r.outward(first).Mul(-1), r.outward(wall)
	ahead, left := out.Dot(in), out.Dot(plan.Left(in))
	switch {
	case ahead >= math.Abs(left):
		return message.Of("wall.ahead", letter)
	case left >= math.Abs(ahead):
		return message.Of("wall.left", letter)
	case -left >= math.Abs(ahead):
		return message.Of("wall.right", letter)
	}
	return message.Of("wall.behind", letter)
}

// outward is the way out of the room, square to a wall.
func (r *Room) outward(wall int) plan.Point {
	outline := plan.Ring(r.Outline)
	out := plan.Left(outline[(wall+1)%len(outline)].Sub(outline[wall]).Normalize())
	if outline.SignedArea() > 0 {
		out = out.Mul(-1)
	}
	return out
}

// sameWayDeg is how far walls may be off each other's direction and still run the same way, as in a
// room that is not square. Common practice, no source.
const sameWayDeg = 5

// JoistsFrom is the letter of the wall that the joists are counted from: on their right-hand side, where
// the first one is. None without joists.
func (j *Job) JoistsFrom() message.Letter {
	if !timber(*j) {
		return 0
	}
	return j.Room.wallTowards(plan.Left(plan.DirectionDeg(j.Floor.Joists.DirectionDeg)).Mul(-1))
}

// joistsAlongFrom tells whether joists run along the wall that they are counted from, as far as degrees are read.
func (j *Job) joistsAlongFrom() bool {
	const readDeg = 0.05
	way := plan.DirectionDeg(j.Floor.Joists.DirectionDeg)
	for i := range j.Room.Outline {
		if j.Room.Letter(i) == j.JoistsFrom() && j.JoistsFrom() != 0 {
			return math.Abs(j.Room.outward(i).Dot(way)) < math.Sin(readDeg*math.Pi/180)
		}
	}
	return false
}

// AlongJoistsFrom is that of the wall that distances along the joists are told from, at their start.
func (j *Job) AlongJoistsFrom() message.Letter {
	if !timber(*j) {
		return 0
	}
	return j.Room.wallTowards(plan.DirectionDeg(j.Floor.Joists.DirectionDeg).Mul(-1))
}

// wallTowards is the letter of the wall on a side of the room, by the way to it: of those that run most
// nearly square to that way the outermost; none where the room has no such wall.
func (r *Room) wallTowards(side plan.Point) message.Letter {
	n := len(r.Outline)
	off := func(i int) float64 {
		return math.Acos(math.Max(-1, math.Min(1, r.outward(i).Dot(side)))) * 180 / math.Pi
	}
	reach := func(i int) float64 { return r.Outline[i].Add(r.Outline[(i+1)%n]).Dot(side) / 2 }
	walls := r.InOrder()
	least := math.Inf(1)
	for _, i := range walls {
		least = math.Min(least, off(i))
	}
	wall := -1
	for _, i := range walls {
		if off(i) <= least+sameWayDeg && (wall < 0 || reach(i) > reach(wall)+plan.HairMM) {
			wall = i
		}
	}
	return r.Letter(wall)
}

// WallAlong is the wall, by its index, that a distance from its start corner is stated along, by that
// distance's path in a job's file; ok is false for anything else, and at no wall of the room.
func (j *Job) WallAlong(key string) (wall int, ok bool) {
	wall = -1
	switch key {
	case showerOffsetKey:
		wall = j.Shower.Wall
	case exitOffsetKey:
		wall = j.Waste.Exit.Wall
	default:
		l, i, entry, in := InList(key)
		if !in || entry != "offsetMM" || i >= l.Count(j) {
			return wall, false
		}
		for _, e := range l.entries {
			if e.Wall != nil {
				wall = *e.Wall(j, i)
			}
		}
	}
	return wall, j.Room.Letter(wall) != 0
}

// Named is what an input is called, by its path, where only the job can tell: from which corner it is
// measured, or from which wall something is or joists are counted; ok is false for any other.
func (j *Job) Named(key string) (m message.Message, ok bool) {
	if in, ok := j.ShowerCorner(); ok && key == showerOffsetKey && in != j.Room.Corner(j.Shower.Wall) {
		return message.Of("named.from-corner-in", message.AtCorner("corner", j.Room.Corner(j.Shower.Wall)), message.AtCorner("in", in)), true
	}
	if wall, ok := j.WallAlong(key); ok {
		return message.Of("named.from-corner", message.AtCorner("corner", j.Room.Corner(wall))), true
	}
	if m, ok := j.placedFrom(key); ok {
		return m, true
	}
	l, i, entry, _ := InList(key)
	switch {
	case key == ExitInvertKey && j.Waste.Exit.Level.Kind() == ExitNotBelow:
		return message.Of("named.exit-least"), true
	case l.Key == WallsKey && entry == "firstStudMM" && j.Room.Letter(i) != 0:
		return message.Of("named.first-stud", message.AtCorner("corner", j.Room.Corner(i))), true
	case l.Key == DoorwaysKey && entry == "hingeAtStart" && i < len(j.Room.Doorways) && j.Room.Letter(j.Room.Doorways[i].Wall) != 0:
		return message.Of("named.hinged", message.AtCorner("corner", j.Room.Corner(j.Room.Doorways[i].Wall))), true
	case !timber(*j):
		return m, false
	}
	from := message.Wall("wall", j.JoistsFrom())
	switch {
	case key == "floor.joists.directionDeg" && j.joistsAlongFrom():
		return message.Of("named.joists-along", from), true
	case key == "floor.joists.firstOffsetMM":
		return message.Of("named.first-joist", from), true
	case key == "floor.joists.supportsMM":
		return message.Of("named.joist-supports", message.Wall("wall", j.AlongJoistsFrom())), true
	case l.Key == TrimsKey && entry == "joist":
		return message.Of("named.first-joist-cut", from), true
	}
	return m, false
}

// ShowerCorner is the corner that the shower stands in; ok is false for one that stands in none.
func (j *Job) ShowerCorner() (corner message.Corner, ok bool) {
	if j.Room.Letter(j.Shower.Wall) == 0 {
		return corner, false
	}
	switch start, end := j.ShowerInCorner(); {
	case start:
		return j.Room.Corner(j.Shower.Wall), true
	case end:
		return j.Room.Corner((j.Shower.Wall + 1) % len(j.Room.Outline)), true
	}
	return corner, false
}

// The paths of distances along walls that are no list's.
const (
	showerOffsetKey = "shower.offsetMM"
	exitOffsetKey   = "waste.exit.offsetMM"
)

// JoistNamed is a joist by its number, counted from a wall.
func JoistNamed(n int, from message.Letter) message.Message {
	return message.Of("subject.joist", message.No("number", n), message.Wall("wall", from))
}
