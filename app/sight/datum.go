package sight

import (
	"underfall/app/paint"
	"underfall/app/words"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// reads tells how levels of a result are read from what heights are counted from; nil where that is the
// structural floor, as levels of a job are.
func (s *State) reads(r geometry.Result) func(levelMM float64) message.Message {
	from := r.Counted(s.Datum)
	if from.Of == geometry.OverStructure {
		return nil
	}
	return func(levelMM float64) message.Message {
		read, err := r.Read(from, levelMM)
		if err != nil {
			return message.OfError(err)
		}
		return read
	}
}

// Levels is a book that tells levels of a result as they are counted.
func (s *State) Levels(b words.Book, r geometry.Result) words.Book { return b.Levels(s.reads(r)) }

// Counted says what levels of a result are counted from; nothing where that is the structural floor, as
// levels of a job are.
func (s *State) Counted(r geometry.Result) message.Message {
	from := r.Counted(s.Datum)
	if from.Of == geometry.OverStructure {
		return message.Message{}
	}
	return message.Of("drawing.levels", message.In("from", message.Of(from.Of.Name())))
}

// Styled is how a drawing of a result looks with its levels told as they are counted, and with what they are
// counted from at its foot.
func (s *State) Styled(style paint.Style, r geometry.Result) paint.Style {
	levels := s.Counted(r)
	if levels.IsZero() {
		return style
	}
	style.Book = s.Levels(style.Book, r)
	if !style.Unit.IsZero() {
		levels = message.Of("drawing.unit-and-levels", message.In("unit", style.Unit), message.In("levels", levels))
	}
	style.Unit = levels
	return style
}

// Rod is the point that a rod stands at; nil without one.
func (s *State) Rod() *plan.Point {
	if !s.HasRod {
		return nil
	}
	return &s.RodAt
}

// StandRod has a rod stand at a point of the room; pressed within a reach of where one stands, that is taken
// away. An error says why there is none at the point.
func (s *Sight) StandRod(r geometry.Result, p plan.Point, reachMM float64) error {
	if _, err := r.RodAt(p); err != nil {
		return err
	}
	off := s.RodAt.Sub(p).Len()
	s.Change(func(s *State) {
		s.HasRod, s.RodAt = !(s.HasRod && off < reachMM), p
	})
	return nil
}
