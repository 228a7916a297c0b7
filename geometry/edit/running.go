package edit

import (
	"cmp"
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// MarkKind is what a mark on a tape along a wall is of.
type MarkKind int

// What a tape along a wall has marks of. Openings and fixtures have a first and a second side, as the tape comes to
// them.
const (
	MarkCorner MarkKind = iota // the wall's other corner
	MarkDoor
	MarkWindow
	MarkFixture
	MarkExit  // the middle of where the waste leaves
	MarkPost  // the middle of a post of a stud wall, counted from the wall's start corner
	MarkJoist // the middle of a joist that the wall lies across, by its number
)

// Mark is one mark on a tape that lies along a wall, its zero at one of the wall's corners.
type Mark struct {
	Kind   MarkKind
	Index  int  // of its kind
	Second bool // its second side
	Wall   int
	// FromEnd tells that the zero is held at the wall's end corner, not at its start corner.
	FromEnd bool
}

// Taken tells whether the mark is read as the room is measured; posts and joists are counted from one of them.
func (m Mark) Taken() bool { return m.Kind != MarkPost && m.Kind != MarkJoist }

// Marks are all marks on a tape along a wall of a job, in the order in which the tape comes to them.
func Marks(j job.Job, wall int, fromEnd bool) []Mark {
	var out []Mark
	both := func(kind MarkKind, i int) {
		out = append(out, Mark{kind, i, false, wall, fromEnd}, Mark{kind, i, true, wall, fromEnd})
	}
	for i, d := range j.Room.Doorways {
		if d.Wall == wall {
			both(MarkDoor, i)
		}
	}
	for i, w := range j.Room.Windows {
		if w.Wall == wall {
			both(MarkWindow, i)
		}
	}
	for i, f := range j.Room.Fixtures {
		if f.Wall == wall {
			both(MarkFixture, i)
		}
	}
	if e := j.Waste.Exit; e.Kind == job.ExitWall && e.Wall == wall {
		out = append(out, Mark{Kind: MarkExit, Wall: wall, FromEnd: fromEnd})
	}
	for i := range posts(&j.Room, wall) {
		m := Mark{Kind: MarkPost, Index: i, Wall: wall, FromEnd: fromEnd}
		if _, ok := m.MM(j); ok {
			out = append(out, m)
		}
	}
	for i := range j.JoistLines().Lines {
		m := Mark{Kind: MarkJoist, Index: i, Wall: wall, FromEnd: fromEnd}
		if _, ok := m.MM(j); ok {
			out = append(out, m)
		}
	}
	out = append(out, Mark{Kind: MarkCorner, Wall: wall, FromEnd: fromEnd}) // after all that ends there
	slices.SortStableFunc(out, func(a, b Mark) int {
		x, _ := a.MM(j)
		y, _ := b.MM(j)
		return cmp.Compare(x, y)
	})
	return out
}

// posts are where the middles of the posts of a stud wall come, from its start corner on; a first one before that corner and
// those that a doorway takes out are not there.
func posts(r *job.Room, wall int) (out []float64) {
	if wall < 0 || wall >= len(r.Walls) {
		return nil
	}
	w := &r.Walls[wall]
	if w.Kind != job.WallStud || w.StudSpacingMM <= 0 {
		return nil
	}
	for at := w.FirstStudMM; at <= r.WallLengthMM(wall); at += w.StudSpacingMM {
		out = append(out, at)
	}
	return out
}

// stretch is the wall that the mark's thing is in, and where along it, from its start corner.
func (m Mark) stretch(j *job.Job) (wall int, offsetMM, widthMM *float64) {
	r := &j.Room
	switch {
	case m.Kind == MarkDoor && m.Index >= 0 && m.Index < len(r.Doorways):
		d := &r.Doorways[m.Index]
		return d.Wall, &d.OffsetMM, &d.WidthMM
	case m.Kind == MarkWindow && m.Index >= 0 && m.Index < len(r.Windows):
		w := &r.Windows[m.Index]
		return w.Wall, &w.OffsetMM, &w.WidthMM
	case m.Kind == MarkFixture && m.Index >= 0 && m.Index < len(r.Fixtures):
		f := &r.Fixtures[m.Index]
		return f.Wall, &f.OffsetMM, &f.WidthMM
	}
	return -1, nil, nil
}

// along is where the mark is along its wall, from the wall's start corner.
func (m Mark) along(j *job.Job) (mm float64, ok bool) {
	long := j.Room.WallLengthMM(m.Wall)
	if long == 0 {
		return 0, false
	}
	switch m.Kind {
	case MarkCorner:
		if m.FromEnd {
			return 0, true
		}
		return long, true
	case MarkExit:
		e := j.Waste.Exit
		return e.OffsetMM, e.Kind == job.ExitWall && e.Wall == m.Wall
	case MarkPost:
		at := posts(&j.Room, m.Wall)
		if m.Index < 0 || m.Index >= len(at) || at[m.Index] < 0 {
			return 0, false
		}
		taken := slices.ContainsFunc(j.Room.Doorways, func(d job.Doorway) bool {
			return d.Wall == m.Wall && at[m.Index] > d.OffsetMM && at[m.Index] < d.OffsetMM+d.WidthMM
		})
		return at[m.Index], !taken
	case MarkJoist:
		return m.joist(j)
	}
	wall, offset, width := m.stretch(j)
	if wall != m.Wall {
		return 0, false
	}
	if m.Second != m.FromEnd {
		return *offset + *width, true
	}
	return *offset, true
}

// joist is where the middle of a joist meets the wall's face.
func (m Mark) joist(j *job.Job) (mm float64, ok bool) {
	lines := j.JoistLines()
	if m.Index < 0 || m.Index >= len(lines.Lines) {
		return 0, false
	}
	at := lines.Origin.Add(plan.Left(lines.Along).Mul(lines.Lines[m.Index].OffsetMM))
	a := j.Room.Outline[m.Wall]
	b := j.Room.Outline[(m.Wall+1)%len(j.Room.Outline)]
	u := b.Sub(a).Normalize()
	s, _, meet := plan.MeetLines(a, u, at, lines.Along)
	return s, meet && math.Abs(plan.Cross(u, lines.Along)) > leastAcross && s >= 0 && s <= b.Sub(a).Len()
}

// leastAcross is the sine of the least angle at which a wall lies across joists.
const leastAcross = 0.1

// MM is the mark's reading on the tape; false where a job has no such mark. The reading of the wall's other corner is
// as it was measured, where it was.
func (m Mark) MM(j job.Job) (mm float64, ok bool) {
	if m.Kind == MarkCorner {
		return tapedMM(&j, m.Wall)
	}
	if mm, ok = m.along(&j); m.FromEnd {
		mm = j.Room.WallLengthMM(m.Wall) - mm
	}
	return mm, ok
}

// At is where the mark is in plan, on the wall's face.
func (m Mark) At(j job.Job) (at plan.Point, ok bool) {
	mm, ok := m.along(&j)
	if !ok {
		return at, false
	}
	a, b := j.Room.Outline[m.Wall], j.Room.Outline[(m.Wall+1)%len(j.Room.Outline)]
	return a.Add(b.Sub(a).Normalize().Mul(mm)), true
}

// Keys are the paths in a job's file of what the mark is a reading of.
func (m Mark) Keys(j job.Job) []string {
	switch m.Kind {
	case MarkCorner:
		if i, ok := j.Room.TapedAlong(m.Wall); ok {
			return []string{job.Nth(job.TapeLengthsKey, i) + ".lengthMM"}
		}
		return []string{job.OutlineKey}
	case MarkExit:
		return []string{"waste.exit.offsetMM"}
	case MarkPost:
		return []string{job.Nth(job.WallsKey, m.Wall) + ".firstStudMM"}
	case MarkJoist:
		return []string{"floor.joists.firstOffsetMM"}
	}
	list := map[MarkKind]string{MarkDoor: job.DoorwaysKey, MarkWindow: job.WindowsKey, MarkFixture: job.FixturesKey}[m.Kind]
	thing := job.Nth(list, m.Index)
	if !m.Second {
		return []string{thing + ".offsetMM"}
	}
	if m.FromEnd {
		return []string{thing + ".widthMM", thing + ".offsetMM"}
	}
	return []string{thing + ".widthMM"}
}

// Label says what the mark is of in a job.
func (m Mark) Label(j job.Job) message.Message {
	n := message.No("n", m.Index+1)
	side := func(first, second message.ID) message.Message {
		if m.Second {
			return message.Of(second, n)
		}
		return message.Of(first, n)
	}
	switch m.Kind {
	case MarkDoor:
		return side("mark.door-first", "mark.door-second")
	case MarkWindow:
		return side("mark.window-first", "mark.window-second")
	case MarkFixture:
		id := message.ID("mark.fixture-first")
		if m.Second {
			id = "mark.fixture-second"
		}
		if m.Index < len(j.Room.Fixtures) {
			return message.Of(id, message.In("what", message.Of(j.Room.Fixtures[m.Index].Kind.Word())))
		}
	case MarkExit:
		return message.Of("mark.exit")
	case MarkPost:
		return message.Of("mark.post", n)
	case MarkJoist:
		return job.JoistNamed(m.Index+1, j.JoistsFrom())
	}
	end := (m.Wall + 1) % max(len(j.Room.Outline), 1)
	if m.FromEnd {
		end = m.Wall
	}
	return message.Of("mark.corner", message.AtCorner("corner", j.Room.Corner(end)))
}

// Set moves what the mark is of until the tape reads so much there. A reading of the first side of an opening moves
// all of it, one of its second side makes it wider or narrower; one of a post moves all of them, one of a joist has the
// nearest there, as they are as far apart; one of the other corner makes the wall so long. Nothing where a job has no
// such mark.
func (m Mark) Set(mm float64) Edit {
	of := func(j job.Job) (float64, bool) { return m.MM(j) }
	apply := m.set(mm)
	e := Of(message.Of("edit.mark"), apply).called(func(j *job.Job) message.Message {
		return message.Of("edit.mark-of", message.In("mark", m.Label(*j)))
	})
	if m.Kind == MarkCorner {
		side := after(Side{Wall: m.Wall}.Set(mm), func(_, j *job.Job) { zeroAt(j, m.Wall, m.FromEnd) })
		side.figure.Of, side.figure.With = of, m.Set
		return side
	}
	var none job.Job
	keys := m.Keys(none)
	return States(e, keys...).stated(Figure{keys[0], mm, unit.Along, of, m.Set}).About(keys...)
}

func (m Mark) set(mm float64) func(*job.Job) {
	return func(j *job.Job) {
		was, ok := m.MM(*j)
		if !ok {
			return
		}
		by := mm - was
		if m.FromEnd {
			by = -by
		}
		switch m.Kind {
		case MarkExit:
			j.Waste.Exit.OffsetMM = exact(j.Waste.Exit.OffsetMM + by)
		case MarkPost:
			w := &j.Room.Walls[m.Wall]
			w.FirstStudMM = exact(w.FirstStudMM + by)
		case MarkJoist:
			a, b := j.Room.Outline[m.Wall], j.Room.Outline[(m.Wall+1)%len(j.Room.Outline)]
			across := plan.Left(plan.DirectionDeg(j.Floor.Joists.DirectionDeg))
			// Which joist comes first in the room may change along with it.
			js := &j.Floor.Joists
			js.FirstOffsetMM = exact(js.FirstOffsetMM + math.Remainder(by*b.Sub(a).Normalize().Dot(across), js.SpacingMM))
		default:
			_, offset, width := m.stretch(j)
			switch {
			case !m.Second:
				*offset = exact(*offset + by)
			case m.FromEnd:
				*offset, *width = exact(*offset+by), exact(*width-by)
			default:
				*width = exact(*width + by)
			}
		}
	}
}

// exact is a length without what sums of lengths lose.
func exact(mm float64) float64 { return rounded(plan.Point{mm}).X() }

// Chain is what a tape along a wall reads one after the other, its zero at one of the wall's corners: the first and the
// second side of each door and window of the wall, in the order in which the tape comes to them, and last, if at all, the
// other corner. It gives all of them their places and widths. Nothing where there are not as many, or they do not rise.
func Chain(wall int, fromEnd bool, readingsMM []float64) Edit {
	readingsMM = slices.Clone(readingsMM)
	return Of(message.Of("edit.chain"), func(j *job.Job) {
		var openings []Mark
		for _, m := range Marks(*j, wall, fromEnd) {
			if (m.Kind == MarkDoor || m.Kind == MarkWindow) && !m.Second {
				openings = append(openings, m)
			}
		}
		sides := 2 * len(openings)
		if len(readingsMM) != sides && len(readingsMM) != sides+1 || !rise(readingsMM) {
			return
		}
		if len(readingsMM) > sides {
			Side{Wall: wall}.set(readingsMM[sides]).apply(j)
			zeroAt(j, wall, fromEnd)
			j.Room.WorkOut()
		}
		for i, m := range openings {
			first, second := readingsMM[2*i], readingsMM[2*i+1]
			_, offset, width := m.stretch(j)
			if *offset, *width = first, exact(second-first); fromEnd {
				*offset = exact(j.Room.WallLengthMM(wall) - second)
			}
		}
	}).About(job.DoorwaysKey, job.WindowsKey, job.OutlineKey, job.TapeLengthsKey)
}

// rise tells whether readings rise from the zero on.
func rise(readingsMM []float64) bool {
	last := 0.0
	for i, mm := range readingsMM {
		if !(mm > last || i == 0 && mm == 0) || math.IsInf(mm, 0) {
			return false
		}
		last = mm
	}
	return true
}

// TapeMark is one mark of a tape as it lies along a wall, to be drawn and typed on.
type TapeMark struct {
	Mark
	ReadingMM float64
	// Place is where it is in plan, on the wall's face.
	Place plan.Point
	Label message.Message
	// Keys are the paths in the job's file of what it is a reading of.
	Keys []string
	// ResidualMM is by how much the measured reading of the wall's other corner was changed to agree with all other
	// measures of the room; 0 for any other mark, and in a room that was not measured.
	ResidualMM float64
}

// TapeAlong is the tape as it lies along a wall of a job: its zero at the corner from which the wall was measured, at its
// start corner where it was not, and its marks in their order from there.
func TapeAlong(j job.Job, wall int) (zero plan.Point, marks []TapeMark) {
	n := len(j.Room.Outline)
	if wall < 0 || wall >= n {
		return zero, nil
	}
	fromEnd := j.Room.ZeroAtEnd(wall)
	zero = j.Room.Outline[wall]
	if fromEnd {
		zero = j.Room.Outline[(wall+1)%n]
	}
	taken, measured := j.Room.Taken()
	along, taped := j.Room.TapedAlong(wall)
	for _, m := range Marks(j, wall, fromEnd) {
		mm, _ := m.MM(j)
		at, _ := m.At(j)
		mark := TapeMark{Mark: m, ReadingMM: mm, Place: at, Label: m.Label(j), Keys: m.Keys(j)}
		if measured && taped && m.Kind == MarkCorner {
			mark.ResidualMM = taken.Fit.Residuals[along].MM
		}
		marks = append(marks, mark)
	}
	return zero, marks
}
