package edit_test

import (
	"reflect"
	"slices"
	"testing"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// A turn is added in the middle of the longest straight of the run as it is laid, which keeps the turns it
// found by itself: of a run from the trap at x = 645 to a pipe at (300, 400), out to the left and down,
// the straight down is the longest.
func TestRowsOfTurns(t *testing.T) {
	in, _ := job.FindInput(job.TurnsKey)
	j := job.New()
	j.Waste.Exit = job.Exit{Kind: job.ExitPipe, At: plan.Point{300, 400}}
	j = edit.AddRow(in).Apply(j)
	if n := len(j.Waste.Waypoints); n != 2 {
		t.Fatalf("turns %v", j.Waste.Waypoints)
	}
	if p := j.Waste.Waypoints[1]; p.X() != 300 || p.Y() < 1000 || p.Y() > 1200 {
		t.Errorf("the turn is added at %v", p)
	}
	j = edit.Cell(in, 1, 0, 350).Apply(j)
	if p := j.Waste.Waypoints[1]; p.X() != 350 {
		t.Errorf("moved to %v", p)
	}
	j = edit.RemoveRow(in, 0).Apply(edit.RemoveRow(in, 1).Apply(j))
	if len(j.Waste.Waypoints) != 0 {
		t.Errorf("taken away there are %v", j.Waste.Waypoints)
	}
	if same := edit.RemoveRow(in, 0).Apply(edit.Cell(in, 3, 0, 1).Apply(j)); len(same.Waste.Waypoints) != 0 {
		t.Errorf("of none there are %v", same.Waste.Waypoints)
	}
}

// Corners bring their walls: the added one halves the last wall, which keeps what it is of.
func TestRowsOfCorners(t *testing.T) {
	in, _ := job.FindInput(job.OutlineKey)
	j := job.New() // the last wall is of masonry, 1900 long, from (0, 1900) to (0, 0)
	with := edit.AddRow(in).Apply(j)
	if r := with.Room; len(r.Outline) != 5 || r.Outline[4] != (plan.Point{0, 950}) || len(r.Walls) != 5 ||
		!reflect.DeepEqual(r.Walls[3], j.Room.Walls[3]) || !reflect.DeepEqual(r.Walls[4], j.Room.Walls[3]) {
		t.Errorf("corners %v, walls %v", r.Outline, r.Walls)
	}
	if p := with.Validate(); len(p) > 0 {
		t.Error(p)
	}
	back := edit.RemoveRow(in, 4).Apply(with)
	if !slices.Equal(back.Room.Outline, j.Room.Outline) || !reflect.DeepEqual(back.Room.Walls, j.Room.Walls) {
		t.Errorf("taken away: %v, %v", back.Room.Outline, back.Room.Walls)
	}
	// Half a wall has its studs where they are: 200, 600, 1000, 1400 … of 2400, of which 1400 is the first past 1200.
	half := edit.Outline([]plan.Point{{0, 0}, {1200, 0}, {2400, 0}, {2400, 1900}, {0, 1900}}).Apply(j)
	if w := half.Room.Walls; len(w) != 5 || w[0].FirstStudMM != 200 || w[1].FirstStudMM != 200 || w[1].StudSpacingMM != 400 {
		t.Errorf("halved: %v", w)
	}
	third := edit.Outline([]plan.Point{{0, 0}, {900, 0}, {2400, 0}, {2400, 1900}, {0, 1900}}).Apply(j)
	if w := third.Room.Walls; len(w) != 5 || w[0].FirstStudMM+w[1].FirstStudMM != 300 {
		t.Errorf("cut at 900: %v", w)
	}
	three := edit.RemoveRow(in, 0).Apply(j)
	if again := edit.RemoveRow(in, 0).Apply(three); len(again.Room.Outline) != 3 {
		t.Errorf("%d corners", len(again.Room.Outline))
	}
}

// Readings are added where one is wanted, in the room and apart from all others, with a level that nobody
// has read; one that is taken away takes its standing along.
func TestRowsOfReadings(t *testing.T) {
	in, _ := job.FindInput(job.SpotLevelsKey)
	j := job.New()
	for n := range 5 {
		j = edit.AddRow(in).Apply(j)
		if len(j.SpotLevels) != n+1 || j.StandingOf(in.Table.Path(n, 2)) != job.Assumed {
			t.Fatalf("%v, %v", j.SpotLevels, j.Standings)
		}
	}
	room := plan.FromRing(j.Room.Outline)
	for i, s := range j.SpotLevels {
		if !room.Contains(s.At, 0) || s.ToleranceMM != job.UsualReadingMM {
			t.Errorf("reading %d: %v", i, s)
		}
		for _, o := range j.SpotLevels[:i] {
			if s.At.Sub(o.At).Len() < 500 {
				t.Errorf("%v lies on %v", s.At, o.At)
			}
		}
	}
	j = edit.Typed(edit.Cell(in, 1, 2, -3), in.Table.Path(1, 2)).Apply(j)
	j = edit.RemoveRow(in, 0).Apply(j)
	if j.SpotLevels[0].LevelMM != -3 || j.StandingOf(in.Table.Path(0, 2)) != job.Held || len(j.Standing(job.Assumed)) != 3 {
		t.Errorf("%v, %v", j.SpotLevels, j.Standings)
	}
}

// A fitting that becomes another kind has the usual sizes that this needs.
func TestKindsOfFitting(t *testing.T) {
	l, ok := job.FindList(job.FittingsKey)
	if !ok {
		t.Fatal("fittings are no list")
	}
	kind := l.Entries()[slices.IndexFunc(l.Entries(), func(e job.Entry) bool { return e.Key == "kind" })]
	j := job.New()
	j.Waste.NominalMM = 40
	j = edit.AddItem(l).Apply(j)
	if f := j.Waste.Fittings[0]; f.Kind != job.FittingReducer || f.NominalMM != 50 || f.AtMM != 300 {
		t.Errorf("the usual fitting is %+v", f)
	}
	for _, k := range []job.FittingKind{job.FittingFallingPiece, job.FittingAdaptor, job.FittingReducer} {
		j = edit.ItemChoice(l, 0, kind, string(k)).Apply(j)
		f := j.Waste.Fittings[0]
		if falls := k == job.FittingFallingPiece; f.Kind != k || falls != (f.Slope > 0) || falls == (f.BoreMM > 0) || len(j.Validate()) > 0 {
			t.Errorf("%s: %+v, %v", k, f, j.Validate())
		}
	}
}
