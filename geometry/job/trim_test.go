package job_test

import (
	"fmt"
	"testing"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// sixJoists is the starting room, 2400 by 1900, on joists 47 wide that run away from the
// first wall: 400 apart from the right, at x = 2200, 1800 … 200.
func sixJoists(trims ...job.Trim) job.Job {
	j := job.New()
	j.Floor.Kind = job.FloorTimber
	j.Floor.Joists = job.Joists{DepthMM: 195, WidthMM: 47, SpacingMM: 400, DirectionDeg: 90, FirstOffsetMM: 200, Trims: trims}
	return j
}

// Joists of the room as counted and as long as the room is deep.
func TestJoistLinesByHand(t *testing.T) {
	lines := sixJoists().JoistLines()
	if len(lines.Lines) != 6 || lines.Origin != (plan.Point{2400, 0}) || lines.LengthMM != 1900 {
		t.Fatalf("%+v", lines)
	}
	for i, l := range lines.Lines {
		if want := (job.JoistLine{OffsetMM: 200 + 400*float64(i), FromMM: 0, ToMM: 1900}); l != want {
			t.Errorf("joist %d: %+v, want %+v", i+1, l, want)
		}
	}
	if l := job.New().JoistLines(); len(l.Lines) != 0 {
		t.Errorf("joists in a slab: %+v", l)
	}
}

// What an opening must be to its joist and to those beside it: pieces of 50 and trimmers
// as wide as a joist, 97 in all, are left at an end that is not cut off; joists beside run
// whole past both trimmers.
func TestTrimsAreChecked(t *testing.T) {
	cut := func(joist int, from, to float64) job.Trim { return job.Trim{Joist: joist, FromMM: from, ToMM: to} }
	shortBeside := sixJoists(cut(3, 700, 1500))
	// Joist 2, at x = 1800, ends at y = 1520: the trimmer takes y from 1500 to 1547.
	shortBeside.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 1520}, {1500, 1520}, {1500, 1900}, {0, 1900}}
	for len(shortBeside.Room.Walls) < 6 {
		shortBeside.Room.Walls = append(shortBeside.Room.Walls, shortBeside.Room.Walls[0])
	}
	shortBeside.Shower = job.Shower{Wall: 4, OffsetMM: 0, WidthMM: 900, DepthMM: 900}
	justLong := shortBeside.Clone()
	justLong.Floor.Joists.Trims[0].ToMM = 1473
	// The wall at y = 0 starts the joist at x = 1800 at y = 800: trimmers of an opening from
	// y = 0 to 700 in the third, at y = 700 to 747, do not reach it.
	lateBeside := sixJoists(cut(3, 0, 700))
	lateBeside.Room.Outline = []plan.Point{{0, 0}, {1500, 0}, {1500, 800}, {2400, 800}, {2400, 1900}, {0, 1900}}
	lateBeside.Room.Walls, lateBeside.Room.Doorways = shortBeside.Room.Walls, nil
	lateBeside.Shower = job.Shower{Wall: 4, OffsetMM: 0, WidthMM: 900, DepthMM: 900}
	// Joists of 60 and second ones of 60 leave 1 in bays of 61.
	roomy := sixJoists(cut(3, 700, 1200))
	roomy.Floor.Joists.WidthMM, roomy.Floor.Joists.SpacingMM = 60, 121
	close := roomy.Clone()
	close.Floor.Joists.SpacingMM = 120.9
	several := func(joist, further int, from, to float64) job.Trim {
		return job.Trim{Joist: joist, Further: further, FromMM: from, ToMM: to}
	}
	// The wall at the joists' starts runs from (0, 0) up to (2400, 300): joists 3, 4 and 5, at
	// x = 1400, 1000 and 600, start at y = 175, 125 and 75. 97 is left of joist 3 up to y = 272,
	// and more of the others; counted the other way round the first would leave too little.
	slanting := func(trims ...job.Trim) job.Job {
		j := sixJoists(trims...)
		j.Room.Outline = []plan.Point{{0, 0}, {2400, 300}, {2400, 1900}, {0, 1900}}
		j.Shower = job.Shower{Wall: 2, OffsetMM: 0, WidthMM: 900, DepthMM: 900}
		return j
	}
	falling := sixJoists(several(3, 1, 97, 600))
	falling.Room.Outline = []plan.Point{{0, 300}, {2400, 0}, {2400, 1900}, {0, 1900}}
	falling.Shower = job.Shower{Wall: 2, OffsetMM: 0, WidthMM: 900, DepthMM: 900}
	onSlab := sixJoists(cut(99, 700, 600))
	onSlab.Floor.Kind = job.FloorSlab
	for name, c := range map[string]struct {
		job  job.Job
		key  string // within the list
		want message.ID
	}{
		"in the middle":             {sixJoists(cut(3, 700, 1200)), "", ""},
		"no such joist":             {sixJoists(cut(7, 700, 1200)), "[0].joist", "problem.no-joist"},
		"the last that is carried":  {sixJoists(cut(5, 700, 1200)), "", ""},
		"the last joist":            {sixJoists(cut(6, 700, 1200)), "[0].joist", "problem.trim-no-carrier"},
		"the first joist":           {sixJoists(cut(1, 700, 1200)), "[0].joist", "problem.trim-no-carrier"},
		"nothing":                   {sixJoists(cut(3, 700, 700)), "[0].toMM", "problem.trim-order"},
		"backwards":                 {sixJoists(cut(3, 700, 600)), "[0].toMM", "problem.trim-order"},
		"from the joist's start":    {sixJoists(cut(3, 0, 600)), "", ""},
		"a hand from its start":     {sixJoists(cut(3, 96.9, 600)), "[0].fromMM", "problem.trim-start"},
		"a piece from its start":    {sixJoists(cut(3, 97, 600)), "", ""},
		"to the joist's end":        {sixJoists(cut(3, 700, 1900)), "", ""},
		"a hand from its end":       {sixJoists(cut(3, 700, 1803.1)), "[0].toMM", "problem.trim-end"},
		"a piece from its end":      {sixJoists(cut(3, 700, 1803)), "", ""},
		"past its end":              {sixJoists(cut(3, 700, 1900.1)), "[0].toMM", "problem.trim-past-end"},
		"all of it":                 {sixJoists(cut(3, 0, 1900)), "[0]", "problem.trim-all"},
		"two with a piece between":  {sixJoists(cut(3, 300, 600), cut(3, 744, 1200)), "", ""},
		"two with less between":     {sixJoists(cut(3, 300, 600), cut(3, 743.9, 1200)), "[1]", "problem.trims-overlap"},
		"two beside each other":     {sixJoists(cut(3, 300, 600), cut(4, 300, 600)), "[0].joist", "problem.trim-carrier-cut"},
		"every other joist":         {sixJoists(cut(3, 300, 600), cut(5, 300, 600)), "", ""},
		"no room for second joists": {close, "[0]", "problem.trim-no-room"},
		"just room for them":        {roomy, "", ""},
		"a short one beside":        {shortBeside, "[0]", "problem.trim-carrier-short"},
		"one just long enough":      {justLong, "", ""},
		"one that starts late":      {lateBeside, "[0]", "problem.trim-carrier-short"},
		"two at once":               {sixJoists(several(3, 1, 300, 600)), "", ""},
		"all but the outer ones":    {sixJoists(several(2, 3, 300, 600)), "", ""},
		"with the last":             {sixJoists(several(5, 1, 300, 600)), "[0].further", "problem.trim-no-carrier"},
		"with the first":            {sixJoists(several(1, 1, 300, 600)), "[0].joist", "problem.trim-no-carrier"},
		"every joist":               {sixJoists(several(1, 5, 300, 600)), "[0]", "problem.trim-every-joist"},
		"more than there are":       {sixJoists(several(3, 4, 300, 600)), "[0].further", "problem.no-further-joist"},
		"two twice":                 {sixJoists(several(3, 1, 300, 600), several(3, 1, 744, 1200)), "", ""},
		"two twice, too near":       {sixJoists(several(3, 1, 300, 600), several(3, 1, 743.9, 1200)), "[1]", "problem.trims-overlap"},
		"one of two once more":      {sixJoists(several(3, 1, 300, 600), cut(3, 1000, 1200)), "[1].joist", "problem.trim-carrier-cut"},
		"beside two":                {sixJoists(several(2, 1, 300, 600), cut(4, 300, 600)), "[0].further", "problem.trim-carrier-cut"},
		"beside the carrier of two": {sixJoists(several(2, 1, 300, 600), cut(5, 300, 600)), "", ""},
		"at a slanting wall":        {slanting(several(3, 2, 97, 600)), "", ""},
		"at a wall that falls away": {falling, "[0].further", "problem.trim-further-short"},
		"in a slab":                 {onSlab, "", ""},
	} {
		found := ""
		for _, p := range c.job.Validate() {
			if p.Key == "floor.joists.trims"+c.key && p.What.ID == c.want {
				found = p.Key
				continue
			}
			if c.want == "" {
				t.Errorf("%s: %v", name, p)
			}
		}
		if (found != "") != (c.want != "") {
			t.Errorf("%s: %v, want %s at %s", name, c.job.Validate(), c.want, c.key)
		}
	}
}

// The usual openings lie in the middle of the joists nearest to the middle that can be
// cut: the third, then the fifth, as the first and the last have one beside them alone.
func TestUsualTrim(t *testing.T) {
	j := sixJoists()
	var got []string
	for range 3 {
		trim := job.UsualTrim(&j)
		j.Floor.Joists.Trims = append(j.Floor.Joists.Trims, trim)
		got = append(got, fmt.Sprint(trim, len(j.Validate())))
	}
	if want := fmt.Sprint([]string{"{3 0 750 1150} 0", "{5 0 750 1150} 0", "{3 0 750 1150} 1"}); fmt.Sprint(got) != want {
		t.Errorf("%v, want %s", got, want)
	}
	slab := job.New()
	if got := job.UsualTrim(&slab); got != (job.Trim{Joist: 1, ToMM: 400}) {
		t.Errorf("in a slab %+v", got)
	}
}
