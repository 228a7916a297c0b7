package start

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/message"
	"underfall/geometry/placing"
	"underfall/geometry/plan"
	"underfall/geometry/question"
)

// overlay is what lies over the painted plan: all that is alive in it.
type overlay struct {
	p   *planBoard
	s   scale
	all []fyne.CanvasObject
	// taken is where texts, letters and lengths stand: no other text goes there.
	taken []placing.Box
}

// boxAt is what something of a size takes about a place.
func boxAt(at fyne.Position, size fyne.Size) placing.Box {
	return placing.Around(placing.Point{float64(at.X), float64(at.Y)}, float64(size.Width), float64(size.Height))
}

// take keeps a place free of other texts.
func (o *overlay) take(at fyne.Position, size fyne.Size) { o.taken = append(o.taken, boxAt(at, size)) }

// free tells whether a text has room at a place.
func (o *overlay) free(at fyne.Position, size fyne.Size) bool {
	b, all := boxAt(at, size), o.p.Size()
	within := placing.Box{High: placing.Point{float64(all.Width), float64(all.Height)}}
	return b.Within(within) && !slices.ContainsFunc(o.taken, b.Overlaps)
}

func (o *overlay) add(all ...fyne.CanvasObject) { o.all = append(o.all, all...) }

// straight is a straight between two places.
func (o *overlay) straight(a, b fyne.Position, r theme.Role, wide float32) {
	l := canvas.NewLine(of(r))
	l.StrokeWidth, l.Position1, l.Position2 = wide, a, b
	o.add(l)
}

// circle is a circle round a place.
func (o *overlay) circle(at fyne.Position, radius float32, fill color.Color, edge theme.Role, wide float32) {
	c := canvas.NewCircle(fill)
	c.StrokeColor, c.StrokeWidth = of(edge), wide
	c.Move(at.SubtractXY(radius, radius))
	c.Resize(fyne.NewSize(2*radius, 2*radius))
	o.add(c)
}

// plate is text on a plate with its middle at a place.
func (o *overlay) plate(text string, at fyne.Position, ground, ink theme.Role, heavy bool) {
	t := control.NewText(text).Styled(theme.TextSecond, heavy, ink)
	size := t.MinSize()
	back := canvas.NewRectangle(of(ground))
	back.CornerRadius = theme.PlateRadius
	back.Resize(plateSize(size))
	back.Move(fyne.NewPos(at.X-size.Width/2-5, at.Y-size.Height/2-1))
	t.Resize(size)
	t.Move(fyne.NewPos(at.X-size.Width/2, at.Y-size.Height/2))
	o.add(back, t)
	o.take(at, back.Size())
}

// plateSize is the size of a plate under a text.
func plateSize(text fyne.Size) fyne.Size { return text.Add(fyne.NewSize(10, 2)) }

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

// outsideWords say of each outside wall that it is one, outside of it where there is room: that is what a wall that was
// pressed has become.
func (o *overlay) outsideWords() {
	t := func() *control.Text {
		return control.NewText(theme.Word("start.outside-wall")).Styled(theme.TextCaption, false, theme.Sound)
	}
	size := t().MinSize()
	for _, f := range o.p.faces() {
		if !f.outside {
			continue
		}
		reach := math.Abs(f.out.X())*float64(size.Width)/2 + math.Abs(f.out.Y())*float64(size.Height)/2
		for _, at := range o.besideWall(f, reach) {
			if o.free(at, size) {
				says := t()
				says.Resize(size)
				says.Move(at.SubtractXY(size.Width/2, size.Height/2))
				o.add(says)
				o.take(at, size)
				break
			}
		}
	}
}

// besideWall are places outside of a wall for what reaches so far to its sides, the better ones first.
func (o *overlay) besideWall(f face, reach float64) (out []fyne.Position) {
	for _, off := range []float64{6, 42, 64} { // at the wall, beyond a length, beyond two
		for _, share := range []float64{0.68, 0.5, 0.3, 0.85} {
			out = append(out, o.s.to(f.at(f.longMM*share, f.thickMM+(off+reach)/o.s.perMM)))
		}
	}
	return out
}

// fall shows which way the shower falls: an arrow to the drain, in words where there is room.
func (o *overlay) fall() {
	if len(o.p.drain) != 4 || !o.p.closes() {
		return
	}
	_, c := o.p.shower()
	a, b := o.p.drain[0], o.p.drain[2]
	middle := c[0].Add(c[2]).Mul(0.5)
	to := plan.Point{min(max(middle.X(), min(a.X(), b.X())), max(a.X(), b.X())), min(max(middle.Y(), min(a.Y(), b.Y())), max(a.Y(), b.Y()))}
	way := to.Sub(middle)
	const leastUnits, halfUnits = 26, 24
	if way.Len()*o.s.perMM < leastUnits {
		return // it stands in the middle: the floor falls to it from all round
	}
	along := way.Mul(1 / way.Len())
	half := min(halfUnits/o.s.perMM, way.Len()*0.6)
	tip, tail := o.s.to(middle.Add(along.Mul(half))), o.s.to(middle.Sub(along.Mul(half)))
	words := theme.Word("start.falls")
	size := plateSize(control.NewText(words).Styled(theme.TextSecond, false, theme.Ink).MinSize())
	low, high := o.s.to(c[0]), o.s.to(c[2])
	const loose = 8
	room := fyne.NewSize(abs32(high.X-low.X)-4*loose, abs32(high.Y-low.Y)-4*loose)
	at := o.s.to(middle)
	switch upright := abs32(tip.Y-tail.Y) > abs32(tip.X-tail.X); {
	case upright && size.Width+3*loose <= room.Width: // beside the arrow, both of them in the middle
		aside := fyne.NewPos((size.Width+loose)/2, 0)
		tip, tail = tip.Subtract(aside), tail.Subtract(aside)
		o.plate(words, at.AddXY(loose-aside.X+size.Width/2, 0), theme.Sheet, theme.Ink, false)
	case !upright && size.Width <= room.Width && size.Height+3*loose <= room.Height:
		o.plate(words, at.AddXY(0, loose+size.Height/2), theme.Sheet, theme.Ink, false)
	}
	o.straight(tail, tip, theme.Ink, 2)
	back := fyne.NewPos((tail.X - tip.X), (tail.Y - tip.Y))
	far := float32(math.Hypot(float64(back.X), float64(back.Y)))
	u := fyne.NewPos(back.X/far*7, back.Y/far*7)
	o.straight(tip, tip.AddXY(u.X-u.Y*0.7, u.Y+u.X*0.7), theme.Ink, 2)
	o.straight(tip, tip.AddXY(u.X+u.Y*0.7, u.Y-u.X*0.7), theme.Ink, 2)
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
		o.circle(at, 8, of(theme.Sheet), theme.Ink, 3)
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
	o.plate(says, o.wayOutSays(says, o.s.to(end), o.s.to(tip), wall), theme.SoundGround, theme.Sound, true)
}

// wayOutSays is where it stands what an arrow is, from where it begins to its tip, out through a wall: past the tip, else
// beside it, off the arrow and within the plan.
func (o *overlay) wayOutSays(says string, from, tip fyne.Position, wall int) fyne.Position {
	const clear, head = 6, 16 // around the plate, and how wide the arrow's head is
	arrow := fyne.NewSize(max(head, abs32(tip.X-from.X)), max(head, abs32(tip.Y-from.Y)))
	o.take(fyne.NewPos((from.X+tip.X)/2, (from.Y+tip.Y)/2), arrow)
	size := plateSize(control.NewText(says).Styled(theme.TextSecond, true, theme.Sound).MinSize())
	half := fyne.NewSize(size.Width/2+clear, size.Height/2+clear)
	out, aside := o.p.faces()[wall].out, float32(1)
	past := tip.AddXY(float32(out.X())*(half.Width+clear), -float32(out.Y())*(half.Height+clear))
	places := []fyne.Position{past}
	if wall == 0 { // under it lie the lengths of the door: beside the arrow, off the leaf
		a, b := o.p.door()
		aside, places = sign32(tip.X-o.s.to(o.p.faces()[0].at((a+b)/2, 0)).X), nil
	}
	if math.Abs(out.X()) > math.Abs(out.Y()) {
		places = append(places, tip.AddXY(0, -half.Height-head/2), tip.AddXY(0, half.Height+head/2))
	} else {
		places = append(places, tip.AddXY(aside*(half.Width+head/2), -4), tip.AddXY(-aside*(half.Width+head/2), -4))
	}
	within := func(at fyne.Position) fyne.Position {
		at.X = min(max(at.X, half.Width), o.p.Size().Width-half.Width)
		return at
	}
	for _, at := range places {
		if at = within(at); o.free(at, size) {
			return at
		}
	}
	return within(places[0])
}

func abs32(x float32) float32 { return max(x, -x) }

// sign32 is 1, or -1 of a negative number.
func sign32(x float32) float32 { return float32(math.Copysign(1, float64(x))) }

// dimensions are the lengths of the sheet, as they stand in the plan.
func (o *overlay) dimensions() {
	if o.p.closes() {
		o.showerSizes()
	}
	low, high, _ := plan.FromRing(o.p.practice.Outline(o.p.sheet)).Bounds()
	a := o.p.faces()[0]
	from, to := o.p.door()
	below := a.thickMM + 44/o.s.perMM
	o.dimension(a.at(0, below), a.at(from, below), from)
	o.dimension(a.at(from, below), a.at(to, below), to-from)
	if o.p.drawn() {
		o.walls()
		return
	}
	const wallMM = 215
	above := high.Y() + wallMM + 30/o.s.perMM
	o.dimension(plan.Point{low.X(), above}, plan.Point{high.X(), above}, high.X()-low.X())
	right := high.X() + wallMM + 34/o.s.perMM
	o.dimension(plan.Point{right, low.Y()}, plan.Point{right, high.Y()}, high.Y()-low.Y())
}

// showerSizes are the lengths of the shower, beside its open sides.
func (o *overlay) showerSizes() {
	st, c := o.p.shower()
	f := o.p.faces()[st.Wall]
	side := 30 / o.s.perMM
	o.dimension(c[3].Add(f.out.Mul(-side)), c[2].Add(f.out.Mul(-side)), st.LongMM)
	open, away := c[1], f.along
	if st.OffsetMM > f.longMM-st.OffsetMM-st.LongMM { // the wider part of the room is before it
		open, away = c[0], f.along.Mul(-1)
	}
	o.dimension(open.Add(away.Mul(side)), open.Add(away.Mul(side)).Add(f.out.Mul(-st.DeepMM)), st.DeepMM)
}

// walls are the lengths of the walls of a drawn room, each outside of its own, under the door's at A.
func (o *overlay) walls() {
	for i, f := range o.p.faces() {
		off := f.thickMM + 24/o.s.perMM
		switch {
		case i == 0:
			off = f.thickMM + 66/o.s.perMM
		case o.letterBeside(f):
			off = f.thickMM + 38/o.s.perMM
		}
		o.dimension(f.at(0, off), f.at(f.longMM, off), f.longMM)
	}
}

// crossing shows where two walls cross or touch that must not.
func (o *overlay) crossing() {
	wall, other, at, crosses := o.p.practice.Crossing(o.p.sheet)
	if !crosses {
		return
	}
	for _, i := range []int{wall, other} {
		f := o.p.faces()[i]
		o.straight(o.s.to(f.a), o.s.to(f.b), theme.Stops, 4)
	}
	const radius = 13
	middle := o.s.to(at)
	o.circle(middle, radius, color.Transparent, theme.Stops, 4)
	says := theme.Word("question.walls-cross", message.Name("wall", question.Letter(wall)), message.Name("other", question.Letter(other)))
	half := fyne.MeasureText(says, theme.TextSecond, fyne.TextStyle{Bold: true}).Width/2 + 6
	o.plate(says, fyne.NewPos(min(max(middle.X, half), o.p.Size().Width-half), middle.Y+radius+14), theme.StopsGround, theme.Stops, true)
}

// dimension is a distance between two places, with slanted ticks and its figure on a plate.
func (o *overlay) dimension(a, b plan.Point, mm float64) {
	if mm < 1 {
		return
	}
	p, q := o.s.to(a), o.s.to(b)
	o.straight(p, q, theme.Caption, 1)
	const tick = 10
	o.take(fyne.NewPos((p.X+q.X)/2, (p.Y+q.Y)/2), fyne.NewSize(abs32(p.X-q.X)+tick, abs32(p.Y-q.Y)+tick))
	for _, e := range []fyne.Position{p, q} {
		o.straight(e.AddXY(-4, 4), e.AddXY(4, -4), theme.Caption, 1.5)
	}
	text := along(mm, o.p.sheet.Units)
	at := fyne.NewPos((p.X+q.X)/2, (p.Y+q.Y)/2)
	if wide := control.NewText(text).Styled(theme.TextSecond, true, theme.Ink).MinSize().Width; p.Y == q.Y && wide > abs32(q.X-p.X) {
		at.X = p.X + (wide/2+12)*sign32(p.X-q.X) // beside it, where it begins
	}
	o.plate(text, at, theme.Sheet, theme.Ink, true)
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
	lettersAt := o.lettersAt()
	for i, f := range faces {
		ground, ink := theme.Ink, theme.Sheet
		if o.p.letter == i { // it was typed: Enter says that water goes out there
			ground, ink = theme.Press, theme.OnPress
		}
		o.disc(question.Letter(i), lettersAt[i], letterRadius, ground, ground, ink)
		ground, ink = theme.Sheet, theme.Press
		if st.Corner == i {
			ground, ink = theme.Press, theme.OnPress
		}
		if p := o.p; p.practice.TakesShower(p.sheet, i) {
			o.disc(question.Corner(i, n).String(), o.s.to(f.b), cornerRadius, ground, theme.Press, ink)
		}
	}
}

// cornerRadius is that of the rings at corners.
const cornerRadius = 19

// letterBeside tells whether a wall is too thin on the plan to have its letter within.
func (o *overlay) letterBeside(f face) bool { return f.thickMM*o.s.perMM < 19 }

// lettersAt is where the letters of all walls stand: within the wall, out of the way of what stands in its middle, of the arrow
// and of each other; walls with the fewest places choose first, and one that finds none free takes its first.
func (o *overlay) lettersAt() []fyne.Position {
	faces := o.p.faces()
	all, order := make([]fyne.Position, len(faces)), make([]int, len(faces))
	places := make([][]fyne.Position, len(faces))
	for wall, f := range faces {
		order[wall], places[wall] = wall, o.letterPlaces(wall, f)
	}
	slices.SortStableFunc(order, func(a, b int) int { return len(places[a]) - len(places[b]) })
	for n, wall := range order {
		all[wall] = places[wall][0]
		free := func(at fyne.Position) bool {
			return !slices.ContainsFunc(order[:n], func(other int) bool {
				return math.Hypot(float64(all[other].X-at.X), float64(all[other].Y-at.Y)) < 2*letterRadius
			})
		}
		if i := slices.IndexFunc(places[wall], free); i >= 0 {
			all[wall] = places[wall][i]
		}
	}
	return all
}

// letterRadius is that of the disc behind a wall's letter, in units.
const letterRadius = 11

// letterPlaces are places for a wall's letter off the arrow, the better ones first; one at least.
func (o *overlay) letterPlaces(wall int, f face) (out []fyne.Position) {
	along := []float64{0.68 * f.longMM, 0.32 * f.longMM, 0.5 * f.longMM, 0.15 * f.longMM, 0.85 * f.longMM}
	if from, to := o.p.door(); wall == 0 && from > f.longMM-to {
		along = append([]float64{from / 2}, along...)
	} else if wall == 0 {
		along = append([]float64{to + (f.longMM-to)/2}, along...)
	}
	away := f.thickMM / 2
	if o.letterBeside(f) {
		away = f.thickMM + 14/o.s.perMM
	}
	leaves, is := o.leavesAt(wall)
	for _, at := range along {
		if !is || math.Abs(leaves-at)*o.s.perMM >= letterClear {
			out = append(out, o.s.to(f.at(at, away)))
		}
	}
	if len(out) == 0 {
		out = append(out, o.s.to(f.at(0.32*f.longMM, away)))
	}
	return out
}

// letterClear is how far a wall's letter keeps from the arrow out through the wall, in units.
const letterClear = 30

// leavesAt is how far along a wall, from its beginning, water goes out through it; false of a wall that it does not leave by.
func (o *overlay) leavesAt(wall int) (alongMM float64, out bool) {
	n := len(o.p.run)
	through, ok := o.p.practice.Through(o.p.sheet)
	if n < 2 || !ok || through != wall {
		return 0, false
	}
	f := o.p.faces()[wall]
	return o.p.run[n-1].Sub(f.a).Dot(f.along), true
}

// disc is a disc with letters in it.
func (o *overlay) disc(text string, at fyne.Position, radius float32, ground, edge, ink theme.Role) {
	o.circle(at, radius, of(ground), edge, theme.FocusWidth)
	o.take(at, fyne.NewSize(2*radius, 2*radius))
	t := bold(text, theme.TextSecond, ink)
	size := t.MinSize()
	t.Resize(size)
	t.Move(at.SubtractXY(size.Width/2, size.Height/2))
	o.add(t)
}

// handles are what is dragged.
func (o *overlay) handles() {
	if _, c := o.p.shower(); o.p.closes() {
		for i := range c {
			o.straight(o.s.to(c[i]), o.s.to(c[(i+1)%4]), theme.Press, 2)
		}
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
