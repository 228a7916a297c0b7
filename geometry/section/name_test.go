package section_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// nameOf is the name whose fullest text is a message.
func nameOf(t *testing.T, d section.Drawing, text string) section.Name {
	t.Helper()
	i := slices.IndexFunc(d.Names, func(n section.Name) bool { return n.Texts[0].String() == text })
	if i < 0 {
		t.Fatalf("nothing is named %s: %v", text, d.Names)
	}
	return d.Names[i]
}

// The walls of the starting room, 2400 by 1900 with walls of 100, 100, 215 and 215, have their
// letters, A at the front with the door, D at the right, C and B, in the middle of each and of its thickness, but for what stands there: a doorway from
// 1500 to 2260 of the front wall takes its shares from 0.63 on, a window from 800 to 1200 of the
// left one those from 0.42 to 0.63, just not the 798 of 0.42.
func TestWallsHaveLetters(t *testing.T) {
	d := section.PlanOf(starting(t, func(j *job.Job) {
		j.Room.Windows = []job.Window{{Wall: 3, OffsetMM: 800, WidthMM: 400, SillMM: 900, HeightMM: 900}}
	}))
	for i, want := range []plan.Point{{1200, -50}, {2450, 950}, {1200, 1900 + 107.5}, {-107.5, 1900 - 0.42*1900}} {
		letter := [...]message.Letter{1, 4, 3, 2}[i]
		n := nameOf(t, d, fmt.Sprintf("part.wall{wall: %s}", letter))
		expectPoint(t, "wall", n.Places[0].At, want)
		if !n.First || n.Places[0].Side.Len() > 0 || n.Disc != letter || n.BroadMM != [...]float64{100, 100, 215, 215}[i] {
			t.Errorf("wall %d: %+v", i+1, n)
		}
	}
	if n := len(nameOf(t, d, "part.wall{wall: A}").Places); n != 2*(9-3) { // not at 0.66, 0.75 and 0.85
		t.Errorf("%d places for the wall with a doorway", n)
	}
	// The corner of the walls A and B, as its ring stands outside it: 215 to the left and 100 to the front.
	ab := nameOf(t, d, "place.corner{corner: AB}")
	expectPoint(t, "corner", ab.Places[0].At, plan.Point{-215, -100})
	if side := ab.Places[0].Side; side.Sub(plan.Point{-1, -1}).Len() > 1e-9 || ab.Ring != (message.Corner{1, 2}) {
		t.Errorf("corner AB: %+v", ab)
	}
	expectPoint(t, "window", nameOf(t, d, "item.room.windows{n: 1}").Places[0].At, plan.Point{-107.5, 900})
}

// The name of a joist lies on it or beside it, and on no other: where that is too narrow it is shorter, or left out.
func TestAJoistsNameLiesOnNoOther(t *testing.T) {
	d := section.PlanOf(starting(t, joistsToTheBack))
	for i, x := range []float64{2400, 1200, 0} {
		n := nameOf(t, d, fmt.Sprintf("%s{n: %d, wall: D}", [...]string{"part.joist", "name.joist", "name.joist"}[i], i+1))
		for _, other := range []float64{2400, 1200, 0} {
			if in := n.In.Contains(plan.Point{other, 900}, 0); in != (other == x) {
				t.Errorf("the name of the joist at %v may lie on that at %v: %v", x, other, in)
			}
		}
	}
}

// The joists of joistsToTheBack are numbered 4 in 100 of their length, 76 of 1900, from an end; a
// joist that is cut has one number for both its pieces.
func TestJoistsAreNumbered(t *testing.T) {
	d := section.PlanOf(starting(t, joistsToTheBack))
	for i, x := range []float64{2400, 1200, 0} {
		n := nameOf(t, d, fmt.Sprintf("%s{n: %d, wall: D}", [...]string{"part.joist", "name.joist", "name.joist"}[i], i+1))
		expectPoint(t, "joist", n.Places[0].At, plan.Point{x, 76})
	}
	cut := section.PlanOf(starting(t, joistCut))
	numbers := map[string]int{}
	for _, n := range cut.Names {
		if id := n.Texts[0].ID; id == "part.joist" || id == "name.joist" || id == "name.joist-doubled" {
			numbers[n.Texts[0].String()]++
		}
	}
	if len(numbers) != 5 || numbers["name.joist{n: 3, wall: A}"] != 1 {
		t.Errorf("joists are numbered %v", numbers)
	}
}

// The starting floor falls 1 in 50 to the drain at the back, over 817 from the front edge to the
// drain's: its tile lies 16.3 higher there. The level and step of the edge and of the doorway are
// those of the schedule.
func TestLevelsInPlan(t *testing.T) {
	r := starting(t)
	d := section.PlanOf(r)
	tiles := map[plan.Point]float64{}
	for _, n := range d.Names {
		if n.Texts[0].ID == section.MarkTile {
			if !n.Dot || len(n.Places) == 0 {
				t.Errorf("%+v has no dot", n)
				continue
			}
			tiles[n.Places[0].At] = n.Texts[0].Args[0].Value.(message.Level).MM
		}
	}
	front, back := tiles[plan.Point{0, 1000}], tiles[plan.Point{0, 1900}]
	if len(tiles) != 4 || !(math.Abs(front-back-817/50.0) <= 1e-6) || !(math.Abs(front-tiles[plan.Point{1400, 1000}]) <= 1e-6) {
		t.Errorf("tile is written at %v", tiles)
	}
	rows := map[buildup.RowOf][]float64{}
	for _, row := range r.Schedule {
		rows[row.ID.Of] = append(rows[row.ID.Of], row.Value)
	}
	// From the room's floor, at 13, and from that beyond the doorway, at 20.
	rise := func(from, step float64) message.Arg {
		return message.Arg{Name: "step", Value: message.Rise{FromMM: from, ToMM: from + step}}
	}
	// The glass leaves 13 and 45 of the right edge: nobody steps over that.
	if len(rows[buildup.EdgeStep]) != 1 {
		t.Fatalf("%d edges that are stepped over", len(rows[buildup.EdgeStep]))
	}
	nameOf(t, d, message.Of("name.step", rise(13, rows[buildup.EdgeStep][0])).String())
	// The opening is 2040 over a floor of +20, which is the higher one.
	doorway := message.Of("name.doorway-lip-down", message.In("doorway", message.Of("place.doorway", message.No("n", 1))),
		message.At("level", rows[buildup.DoorFloor][0]), rise(20, rows[buildup.DoorStep][0]))
	door := nameOf(t, d, message.Of("name.doorway-clear", message.In("doorway", doorway), message.MM("height", 2040)).String())
	expectPoint(t, "doorway", door.Places[0].At, plan.Point{1880, -50})
	if len(door.Texts) != 3 || door.Texts[1].String() != doorway.String() || door.Texts[2].String() != "place.doorway{n: 1}" {
		t.Errorf("the doorway without room says %v", door.Texts)
	}
	// The drain's edge is 13 + 70 from the back wall, at 108; the ceiling, at 2400, lowest over
	// where people stand 300 in from the front: at 108 + (817 − 300)/50.
	at := nameOf(t, d, message.Of("name.tile-at-drain", message.At("level", 108)).String())
	expectPoint(t, "drain", at.Places[0].At, plan.Point{700, 1817})
	nameOf(t, d, message.Of("dimension.headroom", message.MM("height", 2400-108-517/50.0)).String())
	fall := nameOf(t, d, message.Of("name.fall", message.Slope("fall", 0.02)).String())
	if !fall.In.Contains(plan.Point{700, 1400}, 0) {
		t.Error("the fall may stand off its plane")
	}
}

// A lip that goes down says so, and has no sign: the slab lies 150 lower under the shower, 20 over the bare height of which
// lies the room's floor.
func TestStepsDownInPlan(t *testing.T) {
	d := section.PlanOf(starting(t, func(j *job.Job) { j.Floor.SetDownMM, j.Floor.SlabThicknessMM = 150, 300 }))
	for _, n := range d.Names {
		if n.Texts[0].ID != "name.lip" && n.Texts[0].ID != "name.lip-down" {
			continue
		}
		step, ok := n.Texts[0].Args[0].Value.(message.Rise)
		if n.Texts[0].ID != "name.lip-down" || !ok || step.Signed || step.ToMM >= step.FromMM {
			t.Errorf("it says %v", n.Texts[0])
		}
		return
	}
	t.Error("no step is written")
}

// Planes have numbers where there are several: to a drain at a point they are four.
func TestPlanesAreNumbered(t *testing.T) {
	d := section.PlanOf(starting(t, falls(job.FallPoint)))
	numbered := 0
	for _, n := range d.Names {
		if n.Texts[0].ID == "name.plane-fall" {
			numbered++
			if n.Texts[1].ID != "name.fall" || n.Texts[2].ID != "name.plane" {
				t.Errorf("without room it says %v", n.Texts[1:])
			}
		}
	}
	if numbered != 4 {
		t.Errorf("%d planes are numbered", numbered)
	}
}

// The leaf of the starting job's door opens outwards about its far end, at x = 2260, on the outer
// face of a wall of 100: it passes over a quarter of 760 about there. The walls are looked at first, and
// the leaf shows as far as it goes.
func TestLeafBeyondTheWall(t *testing.T) {
	d := section.PlanOf(starting(t))
	swings := linesOf(d, "door-beyond")
	if len(swings) != 1 || !swings[0].Dashed {
		t.Fatalf("%+v", swings)
	}
	points := swings[0].Points
	expectPoint(t, "hinge", points[0], plan.Point{2260, -100})
	expectPoint(t, "shut", points[1], plan.Point{1500, -100})
	expectPoint(t, "open", points[len(points)-2], plan.Point{2260, -860})
	expectPoint(t, "all", plan.Point{0, d.Low.Y()}, plan.Point{0, -860})
	expectPoint(t, "looked at", plan.Point{0, d.FocusLow.Y()}, plan.Point{0, -100})
	lowest := math.Inf(1)
	for _, p := range d.Shows {
		lowest = math.Min(lowest, p.Y())
	}
	expectPoint(t, "shows", plan.Point{0, lowest}, plan.Point{0, -860})
}

// A section through the drain cuts the front wall A and the back wall C of the starting room, and the long
// section of the waste the left wall B above and below the pipe: each has its letter once, in the middle
// of its thickness.
func TestSectionsHaveLettersOfWalls(t *testing.T) {
	r := starting(t, func(*job.Job) {})
	for what, c := range map[string]struct {
		d    section.Drawing
		want []message.Letter
	}{
		"through the drain": {section.Of(r, section.ThroughDrain(r), buildup.StageTile), []message.Letter{1, 3}},
		"along the waste":   {section.LongOf(r), []message.Letter{2}},
	} {
		var got []message.Letter
		for _, n := range c.d.Names {
			if n.Disc == 0 {
				continue
			}
			got = append(got, n.Disc)
			for _, at := range n.Places {
				if a, ok := c.d.At(at.At); !ok || a.Name.String() != n.Texts[0].String() {
					t.Errorf("%s: the letter %s stands in %v", what, n.Disc, a.Name)
				}
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: letters %v, want %v", what, got, c.want)
		}
	}
}

// A wall is as long in plan as it is told to be elsewhere: one that runs 40 askew over 1900 is √(1900² + 40²) = 1900.4 long,
// which a tape reads as 1900.
func TestWallsAreReadInWholeMillimetres(t *testing.T) {
	d := section.PlanOf(starting(t, func(j *job.Job) { j.Room.Outline[2] = plan.Point{2440, 1900} }))
	for _, m := range d.Dimensions {
		if m.Key != "room.walls[1]" {
			continue
		}
		if v, ok := m.Text.Args[0].Value.(message.Length); !ok || unit.Rounded(v.MM, v.Round, unit.Metric) != "1900 mm" {
			t.Errorf("it says %v", m.Text)
		}
		return
	}
	t.Error("the wall has no dimension")
}
