package start

import (
	"fyne.io/fyne/v2"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/question"
)

// The questions that a wall pressed on the plan answers while the keys are, or were last, in one of them: where the door is, and
// where the shower stands. In any other it says where the water goes.
const (
	asksDoor   = 2
	asksShower = 4
)

// askedIn notes which question has the keys.
func (s *Sheet) askedIn(o fyne.CanvasObject) {
	for i, q := range s.each {
		if box, ok := q.(*fyne.Container); ok && within(box, o) && i != s.asking {
			s.asking = i
			s.tellPresses()
		}
	}
}

// tellPresses says by the plan what a wall that is pressed there answers, or how walls are called.
func (s *Sheet) tellPresses() {
	id := message.ID("start.plan-letters")
	switch s.asking {
	case asksDoor:
		id = "start.press-for-door"
	case asksShower:
		id = "start.press-for-shower"
	}
	s.presses.SetText(theme.Word(id))
}

// pressCorner puts the shower into a corner; pressed again, it turns there.
func (s *Sheet) pressCorner(corner int) {
	next := s.at
	if st := s.practice.Stand(s.at); st.Corner == corner && s.at.Shower.Stands == question.InCorner {
		next.Shower.Turned = !next.Shower.Turned
	} else {
		next.Shower.Turned = false
	}
	next.Shower.Stands, next.Shower.Wall, next.Shower.From = question.InCorner, corner, question.Length{}
	s.choose(next)
}

// pressWall answers with a wall what is asked of walls where the keys were last: it has the door, or the shower stands at it. Else
// it says of the wall that it is an outside wall and that the water can go out there; pressed again, that neither is so.
func (s *Sheet) pressWall(wall int) {
	switch s.asking {
	case asksDoor:
		s.pressDoor(wall)
		return
	case asksShower:
		next := s.at
		next.Shower.Stands, next.Shower.Wall, next.Shower.Turned, next.Shower.From = question.AtWall, wall, false, question.Length{}
		s.choose(next)
		return
	}
	next := s.at
	if through, ok := s.practice.Through(s.at); ok && through == wall && s.at.Water.To == question.GoesOutThroughWall {
		next.Water = question.Water{To: question.GoesNotKnown}
		next.Outside = next.Outside.With(wall, false)
	} else {
		next.Water = question.Water{To: question.GoesOutThroughWall, Wall: wall}
		next.Outside = next.Outside.With(wall, true)
	}
	s.choose(next)
	s.showEnd()
}

// pressDoor puts the door into a wall, or says why it cannot be there.
func (s *Sheet) pressDoor(wall int) {
	if wall == 0 {
		return // it is there
	}
	if !s.practice.TakesDoor(s.at, wall) {
		s.tell()
		s.tell(theme.Word("start.no-door-here", message.Name("wall", question.Letter(wall)),
			message.Name("long", along(s.practice.WallMM(s.at, wall), s.at.Units))))
		return
	}
	s.choose(s.practice.DoorIn(s.at, wall))
}

// pressPlace says where the pipe or the stack is.
func (s *Sheet) pressPlace(at plan.Point) {
	if to := s.at.Water.To; to == question.GoesIntoPipe || to == question.GoesIntoStack {
		next := s.at
		next.Water.Along, next.Water.Away = question.Given(s.board.rounded(at.X())), question.Given(s.board.rounded(at.Y()))
		s.choose(next)
	}
}
