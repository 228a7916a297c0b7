// Package space is the 3D picture: it is turned, cut, measured in, put together with a second one
// to compare, drawn quickly while something moves and well at rest, and taken as a still.
package space

import (
	"image"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"github.com/go-gl/mathgl/mgl64"
	"underfall/app/paint"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/furnish"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/solid"
	"underfall/viewer"
)

// View shows the 3D picture and turns it.
type View struct {
	widget.BaseWidget
	sight   *sight.Sight
	theme   *theme.Theme
	picture *canvas.Image
	ground  *canvas.Rectangle // where there is no picture: what the view stands on is not painted under it
	grips   [sight.Planes]*canvas.Circle
	stuck   []stuck // the pins in the picture
	tape    *tape
	legend  *legend
	notice  *widget.Label
	engine  *engine
	pace    *sight.Pace // of what is drawn while something is dragged elsewhere

	result     geometry.Result
	generation int
	oldest     int          // of which count a picture must be to be shown
	asked      int          // pictures wished for
	shows      int          // of which of them the picture shown is
	first      int          // of them that may be shown
	frame      viewer.Frame // of the picture shown
	// scene is the result's, or that of one before it, of that count; nil before it is asked for.
	scene   *viewer.Scene
	sceneOf int
	// moved is the camera as it is moved, before it is kept in the open; kept is what became of it.
	moved, kept viewer.Camera
	// saw tells whether the shower was seen when the picture last came to rest, from sawFrom; faced, whether the cut's face was.
	saw, faced bool
	sawFrom    viewer.Camera
	// framedOf is the result that the camera was last found to frame, by its count.
	framedOf int
	framed   float64 // how wide a picture the camera was placed for, in its heights, at most 1
	button   desktop.MouseButton
	grasped  int // plane whose grip is held; -1 for none
	held     *heldThing
	still    func() // stops what has it come to rest by itself; nil for nothing
	// away tells that the picture is not seen; owed that it is not of what is shown now.
	away, owed bool
	flight     int // counts flights, so that a new one ends the last
	arriving   float64
	tapped     time.Time
	tappedPart string
	strips     *strips // results beside the one that is worked on
	drawnBy    []message.Message
	// Plain hides all that is technical.
	Plain bool
	// Readout is told what is under the pointer, Choose which part was clicked, Edit which twice; nil for nobody.
	Readout func(string)
	Choose  func(part string)
	Edit    func(part string)
	// Thing is told which thing of the finished room was pressed, and where in the window; nil for nobody.
	Thing func(o furnish.Object, at fyne.Position)
	// ThingMoved is told how far a thing of the finished room is dragged along its width, counted from where it is placed by rule, and
	// ThingLet, after that, when it is let go; nil for nobody.
	ThingMoved, ThingLet func(kind job.ThingKind, alongMM float64)
	// Started is told once of the first picture, or why there is no 3D; nil for nobody.
	Started func(why error)
	// Go is told of what is found where a pin was pressed; nil for nobody.
	Go func(rule.Finding)
	// Looked is told when it is looked from elsewhere; nil for nobody.
	Looked func()
	// Pictured is told of every picture shown, in pixels; nil for nobody.
	Pictured func(size image.Point)
	// GripMoved is told where in the window the first cut's grip is; nil for nobody.
	GripMoved func(fyne.Position)
}

// New makes the view of the 3D picture; the painter is for it alone.
func New(s *sight.Sight, t *theme.Theme, painter *paint.Painter) *View {
	v := &View{sight: s, theme: t, picture: &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest},
		ground: canvas.NewRectangle(t.Role(theme.Sheet)), tape: newTape(), legend: newLegend(), strips: newStrips(),
		notice: widget.NewLabel(""), grasped: -1}
	v.notice.Wrapping = fyne.TextWrapWord
	v.notice.Hide()
	for i := range v.grips {
		v.grips[i] = canvas.NewCircle(nil)
		v.grips[i].StrokeWidth = 3
	}
	v.pace = s.NewPace(viewer.PartLive, func() { v.draw(true, false) })
	v.ExtendBaseWidget(v)
	v.engine = startEngine(s.Guard, painter, func(p painted) {
		v.sight.Do(func() { v.shown(p) })
	}, func(by []message.Message) {
		v.sight.Do(func() { v.drawnBy = by })
	}, func(err error) {
		v.sight.Do(func() {
			v.pace.Drawn()
			v.tellNotice(theme.Word("view3d.not-drawn", theme.Because("why", err)))
		})
	}, func(err error) {
		v.sight.Do(func() { v.tellOff(err) })
	})
	s.Listen(func() {
		v.measure(s.Pressing == sight.PressingMeasure)
		v.ask(true)
	})
	return v
}

// shown takes a picture.
func (v *View) shown(p painted) {
	if p.serial == v.asked {
		defer v.pace.Drawn()
	}
	if p.generation < v.oldest || p.serial < v.first { // of a job that is no longer there, or of what must not be seen any more
		return
	}
	v.notice.Hide()
	v.frame, v.stuck, v.shows = p.frame, p.pins, p.serial
	if p.generation == v.generation {
		v.scene, v.sceneOf = p.frame.Scene, p.generation
	}
	v.show(p.image)
	v.placeOver()
	if v.Pictured != nil {
		v.Pictured(p.image.Rect.Size())
	}
	if v.Started != nil {
		v.Started(nil)
		v.Started = nil
	}
}

// show shows a picture, or nothing. In the showroom nothing lies under it.
func (v *View) show(img *image.RGBA) {
	v.ground.FillColor, v.ground.Hidden = v.theme.Role(theme.Sheet), img != nil || v.Plain
	if v.picture.Image = nil; img != nil {
		v.picture.Image = img
	}
	v.ground.Refresh()
	v.picture.Refresh()
}

// DrawnBy says what draws the 3D picture, why it takes longer than it could, or why there is none; nothing before that is known.
func (v *View) DrawnBy() []message.Message { return v.drawnBy }

// tellOff says that there is no 3D, or none any more.
func (v *View) tellOff(err error) {
	off := message.Of("view3d.off", theme.Because("why", err))
	v.drawnBy = []message.Message{off}
	v.tellNotice(theme.Book().Say(off))
	if v.Started != nil {
		v.Started(err)
		v.Started = nil
	}
}

func (v *View) tellNotice(s string) {
	v.notice.SetText(s)
	v.notice.Show()
}

// placeOver puts what lies over the picture where it belongs.
func (v *View) placeOver() {
	v.placeGrips()
	v.placeTape()
	v.placeLegend()
	v.placeStrips()
}

// CreateRenderer lays picture and grip over each other.
func (v *View) CreateRenderer() fyne.WidgetRenderer {
	over := append(v.strips.objects(), v.grips[sight.PlaneFirst], v.grips[sight.PlaneSecond])
	over = append(append(over, v.legend.objects()...), v.tape.objects()...)
	notice := container.NewPadded(v.notice)
	return widget.NewSimpleRenderer(container.NewStack(v.ground, v.picture, notice, container.NewWithoutLayout(over...)))
}

// MinSize lets the picture be small.
func (v *View) MinSize() fyne.Size { return fyne.NewSize(200, 140) }

// Blank shows nothing until there is a picture of another result.
func (v *View) Blank() {
	v.generation++
	v.oldest = v.generation + 1
	v.show(nil)
	v.result, v.frame, v.stuck, v.scene = geometry.Result{}, viewer.Frame{}, nil, nil
	v.placeOver()
}

// Clear shows nothing until there is a picture of what is wished for from now on: what was looked at before is not for whoever looks
// now.
func (v *View) Clear() {
	v.first = v.asked + 1
	v.show(nil)
}

// SetResult shows another result; the first one, and one that is asked to,
// places the camera.
func (v *View) SetResult(r geometry.Result, place bool) {
	v.result = r
	v.generation++
	if place {
		v.sight.Placed, v.sight.Touched = false, false
	}
	v.askAs(true, v.sight.Held() == sight.HeldNothing)
}

// SetResultIn shows one as SetResult does, drawn only after a while: what goes before is painted by then.
func (v *View) SetResultIn(wait time.Duration, r geometry.Result) {
	if v.away || v.follows() || !v.canDraw() {
		v.SetResult(r, false)
		return
	}
	v.result = r
	v.generation++
	v.owed = true
	v.engine.leave()
	v.sight.After(wait, viewer.PartLive, func() {
		if v.owed {
			v.askAs(true, v.sight.Held() == sight.HeldNothing)
		}
	})
}

// frameEvery is how often a change is shown that goes by itself.
const frameEvery = 30 * time.Millisecond

// animate shows a change in steps, told the share of its time that is over,
// the last time 1; given up when another begins, and with the window.
func (v *View) animate(length time.Duration, step func(t float64), giveUp func()) {
	flight, start := v.flight, time.Now()
	v.sight.Guard.Go(viewer.PartLive, func() {
		tick := time.NewTicker(frameEvery)
		defer tick.Stop()
		for {
			t := min(1, float64(time.Since(start))/float64(length))
			ended := make(chan bool, 1)
			v.sight.Do(func() {
				over := true // also when the step breaks
				defer func() { ended <- over }()
				if v.flight != flight {
					giveUp()
					return
				}
				step(t)
				v.ask(t < 1)
				over = t >= 1
			})
			select {
			case over := <-ended:
				if over {
					return
				}
			case <-v.sight.Closed:
				return
			}
			select {
			case <-tick.C:
			case <-v.sight.Closed:
				return
			}
		}
	})
}

// Close ends the drawing.
func (v *View) Close() {
	v.unrest()
	v.engine.close()
}

// restAfter is how long nothing must move before the picture is refined.
const restAfter = 180 * time.Millisecond

// Redraw draws the picture anew.
func (v *View) Redraw() { v.ask(true) }

// Stop ends what moves by itself.
func (v *View) Stop() {
	v.flight++
	v.arriving = 0
}

// ask wants a picture: a quick one while moving, a good one at rest.
func (v *View) ask(moving bool) { v.askAs(moving, false) }

// askAs wants one; once tells that it follows a change that nobody holds on to.
func (v *View) askAs(moving, once bool) {
	if !v.canDraw() {
		return
	}
	switch {
	case v.away:
	case v.follows():
		v.pace.Ask()
		v.restIn(restAfter)
		return
	default:
		v.draw(moving, once)
		return
	}
	v.owed = true
	v.place()
	v.engine.leave()
	v.restIn(awayAfter)
}

// Behind tells whether it is seen, and a picture of all that was asked for is yet to come.
func (v *View) Behind() bool { return !v.away && v.picture.Image != nil && !v.Shows() }

// follows tells whether what is dragged is held elsewhere, and only shows here as well.
func (v *View) follows() bool {
	return v.sight.Held() != sight.HeldNothing && v.grasped < 0 && v.held == nil
}

// Shows tells whether the picture shown is of all that was asked for, refined or not.
func (v *View) Shows() bool { return !v.owed && !v.pace.Owes() && v.shows == v.asked }

// canDraw tells whether there is something to draw, and room for it.
func (v *View) canDraw() bool {
	s := v.Size()
	return s.Width >= 2 && s.Height >= 2 && len(v.result.Layout.Walls) > 0
}

// draw has one drawn, seen or not.
func (v *View) draw(moving, once bool) {
	s := v.Size()
	v.owed = false
	v.pace.Begun()
	v.place()
	scale := float32(1)
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		scale = c.Scale()
	}
	w := v.wish(int(s.Width*scale), int(s.Height*scale), float64(scale))
	v.asked++
	w.moving, w.once, w.serial = moving, once, v.asked
	v.engine.ask(w)
	if moving {
		v.restIn(restAfter)
	} else {
		v.unrest()
	}
}

// restIn has the picture come to rest where nothing changes for so long.
func (v *View) restIn(wait time.Duration) {
	v.unrest()
	v.still = v.sight.After(wait, viewer.PartLive, v.rest)
}

// unrest has it not come to rest by itself.
func (v *View) unrest() {
	if v.still != nil {
		v.still()
	}
}

// awayAfter is how long nothing must have changed before a picture that is not seen is drawn, so that it is there when it
// is looked at.
const awayAfter = 400 * time.Millisecond

// Away tells that the picture is not seen, or is again: until then what changes is drawn once that rests, and takes no
// time from what is seen.
func (v *View) Away(on bool) {
	if v.away = on; !on && v.owed {
		v.Redraw()
	}
}

// Arrive goes to another stage of the work; what is new comes down from above.
func (v *View) Arrive(stage buildup.Stage) {
	later := stage > v.sight.Stage
	v.sight.Change(func(s *sight.State) { s.Stage = stage })
	if !later || !v.theme.Moves() || v.frame.Scene == nil {
		return
	}
	v.flight++
	v.animate(320*time.Millisecond, func(t float64) { v.arriving = (1 - t) * (1 - t) }, func() { v.arriving = 0 })
}

// wish is what is wanted now, at a size.
func (v *View) wish(width, height int, scale float64) wish {
	s := v.sight
	w := wish{result: v.result, generation: v.generation, cuts: s.Cuts(v.result),
		others: v.strips.others, divides: v.strips.divides,
		frame: viewer.Frame{
			Camera: v.sight.Camera, Stage: s.Stage, Look: s.Look, Light: v.result.Settled.Lit(), Wet: v.result.Settled.Shown().Wet, Dark: v.theme.Dark(),
			Chosen: s.Chosen, Apart: s.Apart, Arriving: v.arriving, Width: width, Height: height,
		}}
	w.style = v.sight.Styled(v.theme.PaintStyle(scale, v.result.Settled.Units, ""), v.result)
	w.dimensions = s.Dimensions && !v.Plain
	w.pins, w.taken = v.pins(), v.taken(scale)
	return w
}

// gripAt is where the grip of a cut plane stands in the model.
func (v *View) gripAt(plane int) (mgl64.Vec3, solid.Cut) {
	cut := v.sight.Plane(v.result, plane)
	c := v.result.Layout.Shower.Centroid()
	p := mgl64.Vec3{c.X(), c.Y(), v.result.Heights.TileMM + 350}
	return p.Sub(cut.Normal.Mul(cut.Side(p))), cut
}

const gripRadius = 11

func (v *View) placeGrips() {
	for i, grip := range v.grips {
		grip.Hide()
		if !v.sight.CutOn || v.Plain || !slices.Contains(v.sight.Active(), i) || len(v.result.Layout.Walls) == 0 || v.frame.Scene == nil {
			continue
		}
		at, _ := v.gripAt(i)
		x, y, ok := v.sight.Camera.Project(at, v.aspect())
		if !ok || x < 0 || x > 1 || y < 0 || y > 1 {
			continue
		}
		s := v.Size()
		grip.FillColor = v.theme.Color("background", 0)
		grip.StrokeColor = v.theme.Color("primary", 0)
		grip.Resize(fyne.NewSize(2*gripRadius, 2*gripRadius))
		grip.Move(fyne.NewPos(float32(x)*s.Width-gripRadius, float32(y)*s.Height-gripRadius))
		grip.Show()
		grip.Refresh()
		if v.GripMoved != nil && i == v.sight.Active()[0] {
			v.GripMoved(fyne.CurrentApp().Driver().AbsolutePositionForObject(v).Add(grip.Position()).AddXY(gripRadius, gripRadius))
		}
	}
}
