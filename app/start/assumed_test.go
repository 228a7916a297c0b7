package start_test

import (
	"slices"
	"strings"
	"testing"
	"underfall/app/start"

	"underfall/app/words"
	"underfall/geometry/job"
	"underfall/geometry/question"
)

// Whatever is assumed can be said to be so in the list, or be something else: it is counted no longer,
// and the job that is worked on has it stated.
func TestGoingThroughWhatIsAssumed(t *testing.T) {
	inApp(t, false, words.British)
	s, a := aSheet(t, "UK", false)
	w := opened(t, s.Object(), 1280, 800)
	choose(t, s.Object(), "Concrete")
	choose(t, s.Object(), "Go through")
	before := s.Assumed()
	for _, key := range []string{"room.outline", "drain.trapDepthMM", "room.doorways[0].widthMM", "room.walls[1].kind"} {
		if !slices.Contains(before, key) {
			t.Errorf("%s is not assumed: %v", key, before)
		}
		s.PressSo(key)
		if slices.Contains(s.Assumed(), key) {
			t.Errorf("%s is still assumed", key)
		}
	}
	// One is typed instead, one of the job's and one that a question asks for.
	enter(t, w, s.Object(), "Wall B, thickness", "300")
	enter(t, w, s.Object(), "Shower, depth", "1000")
	// What cannot be is not taken, and said.
	enter(t, w, s.Object(), "Room tile", "99999")
	if got := len(s.Assumed()); got != len(before)-6 {
		t.Errorf("%d are assumed of %d: %v", got, len(before), s.Assumed())
	}
	if !slices.ContainsFunc(texts(w.Canvas()), func(s string) bool { return strings.Contains(s, "99999 was not taken") }) {
		t.Errorf("99999 is refused without a word: %q", texts(w.Canvas()))
	}
	choose(t, s.Object(), "Back to the questions")
	if got := s.Sheet(); got.At(question.ShowerDeep) != question.Given(1000) || !got.Room.Long.Given {
		t.Errorf("%+v", got)
	}
	s.PressWork()
	if j := a.job; j == nil || j.Room.Walls[1].ThicknessMM != 300 || j.StandingOf("room.walls[1].thicknessMM") != job.Stated || j.StandingOf("drain.trapDepthMM") != job.Stated {
		t.Errorf("the job is %+v", a.job)
	}
	n := len(before)
	for range 6 {
		s.Undo()
	}
	if got := len(s.Assumed()); got != n {
		t.Errorf("taken back, %d are assumed of %d", got, n)
	}
}

// Who has looked says what there was by a button of the sheet: the question has its answer then.
func TestHavingLooked(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", false)
	opened(t, s.Object(), 1280, 800)
	cases := len(s.Cases())
	// Of the five possibilities four come to the same: they are not listed over the card.
	if c := s.Cases(); len(c) != 2 || !slices.ContainsFunc(c, func(c start.Case) bool { return c.Title.ID == "start.all-others" }) {
		t.Errorf("the cases are %+v", c)
	}
	choose(t, s.Object(), "I have looked")
	choose(t, s.Object(), "Timber, joists across the pipe, one under")
	if got := s.Sheet().Floor; got.Is != question.Timber || got.Runs == question.RunsNotKnown {
		t.Errorf("%+v", got)
	}
	if n := len(s.Cases()); n >= cases {
		t.Errorf("%d cases, %d before", n, cases)
	}
	s.Undo()
	choose(t, s.Object(), "I have looked")
	choose(t, s.Object(), "Not yet")
	choose(t, s.Object(), "I have looked")
}

// Where the waste joins outside is asked with where it goes.
func TestAskingWhereTheWasteJoins(t *testing.T) {
	inApp(t, false, words.British)
	s, a := aSheet(t, "UK", false)
	w := opened(t, s.Object(), 1280, 800)
	choose(t, s.Object(), "Concrete")
	choose(t, s.Object(), "Out through wall B")
	choose(t, s.Object(), "Gully")
	enter(t, w, s.Object(), "Outside, from the wall", "1.2 m")
	enter(t, w, s.Object(), "Gully, grating below", "200")
	s.PressWork()
	if b := a.job.Waste.Beyond; b == nil || b.Joins != job.JoinGully || b.LengthMM != 1200 || b.GratingMM == nil || *b.GratingMM != -200 || len(a.job.OpenUnder("waste.beyond")) > 0 {
		t.Errorf("%+v", b)
	}
	for _, c := range s.Cases() {
		if strings.Contains(c.How.String(), "beyond") {
			t.Errorf("still %v", c.How)
		}
	}
	choose(t, s.Object(), "A pipe in the floor")
	enter(t, w, s.Object(), "Pipe, along wall A", "300")
	enter(t, w, s.Object(), "Pipe, away from wall A", "1700")
	enter(t, w, s.Object(), "Pipe, inside bottom", "80")
	s.PressWork()
	if e := a.job.Room.PipeEnds; len(e) != 1 || e[0].At[0] != 300 || e[0].At[1] != 1700 || e[0].InvertMM == nil || *e[0].InvertMM != -80 {
		t.Errorf("%+v", e)
	}
}
