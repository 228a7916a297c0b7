package show

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"underfall/app/desk"
	"underfall/app/roomtest"
	"underfall/app/sight"
	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/viewer"
)

// picture stands in for the 3D picture and keeps what it is asked for.
type picture struct {
	canvas.Rectangle
	looked   viewer.View
	compared []*geometry.Result
	says     []string
}

func (p *picture) Look(v viewer.View) { p.looked = v }
func (p *picture) Compare(with []*geometry.Result, says []string) {
	p.compared, p.says = with, says
}

// opened is the showroom over the first demo, in a window.
type opened struct {
	*Room
	*roomtest.Bench
	t       *testing.T
	picture *picture
	left    int // how often it was asked to be left
	saved   int // how often for a picture
}

func open(t *testing.T) *opened {
	o := &opened{Bench: roomtest.New(t, roomtest.First(t)), t: t, picture: &picture{}}
	looked := sight.New(o.Bench.Do, o.Guard)
	looked.State = ForCustomers(looked.State)
	o.Room = Open(Asks{Job: o.Desk.Job, Result: func() geometry.Result { return o.Change.Result }, Do: func(e edit.Edit) { o.Desk.Do(e) },
		Leave: func() { o.left++ }, Save: func() { o.saved++ }}, o.picture, looked, o.Theme)
	test.NewTempWindow(t, o.Object()).Resize(fyne.NewSize(1280, 800))
	o.Desk.Subscribe(func(desk.Change) { o.Build() })
	return o
}

// find is the button of a label.
func (o *opened) find(label string) *widget.Button {
	o.t.Helper()
	for _, part := range slices.Concat(test.LaidOutObjects(o.controls), test.LaidOutObjects(o.bar), test.LaidOutObjects(o.foot)) {
		if b, ok := part.(*widget.Button); ok && b.Text == label {
			return b
		}
	}
	o.t.Fatalf("no button %q", label)
	return nil
}

// says tells whether a text is among the controls.
func (o *opened) says(words string) bool {
	return slices.ContainsFunc(test.LaidOutObjects(o.controls), func(part fyne.CanvasObject) bool {
		text, ok := part.(*canvas.Text)
		return ok && text.Text == words
	})
}

func (o *opened) press(label string) {
	o.t.Helper()
	o.find(label).OnTapped()
}

func (o *opened) settled() *job.Job { return &o.Change.Result.Settled }

// The showroom changes the job by its large controls, compares, looks inside, and asks to be left.
func TestTheControls(t *testing.T) {
	s := open(t)
	for _, o := range test.LaidOutObjects(s.object) {
		if in, ok := o.(*container.Scroll); ok && in.Position().X+in.Size().Width > panelWide {
			t.Errorf("the controls end at %v of %v", in.Position().X+in.Size().Width, panelWide)
		}
	}
	width := s.Desk.Job().Shower.WidthMM
	s.press("−")
	s.Until("the smaller shower", func() bool { return s.settled().Shower.WidthMM == width-100 })
	s.press("Brass")
	s.Until("brass", func() bool { return s.settled().Style.Metal == job.MetalBrass })
	s.press("Look inside")
	if !s.sight.CutOn || !s.sight.Corner || s.picture.looked != viewer.ViewCut {
		t.Error("one cannot look inside")
	}
	s.press("Wet")
	s.Until("a wet floor", func() bool { return s.settled().Shown().Wet })
	s.press("Dry")
	s.Until("a dry floor", func() bool { return !s.settled().Shown().Wet })
	s.press("Save a picture")
	if s.saved != 1 {
		t.Errorf("%d times a picture is asked for", s.saved)
	}
	s.press("Close")
	if s.left != 1 {
		t.Errorf("%d times it is asked to leave", s.left)
	}
}

// What there is nothing to choose of keeps its place and cannot be pressed: the hour under clouds, herringbone of squares.
func TestWhatCannotBePressedKeepsItsPlace(t *testing.T) {
	s := open(t)
	place := func() fyne.Position {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(s.find("Earlier"))
	}
	s.press("Earlier")
	s.Until("an hour earlier", func() bool { return s.settled().Lit() == job.Light{Kind: job.LightDay, Hour: 10} })
	hours := place()
	s.press("Overcast")
	s.Until("clouds", func() bool { return s.settled().Lit().Kind == job.LightOvercast })
	if place() != hours || !s.find("Earlier").Disabled() {
		t.Error("without an hour of the day what is below it jumps")
	}
	if !s.find("Herringbone").Disabled() || !s.says("squares make none") {
		t.Error("squares are laid in herringbone, or it is not said why they are not")
	}
	s.change(func(j *job.Job) { j.Layers.Shower.TileLengthMM, j.Layers.Shower.TileWidthMM = 200, 100 })
	s.Until("oblongs", func() bool { return s.settled().Layers.Shower.TileWidthMM == 100 })
	if s.find("Herringbone").Disabled() || s.says("squares make none") {
		t.Error("oblongs are not laid in herringbone")
	}
}

// At the size of a small screen nothing has to be scrolled for: all controls are seen at once, as much as is kept to compare.
func TestAllControlsAreSeenAtOnce(t *testing.T) {
	s := open(t)
	for kept := 0; ; kept++ {
		s.allSeen()
		if kept == mostKept {
			return
		}
		s.press("Keep this to compare")
	}
}

// allSeen holds that no control has to be scrolled for.
func (o *opened) allSeen() {
	o.t.Helper()
	for _, part := range test.LaidOutObjects(o.object) {
		if in, ok := part.(*container.Scroll); ok && in.Content.MinSize().Height > in.Size().Height {
			o.t.Errorf("the controls are %v high, %v of them are seen", in.Content.MinSize().Height, in.Size().Height)
		}
	}
}

// The tile of the room's floor is chosen as that of the shower's is, where the room is tiled; where it keeps what it has there is nothing
// to choose.
func TestTheRoomsTileIsChosen(t *testing.T) {
	s := open(t)
	shower := s.settled().Layers.Shower.Surface
	s.press("Keep this to compare")
	s.press("Room")
	s.press("Terrazzo")
	s.Until("terrazzo in the room", func() bool { return s.settled().Layers.Room.Surface == job.SurfaceTerrazzo })
	if s.settled().Layers.Shower.Surface != shower || s.settled().Layers.Wall.Surface == job.SurfaceTerrazzo {
		t.Error("other places get the tile of the room")
	}
	if want := []string{"Now · Room: Terrazzo", "Kept 1 · Room: Plain"}; !slices.Equal(s.picture.says, want) {
		t.Errorf("they say %q", s.picture.says)
	}
	s.change(func(j *job.Job) {
		j.Floor.Existing = []job.Existing{{Kind: job.ExistingFinish, ThicknessMM: 18, Out: job.OutShower}}
	})
	s.Until("a floor that is kept", func() bool { return s.settled().Floor.KeepsFinish() })
	if !s.find("Room").Disabled() {
		t.Error("a tile is chosen for a room that keeps its floor")
	}
}

// Three showers stand beside each other, that which is changed first, and each says what of it is otherwise elsewhere; one that was
// kept is taken, with its light, and what it was taken for is kept in its place; what is kept no longer goes.
func TestThreeAreCompared(t *testing.T) {
	s := open(t)
	p := s.picture
	first := *s.settled()
	if len(p.compared) != 0 || !slices.Equal(p.says, []string{"Now"}) {
		t.Fatalf("at first %d are compared: %q", len(p.compared), p.says)
	}
	s.press("Keep this to compare")
	if !slices.Equal(p.says, []string{"Now", "Kept 1"}) {
		t.Errorf("where all are the same they say %q", p.says)
	}
	s.press("Brass")
	s.Until("brass", func() bool { return s.settled().Style.Metal == job.MetalBrass })
	s.press("Keep this to compare")
	s.press("Walls")
	s.press("Terrazzo")
	s.Until("terrazzo", func() bool { return s.settled().Layers.Wall.Surface == job.SurfaceTerrazzo })
	if s.settled().Layers.Shower.Surface != first.Layers.Shower.Surface {
		t.Error("the floor gets the tile of the walls")
	}
	want := []string{"Now · Walls: Terrazzo · Brass", "Kept 1 · Walls: Plain · Brushed steel", "Kept 2 · Walls: Plain · Brass"}
	if !slices.Equal(p.says, want) {
		t.Errorf("they say %q", p.says)
	}
	if len(p.compared) != 2 || p.compared[0].Settled.Style.Metal != first.Style.Metal ||
		p.compared[1].Settled.Layers.Wall.Surface != first.Layers.Wall.Surface {
		t.Error("what is kept is not as it was")
	}
	if !s.find("Keep this to compare").Disabled() {
		t.Error("more can be kept than stand beside each other")
	}
	s.press("Evening")
	s.Until("evening", func() bool { return s.settled().Lit().Kind == job.LightEvening })
	if want := "Now · Walls: Terrazzo · Brass · Evening"; p.says[0] != want {
		t.Errorf("in the evening it says %q, want %q", p.says[0], want)
	}
	s.press("Take this")
	s.Until("the first again", func() bool { return s.settled().Style.Metal == first.Style.Metal })
	if j := s.settled(); j.Layers.Wall.Surface != first.Layers.Wall.Surface || j.Lit().Kind != job.LightDay ||
		len(s.Change.Result.Problems) > 0 {
		t.Errorf("taken it is %v on the walls, lit by %v", j.Layers.Wall.Surface, j.Lit())
	}
	if len(p.compared) != 2 || p.compared[0].Settled.Layers.Wall.Surface != job.SurfaceTerrazzo ||
		p.compared[0].Settled.Lit().Kind != job.LightEvening {
		t.Error("what it was taken for is not kept")
	}
	s.press("×")
	s.press("×")
	if len(p.compared) != 0 || s.find("Keep this to compare").Disabled() {
		t.Errorf("%d are compared still", len(p.compared))
	}
}

// Joints and glass are chosen, and which of the showers beside each other is saved is said on the button for it.
func TestJointsAndGlassAreChosen(t *testing.T) {
	s := open(t)
	s.press("Keep this to compare")
	s.press("None")
	s.Until("no glass", func() bool { return len(s.settled().Shower.Screens) == 0 })
	if want := []string{"Now · No glass", "Kept 1 · Fixed pane"}; !slices.Equal(s.picture.says, want) {
		t.Errorf("they say %q, want %q", s.picture.says, want)
	}
	s.press("Pane")
	s.Until("a pane", func() bool {
		all := s.settled().Shower.Screens
		return len(all) == 1 && all[0].Kind == job.ScreenPane
	})
	var last *swatch // of the joints the darkest
	for _, part := range test.LaidOutObjects(s.controls) {
		if one, ok := part.(*swatch); ok {
			last = one
		}
	}
	last.Tapped(nil)
	s.Until("dark joints", func() bool { return s.settled().Layers.Shower.GroutColour == "#3b3a3a" })
	s.find("Save a picture of “Now”")
}
