package app

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"underfall/app/control"
	"underfall/app/theme"
	"underfall/geometry"
	"underfall/geometry/message"
	"underfall/geometry/unit"
)

// rodPane shows the build-up at drain, way in and room to one scale, with the step.
type rodPane struct {
	rods *control.Rods
	// from chooses what heights are counted from, of is which was chosen.
	from   *control.Select
	of     geometry.DatumOf
	datums []geometry.Datum
	result geometry.Result
}

func newRodPane(keys *control.Keys, chosen func(rod, layer string)) *rodPane {
	p := &rodPane{rods: control.NewRods(keys, theme.Word("app.rods"), chosen), of: geometry.OverStructure}
	p.from = control.NewSelect(keys, []string{theme.Word(p.of.Name())}, func(string) {
		if i := p.from.SelectedIndex(); i >= 0 && i < len(p.datums) && p.datums[i].Of != p.of {
			p.of = p.datums[i].Of
			p.show(p.result)
		}
	})
	return p
}

func (p *rodPane) object() fyne.CanvasObject {
	head := control.NewText(theme.Word("app.rods")).Styled(theme.TextBody, true, theme.Ink)
	const wide = 184
	return control.NewCard(container.NewBorder(container.NewHBox(container.NewCenter(head), fitted(wide, p.from)), nil, nil, nil, p.rods))
}

// datum is what heights are counted from in the result: what was chosen, where that is known there. The
// chooser offers what is, of several laser lines that of the last set-up.
func (p *rodPane) datum() geometry.Datum {
	p.datums = nil
	for _, d := range p.result.Datums() {
		if n := len(p.datums); n > 0 && p.datums[n-1].Of == d.Of {
			p.datums = p.datums[:n-1]
		}
		p.datums = append(p.datums, d)
	}
	at := max(0, slices.IndexFunc(p.datums, func(d geometry.Datum) bool { return d.Of == p.of }))
	var names []string
	for _, d := range p.datums {
		names = append(names, theme.Word(d.Of.Name()))
	}
	if len(names) == 0 {
		return geometry.Datum{Of: geometry.OverStructure}
	}
	p.from.Options = names
	showChosen(&p.from.Select, at)
	return p.datums[at]
}

// level is a level as it is read from a datum.
func (p *rodPane) level(d geometry.Datum, levelMM float64) string {
	read, err := p.result.Read(d, levelMM)
	if err != nil {
		read = message.OfError(err)
	}
	return theme.Bare(read, p.result.Settled.Units)
}

// show brings the rods to a result.
func (p *rodPane) show(r geometry.Result) {
	p.result = r
	u, from := r.Settled.Units, p.datum()
	all, steps := r.Rods()
	shown, of := told(all, steps)
	worded := 0
	var out []control.Rod
	for _, i := range shown {
		rod := &all[i]
		if rod.Of == geometry.RodWayIn {
			worded = len(out)
		}
		c := control.Rod{ID: string(rod.Of), Name: theme.Word(rod.Of.Name()), Level: p.level(from, rod.LevelMM),
			FromMM: rod.LevelMM}
		if len(rod.Layers) > 0 {
			c.FromMM = rod.Layers[0].TopMM
		}
		for _, l := range r.LayersOf(*rod) {
			c.Layers = append(c.Layers, control.Layer{ID: l.Key, Name: theme.Bare(l.Text, u), MM: l.TopMM - l.BottomMM, Material: l.Material, Colour: l.Colour})
		}
		out = append(out, c)
	}
	var step *control.Between
	if of != nil {
		step = between(*of, slices.Index(shown, of.From), slices.Index(shown, of.To), u)
	}
	p.rods.Set(out, worded, step)
}

// told are the rods that are shown, by their indexes, and the step that is drawn: the first that is
// one at all, with the drain, the way in and the floors that it parts.
func told(all []geometry.Rod, steps []geometry.RodStep) (shown []int, step *geometry.RodStep) {
	for i := range steps {
		if step == nil || step.Kind == geometry.Flush {
			step = &steps[i]
		}
	}
	for i := range all {
		if all[i].Of == geometry.RodDrain || all[i].Of == geometry.RodWayIn || step != nil && (i == step.From || i == step.To) {
			shown = append(shown, i)
		}
	}
	return shown, step
}

// between is a step as it is drawn between two of the rods shown.
func between(s geometry.RodStep, from, to int, u unit.System) *control.Between {
	b := control.Between{High: to, Low: from, Kind: theme.Step, Word: theme.Word("rod.step"),
		Figure: theme.Bare(message.Of("figure.mm", message.MM("mm", math.Abs(s.MM))), u)}
	if s.MM < 0 {
		b.High, b.Low = from, to
	}
	switch s.Kind {
	case geometry.Lip:
		b.Kind, b.Word = theme.Lip, theme.Word("rod.lip")
	case geometry.Flush:
		b.Kind, b.Word, b.Figure = theme.Flush, theme.Word("figure.flush"), ""
	}
	return &b
}
