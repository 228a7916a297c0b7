package job_test

import (
	"math"
	"strings"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Every list takes a usual thing into the starting jobs, which stay sound, and gives it
// back; a full list takes no more.
func TestListsTakeAndGiveBack(t *testing.T) {
	for _, start := range []job.Job{job.New(), job.NewInInches()} {
		for _, l := range job.Lists() {
			j := start.Clone()
			before := l.Count(&j)
			l.Add(&j)
			if l.Count(&j) != before+1 {
				t.Errorf("%s: %d things after one was added to %d", l.Key, l.Count(&j), before)
				continue
			}
			if p := j.Validate(); len(p) > 0 {
				t.Errorf("%s: the usual one: %v", l.Key, p)
			}
			data, err := j.Marshal()
			if err != nil {
				t.Fatal(err)
			}
			again, err := job.Parse(data)
			if err != nil || l.Count(&again) != before+1 {
				t.Errorf("%s: read back: %v", l.Key, err)
			}
			for range l.Most + 1 {
				l.Add(&j)
			}
			if l.Count(&j) != l.Most {
				t.Errorf("%s: takes %d, want %d", l.Key, l.Count(&j), l.Most)
			}
			l.Remove(&j, l.Most)
			l.Remove(&j, -1)
			l.Remove(&j, 0)
			if l.Count(&j) != l.Most-1 {
				t.Errorf("%s: %d things after one was taken away of %d", l.Key, l.Count(&j), l.Most)
			}
		}
	}
}

// A copy of a job shares no thing of any list with it.
func TestListsAreCopied(t *testing.T) {
	for _, l := range job.Lists() {
		j := job.New()
		l.Add(&j)
		i := l.Count(&j) - 1
		c := j.Clone()
		for _, e := range l.Entries() {
			if e.Number == nil || !e.Uses(&j, i) {
				continue
			}
			was := math.NaN()
			if at := e.Number.At(&j, i); at != nil {
				was = *at
			}
			changed := was + 1
			e.Number.Set(&c, i, &changed)
			if at := e.Number.At(&j, i); at != nil && *at != was {
				t.Errorf("%s: %s of the copy is the job's own", l.Key, e.Key)
			}
		}
	}
}

// Every number of every list has bounds that hold: just beyond them is refused where it
// stands, and the place is told by the thing and the entry.
func TestListNumbersHaveBounds(t *testing.T) {
	for _, l := range job.Lists() {
		for _, e := range l.Entries() {
			if e.Number == nil {
				continue
			}
			for _, beyond := range []float64{e.Number.Least - 0.01, e.Number.Greatest + 0.01, math.NaN()} {
				j := job.New()
				l.Add(&j)
				i := l.Count(&j) - 1
				if !e.Uses(&j, i) {
					continue
				}
				e.Number.Set(&j, i, &beyond)
				found := false
				for _, p := range j.Validate() {
					found = found || strings.HasPrefix(p.Key, l.Key) && strings.HasSuffix(p.Key, "."+e.Key) &&
						j.PlaceOf(p.Key).String() == l.Message(&j, i, e).String()
				}
				if !found {
					t.Errorf("%s of %s may be %v: %v", e.Key, l.Key, beyond, j.Validate())
				}
			}
		}
	}
}

// Walls and words of things are held to what there is.
func TestListChoicesAreChecked(t *testing.T) {
	for _, l := range job.Lists() {
		for _, e := range l.Entries() {
			j := job.New()
			l.Add(&j)
			i := l.Count(&j) - 1
			want := message.ID("problem.no-wall")
			switch {
			case e.Wall != nil:
				*e.Wall(&j, i) = len(j.Room.Walls)
			case e.Corner != nil:
				*e.Corner(&j, i) = len(j.Room.Outline)
				want = "problem.no-corner"
			case e.Choice != nil:
				e.Choice.Set(&j, i, "nonesuch")
				want = "problem.unknown-choice"
			default:
				continue
			}
			found := false
			for _, p := range j.Validate() {
				found = found || p.What.ID == want
			}
			if !found && e.Uses(&j, i) {
				t.Errorf("%s of %s is not checked", e.Key, l.Key)
			}
		}
	}
}

// Windows lie in their walls, apart from doorways and from each other. The starting room
// is 2400 by 1900, with a doorway from 1500 to 2260 in the first wall.
func TestWindowsByHand(t *testing.T) {
	one := func(w job.Window) []job.Window { return []job.Window{w} }
	at := func(wall int, from, width float64) job.Window {
		return job.Window{Wall: wall, OffsetMM: from, WidthMM: width, SillMM: 1000, HeightMM: 500}
	}
	over := at(2, 300, 500)
	over.SillMM = 1500
	for name, c := range map[string]struct {
		windows []job.Window
		want    message.ID
	}{
		"fits":                {one(at(0, 900, 600)), ""},
		"to the corner":       {one(at(1, 1300, 600)), ""},
		"past the corner":     {one(at(1, 1301, 600)), "problem.opening-past-wall"},
		"in the doorway":      {one(at(0, 901, 600)), "problem.window-in-doorway"},
		"beside the doorway":  {one(at(0, 2260, 100)), ""},
		"two beside":          {[]job.Window{at(2, 0, 300), at(2, 300, 500)}, ""},
		"two over each other": {[]job.Window{at(2, 0, 500), over}, ""},
		"two overlap":         {[]job.Window{at(2, 0, 301), at(2, 300, 500)}, "problem.windows-overlap"},
	} {
		j := job.New()
		j.Room.Windows = c.windows
		p := j.Validate()
		if c.want == "" && len(p) > 0 || c.want != "" && (len(p) != 1 || p[0].What.ID != c.want) {
			t.Errorf("%s: %v, want %q", name, p, c.want)
		}
	}
}
