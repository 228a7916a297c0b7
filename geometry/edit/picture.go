package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
)

// Light lights the picture otherwise.
func Light(to job.Light) Edit {
	return pictured("edit.light", func(p job.Picture) job.Picture { p.Light = to; return p })
}

// Wet has the picture's floor shown as if it had just been used, or dry.
func Wet(to bool) Edit {
	return pictured("edit.wet", func(p job.Picture) job.Picture { p.Wet = to; return p })
}

// Thing has a thing of the room otherwise.
func Thing(to job.Thing) Edit {
	return pictured("edit.thing", func(p job.Picture) job.Picture { return p.With(to) })
}

// ThingsBack has all things of the room as rules place them.
func ThingsBack() Edit {
	return pictured("edit.thing", func(p job.Picture) job.Picture { p.Things = nil; return p })
}

// pictured changes how the room is shown; a picture as is usual is none of its own.
func pictured(what message.ID, change func(job.Picture) job.Picture) Edit {
	return Of(message.Of(what), func(j *job.Job) {
		p := change(j.Shown())
		if j.Picture = nil; len(p.Things) > 0 || p.Wet || p.Light != job.UsualPicture().Light {
			j.Picture = &p
		}
	}).About("picture")
}

// Glass gives the shower glass of a kind, in the usual place where it has none; none for the empty kind.
func Glass(kind job.ScreenKind) Edit {
	return Of(message.Of("edit.glass"), func(j *job.Job) { j.Glaze(kind) }).About("shower.screens")
}
