// Package tolerance says what of a job may come out otherwise than planned, by how much,
// and what that does to the height that the base needs.
package tolerance

import (
	"math"

	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/waste"
)

// Input is one input of a job that may be off.
type Input struct {
	Name message.Numbered
	// ToleranceMM is how far it may be off, plus or minus, held by 95 of 100.
	ToleranceMM float64
	// Shift moves the input of a job and a layout that are nobody else's.
	Shift func(k *job.Job, l *layout.Layout, byMM float64)
}

// SigmasInTolerance is how many standard deviations a stated tolerance holds:
// two, so that 95 of 100 lie within it. JCGM 100:2008 (GUM), 6.2 and G.
const SigmasInTolerance = 2

// only is the input of its kind.
func only(id message.ID) message.Numbered { return message.Numbered{ID: id} }

// PipeOverMM is the length over which the tolerance of a laid pipe is
// meant; a shorter one is off in proportion. Common practice, no source.
const PipeOverMM = 1000

// laserMM is how well a level is measured as built. Common practice, no source.
const laserMM = 1

// asMeasured is the tolerance of what has a level measured as built, or the
// one it was planned with.
func asMeasured(level *float64, plannedMM float64) float64 {
	if level != nil {
		return laserMM
	}
	return plannedMM
}

// leastSlope is what is left of a floor's fall that has been shifted away: planes
// must go on falling to the drain.
const leastSlope = 1e-6

// Inputs are the inputs of a job that carry a tolerance. What has been
// measured as built is as good as the laser.
func Inputs(j *job.Job, l *layout.Layout, h *level.Heights) []Input {
	in := inputs{job: j}
	in.floor(h)
	in.base(h)
	in.former(l)
	in.drain()
	in.run(&h.Run)
	in.outside(&h.Run)
	in.finishes()
	in.courses()
	return in.out
}

// inputs gathers the inputs of a job that carry a tolerance.
type inputs struct {
	job *job.Job
	out []Input
}

// add adds an input, unless it carries no tolerance.
func (in *inputs) add(name message.Numbered, toleranceMM float64, shift func(*job.Job, *layout.Layout, float64)) {
	if toleranceMM > 0 {
		in.out = append(in.out, Input{name, toleranceMM, shift})
	}
}

// number adds an input that is one number of a job.
func (in *inputs) number(name message.Numbered, toleranceMM float64, field func(*job.Job) *float64) {
	in.add(name, toleranceMM, func(k *job.Job, _ *layout.Layout, by float64) { *field(k) += by })
}

// alone is how far a reading may be off by itself, beside what all have in common.
func (in *inputs) alone(toleranceMM float64) float64 {
	setUp := in.job.Tolerances.SetUpMM
	return math.Sqrt(math.Max(0, toleranceMM*toleranceMM-setUp*setUp))
}

// floor adds what is read of the floor.
func (in *inputs) floor(h *level.Heights) {
	t := in.job.Tolerances
	in.add(only("input.set-up"), t.SetUpMM, shiftReadings)
	for i, spot := range in.job.SpotLevels {
		in.number(message.Numbered{ID: "input.spot-level", Number: i + 1}, in.alone(spot.ToleranceMM),
			func(k *job.Job) *float64 { return &k.SpotLevels[i].LevelMM })
	}
	in.add(only("input.floor-between-readings"), h.Survey.UnevenMM, shiftSpots)
	if len(in.job.SpotLevels) > 0 {
		return
	}
	in.add(only("input.floor"), t.FloorMM, func(k *job.Job, l *layout.Layout, by float64) {
		k.SpotLevels = append(k.SpotLevels[:0], job.SpotLevel{LevelMM: by})
		if l.FallArea.Contains(plan.Point{}, 0) { // what is read there, as the datum lies beside the shower
			k.SpotLevels[0].LevelMM += k.Floor.ReadOverMM(true) - k.Floor.ReadOverMM(false) - k.SetDown()
		}
	})
}

// base adds how high the base comes out.
func (in *inputs) base(h *level.Heights) {
	t := in.job.Tolerances
	switch {
	case in.job.AsBuilt.BaseTopMM != nil:
		in.number(only("input.base-top"), laserMM, func(k *job.Job) *float64 { return &k.Base.HeightMM })
	case in.job.Base.Support == job.OnFloor:
		// Its bed is what comes out otherwise; boards are as thick as they are.
		in.number(only("input.base-top"), t.BaseMM, func(k *job.Job) *float64 { return &k.Base.AdhesiveMM })
	case h.BaseTopMM > h.FootMM(in.job)+plan.HairMM:
		in.number(only("input.base-top"), t.BaseMM, func(k *job.Job) *float64 { return &k.Base.HeightMM })
	}
}

// former adds the former with its bed and its fall.
func (in *inputs) former(l *layout.Layout) {
	built, t := in.job.AsBuilt, in.job.Tolerances
	if built.FormerAtDrainMM == nil {
		in.number(only("input.bed-under-former"), t.BedMM, func(k *job.Job) *float64 { return &k.Former.BedMM })
	}
	in.number(only("input.former"), asMeasured(built.FormerAtDrainMM, t.FormerMM),
		func(k *job.Job) *float64 { return &k.Former.ThicknessAtDrainMM })
	if _, rise := l.HighEnd(); rise > 0 && in.job.Former.Slope > 0 {
		run := rise / in.job.Former.Slope
		in.add(only("input.former-fall"), asMeasured(built.FormerAtEdgeMM, t.FallMM), func(k *job.Job, l *layout.Layout, by float64) {
			slope := max(leastSlope, k.Former.Slope+by/run)
			*l = l.WithSlope(k.Former.Slope, slope)
			k.Former.Turn(slope)
		})
	}
}

// drain adds the drain's body. Weir and dip are one moulding and keep the seal their maker
// states: what outlet and body are off, the passage under the dip takes up. An outlet that is
// the weir itself takes the dip with it; any other moves alone.
func (in *inputs) drain() {
	t := in.job.Tolerances
	isWeir := math.Abs(in.job.Drain.OutletInvertDepthMM-in.job.Drain.WeirDepthMM) <= plan.HairMM
	outlet := asMeasured(in.job.AsBuilt.OutletInvertMM, t.OutletMM)
	in.add(only("input.outlet-below-flange"), outlet, func(k *job.Job, _ *layout.Layout, by float64) {
		k.Drain.OutletInvertDepthMM += by
		if isWeir {
			k.Drain.WeirDepthMM += by
			k.Drain.PassageMM -= by
		}
	})
	in.add(only("input.trap-depth"), t.TrapMM, func(k *job.Job, _ *layout.Layout, by float64) {
		k.Drain.TrapDepthMM += by
		k.Drain.PassageMM += by
	})
}

// run adds the pipe as it is laid and the level that it ends at.
func (in *inputs) run(run *waste.Run) {
	exit, t := in.job.Waste.Exit, in.job.Tolerances
	_, exact := exit.Level.ExactlyMM()
	if free := run.DropMM(run.ExitAtMM, 1) - run.DropMM(run.ExitAtMM, 0); !exact && free > 1 {
		in.add(only("input.pipe-as-laid"), t.PipeMM, func(k *job.Job, _ *layout.Layout, by float64) {
			k.Waste.Gradient += by / max(free, PipeOverMM)
		})
	}
	if _, stated := exit.Level.InvertMM(); stated {
		in.add(only("input.exit-as-measured"), in.alone(asMeasured(in.job.AsBuilt.ExitInvertMM, t.ExitMM)), shiftExit)
	}
}

// outside adds what is read beyond doorways and outside.
func (in *inputs) outside(run *waste.Run) {
	t := in.job.Tolerances
	for i := range in.job.Room.Doorways {
		in.number(message.Numbered{ID: "input.floor-beyond-doorway", Number: i + 1}, in.alone(t.DoorwayMM),
			func(k *job.Job) *float64 { return &k.Room.Doorways[i].NeighbourFFLMM })
	}
	if level.OutsideGroundMM(in.job, run) != nil {
		wall := run.Wall - 1
		in.number(only("input.ground-outside"), in.alone(t.GroundMM),
			func(k *job.Job) *float64 { return k.Room.Walls[wall].OutsideGroundMM })
	}
	if gully := in.job.Waste.Gully(); gully != nil && (gully.GratingMM != nil || gully.WaterMM != nil) {
		in.add(only("input.gully"), in.alone(t.GroundMM), shiftGully)
	}
}

// finishes adds the layers of the finishes of shower, room and wall.
func (in *inputs) finishes() {
	for _, f := range []struct {
		tanking, bed, tile message.ID
		finish             func(*job.Job) *job.Finish
	}{{"input.shower-tanking", "input.shower-bed", "input.shower-tile", func(k *job.Job) *job.Finish { return &k.Layers.Shower }},
		{"input.room-tanking", "input.room-bed", "input.room-tile", func(k *job.Job) *job.Finish { return &k.Layers.Room }},
		{"input.wall-tanking", "input.wall-bed", "input.wall-tile", func(k *job.Job) *job.Finish { return &k.Layers.Wall }}} {
		own := f.finish(in.job)
		in.number(only(f.tanking), own.Tanking.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Tanking.ThicknessMM })
		in.number(only(f.bed), own.Bed.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Bed.ThicknessMM })
		in.number(only(f.tile), own.Tile.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Tile.ThicknessMM })
	}
}

// courses adds the extra layers; those under the base only where it has any.
func (in *inputs) courses() {
	for n, id := range [...]message.ID{"input.base-course", "input.shower-course", "input.room-course", "input.wall-course"} {
		if n == 0 && in.job.Base.Support != job.OnFloor {
			continue
		}
		for i, c := range *in.job.Courses()[n] {
			in.number(message.Numbered{ID: id, Number: i + 1}, c.ToleranceMM,
				func(k *job.Job) *float64 { return &(*k.Courses()[n])[i].ThicknessMM })
		}
	}
}

// shiftReadings moves whatever was read off the laser: readings, a stated exit, floors
// beyond doorways, ground outside and a gully.
func shiftReadings(k *job.Job, l *layout.Layout, by float64) {
	shiftSpots(k, l, by)
	shiftExit(k, l, by)
	for i := range k.Room.Doorways {
		k.Room.Doorways[i].NeighbourFFLMM += by
	}
	for i := range k.Room.Walls {
		if ground := k.Room.Walls[i].OutsideGroundMM; ground != nil {
			*ground += by
		}
	}
	if k.Waste.Gully() != nil {
		shiftGully(k, l, by)
	}
}

// shiftSpots moves all readings of the floor.
func shiftSpots(k *job.Job, _ *layout.Layout, by float64) {
	for i := range k.SpotLevels {
		k.SpotLevels[i].LevelMM += by
	}
}

// shiftExit moves the exit where its level is stated.
func shiftExit(k *job.Job, _ *layout.Layout, by float64) {
	if mm, stated := k.Waste.Exit.Level.InvertMM(); stated {
		k.Waste.Exit.Level = k.Waste.Exit.Level.At(mm + by)
	}
}

// shiftGully moves a gully's grating and the water in it, which are one body, in a way out
// of the job's own.
func shiftGully(k *job.Job, _ *layout.Layout, by float64) {
	way := *k.Waste.Beyond
	for _, mm := range [2]**float64{&way.GratingMM, &way.WaterMM} {
		if *mm != nil {
			moved := **mm + by
			*mm = &moved
		}
	}
	k.Waste.Beyond = &way
}

// Restore makes a job that inputs were shifted in the planned one again. It keeps lists
// of its own of what inputs shift, and shares the rest.
func Restore(k, planned *job.Job) {
	spots, doors, walls := k.SpotLevels[:0], k.Room.Doorways[:0], k.Room.Walls
	var under [4][]job.Course
	for n, c := range k.Courses() {
		under[n] = (*c)[:0]
	}
	*k = *planned
	for n, c := range k.Courses() {
		*c = append(under[n], *c...)
	}
	k.SpotLevels = append(spots, planned.SpotLevels...)
	k.Room.Doorways = append(doors, planned.Room.Doorways...)
	if walls == nil {
		walls = planned.Clone().Room.Walls
	}
	for i, w := range planned.Room.Walls {
		if w.OutsideGroundMM != nil {
			*walls[i].OutsideGroundMM = *w.OutsideGroundMM
		}
	}
	k.Room.Walls = walls
}
