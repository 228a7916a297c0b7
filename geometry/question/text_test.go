package question_test

import (
	"testing"

	"underfall/geometry/plan"
	"underfall/geometry/question"
)

// Answers come back from their text as they were; what is no answers is none, and whatever is read does
// no more than say what is wrong.
func TestAnswersAsText(t *testing.T) {
	p := practice(t, "US")
	s := p.Draw(p.Begin().With(question.RoomLong, question.Given(2438.4))).PutIn(2).MoveCorner(2, plan.Point{1000, 2300})
	s.Floor = question.Floor{Is: question.Timber, Runs: question.FromA, Deep: question.Given(235)}
	s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 1, Joins: question.JoinsDrain, Far: question.Given(3000)}
	s.Outside = s.Outside.With(1, true)
	if got, ok := question.ReadSheet(s.Text()); !ok || got != s {
		t.Errorf("%v: %+v, not %+v", ok, got, s)
	}
	for _, text := range []string{"", "{", "null", `{"Region":""}`, `{"Region":"UK","Room":{"Shape":2,"Drawn":{"N":99}}}`, `{"Region":"UK","Room":{"Shape":2}}`,
		`{"Region":"UK","Room":{"Shape":9}}`, `{"Region":"UK","Water":{"To":1,"Wall":-1}}`, `{"Region":"UK","Shower":{"Stands":1,"Wall":70}}`} {
		if s, ok := question.ReadSheet(text); ok {
			t.Errorf("%q is read as %+v", text, s)
		}
	}
	for _, text := range []string{`{"Region":"UK"}`, `{"Region":"UK","Water":{"To":9,"Wall":5}}`, `{"Region":"UK","Room":{"Shape":2,"Drawn":{"N":3}}}`,
		`{"Region":"UK","Shower":{"Stands":1,"Wall":11}}`} {
		s, ok := question.ReadSheet(text)
		if !ok {
			t.Errorf("%q is not read", text)
		}
		p.Job(s)
		p.Stand(s)
		p.Notes(s)
	}
}
