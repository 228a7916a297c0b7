package start

import (
	"cmp"
	"context"
	"math"
	"slices"
	"strings"

	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/question"
	"underfall/geometry/rule"
	"underfall/geometry/unknown"
)

// First is the first answer to a sheet: from assumptions, and for each possibility of what is not known.
type First struct {
	// Answer is the one answer, of all that the job may come to.
	Answer geometry.Answer
	Cases  []Case
	// Look is what is worth looking at first; nil where all comes to the same.
	Look *unknown.Look
	// Assumed are the inputs that practice stands in for, by their keys in the job.
	Assumed []string
	// Job is the sheet's job with what stands in, Run and Drain where its waste and its drain lie.
	Job   job.Job
	Run   []plan.Point
	Drain plan.Ring
}

// Case is a possibility, or several that come to the same: what it is, how it stands, and how one would
// build there.
type Case struct {
	Title, How message.Message
	Standing   geometry.Standing
	Step       geometry.Step
	// Steps is from where to where the step comes, without its sign, where it is of several.
	Steps    unknown.Range
	HasStep  bool
	Build    Build
	HasBuild bool
	Chance   int // of a hundred builds, as estimated
}

// FirstAnswer works the first answer out; ok is false for a sheet that makes no job.
func FirstAnswer(ctx context.Context, p question.Practice, pack rule.Pack, s question.Sheet) (f First, ok bool) {
	j, problems := p.Job(s)
	if len(problems) > 0 {
		return f, false
	}
	r := lowest(j, pack, s)
	x, err := unknown.Explore(ctx, r)
	if err != nil {
		return f, false
	}
	f = First{Answer: x.Answer(r.Answer(nil)), Look: x.Look, Job: r.Stated}
	f.Assumed = byWorth(r.Stated.StandingUsed(job.Assumed), f.Answer, x.Assumed)
	if len(r.Problems) == 0 {
		f.Run, f.Drain = append(f.Run, r.Heights.Run.Corners...), ringOf(r.Layout.Drain)
	}
	outcomes := x.Outcomes()
	rest := restOf(outcomes)
	for i, o := range outcomes {
		c := caseOf(&x.Cases[o.Cases[0]], len(outcomes) > 1)
		if c.Steps = o.Step; len(outcomes) > 1 {
			c.Title = o.What()
		}
		if i == rest {
			c.Title = message.Of("start.all-others")
		}
		for _, k := range o.Cases[1:] {
			if other := howOf(&x.Cases[k]); c.How.ID == "start.how.slab" && other.ID == "start.how.deck" ||
				c.How.ID == "start.how.deck" && other.ID == "start.how.slab" {
				c.How = message.Of("start.how.slab-or-deck")
			}
		}
		f.Cases = append(f.Cases, c)
	}
	return f, true
}

// restOf is which of some outcomes is told as all other possibilities, as it takes more than can be read
// over a card: the one of most, while there are others; -1 for none.
func restOf(outcomes []unknown.Outcome) int {
	const read = 2
	rest, most := -1, read
	for i, o := range outcomes {
		if n := len(o.Cases); len(outcomes) > 1 && n > most {
			rest, most = i, n
		}
	}
	return rest
}

// byWorth are inputs with those first that the answer waits for, then those that it is worth most to know, by
// what each of some is worth.
func byWorth(keys []string, a geometry.Answer, worth []unknown.Unknown) []string {
	mm := map[string]float64{}
	for _, u := range worth {
		mm[u.Key] = u.Worth.MM
	}
	for _, c := range a.Of(rule.NotKnown) {
		for _, key := range keys {
			if field := c.Worst().Measurement.Field(); field != "" && strings.HasPrefix(key, field) {
				mm[key] = math.Inf(1)
			}
		}
	}
	slices.SortStableFunc(keys, func(a, b string) int { return cmp.Compare(mm[b], mm[a]) })
	return keys
}

// lowest is a job of a timber floor built the lower way that goes with its joists as they are drawn: let in between them, or on
// the deck.
func lowest(j job.Job, pack rule.Pack, s question.Sheet) geometry.Result {
	on := geometry.Evaluate(j, pack)
	if s.Floor.Is != question.Timber || s.Said.Of("base.support") {
		return on
	}
	j.Base.Support = job.BetweenJoists
	in := geometry.Evaluate(j, pack)
	was, is := on.Answer(nil), in.Answer(nil)
	if len(in.Problems) > 0 || is.Standing == geometry.Stops && was.Standing != geometry.Stops {
		return on
	}
	a, _ := was.WayIn()
	b, ok := is.WayIn()
	if !ok || was.Standing != geometry.Stops && abs(b.MM) >= abs(a.MM) {
		return on
	}
	return in
}

// ringOf is the outline of a region in one piece.
func ringOf(r plan.Region) plan.Ring {
	if len(r) == 0 {
		return nil
	}
	return r[0].Outer
}

// caseOf is how a possibility came out, the lowest of several; one of several is told by what makes it
// different.
func caseOf(c *unknown.Case, several bool) Case {
	out := Case{Title: message.Of("start.concrete"), Standing: c.Answer.Standing, Chance: c.Answer.InHundred()}
	switch {
	case several:
		out.Title = c.What()
	case c.Result.Stated.Floor.Kind == job.FloorTimber:
		out.Title = message.Of("start.timber")
	}
	out.Step, out.HasStep = c.Answer.WayIn()
	out.Build, out.HasBuild = BuildOf(&c.Result)
	out.How = howOf(c)
	return out
}

// howOf is how one would build a possibility, or what stops it.
func howOf(c *unknown.Case) message.Message {
	cards := c.Answer.Of(rule.Stop)
	switch {
	case len(c.Result.Problems) > 0:
		return c.Result.Problems[0].Message()
	case len(cards) > 0:
		return stopsOf(cards, &c.Result.Stated)
	case c.Result.Settled.Base.Support == job.BetweenJoists:
		return message.Of("start.how.let-in")
	case c.Result.Settled.Floor.Kind == job.FloorTimber:
		return message.Of("start.how.deck")
	}
	return message.Of("start.how.slab")
}

// stopsOf names what stops a possibility, with what is assumed that it hangs on: of many the first.
func stopsOf(cards []geometry.Card, j *job.Job) message.Message {
	const named = 3
	var all []message.Message
	for i, c := range cards {
		if i == named-1 && len(cards) > named {
			all = append(all, message.Of("start.how.and-more", message.N("n", len(cards)-i)))
			break
		}
		heading := c.Worst().Rule.Heading()
		for _, open := range c.Worst().Open(j) {
			heading = message.Of("start.how.rests", message.In("heading", heading), message.In("what", open))
		}
		all = append(all, heading)
	}
	return message.Of("start.how.stops", message.Arg{Name: "all", Value: message.List{Items: all}})
}

// WallsAtShower are the walls that the shower of a sheet stands at, its own last.
func WallsAtShower(p question.Practice, s question.Sheet) []int {
	st := p.Stand(s)
	n := len(p.Outline(s))
	var out []int
	if st.OffsetMM < 1 {
		out = append(out, (st.Wall+n-1)%n)
	}
	if st.OffsetMM+st.LongMM > p.WallMM(s, st.Wall)-1 {
		out = append(out, (st.Wall+1)%n)
	}
	return append(out, st.Wall)
}
