package edit

import (
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// UsePipe chooses a size of a system of pipe, and the trap's outlet that goes with it.
func UsePipe(s part.PipeSystem, nominalMM float64) Edit {
	return Of(message.Of("edit.pipe"), func(j *job.Job) {
		j.UsePipe(s, nominalMM)
		if j.Parts.Drain != nil {
			j.UseOutlet(*j.Parts.Drain)
		}
	})
}

// UseDrain chooses the drain with its trap.
func UseDrain(d part.Drain) Edit {
	return Of(message.Of("edit.drain"), func(j *job.Job) { j.UseDrain(d) })
}

// UseBoards chooses what the base is made of.
func UseBoards(b part.Boards) Edit {
	return Of(message.Of("edit.boards"), func(j *job.Job) { j.UseBoards(b) })
}

// UseFormer chooses what carries the fall.
func UseFormer(f part.Former) Edit {
	return Of(message.Of("edit.former"), func(j *job.Job) { j.UseFormer(f) })
}

// UseTile chooses the tile of a place.
func UseTile(w job.Where, t part.Tile) Edit {
	return Of(message.Of("edit.tile"), func(j *job.Job) { j.UseTile(w, t) })
}

// UseLayer chooses the tanking or the tiles' bed of a place.
func UseLayer(w job.Where, l part.Layer) Edit {
	return Of(message.Of("edit.layer"), func(j *job.Job) { j.UseLayer(w, l) })
}

// UseTimber chooses the joists' strength class; nil for one that is not known.
func UseTimber(t *part.Timber) Edit {
	return Of(message.Of("edit.strength-class"), func(j *job.Job) { j.Floor.Joists.Timber = t })
}

// UsePart chooses a part wherever it belongs: the pipe in the size there is, a tile or a
// layer in the shower.
func UsePart(p part.Part) Edit {
	switch p := p.(type) {
	case part.PipeSystem:
		return Of(message.Of("edit.pipe"), func(j *job.Job) { *j = UsePipe(p, j.Waste.NominalMM).Apply(*j) })
	case part.Drain:
		return UseDrain(p)
	case part.Boards:
		return UseBoards(p)
	case part.Former:
		return UseFormer(p)
	case part.Tile:
		return UseTile(job.OnShower, p)
	case part.Layer:
		return UseLayer(job.OnShower, p)
	case part.Timber:
		return UseTimber(&p)
	}
	return Of(message.Of("edit.part"), func(*job.Job) {})
}
