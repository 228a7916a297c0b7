// Package search looks for every way the waste of a job could go, and for what
// would let one through where none fits.
package search

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/level"
	"underfall/geometry/measure"
	"underfall/geometry/message"
	"underfall/geometry/parallel"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// Alternative is one buildable waste run for a job, with what it costs.
type Alternative struct {
	// Change puts it into a job, whatever else has been changed there since.
	Change edit.Edit
	// Job is the job that was searched, with the change made.
	Job job.Job
	// MovesExit tells that the waste leaves at another place than stated.
	MovesExit bool
	// ExitInvertMM is the level at which it leaves, above the datum.
	ExitInvertMM float64
	// RaiseMM is the base's top above the structural floor.
	RaiseMM float64
	// BareMM is the raise at which everything would just fit, whatever height is asked for.
	BareMM    float64
	JoistsCut int
	// Unkept are the limits on cuts in joists that it does not keep, though none of them stops it.
	Unkept   []Unkept
	LengthMM float64
	Bends    int
	// EdgeStepMM is the greatest step at an open edge, without its sign.
	EdgeStepMM float64
	// Gradient of the pipe; more is better, within the limits.
	Gradient float64
	// Advisories counts what the rules say of the run without stopping it: too
	// steep, too many bends, near the ground.
	Advisories int
	Governing  level.Reason // what sets the raise
	// Flat is what holds it flatter than is usual; nil where it falls as is usual, or its fall was not free.
	Flat *Flat
}

// Unkept is a limit on cuts in joists that is not kept, in how many cuts.
type Unkept struct {
	Rule *rule.Rule
	Cuts int
}

// better tells whether a beats b in at least one way. A run to the stated exit
// is never beaten by one to another.
func (a *Alternative) better(b *Alternative) bool {
	const sameMM, sameSlope = 0.05, 1e-5
	return a.RaiseMM < b.RaiseMM-sameMM || a.JoistsCut < b.JoistsCut || a.LengthMM < b.LengthMM-sameMM || a.Bends < b.Bends ||
		!a.MovesExit && b.MovesExit || a.EdgeStepMM < b.EdgeStepMM-sameMM || a.Gradient > b.Gradient+sameSlope || a.Advisories < b.Advisories ||
		a.unkeptCuts() < b.unkeptCuts()
}

// unkeptCuts is how often it does not keep a limit on cuts in joists: a cut that breaks two of them counts twice.
func (a *Alternative) unkeptCuts() (n int) {
	for _, u := range a.Unkept {
		n += u.Cuts
	}
	return n
}

// Relaxation is the smallest change of one kind that lets some run through
// where none fits; Best makes the change and lays the run.
type Relaxation struct {
	What message.Message
	Best Alternative
	// LetsGo are the inputs that are held and that it moves, and so lets go of, by their paths in the file; empty but where nothing
	// that leaves all that is held as it is lets a run through.
	LetsGo []string
}

// Outcome is what looking for runs came to.
type Outcome struct {
	// Found is the Pareto set over raise, joists cut, limits on their cuts that are not kept, length, bends,
	// the step at the edge, the pipe's fall and advisories: to the stated exit first, then those that ask
	// for least, all told.
	Found []Alternative
	// Tried counts the runs that were worked out.
	Tried       int
	Relaxations []Relaxation
	// Cheap are changes that cost little, that which lets the base come lowest first.
	Cheap []Cheap
	// Hindrance is what stops the runs to the stated exit; nil where one goes there, or
	// none was asked for.
	Hindrance *Hindrance
	// Closed are the further ways out that were tried and that no run goes by that was found, nor one
	// that a change lets through: the one that comes nearest to one first. A nearest that nothing
	// stops could be built, but is in every way beaten by a run that was found.
	Closed []Hindrance
	// Besides are findings that stop the job whichever way the run goes.
	Besides []rule.Finding

	stated job.Exit
	// ventingMayHelp tells that some run was stopped by nothing but rules that
	// ask whether it is ventilated.
	ventingMayHelp bool
	// boxingMayHelp tells that some run was stopped as it lies bare along the room.
	boxingMayHelp bool
	// thorough tells that runs are looked at at their safe height alone.
	thorough bool
	// lettingGo tells that changes are tried that move what is held, and only those.
	lettingGo bool
}

// StopsRun tells whether a rule stops a run that breaks it.
func StopsRun(r *rule.Rule) bool { return r.Severity == rule.Stop && !besideRun(r.Quantity) }

// besideRun tells whether a quantity is one that no run changes, or that is mended by other means than a run: a door's leaf is planed.
func besideRun(quantity string) bool {
	switch quantity {
	case "trap.seal", "trap.flow-share", "base.keep-zone-cut", "former.thin-by", "floor.fall", "shower.least-side",
		"cover.short-by", "cover.proud-by", "drain.strip", "drain.under-wall", "drain.room-short-by", "door.leaf-gap", "screen.leaf-gap",
		"head.off-shower", "head.under-ceiling", "shower.ceiling", "shower.area", "kerb.drain-gap", "kerb.over-drain", "kerb.under-tanking",
		"fixture.in-doorway", "fixture.in-shower", "fixture.off-floor", "fixture.overlap":
		return true
	}
	return false
}

// verdict is what the rules say of a run.
type verdict struct {
	// stopped by a rule about the run, and by one that does not ask whether the
	// run is ventilated.
	stopped, stoppedAnyway bool
	bare                   bool // stopped as it lies bare along the room
	// larger and steep tell what a fitting may mend: a pipe too small for its
	// flow or length, and a fall over the limit.
	larger, steep bool
	// advisories counts the findings about the way the run goes.
	advisories int
	// unkept are the limits on cuts in joists that are not kept and do not stop the run.
	unkept []Unkept
}

// countCut counts a cut in a joist that does not keep a limit that stops nothing.
func (v *verdict) countCut(r *rule.Rule) {
	for i := range v.unkept {
		if v.unkept[i].Rule.ID == r.ID {
			v.unkept[i].Cuts++
			return
		}
	}
	v.unkept = append(v.unkept, Unkept{r, 1})
}

// judge adds what the rules say of measurements.
func (v *verdict) judge(pack rule.Pack, ms []rule.Measurement) {
	pack.EachBroken(ms, func(r *rule.Rule, of *rule.Measurement) {
		if of.Subject.Of == rule.JoistCut && !StopsRun(r) {
			v.countCut(r)
		}
		q, stops := r.Quantity, r.Severity == rule.Stop
		if StopsRun(r) {
			v.stopped = true
			v.stoppedAnyway = v.stoppedAnyway || !r.Speaks(stage.TagVentilated)
			v.bare = v.bare || q == "pipe.exposed"
		}
		switch {
		case stops && (q == "pipe.smooth-share" || q == "run.length" || q == "run.bends" || q == "pipe.gradient" && r.Compare == rule.AtLeast):
			v.larger = true
		case q == "pipe.gradient" && r.Compare == rule.AtMost:
			v.steep = true
		}
		if q == "pipe.gradient" || q == "clash.joist-gap" || strings.HasPrefix(q, "run.") || strings.HasPrefix(q, "exit.") {
			v.advisories++
		}
	})
}

// Grid is the discretisation of a search.
type Grid struct {
	// Steps is into how many parts a free length of a leg is divided.
	Steps int
	// MostBends is at most 3.
	MostBends int
	// TrapsMM are further places of the trap along a linear drain, from its
	// middle; those where it does not fit are left out.
	TrapsMM []float64
	// Shelf are parts that may stand in for those that a job has; none for none.
	Shelf part.Shelf
}

// TrapPlaces are places worth trying for a trap under a linear drain: its
// middle and near both ends.
func TrapPlaces(j job.Job) []float64 {
	if !j.Former.Fall.Linear() {
		return nil
	}
	long := j.DrainLengthMM()
	reach := math.Floor((long-math.Min(j.Drain.TrapSizeMM, long))/2/10) * 10
	return []float64{0, reach, -reach}
}

// UsualGrid finds what a fitter would draw, in about a tenth of a second.
func UsualGrid() Grid { return Grid{Steps: 6, MostBends: 3} }

// Runs looks for every buildable run from the trap to any of the exits, in
// any of the outlet's quarter turns, with the trap where it is and at the grid's
// other places for it.
//
// Method: runs are chains of legs whose directions are multiples of 45° to the
// shower's own, each turning 45° or 90° from the one before. Two legs are
// fixed by outlet and exit; each further leg leaves one length free, which is
// divided into Steps. Every chain inside the room is laid at the stated fall,
// the usual one and the flattest the region allows, its least raise solved in closed form
// and the region's rules applied; what no rule stops is kept when no other run
// is better in every way. A run stopped by what a fitting mends is tried with
// it: a reducer to the next larger pipe, or a falling piece where the exit lies too
// deep. Then what costs little is tried, other parts of the grid's shelf, and only then what
// costs more. Complete on its grid: nothing is cut off but chains that leave the room and runs
// that one found before beats in every way.
//
// What a person holds of the trap, the exit and the run stays as it is, whatever exits and
// places are asked for; with held turns, only the run with these is tried.
//
// A cancelled context ends the search with what was found so far. The error is
// a job that cannot be worked out, or a fault in the program.
func Runs(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, progress func(share float64)) (Outcome, error) {
	return looking(j, progress, func(s *Outcome, progress func(share float64)) error {
		if err := s.asItStands(ctx, j, pack, exits, grid, func(share float64) { progress(share * searchShare) }); err != nil {
			return err
		}
		open := func(share float64) { progress(searchShare + share*(1-searchShare)) }
		if err := s.open(ctx, j, pack, exits, grid, open); err != nil || ctx.Err() != nil {
			return err
		}
		return s.findClosed(ctx, j, pack, exits, grid)
	})
}

// AsItStands looks for runs as Runs does, and for no more: for no change that would let one through or gain on those
// there are, and not for what stops the others.
func AsItStands(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, progress func(share float64)) (Outcome, error) {
	return looking(j, progress, func(s *Outcome, progress func(share float64)) error {
		return s.asItStands(ctx, j, pack, exits, grid, progress)
	})
}

// looking is what looking for runs of a job came to, which is not begun with one that means nothing.
func looking(j job.Job, progress func(share float64), look func(s *Outcome, progress func(share float64)) error) (Outcome, error) {
	s := Outcome{stated: j.Waste.Exit}
	if p := j.Validate(); len(p) > 0 {
		return s, fmt.Errorf("looking for runs: %w", p)
	}
	if progress == nil {
		progress = func(float64) {}
	}
	err := parallel.Guard("looking for runs", func() error { return look(&s, progress) })
	return s, err
}

// asItStands looks for the runs of the job as it stands, and for what stops it whichever way they go.
func (s *Outcome) asItStands(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, progress func(share float64)) error {
	beside := func() error { return s.findBesides(j, pack) }
	if err := s.search(ctx, j, pack, exits, grid, beside, progress); err != nil {
		return err
	}
	if ctx.Err() == nil && j.Base.Height == job.HeightSafe && !s.reached() {
		// What stops a run at its buildable height may not at its safe one.
		s.thorough = true
		again, simpler := s.unreached(exits, grid)
		err := s.search(ctx, j, pack, again, simpler, nil, func(float64) {})
		if s.thorough = false; err != nil {
			return err
		}
	}
	if err := s.steepen(ctx, j, pack); err != nil || ctx.Err() != nil {
		return err
	}
	if len(s.Found) > 0 {
		// Its base may come higher than that of the job as it stands.
		return s.findBesides(s.Found[0].Job, pack)
	}
	return nil
}

// open looks for changes that let runs through, or let the base come lower; what costs little before what costs more, and that
// only where no run goes to the stated exit.
func (s *Outcome) open(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, progress func(share float64)) error {
	if ctx.Err() != nil {
		return nil
	}
	if err := s.cheapen(ctx, j, pack, exits, grid); err != nil || ctx.Err() != nil || s.reached() {
		return err
	}
	h, err := s.hinder(ctx, j, pack, s.asStated(exits), grid)
	if err != nil {
		return err
	}
	if h != nil {
		s.Hindrance = &h.Hindrance
	}
	if len(s.Found) > 0 {
		return s.orLettingGo(&j, func() error { return s.relaxStated(ctx, j, pack, exits, grid) })
	}
	relax := func() error { return s.relax(ctx, j, pack, exits, grid, progress) }
	if err := s.orLettingGo(&j, relax); err != nil || len(s.Relaxations)+len(s.Cheap) > 0 || ctx.Err() != nil {
		return err
	}
	return s.pump(ctx, j, pack, grid)
}

// searchShare is how much of the whole the search of a job as it stands counts
// for; the rest is for the changes tried where nothing fits.
const searchShare = 0.3

// findBesides finds what stops the job whichever way the run goes.
func (s *Outcome) findBesides(j job.Job, pack rule.Pack) error {
	p, err := place(j, pack)
	if err != nil {
		return err
	}
	var m measure.Measurer
	m.Place(p)
	for _, f := range pack.Judge(m.BesideRun()) {
		told := slices.ContainsFunc(s.Besides, func(o rule.Finding) bool { return o.Rule.ID == f.Rule.ID })
		if f.Rule.Severity == rule.Stop && besideRun(f.Rule.Quantity) && !told {
			s.Besides = append(s.Besides, f)
		}
	}
	return nil
}

// ways are the job with its trap at every place and its outlet pointing every way, and with
// every exit; something else may be done meanwhile, nil for nothing.
func (s *Outcome) ways(
	ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, meanwhile func() error,
) ([]stage.Placed, error) {
	const turns = 4
	traps := []float64{j.Drain.TrapOffsetMM}
	for _, at := range grid.TrapsMM {
		k := j.Clone()
		if k.Drain.TrapOffsetMM = at; !slices.Contains(traps, at) && len(k.Validate()) == 0 {
			traps = append(traps, at)
		}
	}
	tasks := make([]stage.Placed, len(traps)*turns*len(exits))
	free := make([]bool, len(tasks))
	err := parallel.Each(ctx, 1+len(traps)*turns, func(n int) error {
		if n == 0 {
			if meanwhile == nil {
				return nil
			}
			return meanwhile()
		}
		n--
		way := edit.RunOf(j)
		way.TrapOffsetMM, way.OutletTurnDeg, way.Waypoints = traps[n/turns], 90*float64(n%turns), nil
		placed, err := place(edit.UseRun(way).Apply(j), pack)
		if err != nil {
			return err
		}
		for i, exit := range exits {
			way.Exit = exit
			if k := edit.UseRun(way).Apply(j); !movesHeld(j, k) {
				tasks[n*len(exits)+i], free[n*len(exits)+i] = placed.WithRun(k), true
			}
		}
		return nil
	})
	kept := tasks[:0]
	for i, t := range tasks {
		if free[i] {
			kept = append(kept, t)
		}
	}
	return kept, err
}

// turnsKey is where the run's turns stand in a job's file.
const turnsKey = "waste.waypoints"

// movesHeld tells whether a way for the waste moves what is held of a job, its turns aside.
func movesHeld(j, way job.Job) bool {
	return slices.ContainsFunc(j.Moved(&way, job.Held), func(key string) bool { return key != turnsKey })
}

// search tries every outlet direction with every exit, on all processors; the
// outcome does not depend on how many there are. Something else may be done
// meanwhile; nil for nothing.
func (s *Outcome) search(
	ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, meanwhile func() error, progress func(float64),
) error {
	tasks, err := s.ways(ctx, j, pack, exits, grid, meanwhile)
	if err != nil || ctx.Err() != nil {
		return err
	}
	measurers := sync.Pool{New: func() any { return new(measure.Measurer) }}
	// Simple runs first: most of the others are beaten by one of them, whatever
	// the exit, and need not be worked out to the end. The others are many: they
	// are shared out by their first turn as well.
	var byTurn [][]turn
	for _, t := range bendTurns() {
		byTurn = append(byTurn, []turn{t})
	}
	for phase, runs := range []struct {
		bends [2]int
		turns [][]turn
	}{{[2]int{0, 1}, [][]turn{firstTurns()}}, {[2]int{2, grid.MostBends}, byTurn}} {
		parts := make([]Outcome, len(tasks)*len(runs.turns))
		var done atomic.Int64
		err := parallel.Each(ctx, len(parts), func(n int) error {
			t, part := tasks[n/len(runs.turns)], &parts[n]
			part.stated, part.thorough = s.stated, s.thorough
			m := measurers.Get().(*measure.Measurer)
			defer measurers.Put(m)
			part.Found = s.Found
			falls := fallsToTry(t.Job, pack)
			eachRun(&j, &t, grid.Steps, runs.bends, runs.turns[n%len(runs.turns)], func(corners []plan.Point) {
				k := t.Job
				k.Waste.Waypoints = corners
				laid := t.WithRun(k)
				for _, fall := range falls {
					if ctx.Err() != nil {
						return
					}
					part.try(m, laid.WithGradient(fall))
				}
			})
			progress((float64(phase) + float64(done.Add(1))/float64(len(parts))) / 2)
			return nil
		})
		for _, p := range parts {
			s.Tried += p.Tried
			s.ventingMayHelp = s.ventingMayHelp || p.ventingMayHelp
			s.boxingMayHelp = s.boxingMayHelp || p.boxingMayHelp
			for _, a := range p.Found {
				s.keep(a)
			}
		}
		if err != nil {
			return err
		}
	}
	inOrder(s.Found, slices.Max(fallsToTry(j, pack)))
	return nil
}

// sameFall is by how much falls must differ to be worth trying both.
const sameFall = 1e-6

// usualFall leaves room for the errors of building over the least that rules ask for. Common practice, no source.
const usualFall = 1.0 / 40

// fallsToTry are the pipe falls a search tries: the stated one, the usual one where that is steeper and allowed, as a run
// that comes no lower for it need not be flatter, and the flattest the region allows where that is flatter. With the
// exit's level given the fall follows from it, and one that is held stays.
func fallsToTry(j job.Job, pack rule.Pack) []float64 {
	stated := j.Waste.Gradient
	falls := []float64{stated}
	if _, exact := j.Waste.Exit.Level.ExactlyMM(); exact || j.StandingOf("waste.gradient") == job.Held {
		return falls
	}
	if most, ok := stage.GradientLimit(pack, j, rule.AtMost); stated < usualFall-sameFall && (!ok || most >= usualFall) {
		falls = append([]float64{usualFall}, falls...)
	}
	if least, ok := stage.GradientLimit(pack, j, rule.AtLeast); ok && least > 0 && least < stated-sameFall {
		falls = append(falls, least)
	}
	return falls
}

// try works one run out and keeps it when nothing stops it; stopped by what a
// fitting mends, it is tried again with that.
func (s *Outcome) try(m *measure.Measurer, p stage.Placed) {
	v := s.tryRun(m, p)
	if len(p.Job.Waste.Fittings) > 0 || p.Job.StandingOf("waste.fittings") == job.Held {
		return
	}
	for _, f := range mending(p, v) {
		k := p.Job
		k.Waste.Fittings = []job.Fitting{f}
		s.tryRun(m, p.WithRun(k))
	}
}

// tryRun works a laid run out, keeps it when nothing stops it, and gives the
// verdict, which is empty when it was not worth looking.
//
// The safe height takes many times as long to work out as the buildable one, which is
// no higher: a run is looked at there first.
func (s *Outcome) tryRun(m *measure.Measurer, p stage.Placed) verdict {
	s.Tried++
	if len(p.Run.Trouble) > 0 {
		// The fittings do not go together; nothing mends that.
		return verdict{}
	}
	if p.Job.Base.Height == job.HeightSafe && !s.thorough {
		v, a, ok := s.assess(m, p.WithHeight(job.HeightBuildable))
		if !ok {
			return v
		}
		top := m.Heights.BaseTopMM
		if m.Place(p); m.Heights.BaseTopMM <= top+plan.HairMM {
			a.Job = p.Job
			s.keep(a)
			return v
		}
	}
	v, a, ok := s.assess(m, p)
	if ok {
		s.keep(a)
	}
	return v
}

// alternative is a run that was worked out, without what takes longer to count.
func (s *Outcome) alternative(m *measure.Measurer, p stage.Placed) Alternative {
	h := &m.Heights
	return Alternative{MovesExit: !edit.SamePlace(m.Settled.Waste.Exit, s.stated), ExitInvertMM: h.Run.InvertAt(h.Run.ExitAtMM),
		RaiseMM: h.RaiseMM(), BareMM: h.LeastBaseTopMM() - h.FloorHighMM,
		LengthMM: p.Run.LengthMM, Bends: p.Run.Bends, Gradient: h.Gradient}
}

// assess works a laid run out at the height its job asks for; ok is false where
// something stops it, or it was not worth looking.
func (s *Outcome) assess(m *measure.Measurer, p stage.Placed) (v verdict, a Alternative, ok bool) {
	m.Place(p)
	h := &m.Heights
	a = s.alternative(m, p)
	if len(s.Found) > 0 {
		a.EdgeStepMM = edgeStepMM(&m.Levelled)
		// Not wanted with the fewest joists cut and advisories it can have is not
		// wanted at all.
		v.judge(p.Pack, m.Lengths())
		if a.Advisories = v.advisories; !s.wanted(&a) {
			return verdict{}, a, false
		}
		if a.JoistsCut = len(m.Crossings()); !s.wanted(&a) {
			return verdict{}, a, false
		}
		v = verdict{}
	}
	v.judge(p.Pack, m.Run())
	s.boxingMayHelp = s.boxingMayHelp || v.bare
	if v.stoppedAnyway {
		return v, a, false
	}
	if len(s.Found) == 0 {
		a.EdgeStepMM = edgeStepMM(&m.Levelled)
		a.JoistsCut = len(m.Crossings())
	}
	if v.judge(p.Pack, m.BesidesRun()); v.stopped {
		s.ventingMayHelp = s.ventingMayHelp || !v.stoppedAnyway
		return v, a, false
	}
	// Bodies last: what is stopped without them need not be held against them.
	if v.judge(p.Pack, m.Clashes()); v.stopped {
		return v, a, false
	}
	a.Advisories, a.Unkept = v.advisories, v.unkept
	a.Job, a.Governing = p.Job, h.Governing().Reason()
	return v, a, true
}

// edgeStepMM is the greatest step at an open edge that is walked over, without its sign.
func edgeStepMM(l *stage.Levelled) float64 {
	step := 0.0
	for i, e := range l.Heights.Edges(&l.Settled, &l.Layout) {
		if !l.Layout.WalkedOver(i) {
			continue // glass closes it
		}
		step = math.Max(step, math.Abs(e.WorstStepMM()))
	}
	return step
}

// fallingPieceLengthMM is the length of a falling piece a search may put in, at
// the outlet. Common practice, no source.
const fallingPieceLengthMM = 150

// mending are the fittings that may mend what stops a run.
func mending(p stage.Placed, v verdict) []job.Fitting {
	var out []job.Fitting
	if reducer, ok := p.Job.ReducerAt(0); v.larger && ok {
		out = append(out, reducer)
	}
	if exit, exact := p.Job.Waste.Exit.Level.ExactlyMM(); v.steep && exact {
		// The falling piece takes so much that the rest falls as steeply as allowed.
		most, ok := stage.GradientLimit(p.Pack, p.Job, rule.AtMost)
		if rest := p.Run.ExitAtMM - fallingPieceLengthMM; ok && rest > 0 {
			if slope := (p.Level().Heights.OutletMM - exit - most*rest) / fallingPieceLengthMM; slope > most && slope <= 1 {
				out = append(out, job.Fitting{Kind: job.FittingFallingPiece, LengthMM: fallingPieceLengthMM, Slope: slope})
			}
		}
	}
	return out
}

// wanted tells whether no run found so far is as good in every way.
func (s *Outcome) wanted(a *Alternative) bool {
	for i := range s.Found {
		if !a.better(&s.Found[i]) {
			return false
		}
	}
	return true
}

// keep adds an alternative unless one found before is as good in every way,
// and drops those it beats.
func (s *Outcome) keep(a Alternative) {
	if !s.wanted(&a) {
		return
	}
	kept := make([]Alternative, 0, len(s.Found)+1) // others may look at those found before
	for i := range s.Found {
		if s.Found[i].better(&a) {
			kept = append(kept, s.Found[i])
		}
	}
	a.Job = a.Job.Clone()
	a.Change = edit.UseRun(edit.RunOf(a.Job))
	s.Found = append(kept, a)
}

// place works out the plan of a job.
func place(j job.Job, pack rule.Pack) (stage.Placed, error) {
	var sh plan.Shaper
	p := stage.Place(j, pack, &sh)
	if problems := stage.Misshapen(&sh); problems != nil {
		return p, fmt.Errorf("looking for runs: %w", problems)
	}
	return p, nil
}
