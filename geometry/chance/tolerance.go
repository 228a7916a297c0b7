package chance

import (
	"underfall/geometry/asbuilt"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/layout"
	"underfall/geometry/message"
	"underfall/geometry/stage"
)

// uncertain is one input that may be off.
type uncertain struct {
	name        message.Numbered
	toleranceMM float64
	// shift moves the input; the job and layout are the sample's own.
	shift func(k *job.Job, l *layout.Layout, byMM float64)
}

// only is the input of its kind.
func only(id message.ID) message.Numbered { return message.Numbered{ID: id} }

// sampler works out what a job would come to if its inputs were off.
type sampler struct {
	// planned is the job as decided, with the height of its base fixed: a base
	// already cut does not grow when the floor turns out lower.
	planned stage.Levelled
	inputs  []uncertain
	// usual are the values followed, none yet added to; for the chances alone.
	usual []watch
}

func newSampler(l stage.Levelled) sampler {
	s := sampler{planned: l, inputs: uncertainties(l)}
	s.planned.Settled = l.Settled.Clone()
	asbuilt.FixBase(&s.planned.Settled, l.Heights, l.Heights.BaseTopMM)
	return s
}

// pipeToleranceOverMM is the length over which the tolerance of a laid pipe is
// meant; a shorter one is off in proportion. Common practice, no source.
const pipeToleranceOverMM = 1000

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

// uncertainties are the inputs of a job that carry a tolerance. What has been
// measured as built is as good as the laser.
func uncertainties(r stage.Levelled) []uncertain {
	var out []uncertain
	add := func(name message.Numbered, toleranceMM float64, shift func(*job.Job, *layout.Layout, float64)) {
		if toleranceMM > 0 {
			out = append(out, uncertain{name, toleranceMM, shift})
		}
	}
	of := func(name message.Numbered, toleranceMM float64, field func(*job.Job) *float64) {
		add(name, toleranceMM, func(k *job.Job, _ *layout.Layout, by float64) { *field(k) += by })
	}
	j, t := r.Settled, r.Settled.Tolerances
	for i, spot := range j.SpotLevels {
		of(message.Numbered{ID: "input.spot-level", Number: i + 1}, spot.ToleranceMM, func(k *job.Job) *float64 { return &k.SpotLevels[i].LevelMM })
	}
	add(only("input.floor-between-readings"), r.Heights.Survey.UnevenMM, func(k *job.Job, _ *layout.Layout, by float64) {
		for i := range k.SpotLevels {
			k.SpotLevels[i].LevelMM += by
		}
	})
	if len(j.SpotLevels) == 0 {
		add(only("input.floor"), t.FloorMM, func(k *job.Job, _ *layout.Layout, by float64) {
			k.SpotLevels = append(k.SpotLevels[:0], job.SpotLevel{LevelMM: by})
		})
	}
	built := j.AsBuilt
	of(only("input.base-top"), asMeasured(built.BaseTopMM, t.BaseMM), func(k *job.Job) *float64 { return &k.Base.HeightMM })
	if built.FormerAtDrainMM == nil {
		of(only("input.bed-under-former"), t.BedMM, func(k *job.Job) *float64 { return &k.Former.BedMM })
	}
	of(only("input.former"), asMeasured(built.FormerAtDrainMM, t.FormerMM), func(k *job.Job) *float64 { return &k.Former.ThicknessAtDrainMM })
	if _, rise := r.Layout.HighEnd(); rise > 0 && j.Former.Slope > 0 {
		run := rise / j.Former.Slope
		add(only("input.former-fall"), asMeasured(built.FormerAtEdgeMM, t.FallMM), func(k *job.Job, l *layout.Layout, by float64) {
			slope := max(leastSlope, k.Former.Slope+by/run)
			*l = l.WithSlope(k.Former.Slope, slope)
			k.Former.Slope = slope
		})
	}
	of(only("input.outlet-below-flange"), asMeasured(built.OutletInvertMM, t.OutletMM), func(k *job.Job) *float64 { return &k.Drain.OutletInvertDepthMM })
	of(only("input.trap-depth"), t.TrapMM, func(k *job.Job) *float64 { return &k.Drain.TrapDepthMM })
	run := r.Heights.Run
	_, exact := j.Waste.Exit.Level.ExactlyMM()
	if free := run.DropMM(run.ExitAtMM, 1) - run.DropMM(run.ExitAtMM, 0); !exact && free > 1 {
		add(only("input.pipe-as-laid"), t.PipeMM, func(k *job.Job, _ *layout.Layout, by float64) {
			k.Waste.Gradient += by / max(free, pipeToleranceOverMM)
		})
	}
	if _, stated := j.Waste.Exit.Level.InvertMM(); stated {
		add(only("input.exit-as-measured"), asMeasured(built.ExitInvertMM, t.ExitMM), func(k *job.Job, _ *layout.Layout, by float64) {
			mm, _ := k.Waste.Exit.Level.InvertMM()
			k.Waste.Exit.Level = k.Waste.Exit.Level.At(mm + by)
		})
	}
	for i := range j.Room.Doorways {
		of(message.Numbered{ID: "input.floor-beyond-doorway", Number: i + 1}, t.DoorwayMM, func(k *job.Job) *float64 { return &k.Room.Doorways[i].NeighbourFFLMM })
	}
	if j.Waste.Exit.Kind == job.ExitWall && j.Room.Walls[j.Waste.Exit.Wall].OutsideGroundMM != nil {
		of(only("input.ground-outside"), t.GroundMM, func(k *job.Job) *float64 { return k.Room.Walls[k.Waste.Exit.Wall].OutsideGroundMM })
	}
	for _, f := range []struct {
		tanking, bed, tile message.ID
		finish             func(*job.Job) *job.Finish
	}{{"input.shower-tanking", "input.shower-bed", "input.shower-tile", func(k *job.Job) *job.Finish { return &k.Layers.Shower }},
		{"input.room-tanking", "input.room-bed", "input.room-tile", func(k *job.Job) *job.Finish { return &k.Layers.Room }},
		{"input.wall-tanking", "input.wall-bed", "input.wall-tile", func(k *job.Job) *job.Finish { return &k.Layers.Wall }}} {
		own := f.finish(&j)
		of(only(f.tanking), own.Tanking.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Tanking.ThicknessMM })
		of(only(f.bed), own.Bed.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Bed.ThicknessMM })
		of(only(f.tile), own.Tile.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Tile.ThicknessMM })
	}
	return out
}

// start is the job for at to change.
func (s *sampler) start() stage.Levelled {
	l := s.planned.Apart()
	l.Settled = job.Job{}
	return l
}

// at makes a started job the planned one with every input off by so much.
func (s *sampler) at(offMM []float64, l *stage.Levelled) {
	k := &l.Settled
	s.fresh(k)
	l.Layout = s.planned.Layout
	for i := range s.inputs {
		if offMM[i] != 0 {
			s.inputs[i].shift(k, &l.Layout, offMM[i])
		}
	}
	l.Relevel()
	if s.planned.Settled.AsBuilt.BaseTopMM != nil {
		// A measured base stays where it is, whatever the floor turns out to be.
		k.Base.HeightMM += s.planned.Heights.BaseTopMM + k.Base.HeightMM - s.planned.Settled.Base.HeightMM - l.Heights.BaseTopMM
		l.Relevel()
	}
}

// fresh makes a job the sampler's own again. It keeps lists of its own of what
// inputs shift, and shares the rest.
func (s *sampler) fresh(k *job.Job) {
	spots, doors, walls := k.SpotLevels[:0], k.Room.Doorways[:0], k.Room.Walls
	*k = s.planned.Settled
	k.SpotLevels = append(spots, s.planned.Settled.SpotLevels...)
	k.Room.Doorways = append(doors, s.planned.Settled.Room.Doorways...)
	if walls == nil {
		walls = s.planned.Settled.Clone().Room.Walls
	}
	for i, w := range s.planned.Settled.Room.Walls {
		if w.OutsideGroundMM != nil {
			*walls[i].OutsideGroundMM = *w.OutsideGroundMM
		}
	}
	k.Room.Walls = walls
}

// Spread says of every row of a levelled job's schedule how far it may be off: the
// effect of each input at its tolerance, added up at worst and statistically.
// Heights, falls and clearances depend on the inputs in straight lines but for
// the choice of the highest or worst place, so this is exact to first order.
func Spread(planned stage.Levelled, rows []buildup.Row) []buildup.Row {
	s := newSampler(planned)
	rows = append([]buildup.Row(nil), rows...)
	effects := make([][]float64, len(rows))
	room := make([]float64, len(rows)*len(s.inputs))
	for n := range effects {
		effects[n] = room[n*len(s.inputs) : n*len(s.inputs) : (n+1)*len(s.inputs)]
	}
	off := make([]float64, len(s.inputs))
	l := s.start()
	var floor buildup.Floor
	for i, in := range s.inputs {
		off[i] = in.toleranceMM
		s.at(off, &l)
		off[i] = 0
		floor.Set(&l.Settled, &l.Layout, &l.Heights)
		for n := range rows {
			effects[n] = append(effects[n], floor.Value(rows[n])-rows[n].Value)
		}
	}
	for n := range rows {
		rows[n].Worst, rows[n].Statistical = buildup.Combine(effects[n])
	}
	return rows
}
