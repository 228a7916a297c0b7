package app

import (
	"underfall/geometry/edit"
	"underfall/geometry/job"
)

// tileColours are the colours to choose tiles from, with names of our own.
func tileColours() []struct{ hex, name string } {
	return []struct{ hex, name string }{
		{"#f1eee8", "Chalk"}, {"#e4ded4", "Oat"}, {"#d2c6b4", "Sand"}, {"#b7a996", "Clay"}, {"#a07f66", "Terracotta"}, {"#8d9a8c", "Lichen"},
		{"#5d7673", "Lagoon"}, {"#3f5c54", "Fir"}, {"#6d7f86", "Rain"}, {"#40525f", "Slate blue"}, {"#77736d", "Pebble"}, {"#3b3a3a", "Basalt"},
	}
}

// styleChoices are the fields for what the customer sees.
func (in *inputs) styleChoices() []row {
	var colours []option
	for _, c := range tileColours() {
		colours = append(colours, option{c.hex, c.name})
	}
	rows := []row{
		choiceOf(in, "Metal", job.MetalKinds(), func(j job.Job) job.MetalKind { return j.Style.Metal },
			func(m job.MetalKind) edit.Edit { return edit.Of("Metal", func(j *job.Job) { j.Style.Metal = m }) }, nil),
		choiceOf(in, "Drain cover", job.CoverKinds(), func(j job.Job) job.CoverKind { return j.Style.Cover },
			func(c job.CoverKind) edit.Edit { return edit.Of("Drain cover", func(j *job.Job) { j.Style.Cover = c }) }, nil),
		in.flag("Glass screen in the picture", "Glass screen", func(j *job.Job) *bool { return &j.Style.Screen }, nil),
	}
	for _, f := range []struct {
		label  string
		finish func(*job.Job) *job.Finish
	}{{"Shower", func(j *job.Job) *job.Finish { return &j.Layers.Shower }}, {"Room", func(j *job.Job) *job.Finish { return &j.Layers.Room }}, {"Wall", func(j *job.Job) *job.Finish { return &j.Layers.Wall }}} {
		change := func(label string, set func(*job.Finish)) edit.Edit {
			return edit.Of(label, func(j *job.Job) { set(f.finish(j)) })
		}
		colour, bond, surface, sheen := f.label+" colour", f.label+" bond", f.label+" surface", f.label+" sheen"
		rows = append(rows,
			newChoiceRow(choice{colour, colours, func(j job.Job) string { return f.finish(&j).Colour },
				func(v string) edit.Edit { return change(colour, func(f *job.Finish) { f.Colour = v }) }, nil}, in.desk),
			choiceOf(in, bond, job.Bonds(), func(j job.Job) job.Bond { return f.finish(&j).Bond }, func(v job.Bond) edit.Edit { return change(bond, func(f *job.Finish) { f.Bond = v }) }, nil),
			choiceOf(in, surface, job.Surfaces(), func(j job.Job) job.Surface { return f.finish(&j).Surface }, func(v job.Surface) edit.Edit { return change(surface, func(f *job.Finish) { f.Surface = v }) }, nil),
			choiceOf(in, sheen, job.Sheens(), func(j job.Job) job.Sheen { return f.finish(&j).Sheen }, func(v job.Sheen) edit.Edit { return change(sheen, func(f *job.Finish) { f.Sheen = v }) }, nil))
	}
	return rows
}
