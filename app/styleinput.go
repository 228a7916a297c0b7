package app

import (
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// tileColour is a colour with the id of its name.
type tileColour struct {
	hex  string
	name message.ID
}

// tileColours are the colours to choose tiles from, by plain names.
func tileColours() []tileColour {
	return []tileColour{
		{"#f1eee8", "colour.off-white"}, {"#e4ded4", "colour.cream"}, {"#d2c6b4", "colour.beige"}, {"#b7a996", "colour.grey-beige"}, {"#a07f66", "colour.light-brown"}, {"#8d9a8c", "colour.grey-green"},
		{"#5d7673", "colour.blue-green"}, {"#3f5c54", "colour.dark-green"}, {"#6d7f86", "colour.blue-grey"}, {"#40525f", "colour.dark-blue-grey"}, {"#77736d", "colour.grey"}, {"#3b3a3a", "colour.dark-grey"},
	}
}

// styleChoices are the fields for what the customer sees.
func (in *inputs) styleChoices() []row {
	var colours []option
	for _, c := range tileColours() {
		colours = append(colours, option{c.hex, message.Of(c.name)})
	}
	rows := []row{
		choiceOf(in, "field.metal", job.MetalKinds(), func(j job.Job) job.MetalKind { return j.Style.Metal },
			func(m job.MetalKind) edit.Edit {
				return edit.Of(message.Of("edit.metal"), func(j *job.Job) { j.Style.Metal = m })
			}, nil),
		choiceOf(in, "field.cover", job.CoverKinds(), func(j job.Job) job.CoverKind { return j.Style.Cover },
			func(c job.CoverKind) edit.Edit {
				return edit.Of(message.Of("edit.cover"), func(j *job.Job) { j.Style.Cover = c })
			}, nil),
	}
	for _, f := range []struct {
		at                           job.Where
		tile, tanking, bed           message.ID // of the fields
		colour, bond, surface, sheen message.ID
		finish                       func(*job.Job) *job.Finish
	}{
		{job.OnShower, "field.shower-tile", "field.shower-tanking", "field.shower-bed",
			"field.shower-colour", "field.shower-bond", "field.shower-surface", "field.shower-sheen", func(j *job.Job) *job.Finish { return &j.Layers.Shower }},
		{job.OnRoom, "field.room-tile", "field.room-tanking", "field.room-bed",
			"field.room-colour", "field.room-bond", "field.room-surface", "field.room-sheen", func(j *job.Job) *job.Finish { return &j.Layers.Room }},
		{job.OnWall, "field.wall-tile", "field.wall-tanking", "field.wall-bed",
			"field.wall-colour", "field.wall-bond", "field.wall-surface", "field.wall-sheen", func(j *job.Job) *job.Finish { return &j.Layers.Wall }},
	} {
		change := func(label message.ID, set func(*job.Finish)) edit.Edit {
			return edit.Of(message.Of(label), func(j *job.Job) { set(f.finish(j)) })
		}
		rows = append(rows,
			in.tileChoice(f.at, f.tile), in.layerChoice(f.at, part.ForTanking, f.tanking), in.layerChoice(f.at, part.ForBed, f.bed),
			newChoiceRow(choice{label: f.colour, options: always(colours), get: func(j job.Job) string { return f.finish(&j).Colour },
				set: func(v string) edit.Edit { return change(f.colour, func(f *job.Finish) { f.Colour = v }) }}, in.desk),
			choiceOf(in, f.bond, job.Bonds(), func(j job.Job) job.Bond { return f.finish(&j).Bond }, func(v job.Bond) edit.Edit { return change(f.bond, func(f *job.Finish) { f.Bond = v }) }, nil),
			choiceOf(in, f.surface, job.Surfaces(), func(j job.Job) job.Surface { return f.finish(&j).Surface }, func(v job.Surface) edit.Edit { return change(f.surface, func(f *job.Finish) { f.Surface = v }) }, nil),
			choiceOf(in, f.sheen, job.Sheens(), func(j job.Job) job.Sheen { return f.finish(&j).Sheen }, func(v job.Sheen) edit.Edit { return change(f.sheen, func(f *job.Finish) { f.Sheen = v }) }, nil))
	}
	return rows
}
