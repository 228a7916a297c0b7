package geometry

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sort"

	"gonum.org/v1/gonum/stat"
	"underfall/geometry/buildup"
	"underfall/geometry/job"
	"underfall/geometry/joist"
	"underfall/geometry/layout"
	"underfall/geometry/level"
	"underfall/geometry/rule"
)

// uncertain is one input that may be off.
type uncertain struct {
	name        string
	toleranceMM float64
	// shift moves the input; the job and layout are the sample's own.
	shift func(k *job.Job, l *layout.Layout, byMM float64)
}

// sampler works out what a job would come to if its inputs were off.
type sampler struct {
	job    job.Job
	layout layout.Layout
	pack   rule.Pack
	base   level.Heights
	least  float64
	inputs []uncertain
}

// newSampler holds the height of the base at what was decided: a base already
// cut does not grow when the floor turns out lower.
func newSampler(r Result) sampler {
	s := sampler{job: r.Settled.Clone(), layout: r.Layout, pack: r.Pack, base: r.Heights}
	s.least, _, _ = r.Pack.Limit("pipe.gradient", rule.AtLeast, pipeFacts(r.Settled.Waste.NominalMM), pipeTags(r.Settled)...)
	settleBase(&s.job, r.Heights, r.Heights.BaseTopMM)
	s.inputs = uncertainties(r)
	return s
}

// settleBase fixes the height of the base so that its top comes to a level,
// whatever the parts over it ask for.
func settleBase(j *job.Job, h level.Heights, topMM float64) {
	under := h.BaseUnderMM
	if j.Base.Support == job.BetweenJoists {
		under = h.FloorHighMM
	}
	j.Base.Height, j.Base.HeightMM = job.HeightChosen, topMM-under
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

// uncertainties are the inputs of a job that carry a tolerance. What has been
// measured as built is as good as the laser.
func uncertainties(r Result) []uncertain {
	var out []uncertain
	add := func(name string, toleranceMM float64, shift func(*job.Job, *layout.Layout, float64)) {
		if toleranceMM > 0 {
			out = append(out, uncertain{name, toleranceMM, shift})
		}
	}
	of := func(name string, toleranceMM float64, field func(*job.Job) *float64) {
		add(name, toleranceMM, func(k *job.Job, _ *layout.Layout, by float64) { *field(k) += by })
	}
	j, t := r.Settled, r.Settled.Tolerances
	for i, spot := range j.SpotLevels {
		of(fmt.Sprintf("Spot level %d", i+1), spot.ToleranceMM, func(k *job.Job) *float64 { return &k.SpotLevels[i].LevelMM })
	}
	add("Structural floor between the readings", r.Heights.Survey.UnevenMM, func(k *job.Job, _ *layout.Layout, by float64) {
		for i := range k.SpotLevels {
			k.SpotLevels[i].LevelMM += by
		}
	})
	if len(j.SpotLevels) == 0 {
		add("Structural floor", t.FloorMM, func(k *job.Job, _ *layout.Layout, by float64) {
			k.SpotLevels = append(k.SpotLevels[:0], job.SpotLevel{LevelMM: by})
		})
	}
	built := j.AsBuilt
	of("Base, top", asMeasured(built.BaseTopMM, t.BaseMM), func(k *job.Job) *float64 { return &k.Base.HeightMM })
	if built.FormerAtDrainMM == nil {
		of("Bed under former", t.BedMM, func(k *job.Job) *float64 { return &k.Former.BedMM })
	}
	of("Former", asMeasured(built.FormerAtDrainMM, t.FormerMM), func(k *job.Job) *float64 { return &k.Former.ThicknessAtDrainMM })
	if _, rise := highEnd(r.Layout); rise > 0 && j.Former.Slope > 0 {
		run := rise / j.Former.Slope
		add("Former's fall", asMeasured(built.FormerAtEdgeMM, t.FallMM), func(k *job.Job, l *layout.Layout, by float64) {
			slope := math.Max(1e-6, k.Former.Slope+by/run)
			*l = l.WithSlope(k.Former.Slope, slope)
			k.Former.Slope = slope
		})
	}
	of("Outlet below the flange", asMeasured(built.OutletInvertMM, t.OutletMM), func(k *job.Job) *float64 { return &k.Drain.OutletInvertDepthMM })
	of("Trap's depth", t.TrapMM, func(k *job.Job) *float64 { return &k.Drain.TrapDepthMM })
	run := r.Heights.Run
	_, exact := j.Waste.Exit.Level.ExactlyMM()
	if free := run.DropMM(run.ExitAtMM, 1) - run.DropMM(run.ExitAtMM, 0); !exact && free > 1 {
		add("Pipe as laid", t.PipeMM, func(k *job.Job, _ *layout.Layout, by float64) {
			k.Waste.Gradient += by / math.Max(free, pipeToleranceOverMM)
		})
	}
	if _, stated := j.Waste.Exit.Level.InvertMM(); stated {
		add("Exit as measured", asMeasured(built.ExitInvertMM, t.ExitMM), func(k *job.Job, _ *layout.Layout, by float64) {
			mm, _ := k.Waste.Exit.Level.InvertMM()
			k.Waste.Exit.Level = k.Waste.Exit.Level.At(mm + by)
		})
	}
	for i := range j.Room.Doorways {
		of(fmt.Sprintf("Floor beyond doorway %d", i+1), t.DoorwayMM, func(k *job.Job) *float64 { return &k.Room.Doorways[i].NeighbourFFLMM })
	}
	if j.Waste.Exit.Kind == job.ExitWall && j.Room.Walls[j.Waste.Exit.Wall].OutsideGroundMM != nil {
		of("Ground outside", t.GroundMM, func(k *job.Job) *float64 { return k.Room.Walls[k.Waste.Exit.Wall].OutsideGroundMM })
	}
	for _, f := range []struct {
		name   string
		finish func(*job.Job) *job.Finish
	}{{"Shower", func(k *job.Job) *job.Finish { return &k.Layers.Shower }},
		{"Room", func(k *job.Job) *job.Finish { return &k.Layers.Room }},
		{"Wall", func(k *job.Job) *job.Finish { return &k.Layers.Wall }}} {
		own := f.finish(&j)
		of(f.name+" tanking", own.Tanking.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Tanking.ThicknessMM })
		of(f.name+" tile bed", own.Bed.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Bed.ThicknessMM })
		of(f.name+" tile", own.Tile.ToleranceMM, func(k *job.Job) *float64 { return &f.finish(k).Tile.ThicknessMM })
	}
	return out
}

// at is the job's heights with every input off by so much. The job is made in
// the place of one that an earlier call made, or of an empty one.
func (s sampler) at(offMM []float64, k *job.Job) (layout.Layout, level.Heights) {
	s.fresh(k)
	l := s.layout
	for i := range s.inputs {
		if offMM[i] != 0 {
			s.inputs[i].shift(k, &l, offMM[i])
		}
	}
	h := level.Solve(*k, l, s.base.Run, s.least)
	if s.job.AsBuilt.BaseTopMM != nil {
		// A measured base stays where it is, whatever the floor turns out to be.
		k.Base.HeightMM += s.base.BaseTopMM + k.Base.HeightMM - s.job.Base.HeightMM - h.BaseTopMM
		h = level.Solve(*k, l, s.base.Run, s.least)
	}
	return l, h
}

// fresh makes a job the sampler's own again. It keeps lists of its own of what
// inputs shift, and shares the rest.
func (s sampler) fresh(k *job.Job) {
	spots, doors, walls := k.SpotLevels[:0], k.Room.Doorways[:0], k.Room.Walls
	*k = s.job
	k.SpotLevels = append(spots, s.job.SpotLevels...)
	k.Room.Doorways = append(doors, s.job.Room.Doorways...)
	if walls == nil {
		walls = s.job.Clone().Room.Walls
	}
	for i, w := range s.job.Room.Walls {
		if w.OutsideGroundMM != nil {
			*walls[i].OutsideGroundMM = *w.OutsideGroundMM
		}
	}
	k.Room.Walls = walls
}

// spreadRows says of every row of the schedule how far it may be off: the
// effect of each input at its tolerance, added up at worst and statistically.
// Heights, falls and clearances depend on the inputs in straight lines but for
// the choice of the highest or worst place, so this is exact to first order.
func (r Result) spreadRows() []buildup.Row {
	s := newSampler(r)
	rows := append([]buildup.Row(nil), r.Schedule...)
	effects := make([][]float64, len(rows))
	room := make([]float64, len(rows)*len(s.inputs))
	for n := range effects {
		effects[n] = room[n*len(s.inputs) : n*len(s.inputs) : (n+1)*len(s.inputs)]
	}
	off := make([]float64, len(s.inputs))
	var k job.Job
	var moved []buildup.Row
	for i, in := range s.inputs {
		off[i] = in.toleranceMM
		l, h := s.at(off, &k)
		off[i] = 0
		moved = buildup.Of(k, l, h).AppendSchedule(moved[:0])
		for n := range rows {
			// Mostly it is in the same place.
			at := n
			if at >= len(moved) || moved[at].ID != rows[n].ID {
				at = slices.IndexFunc(moved, func(m buildup.Row) bool { return m.ID == rows[n].ID })
			}
			if at >= 0 {
				effects[n] = append(effects[n], moved[at].Value-rows[n].Value)
			}
		}
	}
	for n := range rows {
		rows[n].Worst, rows[n].Statistical = buildup.Combine(effects[n])
	}
	return rows
}

// Risk is the chance that a rule is broken once the job is built, given the
// tolerances.
type Risk struct {
	Rule rule.Rule
	// Measurement is what the rule is about, as planned.
	Measurement rule.Measurement
	Probability float64
	// Planned tells that the rule is broken as planned already.
	Planned bool
	// Main is the input whose spread moves the measured value most, and
	// MainShare its share of the value's variance, 0 to 1.
	Main      string
	MainShare float64
}

// Chances are what may go wrong once a job is built.
type Chances struct {
	Risks []Risk
	// MarginMM is how much higher the base would have to be set for trap and
	// pipe to fit in 95 of 100 cases; nothing or less when it is high enough.
	MarginMM float64
}

// Key names the risk as the finding of the same rule and place.
func (r Risk) Key() string { return rule.Finding{Rule: r.Rule, Measurement: r.Measurement}.Key() }

// watchKey is what a value is measured of.
type watchKey struct{ quantity, subject string }

// watch follows one measured value through the samples.
type watch struct {
	measurement rule.Measurement
	rules       []rule.Rule
	broken      []int
	n           float64
	sum, square float64
	with        []float64 // sum of value times each input's offset
}

func (w *watch) add(v float64, off []float64) {
	for i := range w.rules {
		if w.rules[i].BrokenBy(v) {
			w.broken[i]++
		}
	}
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return
	}
	v -= w.measurement.Value // small numbers keep their digits
	w.n++
	w.sum += v
	w.square += v * v
	for i, o := range off {
		w.with[i] += v * o
	}
}

func (w *watch) join(o *watch) {
	for i := range w.broken {
		w.broken[i] += o.broken[i]
	}
	w.n, w.sum, w.square = w.n+o.n, w.sum+o.sum, w.square+o.square
	for i := range w.with {
		w.with[i] += o.with[i]
	}
}

// main is the input with the largest share of the value's variance: the square
// of their correlation, which for a value that depends on its inputs in
// straight lines is the share exactly.
func (w *watch) main(inputs []uncertain) (name string, share float64) {
	if w.n < 2 {
		return "", 0
	}
	variance := w.square/w.n - w.sum/w.n*w.sum/w.n
	if variance < 1e-18 {
		return "", 0
	}
	for i, in := range inputs {
		sigma := in.toleranceMM / sigmasInTolerance
		covariance := w.with[i] / w.n // offsets have mean zero
		if s := covariance * covariance / (variance * sigma * sigma); s > share {
			name, share = in.name, math.Min(1, s)
		}
	}
	return name, share
}

// sigmasInTolerance is how many standard deviations a stated tolerance holds:
// two, so that 95 of 100 lie within it. JCGM 100:2008 (GUM), 6.2 and G.
const sigmasInTolerance = 2

// chunks is into how many parts the samples are divided, each with random
// numbers of its own, so that the outcome does not depend on the processors.
const chunks = 64

// RiskSeed is the seed by which the same job always shows the same chances.
const RiskSeed = 1

// Risks draws samples of the job as it may come out and counts how often each
// rule is broken, gravest and likeliest first; only risks above one in two
// hundred, and what is broken as planned. The same seed gives the same answer.
//
// Method: Monte Carlo with independent normal inputs (JCGM 101:2008); the
// measurements are those of the evaluation, so clipped and stepped values
// count as they are. The error is a job that cannot be worked out, a fault of
// the program, or a cancelled context.
func Risks(ctx context.Context, r Result, samples int, seed uint64) (Chances, error) {
	var c Chances
	if len(r.Problems) > 0 {
		return c, fmt.Errorf("counting the chances: %w", r.Problems)
	}
	if samples < 1 {
		return c, errors.New("counting the chances: at least one sample is needed")
	}
	s := newSampler(r)
	parts := make([]drawn, chunks)
	err := inParallel(ctx, chunks, func(c int) error {
		parts[c] = s.draw(ctx, samples*(c+1)/chunks-samples*c/chunks, rand.New(rand.NewPCG(seed, uint64(c))))
		return nil
	})
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		return c, fmt.Errorf("counting the chances: %w", err)
	}
	all := map[watchKey]*watch{}
	var short []float64
	for _, p := range parts {
		short = append(short, p.short...)
		for key, w := range p.watched {
			if have, ok := all[key]; ok {
				have.join(w)
			} else {
				all[key] = w
			}
		}
	}
	planned := map[string]bool{}
	for _, f := range r.Findings {
		planned[f.Key()] = true
	}
	sort.Float64s(short)
	c.MarginMM = stat.Quantile(safeShare, stat.Empirical, short, nil)
	c.Risks = listRisks(all, s.inputs, planned, samples)
	return c, nil
}

// safeShare is the share of cases a margin is meant for.
const safeShare = 0.95

// drawn is what a chunk of samples came to: the values watched, and how much
// each sample's base fell short of what it needed.
type drawn struct {
	watched map[watchKey]*watch
	short   []float64
}

// draw takes samples and follows every value a rule speaks of.
func (s sampler) draw(ctx context.Context, samples int, random *rand.Rand) drawn {
	watched := map[watchKey]*watch{}
	short := make([]float64, 0, samples)
	off := make([]float64, len(s.inputs))
	none := make([]float64, len(s.inputs))
	var k job.Job
	var m measurer
	take := func(off []float64) {
		l, h := s.at(off, &k)
		m.begin(Result{Stated: k, Settled: k, Pack: s.pack, Layout: l, Heights: h, Floor: buildup.Of(k, l, h), Joists: joist.Find(k, l, h)})
		m.heights()
	}
	begin := func(m rule.Measurement) *watch {
		w := &watch{measurement: m, with: make([]float64, len(s.inputs))}
		for _, r := range s.pack.About(m.Quantity) {
			if r.Compare != rule.Present && r.Applies(m) {
				w.rules = append(w.rules, r)
			}
		}
		w.broken = make([]int, len(w.rules))
		watched[watchKey{m.Quantity, m.Subject}] = w
		return w
	}
	// As planned, for the values to be held against. Most samples measure the
	// same things in the same order.
	take(none)
	for i := range m.out {
		begin(m.out[i])
	}
	usual := make([]*watch, len(m.out))
	for i, x := range m.out {
		usual[i] = watched[watchKey{x.Quantity, x.Subject}]
	}
	for range samples {
		if ctx.Err() != nil {
			return drawn{}
		}
		for i, in := range s.inputs {
			off[i] = random.NormFloat64() * in.toleranceMM / sigmasInTolerance
		}
		take(off)
		for i := range m.out {
			x := &m.out[i]
			var w *watch
			if i < len(usual) && usual[i].measurement.Quantity == x.Quantity && usual[i].measurement.Subject == x.Subject {
				w = usual[i]
			} else if w = watched[watchKey{x.Quantity, x.Subject}]; w == nil {
				w = begin(*x)
			}
			if len(w.rules) > 0 {
				w.add(x.Value, off)
			}
		}
		short = append(short, m.Heights.LeastBaseTopMM()-m.Heights.BaseTopMM)
	}
	return drawn{watched, short}
}

// leastRisk is the probability below which a risk is not worth a line.
const leastRisk = 0.005

func listRisks(all map[watchKey]*watch, inputs []uncertain, planned map[string]bool, samples int) []Risk {
	var out []Risk
	for _, w := range all {
		for i, r := range w.rules {
			risk := Risk{Rule: r, Measurement: w.measurement, Probability: float64(w.broken[i]) / float64(max(1, samples))}
			risk.Planned = planned[risk.Key()]
			if risk.Probability < leastRisk && !risk.Planned {
				continue
			}
			risk.Main, risk.MainShare = w.main(inputs)
			out = append(out, risk)
		}
	}
	sort.Slice(out, func(a, b int) bool {
		x, y := out[a], out[b]
		if x.Rule.Severity != y.Rule.Severity {
			return x.Rule.Severity.Rank() < y.Rule.Severity.Rank()
		}
		if x.Probability != y.Probability {
			return x.Probability > y.Probability
		}
		return x.Key() < y.Key()
	})
	return out
}
