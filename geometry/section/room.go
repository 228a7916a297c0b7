package section

import (
	"math"
	"slices"
	"strings"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// Lit is the figure that a field shows which is being asked: a mark on the tape along a wall, or a length across the
// room between two corners, the lower index first. The zero value is none.
type Lit struct {
	Mark   *edit.Mark
	Across [2]int
}

// is tells whether a mark is lit.
func (l Lit) is(m edit.Mark) bool { return l.Mark != nil && *l.Mark == m }

// Tape is a measuring tape as it lies along a wall, drawn outside it.
type Tape struct {
	// Zero is where its zero is held and End where it ends, on the outside of the wall; Side is the way out.
	Zero, End, Side plan.Point
	Marks           []TapeMark
	// Said is what tape it is.
	Said message.Message
}

// TapeMark is a mark on it, which lies on the outside of the wall.
type TapeMark struct {
	At   plan.Point
	Text message.Message
	Mark edit.Mark
	Lit  bool
}

// Diagonal is a length that was measured from corner to corner across the room.
type Diagonal struct {
	From, To plan.Point
	Text     message.Message
	Key      string // its path in the job's file
	Lit      bool
}

// OffSquare is a room's outline if it were square, and by how much it is not, at the corner where that is most.
type OffSquare struct {
	Outline []plan.Point
	Text    message.Message
	// Places are where it may be told, the best first.
	Places []NameAt
}

// OfRoom tells whether a thing of the plan, by its path in the job's file, is there in the room as it is measured.
func OfRoom(key string) bool { return strings.HasPrefix(key, "room.") }

// RoomOf draws the room as it is measured: its walls and what is in them, the tape along each wall, from the
// corner that it is read from, what was measured across it, and how far it is out of square. Of the shower there is no more than where it stands.
func RoomOf(r geometry.Result, lit Lit) Drawing {
	all := PlanOf(r)
	kept := map[string]bool{"room": true, "shower": true}
	d := Drawing{Cut: all.Cut, Fault: all.Fault}
	for _, a := range all.Areas {
		if kept[a.PartID] || strings.HasPrefix(a.PartID, "wall") {
			d.Areas = append(d.Areas, a)
		}
	}
	things := map[string]bool{"door": true, "window": true, "fixture": true, "stud": true, "north": true, "pipe-end": true}
	for _, l := range all.Lines {
		if things[l.Kind] {
			d.Lines = append(d.Lines, l)
		}
	}
	marks := []message.ID{MarkNorth, MarkStack, MarkPipeEnd, MarkPipeEndLevel}
	for _, m := range all.Marks {
		if slices.Contains(marks, m.Of) {
			d.Marks = append(d.Marks, m)
		}
	}
	measured := r.Settled.Room.Measured()
	moved := []edit.HandleKind{edit.HandleStack, edit.HandlePipeEnd}
	if !measured {
		moved = append(moved, edit.HandleCorner, edit.HandleSide)
	}
	for _, h := range all.Handles {
		if slices.Contains(moved, h.Moves.Kind) {
			d.Handles = append(d.Handles, h)
		}
	}
	for _, t := range all.Things {
		if OfRoom(t.Key) {
			d.Things = append(d.Things, t)
		}
	}
	d.bound()
	d.swingsBeyond(r)
	d.wallNames(r)
	d.cornerNames(r)
	d.fixtureNames(r)
	for i := range r.Layout.Walls {
		d.tape(&r.Settled, &r.Layout.Walls[i], lit)
	}
	if measured {
		d.diagonals(&r.Settled, lit)
		d.offSquare(&r.Settled)
	}
	return d
}

// tape is that along one wall.
func (d *Drawing) tape(j *job.Job, w *layout.Wall, lit Lit) {
	wall := w.Index
	zero, marks := edit.TapeAlong(*j, wall)
	out := w.Outward.Mul(w.ThicknessMM)
	from, letter := j.Room.Corner(wall), j.Room.Letter(wall)
	if j.Room.ZeroAtEnd(wall) {
		from = j.Room.Corner((wall + 1) % len(j.Room.Outline))
	}
	t := Tape{Zero: zero.Add(out), End: zero.Add(out), Side: w.Outward,
		Said: message.Of("tape.along", message.AtCorner("corner", from), message.Wall("wall", letter))}
	far := 0.0
	for _, m := range marks {
		if !m.Taken() {
			continue
		}
		at := m.Place.Add(out)
		t.Marks = append(t.Marks, TapeMark{at, length(m.ReadingMM), m.Mark, lit.is(m.Mark)})
		if long := at.Sub(t.Zero).Len(); long > far {
			far, t.End = long, at
		}
	}
	d.Tapes = append(d.Tapes, t)
}

// diagonals are the lengths across the room.
func (d *Drawing) diagonals(j *job.Job, lit Lit) {
	n := len(j.Room.Outline)
	for i, t := range j.Room.Tape.Lengths {
		if t.To == (t.From+1)%n || t.From == (t.To+1)%n || t.From >= n || t.To >= n {
			continue
		}
		key := job.Nth(job.TapeLengthsKey, i) + ".lengthMM"
		is := lit.Across == [2]int{min(t.From, t.To), max(t.From, t.To)}
		d.Diagonals = append(d.Diagonals, Diagonal{j.Room.Outline[t.From], j.Room.Outline[t.To], length(t.LengthMM), key, is})
	}
}

// offSquare shows the room as it were square, where it is told to be out of that.
func (d *Drawing) offSquare(j *job.Job) {
	taken, ok := j.Room.Taken()
	lean, out := taken.OutOfSquare()
	square, is := j.Room.Square()
	if !ok || !out || !is {
		return
	}
	o := &OffSquare{Outline: closed(square), Text: length(math.Abs(lean.MM))}
	n := len(j.Room.Outline)
	end := j.Room.Outline[lean.Wall] // the wall's end that is away from the corner
	if lean.Wall == lean.Corner {
		end = j.Room.Outline[(lean.Wall+1)%n]
	}
	in := j.Room.Outline[lean.Corner].Sub(end).Normalize()
	for _, side := range [...]plan.Point{plan.Left(in), plan.Left(in).Mul(-1)} {
		for _, mm := range [...]float64{200, 350, 500, 100, 700, 0} {
			o.Places = append(o.Places, NameAt{end.Add(in.Mul(mm)), side})
		}
	}
	d.OffSquare = o
}
