package job_test

import (
	"slices"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Problems number doorways from one, as people do, and name walls and corners by letters: A along
// the foot, with the door, then B at the left, C and D.
func TestProblemsNameThings(t *testing.T) {
	for want, change := range map[string]func(*job.Job){
		// The first wall, along the foot, is crossed by the third; this outline's area is nought, so
		// that it counts as walked clockwise.
		"problem.walls-cross{wall: A, other: C}": func(j *job.Job) { j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {0, 1900}, {2400, -500}} },
		"problem.corner-twice{next: DA}":         func(j *job.Job) { j.Room.Outline[1] = j.Room.Outline[0] },
		"problem.corner-twice{next: AB}":         func(j *job.Job) { j.Room.Outline[3] = j.Room.Outline[0] },
		"problem.doorways-overlap{other: 1}":     func(j *job.Job) { j.Room.Doorways = append(j.Room.Doorways, j.Room.Doorways[0]) },
		"problem.no-wall{walls: 4, last: D}":     func(j *job.Job) { j.Shower.Wall = 4 },
	} {
		j := job.New()
		j.Room.Outline = slices.Clone(j.Room.Outline)
		change(&j)
		found := []string{}
		for _, p := range j.Validate() {
			found = append(found, p.What.String())
		}
		if !slices.Contains(found, want) {
			t.Errorf("want %s, found %q", want, found)
		}
	}
}

// A nought that is no measure says what it stands for, as its field's help has it; one that is a measure, and any
// other number, says nothing.
func TestNoughtsThatAreNoMeasure(t *testing.T) {
	for key, want := range map[string]message.ID{
		"base.keepZoneMM": "nought.none", "floor.setDownMM": "nought.none", "base.nogginSpacingMM": "nought.none", "base.boardWidthMM": "nought.usual",
		"former.longestMM": "nought.any", "floor.joists.bearingMM": "nought.unknown", "shower.offsetMM": "", "drain.offsetMM": "",
	} {
		p, ok := job.Find(key)
		if !ok {
			t.Fatal(key)
		}
		if got := p.Nought(p.With(job.New(), 0)).ID; got != want {
			t.Errorf("%s: 0 stands for %q, want %q", key, got, want)
		}
		if got := p.Nought(p.With(job.New(), 20)); !got.IsZero() {
			t.Errorf("%s: 20 stands for %v", key, got)
		}
	}
}

// A number whose 0 is no measure is told by what it stands for where it is told with its name: a slab that is not set down has no set
// down of 0 mm, a bearing that nobody knows none of 0 either. Anything else is told as it is.
func TestANoughtIsToldByWhatItStandsFor(t *testing.T) {
	j := job.New()
	j.Floor.SetDownMM, j.Floor.Joists.BearingMM, j.Former.LongestMM, j.Drain.TrapDepthMM = 0, 0, 0, 95
	for key, want := range map[string]string{"floor.setDownMM": "nought.none", "floor.joists.bearingMM": "nought.unknown",
		"former.longestMM": "nought.any", "drain.trapDepthMM": "95 mm"} {
		m := j.Told(key)
		if m.ID != "input.told" || !strings.Contains(m.String(), "value: "+want) {
			t.Errorf("%s: %v", key, m)
		}
	}
}
