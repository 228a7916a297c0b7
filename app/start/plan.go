package start

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/job"
	"underfall/geometry/material"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/section"
)

// planBoard is the plan of a sheet: the second way to answer. Corners and walls are pressed, the shower,
// its open sides and the door dragged.
type planBoard struct {
	widget.BaseWidget
	keys     *control.Keys
	practice question.Practice
	sheet    question.Sheet
	// run and drain are of the sheet's job as it was worked out; nothing while it is not.
	run   []plan.Point
	drain plan.Ring
	// corner and wall are called with the one that was pressed, place with a place in the room; drag
	// with what a drag makes of the sheet, dropped when it ends.
	corner, wall func(int)
	place        func(plan.Point)
	drag         func(question.Sheet)
	dropped      func()
	held         grip
	from         question.Sheet // as the drag began
	fixed        scale          // likewise
	grabbed      plan.Point
	focused      bool
	letter       int // the wall whose letter was typed; -1 for none
}

func newPlan(keys *control.Keys, practice question.Practice, sheet question.Sheet) *planBoard {
	nothing := func(int) {}
	p := &planBoard{keys: keys, practice: practice, sheet: sheet, corner: nothing, wall: nothing, place: func(plan.Point) {},
		drag: func(question.Sheet) {}, dropped: func() {}, letter: -1}
	p.ExtendBaseWidget(p)
	return p
}

// show draws another sheet, with what was worked out of it.
func (p *planBoard) show(practice question.Practice, sheet question.Sheet, run []plan.Point, drain plan.Ring) {
	p.practice, p.sheet, p.run, p.drain = practice, sheet, run, drain
	p.Refresh()
}

// Room left round the plan for what stands beside it.
const (
	besideAcross = 118
	besideAbove  = 46
	besideBelow  = 62
)

// scale places the plan on the widget: units to a millimetre, and where the origin lies.
type scale struct {
	perMM float64
	x, y  float64
}

func (s scale) to(q plan.Point) fyne.Position {
	return fyne.NewPos(float32(s.x+q.X()*s.perMM), float32(s.y-q.Y()*s.perMM))
}

func (s scale) from(at fyne.Position) plan.Point {
	return plan.Point{(float64(at.X) - s.x) / s.perMM, (s.y - float64(at.Y)) / s.perMM}
}

// scale is that of the plan as it is shown. While a corner is dragged all else stays where it is.
func (p *planBoard) scale() scale {
	if p.held.kind != gripCorner {
		return p.fitted()
	}
	s := p.fixed
	if p.held.corner == 0 { // corner AB is where places are told from
		s.x += (p.practice.WallMM(p.from, 0) - p.practice.WallMM(p.sheet, 0)) * s.perMM
	}
	return s
}

// fitted is the scale at which the whole plan is seen.
func (p *planBoard) fitted() scale {
	low, high, _ := plan.FromRing(p.practice.Outline(p.sheet)).Bounds()
	size := p.Size()
	w, h := max(float64(size.Width)-2*besideAcross, 60), max(float64(size.Height)-besideAbove-besideBelow, 60)
	const walls = 2 * 215
	over := high.Sub(low).Add(plan.Point{walls, walls})
	s := scale{perMM: min(w/over.X(), h/over.Y())}
	middle := low.Add(high).Mul(0.5)
	s.x = float64(size.Width)/2 - middle.X()*s.perMM
	s.y = besideAbove + h/2 + middle.Y()*s.perMM
	return s
}

// face is a wall in plan: its inner face and the way out of the room.
type face struct {
	a, b, along, out plan.Point
	longMM, thickMM  float64
	kind             job.WallKind
	outside          bool
}

// faces are the walls of the sheet's room.
func (p *planBoard) faces() []face {
	outline := p.practice.Outline(p.sheet)
	var out []face
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		w := p.practice.Wall(p.sheet, i)
		along := plan.DirectionDeg(0) // of a wall of no length
		if long := b.Sub(a).Len(); long > 0 {
			along = b.Sub(a).Mul(1 / long)
		}
		out = append(out, face{a, b, along, plan.Left(along), b.Sub(a).Len(), w.ThicknessMM, w.Kind, p.practice.IsOutside(p.sheet, i)})
	}
	return out
}

// at is a place on a wall: so far along it from its start and out from its inner face.
func (f face) at(alongMM, outMM float64) plan.Point {
	return f.a.Add(f.along.Mul(alongMM)).Add(f.out.Mul(outMM))
}

// shower are the corners of the shower: at its wall where it begins and ends, then away from it.
func (p *planBoard) shower() (st question.Stand, c [4]plan.Point) {
	st = p.practice.Stand(p.sheet)
	f := p.faces()[st.Wall]
	from, to := st.OffsetMM, st.OffsetMM+st.LongMM
	return st, [4]plan.Point{f.at(from, 0), f.at(to, 0), f.at(to, -st.DeepMM), f.at(from, -st.DeepMM)}
}

// drawn tells whether the room is drawn wall by wall, so that its corners can be dragged.
func (p *planBoard) drawn() bool { return p.sheet.Room.Shape == question.WallByWall }

// closes tells whether the walls enclose a room, for a shower to stand in.
func (p *planBoard) closes() bool { return len(p.practice.Closes(p.sheet)) == 0 }

// door is where the door's opening begins and ends along wall A, from its start.
func (p *planBoard) door() (fromMM, toMM float64) {
	wide, from := p.practice.Door(p.sheet)
	return from, from + wide
}

// drawing is what is painted of the plan: floors, walls, the joists under it.
func (p *planBoard) drawing() section.Drawing {
	d := section.Drawing{}
	room := plan.FromRing(p.practice.Outline(p.sheet))
	_, shower := p.shower()
	floor := of(theme.Sunk)
	d.Areas = append(d.Areas, section.Area{Material: material.Tile, Region: room, Colour: color.RGBA{floor.R, floor.G, floor.B, 255}})
	if p.closes() {
		d.Areas = append(d.Areas, section.Area{Material: material.Tile, Region: plan.FromRing(shower[:])})
	}
	faces := p.faces()
	n := len(faces)
	for i, f := range faces {
		before, after := faces[(i+n-1)%n], faces[(i+1)%n]
		m := material.StudWall
		if f.kind != job.WallStud {
			m = material.Masonry
		}
		from, to := p.door()
		a, b := f.corner(before, true), f.corner(after, false)
		if i != 0 {
			d.Areas = append(d.Areas, section.Area{Material: m, Cut: true, Region: plan.FromRing([]plan.Point{f.a, f.b, b, a})})
			continue
		}
		d.Areas = append(d.Areas,
			section.Area{Material: m, Cut: true, Region: plan.FromRing([]plan.Point{f.a, f.at(from, 0), f.at(from, f.thickMM), a})},
			section.Area{Material: m, Cut: true, Region: plan.FromRing([]plan.Point{f.at(to, 0), f.b, b, f.at(to, f.thickMM)})})
	}
	d.Lines = append(d.Lines, p.joists(room)...)
	return d
}

// corner is where the outer faces of two walls that stand beside each other meet, before or after f:
// square off the face where they run on, or meet far away.
func (f face) corner(o face, before bool) plan.Point {
	at := f.a
	if !before {
		at = f.b
	}
	at = at.Add(f.out.Mul(f.thickMM))
	const farthest = 3 // thicknesses
	if s, _, ok := plan.MeetLines(at, f.along, o.a.Add(o.out.Mul(o.thickMM)), o.along); ok && math.Abs(s) <= farthest*max(f.thickMM, o.thickMM) {
		return at.Add(f.along.Mul(s))
	}
	return at
}

// joists are the joists of a timber floor whose way is known, as broken lines.
func (p *planBoard) joists(room plan.Region) (out []section.Line) {
	if p.sheet.Floor.Is != question.Timber || p.sheet.Floor.Runs == question.RunsNotKnown {
		return nil
	}
	low, high, _ := room.Bounds()
	every := max(p.practice.UsualMM(p.sheet, question.JoistEvery), 50)
	if l := p.sheet.Floor.Every; l.Given && l.MM >= 50 {
		every = l.MM
	}
	start, along, across := low, plan.Point{1, 0}, plan.Point{0, 1}
	if p.sheet.Floor.Runs == question.FromA {
		along, across = across, along
	}
	for at := every / 2; at < high.Sub(low).Dot(across); at += every {
		from := start.Add(across.Mul(at))
		for _, in := range room.Clip(from, along) {
			out = append(out, section.Line{Points: []plan.Point{from.Add(along.Mul(in.From)), from.Add(along.Mul(in.To))}, Dashed: true})
		}
	}
	return out
}

// MinSize is as small as a plan can be read.
func (p *planBoard) MinSize() fyne.Size { return fyne.NewSize(360, 250) }

// AccessibilityLabel says what it is to who cannot see it.
func (p *planBoard) AccessibilityLabel() string { return theme.Word("start.plan") }

// CreateRenderer draws the plan.
func (p *planBoard) CreateRenderer() fyne.WidgetRenderer {
	r := &planRenderer{of: p}
	r.back = canvas.NewRaster(func(w, h int) image.Image {
		size := p.Size()
		if size.Width < 2 || w < 2 {
			return image.NewRGBA(image.Rect(0, 0, 1, 1))
		}
		s := p.scale()
		middle := s.from(fyne.NewPos(size.Width/2, size.Height/2))
		half := plan.Point{float64(size.Width) / 2 / s.perMM, float64(size.Height) / 2 / s.perMM}
		drawn := sketch{drawing: p.drawing(), low: middle.Sub(half), high: middle.Add(half), ground: theme.Sheet}
		return drawn.paint(w, h, float64(w)/float64(size.Width))
	})
	return r
}

type planRenderer struct {
	of   *planBoard
	back *canvas.Raster
	over []fyne.CanvasObject
	laid fyne.Size // that over is made for
}

func (r *planRenderer) Destroy() {}

func (r *planRenderer) MinSize() fyne.Size { return r.of.MinSize() }

func (r *planRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.back}, r.over...)
}

// Layout makes what lies over the plan anew where the size is another: new objects have all laid out again at
// the next frame.
func (r *planRenderer) Layout(s fyne.Size) {
	r.back.Resize(s)
	if s != r.laid {
		r.lay()
	}
}

func (r *planRenderer) Refresh() {
	r.lay()
	r.back.Refresh()
	canvas.Refresh(r.of)
}

// lay makes what lies over the painted plan anew.
func (r *planRenderer) lay() {
	o := &overlay{p: r.of, s: r.of.scale()}
	o.outsides()
	o.fall()
	o.water()
	o.dimensions()
	o.doorLeaf()
	o.handles()
	o.letters()
	o.outsideWords()
	o.crossing()
	if r.of.focused {
		ring := canvas.NewRectangle(color.Transparent)
		ring.StrokeColor, ring.StrokeWidth, ring.CornerRadius = of(theme.Press), theme.FocusWidth, theme.Radius
		ring.Resize(r.of.Size())
		o.add(ring)
	}
	r.over, r.laid = o.all, r.of.Size()
}
