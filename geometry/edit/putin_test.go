package edit_test

import (
	"testing"

	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/settle"
)

// put is what is put into a job by its path once it is there.
func put(t *testing.T, j job.Job, thing string, after int) edit.Edit {
	t.Helper()
	for _, p := range edit.PutsIn(&j) {
		if p.Thing == thing {
			if after == 0 {
				return p.Edit
			}
			after--
		}
	}
	t.Fatalf("there is no %s to put in", thing)
	return edit.Edit{}
}

// By hand in the starting room of 2400 × 1900, with the door of 760 from 1500 on in its first wall and the shower over
// x = 0 to 1400 from y = 1000 up. A door goes 100 from a corner: in the first wall it has room there. A window of 600
// in the middle of a long wall would be from 900, 50 from the door it ends at 1450 and begins at 850; before the long wall
// at the back the shower stands.
func TestPuttingInByHand(t *testing.T) {
	j := job.New()
	door := put(t, j, "room.doorways[1]", 0).Apply(j).Room.Doorways[1]
	if door.Wall != 0 || door.OffsetMM != 100 || door.WidthMM != 760 {
		t.Errorf("the door is in wall %d at %v", door.Wall, door.OffsetMM)
	}
	window := put(t, j, "room.windows[0]", 0).Apply(j).Room.Windows[0]
	if window.Wall != 0 || window.OffsetMM != 850 || window.WidthMM != 600 {
		t.Errorf("the window is in wall %d at %v", window.Wall, window.OffsetMM)
	}
	kinds := map[job.FixtureKind]bool{}
	for n := range len(job.FixtureKinds().Choices) {
		f := put(t, j, "room.fixtures[0]", n).Apply(j).Room.Fixtures[0]
		kinds[f.Kind] = true
		// The door takes 1500 to 2260 of the first wall, so all go to its start.
		if f.Wall != 0 || f.OffsetMM != 0 {
			t.Errorf("%s is at wall %d, %v", f.Kind, f.Wall, f.OffsetMM)
		}
	}
	if len(kinds) != 4 {
		t.Errorf("fixtures %v", kinds)
	}
	if got := put(t, j, "floor.joists", 0).Apply(j).Floor.Kind; got != job.FloorTimber {
		t.Errorf("a floor of %s", got)
	}
}

// Into every job that Underfall comes with everything can be put, or it is said why not; no opening lies on another, and
// a full list takes no more.
func TestPuttingIntoEveryDemo(t *testing.T) {
	for _, d := range demotest.Rooms(t) {
		for _, p := range edit.PutsIn(&d.Job) {
			s := settle.Do(d.Job, p.Edit)
			if s.Refused != nil {
				if s.Refused.What.IsZero() {
					t.Errorf("%s: %s is refused without a word", d.Job.Name, p.Thing)
				}
				continue
			}
			if len(s.Job.Validate()) > 0 || len(s.Job.Tagged(p.Thing)) == 0 {
				t.Errorf("%s: %s: %v, on its tag %v", d.Job.Name, p.Thing, s.Job.Validate(), s.Job.Tagged(p.Thing))
			}
		}
	}
	j := job.New()
	stacks, _ := job.FindList(job.StacksKey)
	for !stacks.Full(&j) {
		j.Room.Stacks = append(j.Room.Stacks, job.UsualStack(&j))
	}
	for _, p := range edit.PutsIn(&j) {
		if p.Name == "put-in.stack" {
			t.Error("one stack more than there may be")
		}
	}
}

// In walls that are all door there is no room for another: it is refused, and said.
func TestPuttingInWithoutRoom(t *testing.T) {
	j := job.New()
	j.Room.Doorways = nil
	for wall := range j.Room.Outline {
		j.Room.Doorways = append(j.Room.Doorways, job.Doorway{Wall: wall, OffsetMM: 40, WidthMM: j.Room.WallLengthMM(wall) - 80, HeightMM: 2000, Leaf: job.LeafSwings().Usual})
	}
	for _, thing := range []string{"room.doorways[4]", "room.windows[0]"} {
		s := settle.Do(j, put(t, j, thing, 0))
		if s.Refused == nil || s.Refused.What.IsZero() {
			t.Errorf("%s: %+v", thing, s.Refused)
		}
	}
}
