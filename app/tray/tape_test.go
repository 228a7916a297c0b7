package tray_test

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"underfall/app/control"
	"underfall/app/roomtest"
	"underfall/app/theme"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

// square is a job with a room of 2400 by 1800, with a door 800 wide in its first wall.
func square() job.Job {
	j := job.New()
	j.Room.Outline = []plan.Point{{0, 0}, {2400, 0}, {2400, 1800}, {0, 1800}}
	j.Room.Doorways[0].OffsetMM, j.Room.Doorways[0].WidthMM = 200, 800
	return j
}

// texts are all texts that show.
func (b *bench) texts() (out []string) {
	roomtest.EachShown(b.Object(), func(o fyne.CanvasObject) {
		if t, ok := o.(*control.Text); ok {
			out = append(out, t.Text)
		}
	})
	return out
}

// typeMark types on a mark of a tape.
func (b *bench) typeMark(m edit.Mark, s string) {
	b.FocusMark(m)
	e := b.window.Canvas().Focused().(typing)
	e.SetText(s)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// A mark typed on the tape moves what it is of: the first side of a door all of the door, the second its width. The wall
// that it is on is told, and while its field is asked it is lit.
func TestTypingOnTheTape(t *testing.T) {
	b := at(t, square())
	var lit section.Lit
	b.Lights = func(l section.Lit) { lit = l }
	first, second := edit.Mark{Kind: edit.MarkDoor, Wall: 0}, edit.Mark{Kind: edit.MarkDoor, Wall: 0, Second: true}
	b.typeMark(first, "350")
	if d := b.job.Room.Doorways[0]; d.OffsetMM != 350 || d.WidthMM != 800 {
		t.Errorf("the door is at %v, %v wide", d.OffsetMM, d.WidthMM)
	}
	if lit.Mark == nil || *lit.Mark != first {
		t.Errorf("lit is %v", lit)
	}
	b.typeMark(second, "1250")
	if d := b.job.Room.Doorways[0]; d.OffsetMM != 350 || d.WidthMM != 900 {
		t.Errorf("the door is at %v, %v wide", d.OffsetMM, d.WidthMM)
	}
}

// A room that is drawn becomes one that is measured with one press, its corners where they were; a length across it that
// does not fit has it lean, which is told and can be kept, or drawn square.
func TestRoomBecomesMeasured(t *testing.T) {
	b := at(t, square())
	test.Tap(pressCalled(b.Object(), "Measure it"))
	if !b.job.Room.Measured() || len(b.job.Room.Tape.Lengths) != 4 {
		t.Fatalf("%+v", b.job.Room.Tape)
	}
	for i, c := range square().Room.Outline {
		if c.Sub(b.job.Room.Outline[i]).Len() > 1e-5 {
			t.Errorf("corner %d went to %v", i, b.job.Room.Outline[i])
		}
	}
	// 12 mm out of square over the wall of 2400: the far corner goes along by so much that the distance across is
	// longer by 12·1800/3000, in the first order.
	for _, e := range []edit.Edit{edit.Across(0, 2, 3007.2), edit.Across(1, 3, 2992.8)} {
		b.job = e.Apply(b.job)
	}
	b.Show(b.job)
	keep := pressCalled(b.Object(), "Keep it so")
	taken, _ := b.job.Room.Taken()
	if lean, ok := taken.OutOfSquare(); keep == nil || !ok || math.Abs(math.Abs(lean.MM)-12) > 0.2 {
		t.Fatalf("keep %v, out of square %v", keep, lean)
	}
	test.Tap(keep)
	if pressCalled(b.Object(), "Draw it square") != nil || !b.job.Room.Measured() {
		t.Error("kept so, it is still asked")
	}
	b.job = edit.Across(1, 3, 2990).Apply(b.job)
	b.Show(b.job)
	test.Tap(pressCalled(b.Object(), "Draw it square"))
	if lean := b.job.Room.Outline[2].Sub(b.job.Room.Outline[1]).Dot(b.job.Room.Outline[1].Sub(b.job.Room.Outline[0])); b.job.Room.Measured() || math.Abs(lean) > 1 {
		t.Errorf("drawn square its corners are %v", b.job.Room.Outline)
	}
}

// The one length that contradicts all others is named, and what the others give for it can be taken, or it be left out:
// 60 too long over a room of 2400 by 1800, whose lengths across are 3000 by Pythagoras.
func TestWrongLengthIsCured(t *testing.T) {
	for _, c := range []struct {
		press string
		left  int
		mm    float64
	}{{"Make it 3000", 6, 3000}, {"Leave it out", 5, 0}} {
		b := at(t, square())
		for _, e := range []edit.Edit{edit.Across(0, 2, 3060), edit.Across(1, 3, 3000)} {
			b.job = e.Apply(b.job)
		}
		b.Show(b.job)
		p := pressCalled(b.Object(), c.press)
		if p == nil {
			t.Fatalf("no “%s” among %v", c.press, b.texts())
		}
		test.Tap(p)
		i, ok := b.job.Room.TapedBetween(0, 2)
		if n := len(b.job.Room.Tape.Lengths); n != c.left || ok != (c.mm > 0) || ok && b.job.Room.Tape.Lengths[i].LengthMM != c.mm {
			t.Errorf("%s leaves %+v", c.press, b.job.Room.Tape.Lengths)
		}
		if taken, _ := b.job.Room.Taken(); !taken.Fit.Closes {
			t.Errorf("%s: still does not close", c.press)
		}
	}
}

// The zero of a tape can be held at the other corner: then readings run from there, and nothing moves.
func TestZeroAtTheOtherCorner(t *testing.T) {
	b := at(t, square())
	test.Tap(pressCalled(b.Object(), "Measure it"))
	was := b.job
	test.Tap(pressCalled(b.Object(), "From corner"))
	if d, e := b.job.Room.Doorways[0], was.Room.Doorways[0]; d != e {
		t.Errorf("the door went from %+v to %+v", e, d)
	}
	turned := 0
	for wall := range b.job.Room.Outline {
		if b.job.Room.ZeroAtEnd(wall) {
			turned++
		}
	}
	if turned != 1 {
		t.Errorf("%d tapes turned", turned)
	}
}

// Wall by wall there are the lengths of walls alone, and what is measured across.
func TestWallByWall(t *testing.T) {
	b := at(t, square())
	roomtest.EachShown(b.Object(), func(o fyne.CanvasObject) {
		if c, ok := o.(*control.Choice); ok && c.Chosen() == "running" {
			c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
		}
	})
	fields := 0
	for _, text := range b.texts() {
		if len(text) == len("Wall A") && text[:5] == "Wall " {
			fields++
		}
	}
	if fields != 4 {
		t.Errorf("%d walls: %v", fields, b.texts())
	}
}

// typeWalls types lengths of walls, by the walls' indices, wall by wall.
func (b *bench) typeWalls(walls []int, texts []string) {
	for k, wall := range walls {
		b.typeMark(edit.Mark{Kind: edit.MarkCorner, Wall: wall}, texts[k])
	}
}

// A room of 2400 by 1800 that a fitter reads as 2410, 1803, 2395 and 1799 is so measured: the first length that would
// pull at one that was typed has the room be measured, and what was typed stays as read, each in its field. A wall that
// nobody measured is no reading.
func TestTypedWallsAreReadings(t *testing.T) {
	b := at(t, square())
	b.typeWalls([]int{0, 1}, []string{"2410", "1803"})
	if b.job.Room.Measured() {
		t.Fatal("measured while nothing contradicts that it is square")
	}
	if mm := b.job.Room.WallLengthMM(2); math.Abs(mm-2410) > 1e-6 {
		t.Errorf("the wall across is %v", mm)
	}
	b.typeWalls([]int{2}, []string{"2395"})
	read := func(wall int) float64 {
		if i, ok := b.job.Room.TapedAlong(wall); ok {
			return b.job.Room.Tape.Lengths[i].LengthMM
		}
		return 0
	}
	if read(0) != 2410 || read(1) != 1803 || read(2) != 2395 || read(3) != 0 {
		t.Fatalf("read %v, %v, %v, %v", read(0), read(1), read(2), read(3))
	}
	b.typeWalls([]int{3}, []string{"1799"})
	if read(0) != 2410 || read(1) != 1803 || read(2) != 2395 || read(3) != 1799 {
		t.Errorf("read %v, %v, %v, %v", read(0), read(1), read(2), read(3))
	}
	if taken, ok := b.job.Room.Taken(); !ok || !taken.Fit.Closes {
		t.Error("four lengths alone do not close")
	}
}

// Opened by its button the tape has what was typed for its readings, and no others; where nothing was typed every wall is
// one, as long as it was stated. The button comes before the fields.
func TestTapeOpenedKeepsWhatWasTyped(t *testing.T) {
	b := at(t, square())
	begin := pressCalled(b.Object(), "Measure it")
	where := fyne.CurrentApp().Driver().AbsolutePositionForObject
	roomtest.EachShown(b.Object(), func(o fyne.CanvasObject) {
		if _, ok := o.(*control.Field); ok && where(o).Y < where(begin).Y {
			t.Errorf("a field at %v, the button at %v", where(o).Y, where(begin).Y)
		}
	})
	b.typeWalls([]int{0, 1}, []string{"2410", "1803"})
	test.Tap(pressCalled(b.Object(), "Measure it"))
	lengths := b.job.Room.Tape.Lengths
	if len(lengths) != 2 || lengths[0].LengthMM != 2410 || lengths[1].LengthMM != 1803 {
		t.Errorf("%+v", lengths)
	}
	for wall, want := range []float64{2410, 1803, 2410, 1803} {
		if mm := b.job.Room.WallLengthMM(wall); math.Abs(mm-want) > 1e-3 {
			t.Errorf("wall %d is %v, want %v", wall, mm, want)
		}
	}
}

// typeAcross types a length from corner to corner.
func (b *bench) typeAcross(t *testing.T, from, to int, text string) {
	t.Helper()
	about := theme.Say(message.Of("tape.across", message.AtCorner("from", b.job.Room.Corner(from)),
		message.AtCorner("to", b.job.Room.Corner(to))), b.job.Units)
	var field *control.Field
	roomtest.EachShown(b.Object(), func(o fyne.CanvasObject) {
		if f, ok := o.(*control.Field); ok && f.About == about {
			field = f
		}
	})
	if field == nil {
		t.Fatalf("no field for %s", about)
	}
	field.Focus()
	e := b.window.Canvas().Focused().(typing)
	e.SetText(text)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// A length across a room that is typed first keeps what was typed of walls as well, and a reading is forgotten where its
// field is emptied.
func TestLengthAcrossKeepsWhatWasTyped(t *testing.T) {
	b := at(t, square())
	b.typeWalls([]int{0, 1}, []string{"2410", "1803"})
	b.typeAcross(t, 0, 2, "3005")
	read := map[float64]bool{}
	for _, l := range b.job.Room.Tape.Lengths {
		read[l.LengthMM] = true
	}
	if len(read) != 3 || !read[2410] || !read[1803] || !read[3005] {
		t.Fatalf("%+v", b.job.Room.Tape.Lengths)
	}
	b.typeWalls([]int{1}, []string{""})
	if _, ok := b.job.Room.TapedAlong(1); ok || len(b.job.Room.Tape.Lengths) != 2 {
		t.Errorf("%+v", b.job.Room.Tape.Lengths)
	}
}

// A wall told in metres is one of so many metres.
func TestWallsInMetres(t *testing.T) {
	b := at(t, square())
	b.Open(job.StationRoom)
	b.FocusMark(edit.Mark{Kind: edit.MarkCorner, Wall: 0})
	test.Type(b.window.Canvas().Focused(), "2.35")
	b.window.Canvas().FocusNext()
	if mm := b.job.Room.WallLengthMM(0); mm != 2350 {
		t.Errorf("2.35 makes a wall of %v", mm)
	}
}
