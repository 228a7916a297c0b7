package start

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry/material"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

func lengthMessage(mm float64) message.Message {
	return message.Of("start.length", message.MM("mm", mm))
}

// questions are the six, in their order.
func (s *Sheet) questions() fyne.CanvasObject {
	s.each = []fyne.CanvasObject{s.country(), s.room(), s.door(), s.floor(), s.shower(), s.water()}
	s.column = container.NewVBox()
	for i, q := range s.each {
		if i > 0 {
			s.column.Add(thin())
		}
		s.column.Add(q)
	}
	return s.column
}

// question is one: its heading and what answers it.
func (s *Sheet) question(heading fyne.CanvasObject, rows ...fyne.CanvasObject) fyne.CanvasObject {
	return container.New(inset{ringWidth, 5}, container.NewVBox(append([]fyne.CanvasObject{heading}, rows...)...))
}

// length makes the field of a length; says stands behind it.
func (s *Sheet) length(e question.Entry, width float32, says string) *lengthField {
	f := newLength(e, width, says, s.o.Keys, lengthIntents{sheet: s.Sheet, typed: s.typed, take: s.take})
	s.fields = append(s.fields, f)
	return f
}

// country asks where the job is, and in what units one measures.
func (s *Sheet) country() fyne.CanvasObject {
	var regions []control.Option
	for _, r := range s.o.Regions {
		regions = append(regions, control.Option{ID: r.Code, Text: r.Name})
	}
	where := control.NewPick(s.o.Keys, theme.Word("start.country"), regions, s.at.Region, s.chooseRegion)
	units := control.NewPick(s.o.Keys, theme.Word("start.units"), UnitsOptions(), string(s.at.Units), func(u string) {
		next := s.at
		next.Units = unit.System(u)
		s.set(next)
	})
	s.follow = append(s.follow, func() {
		where.Set(regions, s.shown.Region)
		units.Set(UnitsOptions(), string(s.shown.Units))
	})
	row := container.NewBorder(nil, nil, nil, sized(110, theme.PressHeight, units), where)
	h := s.heading("1", theme.Word("start.country"), theme.Word("start.asked-once"), func() bool { return true })
	return s.question(h, row)
}

// chooseRegion makes another country's practice stand in for what is not answered, in its units.
func (s *Sheet) chooseRegion(region string) {
	next := s.at
	next.Region = region
	next.Units = s.o.PracticeIn(region).Begin().Units
	s.set(next)
}

// UnitsOptions are the systems of units to choose from.
func UnitsOptions() []control.Option {
	var out []control.Option
	for _, u := range []unit.System{unit.Metric, unit.Imperial} {
		out = append(out, control.Option{ID: string(u), Text: UnitsName(u)})
	}
	return out
}

// UnitsName is what a system of units is called.
func UnitsName(u unit.System) string {
	if u == unit.Imperial {
		return theme.Word("start.units-imperial")
	}
	return theme.Word("start.units-metric")
}

// room asks how long and wide it is, and what an L-shaped one lacks.
func (s *Sheet) room() fyne.CanvasObject {
	long, wide, between := s.length(question.RoomLong, 96, ""), s.length(question.RoomWide, 96, ""), times()
	cutLong, cutWide := s.length(question.CutLong, 80, ""), s.length(question.CutWide, 80, "")
	shapes := []*choice{
		newChoice(s.o.Keys, theme.Word("start.rectangle"), shape(question.Rectangle), func() {
			next := s.at
			next.Room.Shape = question.Rectangle
			s.choose(next)
		}),
		newChoice(s.o.Keys, theme.Word("start.l-shape"), shape(question.LShaped), func() {
			next := s.at
			if next.Room.Shape == question.LShaped { // pressed again, another corner is cut out
				next.Room.Cut.At = (next.Room.Cut.At + 1) % 4
			}
			next.Room.Shape = question.LShaped
			s.choose(next)
		}),
		newChoice(s.o.Keys, theme.Word("start.drawn"), shape(question.WallByWall), func() { s.drawn(s.practice.Draw(s.at)) }),
	}
	apart := gap(theme.Space2, 1)
	row := container.NewHBox(long.object, between, wide.object, apart)
	for _, c := range shapes {
		c.narrow = true
		row.Add(c)
	}
	among(shapes)
	s.walls = newDrawnWalls(s)
	less := container.NewCenter(line(theme.Word("start.cut-out"), theme.TextCaption, theme.Caption))
	cut := container.NewHBox(less, cutLong.object, times(), cutWide.object)
	s.follow = append(s.follow, func() {
		is := s.shown.Room.Shape
		for i, c := range shapes {
			c.chosen = is == question.Shape(i)
			c.Refresh()
		}
		cut.Hidden = is != question.LShaped
		for _, o := range []fyne.CanvasObject{long.object, between, wide.object, apart} {
			o.Show()
			if is == question.WallByWall {
				o.Hide()
			}
		}
		s.walls.show(s.shown)
		cut.Refresh()
		row.Refresh()
	})
	h := s.heading("2", theme.Word("start.room"), "", func() bool { return s.practice.RoomKnown(s.shown) })
	return s.question(h, row, cut, s.walls.object)
}

// times stands between a length and a width.
func times() fyne.CanvasObject { return container.NewCenter(bold("×", theme.TextBody, theme.Ink)) }

// shape is the picture of a room's shape.
func shape(is question.Shape) fyne.CanvasObject {
	ring := []plan.Point{{0, 0}, {0, 20}, {30, 20}, {30, 0}}
	switch is {
	case question.LShaped:
		ring = []plan.Point{{0, 0}, {0, 20}, {18, 20}, {18, 11}, {30, 11}, {30, 0}}
	case question.WallByWall:
		ring = []plan.Point{{0, 0}, {0, 12}, {7, 20}, {22, 20}, {22, 13}, {30, 13}, {30, 0}}
	}
	d := section.Drawing{Lines: []section.Line{{Points: append(append([]plan.Point{}, ring...), ring[0]), Weight: section.Heavy}}}
	return sketch{drawing: d, high: plan.Point{30, 20}, loose: 3, ground: theme.Sheet}.object(34, 24)
}

// door asks how wide it is and where.
func (s *Sheet) door() fyne.CanvasObject {
	wide := s.length(question.DoorWide, 88, theme.Word("start.wide"))
	from := s.length(question.DoorFrom, 88, "")
	h := s.heading("3", theme.Word("start.door"), "", func() bool { return s.shown.Door.Wide.Given || s.shown.Door.From.Given })
	in := line("", theme.TextCaption, theme.Caption)
	s.follow = append(s.follow, func() {
		n := len(s.practice.Outline(s.shown))
		id := message.ID("start.from-in-a")
		if !s.shown.Door.From.Given {
			id = "start.from-assumed"
		}
		in.SetText(theme.Word(id, message.AtCorner("corner", question.Corner(n-1, n))))
	})
	row := container.NewHBox(wide.object, from.object, container.NewCenter(in))
	box := container.New(besideHeading{}, s.question(h, row), s.doorElsewhere())
	s.follow = append(s.follow, box.Refresh) // what stands beside the heading is as wide as what it says now
	return box
}

// doorElsewhere puts the door into the next wall that has room for one, which is A then.
func (s *Sheet) doorElsewhere() fyne.CanvasObject {
	next := func(of question.Sheet) int {
		n := len(s.practice.Outline(of))
		for i := 1; i < n; i++ {
			if s.practice.TakesDoor(of, i) {
				return i
			}
		}
		return 0
	}
	put := control.NewPress(s.o.Keys, "", func() { s.choose(s.practice.DoorIn(s.at, next(s.at))) })
	put.Small = true
	s.follow = append(s.follow, func() {
		wall := next(s.shown)
		if put.Hidden = wall == 0; !put.Hidden {
			put.Set(theme.Word("start.door-elsewhere", message.Name("wall", question.Letter(wall)),
				message.Name("long", along(s.practice.WallMM(s.shown, wall), s.shown.Units))), false)
		}
		put.Refresh()
	})
	return put
}

// besideHeading sets what belongs to a question at the right of its heading; it comes after the question's fields.
type besideHeading struct{}

// Layout places them.
func (besideHeading) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(s)
	size := o[1].MinSize()
	o[1].Move(fyne.NewPos(s.Width-size.Width-ringWidth, ringWidth))
	o[1].Resize(size)
}

// MinSize is that of the question.
func (besideHeading) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// floor asks what is under it.
func (s *Sheet) floor() fyne.CanvasObject {
	deep, every := s.length(question.JoistDeep, 80, theme.Word("start.deep")), s.length(question.JoistEvery, 80, theme.Word("start.apart"))
	wide := s.length(question.JoistWide, 80, theme.Word("start.wide"))
	var all []*choice
	floors := []question.FloorIs{question.Concrete, question.Timber, question.FloorNotKnown}
	row := container.NewGridWithColumns(len(floors))
	for _, is := range floors {
		c := newChoice(s.o.Keys, floorName(is), floorPicture(is), func() {
			next := s.at
			next.Floor.Is, next.Floor.Said = is, true
			s.choose(next)
		})
		all = append(all, c)
		row.Add(c)
	}
	among(all)
	ways := []question.Runs{question.AlongA, question.FromA, question.RunsNotKnown}
	var runs []*choice
	wayRow := container.NewHBox()
	for _, r := range ways {
		c := wordChoice(s.o.Keys, theme.Word(runsName(r)), func() {
			next := s.at
			next.Floor.Runs = r
			s.choose(next)
		})
		runs = append(runs, c)
		wayRow.Add(c)
	}
	among(runs)
	timber := container.NewVBox(line(theme.Word("start.joists-run"), theme.TextCaption, theme.Caption), wayRow,
		container.New(&flowing{gap: theme.BetweenTwo}, deep.object, wide.object, every.object))
	s.follow = append(s.follow, func() {
		f := s.shown.Floor
		for i, c := range all {
			c.chosen = f.Is == floors[i] && (f.Said || f.Is != question.FloorNotKnown)
			c.Refresh()
		}
		for i, c := range runs {
			c.chosen = f.Runs == ways[i]
			c.Refresh()
		}
		timber.Hidden = f.Is != question.Timber
		timber.Refresh()
	})
	h := s.heading("4", theme.Word("start.under-floor"), "", func() bool {
		return s.shown.Floor.Said || s.shown.Floor.Is != question.FloorNotKnown
	})
	return s.question(h, row, timber)
}

func runsName(r question.Runs) message.ID {
	switch r {
	case question.AlongA:
		return "start.runs-along"
	case question.FromA:
		return "start.runs-from"
	}
	return "start.not-known"
}

// floorName is what a floor is called.
func floorName(is question.FloorIs) string {
	switch is {
	case question.Concrete:
		return theme.Word("start.concrete")
	case question.Timber:
		return theme.Word("start.timber")
	}
	return theme.Word("start.not-known")
}

// floorPicture is a floor in section, with its name under it.
func floorPicture(is question.FloorIs) fyne.CanvasObject {
	name := bold(floorName(is), theme.TextSecond, theme.Ink)
	return container.NewVBox(container.NewCenter(floorSketch(is, 92, 30)), container.NewCenter(name))
}

// floorSketch is a floor in section; a question mark for one that is not known.
func floorSketch(is question.FloorIs, w, h float32) fyne.CanvasObject {
	wide, high := float64(w), float64(h)
	d := section.Drawing{}
	switch is {
	case question.Concrete:
		d.Areas = append(d.Areas, cut(material.Concrete, 0, 0, wide, high-2))
	case question.Timber:
		d.Areas = append(d.Areas, cut(material.Deck, 0, high-7, wide, high-2))
		const joists, thick = 3, 9
		for i := range joists {
			x := wide*(float64(i)+0.5)/joists - thick/2
			d.Areas = append(d.Areas, cut(material.Timber, x, 0, x+thick, high-7))
		}
	default:
		return container.NewGridWrap(fyne.NewSize(w, h), container.NewCenter(mark(theme.Mark{Kind: theme.VialUnknown}, min(w, 44))))
	}
	return sketch{drawing: d, high: plan.Point{wide, high}, ground: theme.Sheet}.object(w, h)
}

// shower asks where it goes and how large it is.
func (s *Sheet) shower() fyne.CanvasObject {
	long := s.length(question.ShowerLong, 88, theme.Word("start.long"))
	deep := s.length(question.ShowerDeep, 88, theme.Word("start.deep"))
	from := s.length(question.ShowerFrom, 88, theme.Word("start.along-wall"))
	where := line("", theme.TextSecond, theme.Ink)
	var corners []*choice
	row := container.New(&flowing{gap: theme.BetweenTwo})
	for i := range question.MostWalls {
		c := wordChoice(s.o.Keys, "", func() { s.pressCorner(i) })
		corners = append(corners, c)
		row.Add(c)
	}
	among(corners)
	s.follow = append(s.follow, func() {
		st := s.practice.Stand(s.shown)
		n := len(s.practice.Outline(s.shown))
		where.Text = theme.Word("start.at-wall", message.Name("wall", question.Letter(st.Wall)))
		if st.Corner >= 0 {
			where.Text = theme.Word("start.in-corner", message.AtCorner("corner", question.Corner(st.Corner, n)))
		}
		where.Refresh()
		from.object.Hide()
		if s.shown.Shower.Stands == question.AtWall {
			from.object.Show()
		}
		for i, c := range corners {
			c.Hidden = i >= n || !s.practice.TakesShower(s.shown, i)
			if !c.Hidden {
				c.says = question.Corner(i, n).String()
				c.chosen, c.assumed = st.Corner == i && s.shown.Shower.Stands == question.InCorner, st.Corner == i
				c.word.SetText(c.says)
				c.Refresh()
			}
		}
		row.Refresh()
	})
	h := s.heading("5", theme.Word("start.shower"), theme.Word("start.shower-hint"), func() bool { return s.shown.Shower != question.Shower{} })
	return s.question(h, container.NewHBox(long.object, deep.object, container.NewCenter(where)), row, from.object)
}
