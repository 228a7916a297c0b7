package job_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// What leads to one statement is an input, what leads to a group, to nothing or to what is no
// statement about a floor is none.
func TestInputs(t *testing.T) {
	j := job.New()
	for p := range job.EachParameter {
		if !j.HasInput(p.Key) {
			t.Errorf("%s is none", p.Key)
		}
	}
	for _, l := range job.Lists() {
		j := j.Clone()
		l.Add(&j)
		i := l.Count(&j) - 1
		for _, e := range l.Entries() {
			if key := l.Path(i, e); !j.HasInput(key) {
				t.Errorf("%s is none", key)
			}
		}
		if !j.HasInput(l.Key) {
			t.Errorf("%s is none: whether there is one", l.Key)
		}
	}
	for _, in := range job.Inputs() {
		if site := in.Station == job.StationSite; j.HasInput(in.Key) == site && in.Things == nil {
			t.Errorf("%s: %v, though what is measured on site is no input", in.Key, j.HasInput(in.Key))
		}
		k := j.Clone()
		k.SetStanding(in.Key, job.Held)
		if k.HasInput(in.Key) && k.StandingOf(in.Key) != job.Held || len(k.Validate()) > 0 {
			t.Errorf("%s cannot be held: %v", in.Key, k.Validate())
		}
	}
	for key, want := range map[string]bool{
		"floor.kind": true, "floor.joists.directionDeg": true, "waste.exit.wall": true, "room.doorways[0].offsetMM": true,
		"waste.exit.level": true, "waste.exit.at": true, "room.walls[3].outsideGroundMM": true, "region": true, "accessible": true,
		"floor.joists.timber": true, "waste.nominalMM": true, "room.outline": true, "base.boardsMM": true,
		"": false, ".": false, "room": false, "floor.joists": false, "floor.cellar": false, "room.doorways[1].offsetMM": false,
		"room.doorways[-1].offsetMM": false, "room.doorways[00].offsetMM": false, "room.doorways[0": false, "room.doorways[0]": false,
		"room.doorways[0][0]": false, "room.outline[0]": false, "waste.vent.atMM": false, "name": false, "version": false, "standings": false,
		"parts.drain": true, "parts.drain.widthMM": false, "parts": false, "parts.shower": false, "parts.shower.tile": true,
		"asBuilt.baseTopMM": false, "waste.exit.level.kind": false, "floor.kind.x": false, "room.walls.kind": false,
	} {
		if got := j.HasInput(key); got != want {
			t.Errorf("%q: %v, want %v", key, got, want)
		}
	}
}

// A standing is kept in the file and read back; an unknown word and a key that leads nowhere are
// refused where they stand, in words.
func TestStandingsInFiles(t *testing.T) {
	j := job.New()
	j.SetStanding("floor.kind", job.NotKnown)
	j.SetStanding("waste.exit.wall", job.Held)
	j.SetStanding("floor.cellar", job.Held)
	if want := map[string]job.Standing{"floor.kind": job.NotKnown, "waste.exit.wall": job.Held}; !maps.Equal(j.Standings, want) {
		t.Fatalf("%v", j.Standings)
	}
	copied := j.Clone()
	copied.SetStanding("floor.kind", job.Stated)
	if j.StandingOf("floor.kind") != job.NotKnown || copied.StandingOf("floor.kind") != job.Stated {
		t.Error("a copy shares standings with the job")
	}
	data, err := j.Marshal()
	if err != nil {
		t.Fatal(err)
	}
	if err := fitsSchema(data); err != nil {
		t.Error(err)
	}
	back, err := job.Parse(data)
	if err != nil || !maps.Equal(back.Standings, j.Standings) {
		t.Errorf("read back: %v, %v", back.Standings, err)
	}
	for _, c := range []struct{ from, to, says string }{
		{`"floor.kind": "not-known"`, `"floor.kind": "guessed"`, "problem.unknown-choice"},
		{`"floor.kind": "not-known"`, `"floor.kind": "stated"`, "problem.unknown-choice"},
		{`"floor.kind": "not-known"`, `"floor.kinds": "held"`, `problem.standing-of-nothing{name: "floor.kinds"}`},
		{`"floor.kind": "not-known"`, `"room.windows[0].sillMM": "held"`, `problem.standing-of-nothing{name: "room.windows[0].sillMM"}`},
		{`"floor.kind": "not-known"`, `"floor.kind": 5`, "problem.wrong-kind"},
	} {
		text := strings.Replace(string(data), c.from, c.to, 1)
		_, err := job.Parse([]byte(text))
		if says := message.OfError(err).String(); text == string(data) || !strings.Contains(says, c.says) {
			t.Errorf("%s: it says %s, want one about %s", c.to, says, c.says)
		}
	}
	empty := strings.Replace(string(data), `"floor.kind": "not-known",`, "", 1)
	empty = strings.Replace(empty, `"waste.exit.wall": "held"`, "", 1)
	if back, err := job.Parse([]byte(empty)); err != nil || back.Standings != nil {
		t.Errorf("no standing at all: %v, %v", back.Standings, err)
	}
}

// Things of lists take their standings along when one before them goes, whatever lists and
// standings there are: each thing keeps its own, the one taken away loses them.
func TestStandingsFollowTheirThings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		l := rapid.SampledFrom(job.Lists()).Draw(t, "list")
		for range rapid.IntRange(1, min(12, l.Most)).Draw(t, "things") {
			l.Add(&j)
		}
		n := l.Count(&j)
		standings := rapid.SampledFrom([]job.Standing{job.Stated, job.NotKnown, job.Assumed, job.Held})
		entry := l.Entries()[0]
		want := make([]job.Standing, n)
		for i := range want {
			want[i] = standings.Draw(t, "standing")
			j.SetStanding(l.Path(i, entry), want[i])
		}
		j.SetStanding("floor.kind", job.Held)
		gone := rapid.IntRange(0, n-1).Draw(t, "gone")
		l.Remove(&j, gone)
		want = slices.Delete(want, gone, gone+1)
		for i, s := range want {
			if got := j.StandingOf(l.Path(i, entry)); got != s {
				t.Fatalf("%s: thing %d has %q, want %q", l.Key, i, got, s)
			}
		}
		stated := 0
		for _, s := range want {
			if s == job.Stated {
				stated++
			}
		}
		if got := len(j.Standings); got != len(want)-stated+1 || j.StandingOf("floor.kind") != job.Held {
			t.Fatalf("%s: %v left", l.Key, j.Standings)
		}
	})
}

// Moved names what has another value, or is no more.
func TestMoved(t *testing.T) {
	j := job.New()
	for _, key := range []string{"floor.kind", "shower.widthMM", "room.doorways[0].widthMM", "room.walls[3].outsideGroundMM", "waste.exit.level"} {
		j.SetStanding(key, job.Held)
	}
	j.SetStanding("shower.depthMM", job.Assumed)
	same := j.Clone()
	if moved := j.Moved(&same, job.Held); len(moved) > 0 {
		t.Errorf("a copy: %v", moved)
	}
	after := j.Clone()
	after.Shower.WidthMM, after.Shower.DepthMM, after.Room.Doorways = 1000, 1000, nil
	after.Waste.Exit.Level = job.Exactly(0)
	if got, want := j.Moved(&after, job.Held), []string{"room.doorways[0].widthMM", "shower.widthMM", "waste.exit.level"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := j.Moved(&after, job.Assumed); !slices.Equal(got, []string{"shower.depthMM"}) {
		t.Errorf("assumed: %v", got)
	}
}

// A slab assumed to be 150 thick is nothing to a floor on joists; it is again where the floor is made a slab once more.
func TestWhatCannotMatterIsNotOpen(t *testing.T) {
	j := job.New()
	j.Floor.Kind = job.FloorTimber
	j.SetStanding("floor.slabThicknessMM", job.Assumed)
	j.SetStanding("floor.joists.depthMM", job.Assumed)
	j.SetStanding("room.outline", job.Assumed)
	for kind, want := range map[job.FloorKind][]string{
		job.FloorTimber: {"floor.joists.depthMM", "room.outline"}, job.FloorSlab: {"floor.slabThicknessMM", "room.outline"}} {
		j.Floor.Kind = kind
		if got := j.StandingUsed(job.Assumed); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", kind, got, want)
		}
	}
}
