package job_test

import (
	"math"
	"strings"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// readDown is the starting room with the laser's line 1000 over the datum, and three points read, 77, 13 and -4 high.
func readDown() job.Job {
	j := job.New()
	setUps, _ := job.FindList(job.SetUpsKey)
	setUps.Add(&j)
	for _, r := range []struct {
		at   plan.Point
		down float64
	}{{plan.Point{300, 400}, 923}, {plan.Point{1900, 400}, 987}, {plan.Point{1200, 1500}, 1004}} {
		j = edit.Read(r.at, r.down).Apply(j)
	}
	return j
}

func levels(j job.Job) (out []float64) {
	for _, s := range j.SpotLevels {
		out = append(out, s.LevelMM)
	}
	return out
}

func sameLevels(a, b []float64) bool {
	for i := range a {
		if i >= len(b) || math.Abs(a[i]-b[i]) > 1e-5 {
			return false
		}
	}
	return len(a) == len(b)
}

// Readings down from the line are levels, beside those that are stated; the line is read back off any of them.
func TestReadingsDown(t *testing.T) {
	j := readDown()
	j.SpotLevels = append([]job.SpotLevel{{At: plan.Point{100, 100}, LevelMM: 5}}, j.SpotLevels...)
	if got := levels(j); !sameLevels(got, []float64{5, 77, 13, -4}) {
		t.Errorf("levels %v", got)
	}
	if p := j.Validate(); len(p) > 0 {
		t.Error(p)
	}
	if got, ok := j.Laser.ReadDownMM(129); !ok || math.Abs(got-871) > 1e-5 {
		t.Errorf("a level of 129 is read at %v", got)
	}
	if got, ok := j.Laser.LevelOfMM(871); !ok || math.Abs(got-129) > 1e-5 {
		t.Errorf("read at 871 it is %v", got)
	}
	if _, ok := new(job.Laser).ReadDownMM(0); ok {
		t.Error("read down from no line")
	}
}

// Without a known point nothing is assumed of the line but by the first reading, which leaves its point as high as it was, read at
// whatever: the others lie over and under that. So it is where the first is typed over, where the laser is moved, and beside a level that
// is stated. A known point, once stated, gives the line.
func TestTheFirstReadingGivesTheLine(t *testing.T) {
	at := [...]plan.Point{{770, 800}, {1500, 380}, {2070, 950}}
	read := func(j job.Job, down ...float64) job.Job {
		for i, mm := range down {
			j = edit.Read(at[i], mm).Apply(j)
		}
		return j
	}
	j := read(job.New(), 1203, 1200, 1207)
	if got := levels(j); !sameLevels(got, []float64{0, 3, -4}) {
		t.Errorf("levels %v", got)
	}
	if mm, ok := j.Laser.TakenLineMM(); !ok || mm != 1203 {
		t.Errorf("the line is taken as %v, %v", mm, ok)
	}
	if p := j.Validate(); len(p) > 0 {
		t.Error(p)
	}
	moved := edit.Read(at[1], 1000).Apply(edit.MoveLaser(0, 1003).Apply(j))
	if got := levels(moved); !sameLevels(got, []float64{0, 3, -4, 0, 3}) {
		t.Errorf("the laser moved, levels %v", got)
	}
	typed := j.Clone()
	l, _ := job.FindList(job.ReadingsKey)
	added := job.New()
	l.Add(&added)
	if got := levels(added); !sameLevels(got, []float64{0}) {
		t.Errorf("added in the list, levels %v", got)
	}
	added.Laser.Readings[0].DownMM = 1203
	if added.WorkOut(); !sameLevels(levels(added), []float64{0}) {
		t.Errorf("typed over, levels %v", levels(added))
	}
	low := -200.0
	typed.Laser.SetUps[0] = job.SetUp{LevelMM: &low, DownMM: 1403}
	if typed.WorkOut(); !sameLevels(levels(typed), []float64{0, 3, -4}) {
		t.Errorf("from a known point, levels %v", levels(typed))
	}
	if _, ok := typed.Laser.TakenLineMM(); ok {
		t.Error("a line that is known is taken")
	}
	stated := job.New()
	stated.SpotLevels = []job.SpotLevel{{At: plan.Point{1000, 1000}, LevelMM: 7}, {At: plan.Point{100, 100}, LevelMM: 5}}
	if got := levels(read(stated, 1203, 1200)); !sameLevels(got, []float64{7, 5, 7, 10}) {
		t.Errorf("beside stated levels, levels %v", got)
	}
}

// The laser moved: a point read again, at 960, has the new line at 1037; what is then read is 37 lower on the staff.
func TestLaserMoved(t *testing.T) {
	j := edit.MoveLaser(0, 960).Apply(readDown())
	j = edit.Read(plan.Point{2000, 1500}, 1017).Apply(j)
	if got := levels(j); !sameLevels(got, []float64{77, 13, -4, 77, 20}) {
		t.Errorf("levels %v", got)
	}
	if line, ok := j.Laser.LineMM(1); !ok || math.Abs(line-1037) > 1e-5 {
		t.Errorf("the line is at %v", line)
	}
	if got, _ := j.Laser.ReadDownMM(0); math.Abs(got-1037) > 1e-5 {
		t.Errorf("the datum is read at %v", got)
	}
	if d := j.Laser.Doubts(); len(d) > 0 {
		t.Errorf("doubts %v", d)
	}
	// Without the common point nothing ties the new line.
	l, _ := job.FindList(job.ReadingsKey)
	l.Remove(&j, 3)
	if p := j.Validate(); len(p) != 1 || p[0].What.ID != "problem.set-up-untied" || p[0].Key != "laser.setUps[1]" {
		t.Errorf("%v", p)
	}
	// The first set-up gone, its readings go, and the others are of the first.
	s, _ := job.FindList(job.SetUpsKey)
	s.Remove(&j, 0)
	if len(j.Laser.Readings) != 1 || j.Laser.Readings[0].SetUp != 1 {
		t.Errorf("%v", j.Laser.Readings)
	}
}

// Two readings of one point 4 apart are both kept, and asked about; 2 apart they are not.
func TestDoubtfulReadings(t *testing.T) {
	j := readDown()
	for down, want := range map[float64]int{989: 0, 991: 1} {
		k := edit.Read(plan.Point{1900, 400}, down).Apply(j)
		d := k.Laser.Doubts()
		if len(d) != want || len(k.SpotLevels) != 4 {
			t.Errorf("read again at %v: doubts %v, levels %v", down, d, levels(k))
		}
		l, _ := job.FindList(job.ReadingsKey)
		if said := l.Said(&k); len(said) != want || want == 1 && said[0].ID != "laser.doubt" {
			t.Errorf("read again at %v it is said %v", down, said)
		}
		if want == 1 && (d[0].First != 1 || d[0].Second != 3 || math.Abs(d[0].ByMM-4) > 1e-5) {
			t.Errorf("%+v", d[0])
		}
		if p := k.Validate(); len(p) > 0 {
			t.Error(p)
		}
	}
}

// A file states readings, not the levels they give; read again there are the same. Version 7 knows none.
func TestReadingsFile(t *testing.T) {
	j := edit.MoveLaser(0, 960.5).Apply(readDown())
	j.SpotLevels = append([]job.SpotLevel{{At: plan.Point{100, 100}, LevelMM: 5}}, j.SpotLevels...)
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(data), `"levelMM"`); n != 2 { // the stated level, and that of the known point
		t.Errorf("%d levels in the file", n)
	}
	if err := fitsSchema(data); err != nil {
		t.Error(err)
	}
	again, err := job.Parse(data)
	if err != nil || !sameLevels(levels(again), levels(j)) {
		t.Errorf("%v: %v, was %v", err, levels(again), levels(j))
	}
	if _, err := job.Parse([]byte(strings.Replace(string(data), `"version": 11`, `"version": 7`, 1))); err == nil {
		t.Error("version 7 has readings")
	}
}

// What cannot be is refused where it stands.
func TestReadingsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		key    string
		what   message.ID
	}{
		"no such set-up": {func(j *job.Job) { j.Laser.Readings[1].SetUp = 2 }, "laser.readings[1].setUp", "problem.no-set-up"},
		"set-up 0":       {func(j *job.Job) { j.Laser.Readings[1].SetUp = 0 }, "laser.readings[1].setUp", "problem.between"},
		"far off":        {func(j *job.Job) { j.Laser.Readings[2].DownMM = 100 }, "laser.readings[2].downMM", "problem.reading-far"},
		"other level":    {func(j *job.Job) { j.SpotLevels[0].LevelMM = 3 }, "spotLevels", "problem.levels-are-read"},
		"not a number":   {func(j *job.Job) { j.Laser.Readings[0].DownMM = math.NaN() }, "laser.readings[0].downMM", "problem.between"},
	} {
		j := readDown()
		if c.change(&j); name != "other level" {
			j.WorkOutLevels()
		}
		found := false
		for _, p := range j.Validate() {
			found = found || p.Key == c.key && p.What.ID == c.what
		}
		if !found {
			t.Errorf("%s: %v", name, j.Validate())
		}
	}
}
