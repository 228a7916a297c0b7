package job_test

import (
	"slices"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// Problems number walls and doorways from one, as people do.
func TestProblemsCountFromOne(t *testing.T) {
	for want, change := range map[string]func(*job.Job){
		// The first wall, along the foot, is crossed by the third.
		"problem.walls-cross{wall: 1, other: 3}": func(j *job.Job) { j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {0, 1900}, {2400, -500}} },
		"problem.corner-twice{next: 2}":          func(j *job.Job) { j.Room.Outline[1] = j.Room.Outline[0] },
		"problem.corner-twice{next: 1}":          func(j *job.Job) { j.Room.Outline[3] = j.Room.Outline[0] },
		"problem.doorways-overlap{other: 1}":     func(j *job.Job) { j.Room.Doorways = append(j.Room.Doorways, j.Room.Doorways[0]) },
		"problem.no-wall{wall: 5, walls: 4}":     func(j *job.Job) { j.Shower.Wall = 4 },
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
