package edit

import (
	"cmp"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// ReadDown is what a reading that is added is called.
const ReadDown message.ID = "edit.read-down"

// Read adds what a staff reads at a point of the structural floor, from the laser as it was last set up. Without a set-up the point keeps
// its level: the line is taken to lie so much over it, or over the nearest level that is stated.
func Read(at plan.Point, downMM float64) Edit {
	return Of(message.Of(ReadDown), func(j *job.Job) {
		l := readings()
		if before, first := l.Count(j), len(j.Laser.SetUps) == 0; !l.Full(j) {
			l.Add(j)
			r := &j.Laser.Readings[before]
			r.At, r.DownMM = at, downMM
			if stated := j.StatedLevels(); first && len(stated) > 0 {
				near := slices.MinFunc(stated, func(a, b job.SpotLevel) int { return cmp.Compare(a.At.Sub(at).Len(), b.At.Sub(at).Len()) })
				j.Laser.SetUps[0] = job.SetUp{LevelMM: &near.LevelMM, DownMM: downMM}
			}
		}
	}).About("laser", job.SpotLevelsKey)
}

// MoveLaser sets the laser up anew, where the staff reads so much at a point that was read before, by the index of that
// reading; nothing where there is none.
func MoveLaser(reading int, downMM float64) Edit {
	return Of(message.Of("edit.laser-moved"), func(j *job.Job) {
		l := readings()
		if reading < 0 || reading >= l.Count(j) || l.Full(j) {
			return
		}
		j.Laser.SetUps = append(j.Laser.SetUps, job.SetUp{})
		j.Laser.Readings = append(j.Laser.Readings, job.Reading{SetUp: len(j.Laser.SetUps), At: j.Laser.Readings[reading].At, DownMM: downMM})
	}).About("laser", job.SpotLevelsKey)
}

// DoubtCures take either of two readings of one point away that differ by more than reading explains.
func DoubtCures(d job.Doubt) (out []Edit) {
	for _, i := range [...]int{d.First, d.Second} {
		e := RemoveItem(readings(), i)
		e.What = message.Of("laser.remove-of", message.No("n", i+1))
		out = append(out, e)
	}
	return out
}

// readings is the list of what was read down from a laser.
func readings() job.List {
	l, _ := job.FindList(job.ReadingsKey)
	return l
}
