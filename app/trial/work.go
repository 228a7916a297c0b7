package trial

import (
	"context"
	"errors"
	"reflect"
	"slices"

	"underfall/app/guard"
	"underfall/geometry"
	"underfall/geometry/chance"
	"underfall/geometry/message"
	"underfall/geometry/rule"
	"underfall/geometry/section"
	"underfall/geometry/settle"
	"underfall/geometry/unknown"
)

// Which side is which.
const (
	before = iota
	after
)

// side is the job before the change, or after it.
type side struct {
	result   geometry.Result
	counted  *chance.Chances      // nil while it is being counted
	possible *unknown.Exploration // nil while it is being explored, and of a job that is all known
	cut      section.Cutting      // that shows it: where that of the other side lies, and looked at the same way
}

// answer is the one answer to it, as far as it is known by now.
func (s *side) answer() geometry.Answer { return s.possible.Answer(s.result.Answer(s.counted)) }

// samples is in how many builds both sides are counted: in as many, so that they can be compared.
const samples = 10000

// work works the trial out, first what it comes to, then in how many builds that comes right, then what is not known
// of it, then what the other ways come to.
func (r *Room) work() {
	ctx, cancel := context.WithCancel(context.Background())
	r.cancel = cancel
	serial, t, tried, latest := r.serial, r.trial, r.tried, r.asks.Result()
	// onWindow does something with what was worked out, unless the trial is another by then.
	onWindow := func(f func()) {
		r.asks.OnWindow(func() {
			if r.serial == serial {
				f()
			}
		})
	}
	r.guard.Go(Part, func() {
		defer cancel()
		sides := [2]side{{result: latest}}
		if !reflect.DeepEqual(latest.Stated, tried.Before) || len(latest.Problems) > 0 {
			sides[before].result = geometry.EvaluateAfter(latest, tried.Before, latest.Pack)
		}
		was := sides[before].result
		sides[after].result = geometry.EvaluateAfter(was, tried.Job, was.Pack)
		for _, s := range sides {
			if p := s.result.Problems; len(p) > 0 {
				onWindow(func() {
					r.end(message.Of("trial.not-worked-out", message.In("does", t.way().Does), message.In("problem", p[0].Message())))
				})
				return
			}
		}
		cuts, home := shared(was, sides[after].result, t.way(), t.Along)
		for i := range sides {
			sides[i].cut = cuts[i]
		}
		onWindow(func() { r.come(sides, home) })
		err := errors.Join(r.count(ctx, sides, onWindow), r.explore(ctx, sides, onWindow), r.priceOthers(ctx, t, was, onWindow))
		if err != nil && ctx.Err() == nil {
			guard.Raise(err)
			panic(err)
		}
	})
}

// come shows what a trial comes to, on the cut that one side is the home of.
func (r *Room) come(sides [2]side, home int) {
	first := !r.shown
	r.sides, r.home, r.shown = sides, home, true
	r.view.began(first)
	if first {
		r.asks.Opened()
	}
}

// count counts both sides' chances, first from few builds, then from many.
func (r *Room) count(ctx context.Context, sides [2]side, onWindow func(func())) error {
	for _, of := range []func(*geometry.Result) (chance.Chances, error){
		func(s *geometry.Result) (chance.Chances, error) {
			return chance.First(ctx, s.Levelled, s.Findings, chance.Seed)
		},
		func(s *geometry.Result) (chance.Chances, error) {
			return chance.Count(ctx, s.Levelled, s.Findings, samples, chance.Seed)
		},
	} {
		var counted [2]chance.Chances
		for i := range sides {
			var err error
			if counted[i], err = of(&sides[i].result); err != nil {
				return err
			}
		}
		onWindow(func() {
			for i := range r.sides {
				r.sides[i].counted = &counted[i]
			}
			r.view.fill()
		})
	}
	return nil
}

// explore works out what both sides may come to where not all is known.
func (r *Room) explore(ctx context.Context, sides [2]side, onWindow func(func())) error {
	for i := range sides {
		s := &sides[i].result
		if !unknown.Applies(&s.Stated) {
			continue
		}
		x, err := unknown.Explore(ctx, *s)
		if err != nil {
			return err
		}
		onWindow(func() {
			r.sides[i].possible = &x
			r.view.fill()
		})
	}
	return nil
}

// priceOthers works out what each of the other ways would come to.
func (r *Room) priceOthers(ctx context.Context, t Trial, was geometry.Result, onWindow func(func())) error {
	for i := range t.Ways {
		if i == t.At {
			continue
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		u := t
		u.At = i
		said, err := comesTo(ctx, was, u)
		if err != nil {
			return err
		}
		onWindow(func() { r.view.price(i, said) })
	}
	return nil
}

// comesTo says in a line what a trial would come to: how it stands, the step, and in how many builds it comes right,
// counted as both sides of the trial that is shown are; or why it is refused.
func comesTo(ctx context.Context, was geometry.Result, t Trial) (message.Message, error) {
	s := settle.Do(was.Stated, t.change())
	if s.Refused != nil {
		return s.Refused.What, nil
	}
	is := geometry.EvaluateAfter(was, s.Job, was.Pack)
	if len(is.Problems) > 0 {
		return is.Problems[0].Message(), nil
	}
	counted, err := chance.Count(ctx, is.Levelled, is.Findings, samples, chance.Seed)
	if err != nil {
		return message.Message{}, err
	}
	a := is.Answer(&counted)
	said := message.Of("trial.comes-to", message.In("headline", a.Headline()))
	if f := is.Figures(); len(f) > 0 {
		said = message.Of("trial.comes-to-step", message.In("headline", a.Headline()), message.In("of", f[0].Of), message.In("value", f[0].Value))
	}
	if a.Standing == geometry.Stops {
		return said, nil
	}
	if a.Standing == geometry.NotKnown { // the headline leaves it open
		return message.Of("trial.right-as-drawn", message.In("said", said), message.No("n", a.InHundred())), nil
	}
	return message.Of("trial.comes-right", message.In("said", said), message.No("n", a.InHundred())), nil
}

// brings are the findings that there were not before and that somebody has to see to, one of each rule, gravest first.
func (r *Room) brings() (out []rule.Finding) {
	had := map[string]bool{}
	for _, f := range r.sides[before].result.Findings {
		had[f.Rule.ID] = true
	}
	for _, c := range r.sides[after].answer().Cards {
		if f := c.Worst().Finding; !had[f.Rule.ID] && f.Rule.Severity != rule.Note {
			had[f.Rule.ID] = true
			out = append(out, f)
		}
	}
	return slices.Clip(out)
}
