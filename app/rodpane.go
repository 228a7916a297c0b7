package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/sight"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/unit"
)

// rodPane shows the build-ups at drain, way in, room, doorway and a point to one scale, with the steps
// between them.
type rodPane struct {
	head  fyne.CanvasObject // what it is, and what heights are counted from
	rods  *control.Rods
	sight *sight.Sight
	// from chooses what heights are counted from, of what the job knows.
	from   *control.Select
	datums []geometry.DatumOf
	result geometry.Result
	// layers are those that are shown, by their parts.
	layers map[string]geometry.RodLayer
}

// newRodPane makes it; chosen is told which layer was pressed.
func newRodPane(keys *control.Keys, s *sight.Sight, chosen func(geometry.RodLayer)) *rodPane {
	p := &rodPane{sight: s, layers: map[string]geometry.RodLayer{}}
	p.rods = control.NewRods(keys, theme.Word("app.rods"), func(_, part string) { chosen(p.layers[part]) })
	p.from = control.NewSelect(keys, []string{theme.Word(geometry.OverStructure.Name())}, func(string) {
		if i := p.from.SelectedIndex(); i >= 0 && i < len(p.datums) && p.datums[i] != s.Datum {
			s.Change(func(s *sight.State) { s.Datum = p.datums[i] })
		}
	})
	name := control.NewText(theme.Word("app.rods")).Styled(theme.TextBody, true, theme.Ink)
	p.head = container.New(named{theme.Space1}, name, p.from)
	return p
}

// named is a layout of a name with a choice behind it, which is told without the name where there is no room for both
// in whole; gap is between them.
type named struct{ gap float32 }

// MinSize is without the name.
func (named) MinSize(o []fyne.CanvasObject) fyne.Size { return o[1].MinSize() }

// Layout places them.
func (n named) Layout(o []fyne.CanvasObject, s fyne.Size) {
	name, choice := o[0].MinSize(), o[1].(*control.Select)
	from := name.Width + n.gap
	o[0].Show()
	if from+choice.Whole() > s.Width {
		from = 0
		o[0].Hide()
	}
	o[0].Resize(name)
	o[0].Move(fyne.NewPos(0, (s.Height-name.Height)/2))
	choice.Resize(fyne.NewSize(min(choice.Whole(), s.Width-from), s.Height))
	choice.Move(fyne.NewPos(from, 0))
}

// showDatum has the chooser offer what heights of the result can be counted from, and show what they are.
func (p *rodPane) showDatum() {
	p.datums = nil
	var names []string
	for _, d := range p.result.Datums() {
		if !slices.Contains(p.datums, d.Of) {
			p.datums, names = append(p.datums, d.Of), append(names, theme.Word(p.result.NameOf(d.Of)))
		}
	}
	if len(names) > 0 {
		p.from.Options = names
		showChosen(&p.from.Select, max(0, slices.Index(p.datums, p.result.Counted(p.sight.Datum).Of)))
	}
}

// level is a level as it is read from what heights are counted from.
func (p *rodPane) level(levelMM float64) string {
	read, err := p.result.Read(p.result.Counted(p.sight.Datum), levelMM)
	if err != nil {
		read = message.OfError(err)
	}
	return theme.Bare(read, p.result.Settled.Units)
}

// show brings the rods to a result.
func (p *rodPane) show(r geometry.Result) {
	p.result = r
	p.follow()
}

// follow brings the rods to what is looked at.
func (p *rodPane) follow() {
	if len(p.result.Layout.Walls) == 0 {
		return
	}
	p.showDatum()
	all, steps := p.result.Rods()
	if s := p.sight; s.HasRod {
		// The point may have come to lie outside the room.
		if rod, err := p.result.RodAt(s.RodAt); err == nil {
			all = append(all, rod)
		}
	}
	clear(p.layers)
	every := make([]int, len(all))
	for i := range every {
		every[i] = i
	}
	main := p.mainStep(all, steps)
	p.rods.Set(p.set(all, every, steps), p.set(all, told(all, main, true), main), p.set(all, told(all, main, false), main))
	p.rods.Choose(p.sight.Chosen)
}

// set is what is shown of some of the rods, by their indexes, and the steps between them; of several steps not
// those that are none.
func (p *rodPane) set(all []geometry.Rod, shown []int, steps []geometry.RodStep) (out control.RodSet) {
	u := p.result.Settled.Units
	for _, i := range shown {
		rod := &all[i]
		if rod.Of == geometry.RodWayIn {
			out.Worded = len(out.Rods)
		}
		c := control.Rod{ID: string(rod.Of), Name: theme.Word(rod.Name()), Level: p.level(rod.LevelMM), FromMM: rod.LevelMM}
		if len(rod.Layers) > 0 {
			c.FromMM = rod.Layers[0].TopMM
		}
		for _, l := range p.result.LayersOf(*rod) {
			p.layers[l.Part] = l
			c.Layers = append(c.Layers, control.Layer{ID: l.Part, Name: theme.Bare(l.Text, u), MM: l.TopMM - l.BottomMM, Material: l.Material, Colour: l.Colour})
		}
		out.Rods = append(out.Rods, c)
	}
	for _, s := range steps {
		if s.Kind != geometry.Flush || len(steps) == 1 {
			out.Steps = append(out.Steps, between(s, slices.Index(shown, s.From), slices.Index(shown, s.To), u))
		}
	}
	return out
}

// mainStep is the one step that is drawn where there is no room for all: at the doorway while the section goes
// across one, else the first that is one at all; none without any.
func (p *rodPane) mainStep(all []geometry.Rod, steps []geometry.RodStep) (main []geometry.RodStep) {
	s := p.sight
	atDoor := !s.Corner && (s.Cutting.Of == section.CutDoor || s.Cutting.Of == section.CutStep && s.Cutting.Step.Of == rule.Doorway)
	for _, s := range steps {
		if len(main) == 0 || main[0].Kind == geometry.Flush || atDoor && s.Where.Of == rule.Doorway {
			main = []geometry.RodStep{s}
		}
	}
	return main
}

// told are the rods that are shown where there is no room for all, by their indexes: the way in, a point, the
// floors that a step parts, and the drain or not.
func told(all []geometry.Rod, main []geometry.RodStep, drain bool) (shown []int) {
	for i := range all {
		of := all[i].Of
		if of == geometry.RodDrain && drain || of == geometry.RodWayIn || of == geometry.RodPoint || len(main) > 0 && (i == main[0].From || i == main[0].To) {
			shown = append(shown, i)
		}
	}
	return shown
}

// between is a step as it is drawn between two of the rods shown.
func between(s geometry.RodStep, from, to int, u unit.System) control.Between {
	b := control.Between{High: to, Low: from, Kind: theme.Step, Word: theme.Word("rod.step"),
		Figure: theme.Bare(message.Of("figure.mm", s.High("mm")), u)}
	if s.MM < 0 {
		b.High, b.Low = from, to
	}
	switch s.Kind {
	case geometry.Lip:
		b.Kind, b.Word = theme.Lip, theme.Word("rod.lip")
	case geometry.Flush:
		b.Kind, b.Word, b.Figure = theme.Flush, theme.Word("figure.flush"), ""
	}
	return b
}

// chooseLayer has a layer that was pressed at a rod lit everywhere, or no more where it is, and opens its field;
// a level cut that is shown goes through it.
func (w *mainWindow) chooseLayer(l geometry.RodLayer) {
	w.sight.Change(func(s *sight.State) {
		if s.Chosen == l.Part {
			s.Chosen = ""
		} else {
			s.Chosen = l.Part
		}
	})
	w.tellChosen()
	if w.drawings.showsLevel() {
		middle := section.Cutting{Of: section.CutLevel, LevelMM: (l.BottomMM + l.TopMM) / 2}
		w.sight.Change(func(s *sight.State) { s.Level = middle })
	}
	if w.sight.Chosen != "" {
		w.toField(l.Key)
	}
}

// standRod has a rod stand at a point that was pressed, or no more, or says in words that stay why none can.
func (w *mainWindow) standRod(at plan.Point, reachMM float64) {
	w.setPressing(sight.PressingNothing)
	w.frame.bring(regionRods)
	if err := w.sight.StandRod(w.change.Result, at, reachMM); err != nil {
		w.refuse(theme.Say(message.OfError(err), w.change.Result.Settled.Units))
	}
}
