package job

import (
	"math"
	"slices"

	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/survey"
	"underfall/geometry/unit"
)

// Taken is what a room was measured as, to be told.
type Taken struct {
	Fit survey.Fit
	// Leans are by how much the room is out of square, worst first; none where it is square or was drawn otherwise.
	Leans []survey.Lean
	// Open, Square and Assumed are sentences: the measure that is wrong or what does not close, how far the room is out of
	// square, what is assumed; empty where there is nothing of that to tell.
	Open, Square, Assumed []message.Message
}

// Told are all sentences.
func (t *Taken) Told() []message.Message { return slices.Concat(t.Open, t.Square, t.Assumed) }

// toldMM is the least that is told of a room out of square: what a tile's joint takes up
// unseen. Common practice, no source.
const toldMM = 2

// sharedMM is the least that does not close and is told: what is read on a tape. Common practice, no source.
const sharedMM = 1

// Taken is what the room was measured as; false where it was not measured, or comes to none.
func (r *Room) Taken() (t Taken, ok bool) {
	if !r.Measured() {
		return t, false
	}
	f, problem := r.Survey()
	if problem != nil {
		return t, false
	}
	t.Fit = f
	for _, l := range survey.Leans(r.Tape.Drawn, f.Corners) {
		if math.Abs(l.MM) > plan.HairMM {
			t.Leans = append(t.Leans, l)
		}
	}
	slices.SortStableFunc(t.Leans, func(a, b survey.Lean) int {
		switch by := math.Abs(b.MM) - math.Abs(a.MM); {
		case by > plan.HairMM:
			return 1
		case by < -plan.HairMM:
			return -1
		}
		return 0
	})
	t.Open, t.Square, t.Assumed = r.toldOpen(&f), r.toldLean(&t), r.toldAssumed(f.Assumed)
	return t, true
}

// OutOfSquare is where the room is out of square most; false where nothing of that need be told.
func (t *Taken) OutOfSquare() (l survey.Lean, ok bool) {
	if len(t.Leans) == 0 || math.Abs(t.Leans[0].MM) < toldMM {
		return l, false
	}
	return t.Leans[0], true
}

// toldOpen says which measure is wrong, or what does not close.
func (r *Room) toldOpen(f *survey.Fit) []message.Message {
	switch b := f.Blunder; {
	case b != nil:
		n := len(r.Tape.Lengths)
		if b.Measure >= n {
			id := message.ID("tape.angle-wide")
			if b.By < 0 {
				id = "tape.angle-narrow"
			}
			by := message.Arg{Name: "by", Value: unit.Value(math.Abs(b.By), unit.Angle)}
			return []message.Message{message.Of(id, r.angleAt(b.Measure-n), by)}
		}
		id := message.ID("tape.long")
		if b.By < 0 {
			id = "tape.short"
		}
		return []message.Message{message.Of(id, message.In("what", r.TapedName(b.Measure)), message.Along("by", math.Abs(b.By)))}
	case !f.Closes:
		return []message.Message{r.open("tape.not-closed", f)}
	case f.OpenMM >= sharedMM:
		return []message.Message{r.open("tape.shared-out", f)}
	}
	return nil
}

// open says how much does not close, which reading is changed most for it, and by how much: an angle at the end of its longer side.
func (r *Room) open(id message.ID, f *survey.Fit) message.Message {
	const alikeMM = plan.HairMM * 1000 // of readings that are changed alike the first is told
	most, mm := 0, 0.0
	for i, res := range f.Residuals {
		if is := math.Abs(res.MM); is > mm+alikeMM {
			most, mm = i, is
		}
	}
	var what message.Message
	if n := len(r.Tape.Lengths); most >= n {
		what = message.Of("tape.took-angle", r.angleAt(most-n))
	} else if what = r.TapedName(most); what.ID == "tape.wall" {
		what = message.Of("tape.took-wall", what.Args...)
	}
	return message.Of(id, message.In("what", what), message.Along("most", mm), message.Along("by", f.OpenMM))
}

// angleAt names the corner of a measured angle.
func (r *Room) angleAt(angle int) message.Arg {
	return message.AtCorner("corner", r.Corner(r.Tape.Angles[angle].Corner))
}

// toldLean says how far the room is out of square at the worst.
func (r *Room) toldLean(t *Taken) []message.Message {
	l, ok := t.OutOfSquare()
	if !ok {
		return nil
	}
	return []message.Message{message.Of("tape.out-of-square", message.Along("by", math.Abs(l.MM)), message.Wall("wall", r.Letter(l.Wall)),
		message.Along("length", r.WallLengthMM(l.Wall)), message.AtCorner("corner", r.Corner(l.Corner)))}
}

// toldAssumed says what was not measured.
func (r *Room) toldAssumed(a survey.Assumed) (out []message.Message) {
	cornersOf := func(all []int) message.Arg {
		var l message.List
		for _, c := range r.inOrder(all) {
			l.Items = append(l.Items, message.Of("corner.called", message.AtCorner("corner", r.Corner(c))))
		}
		return message.Arg{Name: "corners", Value: l}
	}
	switch {
	case len(a.Square) == len(r.Outline):
		out = append(out, message.Of("tape.all-square"))
	case len(a.Square) > 0:
		out = append(out, message.Of("tape.square", cornersOf(a.Square)))
	}
	if len(a.Drawn) > 0 {
		out = append(out, message.Of("tape.drawn", cornersOf(a.Drawn)))
	}
	if len(a.Walls) > 0 {
		var l message.List
		for _, w := range r.inOrder(a.Walls) {
			l.Items = append(l.Items, message.Of("wall.called", message.Wall("wall", r.Letter(w))))
		}
		out = append(out, message.Of("tape.walls", message.Arg{Name: "walls", Value: l}))
	}
	return out
}

// inOrder are some of the walls, or of the corners at their starts, in the order of the walls' letters.
func (r *Room) inOrder(some []int) []int {
	return slices.DeleteFunc(r.InOrder(), func(wall int) bool { return !slices.Contains(some, wall) })
}
