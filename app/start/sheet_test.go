package start_test

import (
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/start"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry/job"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/unit"
)

// What is pressed on the plan is an answer: a corner takes the shower, and turns it there when it is
// pressed again; a wall is an outside wall that the water goes out through, and no longer when it is
// pressed again.
func TestPressingThePlan(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", true)
	w := opened(t, s.Object(), 1280, 800)
	for _, c := range []struct {
		corner int
		turned bool
	}{{1, false}, {2, false}, {2, true}, {2, false}, {3, false}} {
		test.TapCanvas(w.Canvas(), s.CornerAt(c.corner))
		if got := s.Sheet().Shower; got.Stands != question.InCorner || got.Wall != c.corner || got.Turned != c.turned {
			t.Errorf("pressing corner %d: %+v", c.corner, got)
		}
	}
	test.TapCanvas(w.Canvas(), s.WallAt(3))
	if got := s.Sheet(); got.Water != (question.Water{To: question.GoesOutThroughWall, Wall: 3}) || !got.Outside.Has(3) {
		t.Errorf("pressing D: %+v", got)
	}
	test.TapCanvas(w.Canvas(), s.WallAt(3))
	if got := s.Sheet(); got.Water.To != question.GoesNotKnown || got.Outside.Has(3) {
		t.Errorf("pressing D again: %+v", got)
	}
}

// With the keys on the plan two letters are a corner, one letter and Enter a wall.
func TestLettersOnThePlan(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", true)
	w := opened(t, s.Object(), 1280, 800)
	test.TapCanvas(w.Canvas(), s.CornerAt(2))
	typeIn(w, "da")
	if got := s.Sheet().Shower; got.Stands != question.InCorner || got.Wall != 3 {
		t.Errorf("d, a: %+v", got)
	}
	typeIn(w, "c")
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := s.Sheet().Water; got != (question.Water{To: question.GoesOutThroughWall, Wall: 2}) {
		t.Errorf("c, Enter: %+v", got)
	}
}

// The open side of the shower is dragged by its handle, the shower by its middle into another corner;
// each drag is one step that can be taken back.
func TestDraggingThePlan(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", true)
	w := opened(t, s.Object(), 1280, 800)
	before := s.Sheet()
	drag := func(from, to fyne.Position) {
		test.Drag(w.Canvas(), to, to.X-from.X, to.Y-from.Y) // the driver tells where it has come to
	}
	// The shower stands in BC, 1400 along C: its side towards D is dragged to 1000.
	drag(s.PlaceAt(1400, 1450), s.PlaceAt(1000, 1450))
	if got := s.Sheet().At(question.ShowerLong); !got.Given || got.MM != 1000 {
		t.Errorf("dragged to 1000: %+v", got)
	}
	drag(s.PlaceAt(500, 1500), s.PlaceAt(1950, 1500))
	if got := s.Sheet().Shower; got.Stands != question.InCorner || got.Wall != 2 {
		t.Errorf("carried to CD: %+v", got)
	}
	// The door, 760 wide and 140 from DA, is dragged by its middle 1000 away from there.
	drag(s.DoorAt(), s.DoorAt().Add(s.PlaceAt(500, 0).Subtract(s.PlaceAt(1500, 0))))
	if got := s.Sheet().At(question.DoorFrom); !got.Given || got.MM != 1140 {
		t.Errorf("the door was dragged to %+v", got)
	}
	for range 3 {
		s.Undo()
	}
	if s.Sheet() != before {
		t.Errorf("taken back: %+v", s.Sheet())
	}
	s.Redo()
	if got := s.Sheet().At(question.ShowerLong); got.MM != 1000 {
		t.Errorf("made again: %+v", got)
	}
}

// What is typed is shown at once and taken when the field is left; what cannot be is refused in a
// sentence, and the answer before stays.
func TestTypingAnswers(t *testing.T) {
	inApp(t, false, words.British)
	s, a := aSheet(t, "UK", true)
	w := opened(t, s.Object(), 1280, 800)
	typed := func(e question.Entry, text string) {
		s.FocusField(e)
		w.Canvas().Focused().(interface{ SetText(string) }).SetText(text)
		w.Canvas().Unfocus()
	}
	typed(question.RoomLong, "2 m")
	if got := s.Sheet().At(question.RoomLong); got.MM != 2000 || !got.Given {
		t.Errorf("2 m: %+v", got)
	}
	// The usual door of 760 stands 140 from DA; the shower of 1400 fits into 2000.
	typed(question.ShowerLong, "1400")
	typed(question.RoomLong, "1300")
	if got := s.Sheet(); got.At(question.RoomLong).MM != 1300 {
		t.Errorf("1300: %+v", got.At(question.RoomLong))
	}
	for _, text := range []string{"9999999", "0", "-3", "wide", "2400\t1900\t760", "12 kg", strings.Repeat("9", 400), "1:50"} {
		before := s.Sheet()
		typed(question.RoomWide, text)
		if s.Sheet() != before {
			t.Errorf("%.20q was taken: %+v", text, s.Sheet().At(question.RoomWide))
		}
		if s.Refused(question.RoomWide) == "" {
			t.Errorf("%.20q is refused without a word", text)
		}
	}
	typed(question.RoomWide, "")
	if got := s.Sheet().At(question.RoomWide); got.Given {
		t.Errorf("emptied: %+v", got)
	}
	if a.answers == 0 {
		t.Error("nothing was worked out")
	}
}

// The first answer stands there from the first moment on, and the job can be worked on at any time.
func TestWorkingAtOnce(t *testing.T) {
	inApp(t, false, words.British)
	s, a := aSheet(t, "UK", false)
	w := opened(t, s.Object(), 1280, 800)
	if n := len(s.Cases()); n < 2 {
		t.Errorf("%d cases for a floor that nobody knows", n)
	}
	s.PressWork()
	if a.job == nil || len(a.job.Validate()) > 0 || a.job.StandingOf("floor.kind") != "not-known" {
		t.Errorf("the job is %+v", a.job)
	}
	_ = w
}

// A US room shows no metric figure anywhere, neither at first nor with all that a floor may be.
func TestNoMetricInAmerica(t *testing.T) {
	t.Setenv("LANG", "en_US.UTF-8")
	inApp(t, false, words.American)
	s, _ := aSheet(t, "US", false)
	w := opened(t, s.Object(), 1280, 800)
	f, _ := aFront(t, "US")
	wf := opened(t, f.Object(), 1280, 800)
	for _, label := range []string{"Drawn wall by wall", "Timber", "A pipe in the floor", "Soil stack", "Out through wall B", "Yard drain", "I have looked"} {
		choose(t, s.Object(), label)
		for _, text := range texts(w.Canvas()) {
			if strings.Contains(text, " mm") || strings.Contains(text, "metre") {
				t.Errorf("%s: %q", label, text)
			}
		}
	}
	s.GoThrough()
	for name, c := range map[string]fyne.Canvas{"sheet": w.Canvas(), "front": wf.Canvas()} {
		for _, text := range texts(c) {
			for _, metric := range []string{" mm", "mm ", " cm", " m.", "metre"} {
				if strings.Contains(text, metric) {
					t.Errorf("%s says %q", name, text)
				}
			}
		}
	}
	if s.Sheet().Units != unit.Imperial {
		t.Error("the units are metric")
	}
}

// Another country brings its own practice and units, kept for the next job; what was answered stays.
func TestAnotherCountry(t *testing.T) {
	inApp(t, false, words.British)
	s, a := aSheet(t, "UK", true)
	opened(t, s.Object(), 1280, 800)
	s.ChooseRegion("US")
	if a.kept == nil || a.kept.Region != "US" || s.Sheet().Units != unit.Imperial {
		t.Errorf("kept %+v", a.kept)
	}
}

// Where all is large the questions have room for it: none is wider than the column.
func TestLargeQuestionsFit(t *testing.T) {
	inApp(t, false, words.British)
	look := fyne.CurrentApp().Settings().Theme().(*theme.Theme)
	look.SetLarge(true)
	fyne.CurrentApp().Settings().SetTheme(look)
	for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}} {
		s, _ := aSheet(t, "UK", true)
		opened(t, s.Object(), size.Width, size.Height)
		for _, label := range []string{"Rectangle", "L-shaped", "Timber", "Out through wall", "Gully", "A pipe in the floor", "Drawn wall by wall"} {
			choose(t, s.Object(), label)
			if wide, most := s.Column(); wide > most {
				t.Errorf("%v, %s: %v wide, %v at most", size, label, wide, most)
			}
		}
	}
}

// In a longer language the questions have room too: the column is as wide as they need.
func TestLongQuestionsFit(t *testing.T) {
	inApp(t, false, words.MadeUp)
	for _, region := range []string{"UK", "US"} {
		s, _ := aSheet(t, region, true)
		opened(t, s.Object(), 1280, 800)
		if wide, most := s.Column(); wide > most {
			t.Errorf("%s: %v wide, %v at most", region, wide, most)
		}
	}
}

// No text reaches out of the window or over its neighbour's sheet, at any size.
func TestNothingIsCutOff(t *testing.T) {
	inApp(t, false, words.British)
	for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}, {Width: 1920, Height: 1080}} {
		s, _ := aSheet(t, "UK", true)
		f, _ := aFront(t, "UK")
		for name, o := range map[string]fyne.CanvasObject{"sheet": s.Object(), "front": f.Object()} {
			w := opened(t, o, size.Width, size.Height)
			w.Canvas().Capture() // lays everything out
			for _, c := range cutOff(o, size) {
				t.Errorf("%s at %v: %s", name, size, c)
			}
		}
	}
}

// Nor is one cut off on the sheet with all that is pressed large, or in a longer language, with the door's and the shower's
// fields beside what stands round them.
func TestNothingOfTheSheetIsCutOffLargeOrLong(t *testing.T) {
	for name, c := range map[string]struct {
		language string
		large    bool
		size     fyne.Size
	}{
		"long":            {words.MadeUp, false, fyne.NewSize(1280, 800)},
		"long, wide":      {words.MadeUp, false, fyne.NewSize(1920, 1080)},
		"large, smallest": {words.British, true, fyne.NewSize(1024, 700)},
		"large":           {words.British, true, fyne.NewSize(1280, 800)},
		"large, wide":     {words.British, true, fyne.NewSize(1920, 1080)},
	} {
		inApp(t, false, c.language)
		look := fyne.CurrentApp().Settings().Theme().(*theme.Theme)
		look.SetLarge(c.large)
		fyne.CurrentApp().Settings().SetTheme(look)
		s, _ := aSheet(t, "UK", true)
		w := opened(t, s.Object(), c.size.Width, c.size.Height)
		roomtest.NewFrames().Settle(w.Content())
		if cut := cutOff(w.Content(), c.size); len(cut) > 0 {
			t.Errorf("%s: %q", name, cut)
		}
		if wide, most := s.Column(); wide > most {
			t.Errorf("%s: the questions are %v wide of %v", name, wide, most)
		}
	}
}

// What an arrow out through a wall is stands off the arrow, through every wall, large and in a small window too.
func TestTheWayOutIsToldOffItsArrow(t *testing.T) {
	inApp(t, false, words.British)
	look := fyne.CurrentApp().Settings().Theme().(*theme.Theme)
	for _, large := range []bool{true, false} {
		look.SetLarge(large)
		fyne.CurrentApp().Settings().SetTheme(look)
		for wall, through := range []string{"Out through wall A", "Out through wall B", "Out through wall C", "Out through wall D"} {
			s, _ := aSheet(t, "UK", true)
			w := opened(t, s.Object(), 1024, 700)
			roomtest.NewFrames().Settle(w.Content())
			assumed := s.WayOutSaid()
			test.TapCanvas(w.Canvas(), s.WallAt(wall))
			roomtest.NewFrames().Settle(w.Content())
			if !assumed || !s.WayOutSaid() {
				t.Errorf("large %v, %s: assumed, it is told off its arrow %v; stated %v", large, through, assumed, s.WayOutSaid())
			}
		}
	}
}

// A wall's letter gives way to the arrow out through it, wherever along the wall that lies.
func TestAWallsLetterKeepsOffTheArrow(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", true)
	w := opened(t, s.Object(), 1024, 700)
	roomtest.NewFrames().Settle(w.Content())
	test.TapCanvas(w.Canvas(), s.WallAt(1))
	for y := 100.0; y <= 1800; y += 50 { // wall B is 1900 long
		if !s.LettersOffArrow(plan.Point{1500, y}, plan.Point{0, y}) {
			t.Errorf("%v along wall B the arrow lies under a letter", y)
		}
	}
}

// What the answer waits for is in sight once the way out is chosen, in the list or on the plan, in a small
// window as well: what it joins, then how far it is to there; of what is assumed it comes first.
func TestWhatTheAnswerWaitsForIsInSight(t *testing.T) {
	inApp(t, false, words.British)
	for name, way := range map[string]func(s *start.Sheet, w fyne.Window){
		"in the list": func(s *start.Sheet, _ fyne.Window) { choose(t, s.Object(), "Out through wall B") },
		"on the plan": func(s *start.Sheet, w fyne.Window) { test.TapCanvas(w.Canvas(), s.WallAt(1)) },
	} {
		s, _ := aSheet(t, "UK", false)
		w := opened(t, s.Object(), 1024, 700)
		frames := roomtest.NewFrames()
		inSight := func(label string) {
			t.Helper()
			frames.Settle(w.Content())
			o := called[fyne.CanvasObject](t, s.Object(), label)
			above := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y - s.QuestionsAt().Y
			if below := above + o.Size().Height; above < 0 || below > s.QuestionsHigh() {
				t.Errorf("%s: %q stands from %v to %v in questions %v high", name, label, above, below, s.QuestionsHigh())
			}
		}
		choose(t, s.Object(), "Concrete")
		frames.Settle(w.Content())
		way(s, w)
		inSight("Gully")
		if first := s.Assumed()[0]; first != job.JoinsKey {
			t.Errorf("%s: of what is assumed %s comes first", name, first)
		}
		choose(t, s.Object(), "Gully")
		inSight("Outside, from the wall to where it joins")
	}
}

// In American units the plan of a new job tells lengths along the floor as its fields do: of the usual room of 8 ft by
// 6 ft 3, a shower of 5 by 3 and a door of 2 ft 6, none in inches alone.
func TestThePlanOfANewJobIsInFeet(t *testing.T) {
	inApp(t, false, words.American)
	s, _ := aSheet(t, "US", true)
	opened(t, s.Object(), 1280, 800)
	shown := map[string]bool{}
	each(s.Object(), fyne.Position{}, func(o fyne.CanvasObject, _ fyne.Position) {
		if text, ok := o.(*control.Text); ok {
			shown[text.Text] = true
		}
	})
	for _, want := range []string{`8' 0"`, `6' 3"`, `5' 0"`, `3' 0"`, `2' 6"`} {
		if !shown[want] {
			t.Errorf("%s is not shown", want)
		}
	}
	for _, inches := range []string{`96"`, `75"`, `60"`, `36"`, `30"`} {
		if shown[inches] {
			t.Errorf("%s is shown", inches)
		}
	}
}

// A board is lifted to see the floor, and a wall is measured where it has an opening: that is shown; what lies outside is not.
func TestLooksHavePictures(t *testing.T) {
	for key, want := range map[string]bool{"floor.kind": true, "floor.joists.depthMM": true, "room.walls[1].thicknessMM": true,
		"waste.exit": false} {
		if got := start.Pictured(key); got != want {
			t.Errorf("%s: %v", key, got)
		}
	}
}

// However much was answered before, the sheet begins with its first questions in sight, in the smallest window too, and the
// keys in the first of their fields that is open: what is open far below does not draw the page down.
func TestTheSheetBeginsAtItsTop(t *testing.T) {
	inApp(t, false, words.British)
	for name, c := range map[string]struct {
		given []question.Entry
		want  question.Entry
	}{
		"nothing answered":  {nil, question.RoomLong},
		"the room answered": {[]question.Entry{question.RoomLong, question.RoomWide}, question.DoorWide},
		"all but how far it is to what it joins": {[]question.Entry{question.RoomLong, question.RoomWide, question.DoorWide, question.DoorFrom,
			question.ShowerLong, question.ShowerDeep}, question.RoomLong},
	} {
		s, _ := sheetWith(t, "UK", true, func(s question.Sheet) question.Sheet {
			s.Floor.Is, s.Floor.Said = question.Concrete, true
			s.Water = question.Water{To: question.GoesOutThroughWall, Wall: 3, Joins: question.JoinsGully}
			for _, e := range c.given {
				s = s.With(e, question.Given(usually(t, s, e)))
			}
			return s
		})
		w := opened(t, s.Object(), 1024, 700)
		frames := roomtest.NewFrames()
		s.Focus()
		frames.Settle(w.Content())
		if s.ScrolledBy() != 0 {
			t.Errorf("%s: the questions begin %v down", name, s.ScrolledBy())
		}
		if got := s.HasKeys(w.Canvas()); got != c.want {
			t.Errorf("%s: the keys are in %q, want %q", name, got, c.want)
		}
	}
}

// usually is what stands in for a length.
func usually(t *testing.T, s question.Sheet, e question.Entry) float64 {
	t.Helper()
	return practices(t)(s.Region).UsualMM(s, e)
}

// The door is put into the wall beside the one it is in, and on round the room: one press each, taken back by one. Where along
// its wall it is need not be known: that is said, and counted as assumed.
func TestTheDoorIsPutIntoAnotherWall(t *testing.T) {
	inApp(t, false, words.British)
	s, a := aSheet(t, "UK", false)
	w := opened(t, s.Object(), 1280, 800)
	enter(t, w, s.Object(), "Room, length", "4000")
	enter(t, w, s.Object(), "Room, width", "3000")
	enter(t, w, s.Object(), "Door, along", "600")
	before := s.Sheet()
	choose(t, s.Object(), "Put it in wall B, 3000")
	s.PressWork()
	if d, long := a.job.Room.Doorways[0], a.job.Room.WallLengthMM(0); d.Wall != 0 || long != 3000 {
		t.Errorf("the door is in wall %d, A is %v long", d.Wall, long)
	}
	if !slices.Contains(texts(w.Canvas()), "from DA, assumed") || !slices.Contains(s.Assumed(), "room.doorways[0].offsetMM") {
		t.Errorf("the door's place is not told as assumed: %q, %q", texts(w.Canvas()), s.Assumed())
	}
	enter(t, w, s.Object(), "Door, along", "700")
	if !slices.Contains(texts(w.Canvas()), "from DA in wall A") || slices.Contains(s.Assumed(), "room.doorways[0].offsetMM") {
		t.Errorf("the door's place is told as assumed: %q, %q", texts(w.Canvas()), s.Assumed())
	}
	s.Undo()
	choose(t, s.Object(), "Put it in wall B, 4000")
	s.Undo()
	s.Undo()
	if s.Sheet() != before {
		t.Errorf("taken back: %+v, was %+v", s.Sheet(), before)
	}
}

// A wall that is pressed on the plan answers what the keys were last in, and the plan says what: where the door is, where the shower
// stands, and else where the water goes. A wall that takes no door says so and changes nothing.
func TestAPressedWallAnswersWhatIsAsked(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", false)
	w := opened(t, s.Object(), 1280, 800)
	enter(t, w, s.Object(), "Room, length", "4000")
	enter(t, w, s.Object(), "Room, width", "3000")
	if test.TapCanvas(w.Canvas(), s.WallAt(2)); s.Sheet().Water != (question.Water{To: question.GoesOutThroughWall, Wall: 2}) {
		t.Errorf("asked of the room, C is pressed: %+v", s.Sheet().Water)
	}
	enter(t, w, s.Object(), "Door, along", "600")
	if !slices.Contains(texts(w.Canvas()), "Press the wall that the door is in.") {
		t.Error("what a press on the plan answers is not told")
	}
	before := s.Sheet()
	if test.TapCanvas(w.Canvas(), s.WallAt(0)); s.Sheet() != before {
		t.Errorf("the wall that the door is in is pressed: %+v", s.Sheet())
	}
	test.TapCanvas(w.Canvas(), s.WallAt(1))
	if got := practices(t)("UK").WallMM(s.Sheet(), 0); got != 3000 || s.Sheet().Water.Wall != 1 {
		t.Errorf("the door is in a wall of %v, the water goes out through %d", got, s.Sheet().Water.Wall)
	}
	s.Undo()
	if s.Sheet() != before {
		t.Errorf("taken back: %+v, was %+v", s.Sheet(), before)
	}
	enter(t, w, s.Object(), "Shower, length", "1200")
	if test.TapCanvas(w.Canvas(), s.WallAt(3)); s.Sheet().Shower.Stands != question.AtWall || s.Sheet().Shower.Wall != 3 {
		t.Errorf("the shower stands at %+v", s.Sheet().Shower)
	}
	if s.Sheet().Water.Wall != 2 || !slices.Contains(texts(w.Canvas()), "Press the corner or the wall that the shower stands at.") {
		t.Errorf("the water goes out through %d", s.Sheet().Water.Wall)
	}
	choose(t, s.Object(), "Drawn wall by wall")
	for _, wall := range []string{"B", "D"} {
		enter(t, w, s.Object(), "Wall "+wall+", length", "250")
	}
	enter(t, w, s.Object(), "Door, along", "100")
	before = s.Sheet()
	if test.TapCanvas(w.Canvas(), s.WallAt(1)); s.Sheet() != before || !slices.ContainsFunc(texts(w.Canvas()), func(s string) bool {
		return strings.HasPrefix(s, "Wall B") && strings.Contains(s, "takes no door")
	}) {
		t.Errorf("a wall that takes no door: %+v, told %q", s.Sheet(), texts(w.Canvas()))
	}
}

// A wall that the shower does not stand at is no choice for the way out, and that is said; pressed on the plan it is one.
func TestWallsThatAreNoWayOutAreNamed(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", true)
	w := opened(t, s.Object(), 1280, 800)
	says := func() (said string) {
		for _, text := range texts(w.Canvas()) {
			if strings.HasPrefix(text, "Not listed, as the shower") {
				said = text
			}
		}
		return said
	}
	// The usual shower stands in BC.
	if got := says(); !strings.Contains(got, ": A and D.") {
		t.Errorf("of A and D it says %q", got)
	}
	test.TapCanvas(w.Canvas(), s.WallAt(3))
	if got := says(); !strings.Contains(got, ": A.") {
		t.Errorf("with D pressed it says %q", got)
	}
}

// Two cards of a first answer end where all that stands over them ends.
func TestCardsEndWhereThePlanEnds(t *testing.T) {
	inApp(t, false, words.British)
	s, _ := aSheet(t, "UK", false)
	opened(t, s.Object(), 1280, 800)
	all, plan := s.CasePlaces()
	if len(all) != 2 {
		t.Fatalf("%d cards", len(all))
	}
	if end := all[1].X + all[1].Width; end < plan.X+plan.Width-1 {
		t.Errorf("the cards end at %v, what is over them at %v", end, plan.X+plan.Width)
	}
}

// The letters of a room's walls stand beside each other, where the room has a corner cut out and the walls there are short as well.
func TestNoLetterLiesOverAnother(t *testing.T) {
	inApp(t, false, words.British)
	for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}, {Width: 1920, Height: 1080}} {
		s, _ := aSheet(t, "UK", false)
		opened(t, s.Object(), size.Width, size.Height)
		choose(t, s.Object(), "L-shaped")
		if over := s.LettersOver(); len(over) > 0 {
			t.Errorf("at %v: %v", size, over)
		}
	}
}

// What is written on the shower can be read, in the light and in the dark: its colour against what is under it, by the formula and the
// least ratio of WCAG 2.1, 1.4.3 (from memory).
func TestWhereItFallsToCanBeRead(t *testing.T) {
	const least = 4.5
	luminance := func(c color.Color) float64 {
		r, g, b, _ := c.RGBA()
		part := func(v uint32) float64 {
			if x := float64(v) / 0xffff; x > 0.03928 {
				return math.Pow((x+0.055)/1.055, 2.4)
			} else {
				return x / 12.92
			}
		}
		return 0.2126*part(r) + 0.7152*part(g) + 0.0722*part(b)
	}
	for _, dark := range []bool{false, true} {
		inApp(t, dark, words.British)
		s, _ := aSheet(t, "UK", true)
		w := opened(t, s.Object(), 1280, 800)
		roomtest.NewFrames().Settle(w.Content())
		found := false
		picture := w.Canvas().Capture()
		roomtest.EachShown(w.Content(), func(o fyne.CanvasObject) {
			said, ok := o.(*control.Text)
			if !ok || said.Text != "falls to the drain" {
				return
			}
			found = true
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(said)
			ink, under := luminance(said.Role.In(dark)), luminance(picture.At(int(at.X)-1, int(at.Y+said.Size().Height/2)))
			if ratio := (max(ink, under) + 0.05) / (min(ink, under) + 0.05); ratio < least {
				t.Errorf("dark %v: a contrast of %.1f", dark, ratio)
			}
		})
		if !found {
			t.Error("it is not said where the shower falls to")
		}
	}
}
