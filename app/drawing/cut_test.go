package drawing

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"underfall/app/sight"
	"underfall/app/still"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/section"
)

func press(v *View, at fyne.Position) {
	v.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
}

func drag(v *View, from, to fyne.Position) {
	v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.NewDelta(to.X-from.X, to.Y-from.Y)})
}

// An end of the cut's line led round turns the cut about its place, and near a way with a name it falls onto
// that; by the line itself it is moved beside its place. Arrow keys go on with what was taken hold of.
func TestCutIsTurnedByItsEnds(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(600, 400))
	r := b.Change.Result
	a, end := v.cutEnds(b.sight.Cut(r))
	about := v.toWindow(v.cutPlace())
	from := v.toWindow(end)
	if a == end {
		t.Fatal("the line has no length")
	}
	// Led round by 30° anticlockwise, as y goes down.
	sin, cos := math.Sincos(-30 * math.Pi / 180)
	dx, dy := float64(from.X-about.X), float64(from.Y-about.Y)
	to := about.AddXY(float32(dx*cos-dy*sin), float32(dx*sin+dy*cos))
	press(v, from)
	if v.grasped.end != farEnd {
		t.Fatalf("at the end %+v is taken hold of", v.grasped)
	}
	drag(v, from, to)
	if got := b.sight.Cutting.TurnedDeg; math.Abs(got-30) > 0.2 || !v.onto.IsZero() || math.Abs(b.sight.Cutting.AsideMM) > 1e-6 {
		t.Errorf("led round by 30° it is turned by %v onto %s, %v beside", got, v.onto, b.sight.Cutting.AsideMM)
	}
	sin, cos = math.Sincos(-44 * math.Pi / 180)
	drag(v, to, about.AddXY(float32(dx*cos-dy*sin), float32(dx*sin+dy*cos)))
	if got := b.sight.Cutting.TurnedDeg; math.Abs(got-45) > 1e-6 || v.onto.ID != "turning.slanting" {
		t.Errorf("led round by 44° it is turned by %v onto %s", got, v.onto)
	}
	v.MouseUp(nil)
	v.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if got := b.sight.Cutting.TurnedDeg; math.Abs(got-46) > 1e-6 {
		t.Errorf("a key on turns it to %v", got)
	}
	b.sight.BringBack()
	middle := v.toWindow(plan.Point{700, 500})
	press(v, middle)
	if !v.grasped.cut || v.grasped.end != noEnd {
		t.Fatalf("on the line %+v is taken hold of", v.grasped)
	}
	drag(v, middle, middle.AddXY(25, 0))
	v.MouseUp(nil)
	if c := b.sight.Cutting; c.TurnedDeg != 0 || math.Abs(math.Abs(c.AsideMM)-25/v.view.PixelsPerMM*v.scale) > 10 {
		t.Errorf("moved by 25 points it stands at %+v", c)
	}
}

// Two points pressed, or a stroke drawn from one to the other, ask for the cut through them; it is told also
// where it has no length.
func TestTwoPointsAskForACut(t *testing.T) {
	v, b := at(t, still.Plan, fyne.NewSize(600, 400))
	var asked []section.Cutting
	v.Cut = func(c section.Cutting) { asked = append(asked, c) }
	b.sight.Change(func(s *sight.State) { s.Pressing = sight.PressingCut })
	p, q := plan.Point{1700, 400}, plan.Point{2100, 900}
	tap := func(at plan.Point) {
		press(v, v.toWindow(at))
		v.MouseUp(nil)
		v.Tapped(&fyne.PointEvent{Position: v.toWindow(at)})
	}
	tap(p)
	tap(q)
	press(v, v.toWindow(p))
	drag(v, v.toWindow(p), v.toWindow(q))
	v.MouseUp(nil)
	v.DragEnd()
	tap(p)
	tap(p)
	if len(asked) != 3 {
		t.Fatalf("asked for %v", asked)
	}
	for i, c := range asked {
		to := q
		if i == 2 {
			to = p
		}
		if c.Of != section.CutPoints || c.From.Sub(p).Len() > 12 || c.To.Sub(to).Len() > 12 {
			t.Errorf("asked for %+v, want from %v to %v", c, p, to)
		}
	}
	if b.Change.Undo.ID != "" {
		t.Error("the job is changed")
	}
}

// Panned by hand a drawing stays until it is pressed twice at one place, which shows all of it.
func TestPressedTwiceADrawingIsWhole(t *testing.T) {
	v, b := at(t, still.Section, fyne.NewSize(700, 330))
	moved := 0
	v.Moved = func() { moved++ }
	want := viewOf(b, v)
	drag(v, fyne.NewPos(300, 100), fyne.NewPos(340, 120))
	if !v.Touched() || moved != 1 || viewOf(b, v) == want {
		t.Errorf("panned it stands at %+v", v.view)
	}
	v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(5, 5)})
	v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(300, 5)})
	if viewOf(b, v) == want {
		t.Error("pressed at two places it is whole")
	}
	v.Tapped(&fyne.PointEvent{Position: fyne.NewPos(300, 5)})
	if got := viewOf(b, v); v.Touched() || moved != 2 || got != want {
		t.Errorf("pressed twice it stands at %+v, want %+v", got, want)
	}
}

// The line of the upright cut lies over what is seen from above, also while the picture is not cut: the section is.
// It is led round there, as ever, and its end is pressed to type how far.
func TestTheCutsLineStaysWithoutACutPicture(t *testing.T) {
	for _, kind := range []still.Kind{still.Plan, still.Level} {
		v, b := at(t, kind, fyne.NewSize(600, 400))
		b.sight.Change(func(s *sight.State) { s.CutOn = false })
		viewOf(b, v)
		if len(v.cutLines()) != 1 {
			t.Errorf("%v: %d lines of cuts", kind, len(v.cutLines()))
		}
		_, end := v.cutEnds(b.sight.Cut(b.Change.Result))
		press(v, v.toWindow(end))
		if v.grasped.end != farEnd {
			t.Errorf("%v: at the end %+v is taken hold of", kind, v.grasped)
		}
		v.MouseUp(nil)
		var asked []fyne.Position
		v.TypeTurn = func(at fyne.Position) { asked = append(asked, at) }
		v.Tapped(&fyne.PointEvent{Position: v.toWindow(end)})
		if len(asked) != 1 || b.sight.CutOn {
			t.Errorf("%v: asked at %v, the picture cut %v", kind, asked, b.sight.CutOn)
		}
	}
}

// What was gone to is marked in plan and section where it lies, not where the cut has left it, and not in what
// shows no places.
func TestWhatWasGoneToIsPinned(t *testing.T) {
	for _, c := range []struct {
		kind still.Kind
		want int
	}{{still.Plan, 1}, {still.Section, 1}, {still.Long, 0}} {
		v, b := at(t, c.kind, fyne.NewSize(600, 400))
		b.sight.Change(func(s *sight.State) {
			s.Mark = &sight.Mark{At: b.sight.Cut(b.Change.Result).Origin, Label: message.Of("figure.flush")}
		})
		view := viewOf(b, v)
		got := v.pinned()(&v.drawing, view)
		if len(got) != c.want || len(got) == 1 && (!got[0].Chosen || got[0].Label == "") {
			t.Errorf("%v: %+v", c.kind, got)
		}
		if c.kind != still.Section {
			continue
		}
		b.sight.Change(func(s *sight.State) { s.Cutting.AsideMM = 400 })
		viewOf(b, v)
		if got := v.pinned()(&v.drawing, v.view); len(got) != 0 {
			t.Errorf("away from it: %+v", got)
		}
	}
}
