package settle

import (
	"math"
	"slices"

	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
)

// mostOutsideMM is how far past the room's walls a stack, a pipe end, a turn or the end of the waste is still believed to be
// meant. Common practice, no source.
const mostOutsideMM = 10_000

// placed is something that is stated by its place in plan: its path, and how far past the room's walls it may lie.
type placed struct {
	key    string
	at     plan.Point
	mostMM float64
	// reading tells that it is a level of this room's floor.
	reading bool
}

// placedIn is all that a job states by its place. A level may be read in a doorway, as deep as the walls are thick.
func placedIn(j *job.Job) (out []placed) {
	thickMM := 0.0
	for _, w := range j.Room.Walls {
		thickMM = math.Max(thickMM, w.ThicknessMM)
	}
	for i, r := range j.StatedLevels() {
		out = append(out, placed{atKey(job.SpotLevelsKey, i), r.At, thickMM, true})
	}
	for i, r := range j.Laser.Readings {
		out = append(out, placed{atKey(job.ReadingsKey, i), r.At, thickMM, true})
	}
	for i, s := range j.Room.Stacks {
		out = append(out, placed{atKey(job.StacksKey, i), s.At, mostOutsideMM, false})
	}
	for i, p := range j.Room.PipeEnds {
		out = append(out, placed{atKey(job.PipeEndsKey, i), p.At, mostOutsideMM, false})
	}
	for i, p := range j.Waste.Waypoints {
		out = append(out, placed{job.Nth(job.TurnsKey, i), p, mostOutsideMM, false})
	}
	if e := &j.Waste.Exit; e.Kind != job.ExitWall && e.Kind != job.ExitStack {
		out = append(out, placed{job.ExitAtKey, e.At, mostOutsideMM, false})
	}
	return out
}

// outside are the places that the edit states so far past the room's walls that nothing can be meant by them.
func (s *settler) outside() (out job.Problems) {
	if !s.changed(job.SpotLevelsKey, job.ReadingsKey, job.StacksKey, job.PipeEndsKey, job.TurnsKey, "waste.exit") {
		return nil
	}
	before := placedIn(s.before)
	for _, p := range placedIn(&s.job) {
		as := func(o placed) bool { return o.at == p.at && o.reading == p.reading }
		by := pastMM(s.job.Room.Outline, p.at)
		if by <= p.mostMM || slices.ContainsFunc(before, as) || !s.placedByEdit(p.key) {
			continue
		}
		what := message.Of("problem.far-outside", message.Along("by", by), message.Along("most", p.mostMM))
		if p.reading {
			what = message.Of("problem.reading-outside", message.Along("by", by))
		}
		out = append(out, job.Problem{Key: p.key, What: what, In: &s.job})
	}
	return out
}

// placedByEdit tells whether the edit changes a place, by its path, or the list that it is in.
func (s *settler) placedByEdit(key string) bool {
	return slices.ContainsFunc(s.edited, func(edited string) bool { return within(edited, key) || within(key, edited) })
}

// pastMM is how far a place lies past the outermost walls of a room; nought within those.
func pastMM(outline []plan.Point, p plan.Point) float64 {
	low, high, ok := plan.FromRing(outline).Bounds()
	if !ok {
		return 0
	}
	past := func(v, least, greatest float64) float64 { return math.Max(0, math.Max(least-v, v-greatest)) }
	return plan.Point{past(p.X(), low.X(), high.X()), past(p.Y(), low.Y(), high.Y())}.Len()
}
