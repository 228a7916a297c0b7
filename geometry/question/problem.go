package question

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/unit"
)

// Problem is why the answers do not go together, and at which of them that shows.
type Problem struct {
	// At is empty where it is no length.
	At   Entry
	What message.Message
	// MostMM is what would go there; nought where no length would.
	MostMM float64
}

// Message says it.
func (p Problem) Message() message.Message { return p.What }

// Check says why a length cannot be an answer at all; nothing of one that can.
func (e Entry) Check(mm float64) message.Message {
	least, greatest := e.Bounds()
	if math.IsNaN(mm) || mm < least-plan.HairMM || mm > greatest+plan.HairMM {
		return message.Of("question.between", e.length("least", least), e.length("greatest", greatest))
	}
	return message.Message{}
}

// Check says what of the answers cannot be together. A job can be made of a sheet of which it says
// nothing.
func (p Practice) Check(s Sheet) []Problem {
	var out []Problem
	add := func(e Entry, mostMM float64, what message.Message) { out = append(out, Problem{e, what, mostMM}) }
	for _, e := range Entries() {
		if l := s.At(e); l.Given && s.Asked(e) {
			if what := e.Check(l.MM); !what.IsZero() {
				add(e, 0, what)
			}
		}
	}
	if len(out) > 0 {
		return out
	}
	if out = append(p.cutFits(s), p.Closes(s)...); len(out) > 0 {
		return out
	}
	outline := p.Outline(s)
	wall := message.Name("wall", Letter(0))
	switch wide, from := p.doorMM(s); {
	case wide > wallMM(outline, 0)+plan.HairMM:
		add(DoorWide, wallMM(outline, 0), message.Of("question.door-wide", wall, message.Along("is", wallMM(outline, 0))))
	case wide+from > wallMM(outline, 0)+plan.HairMM:
		add(DoorFrom, wallMM(outline, 0)-wide, message.Of("question.door-past", wall, message.Along("most", wallMM(outline, 0)-wide)))
	}
	joists := p.start.Floor.Joists
	if width := s.Floor.Wide.or(joists.WidthMM); s.Floor.Is == Timber && s.Floor.Every.or(joists.SpacingMM) <= width {
		add(JoistEvery, 0, message.Of("question.joists-touch", message.MM("width", width)))
	}
	return append(out, p.showerFits(s, outline)...)
}

// leftMM is the least that a cut must leave of a room each way. Common practice, no source.
const leftMM = 300

// cutFits says what is wrong with the cut of an L-shaped room.
func (p Practice) cutFits(s Sheet) (out []Problem) {
	if s.Room.Shape != LShaped {
		return nil
	}
	long, wide := p.cutMM(s)
	if most := s.Room.Long.or(p.longMM) - leftMM; long > most {
		out = append(out, Problem{CutLong, message.Of("question.cut", message.Along("most", most)), most})
	}
	if most := s.Room.Wide.or(p.wideMM) - leftMM; wide > most {
		out = append(out, Problem{CutWide, message.Of("question.cut", message.Along("most", most)), most})
	}
	return out
}

// Closes says why the walls of a drawn room enclose none; nothing of one that they do.
func (p Practice) Closes(s Sheet) []Problem {
	if s.Room.Shape != WallByWall {
		return nil
	}
	said := func(id message.ID, args ...message.Arg) []Problem { return []Problem{{"", message.Of(id, args...), 0}} }
	outline := p.Outline(s)
	for i := range outline {
		if mm := wallMM(outline, i); mm < LeastWallMM-plan.HairMM || mm > GreatestWallMM+plan.HairMM {
			return said("question.wall-would-be", message.Name("wall", Letter(i)), message.Along("is", mm), message.Along("least", LeastWallMM),
				message.Along("greatest", GreatestWallMM))
		}
	}
	if wall, other, _, crosses := p.Crossing(s); crosses {
		return said("question.walls-cross", message.Name("wall", Letter(wall)), message.Name("other", Letter(other)))
	}
	if plan.Ring(outline).SignedArea() > 0 {
		return said("question.inside-out")
	}
	return nil
}

// Notes say of a drawn room how its walls do not close, where they do not.
func (p Practice) Notes(s Sheet) (out []message.Message) {
	if s.Room.Shape != WallByWall {
		return nil
	}
	c := s.Room.Drawn.Close()
	if c.MissesMM == 0 {
		return nil
	}
	n := s.Room.Drawn.N
	last := message.Name("last", Letter(n-1))
	differs := func(wall int, shortMM float64, short, long message.ID) {
		if !s.Room.Drawn.Walls[wall].Long.Given || math.Abs(shortMM) <= closesMM {
			return
		}
		id := short
		if shortMM < 0 {
			id = long
		}
		out = append(out, message.Of(id, message.Name("wall", Letter(wall)), message.Along("by", math.Abs(shortMM)), last))
	}
	differs(n-1, c.LastShortMM, "question.last-short", "question.last-long")
	differs(n-2, c.ShortMM, "question.before-short", "question.before-long")
	if len(out) == 0 {
		out = append(out, message.Of("question.does-not-close", message.Along("by", c.MissesMM), last))
	}
	return out
}

// showerFits says why a shower does not stand in its room.
func (p Practice) showerFits(s Sheet, outline []plan.Point) (out []Problem) {
	st := p.Stand(s)
	wall := message.Name("wall", Letter(st.Wall))
	if st.Corner >= 0 && !isSquare(outline, st.Corner) {
		id := message.ID("question.corner-not-square")
		if standsOut(outline, st.Corner) {
			id = "question.corner-stands-out"
		}
		return []Problem{{"", message.Of(id, message.AtCorner("corner", Corner(st.Corner, len(outline)))), 0}}
	}
	if least, _ := ShowerLong.Bounds(); len(out) == 0 && math.Min(st.MostLongMM, st.MostDeepMM) < least {
		return []Problem{{"", message.Of("question.no-room", wall, message.Along("least", least)), 0}}
	}
	switch {
	case st.LongMM > st.MostLongMM+plan.HairMM:
		out = append(out, Problem{ShowerLong, message.Of("question.shower-long", wall, message.Along("is", st.MostLongMM)), st.MostLongMM})
	case st.OffsetMM < st.FreeFromMM-plan.HairMM || st.OffsetMM+st.LongMM > st.FreeFromMM+st.MostLongMM+plan.HairMM:
		most := st.FreeFromMM + st.MostLongMM - st.LongMM
		out = append(out, Problem{ShowerFrom, message.Of("question.shower-past", wall, message.Along("most", most)), most})
	}
	if st.DeepMM > st.MostDeepMM+plan.HairMM {
		out = append(out, Problem{ShowerDeep, message.Of("question.shower-deep", wall, message.Along("is", st.MostDeepMM)), st.MostDeepMM})
	}
	return out
}

// problemsOf are what a job says of itself, as problems of the sheet it was made of.
func problemsOf(all job.Problems) []Problem {
	var out []Problem
	at := entries()
	at["shower"] = ShowerLong
	for _, p := range all {
		out = append(out, Problem{at[p.Key], p.Message(), 0})
	}
	return out
}

// Read reads a typed length: the text of a field in a sheet's units. What is wrong with it is told as
// an error that has a message.
func (s Sheet) Read(e Entry, text string) (Length, error) {
	least, greatest := e.Bounds()
	mm, err := unit.ParseWithin(text, e.Kind(), s.Units, least, greatest)
	if err != nil {
		return Length{}, err
	}
	return Given(mm), nil
}
