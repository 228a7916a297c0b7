package edit_test

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/plan"
)

// The starting room's first wall, A, is 2400 long, its door from 1500 to 2260; its posts stand at 200, 600, 1000 and 1400
// (at 1800 and 2200 the door takes them out). Read from the other corner the door is from 140 to 900.
func TestMarksByHand(t *testing.T) {
	j := job.New()
	read := func(fromEnd bool, kind edit.MarkKind) (out []float64) {
		for _, m := range edit.Marks(j, 0, fromEnd) {
			if mm, ok := m.MM(j); ok && m.Kind == kind {
				out = append(out, mm)
			}
		}
		return out
	}
	for _, c := range []struct {
		fromEnd bool
		kind    edit.MarkKind
		want    []float64
	}{
		{false, edit.MarkDoor, []float64{1500, 2260}}, {true, edit.MarkDoor, []float64{140, 900}},
		{false, edit.MarkCorner, []float64{2400}}, {true, edit.MarkCorner, []float64{2400}},
		{false, edit.MarkPost, []float64{200, 600, 1000, 1400}}, {true, edit.MarkPost, []float64{1000, 1400, 1800, 2200}},
	} {
		if got := read(c.fromEnd, c.kind); !slices.Equal(got, c.want) {
			t.Errorf("%v from the end %v: %v, want %v", c.kind, c.fromEnd, got, c.want)
		}
	}
	for _, m := range edit.Marks(j, 0, true) {
		at, ok := m.At(j)
		if mm, _ := m.MM(j); !ok || math.Abs(at.Sub(plan.Point{2400 - mm, 0}).Len()) > 1e-9 {
			t.Errorf("%+v is at %v", m, at)
		}
	}
	// Joists 400 apart along the room, counted from the right-hand side looking along them, the first 200 from there: of
	// joists that run along Y the wall A, along X, has them 200 from the far end.
	j.Floor.Kind, j.Floor.Joists.DirectionDeg = job.FloorTimber, 90
	if got, want := read(true, edit.MarkJoist), []float64{200, 600, 1000, 1400, 1800, 2200}; !slices.EqualFunc(got, want, near) {
		t.Errorf("joists at %v", got)
	}
	if got := edit.Marks(j, 1, false); slices.ContainsFunc(got, func(m edit.Mark) bool { return m.Kind == edit.MarkJoist }) {
		t.Error("a wall along the joists has marks of them")
	}
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-6 }

// A reading of a door's first side moves the door, one of its second makes it wide; from either corner.
func TestTypedReadings(t *testing.T) {
	for _, fromEnd := range []bool{false, true} {
		j := job.New()
		first, second := edit.Mark{Kind: edit.MarkDoor, FromEnd: fromEnd}, edit.Mark{Kind: edit.MarkDoor, Second: true, FromEnd: fromEnd}
		j = first.Set(300).Apply(j)
		j = second.Set(1100).Apply(j)
		d := j.Room.Doorways[0]
		want := 300.0
		if fromEnd {
			want = 2400 - 1100
		}
		if d.OffsetMM != want || d.WidthMM != 800 {
			t.Errorf("from the end %v: door at %v, %v wide", fromEnd, d.OffsetMM, d.WidthMM)
		}
	}
	j := job.New()
	j = edit.Mark{Kind: edit.MarkPost, Index: 2, Wall: 0}.Set(1050).Apply(j)
	if got := j.Room.Walls[0].FirstStudMM; got != 250 {
		t.Errorf("with the third post 50 farther the first is at %v", got)
	}
	j.Floor.Kind, j.Floor.Joists.DirectionDeg = job.FloorTimber, 90
	j = edit.Mark{Kind: edit.MarkJoist, Index: 1, Wall: 0, FromEnd: true}.Set(630).Apply(j)
	if got := j.Floor.Joists.FirstOffsetMM; math.Abs(got-230) > 1e-9 {
		t.Errorf("with the second joist 30 farther the first is at %v", got)
	}
	// Where a joist is already, typed for the one before it, they all stay.
	if got := (edit.Mark{Kind: edit.MarkJoist, Index: 1, Wall: 0, FromEnd: true}).Set(1030).Apply(j).Floor.Joists.FirstOffsetMM; math.Abs(got-230) > 1e-9 {
		t.Errorf("with a joist where one is the first is at %v", got)
	}
}

// A room that was measured with the tape's zero at the end of a wall: a reading of the other corner makes the wall so
// long, and what is in it stays as far from the zero.
func TestZeroAtEnd(t *testing.T) {
	j := job.New()
	j.Room.Tape = job.Tape{Drawn: slices.Clone(j.Room.Outline), Lengths: []job.Taped{{From: 1, To: 0, LengthMM: 2400}, {From: 1, To: 2, LengthMM: 1900}}}
	j.Room.WorkOut()
	door := edit.Mark{Kind: edit.MarkDoor, FromEnd: true}
	j = door.Set(300).Apply(j)
	longer := edit.Mark{Kind: edit.MarkCorner, FromEnd: true}.Set(2550).Apply(j)
	if got := longer.Room.Tape.Lengths[0].LengthMM; got != 2550 || len(longer.Room.Tape.Lengths) != 2 {
		t.Errorf("measured %v", longer.Room.Tape.Lengths)
	}
	if got := longer.Room.WallLengthMM(0); math.Abs(got-2550) > 1e-3 {
		t.Errorf("the wall is %v", got)
	}
	if got, _ := door.MM(longer); math.Abs(got-300) > 1e-3 {
		t.Errorf("the door is read at %v", got)
	}
	if p := longer.Validate(); len(p) > 0 {
		t.Error(p)
	}
	// A wall that was not measured is measured so.
	other := edit.Side{Wall: 2}.Set(2540).Apply(longer)
	if len(other.Room.Tape.Lengths) != 3 || other.Room.Tape.Lengths[2] != (job.Taped{From: 2, To: 3, LengthMM: 2540}) {
		t.Errorf("measured %v", other.Room.Tape.Lengths)
	}
	// From its end, it is measured from there.
	end := edit.Mark{Kind: edit.MarkCorner, Wall: 2, FromEnd: true}.Set(2540).Apply(longer)
	if len(end.Room.Tape.Lengths) != 3 || end.Room.Tape.Lengths[2] != (job.Taped{From: 3, To: 2, LengthMM: 2540}) {
		t.Errorf("measured %v", end.Room.Tape.Lengths)
	}
	// Put aside, the corners stay and are stated.
	stated := edit.PutTapeAside().Apply(other)
	if stated.Room.Measured() || !slices.Equal(stated.Room.Outline, other.Room.Outline) {
		t.Errorf("put aside: %v", stated.Room)
	}
}

// A chain along the first wall, with its door and a window before it: from the start, or from the end of a wall that the
// chain makes 2500 long; one that does not rise, or has a side too few, changes nothing.
func TestChain(t *testing.T) {
	j := job.New()
	j.Room.Windows = []job.Window{{Wall: 0, OffsetMM: 100, WidthMM: 600, SillMM: 1000, HeightMM: 500}}
	got := edit.Chain(0, false, []float64{200, 900, 1400, 2200}).Apply(j)
	if w, d := got.Room.Windows[0], got.Room.Doorways[0]; w.OffsetMM != 200 || w.WidthMM != 700 || d.OffsetMM != 1400 || d.WidthMM != 800 {
		t.Errorf("window %+v, door %+v", w, d)
	}
	got = edit.Chain(0, true, []float64{150, 910, 1500, 2000, 2500}).Apply(j)
	if w, d := got.Room.Windows[0], got.Room.Doorways[0]; got.Room.WallLengthMM(0) != 2500 || d.OffsetMM != 1590 || d.WidthMM != 760 ||
		w.OffsetMM != 500 || w.WidthMM != 500 {
		t.Errorf("window %+v, door %+v", w, d)
	}
	if p := got.Validate(); len(p) > 0 {
		t.Error(p)
	}
	for _, bad := range [][]float64{{500}, {200, 100, 900, 1000}, {200, 200, 900, 1000}, {-1, 200, 900, 1000}, {math.NaN(), 3, 4, 5}, {1, 2, 3, math.Inf(1)}, nil} {
		if got := edit.Chain(0, false, bad).Apply(j); !reflect.DeepEqual(got, j) {
			t.Errorf("%v gives %v, %v", bad, got.Room.Windows, got.Room.Doorways)
		}
	}
}

// Whatever reading of whatever mark is typed, the tape then reads it, and no other thing is another.
func TestTypedReadingIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := job.New()
		j.Floor.Kind, j.Floor.Joists.DirectionDeg = job.FloorTimber, rapid.Float64Range(0, 360).Draw(t, "joists")
		windows, _ := job.FindList("room.windows")
		windows.Add(&j)
		marks := edit.Marks(j, rapid.IntRange(0, 3).Draw(t, "wall"), rapid.Bool().Draw(t, "from the end"))
		m := marks[rapid.IntRange(0, len(marks)-1).Draw(t, "mark")]
		was, ok := m.MM(j)
		if !ok {
			t.Fatal("a mark with no reading")
		}
		to := was + rapid.Float64Range(-40, 40).Draw(t, "by")
		after := m.Set(to).Apply(j)
		if got, ok := m.MM(after); ok && math.Abs(got-to) > 1e-3 {
			t.Fatalf("%+v reads %v, typed %v", m, got, to)
		}
	})
}

// The tape as it lies along a wall that was measured from its end, 2400 to the start corner, where all else says that it is
// 2401.6: of a room of 2400 by 1800 with both diagonals 3004, of which 1.6 is the wall's share.
func TestTapeAlong(t *testing.T) {
	j := job.New()
	j.Room.Tape = job.Tape{Drawn: slices.Clone(j.Room.Outline), Lengths: []job.Taped{{From: 1, To: 0, LengthMM: 2400}, {From: 1, To: 2, LengthMM: 1800},
		{From: 2, To: 3, LengthMM: 2400}, {From: 3, To: 0, LengthMM: 1800}, {From: 0, To: 2, LengthMM: 3004}, {From: 1, To: 3, LengthMM: 3004}}}
	j.Room.WorkOut()
	zero, marks := edit.TapeAlong(j, 0)
	if zero != j.Room.Outline[1] || len(marks) != 7 {
		t.Fatalf("zero at %v, %d marks", zero, len(marks))
	}
	for i, m := range marks {
		if i > 0 && m.ReadingMM < marks[i-1].ReadingMM {
			t.Errorf("mark %d reads %v, after %v", i, m.ReadingMM, marks[i-1].ReadingMM)
		}
		if m.Kind != edit.MarkCorner {
			if by := m.Place.Sub(zero).Len() - m.ReadingMM; math.Abs(by) > 1e-6 || m.ResidualMM != 0 {
				t.Errorf("%v is off by %v", m.Label, by)
			}
			continue
		}
		if m.ReadingMM != 2400 || math.Abs(m.ResidualMM-1.6) > 1e-2 || !slices.Equal(m.Keys, []string{"room.tape.lengths[0].lengthMM"}) {
			t.Errorf("%+v", m)
		}
	}
	if _, marks := edit.TapeAlong(j, 4); marks != nil {
		t.Error("a tape along no wall")
	}
}
