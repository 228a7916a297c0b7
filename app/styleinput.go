package app

import (
	"slices"

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
		{"#f1eee8", "colour.off-white"}, {"#e4ded4", "colour.cream"}, {"#d2c6b4", "colour.beige"},
		{"#b7a996", "colour.grey-beige"}, {"#a07f66", "colour.light-brown"}, {"#8d9a8c", "colour.grey-green"},
		{"#5d7673", "colour.blue-green"}, {"#3f5c54", "colour.dark-green"}, {"#6d7f86", "colour.blue-grey"},
		{"#40525f", "colour.dark-blue-grey"}, {"#77736d", "colour.grey"}, {"#3b3a3a", "colour.dark-grey"},
	}
}

// styleChoices are the fields for what the customer sees.
func (in *inputs) styleChoices() []row {
	return slices.Concat(in.metalChoices(),
		in.finishChoices(finishFields{job.OnShower, func(j *job.Job) *job.Finish { return &j.Layers.Shower },
			"field.shower-tile", "field.shower-tanking", "field.shower-bed",
			"field.shower-colour", "field.shower-bond", "field.shower-surface", "field.shower-sheen"}),
		in.finishChoices(finishFields{job.OnRoom, func(j *job.Job) *job.Finish { return &j.Layers.Room },
			"field.room-tile", "field.room-tanking", "field.room-bed",
			"field.room-colour", "field.room-bond", "field.room-surface", "field.room-sheen"}),
		in.finishChoices(finishFields{job.OnWall, func(j *job.Job) *job.Finish { return &j.Layers.Wall },
			"field.wall-tile", "field.wall-tanking", "field.wall-bed",
			"field.wall-colour", "field.wall-bond", "field.wall-surface", "field.wall-sheen"}))
}

// metalChoices are the fields for the metal and the cover.
func (in *inputs) metalChoices() []row {
	return []row{
		choiceOf(in, "field.metal", job.MetalKinds(), func(j job.Job) job.MetalKind { return j.Style.Metal },
			func(m job.MetalKind) edit.Edit {
				return edit.Of(message.Of("edit.metal"), func(j *job.Job) { j.Style.Metal = m })
			}, nil),
		choiceOf(in, "field.cover", job.CoverKinds(), func(j job.Job) job.CoverKind { return j.Style.Cover },
			func(c job.CoverKind) edit.Edit {
				return edit.Of(message.Of("edit.cover"), func(j *job.Job) { j.Style.Cover = c })
			}, nil),
	}
}

// finishFields are the fields of one finish: where it is, and what they are called, which
// is what their edits are called too.
type finishFields struct {
	at                           job.Where
	finish                       func(*job.Job) *job.Finish
	tile, tanking, bed           message.ID
	colour, bond, surface, sheen message.ID
}

// finishChoices are the fields for the layers and the looks of a finish.
func (in *inputs) finishChoices(f finishFields) []row {
	var colours []option
	for _, c := range tileColours() {
		colours = append(colours, option{c.hex, message.Of(c.name)})
	}
	return []row{
		in.tileChoice(f.at, f.tile), in.layerChoice(f.at, part.ForTanking, f.tanking), in.layerChoice(f.at, part.ForBed, f.bed),
		newChoiceRow(choice{label: f.colour, options: always(colours),
			get: func(j job.Job) string { return f.finish(&j).Colour },
			set: func(v string) edit.Edit {
				return edit.Of(message.Of(f.colour), func(j *job.Job) { f.finish(j).Colour = v })
			}}, in.desk),
		finishChoice(in, f, f.bond, job.Bonds(), func(f *job.Finish) *job.Bond { return &f.Bond }),
		finishChoice(in, f, f.surface, job.Surfaces(), func(f *job.Finish) *job.Surface { return &f.Surface }),
		finishChoice(in, f, f.sheen, job.Sheens(), func(f *job.Finish) *job.Sheen { return &f.Sheen }),
	}
}

// finishChoice makes a field for a value of a finish.
func finishChoice[T ~string](in *inputs, f finishFields, label message.ID, e job.Enum[T], field func(*job.Finish) *T) row {
	return choiceOf(in, label, e, func(j job.Job) T { return *field(f.finish(&j)) }, func(v T) edit.Edit {
		return edit.Of(message.Of(label), func(j *job.Job) { *field(f.finish(j)) = v })
	}, nil)
}
