package edit

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// PutIn is something that can be put into a room, at a place where it has room.
type PutIn struct {
	Name message.ID // what it is
	// Thing is the path in the job's file of what is put in, once it is there.
	Thing string
	Edit  Edit
}

// PutsIn are what can be put into the room of a job, the openings first; what there are as many of as there may
// be is left out.
func PutsIn(j *job.Job) (out []PutIn) {
	list := func(name message.ID, key string, e func(l job.List) Edit) {
		if l, ok := job.FindList(key); ok && !l.Full(j) {
			out = append(out, PutIn{name, job.Nth(key, l.Count(j)), e(l)})
		}
	}
	list("put-in.doorway", job.DoorwaysKey, func(l job.List) Edit { return putOpening(l, freeDoor, putDoor) })
	list("put-in.window", job.WindowsKey, func(l job.List) Edit { return putOpening(l, freeWindow, putWindow) })
	list("put-in.stack", job.StacksKey, AddItem)
	list("put-in.pipe-end", job.PipeEndsKey, AddItem)
	for _, c := range job.FixtureKinds().Choices {
		list(c.Word(), job.FixturesKey, func(l job.List) Edit { return putFixture(l, c.Value) })
	}
	if len(j.Laser.SetUps) > 0 || len(j.StatedLevels()) == 0 {
		list("put-in.reading", job.ReadingsKey, AddItem)
	} else if in, ok := job.FindInput(job.SpotLevelsKey); ok && len(in.Table.Rows(j)) < in.Table.Most {
		out = append(out, PutIn{"put-in.reading", in.Table.Row(len(in.Table.Rows(j))), AddRow(in)})
	}
	if j.Floor.Kind != job.FloorTimber {
		out = append(out, PutIn{"put-in.joists", job.JoistsKey, FloorKind(job.FloorTimber)})
	}
	return out
}

// opening is a stretch of a wall that is to be opened.
type opening struct {
	wall                int
	offsetMM, longMM    float64
	shareOfWall, wallMM float64 // where its middle is, and how long its wall is
}

// putOpening puts an opening into the best stretch of wall that is free; where none is, it is where a list of
// its kind grows by itself, and that it cannot be there is for the job's check to say.
func putOpening(l job.List, worth func(opening) float64, put func(j *job.Job, i int, o *opening) (longMM float64)) Edit {
	return Of(message.Of(l.AddLabel()), func(j *job.Job) {
		i := l.Count(j)
		if l.Full(j) {
			return
		}
		before := j.Clone()
		if l.Add(j); l.Count(j) == i {
			return
		}
		longMM := put(j, i, nil)
		if best, ok := bestOpening(&before, longMM, worth); ok {
			put(j, i, &best)
		}
	}).About(l.Key)
}

// putDoor and putWindow put an opening of a list to a place, nil for where it is, and tell how long it is.
func putDoor(j *job.Job, i int, o *opening) float64 {
	d := &j.Room.Doorways[i]
	if o != nil {
		d.Wall, d.OffsetMM = o.wall, o.offsetMM
	}
	return d.WidthMM
}

func putWindow(j *job.Job, i int, o *opening) float64 {
	w := &j.Room.Windows[i]
	if o != nil {
		w.Wall, w.OffsetMM = o.wall, o.offsetMM
	}
	return w.WidthMM
}

// A door stands by a corner, a window in the middle of a long wall; the worth is the greater the better.
func freeDoor(o opening) float64 {
	const besideMM = 100 // from a corner to a door's post: common practice, no source
	return -math.Min(math.Abs(o.offsetMM-besideMM), math.Abs(o.wallMM-o.offsetMM-o.longMM-besideMM))
}

func freeWindow(o opening) float64 { return o.wallMM - o.wallMM*math.Abs(o.shareOfWall-0.5) }

// bestOpening is the best stretch of wall so long that no other opening is in, nor anything in the room before.
func bestOpening(j *job.Job, longMM float64, worth func(opening) float64) (best opening, ok bool) {
	const stepMM, postMM, beforeMM = 25, 50, 300 // between places, to a corner or another opening, free before it
	blocked := blockedFloor(j)
	most := math.Inf(-1)
	for wall := range j.Room.Outline {
		wallMM := j.Room.WallLengthMM(wall)
		for at := float64(postMM); at+longMM+postMM <= wallMM; at += stepMM {
			o := opening{wall: wall, offsetMM: at, longMM: longMM, shareOfWall: (at + longMM/2) / wallMM, wallMM: wallMM}
			if v := worth(o); v > most && wallFree(j, o, postMM) && floorFree(j, o, beforeMM, blocked) {
				best, most, ok = o, v, true
			}
		}
	}
	return best, ok
}

// wallFree tells whether no opening is in a stretch of a wall, nor nearer to it than a post needs.
func wallFree(j *job.Job, o opening, postMM float64) bool {
	clear := func(wall int, atMM, longMM float64) bool {
		return wall != o.wall || atMM >= o.offsetMM+o.longMM+postMM || atMM+longMM+postMM <= o.offsetMM
	}
	for _, d := range j.Room.Doorways {
		if !clear(d.Wall, d.OffsetMM, d.WidthMM) {
			return false
		}
	}
	for _, w := range j.Room.Windows {
		if !clear(w.Wall, w.OffsetMM, w.WidthMM) {
			return false
		}
	}
	return true
}

// blockedFloor is what an opening is not put before.
func blockedFloor(j *job.Job) (out []plan.Region) {
	corners := j.ShowerCorners()
	out = append(out, plan.FromRing(corners[:]))
	for _, f := range j.Room.Fixtures {
		out = append(out, plan.FromRing(j.Room.Footprint(f)))
	}
	return out
}

// floorFree tells whether the floor so deep before an opening is free.
func floorFree(j *job.Job, o opening, deepMM float64, blocked []plan.Region) bool {
	const trifleMM2 = 1
	before := plan.FromRing(j.Room.Footprint(job.Fixture{Wall: o.wall, OffsetMM: o.offsetMM, WidthMM: o.longMM, DepthMM: deepMM}))
	for _, b := range blocked {
		if plan.SharedArea(before, b) > trifleMM2 {
			return false
		}
	}
	return true
}

// putFixture puts something of a kind where the floor at a wall is free.
func putFixture(l job.List, k job.FixtureKind) Edit {
	return Of(message.Of(l.AddLabel()), func(j *job.Job) {
		f, _ := job.FreeFixture(j, k)
		if i := l.Count(j); !l.Full(j) {
			l.Add(j)
			j.Room.Fixtures[i] = f
		}
	}).About(l.Key)
}
