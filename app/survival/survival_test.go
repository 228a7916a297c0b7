// Package survival_test asks of a job that it survives all that a window does to it, without one: a package of its own, as it takes
// as long as all tests of the window together, and runs beside them.
package survival_test

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
	"underfall/app/desk"
	"underfall/app/guard"
	"underfall/geometry"
	"underfall/geometry/buildup"
	"underfall/geometry/chance"
	"underfall/geometry/demotest"
	"underfall/geometry/edit"
	"underfall/geometry/fit"
	"underfall/geometry/job"
	"underfall/geometry/part"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/search"
	"underfall/geometry/section"
	"underfall/viewer"
)

// survival is what is asked of a job: that it survives all a window does to it,
// without one.
type survival struct {
	packs map[string]rule.Pack
	fatal func(format string, args ...any)
}

// all does everything a window can do to a job: work it out, look for runs and
// use them, count chances, draw every drawing and the scene, drag, change and
// undo. Nothing may panic, nothing derived may become stated, and undo gives
// the job back.
func (s survival) all(j job.Job) {
	pack, ok := s.packs[j.Region]
	if !ok {
		s.fatal("no rules for %q", j.Region)
	}
	before := j.Clone()
	r := geometry.Evaluate(j, pack)
	if len(r.Problems) > 0 {
		s.fatal("a valid job is not worked out: %v", r.Problems)
	}
	if diff := cmp.Diff(j, r.Stated); diff != "" {
		s.fatal("the result does not state the job it is of:\n%s", diff)
	}
	s.draw(r)
	if _, err := chance.Count(context.Background(), r.Levelled, r.Findings, 64, 1); err != nil {
		s.fatal("chances: %v", err)
	}
	s.search(j, pack)
	s.edits(j, r)
	if diff := cmp.Diff(before, j); diff != "" {
		s.fatal("the job was changed by looking at it:\n%s", diff)
	}
}

// draw makes every drawing and the scene.
func (s survival) draw(r geometry.Result) {
	for _, stage := range []buildup.Stage{buildup.StageBare, buildup.StageWaste, buildup.StageTile} {
		corner := section.Corner(r)
		cuts := append(corner[:], section.ThroughDrain(r), section.AlongRun(r))
		for _, c := range cuts {
			section.Of(r, c, stage)
			section.Places(r, c)
		}
		viewer.NewCaps(r, stage, viewer.HatchMM, cuts[:2]...)
	}
	section.PlanOf(r)
	section.LongOf(r)
	section.FlowLines(r, 400)
	viewer.NewScene(r, nil)
}

// search looks for runs with all usual exits, coarsely, and uses what it finds.
func (s survival) search(j job.Job, pack rule.Pack) {
	found, err := search.Runs(context.Background(), j, pack, search.UsualExits(j, 3000), search.Grid{Steps: 1, MostBends: 1}, nil)
	if err != nil {
		s.fatal("search: %v", err)
	}
	for i, a := range found.Found {
		if i == 4 {
			break
		}
		k := a.Change.Apply(j)
		if diff := cmp.Diff(k, a.Job); diff != "" {
			s.fatal("using run %d does not give the job it was found as:\n%s", i, diff)
		}
		if !a.MovesExit && (!edit.SamePlace(k.Waste.Exit, j.Waste.Exit) || k.Waste.Exit.Level != j.Waste.Exit.Level) {
			s.fatal("run %d says that it keeps the exit %+v, and makes it %+v", i, j.Waste.Exit, k.Waste.Exit)
		}
		// Nothing but the way of the waste has changed.
		k.Drain.OutletTurnDeg, k.Drain.TrapOffsetMM, k.Waste = j.Drain.OutletTurnDeg, j.Drain.TrapOffsetMM, j.Clone().Waste
		k.AsBuilt.OutletInvertMM, k.AsBuilt.ExitInvertMM = j.AsBuilt.OutletInvertMM, j.AsBuilt.ExitInvertMM
		if diff := cmp.Diff(j, k); diff != "" {
			s.fatal("using run %d changes more than the way of the waste:\n%s", i, diff)
		}
		if once, twice := a.Change.Apply(j), a.Change.Apply(a.Change.Apply(j)); cmp.Diff(once, twice) != "" {
			s.fatal("using run %d twice is not the same as once", i)
		}
	}
	for i, x := range found.Relaxations {
		if i == 2 {
			break
		}
		if r := geometry.Evaluate(x.Best.Change.Apply(j), pack); len(r.Problems) > 0 {
			s.fatal("%s: %v", x.What, r.Problems)
		}
	}
}

// step is an edit the window can make; again tells that making it twice is more
// than making it once.
type step struct {
	edit  edit.Edit
	again bool
}

// stepList gathers steps.
type stepList []step

// once adds edits of which the second does nothing.
func (l *stepList) once(edits ...edit.Edit) {
	for _, e := range edits {
		*l = append(*l, step{e, false})
	}
}

// more adds edits of which each does more.
func (l *stepList) more(edits ...edit.Edit) {
	for _, e := range edits {
		*l = append(*l, step{e, true})
	}
}

// eachValue adds an edit for each value of one of the job's lists.
func eachValue[T ~string](l *stepList, values job.Enum[T], made func(T) edit.Edit) {
	for _, c := range values.Choices {
		l.once(made(c.Value))
	}
}

// steps are edits of every kind.
func steps(j job.Job, r geometry.Result) []step {
	var l stepList
	l.drags(r)
	l.run(j, r)
	l.choices(r)
	l.parts()
	l.items(j)
	l.standings()
	l.measures(j)
	return l
}

// measures are what may be measured of the room and its floor.
func (l *stepList) measures(j job.Job) {
	l.once(edit.TakeTape(), edit.Across(0, 2, 3060), edit.NotAcross(0, 2), edit.DrawSquare(), edit.PutTapeAside(),
		edit.Measuring(map[int]float64{0: j.Room.WallLengthMM(0)}, edit.Side{Wall: 1}.Set(1850)), edit.NotAlong(0),
		edit.Chain(0, false, []float64{300, 1100}), edit.Chain(0, true, []float64{300, 1100, 2700}))
	l.more(edit.Read(plan.Point{700, 800}, 991), edit.MoveLaser(0, 940))
	for wall := range min(len(j.Room.Outline), 2) {
		for _, m := range edit.Marks(j, wall, wall == 1) {
			if mm, ok := m.MM(j); ok {
				l.once(m.Set(mm + 30))
			}
		}
	}
}

// standings are what may be said of how far inputs are known.
func (l *stepList) standings() {
	for _, key := range []string{"floor.kind", "floor.joists.directionDeg", "waste.exit.wall", "waste.exit.level", "shower.widthMM", "room.doorways[0].widthMM"} {
		l.once(edit.Hold(key), edit.LetGo(key), edit.Unknown(key), edit.Assume(key), edit.Confirm(key))
	}
}

// drags are those of every handle.
func (l *stepList) drags(r geometry.Result) {
	for _, h := range section.PlanOf(r).Handles {
		for _, by := range []plan.Point{{0, 0}, {37, -12}, {-260, 411}} {
			l.once(edit.Drag(h.Moves, h.At.Add(by)))
		}
	}
	long := section.LongOf(r)
	for _, h := range long.Handles {
		l.once(edit.DragLong(h.Moves, h.At.X()+21, h.At.Y()/math.Max(1, long.Rise)-14))
	}
}

// run are what menus and findings change of the run, the room and the shower.
func (l *stepList) run(j job.Job, r geometry.Result) {
	middle := r.Heights.Run.ExitAtMM / 2
	l.more(edit.AddTurn(middle), edit.RemoveTurn(0),
		edit.AddFitting(usualReducer(math.Round(middle))), edit.AddFitting(job.UsualFallingPiece(math.Round(middle))),
		edit.WidenShower(100), edit.WidenShower(-100), edit.ShiftTrap(50), edit.MoveDrain(-60), edit.LargerPipe())
	along := r.Layout.DrainAlong.Mul(120)
	l.more(edit.ShiftLeg(r.Heights.Run.PointAt(middle), along, true), edit.ShiftLeg(r.Heights.Run.PointAt(middle), along.Mul(-1), false))
	for _, f := range j.Waste.Fittings {
		l.more(edit.TurnFitting(f.AtMM), edit.RemoveFitting(f.AtMM))
	}
	l.once(edit.SimplestRun(), edit.Gradient(0.018), edit.VentAtTrap(), edit.LeadTo(0), edit.ThroughWall(1), edit.UseRun(edit.RunOf(j)),
		edit.Outline([]plan.Point{{0, 0}, {4000, 0}, {4000, 3000}, {0, 3000}}), edit.Outline([]plan.Point{{0, 0}, {5000, 0}, {0, 4000}}))
}

// choices are those of every value of the lists that an edit does more with.
func (l *stepList) choices(r geometry.Result) {
	eachValue(l, job.ExitKinds(), edit.ExitKind)
	eachValue(l, job.ExitLevelKinds(), func(k job.ExitLevelKind) edit.Edit { return edit.ExitLevelKind(k, 12.3) })
	eachValue(l, job.FallKinds(), edit.Fall)
	eachValue(l, job.FloorKinds(), edit.FloorKind)
	eachValue(l, job.SupportKinds(), edit.Support)
	eachValue(l, job.EdgeKinds(), edit.Edge)
	eachValue(l, job.EndsKinds(), edit.Ends)
	eachValue(l, job.HeightModes(), func(m job.HeightMode) edit.Edit {
		return edit.Height(m, r.Heights.BaseThicknessMM(&r.Settled))
	})
	l.once(edit.BoxIn(), edit.Glass(""), edit.Glass(job.ScreenPane), edit.Glass(job.ScreenDoor))
	l.trims(r)
	eachValue(l, job.WallKinds(), func(k job.WallKind) edit.Edit { return edit.Wall(0, k) })
}

// trims cut joists out between trimmers, for the trap and for what findings are of.
func (l *stepList) trims(r geometry.Result) {
	l.once(edit.TrimJoist(), edit.TrimJoists(rule.Subject{Of: rule.TrapInJoist}, true),
		edit.CloseOpenings([]rule.Subject{{Of: rule.CutOutOfJoist, Number: 2, Part: 1}}))
	tried := map[rule.Thing]bool{}
	for _, f := range r.Findings {
		of := f.Measurement.Subject
		if tried[of.Of] {
			continue
		}
		switch of.Of {
		case rule.DrainChannelByJoist, rule.TrapInJoist, rule.PieceByJoist, rule.JoistCut, rule.DropThroughFloor, rule.ExistingPipeEnd:
			tried[of.Of] = true
			l.once(edit.TrimJoists(of, false))
			if remedy, _, ok := fit.Trim(r, f); ok {
				l.once(remedy.Edit)
			}
		}
	}
}

// parts are the choosing and forgetting of parts.
func (l *stepList) parts() {
	shelf := demotest.Shelf()
	for _, region := range []string{"UK", "US", "NZ"} {
		l.once(edit.Region(region, "2026-11", shelf), edit.UsualParts(region, shelf))
	}
	eachValue(l, job.FallKinds(), func(k job.FallKind) edit.Edit { return edit.FallWithDrain(k, shelf) })
	for p := range shelf.Each {
		l.once(edit.UsePart(p))
	}
	l.once(edit.ForgetPipe(), edit.ForgetDrain(), edit.ForgetBoards(), edit.ForgetFormer(),
		edit.AsSold(job.BoardsKey), edit.AsSold("drain.lengthMM"))
	for _, w := range job.Wheres() {
		l.once(edit.UseTile(w, shelf.Tiles[0]), edit.UseLayer(w, shelf.Layers[0]),
			edit.ForgetTile(w), edit.ForgetLayer(w, part.ForTanking), edit.ForgetLayer(w, part.ForBed))
	}
}

// items are those of the lists of things, and the levels as built.
func (l *stepList) items(j job.Job) {
	for _, list := range job.Lists() {
		l.more(edit.AddItem(list), edit.RemoveItem(list, 0))
		for _, e := range list.Entries() {
			if i := list.Count(&j) - 1; i >= 0 && e.Number != nil {
				for _, v := range []float64{e.Number.Least, e.Number.Greatest} {
					l.once(edit.ItemNumber(list, i, e, &v))
				}
			}
		}
	}
	level := 20.0
	for i := range new(job.AsBuilt).Levels() {
		l.once(edit.Measured(i, &level), edit.Measured(i, nil))
	}
}

// edits makes every edit on a desk and takes it back.
func (s survival) edits(j job.Job, r geometry.Result) {
	d, err := desk.New(j, s.packs, func(f func()) { f() }, guard.New(func(f guard.Fault) { s.fatal("%s: %s", f.Part, f.Reason) }, nil))
	if err != nil {
		s.fatal("%v", err)
	}
	for i, st := range steps(j, r) {
		if st.edit.What.IsZero() {
			s.fatal("edit %d has no name", i)
		}
		once := st.edit.Apply(j)
		if twice := st.edit.Apply(once); !st.again && len(once.Validate()) == 0 {
			if diff := cmp.Diff(once, twice); diff != "" {
				s.fatal("%s (%d): twice is not the same as once:\n%s", st.edit.What, i, diff)
			}
		}
		if i%3 != 0 || len(d.Do(st.edit)) > 0 {
			continue
		}
		if reflect.DeepEqual(once, j) {
			if undone := d.Undo(); !undone.IsZero() {
				s.fatal("%s changes nothing, and yet can be taken back as %q", st.edit.What, undone)
			}
			continue
		}
		// What is derived was not stated: but for what the edit is of, the job says
		// what it said.
		got := d.Job()
		if got.Name != j.Name || got.Version != j.Version {
			s.fatal("%s: another job", st.edit.What)
		}
		if i%9 == 0 {
			if r := geometry.Evaluate(got, s.packs[j.Region]); len(r.Problems) > 0 {
				s.fatal("%s: %v", st.edit.What, r.Problems)
			}
		}
		if undone, made := d.Undo(), st.edit.Made(j, got); !cmp.Equal(undone, made) {
			s.fatal("undo names %q, not %q", undone, made)
		}
		if diff := cmp.Diff(j, d.Job()); diff != "" {
			s.fatal("%s: undo does not give the job back:\n%s", st.edit.What, diff)
		}
	}
}

// Any valid job survives everything the window can do to it.
func TestAnyJobSurvivesTheWindow(t *testing.T) {
	t.Parallel()
	packs := demotest.Packs(t)
	rapid.Check(t, func(t *rapid.T) {
		survival{packs, t.Fatalf}.all(demotest.AnyJob(t))
	})
}

// pairing is one of each of the choices whose meetings had the worst faults.
type pairing struct {
	level    job.ExitLevelKind
	exit     job.ExitKind
	support  job.SupportKind
	fall     job.FallKind
	measured int // one more than its index among the levels as built; 0 for none
}

// pairings are all there are.
func pairings() []pairing {
	var out []pairing
	for _, level := range job.ExitLevelKinds().Choices {
		for _, exit := range job.ExitKinds().Choices {
			for _, support := range job.SupportKinds().Choices {
				for _, fall := range job.FallKinds().Choices {
					for m := range len(new(job.AsBuilt).Levels()) + 1 {
						out = append(out, pairing{level.Value, exit.Value, support.Value, fall.Value, m})
					}
				}
			}
		}
	}
	return out
}

// in is a job with the choices made.
func (p pairing) in(j job.Job) job.Job {
	for _, e := range []edit.Edit{edit.Support(p.support), edit.Fall(p.fall), edit.ExitKind(p.exit), edit.ExitLevelKind(p.level, -20)} {
		j = e.Apply(j)
	}
	if p.measured > 0 {
		mm := 15.0
		j = edit.Measured(p.measured-1, &mm).Apply(j)
	}
	return j
}

func (p pairing) String() string {
	measured := ""
	if p.measured > 0 {
		measured = new(job.AsBuilt).Levels()[p.measured-1].Field
	}
	return fmt.Sprintf("%s, %s, %s, %s, %s", p.level, p.exit, p.support, p.fall, measured)
}

// Every pairing of what is known of the exit's level, kind of exit, support,
// fall and measured level survives too: the worst faults sat where two choices
// meet.
func TestEveryPairingSurvivesTheWindow(t *testing.T) {
	t.Parallel()
	packs := demotest.Packs(t)
	all := pairings()
	if len(all) != 3*5*2*7*7 {
		t.Errorf("%d pairings", len(all))
	}
	for i, p := range all {
		tried := i + 1
		if testing.Short() && tried%97 != 0 {
			continue
		}
		j := p.in(demotest.Rooms(t)[2].Job.Clone())
		if problems := j.Validate(); len(problems) > 0 {
			t.Fatalf("%s: %v", p, problems)
		}
		s := survival{packs, func(format string, args ...any) { t.Fatalf(p.String()+": "+format, args...) }}
		// All of it takes its time: done to one in eleven, by which every
		// pair is met; the rest is worked out, searched and drawn in plan.
		if tried%11 == 0 {
			s.all(j)
			continue
		}
		r := geometry.Evaluate(j, packs[j.Region])
		if len(r.Problems) > 0 {
			s.fatal("%v", r.Problems)
		}
		s.search(j, packs[j.Region])
		section.PlanOf(r)
		section.LongOf(r)
	}
}

// usualReducer is a reducer to the usual pipe of 50 mm.
func usualReducer(atMM float64) job.Fitting {
	j := job.New()
	f, _ := j.ReducerAt(atMM)
	return f
}
