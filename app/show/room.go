// Package show is the showroom: the picture on the whole screen with a few large controls, for one
// hand or a finger; nothing technical.
package show

import (
	"cmp"
	"fmt"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
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
	Save   func()                 // asks for a file for the picture
	Drawn  fyne.CanvasObject      // tells of pictures that are being drawn; nil for nothing
}

// Picture is the 3D picture, as far as the showroom moves it.
type Picture interface {
	fyne.CanvasObject
	Look(viewer.View)
	// Compare shows results beside the one that is worked on; says is what is written over each, the first of that one.
	Compare(with []*geometry.Result, says []string)
}

// Room is the showroom while it is open.
type Room struct {
	asks     Asks
	picture  Picture
	sight    *sight.Sight
	theme    *theme.Theme
	object   fyne.CanvasObject
	controls *fyne.Container
	foot     *fyne.Container // below the controls, always in sight
	bar      *fyne.Container // under the picture: what is kept to compare
	kept     []*geometry.Result
	where    job.Where // tiles are chosen for
}

// How wide the controls are beside the picture, and the place beside them that their scroll bar has to itself.
const (
	panelWide = 330
	barWide   = 12
	// swatchesAcross are so many that all of them stand in two rows.
	swatchesAcross = 6
)

// Open makes the showroom around the picture, which stands still until it is turned.
func Open(asks Asks, picture Picture, looked *sight.Sight, t *theme.Theme) *Room {
	s := &Room{asks: asks, picture: picture, sight: looked, theme: t, controls: container.NewVBox(),
		foot: container.NewStack(), bar: container.NewVBox(), where: job.OnShower}
	s.Build()
	scrolled := container.New(layout.NewCustomPaddedLayout(0, 0, 0, barWide), s.controls)
	panel := container.NewStack(canvas.NewRectangle(t.Color("background", 0)),
		container.NewPadded(container.NewBorder(nil, s.foot, nil, nil, container.NewVScroll(scrolled))))
	under := container.NewStack(canvas.NewRectangle(t.Color("background", 0)), s.bar)
	s.object = container.NewBorder(nil, nil, nil, container.New(wide(panelWide), panel), container.NewBorder(nil, under, nil, nil, picture))
	return s
}

// Object is what is shown of it, the picture with it.
func (s *Room) Object() fyne.CanvasObject { return s.object }

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
	s.tileControls(j)
	s.headed("showroom.drain", s.choose(brief(job.CoverKinds().Options()), string(j.Style.Cover), func(v string) {
		s.change(func(j *job.Job) { j.Style.Cover = job.CoverKind(v) })
	}, nil))
	s.choice(brief(job.MetalKinds().Options()), string(j.Style.Metal), func(v string) {
		s.change(func(j *job.Job) { j.Style.Metal = job.MetalKind(v) })
	}, nil)
	s.glassControl(j)
	s.lightControl(j)
	s.sizeControls(j)
	s.sightControls()
	if len(j.Shown().Things) > 0 {
		s.controls.Add(newBig(theme.Word("thing.all-back"), false, func() { s.do(edit.ThingsBack()) }))
	}
	s.compareControls(j)
	s.controls.Refresh()
}

// headed adds controls with their heading before them, in one row: all controls are to be seen at once.
func (s *Room) headed(label message.ID, controls fyne.CanvasObject) {
	s.controls.Add(container.NewBorder(nil, nil, container.NewCenter(s.title(label)), nil, controls))
}

// title is a heading.
func (s *Room) title(label message.ID) *canvas.Text {
	t := canvas.NewText(theme.Word(label), s.theme.Color("foreground", 0))
	t.TextSize = 20
	return t
}

// change changes how the shower looks.
func (s *Room) change(set func(*job.Job)) { s.do(edit.Of(message.Of("edit.shower-look"), set)) }

// do makes an edit.
func (s *Room) do(e edit.Edit) {
	s.asks.Do(e)
	s.Build()
}

// tileControls are for the tile of the shower's floor, of the room's, or of the walls.
func (s *Room) tileControls(j job.Job) {
	if !s.where.Tiled(&j) {
		s.where = job.OnShower // the room keeps the floor it has
	}
	of := s.where.Of
	tile := *of(&j)
	s.headed("showroom.tile", s.whereControl(j))
	swatches := container.NewGridWithColumns(swatchesAcross)
	for _, c := range job.Colours() {
		swatches.Add(newSwatch(c.Value, tile.Colour == c.Value, s.theme, func() {
			s.change(func(j *job.Job) { of(j).Colour = c.Value })
		}))
	}
	s.controls.Add(swatches)
	s.controls.Add(s.tileCalled(tile, j.Units))
	s.choice(brief(job.Surfaces().Options()), string(tile.Surface), func(v string) {
		s.change(func(j *job.Job) { of(j).Surface = job.Surface(v) })
	}, nil)
	s.jointControl(tile, of)
	unlaid := map[string]message.ID{}
	if tile.TileLengthMM == tile.TileWidthMM {
		unlaid[string(job.BondHerringbone)] = "showroom.not-of-squares"
	}
	bonds := brief(job.Bonds().Options())
	for _, some := range [][]job.Option{bonds[:2], bonds[3:]} {
		s.choice(some, string(tile.Bond), func(v string) {
			s.change(func(j *job.Job) { of(j).Bond = job.Bond(v) })
		}, unlaid)
	}
}

// jointControl is for the colour of the joints of the tile that is chosen.
func (s *Room) jointControl(tile job.Finish, of func(*job.Job) *job.Finish) {
	colours := []string{"", "#f1eee8", "#d2c6b4", "#3b3a3a"}
	row := container.NewGridWithColumns(len(colours))
	for _, c := range colours { // grey, off-white, beige, dark grey
		row.Add(newSwatch(cmp.Or(c, usualJoint), tile.GroutColour == c, s.theme, func() {
			s.change(func(j *job.Job) { of(j).GroutColour = c })
		}))
	}
	s.headed("showroom.joints", row)
}

// usualJoint is what joints look like whose colour nobody states: grey.
const usualJoint = "#9a9792"

// glassControl is for the shower's glass.
func (s *Room) glassControl(j job.Job) {
	now := ""
	if len(j.Shower.Screens) > 0 {
		now = string(j.Shower.Screens[0].Kind)
	}
	kinds := []job.Option{
		{Value: "", Word: message.Of("showroom.glass-none")},
		{Value: string(job.ScreenPane), Word: message.Of("showroom.glass-pane")},
		{Value: string(job.ScreenDoor), Word: message.Of("showroom.glass-door")},
	}
	s.headed("showroom.glass", s.choose(kinds, now, func(v string) { s.do(edit.Glass(job.ScreenKind(v))) }, nil))
}

// tileCalled says what the tile that is chosen is called and how large it is.
func (s *Room) tileCalled(tile job.Finish, units unit.System) fyne.CanvasObject {
	size := message.Of("showroom.tile-size", message.Along("length", tile.TileLengthMM), message.Along("width", tile.TileWidthMM))
	says := theme.Say(size, units)
	if colour, ok := job.ColourWord(tile.Colour); ok {
		says = theme.Say(colour, units) + " · " + says
	}
	text := canvas.NewText(says, s.theme.Color("foreground", 0))
	text.TextSize = s.theme.Text(theme.TextBody)
	return text
}

// whereControl is for which tile is chosen; a room that keeps what it has gets none.
func (s *Room) whereControl(j job.Job) fyne.CanvasObject {
	places := []job.Option{{Value: string(job.OnShower), Word: message.Of("showroom.floor")},
		{Value: string(job.OnRoom), Word: message.Of("showroom.room")}, {Value: string(job.OnWall), Word: message.Of("showroom.walls")}}
	untiled := map[string]message.ID{}
	for _, w := range job.Wheres() {
		if !w.Tiled(&j) {
			untiled[string(w)] = "showroom.not-tiled"
		}
	}
	return s.choose(places, string(s.where), func(v string) {
		s.where = job.Where(v)
		s.Build()
	}, untiled)
}

// HourStep is how far apart the hours lie that a picture may be lit at, in hours.
const HourStep = 0.5

// HourOf says at which hour of the day a job's picture is lit, and where it is not known how the room lies to the sun
// how that is taken.
func HourOf(j job.Job) message.Message {
	if j.Room.North == nil {
		return message.Of("app.light-hour-no-north", hour(j))
	}
	return message.Of("app.light-hour", hour(j))
}

// hour is the hour of the day that a job's picture is lit at.
func hour(j job.Job) message.Arg {
	minutes := int(math.Round(j.Lit().Hour * 60))
	return message.Name("hour", fmt.Sprintf("%d:%02d", minutes/60, minutes%60))
}

// lightControl is for the light, and by day for its hour.
func (s *Room) lightControl(j job.Job) {
	s.headed("showroom.light", s.choose(job.LightKinds().Options(), string(j.Lit().Kind), func(v string) {
		l := s.asks.Job().Lit()
		l.Kind = job.LightKind(v)
		s.do(edit.Light(l))
	}, nil))
	byDay := j.Lit().Kind == job.LightDay
	now := "" // the row keeps its place, so that nothing below it jumps from under a finger
	if byDay {
		now = theme.Say(message.Of("showroom.hour", hour(j)), j.Units)
	}
	later := func(by float64) func() {
		if !byDay {
			return nil
		}
		return func() {
			l := s.asks.Job().Lit()
			l.Hour = min(job.LastHour, max(job.FirstHour, l.Hour+by))
			s.do(edit.Light(l))
		}
	}
	s.controls.Add(s.between(newBig(theme.Word("showroom.earlier"), false, later(-1)), now, newBig(theme.Word("showroom.later"), false, later(1))))
}

// StepMM is how far one press moves or widens something, in whole inches where those are used.
func StepMM(s unit.System) float64 {
	if s == unit.Imperial {
		return 4 * 25.4
	}
	return 100
}

// sizeControls are for the shower's width.
func (s *Room) sizeControls(j job.Job) {
	byMM := StepMM(j.Units)
	grow := func(by float64) func() { return func() { s.do(edit.WidenShower(by)) } }
	s.headed("showroom.size", s.between(newBig("−", false, grow(-byMM)), theme.Say(sizeOf(&j), j.Units), newBig("+", false, grow(byMM))))
}

// between sets what lessens a value and what adds to it round what it says.
func (s *Room) between(less fyne.CanvasObject, says string, more fyne.CanvasObject) fyne.CanvasObject {
	text := canvas.NewText(says, s.theme.Color("foreground", 0))
	text.TextSize, text.Alignment = 15, fyne.TextAlignCenter
	return container.NewBorder(nil, nil, less, more, container.NewCenter(text))
}

// sightControls are for looking inside and for water, in one row.
func (s *Room) sightControls() {
	inside, wet := s.sight.CutOn, s.asks.Job().Shown().Wet
	look := newBig(theme.Word("showroom.look-inside"), inside, func() {
		s.sight.Change(func(c *sight.State) { c.CutOn, c.Corner = !inside, true })
		view := viewer.ViewCut
		if inside {
			view = viewer.ViewPhoto
		}
		s.picture.Look(view)
		s.Build()
	})
	water := s.either("showroom.dry", "showroom.wet", wet, func(to bool) { s.do(edit.Wet(to)) })
	s.controls.Add(container.NewGridWithColumns(2, look, water))
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

// choice adds a row of large buttons, one of them chosen; those of some values cannot be chosen now, and say why.
func (s *Room) choice(options []job.Option, now string, set func(string), not map[string]message.ID) {
	s.controls.Add(s.choose(options, now, set, not))
}

// choose is that row.
func (s *Room) choose(options []job.Option, now string, set func(string), not map[string]message.ID) fyne.CanvasObject {
	row := container.NewGridWithColumns(len(options))
	for _, o := range options {
		tapped := func() { set(o.Value) }
		why, cannot := not[o.Value]
		if cannot {
			tapped = nil
		}
		button := newBig(theme.Say(o.Word, s.asks.Job().Units), o.Value == now, tapped)
		if cannot {
			button = container.NewStack(button, container.NewBorder(nil, s.because(why), nil, nil))
		}
		row.Add(button)
	}
	return row
}

// because is why something cannot be pressed, at its foot.
func (s *Room) because(why message.ID) fyne.CanvasObject {
	text := canvas.NewText(theme.Word(why), s.theme.Color("foreground", 0))
	text.TextSize, text.Alignment = 10, fyne.TextAlignCenter
	return text
}

// either is a choice of two, the second for what is so.
func (s *Room) either(not, so message.ID, now bool, set func(bool)) fyne.CanvasObject {
	two := []job.Option{{Value: "no", Word: message.Of(not)}, {Value: "yes", Word: message.Of(so)}}
	return s.choose(two, map[bool]string{false: "no", true: "yes"}[now], func(v string) { set(v == "yes") }, nil)
}

// Size of what a finger hits.
const (
	bigHeight = 44
	bigWidth  = 54
)

// newBig is a large button; without anything to do it cannot be pressed.
func newBig(label string, chosen bool, tapped func()) fyne.CanvasObject {
	b := widget.NewButton(label, tapped)
	if chosen {
		b.Importance = widget.HighImportance
	}
	if tapped == nil {
		b.Disable()
	}
	room := canvas.NewRectangle(color.Transparent)
	room.SetMinSize(fyne.NewSize(bigWidth, bigHeight))
	return container.NewStack(room, b)
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
	s.face.SetMinSize(fyne.NewSize(44, 40))
	s.face.StrokeColor, s.face.StrokeWidth = t.Role(theme.Edge), theme.EdgeWidth // white would not be seen
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
