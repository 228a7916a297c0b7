// Package unknown says what a job comes to whose inputs are not all known: each possibility worked
// out, how far apart they lie, what knowing each input is worth, and the one look that settles most.
package unknown

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"underfall/geometry"
	"underfall/geometry/edit"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/parallel"
	"underfall/geometry/rule"
)

// mostCases is how many possibilities are worked out at most: more than a person looks through.
const mostCases = 24

// Exploration is what a job may come to.
type Exploration struct {
	// Cases are the possibilities; the first is the job as it is drawn.
	Cases []Case
	// Unknowns are the inputs that are not known and make the cases.
	Unknowns []Unknown
	// Assumed are the inputs that usual practice stands in for, as far as it is known what else they
	// may be. They make no cases.
	Assumed []Unknown
	// Untried are the keys of inputs that are not known and that nothing usual is known of, or that
	// there was no room for among the cases.
	Untried []string
	// letIn says what comes of letting the base in between the joists, where nobody has decided how it is set and that brings the
	// step at the way in down or lets the job be built; nothing else.
	letIn message.Message
	// Step is the step at the way in, Raise that of the base: of all cases that can be built, or of
	// all where none can.
	Step, Raise Range
	// Look is the one look that settles most; nil where all comes to the same.
	Look *Look
}

// Case is one possibility of a job.
type Case struct {
	// Is are the values of the unknowns that it has, in their order: what makes it different.
	Is []Value
	// Edit makes the job this one, with what the case says of its inputs stated.
	Edit   edit.Edit
	Job    job.Job
	Result geometry.Result
	Answer geometry.Answer
}

// Value is what an unknown may be.
type Value struct {
	// Unknown is which, by its index.
	Unknown int
	// ID is the same for the same value in every case.
	ID   string
	What message.Message
	// Edit states the unknown as this value and leaves all other unknowns open; of the values of a
	// case it is Case.Edit that makes it.
	Edit edit.Edit
}

// Alone is what the value is where it stands under what it is of: a number by itself.
func (v Value) Alone() message.Message {
	if v.What.ID != "unknown.number" {
		return v.What
	}
	var value message.Arg
	for _, a := range v.What.Args {
		if a.Name == "value" {
			value = a
		}
	}
	return message.Of("unknown.value", value)
}

// Unknown is an input of which several values are possible.
type Unknown struct {
	Key  string
	What message.Message
	// Values are all that it may be; the first is the one that is drawn.
	Values []Value
	// Alone tells that its values were tried with all else as drawn only, for want of room.
	Alone bool
	Worth Worth
}

// Range is from where to where something comes; nothing of what never comes is in it.
type Range struct{ LeastMM, GreatestMM float64 }

// nowhere is the range of nothing.
func nowhere() Range { return Range{math.Inf(1), math.Inf(-1)} }

func (r *Range) take(mm float64) {
	r.LeastMM, r.GreatestMM = math.Min(r.LeastMM, mm), math.Max(r.GreatestMM, mm)
}

// SpreadMM is how far apart its ends lie.
func (r Range) SpreadMM() float64 { return math.Max(0, r.GreatestMM-r.LeastMM) }

// Applies tells whether a job may come to anything else than what is drawn: something of it is not known, or assumed.
func Applies(j *job.Job) bool {
	return len(j.StandingUsed(job.NotKnown))+len(j.StandingUsed(job.Assumed)) > 0
}

// Explore works out what the job of a result may come to: every pairing of the values of what is not
// known as long as there are no more than two dozen; what does not fit in is tried with all else as
// drawn. A possibility that would move what a person holds is none. A base that nobody has decided how
// to set is let in between joists where that comes lower and can be built; a pipe that would lie bare
// along the room is boxed in.
//
// The error is a cancelled context, or a fault in the program.
func Explore(ctx context.Context, r geometry.Result) (Exploration, error) {
	first := Case{Job: r.Stated, Edit: edit.Of(message.Of("edit.as-drawn"), func(*job.Job) {}), Result: r, Answer: r.Answer(nil)}
	x := Exploration{Cases: []Case{first}, Step: nowhere(), Raise: nowhere()}
	if len(r.Problems) > 0 {
		x.measure()
		return x, nil
	}
	dims, untried := dimensions(&r, job.NotKnown)
	t := grow(r.Stated, dims)
	x.Untried = append(untried, t.untried...)
	assumed, _ := dimensions(&r, job.Assumed)
	assumedLeaves := t.around(assumed)
	all := slices.Concat(t.leaves, t.alone, assumedLeaves)
	cases, err := workOut(ctx, r, all)
	if err != nil {
		return x, err
	}
	n := len(t.leaves) + len(t.alone)
	x.Cases = cases[:n:n]
	x.Cases[0].Result, x.Cases[0].Answer = r, first.Answer
	x.Unknowns = t.unknowns(&r.Stated, dims, cases)
	x.name(dims)
	x.measure()
	x.worth(t)
	x.assume(&r.Stated, assumed, assumedLeaves, cases)
	x.Look = x.look()
	return x, nil
}

// Answer is the one answer to a job: its own where all is known, else that of all that it may come
// to. Every place that shows an answer shows this one; nil for what has not been explored yet.
func (x *Exploration) Answer(own geometry.Answer) geometry.Answer {
	if x == nil {
		return own
	}
	own = own.With(x.letIn)
	if len(x.Cases) < 2 {
		return own
	}
	all := []geometry.Answer{own}
	for _, c := range x.Cases[1:] {
		all = append(all, c.Answer)
	}
	return own.Among(all, x.dependsOn())
}

// dependsOn names the unknowns that are worth knowing, what is worth most first; all where none is.
func (x *Exploration) dependsOn() message.Message {
	us := slices.Clone(x.Unknowns)
	slices.SortStableFunc(us, func(a, b Unknown) int { return b.Worth.compare(a.Worth) })
	var matter, names []message.Message
	for _, u := range us {
		names = append(names, u.What)
		if u.Worth.Matters() {
			matter = append(matter, u.What)
		}
	}
	if len(matter) > 0 {
		names = matter
	}
	if len(names) == 1 {
		return names[0]
	}
	return message.Of("unknown.all", message.Arg{Name: "all", Value: message.List{Items: names}})
}

// workOut works out the cases that leaves come to, side by side.
func workOut(ctx context.Context, r geometry.Result, leaves []leaf) ([]Case, error) {
	type try struct{ leaf, way int }
	var tries []try
	for i := range leaves {
		for w := range leaves[i].ways {
			tries = append(tries, try{i, w})
		}
	}
	tried := make([]Case, len(tries))
	err := parallel.Each(ctx, len(tries), func(n int) error {
		l := leaves[tries[n].leaf]
		tried[n] = built(r, l.ways[tries[n].way])
		if c := &tried[n]; l.varied && c.bare() {
			if boxed := built(r, l.ways[tries[n].way].then(edit.BoxIn())); boxed.better(c) {
				*c = boxed
			}
		}
		return nil
	})
	if err = errors.Join(err, ctx.Err()); err != nil {
		return nil, err
	}
	out := make([]Case, len(leaves))
	for n, t := range tries {
		if t.way == 0 || tried[n].better(&out[t.leaf]) {
			out[t.leaf] = tried[n]
		}
	}
	for i := range out {
		for d, v := range leaves[i].is {
			if v >= 0 {
				out[i].Is = append(out[i].Is, Value{Unknown: d, ID: leaves[i].ids[d]})
			}
		}
	}
	return out, nil
}

// built is the case that is built a way.
func built(r geometry.Result, w way) Case {
	after := geometry.EvaluateAfter(r, w.job, r.Pack)
	return Case{Edit: w.edit, Job: w.job, Result: after, Answer: after.Answer(nil)}
}

// bare tells whether a pipe that lies bare along the room stops a case: a fitter boxes that in.
func (c *Case) bare() bool {
	return slices.ContainsFunc(c.Result.Findings, func(f rule.Finding) bool {
		return f.Rule.Quantity == "pipe.exposed" && f.Rule.Severity == rule.Stop
	})
}

// better tells whether a fitter would rather build a case than another: what can be built before what
// cannot, then the lower step.
func (c *Case) better(o *Case) bool {
	stops := func(c *Case) int {
		if c.Answer.Standing == geometry.Stops {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(stops(c), stops(o)), cmp.Compare(c.stepMM(), o.stepMM())) < 0
}

// stepMM is the height of the step at the way in, without its sign; 0 without one.
func (c *Case) stepMM() float64 {
	s, _ := c.Answer.WayIn()
	return math.Abs(s.MM)
}

// canBe tells whether a case can be built.
func (c *Case) canBe() bool { return c.Answer.Standing != geometry.Stops }

// What says what makes the case different.
func (c Case) What() message.Message {
	if len(c.Is) == 0 {
		return message.Of("unknown.as-drawn")
	}
	what := c.Is[0].What
	for _, v := range c.Is[1:] {
		what = message.Of("unknown.and", message.In("first", what), message.In("then", v.What))
	}
	return what
}

// name gives the values of every case their words, and those of the unknowns theirs.
func (x *Exploration) name(dims []dimension) {
	for i := range x.Cases {
		c := &x.Cases[i]
		for k := range c.Is {
			c.Is[k].What = dims[c.Is[k].Unknown].say(c.Is[k].ID, &c.Result)
		}
	}
	for d := range x.Unknowns {
		for k := range x.Unknowns[d].Values {
			v := &x.Unknowns[d].Values[k]
			v.What = dims[d].say(v.ID, &x.Cases[0].Result)
		}
	}
}
