// Package progress tells of a job in a few words how it stands, how far it is and what is to be done
// next: what a list of jobs shows of each.
package progress

import (
	"strings"

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
	// Settled tells of each station in the order of work whether nothing is left to say there; At is
	// the first where something is.
	Settled [Stations]bool
	At      Station
	Plan    Plan
}

// Plan is as much of a plan as a small picture shows: the room, its doorways from post to post, the
// shower.
type Plan struct {
	Room   []plan.Point
	Doors  [][2]plan.Point
	Shower []plan.Point
}

// Station is one of the stations of the work.
type Station int

// The stations, in the order of work.
const (
	Room Station = iota
	FloorBelow
	Shower
	DrainAndTrap
	WayOut
	Finish
	OnSite
	Stations
)

// Name is the id of what the station is called where a job is at it: at the way out.
func (s Station) Name() message.ID {
	return [Stations]message.ID{"progress.room", "progress.floor", "progress.shower", "progress.drain", "progress.way-out",
		"progress.finish", "progress.on-site"}[s]
}

// Of is the summary of a job that was worked out, with its one answer.
func Of(r *geometry.Result, a geometry.Answer) Summary {
	s := Summary{Standing: a.Standing, Plan: PlanOf(&r.Stated)}
	s.Step = worstEdge(a.Steps)
	s.settle(r, a)
	s.Headline, s.Next = headline(&s, a), Next(r, a)
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

// settle tells of each station whether something is left to say there: an input that is not known, or
// what stops the job and has one input that decides it. The work itself is settled when all levels are
// read.
func (s *Summary) settle(r *geometry.Result, a geometry.Answer) {
	open := map[Station]bool{}
	for _, key := range r.Stated.Standing(job.NotKnown) {
		open[stationOf(key)] = true
	}
	for _, c := range a.Cards {
		if c.Severity() == rule.Stop || c.Severity() == rule.NotKnown {
			open[stationOfCard(c)] = true
		}
	}
	if len(r.Problems) > 0 {
		open[Room] = true
	}
	_, unread := unreadLevel(r.Stated)
	open[OnSite] = unread
	s.At = OnSite
	for k := OnSite; k >= Room; k-- {
		if s.Settled[k] = !open[k]; open[k] {
			s.At = k
		}
	}
}

// stationOf is where an input of a job is stated, by its path in the file.
func stationOf(key string) Station {
	for _, at := range []struct {
		prefix string
		is     Station
	}{
		{"room.pipeEnds", WayOut}, {"room.stacks", WayOut}, {"waste", WayOut},
		{"floor", FloorBelow}, {"spotLevels", FloorBelow}, {"shower", Shower},
		{"base", DrainAndTrap}, {"former", DrainAndTrap}, {"drain", DrainAndTrap}, {"water", DrainAndTrap},
		{"layers", Finish}, {"style", Finish}, {"asBuilt", OnSite},
	} {
		if strings.HasPrefix(key, at.prefix) {
			return at.is
		}
	}
	return Room
}

// stationOfCard is where what a card is about is looked for: at its input, else where its quantity
// belongs.
func stationOfCard(c geometry.Card) Station {
	m := c.Worst().Measurement
	if key := m.Field(); key != "" {
		return stationOf(key)
	}
	of, _, _ := strings.Cut(m.Quantity, ".")
	switch of {
	case "room", "doorway", "door", "window", "fixture":
		return Room
	case "joist", "deck", "ledger", "floor":
		return FloorBelow
	case "step", "ramp", "screen", "kerb", "head", "shower", "opening":
		return Shower
	case "trap", "drain", "base", "board", "former", "channel", "cover", "water", "inlet":
		return DrainAndTrap
	case "tanking", "joint", "course":
		return Finish
	}
	return WayOut
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
	mm := message.MM("mm", abs(s.MM))
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

// Next is what is to be done next about a job: whatever stops it, then what nobody knows, then what
// cannot be told without more, then what is to be settled, then what is only assumed; when all that is
// done the sheets are handed out and the levels read.
func Next(r *geometry.Result, a geometry.Answer) message.Message {
	if len(r.Problems) > 0 {
		return message.Of("progress.mend", message.In("problem", r.Problems[0].Message()))
	}
	if c := a.Of(rule.Stop); len(c) > 0 {
		return c[0].Worst().Rule.Remedy()
	}
	if keys := r.Stated.Standing(job.NotKnown); len(keys) > 0 {
		return message.Of("progress.find-out", message.In("what", r.Stated.PlaceOf(keys[0])))
	}
	for _, s := range []rule.Severity{rule.NotKnown, rule.Advice, rule.Licensed} {
		if c := a.Of(s); len(c) > 0 {
			return c[0].Worst().Rule.Remedy()
		}
	}
	if n := len(r.Stated.Standing(job.Assumed)); n > 0 {
		return message.Of("progress.assumed", message.N("n", n))
	}
	if level, unread := unreadLevel(r.Stated); unread && r.Stated.AsBuilt.Any() {
		return message.Of("progress.read", message.In("level", level))
	} else if unread {
		return message.Of("progress.hand-out")
	}
	return message.Of("progress.done")
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
