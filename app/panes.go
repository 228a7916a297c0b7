package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"underfall/app/control"
	"underfall/app/drawing"
	"underfall/app/theme"
	"underfall/app/words"
	"underfall/geometry/message"
	"underfall/geometry/section"
)

// panes are the drawings' places in the window and which drawing each shows.
type panes struct {
	frame *frame
	keys  *control.Keys
	// shown are the drawings in the order that a key goes through them.
	shown       []paneDrawing
	at          int // the one last asked for
	plan, below *pane
	atLevel     func(section.CuttingOf) // has a level cut go through something
	// changed is told that another drawing is shown at a place.
	changed func()
}

// pane is a place of drawings.
type pane struct {
	holder *fyne.Container // of the drawing
	ground *control.Card   // its edge shows that keys go to the drawing
	choice *control.Select // of the drawings that it may show
	head   *fyne.Container // which the choice stands in
	told   string          // what the head was laid out for
}

// paneDrawing is a drawing, its place and what it is called.
type paneDrawing struct {
	view *drawing.View
	at   region
	name message.ID
	// level is what the drawing is cut through, of the one of all that is at a level.
	level section.CuttingOf
}

func newPanes(v *views, f *frame, keys *control.Keys, atLevel func(section.CuttingOf)) *panes {
	p := &panes{frame: f, keys: keys, atLevel: atLevel, changed: func() {}, shown: []paneDrawing{
		{view: v.section, at: regionSection, name: "app.section"}, {view: v.plan, at: regionPlan, name: "app.plan"},
		{view: v.long, at: regionSection, name: "app.along-the-waste"},
		{view: v.bed, at: regionPlan, name: "app.bed"}, {view: v.boards, at: regionPlan, name: "app.boards"}}}
	for _, of := range append(section.LevelCuts(), section.CutLevel) {
		p.shown = append(p.shown, paneDrawing{v.level, regionPlan, of.Name(), of})
	}
	p.plan, p.below = p.pane(regionPlan), p.pane(regionSection)
	for _, d := range p.shown {
		d.view.Focused = func(on bool) { showFocus(p.in(d.at).ground, on) }
	}
	p.SelectIndex(1)
	p.SelectIndex(0)
	return p
}

// pane makes a place, with the choice of what it shows.
func (p *panes) pane(at region) *pane {
	var names []string
	var index []int
	for i, d := range p.shown {
		if d.at == at {
			names, index = append(names, words.Capital(theme.Word(d.name))), append(index, i)
		}
	}
	s := control.NewSelect(p.keys, names, nil)
	s.OnChanged = func(string) { p.SelectIndex(index[s.SelectedIndex()]) }
	return &pane{holder: container.NewStack(), ground: newGround(), choice: s}
}

// in is the place in a region.
func (p *panes) in(at region) *pane {
	if at == regionPlan {
		return p.plan
	}
	return p.below
}

// SelectIndex shows a drawing at its place.
func (p *panes) SelectIndex(i int) {
	d := p.shown[i]
	p.at = i
	p.frame.bring(d.at)
	in := p.in(d.at)
	in.tell(d)
	if d.level != "" {
		p.atLevel(d.level)
	}
	h := in.holder
	if len(h.Objects) == 1 && h.Objects[0] == d.view {
		return
	}
	h.Objects = []fyne.CanvasObject{d.view}
	h.Refresh()
	p.tellSeen(d.at)
	d.view.Redraw()
	p.changed()
}

// shows tells whether a drawing is the one at its place.
func (p *panes) shows(v *drawing.View) bool {
	return slices.ContainsFunc(p.shown, func(d paneDrawing) bool {
		return d.view == v && slices.Contains(p.in(d.at).holder.Objects, fyne.CanvasObject(v))
	})
}

// tellSeen tells the drawings of a region which of them is seen.
func (p *panes) tellSeen(r region) {
	holder := p.in(r).holder
	for _, d := range p.shown {
		if d.at == r {
			d.view.Away(p.frame.unseen[r] || !slices.Contains(holder.Objects, fyne.CanvasObject(d.view)))
		}
	}
}

// tell has the choice of a place say which drawing it shows.
func (in *pane) tell(d paneDrawing) {
	name := words.Capital(theme.Word(d.name))
	if in.choice.Selected != name {
		in.choice.Selected = name
		in.choice.Refresh()
	}
	// Chosen by hand the choice says so already, in the room it had for what it said before.
	if in.told != name && in.head != nil {
		in.told = name
		in.head.Refresh()
	}
}

// tellLevel has the choice say what a level cut goes through, where one is shown.
func (p *panes) tellLevel(of section.CuttingOf) {
	for i, d := range p.shown {
		if d.level == of && len(p.plan.holder.Objects) == 1 && p.plan.holder.Objects[0] == d.view {
			p.plan.tell(d)
			if p.shown[p.at].level != "" {
				p.at = i
			}
		}
	}
}

// showsLevel tells whether a level cut is shown.
func (p *panes) showsLevel() bool {
	return len(p.plan.holder.Objects) == 1 && p.plan.holder.Objects[0] == p.shown[len(p.shown)-1].view
}

// show shows a drawing at its place.
func (p *panes) show(v *drawing.View) {
	for i := range p.shown {
		if p.shown[i].view == v {
			p.SelectIndex(i)
		}
	}
}

// SelectedIndex is the drawing last asked for.
func (p *panes) SelectedIndex() int { return p.at }

// next shows the drawing after the one last asked for.
func (p *panes) next() { p.SelectIndex((p.at + 1) % len(p.shown)) }

// newGround is the card on which a place of drawings stands.
func newGround() *control.Card {
	g := control.NewCard(container.NewStack())
	g.Edge, g.Pad = theme.Edge, theme.Space1
	return g
}

// sheet puts a content on its ground.
func sheet(on *control.Card, content fyne.CanvasObject) fyne.CanvasObject {
	on.Content = content
	return on
}

// onDrawing is a head over a drawing and what stands under it, nil for nothing; the drawing covers the rest of the ground.
func onDrawing(ground *control.Card, head, drawing, foot fyne.CanvasObject) *fyne.Container {
	c := container.New(covering{layout.NewBorderLayout(head, foot, nil, nil), drawing, ground}, drawing, head)
	if foot != nil {
		c.Add(foot)
	}
	return c
}

// covering lays out what stands on a ground, and tells the ground what of it is covered.
type covering struct {
	border  fyne.Layout
	drawing fyne.CanvasObject
	ground  *control.Card
}

// MinSize is that of head and drawing.
func (c covering) MinSize(objects []fyne.CanvasObject) fyne.Size { return c.border.MinSize(objects) }

// Layout lays it out.
func (c covering) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	c.border.Layout(objects, size)
	c.ground.Covered(c.drawing.Position().Y, size.Height-c.drawing.Position().Y-c.drawing.Size().Height)
}

// showFocus shows on a ground's edge that keys go to what stands on it, or not.
func showFocus(g *control.Card, focused bool) {
	g.Edge, g.EdgeWidth = theme.Edge, theme.EdgeWidth
	if focused {
		g.Edge, g.EdgeWidth = theme.Press, theme.FocusWidth
	}
	g.Refresh()
}

// fillPanes puts the drawings and the picture into their regions.
func (w *mainWindow) fillPanes() {
	f, p := w.frame, w.drawings
	w.planHead = w.newPlanHead()
	p.plan.head = w.planHead.object
	w.waiting = control.NewWrapped(theme.Word("app.room-measured")).Styled(theme.TextCaption, false, theme.Caption)
	w.waiting.Hide()
	waits := container.New(layout.NewCustomPaddedLayout(0, 0, theme.Space2, theme.Space2), w.waiting) // below the word of the choice
	head := container.New(control.Column{}, w.planHead.object, waits)
	f.fill(regionPlan, sheet(p.plan.ground, onDrawing(p.plan.ground, head, container.NewStack(p.plan.holder, w.tag.layer), nil)))

	w.cutCheck = w.cutTool()
	w.looks = w.lookChoice()
	w.makeViewSettings()
	w.pictureHead = w.newPictureHead()
	w.viewHolder = container.NewStack(w.view)
	ground := newGround()
	f.fill(regionPicture, sheet(ground, onDrawing(ground, w.pictureHead.object, w.viewHolder, w.stageBar())))

	w.cuts = w.newCutPlaces()
	p.changed = w.guard.Wrap(partWindow, w.showCut)
	w.fit = control.NewPress(w.keys, theme.Word("app.fit"), w.guard.Wrap(partWindow, w.centreCut))
	w.fit.Key = "0"
	w.fit.Hint = func() string { return theme.Word("app.fit.hint") }
	toRods := w.leadsTo("app.rods", "app.to-rods.hint", regionRods)
	toRods.Bare, toRods.Small = true, true
	w.cuts.several.Between(p.below.choice, w.fit, w.cuts.turn, toRods)
	p.below.head = container.New(control.Chosen{Gap: theme.Space1}, p.below.choice, w.cuts.several, w.fit)
	// What is pressed is higher than the line that it stands in, and has no edge.
	const past = -5
	line := container.NewBorder(nil, nil, nil, toRods, container.New(control.Behind{Gap: theme.Space1}, w.cuts.says, w.cuts.turn))
	says := container.New(layout.NewCustomPaddedLayout(past, past, theme.Space2, 0), line)
	sectionHead := container.New(control.Column{Gap: theme.Space1}, p.below.head, says)
	drawn := onDrawing(p.below.ground, sectionHead, p.below.holder, nil)
	f.fill(regionSection, sheet(p.below.ground, container.NewStack(drawn, w.cuts.figure.layer)))

	toSection := w.leadsTo("app.section", "app.to-section.hint", regionSection)
	rodsHead := container.NewBorder(nil, nil, nil, toSection, w.rods.head)
	f.fill(regionRods, control.NewCard(container.NewBorder(rodsHead, nil, nil, nil, w.rods.rods)))

	// Where plan and picture, or section and rods, share one place, the head of each leads to the other.
	f.roomLeft = func() { w.showRoom(false) }
	f.showed = func(r region) {
		switch r {
		case regionPlan, regionSection:
			p.tellSeen(r)
		case regionPicture:
			w.tellPictureSeen()
		}
	}
	f.narrowed = func(upper, lower bool) {
		w.planHead.toPicture.Hidden, w.pictureHead.toPlan.Hidden = !upper, !upper
		toRods.Hidden, toSection.Hidden = !lower, !lower
		for _, head := range []fyne.CanvasObject{w.planHead.object, w.pictureHead.object, sectionHead, rodsHead} {
			head.Refresh()
		}
	}
}

// tellPictureSeen tells the 3D picture whether it is seen, here or in the showroom.
func (w *mainWindow) tellPictureSeen() {
	w.view.Away(w.showroom == nil && w.frame.unseen[regionPicture])
}

// leadsTo makes the press that shows a region in the place that it shares with another; it hides where they share none.
func (w *mainWindow) leadsTo(name, hint message.ID, r region) *control.Press {
	p := control.NewPress(w.keys, theme.Word(name), w.guard.Wrap(partWindow, func() { w.frame.bring(r) }))
	p.Hidden = true
	p.Hint = func() string { return theme.Word(hint) }
	return p
}
