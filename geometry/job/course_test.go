package job_test

import (
	"os"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// A finish that version 4 kept in the room was taken out under the shower, and the room
// had no layers of its own: so it has been found now.
func TestKeptFinishOfVersion4(t *testing.T) {
	data, err := os.ReadFile("testdata/version-4/1-slab-side-wall.json")
	if err != nil {
		t.Fatal(err)
	}
	const before = `"slabThicknessMM": 150,`
	with := strings.Replace(string(data), before, before+` "finishThicknessMM": 18,`, 1)
	for text, want := range map[string]int{string(data): 0, with: 1} {
		j, err := job.Parse([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		if len(j.Floor.Existing) != want || j.Floor.KeepsFinish() != (want == 1) || j.RoomFinished() == (want == 1) {
			t.Errorf("found %v, the room finished: %v", j.Floor.Existing, j.RoomFinished())
		}
		if want == 1 && (j.Floor.Existing[0] != job.Existing{Kind: job.ExistingFinish, ThicknessMM: 18, Out: job.OutShower} || j.KeptUnderBaseMM() != 0 || j.Floor.KeptInRoomMM() != 18) {
			t.Errorf("found %v", j.Floor.Existing)
		}
	}
	if with == string(data) {
		t.Error("the file has no slab of 150")
	}
}

// What lies on a layer that is taken out comes out with it, and a finish is only kept
// where nothing that stays lies on it.
func TestWhatStays(t *testing.T) {
	found := func(kinds ...job.ExistingKind) func(...job.TakenOut) job.Job {
		return func(outs ...job.TakenOut) job.Job {
			j := job.New()
			for i, k := range kinds {
				j.Floor.Existing = append(j.Floor.Existing, job.Existing{Kind: k, ThicknessMM: []float64{1, 20, 300}[i], Out: outs[i]})
			}
			return j
		}
	}
	of := found(job.ExistingInsulation, job.ExistingScreed, job.ExistingFinish)
	upside := found(job.ExistingInsulation, job.ExistingFinish, job.ExistingScreed)
	const stays, shower, all = job.OutNowhere, job.OutShower, job.OutEverywhere
	for name, c := range map[string]struct {
		job          job.Job
		shower, room float64
		kept         bool
	}{
		"nothing goes":            {of(stays, stays, stays), 321, 321, true},
		"the finish goes":         {of(stays, stays, all), 21, 21, false},
		"under the shower":        {of(stays, shower, stays), 1, 321, true},
		"all with the insulation": {of(all, stays, stays), 0, 0, false},
		"the screed, then all":    {of(shower, all, stays), 0, 1, false},
		"screed over the finish":  {upside(stays, stays, stays), 321, 321, false},
	} {
		j := c.job
		if j.KeptUnderBaseMM() != c.shower || j.Floor.KeptInRoomMM() != c.room || j.Floor.KeepsFinish() != c.kept {
			t.Errorf("%s: %v under the base and %v in the room stay, the finish: %v; want %v", name, j.KeptUnderBaseMM(), j.Floor.KeptInRoomMM(), j.Floor.KeepsFinish(), c)
		}
	}
}

// A course lies only where its kind may, and a slab keeps something under its set-down.
func TestCoursesHaveTheirPlaces(t *testing.T) {
	under := func(k job.CourseKind) []job.Course { return []job.Course{{Kind: k}} }
	for name, c := range map[string]struct {
		change func(*job.Job)
		want   message.ID
	}{
		"lining on a wall":         {func(j *job.Job) { j.Layers.Wall.Under = under(job.CourseLining) }, ""},
		"lining on the floor":      {func(j *job.Job) { j.Layers.Room.Under = under(job.CourseLining) }, "problem.unknown-choice"},
		"lining under the base":    {func(j *job.Job) { j.Base.Under = under(job.CourseLining) }, "problem.unknown-choice"},
		"a mat under the base":     {func(j *job.Job) { j.Base.Under = under(job.CourseHeating) }, "problem.unknown-choice"},
		"a mat in the shower":      {func(j *job.Job) { j.Layers.Shower.Under = under(job.CourseHeating) }, ""},
		"a screed in the shower":   {func(j *job.Job) { j.Layers.Shower.Under = under(job.CourseScreed) }, "problem.unknown-choice"},
		"a screed on a wall":       {func(j *job.Job) { j.Layers.Wall.Under = under(job.CourseScreed) }, "problem.unknown-choice"},
		"a set-down to the ground": {func(j *job.Job) { j.Floor.SetDownMM = 150 }, "problem.set-down-too-deep"},
		"a set-down":               {func(j *job.Job) { j.Floor.SetDownMM = 149 }, ""},
		"of no slab":               {func(j *job.Job) { j.Floor.Kind, j.Floor.SetDownMM = job.FloorTimber, 200 }, ""},
	} {
		j := job.New()
		c.change(&j)
		p := j.Validate()
		if c.want == "" && len(p) > 0 || c.want != "" && (len(p) != 1 || p[0].What.ID != c.want) {
			t.Errorf("%s: %v, want %q", name, p, c.want)
		}
	}
}

// How far the tanking reaches, and where a water stop has something to stand on.
func TestReachOfTheTanking(t *testing.T) {
	beyond := 300.0
	stated := &job.Tanking{WallToMM: 1500, BeyondMM: &beyond, DoorStopMM: 5}
	for name, c := range map[string]struct {
		change         func(*job.Job)
		wall, mm, stop float64
		all            bool
	}{
		"not stated":                {func(*job.Job) {}, 2200, 0, 0, true},
		"stated":                    {func(j *job.Job) { j.Layers.Tanking = stated }, 1500, 300, 5, false},
		"walls as high as the tile": {func(j *job.Job) { j.Layers.Tanking = &job.Tanking{} }, 2200, 0, 0, true},
		"no tanking in the room":    {func(j *job.Job) { j.Layers.Tanking, j.Layers.Room.Tanking.ThicknessMM = stated, 0 }, 1500, 0, 5, false},
		"the whole room falls":      {func(j *job.Job) { j.Layers.Tanking, j.Former.Fall = stated, job.FallRoom }, 1500, 0, 5, true},
		"a finish that stays": {func(j *job.Job) {
			j.Layers.Tanking, j.Floor.Existing = stated, []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 9}}
		}, 1500, 0, 0, false},
	} {
		j := job.New()
		c.change(&j)
		if mm, all := j.TankedBeyondMM(); j.Layers.TankedToMM() != c.wall || mm != c.mm || all != c.all || j.DoorStopMM() != c.stop {
			t.Errorf("%s: walls to %v, beyond %v (all %v), stop %v; want %v", name, j.Layers.TankedToMM(), mm, all, j.DoorStopMM(), c)
		}
	}
}
