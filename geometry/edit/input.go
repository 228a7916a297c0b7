package edit

import (
	"strconv"
	"strings"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/part"
)

// Outside is what an edit of an input may need beside the job: the parts to choose from, and what
// was worked out of the job so far.
type Outside struct {
	Shelf part.Shelf
	// BaseMM is the thickness of the base, ExitMM the level of the pipe's invert where it leaves.
	BaseMM, ExitMM float64
}

// Choose takes one of the values of an input that has a few, with what goes along.
func Choose(in job.Input, value string, o Outside) Edit {
	switch in.Key {
	case "floor.kind":
		return FloorKind(job.FloorKind(value))
	case supportKey:
		return Support(job.SupportKind(value))
	case "base.height":
		return Height(job.HeightMode(value), o.BaseMM)
	case "former.fall":
		return FallWithDrain(job.FallKind(value), o.Shelf)
	case "waste.exit.kind":
		return ExitKind(job.ExitKind(value))
	case "waste.exit.level":
		return ExitLevelKind(job.ExitLevelKind(value), o.ExitMM)
	case job.ExitStackKey:
		if i, err := strconv.Atoi(value); err == nil {
			return ExitStack(i)
		}
	case job.OutletKey:
		if deg, err := strconv.ParseFloat(value, 64); err == nil {
			return TurnOutlet(deg)
		}
	case job.PipeSizeKey:
		return pipeSize(value)
	}
	if in.Choice.Parts != nil {
		return choosePart(in, value, o.Shelf)
	}
	return States(Of(in.Message(), func(j *job.Job) { in.Choice.Set(j, value) }), in.Key)
}

// pipeSize chooses a size of the system of pipe that is chosen; none of its sizes lets go of it.
func pipeSize(value string) Edit {
	return Of(message.Of("edit.pipe"), func(j *job.Job) {
		if j.Parts.Pipe == nil {
			return
		}
		for _, z := range j.Parts.Pipe.Sizes {
			if job.SizeValue(z.NominalMM) == value {
				UsePipe(*j.Parts.Pipe, z.NominalMM).apply(j)
				return
			}
		}
		ForgetPipe().apply(j)
	})
}

// choosePart chooses the part of an id among those of an input; without one it lets go of the
// part there is.
func choosePart(in job.Input, id string, shelf part.Shelf) Edit {
	use, forget := useAt(in.Key)
	of := func(j *job.Job) Edit {
		for _, p := range in.Choice.Parts(j, &shelf) {
			if p.Of().ID == id {
				return use(p)
			}
		}
		return forget
	}
	return Edit{
		What:  in.Message(),
		apply: func(j *job.Job) { of(j).apply(j) },
		made:  func(before, after job.Job) message.Message { return of(&before).Made(before, after) },
	}
}

// useAt are the edits that choose a part for an input, and that let go of it.
func useAt(key string) (use func(part.Part) Edit, forget Edit) {
	switch key {
	case "parts.pipe":
		return UsePart, ForgetPipe()
	case "parts.drain":
		return UsePart, ForgetDrain()
	case "parts.boards":
		return UsePart, ForgetBoards()
	case "parts.former":
		return UsePart, ForgetFormer()
	case "floor.joists.timber":
		return UsePart, UseTimber(nil)
	}
	_, at, _ := strings.Cut(key, ".")
	where, what, _ := strings.Cut(at, ".")
	w := job.Where(where)
	use = func(p part.Part) Edit {
		switch p := p.(type) {
		case part.Tile:
			return UseTile(w, p)
		case part.Layer:
			return UseLayer(w, p)
		}
		return UsePart(p)
	}
	switch what {
	case "tile":
		return use, ForgetTile(w)
	case "bed":
		return use, ForgetLayer(w, part.ForBed)
	}
	return use, ForgetLayer(w, part.ForTanking)
}

// Perhaps sets a length that may be absent; nil takes it away.
func Perhaps(in job.Input, value *float64) Edit {
	key := in.Key
	if key == job.ExitInvertKey {
		key = exitLevelKey
	}
	return States(Of(in.Message(), func(j *job.Job) { in.Maybe.Set(j, value) }), key)
}

// Flag says whether something is so.
func Flag(in job.Input, on bool) Edit {
	return States(Of(in.Message(), func(j *job.Job) { *in.Flag(j) = on }), in.Key)
}

// AtWall puts something at another wall of the room.
func AtWall(in job.Input, wall int) Edit {
	if in.Key == exitWallKey {
		return exitWall(in, wall)
	}
	return States(Of(in.Message(), func(j *job.Job) { *in.Wall(j) = wall }), in.Key)
}

// Numbers sets a list of numbers.
func Numbers(in job.Input, v []float64) Edit {
	return States(Of(in.Message(), func(j *job.Job) { in.Numbers.Set(j, v) }), in.Key)
}
