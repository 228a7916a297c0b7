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

// UseDrain chooses the drain with its trap. A waste that goes straight out through a wall
// still does.
func UseDrain(d part.Drain) Edit {
	return Of(message.Of("edit.drain"), func(j *job.Job) {
		keepingStraight(j, func() { j.UseDrain(d) })
	}).About("drain", "parts.drain")
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
	return States(Of(message.Of("edit.strength-class"), func(j *job.Job) { j.Floor.Joists.Timber = t }), "floor.joists.timber")
}

// UsePart chooses a part wherever it belongs: the pipe in the size there is, a tile or a
// layer in the shower.
func UsePart(p part.Part) Edit {
	switch p := p.(type) {
	case part.PipeSystem:
		return Of(message.Of("edit.pipe"), func(j *job.Job) { UsePipe(p, j.Waste.NominalMM).apply(j) })
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

// asEntered is an edit that lets go of parts: the numbers they filled stay and are only
// what was entered.
func asEntered(what message.ID, forget func(*job.Parts)) Edit {
	return Of(message.Of("edit.as-entered", message.In("what", message.Of(what))), func(j *job.Job) { forget(&j.Parts) })
}

// ForgetPipe lets go of the system of pipe.
func ForgetPipe() Edit {
	return asEntered("edit.pipe-system", func(p *job.Parts) { p.Pipe = nil })
}

// ForgetDrain lets go of the drain with its trap.
func ForgetDrain() Edit {
	return asEntered("edit.drain", func(p *job.Parts) { p.Drain = nil })
}

// ForgetBoards lets go of what the base is made of.
func ForgetBoards() Edit {
	return asEntered("edit.boards", func(p *job.Parts) { p.Boards = nil })
}

// ForgetFormer lets go of what carries the fall.
func ForgetFormer() Edit {
	return asEntered("edit.former", func(p *job.Parts) { p.Former = nil })
}

// ForgetTile lets go of the tile of a place.
func ForgetTile(w job.Where) Edit {
	return asEntered("edit.tile", func(p *job.Parts) { p.Of(w).Tile = nil })
}

// ForgetLayer lets go of the tanking or the tiles' bed of a place.
func ForgetLayer(w job.Where, use part.LayerUse) Edit {
	return asEntered("edit.layer", func(p *job.Parts) { *p.Of(w).Layer(use) = nil })
}

// AsSold gives one number or list of the job back what its part has.
func AsSold(key string) Edit {
	return ofPlace("edit.as-sold", key, func(j *job.Job) { *j = j.WithAsSold(key) })
}
