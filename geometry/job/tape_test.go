package job_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	catalogue "underfall/app/words"
	"underfall/assets"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// taped is the starting room, 2400 by 1900 with A as its first wall and B as its last, with lengths measured.
func taped(lengths ...job.Taped) job.Job {
	j := job.New()
	j.Shower.OffsetMM = 500 // clear of walls that lean
	j.Room.Tape = job.Tape{Drawn: slices.Clone(j.Room.Outline), Lengths: lengths}
	j.Room.WorkOut()
	return j
}

func length(from, to int, mm float64) job.Taped { return job.Taped{From: from, To: to, LengthMM: mm} }

// Two walls measured, 2500 and 2000: a rectangle of that, its corners taken as square and the first where it was.
func TestTapedRoom(t *testing.T) {
	j := taped(length(0, 1, 2500), length(0, 3, 2000))
	for i, want := range []plan.Point{{0, 0}, {2500, 0}, {2500, 2000}, {0, 2000}} {
		if j.Room.Outline[i].Sub(want).Len() > 1e-4 {
			t.Errorf("corner %d is at %v", i, j.Room.Outline[i])
		}
	}
	if p := j.Validate(); len(p) > 0 {
		t.Error(p)
	}
	taken, ok := j.Room.Taken()
	if !ok || len(taken.Told()) != 1 || taken.Told()[0].ID != "tape.all-square" {
		t.Errorf("%v", taken.Told())
	}
	l, _ := job.FindList(job.TapeLengthsKey)
	if said := l.Said(&j); len(said) != 1 || said[0].ID != "tape.all-square" {
		t.Errorf("said %v", said)
	}
}

// A file states what was measured and no corners; read again it is the same to the last bit. With corners stated as
// well, or none drawn, it is refused.
func TestTapedFile(t *testing.T) {
	j := taped(length(0, 1, 2403), length(1, 2, 1900), length(2, 3, 2400), length(3, 0, 1903), length(0, 2, 3062), length(1, 3, 3060))
	j.Room.Tape.Angles = []job.TapedAngle{{Corner: 2, Deg: 90.2}}
	j.Room.WorkOut()
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(data), `"outline"`) {
		t.Error("the file has an outline")
	}
	again, err := job.Parse(data)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(again.Room.Outline, j.Room.Outline) {
		t.Errorf("%v, was %v", again.Room.Outline, j.Room.Outline)
	}
	if err := fitsSchema(data); err != nil {
		t.Error(err)
	}
	both := strings.Replace(string(data), `"tape": {`, `"outline": [[0,0],[2400,0],[2400,1900],[0,1900]], "tape": {`, 1)
	if _, err := job.Parse([]byte(both)); !strings.Contains(message.OfError(err).String(), "problem.corners-are-measured") {
		t.Errorf("corners beside measures: %v", err)
	}
	j.Room.Tape.Drawn = nil
	if p := j.Validate(); len(p) != 1 || p[0].What.ID != "problem.tape-not-drawn" {
		t.Errorf("nothing drawn: %v", p)
	}
	old := strings.Replace(string(data), `"version": 11`, `"version": 7`, 1)
	if _, err := job.Parse([]byte(old)); err == nil {
		t.Error("version 7 has a tape")
	}
}

// A room as US paper forms have it, by hand: 7' 10 1/2" and 6' 2 3/4" by inches of 25.4 mm, with a diagonal of
// 10' 0 7/8" and one of 10' 0 1/8". The square one would be √(94.5² + 74.75²) = 120.49": so it leans, and no measure is
// off by more than an eighth of an inch.
func TestTapedInInches(t *testing.T) {
	const inch = 25.4
	j := job.NewInInches()
	j.Shower.OffsetMM, j.Shower.WidthMM = 10*inch, 50*inch
	j.Room.Tape = job.Tape{Drawn: slices.Clone(j.Room.Outline), Lengths: []job.Taped{length(0, 1, 94.5*inch), length(0, 3, 74.75*inch),
		length(0, 2, 120.875*inch), length(1, 3, 120.125*inch)}}
	j.Room.WorkOut()
	if p := j.Validate(); len(p) > 0 {
		t.Fatal(p)
	}
	taken, _ := j.Room.Taken()
	if len(taken.Leans) == 0 {
		t.Fatal("square")
	}
	// Both diagonals of a parallelogram of sides a, b with a corner of 90°+x: d² = a² + b² ± 2ab·sin x; so sin x is
	// (120.875² - 120.125²) / (4·94.5·74.75) = 0.00640, over 94.5": 0.6". The walls were not measured on their other
	// side, and come out near to that.
	if l := taken.Leans[0]; math.Abs(math.Abs(l.MM)-0.6*inch) > 0.15*inch {
		t.Errorf("%+v", l)
	}
	if !taken.Fit.Closes || taken.Fit.OpenMM > inch/8 {
		t.Errorf("open %v", taken.Fit.OpenMM)
	}
}

// What was measured is told in words: a diagonal 60 long, with its corners.
func TestTapeIsTold(t *testing.T) {
	shelf, err := catalogue.Load(assets.Words())
	if err != nil {
		t.Fatal(err)
	}
	say := shelf.Book("en-GB", unit.Metric, func(m message.Message) { t.Errorf("no words for %v", m) }).Say
	told := func(j job.Job) string {
		taken, ok := j.Room.Taken()
		if !ok {
			t.Fatal("comes to no room")
		}
		var lines []string
		for _, m := range taken.Told() {
			lines = append(lines, say(m))
		}
		return strings.Join(lines, "\n")
	}
	for name, c := range map[string]struct {
		job  job.Job
		want string
	}{
		"long diagonal": {taped(length(0, 1, 2400), length(1, 2, 1800), length(2, 3, 2400),
			length(3, 0, 1800), length(0, 2, 3060), length(1, 3, 3000)),
			"AB to CD is 60 mm long against the rest: measure it again"},
		"one wall": {taped(length(0, 1, 2400)), "No corner was measured: all are taken as square\nNot measured, as long as drawn: wall B and D"},
		"shared out": {taped(length(0, 1, 2400), length(1, 2, 1800), length(2, 3, 2400),
			length(3, 0, 1800), length(0, 2, 3002), length(1, 3, 3002)),
			// The diagonals, 3000 by the walls, are read 2 long each. By least squares with all as sure: each wall of 2400 grows by 4/5 of
			// what a diagonal shrinks by, one of 1800 by 3/5, which makes half of the 2; so a diagonal shrinks by 1 and no wall by more.
			"The readings do not close by 4 mm, which is shared out: AB to CD took most, 1 mm"},
	} {
		if got := told(c.job); !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %q", name, got)
		}
	}
	if got := told(taped(length(0, 1, 2400), length(1, 2, 1800), length(2, 3, 2400), length(3, 0, 1800), length(0, 2, 3000.2), length(1, 3, 3000.2))); got != "" {
		t.Errorf("four tenths of a millimetre: %q", got)
	}
	lean := taped(length(0, 1, 3000), length(1, 2, math.Hypot(40, 2000)), length(2, 3, 3040), length(3, 0, 2000),
		length(0, 2, math.Hypot(3040, 2000)), length(1, 3, math.Hypot(3000, 2000)))
	if got := told(lean); got != "Out of square by 61 mm over the 3040 mm of wall C, at corner CD" {
		t.Errorf("%q", got)
	}
	far := taped(length(0, 1, 2400), length(1, 2, 1900), length(0, 2, 4400))
	const longer = "AB to CD: is longer than the measured way round between the same corners, 4312 mm: measure it again"
	if p := far.Validate(); len(p) != 1 || say(p[0].Message()) != longer {
		t.Errorf("%v: %q", p, say(p.Message()))
	}
}

// A measure of no length, at a corner that is not there, from a corner to itself, and corners that are not what was
// measured, are each refused where they stand.
func TestTapeRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*job.Job)
		key    string
		what   message.ID
	}{
		"no length":  {func(j *job.Job) { j.Room.Tape.Lengths[0].LengthMM = 0 }, "room.tape.lengths[0].lengthMM", "problem.between"},
		"no corner":  {func(j *job.Job) { j.Room.Tape.Lengths[0].To = 4 }, "room.tape.lengths[0].to", "problem.no-corner"},
		"before any": {func(j *job.Job) { j.Room.Tape.Lengths[0].From = -1 }, "room.tape.lengths[0].from", "problem.no-corner"},
		"to itself":  {func(j *job.Job) { j.Room.Tape.Lengths[0].To = 0 }, "room.tape.lengths[0].to", "problem.tape-one-corner"},
		"flat angle": {func(j *job.Job) { j.Room.Tape.Angles = []job.TapedAngle{{Corner: 1, Deg: 0}} },
			"room.tape.angles[0].deg", "problem.between"},
		"drawn crossed": {func(j *job.Job) { d := j.Room.Tape.Drawn; d[1], d[2] = d[2], d[1] }, "room.tape", "problem.tape-not-drawn"},
		"fewer drawn":   {func(j *job.Job) { j.Room.Tape.Drawn = j.Room.Tape.Drawn[:3] }, "room.tape", "problem.corners"},
		"other corners": {func(j *job.Job) { j.Room.Outline[2] = plan.Point{2600, 2000} }, "room.outline", "problem.corners-are-measured"},
	} {
		j := taped(length(0, 1, 2500), length(0, 3, 2000))
		c.change(&j)
		found := false
		for _, p := range j.Validate() {
			found = found || p.Key == c.key && p.What.ID == c.what
		}
		if !found {
			t.Errorf("%s: %v", name, j.Validate())
		}
	}
}

// Drawn square, a room that leans has square corners, its walls the means of opposite ones: of 3000 and 3040, both of
// the same accuracy, 3020; of 2000 and √(40²+2000²) = 2000.4, 2000.2.
func TestDrawSquare(t *testing.T) {
	lean := taped(length(0, 1, 3000), length(1, 2, math.Hypot(40, 2000)), length(2, 3, 3040), length(3, 0, 2000),
		length(0, 2, math.Hypot(3040, 2000)))
	j := edit.DrawSquare().Apply(lean)
	if j.Room.Measured() {
		t.Error("still measured")
	}
	for i, want := range []plan.Point{{0, 0}, {3020, 0}, {3020, 2000.2}, {0, 2000.2}} {
		if j.Room.Outline[i].Sub(want).Len() > 0.01 {
			t.Errorf("corner %d is at %v", i, j.Room.Outline[i])
		}
	}
}

// Any room, measured wall by wall and across with the zero at any corner, is the room; saved and read it stays so.
func TestAnyTapedRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(1700, 4000).Draw(t, "a"), rapid.Float64Range(1700, 4000).Draw(t, "b")
		off := func(what string) float64 { return rapid.Float64Range(-60, 60).Draw(t, what) }
		room := []plan.Point{{0, 0}, {a, 0}, {a + off("x"), b + off("y")}, {off("u"), b + off("v")}}
		j := job.New()
		j.Room.Tape.Drawn = slices.Clone(j.Room.Outline)
		for i := range room {
			for k := range i {
				l := length(k, i, room[i].Sub(room[k]).Len())
				if rapid.Bool().Draw(t, "from the other end") {
					l.From, l.To = l.To, l.From
				}
				j.Room.Tape.Lengths = append(j.Room.Tape.Lengths, l)
			}
		}
		j.Room.WorkOut()
		for i := range room {
			if by := j.Room.Outline[i].Sub(room[i]).Len(); by > 1e-3 {
				t.Fatalf("corner %d is off by %v", i, by)
			}
		}
		data, err := json.Marshal(j.Room.Tape)
		if err != nil {
			t.Fatal(err)
		}
		var again job.Tape
		if err := json.Unmarshal(data, &again); err != nil {
			t.Fatal(err)
		}
		r := job.Room{Tape: again}
		if r.WorkOut(); !slices.Equal(r.Outline, j.Room.Outline) {
			t.Fatal("read again, it is another room")
		}
	})
}
