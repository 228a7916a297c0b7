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
	besideAbove  = 58
	besideBelow  = 74
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

// scale is that of the plan as it is shown.
func (p *planBoard) scale() scale {
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
		along := b.Sub(a).Normalize()
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

// door is where the door's opening begins and ends along wall A, from its start.
func (p *planBoard) door() (fromMM, toMM float64) {
	wide, from := p.practice.Door(p.sheet)
	long := p.faces()[0].longMM
	return long - from - wide, long - from
}

// drawing is what is painted of the plan: floors, walls, the joists under it.
func (p *planBoard) drawing() section.Drawing {
	d := section.Drawing{}
	room := plan.FromRing(p.practice.Outline(p.sheet))
	_, shower := p.shower()
	floor := of(theme.Sunk)
	d.Areas = append(d.Areas, section.Area{Material: material.Tile, Region: room, Colour: color.RGBA{floor.R, floor.G, floor.B, 255}},
		section.Area{Material: material.Tile, Region: plan.FromRing(shower[:])})
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

// corner is where the outer faces of two walls that stand beside each other meet, before or after f.
func (f face) corner(o face, before bool) plan.Point {
	at := f.a
	if !before {
		at = f.b
	}
	return at.Add(f.out.Mul(f.thickMM)).Add(o.out.Mul(o.thickMM))
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
}

func (r *planRenderer) Destroy() {}

func (r *planRenderer) MinSize() fyne.Size { return r.of.MinSize() }

func (r *planRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.back}, r.over...)
}

func (r *planRenderer) Layout(s fyne.Size) {
	r.back.Resize(s)
	r.lay()
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
	o.water()
	o.dimensions()
	o.doorLeaf()
	o.handles()
	o.letters()
	if r.of.focused {
		ring := canvas.NewRectangle(color.Transparent)
		ring.StrokeColor, ring.StrokeWidth, ring.CornerRadius = of(theme.Press), theme.FocusWidth, theme.Radius
		ring.Resize(r.of.Size())
		o.add(ring)
	}
	r.over = o.all
}

// overlay is what lies over the painted plan: all that is alive in it.
type overlay struct {
	p   *planBoard
	s   scale
	all []fyne.CanvasObject
}

func (o *overlay) add(all ...fyne.CanvasObject) { o.all = append(o.all, all...) }

// straight is a straight between two places.
func (o *overlay) straight(a, b fyne.Position, r theme.Role, wide float32) {
	l := canvas.NewLine(of(r))
	l.StrokeWidth, l.Position1, l.Position2 = wide, a, b
	o.add(l)
}

// plate is text on a plate with its middle at a place.
func (o *overlay) plate(text string, at fyne.Position, ground, ink theme.Role, heavy bool) {
	t := control.NewText(text).Styled(theme.TextSecond, heavy, ink)
	size := t.MinSize()
	back := canvas.NewRectangle(of(ground))
	back.CornerRadius = theme.PlateRadius
	back.Resize(size.Add(fyne.NewSize(10, 2)))
	back.Move(fyne.NewPos(at.X-size.Width/2-5, at.Y-size.Height/2-1))
	t.Resize(size)
	t.Move(fyne.NewPos(at.X-size.Width/2, at.Y-size.Height/2))
	o.add(back, t)
}

// outsides shows which walls are outside walls.
func (o *overlay) outsides() {
	for i, f := range o.p.faces() {
		if !f.outside {
			continue
		}
		a, b := o.s.to(f.at(0, 0)), o.s.to(f.at(f.longMM, 0))
		if i == 0 {
			from, to := o.p.door()
			o.straight(a, o.s.to(f.at(from, 0)), theme.Sound, 3)
			o.straight(o.s.to(f.at(to, 0)), b, theme.Sound, 3)
			continue
		}
		o.straight(a, b, theme.Sound, 3)
	}
}

// water shows where it goes: the drain, the run as it was laid, and where it leaves.
func (o *overlay) water() {
	if len(o.p.drain) == 4 {
		a, b := o.s.to(o.p.drain[0]), o.s.to(o.p.drain[2])
		d := canvas.NewRectangle(of(theme.Sheet))
		d.StrokeColor, d.StrokeWidth = of(theme.Ink), 1
		d.Move(fyne.NewPos(min(a.X, b.X), min(a.Y, b.Y)))
		d.Resize(fyne.NewSize(abs32(a.X-b.X), abs32(a.Y-b.Y)))
		o.add(d)
	}
	n := len(o.p.run)
	for i := 1; i < n; i++ {
		o.straight(o.s.to(o.p.run[i-1]), o.s.to(o.p.run[i]), theme.Ink, 5)
	}
	if n < 2 {
		return
	}
	end := o.p.run[n-1]
	wall, through := o.p.practice.Through(o.p.sheet)
	if !through {
		at := o.s.to(end)
		c := canvas.NewCircle(of(theme.Sheet))
		c.StrokeColor, c.StrokeWidth = of(theme.Ink), 3
		c.Move(at.SubtractXY(8, 8))
		c.Resize(fyne.NewSize(16, 16))
		o.add(c)
		return
	}
	f := o.p.faces()[wall]
	tip := end.Add(f.out.Mul(f.thickMM + 22/o.s.perMM))
	o.straight(o.s.to(end), o.s.to(tip), theme.Ink, 5)
	for _, turn := range []float64{-0.6, 0.6} {
		back := f.out.Mul(-11 / o.s.perMM)
		q := plan.Point{back.X()*math.Cos(turn) - back.Y()*math.Sin(turn), back.X()*math.Sin(turn) + back.Y()*math.Cos(turn)}
		o.straight(o.s.to(tip), o.s.to(tip.Add(q)), theme.Ink, 4)
	}
	says := theme.Word("start.water-out")
	if o.p.sheet.Water.To != question.GoesOutThroughWall {
		says = theme.Word("start.water-out-assumed")
	}
	width := float64(fyne.MeasureText(says, theme.TextSecond, fyne.TextStyle{Bold: true}).Width)
	at := o.s.to(tip.Add(f.out.Mul((10 + 6 + math.Abs(f.out.X())*width/2) / o.s.perMM)))
	half := float32(width/2) + 6
	at.X = min(max(at.X, half), o.p.Size().Width-half)
	o.plate(says, at, theme.SoundGround, theme.Sound, true)
}

func abs32(x float32) float32 { return max(x, -x) }

// dimensions are the lengths of the sheet, as they stand in the plan.
func (o *overlay) dimensions() {
	low, high, _ := plan.FromRing(o.p.practice.Outline(o.p.sheet)).Bounds()
	st, c := o.p.shower()
	f := o.p.faces()[st.Wall]
	side := 30 / o.s.perMM
	o.dimension(c[3].Add(f.out.Mul(-side)), c[2].Add(f.out.Mul(-side)), st.LongMM)
	open, away := c[1], f.along
	if st.OffsetMM > f.longMM-st.OffsetMM-st.LongMM { // the wider part of the room is before it
		open, away = c[0], f.along.Mul(-1)
	}
	o.dimension(open.Add(away.Mul(side)), open.Add(away.Mul(side)).Add(f.out.Mul(-st.DeepMM)), st.DeepMM)

	const wallMM = 215
	above := high.Y() + wallMM + 30/o.s.perMM
	o.dimension(plan.Point{low.X(), above}, plan.Point{high.X(), above}, high.X()-low.X())
	right := high.X() + wallMM + 34/o.s.perMM
	o.dimension(plan.Point{right, low.Y()}, plan.Point{right, high.Y()}, high.Y()-low.Y())
	wide, from := o.p.practice.Door(o.p.sheet)
	a := o.p.faces()[0]
	below := a.thickMM + 44/o.s.perMM
	_, to := o.p.door()
	o.dimension(a.at(a.longMM, below), a.at(to, below), from)
	o.dimension(a.at(to, below), a.at(to-wide, below), wide)
}

// dimension is a distance between two places, with slanted ticks and its figure on a plate.
func (o *overlay) dimension(a, b plan.Point, mm float64) {
	if mm < 1 {
		return
	}
	p, q := o.s.to(a), o.s.to(b)
	o.straight(p, q, theme.Caption, 1)
	for _, e := range []fyne.Position{p, q} {
		o.straight(e.AddXY(-4, 4), e.AddXY(4, -4), theme.Caption, 1.5)
	}
	text := figure(mm, o.p.sheet.Units)
	o.plate(text, fyne.NewPos((p.X+q.X)/2, (p.Y+q.Y)/2), theme.Sheet, theme.Ink, true)
}

// doorLeaf shows the door: its posts and the open leaf.
func (o *overlay) doorLeaf() {
	a := o.p.faces()[0]
	from, to := o.p.door()
	for _, at := range []float64{from, to} {
		o.straight(o.s.to(a.at(at, 0)), o.s.to(a.at(at, a.thickMM)), theme.Ink, 2)
	}
	hinge := a.at(from, a.thickMM)
	const openDeg = 35
	wide := to - from
	leaf := hinge.Add(a.along.Mul(wide * math.Cos(openDeg*math.Pi/180))).Add(a.out.Mul(min(wide*math.Sin(openDeg*math.Pi/180), 34/o.s.perMM)))
	o.straight(o.s.to(hinge), o.s.to(leaf), theme.Ink, 2)
}

// letters name walls and corners; the corner that the shower stands in is filled.
func (o *overlay) letters() {
	faces := o.p.faces()
	n := len(faces)
	st := o.p.practice.Stand(o.p.sheet)
	for i, f := range faces {
		o.disc(question.Letter(i), o.letterAt(i), 11, theme.Ink, theme.Ink, theme.Sheet)
		ground, ink := theme.Sheet, theme.Press
		if st.Corner == i {
			ground, ink = theme.Press, theme.OnPress
		}
		if p := o.p; p.practice.TakesShower(p.sheet, i) {
			o.disc(question.CornerName(i, n), o.s.to(f.b), cornerRadius, ground, theme.Press, ink)
		}
	}
}

// cornerRadius is that of the rings at corners.
const cornerRadius = 19

// letterAt is where a wall's letter stands: within the wall, out of the way of what stands in its middle.
func (o *overlay) letterAt(wall int) fyne.Position {
	f := o.p.faces()[wall]
	along := f.longMM * 0.68
	if wall == 0 {
		from, to := o.p.door()
		along = to + (f.longMM-to)/2
		if from > f.longMM-to {
			along = from / 2
		}
	}
	out := f.thickMM / 2
	if f.thickMM*o.s.perMM < 19 {
		out = f.thickMM + 14/o.s.perMM
	}
	return o.s.to(f.at(along, out))
}

// disc is a disc with letters in it.
func (o *overlay) disc(text string, at fyne.Position, radius float32, ground, edge, ink theme.Role) {
	c := canvas.NewCircle(of(ground))
	c.StrokeColor, c.StrokeWidth = of(edge), theme.FocusWidth
	c.Move(at.SubtractXY(radius, radius))
	c.Resize(fyne.NewSize(2*radius, 2*radius))
	t := bold(text, theme.TextSecond, ink)
	size := t.MinSize()
	t.Resize(size)
	t.Move(at.SubtractXY(size.Width/2, size.Height/2))
	o.add(c, t)
}

// handles are what is dragged.
func (o *overlay) handles() {
	_, c := o.p.shower()
	for i := range c {
		o.straight(o.s.to(c[i]), o.s.to(c[(i+1)%4]), theme.Press, 2)
	}
	for _, h := range o.p.grips() {
		at := o.s.to(h.at)
		r := canvas.NewRectangle(of(theme.Sheet))
		r.StrokeColor, r.StrokeWidth = of(theme.Press), 2
		r.Move(at.SubtractXY(5, 5))
		r.Resize(fyne.NewSize(10, 10))
		o.add(r)
	}
}
