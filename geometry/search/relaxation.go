package search

import (
	"context"
	"math"
	"math/bits"
	"slices"

	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
	"underfall/geometry/stage"
)

// relaxation is one kind of change that may let a run through.
type relaxation struct {
	// change of a job; ok is false when there is nothing to change.
	change func(job.Job) (change edit.Edit, ok bool)
	// what words the change between a job and the run it let through.
	what func(from job.Job, best Alternative) message.Message
}

// ventChange and boxChange are the places of the vent and of boxing in in the list of
// relaxations.
const (
	ventChange = 3
	boxChange  = 6
)

func relaxations(pack rule.Pack) []relaxation {
	return []relaxation{
		{func(k job.Job) (edit.Edit, bool) {
			return edit.Height(job.HeightBuildable, 0), k.Base.Height == job.HeightChosen
		}, func(from job.Job, best Alternative) message.Message {
			return message.Of("relaxation.higher", message.MM("by", math.Ceil(best.RaiseMM-raiseOf(from, pack))), message.MM("raise", best.RaiseMM))
		}},
		{func(k job.Job) (edit.Edit, bool) {
			_, larger := k.LargerPipe()
			return edit.LargerPipe(), larger
		}, func(from job.Job, best Alternative) message.Message {
			return message.Of("relaxation.pipe", nominal("pipe", best.Job), nominal("stated", from))
		}},
		{func(k job.Job) (edit.Edit, bool) {
			least, ok := stage.GradientLimit(pack, k, rule.AtLeast)
			_, exact := k.Waste.Exit.Level.ExactlyMM()
			return edit.Gradient(least), ok && least > k.Waste.Gradient && !exact
		}, func(from job.Job, best Alternative) message.Message {
			return message.Of("relaxation.fall", fall("fall", best.Job), fall("stated", from))
		}},
		{func(k job.Job) (edit.Edit, bool) {
			return edit.VentAtTrap(), stage.UnventedMM(pack, &k) > 0
		}, func(job.Job, Alternative) message.Message { return message.Of("relaxation.ventilated") }},
		{func(k job.Job) (edit.Edit, bool) {
			// Where the end of a pipe lies that is there is a fact, and none of the work's to change.
			return edit.ExitLevel(job.ExitLevel{}), k.Waste.Exit.Level.Kind() != job.ExitFree && k.Waste.Exit.Kind != job.ExitPipe
		}, func(from job.Job, best Alternative) message.Message {
			stated, _ := from.Waste.Exit.Level.InvertMM()
			return message.Of("relaxation.exit-level", above("level", best.ExitInvertMM), above("stated", stated))
		}},
		{func(k job.Job) (edit.Edit, bool) {
			return edit.All(message.Of("edit.support"), edit.Support(job.OnFloor), edit.Height(job.HeightBuildable, 0)), k.Base.Support == job.BetweenJoists
		}, func(_ job.Job, best Alternative) message.Message {
			return message.Of("relaxation.base-on-floor", message.MM("raise", best.RaiseMM))
		}},
		{func(k job.Job) (edit.Edit, bool) {
			return edit.BoxIn(), k.Waste.Boxing == nil
		}, func(job.Job, Alternative) message.Message { return message.Of("relaxation.boxed-in") }},
	}
}

// together is several changes as one.
func together(changes []message.Message) message.Message {
	if len(changes) == 1 {
		return changes[0]
	}
	return message.Of("relaxation.all", message.Arg{Name: "changes", Value: message.List{Items: changes}})
}

// What a change is told by.
func nominal(name string, j job.Job) message.Arg {
	return message.Arg{Name: name, Value: message.Size(j.Waste.NominalMM)}
}

func fall(name string, j job.Job) message.Arg {
	return message.Arg{Name: name, Value: message.Fall{Slope: j.Waste.Gradient}}
}

func above(name string, mm float64) message.Arg {
	return message.Arg{Name: name, Value: message.Level{MM: mm}}
}

// orLettingGo looks for changes that leave what is held of a job as it is and, where those let no run through, for such as let go
// of it.
func (s *Outcome) orLettingGo(j *job.Job, look func() error) error {
	if err := look(); err != nil || len(s.Relaxations)+len(s.Cheap) > 0 || len(j.Standing(job.Held)) == 0 {
		return err
	}
	s.lettingGo = true
	err := look()
	s.lettingGo = false
	return err
}

// relax tries single changes until runs fit, then pairs, then three together,
// and says what each takes. Every change of a set is needed, or a smaller set
// would have done.
func (s *Outcome) relax(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, progress func(share float64)) error {
	mostChanges := 3
	if len(s.Cheap) > 0 { // nobody makes several that cost more
		mostChanges = 1
	}
	known := map[int]vain{0: s.inVain(j, pack)}
	for size := 1; size <= mostChanges && len(s.Relaxations) == 0; size++ {
		if size > 1 {
			// More changes at once are tried on fewer exits and simpler runs.
			exits, grid = thinned(exits), grid.plain()
		}
		share := func(share float64) { progress((float64(size-1) + share) / float64(mostChanges)) }
		if err := s.relaxBySets(ctx, j, pack, exits, grid, size, known, share); err != nil {
			return err
		}
		if size == 1 {
			where := grid.plain()
			where.TrapsMM = nil // it moves the trap itself
			if err := s.relaxTrap(ctx, j, pack, thinned(exits), where); err != nil {
				return err
			}
		}
	}
	return nil
}

// relaxStated tries single changes until runs go to the stated exit, where they go to
// others as the job stands.
func (s *Outcome) relaxStated(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid) error {
	known := map[int]vain{0: s.inVain(j, pack)}
	return s.relaxBySets(ctx, j, pack, s.asStated(exits), grid, 1, known, func(float64) {})
}

// vain tells which changes on top of others would change nothing. More changes are tried on a
// part of the runs, so what held for all of them holds.
type vain struct{ vent, box bool }

// inVain tells what would change nothing on top of a job whose runs were looked at.
func (s *Outcome) inVain(j job.Job, pack rule.Pack) vain {
	return vain{!s.ventingMayHelp && onlyFreesByVent(j, pack), !s.boxingMayHelp}
}

// relaxBySets tries every set of so many changes. What is known of sets that were tried is
// kept by their numbers.
func (s *Outcome) relaxBySets(
	ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, size int, known map[int]vain, progress func(share float64),
) error {
	const vent, box = 1 << ventChange, 1 << boxChange
	all := relaxations(pack)
	for set := range 1 << len(all) {
		if bits.OnesCount(uint(set)) != size || ctx.Err() != nil {
			continue
		}
		if set&vent != 0 && known[set&^vent].vent || set&box != 0 && known[set&^box].box {
			continue
		}
		inVain, err := s.relaxBy(ctx, j, pack, exits, grid, all, set)
		if err != nil {
			return err
		}
		known[set] = inVain
		progress(float64(set) / float64(int(1)<<len(all)))
	}
	return nil
}

// relaxTrap looks for the smallest shift of the trap along a linear drain that
// lets a run through.
func (s *Outcome) relaxTrap(ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid) error {
	if !j.Former.Fall.Linear() {
		return nil
	}
	const stepMM = 50.0
	for far := stepMM; far <= j.DrainLengthMM(); far += stepMM {
		for _, by := range []float64{far, -far} {
			shift := relaxation{func(job.Job) (edit.Edit, bool) { return edit.ShiftTrap(by), true },
				func(job.Job, Alternative) message.Message { return message.Of("relaxation.trap", message.MM("by", by)) }}
			before := len(s.Relaxations)
			if _, err := s.relaxBy(ctx, j, pack, exits, grid, []relaxation{shift}, 1); err != nil {
				return err
			}
			if len(s.Relaxations) > before || ctx.Err() != nil {
				return nil
			}
		}
	}
	return nil
}

// thinned is the first exit and up to a dozen spread over the others.
func thinned(exits []job.Exit) []job.Exit {
	const most = 12
	if len(exits) <= most {
		return exits
	}
	out := []job.Exit{exits[0]}
	for k := range most {
		out = append(out, exits[1+k*(len(exits)-1)/most])
	}
	return out
}

// onlyFreesByVent tells whether a vent does nothing to a job but free it of
// rules: no rule asks for one, and the pipe's fall is limited the same or, to the
// steep side, no more, which leaves falling pieces out.
func onlyFreesByVent(j job.Job, pack rule.Pack) bool {
	for i := range pack.Rules {
		if slices.Contains(pack.Rules[i].When.Tags, stage.TagVentilated) {
			return false
		}
	}
	facts := stage.PipeFacts(j.Waste.NominalMM)
	least, _, given := pack.Limit("pipe.gradient", rule.AtLeast, facts)
	ventedLeast, _, ventedGiven := pack.Limit("pipe.gradient", rule.AtLeast, facts, stage.TagVentilated)
	most, _, limited := pack.Limit("pipe.gradient", rule.AtMost, facts)
	ventedMost, _, ventedLimited := pack.Limit("pipe.gradient", rule.AtMost, facts, stage.TagVentilated)
	return least == ventedLeast && given == ventedGiven && (!ventedLimited || limited && most == ventedMost)
}

// relaxBy tries one set of changes. It tells what would be in vain on top of them.
func (s *Outcome) relaxBy(
	ctx context.Context, j job.Job, pack rule.Pack, exits []job.Exit, grid Grid, all []relaxation, set int,
) (vain, error) {
	k := j
	var changes []edit.Edit
	for i, c := range all {
		if set&(1<<i) == 0 {
			continue
		}
		change, ok := c.change(k)
		if !ok {
			return vain{}, nil
		}
		k = change.Apply(k)
		changes = append(changes, change)
	}
	held := j.Moved(&k, job.Held)
	if len(held) > 0 != s.lettingGo || len(k.Validate()) > 0 {
		return vain{}, nil
	}
	for _, key := range held {
		k.SetStanding(key, job.Stated)
	}
	tries := append([]job.Exit(nil), exits...)
	for i := range tries {
		// A change of what is known of the exit's level holds for all that had it, but for a pipe that is there.
		had := edit.SamePlace(tries[i], s.stated) || tries[i].Level.Equal(j.Waste.Exit.Level)
		if had && tries[i].Kind != job.ExitPipe {
			tries[i].Level = k.Waste.Exit.Level
		}
	}
	t := Outcome{stated: s.stated}
	if err := t.search(ctx, k, pack, tries, grid, nil, func(float64) {}); err != nil {
		return vain{}, err
	}
	s.Tried += t.Tried
	if len(t.Found) == 0 {
		return t.inVain(k, pack), nil
	}
	best := t.Found[0]
	var what []message.Message
	for i, c := range all {
		if set&(1<<i) != 0 {
			what = append(what, c.what(j, best))
		}
	}
	for _, key := range held {
		what = append(what, message.Of("relaxation.lets-go", message.In("what", j.PlaceOf(key))))
	}
	best.Change = edit.LettingGo(edit.All(best.Change.What, append(changes, best.Change)...), held...)
	s.Relaxations = append(s.Relaxations, Relaxation{What: together(what), Best: best, LetsGo: held})
	return vain{}, nil
}

// raiseOf is the raise of a job as it stands. Its plan was worked out when the
// search began, so it can be.
func raiseOf(j job.Job, pack rule.Pack) float64 {
	h := stage.Place(j, pack, &plan.Shaper{}).Level().Heights
	return h.RaiseMM()
}
