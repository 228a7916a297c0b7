package trial

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/guard"
	"underfall/app/paint"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/settle"
	"underfall/geometry/unit"
)

// view is what is shown of a trial: the band, before and after beside each other, and what there is to say.
type view struct {
	room    *Room
	painter *paint.Painter
	worker  *guard.Latest
	band    *band
	panes   [2]*pane
	column  *column
	object  *fyne.Container
	held    bool    // the job before is shown in the place of the one after
	made    int     // counts what was asked to be painted
	came    bool    // what is tried has not been painted yet
	high    float32 // of the heads, as they were last laid out
	// painted are both sides' plan and section, as they were last painted.
	painted [2][2]painted
}

// pane shows one side: how it stands, its plan and the section that shows it.
type pane struct {
	card           *control.Card
	ground         *control.Card // of the head
	vial           *control.Vial
	headline, line *control.Text
	caption        *control.Text // of the section
	fault          *control.Text // why there is no section
	plan, section  *sheet
	inside         *fyne.Container
	object         fyne.CanvasObject
}

func newView(r *Room, painter *paint.Painter) *view {
	v := &view{room: r, painter: painter, worker: r.guard.NewLatest(Part), band: newBand(r)}
	for i := range v.panes {
		v.panes[i] = v.newPane()
	}
	v.column = newColumn(r)
	v.object = container.New(arranged{v}, v.band, v.panes[before].object, v.panes[after].object, v.column.object)
	return v
}

// Object is what is shown of the room.
func (v *view) Object() fyne.CanvasObject { return v.object }

// First is what has the keys when a trial begins.
func (v *view) First() fyne.Focusable { return v.band }

func (v *view) newPane() *pane {
	p := &pane{vial: control.NewVial(control.VialCard),
		headline: control.NewWrapped("").Styled(theme.TextHeading, true, theme.Ink), line: control.NewWrapped("").Styled(theme.TextCaption, false, theme.Ink),
		caption: control.NewWrapped("").Styled(theme.TextSecond, true, theme.Ink), fault: control.NewWrapped("").Styled(theme.TextSecond, false, theme.Caption)}
	p.plan, p.section = newSheet(v.room.theme, v.repaint), newSheet(v.room.theme, v.repaint)
	head := container.NewBorder(nil, nil, container.NewCenter(container.New(padded{}, p.vial)), nil, container.New(control.Column{Gap: 2}, p.headline, p.line))
	p.ground = control.NewCard(head)
	p.ground.Pad = theme.Space2
	p.inside = container.New(upright{v}, p.ground, p.plan, p.caption, container.NewStack(p.section, p.fault))
	p.card = control.NewCard(p.inside)
	p.card.Pad = theme.FocusWidth
	p.object = p.card
	return p
}

// upright lays out a pane: its head, the plan, the section's caption and the section. What stands over the drawings is
// as high in both panes, so that before and after lie level.
type upright struct{ of *view }

// head is how high the heads of both are in a width.
func (u upright) head(width float32) (high float32) {
	for _, p := range u.of.panes {
		if p == nil {
			continue // while the panes are made
		}
		p.ground.Resize(fyne.NewSize(width, p.ground.MinSize().Height))
		high = max(high, p.ground.MinSize().Height)
	}
	if u.of.held { // the drawings stay where they are
		high = max(high, u.of.high)
	}
	u.of.high = high
	for _, p := range u.of.panes {
		if p != nil {
			p.ground.Resize(fyne.NewSize(width, high))
		}
	}
	return high
}

// planShare is how much of the drawings' height the plan takes.
const planShare = 0.55

// MinSize is that of the head with a little for the drawings.
func (upright) MinSize(o []fyne.CanvasObject) fyne.Size {
	s := o[0].MinSize()
	for _, more := range o[1:] {
		m := more.MinSize()
		s = fyne.NewSize(max(s.Width, m.Width), s.Height+m.Height)
	}
	return s
}

// Layout places them.
func (u upright) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const side = 10 // before the caption
	head := u.head(s.Width)
	o[0].Resize(fyne.NewSize(s.Width, head))
	o[2].Resize(fyne.NewSize(s.Width-2*side, o[2].MinSize().Height))
	caption := o[2].MinSize().Height
	left := max(0, s.Height-head-caption)
	plan := left * planShare
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	put(o[1], 1, head, s.Width-2, plan)
	put(o[2], side, head+plan, s.Width-2*side, caption)
	put(o[3], 1, head+plan+caption, s.Width-2, max(0, left-plan-2))
}

// arranged lays the room out: the band on top, before and after beside each other, what there is to say at the right;
// in a narrow window only one of the two.
type arranged struct{ of *view }

// Widths, in Fyne's units.
const (
	bothFrom    = 1180 - 2*edge // of the room from which on before and after stand beside each other
	edge        = 12            // to the window's edge, which the room does not have
	columnWide  = 340
	columnSmall = 300
	columnWider = 420
	widerFrom   = 1600 - 2*edge
)

// MinSize is small.
func (arranged) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }

// Layout places them.
func (a arranged) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const gap = theme.Space2
	o[0].Resize(fyne.NewSize(s.Width, o[0].MinSize().Height))
	top := o[0].MinSize().Height
	o[0].Resize(fyne.NewSize(s.Width, top))
	o[0].Move(fyne.Position{})
	y, high := top+gap, max(0, s.Height-top-gap)
	column := float32(columnWide)
	switch {
	case s.Width < bothFrom:
		column = columnSmall
	case s.Width >= widerFrom:
		column = columnWider
	}
	rest := s.Width - column - gap
	wide, both := rest, s.Width >= bothFrom
	if both {
		wide = (rest - gap) / 2
	}
	o[1].Move(fyne.NewPos(0, y))
	if o[1].Resize(fyne.NewSize(wide, high)); both != o[1].Visible() {
		if both {
			o[1].Show()
		} else {
			o[1].Hide()
		}
	}
	o[2].Move(fyne.NewPos(rest-wide, y))
	o[2].Resize(fyne.NewSize(wide, high))
	o[3].Move(fyne.NewPos(rest+gap, y))
	o[3].Resize(fyne.NewSize(column, high))
}

// began shows a trial as it comes, first from none.
func (v *view) began(first bool) {
	v.came = true
	if first {
		v.painted = [2][2]painted{}
		v.column.scroll.ScrollToTop()
	}
	v.column.began()
	v.fill()
	v.repaint()
}

// Hold shows the job before in the place of the one after, or no longer.
func (v *view) Hold(on bool) {
	on = on && v.room.shown
	if v.held == on {
		return
	}
	v.held = on
	v.fillPane(after)
	v.level()
	v.showPainted(false)
}

// fill writes all that is said.
func (v *view) fill() {
	r := v.room
	if !r.shown {
		return
	}
	if r.asks.Shown != nil {
		s := &r.sides[after]
		r.asks.Shown(s.result, s.answer(), settle.Stations(&r.tried.Before, &r.tried.Job))
	}
	u := v.units()
	note := theme.Word("trial.nothing-changed")
	for _, m := range r.tried.Moved {
		note += " " + theme.Say(m.What, u)
	}
	v.band.say(theme.Bare(r.trial.way().Does, u), note+" "+theme.Word("trial.hold"))
	v.fillPane(before)
	v.fillPane(after)
	v.level()
	v.column.fill()
	v.object.Refresh()
}

// level lays both panes out anew: what stands over their drawings is as high in both.
func (v *view) level() {
	for _, p := range v.panes {
		p.inside.Refresh()
	}
}

func (v *view) units() unit.System { return v.room.sides[after].result.Settled.Units }

// fillPane writes what stands over a pane's drawings.
func (v *view) fillPane(at int) {
	if !v.room.shown {
		return
	}
	p, of, u := v.panes[at], at, v.units()
	if v.held {
		of = before
	}
	s := &v.room.sides[of]
	a := s.answer()
	mark, ground := theme.OfStanding(a.Standing)
	p.card.Edge, p.card.EdgeWidth = mark, theme.FocusWidth
	p.ground.Fill, p.ground.Edge = ground, ground
	p.ground.Refresh()
	p.vial.Set(a.Standing, theme.Word(a.Standing.Name()))
	id := message.ID("trial.before")
	if of == after {
		id = "trial.after"
	}
	p.headline.SetText(theme.Say(message.Of(id, message.In("headline", a.Headline())), u))
	p.line.SetText(theme.Bare(lineOf(a, v.room.trial.way().Ends), u))
	home := &v.room.sides[v.room.home]
	says := home.cut.Says(home.result)
	if home.cut.Of == section.CutPoints {
		says = says.With(message.In("cut", message.Of("trial.across-joists")))
	}
	p.caption.SetText(theme.Sentence(says, u))
	p.card.Refresh()
}

// lineOf is the one line under a headline: what has become of the finding that is to be ended, else what makes the
// headline so, else in how many builds it comes right.
func lineOf(a geometry.Answer, ends rule.Finding) message.Message {
	fact := func(f rule.Finding) message.Message {
		return message.Of("finding.fact", message.In("heading", f.Rule.Heading()), message.In("fact", f.Message()))
	}
	if ends.Rule.ID != "" {
		for _, c := range a.Cards {
			for _, p := range c.Places {
				if p.Key() == ends.Key() {
					return fact(p.Finding)
				}
			}
		}
		heading := message.In("heading", ends.Rule.Heading())
		if first, ok := a.First(); ok {
			return message.Of("trial.no-longer-but", heading, message.In("still", first.Worst().Rule.Heading()))
		}
		return message.Of("trial.no-longer", heading)
	}
	if first, ok := a.First(); ok {
		return fact(first.Worst().Finding)
	}
	return a.ChanceLine()
}

// repaint paints both sides anew.
func (v *view) repaint() {
	r := v.room
	p := v.panes[after]
	size := [2]fyne.Size{p.plan.Size(), p.section.Size()}
	if !r.shown || size[0].Width < 2 || size[0].Height < 2 {
		return
	}
	scale := 1.0
	if c := fyne.CurrentApp().Driver().CanvasForObject(p.plan); c != nil {
		scale = float64(c.Scale())
	}
	v.made++
	made, sides, home, ends := v.made, r.sides, r.home, r.trial.way().Ends
	style, inks := r.theme.PaintStyle(scale, v.units(), ""), inksOf(r.theme)
	v.worker.Run(func() {
		var out [2][2]painted
		var faults [2]error
		var sections [2]drawn
		was := sides[before].result
		hit := [2][]rule.Finding{hits(was, ends, nil), hits(sides[after].result, ends, was.Findings)}
		var ended [2]*rule.Finding
		if placed(ends) && !ends.Among(sides[after].result.Findings) {
			ended[after] = &ends
		}
		old := [2][]plan.Point{after: was.Heights.Run.Corners}
		for i := range sides {
			s := &sides[i].result
			out[i][0] = paintOn(v.painter, planOf(*s, hit[i], ended[i], old[i]), size[0], style, inks)
			sections[i], faults[i] = sectionOf(*s, sides[i].cut, hit[i], ended[i])
		}
		sections[home].lookAt(sides[home].result, sides[home].cut, hit[before])
		if faults == [2]error{} {
			asOne(&sections[home], &sections[1-home])
		}
		for i := range sections {
			out[i][1] = paintOn(v.painter, sections[i], size[1], style, inks)
		}
		r.asks.OnWindow(func() {
			if v.made != made || !r.shown {
				return
			}
			if v.painted[after][0].image == nil { // what was there before is what there is to come from
				v.painted[after] = out[before]
				v.showPainted(false)
			}
			v.painted = out
			v.showPainted(v.came)
			v.came = false
			for i, p := range v.panes {
				p.fault.SetText("")
				if faults[i] != nil {
					p.fault.SetText(theme.Say(message.OfError(faults[i]), v.units()))
				}
			}
		})
	})
}

// showPainted shows what was painted.
func (v *view) showPainted(fading bool) {
	for at, p := range v.panes {
		of := at
		if v.held {
			of = before
		}
		p.plan.show(v.painted[of][0], fading && at == after)
		p.section.show(v.painted[of][1], fading && at == after)
	}
	canvas.Refresh(v.object)
}

// price says what another way would come to.
func (v *view) price(way int, said message.Message) { v.column.price(way, theme.Bare(said, v.units())) }
