// Package show is the showroom: the picture on the whole screen with a few large controls, for one
// hand or a finger; nothing technical.
package show

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/unit"
	"underfall/viewer"
)

// Asks are what the showroom asks of the window.
type Asks struct {
	Job    func() job.Job         // as it stands
	Result func() geometry.Result // the latest
	Do     func(edit.Edit)        // makes a change
	Leave  func()                 // is asked to close the showroom
}

// Picture is the 3D picture, as far as the showroom moves it.
type Picture interface {
	fyne.CanvasObject
	Look(viewer.View)
	// Turn turns the camera about what it looks at, by angles in radians.
	Turn(yaw, pitch float64)
	// Compare shows a second result beside the first; nil none.
	Compare(with *geometry.Result)
	// Moves tells whether anything may move by itself.
	Moves() bool
}

// Room is the showroom while it is open.
type Room struct {
	asks     Asks
	picture  Picture
	sight    *sight.Sight
	theme    *theme.Theme
	object   fyne.CanvasObject
	controls *fyne.Container
	moved    time.Time
	stop     chan struct{} // closed with the showroom
	ended    bool
	kept     *geometry.Result
}

// Idle time after which the picture begins to turn, and how fast.
const (
	idleAfter   = 20 * time.Second
	idleTick    = 60 * time.Millisecond
	idleYawStep = 0.006
)

// PartTurning is how a fault in turning by itself is told.
const PartTurning message.ID = "fault.turning-picture"

// Open makes the showroom around the picture, which turns when nobody touches it, until End.
func Open(asks Asks, picture Picture, looked *sight.Sight, t *theme.Theme) *Room {
	s := &Room{asks: asks, picture: picture, sight: looked, theme: t, controls: container.NewVBox(),
		moved: time.Now(), stop: make(chan struct{})}
	s.Build()
	panel := container.NewStack(canvas.NewRectangle(t.Color("background", 0)), container.NewPadded(container.NewVScroll(s.controls)))
	s.object = container.NewBorder(nil, nil, nil, container.New(wide(330), panel), picture)
	looked.Guard.Go(PartTurning, s.idle)
	return s
}

// Object is what is shown of it, the picture with it.
func (s *Room) Object() fyne.CanvasObject { return s.object }

// Touch tells that somebody is there.
func (s *Room) Touch() { s.moved = time.Now() }

// End ends what goes on by itself.
func (s *Room) End() {
	s.ended = true
	close(s.stop)
}

// ForCustomers is a view without what is technical.
func ForCustomers(s sight.State) sight.State {
	s.CutOn, s.Look, s.Apart, s.Stage = false, viewer.LookFinished, 0, buildup.StageTile
	s.Chosen, s.Mark, s.Marked = "", nil, ""
	s.Pressing, s.Water = sight.PressingNothing, false
	return s
}

// wide is a layout as wide as its number, or as what stands in it needs, and as tall as it can be.
type wide float32

// MinSize is the width alone.
func (w wide) MinSize(objects []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(float32(w), 100)
	for _, o := range objects {
		s.Width = max(s.Width, o.MinSize().Width)
	}
	return s
}

// Layout fills the place.
func (w wide) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.NewPos(0, 0))
		o.Resize(s)
	}
}

// Build makes the controls anew, for the job as it is.
func (s *Room) Build() {
	j := s.asks.Job()
	s.controls.RemoveAll()
	s.heading("showroom.tile")
	s.tileControls(j)
	s.heading("showroom.drain")
	s.choice(brief(job.CoverKinds().Options()), string(j.Style.Cover), func(v string) {
		s.change(func(j *job.Job) { j.Style.Cover = job.CoverKind(v) })
	})
	s.choice(brief(job.MetalKinds().Options()), string(j.Style.Metal), func(v string) {
		s.change(func(j *job.Job) { j.Style.Metal = job.MetalKind(v) })
	})
	s.heading("showroom.light")
	s.lightControl()
	s.heading("showroom.size")
	s.sizeControls(j)
	s.sightControls()
	s.compareControls()
	s.controls.Refresh()
}

// heading is one over controls.
func (s *Room) heading(label message.ID) {
	t := canvas.NewText(theme.Word(label), s.theme.Color("foreground", 0))
	t.TextSize = 20
	s.controls.Add(t)
}

// change changes how the shower looks.
func (s *Room) change(set func(*job.Job)) { s.do(edit.Of(message.Of("edit.shower-look"), set)) }

// do makes an edit.
func (s *Room) do(e edit.Edit) {
	s.moved = time.Now()
	s.asks.Do(e)
	s.Build()
}

// tileControls are for the shower's tile.
func (s *Room) tileControls(j job.Job) {
	swatches := container.NewGridWithColumns(4)
	for _, c := range job.Colours() {
		swatches.Add(newSwatch(c.Value, j.Layers.Shower.Colour == c.Value, s.theme, func() {
			s.change(func(j *job.Job) { j.Layers.Shower.Colour = c.Value })
		}))
	}
	s.controls.Add(swatches)
	s.choice(brief(job.Surfaces().Options()), string(j.Layers.Shower.Surface), func(v string) {
		s.change(func(j *job.Job) { j.Layers.Shower.Surface = job.Surface(v) })
	})
	bonds := brief(job.Bonds().Options())
	for _, some := range [][]job.Option{bonds[:2], bonds[3:]} {
		s.choice(some, string(j.Layers.Shower.Bond), func(v string) {
			s.change(func(j *job.Job) { j.Layers.Shower.Bond = job.Bond(v) })
		})
	}
}

// lightControl is for the light.
func (s *Room) lightControl() {
	shared, light := s.sight, "day"
	if shared.Light == viewer.LightEvening {
		light = "evening"
	}
	lights := []job.Option{{Value: "day", Word: message.Of("showroom.day")}, {Value: "evening", Word: message.Of("showroom.evening")}}
	s.choice(lights, light, func(v string) {
		shared.Change(func(c *sight.State) {
			c.Light = map[string]viewer.Light{"day": viewer.LightDay, "evening": viewer.LightEvening}[v]
		})
		s.Build()
	})
}

// sizeControls are for the shower's width.
func (s *Room) sizeControls(j job.Job) {
	now := message.Of("showroom.size-now", message.Along("width", j.Shower.WidthMM), message.Along("depth", j.Shower.DepthMM))
	size := canvas.NewText(theme.Say(now, j.Units), s.theme.Color("foreground", 0))
	size.TextSize, size.Alignment = 18, fyne.TextAlignCenter
	byMM := 100.0
	if j.Units == unit.Imperial {
		byMM = 4 * 25.4 // whole inches
	}
	grow := func(by float64) func() { return func() { s.do(edit.WidenShower(by)) } }
	s.controls.Add(container.NewBorder(nil, nil, newBig("−", false, grow(-byMM)), newBig("+", false, grow(byMM)), container.NewCenter(size)))
}

// sightControls are for looking inside and for water.
func (s *Room) sightControls() {
	s.either("showroom.finished", "showroom.look-inside", s.sight.CutOn, func(inside bool) {
		s.sight.Change(func(c *sight.State) { c.CutOn, c.Corner = inside, true })
		view := viewer.ViewPhoto
		if inside {
			view = viewer.ViewCut
		}
		s.picture.Look(view)
		s.Build()
	})
	s.either("showroom.dry", "showroom.wet", s.sight.Wet, func(wet bool) {
		s.sight.Change(func(c *sight.State) { c.Wet = wet })
		s.Build()
	})
}

// compareControls are for comparing, and for leaving.
func (s *Room) compareControls() {
	label := theme.Word("showroom.keep-to-compare")
	if s.kept != nil {
		label = theme.Word("showroom.stop-comparing")
	}
	leave := newBig(theme.Word("app.close"), false, s.asks.Leave)
	s.controls.Add(container.NewBorder(nil, nil, nil, leave, newBig(label, s.kept != nil, s.toggleCompare)))
}

// toggleCompare keeps the picture as it is on the right of a line that can be
// swiped, while the left goes on changing.
func (s *Room) toggleCompare() {
	if s.kept != nil {
		s.kept = nil
	} else {
		r := s.asks.Result()
		s.kept = &r
	}
	s.picture.Compare(s.kept)
	s.Build()
}

// brief are options with words that fit on large buttons side by side.
func brief(options []job.Option) []job.Option {
	shorter := map[string]message.ID{string(job.BondStack): "showroom.bond.stack", string(job.CoverSlotted): "showroom.cover.slotted",
		string(job.CoverTileInsert): "showroom.cover.tile-insert", string(job.MetalSteel): "showroom.metal.steel"}
	out := make([]job.Option, len(options))
	for i, o := range options {
		if id, ok := shorter[o.Value]; ok {
			o.Word = message.Of(id)
		}
		out[i] = o
	}
	return out
}

// choice is a row of large buttons, one of them chosen.
func (s *Room) choice(options []job.Option, now string, set func(string)) {
	row := container.NewGridWithColumns(len(options))
	for _, o := range options {
		row.Add(newBig(theme.Say(o.Word, s.asks.Job().Units), o.Value == now, func() { s.Touch(); set(o.Value) }))
	}
	s.controls.Add(row)
}

// either is a choice of two, the second for what is so.
func (s *Room) either(not, so message.ID, now bool, set func(bool)) {
	two := []job.Option{{Value: "no", Word: message.Of(not)}, {Value: "yes", Word: message.Of(so)}}
	s.choice(two, map[bool]string{false: "no", true: "yes"}[now], func(v string) { set(v == "yes") })
}

// Size of what a finger hits.
const (
	bigHeight = 46
	bigWidth  = 54
)

// newBig is a large button.
func newBig(label string, chosen bool, tapped func()) fyne.CanvasObject {
	b := widget.NewButton(label, tapped)
	if chosen {
		b.Importance = widget.HighImportance
	}
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(bigWidth, bigHeight))
	return container.NewStack(room, b)
}

// idle turns the picture when nobody touches it.
func (s *Room) idle() {
	tick := time.NewTicker(idleTick)
	defer tick.Stop()
	for {
		select {
		case <-s.stop:
			return
		case <-s.sight.Closed:
			return
		case <-tick.C:
			s.sight.Do(func() {
				if !s.ended && s.picture.Moves() && time.Since(s.moved) > idleAfter {
					s.picture.Turn(idleYawStep, 0)
				}
			})
		}
	}
}

// swatch is a colour to tap.
type swatch struct {
	widget.BaseWidget
	face   *canvas.Rectangle
	tapped func()
}

func newSwatch(hex string, chosen bool, t *theme.Theme, tapped func()) *swatch {
	var colour color.Color = color.Black
	if c, ok := material.ParseColour(hex); ok {
		colour = c
	}
	s := &swatch{face: canvas.NewRectangle(colour), tapped: tapped}
	s.face.CornerRadius = 6
	s.face.SetMinSize(fyne.NewSize(64, 48))
	if chosen {
		s.face.StrokeColor, s.face.StrokeWidth = t.Color("primary", 0), 4
	}
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer shows the face.
func (s *swatch) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.face) }

// Tapped chooses it.
func (s *swatch) Tapped(*fyne.PointEvent) { s.tapped() }
