// Package progress tells of a job in a few words how it stands, how far it is and what is to be done
// next: what a list of jobs shows of each.
package progress

import (
	"underfall/geometry"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/plan"
	"underfall/geometry/rule"
)

// Summary is what a list shows of a job.
type Summary struct {
	Standing geometry.Standing
	// Step is the worst of the open edges; nil for a job without one, or that could not be
	// worked out.
	Step *geometry.Step
	// Headline says how it stands, Next what is to be done next.
	Headline, Next message.Message
	// Settled tells of each station, as job.Stations has them, whether nothing is left to say there; At is
	// where the next thing is done, Begun whether the work on site has.
	Settled []bool
	At      job.Station
	Begun   bool
	Plan    Plan
}

// Plan is as much of a plan as a small picture shows: the room, its doorways from post to post, the
// shower.
type Plan struct {
	Room   []plan.Point
	Doors  [][2]plan.Point
	Shower []plan.Point
}

// Where says where the job is in the order of work: at the way out.
func (s Summary) Where() message.ID {
	switch s.At {
	case job.StationRoom:
		return "progress.room"
	case job.StationFloor:
		return "progress.floor"
	case job.StationShower:
		return "progress.shower"
	case job.StationDrain:
		return "progress.drain"
	case job.StationWayOut:
		return "progress.way-out"
	case job.StationFinish:
		return "progress.finish"
	}
	if !s.Begun {
		return "progress.not-begun"
	}
	return "progress.on-site"
}

// Of is the summary of a job that was worked out, with its one answer.
func Of(r *geometry.Result, a geometry.Answer) Summary {
	s := Summary{Standing: a.Standing, Plan: PlanOf(&r.Stated)}
	s.Step = worstEdge(a.Steps)
	s.Headline, s.Begun = headline(&s, a), r.Stated.AsBuilt.Any()
	s.Next, s.At = next(r, a)
	s.settle(r, a)
	return s
}

// PlanOf is the plan of a job as it was stated.
func PlanOf(j *job.Job) Plan {
	p := Plan{Room: j.Room.Outline}
	n := len(p.Room)
	for _, d := range j.Room.Doorways {
		if d.Wall < 0 || d.Wall >= n {
			continue
		}
		from := p.Room[d.Wall]
		along := p.Room[(d.Wall+1)%n].Sub(from).Normalize()
		p.Doors = append(p.Doors, [2]plan.Point{from.Add(along.Mul(d.OffsetMM)), from.Add(along.Mul(d.OffsetMM + d.WidthMM))})
	}
	if j.Shower.Wall >= 0 && j.Shower.Wall < n {
		c := j.ShowerCorners()
		p.Shower = c[:]
	}
	return p
}

// worstEdge is the greatest difference at an open edge of the shower.
func worstEdge(steps []geometry.Step) *geometry.Step {
	var worst *geometry.Step
	for i := range steps {
		if s := &steps[i]; s.Where.Of == rule.OpenEdge && (worst == nil || abs(s.MM) > abs(worst.MM)) {
			worst = s
		}
	}
	return worst
}

func abs(x float64) float64 { return max(x, -x) }

// settle tells of each station whether nothing is left to say there: an input that is not known or only
// assumed, what stops the job or cannot be told without more, or what comes next. The work itself is settled
// when all levels are read.
func (s *Summary) settle(r *geometry.Result, a geometry.Answer) {
	open := map[job.Station]bool{s.At: s.Next.ID != done}
	for _, standing := range []job.Standing{job.NotKnown, job.Assumed} {
		for _, key := range r.Stated.Standing(standing) {
			open[stationOf(key)] = true
		}
	}
	for _, c := range a.Cards {
		if c.Severity() == rule.Stop || c.Severity() == rule.NotKnown {
			open[geometry.StationOf(c.Worst().Finding)] = true
		}
	}
	if _, unread := unreadLevel(r.Stated); unread {
		open[job.StationSite] = true
	}
	for _, station := range job.Stations() {
		s.Settled = append(s.Settled, !open[station])
	}
}

// stationOf is where an input of a job is stated, by its path in the file.
func stationOf(key string) job.Station {
	if at, ok := job.StationOf(key); ok {
		return at
	}
	return job.StationRoom // what no field is of is what the room is drawn from
}

// headline says in few words how the job stands: what keeps it from being built, or its step and how
// much is left to settle.
func headline(s *Summary, a geometry.Answer) message.Message {
	switch {
	case a.Standing == geometry.Stops:
		return a.Headline()
	case s.Step == nil && a.Standing == geometry.NotKnown:
		return a.Headline()
	}
	edge := message.Of("progress.no-edge")
	if s.Step != nil {
		edge = StepOf(*s.Step)
	}
	step := message.In("step", edge)
	if n := len(a.Cards) - len(a.Of(rule.Note)); n > 0 {
		return message.Of("progress.step-to-settle", step, message.N("n", n))
	}
	return message.Of("progress.step-alone", step)
}

// StepOf says what a difference in height is and how much, without where.
func StepOf(s geometry.Step) message.Message {
	mm := s.High("mm")
	switch {
	case s.Kind == geometry.Flush:
		return message.Of("progress.flush")
	case s.Kind == geometry.Lip && s.MM < 0:
		return message.Of("progress.lip-down", mm)
	case s.Kind == geometry.Lip:
		return message.Of("progress.lip", mm)
	case s.MM < 0:
		return message.Of("progress.step-down", mm)
	}
	return message.Of("progress.step", mm)
}

// done is what comes next where nothing does.
const done message.ID = "progress.done"

// next is what is to be done next about a job, and where: whatever stops it, then what nobody knows, then
// what cannot be told without more, then what is to be settled, then what is only assumed; when all that is
// done the sheets are handed out and the levels read.
func next(r *geometry.Result, a geometry.Answer) (message.Message, job.Station) {
	if len(r.Problems) > 0 {
		return message.Of("progress.mend", message.In("problem", r.Problems[0].Message())), stationOf(r.Problems[0].Key)
	}
	of := func(s rule.Severity) (message.Message, job.Station, bool) {
		if c := a.Of(s); len(c) > 0 {
			worst := c[0].Worst()
			return worst.Rule.Remedy(), geometry.StationOf(worst.Finding), true
		}
		return message.Message{}, "", false
	}
	if what, at, is := of(rule.Stop); is {
		return what, at
	}
	if keys := r.Stated.StandingUsed(job.NotKnown); len(keys) > 0 {
		return message.Of("progress.find-out", message.In("what", r.Stated.PlaceOf(keys[0]))), stationOf(keys[0])
	}
	for _, s := range []rule.Severity{rule.NotKnown, rule.Licensed, rule.Advice} {
		if what, at, is := of(s); is {
			return what, at
		}
	}
	if keys := r.Stated.StandingUsed(job.Assumed); len(keys) > 0 {
		return message.Of("progress.assumed", message.N("n", len(keys))), stationOf(keys[0])
	}
	level, unread := unreadLevel(r.Stated)
	switch {
	case unread && r.Stated.AsBuilt.Any():
		return message.Of("progress.read", message.In("level", level)), job.StationSite
	case unread:
		return message.Of("progress.hand-out"), job.StationSite
	}
	return message.Of(done), job.StationSite
}

// unreadLevel is the first of the levels to be read while the work goes on that was not; false where all
// were.
func unreadLevel(j job.Job) (level message.Message, unread bool) {
	for _, l := range j.AsBuilt.Levels() {
		if *l.MM == nil {
			return message.Of(l.Label), true
		}
	}
	return message.Message{}, false
}
