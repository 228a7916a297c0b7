package geometry_test

import (
	"strings"
	"testing"

	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/rule"
)

// A wall's own name is said of what is found at it: of the first demo the core hole through wall B bites the
// slab, and the name stands behind the letter. Without one there is the letter alone.
func TestFindingsCallWallsByTheirNames(t *testing.T) {
	j := demo(t, 1)
	said := func() (out []string) {
		for _, m := range geometry.Evaluate(j, packs(t)[j.Region]).Measured {
			if m.Subject.Of == rule.ExitInWall {
				out = append(out, m.Message().String())
			}
		}
		return out
	}
	wall := j.Waste.Exit.Wall
	letter := j.Room.Letter(wall)
	plain := said()
	j.Room.Walls[wall].Name = "garden wall"
	named := said()
	if len(plain) == 0 || len(plain) != len(named) {
		t.Fatalf("%v, %v", plain, named)
	}
	for i := range plain {
		was, is := message.Wall("wall", letter).Value.String(), letter.String()+" (garden wall)"
		if want := strings.Replace(plain[i], "wall: "+was, "wall: "+is, 1); named[i] != want || want == plain[i] {
			t.Errorf("%s becomes %s, want %s", plain[i], named[i], want)
		}
	}
}
